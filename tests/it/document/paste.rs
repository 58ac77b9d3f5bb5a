//! A pasted list: nothing stops it, nothing is lost from it, no amount is made up.

use crate::laws;
use pattywright::document::{LONGEST_PASTE, MOST_LINES, PasteProblem, Pasted, Understood, paste};
use pattywright::measure::Cup;
use pattywright::pantry::Pantry;
use proptest::prelude::*;
use std::time::{Duration, Instant};

fn pasted(text: &str) -> Vec<Pasted> {
    paste(&Pantry::new(&[], Cup::Us), text).unwrap()
}

/// Checks one line: the amount, the ingredient's id (empty for none), the note, and how well it was understood.
#[track_caller]
fn check(text: &str, amount: &str, id: &str, note: &str, understood: Understood) {
    let found = pasted(text).remove(0);
    let line = &found.line;
    assert_eq!(
        (
            line.amount.as_str(),
            line.ingredient.as_deref().unwrap_or_default(),
            line.note.as_str(),
            found.understood
        ),
        (amount, id, note, understood),
        "{text}"
    );
}

/// Checks a line that is plain, without a note.
#[track_caller]
fn check_plain(text: &str, amount: &str, id: &str) {
    check(text, amount, id, "", Understood::Yes);
}

#[test]
fn amounts_stand_before_or_after_the_name() {
    check_plain("3 tbsp maple syrup", "3 tbsp", "maple_syrup");
    check_plain("Salt 10 g", "10 g", "table_salt");
    check_plain("Salt: 10 g", "10 g", "table_salt");
    check_plain("Salt ........ 10 g", "10 g", "table_salt");
    check_plain("Salt | 10 g", "10 g", "table_salt");
    check_plain("Salt\t10 g", "10 g", "table_salt");
    check_plain("Salt .5 tsp", ".5 tsp", "table_salt");
    check_plain("Salt, a pinch", "a pinch", "table_salt");
    check_plain("Methylcellulose – approx. 11 g", "approx. 11 g", "methylcellulose");
    check_plain("Garlic, 2 cloves", "2 cloves", "garlic_raw");
    check_plain("Onion: 1 large", "1 large", "onion_raw");
    check_plain("2 large onions", "2 large", "onion_raw");
    check_plain("Water 1/2 cup", "1/2 cup", "water");
    check_plain("Soy sauce 1–2 tbsp", "1–2 tbsp", "soy_sauce");
}

#[test]
fn bullets_numbers_and_small_words_are_seen_past() {
    check_plain("• 10 g salt", "10 g", "table_salt");
    check_plain("☐ 10 g salt", "10 g", "table_salt");
    check_plain("[ ] 10 g salt", "10 g", "table_salt");
    check_plain("3. 10 g salt", "10 g", "table_salt");
    check_plain("12) 10 g salt", "10 g", "table_salt");
    check_plain("half a cup of water", "half a cup", "water");
    check_plain("½ CUP OF WATER", "½ CUP", "water");
    check_plain("a pinch of salt", "a pinch", "table_salt");
    check_plain("1 to 2 tbsp soy sauce", "1 to 2 tbsp", "soy_sauce");
}

#[test]
fn what_the_name_does_not_say_is_kept_as_a_note() {
    check("400 ml ice cold water", "400 ml", "water", "", Understood::Yes);
    check(
        "400 ml filtered water",
        "400 ml",
        "water",
        "filtered water",
        Understood::Yes,
    );
    check(
        "1 tbsp soy sauce, to taste",
        "1 tbsp",
        "soy_sauce",
        "to taste",
        Understood::Yes,
    );
    check(
        "1 cup soy granules (fine [sieved])",
        "1 cup",
        "tvp_soy_granules",
        "fine [sieved]",
        Understood::Yes,
    );
    check(
        "10 g salt (never closed",
        "10 g",
        "table_salt",
        "never closed",
        Understood::Yes,
    );
    check("salt", "", "table_salt", "", Understood::Unsure);
    check("3 tbsp moon dust (grey)", "3 tbsp", "", "grey", Understood::No);
    let long = format!("10 g salt, {}", "and more ".repeat(60));
    let found = pasted(&long).remove(0);
    assert_eq!(found.line.amount, "10 g");
    assert_eq!(found.line.note.matches("more").count(), 60);
}

#[test]
fn figures_that_could_be_cut_in_two_are_left_alone() {
    for text in [
        "Salt 1,234 g",
        "Salt 1 250 g",
        "Salt 12.345,6 g",
        "Salt E464 5 g",
        "Vitamin B12",
    ] {
        let found = pasted(text).remove(0);
        assert_eq!(found.line.amount, "", "{text}");
        assert_ne!(found.understood, Understood::Yes, "{text}");
    }
}

/// Each was found by the fuzzer: the word after the number made the amount one that cannot be read.
#[test]
fn a_counted_word_never_makes_an_amount_unreadable() {
    for text in ["approx. 2 large} onions", "Onion\t1nion\t1.", "2 or Le."] {
        assert_eq!(laws::pasted_list(text), Ok(()), "{text}");
    }
}

#[test]
fn cuts_are_read_from_the_line() {
    let cut = |text| pasted(text).remove(0).line.cut;
    assert_eq!(cut("1 cup soy granules, coarse").as_deref(), Some("coarse grain"));
    assert_eq!(cut("1 cup brown sugar, packed").as_deref(), Some("packed"));
    assert_eq!(cut("1 cup walnuts in a bowl"), None);
    assert_eq!(cut("1 Tasse grobes Sojagranulat").as_deref(), Some("coarse grain"));
    assert_eq!(cut("1 Tasse Sojagranulat, fein").as_deref(), Some("fine grain"));
    assert_eq!(cut("1 Tasse Walnüsse ohne Salz"), None);
}

#[test]
fn lists_too_long_to_be_recipes_are_refused_at_once() {
    let pantry = Pantry::new(&[], Cup::Us);
    let start = Instant::now();
    assert_eq!(paste(&pantry, " \n\t\r\n\u{2028}"), Err(PasteProblem::Empty));
    assert_eq!(paste(&pantry, "\u{200b}\u{feff}\n\u{2060} "), Err(PasteProblem::Empty));
    assert_eq!(
        paste(&pantry, &"1 g salt\n".repeat(10_000)),
        Err(PasteProblem::TooLong { lines: 10_000 })
    );
    assert_eq!(paste(&pantry, &"salt ".repeat(200_000)), Err(PasteProblem::TooMuch));
    assert_eq!(paste(&pantry, &"\n".repeat(1_000_000)), Err(PasteProblem::Empty));
    // Not a measurement: only what never ends would take so long.
    assert!(start.elapsed() < Duration::from_secs(5));
}

#[test]
fn the_longest_list_taken_ends_soon_whatever_is_in_it() {
    let pantry = Pantry::new(&[], Cup::Us);
    for piece in [
        "a ",
        "1 ",
        "1",
        "salt ",
        "of ",
        "(",
        "half a ",
        "½",
        "garlic clove 2 ",
        "x",
        "é",
    ] {
        let line = piece.repeat(LONGEST_PASTE / MOST_LINES / piece.len() - 1);
        let text = format!("{line}\n").repeat(MOST_LINES);
        let start = Instant::now();
        assert_eq!(paste(&pantry, &text).unwrap().len(), MOST_LINES);
        // Not a measurement: an unoptimised build on a busy machine takes about a second.
        assert!(
            start.elapsed() < Duration::from_secs(20),
            "{piece:?}: {:?}",
            start.elapsed()
        );
    }
}

/// Pieces that exercise the reader more than random characters do.
fn jumble() -> impl Strategy<Value = String> {
    let pieces = vec![
        "1 ",
        "2",
        "250",
        "1,5",
        "½ ",
        "/",
        "-",
        "– ",
        "x ",
        "to ",
        "or ",
        "a ",
        "half a ",
        "of ",
        "cup ",
        "cups ",
        "tsp ",
        "g ",
        "pinch ",
        "cloves ",
        "about ",
        "packed ",
        "coarse ",
        "salt ",
        "Salt",
        "soy granules ",
        "garlic ",
        "onions",
        "moon dust ",
        "•",
        "1. ",
        "2) ",
        "[ ]",
        "(",
        ")",
        "[",
        "]",
        ", ",
        "; ",
        ": ",
        "| ",
        "... ",
        ".5 ",
        "\n",
        "\r",
        "\t",
        "é",
        "İ",
        "\u{2028}",
        "\u{feff}",
    ];
    proptest::collection::vec(proptest::sample::select(pieces), 0..16).prop_map(|pieces| pieces.concat())
}

#[test]
fn an_of_run_together_with_what_follows_is_a_word_of_it() {
    for text in ["1cup of1", "2 tbsp of1g salt"] {
        assert_eq!(laws::pasted_list(text), Ok(()));
    }
}

#[test]
fn a_mark_that_takes_no_room_is_no_part_of_the_amount() {
    for text in [
        "pinch of \u{feff}x",
        "pinch\u{feff}of\u{200b}x",
        "\u{feff}• 2 tbsp\u{2060}salt",
    ] {
        assert_eq!(laws::pasted_list(text), Ok(()));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn any_text_comes_back_line_by_line(text in "(\\PC|\n|\t){0,120}") {
        prop_assert_eq!(laws::pasted_list(&text), Ok(()));
    }

    #[test]
    fn any_jumble_of_recipe_words_comes_back_line_by_line(text in jumble()) {
        prop_assert_eq!(laws::pasted_list(&text), Ok(()));
    }
}
