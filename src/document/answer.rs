//! What is answered to each question.

mod change;
mod heat;

pub use change::ChangedAnswer;
pub use heat::{CookAnswer, FieldAnswer, PattyAnswer, Point, SlabAnswer, Told};

use super::report::Readings;
use crate::balance::{Add, Rescue};
use crate::formula::{Scaled, Stage, WeighOut, Weighed};
use crate::pantry::Converted;
use serde::Serialize;

/// One answer; its `ask` repeats the question's.
#[derive(Clone, Debug, Serialize)]
#[serde(tag = "ask", rename_all = "snake_case")]
pub enum Answer {
    /// To `convert`.
    Convert(ConvertAnswer),
    /// To `scale`.
    Scale(ScaleAnswer),
    /// To `rescue`.
    Rescue(Box<RescueAnswer>),
    /// To `reach`.
    Reach(Box<ChangedAnswer>),
    /// To `swap`.
    Swap(Box<ChangedAnswer>),
    /// To `patty`.
    Patty(Box<PattyAnswer>),
    /// To `cook`.
    Cook(Box<CookAnswer>),
    /// To `slab`.
    Slab(SlabAnswer),
    /// To a question that could not be answered.
    #[serde(untagged)]
    None {
        /// The question's `ask`, as far as it was read.
        ask: String,
        /// Always `null`.
        value: Option<f64>,
        /// Why, in a sentence.
        why: String,
    },
}

/// An amount in another measure.
#[derive(Clone, Debug, Serialize)]
pub struct ConvertAnswer {
    /// The amount.
    pub value: f64,
    /// One standard deviation.
    pub sd: f64,
    /// Its unit.
    pub unit: &'static str,
    /// How the grams were come by.
    pub grams_from: &'static str,
    /// The same in words.
    pub source: String,
    /// The nearest level cups and spoons.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub level_measures: Option<String>,
    /// What those level measures weigh beyond the amount asked for, g; negative where they are short.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub error_g: Option<f64>,
}

impl ConvertAnswer {
    pub(super) fn of(converted: &Converted) -> ConvertAnswer {
        ConvertAnswer {
            value: converted.value.value,
            sd: converted.value.sd,
            unit: converted.unit.symbol(),
            grams_from: converted.from.id(),
            source: converted.source.clone(),
            level_measures: converted.level.as_ref().map(|(level, _)| level.to_string()),
            error_g: converted.level.as_ref().and_then(|(_, error_g)| *error_g),
        }
    }
}

/// A batch, laid out for the scale.
#[derive(Clone, Debug, Serialize)]
pub struct ScaleAnswer {
    /// Times the formula.
    pub factor: f64,
    /// Mix in all, g.
    pub mix_g: f64,
    /// Lines in the order written.
    pub lines: Vec<ScaledLine>,
    /// What the scale shows after each line, in the order of work, the bowl tared, g.
    pub running_total_g: Vec<f64>,
    /// The order of work: indices into `lines`, as `running_total_g` runs.
    pub order: Vec<usize>,
}

/// One line of a batch.
#[derive(Clone, Debug, Serialize)]
pub struct ScaledLine {
    /// Name.
    pub name: String,
    /// g.
    pub grams: f64,
    /// `dry`, `liquids` or `fat`.
    pub stage: &'static str,
}

impl ScaleAnswer {
    pub(super) fn of(weighed: &Weighed, scaled: &Scaled, out: &WeighOut) -> ScaleAnswer {
        let line = |(line, grams): (&crate::formula::WeighedLine, &f64)| ScaledLine {
            name: line.name.clone(),
            grams: *grams,
            stage: match Stage::of(line) {
                Stage::Dry => "dry",
                Stage::Liquids => "liquids",
                Stage::Fat => "fat",
            },
        };
        ScaleAnswer {
            factor: scaled.factor,
            mix_g: scaled.mix_g,
            lines: weighed.lines.iter().zip(&scaled.grams).map(line).collect(),
            running_total_g: out.steps.iter().map(|step| step.running_total).collect(),
            order: out
                .steps
                .iter()
                .filter_map(|step| weighed.lines.iter().position(|line| line.key == step.key))
                .collect(),
        }
    }
}

/// Advice for what is left in the bowl.
#[derive(Clone, Debug, Serialize)]
pub struct RescueAnswer {
    /// `reached`, `not_needed` or `out_of_reach`.
    pub status: &'static str,
    /// What to add; when out of reach, what gets nearest.
    pub add: Vec<AddAnswer>,
    /// A small step where nothing is out of its window and it still fails.
    pub if_that_fails: Vec<AddAnswer>,
    /// Seasoning that keeps the flavour.
    pub top_up: Vec<AddAnswer>,
    /// Readings of what is left.
    pub readings_before: Readings,
    /// Readings with the additions in.
    pub readings_after: Readings,
    /// What to do, in order.
    pub steps: Vec<String>,
    /// When out of reach: what stays outside, and how near it gets.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub clash: Vec<String>,
}

/// Something to put into the bowl.
#[derive(Clone, Debug, Serialize)]
pub struct AddAnswer {
    /// Ingredient id.
    pub ingredient: String,
    /// Name.
    pub name: String,
    /// g.
    pub grams: f64,
    /// The nearest level spoons, or a pinch; `null` where its density is not known.
    pub spoons: Option<String>,
}

impl RescueAnswer {
    pub(super) fn of(rescue: &Rescue) -> RescueAnswer {
        let adds = |adds: &[Add]| adds.iter().map(AddAnswer::of).collect();
        RescueAnswer {
            status: rescue.status.id(),
            add: adds(&rescue.add),
            if_that_fails: adds(&rescue.if_that_fails),
            top_up: adds(&rescue.top_up),
            readings_before: Readings::of(&rescue.before),
            readings_after: Readings::of(&rescue.after),
            steps: rescue.steps.clone(),
            clash: rescue.clash.clone(),
        }
    }
}

impl AddAnswer {
    fn of(add: &Add) -> AddAnswer {
        AddAnswer {
            ingredient: add.ingredient.clone(),
            name: add.name.clone(),
            grams: add.grams,
            spoons: add.by_spoon(),
        }
    }
}
