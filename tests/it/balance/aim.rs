//! Targets with an aim: the least salt, or the most protein.

use super::reach::{after, ask};
use super::{mix, plain, seasoned};
use pattywright::balance::{Aim, Targets};
use pattywright::formula::Reading;

/// With an aim a line may at most double: no reading is in its window, so that no guard stops it sooner.
#[test]
fn an_aim_doubles_a_line_at_most() {
    let targets = Targets {
        aim: Aim::MostProtein,
        ..Targets::default()
    };
    let changed = ask(&mix(&[("pea_protein_isolate", 20.0), ("water", 480.0)]), &targets).unwrap();
    let grams: Vec<f64> = changed.change.iter().map(|change| change.grams).collect();
    assert_eq!(grams.len(), 2);
    assert!(
        (grams[0] - 20.0).abs() < 1e-6 && (grams[1] + 20.0).abs() < 1e-6,
        "{grams:?}"
    );
}

/// As far as protein goes, water and oil are alike; the larger line changes less by its own measure, so that the water gives way.
#[test]
fn what_gives_way_to_an_aim_is_the_largest_line() {
    let targets = Targets {
        aim: Aim::MostProtein,
        ..Targets::default()
    };
    let document = mix(&[("pea_protein_isolate", 20.0), ("water", 420.0), ("canola_oil", 60.0)]);
    let changed = ask(&document, &targets).unwrap();
    assert_eq!(changed.change.len(), 2, "{:?}", changed.change);
    for (change, (name, grams)) in changed.change.iter().zip([("Pea protein", 20.0), ("Water", -20.0)]) {
        assert_eq!(change.name, name);
        assert!((change.grams - grams).abs() < 1e-6, "{name}: {} g", change.grams);
    }
}

/// Granules bring 0.8 % of salt of their own: less of them for more water and oil would win a trace, at the cost of the patty.
#[test]
fn a_mix_is_not_turned_over_for_a_trace_of_salt() {
    let targets = Targets {
        aim: Aim::LeastSalt,
        ..Targets::default()
    };
    for salt in [7.0, 9.0, 20.0] {
        let changed = ask(&seasoned(9.0, 385.0, 60.0, salt), &targets).unwrap();
        let moved: Vec<&str> = changed.change.iter().map(|change| change.name.as_str()).collect();
        assert!(moved.contains(&"Salt"), "{salt} g: {moved:?}");
        let kept = ["Soy granules", "Methylcellulose", "Coconut oil"];
        assert!(kept.iter().all(|kept| !moved.contains(kept)), "{salt} g: {moved:?}");
    }
}

/// With an aim a line keeps half of itself: of 20 g of salt 10 g stay, 1.5 % of the mix, though 1.1 % would still be in the window.
#[test]
fn an_aim_keeps_half_of_a_line_at_least() {
    let targets = Targets {
        aim: Aim::LeastSalt,
        lock: ["tvp_soy_granules", "pea_protein_isolate", "water", "methylcellulose"]
            .map(Into::into)
            .into(),
        ..Targets::default()
    };
    let changed = ask(&seasoned(9.0, 385.0, 60.0, 20.0), &targets).unwrap();
    assert_eq!(changed.change.len(), 2, "{:?}", changed.change);
    for (change, (name, grams)) in changed.change.iter().zip([("Coconut oil", 10.0), ("Salt", -10.0)]) {
        assert_eq!(change.name, name);
        assert!((change.grams - grams).abs() < 1e-6, "{name}: {} g", change.grams);
    }
}

#[test]
fn other_aims_are_followed_within_bounds() {
    let document = plain();
    let of = |aim| {
        let targets = Targets {
            aim,
            ..Targets::default()
        };
        ask(&document, &targets).unwrap()
    };
    let (salt, protein) = (of(Aim::LeastSalt), of(Aim::MostProtein));
    let now = document.kitchen().weigh(&document.formulas[0]);
    let was = |reading: Reading| reading.of(&now).value.estimate().unwrap().value;
    assert!(after(&salt, Reading::Salt) < was(Reading::Salt));
    assert!(after(&protein, Reading::Protein) > was(Reading::Protein));
    // Guards: what was in its window is still there.
    for (changed, reading) in [(&salt, Reading::Moisture), (&protein, Reading::Hydration)] {
        let (_, value) = changed.after.iter().find(|(other, _)| *other == reading).unwrap();
        let window = value.window.unwrap();
        assert!((window.low - 1e-6..=window.high + 1e-6).contains(&after(changed, reading)));
    }
}
