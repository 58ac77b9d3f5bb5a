//! The size of a patty: weight, width and thickness, raw and cooked, on its bun.
//!
//! The cook asks how thick 90 g comes out at 105 mm, how wide to form it so that it still meets the bun, and how thin it may go.
//! A patty is a disc or a square plate of even thickness; weight is area times thickness times density.
//! Domed, ragged and hand-torn shapes are left out on purpose.

mod error;
mod granule;
mod mix;
mod shrink;

pub use error::PattyError;
pub use granule::{Thinness, Thinnest, hydrated_granule_mm, thinnest};
pub use mix::{Mix, MixProblem, NoGel};
pub use shrink::{Cooked, Cooking, Texture, cooked, raw_across_for_bun_mm};

use crate::heat::{Estimate, Food};
use serde::{Deserialize, Serialize};

/// Air that forming leaves in a patty, as a share of its volume: common practice, no source. Weigh a formed patty to replace it.
pub const USUAL_AIR: Estimate = Estimate { value: 0.05, sd: 0.03 };

/// How far a hand-formed patty is out of its width, mm, one standard deviation: common practice, no source.
pub const HAND_FORMED_SD_MM: f64 = 2.0;

/// Relative standard deviation of the density worked out from composition, air apart.
/// The equations come within 3.3 % of a textbook density for lean beef (Çengel, Heat Transfer, 2nd ed., ch. 4).
const DENSITY_RELATIVE_SD: f64 = 0.02;

/// The outline seen from above.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Shape {
    /// A disc; its width is the diameter.
    #[default]
    Round,
    /// A square; its width is the side.
    Square,
}

impl Shape {
    /// Returns the area over the width squared: π/4 or 1.
    fn fullness(self) -> f64 {
        match self {
            Self::Round => std::f64::consts::FRAC_PI_4,
            Self::Square => 1.0,
        }
    }

    /// Returns the area, mm².
    pub fn area_mm2(self, across_mm: f64) -> f64 {
        self.fullness() * across_mm * across_mm
    }
}

/// Returns the density of a formed raw patty, g/ml.
///
/// - `food`: the mix, with its air share.
/// - `air_sd`: how far the air share may be out.
/// - `temperature_c`: of the raw mix.
pub fn density_g_per_ml(food: &Food, air_sd: f64, temperature_c: f64) -> Estimate {
    let value = food.density_kg_per_m3(temperature_c) / 1000.0;
    Estimate::new(value, value * DENSITY_RELATIVE_SD.hypot(air_sd))
}

/// Returns the thickness, mm: `1000·grams / (density · area)`.
///
/// # Errors
/// [`PattyError`] names the figure that is not above zero.
///
/// # Example
/// ```
/// use pattywright::heat::Estimate;
/// use pattywright::patty::{Shape, thickness_mm};
/// let exact = |value| Estimate::new(value, 0.0);
/// let thickness = thickness_mm(exact(90.0), exact(1.04), Shape::Round, exact(105.0))?;
/// assert_eq!(format!("{:.1}", thickness.value), "10.0");
/// # Ok::<(), pattywright::patty::PattyError>(())
/// ```
pub fn thickness_mm(
    grams: Estimate,
    density_g_per_ml: Estimate,
    shape: Shape,
    across_mm: Estimate,
) -> Result<Estimate, PattyError> {
    let grams = error::weight(grams)?;
    let density = error::density(density_g_per_ml)?;
    let across = error::width(across_mm)?;
    let value = 1000.0 * grams.value / (density.value * shape.area_mm2(across.value));
    Ok(Estimate::new(
        value,
        value * spread(&[(grams, 1.0), (density, 1.0), (across, 2.0)]),
    ))
}

/// Returns the width, mm, of a patty of given weight and thickness: the press gap decides how far a ball spreads.
///
/// # Errors
/// As [`thickness_mm`].
pub fn across_mm(
    grams: Estimate,
    density_g_per_ml: Estimate,
    shape: Shape,
    thickness_mm: Estimate,
) -> Result<Estimate, PattyError> {
    let grams = error::weight(grams)?;
    let density = error::density(density_g_per_ml)?;
    let thickness = error::thickness(thickness_mm)?;
    let value = (1000.0 * grams.value / (density.value * thickness.value * shape.fullness())).sqrt();
    Ok(Estimate::new(
        value,
        value * spread(&[(grams, 0.5), (density, 0.5), (thickness, 0.5)]),
    ))
}

/// Returns the weight, g, to ball up for a patty of given width and thickness.
///
/// # Errors
/// As [`thickness_mm`].
pub fn grams(
    density_g_per_ml: Estimate,
    shape: Shape,
    across_mm: Estimate,
    thickness_mm: Estimate,
) -> Result<Estimate, PattyError> {
    let density = error::density(density_g_per_ml)?;
    let across = error::width(across_mm)?;
    let thickness = error::thickness(thickness_mm)?;
    let value = density.value * shape.area_mm2(across.value) * thickness.value / 1000.0;
    Ok(Estimate::new(
        value,
        value * spread(&[(density, 1.0), (across, 2.0), (thickness, 1.0)]),
    ))
}

/// Returns the diameter, mm, of the ball that is pressed into a patty.
///
/// # Errors
/// As [`thickness_mm`].
pub fn ball_mm(grams: Estimate, density_g_per_ml: Estimate) -> Result<Estimate, PattyError> {
    let grams = error::weight(grams)?;
    let density = error::density(density_g_per_ml)?;
    let value = (6000.0 * grams.value / (std::f64::consts::PI * density.value)).cbrt();
    Ok(Estimate::new(
        value,
        value * spread(&[(grams, 1.0 / 3.0), (density, 1.0 / 3.0)]),
    ))
}

/// What a bowl gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FromBowl {
    /// Whole patties.
    pub count: u32,
    /// Mix left over, g, what sticks to bowl and hands taken off.
    pub left_g: f64,
}

/// Returns how many patties a bowl gives, and what is left.
///
/// - `stuck_percent`: the share of the bowl that sticks to bowl and hands, 0 to below 100.
///
/// # Errors
/// [`PattyError::Weight`] and [`PattyError::Percent`].
pub fn from_bowl(bowl_g: f64, patty_g: f64, stuck_percent: f64) -> Result<FromBowl, PattyError> {
    let bowl_g = error::weight(Estimate::new(bowl_g, 0.0))?.value;
    let patty_g = error::weight(Estimate::new(patty_g, 0.0))?.value;
    let usable_g = bowl_g * (1.0 - error::percent(Estimate::new(stuck_percent, 0.0))?.value / 100.0);
    // A bowl that is meant to give ten patties must not give nine for the last digit of a division.
    let count = (usable_g / patty_g + 1e-9).floor();
    Ok(FromBowl {
        count: count as u32,
        left_g: (usable_g - count * patty_g).max(0.0),
    })
}

/// Relative spread of a product of powers of independent figures.
fn spread(factors: &[(Estimate, f64)]) -> f64 {
    factors
        .iter()
        .map(|(figure, power)| (power * figure.sd / figure.value).powi(2))
        .sum::<f64>()
        .sqrt()
}
