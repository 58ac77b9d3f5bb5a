//! How sure a measured amount is.

use pattywright::measure::quantity::read;
use pattywright::measure::{Habits, relative_sd};

/// Round habits, so that the expected figures can be worked out by hand.
const HABITS: Habits = Habits {
    scale_step_grams: 1.0,
    cup: 0.06,
    spoon: 0.1,
    pinch: 0.4,
    jug: 0.03,
    packed: 0.08,
    heaped: 0.24,
    scant: 0.05,
    about: 0.08,
};

#[track_caller]
fn check(text: &str, expected: f64) {
    let found = relative_sd(&read(text).unwrap(), &HABITS);
    assert!((found - expected).abs() < 1e-12, "{text}: {found}, not {expected}");
}

#[test]
fn more_scoops_are_surer_than_one() {
    check("1 cup", 0.06);
    check("½ cup", 0.06);
    check("4 cups", 0.03);
    check("1 tsp", 0.1);
    check("4 tbsp", 0.05);
    check("a pinch", 0.4);
    check("400 ml", 0.03);
}

/// Source: JCGM 100:2008 (GUM), 4.3.7: a value known to ±a has the standard uncertainty a/√3.
#[test]
fn a_scale_errs_by_its_step() {
    check("10 g", 0.5 / 3f64.sqrt() / 10.0);
    check("1 kg", 0.5 / 3f64.sqrt() / 1000.0);
    check("0.5 g", 1.0 / 3f64.sqrt());
    check("4 x 10 g", 0.5 / 3f64.sqrt() * 2.0 / 40.0);
}

#[test]
fn careless_filling_adds_in_squares() {
    check("1 packed cup", 0.1);
    check("1 heaped tsp", 0.26);
    check("1 scant cup", 0.06f64.hypot(0.05));
    check("about 1 cup", 0.1);
}

#[test]
fn a_range_spreads_evenly_between_its_ends() {
    check("2 cloves", 0.0);
    check("1 to 3 cloves", 1.0 / 3f64.sqrt() / 2.0);
}

#[test]
fn parts_of_a_sum_err_on_their_own() {
    // 48 tsp and 16 tsp: sd 2.88 and 16·0.1/√16 tsp.
    check("1 cup + 16 tsp", 2.88f64.hypot(16.0 * 0.1 / 4.0) / 64.0);
}

#[test]
fn default_habits_are_wider_the_rougher_the_measure() {
    let spread = |text: &str| relative_sd(&read(text).unwrap(), &Habits::default());
    let order = ["100 g", "100 ml", "1 cup", "1 tsp", "1 heaped tsp", "1 pinch"];
    for pair in order.windows(2) {
        assert!(spread(pair[0]) < spread(pair[1]), "{pair:?}");
    }
}

#[test]
fn habits_left_out_of_a_saved_document_keep_their_defaults() {
    let habits: Habits = serde_json::from_str(r#"{ "scale_step_grams": 0.1 }"#).unwrap();
    assert_eq!(
        habits,
        Habits {
            scale_step_grams: 0.1,
            ..Habits::default()
        }
    );
}
