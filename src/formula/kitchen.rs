//! Everything needed to weigh a formula.

use super::Formula;
use crate::measure::Habits;
use crate::pantry::Pantry;

/// The pantry, the formulas that may be lines of each other, and how this cook measures.
#[derive(Clone, Debug)]
pub struct Kitchen<'a> {
    /// What is in the cupboard.
    pub pantry: Pantry<'a>,
    /// Every formula that a line may name.
    pub formulas: &'a [Formula],
    /// How this cook measures.
    pub habits: Habits,
}

impl<'a> Kitchen<'a> {
    /// Finds a formula by its id.
    pub fn formula(&self, id: &str) -> Option<&'a Formula> {
        self.formulas.iter().find(|formula| formula.id == id)
    }
}
