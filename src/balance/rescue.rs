//! What to add to what is left in the bowl.
//!
//! What is left is the mix as it was made, shrunk in proportion.
//! Nothing is ever taken out of a bowl, so additions are zero or more, and "out of reach" is an answer that says how near it gets.

use super::bowl::Bowl;
use super::reach::typed;
use super::steps::steps;
use super::symptom::{Remedy, Symptom};
use crate::formula::{Addition, Formula, Kitchen, Line, Reading, ReadingValue, Style};
use crate::measure::LevelMeasures;
use crate::pantry::Role;
use crate::words::say;

/// How it came out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Status {
    /// The additions bring every reading asked for into its window.
    Reached,
    /// They are all there already.
    NotNeeded,
    /// No addition does; see the clash for what, and how near.
    OutOfReach,
}

impl Status {
    /// The name used in reports.
    pub fn id(self) -> &'static str {
        match self {
            Status::Reached => "reached",
            Status::NotNeeded => "not_needed",
            Status::OutOfReach => "out_of_reach",
        }
    }
}

/// Something to put into the bowl.
#[derive(Clone, PartialEq, Debug)]
pub struct Add {
    /// Ingredient id.
    pub ingredient: String,
    /// Name on screen.
    pub name: String,
    /// What it does.
    pub role: Role,
    /// g.
    pub grams: f64,
    /// The nearest level spoons, where its density is known.
    pub spoons: Option<LevelMeasures>,
}

/// Without a level spoon that small, this much or less is a pinch, g: common practice, no source.
const PINCH_G: f64 = 0.3;

/// The nearest level spoons in words, or a pinch or drops; none where none of them can be told.
pub(super) fn by_spoon(spoons: Option<&LevelMeasures>, role: Role, grams: f64) -> Option<String> {
    let little = match role {
        Role::Liquid | Role::Fat => say("a few drops"),
        _ => say("a small pinch"),
    };
    let little = (grams.abs() <= PINCH_G).then(|| little.to_owned());
    spoons.map(ToString::to_string).or(little)
}

impl Add {
    /// The nearest level spoons in words, or a pinch or drops; none where none of them can be told.
    pub fn by_spoon(&self) -> Option<String> {
        by_spoon(self.spoons.as_ref(), self.role, self.grams)
    }
}

/// The whole advice.
#[derive(Clone, Debug)]
pub struct Rescue {
    /// How it came out.
    pub status: Status,
    /// What to add; when out of reach, what gets nearest.
    pub add: Vec<Add>,
    /// A small step to try where nothing is out of its window and it still fails.
    pub if_that_fails: Vec<Add>,
    /// Seasoning that keeps the flavour as it was.
    pub top_up: Vec<Add>,
    /// Readings of what is left.
    pub before: Vec<(Reading, ReadingValue)>,
    /// Readings with the additions in.
    pub after: Vec<(Reading, ReadingValue)>,
    /// What to do, in order.
    pub steps: Vec<String>,
    /// Out of reach: what stays outside, and how near it gets.
    pub clash: Vec<String>,
    /// What is left, g.
    pub left_g: f64,
}

/// Why no advice can be worked out.
#[derive(Clone, PartialEq, Debug)]
pub enum RescueProblem {
    /// Lines without grams.
    Incomplete(Vec<String>),
    /// Nothing in the formula.
    Empty,
    /// What is left is zero, negative, not a number or over a tonne.
    Left,
    /// A reading asked for has no figure.
    NotKnown(&'static str),
    /// A wanted limit that is no number, below zero, or above its own upper one.
    Bound,
    /// An ingredient asked for is not there, or cannot take the other's place; the sentence says which.
    NoSwap(String),
    /// An allergen no row of the pantry names.
    NoAllergen(String),
    /// Something that is to stay as it is, and is not there.
    NoLine(String),
    /// What must stay and what must come out leave nothing to move.
    OnlyThat,
    /// The sum did not come out.
    NoAnswer,
}

impl std::fmt::Display for RescueProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&match self {
            RescueProblem::Incomplete(lines) => say!(
                "Weigh these lines first, then advice can be worked out: {lines}",
                lines = lines.join(", ")
            ),
            RescueProblem::Empty => say!("Write the formula first: there is nothing in the bowl yet"),
            RescueProblem::Left => say!("Type what is left in the bowl in grams, more than 0"),
            RescueProblem::NotKnown(reading) => say!(
                "{reading} cannot be worked out for this mix: give every large line an ingredient from the pantry first",
                reading
            ),
            RescueProblem::Bound => say!("Type each limit as a number, 0 or more, the lower one first"),
            RescueProblem::NoSwap(why) => return f.write_str(why),
            RescueProblem::NoAllergen(name) => say!(
                "“{name}” is no allergen known here. Try soy, gluten, wheat, mustard, sesame or lupin",
                name
            ),
            RescueProblem::NoLine(name) => say!(
                "“{name}” is no line of this formula, so it cannot be kept as it is. Name one of its lines",
                name
            ),
            RescueProblem::OnlyThat => say!("What stays and what comes out leave no line to change. Unlock one"),
            RescueProblem::NoAnswer => say!("This could not be worked out. Check the amounts in the formula"),
        })
    }
}

/// Works out what to add to `left_g` grams of the mix.
///
/// # Errors
/// [`RescueProblem`], each with a sentence that says what to do.
pub fn rescue(kitchen: &Kitchen, formula: &Formula, left_g: f64, symptom: Symptom) -> Result<Rescue, RescueProblem> {
    let mut left = Bowl::left(kitchen, formula, left_g)?;
    let remedy = symptom.remedy();
    let style = remedy.style.or(left.mix.style).unwrap_or(Style::StandardPatty);
    // Readings are shown against the windows that were aimed at.
    left.mix.style = Some(style);
    let candidates = left.candidates(remedy, remedy.may_add, remedy.stretch);
    let demands = left.demands(remedy.wishes, style);
    let before = left.mix.readings();
    let mut rescue = Rescue {
        status: Status::NotNeeded,
        add: Vec::new(),
        if_that_fails: Vec::new(),
        top_up: Vec::new(),
        after: before.clone(),
        before,
        steps: Vec::new(),
        clash: Vec::new(),
        left_g,
    };
    if demands.iter().all(|demand| !demand.wished || left.meets(demand)) {
        rescue.if_that_fails = small_step(&left, remedy, style)?;
    } else {
        match left.solve(&candidates, &demands)? {
            Some(add) => {
                rescue.status = Status::Reached;
                rescue.add = add;
            }
            None => {
                (rescue.add, rescue.clash) = left.nearest(&candidates, &demands)?;
                // What misses by rounding alone is reached.
                rescue.status = if rescue.clash.is_empty() {
                    Status::Reached
                } else {
                    Status::OutOfReach
                };
            }
        }
        rescue.after = left.with(&rescue.add).readings();
        rescue.top_up = left.top_up(&rescue.add, remedy.wishes);
    }
    let all: Vec<Add> = rescue.add.iter().chain(&rescue.if_that_fails).cloned().collect();
    rescue.steps = steps(remedy, &rescue);
    rescue.steps.extend(left.new_allergens(&all));
    Ok(rescue)
}

/// What to try where all that usually causes the symptom is in its window: it belongs to the symptom, and where half of it
/// would put something else wrong, there is none (common practice, no source).
fn small_step(left: &Bowl, remedy: &Remedy, style: Style) -> Result<Vec<Add>, RescueProblem> {
    let with = remedy.step_with;
    let stretch: Vec<Role> = remedy
        .stretch
        .iter()
        .filter(|role| with.contains(role))
        .copied()
        .collect();
    let candidates = left.candidates(remedy, with, &stretch);
    for part in [1.0, 0.5] {
        if let Some(demands) = left.small_step(remedy.small_step, part, style)
            && let Some(add) = left.solve(&candidates, &demands)?
        {
            return Ok(add);
        }
    }
    Ok(Vec::new())
}

/// The formula of record after `add` went into what was left: what is now in the bowl, with the addition logged.
///
/// `why` and `at` are kept in the log as they are given; `at` is a date such as `2026-11-25 18:40`.
///
/// # Errors
/// [`RescueProblem`] where the formula cannot be weighed.
pub fn apply(
    kitchen: &Kitchen,
    formula: &Formula,
    left_g: f64,
    add: &[Add],
    why: &str,
    at: &str,
) -> Result<Formula, RescueProblem> {
    let left = Bowl::left(kitchen, formula, left_g)?;
    let mut grams: Vec<f64> = left.mix.known().map(|(_, grams)| grams.value).collect();
    let mut after = formula.clone();
    for addition in add {
        let same = after.lines.iter().position(|line| {
            line.ingredient.as_deref() == Some(&addition.ingredient)
                && line.role.is_none_or(|role| role == addition.role)
        });
        if let Some(index) = same {
            grams[index] += addition.grams;
        } else {
            grams.push(addition.grams);
            after.lines.push(Line {
                ingredient: Some(addition.ingredient.clone()),
                ..Line::default()
            });
        }
    }
    for (line, grams) in after.lines.iter_mut().zip(grams) {
        line.amount = typed(grams);
        line.cut = None;
    }
    after.give_keys();
    after.log.push(Addition {
        at: at.into(),
        why: why.into(),
        left_g,
        added: add.iter().map(|a| (a.ingredient.clone(), a.grams)).collect(),
    });
    Ok(after)
}
