//! Swaps.

use super::{mix, plain};
use pattywright::balance::holding::{CROWDED, Holding};
use pattywright::balance::{Changed, RescueProblem, Status, swap};
use pattywright::document::read;
use pattywright::formula::{Component, Profile, Reading};

/// By hand, from the same table rows: m·p/p', and water by what is held and brought.
#[test]
fn a_swap_keeps_protein_and_moves_the_water() {
    let document = plain();
    let kitchen = document.kitchen();
    let (changed, formula) = swap(
        &kitchen,
        &document.formulas[0],
        "pea_protein_isolate",
        "vital_wheat_gluten",
        CROWDED,
    )
    .unwrap();
    assert_eq!(changed.status, Status::Reached);
    let part = |id: &str, component| {
        let ingredient = kitchen.pantry.get(id).unwrap();
        Profile::of(&ingredient, ingredient.role()).component(component).known
    };
    let (pea, gluten) = ("pea_protein_isolate", "vital_wheat_gluten");
    let into = 30.0 * part(pea, Component::Protein) / part(gluten, Component::Protein);
    let held = 0.5 * (into * (1.3 + 1.9) / 2.0 - 30.0 * (2.5 + 5.0) / 2.0);
    let brought = into * part(gluten, Component::Water) - 30.0 * part(pea, Component::Water);
    let of = |id: &str| {
        let found = changed
            .change
            .iter()
            .find(|change| change.ingredient.as_deref() == Some(id));
        found.map_or(0.0, |change| change.grams)
    };
    assert!((of(gluten) - into).abs() < 0.06, "{} against {into}", of(gluten));
    assert!((of(pea) + 30.0).abs() < 1e-9);
    assert!(
        (of("water") - (held - brought)).abs() < 0.11,
        "{} against {}",
        of("water"),
        held - brought
    );
    // The spread of either capacity as that of an even one, low to high: 30 g · 0.5 · (5.0 − 2.5)/√12 = 10.8 g outweighs the other.
    assert!(
        changed.notes.iter().any(|step| step.contains("± 11 g")),
        "{:?}",
        changed.notes
    );
    let protein = |formula| {
        let weighed = kitchen.weigh(formula);
        let share = Reading::Protein.of(&weighed).value.estimate().unwrap().value;
        share * weighed.total.value
    };
    assert!((protein(&formula) / protein(&document.formulas[0]) - 1.0).abs() < 1e-3);
    assert!(
        changed.notes.iter().any(|step| step.contains("New allergen: wheat")),
        "{:?}",
        changed.notes
    );
    assert!(
        changed.notes.iter().all(|step| !step.contains('_')),
        "an id is not a name: {:?}",
        changed.notes
    );
}

#[test]
fn a_swap_nobody_knows_the_water_of_says_so() {
    let document = plain();
    let kitchen = document.kitchen();
    assert_eq!(Holding::of("hemp_protein"), None);
    let (changed, _) = swap(
        &kitchen,
        &document.formulas[0],
        "pea_protein_isolate",
        "hemp_protein",
        CROWDED,
    )
    .unwrap();
    assert!(
        changed
            .notes
            .iter()
            .any(|step| step.starts_with("Nobody has published")),
        "{:?}",
        changed.notes
    );
}

/// Gluten holds 1.6 g of water a gram and isolate 3.75 g, half of it in a mix: far more has to go than the sauce has.
#[test]
fn water_that_is_not_there_cannot_come_out() {
    let document = mix(&[
        ("tvp_soy_granules", 150.0),
        ("pea_protein_isolate", 100.0),
        ("soy_sauce", 60.0),
    ]);
    let kitchen = document.kitchen();
    let (from, to) = ("pea_protein_isolate", "vital_wheat_gluten");
    let (changed, formula) = swap(&kitchen, &document.formulas[0], from, to, CROWDED).unwrap();
    assert_eq!(changed.status, Status::OutOfReach);
    let less_water = |says: &str| -> f64 {
        let (before, _) = says.split_once(" g less water").unwrap();
        before.rsplit(' ').next().unwrap().parse().unwrap()
    };
    let wanted = changed.notes.iter().find(|note| note.contains("g less water")).unwrap();
    let (wanted, missing) = (less_water(wanted), less_water(&changed.clash[0]));
    let sauce = kitchen.pantry.get("soy_sauce").unwrap();
    let there = 60.0 * Profile::of(&sauce, sauce.role()).component(Component::Water).known;
    // Both are printed to the gram.
    assert!(
        (wanted - there - missing).abs() <= 1.0 && missing > 30.0,
        "{missing} of {wanted}: {:?}",
        changed.clash
    );
    assert_eq!(formula.lines[2].amount, "0.00 g");
}

#[test]
fn swaps_that_cannot_be_are_refused_in_a_sentence() {
    let document = plain();
    let kitchen = document.kitchen();
    for (from, to) in [
        ("moon_dust", "water"),
        ("water", "moon_dust"),
        ("lentil_flour", "pea_protein_isolate"),
        ("pea_protein_isolate", "pea_protein_isolate"),
        ("pea_protein_isolate", "table_salt"),
    ] {
        let why = swap(&kitchen, &document.formulas[0], from, to, CROWDED).unwrap_err();
        assert!(matches!(why, RescueProblem::NoSwap(_)), "{from} to {to}: {why}");
    }
    assert!(
        swap(
            &kitchen,
            &document.formulas[0],
            "pea_protein_isolate",
            "soy_protein_isolate",
            1.5
        )
        .is_err()
    );
}

#[test]
fn what_is_like_a_row_holds_as_much_water_and_says_so() {
    let mut text: serde_json::Value = serde_json::from_str(&plain().write()).unwrap();
    text["pantry"] = serde_json::json!([{ "id": "my_faba", "name": "My faba", "like": "faba_protein_isolate" }]);
    let document = read(&text.to_string()).unwrap().document;
    let to = |id: &str| {
        let swapped = swap(
            &document.kitchen(),
            &document.formulas[0],
            "pea_protein_isolate",
            id,
            CROWDED,
        );
        swapped.unwrap().0
    };
    let (mine, theirs) = (to("my_faba"), to("faba_protein_isolate"));
    assert_eq!(mine.change.len(), theirs.change.len());
    for (mine, theirs) in mine.change.iter().zip(&theirs.change) {
        assert!(
            (mine.grams - theirs.grams).abs() < 1e-9,
            "{}: {} g",
            mine.name,
            mine.grams
        );
    }
    let marked = |changed: &Changed| changed.notes.iter().any(|note| note.contains("which it is like"));
    assert!(marked(&mine), "{:?}", mine.notes);
    assert!(!marked(&theirs), "{:?}", theirs.notes);
}
