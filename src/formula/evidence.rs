//! What published patties did at other readings: the points behind a window, and the trend through them.
//!
//! The series are few and short, so the trend claims little: it never turns back (more binder never means more loss),
//! it is flat beyond its outermost points, and outside the published range it gives no figure at all.
//! Its spread is the leave-one-out error: each published patty is predicted from the others.
//!
//! | property | published patties | range, binder % | leave-one-out error |
//! |---|---|---|---|
//! | cook loss | 4 | 1.5–4 | 1.6 points |
//! | shrink of the diameter | 4 | 1.5–4 | 2.3 points |
//! | firmness (shear force) | 4 | 1.5–4 | 0.49 N |
//! | water pressed out | 4 | 1.5–4 | 0.65 points |
//!
//! # Source
//! Bakhsh and others, Foods 2021;10:560, table 4 (textured soy with methylcellulose); every point names its own.

use super::Reading;
use crate::measure::Estimate;
use crate::words::say;

/// What was measured on a published patty.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Property {
    /// Weight lost in cooking, % of the raw weight.
    CookLoss,
    /// Diameter lost in cooking, % of the raw diameter.
    Shrink,
    /// Force to shear the cooked patty, N.
    Firmness,
    /// Water pressed out of the cooked patty, %.
    ReleasedWater,
    /// Nothing: the reading is that of a published formula.
    Used,
}

impl Property {
    /// Those that were measured.
    pub const MEASURED: [Property; 4] = [
        Property::CookLoss,
        Property::Shrink,
        Property::Firmness,
        Property::ReleasedWater,
    ];

    /// The words on screen.
    pub fn name(self) -> &'static str {
        match self {
            Property::CookLoss => say("Cook loss"),
            Property::Shrink => say("Shrink"),
            Property::Firmness => say("Firmness"),
            Property::ReleasedWater => say("Water pressed out"),
            Property::Used => say("Used in published formulas"),
        }
    }

    /// Its unit.
    pub fn unit(self) -> &'static str {
        match self {
            Property::Firmness => "N",
            Property::Used => "",
            _ => "%",
        }
    }

    /// True where more of the reading means more of the property.
    fn rises(self) -> bool {
        self == Property::Firmness
    }
}

/// One published patty.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Point {
    /// The reading it is set against.
    pub reading: Reading,
    /// That reading, in its own unit.
    pub at: f64,
    /// What was measured.
    pub property: Property,
    /// The figure, in the property's unit; none for [`Property::Used`].
    pub value: Option<f64>,
    /// The published standard error, where there is one.
    pub sem: Option<f64>,
    /// What the patty was made of.
    pub made_of: &'static str,
    /// The study.
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/evidence.rs"));

/// The published points of a property against a reading.
pub fn points(reading: Reading, property: Property) -> impl Iterator<Item = &'static Point> {
    EVIDENCE
        .iter()
        .filter(move |point| point.reading == reading && point.property == property)
}

/// A trend that never turns back, through published points.
#[derive(Clone, PartialEq, Debug)]
pub struct Trend {
    /// Corners: reading and figure, readings rising.
    pub corners: Vec<(f64, f64)>,
    /// Leave-one-out error, in the property's unit; one standard deviation.
    pub sd: f64,
}

impl Trend {
    /// The trend of a property against a reading; none with fewer than three published points.
    pub fn of(reading: Reading, property: Property) -> Option<Trend> {
        let points: Vec<(f64, f64)> = points(reading, property)
            .filter_map(|point| Some((point.at, point.value?)))
            .collect();
        if points.len() < 3 {
            return None;
        }
        let squares = points.iter().enumerate().map(|(left_out, (at, value))| {
            let mut others = points.clone();
            others.remove(left_out);
            (along(&monotone(others, property.rises()), *at) - value).powi(2)
        });
        let sd = (squares.sum::<f64>() / points.len() as f64).sqrt();
        Some(Trend {
            corners: monotone(points, property.rises()),
            sd,
        })
    }

    /// The published range of the reading.
    pub fn range(&self) -> (f64, f64) {
        let ends = self.corners.first().zip(self.corners.last());
        ends.map_or((0.0, 0.0), |(first, last)| (first.0, last.0))
    }

    /// The figure to expect; none outside the published range.
    pub fn at(&self, reading: f64) -> Option<Estimate> {
        let (low, high) = self.range();
        (low <= reading && reading <= high).then(|| Estimate {
            value: along(&self.corners, reading),
            sd: self.sd,
        })
    }
}

/// Pools neighbours that go the wrong way until none does (isotonic least squares); points at one place are averaged.
fn monotone(mut points: Vec<(f64, f64)>, rises: bool) -> Vec<(f64, f64)> {
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    // A pool: the places it spans, the sum of its figures and how many.
    let mut pools: Vec<(Vec<f64>, f64, f64)> = Vec::new();
    for (at, value) in points {
        match pools.last_mut() {
            Some((places, sum, count)) if places.last() == Some(&at) => {
                *sum += value;
                *count += 1.0;
            }
            _ => pools.push((vec![at], value, 1.0)),
        }
    }
    let wrong = |a: &(Vec<f64>, f64, f64), b: &(Vec<f64>, f64, f64)| {
        let (a, b) = (a.1 / a.2, b.1 / b.2);
        if rises { b < a } else { b > a }
    };
    while let Some(at) = (1..pools.len()).find(|at| wrong(&pools[at - 1], &pools[*at])) {
        let (places, sum, count) = pools.remove(at);
        let pool = &mut pools[at - 1];
        pool.0.extend(places);
        pool.1 += sum;
        pool.2 += count;
    }
    pools
        .into_iter()
        .flat_map(|(places, sum, count)| places.into_iter().map(move |at| (at, sum / count)))
        .collect()
}

/// Straight lines between the corners, flat beyond them.
fn along(corners: &[(f64, f64)], at: f64) -> f64 {
    let Some(next) = corners.iter().position(|corner| at <= corner.0) else {
        return corners.last().map_or(f64::NAN, |corner| corner.1);
    };
    let Some(before) = next.checked_sub(1) else {
        return corners[next].1;
    };
    let ((x0, y0), (x1, y1)) = (corners[before], corners[next]);
    y0 + (y1 - y0) * (at - x0) / (x1 - x0)
}
