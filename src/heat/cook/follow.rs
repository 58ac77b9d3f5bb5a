//! One run of a plan with every uncertain figure fixed: when it sets, when it is done.

use std::ops::ControlFlow;

use super::{LONGEST_COOK_S, Plan, Turns, Way, surroundings};
use crate::heat::slab::{CELLS, Face, Matter, Slab, Stage, turned};
use crate::heat::{Estimate, Food, HeatError};

const CORE: usize = CELLS / 2;

/// The uncertain figures of a plan, each fixed at one value.
#[derive(Debug, Clone, Copy)]
pub(super) struct Figures {
    pub(super) thickness_mm: f64,
    pub(super) food: Food,
    pub(super) contact: f64,
    pub(super) convection: f64,
    pub(super) gel_c: f64,
}

impl Figures {
    /// The best figures of a plan.
    pub(super) fn best(plan: &Plan) -> Self {
        let (contact, convection) = surroundings::coefficients(&plan.way);
        Self {
            thickness_mm: plan.patty.thickness_mm.value,
            food: plan.patty.food,
            contact: contact.value,
            convection: convection.value,
            gel_c: plan.gel.sets_c.value,
        }
    }

    /// The best figures with one moved by one standard deviation, for each in turn, towards longer cooking.
    pub(super) fn moved(plan: &Plan) -> [Self; 5] {
        let best = Self::best(plan);
        let (contact, convection): (Estimate, Estimate) = surroundings::coefficients(&plan.way);
        [
            Self {
                thickness_mm: best.thickness_mm + plan.patty.thickness_mm.sd,
                ..best
            },
            Self {
                food: best.food.one_sd_less_conductive(),
                ..best
            },
            Self {
                contact: best.contact - contact.sd,
                ..best
            },
            Self {
                convection: best.convection + convection.sd,
                ..best
            },
            Self {
                gel_c: best.gel_c + plan.gel.sets_c.sd,
                ..best
            },
        ]
    }

    pub(super) fn slab(&self, plan: &Plan) -> Slab {
        Slab {
            thickness_mm: self.thickness_mm,
            matter: Matter::Food(self.food),
            start_c: plan.patty.start_c,
        }
    }

    fn faces(&self, plan: &Plan) -> [Face; 2] {
        surroundings::while_cooking(&plan.way, plan.room_c, self.contact, self.convection)
    }
}

/// What one run found.
#[derive(Debug, Clone)]
pub(super) struct Run {
    /// When the middle has set, on a pan that is not turned before; `None` where it never does or both sides are heated.
    pub(super) first_turn_s: Option<f64>,
    pub(super) turns_s: Vec<f64>,
    pub(super) done_s: f64,
    /// How fast the core warms when it is done, K/s.
    pub(super) warming_k_per_s: f64,
    /// The highest temperature so far, of the depth where it is lowest, °C.
    pub(super) coldest_c: f64,
    /// Water gone, kg/m².
    pub(super) evaporated_kg_per_m2: f64,
    /// The stages up to done.
    pub(super) stages: Vec<Stage>,
}

/// Follows a plan until it is done.
pub(super) fn follow(plan: &Plan, figures: &Figures) -> Result<Run, HeatError> {
    let slab = figures.slab(plan);
    let faces = figures.faces(plan);
    let (first_turn_s, turns_s) = match &plan.way {
        Way::Press { .. } | Way::Oven { .. } => (None, Vec::new()),
        Way::Pan { turns, .. } => {
            let set = core_reaches(&slab, &turned(faces, &[], LONGEST_COOK_S), figures.gel_c)?;
            let set_s = set.map(|set| set.at_s);
            let turns_s = match turns {
                Turns::WhenSet => vec![set_s.ok_or(HeatError::NeverSets(LONGEST_COOK_S / 60.0))?],
                Turns::Every(every_s) => (1..=(LONGEST_COOK_S / every_s) as u32)
                    .map(|n| f64::from(n) * every_s)
                    .collect(),
                Turns::At(at_s) => at_s.clone(),
            };
            (set_s, turns_s)
        }
    };
    let stages = turned(faces, &turns_s, LONGEST_COOK_S);
    let done = core_reaches(&slab, &stages, plan.core_c)?.ok_or(HeatError::NeverDone(LONGEST_COOK_S / 60.0))?;
    let turns_s: Vec<f64> = turns_s.into_iter().filter(|turn_s| *turn_s < done.at_s).collect();
    Ok(Run {
        first_turn_s,
        stages: turned(faces, &turns_s, done.at_s),
        turns_s,
        done_s: done.at_s,
        warming_k_per_s: done.warming_k_per_s,
        coldest_c: done.coldest_c,
        evaporated_kg_per_m2: done.evaporated_kg_per_m2,
    })
}

/// The moment at which the core reaches a temperature.
struct Reached {
    at_s: f64,
    warming_k_per_s: f64,
    coldest_c: f64,
    evaporated_kg_per_m2: f64,
}

fn core_reaches(slab: &Slab, stages: &[Stage], target_c: f64) -> Result<Option<Reached>, HeatError> {
    let mut hottest_c = [slab.start_c; CELLS];
    let (mut before_s, mut before_c) = (0.0, slab.start_c);
    let mut reached = None;
    slab.run(stages, |moment| {
        for (hottest, cell_c) in hottest_c.iter_mut().zip(moment.cells_c) {
            *hottest = hottest.max(*cell_c);
        }
        let core_c = moment.cells_c[CORE];
        let warming_k_per_s = (core_c - before_c) / (moment.seconds - before_s);
        if core_c >= target_c {
            let short_c = (core_c - target_c).min(core_c - before_c);
            reached = Some(Reached {
                at_s: if short_c > 0.0 {
                    moment.seconds - short_c / warming_k_per_s
                } else {
                    moment.seconds
                },
                warming_k_per_s,
                coldest_c: hottest_c.iter().copied().fold(f64::INFINITY, f64::min),
                evaporated_kg_per_m2: moment.evaporated_kg_per_m2.iter().sum(),
            });
            return ControlFlow::Break(());
        }
        (before_s, before_c) = (moment.seconds, core_c);
        ControlFlow::Continue(())
    })?;
    Ok(reached)
}
