//! What a document may ask.

mod heat;

pub use heat::{CookQuestion, PattyQuestion, SlabQuestion};

use crate::formula::Patties;
use serde::Deserialize;

/// A question, told apart by its `ask`.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "snake_case")]
pub enum Question {
    /// An amount of an ingredient in another measure.
    Convert {
        /// Ingredient id.
        ingredient: String,
        /// The amount as typed: `2/3 cup`.
        amount: String,
        /// The unit wanted: `g`, `oz`, `cup`, `tbsp`, `tsp`, `ml` …
        to: String,
        /// The published cut, where the ingredient has several: `coarse grain`.
        #[serde(default)]
        cut: Option<String>,
    },
    /// A batch of a formula. Exactly one of `patties`, `factor`, `total_g` or `limited` is given.
    Scale {
        /// Formula id.
        formula: String,
        /// Patties wanted.
        #[serde(default)]
        patties: Vec<Patties>,
        /// Percent of the mix that never becomes a patty; with `patties` only.
        #[serde(default)]
        loss_percent: f64,
        /// Times the formula.
        #[serde(default)]
        factor: Option<f64>,
        /// To this weight, g.
        #[serde(default)]
        total_g: Option<f64>,
        /// All there is of one ingredient.
        #[serde(default)]
        limited: Option<Limited>,
    },
    /// What to add to what is left in the bowl.
    Rescue {
        /// Formula id.
        formula: String,
        /// What is left, g.
        left_g: f64,
        /// What went wrong: `crumbles_forming`, `breaks_in_pan` …
        symptom: String,
    },
    /// The size of a patty, raw and cooked.
    Patty(PattyQuestion),
    /// When to turn a patty, and when it is done.
    Cook(CookQuestion),
    /// Plain conduction through a slab of constant properties, for checking against textbooks.
    Slab(SlabQuestion),
}

/// "I only have 120 g of this."
#[derive(Clone, PartialEq, Debug, Deserialize)]
pub struct Limited {
    /// Ingredient id of the line that runs short.
    pub ingredient: String,
    /// What there is of it, g.
    pub grams: f64,
}
