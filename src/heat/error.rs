//! What cannot be cooked, and what to do about it.

use super::steam::BOILING_C;
use crate::measure::Degrees;
use crate::words::{self, say};
use std::fmt;

/// Why a heat question has no answer; each kind reads as one sentence for the cook.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HeatError {
    /// The composition adds up to nothing, or a share is negative or not a number.
    Composition,
    /// The air share lies outside 0 to 0.9.
    Air(f64),
    /// The thickness lies outside its range.
    Thickness {
        /// What was given, mm.
        mm: f64,
        /// Least and most that is followed, mm.
        range: (f64, f64),
    },
    /// A temperature of pan, plates, oven or room lies outside its range.
    Surroundings {
        /// What was given, °C.
        c: f64,
        /// Least and most that is followed, °C.
        range: (f64, f64),
    },
    /// The patty starts frozen.
    Frozen(f64),
    /// The patty starts as hot as the core target, or hotter.
    StartsHot {
        /// Temperature at the start, °C.
        start_c: f64,
        /// Core target, °C.
        core_c: f64,
    },
    /// The pan, plates or oven are no hotter than the core target.
    PanTooCold {
        /// Temperature of the pan, plates or oven, °C.
        pan_c: f64,
        /// Core target, °C.
        core_c: f64,
    },
    /// The core target is at or above the boiling point of the water in the patty.
    TargetBoils(f64),
    /// A heat transfer coefficient is negative or not a number, or its spread reaches down to zero.
    Coefficient(f64),
    /// A density, conductivity or specific heat is not above zero.
    Matter(f64),
    /// A time is negative, not a number, or beyond 24 hours, or the times are not in rising order.
    Time(f64),
    /// The binder share or the salt share of the water phase lies outside its range, percent.
    Binder(f64),
    /// The core has not reached the target within the longest cook that is followed, minutes.
    NeverDone(f64),
    /// The gel has not set far enough within the longest cook that is followed, minutes.
    NeverSets(f64),
}

impl HeatError {
    /// The sentence, its temperatures in these degrees.
    pub fn in_degrees(self, degrees: Degrees) -> String {
        let bare = |c: f64| match degrees {
            Degrees::Celsius => as_given(c),
            Degrees::Fahrenheit => degrees.write(c),
        };
        let text = |c: f64| format!("{} {}", bare(c), degrees.symbol());
        match self {
            Self::Composition => say!(
                "Say what the mix is made of: water, protein, fat and the rest must be zero or more and add up to something"
            ),
            Self::Air(share) => say!(
                "Give the air in the patty as a share of its volume between 0 and 0.9, not {share}",
                share = as_given(share)
            ),
            Self::Thickness { mm, range: (low, high) } => say!(
                "Give a thickness between {low} and {high} mm, not {mm} mm",
                low = as_given(low),
                high = as_given(high),
                mm = as_given(mm)
            ),
            Self::Surroundings { c, range: (low, high) } => say!(
                "Give a temperature between {low} and {high}, not {given}",
                low = bare(low),
                high = text(high),
                given = text(c)
            ),
            Self::Frozen(c) => say!(
                "Thaw the patty first: it starts at {start}, and thawing is not followed here",
                start = text(c)
            ),
            Self::StartsHot { start_c, core_c } => say!(
                "The patty starts at {start}, which is already the core target of {core} or more",
                start = text(start_c),
                core = text(core_c)
            ),
            Self::PanTooCold { pan_c, core_c } => say!(
                "Heat to {pan} cannot bring the core to {core}: make it hotter than the target",
                pan = text(pan_c),
                core = text(core_c)
            ),
            Self::TargetBoils(c) => say!(
                "Set the core target below {boiling}: at {core} the water in the patty boils, and the core stays wet",
                boiling = text(BOILING_C),
                core = text(c)
            ),
            Self::Coefficient(h) => say!(
                "Give a heat transfer coefficient of zero or more W/m²K, not {h}",
                h = as_given(h)
            ),
            Self::Matter(figure) => say!(
                "Give density, conductivity and specific heat above zero, not {figure}",
                figure = as_given(figure)
            ),
            Self::Time(s) => say!(
                "Give times in rising order between 0 s and 24 hours, not {s} s",
                s = as_given(s)
            ),
            Self::Binder(percent) => say!(
                "Give the binder as 0.3 to 10 % of the water phase and the salt as 0 to 5 %, not {percent} %",
                percent = as_given(percent)
            ),
            Self::NeverDone(minutes) => say!(
                "The core does not reach the target within {minutes} minutes: make it thinner, turn it more often, or make the heat stronger",
                minutes = as_given(minutes)
            ),
            Self::NeverSets(minutes) => say!(
                "The patty does not set far enough to be turned within {minutes} minutes: make it thinner, cover it, or set it in the oven",
                minutes = as_given(minutes)
            ),
        }
    }
}

/// In °C, as the library counts.
impl fmt::Display for HeatError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.in_degrees(Degrees::Celsius))
    }
}

/// A figure to the last digit given, with the decimal mark of the language spoken.
pub(crate) fn as_given(figure: f64) -> String {
    figure
        .to_string()
        .replace('.', words::spoken().decimal_mark().encode_utf8(&mut [0; 4]))
}

impl std::error::Error for HeatError {}
