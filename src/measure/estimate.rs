//! How sure is this number? A value with its spread.
//!
//! Spread is one standard deviation, carried by first-order propagation.
//! Dependence between values is left out on purpose: whoever forms a ratio knows what its parts share.

use serde::Serialize;

/// A value with one standard deviation, same unit.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct Estimate {
    /// The value itself.
    pub value: f64,
    /// One standard deviation, never negative.
    pub sd: f64,
}

impl Estimate {
    /// Joins a value and its standard deviation.
    pub fn new(value: f64, sd: f64) -> Self {
        Estimate { value, sd }
    }

    /// A value known without doubt.
    pub fn exact(value: f64) -> Self {
        Estimate { value, sd: 0.0 }
    }

    /// A value with a relative standard deviation: 0.05 for 5 %.
    pub fn with_relative_sd(value: f64, relative_sd: f64) -> Self {
        Estimate {
            value,
            sd: (value * relative_sd).abs(),
        }
    }

    /// The spread as a share of the value; nothing when the value is zero.
    pub fn relative_sd(self) -> Option<f64> {
        (self.value != 0.0).then(|| (self.sd / self.value).abs())
    }

    /// The same estimate `factor` times over, all of it sharing one error.
    pub fn scale(self, factor: f64) -> Self {
        Estimate {
            value: self.value * factor,
            sd: (self.sd * factor).abs(),
        }
    }

    /// The sum of two independent estimates.
    ///
    /// `sd² = sd₁² + sd₂²`
    pub fn plus(self, other: Self) -> Self {
        Estimate {
            value: self.value + other.value,
            sd: self.sd.hypot(other.sd),
        }
    }

    /// The product of two independent estimates, to first order: a volume times a density.
    ///
    /// `sd² = (sd₁·value₂)² + (sd₂·value₁)²`
    pub fn times(self, other: Self) -> Self {
        Estimate {
            value: self.value * other.value,
            sd: (self.sd * other.value).hypot(other.sd * self.value),
        }
    }
}
