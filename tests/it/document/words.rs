//! Advice, refusals and reports in German: whole sentences, the same figures, and nothing a machine reads changed.

use pattywright::balance::holding::CROWDED;
use pattywright::balance::{
    Aim, RescueProblem, Status, Symptom, Targets, Want, apply, change_formula, reach, rescue, swap,
};
use pattywright::document::{Document, PasteProblem, Unreadable, add, evaluate, merge, paste, read};
use pattywright::formula::{Formula, Reading};
use pattywright::heat::HeatError;
use pattywright::heat::binder::Grade;
use pattywright::heat::cook::{Caution, Stove};
use pattywright::measure::{Cup, Degrees};
use pattywright::pantry::Pantry;
use pattywright::patty::{Mix, MixProblem, NoGel, PattyError, thinnest};
use pattywright::words::{Language, speak};
use serde_json::Value;

/// A standard patty of these lines, grams each.
fn mix(lines: &[(&str, f64)]) -> Document {
    let line = |(ingredient, grams): &(&str, f64)| format!(r#"{{"ingredient":"{ingredient}","amount":"{grams} g"}}"#);
    let lines: Vec<String> = lines.iter().map(line).collect();
    let text = format!(
        r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","style":"standard_patty","lines":[{}]}}]}}"#,
        lines.join(",")
    );
    read(&text).unwrap().document
}

/// A patty with this much binder and water, g.
fn patty(binder: f64, water: f64) -> Document {
    mix(&[
        ("tvp_soy_granules", 150.0),
        ("pea_protein_isolate", 30.0),
        ("water", water),
        ("methylcellulose", binder),
        ("coconut_oil", 60.0),
        ("table_salt", 7.0),
    ])
}

/// No word of English is left in a text; the names of readings are another module's to say.
#[track_caller]
fn check_german(text: &str) {
    let names = Reading::ALL.map(Reading::name);
    let nameless = names.iter().fold(text.to_owned(), |text, name| text.replace(name, "…"));
    for word in [
        "the", "of", "and", "is", "with", "to", "or", "it", "not", "Type", "Give", "Take", "Say", "Weigh",
    ] {
        let mut words = nameless.split(|c: char| !c.is_alphabetic());
        assert!(!words.any(|said| said == word), "“{word}” in: {text}");
    }
}

fn check_all_german(texts: impl IntoIterator<Item = impl ToString>) {
    texts.into_iter().for_each(|text| check_german(&text.to_string()));
}

#[test]
fn what_went_wrong_is_told_in_german() {
    let texts = |symptom: &Symptom| [symptom.name(), symptom.why(), symptom.check_first(), symptom.avoid()];
    let english = Symptom::ALL.each_ref().map(texts);
    speak(Language::German);
    let german = Symptom::ALL.each_ref().map(texts);
    for (english, german) in english.iter().flatten().zip(german.iter().flatten()) {
        assert_ne!(english, german);
        check_german(german);
    }
    assert_eq!(Symptom::TooSalty.name(), "zu salzig");
}

#[test]
fn advice_for_a_bowl_is_german_whatever_went_wrong() {
    speak(Language::German);
    for document in [patty(9.0, 385.0), patty(2.0, 300.0), patty(30.0, 900.0)] {
        let kitchen = document.kitchen();
        for symptom in Symptom::ALL {
            let rescued = rescue(&kitchen, &document.formulas[0], 300.0, symptom).unwrap();
            check_all_german(rescued.steps.iter().chain(&rescued.clash));
        }
    }
    let document = patty(2.0, 300.0);
    let rescued = rescue(
        &document.kitchen(),
        &document.formulas[0],
        300.0,
        Symptom::CrumblesForming,
    )
    .unwrap();
    assert_eq!(
        rescued.steps.last().unwrap(),
        "Unterheben, abdecken und 30 Minuten im Kühlschrank ruhen lassen. Dann ein Patty probieren."
    );
    let whisk = rescued.steps.iter().find(|step| step.starts_with("Rühre ")).unwrap();
    assert!(
        whisk.ends_with(" eiskaltes Wasser und lass es 10 Minuten andicken. Nie trocken in die Schüssel."),
        "{whisk}"
    );
}

#[test]
fn targets_and_swaps_are_told_in_german() {
    speak(Language::German);
    let document = patty(9.0, 385.0);
    let (kitchen, formula) = (document.kitchen(), &document.formulas[0]);
    let salt = Targets {
        want: vec![Want {
            reading: Reading::Salt,
            low: None,
            high: Some(0.55),
        }],
        ..Targets::default()
    };
    let changed = reach(&kitchen, formula, &salt).unwrap();
    check_all_german(changed.steps());
    // So much protein cannot be had while the water stays.
    let beyond = Targets {
        want: vec![Want {
            reading: Reading::Protein,
            low: Some(60.5),
            high: None,
        }],
        lock: vec!["water".into()],
        without: vec!["soy".into()],
        aim: Aim::LeastChange,
    };
    let changed = reach(&kitchen, formula, &beyond).unwrap();
    assert_eq!(changed.status, Status::OutOfReach);
    check_all_german(changed.steps().iter().chain(&changed.clash));
    let missed = changed
        .clash
        .iter()
        .find(|clash| clash.contains("; damit sind es "))
        .unwrap();
    assert!(missed.contains(" soll mindestens 60,5 % sein"), "{missed}");

    for to in ["vital_wheat_gluten", "hemp_protein", "soy_protein_isolate"] {
        let (changed, _) = swap(&kitchen, formula, "pea_protein_isolate", to, CROWDED).unwrap();
        check_all_german(changed.steps().iter().chain(&changed.clash));
    }
    let (changed, _) = swap(&kitchen, formula, "pea_protein_isolate", "vital_wheat_gluten", CROWDED).unwrap();
    let says = |text: &str| changed.notes.iter().any(|note| note == text);
    assert!(says("Das Protein bleibt gleich."));
    assert!(says(
        "Neues Allergen: Weizen, glutenhaltiges Getreide. Sag es deinen Gästen und lies die Packung."
    ));
}

#[test]
fn what_cannot_be_cooked_is_refused_in_german() {
    speak(Language::German);
    let range = (2.0, 60.0);
    check_all_german([
        HeatError::Composition,
        HeatError::Air(0.95),
        HeatError::Thickness { mm: 70.5, range },
        HeatError::Surroundings { c: 500.0, range },
        HeatError::Frozen(-18.0),
        HeatError::StartsHot {
            start_c: 80.0,
            core_c: 74.0,
        },
        HeatError::PanTooCold {
            pan_c: 60.0,
            core_c: 74.0,
        },
        HeatError::TargetBoils(100.0),
        HeatError::Coefficient(-1.0),
        HeatError::Matter(0.0),
        HeatError::Time(-1.0),
        HeatError::Binder(12.0),
        HeatError::NeverDone(120.0),
        HeatError::NeverSets(120.0),
    ]);
    assert_eq!(
        HeatError::Thickness { mm: 70.5, range }.to_string(),
        "Gib eine Dicke zwischen 2 und 60 mm an, nicht 70,5 mm"
    );
    check_all_german([
        PattyError::Weight(0.0),
        PattyError::Width(2.0),
        PattyError::Thickness(0.5),
        PattyError::Density(9.0),
        PattyError::Percent(96.0),
        PattyError::Granule(0.0),
        PattyError::Hydration(11.0),
    ]);
    check_all_german([
        Caution::Probe { core_c: 74.0 },
        Caution::BelowHotHolding,
        Caution::ColdLayer { coldest_c: 60.0 },
        Caution::TurnedEarly { safe_s: 160.0 },
        Caution::DoneBeforeSet,
        Caution::Untested,
        Caution::HotFat,
    ]);
    check_all_german(Grade::ALL.map(Grade::name));
    check_all_german(Stove::ALL.map(Stove::name));
    check_all_german([
        NoGel::NoBinder,
        NoGel::TooLittle(0.12),
        NoGel::Beyond(HeatError::Air(2.0)),
    ]);
    check_all_german([
        MixProblem::Unweighed(vec!["Salz".into()]),
        MixProblem::UnknownMakeUp(vec!["Salz".into()]),
    ]);
    let empty = mix(&[]);
    let why = Mix::of(&empty.kitchen(), &empty.formulas[0], None).unwrap_err();
    assert_eq!(why.to_string(), "Gib der Rezeptur zuerst eine Zeile");
    for wanted_mm in [9.5, 5.0] {
        check_german(&thinnest(3.0, 1.5, wanted_mm).unwrap().advice().unwrap());
    }
}

#[test]
fn refusals_name_the_degrees_of_the_cook() {
    let cold = HeatError::PanTooCold {
        pan_c: 60.0,
        core_c: 74.0,
    };
    assert_eq!(
        cold.in_degrees(Degrees::Fahrenheit),
        "Heat to 140 °F cannot bring the core to 165 °F: make it hotter than the target"
    );
    assert_eq!(cold.to_string(), cold.in_degrees(Degrees::Celsius));
    speak(Language::German);
    assert_eq!(
        cold.in_degrees(Degrees::Fahrenheit),
        "Mit 140 °F kommt der Kern nicht auf 165 °F: Stell heißer ein als das Ziel"
    );
}

#[test]
fn files_and_lists_are_refused_in_german() {
    speak(Language::German);
    let unreadable = |text: &str| read(text).unwrap_err();
    check_all_german([
        unreadable("{"),
        unreadable("[]"),
        unreadable(r#"{"format":"pattywright/9"}"#),
        Unreadable::TooLong,
    ]);
    let lines = r#"{"ingredient":"water"},"#.repeat(301);
    let long = format!(
        r#"{{"format":"pattywright/1","formulas":[{{"lines":[{}]}}]}}"#,
        lines.trim_end_matches(',')
    );
    assert_eq!(
        unreadable(&long).to_string(),
        "Diese Datei hat mehr als 300 Zeilen in einer Rezeptur. Nichts wurde geändert"
    );
    let pantry = Pantry::new(&[], Cup::Us);
    check_all_german([
        paste(&pantry, "").unwrap_err(),
        paste(&pantry, &"Salz\n".repeat(301)).unwrap_err(),
        PasteProblem::TooMuch,
    ]);
    check_all_german([
        RescueProblem::Incomplete(vec!["Salz".into()]),
        RescueProblem::Empty,
        RescueProblem::Left,
        RescueProblem::NotKnown("Salz"),
        RescueProblem::Bound,
        RescueProblem::NoAllergen("Mond".into()),
        RescueProblem::NoLine("Mond".into()),
        RescueProblem::OnlyThat,
        RescueProblem::NoAnswer,
    ]);
}

const DEMO: &str = include_str!("../../documents/demo.json");

/// Fields of a report that are sentences or names; every other text in it is read by machines.
const SAID: [&str; 12] = [
    "name",
    "source",
    "why",
    "say",
    "steps",
    "clash",
    "spoons",
    "window_source",
    "level_measures",
    "advice",
    "cooking_source",
    "cautions",
];

/// Everything in a report but its sentences.
fn unsaid(report: &mut Value) {
    match report {
        Value::Object(fields) => {
            for (name, field) in fields {
                if SAID.contains(&name.as_str()) {
                    *field = Value::Bool(field.is_null());
                } else {
                    unsaid(field);
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(unsaid),
        _ => {}
    }
}

#[test]
fn a_report_holds_the_same_figures_and_ids_in_any_language() {
    let report = |language| {
        speak(language);
        let mut report = serde_json::to_value(evaluate(&read(DEMO).unwrap())).unwrap();
        let told = report.to_string();
        unsaid(&mut report);
        (report, told)
    };
    let (english, german) = (report(Language::British), report(Language::German));
    assert_eq!(english.0, german.0);
    assert!(english.1.contains("Four published plant patties") && german.1.contains("Vier veröffentlichte"));
}

#[test]
fn what_is_saved_after_a_change_weighs_the_same_in_any_language() {
    let document = patty(2.0, 300.0);
    let (kitchen, formula) = (document.kitchen(), &document.formulas[0]);
    let saved = |language| {
        speak(language);
        let rescued = rescue(&kitchen, formula, 300.0, Symptom::CrumblesForming).unwrap();
        let after = apply(&kitchen, formula, 300.0, &rescued.add, "", "").unwrap();
        let (changed, swapped) = swap(&kitchen, formula, "pea_protein_isolate", "rice_protein", CROWDED).unwrap();
        [after, swapped, change_formula(formula, &changed.change)]
    };
    let (british, german) = (saved(Language::British), saved(Language::German));
    for (british, german) in british.iter().zip(&german) {
        let grams = |formula: &Formula| {
            kitchen
                .weigh(formula)
                .lines
                .iter()
                .map(|line| line.grams())
                .collect::<Vec<_>>()
        };
        assert_eq!(grams(british), grams(german));
        // As each cook would type them.
        let amounts = |formula: &Formula| formula.lines.iter().map(|line| line.amount.clone()).collect::<Vec<_>>();
        assert!(amounts(german).iter().any(|amount| amount.contains(',')), "{german:?}");
        assert!(
            amounts(british).iter().all(|amount| !amount.contains(',')),
            "{british:?}"
        );
    }
}

#[test]
fn a_formula_kept_twice_is_named_in_german_and_keeps_its_id() {
    let [base, mut mine, mut theirs] = [(); 3].map(|()| patty(9.0, 385.0));
    mine.formulas[0].lines[2].amount = "400 g".into();
    theirs.formulas[0].lines[2].amount = "410 g".into();
    let english = merge(&base, &mine, &theirs).copies.remove(0);
    speak(Language::German);
    let merged = merge(&base, &mine, &theirs);
    let german = &merged.copies[0];
    assert_eq!((german.name.as_str(), &german.id), ("Mix (andere Kopie)", &english.id));
    assert_eq!(
        merged.told(),
        "Ein anderer Tab hat dieselbe Zeile geändert. Deine bleibt als „Mix (andere Kopie)“."
    );
    let both = add(&mine, &theirs).unwrap();
    assert_eq!(both.formulas[1].name, "Mix (aus Sicherung)");
}
