//! Grams, percentages, readings, batches.

mod published;
mod spread;

use pattywright::document::{Document, read};
use pattywright::formula::{Base, Batch, Patties, Reading, Stage, Style, Value, Weighed, weigh_out};
use pattywright::pantry::{Entry, NotWeighed};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

fn document(lines: &str, more: &str) -> Document {
    let text =
        format!(r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","lines":[{lines}]}}{more}]}}"#);
    let asked = read(&text).unwrap();
    assert!(asked.problems.is_empty(), "{:?}", asked.problems);
    asked.document
}

fn line(id: &str, amount: &str) -> String {
    format!(r#"{{"ingredient":"{id}","amount":"{amount}"}}"#)
}

fn weighed(lines: &[(&str, &str)]) -> Weighed {
    let lines: Vec<String> = lines.iter().map(|(id, amount)| line(id, amount)).collect();
    let document = document(&lines.join(","), "");
    document.kitchen().weigh(&document.formulas[0])
}

fn value(weighed: &Weighed, reading: Reading) -> f64 {
    reading.of(weighed).value.estimate().unwrap().value
}

/// Common practice, no source: such a cup of dry granules makes about a pound of mix.
#[test]
fn one_cup_of_granules_makes_about_a_pound_of_mix() {
    let mix = weighed(&[
        ("tvp_soy_granules", "1 cup"),
        ("pea_protein_isolate", "1/3 cup"),
        ("methylcellulose", "1 tbsp"),
        ("onion_powder", "2 tsp"),
        ("table_salt", "1 tsp"),
        ("smoked_paprika", "1 tsp"),
        ("water", "1 cup"),
        ("coconut_oil", "60 g"),
    ]);
    assert!((360.0..=540.0).contains(&mix.total.value), "{}", mix.total.value);
}

/// Worked by hand from FNDDS 41440000 (51.1 % protein, 6.24 % water) and water taken as 99.9 % water (SR28 14429).
#[test]
fn readings_follow_by_hand() {
    let mix = weighed(&[
        ("tvp_soy_granules", "100 g"),
        ("water", "250 g"),
        ("methylcellulose", "7 g"),
    ]);
    assert!((value(&mix, Reading::BinderShare) - 700.0 / 357.0).abs() < 1e-9);
    assert!((value(&mix, Reading::Protein) - 5110.0 / 357.0).abs() < 0.02);
    assert!((value(&mix, Reading::Hydration) - 2.5).abs() < 0.01);
    let shares: f64 = mix.lines.iter().filter_map(|line| mix.share(line)).sum();
    assert!((shares - 100.0).abs() < 1e-9);
    assert_eq!(mix.bakers_percentage(&mix.lines[1]), Some(250.0));
}

/// Worked by hand: of 80 g granules, 20 g powder and 200 g water, each base is 100.
#[test]
fn the_base_of_the_percentages_is_the_cooks_to_choose() {
    let mix = [
        ("tvp_soy_granules", "80 g"),
        ("pea_protein_isolate", "20 g"),
        ("water", "200 g"),
    ];
    let lines = mix.map(|(id, amount)| line(id, amount)).join(",");
    let mut document = document(&lines, "");
    for (base, expected) in [
        (Base::DryProtein, [80.0, 20.0, 200.0]),
        (Base::Textured, [100.0, 25.0, 250.0]),
        (Base::Total, [80.0 / 3.0, 20.0 / 3.0, 200.0 / 3.0]),
    ] {
        document.formulas[0].base = base;
        let weighed = document.kitchen().weigh(&document.formulas[0]);
        for (line, expected) in weighed.lines.iter().zip(expected) {
            let percentage = weighed.bakers_percentage(line).unwrap();
            assert!(
                (percentage - expected).abs() < 1e-9,
                "{base:?}: {} {percentage}",
                line.name
            );
        }
    }
}

#[test]
fn a_line_without_grams_leaves_readings_unknown_and_is_named() {
    let mix = weighed(&[("tvp_soy_granules", "100 g"), ("water", "some")]);
    assert!(!mix.complete());
    assert_eq!(mix.missing(), ["Water"]);
    assert!(matches!(Reading::Moisture.of(&mix).value, Value::Unknown(why) if why.contains("Water")));
}

/// Half granules of 51.1 % protein (FNDDS 41440000), the rest water and a little that nobody has described.
/// Source of the spread: JCGM 100:2008 (GUM), 4.3.7: what lies evenly in a range of width w has a variance of w²/12.
#[test]
fn a_little_of_unknown_make_up_counts_half_way_and_more_gives_a_range() {
    let protein = |unknown_percent: f64| {
        let lines = [
            line("tvp_soy_granules", "5000 g"),
            line("water", &format!("{} g", 5000.0 - 100.0 * unknown_percent)),
            line("dust", &format!("{} g", 100.0 * unknown_percent)),
        ];
        let mut document = document(&lines.join(","), "");
        document.pantry.push(Entry {
            id: "dust".into(),
            name: "Dust".into(),
            ..Entry::default()
        });
        Reading::Protein
            .of(&document.kitchen().weigh(&document.formulas[0]))
            .value
    };
    let known = protein(1.0);
    let known = known.estimate().unwrap();
    assert!((known.value - (25.55 + 0.5)).abs() < 0.02, "{known:?}");
    assert!((known.sd - 1.0 / 12f64.sqrt()).abs() < 0.01, "{known:?}");
    match protein(3.0) {
        Value::Between {
            at_least,
            at_most,
            lines,
        } => {
            assert!((at_least - 25.55).abs() < 0.02 && (at_most - 28.55).abs() < 0.02);
            assert_eq!(lines, ["Dust"]);
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn readings_look_through_a_formula_within() {
    let inner = format!(
        r#",{{"id":"fat","name":"Fat","lines":[{}]}}"#,
        line("coconut_oil", "50 g")
    );
    let document = document(
        &format!(
            r#"{},{{"formula":"fat","amount":"20 g"}}"#,
            line("tvp_soy_granules", "80 g")
        ),
        &inner,
    );
    let mix = document.kitchen().weigh(&document.formulas[0]);
    assert!((value(&mix, Reading::SolidFatShare) - 20.0).abs() < 1e-9);
}

#[test]
fn a_formula_within_has_no_grams_while_a_line_of_it_has_none() {
    let inner = format!(
        r#",{{"id":"fat","name":"Fat","lines":[{},{}]}}"#,
        line("coconut_oil", "50 g"),
        line("water", "some")
    );
    let document = document(r#"{"formula":"fat","amount":"20 g"}"#, &inner);
    let mix = document.kitchen().weigh(&document.formulas[0]);
    assert_eq!(mix.lines[0].amount, Err(NotWeighed::Within("Fat".into())));
    assert!(!mix.complete());
}

#[test]
fn a_circle_is_refused_with_its_path() {
    let inner = r#",{"id":"fat","name":"Fat","lines":[{"formula":"mix","amount":"5 g"}]}"#;
    let document = document(r#"{"formula":"fat","amount":"20 g"}"#, inner);
    let mix = document.kitchen().weigh(&document.formulas[0]);
    let why = mix.lines[0].amount.as_ref().unwrap_err().to_string();
    assert!(why.contains("Mix → Fat → Mix"), "{why}");
}

/// Formulas that name each other: formula `i` has lines for each of `within(i)`.
fn nested(count: usize, within: impl Fn(usize) -> Vec<usize>) -> Document {
    let formula = |i: usize| {
        let inner = within(i)
            .into_iter()
            .map(|i| format!(r#"{{"formula":"f{i}","amount":"1 batch"}}"#));
        let lines: Vec<String> = [line("water", "1 g")].into_iter().chain(inner).collect();
        format!(r#",{{"id":"f{i}","name":"F{i}","lines":[{}]}}"#, lines.join(","))
    };
    document(
        r#"{"formula":"f0","amount":"1 batch"}"#,
        &(0..count).map(formula).collect::<String>(),
    )
}

#[test]
fn a_formula_named_by_many_lines_is_weighed_once() {
    // A chain in which each names the next twice has 2^16 ways through it.
    let doubled = nested(17, |i| if i < 16 { vec![i + 1; 2] } else { Vec::new() });
    let mix = doubled.kitchen().weigh(&doubled.formulas[0]);
    assert!(
        (mix.total.value - (2f64.powi(17) - 1.0)).abs() < 1e-6,
        "{}",
        mix.total.value
    );
    // Where each of sixty names all the others, there are more ways than atoms.
    let tangled = nested(60, |i| (0..60).filter(|other| *other != i).collect());
    let mix = tangled.kitchen().weigh(&tangled.formulas[0]);
    let why = mix.lines[0].amount.as_ref().unwrap_err().to_string();
    assert!(
        why.contains("cannot contain itself") || why.contains("too many others"),
        "{why}"
    );
    let deep = nested(2_000 - 1, |i| if i < 1_998 { vec![i + 1] } else { Vec::new() });
    let mix = deep.kitchen().weigh(&deep.formulas[0]);
    let why = mix.lines[0].amount.as_ref().unwrap_err().to_string();
    assert!(why.contains("“F19” is a formula within too many others"), "{why}");
}

#[test]
fn patties_of_two_weights_set_the_batch() {
    let mix = weighed(&[("tvp_soy_granules", "100 g"), ("water", "250 g")]);
    let four_and_six = vec![
        Patties {
            count: 4.0,
            grams: 90.0,
        },
        Patties {
            count: 6.0,
            grams: 45.0,
        },
    ];
    let batch = Batch::Patties {
        patties: four_and_six,
        loss_percent: 3.0,
    };
    let scaled = batch.scale(&mix).unwrap();
    assert!((scaled.mix_g - 630.0 / 0.97).abs() < 1e-9);
    let out = weigh_out(&mix, &scaled, &BTreeMap::new());
    assert!((out.steps.last().unwrap().running_total - scaled.mix_g).abs() < 1e-9);
    for factor in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(Batch::Factor { factor }.scale(&mix).is_err(), "{factor}");
    }
    let limited = Batch::Limited {
        line: mix.lines[0].key,
        grams: 50.0,
    };
    assert!((limited.scale(&mix).unwrap().factor - 0.5).abs() < 1e-12);
}

/// Dry, then wet, then fat, whatever the order of the lines; a seasoning that is mostly water goes with the liquids.
#[test]
fn fat_goes_in_last_and_wet_seasonings_with_the_liquids() {
    let mix = weighed(&[
        ("coconut_oil", "60 g"),
        ("soy_sauce", "10 g"),
        ("water", "250 g"),
        ("table_salt", "5 g"),
        ("tvp_soy_granules", "100 g"),
    ]);
    let scaled = Batch::Factor { factor: 1.0 }.scale(&mix).unwrap();
    let out = weigh_out(&mix, &scaled, &BTreeMap::new());
    let stages: Vec<Stage> = out.steps.iter().map(|step| step.stage).collect();
    let (dry, wet, fat) = (Stage::Dry, Stage::Liquids, Stage::Fat);
    assert_eq!(stages, [dry, dry, wet, wet, fat]);
    assert_eq!(out.steps[4].grams, 60.0);
}

/// A scale that shows whole grams is off by an even half gram, 1/√12 as a standard deviation; two of them by √2 as much.
#[test]
fn the_spread_of_the_whole_adds_up_as_chance_does() {
    let one = weighed(&[("tvp_soy_granules", "100 g")]);
    let two = weighed(&[("tvp_soy_granules", "100 g"), ("water", "250 g")]);
    assert!((one.total.sd - 1.0 / 12f64.sqrt()).abs() < 1e-12, "{}", one.total.sd);
    assert!((two.total.sd - (2.0 / 12f64).sqrt()).abs() < 1e-12, "{}", two.total.sd);
}

/// Of 6 g that nobody knows the water of, half counts as water.
#[test]
fn what_is_unknown_counts_half_below_the_line_too() {
    let known = [
        line("water", "385 g"),
        line("methylcellulose", "9 g"),
        line("coconut_oil", "60 g"),
    ]
    .join(",");
    let own = r#"],"pantry":[{"id":"mine","name":"Mine"}"#;
    let of = |lines: &str| {
        let document = document(lines, own);
        let weighed = document.kitchen().weigh(&document.formulas[0]);
        Reading::BinderInWaterPhase.of(&weighed).value.estimate().unwrap().value
    };
    let water = 100.0 * 9.0 / of(&known);
    let with = of(&format!("{known},{}", line("mine", "6 g")));
    assert!((with - 100.0 * 9.0 / (water + 3.0)).abs() < 1e-9, "{with}");
}

#[test]
fn everything_that_is_offered_has_a_name_of_its_own() {
    let check = |names: Vec<&str>| {
        let told: BTreeSet<&&str> = names.iter().filter(|name| !name.is_empty()).collect();
        assert_eq!(told.len(), names.len(), "{names:?}");
    };
    check(Base::ALL.map(Base::name).to_vec());
    check(Style::ALL.map(Style::name).to_vec());
    check(Reading::ALL.map(Reading::name).to_vec());
}

proptest! {
    #[test]
    fn scaling_keeps_every_share(granules in 1.0..500.0f64, water in 1.0..900.0f64, factor in 0.01..50.0f64) {
        let (granules, water) = (format!("{granules:.1} g"), format!("{water:.1} g"));
        let mix = weighed(&[("tvp_soy_granules", &granules), ("water", &water)]);
        let scaled = Batch::Factor { factor }.scale(&mix).unwrap();
        for ((_, grams), scaled_grams) in mix.known().zip(&scaled.grams) {
            prop_assert!((scaled_grams / scaled.mix_g - grams.value / mix.total.value).abs() < 1e-12);
        }
    }
}
