//! Allergens that a line brings, by the rows of the pantry; a formula within is looked through to its own lines.

use crate::formula::{Formula, Kitchen, Line};
use crate::words::say;

/// An allergen as the cook reads it: "gluten cereals".
pub(super) fn in_words(allergen: &'static str) -> String {
    say(allergen).replace('_', " ")
}

/// What is known about the allergens of a line, or of a whole formula.
#[derive(Default)]
pub(super) struct Allergens<'a> {
    /// Those that rows of the pantry name.
    pub named: Vec<&'static str>,
    /// Names of ingredients nobody has described.
    pub unknown: Vec<&'a str>,
    /// Formulas looked through already: each is read once, however many lines name it.
    seen: Vec<&'a str>,
}

impl<'a> Allergens<'a> {
    /// Of one line.
    pub fn of_line(kitchen: &'a Kitchen, line: &'a Line) -> Allergens<'a> {
        let mut found = Allergens::default();
        found.look(kitchen, line);
        found
    }

    /// Of every line.
    pub fn of_formula(kitchen: &'a Kitchen, formula: &'a Formula) -> Allergens<'a> {
        let mut found = Allergens::default();
        for line in &formula.lines {
            found.look(kitchen, line);
        }
        found
    }

    fn look(&mut self, kitchen: &'a Kitchen, line: &'a Line) {
        if let Some(id) = line.formula.as_deref() {
            if self.seen.contains(&id) {
                return;
            }
            self.seen.push(id);
            match kitchen.formula(id) {
                Some(within) => within.lines.iter().for_each(|line| self.look(kitchen, line)),
                None => self.unknown.push(id),
            }
            return;
        }
        let id = line.ingredient.as_deref().unwrap_or_default();
        let ingredient = kitchen.pantry.get(id);
        match ingredient.and_then(|found| found.row()) {
            Some(row) => self.named.extend(row.allergens),
            None => self.unknown.push(ingredient.map_or(id, |found| found.name())),
        }
    }
}
