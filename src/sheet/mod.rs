//! One sheet for each room: what was typed in, answers and sentences out. Plain Rust; the screens only draw it.
//!
//! A sheet decides what is said and to how many digits. It holds no state and knows no browser.

pub mod backup;
pub mod change;
pub mod convert;
pub mod cook;
pub mod demo;
pub mod evidence;
pub mod formula;
pub mod guide;
pub mod ladder;
pub mod pantry;
pub mod rescue;
pub mod rule;
pub mod safety;
pub mod timer;
pub mod weigh;

use crate::measure::{Estimate, fixed, trimmed, with_spread};

/// A figure for the screen: the digits its spread supports, and the spread.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Figure {
    /// The figure: `1.3`.
    pub value: String,
    /// The spread: `± 0.4`; empty where the figure is exact to the digits shown.
    pub spread: String,
    /// The unit: `%`, `g`; empty for a plain ratio.
    pub unit: &'static str,
}

impl Figure {
    /// Rounds an estimate to the digit its spread supports.
    pub fn of(estimate: Estimate, unit: &'static str) -> Figure {
        let exact = estimate.sd <= 0.0;
        let (value, spread) = if exact {
            (trimmed(estimate.value, 1), String::new())
        } else {
            with_spread(estimate.value, estimate.sd)
        };
        Figure {
            value,
            spread: if exact { spread } else { format!("± {spread}") },
            unit,
        }
    }

    /// The same with no digit after the point that is beyond the third of the figure, and no spread that is nothing there:
    /// for what is judged by a window, however exactly it was weighed. Three: common practice, no source.
    pub fn of_three_digits(estimate: Estimate, unit: &'static str) -> Figure {
        let figure = Figure::of(estimate, unit);
        let most = (2.0 - estimate.value.abs().log10().floor()).clamp(0.0, 9.0) as u8;
        let decimals = figure.value.split(['.', ',']).nth(1).map_or(0, str::len);
        if decimals <= usize::from(most) {
            return figure;
        }
        let nothing = estimate.sd < 0.5 * 10f64.powi(-i32::from(most));
        Figure {
            value: fixed(estimate.value, most),
            spread: if nothing {
                String::new()
            } else {
                format!("± {}", fixed(estimate.sd, most))
            },
            unit,
        }
    }

    /// No figure.
    pub fn none(unit: &'static str) -> Figure {
        Figure {
            value: "–".into(),
            spread: String::new(),
            unit,
        }
    }

    /// The figure as it is read aloud: `1.3 ± 0.4 %`.
    pub fn text(&self) -> String {
        [self.value.as_str(), self.spread.as_str(), self.unit]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join(" ")
    }
}
