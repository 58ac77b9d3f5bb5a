//! How what is added goes in, and what the guests are told.

use super::{advise, mix, role_grams, seasoned};
use pattywright::balance::Symptom;
use pattywright::pantry::Role;

/// The water named in the steps is the water of the list, no gram of it twice.
#[test]
fn no_water_is_named_twice() {
    let document = seasoned(9.0, 385.0, 60.0, 16.0);
    let rescued = advise(&document, Symptom::TooSalty);
    let named: f64 = rescued
        .steps
        .iter()
        .filter(|step| {
            step.contains("water") && (step.starts_with("Whisk") || step.starts_with("Soak") || step.starts_with("Mix"))
        })
        .map(|step| {
            let before = step
                .split(" g of ice-cold water")
                .next()
                .unwrap()
                .split(" g of cold water")
                .next()
                .unwrap();
            before.rsplit(' ').next().unwrap().parse::<f64>().unwrap()
        })
        .sum();
    let listed = role_grams(&rescued.add, Role::Liquid);
    assert!(
        listed > 0.0 && (named - listed).abs() < 1.5,
        "{named} named of {listed}: {:?}",
        rescued.steps
    );
}

#[test]
fn a_new_allergen_is_told() {
    // Everything here is of pea; the plainest granules are of soy.
    let wet = mix(&[
        ("pea_protein_isolate", 100.0),
        ("water", 400.0),
        ("methylcellulose", 8.0),
        ("coconut_oil", 50.0),
    ]);
    let rescued = advise(&wet, Symptom::StickyWet);
    assert!(role_grams(&rescued.add, Role::Textured) > 0.0, "{:?}", rescued.add);
    assert!(
        rescued.steps.iter().any(|step| step.contains("soybeans")),
        "{:?}",
        rescued.steps
    );
    let pea = advise(
        &mix(&[
            ("textured_pea_protein", 150.0),
            ("water", 520.0),
            ("methylcellulose", 11.0),
            ("coconut_oil", 60.0),
        ]),
        Symptom::StickyWet,
    );
    assert!(
        pea.steps.iter().all(|step| !step.contains("tell your guests")),
        "{:?}",
        pea.steps
    );
}
