//! The rescue: laws it may never break.

use pattywright::balance::{RescueProblem, Status, Symptom, apply, rescue};
use pattywright::document::{Document, read};
use pattywright::pantry::Role;
use proptest::prelude::*;

fn bowl(granules: f64, water: f64, binder: f64, fat: f64) -> Document {
    let text = format!(
        r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","style":"standard_patty","lines":[
        {{"ingredient":"tvp_soy_granules","amount":"{granules:.1} g"}},{{"ingredient":"water","amount":"{water:.1} g"}},
        {{"ingredient":"methylcellulose","amount":"{binder:.2} g"}},{{"ingredient":"coconut_oil","amount":"{fat:.1} g"}}]}}]}}"#
    );
    read(&text).unwrap().document
}

#[test]
fn crumbling_for_want_of_binder_is_reached_and_carried() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    let rescued = rescue(
        &document.kitchen(),
        &document.formulas[0],
        400.0,
        Symptom::CrumblesForming,
    )
    .unwrap();
    assert_eq!(rescued.status, Status::Reached);
    for (reading, value) in &rescued.after {
        if matches!(reading.id(), "binder_share" | "moisture" | "hydration") {
            let (value, window) = (value.value.estimate().unwrap().value, value.window.unwrap());
            assert!(
                value >= window.low - 1e-9 && value <= window.high + 1e-9,
                "{reading:?} {value}"
            );
        }
    }
    let grams = |role| {
        rescued
            .add
            .iter()
            .find(|add| add.role == role)
            .map_or(0.0, |add| add.grams)
    };
    assert!(grams(Role::Binder) > 0.0);
    assert!(grams(Role::Liquid) / 6.0 + grams(Role::Fat) / 2.0 >= grams(Role::Binder) - 1e-6);
}

#[test]
fn half_the_bowl_needs_half_the_addition() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    let of = |left_g| {
        rescue(
            &document.kitchen(),
            &document.formulas[0],
            left_g,
            Symptom::CrumblesForming,
        )
        .unwrap()
    };
    let (whole, half) = (of(400.0), of(200.0));
    assert_eq!(whole.add.len(), half.add.len());
    for (whole, half) in whole.add.iter().zip(&half.add) {
        assert!((whole.grams / half.grams - 2.0).abs() < 1e-6, "{}", whole.name);
    }
}

#[test]
fn a_mix_within_its_windows_is_not_touched() {
    let document = bowl(150.0, 375.0, 9.0, 60.0);
    let rescued = rescue(
        &document.kitchen(),
        &document.formulas[0],
        400.0,
        Symptom::CrumblesForming,
    )
    .unwrap();
    assert_eq!(rescued.status, Status::NotNeeded);
    assert!(rescued.add.is_empty() && !rescued.steps.is_empty());
}

#[test]
fn what_cannot_be_reached_is_said_with_how_near_it_gets() {
    // Far too much fat and no room to add the water that soaks more granules.
    let document = bowl(100.0, 900.0, 1.0, 10.0);
    let rescued = rescue(&document.kitchen(), &document.formulas[0], 1000.0, Symptom::BreaksInPan).unwrap();
    if rescued.status == Status::OutOfReach {
        assert!(
            rescued.clash.iter().all(|what| what.contains("this gets it to")),
            "{:?}",
            rescued.clash
        );
        assert!(!rescued.clash.is_empty());
    } else {
        assert_eq!(rescued.status, Status::Reached);
    }
}

#[test]
fn the_formula_of_record_becomes_what_is_in_the_bowl() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    let kitchen = document.kitchen();
    let rescued = rescue(&kitchen, &document.formulas[0], 400.0, Symptom::CrumblesForming).unwrap();
    let after = apply(
        &kitchen,
        &document.formulas[0],
        400.0,
        &rescued.add,
        "crumbles",
        "2026-11-25 18:40",
    )
    .unwrap();
    let added: f64 = rescued.add.iter().map(|add| add.grams).sum();
    assert!((kitchen.weigh(&after).total.value - 400.0 - added).abs() < 0.3);
    assert_eq!(after.log.len(), 1);
}

#[test]
fn impossible_leftovers_are_refused() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    for left_g in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let why = rescue(&document.kitchen(), &document.formulas[0], left_g, Symptom::Dry).unwrap_err();
        assert_eq!(why, RescueProblem::Left);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn nothing_is_ever_taken_out(granules in 20.0..300.0f64, water in 20.0..900.0f64, binder in 0.1..40.0f64, fat in 1.0..200.0f64) {
        let document = bowl(granules, water, binder, fat);
        for symptom in Symptom::ALL {
            if let Ok(rescued) = rescue(&document.kitchen(), &document.formulas[0], 500.0, symptom) {
                prop_assert!(rescued.add.iter().chain(&rescued.if_that_fails).chain(&rescued.top_up).all(|add| add.grams > 0.0));
                prop_assert!(rescued.status != Status::NotNeeded || rescued.add.is_empty());
            }
        }
    }
}
