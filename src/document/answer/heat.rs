//! Answers about size and heat, and how they are come by.

use super::super::question::{CookQuestion, PattyQuestion, SlabQuestion};
use crate::formula::{Formula, Kitchen, on_the_scale};
use crate::heat::as_given;
use crate::heat::binder::Grade;
use crate::heat::cook::{Answers, Patty, Plan, Softening, Turns};
use crate::heat::slab::{Face, Matter, Skin, Slab, turned};
use crate::measure::{Estimate, fixed};
use crate::patty::{Cooking, Mix, Texture, cooked, thickness_mm, thinnest};
use crate::words::say;
use serde::Serialize;

/// Relative spread of a thickness that is given without one. Common practice, no source.
const THICKNESS_RELATIVE_SD: f64 = 0.05;

/// The most times a slab is looked at, and the most turns.
const MOST_TIMES: usize = 2_000;

/// An estimate: `value` and `sd`, or `null` with `why`.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Told {
    /// The figure.
    pub value: Option<f64>,
    /// One standard deviation, same unit.
    pub sd: Option<f64>,
    /// Why there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

impl From<Estimate> for Told {
    fn from(estimate: Estimate) -> Self {
        Self {
            value: Some(estimate.value),
            sd: Some(estimate.sd),
            why: None,
        }
    }
}

impl Told {
    fn unknown(why: impl Into<String>) -> Self {
        Self {
            value: None,
            sd: None,
            why: Some(why.into()),
        }
    }
}

/// The size of a patty.
#[derive(Clone, Debug, Serialize)]
pub struct PattyAnswer {
    /// Density of the formed raw patty, g/ml.
    pub density_g_per_ml: Told,
    /// Thickness, mm.
    pub thickness_mm: Told,
    /// The thinnest workable, mm; `null` where the size of the soaked granules was not given.
    pub thinnest_mm: Told,
    /// What to do where it is thinner than that, or nearly.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub advice: Option<String>,
    /// Weight after cooking, g.
    pub cooked_g: Told,
    /// Width after cooking, mm.
    pub cooked_across_mm: Told,
    /// Thickness after cooking, mm, puffing left out.
    pub cooked_thickness_mm: Told,
    /// Where cook loss and shrink come from.
    pub cooking_source: &'static str,
}

impl PattyAnswer {
    /// Works it out.
    ///
    /// # Errors
    /// A sentence that says what to change.
    pub fn of(kitchen: &Kitchen, formula: &Formula, asked: &PattyQuestion) -> Result<Self, String> {
        let mix = Mix::of(kitchen, formula, None).map_err(|why| why.to_string())?;
        check_start(asked.start_c)?;
        let density = mix.density_g_per_ml(asked.start_c);
        let grams = on_the_scale(asked.grams, kitchen.habits.scale_step_grams);
        let across = Estimate::new(asked.across_mm, asked.across_sd);
        let thickness = thickness_mm(grams, density, asked.shape, across).map_err(|why| why.to_string())?;
        let cooking = Cooking::published(Texture::Flour, mix.binder_percent);
        let cooked = cooked(grams, across, thickness, &cooking).map_err(|why| why.to_string())?;
        let (thinnest_mm, advice) = match asked.granule_mm {
            None => (
                Told::unknown(say(
                    "Measure a large granule once it is soaked: the thinnest patty follows from it",
                )),
                None,
            ),
            Some(granule) => {
                let least = thinnest(granule, mix.binder_percent, thickness.value).map_err(|why| why.to_string())?;
                (least.thinnest_mm.into(), least.advice())
            }
        };
        Ok(Self {
            density_g_per_ml: density.into(),
            thickness_mm: thickness.into(),
            thinnest_mm,
            advice,
            cooked_g: cooked.grams.into(),
            cooked_across_mm: cooked.across_mm.into(),
            cooked_thickness_mm: cooked.thickness_mm.into(),
            // Where `Cooking::published` comes from.
            cooking_source: say("Four published plant patties, Foods 2021;10(3):560, Table 4"),
        })
    }
}

/// A raw mix is neither frozen nor boiling.
fn check_start(start_c: f64) -> Result<(), String> {
    (0.0..100.0).contains(&start_c).then_some(()).ok_or_else(|| {
        say!(
            "Give the temperature of the raw mix between 0 and 100 °C, not {given} °C",
            given = as_given(start_c)
        )
    })
}

/// When to turn, and when it is done.
#[derive(Clone, Debug, Serialize)]
pub struct CookAnswer {
    /// Earliest safe turn, s; `null` where it is not known when the binder sets.
    pub first_turn_s: Told,
    /// The turns that were followed, s.
    pub turns_s: Vec<f64>,
    /// When the core reaches the target, s.
    pub done_s: Told,
    /// Core when taken off at `done_s`, °C.
    pub core_c_at_done: Told,
    /// Highest core at rest on a bun, °C.
    pub peak_core_c: Told,
    /// When the gel softens on the bun, minutes after it comes off the heat.
    pub softens_after_min: Told,
    /// Where the binder sets, °C.
    pub sets_c: Told,
    /// Weight lost as steam by `done_s`, percent of the raw weight; dripping fat and juice are not in it.
    pub cook_loss_percent: Told,
    /// Temperature against depth and time.
    pub field: FieldAnswer,
    /// What to watch for.
    pub cautions: Vec<String>,
}

/// Temperature against depth and time, on a coarse grid.
#[derive(Clone, Debug, Serialize)]
pub struct FieldAnswer {
    /// Depths from the side that lay below at the start, mm.
    pub depths_mm: Vec<f64>,
    /// Times from the start, s.
    pub at_s: Vec<f64>,
    /// One row for each time, one figure for each depth, °C.
    pub temperature_c: Vec<Vec<f64>>,
}

impl CookAnswer {
    /// Works it out.
    ///
    /// # Errors
    /// A sentence that says what to change.
    pub fn of(kitchen: &Kitchen, formula: &Formula, asked: &CookQuestion) -> Result<Self, String> {
        let grade = match asked.grade.as_deref() {
            None => None,
            Some(id) => Some(Grade::from_id(id).ok_or_else(|| {
                let known = Grade::ALL.map(Grade::id).join(", ");
                say!(
                    "“{id}” is not a grade of binder known here; use one of {known}",
                    id,
                    known
                )
            })?),
        };
        let mix = Mix::of(kitchen, formula, grade).map_err(|why| why.to_string())?;
        let sd = asked
            .thickness_sd
            .unwrap_or(THICKNESS_RELATIVE_SD * asked.thickness_mm.abs());
        let plan = Plan {
            patty: Patty {
                food: mix.food,
                thickness_mm: Estimate::new(asked.thickness_mm, sd),
                start_c: asked.start_c,
            },
            way: asked
                .stove
                .at(asked.pan_c, asked.turns_s.clone().map_or(Turns::WhenSet, Turns::At)),
            room_c: asked.room_c,
            core_c: asked.core_c,
            gel: mix.gel_to_follow(),
            rest: asked.rest,
        };
        let answers = plan.answers().map_err(|why| why.to_string())?;
        Ok(Self::told(&mix, answers))
    }

    fn told(mix: &Mix, answers: Answers) -> Self {
        let (first_turn_s, sets_c) = match (&mix.gel, answers.first_turn_s) {
            (Err(why), _) => (Told::unknown(why.to_string()), Told::unknown(why.to_string())),
            (Ok(gel), None) => (
                Told::unknown(say("Its middle does not set from one side")),
                gel.sets_c.into(),
            ),
            (Ok(gel), Some(turn_s)) => (turn_s.into(), gel.sets_c.into()),
        };
        Self {
            first_turn_s,
            turns_s: answers.turns_s,
            done_s: answers.done_s.into(),
            core_c_at_done: answers.core_c_at_done.into(),
            peak_core_c: answers.peak_core_c.into(),
            softens_after_min: match answers.softens {
                Softening::AfterMinutes(minutes) => minutes.into(),
                Softening::NotWithinMinutes(minutes) => {
                    Told::unknown(say!(
                        "Not within {minutes} minutes on the bun",
                        minutes = fixed(minutes, 0)
                    ))
                }
                Softening::Unknown => Told::unknown(say("Where this binder softens is not known")),
            },
            sets_c,
            cook_loss_percent: answers.cook_loss_percent.into(),
            field: FieldAnswer {
                depths_mm: answers.field.depths_mm,
                at_s: answers.field.at_s,
                temperature_c: answers.field.temperature_c,
            },
            cautions: answers
                .cautions
                .iter()
                .map(ToString::to_string)
                .chain(mix.salt_open.then(|| {
                    say!("The salt of some lines is not known and is left out: more salt makes the binder set sooner than told")
                }))
                .collect(),
        }
    }
}

/// Temperatures through a slab.
#[derive(Clone, Debug, Serialize)]
pub struct SlabAnswer {
    /// For each time asked for, the temperature at each cell centre.
    pub profile: Vec<Vec<Point>>,
}

/// The temperature at one depth.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct Point {
    /// Depth from the side that was face 0 at the start, mm.
    pub mm: f64,
    /// Temperature, °C.
    pub c: f64,
}

impl SlabAnswer {
    /// Works it out.
    ///
    /// # Errors
    /// A sentence that says what to change.
    pub fn of(asked: &SlabQuestion) -> Result<Self, String> {
        if asked.at_s.len() > MOST_TIMES || asked.turns_s.len() > MOST_TIMES {
            return Err(say!("Ask for {most} times and turns at most", most = MOST_TIMES));
        }
        let slab = Slab {
            thickness_mm: asked.thickness_mm,
            matter: Matter::Constant {
                density_kg_per_m3: asked.density,
                conductivity_w_per_m_k: asked.conductivity,
                specific_heat_j_per_kg_k: asked.specific_heat,
            },
            start_c: asked.start_c,
        };
        let skin = if asked.evaporation { Skin::Boils } else { Skin::Dry };
        let faces = asked.faces.map(|face| Face {
            ambient_c: face.ambient_c,
            h_w_per_m2_k: face.h,
            skin,
        });
        let until_s = asked.at_s.iter().copied().fold(0.0, f64::max);
        let stages = turned(faces, &asked.turns_s, until_s);
        let profiles = slab.profiles(&stages, &asked.at_s).map_err(|why| why.to_string())?;
        if profiles.iter().flatten().any(|c| !c.is_finite()) {
            return Err(say!("These figures are too large or too small to be followed"));
        }
        let depths_mm = slab.depths_mm();
        let profile = profiles
            .into_iter()
            .map(|cells| {
                let points = depths_mm.iter().zip(cells);
                points.map(|(mm, c)| Point { mm: *mm, c }).collect()
            })
            .collect();
        Ok(Self { profile })
    }
}
