//! Turns the published tables into typed Rust while the crate is built.
//!
//! The tables stay readable, in `*/data/*.csv`; a wrong number, an unknown id or a missing column stops the build.
//! Nothing is parsed on the phone.

// A build that stops with the reason is what a wrong table should do.
#![allow(clippy::panic, clippy::expect_used)]

use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::Path;

type Row = BTreeMap<String, String>;

/// The nutrients carried, in the order of `Nutrient`.
const NUTRIENTS: [&str; 18] = [
    "energy_kcal",
    "water_g",
    "protein_g",
    "fat_g",
    "saturated_fat_g",
    "trans_fat_g",
    "cholesterol_mg",
    "carbohydrate_total_g",
    "carbohydrate_available_g",
    "sugars_g",
    "fibre_g",
    "ash_g",
    "sodium_mg",
    "calcium_mg",
    "iron_mg",
    "potassium_mg",
    "vitamin_b12_ug",
    "vitamin_d_ug",
];

fn rows(name: &str) -> Vec<Row> {
    let path = Path::new("src").join(name);
    println!("cargo:rerun-if-changed={}", path.display());
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    reader
        .deserialize()
        .map(|row| row.unwrap_or_else(|e| panic!("{}: {e}", path.display())))
        .collect()
}

fn by_id(rows: Vec<Row>, id: &str) -> BTreeMap<String, Vec<Row>> {
    let mut grouped: BTreeMap<String, Vec<Row>> = BTreeMap::new();
    for row in rows {
        grouped.entry(row[id].clone()).or_default().push(row);
    }
    grouped
}

fn number(text: &str) -> Option<f64> {
    (!text.is_empty()).then(|| text.parse().unwrap_or_else(|_| panic!("not a number: {text:?}")))
}

/// A Rust literal; a blank cell is unknown, never zero.
fn literal(value: Option<f64>) -> String {
    value.map_or("UNKNOWN".into(), |v| format!("{v:?}"))
}

fn option(value: Option<String>) -> String {
    value.map_or("None".into(), |v| format!("Some({v})"))
}

/// "water 5; protein 0; sodium_mg 400" as named nutrients.
fn composition(text: &str) -> BTreeMap<String, f64> {
    let mut parts: BTreeMap<String, f64> = text
        .split(';')
        .map(|part| {
            let (name, value) = part.trim().split_once(' ').expect("name and value");
            let name = match name {
                "carbohydrate" => "carbohydrate_total_g".to_owned(),
                "sodium_mg" => name.to_owned(),
                _ => format!("{name}_g"),
            };
            (name, number(value).expect("a value"))
        })
        .collect();
    let available = parts["carbohydrate_total_g"] - parts["fibre_g"];
    parts.insert("carbohydrate_available_g".into(), available);
    parts
}

fn measure(row: &Row) -> Option<String> {
    let unit = match row["unit"].as_str() {
        "cup" => "Some(Unit::Cup)",
        "tbsp" => "Some(Unit::Tablespoon)",
        "tsp" => "Some(Unit::Teaspoon)",
        "fl oz" => "Some(Unit::FluidOunce)",
        "liter" => "Some(Unit::Litre)",
        // A published dash weighs what the table says, not an eighth of a teaspoon of it.
        "each_or_weight" if row["measure_text"] == "dash" => "Some(Unit::Dash)",
        "each_or_weight" => "None",
        other => panic!("unknown unit {other:?}"),
    };
    // Rows that are only a weight unit, that advise how much to eat, or that their own table contradicts say nothing about a scoop.
    let text = &row["measure_text"];
    let advice = text.starts_with("Guideline") || text.starts_with("NLEA");
    let weight = matches!(text.split(" (").next(), Some("oz" | "lb"));
    if weight || advice || row["note"].contains("contradicts") {
        return None;
    }
    Some(format!(
        "PublishedMeasure {{ text: {text:?}, quantity: {:?}, unit: {unit}, grams: {:?}, dataset: {:?}, row: {:?} }}",
        number(&row["quantity"]).expect("quantity"),
        number(&row["grams"]).expect("grams"),
        row["source_dataset"],
        row["source_id"],
    ))
}

fn main() {
    println!("cargo:rerun-if-changed=src/build.rs");
    write("listed.rs", &listed());
    write("windows.rs", &windows());
    write("evidence.rs", &evidence());
    write("holding.rs", &holding());
    write("texts.rs", &texts());
}

fn write(name: &str, text: &str) {
    let target = std::env::var("OUT_DIR").expect("OUT_DIR is set by cargo");
    std::fs::write(Path::new(&target).join(name), text).expect("the build folder is writable");
}

/// "standard_patty" as `StandardPatty`.
fn variant(id: &str) -> String {
    id.split('_')
        .map(|word| word[..1].to_uppercase() + &word[1..])
        .collect()
}

fn windows() -> String {
    let mut out = String::from("static WINDOWS: &[Window] = &[\n");
    for row in rows("formula/data/windows.csv") {
        writeln!(
            out,
            "Window {{ style: Style::{}, reading: Reading::{}, low: {:?}, high: {:?}, source: {:?} }},",
            variant(&row["style"]),
            variant(&row["reading"]),
            number(&row["low"]).expect("low"),
            number(&row["high"]).expect("high"),
            row["source"]
        )
        .expect("writing to a string");
    }
    out + "];\n"
}

fn evidence() -> String {
    let known = |text: &str| option(number(text).map(|value| format!("{value:?}")));
    let mut out = String::from("static EVIDENCE: &[Point] = &[\n");
    for row in rows("formula/data/evidence.csv") {
        writeln!(
            out,
            "Point {{ reading: Reading::{}, at: {:?}, property: Property::{}, value: {}, sem: {}, made_of: {:?}, source: {:?} }},",
            variant(&row["reading"]),
            number(&row["at"]).expect("at"),
            variant(&row["property"]),
            known(&row["value"]),
            known(&row["sem"]),
            row["made_of"],
            row["source"]
        )
        .expect("writing to a string");
    }
    out + "];\n"
}

fn holding() -> String {
    let mut out = String::from("static HOLDING: &[Holding] = &[\n");
    for row in rows("balance/data/holding.csv") {
        writeln!(
            out,
            "Holding {{ ingredient: {:?}, low: {:?}, high: {:?}, source: {:?} }},",
            row["ingredient"],
            number(&row["low"]).expect("low"),
            number(&row["high"]).expect("high"),
            row["source"]
        )
        .expect("writing to a string");
    }
    out + "];\n"
}

/// Every table of texts, in one: by the English, the American and the German.
fn translations() -> BTreeMap<String, [String; 2]> {
    println!("cargo:rerun-if-changed=src/words");
    let mut tables: Vec<String> = std::fs::read_dir("src/words")
        .expect("src/words is there")
        .filter_map(|entry| entry.expect("a readable folder").file_name().into_string().ok())
        .filter(|name| name.ends_with(".csv"))
        .collect();
    tables.sort();
    let mut all = BTreeMap::new();
    for table in tables {
        for row in rows(&format!("words/{table}")) {
            let (english, said) = (row["english"].clone(), [row["american"].clone(), row["german"].clone()]);
            if let Some(before) = all.insert(english.clone(), said.clone())
                && before != said
            {
                panic!("{table}: {english:?} is translated twice, and differently");
            }
        }
    }
    all
}

fn texts() -> String {
    let all = Vec::from_iter(translations());
    format!("static TEXTS: &[(&str, [&str; 2])] = &{all:?};\n")
}

fn listed() -> String {
    let words = by_id(rows("pantry/data/words.csv"), "ingredient_id");
    let measures = by_id(rows("pantry/data/measures.csv"), "ingredient_id");
    let starting = by_id(rows("pantry/data/starting_values.csv"), "ingredient_id");
    let translations = translations();
    let mut out = String::from(
        "#[allow(clippy::approx_constant)] // 6.28 g of carbohydrate is no τ.\npub(super) static LISTED: &[Listed] = &[\n",
    );
    for row in rows("pantry/data/ingredients.csv") {
        let id = &row["id"];
        let word = &words.get(id).unwrap_or_else(|| panic!("{id}: no kitchen name"))[0];
        let first = |wanted: &str| {
            starting
                .get(id)
                .and_then(|rows| rows.iter().find(|r| r["property"].contains(wanted)).cloned())
        };
        let known = NUTRIENTS.iter().any(|n| *n != "sodium_mg" && !row[*n].is_empty());
        let remembered = (!known)
            .then(|| first("composition"))
            .flatten()
            .map(|r| composition(&r["value"]));
        let nutrients: Vec<String> = NUTRIENTS
            .iter()
            .map(|n| {
                literal(
                    remembered
                        .as_ref()
                        .map_or_else(|| number(&row[*n]), |parts| parts.get(*n).copied()),
                )
            })
            .collect();
        let spread = first("density").map(|r| {
            format!(
                "StartingDensity {{ value: {:?}, low: {:?}, high: {:?}, provenance: {:?}, note: {:?} }}",
                number(&r["value"]).expect("value"),
                number(&r["low"]).expect("low"),
                number(&r["high"]).expect("high"),
                r["provenance"],
                r["note"]
            )
        });
        let scoops: Vec<String> = measures
            .get(id)
            .map(|rows| rows.iter().filter_map(measure).collect())
            .unwrap_or_default();
        let list = |text: &str| -> Vec<String> {
            let parts = text.split(';').filter(|part| !part.is_empty());
            parts.map(str::to_owned).collect()
        };
        let kitchen_name = &word["kitchen_name"];
        let [american, german] = translations
            .get(kitchen_name)
            .unwrap_or_else(|| panic!("{id}: no other language has its name"));
        let aliases = list(&format!("{};{american}", word["aliases"]));
        let german_aliases = list(&format!("{german};{}", word["german_aliases"]));
        let role = variant(&word["role"]);
        writeln!(
            out,
            "Listed {{ id: {id:?}, name: {:?}, kitchen_name: {kitchen_name:?}, role: Role::{role}, solid_when_cold: {}, aliases: &{aliases:?}, german_aliases: &{german_aliases:?}, group: {:?}, dataset: {:?}, row: {:?}, row_name: {:?}, match_quality: {:?}, density: {}, nutrients: Nutrients([{}]), composition_from_memory: {}, starting_density: {}, allergens: &{:?}, notes: {:?}, measures: &[{}] }},",
            row["name"],
            word["solid_when_cold"] == "yes",
            row["group"],
            row["source_dataset"],
            row["source_id"],
            row["source_description"],
            row["match_quality"],
            option(number(&row["density_g_per_ml"]).map(|d| format!("{d:?}"))),
            nutrients.join(", "),
            remembered.is_some(),
            option(spread),
            list(&row["allergens"]),
            row["notes"],
            scoops.join(", "),
        )
        .expect("writing to a string");
    }
    out + "];\n"
}
