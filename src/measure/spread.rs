//! How sure is a measured amount? The spread of the measuring itself.
//!
//! Each scoop of a level measure errs by itself, so n of them err by 1/√n; a scale rounds to its step; a range is uniform.
//! Density and the size of a clove are left out on purpose: the pantry knows how sure those are.

use super::quantity::{Measure, Packing, Quantity};
use super::unit::{Cup, Unit};
use serde::{Deserialize, Serialize};

/// Standard deviation of a uniform distribution of width 1.
///
/// # Source
/// JCGM 100:2008 (GUM), 4.3.7: a rectangle of half-width a has variance a²/3.
const UNIFORM_SD: f64 = 0.288_675_134_594_812_9;

/// How finely this cook measures; shares are one standard deviation, 0.05 for 5 %.
///
/// The defaults are common practice, no source: a scale that shows whole grams, and a hand that is neither careless nor careful.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct Habits {
    /// The smallest step the scale shows, in grams.
    pub scale_step_grams: f64,
    /// One level cup, or a part of one.
    pub cup: f64,
    /// One level tablespoon or teaspoon, or a part of one.
    pub spoon: f64,
    /// One pinch or dash.
    pub pinch: f64,
    /// One filling of a marked jug: millilitres to litres, fluid ounces, pints and quarts.
    pub jug: f64,
    /// Added when the measure was packed.
    pub packed: f64,
    /// Added when the measure was heaped.
    pub heaped: f64,
    /// Added when the measure was scant.
    pub scant: f64,
    /// Added when the cook typed "about".
    pub about: f64,
}

impl Default for Habits {
    fn default() -> Self {
        Habits {
            scale_step_grams: 1.0,
            cup: 0.05,
            spoon: 0.08,
            pinch: 0.4,
            jug: 0.03,
            packed: 0.08,
            heaped: 0.25,
            scant: 0.06,
            about: 0.1,
        }
    }
}

/// Returns the relative standard deviation of the amount as measured: 0.05 for 5 %.
///
/// `rel² = measure²/n + packing² + about² + range²`; the parts of a sum err independently.
///
/// - A weight: `scale_step_grams/√12` for each weighing, over its grams.
/// - A volume: the habit of its measure, over √n for n measures; a part of a measure is one measure.
/// - A number of things is counted without error; only its range and its "about" spread.
pub fn relative_sd(quantity: &Quantity, habits: &Habits) -> f64 {
    let about = if quantity.about { habits.about } else { 0.0 };
    if quantity.plus.is_empty() {
        return root_of_squares([part_relative_sd(quantity, habits), about]);
    }
    let (mut total, mut variance) = (0.0, 0.0);
    for part in std::iter::once(quantity).chain(&quantity.plus) {
        let amount = amount(part);
        total += amount;
        variance += (amount * part_relative_sd(part, habits)).powi(2);
    }
    root_of_squares([variance.sqrt() / total, about])
}

/// The amount by which one part of a sum is weighted against the others; the US cup does, as only proportions matter.
fn amount(part: &Quantity) -> f64 {
    let each = part.unit().and_then(|unit| unit.grams().or(unit.millilitres(Cup::Us)));
    part.middle() * each.unwrap_or(1.0) * part.packing.level_measures()
}

fn part_relative_sd(part: &Quantity, habits: &Habits) -> f64 {
    let middle = part.middle();
    let scoops = middle.max(1.0).sqrt();
    let measuring = match &part.measure {
        Measure::Count(_) => 0.0,
        Measure::Unit(unit) => match unit {
            Unit::Gram | Unit::Kilogram | Unit::Milligram | Unit::Ounce | Unit::Pound => {
                let weighings = part.times.unwrap_or(1.0).max(1.0).sqrt();
                habits.scale_step_grams * UNIFORM_SD * weighings / amount(part)
            }
            Unit::Cup => habits.cup / scoops,
            Unit::Teaspoon | Unit::Tablespoon => habits.spoon / scoops,
            Unit::Pinch | Unit::Dash => habits.pinch / scoops,
            Unit::Millilitre
            | Unit::Centilitre
            | Unit::Decilitre
            | Unit::Litre
            | Unit::FluidOunce
            | Unit::Pint
            | Unit::Quart => habits.jug,
        },
    };
    let packing = match part.packing {
        Packing::Level => 0.0,
        Packing::Packed => habits.packed,
        Packing::Heaped => habits.heaped,
        Packing::Scant => habits.scant,
    };
    let range = (part.high - part.low) * UNIFORM_SD / middle;
    root_of_squares([measuring, packing, range])
}

/// Independent spreads together; shares of an amount are far from where squares overflow.
///
/// # Source
/// JCGM 100:2008 (GUM), 5.1.2: the combined variance of independent parts is the sum of theirs.
pub fn root_of_squares<const N: usize>(spreads: [f64; N]) -> f64 {
    spreads.iter().map(|spread| spread * spread).sum::<f64>().sqrt()
}
