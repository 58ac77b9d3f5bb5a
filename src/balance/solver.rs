//! The cheapest `x` whose row sums and columns all keep within their limits: a small linear program.
//!
//! ```text
//! make cost·x least, where  low_i ≤ row_i·x ≤ high_i  and  lower_j ≤ x_j ≤ upper_j
//! ```
//!
//! It serves everything asked of a bowl: what to add, what to swap, how to reach a target at least cost.
//! It is meant for up to about 80 columns and 60 rows; everything is dense.
//!
//! The method is the simplex method with limits on both sides of every variable.
//! Each row sum is a variable of its own, tied to the columns by one equation (`dictionary`).
//! As many variables as there are columns rest on one of their limits; the others, called basic, follow from them.
//! While some basic variable is outside its limits, the walk lessens how far they are outside in all (phase one);
//! then it lessens cost (phase two).
//! Each step moves one resting variable until something meets a limit, and lets the two change places (`simplex`).
//! When phase one comes to a stop outside, the last corner holds a proof (Farkas) that nothing can keep all limits;
//! limits are then dropped one by one to leave the few that truly clash (`clash`).
//! Before the walk, rows, columns and limits are measured in units of their own (`scaling`).
//!
//! Limits count as kept within 1e-9 of themselves (at least 1e-9 of a typical limit) in those units,
//! and cost as least when no slope exceeds 1e-12 of the largest cost.
//!
//! Left out on purpose: whole numbers, sparse storage, warm starts.
//!
//! # Source
//! V. Chvátal, *Linear Programming*, W. H. Freeman, 1983: dictionaries and pivoting (ch. 2), Bland's rule (ch. 3),
//! limits on both sides (ch. 8), proofs that nothing fits (ch. 16); chapter numbers from memory.
//! Choosing the largest divisor among near ties: P. M. J. Harris, "Pivot selection methods of the Devex LP code",
//! *Mathematical Programming* 5 (1973), from memory.
//! Deletion filtering: J. W. Chinneck and E. W. Dravnieks, "Locating minimal infeasible constraint sets in linear
//! programs", *ORSA Journal on Computing* 3 (1991), from memory.

mod clash;
mod dictionary;
mod nearest;
mod scaling;
mod simplex;

pub use nearest::Nearest;
use scaling::Factors;
use simplex::{End, Scaled};
use std::fmt;

/// The largest number taken for a coefficient, a cost or a finite limit.
const LARGEST: f64 = 1e15;

/// A coefficient sum smaller than this, per unit of the sizes added, is rounding noise.
const NOISE: f64 = 1e-9;

/// What is to be made least, and the limits to keep.
#[derive(Clone, Debug)]
pub struct Program {
    costs: Vec<f64>,
    columns: Vec<Limits>,
    rows: Vec<(Vec<f64>, Limits)>,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// The cheapest `x`; there may be others as cheap.
    Optimal {
        /// One value per column.
        x: Vec<f64>,
        /// `cost·x`.
        cost: f64,
    },
    /// Nothing keeps all limits.
    OutOfReach(Clash),
    /// Cost can fall for ever.
    Unbounded,
    /// The answer is not known: the step limit was reached, which no known problem does, or a coefficient was lost in
    /// rounding beside another.
    GaveUp,
}

/// A few limits that cannot hold together; leave out any one row or column of them and the rest can.
///
/// It carries its own proof.
/// Multiply each row listed, and each column listed, by its weight and add them up:
/// the sum is zero for every `x`, up to rounding.
/// Yet adding up the limits the same way gives more than zero.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// The rows that clash.
    pub rows: Vec<Limit>,
    /// The columns whose own limits take part.
    pub columns: Vec<Limit>,
}

/// One limit that takes part in a clash.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// Which row or column.
    pub index: usize,
    /// Above zero: its low limit takes part; below zero: its high limit.
    /// The largest weight of a row is one.
    pub weight: f64,
}

/// A number that makes no sense in a program.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ProgramError {
    /// A coefficient, cost or finite limit is not a number, infinite, or beyond ±1e15.
    OutOfRange {
        /// The number given.
        value: f64,
    },
    /// Low is above high, or leaves nothing between: both limits at the same infinity.
    NothingBetween {
        /// The low limit given.
        low: f64,
        /// The high limit given.
        high: f64,
    },
    /// There is no such column.
    NoSuchColumn {
        /// The column asked for, counted from zero.
        column: usize,
    },
    /// A row must have one coefficient per column.
    WrongLength {
        /// How many coefficients were given.
        coefficients: usize,
        /// How many columns there are.
        columns: usize,
    },
}

#[derive(Clone, Copy, Debug)]
struct Limits {
    low: f64,
    high: f64,
}

impl Program {
    /// Starts with so many columns, none of which costs anything or may fall below zero, and no rows.
    ///
    /// # Example
    /// ```
    /// use pattywright::balance::solver::{Outcome, Program};
    /// // At least 30 g of protein from two powders, 80 % and 60 % protein, at 2 and 1 a gram.
    /// let mut program = Program::new(2);
    /// program.set_cost(0, 2.0)?;
    /// program.set_cost(1, 1.0)?;
    /// program.add_row(&[0.8, 0.6], 30.0, f64::INFINITY)?;
    /// assert_eq!(program.solve(), Outcome::Optimal { x: vec![0.0, 50.0], cost: 50.0 });
    /// # Ok::<(), pattywright::balance::solver::ProgramError>(())
    /// ```
    pub fn new(columns: usize) -> Self {
        let grams = Limits {
            low: 0.0,
            high: f64::INFINITY,
        };
        Self {
            costs: vec![0.0; columns],
            columns: vec![grams; columns],
            rows: Vec::new(),
        }
    }

    /// Sets what one unit of a column costs.
    ///
    /// # Errors
    /// [`ProgramError::NoSuchColumn`], [`ProgramError::OutOfRange`].
    pub fn set_cost(&mut self, column: usize, cost: f64) -> Result<(), ProgramError> {
        let place = self
            .costs
            .get_mut(column)
            .ok_or(ProgramError::NoSuchColumn { column })?;
        *place = in_range(cost)?;
        Ok(())
    }

    /// Sets the limits of a column; either may be infinite, and both may be equal.
    ///
    /// # Errors
    /// [`ProgramError::NoSuchColumn`], [`ProgramError::OutOfRange`], [`ProgramError::NothingBetween`].
    pub fn set_bounds(&mut self, column: usize, low: f64, high: f64) -> Result<(), ProgramError> {
        let place = self
            .columns
            .get_mut(column)
            .ok_or(ProgramError::NoSuchColumn { column })?;
        *place = Limits::new(low, high)?;
        Ok(())
    }

    /// Adds a row and returns its index; either limit may be infinite, and both may be equal.
    ///
    /// # Errors
    /// [`ProgramError::WrongLength`], [`ProgramError::OutOfRange`], [`ProgramError::NothingBetween`].
    pub fn add_row(&mut self, coefficients: &[f64], low: f64, high: f64) -> Result<usize, ProgramError> {
        if coefficients.len() != self.columns.len() {
            return Err(ProgramError::WrongLength {
                coefficients: coefficients.len(),
                columns: self.columns.len(),
            });
        }
        for &value in coefficients {
            in_range(value)?;
        }
        self.rows.push((coefficients.to_vec(), Limits::new(low, high)?));
        Ok(self.rows.len() - 1)
    }

    /// Finds the cheapest `x`, or why there is none.
    pub fn solve(&self) -> Outcome {
        let (scaled, factors, unit) = self.scaled();
        match scaled.walk() {
            End::Cheapest(values) => {
                let x = self
                    .columns
                    .iter()
                    .enumerate()
                    .map(|(j, limits)| (values[j] * factors.columns[j] * unit).clamp(limits.low, limits.high));
                let x: Vec<f64> = x.collect();
                Outcome::Optimal {
                    cost: dot(&self.costs, &x),
                    x,
                }
            }
            End::Clash(weights) => {
                let weights = clash::smallest(&scaled, weights);
                self.clash(&weights[self.columns.len()..], &factors)
                    .map_or(Outcome::GaveUp, Outcome::OutOfReach)
            }
            End::Bottomless => Outcome::Unbounded,
            End::Lost => Outcome::GaveUp,
        }
    }

    /// The program in units of its own, the factors that led there, and the unit of all limits.
    fn scaled(&self) -> (Scaled, Factors, f64) {
        let coefficients: Vec<f64> = self.rows.iter().flat_map(|(row, _)| row).copied().collect();
        let columns = self.columns.len();
        let factors = scaling::geometric(&coefficients, self.rows.len(), columns);
        let limits = || {
            let columns = self
                .columns
                .iter()
                .zip(&factors.columns)
                .map(|(limits, factor)| (limits, 1.0 / factor));
            let rows = self
                .rows
                .iter()
                .zip(&factors.rows)
                .map(|((_, limits), factor)| (limits, *factor));
            columns.chain(rows)
        };
        let unit = scaling::typical_size(limits().flat_map(|(limit, f)| [limit.low * f, limit.high * f]));
        let costs: Vec<f64> = self
            .costs
            .iter()
            .zip(&factors.columns)
            .map(|(cost, f)| cost * f)
            .collect();
        let dearest = costs.iter().fold(0.0, |most: f64, cost| most.max(cost.abs()));
        let scaled = Scaled {
            low: limits().map(|(limit, f)| limit.low * f / unit).collect(),
            high: limits().map(|(limit, f)| limit.high * f / unit).collect(),
            costs: costs
                .iter()
                .map(|cost| if dearest == 0.0 { 0.0 } else { cost / dearest })
                .collect(),
            coefficients: (coefficients.iter().enumerate())
                .map(|(k, share)| share * factors.rows[k / columns] * factors.columns[k % columns])
                .collect(),
        };
        (scaled, factors, unit)
    }

    /// Turns the rows' weights in scaled units into a clash; the columns' weights follow from them.
    /// `None` when rounding has spoilt the proof.
    fn clash(&self, scaled_weights: &[f64], factors: &Factors) -> Option<Clash> {
        let mut weights: Vec<f64> = scaled_weights.iter().zip(&factors.rows).map(|(w, f)| w * f).collect();
        let largest = weights.iter().fold(0.0, |most: f64, weight| most.max(weight.abs()));
        weights.iter_mut().for_each(|weight| *weight /= largest);
        let column_weight = |j: usize| {
            let parts = || self.rows.iter().zip(&weights).map(|((row, _), weight)| weight * row[j]);
            let (sum, size): (f64, f64) = (parts().sum(), parts().map(f64::abs).sum());
            if size * NOISE < sum.abs() { -sum } else { 0.0 }
        };
        let columns = Limit::counting((0..self.columns.len()).map(column_weight));
        let rows = Limit::counting(weights.iter().copied());
        let demanded: f64 = (columns.iter().map(|limit| limit.demand(self.columns[limit.index])))
            .chain(rows.iter().map(|limit| limit.demand(self.rows[limit.index].1)))
            .sum();
        (0.0 < demanded).then_some(Clash { rows, columns })
    }
}

impl Limit {
    /// Lists the weights that are not zero.
    fn counting(weights: impl Iterator<Item = f64>) -> Vec<Self> {
        let limits = weights.enumerate().map(|(index, weight)| Self { index, weight });
        limits.filter(|limit| limit.weight != 0.0).collect()
    }

    fn demand(self, limits: Limits) -> f64 {
        self.weight * if 0.0 < self.weight { limits.low } else { limits.high }
    }
}

impl Limits {
    fn new(low: f64, high: f64) -> Result<Self, ProgramError> {
        for limit in [low, high] {
            if !limit.is_infinite() {
                in_range(limit)?;
            }
        }
        if high < low || low == f64::INFINITY || high == f64::NEG_INFINITY {
            return Err(ProgramError::NothingBetween { low, high });
        }
        Ok(Self { low, high })
    }
}

impl fmt::Display for ProgramError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange { value } => {
                write!(f, "{value} is not a number between -1e15 and 1e15")
            }
            Self::NothingBetween { low, high } => {
                write!(f, "nothing lies between {low} and {high}")
            }
            Self::NoSuchColumn { column } => write!(f, "there is no column {column}"),
            Self::WrongLength { coefficients, columns } => {
                write!(f, "the row has {coefficients} coefficients for {columns} columns")
            }
        }
    }
}

impl std::error::Error for ProgramError {}

fn in_range(value: f64) -> Result<f64, ProgramError> {
    if value.abs() <= LARGEST {
        Ok(value)
    } else {
        Err(ProgramError::OutOfRange { value })
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
