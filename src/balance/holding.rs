//! How much water an ingredient holds.
//!
//! Powders are measured alone, with water to spare; in a crowded mix they get a part of it ([`CROWDED`]).
//! Dry granules are soaked to their fill, so their ratio counts whole.
//! Laboratories differ by 30 % and more, so every figure is a range.

use crate::measure::Estimate;
use crate::pantry::{Ingredient, Role};
use crate::words::{say, within};

/// The part of a powder's capacity that counts in a crowded mix: not published, a starting figure to be tried out.
pub const CROWDED: f64 = 0.5;

/// Water held, g per g.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Holding {
    /// Ingredient id.
    pub ingredient: &'static str,
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Who says so.
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/holding.rs"));

impl Holding {
    /// The figure of a published row; none where nobody has published or remembers one.
    pub fn of(ingredient: &str) -> Option<&'static Holding> {
        HOLDING.iter().find(|row| row.ingredient == ingredient)
    }

    /// The figure of an ingredient: for one of the cook's own, that of the row it is like.
    pub fn of_ingredient(ingredient: &Ingredient) -> Option<&'static Holding> {
        Holding::of(ingredient.id()).or_else(|| Holding::of(ingredient.row()?.id))
    }

    /// Who says so, and whose figure it is where it was borrowed: "Foods 2023 …, taken from soy flour, which it is like".
    pub fn source_for(&self, ingredient: &Ingredient) -> String {
        let borrowed = ingredient
            .row()
            .filter(|row| row.id == self.ingredient && row.id != ingredient.id());
        match borrowed {
            Some(row) => say!(
                "taken from {name}, which it is like: {source}",
                name = within(say(row.kitchen_name)),
                source = say(self.source)
            ),
            None => say(self.source).to_owned(),
        }
    }

    /// Water that one gram holds in a mix, g: the middle of the range, an even spread over it.
    pub fn in_a_mix(&self, role: Role, crowded: f64) -> Estimate {
        let part = if role == Role::Textured { 1.0 } else { crowded };
        Estimate {
            value: part * (self.low + self.high) / 2.0,
            sd: part * (self.high - self.low) / 12f64.sqrt(),
        }
    }
}
