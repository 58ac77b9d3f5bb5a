//! Sizes that no patty has, and what to do about them.

use std::fmt;

use crate::heat::{Estimate, as_given};
use crate::words::say;

/// Why a size has no answer; each kind reads as one sentence for the cook and carries what was given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PattyError {
    /// A weight outside 0 to 100 kg, g.
    Weight(f64),
    /// A width outside 5 to 1000 mm.
    Width(f64),
    /// A thickness outside 1 to 100 mm.
    Thickness(f64),
    /// A density outside 0.1 to 3 g/ml.
    Density(f64),
    /// A loss or shrink outside 0 to below 95 percent.
    Percent(f64),
    /// A granule outside 0.1 to 50 mm.
    Granule(f64),
    /// A hydration outside 0 to 10 g water per g.
    Hydration(f64),
}

impl fmt::Display for PattyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match *self {
            Self::Weight(g) => say!("Give a weight above 0 and up to 100 000 g, not {g} g", g = as_given(g)),
            Self::Width(mm) => say!("Give a width between 5 and 1000 mm, not {mm} mm", mm = as_given(mm)),
            Self::Thickness(mm) => say!("Give a thickness between 1 and 100 mm, not {mm} mm", mm = as_given(mm)),
            Self::Density(d) => say!("Give a density between 0.1 and 3 g/ml, not {d} g/ml", d = as_given(d)),
            Self::Percent(p) => say!("Give a loss or shrink from 0 to below 95 %, not {p} %", p = as_given(p)),
            Self::Granule(mm) => say!("Give a granule between 0.1 and 50 mm, not {mm} mm", mm = as_given(mm)),
            Self::Hydration(r) => say!(
                "Give 0 to 10 g of water for each gram of dry protein, not {r} g",
                r = as_given(r)
            ),
        })
    }
}

impl std::error::Error for PattyError {}

fn between(figure: Estimate, low: f64, high: f64, refuse: fn(f64) -> PattyError) -> Result<Estimate, PattyError> {
    if !(low..=high).contains(&figure.value) {
        return Err(refuse(figure.value));
    }
    if figure.sd >= 0.0 && figure.sd.is_finite() {
        Ok(figure)
    } else {
        Err(refuse(figure.sd))
    }
}

pub(super) fn weight(grams: Estimate) -> Result<Estimate, PattyError> {
    between(grams, f64::MIN_POSITIVE, 1e5, PattyError::Weight)
}

pub(super) fn width(mm: Estimate) -> Result<Estimate, PattyError> {
    between(mm, 5.0, 1000.0, PattyError::Width)
}

pub(super) fn thickness(mm: Estimate) -> Result<Estimate, PattyError> {
    between(mm, 1.0, 100.0, PattyError::Thickness)
}

pub(super) fn density(g_per_ml: Estimate) -> Result<Estimate, PattyError> {
    between(g_per_ml, 0.1, 3.0, PattyError::Density)
}

pub(super) fn percent(percent: Estimate) -> Result<Estimate, PattyError> {
    between(percent, 0.0, 94.999, PattyError::Percent)
}

pub(super) fn granule(mm: f64) -> Result<f64, PattyError> {
    between(Estimate::new(mm, 0.0), 0.1, 50.0, PattyError::Granule).map(|granule| granule.value)
}

pub(super) fn hydration(g_per_g: f64) -> Result<f64, PattyError> {
    between(Estimate::new(g_per_g, 0.0), 0.0, 10.0, PattyError::Hydration).map(|water| water.value)
}
