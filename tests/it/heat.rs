//! Heat: properties, conduction and the cook's answers against published figures and laws.
#![allow(clippy::unwrap_used, reason = "helpers of tests may fail a test")]

mod cook;
mod crust;
mod doubt;
mod properties;
mod slab;

use pattywright::heat::Composition;

const MODEL_PATTY: Composition = Composition {
    water: 0.60,
    protein: 0.18,
    fat: 0.12,
    carbohydrate: 0.05,
    fibre: 0.03,
    ash: 0.02,
};
const LEAN_BEEF: Composition = Composition {
    water: 0.74,
    protein: 0.21,
    fat: 0.04,
    carbohydrate: 0.0,
    fibre: 0.0,
    ash: 0.01,
};

#[track_caller]
fn check_within(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "found {found}, expected {expected} ± {tolerance}"
    );
}
