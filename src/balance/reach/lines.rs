//! The lines of a formula, and how far each may move.

use super::Targets;
use crate::balance::allergens::{Allergens, in_words};
use crate::balance::bowl::Bowl;
use crate::balance::rescue::RescueProblem;
use crate::formula::{Line, WeighedLine};
use crate::words::{say, small};

/// A line and how far it may move.
pub(super) struct Movable<'a> {
    pub line: &'a WeighedLine,
    /// What it weighs, g.
    pub grams: f64,
    /// What its change is measured from, g: what others leave free is shared out in proportion, so that the mix keeps its weight.
    pub start: f64,
    /// Stays as it is, by the cook's wish.
    pub locked: bool,
    /// Comes out altogether.
    pub out: bool,
    /// What to know about it, in a sentence.
    pub note: Option<String>,
    /// Ingredients of it of which nobody has said what allergens they bring, where that was asked.
    pub unknown: Vec<&'a str>,
}

/// Reads the locks and the allergens that come out.
pub(super) fn lines<'a>(bowl: &'a Bowl, targets: &Targets) -> Result<Vec<Movable<'a>>, RescueProblem> {
    let typed = || bowl.mix.known().zip(&bowl.formula.lines);
    for lock in &targets.lock {
        if !typed().any(|((weighed, _), line)| is_named(weighed, line, lock)) {
            return Err(RescueProblem::NoLine(lock.clone()));
        }
    }
    let mut lines: Vec<Movable> = typed()
        .map(|((weighed, grams), line)| {
            let allergens = Allergens::of_line(bowl.kitchen, line);
            let brought: Vec<&'static str> = allergens
                .named
                .iter()
                .copied()
                .filter(|one| targets.is_without(one))
                .collect();
            let locked = targets.lock.iter().any(|lock| is_named(weighed, line, lock));
            let out = !brought.is_empty();
            Movable {
                line: weighed,
                grams: grams.value,
                start: if out { 0.0 } else { grams.value },
                locked,
                out,
                note: note(weighed, line, locked, &brought),
                unknown: if targets.without.is_empty() {
                    Vec::new()
                } else {
                    allergens.unknown
                },
            }
        })
        .collect();
    let sum = |part: &dyn Fn(&Movable) -> bool| -> f64 {
        let part = lines.iter().filter(|line| part(line));
        part.map(|line| line.grams).sum()
    };
    let (out, free) = (sum(&|line| line.out), sum(&|line| !line.out && !line.locked));
    if free > 0.0 {
        let grows = lines.iter_mut().filter(|line| !line.out && !line.locked);
        grows.for_each(|line| line.start *= 1.0 + out / free);
    }
    Ok(lines)
}

/// True where this is the line's ingredient, its formula, or its name on screen.
fn is_named(weighed: &WeighedLine, line: &Line, name: &str) -> bool {
    [line.ingredient.as_deref(), line.formula.as_deref()].contains(&Some(name))
        || small(&weighed.name) == small(name.trim())
}

fn note(weighed: &WeighedLine, line: &Line, locked: bool, brought: &[&'static str]) -> Option<String> {
    let (name, allergen) = (&weighed.name, in_words(brought.first()?));
    match (locked, line.formula.is_some()) {
        (true, _) => Some(say!(
            "{name} brings {allergen}, so it comes out though it was to stay.",
            name,
            allergen
        )),
        (false, true) => Some(say!(
            "{name} comes out whole: a line of it brings {allergen}.",
            name,
            allergen
        )),
        (false, false) => None,
    }
}
