//! Volumes back in level measures.

use pattywright::measure::quantity::read;
use pattywright::measure::{Cup, Unit, level_measures};
use proptest::prelude::*;

/// Checks which level measures are named for a typed volume.
#[track_caller]
fn check(volume: &str, cup: Cup, expected: &str) {
    let millilitres = read(volume).unwrap().millilitres(cup).unwrap();
    let found = level_measures(millilitres, cup);
    let found = found.map_or("none".to_string(), |measures| measures.to_string());
    assert_eq!(found, expected, "{volume}");
}

#[test]
fn few_scoops_are_found() {
    check("1 cup", Cup::Us, "1 cup");
    check("1 cup + 2 tbsp", Cup::Us, "1 cup + 2 tbsp");
    check("5 tbsp", Cup::Us, "¼ cup + 1 tbsp");
    check("2/3 cup", Cup::Us, "⅔ cup");
    check("3/4 cup", Cup::Us, "¾ cup");
    check("1½ cups", Cup::Us, "1½ cups");
    check("7/12 cup", Cup::Us, "⅓ cup + ¼ cup");
    check("2 tsp", Cup::Us, "2 tsp");
    check("1½ tbsp", Cup::Us, "1½ tbsp");
    check("1¼ tsp", Cup::Us, "1¼ tsp");
    check("¼ tsp", Cup::Us, "¼ tsp");
    check("4 tsp", Cup::Australian, "1 tbsp");
    check("10.3 cups", Cup::Us, "10⅓ cups");
    check("1 l", Cup::Metric, "4 cups");
    check("280 ml", Cup::Us, "1 cup + 3 tbsp");
    check("1.99 cups", Cup::Us, "2 cups");
    check("5/8 tsp", Cup::Us, "½ tsp + ⅛ tsp");
}

#[test]
fn too_little_and_too_much_have_no_spoon() {
    check("1/17 tsp", Cup::Us, "none");
    check("1 pinch", Cup::Us, "⅛ tsp");
    assert_eq!(level_measures(0.0, Cup::Us), None);
    assert_eq!(level_measures(-5.0, Cup::Us), None);
    assert_eq!(level_measures(f64::NAN, Cup::Us), None);
    assert_eq!(level_measures(f64::INFINITY, Cup::Us), None);
    assert_eq!(level_measures(1e7, Cup::Us), None);
}

/// How far off the measures may be, as documented.
fn near_ml(millilitres: f64, cup: Cup) -> f64 {
    let eighth_cup_ml = Unit::Cup.millilitres(cup).unwrap() / 8.0;
    let half_smallest_ml = Unit::Teaspoon.millilitres(cup).unwrap() / 16.0;
    (0.02 * millilitres).min(eighth_cup_ml).max(half_smallest_ml)
}

/// The fewest scoops that come near enough after the whole cups that fit, by trying every sum of up to three scoops.
fn fewest_of_three(millilitres: f64, cup: Cup) -> Option<u32> {
    let spoons_ml = |unit: Unit, parts: &[f64]| -> Vec<f64> {
        parts.iter().map(|part| part * unit.millilitres(cup).unwrap()).collect()
    };
    let mut sizes_ml = spoons_ml(Unit::Cup, &[1.0, 0.5, 1.0 / 3.0, 0.25]);
    sizes_ml.extend(spoons_ml(Unit::Tablespoon, &[1.0, 0.5]));
    sizes_ml.extend(spoons_ml(Unit::Teaspoon, &[1.0, 0.5, 0.25, 0.125]));
    let whole_cups = (millilitres / sizes_ml[0]).floor();
    let left_ml = millilitres - whole_cups * sizes_ml[0];
    let near = |sum: f64| (sum - left_ml).abs() < near_ml(millilitres, cup) - 1e-9;
    if 0.0 < whole_cups && near(0.0) {
        return Some(whole_cups as u32);
    }
    let one = sizes_ml.clone();
    let more = |sums: &[f64]| -> Vec<f64> {
        sums.iter()
            .flat_map(|sum| sizes_ml.iter().map(move |size| sum + size))
            .collect()
    };
    let two = more(&one);
    let three = more(&two);
    [one, two, three]
        .iter()
        .zip(1..)
        .find_map(|(sums, scoops)| sums.iter().any(|sum| near(*sum)).then_some(whole_cups as u32 + scoops))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn the_error_left_is_the_error_told(share in 0.0..1.0f64, cup in proptest::sample::select(&Cup::ALL[..])) {
        // From the smallest answer to about ten litres, small volumes as often as large ones.
        let millilitres = Unit::Teaspoon.millilitres(cup).unwrap() / 16.0 * 30_000f64.powf(share) * 1.000_001;
        let measures = level_measures(millilitres, cup);
        prop_assert!(measures.is_some(), "{} ml has no measures", millilitres);
        let measures = measures.unwrap();
        let held_ml: f64 = measures
            .parts
            .iter()
            .map(|(count, size, unit)| f64::from(*count) * size.share() * unit.millilitres(cup).unwrap())
            .sum();
        prop_assert!((held_ml - measures.millilitres).abs() < 1e-9);
        prop_assert!((held_ml - millilitres - measures.error_millilitres).abs() < 1e-9);
        prop_assert!(measures.error_millilitres.abs() <= near_ml(millilitres, cup) + 1e-9);
        prop_assert!(measures.parts.len() <= 4);
        let written = read(&measures.to_string()).unwrap().millilitres(cup).unwrap();
        prop_assert!((written - held_ml).abs() < 1e-9 * held_ml, "{}", measures);
        let scoops: u32 = measures.parts.iter().map(|(count, ..)| count).sum();
        if let Some(fewest) = fewest_of_three(millilitres, cup) {
            prop_assert!(scoops <= fewest, "{} takes {} scoops, {} would do", measures, scoops, fewest);
        }
    }
}
