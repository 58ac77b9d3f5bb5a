//! Laws a rescue may never break, for any mix.

use super::{bowl, role_grams};
use pattywright::balance::{Add, Status, Symptom, apply, rescue};
use pattywright::pantry::Role;
use proptest::prelude::*;

#[test]
fn what_misses_by_rounding_alone_is_reached() {
    let document = bowl(276.3, 504.1, 36.81, 15.3);
    for symptom in Symptom::ALL {
        let rescued = rescue(&document.kitchen(), &document.formulas[0], 500.0, symptom).unwrap();
        assert_eq!(
            rescued.status == Status::OutOfReach,
            !rescued.clash.is_empty(),
            "{symptom:?}"
        );
    }
}

/// The least addition would be 0.04 g of powder among others; a little more of those does without.
#[test]
fn no_addition_is_a_crumb_where_it_can_be_had_without() {
    let document = bowl(103.805, 565.017, 3.865, 78.774);
    let rescued = rescue(&document.kitchen(), &document.formulas[0], 500.0, Symptom::Greasy).unwrap();
    assert_eq!(rescued.status, Status::Reached);
    assert!(!rescued.add.is_empty());
    assert!(
        rescued.add.iter().all(|add| add.grams > 1e-4 * 500.0),
        "{:?}",
        rescued.add
    );
}

/// Next to nothing of the step can be had without another reading going wrong, and a third of a gram in 500 g is no advice.
#[test]
fn a_step_that_leads_nowhere_is_not_told() {
    let document = bowl(295.25, 592.27, 17.485, 21.169);
    let rescued = rescue(&document.kitchen(), &document.formulas[0], 500.0, Symptom::Gummy).unwrap();
    assert_eq!(rescued.status, Status::NotNeeded);
    assert!(rescued.if_that_fails.is_empty(), "{:?}", rescued.if_that_fails);
}

/// An ingredient is listed once for each thing it does, and the steps pour the water of the list, all of it and none
/// twice: more than the granules weigh soaks them, less is mixed with them.
fn check_told(add: &[Add], steps: &[String]) -> Result<(), TestCaseError> {
    for (at, one) in add.iter().enumerate() {
        let twice = add[..at]
            .iter()
            .any(|other| (&other.ingredient, other.role) == (&one.ingredient, one.role));
        prop_assert!(!twice, "{} is listed twice", one.name);
    }
    let step = |verb: &str| steps.iter().find(|step| step.starts_with(verb));
    let poured: f64 = ["Whisk", "Soak", "Mix", "Sprinkle"]
        .into_iter()
        .filter_map(|verb| water_in(step(verb)?))
        .sum();
    let listed = role_grams(add, Role::Liquid);
    prop_assert!(
        (poured - listed).abs() < 0.01 * listed + 1.0,
        "{poured} of {listed}: {steps:?}"
    );
    let granules = role_grams(add, Role::Textured);
    let soaks = step("Soak").and_then(|step| water_in(step));
    let mixes = step("Mix").and_then(|step| water_in(step));
    // As printed: to the gram from 10 g.
    prop_assert!(soaks.is_none_or(|water| granules < water + 0.5), "{steps:?}");
    prop_assert!(mixes.is_none_or(|water| water < granules + 0.5), "{steps:?}");
    Ok(())
}

/// "Soak 20 g of soy granules in 52 g of cold water …": 52.
fn water_in(step: &str) -> Option<f64> {
    let words: Vec<&str> = step.split([' ', ',']).collect();
    let water = words
        .windows(5)
        .find(|five| five[1] == "g" && five[2..].iter().any(|word| word.starts_with("water")))?;
    water[0].parse().ok()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]
    #[test]
    fn laws_hold_for_any_mix(granules in 20.0..300.0f64, water in 20.0..900.0f64, binder in 0.1..40.0f64, fat in 1.0..200.0f64) {
        let document = bowl(granules, water, binder, fat);
        let kitchen = document.kitchen();
        for symptom in Symptom::ALL {
            let Ok(rescued) = rescue(&kitchen, &document.formulas[0], 500.0, symptom) else { continue };
            prop_assert!(rescued.add.iter().chain(&rescued.if_that_fails).chain(&rescued.top_up).all(|add| add.grams > 1e-6 * 500.0), "a crumb: {:?}", rescued.add);
            prop_assert!(rescued.status != Status::NotNeeded || rescued.add.is_empty());
            prop_assert_eq!(rescued.status == Status::OutOfReach, !rescued.clash.is_empty());
            for add in [&rescued.add, &rescued.if_that_fails] {
                let carried = role_grams(add, Role::Liquid) / 6.0 + role_grams(add, Role::Fat) / 2.0;
                let dry = role_grams(add, Role::Binder) - carried;
                prop_assert!(dry <= 1e-6 * 500.0, "{:?}: {} g of binder would go in dry", symptom, dry);
            }
            // What was right stays right; salt is the top-up's to mend.
            for ((reading, was), (_, is)) in rescued.before.iter().zip(&rescued.after) {
                let guarded = matches!(reading.id(), "hydration" | "moisture" | "binder_share" | "powder_to_textured" | "protein" | "fat");
                if let (true, Some(was), Some(is), Some(window)) = (guarded, was.value.estimate(), is.value.estimate(), was.window)
                    && (window.low..=window.high).contains(&was.value)
                {
                    let slack = 1e-3 * (window.high - window.low);
                    prop_assert!((window.low - slack..=window.high + slack).contains(&is.value), "{:?}: {} left its window: {} to {}", symptom, reading.name(), was.value, is.value);
                }
            }
            let told = if rescued.status == Status::NotNeeded { &rescued.if_that_fails } else { &rescued.add };
            check_told(told, &rescued.steps)?;
            let half = rescue(&kitchen, &document.formulas[0], 250.0, symptom).unwrap();
            let sum = |add: &[Add]| add.iter().map(|add| add.grams).sum::<f64>();
            prop_assert!((sum(&rescued.add) - 2.0 * sum(&half.add)).abs() < 1e-3 * 500.0);
            prop_assert!(rescued.if_that_fails.is_empty() || sum(&rescued.if_that_fails) > 1e-3 * 500.0, "no step: {:?}", rescued.if_that_fails);
            let after = apply(&kitchen, &document.formulas[0], 500.0, &rescued.add, "", "").unwrap();
            prop_assert!((kitchen.weigh(&after).total.value - 500.0 - sum(&rescued.add)).abs() < 0.5, "mass balance");
        }
    }
}
