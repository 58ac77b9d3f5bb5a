//! The linear program solver, held to brute force, to an independent solver from the registry, and to its own proofs.
//!
//! Every answer is checked against the program itself: limits kept, cost least (asking for less must clash, with a proof
//! that adds up), and clashes proved and irreducible.

mod case;
mod random;

use case::{Case, NONE, check_against_microlp, check_alone, check_irreducible, sum};
use pattywright::balance::solver::{Outcome, Program};
use proptest::prelude::*;
use random::{Dice, badly_scaled, degenerate, feasible, infeasible, ragged};

/// Solves 400 seeded programs of one kind with both solvers; returns how many were within reach, out of it, unbounded.
#[track_caller]
fn check_many(kind: fn(&mut Dice, usize, usize) -> Case, provable: f64) -> [usize; 3] {
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
        match check_against_microlp(&case, provable) {
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
    let [within, out, unbounded] = check_many(feasible, 1e-6);
    assert!(
        200 <= within && out == 0,
        "{within} within reach, {out} out, {unbounded} unbounded"
    );
}

#[test]
fn infeasible_programs_are_out_of_reach_by_microlp_too() {
    assert_eq!(check_many(infeasible, 1e-6), [0, 400, 0]);
}

#[test]
fn degenerate_programs_cost_the_same_by_microlp() {
    let [within, out, unbounded] = check_many(degenerate, 1e-6);
    assert!(
        200 <= within && out == 0,
        "{within} within reach, {out} out, {unbounded} unbounded"
    );
}

#[test]
fn badly_scaled_programs_end_the_same_by_microlp() {
    let [within, out, unbounded] = check_many(badly_scaled, 1e-6);
    assert!(
        200 <= within && 50 <= out && 40 <= unbounded,
        "{within} within reach, {out} out, {unbounded} unbounded"
    );
}

#[test]
fn ragged_programs_cost_the_same_by_microlp() {
    let [within, out, unbounded] = check_many(ragged, 1e-4);
    assert!(
        200 <= within && out == 0,
        "{within} within reach, {out} out, {unbounded} unbounded"
    );
}

/// The least cost over all corners of a box cut by rows, found by trying every choice of limits that meet in one point.
fn by_brute_force(case: &Case) -> Option<f64> {
    let columns = case.costs.len();
    let mut planes: Vec<(Vec<f64>, f64)> = Vec::new();
    for (j, &(low, high)) in case.columns.iter().enumerate() {
        let mut unit = vec![0.0; columns];
        unit[j] = 1.0;
        planes.extend([(unit.clone(), low), (unit, high)]);
    }
    for (row, low, high) in &case.rows {
        planes.extend(
            [low, high]
                .into_iter()
                .filter(|limit| limit.is_finite())
                .map(|limit| (row.clone(), *limit)),
        );
    }
    let mut chosen: Vec<usize> = (0..columns).collect();
    let mut least: Option<f64> = None;
    loop {
        let corner = meeting_point(&chosen.iter().map(|i| planes[*i].clone()).collect::<Vec<_>>());
        if let Some(x) = corner.filter(|x| is_within(case, x)) {
            let cost = sum(&case.costs, &x);
            least = Some(least.map_or(cost, |least| least.min(cost)));
        }
        // The next choice of so many planes, in order.
        let Some(place) = (0..columns).rev().find(|k| chosen[*k] < planes.len() - columns + k) else {
            return least;
        };
        chosen[place] += 1;
        for k in place + 1..columns {
            chosen[k] = chosen[k - 1] + 1;
        }
    }
}

fn is_within(case: &Case, x: &[f64]) -> bool {
    let slack = 1e-9;
    let columns = x.iter().zip(&case.columns);
    columns
        .into_iter()
        .all(|(x, (low, high))| low - slack <= *x && *x <= high + slack)
        && case.rows.iter().all(|(row, low, high)| {
            let value = sum(row, x);
            low - slack <= value && value <= high + slack
        })
}

/// Gaussian elimination with row exchange; none where the planes do not meet in one point.
fn meeting_point(planes: &[(Vec<f64>, f64)]) -> Option<Vec<f64>> {
    let count = planes.len();
    let mut rows: Vec<Vec<f64>> = planes
        .iter()
        .map(|(row, limit)| [row.as_slice(), &[*limit]].concat())
        .collect();
    for column in 0..count {
        let pivot = (column..count).max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))?;
        rows.swap(column, pivot);
        if rows[column][column].abs() < 1e-9 {
            return None;
        }
        for other in (0..count).filter(|other| *other != column) {
            let factor = rows[other][column] / rows[column][column];
            let taken = rows[column].clone();
            for (value, taken) in rows[other].iter_mut().zip(taken) {
                *value -= factor * taken;
            }
        }
    }
    Some((0..count).map(|i| rows[i][count] / rows[i][i]).collect())
}

fn small_case() -> impl Strategy<Value = Case> {
    (1..=3usize, 0..=4usize).prop_flat_map(|(columns, rows)| {
        let number = |low: i32, high: i32| (low..=high).prop_map(f64::from);
        let limits = (number(-4, 4), number(0, 5)).prop_map(|(low, span)| (low, low + span));
        let row_limits = (number(-9, 9), number(0, 9), 0..3u8).prop_map(|(low, span, kind)| match kind {
            0 => (low, low + span),
            1 => (low, NONE),
            _ => (-NONE, low),
        });
        let row = (proptest::collection::vec(number(-3, 3), columns), row_limits)
            .prop_map(|(row, (low, high))| (row, low, high));
        (
            proptest::collection::vec(number(-5, 5), columns),
            proptest::collection::vec(limits, columns),
            proptest::collection::vec(row, rows),
        )
            .prop_map(|(costs, columns, rows)| Case { costs, columns, rows })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]
    #[test]
    fn small_programs_cost_the_same_by_brute_force(case in small_case()) {
        match (check_alone(&case, 1e-6), by_brute_force(&case)) {
            (Ok(ours), Some(theirs)) => prop_assert!((ours - theirs).abs() < 1e-7, "{} against {}", ours, theirs),
            (ours, theirs) => prop_assert_eq!(ours.err(), theirs.is_none().then_some("out of reach")),
        }
    }
}

/// Worked by hand: `x ≤ 4` is firm, `x ≥ 10` and `x ≤ 2` may be missed; any `x` from 2 to 4 is 8 off in all, and 2 is cheapest.
#[test]
fn nearest_keeps_what_is_firm_and_is_cheapest_among_the_near() {
    let mut program = Program::new(1);
    program.set_cost(0, 1.0).unwrap();
    program.add_row(&[1.0], 10.0, NONE).unwrap();
    program.add_row(&[1.0], -NONE, 2.0).unwrap();
    program.add_row(&[1.0], -NONE, 4.0).unwrap();
    let nearest = program.nearest(&[Some(1.0), Some(1.0)]).unwrap();
    assert!((nearest.x[0] - 2.0).abs() < 1e-6, "{nearest:?}");
    assert!((nearest.shortfalls[0] - 8.0).abs() < 1e-6, "{nearest:?}");
    assert!(
        program.nearest(&[None, Some(1.0)]).is_none(),
        "two firm rows that clash have no nearest"
    );
}

/// Both `x ≤ −below` and `x ≥ above` may be missed: any `x` from 0 to 5 is `below + above` off in all, and 0 is the cheapest.
#[test]
fn nearest_is_the_cheapest_however_far_off() {
    for below in 1..=30 {
        for above in 6..=30 {
            let mut program = Program::new(1);
            program.set_cost(0, 1.0).unwrap();
            program.set_bounds(0, 0.0, 5.0).unwrap();
            program.add_row(&[-1.0], f64::from(below), NONE).unwrap();
            program.add_row(&[1.0], f64::from(above), NONE).unwrap();
            let nearest = program.nearest(&[Some(1.0), Some(1.0)]).unwrap();
            assert!(nearest.x[0] < 1e-6, "{below} and {above}: {nearest:?}");
        }
    }
}

/// The least miss over all corners, each soft row made up for by two columns more, in units of its own.
fn least_miss_by_brute_force(case: &Case, units: &[Option<f64>]) -> Option<f64> {
    let columns = case.costs.len();
    let mut elastic = case.clone();
    elastic.costs = vec![0.0; columns];
    for (i, unit) in units.iter().enumerate().filter_map(|(i, unit)| Some((i, (*unit)?))) {
        for sign in [1.0, -1.0] {
            for (other, (row, ..)) in elastic.rows.iter_mut().enumerate() {
                row.push(if other == i { sign * unit } else { 0.0 });
            }
            elastic.costs.push(1.0);
            elastic.columns.push((0.0, 1e3));
        }
    }
    by_brute_force(&elastic)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]
    #[test]
    fn nearest_misses_by_as_little_as_brute_force(case in small_case(), first_soft in proptest::bool::ANY, unit in 0.1..10.0f64) {
        // One soft row keeps the brute force small; the others are firm.
        let units: Vec<Option<f64>> =
            (0..case.rows.len()).map(|i| ((i == 0) == first_soft && i < 2).then_some(unit)).collect();
        let least = least_miss_by_brute_force(&case, &units);
        match (case.program().nearest(&units), least) {
            (Some(nearest), Some(least)) => {
                let mut miss = 0.0;
                for (((row, low, high), unit), short) in case.rows.iter().zip(&units).zip(&nearest.shortfalls) {
                    let value = sum(row, &nearest.x);
                    let off = (low - value).max(value - high).max(0.0);
                    prop_assert!((off - short.abs()).abs() < 1e-6);
                    prop_assert!(unit.is_some() || off < 1e-6, "a firm row is missed by {}", off);
                    miss += off / unit.unwrap_or(1.0);
                }
                prop_assert!((miss - least).abs() < 1e-5, "{} against {}", miss, least);
            }
            (ours, theirs) => prop_assert_eq!(ours.is_some(), theirs.is_some()),
        }
    }
}

/// What counts as rounding goes by the size of the limits: a millionth of a millionth of them gives as much of the answer.
/// The factor is a power of two, so that not a bit is lost.
#[test]
fn an_answer_is_as_exact_for_small_limits_as_for_large_ones() {
    let factor = (-40f64).exp2();
    for seed in 0..100 {
        let case = feasible(&mut Dice(seed), 8, 6);
        let mut small = case.clone();
        let of_columns = small.columns.iter_mut().map(|(low, high)| (low, high));
        let of_rows = small.rows.iter_mut().map(|(_, low, high)| (low, high));
        for (low, high) in of_columns.chain(of_rows) {
            *low *= factor;
            *high *= factor;
        }
        match (case.program().solve(), small.program().solve()) {
            (Outcome::Optimal { x, .. }, Outcome::Optimal { x: little, .. }) => {
                assert_eq!(little, x.iter().map(|x| x * factor).collect::<Vec<_>>(), "{case:?}");
            }
            (large, small) => assert_eq!(large, small, "{case:?}"),
        }
    }
}

/// `x ≤ 4` and `x ≥ 10` clash; `x ≤ 20`, added in between, has no part in it.
#[test]
fn a_clash_names_its_rows_by_the_numbers_they_were_given() {
    let mut program = Program::new(1);
    let at_most = program.add_row(&[1.0], -NONE, 4.0).unwrap();
    program.add_row(&[1.0], -NONE, 20.0).unwrap();
    let at_least = program.add_row(&[1.0], 10.0, NONE).unwrap();
    let Outcome::OutOfReach(clash) = program.solve() else {
        panic!("x cannot be both");
    };
    let rows: Vec<usize> = clash.rows.iter().map(|limit| limit.index).collect();
    assert_eq!(rows, [at_most, at_least]);
}

/// Only `y` can bring the first row to its limit, and its share there is lost in rounding: no answer is known, least of
/// all that cost falls for ever.
#[test]
fn what_is_lost_in_rounding_is_not_called_unbounded() {
    let mut program = Program::new(2);
    program.set_bounds(0, 0.0, 0.0).unwrap();
    program.add_row(&[1.0, 1e-40], 1.0, NONE).unwrap();
    program.add_row(&[1.0, 1.0], 0.0, NONE).unwrap();
    assert_eq!(program.solve(), Outcome::GaveUp);
}
