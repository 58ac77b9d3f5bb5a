//! From raw to cooked: what a patty loses in weight and width.
//!
//! Published patties give the first guess; the cook's own trials replace it.

use super::error::{percent, thickness, weight, width};
use super::{PattyError, spread};
use crate::heat::Estimate;

/// What the textured protein is made from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Texture {
    /// Common textured vegetable protein from defatted flour.
    Flour,
    /// Textured protein isolate.
    Isolate,
}

/// What cooking takes, in percent of the raw figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooking {
    /// Weight lost.
    pub loss_percent: Estimate,
    /// Width lost.
    pub shrink_percent: Estimate,
}

impl Cooking {
    /// Returns what published patties lost at this share of methylcellulose in the mix.
    ///
    /// Loss is a straight line through two points of each texture, held to 4 to 15 %, ± 2 points:
    /// flour 9.98 % at 1.5 % and 7.12 % at 4 %, isolate 12.01 % at 1.5 % and 7.30 % at 3 %.
    /// Shrink of the four plant patties was 4.2 to 10.0 %, with no clear trend: their mean and spread stand for all.
    ///
    /// # Source
    /// Bakhsh A, et al. Foods 2021;10(3):560, Table 4. The published error of the mean is 0.48 points for loss.
    pub fn published(texture: Texture, binder_percent: f64) -> Self {
        let (at_least, per_percent) = match texture {
            Texture::Flour => (9.98, (9.98 - 7.12) / 2.5),
            Texture::Isolate => (12.01, (12.01 - 7.30) / 1.5),
        };
        let loss = at_least - per_percent * (binder_percent.clamp(0.0, 10.0) - 1.5);
        Self {
            loss_percent: Estimate::new(loss.clamp(4.0, 15.0), 2.0),
            shrink_percent: Estimate::new(7.2, 2.4),
        }
    }

    /// Returns what the cook measured on one patty; `sd` are in points.
    ///
    /// # Errors
    /// [`PattyError::Percent`] when the patty grew heavier or wider.
    pub fn measured(
        (raw_g, cooked_g): (Estimate, Estimate),
        (raw_mm, cooked_mm): (Estimate, Estimate),
    ) -> Result<Self, PattyError> {
        let lost = |raw: Estimate, left: Estimate| {
            let share = left.value / raw.value;
            percent(Estimate::new(
                100.0 * (1.0 - share),
                100.0 * share * spread(&[(raw, 1.0), (left, 1.0)]),
            ))
        };
        Ok(Self {
            loss_percent: lost(weight(raw_g)?, weight(cooked_g)?)?,
            shrink_percent: lost(width(raw_mm)?, width(cooked_mm)?)?,
        })
    }
}

/// A cooked patty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooked {
    /// Weight, g.
    pub grams: Estimate,
    /// Width, mm.
    pub across_mm: Estimate,
    /// Thickness, mm, at the density of the raw patty.
    ///
    /// Puffing is not in it: beef patties grew 60 % thicker than they were (Food Sci Anim Resour 2018;38(1):1, Table 3),
    /// and no figure for plant patties is known to us.
    pub thickness_mm: Estimate,
}

/// Returns what is left of a raw patty: `h₁ = h₀ (1 − loss) / (1 − shrink)²` at the same density.
///
/// # Errors
/// [`PattyError`] names the figure that is out of range.
pub fn cooked(
    grams: Estimate,
    across_mm: Estimate,
    thickness_mm: Estimate,
    cooking: &Cooking,
) -> Result<Cooked, PattyError> {
    let (grams, across, thickness) = (weight(grams)?, width(across_mm)?, thickness(thickness_mm)?);
    let kept = left_over(cooking.loss_percent)?;
    let still = left_over(cooking.shrink_percent)?;
    let times = |value: f64, factors: &[(Estimate, f64)]| Estimate::new(value, value * spread(factors));
    Ok(Cooked {
        grams: times(grams.value * kept.value, &[(grams, 1.0), (kept, 1.0)]),
        across_mm: times(across.value * still.value, &[(across, 1.0), (still, 1.0)]),
        thickness_mm: times(
            thickness.value * kept.value / (still.value * still.value),
            &[(thickness, 1.0), (kept, 1.0), (still, 2.0)],
        ),
    })
}

/// Returns the raw width, mm, of a patty that shall stand out beyond its bun by `overhang_mm` on every side when cooked.
///
/// A negative overhang keeps the patty inside the bun.
///
/// # Errors
/// [`PattyError::Width`] and [`PattyError::Percent`].
///
/// # Example
/// ```
/// use pattywright::heat::Estimate;
/// use pattywright::patty::{Cooking, Texture, raw_across_for_bun_mm};
/// let raw = raw_across_for_bun_mm(100.0, 5.0, &Cooking::published(Texture::Flour, 1.5))?;
/// assert_eq!(format!("{:.0}", raw.value), "119");
/// # Ok::<(), pattywright::patty::PattyError>(())
/// ```
pub fn raw_across_for_bun_mm(bun_mm: f64, overhang_mm: f64, cooking: &Cooking) -> Result<Estimate, PattyError> {
    let cooked = width(Estimate::new(
        width(Estimate::new(bun_mm, 0.0))?.value + 2.0 * overhang_mm,
        0.0,
    ))?;
    let still = left_over(cooking.shrink_percent)?;
    let value = cooked.value / still.value;
    Ok(Estimate::new(value, value * spread(&[(still, 1.0)])))
}

fn left_over(lost_percent: Estimate) -> Result<Estimate, PattyError> {
    let lost = percent(lost_percent)?;
    Ok(Estimate::new(1.0 - lost.value / 100.0, lost.sd / 100.0))
}
