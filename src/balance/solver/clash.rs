//! Finds which few limits cannot hold together.

use super::simplex::{End, LEVEL, Scaled};

/// Drops one limit after another for as long as the rest still clash (deletion filtering).
/// What stays is irreducible: leave out any one of them and the rest can hold.
///
/// Takes and returns a weight for every variable; only those that still count are not zero.
/// Row sums are dropped before columns, so that a clash names as few rows as it can.
pub(super) fn smallest(problem: &Scaled, weights: Vec<f64>) -> Vec<f64> {
    let columns = problem.costs.len();
    let mut rest = Scaled {
        costs: vec![0.0; columns],
        ..problem.clone()
    };
    let mut proof = weights;

    let unused: Vec<usize> = (0..proof.len()).filter(|&v| proof[v].abs() <= LEVEL).collect();
    drop_if_still_clashing(&mut rest, &mut proof, &unused);
    for variable in (columns..problem.low.len()).chain(0..columns) {
        drop_if_still_clashing(&mut rest, &mut proof, &[variable]);
    }
    proof
}

fn drop_if_still_clashing(rest: &mut Scaled, proof: &mut Vec<f64>, variables: &[usize]) {
    let mut trial = rest.clone();
    for &variable in variables {
        trial.low[variable] = f64::NEG_INFINITY;
        trial.high[variable] = f64::INFINITY;
    }
    if let End::Clash(weights) = trial.walk() {
        *rest = trial;
        *proof = weights;
    }
}
