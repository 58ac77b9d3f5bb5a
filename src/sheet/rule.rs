//! The window rule: a ruler with the good range shaded, the reading as a tick, its spread as a whisker.

use super::Figure;
use crate::formula::{Reading, ReadingValue, Value};
use crate::words::say;

/// Where a reading lies against its window.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Place {
    /// Within.
    Inside,
    /// Under it.
    Below,
    /// Over it.
    Above,
    /// No window, or no figure.
    Open,
}

/// One reading, ready to draw. Positions run from 0 (left end) to 1 (right end).
#[derive(Clone, PartialEq, Debug)]
pub struct Rule {
    /// Which reading.
    pub reading: Reading,
    /// Its name.
    pub name: &'static str,
    /// The figure.
    pub figure: Figure,
    /// The same unrounded; none where it is not known.
    pub value: Option<f64>,
    /// Where it lies.
    pub place: Place,
    /// The shaded range.
    pub window: Option<(f64, f64)>,
    /// The tick.
    pub tick: Option<f64>,
    /// The whisker's ends.
    pub whisker: Option<(f64, f64)>,
    /// The whole of it in a sentence, for ears and for the details.
    pub says: String,
    /// Who says what the window is.
    pub source: &'static str,
}

impl Rule {
    /// Lays a reading out on its ruler.
    pub fn of(reading: Reading, value: &ReadingValue) -> Rule {
        let window = value.window.map(|window| (window.low, window.high));
        let estimate = value.value.estimate();
        let place = match (estimate, window) {
            (Some(estimate), Some((low, _))) if estimate.value < low => Place::Below,
            (Some(estimate), Some((_, high))) if estimate.value > high => Place::Above,
            (Some(_), Some(_)) => Place::Inside,
            _ => Place::Open,
        };
        let between = match &value.value {
            Value::Between { at_least, at_most, .. } => Some((*at_least, *at_most)),
            _ => None,
        };
        let middle = estimate
            .map(|e| e.value)
            .or(between.map(|(low, high)| (low + high) / 2.0));
        let (start, end) = span(window, middle);
        let at = |x: f64| ((x - start) / (end - start)).clamp(0.0, 1.0);
        let figure = match (&value.value, between) {
            (Value::Known(estimate), _) => Figure::of_three_digits(*estimate, reading.unit()),
            (_, Some((low, high))) => Figure {
                value: format!("{}–{}", short(low), short(high)),
                spread: String::new(),
                unit: reading.unit(),
            },
            _ => Figure::none(reading.unit()),
        };
        let says = says(reading, value, &figure, place, window);
        Rule {
            reading,
            name: reading.name(),
            figure,
            value: estimate.map(|e| e.value),
            place,
            window: window.map(|(low, high)| (at(low), at(high))),
            tick: estimate.map(|e| at(e.value)),
            whisker: estimate
                .map(|e| (at(e.value - e.sd), at(e.value + e.sd)))
                .or(between.map(|(low, high)| (at(low), at(high)))),
            says,
            source: say(value
                .window
                .map_or("No range is known for this style", |window| window.source)),
        }
    }
}

/// Readings after something was done: those that moved by more than a fiftieth, and those outside their windows.
pub fn moved(before: &[(Reading, ReadingValue)], after: &[(Reading, ReadingValue)]) -> Vec<Rule> {
    let was = |reading: Reading| {
        let found = before.iter().find(|(other, _)| *other == reading);
        found.and_then(|(_, value)| value.value.estimate()).map(|e| e.value)
    };
    let rules = after.iter().filter(|(_, value)| value.window.is_some());
    rules
        .map(|(reading, value)| Rule::of(*reading, value))
        .filter(|rule| {
            let moved = was(rule.reading)
                .zip(rule.value)
                .is_some_and(|(before, after)| (after - before).abs() > 0.02 * before.abs());
            moved || matches!(rule.place, Place::Below | Place::Above)
        })
        .collect()
}

/// The ruler's ends: the window takes the middle half; a reading far outside stretches the ruler to hold it.
fn span(window: Option<(f64, f64)>, value: Option<f64>) -> (f64, f64) {
    let (low, high) = match (window, value) {
        (Some((low, high)), _) => (low - (high - low) / 2.0, high + (high - low) / 2.0),
        (None, Some(value)) => (0.0, 2.0 * value),
        (None, None) => (0.0, 1.0),
    };
    let low = low.max(0.0);
    let value = value.unwrap_or(low);
    let (start, end) = (low.min(value * 0.9), high.max(value * 1.1));
    if end > start {
        (start, end)
    } else {
        (start, start + 1.0)
    }
}

fn short(value: f64) -> String {
    crate::measure::fixed(value, 1)
}

fn says(reading: Reading, value: &ReadingValue, figure: &Figure, place: Place, window: Option<(f64, f64)>) -> String {
    let unit = if reading.unit().is_empty() {
        String::new()
    } else {
        format!(" {}", reading.unit())
    };
    let range = window.map(|(low, high)| format!("{}–{}{unit}", short(low), short(high)));
    match (&value.value, range) {
        (Value::Unknown(why), _) => format!("{why}."),
        (Value::Between { lines, .. }, _) => say!(
            "Somewhere in {figure}: nobody has said what is in {lines}.",
            figure = figure.text(),
            lines = lines.join(", ")
        ),
        (Value::Known(_), None) => say!("{figure}. No range is known for this style.", figure = figure.text()),
        (Value::Known(_), Some(range)) => {
            let figure = figure.text();
            match place {
                Place::Below => say!("{figure}, below the range {range}.", figure, range),
                Place::Above => say!("{figure}, above the range {range}.", figure, range),
                _ => say!("{figure}, within the range {range}.", figure, range),
            }
        }
    }
}
