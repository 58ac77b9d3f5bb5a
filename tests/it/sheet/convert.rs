//! Cups to grams and back, as it is told.

use pattywright::document::Document;
use pattywright::sheet::convert::sheet;
use pattywright::sheet::pantry::card;

/// A weight into spoons and a spoon into grams stand on the same density, and the cook has to know how sure that is.
#[test]
fn the_source_told_is_that_of_the_density() {
    let document = Document::default();
    let kitchen = document.kitchen();
    let salt = kitchen.pantry.get("table_salt").unwrap();
    let told = |typed| {
        let sheet = sheet(&kitchen, &salt, typed, None).unwrap();
        (sheet.source, sheet.starting)
    };
    assert!(!told("1 tsp").0.is_empty());
    assert_eq!(told("50 g"), told("1 tsp"));
}

/// A level teaspoon is 6.0 g (USDA SR28 2047), so of 6.2 g it is short by 0.2 g.
#[test]
fn what_a_level_spoon_is_short_or_over_is_told() {
    let document = Document::default();
    let kitchen = document.kitchen();
    let salt = kitchen.pantry.get("table_salt").unwrap();
    let level = |typed| sheet(&kitchen, &salt, typed, None).unwrap().level;
    assert_eq!(level("6 g"), "1 tsp");
    assert_eq!(level("6.2 g"), "1 tsp, 0.20 g short");
    assert_eq!(level("5.8 g"), "1 tsp, 0.20 g over");
}

/// Source: USDA SR28 2047, table salt: 1 cup = 292 g, 1 tsp = 6.0 g.
#[test]
fn a_card_tells_what_a_level_cup_weighs() {
    let document = Document::default();
    let kitchen = document.kitchen();
    let cup = card(&kitchen, &kitchen.pantry.get("table_salt").unwrap()).cup;
    let told: Vec<f64> = cup.split(' ').filter_map(|word| word.parse().ok()).collect();
    let [value, spread] = told[..] else { panic!("{cup}") };
    assert!((value - 292.0).abs() < spread && spread < 30.0, "{cup}");
}
