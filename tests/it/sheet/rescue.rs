//! What is left in the bowl once some patties are formed.

use pattywright::sheet::rescue::left_after;

/// By hand: 600 g less four patties of 94 g leave 224 g; a rescue is worked out for that, so a wrong figure salts the bowl wrongly.
#[test]
fn what_is_left_is_the_mix_less_the_patties_formed() {
    assert_eq!(left_after(600.0, 4.0, 94.0), Some(224.0));
    assert_eq!(left_after(600.0, 0.0, 94.0), Some(600.0));
}

/// An empty bowl cannot be rescued, nor one from which more was formed than was in it.
#[test]
fn nothing_left_or_less_is_no_figure() {
    assert_eq!(left_after(600.0, 6.0, 100.0), None);
    assert_eq!(left_after(600.0, 7.0, 100.0), None);
    assert_eq!(left_after(600.0, -1.0, 100.0), None);
    assert_eq!(left_after(f64::NAN, 4.0, 94.0), None);
}
