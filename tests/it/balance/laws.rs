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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]
    #[test]
    fn laws_hold_for_any_mix(granules in 20.0..300.0f64, water in 20.0..900.0f64, binder in 0.1..40.0f64, fat in 1.0..200.0f64) {
        let document = bowl(granules, water, binder, fat);
        let kitchen = document.kitchen();
        for symptom in Symptom::ALL {
            let Ok(rescued) = rescue(&kitchen, &document.formulas[0], 500.0, symptom) else { continue };
            prop_assert!(rescued.add.iter().chain(&rescued.if_that_fails).chain(&rescued.top_up).all(|add| add.grams > 0.0));
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
            let half = rescue(&kitchen, &document.formulas[0], 250.0, symptom).unwrap();
            let sum = |add: &[Add]| add.iter().map(|add| add.grams).sum::<f64>();
            prop_assert!((sum(&rescued.add) - 2.0 * sum(&half.add)).abs() < 1e-3 * 500.0);
            let after = apply(&kitchen, &document.formulas[0], 500.0, &rescued.add, "", "").unwrap();
            prop_assert!((kitchen.weigh(&after).total.value - 500.0 - sum(&rescued.add)).abs() < 0.5, "mass balance");
        }
    }
}
