//! Numbers as the cook sees them.

use pattywright::measure::Estimate;
use pattywright::measure::figure::{fixed, grams, trimmed, with_spread};
use proptest::prelude::*;

#[track_caller]
fn check_fixed(value: f64, decimals: u8, expected: &str) {
    assert_eq!(fixed(value, decimals), expected, "{value}");
}

#[test]
fn values_are_rounded_to_nearest_and_halves_go_outward() {
    check_fixed(0.0, 0, "0");
    check_fixed(-0.0, 1, "0.0");
    check_fixed(0.5, 0, "1");
    check_fixed(1.5, 0, "2");
    check_fixed(2.5, 0, "3");
    check_fixed(-2.5, 0, "−3");
    check_fixed(0.125, 2, "0.13");
    check_fixed(1.005, 2, "1.00");
    check_fixed(9.995, 2, "9.99");
    check_fixed(9.9999, 2, "10.00");
    check_fixed(0.999, 0, "1");
    check_fixed(-0.004, 2, "0.00");
    check_fixed(1e-300, 3, "0.000");
    check_fixed(5e-324, 9, "0.000000000");
    check_fixed(1234.5, 1, "1234.5");
    check_fixed(1.0, 200, "1.000000000");
}

#[test]
fn what_has_no_figure_is_a_dash() {
    check_fixed(f64::NAN, 1, "–");
    check_fixed(f64::INFINITY, 1, "–");
    check_fixed(f64::NEG_INFINITY, 1, "–");
    check_fixed(1e18, 1, "–");
    assert_eq!(grams(f64::NAN), "–");
    assert_eq!(with_spread(f64::NAN, 1.0), ("–".to_string(), "–".to_string()));
}

#[test]
fn zeros_at_the_end_can_be_dropped() {
    assert_eq!(trimmed(0.5, 3), "0.5");
    assert_eq!(trimmed(100.0, 3), "100");
    assert_eq!(trimmed(100.0, 0), "100");
    assert_eq!(trimmed(-1.25, 1), "−1.3");
}

#[test]
fn weights_read_like_a_kitchen_scale() {
    for (value, expected) in [
        (0.85, "0.85 g"),
        (3.4, "3.4 g"),
        (26.0, "26 g"),
        (26.4, "26 g"),
        (1250.0, "1250 g"),
        (9999.4, "9999 g"),
        (12_500.0, "12.50 kg"),
        (9_999.6, "10.00 kg"),
        (0.996, "1.0 g"),
        (9.96, "10 g"),
        (0.0, "0.00 g"),
        (0.002, "under 0.01 g"),
        (-3.4, "−3.4 g"),
    ] {
        assert_eq!(grams(value), expected);
    }
}

#[track_caller]
fn check_spread(value: f64, sd: f64, expected: &str) {
    let (value_text, sd_text) = with_spread(value, sd);
    assert_eq!(format!("{value_text} ± {sd_text}"), expected);
}

/// Source: Particle Data Group, Review of Particle Physics (2018), Introduction 5.3, as quoted with the first three examples by
/// the documentation of the `pdground` package and the STAR collaboration's guide to digits; the last two are from memory.
///
/// DIFFERENCE: `pdground` gives 12.2135 ± 0.03215 as 12.214, a decimal half; the nearest double lies below it.
#[test]
fn the_spread_decides_the_digits_as_the_particle_data_group_rounds() {
    check_spread(12.2135, 0.06515, "12.21 ± 0.07");
    check_spread(0.279008, 0.0123261, "0.279 ± 0.012");
    check_spread(0.279008, 0.000766099, "0.2790 ± 0.0008");
    check_spread(0.827, 0.119, "0.83 ± 0.12");
    check_spread(0.827, 0.367, "0.8 ± 0.4");
    check_spread(12.2135, 0.03215, "12.213 ± 0.032");
}

#[test]
fn the_spread_decides_the_digits_in_the_kitchen_too() {
    check_spread(149.7, 24.1, "150 ± 24");
    check_spread(1.31, 0.41, "1.3 ± 0.4");
    check_spread(1497.0, 241.0, "1500 ± 240");
    check_spread(1497.0, 600.0, "1500 ± 600");
    check_spread(20.0, 0.96, "20.0 ± 1.0");
    check_spread(188.0, 0.0, "188 ± 0");
    check_spread(0.1 + 0.2, 0.0, "0.3 ± 0");
    check_spread(-1.31, 0.41, "−1.3 ± 0.4");
    check_spread(7.0, f64::NAN, "7 ± –");
    check_spread(7.0, f64::INFINITY, "7 ± –");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    /// The standard library rounds exact halves to even; away from them the two agree to the last digit.
    #[test]
    fn figures_agree_with_the_standard_library(value in -1e15..1e15f64, exponent in 0..24i32, decimals in 0..10u8) {
        let value = value / 10f64.powi(exponent);
        let digits = usize::from(decimals);
        let theirs = format!("{:.digits$}", value.abs());
        let is_half = format!("{:.60}", value.abs())
            .split_once('.')
            .is_some_and(|(_, parts)| parts[digits..].trim_end_matches('0') == "5");
        let zero = theirs.trim_matches(['0', '.']).is_empty();
        let theirs = if value < 0.0 && !zero { format!("−{theirs}") } else { theirs };
        prop_assert!(is_half || fixed(value, decimals) == theirs, "{} {}", fixed(value, decimals), theirs);
    }

    #[test]
    fn no_figure_panics(bits in any::<u64>(), other in any::<u64>(), decimals in any::<u8>()) {
        let (value, sd) = (f64::from_bits(bits), f64::from_bits(other));
        fixed(value, decimals);
        grams(value);
        with_spread(value, sd);
    }
}

#[test]
fn independent_spreads_add_in_squares() {
    let granules = Estimate { value: 90.0, sd: 3.0 };
    let water = Estimate { value: 200.0, sd: 4.0 };
    assert_eq!(granules.plus(water), Estimate { value: 290.0, sd: 5.0 });
    assert_eq!(granules.scale(-2.0), Estimate { value: -180.0, sd: 6.0 });
    assert_eq!(granules.plus(Estimate::exact(10.0)), Estimate { value: 100.0, sd: 3.0 });
    assert_eq!(
        Estimate::with_relative_sd(100.0, 0.03)
            .times(Estimate::with_relative_sd(2.0, 0.04))
            .sd,
        10.0
    );
    assert_eq!(Estimate::exact(0.0).relative_sd(), None);
}
