//! How much did the cook type? An amount, its unit and how the measure was filled.
//!
//! A quantity is one amount, or a range, in one unit, with further amounts of the same kind added to it.
//! What an amount weighs is left out on purpose where a density is needed: the pantry knows that.

use super::figure::trimmed;
use super::number::number;
use super::unit::{Cup, Unit};
use crate::words::say;
use serde::{Deserialize, Serialize};
use std::fmt;

pub use super::typed::{read, take};

/// How a cup or spoon was filled.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Packing {
    /// Swept level with the rim.
    #[default]
    Level,
    /// Pressed down: the same volume, but more in it, so the density is another one.
    Packed,
    /// With a heap above the rim.
    Heaped,
    /// Not quite full.
    Scant,
}

impl Packing {
    /// How many level measures one measure filled like this holds (common practice, no source).
    ///
    /// A packed measure is full to the rim; what is in it is denser, which is the pantry's to say.
    pub fn level_measures(self) -> f64 {
        match self {
            Packing::Level | Packing::Packed => 1.0,
            Packing::Heaped => 1.5,
            Packing::Scant => 0.9,
        }
    }

    fn word(self) -> &'static str {
        match self {
            Packing::Level => "",
            Packing::Packed => say("packed"),
            Packing::Heaped => say("heaped"),
            Packing::Scant => say("scant"),
        }
    }
}

/// What the number counts.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Measure {
    /// A unit of weight or volume.
    Unit(Unit),
    /// A number of things, named in the singular and in lower case ("clove"), or nothing for a bare number.
    Count(String),
}

/// What was typed, understood.
#[derive(Clone, PartialEq, Debug)]
pub struct Quantity {
    /// The amount in `measure`, or the lower end of a range.
    pub low: f64,
    /// The amount again, or the upper end of a range.
    pub high: f64,
    /// What `low` and `high` count.
    pub measure: Measure,
    /// How each measure was filled.
    pub packing: Packing,
    /// Whether the cook typed "about".
    pub about: bool,
    /// The number before the × in "2 × 94 g"; `low` and `high` already contain it.
    pub times: Option<f64>,
    /// The further amounts of a sum: the 4 oz of "1 lb + 4 oz", the same kind as `measure`.
    pub plus: Vec<Quantity>,
}

impl Quantity {
    /// A plain amount in a unit.
    pub fn of(amount: f64, unit: Unit) -> Self {
        Quantity::plain(amount, amount, Measure::Unit(unit))
    }

    pub(super) fn plain(low: f64, high: f64, measure: Measure) -> Self {
        Quantity {
            low,
            high,
            measure,
            packing: Packing::Level,
            about: false,
            times: None,
            plus: Vec::new(),
        }
    }

    /// The middle of the range, in `measure`; the further amounts of a sum are not in it.
    pub fn middle(&self) -> f64 {
        self.low + (self.high - self.low) / 2.0
    }

    /// The unit, unless it is a number of things.
    pub fn unit(&self) -> Option<Unit> {
        match self.measure {
            Measure::Unit(unit) => Some(unit),
            Measure::Count(_) => None,
        }
    }

    /// The middle in grams, the whole of a sum, when it was typed by weight.
    pub fn grams(&self) -> Option<f64> {
        let mut grams = self.middle() * self.unit()?.grams()?;
        for part in &self.plus {
            grams += part.grams()?;
        }
        Some(grams)
    }

    /// The middle in millilitres, the whole of a sum, when it was typed by volume.
    ///
    /// Heaped and scant measures count as [`Packing::level_measures`] says.
    pub fn millilitres(&self, cup: Cup) -> Option<f64> {
        let each_ml = self.unit()?.millilitres(cup)?;
        let mut millilitres = self.middle() * each_ml * self.packing.level_measures();
        for part in &self.plus {
            millilitres += part.millilitres(cup)?;
        }
        Some(millilitres)
    }
}

/// Why a text is not a quantity; each says what to do.
#[derive(Clone, PartialEq, Debug)]
pub enum QuantityError {
    /// Nothing was typed.
    Empty,
    /// There is no number to start from.
    NoNumber,
    /// The amount is zero.
    Zero,
    /// The text is longer than any quantity.
    TooLong,
    /// The amount has a minus sign.
    Negative,
    /// The amount is above [`LARGEST_AMOUNT`].
    TooLarge,
    /// What follows the number is neither a unit nor the name of a thing.
    UnknownUnit {
        /// What was typed there.
        word: String,
    },
    /// The range runs from large to small.
    BackwardRange {
        /// What was typed first.
        low: f64,
        /// What was typed second.
        high: f64,
    },
    /// The digits can be read as two different numbers.
    Ambiguous {
        /// The digits as typed.
        typed: String,
    },
    /// There are more words after a complete quantity.
    LeftOver {
        /// The first of them.
        words: String,
    },
    /// A weight and a volume were added.
    WeightPlusVolume,
}

/// No single amount above this is believed, whatever its unit.
pub const LARGEST_AMOUNT: f64 = 1_000_000.0;

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            QuantityError::Empty => say!("Type an amount, such as 1 1/2 cups or 90 g"),
            QuantityError::NoNumber => say!("Start with a number, such as 2 tbsp or 90 g"),
            QuantityError::Zero => say!("Type an amount above zero, or take the line out"),
            QuantityError::TooLong => say!("Type the amount alone, such as 90 g"),
            QuantityError::Negative => say!("Type the amount without a minus sign"),
            QuantityError::TooLarge => say!("Type a smaller amount, up to {most}", most = trimmed(LARGEST_AMOUNT, 0)),
            QuantityError::UnknownUnit { word } => say!(
                "Use a unit such as g, ml, tsp, tbsp or cup, or the name of a thing, in place of “{word}”",
                word
            ),
            QuantityError::BackwardRange { low, high } => say!(
                "Type the smaller number first: {high} to {low}",
                high = number(*high, true),
                low = number(*low, true)
            ),
            QuantityError::Ambiguous { typed } => say!(
                "“{typed}” can be read as two numbers: leave thousands unmarked, and use a point for decimals",
                typed
            ),
            QuantityError::LeftOver { words } => say!("Take out “{words}”, which comes after a complete amount", words),
            QuantityError::WeightPlusVolume => say!("Put the weight and the volume on lines of their own"),
        })
    }
}

impl std::error::Error for QuantityError {}

/// Writes the quantity so that [`read`] understands the same thing: "1–2 heaped tsp", "2 × 94 g", "1 lb + 4 oz".
impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let in_fractions = match &self.measure {
            Measure::Unit(unit) => !is_metric(*unit),
            Measure::Count(_) => true,
        };
        let times = self.times.unwrap_or(1.0);
        if self.about {
            write!(f, "{} ", say("about"))?;
        }
        if self.times.is_some() {
            write!(f, "{} × ", number(times, true))?;
        }
        let mut amount = number(self.low / times, in_fractions);
        if self.low != self.high {
            amount = format!("{amount}–{}", number(self.high / times, in_fractions));
        }
        let many = 1.0 < self.high;
        match &self.measure {
            Measure::Unit(unit) if self.packing == Packing::Level => write!(f, "{amount} {}", unit.written(many))?,
            Measure::Unit(unit) => f.write_str(&say!(
                "{amount} {packing} {unit}",
                amount,
                packing = self.packing.word(),
                unit = unit.written(many)
            ))?,
            Measure::Count(thing) if thing.is_empty() => f.write_str(&amount)?,
            Measure::Count(thing) if many => write!(f, "{amount} {}", super::thing::plural(thing))?,
            Measure::Count(thing) => write!(f, "{amount} {thing}")?,
        }
        for part in &self.plus {
            write!(f, " + {part}")?;
        }
        Ok(())
    }
}

fn is_metric(unit: Unit) -> bool {
    matches!(
        unit,
        Unit::Gram
            | Unit::Kilogram
            | Unit::Milligram
            | Unit::Millilitre
            | Unit::Centilitre
            | Unit::Decilitre
            | Unit::Litre
    )
}
