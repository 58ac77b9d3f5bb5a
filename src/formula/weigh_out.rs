//! What goes on the scale now: the batch in the order of work, with the running total of one bowl.

use super::{Component, Scaled, Weighed, WeighedLine};
use crate::pantry::Role;
use crate::words::say;
use std::collections::BTreeMap;

/// A stage of the work; the bowl stays on the scale through all of them.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Stage {
    /// Everything dry, stirred together: a binder among powders does not clump.
    Dry,
    /// Liquids, cold; then the rest.
    Liquids,
    /// Fat, folded in after the rest so that it stays in pieces.
    Fat,
}

impl Stage {
    /// Every stage, in the order of work.
    pub const ALL: [Stage; 3] = [Stage::Dry, Stage::Liquids, Stage::Fat];

    /// The stage a line belongs to; juices and pastes go with the liquids, whatever they do.
    pub fn of(line: &WeighedLine) -> Stage {
        match line.role {
            Role::Liquid => Stage::Liquids,
            Role::Fat => Stage::Fat,
            Role::Seasoning | Role::Colour if line.profile.component(Component::Water).known > 0.5 => Stage::Liquids,
            _ => Stage::Dry,
        }
    }

    /// What to do in it, in a sentence. The rest of 20 minutes is published for textured soy.
    ///
    /// # Source
    /// Uptake of water flattens at about 20 minutes without stirring (see the hydration table of the project's reference data: Food Engineering Progress and others); the order of work is common practice, no source.
    pub fn says(self) -> &'static str {
        match self {
            Stage::Dry => say("Dry things together: stir well, so that the binder is spread before it meets water."),
            Stage::Liquids => {
                say("Liquids, ice cold with methylcellulose: pour over, mix, cover, and rest 20 minutes in the fridge.")
            }
            Stage::Fat => say("Fat last: grate or cut it cold and fold it in after the rest."),
        }
    }

    /// The heading.
    pub fn name(self) -> &'static str {
        match self {
            Stage::Dry => say("1  Dry"),
            Stage::Liquids => say("2  Liquids, then rest 20 min"),
            Stage::Fat => say("3  Fat"),
        }
    }
}

/// One thing to put on the scale.
#[derive(Clone, PartialEq, Debug)]
pub struct Step {
    /// The line's key.
    pub key: u32,
    /// Name on screen.
    pub name: String,
    /// When.
    pub stage: Stage,
    /// What belongs in the bowl of it, g.
    pub grams: f64,
    /// What was really poured, g, once that is known.
    pub poured: Option<f64>,
    /// What the scale shows after it, the bowl tared, g.
    pub running_total: f64,
}

impl Step {
    /// What is or will be in the bowl of it, g.
    pub fn in_bowl(&self) -> f64 {
        self.poured.unwrap_or(self.grams)
    }
}

/// A batch laid out for the scale.
#[derive(Clone, PartialEq, Debug)]
pub struct WeighOut {
    /// In the order of work.
    pub steps: Vec<Step>,
    /// Mix in all once everything is in, g.
    pub total: f64,
}

/// Lays a batch out in the order of work; `poured` holds what really went in, by line key.
pub fn weigh_out(weighed: &Weighed, scaled: &Scaled, poured: &BTreeMap<u32, f64>) -> WeighOut {
    let mut steps: Vec<Step> = weighed
        .lines
        .iter()
        .zip(&scaled.grams)
        .map(|(line, grams)| Step {
            key: line.key,
            name: line.name.clone(),
            stage: Stage::of(line),
            grams: *grams,
            poured: poured.get(&line.key).copied(),
            running_total: 0.0,
        })
        .collect();
    steps.sort_by_key(|step| step.stage);
    let mut total = 0.0;
    for step in &mut steps {
        total += step.in_bowl();
        step.running_total = total;
    }
    WeighOut { steps, total }
}
