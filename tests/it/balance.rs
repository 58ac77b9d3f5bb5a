//! Rescue, targets and swaps: hand-worked cases, and laws they may never break.

mod added;
mod aim;
mod flavour;
mod laws;
mod reach;
mod rescue;
mod swap;
mod symptoms;

use pattywright::balance::{Add, Rescue, Symptom, rescue};
use pattywright::document::{Document, read};
use pattywright::pantry::Role;

/// A standard patty of these lines, grams each.
fn mix(lines: &[(&str, f64)]) -> Document {
    let lines: Vec<String> = lines
        .iter()
        .map(|(ingredient, grams)| format!(r#"{{"ingredient":"{ingredient}","amount":"{grams:.3} g"}}"#))
        .collect();
    let text = format!(
        r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","style":"standard_patty","lines":[{}]}}]}}"#,
        lines.join(",")
    );
    read(&text).unwrap().document
}

/// Granules, water, binder and coconut oil, grams each.
fn bowl(granules: f64, water: f64, binder: f64, fat: f64) -> Document {
    mix(&[
        ("tvp_soy_granules", granules),
        ("water", water),
        ("methylcellulose", binder),
        ("coconut_oil", fat),
    ])
}

/// A mix with powder and salt, every reading in its window.
fn plain() -> Document {
    seasoned(9.0, 385.0, 60.0, 7.0)
}

/// The same with these grams of binder, water, oil and salt.
fn seasoned(binder: f64, water: f64, oil: f64, salt: f64) -> Document {
    mix(&[
        ("tvp_soy_granules", 150.0),
        ("pea_protein_isolate", 30.0),
        ("water", water),
        ("methylcellulose", binder),
        ("coconut_oil", oil),
        ("table_salt", salt),
    ])
}

/// Advice for this much left in the bowl.
fn advise_on(document: &Document, left_g: f64, symptom: Symptom) -> Rescue {
    rescue(&document.kitchen(), &document.formulas[0], left_g, symptom).unwrap()
}

fn advise(document: &Document, symptom: Symptom) -> Rescue {
    advise_on(document, 400.0, symptom)
}

fn role_grams(add: &[Add], role: Role) -> f64 {
    add.iter().filter(|add| add.role == role).map(|add| add.grams).sum()
}
