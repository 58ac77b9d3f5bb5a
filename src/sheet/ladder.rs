//! The levers: what one more level teaspoon, or 5 g, of each line does to the readings.

use crate::formula::{Formula, Kitchen, Reading, Weighed, WeighedLine};
use crate::measure::{Estimate, Unit, fixed, grams};
use crate::pantry::Role;
use crate::words::say;

/// The step of what is not spooned, g.
const STEP_G: f64 = 5.0;
/// A move of less than this part of a window is not worth a word.
const WORTH_SAYING: f64 = 0.005;
/// How many readings are named beside each line.
const NAMED: usize = 2;

/// One line's lever.
#[derive(Clone, PartialEq, Debug)]
pub struct Rung {
    /// The line's key.
    pub key: u32,
    /// "Methylcellulose, 1 tsp more (2.2 g)".
    pub step: String,
    /// "Binder in the mix 0.96 → 1.28 %", the strongest first; empty where nothing moves.
    pub moves: Vec<String>,
}

/// Every line's lever, in the order written; empty while a line has no grams, for then no reading is sure.
pub fn ladder(kitchen: &Kitchen, formula: &Formula) -> Vec<Rung> {
    let weighed = kitchen.weigh(formula);
    if !weighed.complete() {
        return Vec::new();
    }
    weighed.known().map(|(line, _)| rung(kitchen, &weighed, line)).collect()
}

fn rung(kitchen: &Kitchen, weighed: &Weighed, line: &WeighedLine) -> Rung {
    let spoon = spoon_g(kitchen, line);
    let step = spoon.unwrap_or(STEP_G);
    let after = weighed.with_line(&line.name, line.role, line.profile, Estimate::exact(step));
    let mut moves: Vec<(f64, String)> = Reading::ALL
        .into_iter()
        .filter_map(|reading| {
            let before = reading.of(weighed);
            let window = before.window?;
            let (from, to) = (
                before.value.estimate()?.value,
                reading.of(&after).value.estimate()?.value,
            );
            let width = window.high - window.low;
            let strength = (to - from).abs() / width;
            (strength >= WORTH_SAYING).then(|| (strength, says(reading, from, to, width)))
        })
        .collect();
    moves.sort_by(|a, b| b.0.total_cmp(&a.0));
    Rung {
        key: line.key,
        step: match spoon {
            Some(step) => say!("{name}, 1 tsp more ({weight})", name = line.name, weight = grams(step)),
            None => say!("{name}, 5 g more", name = line.name),
        },
        moves: moves.into_iter().take(NAMED).map(|(_, says)| says).collect(),
    }
}

/// What a level teaspoon weighs of what is spooned in a kitchen; none for the rest, and where nobody knows.
fn spoon_g(kitchen: &Kitchen, line: &WeighedLine) -> Option<f64> {
    if !matches!(line.role, Role::Binder | Role::Seasoning | Role::Colour) {
        return None;
    }
    let pantry = &kitchen.pantry;
    let ingredient = pantry.get(line.ingredient.as_deref()?)?;
    let density = pantry.density(&ingredient, Unit::Teaspoon, None)?;
    Some(density.grams_per_millilitre * Unit::Teaspoon.millilitres(pantry.cup())?)
}

/// With the digits that tell a hundredth of the window.
fn says(reading: Reading, from: f64, to: f64, width: f64) -> String {
    let digits = (2.0 - width.log10()).round().clamp(1.0, 2.0) as u8;
    let unit = reading.unit();
    let space = if unit.is_empty() { "" } else { " " };
    format!(
        "{} {} → {}{space}{unit}",
        reading.name(),
        fixed(from, digits),
        fixed(to, digits)
    )
}
