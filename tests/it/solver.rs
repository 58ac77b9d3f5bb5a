//! The linear program solver, held to hand-worked problems, a published one, brute force and an independent solver.

use pattywright::balance::solver::{Clash, Limit, Outcome, Program};

const NONE: f64 = f64::INFINITY;

/// How far a row or column may miss its limit, per unit of the sizes that are added up in it.
const KEPT: f64 = 1e-8;

/// A program in the open, so that both solvers and the checks can read it.
#[derive(Clone, Debug)]
struct Case {
    costs: Vec<f64>,
    columns: Vec<(f64, f64)>,
    rows: Vec<(Vec<f64>, f64, f64)>,
}

impl Case {
    fn program(&self) -> Program {
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
    fn by_microlp(&self) -> Result<f64, &'static str> {
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
fn check_alone(case: &Case) -> Result<f64, &'static str> {
    match case.program().solve() {
        Outcome::Optimal { x, cost } => {
            check_kept(case, &x);
            assert!((cost - sum(&case.costs, &x)).abs() <= 1e-12 * size(&case.costs, &x));
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

#[track_caller]
fn check_against_microlp(case: &Case) -> Result<f64, &'static str> {
    let (ours, theirs) = (check_alone(case), case.by_microlp());
    match (ours, theirs) {
        (Ok(a), Ok(b)) => assert!(close(a, b, 1e-6), "cost {a} against {b} in {case:?}"),
        (a, b) => assert_eq!(a, b, "{case:?}"),
    }
    ours
}

#[track_caller]
fn check_kept(case: &Case, x: &[f64]) {
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
fn check_proof(case: &Case, clash: &Clash) {
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
fn check_irreducible(case: &Case) {
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

fn sum(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn size(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| (a * b).abs()).sum::<f64>()
}

fn largest(a: &[f64]) -> f64 {
    a.iter().fold(0.0, |most, value| most.max(value.abs()))
}

fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs()).max(1.0)
}

// ---- Random programs ----

/// SplitMix64 (Steele, Lea and Flood, 2014; from memory): a few lines, and the same numbers everywhere.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((bits ^ (bits >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.roll()
    }

    fn whole(&mut self, low: i32, high: i32) -> f64 {
        self.between(f64::from(low), f64::from(high) + 1.0).floor()
    }

    /// A number with three binary places, so that sums of products are exact.
    fn eighths(&mut self, low: i32, high: i32) -> f64 {
        self.whole(8 * low, 8 * high) / 8.0
    }

    fn chance(&mut self, share: f64) -> bool {
        self.roll() < share
    }
}

/// A program with a known point inside; some limits missing, some columns fixed or free, some rows equal or empty.
fn feasible(dice: &mut Dice, columns: usize, rows: usize) -> Case {
    let mut case = Case {
        costs: Vec::new(),
        columns: Vec::new(),
        rows: Vec::new(),
    };
    let mut inside = Vec::new();
    for _ in 0..columns {
        let x = dice.eighths(-10, 50);
        inside.push(x);
        case.costs
            .push(if dice.chance(0.2) { 0.0 } else { dice.eighths(-1, 6) });
        case.columns.push(around(dice, x, [0.05, 0.03, 0.25]));
    }
    for _ in 0..rows {
        let filled = dice.roll();
        let row: Vec<f64> = (0..columns)
            .map(|_| if dice.chance(filled) { dice.eighths(-5, 5) } else { 0.0 })
            .collect();
        let (low, high) = around(dice, sum(&row, &inside), [0.15, 0.1, 0.3]);
        case.rows.push((row, low, high));
    }
    case
}

/// Limits around a value: both equal to it, both missing, or one missing, with these chances.
fn around(dice: &mut Dice, value: f64, [equal, free, open]: [f64; 3]) -> (f64, f64) {
    if dice.chance(equal) {
        return (value, value);
    }
    let missing = dice.chance(free);
    let low = if missing || dice.chance(open) {
        -NONE
    } else {
        value - dice.eighths(0, 20)
    };
    let high = if missing || dice.chance(open) {
        NONE
    } else {
        value + dice.eighths(0, 20)
    };
    (low, high)
}

/// A feasible program and one more row, which asks a mix of the others for more than their limits allow.
/// All numbers are short binary fractions, so the contradiction is exact.
fn infeasible(dice: &mut Dice, columns: usize, rows: usize) -> Case {
    let mut case = feasible(dice, columns, rows.max(1));
    let mut mix = vec![0.0; columns];
    let mut most = 0.0;
    for (row, low, high) in &mut case.rows {
        if dice.chance(0.4) || most == 0.0 {
            let weight = dice.eighths(-2, 2);
            // A limit that is needed is put in where there is none; the known point stays inside.
            let limit = if 0.0 < weight { high } else { low };
            if limit.is_infinite() {
                *limit = limit.signum() * 5000.0;
            }
            most += weight * *limit;
            mix.iter_mut()
                .zip(row)
                .for_each(|(total, share)| *total += weight * *share);
        }
    }
    for (total, (low, high)) in mix.iter_mut().zip(&mut case.columns) {
        if dice.chance(0.2) {
            let weight = dice.eighths(-2, 2);
            let limit = if 0.0 < weight { high } else { low };
            if limit.is_infinite() {
                *limit = limit.signum() * 200.0;
            }
            most += weight * *limit;
            *total += weight;
        }
    }
    case.rows.push((mix, most + dice.eighths(1, 20), NONE));
    case
}

/// Small whole numbers, many zeros, repeated rows and limits that meet in one corner.
fn degenerate(dice: &mut Dice, columns: usize, rows: usize) -> Case {
    let corner: Vec<f64> = (0..columns)
        .map(|_| if dice.chance(0.7) { 0.0 } else { dice.whole(0, 3) })
        .collect();
    let mut case = Case {
        costs: (0..columns).map(|_| dice.whole(-2, 4)).collect(),
        columns: corner
            .iter()
            .map(|x| (0.0, if dice.chance(0.3) { x + dice.whole(0, 2) } else { NONE }))
            .collect(),
        rows: Vec::new(),
    };
    for _ in 0..rows {
        if dice.chance(0.2) && !case.rows.is_empty() {
            let again = dice.whole(0, case.rows.len() as i32 - 1) as usize;
            case.rows.push(case.rows[again].clone());
            continue;
        }
        let row: Vec<f64> = (0..columns).map(|_| dice.whole(-2, 2)).collect();
        let value = sum(&row, &corner);
        let (low, high) = if dice.chance(0.25) {
            (value, value)
        } else {
            (-NONE, value)
        };
        case.rows.push((row, low, high));
    }
    case
}

/// A program whose rows and columns are each measured in units up to four decades apart: eight in all.
/// Units are powers of two, so that nothing else changes.
fn badly_scaled(dice: &mut Dice, columns: usize, rows: usize) -> Case {
    let mut case = if dice.chance(0.3) {
        infeasible(dice, columns, rows)
    } else {
        feasible(dice, columns, rows)
    };
    for (row, low, high) in &mut case.rows {
        let unit = dice.whole(-7, 6).exp2();
        row.iter_mut().chain([low, high]).for_each(|value| *value *= unit);
    }
    for j in 0..columns {
        let unit = dice.whole(-7, 6).exp2();
        case.costs[j] *= unit;
        case.columns[j] = (case.columns[j].0 / unit, case.columns[j].1 / unit);
        case.rows.iter_mut().for_each(|(row, _, _)| row[j] *= unit);
    }
    case
}

/// A program with a known point inside, each coefficient of which is of a size of its own, over eight decades.
fn ragged(dice: &mut Dice, columns: usize, rows: usize) -> Case {
    let mut case = feasible(dice, columns, rows);
    let inside: Vec<f64> = case
        .columns
        .iter()
        .map(|&(low, high)| 7.0_f64.clamp(low, high))
        .collect();
    for (row, low, high) in &mut case.rows {
        row.iter_mut()
            .for_each(|share| *share *= 10_f64.powf(dice.between(-4.0, 4.0)));
        let (value, reach) = (sum(row, &inside), size(row, &inside));
        (*low, *high) = if low == high {
            (value, value)
        } else {
            (value - reach, value + 0.5 * reach)
        };
    }
    case
}

/// Solves 400 seeded programs of one kind with both solvers; returns how many were within reach, out of it, unbounded.
#[track_caller]
fn check_many(kind: fn(&mut Dice, usize, usize) -> Case) -> [usize; 3] {
    let mut counts = [0; 3];
    for seed in 0..400 {
        let mut dice = Dice(seed);
        // Every fortieth is as large as programs get here.
        let (columns, rows) = if seed % 40 == 39 {
            (80, 59)
        } else {
            (dice.whole(1, 16) as usize, dice.whole(0, 12) as usize)
        };
        let case = kind(&mut dice, columns, rows);
        match check_against_microlp(&case) {
            Ok(_) => counts[0] += 1,
            Err("out of reach") => {
                counts[1] += 1;
                check_irreducible(&case);
            }
            Err("unbounded") => counts[2] += 1,
            Err(other) => panic!("{other} in {case:?}"),
        }
    }
    counts
}

#[test]
fn feasible_programs_cost_the_same_by_microlp() {
    let [within, out, unbounded] = check_many(feasible);
    assert!(
        200 <= within && out == 0,
        "{within} within reach, {out} out, {unbounded} unbounded"
    );
}

#[test]
fn infeasible_programs_are_out_of_reach_by_microlp_too() {
    assert_eq!(check_many(infeasible), [0, 400, 0]);
}

#[test]
fn degenerate_programs_cost_the_same_by_microlp() {
    let [within, out, unbounded] = check_many(degenerate);
    assert!(
        200 <= within && out == 0,
        "{within} within reach, {out} out, {unbounded} unbounded"
    );
}

#[test]
fn dbg_ragged() {
    let case = Case {
        costs: vec![1.75, -0.5, 4.75, -0.5],
        columns: vec![(12.5, NONE), (-8.5, 17.125), (-19.875, 0.25), (22.375, 32.375)],
        rows: vec![
            (
                vec![
                    0.003521897372431729,
                    0.0019330471942415896,
                    0.026430814931798302,
                    1945.8196988050415,
                ],
                43537.77992351405,
                43537.77992351405,
            ),
            (
                vec![-74.05150506699187, 0.0, -1136.0802853176351, 0.0],
                -2419.327769333614,
                -604.8319423334035,
            ),
            (
                vec![0.0, -4195.456721938346, 0.1636746402081802, -0.0021532136058676856],
                -58736.490463445705,
                -14684.061237871349,
            ),
            (
                vec![-39.57316449897197, 0.006681918718622027, 0.0, 0.0],
                -989.3291124742992,
                -247.26211797202924,
            ),
            (vec![0.0, 0.0, 0.0, 0.0], 0.0, 0.0),
            (
                vec![
                    0.18698114328148577,
                    -0.004762138003239859,
                    90.69022502505705,
                    0.16763553634365094,
                ],
                -0.06666993204536098,
                43.1243310264467,
            ),
            (
                vec![
                    8419.082104423316,
                    51.75647810459615,
                    -0.00016214007584199473,
                    0.0036033744742704843,
                ],
                -8.107002940960228e-5,
                158401.35339602374,
            ),
            (
                vec![-18397.414809986316, 0.0, -29.366725165360954, 0.0],
                -459950.0536122406,
                -114987.51340306015,
            ),
        ],
    };
    println!("{:?} {:?}", case.program().solve(), case.by_microlp());
    for seed in 0..400 {
        let mut dice = Dice(seed);
        let case = ragged(&mut dice, 5 + (seed as usize % 10), 1 + (seed as usize % 8));
        let a = case.program().solve();
        let b = case.by_microlp();
        match (&a, &b) {
            (Outcome::Optimal { cost, .. }, Ok(c)) if close(*cost, *c, 1e-6) => {}
            (Outcome::Unbounded, Err("unbounded")) => {}
            _ => println!(
                "{seed} {:?} {:?}",
                match a {
                    Outcome::Optimal { cost, .. } => format!("{cost}"),
                    Outcome::OutOfReach(_) => "out".into(),
                    o => format!("{o:?}"),
                },
                b
            ),
        }
    }
}
#[test]
fn dbg_time() {
    for kind in [feasible, infeasible, degenerate, badly_scaled] {
        for seed in [39, 79, 119] {
            let mut dice = Dice(seed);
            let case = kind(&mut dice, 80, 59);
            let t = std::time::Instant::now();
            let p = case.program().solve();
            let t1 = t.elapsed();
            let t = std::time::Instant::now();
            let _ = case.by_microlp();
            println!(
                "{t1:?} {:?} {}",
                t.elapsed(),
                match p {
                    Outcome::Optimal { .. } => "opt",
                    Outcome::OutOfReach(_) => "out",
                    _ => "other",
                }
            );
        }
    }
}
