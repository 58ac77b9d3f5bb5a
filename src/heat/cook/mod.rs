//! The cook's answers: when to turn, when it is done, how hot it stays, what it loses.
//!
//! A plan says what the patty is, how it is heated and where it rests; the slab does the rest.
//! The earliest safe turn is when half the thickness has set, that is when the middle has reached the gel temperature: common practice, no source.
//! Done is when the middle, where the probe goes, has reached the target.
//! Every answer carries its spread: contact, conductivity, thickness, air and gel each moved by one standard deviation,
//! and the error of the model itself against published cooking times ([`MODEL_RELATIVE_SD`]).

mod answers;
mod follow;
mod surroundings;

pub use answers::{Answers, Caution, Field, Softening};
pub use surroundings::{PAN_CONTACT, PRESS_CONTACT};

use super::binder::Gel;
use super::{Estimate, Food, HeatError};
use crate::words::say;
use serde::{Deserialize, Serialize};

/// Relative standard deviation of the model's times against published experiments.
///
/// The tests work it out from every experiment known to us, and hold it to this figure.
pub const MODEL_RELATIVE_SD: f64 = 0.25;

/// The usual core target, °C: what the US Food Code asks of food reheated for hot holding (74 °C, 165 °F, for 15 s).
pub const USUAL_CORE_C: f64 = 74.0;

/// Longest cook that is followed, s.
const LONGEST_COOK_S: f64 = 5400.0;

/// Thicknesses that are cooked, mm.
const THICKNESSES_MM: (f64, f64) = (1.0, 60.0);

/// A raw patty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patty {
    /// The mix, with its air.
    pub food: Food,
    /// Thickness, 1 to 60 mm.
    pub thickness_mm: Estimate,
    /// Temperature when it meets the heat, 0 °C or more.
    pub start_c: f64,
}

/// When the patty is turned.
#[derive(Debug, Clone, PartialEq)]
pub enum Turns {
    /// Once, as soon as it has set half way.
    WhenSet,
    /// Every so many seconds.
    Every(f64),
    /// At these rising times, s.
    At(Vec<f64>),
}

/// How the patty is heated.
#[derive(Debug, Clone, PartialEq)]
pub enum Way {
    /// On a pan, open above.
    Pan {
        /// Temperature of the pan, °C.
        pan_c: f64,
        /// Contact coefficient, W/(m² K); [`PAN_CONTACT`] unless measured.
        contact: Estimate,
        /// When it is turned.
        turns: Turns,
    },
    /// Between two hot plates.
    Press {
        /// Temperature of both plates, °C.
        plates_c: f64,
        /// Contact coefficient, W/(m² K); [`PRESS_CONTACT`] unless measured.
        contact: Estimate,
    },
    /// On a tray in an oven.
    Oven {
        /// Temperature of the oven, °C.
        oven_c: f64,
    },
}

/// A way to heat by its name: what documents and screens choose among.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stove {
    /// In a pan, turned.
    #[default]
    Pan,
    /// Between two hot plates.
    Press,
    /// On a tray in an oven.
    Oven,
}

impl Stove {
    /// Every one.
    pub const ALL: [Stove; 3] = [Stove::Pan, Stove::Press, Stove::Oven];

    /// The words on screen.
    pub fn name(self) -> &'static str {
        match self {
            Stove::Pan => say("pan"),
            Stove::Press => say("two plates"),
            Stove::Oven => say("oven"),
        }
    }

    /// The way at this temperature, with the usual contact; `turns` count in a pan only.
    pub fn at(self, hot_c: f64, turns: Turns) -> Way {
        match self {
            Stove::Pan => Way::Pan {
                pan_c: hot_c,
                contact: PAN_CONTACT,
                turns,
            },
            Stove::Press => Way::Press {
                plates_c: hot_c,
                contact: PRESS_CONTACT,
            },
            Stove::Oven => Way::Oven { oven_c: hot_c },
        }
    }
}

impl Way {
    fn hottest_c(&self) -> f64 {
        match self {
            Self::Pan { pan_c, .. } => *pan_c,
            Self::Press { plates_c, .. } => *plates_c,
            Self::Oven { oven_c } => *oven_c,
        }
    }
}

/// Where the cooked patty rests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rest {
    /// On a rack, open on both sides.
    Rack,
    /// In a bun, which keeps heat and steam.
    #[default]
    Bun,
}

/// A patty, its heat, and what the cook wants of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The raw patty.
    pub patty: Patty,
    /// How it is heated.
    pub way: Way,
    /// Temperature of the kitchen, °C.
    pub room_c: f64,
    /// Core target, below 100 °C; [`USUAL_CORE_C`] unless the cook picks another.
    pub core_c: f64,
    /// The binder's temperatures.
    pub gel: Gel,
    /// Where it rests afterwards.
    pub rest: Rest,
}

impl Plan {
    /// Returns the cook's answers.
    ///
    /// # Errors
    /// [`HeatError`] says in one sentence what cannot be cooked, and what to change.
    ///
    /// # Example
    /// ```
    /// use pattywright::heat::binder::{Grade, gel};
    /// use pattywright::heat::cook::{PAN_CONTACT, Patty, Plan, Rest, Turns, USUAL_CORE_C, Way};
    /// use pattywright::heat::{Composition, Estimate, Food};
    /// let mix = Composition { water: 0.60, protein: 0.18, fat: 0.12, carbohydrate: 0.05, fibre: 0.03, ash: 0.02 };
    /// let plan = Plan {
    ///     patty: Patty { food: Food::new(mix, 0.05)?, thickness_mm: Estimate::new(10.0, 0.5), start_c: 5.0 },
    ///     way: Way::Pan { pan_c: 190.0, contact: PAN_CONTACT, turns: Turns::WhenSet },
    ///     room_c: 22.0,
    ///     core_c: USUAL_CORE_C,
    ///     gel: gel(Grade::TypeA, 2.0, 1.5)?,
    ///     rest: Rest::Bun,
    /// };
    /// let answers = plan.answers()?;
    /// assert!(answers.done_s.value > 180.0 && answers.done_s.value < 600.0);
    /// # Ok::<(), pattywright::heat::HeatError>(())
    /// ```
    pub fn answers(&self) -> Result<Answers, HeatError> {
        self.check()?;
        answers::answer(self)
    }

    fn check(&self) -> Result<(), HeatError> {
        let Patty {
            thickness_mm: Estimate { value: mm, sd },
            start_c,
            ..
        } = self.patty;
        let (thinnest, thickest) = THICKNESSES_MM;
        if !((thinnest..=thickest).contains(&mm) && (0.0..mm).contains(&sd)) {
            return Err(HeatError::Thickness {
                mm,
                range: THICKNESSES_MM,
            });
        }
        for c in [start_c, self.core_c, self.room_c, self.way.hottest_c()] {
            if !(-40.0..=400.0).contains(&c) {
                return Err(HeatError::Surroundings {
                    c,
                    range: (-40.0, 400.0),
                });
            }
        }
        if start_c < 0.0 {
            return Err(HeatError::Frozen(start_c));
        }
        if self.core_c >= 100.0 {
            return Err(HeatError::TargetBoils(self.core_c));
        }
        if start_c >= self.core_c {
            return Err(HeatError::StartsHot {
                start_c,
                core_c: self.core_c,
            });
        }
        if self.way.hottest_c() <= self.core_c {
            return Err(HeatError::PanTooCold {
                pan_c: self.way.hottest_c(),
                core_c: self.core_c,
            });
        }
        let usable = |h: &Estimate| h.value.is_finite() && (0.0..h.value).contains(&h.sd);
        if let Way::Pan { contact, .. } | Way::Press { contact, .. } = &self.way
            && !usable(contact)
        {
            return Err(HeatError::Coefficient(contact.value));
        }
        if let Way::Pan { turns, .. } = &self.way {
            match turns {
                Turns::Every(every_s) if !(5.0..=LONGEST_COOK_S).contains(every_s) => {
                    return Err(HeatError::Time(*every_s));
                }
                Turns::At(at_s) if at_s.len() > 1000 => {
                    return Err(HeatError::Time(at_s.len() as f64));
                }
                _ => {}
            }
        }
        Ok(())
    }
}
