//! What a typed text is understood as.

use crate::laws;
use pattywright::measure::quantity::{read, take};
use pattywright::measure::{Cup, Measure, Packing};
use proptest::prelude::*;

/// Checks what a typed text is understood as, written the way the library writes it back, or the sentence it answers with.
#[track_caller]
fn check(text: &str, expected: &str) {
    let found = match read(text) {
        Ok(quantity) => quantity.to_string(),
        Err(error) => error.to_string(),
    };
    assert_eq!(found, expected, "typed: {text:?}");
}

#[test]
fn numbers_are_understood_as_cooks_write_them() {
    for text in [
        "1 1/2",
        "1½",
        "1-1/2",
        "1 ½",
        "1‑1/2",
        "1.5",
        "1,5",
        "1 and 1/2",
        "one and a half",
        "one-and-a-half",
        "1 & 1/2",
        "１ １／２",
        "1\u{a0}1⁄2",
        "1\u{2009}½",
        "3/2",
        "three halves",
        "1.50",
        "01.5",
        " 1.5 ",
        "1-½",
    ] {
        check(text, "1½");
    }
    for text in [
        "1/2", "½", ".5", "0,5", "0.5", ",5", "half", "a half", "one half", "Half", "２/4", "1 / 2", "5/10",
    ] {
        check(text, "½");
    }
    check("¾", "¾");
    check("three quarters", "¾");
    check("three-quarters", "¾");
    check("2 thirds", "⅔");
    check("two and three quarters", "2¾");
    check("⅟8", "⅛");
    check("3/16", "3/16");
    check("2 3/16", "2 3/16");
    check("7/13", "7/13");
    check("1/128", "0.0078125");
    check("1/300", "0.003333333");
    check("0.35", "0.35");
    check("0,125", "⅛");
    check("1234,5", "1234½");
    check("2.", "2");
}

#[test]
fn every_fraction_sign_is_understood() {
    for (sign, value) in [
        ('¼', 0.25),
        ('½', 0.5),
        ('¾', 0.75),
        ('⅐', 1.0 / 7.0),
        ('⅑', 1.0 / 9.0),
        ('⅒', 0.1),
        ('⅓', 1.0 / 3.0),
        ('⅔', 2.0 / 3.0),
        ('⅕', 0.2),
        ('⅖', 0.4),
        ('⅗', 0.6),
        ('⅘', 0.8),
        ('⅙', 1.0 / 6.0),
        ('⅚', 5.0 / 6.0),
        ('⅛', 0.125),
        ('⅜', 0.375),
        ('⅝', 0.625),
        ('⅞', 0.875),
    ] {
        let quantity = read(&format!("{sign} tsp")).unwrap();
        assert_eq!(quantity.low, value, "{sign}");
        assert_eq!(read(&format!("2{sign} tsp")).unwrap().low, 2.0 + value, "{sign}");
        assert_eq!(read(&quantity.to_string()).unwrap(), quantity);
    }
    check("↉ cup", "Type an amount above zero, or take the line out");
}

#[test]
fn units_are_understood_by_name_abbreviation_and_plural() {
    check("two tbsp", "2 tbsp");
    for text in [
        "2 T",
        "2T",
        "2 Tbs",
        "2 tbs",
        "2 TBSP",
        "2 Tbsp.",
        "2 tablespoons",
        "2 tablespoonfuls",
        "２ ｔｂｓｐ",
    ] {
        check(text, "2 tbsp");
    }
    for text in ["2 t", "2 tsp", "2 tsps.", "2 TSP", "2 Teaspoons"] {
        check(text, "2 tsp");
    }
    for text in ["a cup", "1 c", "1 C.", "one cup", "1 cupful", "1cup"] {
        check(text, "1 cup");
    }
    for text in [
        "3 fl oz",
        "3 fl. oz.",
        "3 fl.oz.",
        "3 floz",
        "3 fluid ounces",
        "3 Fl Oz",
    ] {
        check(text, "3 fl oz");
    }
    check("an ounce", "1 oz");
    check("12 ozs", "12 oz");
    check("2 lbs", "2 lb");
    check("2 pounds", "2 lb");
    check("400ml", "400 ml");
    check("400 millilitres", "400 ml");
    check("400 mL", "400 ml");
    check("4 dl", "4 dl");
    check("4 cl", "4 cl");
    check("1½ litres", "1.5 l");
    check("0.5 kilos", "0.5 kg");
    check("90 grammes", "90 g");
    check("850mg", "850 mg");
    check("1 pint", "1 pint");
    check("2 qts", "2 quarts");
    check(
        "2 #",
        "Use a unit such as g, ml, tsp, tbsp or cup, or the name of a thing, in place of “#”",
    );
}

#[test]
fn parts_of_a_cup_are_understood_in_words() {
    check("half a cup", "½ cup");
    check("half of a cup", "½ cup");
    check("a half cup", "½ cup");
    check("a quarter cup", "¼ cup");
    check("quarter of a cup", "¼ cup");
    check("a third of a cup", "⅓ cup");
    check("three quarters of a cup", "¾ cup");
    check("one and a half cups", "1½ cups");
    check("1/2 of a cup", "½ cup");
    check("half an ounce", "½ oz");
    check("half a pound", "½ lb");
}

#[test]
fn ranges_are_understood() {
    for text in [
        "1 to 2 tbsp",
        "1-2 tbsp",
        "1–2 tbsp",
        "1 - 2 tbsp",
        "1 or 2 tbsp",
        "one to two tbsp",
        "1 tbsp to 2 tbsp",
        "1tbsp-2tbsp",
    ] {
        check(text, "1–2 tbsp");
    }
    check("1–2", "1–2");
    check("1/2-3/4 cup", "½–¾ cup");
    check("1-1/2 to 2 cups", "1½–2 cups");
    check("1 to 1 1/2 cups", "1–1½ cups");
    check("2-2 g", "2 g");
    check("2-1 cups", "Type the smaller number first: 1 to 2");
    check("3 cups to 1 cup", "Type the smaller number first: 1 to 3");
    assert_eq!(read("1 to 2 cups").unwrap().middle(), 1.5);
}

#[test]
fn several_of_one_weight_are_multiplied() {
    for text in ["2 x 94 g", "2 × 94 g", "2x94g", "2 X 94g", "2*94 g", "two x 94 g"] {
        check(text, "2 × 94 g");
        assert_eq!(read(text).unwrap().grams(), Some(188.0));
    }
    check("3 x 94.1 g", "3 × 94.1 g");
    check("7 x 1/3 cup", "7 × ⅓ cups");
    check("2 x 3 cloves", "2 × 3 cloves");
}

#[test]
fn sums_of_one_kind_are_understood() {
    for text in [
        "1lb 4oz",
        "1 lb 4 oz",
        "1 lb + 4 oz",
        "1 lb, 4 oz",
        "1 lb and 4 oz",
        "1 pound plus 4 ounces",
    ] {
        check(text, "1 lb + 4 oz");
        assert_eq!(read(text).unwrap().grams(), Some(453.59237 * 1.25));
    }
    for text in ["1 cup + ½ tbsp", "1 cup ½ tbsp", "1 cup, ½ tbsp"] {
        check(text, "1 cup + ½ tbsp");
    }
    for text in ["1 cup + 2 tbsp", "1 cup plus 2 tablespoons", "1 cup 2 tbsp"] {
        check(text, "1 cup + 2 tbsp");
        assert_eq!(read(text).unwrap().millilitres(Cup::Metric), Some(280.0));
        assert_eq!(read(text).unwrap().millilitres(Cup::Australian), Some(290.0));
        assert_eq!(read(text).unwrap().grams(), None);
    }
    check("1 cup + 2 g", "Put the weight and the volume on lines of their own");
    check("1 tsp 1 cup", "Take out “1 cup”, which comes after a complete amount");
    check("2 x 1 lb 4 oz", "Take out “4 oz”, which comes after a complete amount");
    check(
        "1 cup + 1,234 ml",
        "“1,234” can be read as two numbers: leave thousands unmarked, and use a point for decimals",
    );
}

#[test]
fn packing_is_understood_before_and_after_the_unit() {
    check("3 heaped tsp", "3 heaped tsp");
    check("3 heaping teaspoons", "3 heaped tsp");
    check("a rounded teaspoon", "1 heaped tsp");
    check("heaped teaspoon", "1 heaped tsp");
    check("1 packed cup", "1 packed cup");
    check("1 cup packed", "1 packed cup");
    check("1 firmly packed cup", "1 packed cup");
    check("1 level tablespoon", "1 tbsp");
    check("scant 1/2 cup", "½ scant cup");
    check("a scant cup", "1 scant cup");
    assert_eq!(read("2 packed cups").unwrap().packing, Packing::Packed);
    assert_eq!(read("2 heaped tsp").unwrap().millilitres(Cup::Metric), Some(15.0));
    assert_eq!(read("2 packed cups").unwrap().millilitres(Cup::Metric), Some(500.0));
}

#[test]
fn pinches_and_dashes_need_no_number() {
    check("pinch", "1 pinch");
    check("a pinch", "1 pinch");
    check("dash", "1 dash");
    check("two pinches", "2 pinches");
    check("2 dashes", "2 dashes");
    check("cup", "Start with a number, such as 2 tbsp or 90 g");
}

#[test]
fn about_is_kept() {
    for text in [
        "about 2 cups",
        "~2 cups",
        "approx. 2 cups",
        "≈ 2 cups",
        "roughly 2 cups",
    ] {
        check(text, "about 2 cups");
    }
    assert!(read("ca. 90 g").unwrap().about);
}

#[test]
fn things_that_are_no_units_are_counted() {
    check("2 cloves", "2 cloves");
    check("a clove", "1 clove");
    check("half an onion", "½ onion");
    check("2 spring onions", "2 spring onions");
    check("3 Bay Leaves", "3 bay leaves");
    check("12 cherry tomatoes", "12 cherry tomatoes");
    check("2 bunches.", "2 bunches");
    check("2 mushroom-caps", "2 mushroom-caps");
    check("1 berry", "1 berry");
    check("2 berries", "2 berries");
    check("2 bays", "2 bays");
    for counted in ["2 cups", "2 pints", "3 quarts", "2 pinches", "4 dashes"] {
        check(counted, counted);
    }
    // A name has up to 40 letters, its plural too, or what is written back could not be read again.
    let name = "q".repeat(39);
    check(&format!("1 {name}"), &format!("1 {name}"));
    check(&format!("2 {name}s"), &format!("2 {name}s"));
    assert!(read(&format!("1 {name}q")).is_err());
    for (text, thing) in [
        ("2 cloves", "clove"),
        ("2", ""),
        ("5 leaves", "leaf"),
        ("2 berries", "berry"),
        ("2 boxes", "box"),
        ("2 radishes", "radish"),
        ("2 potatoes", "potato"),
        ("2 slices", "slice"),
        ("1 asparagus", "asparagus"),
        ("4 Cookies", "cookie"),
        ("2 glasses", "glass"),
    ] {
        assert_eq!(read(text).unwrap().measure, Measure::Count(thing.to_string()));
    }
}

#[test]
fn refusals_say_what_to_do() {
    check("", "Type an amount, such as 1 1/2 cups or 90 g");
    check(" \u{a0}", "Type an amount, such as 1 1/2 cups or 90 g");
    check("salt", "Start with a number, such as 2 tbsp or 90 g");
    check("a", "Start with a number, such as 2 tbsp or 90 g");
    check("1/0 cup", "Start with a number, such as 2 tbsp or 90 g");
    check("0 g", "Type an amount above zero, or take the line out");
    check("0.0000000001 g", "Type an amount above zero, or take the line out");
    check("-5 g", "Type the amount without a minus sign");
    check("−½ cup", "Type the amount without a minus sign");
    check("1000001 g", "Type a smaller amount, up to 1000000");
    check("2000 x 2000 g", "Type a smaller amount, up to 1000000");
    check("1000000 g", "1000000 g");
    for typed in ["1,234", "1,234.5", "1.234,5", "12,345", "1,234,567", "1.2.3", "1 250"] {
        check(
            typed,
            &format!("“{typed}” can be read as two numbers: leave thousands unmarked, and use a point for decimals"),
        );
    }
    check(
        "2 cups granules",
        "Take out “granules”, which comes after a complete amount",
    );
    for word in ["to", "tos", "of", "x", "and salt"] {
        check(
            &format!("2 {word}"),
            &format!("Use a unit such as g, ml, tsp, tbsp or cup, or the name of a thing, in place of “{word}”"),
        );
    }
    check(
        "2 pinc.h",
        "Use a unit such as g, ml, tsp, tbsp or cup, or the name of a thing, in place of “pinc.h”",
    );
    check("NaN g", "Start with a number, such as 2 tbsp or 90 g");
    check("inf", "Start with a number, such as 2 tbsp or 90 g");
    check(
        "1e5 g",
        "Use a unit such as g, ml, tsp, tbsp or cup, or the name of a thing, in place of “e5 g”",
    );
}

/// Checks what is taken off the front of a recipe line, and what stays: "quantity | rest".
#[track_caller]
fn check_take(line: &str, expected: &str) {
    let found = match take(line) {
        Some((quantity, bytes)) => format!("{quantity} | {}", &line[bytes..]),
        None => "nothing".to_string(),
    };
    assert_eq!(found, expected, "line: {line:?}");
}

#[test]
fn a_recipe_line_gives_up_its_quantity() {
    check_take("1 3/4 cups dry granules", "1¾ cups | dry granules");
    check_take("2 cloves garlic", "2 | cloves garlic");
    check_take("2 cups of granules", "2 cups | granules");
    check_take("400ml cold water", "400 ml | cold water");
    check_take("1 tbsp. salt", "1 tbsp | salt");
    check_take("1 lb 4 oz mushrooms", "1 lb + 4 oz | mushrooms");
    check_take("1 cup + 2 tbsp water", "1 cup + 2 tbsp | water");
    check_take("a pinch of salt", "1 pinch | salt");
    check_take("pinch salt", "1 pinch | salt");
    check_take("half an onion, diced", "½ | onion, diced");
    check_take("a third of a cup of oil", "⅓ cup | oil");
    check_take("1 cup packed brown sugar", "1 packed cup | brown sugar");
    check_take("1 (400 g) tin beans", "1 | (400 g) tin beans");
    check_take("2 x 94 g patties", "2 × 94 g | patties");
    check_take("1–2 tsp smoked paprika", "1–2 tsp | smoked paprika");
    check_take("1 cup 2% milk", "1 cup | 2% milk");
    check_take("3 large eggs", "3 | large eggs");
    check_take("about 2 cups stock", "about 2 cups | stock");
    check_take("2", "2 | ");
    check_take("salt to taste", "nothing");
    check_take("a few drops of smoke", "nothing");
    check_take("2% milk", "nothing");
    check_take("12-inch pan", "nothing");
    check_take("2 T-bone steaks", "2 | T-bone steaks");
    check_take("1,234 g flour", "nothing");
    check_take("1 400 g tin", "nothing");
    check_take("0 g flour", "nothing");
    check_take("", "nothing");
    check_take("1 t0o 2 tbsp soy sauce", "nothing");
    check_take("1lb4oz mushrooms", "1 lb + 4 oz | mushrooms");
}

fn number_text() -> impl Strategy<Value = String> {
    let said = vec!["½", "2⅓", "⅞", "half", "three quarters", ".25", "one and a half"];
    prop_oneof![
        (1u32..2000).prop_map(|whole| whole.to_string()),
        (1u32..2000, 0u32..1000).prop_map(|(whole, parts)| format!("{whole}.{parts:03}")),
        (1u32..40, 2u32..100)
            .prop_flat_map(|(whole, under)| (Just(whole), 1..under, Just(under)))
            .prop_map(|(whole, over, under)| format!("{whole} {over}/{under}")),
        proptest::sample::select(said).prop_map(String::from),
    ]
}

fn quantity_text() -> impl Strategy<Value = String> {
    let units = vec![
        "g",
        "kg",
        "oz",
        "lb",
        "ml",
        "dl",
        "l",
        "tsp",
        "T",
        "cups",
        "fl oz",
        "pints",
        "quarts",
        "pinches",
        "dashes",
        "cloves",
        "spring onions",
        "",
        "packed cups",
        "heaped tsp",
        "scant tbsp",
    ];
    (
        proptest::sample::select(vec!["", "about ", "3 x ", "7 x "]),
        number_text(),
        proptest::sample::select(units),
        proptest::sample::select(vec!["", " + 2⅓ tsp", " plus 1.7 g"]),
    )
        .prop_map(|(before, number, unit, after)| format!("{before}{number} {unit}{after}"))
}

/// Pieces that exercise the reader more than random characters do.
fn jumble() -> impl Strategy<Value = String> {
    let pieces = vec![
        "1", "2", "0", "3/4", "½", "⅟", "/", "-", "–", "+", "x", "×", "to", "or", "and", "a", "an", "of", "half",
        "halves", "third", "one", "cup", "cups", "tsp", "T", "t", "g", "lb", "oz", "fl", "pinch", "heaped", "packed",
        "firmly", "scant", "about", "~", ",", ".", "1,234", ".5", " ", "  ", "\u{a0}", "clove", "cloves", "leaves",
        "s", "xs", "１", "İ", "'", "%",
    ];
    proptest::collection::vec(proptest::sample::select(pieces), 0..9).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn well_formed_quantities_survive_writing_and_reading(text in quantity_text()) {
        let kinds_differ = read(&text).is_err_and(|error| error.to_string().contains("lines of their own") || error.to_string().contains("in place of"));
        prop_assert!(kinds_differ || read(&text).is_ok(), "{}", text);
        prop_assert_eq!(laws::typed_quantity(&text), Ok(()));
    }

    #[test]
    fn any_text_is_safe_to_read(text in "\\PC{0,40}") {
        prop_assert_eq!(laws::typed_quantity(&text), Ok(()));
    }

    #[test]
    fn any_jumble_is_safe_to_read(text in jumble()) {
        prop_assert_eq!(laws::typed_quantity(&text), Ok(()));
    }
}

#[test]
fn a_megabyte_of_anything_is_answered() {
    for piece in ["1", "1 ", "a", "½", "1 g + ", "1,", "-", "1/", "one ", "x", "é"] {
        let text = piece.repeat(1_000_000 / piece.len());
        check(&text, "Type the amount alone, such as 90 g");
        assert!(take(&text).is_none_or(|(_, bytes)| bytes < 200));
    }
    check(&" ".repeat(1_000_000), "Type an amount, such as 1 1/2 cups or 90 g");
    let line = "1 cup ".to_string() + &"granules ".repeat(100_000);
    assert_eq!(take(&line).map(|(_, bytes)| bytes), Some(6));
}
