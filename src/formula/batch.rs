//! How much to make: by a factor, to a weight, for tonight's patties, or from what little there is.

use super::Weighed;
use crate::words::say;
use serde::{Deserialize, Serialize};

/// The largest batch that is still a kitchen's, g.
pub const LARGEST_BATCH_G: f64 = 1_000_000.0;

/// How much to make.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(tag = "by", rename_all = "snake_case", try_from = "Written")]
pub enum Batch {
    /// So many times the formula.
    Factor {
        /// Times.
        factor: f64,
    },
    /// To a weight.
    Total {
        /// g.
        grams: f64,
    },
    /// For patties of one or several weights, allowing for what sticks to bowl and hands.
    Patties {
        /// What is wanted.
        patties: Vec<Patties>,
        /// Percent of the mix that never becomes a patty.
        loss_percent: f64,
    },
    /// From all there is of one line.
    Limited {
        /// Key of the line.
        line: u32,
        /// What there is of it, g.
        grams: f64,
    },
}

/// A batch as it is written; which of these are there is told by `by`.
#[derive(Deserialize)]
struct Written {
    by: String,
    factor: Option<f64>,
    grams: Option<f64>,
    patties: Option<Vec<Patties>>,
    loss_percent: Option<f64>,
    line: Option<u32>,
}

impl TryFrom<Written> for Batch {
    type Error = &'static str;

    fn try_from(written: Written) -> Result<Batch, &'static str> {
        let batch = match written.by.as_str() {
            "factor" => written.factor.map(|factor| Batch::Factor { factor }),
            "total" => written.grams.map(|grams| Batch::Total { grams }),
            "patties" => {
                let both = written.patties.zip(written.loss_percent);
                both.map(|(patties, loss_percent)| Batch::Patties { patties, loss_percent })
            }
            "limited" => {
                let both = written.line.zip(written.grams);
                both.map(|(line, grams)| Batch::Limited { line, grams })
            }
            _ => return Err("`by` is factor, total, patties or limited"),
        };
        batch.ok_or("a field of this batch is missing")
    }
}

/// So many patties of one weight.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Patties {
    /// How many.
    pub count: f64,
    /// Raw weight of each, g.
    pub grams: f64,
}

/// A batch worked out.
#[derive(Clone, PartialEq, Debug)]
pub struct Scaled {
    /// Times the formula.
    pub factor: f64,
    /// Mix in all, g.
    pub mix_g: f64,
    /// Grams of each line, in the order written.
    pub grams: Vec<f64>,
}

/// Why a batch cannot be worked out.
#[derive(Clone, PartialEq, Debug)]
pub enum BatchProblem {
    /// Lines without grams.
    Incomplete(Vec<String>),
    /// Nothing in the formula.
    Empty,
    /// What should be a number above zero and is not: "the factor", as in the tables of texts.
    NotPositive(&'static str),
    /// A loss below 0 or of 90 % and more.
    Loss,
    /// The line limited by is not in the formula.
    NoSuchLine,
    /// Beyond [`LARGEST_BATCH_G`].
    TooLarge,
}

impl std::fmt::Display for BatchProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&match self {
            BatchProblem::Incomplete(lines) => say!(
                "Weigh these lines first, then it can be scaled: {lines}",
                lines = lines.join(", ")
            ),
            BatchProblem::Empty => say!("Add a line to the formula first"),
            BatchProblem::NotPositive(what) => say!("Type {what} as a number above 0", what = say(what)),
            BatchProblem::Loss => say!("Type the loss as 0 to 90 %"),
            BatchProblem::NoSuchLine => say!("Choose which ingredient runs short"),
            BatchProblem::TooLarge => say!("That is over a tonne of mix. Check the numbers"),
        })
    }
}

impl Batch {
    /// Works out the batch for a weighed formula.
    ///
    /// # Errors
    /// [`BatchProblem`], each with a sentence that says what to do.
    pub fn scale(&self, weighed: &Weighed) -> Result<Scaled, BatchProblem> {
        if !weighed.complete() {
            let names = weighed.missing().into_iter().map(str::to_owned).collect();
            return Err(BatchProblem::Incomplete(names));
        }
        let total = weighed.total.value;
        if total <= 0.0 {
            return Err(BatchProblem::Empty);
        }
        let factor = match self {
            Batch::Factor { factor } => positive(*factor, "the factor")?,
            Batch::Total { grams } => positive(*grams, "the weight")? / total,
            Batch::Patties { patties, loss_percent } => {
                if !(0.0..90.0).contains(loss_percent) {
                    return Err(BatchProblem::Loss);
                }
                let mut raw = 0.0;
                for order in patties {
                    raw += positive(order.count, "how many patties")? * positive(order.grams, "the patty weight")?;
                }
                positive(raw, "how many patties")? / (1.0 - loss_percent / 100.0) / total
            }
            Batch::Limited { line, grams } => {
                let grams = positive(*grams, "what you have of it")?;
                let (_, limiting) = weighed
                    .known()
                    .find(|(candidate, _)| candidate.key == *line)
                    .ok_or(BatchProblem::NoSuchLine)?;
                grams / positive(limiting.value, "its amount in the formula")?
            }
        };
        let mix_g = factor * total;
        if mix_g > LARGEST_BATCH_G {
            return Err(BatchProblem::TooLarge);
        }
        Ok(Scaled {
            factor,
            mix_g,
            grams: weighed.known().map(|(_, grams)| grams.value * factor).collect(),
        })
    }
}

fn positive(value: f64, what: &'static str) -> Result<f64, BatchProblem> {
    (value > 0.0 && value.is_finite())
        .then_some(value)
        .ok_or(BatchProblem::NotPositive(what))
}
