//! How thin a patty may go before its granules break it.
//!
//! A piece nearly as thick as the patty is a crack waiting: the paste around it carries nothing there.
//! The rule keeps pieces under a third of the thickness. It is working advice, not a published dose-response.

use super::PattyError;
use super::error::{granule, hydration, thickness};
use crate::heat::Estimate;
use crate::measure::fixed;
use crate::words::say;

/// Thickness over granule size: pieces under a third of the thickness. Common practice, no source.
const GRANULES_DEEP: f64 = 3.0;

/// The same where the binder is below 1 % of the mix, the low end of what published patties mostly use (1 to 2 %).
/// Common practice, no source.
const GRANULES_DEEP_WEAKLY_BOUND: f64 = 4.0;
const WEAK_BINDER_PERCENT: f64 = 1.0;

/// Relative standard deviation of the rule: granules are a mixture of sizes. Common practice, no source.
const RULE_RELATIVE_SD: f64 = 0.2;

/// Share of the space that granules fill when poured: from memory, loose packing of rough grains, 0.55.
const POURED_PACKING: f64 = 0.55;

/// Density of dry plant solids, g/ml: between protein and carbohydrate of Choi and Okos 1986.
const SOLIDS_G_PER_ML: f64 = 1.4;

/// Returns the size of a granule after soaking, mm, from the dry one.
///
/// A gram of granules fills `packing / bulk density` ml dry, and solids and water together when soaked; a granule that only fills its pores keeps its size.
/// Own derivation; a soaked granule under the ruler is better.
///
/// - `bulk_g_per_ml`: what a millilitre of poured granules weighs, from the cook's cup.
/// - `water_g_per_g`: water taken up by each gram.
///
/// # Errors
/// [`PattyError::Granule`], [`PattyError::Density`] and [`PattyError::Hydration`].
pub fn hydrated_granule_mm(dry_mm: f64, bulk_g_per_ml: f64, water_g_per_g: f64) -> Result<f64, PattyError> {
    let dry_mm = granule(dry_mm)?;
    let bulk = super::error::density(Estimate::new(bulk_g_per_ml, 0.0))?.value;
    let soaked_ml = 1.0 / SOLIDS_G_PER_ML + hydration(water_g_per_g)?;
    Ok(dry_mm * (soaked_ml * bulk / POURED_PACKING).max(1.0).cbrt())
}

/// How a wanted thickness stands to the thinnest workable one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Thinness {
    /// Thick enough.
    Fine,
    /// Within the spread of the rule: it may break.
    Risky,
    /// Thinner than the granules allow.
    TooThin,
}

/// The thinnest workable patty, and how the wanted one stands to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thinnest {
    /// Thinnest workable thickness, mm.
    pub thinnest_mm: Estimate,
    /// How the wanted thickness stands to it.
    pub thinness: Thinness,
}

impl Thinnest {
    /// Returns what to do, as one sentence, when the wanted thickness is not fine.
    pub fn advice(&self) -> Option<String> {
        let least = fixed(self.thinnest_mm.value, 0);
        match self.thinness {
            Thinness::Fine => None,
            Thinness::Risky => Some(say!(
                "This is close to the thinnest the granules allow ({least} mm): chill the mix, press between sheets, and turn with a wide slice",
                least
            )),
            Thinness::TooThin => Some(say!(
                "The granules want {least} mm or more: crush a quarter of them fine, add a little binder, or make the patty thicker",
                least
            )),
        }
    }
}

/// Returns the thinnest workable patty for granules of a soaked size.
///
/// - `granule_mm`: the larger soaked granules.
/// - `binder_percent`: binder as a share of the whole mix.
///
/// # Errors
/// [`PattyError::Granule`], [`PattyError::Percent`] and [`PattyError::Thickness`].
pub fn thinnest(granule_mm: f64, binder_percent: f64, wanted_mm: f64) -> Result<Thinnest, PattyError> {
    let binder = super::error::percent(Estimate::new(binder_percent, 0.0))?.value;
    let deep = if binder < WEAK_BINDER_PERCENT {
        GRANULES_DEEP_WEAKLY_BOUND
    } else {
        GRANULES_DEEP
    };
    let least_mm = deep * granule(granule_mm)?;
    let sd = RULE_RELATIVE_SD * least_mm;
    let wanted_mm = thickness(Estimate::new(wanted_mm, 0.0))?.value;
    let thinness = if wanted_mm >= least_mm + sd {
        Thinness::Fine
    } else if wanted_mm >= least_mm - sd {
        Thinness::Risky
    } else {
        Thinness::TooThin
    };
    Ok(Thinnest {
        thinnest_mm: Estimate::new(least_mm, sd),
        thinness,
    })
}
