//! What is left in the bowl, what may go in, and what is asked of it: the rescue as a small linear program.
//!
//! A demand such as "binder at least 1.1 % of the mix" is linear once multiplied out: `Σ (n − bound·d)·m ≥ 0`.
//! The least added mass that meets every demand is the answer.

use super::demand::{About, Demand};
use super::gelling::{Moment, helps};
use super::rescue::{Add, RescueProblem};
use super::solver::{Outcome, Program, ProgramError};
use super::symptom::{Remedy, Wish};
use crate::formula::{
    Component, Formula, Kitchen, LARGEST_BATCH_G, Profile, Reading, Style, Weighed, Window, on_the_scale,
};
use crate::measure::{LevelMeasures, Unit, level_measures};
use crate::pantry::Role;

/// How far inside a window to aim, as a part of its width, so that a rounded spoon still lands in it.
const INSIDE: f64 = 0.1;
/// Water that one gram of binder is whisked into, g; common practice, no source.
pub(super) const WATER_TO_CARRY: f64 = 6.0;
/// Oil that one gram of binder is shaken into, g; common practice, no source.
const OIL_TO_CARRY: f64 = 2.0;
/// Additions below this are not worth a spoon, as a part of what is left.
const LEAST_ADDITION: f64 = 1e-4;
/// A seasoning with this part of salt or more brings salt.
const SALTY: f64 = 0.02;
/// Additions below this are rounding.
const NOTHING: f64 = 1e-6;
/// The share of a seasoning may fall by this part of itself before a top-up is offered.
const FLAVOUR_TOLERANCE: f64 = 0.05;

/// Readings that may not leave their windows for the sake of others.
const GUARDED: [Reading; 7] = [
    Reading::Hydration,
    Reading::Moisture,
    Reading::BinderShare,
    Reading::PowderToTextured,
    Reading::Protein,
    Reading::Fat,
    Reading::Salt,
];

/// A step beyond the mix as it is, percent: working advice, common practice, no source.
fn small_step(reading: Reading) -> f64 {
    match reading {
        Reading::BinderShare => 0.4,
        Reading::Moisture => 2.0,
        _ => 0.0,
    }
}

/// What is left, and where it may be looked up.
pub(super) struct Bowl<'a> {
    pub kitchen: &'a Kitchen<'a>,
    pub mix: Weighed,
}

/// Something that may go in.
pub(super) struct Candidate {
    ingredient: String,
    name: String,
    role: Role,
    profile: Profile,
    /// What a gram of it costs against a gram of anything else.
    cost: f64,
}

impl<'a> Bowl<'a> {
    /// All of a formula, every line with its grams.
    pub fn whole(kitchen: &'a Kitchen<'a>, formula: &Formula) -> Result<Bowl<'a>, RescueProblem> {
        let mix = kitchen.weigh(formula);
        if !mix.complete() {
            let names = mix.missing().into_iter().map(str::to_owned).collect();
            return Err(RescueProblem::Incomplete(names));
        }
        if mix.total.value <= 0.0 {
            return Err(RescueProblem::Empty);
        }
        Ok(Bowl { kitchen, mix })
    }

    /// `left_g` grams of a formula, all lines in proportion.
    pub fn left(kitchen: &'a Kitchen<'a>, formula: &Formula, left_g: f64) -> Result<Bowl<'a>, RescueProblem> {
        let Bowl { mix, .. } = Bowl::whole(kitchen, formula)?;
        if !(left_g > 0.0 && left_g <= LARGEST_BATCH_G) {
            return Err(RescueProblem::Left);
        }
        let mix = mix.times(left_g / mix.total.value);
        Ok(Bowl { kitchen, mix })
    }

    /// What may go in: for each role, more of what the formula already has, else the plainest thing.
    pub fn candidates(&self, remedy: &Remedy) -> Vec<Candidate> {
        let Remedy { may_add, moment, .. } = *remedy;
        let mut candidates: Vec<Candidate> = may_add
            .iter()
            .filter_map(|role| self.candidate(*role, moment, 1.0))
            .collect();
        // Where water may not carry the binder, oil can; it is the dearer carrier.
        let binder = may_add.contains(&Role::Binder);
        let greasy = remedy.wishes.contains(&Wish::Lower(Reading::Fat));
        if binder && !greasy && !may_add.contains(&Role::Fat) {
            candidates.extend(self.candidate(Role::Fat, moment, 2.0));
        }
        candidates
    }

    fn candidate(&self, role: Role, moment: Moment, cost: f64) -> Option<Candidate> {
        let plainest = match role {
            Role::Binder => "methylcellulose",
            Role::Liquid => "water",
            Role::Powder => "pea_protein_isolate",
            Role::Textured => "tvp_soy_granules",
            Role::Fat => "canola_oil",
            Role::Seasoning | Role::Colour | Role::Filler => return None,
        };
        // Water and oil carry the binder, so they are always themselves; the rest is more of what is there.
        let own = self
            .mix
            .known()
            .filter(|(line, _)| line.role == role && !matches!(role, Role::Liquid | Role::Fat))
            .filter_map(|(line, grams)| Some((line.ingredient.as_deref()?, grams.value)))
            .filter(|(id, _)| role != Role::Binder || helps(self.listed_id(id), moment))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(id, _)| id);
        let ingredient = self.kitchen.pantry.get(own.unwrap_or(plainest))?;
        Some(Candidate {
            ingredient: ingredient.id().to_owned(),
            name: ingredient.name().to_owned(),
            role,
            profile: Profile::of(&ingredient, role),
            cost,
        })
    }

    /// The published row an ingredient is like; its own id where there is none.
    fn listed_id<'b>(&self, id: &'b str) -> &'b str {
        let row = self.kitchen.pantry.get(id).and_then(|found| found.row());
        row.map_or(id, |row| row.id)
    }

    /// Allergens that an addition brings and the mix did not have: `Soy granules brings soybeans`.
    pub fn new_allergens(&self, add: &[Add]) -> Vec<String> {
        let of = |id: &str| {
            let row = self.kitchen.pantry.get(id).and_then(|found| found.row());
            row.map_or(&[][..], |row| row.allergens)
        };
        let there: Vec<&str> = self
            .mix
            .known()
            .filter_map(|(line, _)| line.ingredient.as_deref())
            .flat_map(of)
            .copied()
            .collect();
        add.iter()
            .filter_map(|add| {
                let new: Vec<&str> = of(&add.ingredient)
                    .iter()
                    .filter(|one| !there.contains(one))
                    .copied()
                    .collect();
                let words = new.join(" and ").replace('_', " ");
                (!new.is_empty()).then(|| format!("{} brings {words}, which no other line here names", add.name))
            })
            .collect()
    }

    /// The wishes of a remedy, with guards that keep every other reading from leaving its window.
    ///
    /// A guarded reading that is outside already need only not get worse.
    /// With `further`, readings already in their windows are asked to take a small step more.
    pub fn demands(&self, wishes: &[Wish], style: Style, further: bool) -> Vec<Demand> {
        let mut demands: Vec<Demand> = wishes
            .iter()
            .flat_map(|wish| match *wish {
                Wish::Raise(reading) => [self.wish(reading, true, style, further), None],
                Wish::Lower(reading) => [self.wish(reading, false, style, further), None],
                Wish::Within(reading) => [true, false].map(|raise| self.wish(reading, raise, style, further)),
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
            })
            .flatten()
            .collect();
        // Salt that falls is the top-up's to mend, not the solver's.
        let guards = self.guards(style).into_iter();
        let guards = guards.filter(|guard| !(guard.about == About::Reading(Reading::Salt) && guard.at_least));
        for guard in guards {
            if !demands
                .iter()
                .any(|d| d.about == guard.about && d.at_least == guard.at_least)
            {
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

    fn wish(&self, reading: Reading, raise: bool, style: Style, further: bool) -> Option<Demand> {
        let (window, now) = self.window(reading, style)?;
        let inside = INSIDE * (window.high - window.low);
        // A reading already within its window need only stay there.
        let bound = match (raise, further) {
            (true, true) if now >= window.low => (now + small_step(reading)).min(window.high.max(now)),
            (true, _) if now >= window.low => window.low,
            (true, _) => window.low + inside,
            (false, _) if now <= window.high => window.high,
            (false, _) => window.high - inside,
        };
        Some(Demand {
            about: About::Reading(reading),
            // A step asks only of readings that have one; the others may fall a little within their windows.
            bound: if further && raise && small_step(reading) == 0.0 {
                window.low.min(now)
            } else {
                bound
            },
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
        // Binder never goes dry into wet: water or oil must carry it.
        let carry: Vec<f64> = candidates
            .iter()
            .map(|candidate| match candidate.role {
                Role::Binder => -1.0,
                Role::Liquid => 1.0 / WATER_TO_CARRY,
                Role::Fat => 1.0 / OIL_TO_CARRY,
                _ => 0.0,
            })
            .collect();
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
        let soft: Vec<bool> = demands
            .iter()
            .map(|demand| demand.wished && !self.meets(demand))
            .collect();
        let nearest = self
            .program(candidates, demands)
            .ok()
            .and_then(|program| program.nearest(&soft))
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

    fn additions(&self, candidates: &[Candidate], grams: &[f64]) -> Vec<Add> {
        candidates
            .iter()
            .zip(grams)
            .filter(|(_, grams)| **grams > NOTHING * self.mix.total.value)
            .map(|(candidate, grams)| Add {
                ingredient: candidate.ingredient.clone(),
                name: candidate.name.clone(),
                role: candidate.role,
                grams: *grams,
                spoons: self.spoons(&candidate.ingredient, *grams),
            })
            .collect()
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
