//! Measures every row and column in a unit of its own, so that the numbers met on the way are near one.

/// How often rows and columns take turns; the gain after a few turns is small.
const TURNS: usize = 4;

/// Units are kept within 2^±LIMIT, whatever the coefficients.
const LIMIT: f64 = 100.0;

/// Factors that multiply rows and columns; powers of two, so that scaling itself never rounds.
pub(super) struct Factors {
    pub(super) rows: Vec<f64>,
    pub(super) columns: Vec<f64>,
}

/// Finds factors by geometric scaling: each row, then each column, is divided by
/// the root of (smallest × largest) of its sizes that are not zero.
pub(super) fn geometric(coefficients: &[f64], rows: usize, columns: usize) -> Factors {
    let size = |i: usize, j: usize| coefficients[i * columns + j].abs();
    let mut factors = Factors {
        rows: vec![1.0; rows],
        columns: vec![1.0; columns],
    };
    for _ in 0..TURNS {
        for i in 0..rows {
            factors.rows[i] = even_out((0..columns).map(|j| size(i, j) * factors.columns[j]));
        }
        for j in 0..columns {
            factors.columns[j] = even_out((0..rows).map(|i| size(i, j) * factors.rows[i]));
        }
    }
    factors
}

/// The factor that brings these sizes around one.
fn even_out(sizes: impl Iterator<Item = f64>) -> f64 {
    let (smallest, largest) = sizes
        .filter(|size| 0.0 < *size)
        .fold((f64::INFINITY, 0.0), |(low, high), size| {
            (size.min(low), size.max(high))
        });
    if largest == 0.0 {
        return 1.0;
    }
    power_of_two(-0.5 * (smallest.log2() + largest.log2()))
}

/// The power of two nearest to the middle one of these sizes; zero and infinity do not count.
pub(super) fn typical_size(values: impl Iterator<Item = f64>) -> f64 {
    let mut sizes: Vec<f64> = values
        .map(f64::abs)
        .filter(|size| 0.0 < *size && size.is_finite())
        .collect();
    sizes.sort_by(f64::total_cmp);
    sizes
        .get(sizes.len() / 2)
        .map_or(1.0, |middle| power_of_two(middle.log2()))
}

fn power_of_two(exponent: f64) -> f64 {
    exponent.round().clamp(-LIMIT, LIMIT).exp2()
}
