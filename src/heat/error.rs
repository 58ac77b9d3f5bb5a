//! What cannot be cooked, and what to do about it.

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

impl fmt::Display for HeatError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Composition => write!(
                f,
                "Say what the mix is made of: water, protein, fat and the rest must be zero or more and add up to something"
            ),
            Self::Air(share) => write!(
                f,
                "Give the air in the patty as a share of its volume between 0 and 0.9, not {share}"
            ),
            Self::Thickness { mm, range: (low, high) } => {
                write!(f, "Give a thickness between {low} and {high} mm, not {mm} mm")
            }
            Self::Surroundings { c, range: (low, high) } => {
                write!(f, "Give a temperature between {low} and {high} °C, not {c} °C")
            }
            Self::Frozen(c) => write!(
                f,
                "Thaw the patty first: it starts at {c} °C, and thawing is not followed here"
            ),
            Self::StartsHot { start_c, core_c } => write!(
                f,
                "The patty starts at {start_c} °C, which is already the core target of {core_c} °C or more"
            ),
            Self::PanTooCold { pan_c, core_c } => write!(
                f,
                "Heat to {pan_c} °C cannot bring the core to {core_c} °C: make it hotter than the target"
            ),
            Self::TargetBoils(c) => write!(
                f,
                "Set the core target below 100 °C: at {c} °C the water in the patty boils, and the core stays wet"
            ),
            Self::Coefficient(h) => write!(f, "Give a heat transfer coefficient of zero or more W/m²K, not {h}"),
            Self::Matter(x) => write!(f, "Give density, conductivity and specific heat above zero, not {x}"),
            Self::Time(s) => write!(f, "Give times in rising order between 0 s and 24 hours, not {s} s"),
            Self::Binder(percent) => write!(
                f,
                "Give the binder as 0.3 to 10 % of the water phase and the salt as 0 to 5 %, not {percent} %"
            ),
            Self::NeverDone(minutes) => write!(
                f,
                "The core does not reach the target within {minutes} minutes: make it thinner, turn it more often, or make the heat stronger"
            ),
            Self::NeverSets(minutes) => write!(
                f,
                "The patty does not set far enough to be turned within {minutes} minutes: make it thinner, cover it, or set it in the oven"
            ),
        }
    }
}

impl std::error::Error for HeatError {}
