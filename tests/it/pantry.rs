//! What a cup weighs, and who says so.

mod own;
mod published;
mod words;

use pattywright::measure::{Cup, Habits, Unit};
use pattywright::pantry::{Calibration, Entry, GramsFrom, Panel, Pantry, Scoop, listed, search};

#[track_caller]
fn check_grams(entries: &[Entry], id: &str, typed: &str, cut: Option<&str>, grams: f64, from: GramsFrom) {
    let pantry = Pantry::new(entries, Cup::Us);
    let found = pantry.get(id).unwrap();
    let amount = pantry.amount(&found, typed, cut, &Habits::default()).unwrap();
    assert!(
        (amount.grams.value - grams).abs() < 0.051,
        "{id} {typed}: {}",
        amount.grams.value
    );
    assert_eq!(amount.from, from, "{id} {typed}");
}

/// Source: USDA Standard Reference 28, weights of household measures, as printed.
#[test]
fn published_spoons_and_cups_come_back_to_the_printed_digit() {
    let table = |id, typed, grams| check_grams(&[], id, typed, None, grams, GramsFrom::Table);
    table("table_salt", "1 tsp", 6.0);
    table("table_salt", "1 tbsp", 18.0);
    table("soy_flour_defatted", "1 cup", 105.0);
    table("soy_flour_full_fat", "1 tbsp", 5.2);
    table("sugar", "1 cup", 200.0);
    table("sugar", "1 tsp", 4.2);
    table("paprika", "1 tbsp", 6.8);
    table("maple_syrup", "1 cup", 315.0);
    table("tomato_paste", "1 cup", 262.0);
    table("garlic_powder", "1 tsp", 3.1);
}

/// Three and three eighths of a teaspoon of salt stand in for 20 g.
/// Source: USDA Standard Reference 28, table salt: 1 tsp is 6.0 g, so they hold 20.25 g.
#[test]
fn level_spoons_tell_the_grams_they_are_off_by() {
    let pantry = Pantry::new(&[], Cup::Us);
    let salt = pantry.get("table_salt").unwrap();
    let converted = pantry
        .convert(&salt, "20 g", None, Unit::Teaspoon, &Habits::default())
        .unwrap();
    let (level, off_g) = converted.level.unwrap();
    assert_eq!(level.to_string(), "1 tbsp + ¼ tsp + ⅛ tsp");
    assert!((off_g.unwrap() - (3.375 * 6.0 - 20.0)).abs() < 0.001, "{off_g:?}");
}

/// Source: USDA FNDDS 2021–2023, food code 41440000: a cup is 68 g coarse and 120 g fine.
#[test]
fn granules_weigh_by_their_cut_and_unknown_cuts_span_both() {
    let cut = |cut, grams| check_grams(&[], "tvp_soy_granules", "1 cup", Some(cut), grams, GramsFrom::Table);
    cut("coarse grain", 68.0);
    cut("fine grain", 120.0);
    let pantry = Pantry::new(&[], Cup::Us);
    let granules = pantry.get("tvp_soy_granules").unwrap();
    let unknown = pantry.amount(&granules, "1 cup", None, &Habits::default()).unwrap();
    assert_eq!(unknown.from, GramsFrom::Starting);
    let (low, high) = (
        unknown.grams.value - 2.0 * unknown.grams.sd,
        unknown.grams.value + 2.0 * unknown.grams.sd,
    );
    assert!(low < 68.0 && high > 120.0, "{low} to {high}");
}

#[test]
fn own_cup_beats_table_and_table_beats_typed_density() {
    let typed = Entry {
        id: "table_salt".into(),
        density_g_per_ml: Some(2.0),
        ..Entry::default()
    };
    check_grams(
        std::slice::from_ref(&typed),
        "table_salt",
        "1 tsp",
        None,
        6.0,
        GramsFrom::Table,
    );
    let weighed = Entry {
        calibrations: vec![Calibration {
            count: 3.0,
            measure: Scoop::Teaspoon,
            cup: Cup::Us,
            grams: 15.0,
            date: "2026-11-25".into(),
        }],
        ..typed
    };
    check_grams(&[weighed], "table_salt", "1 tsp", None, 5.0, GramsFrom::Calibration);
    let mine = Entry {
        id: "my_granules".into(),
        name: "My granules".into(),
        like: Some("tvp_soy_granules".into()),
        cup_g: Some(96.0),
        ..Entry::default()
    };
    check_grams(&[mine], "my_granules", "1/2 cup", None, 48.0, GramsFrom::Calibration);
}

#[test]
fn what_nobody_has_weighed_says_so() {
    let entries = [Entry {
        id: "dust".into(),
        name: "Dust".into(),
        ..Entry::default()
    }];
    let pantry = Pantry::new(&entries, Cup::Us);
    let why = pantry
        .amount(&pantry.get("dust").unwrap(), "1 cup", None, &Habits::default())
        .unwrap_err();
    assert!(why.to_string().starts_with("Weigh this one"), "{why}");
}

/// Source: Regulation (EU) 1169/2011, Annex I: salt = sodium × 2.5.
#[test]
fn panels_scale_to_100_g_and_leave_gaps_unknown() {
    use pattywright::pantry::Nutrient;
    let panel = Panel {
        serving_g: 30.0,
        protein_g: Some(24.0),
        salt_g: Some(0.6),
        ..Panel::default()
    };
    let per_100_g = panel.per_100_g();
    assert_eq!(per_100_g.get(Nutrient::Protein), Some(80.0));
    assert!((per_100_g.get(Nutrient::Sodium).unwrap() - 800.0).abs() < 1e-9);
    assert!((per_100_g.salt().unwrap() - 2.0).abs() < 1e-9);
    assert_eq!(per_100_g.get(Nutrient::Fat), None);
    assert_eq!(per_100_g.get(Nutrient::Water), None);
}

#[track_caller]
fn check_found(typed: &str, id: &str) {
    let pantry = Pantry::new(&[], Cup::Us);
    let found = search(&pantry, typed, 1);
    assert_eq!(found.first().map(|found| found.ingredient.id()), Some(id), "{typed}");
}

#[test]
fn ingredients_are_found_by_any_name_and_with_a_slip() {
    check_found("tvp", "tvp_soy_granules");
    check_found("soya mince", "tvp_soy_granules");
    check_found("methylcelulose", "methylcellulose");
    check_found("nethylcellulqse", "methylcellulose");
    check_found("ice cold water", "water");
    check_found("protein pea", "pea_protein_isolate");
    check_found("garlic pow", "garlic_powder");
    assert!(search(&Pantry::new(&[], Cup::Us), "zzzz", 3).is_empty());
}

#[test]
fn what_is_spelt_as_typed_comes_before_a_shorter_name_a_slip_away() {
    let entries = ["Plum", "Plumb"].map(|name| Entry {
        id: name.into(),
        name: name.into(),
        ..Entry::default()
    });
    let pantry = Pantry::new(&entries, Cup::Us);
    let found: Vec<_> = search(&pantry, "plumb", 2)
        .iter()
        .map(|found| found.ingredient.id())
        .collect();
    assert_eq!(found, ["Plumb", "Plum"]);
}

/// The page draws again only what differs from before.
#[test]
fn a_row_is_the_same_as_itself_and_no_other() {
    let row = |id| listed(id).unwrap();
    assert!(row("sugar") == row("sugar"));
    assert!(row("sugar") != row("table_salt"));
}

#[test]
fn impossible_entries_are_refused() {
    let entry = |cup_g| Entry {
        id: "a".into(),
        name: "A".into(),
        cup_g: Some(cup_g),
        ..Entry::default()
    };
    assert!(entry(100.0).check(Cup::Us).is_ok());
    for cup_g in [0.0, -5.0, f64::NAN, 5000.0] {
        assert!(entry(cup_g).check(Cup::Us).is_err(), "{cup_g}");
    }
    assert!(listed("methylcellulose").unwrap().composition_from_memory);
}

#[test]
fn a_stray_letter_among_other_words_is_no_ingredient() {
    let document = pattywright::document::Document::default();
    let kitchen = document.kitchen();
    let first = |typed: &str| {
        let found = pattywright::pantry::search(&kitchen.pantry, typed, 1);
        found.first().map(|found| found.ingredient.id().to_owned())
    };
    assert_eq!(first("<img src=x onerror=alert(1)>"), None);
    assert_eq!(first("ice cold water").as_deref(), Some("water"));
    assert_eq!(first("xan").as_deref(), Some("xanthan_gum"));
}
