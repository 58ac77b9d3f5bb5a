//! Targets: the least change to a formula that brings its readings where the cook wants them.
//!
//! The mix keeps its weight, so that the same patties come out of it.
//! What is changed least is the sum of relative changes, so few lines move.
//! Readings nobody asked about stay in their windows where they can; where they cannot, the wishes come first and the readings show it.

mod lines;
mod program;

use super::bowl::Bowl;
use super::demand::{About, Demand};
use super::rescue::{RescueProblem, Status, by_spoon};
use super::solver::Clash;
use crate::formula::{Formula, Kitchen, Reading, ReadingValue, Style, Weighed};
use crate::measure::{Cup, LevelMeasures, Measure, fixed, grams, read};
use crate::pantry::{Pantry, Role};
use crate::words::{say, within};
use lines::{Movable, lines};
use program::{Found, Search};
use serde::Deserialize;
use std::collections::BTreeSet;

/// A line lighter than this is no line any more, g.
const GONE_G: f64 = 0.005;
/// Changes below this part of the mix are rounding.
const NOTICEABLE: f64 = 1e-7;

/// A range wanted of a reading, in the reading's own unit.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Want {
    /// Which reading.
    pub reading: Reading,
    /// At least this.
    pub low: Option<f64>,
    /// At most this.
    pub high: Option<f64>,
}

impl Want {
    /// Reads a limit as it was typed: `18`, `18 %`, `0,15`.
    ///
    /// # Example
    /// ```
    /// # use pattywright::balance::Want;
    /// assert_eq!(Want::limit("18 %"), Some(18.0));
    /// assert_eq!(Want::limit("18 g"), None);
    /// ```
    pub fn limit(text: &str) -> Option<f64> {
        let quantity = read(text.trim().trim_end_matches('%').trim_end()).ok()?;
        matches!(&quantity.measure, Measure::Count(word) if word.is_empty()).then(|| quantity.middle())
    }
}

/// What is best among all that fits.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Aim {
    /// Few lines, by little.
    #[default]
    LeastChange,
    /// The least salt.
    #[serde(alias = "least_sodium")]
    LeastSalt,
    /// The most protein.
    MostProtein,
}

/// What is asked.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Targets {
    /// The ranges.
    pub want: Vec<Want>,
    /// Ingredient ids of lines that stay as they are.
    pub lock: Vec<String>,
    /// Allergens whose lines come out, by the start of their names: `soy`, `gluten` …
    pub without: Vec<String>,
    /// What is best among all that fits.
    pub aim: Aim,
}

impl Targets {
    /// True for an allergen that has to come out.
    fn is_without(&self, allergen: &str) -> bool {
        self.without
            .iter()
            .any(|without| allergen.starts_with(without.as_str()))
    }
}

/// One line's change.
#[derive(Clone, PartialEq, Debug)]
pub struct Change {
    /// The line's key; 0 for a line that is new.
    pub key: u32,
    /// Ingredient id; none where the line is another formula.
    pub ingredient: Option<String>,
    /// Name on screen.
    pub name: String,
    /// What the line does.
    pub role: Role,
    /// More, or less where below zero, g.
    pub grams: f64,
    /// What the line weighs then, g.
    pub then_g: f64,
    /// The nearest level spoons of the change, where its density is known.
    pub spoons: Option<LevelMeasures>,
}

impl Change {
    /// The nearest level spoons in words, or a pinch or drops; none where none of them can be told.
    pub fn by_spoon(&self) -> Option<String> {
        by_spoon(self.spoons.as_ref(), self.role, self.grams)
    }
}

/// The whole answer.
#[derive(Clone, Debug)]
pub struct Changed {
    /// How it came out.
    pub status: Status,
    /// Lines that move; when out of reach, what gets nearest.
    pub change: Vec<Change>,
    /// Readings as they are.
    pub before: Vec<(Reading, ReadingValue)>,
    /// Readings with the change.
    pub after: Vec<(Reading, ReadingValue)>,
    /// What else to know, in sentences.
    pub notes: Vec<String>,
    /// Out of reach: the wishes that clash, and how near it gets.
    pub clash: Vec<String>,
}

impl Changed {
    /// What to do line by line, and what else to know, in sentences.
    pub fn steps(&self) -> Vec<String> {
        let lines = self.change.iter().map(|change| {
            let (name, much, all) = (within(&change.name), grams(change.grams.abs()), grams(change.then_g));
            match (change.grams > 0.0, change.then_g < GONE_G) {
                (_, true) => say!("Leave out all {much} of {name}.", much, name),
                (true, _) => say!("{much} more of {name}, {all} in all.", much, name, all),
                (false, _) => say!("{much} less of {name}, {all} in all.", much, name, all),
            }
        });
        lines.chain(self.notes.iter().cloned()).collect()
    }
}

/// Finds the change that reaches the targets.
///
/// # Errors
/// [`RescueProblem`], each with a sentence that says what to do.
pub fn reach(kitchen: &Kitchen, formula: &Formula, targets: &Targets) -> Result<Changed, RescueProblem> {
    let bowl = Bowl::whole(kitchen, formula)?;
    let style = bowl.mix.style.unwrap_or(Style::StandardPatty);
    let wishes = wishes(&bowl, &targets.want)?;
    let before = bowl.mix.readings();
    if let Some(unknown) = targets.without.iter().find(|without| !is_allergen(without)) {
        return Err(RescueProblem::NoAllergen(unknown.clone()));
    }
    let lines = lines(&bowl, targets)?;
    let all_out = lines.iter().any(|line| line.out);
    let mut changed = Changed {
        status: Status::NotNeeded,
        change: Vec::new(),
        after: before.clone(),
        before,
        notes: Vec::new(),
        clash: Vec::new(),
    };
    changed.notes.extend(lines.iter().filter_map(|line| line.note.clone()));
    let mut unknown: Vec<&str> = lines.iter().flat_map(|line| line.unknown.clone()).collect();
    let mut told = BTreeSet::new();
    unknown.retain(|name| told.insert(*name));
    if !unknown.is_empty() {
        changed.notes.push(say!(
            "Nobody has said here which allergens {names} bring: read every pack.",
            names = unknown.join(", ")
        ));
    }
    if targets.aim == Aim::LeastChange && !all_out && wishes.iter().all(|wish| bowl.meets(wish)) {
        changed.notes.push(say!("Everything asked for is there already."));
        return Ok(changed);
    }
    let asked = |about: About| wishes.iter().any(|wish| wish.about == about);
    let guards: Vec<Demand> = bowl
        .guards(style)
        .into_iter()
        .filter(|guard| !asked(guard.about))
        .collect();
    let search = Search {
        bowl: &bowl,
        lines: &lines,
        wishes: &wishes,
        guards: &guards,
        aim: targets.aim,
    };
    let (deltas, outside) = match search.run()? {
        Found::Granted(deltas, outside) => {
            changed.status = Status::Reached;
            (deltas, outside)
        }
        Found::Nearest(deltas, clash, missed, outside) => {
            changed.status = Status::OutOfReach;
            let after = moved(&bowl, &deltas);
            changed.clash = match clash {
                Some(clash) => in_words(&clash, &wishes, &lines),
                None => vec![say!("Only with far too much salt to make up the weight")],
            };
            changed.clash.extend(missed.iter().map(|wish| wish.missed_in(&after)));
            (deltas, outside)
        }
    };
    changed.notes.extend(out_of_range(&outside));
    finish(&bowl, &deltas, &mut changed);
    Ok(changed)
}

/// The formula with the change in it: lines that move are in grams then, or gone where nothing is left, the others as typed.
pub fn change_formula(formula: &Formula, change: &[Change]) -> Formula {
    let mut after = formula.clone();
    let gone = |key| change.iter().any(|change| change.key == key && change.then_g < GONE_G);
    after.lines.retain(|line| !gone(line.key));
    for line in &mut after.lines {
        if let Some(change) = change.iter().find(|change| change.key == line.key) {
            line.amount = typed(change.then_g);
            line.cut = None;
        }
    }
    after
}

/// Grams as a cook would type them into a line: with the decimal mark of the language spoken, read in every one.
pub(super) fn typed(value: f64) -> String {
    format!("{} g", fixed(value, if value < 20.0 { 2 } else { 1 }))
}

/// An allergen some row of the pantry names, or the start of one: `soy`, `gluten`.
fn is_allergen(name: &str) -> bool {
    let pantry = Pantry::new(&[], Cup::default());
    let rows = pantry.all().filter_map(|ingredient| ingredient.row());
    name.len() >= 3 && rows.flat_map(|row| row.allergens).any(|one| one.starts_with(name))
}

fn wishes(bowl: &Bowl, want: &[Want]) -> Result<Vec<Demand>, RescueProblem> {
    let mut wishes = Vec::new();
    for want in want {
        if want.reading.of(&bowl.mix).value.estimate().is_none() {
            return Err(RescueProblem::NotKnown(want.reading.name()));
        }
        for (bound, at_least) in [(want.low, true), (want.high, false)] {
            let Some(bound) = bound else { continue };
            if !(bound >= 0.0 && bound.is_finite()) {
                return Err(RescueProblem::Bound);
            }
            wishes.push(Demand {
                about: About::Reading(want.reading),
                bound,
                at_least,
                wished: true,
            });
        }
        if want.low.zip(want.high).is_some_and(|(low, high)| low > high) {
            return Err(RescueProblem::Bound);
        }
    }
    Ok(wishes)
}

/// "This takes fat and water in the mix out of their ranges …"
fn out_of_range(outside: &[Demand]) -> Option<String> {
    let names: Vec<String> = outside.iter().map(|guard| within(&guard.name())).collect();
    (!names.is_empty()).then(|| {
        say!(
            "This takes other readings out of their ranges: {names}. Look at them before you change anything.",
            names = names.join(", ")
        )
    })
}

/// The few wishes and locks that cannot hold together, in words.
fn in_words(clash: &Clash, wishes: &[Demand], lines: &[Movable]) -> Vec<String> {
    let mut asked: Vec<String> = clash
        .rows
        .iter()
        .filter_map(|limit| wishes.get(limit.index))
        .map(Demand::said)
        .collect();
    asked.extend(clash.columns.iter().filter_map(|limit| {
        let line = &lines[limit.index % lines.len()];
        let name = &line.line.name;
        match (line.out, line.locked) {
            (true, _) => Some(say!("{name} comes out", name)),
            (_, true) => Some(say!("{name} stays as it is", name)),
            _ => None,
        }
    }));
    let mut told = BTreeSet::new();
    asked.retain(|wish| told.insert(wish.clone()));
    match asked.len() {
        0 => Vec::new(),
        1 => vec![say!("Not with these ingredients: {wish}", wish = asked[0])],
        _ => vec![say!("These cannot hold together: {wishes}", wishes = asked.join("; "))],
    }
}

fn moved(bowl: &Bowl, deltas: &[f64]) -> Weighed {
    let masses: Vec<f64> = bowl
        .mix
        .known()
        .zip(deltas)
        .map(|((_, grams), delta)| (grams.value + delta).max(0.0))
        .collect();
    bowl.mix.with_masses(&masses, bowl.kitchen.habits.scale_step_grams)
}

fn finish(bowl: &Bowl, deltas: &[f64], changed: &mut Changed) {
    let least = NOTICEABLE * bowl.mix.total.value;
    changed.change = bowl
        .mix
        .known()
        .zip(deltas)
        .filter(|(_, delta)| delta.abs() > least)
        .map(|((line, now), delta)| Change {
            key: line.key,
            ingredient: line.ingredient.clone(),
            name: line.name.clone(),
            role: line.role,
            grams: *delta,
            then_g: (now.value + delta).max(0.0),
            spoons: line.ingredient.as_deref().and_then(|id| bowl.spoons(id, delta.abs())),
        })
        .collect();
    // Lines that move go on the scale; the others stay as unsure as their cups and spoons.
    let step = bowl.kitchen.habits.scale_step_grams;
    let moved = |mix: Weighed, change: &Change| mix.with_mass(change.key, change.then_g, step);
    changed.after = changed.change.iter().fold(bowl.mix.clone(), moved).readings();
}
