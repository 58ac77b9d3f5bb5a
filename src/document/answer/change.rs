//! What is answered to `reach` and `swap`.

use crate::balance::{Change, Changed};
use crate::document::report::Readings;
use serde::Serialize;

/// What to change in a formula.
#[derive(Clone, Debug, Serialize)]
pub struct ChangedAnswer {
    /// `reached`, `not_needed` or `out_of_reach`.
    pub status: &'static str,
    /// Lines that move; when out of reach, what gets nearest.
    pub change: Vec<ChangeAnswer>,
    /// Readings as they are.
    pub readings_before: Readings,
    /// Readings with the change.
    pub readings_after: Readings,
    /// What to do, and what else to know.
    pub steps: Vec<String>,
    /// When out of reach: the wishes that clash, and how near it gets.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub clash: Vec<String>,
}

/// One line's change.
#[derive(Clone, Debug, Serialize)]
pub struct ChangeAnswer {
    /// Ingredient id; `null` where the line is another formula.
    pub ingredient: Option<String>,
    /// Name.
    pub name: String,
    /// More, or less where below zero, g.
    pub grams: f64,
    /// What the line weighs then, g.
    pub then_g: f64,
    /// The nearest level spoons of the change, or a pinch; `null` where its density is not known.
    pub spoons: Option<String>,
}

impl ChangedAnswer {
    pub(in crate::document) fn of(changed: &Changed) -> ChangedAnswer {
        ChangedAnswer {
            status: changed.status.id(),
            change: changed.change.iter().map(ChangeAnswer::of).collect(),
            readings_before: Readings::of(&changed.before),
            readings_after: Readings::of(&changed.after),
            steps: changed.steps(),
            clash: changed.clash.clone(),
        }
    }
}

impl ChangeAnswer {
    fn of(change: &Change) -> ChangeAnswer {
        ChangeAnswer {
            ingredient: change.ingredient.clone(),
            name: change.name.clone(),
            grams: change.grams,
            then_g: change.then_g,
            spoons: change.by_spoon(),
        }
    }
}
