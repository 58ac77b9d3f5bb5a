//! What is in the bowl: lines in grams, percentages, and the readings that decide whether it holds.
//!
//! A formula is a list of typed lines. It is weighed in a [`Kitchen`], which knows the pantry, the other formulas and the cook's habits.
//! Every reading is a ratio of two sums over the lines, so its spread follows from the lines' spreads by its gradient.
//! Method text and pictures are left out on purpose: this is the sum, not the recipe card.

mod batch;
pub mod evidence;
mod kitchen;
mod profile;
mod reading;
mod weigh;
mod weigh_out;
mod window;

pub use batch::{Batch, BatchProblem, LARGEST_BATCH_G, Patties, Scaled};
pub use kitchen::Kitchen;
pub use profile::{Component, Part, Profile};
pub use reading::{Reading, ReadingValue, Value};
pub use weigh::{Weighed, WeighedLine, on_the_scale};
pub use weigh_out::{Stage, Step, WeighOut, weigh_out};
pub use window::{Style, Window};

use crate::pantry::Role;
use crate::words::say;
use serde::{Deserialize, Serialize};

/// A formula as the cook wrote it.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Formula {
    /// Its id in snake_case.
    pub id: String,
    /// Its name on screen.
    pub name: String,
    /// What is made of it; decides the windows. Left open, a mix with textured protein is a standard patty.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub style: Option<Style>,
    /// What counts as 100 in baker's percentages.
    #[serde(skip_serializing_if = "Base::is_default")]
    pub base: Base,
    /// Its lines, in the order written.
    pub lines: Vec<Line>,
    /// What was added to the bowl after mixing, newest last.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub log: Vec<Addition>,
}

/// One line: what, and how much of it, as typed.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Line {
    /// Number that stays with the line while it is moved about; 0 until given.
    #[serde(skip_serializing_if = "is_zero")]
    pub key: u32,
    /// Id of an ingredient.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ingredient: Option<String>,
    /// Id of another formula.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub formula: Option<String>,
    /// The name as written, where it is none of the two yet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// How much, as typed.
    pub amount: String,
    /// What it does here, where that differs from the ingredient's own role.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub role: Option<Role>,
    /// Which published cut or filling: `coarse grain`, `packed`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<String>,
    /// The cook's note.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // The serializer hands out a reference.
fn is_zero(key: &u32) -> bool {
    *key == 0
}

/// What counts as 100 in baker's percentages.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Base {
    /// Textured protein and protein powder together.
    #[default]
    DryProtein,
    /// Textured protein alone.
    Textured,
    /// The whole mix.
    Total,
}

impl Base {
    /// Every base.
    pub const ALL: [Base; 3] = [Base::DryProtein, Base::Textured, Base::Total];

    /// The words on screen.
    pub fn name(self) -> &'static str {
        match self {
            Base::DryProtein => say("dry protein"),
            Base::Textured => say("textured protein"),
            Base::Total => say("the whole mix"),
        }
    }

    fn counts(self, role: Role) -> bool {
        match self {
            Base::DryProtein => matches!(role, Role::Textured | Role::Powder),
            Base::Textured => role == Role::Textured,
            Base::Total => true,
        }
    }

    #[allow(clippy::trivially_copy_pass_by_ref)] // The serializer hands out a reference.
    fn is_default(&self) -> bool {
        *self == Base::default()
    }
}

/// Something added to the bowl after mixing.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Addition {
    /// When, as `2026-11-25 18:40`.
    pub at: String,
    /// Why, in the room's words.
    pub why: String,
    /// What was left in the bowl, g.
    pub left_g: f64,
    /// What went in: ingredient id and grams.
    pub added: Vec<(String, f64)>,
}

impl Formula {
    /// Gives every line a key of its own; keys already there stay.
    pub fn give_keys(&mut self) {
        let mut seen = Vec::with_capacity(self.lines.len());
        let mut next = self.lines.iter().map(|line| line.key).max().unwrap_or(0);
        for line in &mut self.lines {
            if line.key == 0 || seen.contains(&line.key) {
                next = next.saturating_add(1);
                line.key = next;
            }
            seen.push(line.key);
        }
    }
}
