//! What a document may ask.

mod heat;

pub use heat::{CookQuestion, FaceQuestion, PattyQuestion, SlabQuestion};

use crate::balance::{Aim, Want};
use crate::formula::{Patties, Reading};
use crate::words::say;
use serde::Deserialize;
use serde::de::Error;
use serde_json::Value;

/// A question; [`Question::read`] tells them apart by their `ask`.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
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
    /// The least change that brings readings into ranges; the mix keeps its weight.
    Reach {
        /// Formula id.
        formula: String,
        /// The ranges.
        #[serde(default)]
        want: Vec<Wanted>,
        /// Ingredient ids of lines that stay as they are.
        #[serde(default)]
        lock: Vec<String>,
        /// Allergens whose lines come out: `soy`, `wheat` …
        #[serde(default)]
        without: Vec<String>,
        /// `least_change`, `least_salt` (or `least_sodium`) or `most_protein`; `objective` is another name for it.
        #[serde(default, alias = "objective")]
        aim: Aim,
    },
    /// One ingredient in another's place, at equal protein and equal water held.
    Swap {
        /// Formula id.
        formula: String,
        /// Ingredient id that goes.
        from: String,
        /// Ingredient id that comes.
        to: String,
        /// The part of a powder's water capacity that counts in a crowded mix, 0 to 1.
        #[serde(default = "crowded")]
        crowded: f64,
    },
    /// The size of a patty, raw and cooked.
    Patty(PattyQuestion),
    /// When to turn a patty, and when it is done.
    Cook(CookQuestion),
    /// Plain conduction through a slab of constant properties, for checking against textbooks.
    Slab(SlabQuestion),
}

impl Question {
    /// Reads `{ "ask": "rescue", … }`.
    ///
    /// The kind is put around the rest, where serde's readers expect it: its own way with such tags keeps all fields
    /// aside first and has every reader twice, all of it code in the page.
    ///
    /// # Errors
    /// What is missing, or is not of its kind.
    pub fn read(question: Value) -> Result<Question, serde_json::Error> {
        let Value::Object(mut fields) = question else {
            return serde_json::from_value(question);
        };
        match fields.remove("ask") {
            Some(Value::String(ask)) => serde_json::from_value([(ask, fields)].into_iter().collect()),
            _ => Err(Error::missing_field("ask")),
        }
    }
}

fn crowded() -> f64 {
    crate::balance::holding::CROWDED
}

/// A range wanted of a reading, in the reading's own unit.
#[derive(Clone, PartialEq, Debug, Deserialize)]
pub struct Wanted {
    /// `protein`, `hydration` …
    pub reading: String,
    /// At least this.
    #[serde(default)]
    pub low: Option<Bound>,
    /// At most this.
    #[serde(default)]
    pub high: Option<Bound>,
}

/// A limit: a number, or one as a cook types it, `"18 %"`.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(try_from = "Value")]
pub enum Bound {
    /// `18`
    Number(f64),
    /// `"18 %"`
    Typed(String),
}

impl TryFrom<Value> for Bound {
    type Error = &'static str;

    fn try_from(value: Value) -> Result<Bound, &'static str> {
        match value {
            Value::Number(number) => number.as_f64().map(Bound::Number),
            Value::String(text) => Some(Bound::Typed(text)),
            _ => None,
        }
        .ok_or("a limit is a number or a text")
    }
}

impl Bound {
    fn read(&self) -> Result<f64, String> {
        match self {
            Bound::Number(number) => Ok(*number),
            Bound::Typed(text) => {
                Want::limit(text).ok_or_else(|| say!("“{text}” is no limit: type a number such as 18", text))
            }
        }
    }
}

impl Wanted {
    pub(super) fn read(&self) -> Result<Want, String> {
        let reading = Reading::from_id(&self.reading)
            .ok_or_else(|| say!("“{id}” is not a reading known here", id = self.reading))?;
        Ok(Want {
            reading,
            low: self.low.as_ref().map(Bound::read).transpose()?,
            high: self.high.as_ref().map(Bound::read).transpose()?,
        })
    }
}

/// "I only have 120 g of this."
#[derive(Clone, PartialEq, Debug, Deserialize)]
pub struct Limited {
    /// Ingredient id of the line that runs short.
    pub ingredient: String,
    /// What there is of it, g.
    pub grams: f64,
}
