//! What is left in the bowl, what may go in, and what is asked of it: the rescue as a small linear program.
//!
//! A demand such as "binder at least 1.1 % of the mix" is linear once multiplied out: `Σ (n − bound·d)·m ≥ 0`.
//! The least added mass that meets every demand is the answer.

use super::allergens::{Allergens, in_words};
use super::candidate::{Candidate, NOTHING};
use super::demand::{About, Demand};
use super::rescue::{Add, RescueProblem};
use super::solver::{Outcome, Program, ProgramError};
use super::steps::joined;
use super::symptom::{Step, Wish};
use crate::formula::{
    Component, Formula, Kitchen, LARGEST_BATCH_G, Profile, Reading, Style, Weighed, Window, on_the_scale,
};
use crate::measure::{LevelMeasures, Unit, level_measures};
use crate::pantry::Role;
use crate::words::say;

/// How far inside a window to aim, as a part of its width, so that a rounded spoon still lands in it.
const INSIDE: f64 = 0.1;
/// Additions below this are not worth a spoon, as a part of what is left.
const LEAST_ADDITION: f64 = 1e-4;
/// A seasoning with this part of salt or more brings salt.
const SALTY: f64 = 0.02;
/// The share of a seasoning may fall by this part of itself before a top-up is offered.
const FLAVOUR_TOLERANCE: f64 = 0.05;

/// Readings that may not leave their windows for the sake of others.
const GUARDED: [Reading; 8] = [
    Reading::Hydration,
    Reading::Moisture,
    Reading::BinderShare,
    Reading::PowderToTextured,
    Reading::Protein,
    Reading::Fat,
    Reading::SolidFatShare,
    Reading::Salt,
];

/// What is left, and where it may be looked up.
pub(super) struct Bowl<'a> {
    pub kitchen: &'a Kitchen<'a>,
    pub formula: &'a Formula,
    pub mix: Weighed,
}

impl<'a> Bowl<'a> {
    /// All of a formula, every line with its grams.
    pub fn whole(kitchen: &'a Kitchen<'a>, formula: &'a Formula) -> Result<Bowl<'a>, RescueProblem> {
        let mix = kitchen.weigh(formula);
        if !mix.complete() {
            let names = mix.missing().into_iter().map(str::to_owned).collect();
            return Err(RescueProblem::Incomplete(names));
        }
        if mix.total.value <= 0.0 {
            return Err(RescueProblem::Empty);
        }
        Ok(Bowl { kitchen, formula, mix })
    }

    /// `left_g` grams of a formula, all lines in proportion.
    pub fn left(kitchen: &'a Kitchen<'a>, formula: &'a Formula, left_g: f64) -> Result<Bowl<'a>, RescueProblem> {
        let Bowl { mix, .. } = Bowl::whole(kitchen, formula)?;
        if !(left_g > 0.0 && left_g <= LARGEST_BATCH_G) {
            return Err(RescueProblem::Left);
        }
        let mix = mix.times(left_g / mix.total.value);
        Ok(Bowl { kitchen, formula, mix })
    }

    /// Warns of allergens that an addition brings and the mix did not have: `Soy granules brings soybeans …`.
    pub fn new_allergens(&self, add: &[Add]) -> Vec<String> {
        let of = |id: &str| {
            let row = self.kitchen.pantry.get(id).and_then(|found| found.row());
            row.map_or(&[][..], |row| row.allergens)
        };
        let there = Allergens::of_formula(self.kitchen, self.formula).named;
        add.iter()
            .filter_map(|add| {
                let new = of(&add.ingredient).iter().filter(|one| !there.contains(one));
                let new: Vec<String> = new.map(|one| in_words(one)).collect();
                (!new.is_empty()).then(|| {
                    say!(
                        "{name} brings {allergens}, which no other line here names: tell your guests.",
                        name = add.name,
                        allergens = joined(&new)
                    )
                })
            })
            .collect()
    }

    /// The wishes of a remedy, with guards that keep every other reading from leaving its window.
    ///
    /// A guarded reading that is outside already need only not get worse.
    pub fn demands(&self, wishes: &[Wish], style: Style) -> Vec<Demand> {
        let demands = wishes.iter().flat_map(|wish| match *wish {
            Wish::Raise(reading) => [self.wish(reading, true, style), None],
            Wish::Lower(reading) => [self.wish(reading, false, style), None],
            Wish::Within(reading) => [true, false].map(|raise| self.wish(reading, raise, style)),
            Wish::Thin(role, part) => {
                let now = 100.0 * self.mix.by_role()[role.index()] / self.mix.total.value;
                let demand = (now > 0.0).then_some(Demand {
                    about: About::Share(role),
                    bound: now * (1.0 - part),
                    at_least: false,
                    wished: true,
                });
                [demand, None]
            }
        });
        self.guarded(demands.flatten().collect(), style)
    }

    /// This part, above 0 and up to 1, of small steps from the mix as it is, each as far as its window goes; none where no window has room
    /// for half of one.
    pub fn small_step(&self, steps: &[Step], part: f64, style: Style) -> Option<Vec<Demand>> {
        let demands: Vec<Demand> = steps
            .iter()
            .filter_map(|step| {
                let (window, now) = self.window(step.reading, style)?;
                let by = (now + step.by).clamp(window.low.min(now), window.high.max(now)) - now;
                (by.abs() >= step.by.abs() / 2.0).then_some(Demand {
                    about: About::Reading(step.reading),
                    bound: now + part * by,
                    at_least: step.by > 0.0,
                    wished: true,
                })
            })
            .collect();
        (!demands.is_empty()).then(|| self.guarded(demands, style))
    }

    /// The same with guards for whatever it does not speak of.
    fn guarded(&self, mut demands: Vec<Demand>, style: Style) -> Vec<Demand> {
        // Salt that falls is the top-up's to mend, and solid fat that is thinned no addition's.
        let falls = |guard: &Demand| {
            guard.at_least
                && [Reading::Salt, Reading::SolidFatShare]
                    .iter()
                    .any(|reading| guard.about == About::Reading(*reading))
        };
        for guard in self.guards(style).into_iter().filter(|guard| !falls(guard)) {
            let spoken_of = |d: &Demand| d.about == guard.about && d.at_least == guard.at_least;
            if !demands.iter().any(spoken_of) {
                demands.push(guard);
            }
        }
        demands
    }

    /// Keeps what is in its window there, and what is outside from going further.
    pub fn guards(&self, style: Style) -> Vec<Demand> {
        GUARDED
            .into_iter()
            .filter_map(|reading| Some((reading, self.window(reading, style)?)))
            .flat_map(|(reading, (window, now))| {
                [(true, window.low.min(now)), (false, window.high.max(now))].map(|(at_least, bound)| Demand {
                    about: About::Reading(reading),
                    bound,
                    at_least,
                    wished: false,
                })
            })
            .collect()
    }

    /// The window and the mix's own figure, where both are known.
    fn window(&self, reading: Reading, style: Style) -> Option<(&'static Window, f64)> {
        let window = Window::of(style, reading).or_else(|| Window::of(Style::StandardPatty, reading))?;
        Some((window, reading.of(&self.mix).value.estimate()?.value))
    }

    fn wish(&self, reading: Reading, raise: bool, style: Style) -> Option<Demand> {
        let (window, now) = self.window(reading, style)?;
        let inside = INSIDE * (window.high - window.low);
        // A reading already within its window need only stay there.
        let bound = match raise {
            true if now >= window.low => window.low,
            true => window.low + inside,
            false if now <= window.high => window.high,
            false => window.high - inside,
        };
        Some(Demand {
            about: About::Reading(reading),
            bound,
            at_least: raise,
            wished: true,
        })
    }

    /// How far the mix is above the demand's bound, multiplied out, g.
    pub fn sum(&self, demand: &Demand) -> f64 {
        self.mix
            .known()
            .map(|(line, grams)| grams.value * demand.weigh(&line.profile))
            .sum()
    }

    /// What counts as one unit of missing the demand, g: a window's width of its reading, or its bound where no window is known.
    ///
    /// So a tenth of a point of salt and a point of protein count as much as they matter, not as they weigh.
    pub fn unit(&self, demand: &Demand) -> f64 {
        let style = self.mix.style.unwrap_or(Style::StandardPatty);
        let window = match demand.about {
            About::Reading(reading) => Window::of(style, reading).or(Window::of(Style::StandardPatty, reading)),
            About::Share(_) => None,
        };
        let width = window.map_or(demand.bound, |window| window.high - window.low);
        let moved = Demand {
            bound: demand.bound + width,
            ..demand.clone()
        };
        let unit = self.sum(demand) - self.sum(&moved);
        if unit > 0.0 { unit } else { self.mix.total.value }
    }

    /// True when the mix as it is meets the demand.
    pub fn meets(&self, demand: &Demand) -> bool {
        let sum = self.sum(demand);
        let slack = 1e-9 * self.mix.total.value;
        if demand.at_least { sum >= -slack } else { sum <= slack }
    }

    fn program(&self, candidates: &[Candidate], demands: &[Demand]) -> Result<Program, ProgramError> {
        let mut program = Program::new(candidates.len());
        for (column, candidate) in candidates.iter().enumerate() {
            program.set_cost(column, candidate.cost)?;
            program.set_bounds(column, 0.0, 5.0 * self.mix.total.value)?;
        }
        for demand in demands {
            let row: Vec<f64> = candidates.iter().map(|c| demand.weigh(&c.profile)).collect();
            let there = self.sum(demand);
            if demand.at_least {
                program.add_row(&row, -there, f64::INFINITY)?;
            } else {
                program.add_row(&row, f64::NEG_INFINITY, -there)?;
            }
        }
        // Binder never goes dry into wet: water and oil together must carry it.
        let carry: Vec<f64> = candidates.iter().map(Candidate::carries).collect();
        program.add_row(&carry, 0.0, f64::INFINITY)?;
        Ok(program)
    }

    /// The least additions that meet every demand; `None` when nothing does.
    pub fn solve(&self, candidates: &[Candidate], demands: &[Demand]) -> Result<Option<Vec<Add>>, RescueProblem> {
        let program = self.program(candidates, demands).map_err(|_| RescueProblem::NoAnswer)?;
        match program.solve() {
            Outcome::Optimal { x, .. } => Ok(Some(self.additions(candidates, &self.without_crumbs(program, x)))),
            Outcome::OutOfReach(_) => Ok(None),
            Outcome::Unbounded | Outcome::GaveUp => Err(RescueProblem::NoAnswer),
        }
    }

    /// The same with no addition too small for a spoon, where that can be had; else as it is.
    fn without_crumbs(&self, mut program: Program, x: Vec<f64>) -> Vec<f64> {
        let total = self.mix.total.value;
        let crumbs = (0..x.len()).filter(|column| (NOTHING * total..LEAST_ADDITION * total).contains(&x[*column]));
        let mut any = false;
        for column in crumbs {
            any |= program.set_bounds(column, 0.0, 0.0).is_ok();
        }
        match any.then(|| program.solve()) {
            Some(Outcome::Optimal { x, .. }) => x,
            _ => x,
        }
    }

    /// The additions that come nearest, and what stays outside all the same.
    ///
    /// Only wishes not yet granted may be missed: what is right does not go wrong, and the binder never goes in dry.
    pub fn nearest(
        &self,
        candidates: &[Candidate],
        demands: &[Demand],
    ) -> Result<(Vec<Add>, Vec<String>), RescueProblem> {
        let units: Vec<Option<f64>> = demands
            .iter()
            .map(|demand| (demand.wished && !self.meets(demand)).then(|| self.unit(demand)))
            .collect();
        let nearest = self
            .program(candidates, demands)
            .ok()
            .and_then(|program| program.nearest(&units))
            .ok_or(RescueProblem::NoAnswer)?;
        let add = self.additions(candidates, &nearest.x);
        let after = self.with(&add);
        let missed = demands
            .iter()
            .zip(&nearest.shortfalls)
            .filter(|(_, short)| short.abs() > 1e-6 * self.mix.total.value)
            .map(|(demand, _)| demand.missed_in(&after))
            .collect();
        Ok((add, missed))
    }

    /// The nearest level spoons, where its density is known.
    pub fn spoons(&self, id: &str, grams: f64) -> Option<LevelMeasures> {
        let pantry = &self.kitchen.pantry;
        let density = pantry.density(&pantry.get(id)?, Unit::Teaspoon, None)?;
        level_measures(grams / density.grams_per_millilitre, pantry.cup())
    }

    /// The mix with the additions in.
    pub fn with(&self, add: &[Add]) -> Weighed {
        let step = self.kitchen.habits.scale_step_grams;
        add.iter().fold(self.mix.clone(), |mix, addition| {
            match self.kitchen.pantry.get(&addition.ingredient) {
                Some(ingredient) => mix.with_line(
                    &addition.name,
                    addition.role,
                    Profile::of(&ingredient, addition.role),
                    on_the_scale(addition.grams, step),
                ),
                None => mix,
            }
        })
    }

    /// Seasoning and colour that bring their shares back to what they were; none while the loss is not to be tasted.
    /// What was to be thinned is never put back.
    pub fn top_up(&self, add: &[Add], wishes: &[Wish]) -> Vec<Add> {
        let growth = add.iter().map(|a| a.grams).sum::<f64>() / self.mix.total.value;
        if growth <= FLAVOUR_TOLERANCE / (1.0 - FLAVOUR_TOLERANCE) {
            return Vec::new();
        }
        self.mix
            .known()
            .filter(|(line, _)| matches!(line.role, Role::Seasoning | Role::Colour))
            .filter(|(line, _)| {
                wishes.iter().all(|wish| match wish {
                    Wish::Lower(Reading::Salt) => line.profile.component(Component::Salt).known < SALTY,
                    Wish::Thin(role, _) => line.role != *role,
                    _ => true,
                })
            })
            .filter_map(|(line, grams)| {
                let id = line.ingredient.clone()?;
                let more = grams.value * growth;
                Some(Add {
                    spoons: self.spoons(&id, more),
                    ingredient: id,
                    name: line.name.clone(),
                    role: line.role,
                    grams: more,
                })
            })
            .collect()
    }
}
