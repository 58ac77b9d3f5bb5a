//! The temperature at which a binder sets, and at which it softens again.
//!
//! The cook asks when the patty holds: methylcellulose and its relatives are runny cold, firm hot, and runny again on the plate.
//! The figure is read from the trade's grades at 2 % in water, then moved by strength and salt of the water phase.
//! Sugar (it takes 20 % to matter), alcohol, and setting by protein or starch are left out on purpose.

use super::{Estimate, HeatError};
use crate::words::say;

/// The grade on the packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Grade {
    /// Methylcellulose that sets low; it wants near-freezing water.
    LowSetting,
    /// Common methylcellulose without hydroxypropyl, type A.
    TypeA,
    /// Hydroxypropyl methylcellulose, type E.
    HydroxypropylE,
    /// Hydroxypropyl methylcellulose, type F.
    HydroxypropylF,
    /// Hydroxypropyl methylcellulose, type K.
    HydroxypropylK,
}

impl Grade {
    /// Every grade, the lowest setting first.
    pub const ALL: [Grade; 5] = [
        Grade::LowSetting,
        Grade::TypeA,
        Grade::HydroxypropylE,
        Grade::HydroxypropylF,
        Grade::HydroxypropylK,
    ];

    /// The name used in saved documents and questions.
    pub fn id(self) -> &'static str {
        match self {
            Grade::LowSetting => "low_setting",
            Grade::TypeA => "type_a",
            Grade::HydroxypropylE => "hydroxypropyl_e",
            Grade::HydroxypropylF => "hydroxypropyl_f",
            Grade::HydroxypropylK => "hydroxypropyl_k",
        }
    }

    /// Finds a grade by its id.
    pub fn from_id(id: &str) -> Option<Grade> {
        Grade::ALL.into_iter().find(|grade| grade.id() == id)
    }

    /// The words on screen.
    pub fn name(self) -> &'static str {
        match self {
            Grade::LowSetting => say("Methylcellulose that sets low (about 40 °C)"),
            Grade::TypeA => say("Common methylcellulose, type A"),
            Grade::HydroxypropylE => say("HPMC, type E"),
            Grade::HydroxypropylF => say("HPMC, type F"),
            Grade::HydroxypropylK => say("HPMC, type K"),
        }
    }
}

/// A binder's two temperatures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gel {
    /// Where it sets on warming, °C.
    pub sets_c: Estimate,
    /// Where it starts to soften on cooling, °C; `None` where no figure is known to us.
    pub softens_c: Option<Estimate>,
}

/// Fall of the setting temperature for each per cent of methylcellulose in the water phase, K.
///
/// Own derivation from two points: 52 °C at 2 %, and 31 °C at 10 %, which lies 10 °C above the true limit of 21 °C because a patty has no hour to gel.
/// (Quasi-equilibrium gelation temperature of aqueous methylcellulose, abstract: limit about 21 °C at 10 wt%, about 10 °C below the value seen after a hold of 1 h.)
const STRENGTH_K_PER_PERCENT: f64 = 2.6;

/// Fall of the setting temperature for each per cent of salt in the water phase, K.
/// From memory: 5 % sodium chloride takes type A from 50 to 33 °C (Phillips GO, Williams PA (eds), Handbook of Hydrocolloids, Woodhead).
/// That hydroxypropyl grades fall in a straight line too is published (Carbohydr Polym 2014;99:630); the slope is taken to be the same.
const SALT_K_PER_PERCENT: f64 = 3.4;

/// Returns where a binder sets and softens.
///
/// - `binder_percent`: binder in 100 g of water phase, 0.3 to 10.
/// - `salt_percent`: salt in 100 g of water phase, 0 to 5.
///
/// # Errors
/// [`HeatError::Binder`].
///
/// # Example
/// ```
/// use pattywright::heat::binder::{Grade, gel};
/// let gel = gel(Grade::TypeA, 2.0, 1.5)?;
/// assert_eq!(format!("{:.0}", gel.sets_c.value), "47");
/// # Ok::<(), pattywright::heat::HeatError>(())
/// ```
///
/// # Source
/// Setting ranges at 2 % from memory: Sarkar N. J Appl Polym Sci 1979;24:1073–1087, and the Handbook of Hydrocolloids.
/// Softening of type A from memory: Haque A, Morris ER. Carbohydr Polym 1993;22:161–173.
pub fn gel(grade: Grade, binder_percent: f64, salt_percent: f64) -> Result<Gel, HeatError> {
    if !(0.3..=10.0).contains(&binder_percent) {
        return Err(HeatError::Binder(binder_percent));
    }
    if !(0.0..=5.0).contains(&salt_percent) {
        return Err(HeatError::Binder(salt_percent));
    }
    let (low_c, high_c, hydroxypropyl): (f64, f64, bool) = match grade {
        Grade::LowSetting => (38.0, 44.0, false),
        Grade::TypeA => (50.0, 55.0, false),
        Grade::HydroxypropylE => (58.0, 64.0, true),
        Grade::HydroxypropylF => (62.0, 68.0, true),
        Grade::HydroxypropylK => (70.0, 90.0, true),
    };
    // For hydroxypropyl grades no slope with strength is known: the figure stays, and the doubt takes it in.
    let by_strength = STRENGTH_K_PER_PERCENT * (binder_percent - 2.0);
    let by_salt = SALT_K_PER_PERCENT * salt_percent;
    let moved = by_salt + if hydroxypropyl { 0.0 } else { by_strength };
    let doubt = ((high_c - low_c) / 2.0).hypot(by_strength / 2.0).hypot(by_salt / 4.0);
    let sets_c = Estimate::new(f64::max(21.0, (low_c + high_c) / 2.0 - moved), doubt);
    let softens_c =
        (grade == Grade::TypeA).then(|| Estimate::new(f64::min(50.0, sets_c.value - 2.0), f64::max(5.0, doubt)));
    Ok(Gel { sets_c, softens_c })
}
