//! The field picture: temperature through the thickness over time, as paths for a drawing 300 wide and 120 high.
//!
//! The side that went down first is at the bottom throughout, also after the turn.

use super::clock;
use crate::heat::cook::{Answers, Field};
use crate::measure::{Degrees, plain};
use crate::words::say;

/// Width and height of the drawing.
const WIDE: f64 = 300.0;
const HIGH: f64 = 120.0;

/// Marks nearer than this to the right end leave room for the word "min".
const ROOM_FOR_UNIT: f64 = 24.0;

/// At most so many marks on the time axis.
const MOST_TICKS: u32 = 6;

/// The picture, ready to draw.
#[derive(Clone, PartialEq, Debug)]
pub struct Picture {
    /// Where it has set now: a closed path; empty where it is not known when the binder sets.
    pub set: String,
    /// Where it is as hot as the core target, or hotter: a closed path.
    pub hot: String,
    /// The edge of `set`.
    pub set_line: String,
    /// The edge of `hot`.
    pub hot_line: String,
    /// Where it is turned.
    pub turn_x: Option<f64>,
    /// Where it comes off the heat.
    pub done_x: f64,
    /// Marks on the time axis.
    pub ticks: Vec<Tick>,
    /// The key: what `set` and `hot` mean: `set, 46 °C` and `74 °C`.
    pub key: (String, String),
    /// The same in figures: time, side that went down first, middle, other side.
    pub rows: Vec<[String; 4]>,
    /// The same in a sentence, for ears.
    pub says: String,
}

/// A mark on the time axis.
#[derive(Clone, PartialEq, Debug)]
pub struct Tick {
    /// Place.
    pub x: f64,
    /// `3`, in minutes.
    pub label: String,
}

impl Picture {
    /// Draws the answers; `set_c` where it is known.
    pub fn of(answers: &Answers, set_c: Option<f64>, core_c: f64, degrees: Degrees) -> Self {
        let field = &answers.field;
        let until_s = field.at_s.last().copied().unwrap_or(1.0).max(1.0);
        let x = |s: f64| WIDE * s / until_s;
        let (turn_s, done_s) = (answers.turns_s.first().copied(), answers.done_s.value);
        Self {
            set: set_c.map_or(String::new(), |c| above(field, c)),
            hot: above(field, core_c),
            set_line: set_c.map_or(String::new(), |c| edge(field, c)),
            hot_line: edge(field, core_c),
            turn_x: turn_s.map(x),
            done_x: x(done_s),
            ticks: ticks(until_s),
            key: (
                set_c.map_or(String::new(), |c| say!("set, from {least}", least = degrees.text(c))),
                say!("{core} or hotter", core = degrees.text(core_c)),
            ),
            rows: rows(field, degrees),
            says: says(turn_s, done_s, &degrees.text(core_c)),
        }
    }
}

fn says(turn_s: Option<f64>, done_s: f64, core: &str) -> String {
    let time = |s: f64| clock(s.round() as u32);
    let turned = turn_s.map_or(String::new(), |turn_s| {
        say!("Turned after {time}.", time = time(turn_s)) + " "
    });
    let done = say!("The middle reaches {core} after {time}.", core, time = time(done_s));
    format!("{} {turned}{done}", say("Temperature through the patty over time."))
}

/// A mark at every minute, or at every few where minutes crowd.
fn ticks(until_s: f64) -> Vec<Tick> {
    let minutes = (until_s / 60.0) as u32;
    let each = [1, 2, 5, 10, 20, 30]
        .into_iter()
        .find(|each| minutes / each <= MOST_TICKS);
    (0..=minutes)
        .step_by(each.unwrap_or(60) as usize)
        .map(|minute| Tick {
            x: WIDE * f64::from(minute) * 60.0 / until_s,
            label: minute.to_string(),
        })
        .filter(|tick| tick.x <= WIDE - ROOM_FOR_UNIT)
        .collect()
}

/// Every place at `level` or above, as one path of strips.
fn above(field: &Field, level: f64) -> String {
    let mut path = String::new();
    let wide = WIDE / (field.at_s.len().max(2) - 1) as f64;
    for (i, pair) in field.temperature_c.windows(2).enumerate() {
        let column: Vec<f64> = pair[0].iter().zip(&pair[1]).map(|(a, b)| (a + b) / 2.0).collect();
        for (from, to) in runs(&column, level) {
            path.push_str(&format!(
                "M{} {}h{}V{}h-{}z",
                short(wide * i as f64),
                short(HIGH * (1.0 - from)),
                short(wide + 0.2),
                short(HIGH * (1.0 - to)),
                short(wide + 0.2)
            ));
        }
    }
    path
}

/// The stretches of a column at `level` or above, as shares of the thickness.
fn runs(column: &[f64], level: f64) -> Vec<(f64, f64)> {
    let last = (column.len().max(2) - 1) as f64;
    let mut runs = Vec::new();
    let mut from = column.first().filter(|c| **c >= level).map(|_| 0.0);
    for (j, pair) in column.windows(2).enumerate() {
        let [a, b] = [pair[0], pair[1]];
        if (a >= level) != (b >= level) {
            let place = (j as f64 + (level - a) / (b - a)) / last;
            match from.take() {
                Some(start) => runs.push((start, place)),
                None => from = Some(place),
            }
        }
    }
    runs.extend(from.map(|start| (start, 1.0)));
    runs
}

/// The line where the field passes `level`: in each cell of the grid a straight piece between the sides it passes.
fn edge(field: &Field, level: f64) -> String {
    let rows = &field.temperature_c;
    let (times, depths) = (rows.len().max(2) - 1, field.depths_mm.len().max(2) - 1);
    let place = |i: f64, j: f64| {
        format!(
            "{} {}",
            short(WIDE * i / times as f64),
            short(HIGH * (1.0 - j / depths as f64))
        )
    };
    let mut path = String::new();
    for i in 0..times {
        for j in 0..depths {
            let corners = [(0, 0), (1, 0), (1, 1), (0, 1)].map(|(di, dj)| (i + di, j + dj));
            let mut passed = Vec::with_capacity(4);
            for k in 0..4 {
                let (from, to) = (corners[k], corners[(k + 1) % 4]);
                let (Some(a), Some(b)) = (value(rows, from), value(rows, to)) else {
                    continue;
                };
                if (a >= level) != (b >= level) {
                    let share = (level - a) / (b - a);
                    let along = |from: usize, to: usize| from as f64 + share * (to as f64 - from as f64);
                    passed.push(place(along(from.0, to.0), along(from.1, to.1)));
                }
            }
            for pair in passed.chunks_exact(2) {
                path.push_str(&format!("M{}L{}", pair[0], pair[1]));
            }
        }
    }
    path
}

fn value(rows: &[Vec<f64>], (i, j): (usize, usize)) -> Option<f64> {
    rows.get(i)?.get(j).copied()
}

/// Eight times, evenly apart.
fn rows(field: &Field, degrees: Degrees) -> Vec<[String; 4]> {
    let times = field.at_s.iter().zip(&field.temperature_c);
    times
        .step_by(6)
        .filter_map(|(at_s, row)| {
            let cell = |c: Option<&f64>| c.map(|c| degrees.write(*c));
            Some([
                clock(at_s.round() as u32),
                cell(row.first())?,
                cell(row.get(row.len() / 2))?,
                cell(row.last())?,
            ])
        })
        .collect()
}

fn short(value: f64) -> String {
    plain(value, 1)
}
