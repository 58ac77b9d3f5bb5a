//! Two tabs on one document: laws that no change may break.

use pattywright::document::{Document, Merged, merge, read};
use pattywright::pantry::{Calibration, Entry, Scoop};
use proptest::prelude::*;

fn formula(lines: &[(u32, &str)]) -> String {
    let lines: Vec<String> = lines
        .iter()
        .map(|(key, amount)| format!(r#"{{"key":{key},"ingredient":"water","amount":"{amount}"}}"#))
        .collect();
    format!(
        r#"{{"format":"pattywright/1","formulas":[{{"id":"shed","name":"Shed","lines":[{}]}}]}}"#,
        lines.join(",")
    )
}

fn document(lines: &[(u32, &str)]) -> Document {
    read(&formula(lines)).unwrap().document
}

fn amounts(document: &Document, formula: usize) -> Vec<&str> {
    let lines = &document.formulas[formula].lines;
    lines.iter().map(|line| line.amount.as_str()).collect()
}

fn merged(base: &[(u32, &str)], mine: &[(u32, &str)], theirs: &[(u32, &str)]) -> Merged {
    merge(&document(base), &document(mine), &document(theirs))
}

#[test]
fn different_lines_go_into_one_formula() {
    let both = merged(
        &[(1, "1 g"), (2, "2 g"), (3, "3 g")],
        &[(3, "3 g"), (1, "10 g"), (2, "2 g")],
        &[(1, "1 g"), (2, "20 g"), (3, "3 g"), (4, "4 g")],
    );
    assert_eq!(amounts(&both.document, 0), ["3 g", "10 g", "20 g", "4 g"]);
    assert!(both.copies.is_empty() && both.decided.is_empty());
    assert!(both.told().contains("both changes are kept"));
}

#[test]
fn the_same_line_keeps_the_formula_twice_and_says_so() {
    let both = merged(&[(1, "1 g")], &[(1, "10 g")], &[(1, "100 g")]);
    assert_eq!(amounts(&both.document, 0), ["100 g"]);
    assert_eq!(amounts(&both.document, 1), ["10 g"]);
    assert_eq!(both.document.formulas[1].name, "Shed (other copy)");
    assert_eq!(
        (both.copies[0].of.as_str(), both.copies[0].id.as_str()),
        ("shed", "shed_other_copy")
    );
    assert!(both.told().contains("Shed (other copy)"));
    // The same change on both sides is no quarrel.
    let same = merged(&[(1, "1 g")], &[(1, "10 g")], &[(1, "10 g")]);
    assert_eq!((same.document.formulas.len(), same.copies.len()), (1, 0));
}

#[test]
fn a_line_removed_here_and_changed_there_is_a_quarrel() {
    let lines = [(1, "1 g"), (2, "2 g")];
    assert_eq!(
        merged(&lines, &[(1, "1 g")], &[(1, "1 g"), (2, "20 g")]).copies.len(),
        1
    );
    assert_eq!(
        merged(&lines, &[(1, "1 g"), (2, "20 g")], &[(1, "1 g")]).copies.len(),
        1
    );
    let removed = merged(&lines, &[(1, "1 g")], &lines);
    assert_eq!((amounts(&removed.document, 0), removed.copies.len()), (vec!["1 g"], 0));
}

#[test]
fn a_formula_removed_here_and_changed_there_stays() {
    let none = Document::default();
    let both = merge(&document(&[(1, "1 g")]), &none, &document(&[(1, "9 g")]));
    assert_eq!(amounts(&both.document, 0), ["9 g"]);
    assert!(
        merge(&document(&[(1, "1 g")]), &none, &document(&[(1, "1 g")]))
            .document
            .formulas
            .is_empty()
    );
}

fn weighed_cup(grams: f64) -> Calibration {
    Calibration {
        count: 1.0,
        measure: Scoop::Cup,
        cup: Default::default(),
        grams,
        date: "2026-11-25".into(),
    }
}

fn shelf(name: &str, cup_g: Option<f64>, weighed: &[f64]) -> Document {
    Document {
        pantry: vec![Entry {
            id: "my_granules".into(),
            name: name.into(),
            cup_g,
            calibrations: weighed.iter().copied().map(weighed_cup).collect(),
            ..Entry::default()
        }],
        ..Document::default()
    }
}

#[test]
fn cups_weighed_in_both_tabs_all_stay() {
    let both = merge(
        &shelf("G", None, &[90.0]),
        &shelf("G", None, &[90.0, 95.0]),
        &shelf("Granules", None, &[90.0, 97.0]),
    );
    let entry = &both.document.pantry[0];
    let grams: Vec<f64> = entry.calibrations.iter().map(|one| one.grams).collect();
    assert_eq!((grams, entry.name.as_str()), (vec![90.0, 97.0, 95.0], "Granules"));
    assert!(both.decided.is_empty());
}

#[test]
fn one_figure_set_in_both_tabs_is_named() {
    let both = merge(
        &shelf("G", None, &[]),
        &shelf("G", Some(95.0), &[]),
        &shelf("G", Some(99.0), &[]),
    );
    assert_eq!(both.document.pantry[0].cup_g, Some(95.0));
    assert_eq!(both.decided, ["G"]);
    assert!(both.told().contains("used as set here: G."));
}

#[test]
fn settings_and_the_scale_are_put_together_too() {
    let scale = |step: f64, cup: &str, poured: &str| {
        let text = format!(
            r#"{{"format":"pattywright/1","settings":{{"cup":"{cup}","scale_step_g":{step}}},
            "weighing":{{"formula":"shed","batch":{{"by":"factor","factor":2}},"poured":{{{poured}}}}}}}"#
        );
        let asked = read(&text).unwrap();
        assert!(asked.problems.is_empty(), "{:?}", asked.problems);
        asked.document
    };
    let both = merge(
        &scale(1.0, "us", r#""1":10"#),
        &scale(0.1, "us", r#""1":10,"2":20"#),
        &scale(1.0, "metric", r#""1":10,"3":30"#),
    );
    assert_eq!(both.document, scale(0.1, "metric", r#""1":10,"2":20,"3":30"#));
    assert!(both.decided.is_empty());
    let quarrel = merge(
        &scale(1.0, "us", ""),
        &scale(0.1, "us", r#""1":10"#),
        &scale(0.5, "us", r#""1":11"#),
    );
    assert_eq!(quarrel.decided, ["settings", "the batch on the scale"]);
}

fn any_lines() -> impl Strategy<Value = Vec<(u32, String)>> {
    proptest::collection::btree_map(1..6u32, (0..3u32).prop_map(|n| format!("{n} g")), 0..5)
        .prop_map(|lines| lines.into_iter().collect())
}

proptest! {
    /// Whatever either tab changed stands somewhere afterwards, and an unchanged side changes nothing.
    #[test]
    fn nothing_typed_is_lost(base in any_lines(), mine in any_lines(), theirs in any_lines()) {
        let of = |lines: &[(u32, String)]| {
            document(&lines.iter().map(|(key, amount)| (*key, amount.as_str())).collect::<Vec<_>>())
        };
        let (base, mine, theirs) = (of(&base), of(&mine), of(&theirs));
        prop_assert_eq!(&merge(&base, &base, &theirs).document, &theirs);
        prop_assert_eq!(&merge(&base, &mine, &base).document, &mine);
        let both = merge(&base, &mine, &theirs).document;
        for side in [&mine, &theirs] {
            for line in &side.formulas[0].lines {
                if !base.formulas[0].lines.contains(line) {
                    prop_assert!(both.formulas.iter().any(|f| f.lines.contains(line)), "{:?} is gone", line);
                }
            }
        }
    }
}
