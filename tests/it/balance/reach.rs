//! Targets.

use super::{mix, plain};
use pattywright::balance::{Changed, RescueProblem, Status, Targets, Want, change_formula, reach};
use pattywright::document::{Document, evaluate, read};
use pattywright::formula::{Component, Profile, Reading};
use proptest::prelude::*;

fn want(reading: Reading, low: Option<f64>, high: Option<f64>) -> Want {
    Want { reading, low, high }
}

pub(super) fn ask(document: &Document, targets: &Targets) -> Result<Changed, RescueProblem> {
    reach(&document.kitchen(), &document.formulas[0], targets)
}

pub(super) fn after(changed: &Changed, reading: Reading) -> f64 {
    let found = changed.after.iter().find(|(other, _)| *other == reading).unwrap();
    found.1.value.estimate().unwrap().value
}

/// By hand: 500 g in all, and only the powder has protein, so it has to weigh 0.20 × 500 / p.
#[test]
fn two_lines_by_hand() {
    let document = mix(&[("pea_protein_isolate", 100.0), ("water", 400.0)]);
    let kitchen = document.kitchen();
    let powder = kitchen.pantry.get("pea_protein_isolate").unwrap();
    let share = Profile::of(&powder, powder.role()).component(Component::Protein).known;
    let targets = Targets {
        want: vec![want(Reading::Protein, Some(20.0), None)],
        ..Targets::default()
    };
    let changed = ask(&document, &targets).unwrap();
    assert_eq!(changed.status, Status::Reached);
    let more = 0.20 * 500.0 / share - 100.0;
    let grams: Vec<f64> = changed.change.iter().map(|change| change.grams).collect();
    assert_eq!(grams.len(), 2);
    assert!(
        (grams[0] - more).abs() < 1e-6 && (grams[1] + more).abs() < 1e-6,
        "{grams:?} against ±{more}"
    );
    assert!((after(&changed, Reading::Protein) - 20.0).abs() < 1e-6);
    let steps = changed.steps();
    assert!(steps[0].contains(" g more of pea protein,"), "{steps:?}");
    assert!(steps[1].contains(" g less of water"), "{steps:?}");
}

/// 6 g of something undescribed may be water or not: what is reached is reached with half of it, as the reading counts.
#[test]
fn what_is_unknown_counts_half_in_a_target_too() {
    let text = r#"{"format":"pattywright/1","pantry":[{"id":"mine","name":"Mine"}],"formulas":[{"id":"mix","name":"Mix","lines":[
        {"ingredient":"water","amount":"385 g"},{"ingredient":"methylcellulose","amount":"9 g"},
        {"ingredient":"coconut_oil","amount":"60 g"},{"ingredient":"mine","amount":"6 g"}]}]}"#;
    let targets = Targets {
        want: vec![want(Reading::BinderInWaterPhase, Some(3.0), None)],
        lock: vec!["mine".into(), "coconut_oil".into()],
        ..Targets::default()
    };
    let changed = ask(&read(text).unwrap().document, &targets).unwrap();
    assert_eq!(changed.status, Status::Reached);
    let reached = after(&changed, Reading::BinderInWaterPhase);
    assert!((reached - 3.0).abs() < 1e-6, "{reached}");
}

/// So much protein leaves too little room for water; what cannot stay in its window is named.
#[test]
fn a_guard_gives_way_to_a_wish_and_is_named() {
    let targets = Targets {
        want: vec![want(Reading::Protein, Some(30.0), None)],
        ..Targets::default()
    };
    let changed = ask(&plain(), &targets).unwrap();
    assert_eq!(changed.status, Status::Reached);
    let told = "This takes other readings out of their ranges: water in the mix.";
    assert!(
        changed.notes.iter().any(|note| note.starts_with(told)),
        "{:?}",
        changed.notes
    );
}

#[test]
fn what_is_there_already_changes_nothing() {
    let targets = Targets {
        want: vec![want(Reading::Protein, Some(10.0), Some(30.0))],
        ..Targets::default()
    };
    let changed = ask(&plain(), &targets).unwrap();
    assert_eq!((changed.status, changed.change.len()), (Status::NotNeeded, 0));
}

#[test]
fn wishes_that_clash_are_named_and_the_nearest_is_offered() {
    let targets = Targets {
        want: vec![
            want(Reading::Moisture, Some(70.0), None),
            want(Reading::Protein, Some(30.0), None),
        ],
        ..Targets::default()
    };
    let changed = ask(&plain(), &targets).unwrap();
    assert_eq!(changed.status, Status::OutOfReach);
    let clash = &changed.clash[0];
    assert!(clash.contains("Water in the mix should be at least 70 %"), "{clash}");
    assert!(clash.contains("Protein should be at least 30 %"), "{clash}");
    assert!(
        changed.clash[1..]
            .iter()
            .any(|missed| missed.contains("this gets it to")),
        "{:?}",
        changed.clash
    );
}

#[test]
fn a_bound_is_said_as_it_was_typed() {
    let targets = Targets {
        want: vec![
            want(Reading::Salt, None, Some(0.15)),
            want(Reading::BinderShare, Some(99.0), None),
        ],
        ..Targets::default()
    };
    let clash = ask(&plain(), &targets).unwrap().clash.join("; ");
    assert!(clash.contains("Binder in the mix should be at least 99 %"), "{clash}");
    let targets = Targets {
        want: vec![
            want(Reading::PowderToTextured, None, Some(0.15)),
            want(Reading::PowderToTextured, Some(0.15), None),
        ],
        lock: vec!["tvp_soy_granules".into(), "pea_protein_isolate".into()],
        ..Targets::default()
    };
    let clash = ask(&plain(), &targets).unwrap().clash.join("; ");
    assert!(clash.contains("Powder to textured should be at most 0.15;"), "{clash}");
    assert!(clash.contains("this gets it to 0.200"), "{clash}");
}

#[test]
fn a_lock_holds_and_is_named_where_it_is_in_the_way() {
    let document = mix(&[("pea_protein_isolate", 100.0), ("water", 400.0)]);
    let targets = Targets {
        want: vec![want(Reading::Protein, Some(20.0), None)],
        lock: vec!["water".into()],
        ..Targets::default()
    };
    let changed = ask(&document, &targets).unwrap();
    assert_eq!(changed.status, Status::OutOfReach);
    assert!(changed.clash[0].contains("Water stays as it is"), "{:?}", changed.clash);
    assert_eq!(changed.clash[0].matches("Water stays as it is").count(), 1, "told once");
    assert!(changed.change.iter().all(|change| change.name != "Water"));
}

#[test]
fn an_allergen_comes_out() {
    let document = mix(&[
        ("textured_pea_protein", 150.0),
        ("soy_protein_isolate", 30.0),
        ("pea_protein_isolate", 10.0),
        ("water", 385.0),
        ("methylcellulose", 9.0),
    ]);
    let targets = Targets {
        without: vec!["soy".into()],
        ..Targets::default()
    };
    let changed = ask(&document, &targets).unwrap();
    assert_eq!(changed.status, Status::Reached);
    let soy = changed
        .change
        .iter()
        .find(|change| change.ingredient.as_deref() == Some("soy_protein_isolate"));
    assert!((soy.unwrap().grams + 30.0).abs() < 1e-6 && soy.unwrap().then_g < 1e-6);
    let left = change_formula(&document.formulas[0], &changed.change);
    assert!(
        left.lines
            .iter()
            .all(|line| line.ingredient.as_deref() != Some("soy_protein_isolate"))
    );
    let unheard = Targets {
        without: vec!["moonshine".into()],
        ..Targets::default()
    };
    assert!(matches!(ask(&document, &unheard), Err(RescueProblem::NoAllergen(_))));
}

/// A mix with a fat of its own formula; the isolate in that is of soy.
fn nested() -> Document {
    let text = r#"{"format":"pattywright/1",
        "pantry":[{"id":"mine","name":"Mine","panel":{"serving_g":100,"protein_g":50,"fat_g":1,"carbohydrate_g":30,"fibre_g":5,"salt_g":1}}],
        "formulas":[
        {"id":"mix","name":"Mix","style":"standard_patty","lines":[
            {"ingredient":"textured_pea_protein","amount":"150 g"},{"ingredient":"pea_protein_isolate","amount":"30 g"},
            {"ingredient":"water","amount":"385 g"},{"ingredient":"methylcellulose","amount":"9 g"},{"formula":"fat","amount":"60 g"}]},
        {"id":"fat","name":"Grating fat","lines":[{"ingredient":"coconut_oil","amount":"50 g"},{"formula":"paste","amount":"10 g"}]},
        {"id":"paste","name":"Paste","lines":[{"ingredient":"soy_protein_isolate","amount":"5 g"},{"ingredient":"mine","amount":"1 g"},
            {"ingredient":"water","amount":"5 g"}]}]}"#;
    read(text).unwrap().document
}

fn without_soy(lock: &[&str]) -> Targets {
    Targets {
        without: vec!["soy".into()],
        lock: lock.iter().map(|lock| (*lock).into()).collect(),
        ..Targets::default()
    }
}

#[test]
fn an_allergen_is_found_in_a_formula_within_a_formula() {
    let changed = ask(&nested(), &without_soy(&[])).unwrap();
    let gone = changed
        .change
        .iter()
        .find(|change| change.name == "Grating fat")
        .unwrap();
    assert!(gone.then_g < 1e-9 && (gone.grams + 60.0).abs() < 1e-6, "{gone:?}");
    let said = |words: &str| changed.notes.iter().any(|note| note.contains(words));
    assert!(
        said("Grating fat comes out whole: a line of it brings soybeans"),
        "{:?}",
        changed.notes
    );
    assert!(said("which allergens Mine bring"), "{:?}", changed.notes);
    assert!(!said("Grating fat bring:"), "{:?}", changed.notes);
}

#[test]
fn a_formula_within_can_be_locked_by_id_or_name() {
    for lock in ["fat", "Grating fat", "grating fat"] {
        let targets = Targets {
            want: vec![want(Reading::Protein, Some(24.0), None)],
            lock: vec![lock.into()],
            ..Targets::default()
        };
        let changed = ask(&nested(), &targets).unwrap();
        assert!(!changed.change.is_empty(), "{lock}");
        assert!(
            changed.change.iter().all(|change| change.name != "Grating fat"),
            "{lock}"
        );
    }
    let both = ask(&nested(), &without_soy(&["fat"])).unwrap();
    assert!(
        both.notes.iter().any(|note| note.contains("though it was to stay")),
        "{:?}",
        both.notes
    );
}

#[test]
fn a_lock_on_what_is_not_there_is_refused() {
    for lock in ["watre", "soy_protein_isolate", ""] {
        let why = ask(&plain(), &without_soy(&[lock])).unwrap_err();
        assert_eq!(why, RescueProblem::NoLine(lock.into()));
        assert!(why.to_string().contains("is no line of this formula"), "{why}");
    }
}

/// Of 672 g, 10 g come out; the windows leave room, so the other lines grow alike: 672/662 times.
#[test]
fn what_fills_a_gap_keeps_its_proportions() {
    let lines = [
        ("textured_pea_protein", 150.0),
        ("pea_protein_isolate", 40.0),
        ("water", 395.0),
        ("methylcellulose", 9.0),
        ("coconut_oil", 60.0),
        ("table_salt", 8.0),
        ("soy_protein_isolate", 10.0),
    ];
    let changed = ask(&mix(&lines), &without_soy(&[])).unwrap();
    assert_eq!(changed.status, Status::Reached, "{:?}", changed.clash);
    let times = 672.0 / 662.0;
    for (id, was) in &lines[..6] {
        let change = changed
            .change
            .iter()
            .find(|change| change.ingredient.as_deref() == Some(*id));
        let then = change.unwrap().then_g;
        assert!((then / was - times).abs() < 1e-6, "{id}: {was} g became {then} g");
    }
}

/// Water, fat, protein and binder are all kept low: salt alone could make up the weight, and may not.
#[test]
fn salt_is_never_the_ballast() {
    let targets = Targets {
        want: vec![
            want(Reading::Moisture, None, Some(30.0)),
            want(Reading::Fat, None, Some(10.0)),
            want(Reading::Protein, None, Some(20.0)),
            want(Reading::BinderShare, None, Some(2.0)),
        ],
        ..Targets::default()
    };
    let changed = ask(&plain(), &targets).unwrap();
    assert_eq!(changed.status, Status::OutOfReach);
    assert!(changed.clash[0].contains("too much salt"), "{:?}", changed.clash);
    assert!(changed.clash.len() > 1, "{:?}", changed.clash);
    assert!(
        after(&changed, Reading::Salt) < 3.0,
        "{}",
        after(&changed, Reading::Salt)
    );
}

/// Only water and salt may move, so each gram less of one is a gram more of the other.
/// A point of water is a tenth of its window (55–65 %), a point of salt two and a half of its own (1.1–1.5 %).
#[test]
fn a_miss_counts_in_window_widths() {
    let document = plain();
    let now = Reading::Moisture.of(&document.kitchen().weigh(&document.formulas[0]));
    let targets = Targets {
        want: vec![
            want(Reading::Moisture, None, Some(now.value.estimate().unwrap().value - 3.0)),
            want(Reading::Salt, None, Some(1.5)),
        ],
        lock: [
            "tvp_soy_granules",
            "pea_protein_isolate",
            "methylcellulose",
            "coconut_oil",
        ]
        .map(Into::into)
        .into(),
        ..Targets::default()
    };
    let changed = ask(&document, &targets).unwrap();
    assert_eq!(changed.status, Status::OutOfReach);
    assert!(
        (after(&changed, Reading::Salt) - 1.5).abs() < 1e-4,
        "{}",
        after(&changed, Reading::Salt)
    );
}

#[test]
fn no_salt_at_all_is_out_of_reach_and_no_bowl_of_oil() {
    let targets = Targets {
        want: vec![want(Reading::Salt, None, Some(0.0))],
        ..Targets::default()
    };
    let changed = ask(&plain(), &targets).unwrap();
    assert_eq!(changed.status, Status::OutOfReach, "{:?}", changed.change);
    assert!(
        changed.clash[0].contains("Salt should be at most 0 %"),
        "{:?}",
        changed.clash
    );
    assert!(after(&changed, Reading::Fat) < 20.0, "{:?}", changed.change);
    assert!(after(&changed, Reading::Salt) < 0.2, "{:?}", changed.clash);
}

#[test]
fn an_ingredient_nobody_has_described_is_not_called_free_of_allergens() {
    let text = r#"{"format":"pattywright/1","pantry":[{"id":"mine","name":"Mine","density_g_per_ml":0.5,
        "panel":{"serving_g":100,"protein_g":50,"fat_g":1,"carbohydrate_g":30,"fibre_g":5,"salt_g":1}}],
        "formulas":[{"id":"mix","name":"Mix","lines":[{"ingredient":"mine","amount":"50 g"},{"ingredient":"water","amount":"100 g"}]}]}"#;
    let targets = Targets {
        without: vec!["soy".into()],
        ..Targets::default()
    };
    let changed = ask(&read(text).unwrap().document, &targets).unwrap();
    assert!(
        changed
            .notes
            .iter()
            .any(|step| step.contains("which allergens Mine bring")),
        "{:?}",
        changed.notes
    );
}

#[test]
fn limits_that_cannot_be_are_refused() {
    for (low, high) in [
        (Some(f64::NAN), None),
        (Some(-1.0), None),
        (None, Some(f64::INFINITY)),
        (Some(20.0), Some(10.0)),
    ] {
        let targets = Targets {
            want: vec![want(Reading::Protein, low, high)],
            ..Targets::default()
        };
        assert_eq!(ask(&plain(), &targets).unwrap_err(), RescueProblem::Bound);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1024))]
    #[test]
    fn what_is_reached_is_reached(soy in 20.0..300.0f64, pea in 1.0..200.0f64, water in 50.0..900.0f64, binder in 1.0..30.0f64,
        oil in 5.0..150.0f64, low in 5.0..40.0f64, span in 0.0..20.0f64, moisture in 30.0..80.0f64, locked in 0..5usize) {
        let names = ["tvp_soy_granules", "pea_protein_isolate", "water", "methylcellulose", "coconut_oil"];
        let masses = [soy, pea, water, binder, oil];
        let lines: Vec<(&str, f64)> = names.into_iter().zip(masses).collect();
        let document = mix(&lines);
        let targets = Targets {
            want: vec![want(Reading::Protein, Some(low), Some(low + span)), want(Reading::Moisture, None, Some(moisture))],
            lock: vec![names[locked].into()],
            ..Targets::default()
        };
        let changed = ask(&document, &targets).unwrap();
        prop_assert!(changed.change.iter().all(|change| change.ingredient.as_deref() != Some(names[locked])));
        let sum: f64 = changed.change.iter().map(|change| change.grams).sum();
        prop_assert!(sum.abs() < 1e-3 * masses.iter().sum::<f64>(), "the mix keeps its weight");
        let changed_to = change_formula(&document.formulas[0], &changed.change);
        let weighed = document.kitchen().weigh(&changed_to);
        prop_assert!(weighed.complete());
        match changed.status {
            Status::OutOfReach => prop_assert!(!changed.clash.is_empty()),
            _ => {
                let (protein, water) = (after(&changed, Reading::Protein), after(&changed, Reading::Moisture));
                prop_assert!((low - 1e-4..=low + span + 1e-4).contains(&protein), "{}", protein);
                prop_assert!(water <= moisture + 1e-4, "{}", water);
                // And so it is in the formula as it would be written down.
                let written = Reading::Protein.of(&weighed).value.estimate().unwrap().value;
                prop_assert!((written - protein).abs() < 0.1, "{} against {}", written, protein);
            }
        }
    }
}

#[test]
fn both_are_answered_by_the_document() {
    let mut text: serde_json::Value = serde_json::from_str(&plain().write()).unwrap();
    text["questions"] = serde_json::json!([
        { "ask": "reach", "formula": "mix", "want": [{ "reading": "protein", "low": 18 }], "lock": ["water"] },
        { "ask": "swap", "formula": "mix", "from": "pea_protein_isolate", "to": "faba_protein_isolate" },
        { "ask": "reach", "formula": "mix", "want": [{ "reading": "crunch", "low": 18 }] },
    ]);
    let report = serde_json::to_value(evaluate(&read(&text.to_string()).unwrap())).unwrap();
    let answers = &report["answers"];
    assert_eq!(
        (&answers[0]["ask"], &answers[0]["status"]),
        (&"reach".into(), &"reached".into())
    );
    assert!(answers[0]["readings_after"]["protein"]["value"].as_f64().unwrap() >= 18.0 - 1e-6);
    assert_eq!(
        (&answers[1]["ask"], &answers[1]["status"]),
        (&"swap".into(), &"reached".into())
    );
    assert!(answers[2]["why"].as_str().unwrap().contains("crunch"));
    assert_eq!(report["problems"].as_array().unwrap().len(), 1);
}

#[test]
fn an_objective_and_a_typed_bound_are_read() {
    let mut text: serde_json::Value = serde_json::from_str(&plain().write()).unwrap();
    text["questions"] = serde_json::json!([
        { "ask": "reach", "formula": "mix", "aim": "least_salt" },
        { "ask": "reach", "formula": "mix", "objective": "least_sodium" },
        { "ask": "reach", "formula": "mix", "want": [{ "reading": "protein", "low": "18 %", "high": "19,5" }] },
        { "ask": "reach", "formula": "mix", "want": [{ "reading": "protein", "low": "a lot" }] },
    ]);
    let report = serde_json::to_value(evaluate(&read(&text.to_string()).unwrap())).unwrap();
    let answers = &report["answers"];
    assert_eq!(answers[0], answers[1]);
    assert_eq!(answers[1]["status"], "reached", "{}", answers[1]);
    assert_eq!(answers[2]["status"], "reached", "{}", answers[2]);
    let protein = answers[2]["readings_after"]["protein"]["value"].as_f64().unwrap();
    assert!((18.0 - 1e-6..=19.5 + 1e-6).contains(&protein), "{protein}");
    assert!(
        answers[3]["why"].as_str().unwrap().contains("“a lot” is no limit"),
        "{}",
        answers[3]
    );
}
