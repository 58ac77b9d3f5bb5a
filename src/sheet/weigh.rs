//! The Weigh room: what do I put on the scale now?

use super::rule::Rule;
use crate::document::{Document, Weighing};
use crate::formula::{Batch, Formula, Kitchen, Scaled, Stage, Step, WeighOut, Weighed, weigh_out};
use crate::measure::{fixed, grams, level_measures};
use crate::words::say;

/// The whole room, once a batch is chosen.
#[derive(Clone, PartialEq, Debug)]
pub struct WeighSheet {
    /// "649 g of mix, 1.4 times the formula".
    pub summary: String,
    /// Stages in the order of work.
    pub stages: Vec<StageSheet>,
    /// Readings as the bowl will be, where something was poured off plan.
    pub rules: Vec<Rule>,
    /// True when everything is in.
    pub done: bool,
    /// What is in the bowl so far, as the scale shows it: `312 g`.
    pub on_scale: String,
}

/// One stage of the work.
#[derive(Clone, PartialEq, Debug)]
pub struct StageSheet {
    /// Which.
    pub stage: Stage,
    /// Its lines.
    pub rows: Vec<WeighRow>,
}

/// One thing to put on the scale.
#[derive(Clone, PartialEq, Debug)]
pub struct WeighRow {
    /// The line's key.
    pub key: u32,
    /// Name.
    pub name: String,
    /// What belongs in the bowl of it, g.
    pub planned: f64,
    /// `150 g`; after an over-pour elsewhere, what is still to come: `12 g more`.
    pub grams: String,
    /// Level spoons for what the scale cannot show: `1½ tsp`.
    pub spoons: String,
    /// What the scale shows after it.
    pub running: String,
    /// In the bowl.
    pub ticked: bool,
    /// Poured more than planned: what it is over by, in a sentence; empty otherwise.
    pub over: String,
}

/// Below so many scale steps, spoons are more exact than the scale.
const STEPS_FOR_SPOONS: f64 = 10.0;

/// Works the room out.
///
/// # Errors
/// A sentence that says what to do first.
pub fn sheet(kitchen: &Kitchen, formula: &Formula, weighing: &Weighing) -> Result<WeighSheet, String> {
    let weighed = kitchen.weigh(formula);
    let (scaled, out) = lay_out(&weighed, weighing)?;
    let poured_off_plan = out
        .steps
        .iter()
        .any(|step| step.poured.is_some_and(|poured| off_plan(step, poured)));
    let rules = if poured_off_plan {
        let in_bowl = |key: u32| out.steps.iter().find(|step| step.key == key).map_or(0.0, Step::in_bowl);
        let masses: Vec<f64> = weighed.lines.iter().map(|line| in_bowl(line.key)).collect();
        let readings = weighed.with_masses(&masses, kitchen.habits.scale_step_grams).readings();
        readings
            .iter()
            .map(|(reading, value)| Rule::of(*reading, value))
            .filter(|rule| rule.window.is_some())
            .collect()
    } else {
        Vec::new()
    };
    let stages = Stage::ALL
        .into_iter()
        .map(|stage| StageSheet {
            stage,
            rows: out
                .steps
                .iter()
                .filter(|step| step.stage == stage)
                .map(|step| row(kitchen, &weighed, step))
                .collect(),
        })
        .filter(|stage| !stage.rows.is_empty())
        .collect();
    let on_scale: f64 = out.steps.iter().filter_map(|step| step.poured).sum();
    Ok(WeighSheet {
        summary: say!(
            "{mix} of mix, {times} times the formula",
            mix = grams(out.total),
            times = fixed(scaled.factor, 2)
        ),
        stages,
        rules,
        done: out
            .steps
            .iter()
            .all(|step| step.poured.is_some_and(|poured| !short(step, poured))),
        on_scale: grams(on_scale),
    })
}

/// The batch laid out, grown after an over-pour.
fn lay_out(weighed: &Weighed, weighing: &Weighing) -> Result<(Scaled, WeighOut), String> {
    let mut scaled = weighing.batch.scale(weighed).map_err(|why| why.to_string())?;
    scaled.factor *= weighing.growth;
    scaled.mix_g *= weighing.growth;
    for grams in &mut scaled.grams {
        *grams *= weighing.growth;
    }
    let out = weigh_out(weighed, &scaled, &weighing.poured);
    Ok((scaled, out))
}

fn tolerance(step: &Step) -> f64 {
    (0.005 * step.grams).max(0.05)
}

fn short(step: &Step, poured: f64) -> bool {
    poured < step.grams - tolerance(step)
}

fn off_plan(step: &Step, poured: f64) -> bool {
    (poured - step.grams).abs() > tolerance(step)
}

fn row(kitchen: &Kitchen, weighed: &Weighed, step: &Step) -> WeighRow {
    let poured = step.poured.unwrap_or(0.0);
    let short = step.poured.is_some() && short(step, poured);
    let over = poured > step.grams + tolerance(step);
    let show = if short { step.grams - poured } else { step.grams };
    WeighRow {
        key: step.key,
        name: step.name.clone(),
        planned: step.grams,
        grams: if short {
            say!("{weight} more", weight = grams(show))
        } else {
            grams(show)
        },
        spoons: spoons(kitchen, weighed, step.key, show),
        running: grams(step.running_total),
        ticked: step.poured.is_some() && !short,
        over: if over {
            say!(
                "{weight} went in, {over} over. Scale the rest to it, or keep the plan?",
                weight = grams(poured),
                over = grams(poured - step.grams)
            )
        } else {
            String::new()
        },
    }
}

/// Level spoons for a small amount, where its density is known.
fn spoons(kitchen: &Kitchen, weighed: &Weighed, key: u32, grams: f64) -> String {
    if grams >= STEPS_FOR_SPOONS * kitchen.habits.scale_step_grams {
        return String::new();
    }
    let level = || {
        let line = weighed.lines.iter().find(|line| line.key == key)?;
        let ingredient = kitchen.pantry.get(line.ingredient.as_deref()?)?;
        let density = kitchen
            .pantry
            .density(&ingredient, crate::measure::Unit::Teaspoon, None)?;
        level_measures(grams / density.grams_per_millilitre, kitchen.pantry.cup())
    };
    level().map_or(String::new(), |spoons| say!("about {spoons}", spoons))
}

impl Document {
    /// Starts weighing a formula out.
    pub fn start_weighing(&mut self, formula: &str, batch: Batch) {
        self.weighing = Some(Weighing {
            formula: formula.to_owned(),
            batch,
            poured: std::collections::BTreeMap::new(),
            growth: 1.0,
        });
    }
}

impl Weighing {
    /// Puts a line into the bowl as planned, or takes the tick away again.
    pub fn tick(&mut self, row: &WeighRow) {
        if row.ticked {
            self.poured.remove(&row.key);
        } else {
            self.poured.insert(row.key, row.planned);
        }
    }

    /// Grows the batch so that the line poured over is in proportion again; lines already in show what is still to come.
    pub fn scale_the_rest(&mut self, row: &WeighRow) {
        let poured = self.poured.get(&row.key).copied().unwrap_or(0.0);
        if poured > row.planned && row.planned > 0.0 {
            self.growth *= poured / row.planned;
        }
    }
}
