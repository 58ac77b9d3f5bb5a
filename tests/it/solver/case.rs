//! A program in the open, and the checks that any answer to one must pass.

use pattywright::balance::solver::{Clash, Limit, Outcome, Program};

pub(super) const NONE: f64 = f64::INFINITY;

/// How far a row or column may miss its limit, per unit of the sizes that are added up in it.
pub(super) const KEPT: f64 = 1e-8;

/// A program in the open, so that both solvers and the checks can read it.
#[derive(Clone, Debug)]
pub(super) struct Case {
    pub(super) costs: Vec<f64>,
    pub(super) columns: Vec<(f64, f64)>,
    pub(super) rows: Vec<(Vec<f64>, f64, f64)>,
}

impl Case {
    pub(super) fn program(&self) -> Program {
        let mut program = Program::new(self.costs.len());
        for (j, &(low, high)) in self.columns.iter().enumerate() {
            program.set_cost(j, self.costs[j]).unwrap();
            program.set_bounds(j, low, high).unwrap();
        }
        for (row, low, high) in &self.rows {
            program.add_row(row, *low, *high).unwrap();
        }
        program
    }

    /// The same answer from microlp: the cheapest cost, or in a word why there is none.
    pub(super) fn by_microlp(&self) -> Result<f64, &'static str> {
        use microlp::{ComparisonOp, Error, LinearExpr, OptimizationDirection, Problem};
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let vars: Vec<_> = self
            .columns
            .iter()
            .zip(&self.costs)
            .map(|(limits, cost)| problem.add_var(*cost, *limits))
            .collect();
        for (row, low, high) in &self.rows {
            let mut sum = LinearExpr::empty();
            for (var, share) in vars.iter().zip(row).filter(|(_, share)| **share != 0.0) {
                sum.add(*var, *share);
            }
            if low == high {
                problem.add_constraint(sum, ComparisonOp::Eq, *low);
                continue;
            }
            if low.is_finite() {
                problem.add_constraint(sum.clone(), ComparisonOp::Ge, *low);
            }
            if high.is_finite() {
                problem.add_constraint(sum, ComparisonOp::Le, *high);
            }
        }
        match problem.solve() {
            Ok(outcome) => Ok(outcome.into_solution().map_err(|_| "interrupted")?.objective()),
            Err(Error::Infeasible) => Err("out of reach"),
            Err(Error::Unbounded) => Err("unbounded"),
            Err(_) => Err("failed"),
        }
    }
}

/// Solves; checks whatever comes out against the case itself; returns it in the form of `by_microlp`.
#[track_caller]
pub(super) fn check_alone(case: &Case, provable: f64) -> Result<f64, &'static str> {
    match case.program().solve() {
        Outcome::Optimal { x, cost } => {
            check_kept(case, &x);
            assert!((cost - sum(&case.costs, &x)).abs() <= 1e-12 * size(&case.costs, &x));
            check_cheapest(case, &x, provable);
            Ok(cost)
        }
        Outcome::OutOfReach(clash) => {
            check_proof(case, &clash);
            Err("out of reach")
        }
        Outcome::Unbounded => Err("unbounded"),
        Outcome::GaveUp => Err("gave up"),
    }
}

/// Verifies that nothing is cheaper, without another solver: "cheaper than that" has to clash, with a proof that adds up.
/// `provable` is how much cheaper, as a part of what the columns could cost; limits are kept to a billionth of a typical one,
/// so where their sizes differ much, less can be proved.
#[track_caller]
fn check_cheapest(case: &Case, x: &[f64], provable: f64) {
    let cost = sum(&case.costs, x);
    let finite = |limit: f64| if limit.is_finite() { limit.abs() } else { 0.0 };
    let spans: Vec<f64> = x
        .iter()
        .zip(&case.columns)
        .map(|(x, (low, high))| x.abs().max(finite(*low)).max(finite(*high)))
        .collect();
    let noticeable = provable * size(&case.costs, &spans);
    if noticeable == 0.0 {
        return; // Nothing costs anything.
    }
    let mut cheaper = case.clone();
    cheaper.rows.push((case.costs.clone(), -NONE, cost - noticeable));
    let Outcome::OutOfReach(clash) = cheaper.program().solve() else {
        panic!("{} is not the least cost in {case:?}", cost)
    };
    check_proof(&cheaper, &clash);
}

/// Costs agree to a millionth, or the word for why there is none is the same.
#[track_caller]
pub(super) fn check_against_microlp(case: &Case, provable: f64) -> Result<f64, &'static str> {
    let (ours, theirs) = (check_alone(case, provable), case.by_microlp());
    match (ours, theirs) {
        (Ok(a), Ok(b)) => assert!(close(a, b, 1e-6), "cost {a} against {b} in {case:?}"),
        (a, b) => assert_eq!(a, b, "{case:?}"),
    }
    ours
}

#[track_caller]
pub(super) fn check_kept(case: &Case, x: &[f64]) {
    for (j, (value, (low, high))) in x.iter().zip(&case.columns).enumerate() {
        assert!(
            low <= value && value <= high,
            "column {j} is {value}, not from {low} to {high}"
        );
    }
    for (i, (row, low, high)) in case.rows.iter().enumerate() {
        let value = sum(row, x);
        let room = KEPT * size(row, x) + 1e-12 * largest(row) * largest(x);
        let (below, above) = (low - value, value - high);
        assert!(
            below <= room && above <= room,
            "row {i} is {value}, not from {low} to {high} in {case:?}"
        );
    }
}

/// Verifies that the weighted sum vanishes for every `x` while its limits keep it above zero.
#[track_caller]
pub(super) fn check_proof(case: &Case, clash: &Clash) {
    let mut left: Vec<f64> = vec![0.0; case.columns.len()];
    let mut sizes = left.clone();
    let mut excess = 0.0;
    let mut demand = |limit: &Limit, low: f64, high: f64| {
        let asked = if 0.0 < limit.weight { low } else { high };
        assert!(asked.is_finite() && limit.weight != 0.0, "{limit:?} rests on no limit");
        excess += limit.weight * asked;
    };
    for limit in &clash.rows {
        let (row, low, high) = &case.rows[limit.index];
        demand(limit, *low, *high);
        for (j, share) in row.iter().enumerate() {
            left[j] += limit.weight * share;
            sizes[j] += (limit.weight * share).abs();
        }
    }
    for limit in &clash.columns {
        demand(limit, case.columns[limit.index].0, case.columns[limit.index].1);
        left[limit.index] += limit.weight;
    }
    for (j, (rest, size)) in left.iter().zip(&sizes).enumerate() {
        assert!(rest.abs() <= 1e-9 * size, "column {j} is left with {rest} of {size}");
    }
    assert!(0.0 < excess, "the limits add up to {excess}");
}

/// Verifies with microlp that the limits listed clash and that none of them can be spared.
#[track_caller]
pub(super) fn check_irreducible(case: &Case) {
    let Outcome::OutOfReach(clash) = case.program().solve() else {
        panic!("within reach: {case:?}")
    };
    let listed = |list: &[Limit], index| list.iter().any(|limit| limit.index == index);
    let mut only = Case {
        costs: vec![0.0; case.costs.len()],
        ..case.clone()
    };
    for (j, limits) in only.columns.iter_mut().enumerate() {
        if !listed(&clash.columns, j) {
            *limits = (-NONE, NONE);
        }
    }
    for (i, (_, low, high)) in only.rows.iter_mut().enumerate() {
        if !listed(&clash.rows, i) {
            (*low, *high) = (-NONE, NONE);
        }
    }
    assert_eq!(only.by_microlp(), Err("out of reach"), "{clash:?} in {case:?}");
    for limit in &clash.rows {
        let mut spared = only.clone();
        (spared.rows[limit.index].1, spared.rows[limit.index].2) = (-NONE, NONE);
        assert!(spared.by_microlp().is_ok(), "row {limit:?} can be spared in {case:?}");
    }
    for limit in &clash.columns {
        let mut spared = only.clone();
        spared.columns[limit.index] = (-NONE, NONE);
        assert!(
            spared.by_microlp().is_ok(),
            "column {limit:?} can be spared in {case:?}"
        );
    }
}

pub(super) fn sum(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

pub(super) fn size(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| (a * b).abs()).sum::<f64>()
}

pub(super) fn largest(a: &[f64]) -> f64 {
    a.iter().fold(0.0, |most, value| most.max(value.abs()))
}

pub(super) fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs()).max(1.0)
}
