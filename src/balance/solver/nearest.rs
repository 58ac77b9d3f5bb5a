//! How near one can get when not every row can be kept.

use super::{Limits, NOISE, Outcome, Program, dot};

/// How near one can get when not every row can be kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Nearest {
    /// One value per column, each within its limits.
    pub x: Vec<f64>,
    /// By how much each row sum falls short of its low limit (above zero) or exceeds its high limit (below zero).
    pub shortfalls: Vec<f64>,
}

impl Program {
    /// Finds the `x` that keeps all columns and firm rows within their limits and misses the others by least in all;
    /// among equally near ones, the cheapest.
    ///
    /// `units` says row by row what counts as one unit of missing it, above zero; `None`, and rows beyond its end, are firm.
    /// `None` where the firm rows clash, and for [`Outcome::GaveUp`].
    pub fn nearest(&self, units: &[Option<f64>]) -> Option<Nearest> {
        let elastic = self.elastic(units);
        let Outcome::Optimal { mut x, cost: miss } = elastic.solve() else {
            return None;
        };
        let mut cheapest = elastic.clone();
        let no_further = Limits {
            low: f64::NEG_INFINITY,
            high: miss + NOISE * miss.abs(),
        };
        cheapest.rows.push((elastic.costs.clone(), no_further));
        cheapest.costs.fill(0.0);
        cheapest.costs[..self.costs.len()].copy_from_slice(&self.costs);
        if let Outcome::Optimal { x: cheaper, .. } = cheapest.solve() {
            x = cheaper;
        }
        x.truncate(self.columns.len());
        let shortfalls = self.rows.iter().map(|(row, limits)| {
            let sum = dot(row, &x);
            sum.clamp(limits.low, limits.high) - sum
        });
        Some(Nearest {
            shortfalls: shortfalls.collect(),
            x,
        })
    }

    /// The same program, in which two more columns per soft row make up for what it lacks and take off what it exceeds,
    /// and only they cost anything.
    fn elastic(&self, units: &[Option<f64>]) -> Program {
        let mut elastic = Program::new(self.columns.len() + 2 * self.rows.len());
        elastic.columns[..self.columns.len()].copy_from_slice(&self.columns);
        for (i, (row, limits)) in self.rows.iter().enumerate() {
            let (lacks, exceeds) = (self.columns.len() + 2 * i, self.columns.len() + 2 * i + 1);
            let mut coefficients = row.clone();
            coefficients.resize(elastic.costs.len(), 0.0);
            if let Some(unit) = units.get(i).copied().flatten() {
                coefficients[lacks] = unit;
                coefficients[exceeds] = -unit;
            }
            elastic.costs[lacks] = 1.0;
            elastic.costs[exceeds] = 1.0;
            elastic.rows.push((coefficients, *limits));
        }
        elastic
    }
}
