//! Every published household measure, typed as a cook would and weighed.
//!
//! Source: USDA National Nutrient Database for Standard Reference, release 28 (2016), and USDA Food and Nutrient Database
//! for Dietary Studies 2021–2023: the weights of household measures, as printed in `src/pantry/data/measures.csv`.

use pattywright::measure::{Cup, Habits};
use pattywright::pantry::Pantry;
use serde::Deserialize;

#[derive(Deserialize)]
struct Row {
    ingredient_id: String,
    measure_text: String,
    quantity: String,
    unit: String,
    grams: String,
    note: String,
}

/// Rows that do not come back: `id | measure | grams printed | grams given`.
///
/// DIFFERENCE: where two published weights stand for the same words, the earlier row is meant (Standard Reference before
/// the dietary-studies tables, one piece before several of it), and the later one is only shown. Granules of which nobody
/// has said the cut are given between coarse and fine, not as coarse.
const SECOND_OPINIONS: [&str; 16] = [
    "tvp_soy_granules | 1 cup, NFS | 68 | 90",
    "canola_oil | 1 cup | 224 | 218",
    "margarine_stick | 1 cup | 224 | 227",
    "margarine_stick | 1 pat | 7 | 5",
    "soy_milk_unsweetened | 1 cup | 244 | 243",
    "lemon_juice | 1 fl oz (NFS) | 31 | 30",
    "molasses | 1 cup | 320 | 337",
    "mushroom_powder | 4 mushrooms | 15 | 14",
    "sesame_seed | 1 cup | 128 | 144",
    "onion_raw | 1 ring | 5 | 6",
    "black_beans_cooked | 1 cup | 185 | 172",
    "chickpeas_cooked | 1 cup | 185 | 164",
    "lettuce_green_leaf | 1 head | 539 | 360",
    "tomato_raw | 1 Italian tomato | 60 | 62",
    "tomato_raw | 1 plum tomato | 60 | 62",
    "ketchup | 1 packet | 10 | 9",
];

/// The row as typed: its number, its unit or the words of its piece, and the cut.
fn typed(row: &Row) -> (String, Option<String>) {
    let text = row.measure_text.as_str();
    let plain = text.split(" (").next().unwrap();
    if row.unit == "each_or_weight" {
        let words: Vec<&str> = plain
            .split(|c: char| !c.is_alphanumeric())
            .filter(|word| word.contains(char::is_alphabetic))
            .collect();
        return (format!("{} {}", row.quantity, words.join(" ")), None);
    }
    let unit = ["tablespoon", "teaspoon", "cup", "tbsp", "tsp", "fl oz"];
    let rest = unit.iter().find_map(|unit| plain.strip_prefix(unit)).unwrap_or("");
    let bracket = text
        .split_once('(')
        .filter(|_| rest.is_empty())
        .map_or("", |(_, inside)| inside);
    let cut = if rest.is_empty() { bracket } else { rest }.trim_matches([' ', ',', ')']);
    let plain_measure = cut.is_empty() || cut == "NFS" || cut.contains(|c: char| c.is_ascii_digit());
    (
        format!("{} {}", row.quantity, row.unit),
        (!plain_measure).then(|| cut.to_owned()),
    )
}

/// Advice on how much to eat, and a row its own table contradicts, are no measures.
fn is_measure(row: &Row) -> bool {
    !["Guideline", "NLEA"]
        .iter()
        .any(|word| row.measure_text.starts_with(word))
        && !row.note.contains("contradicts")
}

#[test]
fn every_published_household_measure_comes_back_to_the_printed_digit() {
    let pantry = Pantry::new(&[], Cup::Us);
    let mut table = csv::Reader::from_reader(include_str!("../../../src/pantry/data/measures.csv").as_bytes());
    let rows: Vec<Row> = table.deserialize().map(Result::unwrap).collect();
    let mut others = Vec::new();
    let mut checked = 0;
    for row in rows.iter().filter(|row| is_measure(row)) {
        let (amount, cut) = typed(row);
        let ingredient = pantry.get(&row.ingredient_id).unwrap();
        let weighed = pantry.amount(&ingredient, &amount, cut.as_deref(), &Habits::default());
        let decimals = row.grams.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let found = weighed.map_or_else(
            |why| why.to_string(),
            |weighed| format!("{:.decimals$}", weighed.grams.value),
        );
        if found == row.grams {
            checked += 1;
        } else {
            others.push(format!(
                "{} | {} {} | {} | {found}",
                row.ingredient_id, row.quantity, row.measure_text, row.grams
            ));
        }
    }
    assert_eq!(others, SECOND_OPINIONS);
    assert_eq!((rows.len(), checked), (310, 269));
}

/// Common practice, no source: what a cook means by a number alone. The weights are those of the same tables.
#[test]
fn a_number_alone_is_a_whole_middling_piece_or_asks_for_a_unit() {
    let pantry = Pantry::new(&[], Cup::Us);
    let weigh = |id: &str, typed: &str| {
        let weighed = pantry.amount(&pantry.get(id).unwrap(), typed, None, &Habits::default());
        weighed
            .map_err(|why| why.to_string())
            .map(|weighed| weighed.grams.value)
    };
    for (id, typed, grams) in [
        ("onion_raw", "2", 220.0),
        ("onion_raw", "1 large onion", 150.0),
        ("tomato_raw", "1 tomato", 125.0),
        ("tomato_raw", "3 thin slices", 45.0),
        ("garlic_raw", "2", 6.0),
        ("burger_bun", "4 buns", 176.0),
        ("sesame_burger_bun", "1", 44.0),
        ("lemon_juice", "1 lemon", 48.0),
        ("rice_paper", "2", 30.0),
        ("table_salt", "1 dash", 0.4),
        ("walnuts", "1 cup", 120.0),
        ("flax_ground", "1 cup", 112.0),
    ] {
        let found = weigh(id, typed).unwrap();
        assert!((found - grams).abs() < 1e-9, "{id} {typed}: {found}");
    }
    for (id, typed) in [
        ("table_salt", "2"),
        ("walnuts", "2"),
        ("lettuce_green_leaf", "1"),
        ("soy_sauce", "2"),
        ("water", "1"),
        ("margarine_stick", "1 sandwich"),
    ] {
        let why = weigh(id, typed).unwrap_err();
        assert!(
            why.contains("Add a unit") || why.contains("not a measure known here"),
            "{id} {typed}: {why}"
        );
    }
}
