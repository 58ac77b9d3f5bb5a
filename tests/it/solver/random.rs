//! Random programs of several kinds, the same on every machine.

use super::case::{Case, NONE, size, sum};

/// SplitMix64 (Steele, Lea and Flood, 2014; from memory): a few lines, and the same numbers everywhere.
pub(super) struct Dice(pub(super) u64);

impl Dice {
    pub(super) fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((bits ^ (bits >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.roll()
    }

    pub(super) fn whole(&mut self, low: i32, high: i32) -> f64 {
        self.between(f64::from(low), f64::from(high) + 1.0).floor()
    }

    /// A number with three binary places, so that sums of products are exact.
    pub(super) fn eighths(&mut self, low: i32, high: i32) -> f64 {
        self.whole(8 * low, 8 * high) / 8.0
    }

    pub(super) fn chance(&mut self, share: f64) -> bool {
        self.roll() < share
    }
}

/// A program with a known point inside; some limits missing, some columns fixed or free, some rows equal or empty.
pub(super) fn feasible(dice: &mut Dice, columns: usize, rows: usize) -> Case {
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
pub(super) fn around(dice: &mut Dice, value: f64, [equal, free, open]: [f64; 3]) -> (f64, f64) {
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
pub(super) fn infeasible(dice: &mut Dice, columns: usize, rows: usize) -> Case {
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
pub(super) fn degenerate(dice: &mut Dice, columns: usize, rows: usize) -> Case {
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
pub(super) fn badly_scaled(dice: &mut Dice, columns: usize, rows: usize) -> Case {
    let mut case = if dice.chance(0.2) {
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
pub(super) fn ragged(dice: &mut Dice, columns: usize, rows: usize) -> Case {
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
