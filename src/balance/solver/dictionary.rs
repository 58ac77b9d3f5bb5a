//! A set of linear equations solved for some of its variables, and the step that swaps two of them.

/// Below this the largest divisor left is taken for rounding noise: the equations are dependent.
const DEPENDENT: f64 = 1e-11;

/// Every `basic` variable written as a sum over the `resting` ones:
/// `basic[i] = Σ_j share(i, j) · resting[j]`.
///
/// Variables are numbered columns first, then the row sums.
/// At first the row sums are basic and the shares are simply the coefficients.
#[derive(Clone)]
pub(super) struct Dictionary {
    pub(super) basic: Vec<usize>,
    pub(super) resting: Vec<usize>,
    shares: Vec<f64>,
}

impl Dictionary {
    /// Starts with `coefficients`, rows × columns, row after row.
    pub(super) fn new(coefficients: &[f64], rows: usize, columns: usize) -> Self {
        Self {
            basic: (columns..columns + rows).collect(),
            resting: (0..columns).collect(),
            shares: coefficients.to_vec(),
        }
    }

    pub(super) fn share(&self, i: usize, j: usize) -> f64 {
        self.shares[i * self.resting.len() + j]
    }

    /// The shares of the resting variables in basic variable `i`.
    pub(super) fn row(&self, i: usize) -> &[f64] {
        let width = self.resting.len();
        &self.shares[i * width..(i + 1) * width]
    }

    /// Adds up the rows, each times its weight: one slope per resting variable.
    pub(super) fn weighted_sum(&self, weights: &[f64]) -> Vec<f64> {
        let mut sum = vec![0.0; self.resting.len()];
        for (i, &weight) in weights.iter().enumerate().filter(|(_, w)| **w != 0.0) {
            for (total, share) in sum.iter_mut().zip(self.row(i)) {
                *total += weight * share;
            }
        }
        sum
    }

    /// Lets resting variable `j` become basic in place of basic variable `i`:
    /// solves equation `i` for it and puts the result into all the others.
    pub(super) fn exchange(&mut self, i: usize, j: usize) {
        let width = self.resting.len();
        let divisor = self.share(i, j);
        let mut solved: Vec<f64> = self.row(i).iter().map(|share| -share / divisor).collect();
        solved[j] = 1.0 / divisor;
        for (other, row) in self.shares.chunks_exact_mut(width).enumerate() {
            let share = row[j];
            if other == i {
                row.copy_from_slice(&solved);
            } else if share != 0.0 {
                row[j] = 0.0;
                for (entry, part) in row.iter_mut().zip(&solved) {
                    *entry += share * part;
                }
            }
        }
        std::mem::swap(&mut self.basic[i], &mut self.resting[j]);
    }

    /// Does all exchanges afresh from the coefficients, largest divisors first, so that rounding cannot pile up.
    ///
    /// Should the wanted equations prove dependent, a row sum stays basic in place of a column.
    pub(super) fn rebuild(&mut self, coefficients: &[f64]) {
        let (rows, columns) = (self.basic.len(), self.resting.len());
        let mut wanted = vec![false; rows + columns];
        for &variable in &self.basic {
            wanted[variable] = true;
        }
        *self = Self::new(coefficients, rows, columns);
        while let Some((i, j)) = self.largest_divisor(&wanted) {
            self.exchange(i, j);
        }
    }

    fn largest_divisor(&self, wanted: &[bool]) -> Option<(usize, usize)> {
        let mut best = None;
        let mut size = DEPENDENT;
        for i in (0..self.basic.len()).filter(|&i| !wanted[self.basic[i]]) {
            for j in (0..self.resting.len()).filter(|&j| wanted[self.resting[j]]) {
                if size < self.share(i, j).abs() {
                    size = self.share(i, j).abs();
                    best = Some((i, j));
                }
            }
        }
        best
    }
}
