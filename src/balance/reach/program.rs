//! The targets as a small linear program: how far each line moves, and what that costs.

use super::Aim;
use crate::balance::bowl::Bowl;
use crate::balance::demand::{About, Demand};
use crate::balance::rescue::RescueProblem;
use crate::balance::solver::{Clash, Outcome, Program, ProgramError};
use crate::formula::{Component, Profile, Reading};
use crate::pantry::Role;

use super::lines::Movable;

/// With an aim other than the least change, a line may at most double and at least keep half of itself.
const FREEDOM: f64 = 2.0;
/// What moving all of a line costs beside the aim, g of salt or protein: of two lines alike the larger one moves.
const FRICTION: f64 = 0.1;
/// What moving a gram costs beside the aim, g: a gram goes for another where that wins more than two hundredths of a
/// gram of salt or protein, and no mix is turned over for the traces in it. Common practice, no source.
const WORTH_MOVING: f64 = 0.01;
/// The part of its dry protein that a mix keeps: with less it is no patty, whatever its readings say
/// (common practice, no source).
const KEPT_PROTEIN: f64 = 0.1;
/// A window's width of a reading nobody asked about counts as this part of one that was asked for.
const UNASKED: f64 = 0.1;

/// What to move, what is asked, and what should stay in its window beside.
pub(super) struct Search<'a> {
    pub bowl: &'a Bowl<'a>,
    pub lines: &'a [Movable<'a>],
    pub wishes: &'a [Demand],
    pub guards: &'a [Demand],
    pub aim: Aim,
}

/// Grams more of each line.
pub(super) enum Found {
    /// Every wish is granted; the guards named here do not hold.
    Granted(Vec<f64>, Vec<Demand>),
    /// Some wishes clash: the nearest, why (none where only salt could make up the weight), the wishes it misses,
    /// and the guards that do not hold.
    Nearest(Vec<f64>, Option<Clash>, Vec<Demand>, Vec<Demand>),
}

impl Search<'_> {
    /// Grants the wishes within all guards; else with guards missed by as little as can be; else comes as near as can be.
    pub fn run(&self) -> Result<Found, RescueProblem> {
        let all: Vec<Demand> = self.wishes.iter().chain(self.guards).cloned().collect();
        let program = |demands: &[Demand]| self.program(demands).map_err(|_| RescueProblem::NoAnswer);
        let guarded = program(&all)?;
        match guarded.solve() {
            Outcome::Optimal { x, .. } => return Ok(Found::Granted(self.deltas(&x), Vec::new())),
            Outcome::OutOfReach(_) => {}
            Outcome::Unbounded | Outcome::GaveUp => return Err(RescueProblem::NoAnswer),
        }
        let firm = vec![None; self.wishes.len()];
        // Salt is never the ballast that makes the sum come out.
        let loose = self
            .guards
            .iter()
            .map(|guard| (!too_salty(guard)).then(|| self.bowl.unit(guard)));
        if let Some(nearest) = guarded.nearest(&firm.into_iter().chain(loose).collect::<Vec<_>>()) {
            let missed = self.missed(&all, &nearest.shortfalls);
            return Ok(Found::Granted(self.deltas(&nearest.x), missed));
        }
        let units: Vec<Option<f64>> = all
            .iter()
            .map(|demand| {
                let counts = if demand.wished || too_salty(demand) {
                    1.0
                } else {
                    UNASKED
                };
                Some(self.bowl.unit(demand) / counts)
            })
            .collect();
        let nearest = guarded.nearest(&units).ok_or(RescueProblem::OnlyThat)?;
        let (wishes, guards) = self
            .missed(&all, &nearest.shortfalls)
            .into_iter()
            .partition(|demand| demand.wished);
        let clash = match program(self.wishes)?.solve() {
            Outcome::OutOfReach(clash) => Some(clash),
            _ => None,
        };
        Ok(Found::Nearest(self.deltas(&nearest.x), clash, wishes, guards))
    }

    fn missed(&self, demands: &[Demand], shortfalls: &[f64]) -> Vec<Demand> {
        let rounding = 1e-6 * self.bowl.mix.total.value;
        let missed = demands
            .iter()
            .zip(shortfalls)
            .filter(|(_, short)| short.abs() > rounding);
        missed.map(|(demand, _)| demand.clone()).collect()
    }

    /// A column for more and one for less of each line, then the rows in the order of `demands`,
    /// then the weight kept and the least dry protein.
    fn program(&self, demands: &[Demand]) -> Result<Program, ProgramError> {
        let total = self.bowl.mix.total.value;
        let count = self.lines.len();
        let mut program = Program::new(2 * count);
        for (index, line) in self.lines.iter().enumerate() {
            let relative = 1.0 / line.start.max(1e-3 * total);
            let gain = match self.aim {
                Aim::LeastChange => 0.0,
                // What nobody knows is no reason to move a line.
                Aim::LeastSalt => line.line.profile.component(Component::Salt).known,
                Aim::MostProtein => -line.line.profile.component(Component::Protein).known,
            };
            let change = match self.aim {
                Aim::LeastChange => relative,
                Aim::LeastSalt | Aim::MostProtein => WORTH_MOVING + FRICTION * relative,
            };
            program.set_cost(index, change + gain)?;
            program.set_cost(count + index, change - gain)?;
            let (more, less) = match (line.out || line.locked, self.aim) {
                (true, _) => (0.0, 0.0),
                (_, Aim::LeastChange) => (total, line.start),
                _ => ((FREEDOM - 1.0) * line.start, (1.0 - 1.0 / FREEDOM) * line.start),
            };
            program.set_bounds(index, 0.0, more)?;
            program.set_bounds(count + index, 0.0, less)?;
        }
        let mut add = |weigh: &dyn Fn(&Profile) -> f64, low: f64, high: f64| {
            let more = self.lines.iter().map(|line| weigh(&line.line.profile));
            let row: Vec<f64> = more.clone().chain(more.map(|share| -share)).collect();
            program.add_row(&row, low, high)
        };
        for demand in demands {
            let there = self.sum(|profile| demand.weigh(profile));
            let (low, high) = if demand.at_least {
                (-there, f64::INFINITY)
            } else {
                (f64::NEG_INFINITY, -there)
            };
            add(&|profile| demand.weigh(profile), low, high)?;
        }
        let lacking = total - self.sum(|_| 1.0);
        add(&|_| 1.0, lacking, lacking)?;
        let protein = |profile: &Profile| profile.role(Role::Textured) + profile.role(Role::Powder);
        add(&protein, (KEPT_PROTEIN - 1.0) * self.sum(protein), f64::INFINITY)?;
        Ok(program)
    }

    /// Sum over the lines as they start out, g.
    fn sum(&self, weigh: impl Fn(&Profile) -> f64) -> f64 {
        self.lines
            .iter()
            .map(|line| line.start * weigh(&line.line.profile))
            .sum()
    }

    fn deltas(&self, x: &[f64]) -> Vec<f64> {
        let (more, less) = x.split_at(self.lines.len());
        let moved = self.lines.iter().zip(more.iter().zip(less));
        moved
            .map(|(line, (more, less))| line.start - line.grams + more - less)
            .collect()
    }
}

/// The guard against more salt.
fn too_salty(guard: &Demand) -> bool {
    !guard.wished && !guard.at_least && guard.about == About::Reading(Reading::Salt)
}
