//! Answers with their spreads, the field for the picture, and the cautions.

use std::fmt;
use std::ops::ControlFlow;

use super::follow::{Figures, Run, follow};
use super::{MODEL_RELATIVE_SD, Plan, Way, surroundings};
use crate::heat::slab::{CELLS, Slab, Stage};
use crate::heat::{Estimate, HeatError};
use crate::measure::fixed;
use crate::words::say;

/// How long a rest is followed, s.
const REST_S: f64 = 3600.0;

/// How much of the rest the picture shows, s.
const PICTURED_REST_S: f64 = 120.0;

/// Grid of the picture.
const FIELD_DEPTHS: usize = 13;
const FIELD_TIMES: usize = 49;

/// Points by which cook loss may be out: steam is followed, dripping fat and juice are not.
/// Published plant patties lost 7 to 12 % in all (Bakhsh A, et al. Foods 2021;10(3):560, Table 4).
const LOSS_SD_POINTS: f64 = 4.0;

/// When the gel softens on the plate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Softening {
    /// So many minutes after plating.
    AfterMinutes(Estimate),
    /// Not within so many minutes.
    NotWithinMinutes(f64),
    /// The softening temperature of this binder is not known.
    Unknown,
}

/// Temperature against depth and time, on a coarse grid.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// Depths from the side that lay below at the start, mm.
    pub depths_mm: Vec<f64>,
    /// Times from the start, s.
    pub at_s: Vec<f64>,
    /// Temperature, °C, one row for each time, one figure for each depth.
    pub temperature_c: Vec<Vec<f64>>,
}

/// What the cook is told.
#[derive(Debug, Clone, PartialEq)]
pub struct Answers {
    /// Earliest safe turn, s; `None` where both sides are heated, or where the middle never sets from one side.
    pub first_turn_s: Option<Estimate>,
    /// The turns that were followed, s.
    pub turns_s: Vec<f64>,
    /// When the core reaches the target, s.
    pub done_s: Estimate,
    /// Core when taken off at `done_s`, °C.
    pub core_c_at_done: Estimate,
    /// The highest temperature that the least heated depth has had by then, °C.
    pub coldest_c: f64,
    /// Highest core at rest, °C.
    pub peak_core_c: Estimate,
    /// When the gel softens.
    pub softens: Softening,
    /// Weight lost as steam by `done_s`, percent of the raw weight.
    pub cook_loss_percent: Estimate,
    /// Temperature against depth and time, to two minutes of rest.
    pub field: Field,
    /// How far the gel has set from below, mm, at each time of the field up to the first turn.
    pub set_front_mm: Vec<(f64, f64)>,
    /// What to watch for.
    pub cautions: Vec<Caution>,
}

/// Something to watch for; each kind reads as one sentence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Caution {
    /// Always: it is an estimate.
    Probe {
        /// Core target, °C.
        core_c: f64,
    },
    /// The core target is below the least for hot holding of plant food, 57 °C (US Food Code 3-401.13).
    BelowHotHolding,
    /// A depth away from the middle has stayed well below the target.
    ColdLayer {
        /// The highest temperature it has had, °C.
        coldest_c: f64,
    },
    /// The plan turns before the patty has set half way.
    TurnedEarly {
        /// Earliest safe turn, s.
        safe_s: f64,
    },
    /// The core reaches its target before the binder sets.
    DoneBeforeSet,
    /// The thickness lies outside 5 to 25 mm, where the model has been compared with experiments.
    Untested,
    /// Hot fat: the pan is above 230 °C, where common oils smoke. From memory.
    HotFat,
}

impl fmt::Display for Caution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match *self {
            Self::Probe { core_c } => say!(
                "These times are estimates: put a probe into the middle and look for {core} °C",
                core = fixed(core_c, 0)
            ),
            Self::BelowHotHolding => {
                say!("Plant food that is held hot reaches 57 °C first (US Food Code 3-401.13); local codes come first")
            }
            Self::ColdLayer { coldest_c } => say!(
                "Off the middle a layer has had only {coldest} °C: turn it once more",
                coldest = fixed(coldest_c, 0)
            ),
            Self::TurnedEarly { safe_s } => say!(
                "It has not set half way when you turn it: wait {safe} s, or it may break",
                safe = fixed(safe_s, 0)
            ),
            Self::DoneBeforeSet => {
                say!("The core is hot enough before the binder sets: go by the binder, or it may break")
            }
            Self::Untested => say!("Below 5 and above 25 mm these times have not been compared with experiments"),
            Self::HotFat => say!("Above 230 °C common oils smoke and may catch fire: lower the heat"),
        })
    }
}

pub(super) fn answer(plan: &Plan) -> Result<Answers, HeatError> {
    let best = Figures::best(plan);
    let run = follow(plan, &best)?;
    let moved: Vec<Option<Run>> = Figures::moved(plan)
        .iter()
        .map(|figures| follow(plan, figures).ok())
        .collect();
    // A figure whose move leaves no answer counts as the whole answer in doubt.
    let spread = |value: f64, of: &dyn Fn(&Run) -> f64| {
        let own = MODEL_RELATIVE_SD * value;
        let moves = moved
            .iter()
            .map(|run| run.as_ref().map_or(value, |run| of(run) - value));
        Estimate::new(value, moves.map(|by| by * by).sum::<f64>().sqrt().hypot(own))
    };

    let first_turn_s = run
        .first_turn_s
        .map(|turn_s| spread(turn_s, &|run| run.first_turn_s.unwrap_or(turn_s)));
    let done_s = spread(run.done_s, &|run| run.done_s);
    let slab = best.slab(plan);
    let rest = rest(plan, &slab, &run)?;
    // Taken off at the time told, the core is out by as much as the time is, at the rate it warms, and cannot pass boiling.
    let core_sd = (run.warming_k_per_s * done_s.sd).min(100.0 - plan.core_c);
    let field = field(&slab, &rest.stages, run.done_s + PICTURED_REST_S)?;
    let raw_kg_per_m2 = best.food.density_kg_per_m3(plan.patty.start_c) * best.thickness_mm / 1000.0;
    Ok(Answers {
        cautions: cautions(plan, &run),
        set_front_mm: set_front(&field, best.gel_c, run.turns_s.first().copied().unwrap_or(run.done_s)),
        first_turn_s,
        done_s,
        core_c_at_done: Estimate::new(plan.core_c, core_sd),
        coldest_c: run.coldest_c,
        peak_core_c: Estimate::new(rest.peak_c, core_sd),
        softens: rest.softens,
        cook_loss_percent: Estimate::new(100.0 * run.evaporated_kg_per_m2 / raw_kg_per_m2, LOSS_SD_POINTS),
        turns_s: run.turns_s,
        field,
    })
}

struct Rested {
    peak_c: f64,
    softens: Softening,
    stages: Vec<Stage>,
}

/// Follows the core on rack or bun.
fn rest(plan: &Plan, slab: &Slab, run: &Run) -> Result<Rested, HeatError> {
    let mut stages = run.stages.clone();
    stages.push(Stage {
        until_s: run.done_s + REST_S,
        faces: surroundings::while_resting(plan.rest, plan.room_c),
    });
    let mut peak_c = plan.core_c;
    // When the core falls past the softening temperature, and one standard deviation above and below it, in falling order.
    let marks_c = plan.gel.softens_c.map(|c| [c.value + c.sd, c.value, c.value - c.sd]);
    let mut passed_s: Vec<f64> = Vec::new();
    slab.run(&stages, |moment| {
        let core_c = moment.cells_c[CELLS / 2];
        if moment.seconds <= run.done_s {
            return ControlFlow::Continue(());
        }
        peak_c = peak_c.max(core_c);
        let marks_c = marks_c.as_slice().as_flattened();
        while marks_c.get(passed_s.len()).is_some_and(|mark_c| core_c < *mark_c) {
            passed_s.push(moment.seconds - run.done_s);
        }
        if passed_s.len() == marks_c.len() && core_c < peak_c - 1.0 {
            return ControlFlow::Break(());
        }
        ControlFlow::Continue(())
    })?;
    let softens = match (marks_c, passed_s.as_slice()) {
        (None, _) => Softening::Unknown,
        (Some(_), [early_s, middle_s, ..]) => {
            let late_s = passed_s.get(2).copied().unwrap_or(REST_S);
            let sd = ((late_s - early_s) / 2.0).hypot(MODEL_RELATIVE_SD * middle_s);
            Softening::AfterMinutes(Estimate::new(middle_s / 60.0, sd / 60.0))
        }
        (Some(_), _) => Softening::NotWithinMinutes(REST_S / 60.0),
    };
    Ok(Rested {
        peak_c,
        softens,
        stages,
    })
}

fn field(slab: &Slab, stages: &[Stage], until_s: f64) -> Result<Field, HeatError> {
    let at_s: Vec<f64> = (0..FIELD_TIMES)
        .map(|i| until_s * i as f64 / (FIELD_TIMES - 1) as f64)
        .collect();
    let depths_mm: Vec<f64> = (0..FIELD_DEPTHS)
        .map(|i| slab.thickness_mm * i as f64 / (FIELD_DEPTHS - 1) as f64)
        .collect();
    let cells_mm = slab.depths_mm();
    let row = |cells_c: &Vec<f64>| {
        depths_mm
            .iter()
            .map(|depth_mm| between(&cells_mm, cells_c, *depth_mm))
            .collect::<Vec<f64>>()
    };
    let temperature_c = slab.profiles(stages, &at_s)?.iter().map(row).collect();
    Ok(Field {
        temperature_c,
        depths_mm,
        at_s,
    })
}

/// Reads a rising table at a place; outside it, the nearest figure.
fn between(places: &[f64], figures: &[f64], place: f64) -> f64 {
    let right = places.partition_point(|x| *x < place).clamp(1, places.len() - 1);
    let share = ((place - places[right - 1]) / (places[right] - places[right - 1])).clamp(0.0, 1.0);
    figures[right - 1] + share * (figures[right] - figures[right - 1])
}

/// How far from below the field has reached the gel temperature, at each time up to `until_s`.
fn set_front(field: &Field, gel_c: f64, until_s: f64) -> Vec<(f64, f64)> {
    let times = field
        .at_s
        .iter()
        .zip(&field.temperature_c)
        .take_while(|(at_s, _)| **at_s <= until_s);
    times
        .map(|(at_s, row)| {
            let set = row.iter().take_while(|c| **c >= gel_c).count();
            let front_mm = match (set, row.get(set)) {
                (0, _) => 0.0,
                (_, None) => field.depths_mm[set - 1],
                (_, Some(next_c)) => {
                    let share = (row[set - 1] - gel_c) / (row[set - 1] - next_c);
                    field.depths_mm[set - 1] + share * (field.depths_mm[set] - field.depths_mm[set - 1])
                }
            };
            (*at_s, front_mm)
        })
        .collect()
}

fn cautions(plan: &Plan, run: &Run) -> Vec<Caution> {
    let mut cautions = vec![Caution::Probe { core_c: plan.core_c }];
    if plan.core_c < 57.0 {
        cautions.push(Caution::BelowHotHolding);
    }
    if run.coldest_c < plan.core_c - 3.0 {
        cautions.push(Caution::ColdLayer {
            coldest_c: run.coldest_c,
        });
    }
    if let (Some(safe_s), Some(turn_s)) = (run.first_turn_s, run.turns_s.first())
        && *turn_s < safe_s - 1.0
    {
        cautions.push(Caution::TurnedEarly { safe_s });
    }
    if plan.gel.sets_c.value > plan.core_c {
        cautions.push(Caution::DoneBeforeSet);
    }
    if !(5.0..=25.0).contains(&plan.patty.thickness_mm.value) {
        cautions.push(Caution::Untested);
    }
    if matches!(plan.way, Way::Pan { pan_c, .. } if pan_c > 230.0) {
        cautions.push(Caution::HotFat);
    }
    cautions
}
