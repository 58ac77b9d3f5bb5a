//! How a rescue comes out, and what becomes of the formula.

use super::{advise, advise_on, bowl, mix};
use pattywright::balance::solver::{Outcome, Program};
use pattywright::balance::{RescueProblem, Status, Symptom, apply, rescue};
use pattywright::pantry::Role;

#[test]
fn crumbling_for_want_of_binder_is_reached_and_carried() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    let rescued = advise(&document, Symptom::CrumblesForming);
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
    let of = |left_g| advise_on(&document, left_g, Symptom::CrumblesForming);
    let (whole, half) = (of(400.0), of(200.0));
    assert_eq!(whole.add.len(), half.add.len());
    for (whole, half) in whole.add.iter().zip(&half.add) {
        assert!((whole.grams / half.grams - 2.0).abs() < 1e-6, "{}", whole.name);
    }
}

/// What counts as nothing is a part of what is left, so that a milligram is advised in the proportions of a bowl.
#[test]
fn what_is_left_may_be_as_little_as_can_be() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    let of = |left_g| advise_on(&document, left_g, Symptom::CrumblesForming);
    let (whole, little) = (of(400.0), of(0.001));
    assert_eq!(whole.add.len(), little.add.len());
    for (whole, little) in whole.add.iter().zip(&little.add) {
        assert!(
            (little.grams * 400e3 / whole.grams - 1.0).abs() < 1e-6,
            "{}",
            whole.name
        );
    }
}

#[test]
fn a_mix_within_its_windows_is_not_touched() {
    let document = bowl(150.0, 375.0, 9.0, 60.0);
    let rescued = advise(&document, Symptom::CrumblesForming);
    assert_eq!(rescued.status, Status::NotNeeded);
    assert!(rescued.add.is_empty() && !rescued.steps.is_empty());
}

#[test]
fn what_cannot_be_reached_is_said_with_how_near_it_gets() {
    // Far too much fat and no room to add the water that soaks more granules.
    let document = bowl(100.0, 900.0, 1.0, 10.0);
    let rescued = advise_on(&document, 1000.0, Symptom::BreaksInPan);
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
    let rescued = advise(&document, Symptom::CrumblesForming);
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

/// Worked case: 800 g at 1.0 % binder and 58 % water, wanted 1.8 % and 60 %: 858.6 g in all, 7.46 g of binder and 51.2 g of water.
/// Source: the algebra `T = M(1 − m₀ − w₀)/(1 − m₁ − w₁)`, done by hand.
#[test]
fn the_closed_form_and_the_program_agree() {
    let (mass, binder, water, more_binder, more_water) = (800.0, 0.010, 0.58, 0.018, 0.60);
    let total = mass * (1.0 - binder - water) / (1.0 - more_binder - more_water);
    let by_hand = [more_binder * total - binder * mass, more_water * total - water * mass];
    let mut program = Program::new(2);
    for column in 0..2 {
        program.set_cost(column, 1.0).unwrap();
        program.set_bounds(column, 0.0, f64::INFINITY).unwrap();
    }
    // Share at least: (1 − s)·x − s·w ≥ s·M − what is there.
    let short_of_binder = more_binder * mass - binder * mass;
    let short_of_water = more_water * mass - water * mass;
    program
        .add_row(&[1.0 - more_binder, -more_binder], short_of_binder, f64::INFINITY)
        .unwrap();
    program
        .add_row(&[-more_water, 1.0 - more_water], short_of_water, f64::INFINITY)
        .unwrap();
    let Outcome::Optimal { x, .. } = program.solve() else {
        panic!("it can be reached");
    };
    for ((x, hand), printed) in x.iter().zip(by_hand).zip([7.46, 51.2]) {
        assert!((x - hand).abs() < 1e-9, "{x} against {hand}");
        assert!((x / printed - 1.0).abs() < 1e-3, "{x} against {printed}");
    }
}

/// A thin mix whose binder is right and whose other wishes are out of reach: the binder stays right.
#[test]
fn a_wish_already_granted_is_not_given_up_for_another() {
    let document = bowl(126.2, 287.4, 7.84, 65.8);
    let rescued = advise_on(&document, 500.0, Symptom::ThinOnesBreak);
    let binder = rescued
        .after
        .iter()
        .find(|(reading, _)| reading.id() == "binder_share")
        .unwrap();
    let (value, window) = (binder.1.value.estimate().unwrap().value, binder.1.window.unwrap());
    assert!(value >= window.low - 1e-3, "{value} of {}", window.low);
}

/// Far too wet, and out of reach: less powder to the granules would get nearer, but what is in its window is not given up.
#[test]
fn what_is_in_its_window_stays_there_though_others_would_come_nearer() {
    let document = mix(&[
        ("tvp_soy_granules", 63.0),
        ("pea_protein_isolate", 20.0),
        ("water", 502.0),
        ("methylcellulose", 8.0),
        ("coconut_oil", 118.0),
        ("table_salt", 5.0),
    ]);
    let rescued = advise_on(&document, 500.0, Symptom::Mushy);
    assert_eq!(rescued.status, Status::OutOfReach);
    let found = rescued
        .after
        .iter()
        .find(|(reading, _)| reading.id() == "powder_to_textured");
    let (_, powder) = found.unwrap();
    let (value, window) = (powder.value.estimate().unwrap().value, powder.window.unwrap());
    assert!(value >= window.low - 1e-6, "{value} of {}", window.low);
}
