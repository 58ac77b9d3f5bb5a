//! The first formula, step by step: what it leads to is a formula that reads well.

use pattywright::document::{Document, paste};
use pattywright::formula::{Formula, Style};
use pattywright::sheet::formula::sheet;
use pattywright::sheet::guide::*;
use pattywright::sheet::rule::Place;

/// The formula after so many steps, each line read as if it were typed.
fn after(steps: usize) -> Formula {
    let document = Document::default();
    let kitchen = document.kitchen();
    let mut formula = Formula::default();
    for step in &STEPS[..steps] {
        let lines = paste(&kitchen.pantry, step.example).unwrap();
        assert!(
            lines.len() == 1 && lines[0].line.ingredient.is_some(),
            "{}: {lines:?}",
            step.example
        );
        formula.lines.extend(lines.into_iter().map(|pasted| pasted.line));
    }
    formula.give_keys();
    formula
}

#[test]
fn every_step_leads_to_the_next_and_the_last_to_none() {
    for (lines, step) in STEPS.iter().enumerate() {
        assert_eq!(next(lines), Some(*step));
    }
    assert_eq!(next(STEPS.len()), None);
    assert_eq!(place(1), "Step 2 of 6");
}

#[test]
fn the_formula_it_leads_to_has_every_reading_in_its_window() {
    let document = Document::default();
    let sheet = sheet(&document.kitchen(), &after(STEPS.len()));
    assert_eq!(sheet.incomplete, "");
    let off: Vec<_> = sheet
        .rules
        .iter()
        .filter(|rule| matches!(rule.place, Place::Below | Place::Above))
        .map(|rule| (rule.name, rule.figure.text()))
        .collect();
    assert!(off.is_empty(), "{off:?}");
    let placed = sheet.rules.iter().filter(|rule| rule.place == Place::Inside).count();
    assert!(placed >= 7, "{placed} readings have a window and lie in it");
    assert_eq!(
        document.kitchen().weigh(&after(STEPS.len())).style,
        Some(Style::StandardPatty)
    );
}

#[test]
fn hydration_can_be_watched_once_the_water_is_in() {
    let document = Document::default();
    let hydration = |steps| {
        let sheet = sheet(&document.kitchen(), &after(steps));
        let rule = sheet.rules.into_iter().find(|rule| rule.name.starts_with("Hydration"));
        rule.and_then(|rule| rule.value)
    };
    let water = STEPS.iter().position(|step| step.example.contains("water")).unwrap();
    assert!(hydration(water + 1).unwrap() > hydration(water).unwrap() + 1.0);
}
