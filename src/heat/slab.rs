//! A flat slab that is warmed through its two faces.
//!
//! The cook never sees this; every cooking answer rests on it.
//! One-dimensional transient conduction by finite volumes, backward Euler in time with one extrapolation (second order, damped at every step size),
//! and a step that adapts to the temperature error.
//! Each face meets surroundings through a heat transfer coefficient, may give off steam, and may be turned at any time.
//!
//! A wet face is held at the boiling point at most: what heat it cannot pass inwards boils water off.
//! Where water has left, a dry crust stands between the surroundings and the wet face, so the outside may pass 100 °C.
//! Left out on purpose: heat stored in the crust, the thinning of the wet part as the crust grows, swelling, and the heat that steam carries above that of the water it came from.

use std::ops::ControlFlow;

use super::step::{Stepper, cell_widths};
use super::{Food, HeatError};

/// Number of cells across the slab; odd, so that the middle one is the core.
pub const CELLS: usize = 61;

/// Error allowed in one step before extrapolation, K.
const STEP_ERROR_K: f64 = 0.04;
const SHORTEST_STEP_S: f64 = 1e-3;
const LONGEST_STEP_S: f64 = 10.0;

/// Thicknesses that are followed, mm.
const THICKNESSES_MM: (f64, f64) = (0.1, 1000.0);
/// Temperatures that are followed, °C: for constant properties, and for food.
const CONSTANT_RANGE_C: (f64, f64) = (-200.0, 2000.0);
const FOOD_RANGE_C: (f64, f64) = (-40.0, 400.0);
/// Longest run that is followed, s.
const LONGEST_RUN_S: f64 = 86_400.0;

/// What the slab is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Matter {
    /// Constant properties, as in a textbook. A wet face of it never forms a crust.
    Constant {
        /// Density, kg/m³.
        density_kg_per_m3: f64,
        /// Conductivity, W/(m K).
        conductivity_w_per_m_k: f64,
        /// Specific heat, J/(kg K).
        specific_heat_j_per_kg_k: f64,
    },
    /// Properties that follow composition and temperature.
    Food(Food),
}

/// How a face gives off water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Skin {
    /// Not at all.
    Dry,
    /// Only by boiling, as under a pan: the wet face never passes 100 °C.
    Boils,
    /// By drying into moving air, and by boiling.
    Dries {
        /// The part of the heat transfer coefficient that moving air carries, without radiation, W/(m² K).
        convection_w_per_m2_k: f64,
    },
}

/// What one side of the slab meets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// Temperature of pan, air or plate, °C.
    pub ambient_c: f64,
    /// Heat transfer coefficient, W/(m² K); zero insulates.
    pub h_w_per_m2_k: f64,
    /// How the face gives off water.
    pub skin: Skin,
}

/// A time with the same surroundings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// When it ends, s from the start.
    pub until_s: f64,
    /// What the two sides meet; index 0 is the side that lay below at the start, wherever it lies now.
    pub faces: [Face; 2],
}

/// A slab of even thickness and temperature, before it is warmed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slab {
    /// Thickness, 0.1 to 1000 mm.
    pub thickness_mm: f64,
    /// What it is made of.
    pub matter: Matter,
    /// Temperature throughout at the start, °C.
    pub start_c: f64,
}

/// The slab at one time.
#[derive(Debug, Clone, Copy)]
pub struct Moment<'a> {
    /// Time from the start, s.
    pub seconds: f64,
    /// Temperature at the middle of each cell, from side 0 to side 1, °C.
    pub cells_c: &'a [f64],
    /// Temperature of each wet face, under its crust if there is one, °C.
    pub wet_face_c: [f64; 2],
    /// Temperature at the very outside of each side, °C.
    pub outside_c: [f64; 2],
    /// Water gone from each side, kg/m².
    pub evaporated_kg_per_m2: [f64; 2],
}

/// Where the heat went.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ledger {
    /// Heat taken in from the surroundings of each side, less what was given back, J/m².
    pub taken_in_j_per_m2: [f64; 2],
    /// Heat in the slab above the start, worked out from its temperatures, J/m².
    pub stored_j_per_m2: f64,
    /// Heat gone with the steam of each side, J/m².
    pub latent_j_per_m2: [f64; 2],
    /// Water gone from each side, kg/m².
    pub evaporated_kg_per_m2: [f64; 2],
    /// When the run ended, s.
    pub seconds: f64,
    /// Steps taken.
    pub steps: usize,
}

impl Ledger {
    /// Returns heat in, less stored, less gone with steam, as a share of all the heat that moved.
    pub fn balance_error(&self) -> f64 {
        let taken_in: f64 = self.taken_in_j_per_m2.iter().sum();
        let latent: f64 = self.latent_j_per_m2.iter().sum();
        let moved = self
            .taken_in_j_per_m2
            .iter()
            .map(|heat| heat.abs())
            .sum::<f64>()
            .max(f64::MIN_POSITIVE);
        (taken_in - self.stored_j_per_m2 - latent).abs() / moved
    }
}

/// Returns the stages of a slab that is turned at the given times, so that its two sides swap surroundings.
pub fn turned(faces: [Face; 2], turns_s: &[f64], until_s: f64) -> Vec<Stage> {
    let mut faces = faces;
    let mut stages = Vec::with_capacity(turns_s.len() + 1);
    for end_s in turns_s
        .iter()
        .copied()
        .filter(|turn_s| *turn_s < until_s)
        .chain([until_s])
    {
        stages.push(Stage { until_s: end_s, faces });
        faces.swap(0, 1);
    }
    stages
}

impl Slab {
    /// Warms the slab stage by stage and shows every step to `watch`, which may break off.
    ///
    /// # Errors
    /// The kinds of [`HeatError`] that name thickness, matter, coefficient, surroundings and time.
    pub fn run(&self, stages: &[Stage], watch: impl FnMut(&Moment) -> ControlFlow<()>) -> Result<Ledger, HeatError> {
        self.run_on(CELLS, STEP_ERROR_K, stages, watch)
    }

    /// As [`Slab::run`], on a grid and with a step error of the caller's choice: for convergence tables.
    ///
    /// - `cells`: 3 or more.
    /// - `step_error_k`: above 0, K.
    ///
    /// # Errors
    /// As [`Slab::run`].
    pub fn run_on(
        &self,
        cells: usize,
        step_error_k: f64,
        stages: &[Stage],
        mut watch: impl FnMut(&Moment) -> ControlFlow<()>,
    ) -> Result<Ledger, HeatError> {
        self.check(stages)?;
        let mut stepper = Stepper::new(&self.matter, self.thickness_mm, self.start_c, cells.max(3));
        let mut seconds = 0.0;
        let mut steps = 0;
        'stages: for stage in stages {
            let mut step_s: f64 = 0.05;
            while stage.until_s - seconds > 1e-9 {
                let tried_s = step_s.min(stage.until_s - seconds);
                let error_k = stepper.attempt(&stage.faces, tried_s).max(1e-9);
                let good = error_k <= step_error_k || tried_s <= SHORTEST_STEP_S;
                step_s = (tried_s * (0.9 * (step_error_k / error_k).sqrt()).clamp(0.3, 2.0))
                    .clamp(SHORTEST_STEP_S, LONGEST_STEP_S);
                if !good {
                    continue;
                }
                stepper.accept();
                seconds += tried_s;
                steps += 1;
                let moment = Moment {
                    seconds,
                    cells_c: &stepper.now.cells_c,
                    wet_face_c: stepper.now.front_c,
                    outside_c: [0, 1].map(|side| stepper.outside_c(side, &stage.faces[side])),
                    evaporated_kg_per_m2: stepper.now.evaporated,
                };
                if watch(&moment).is_break() {
                    break 'stages;
                }
            }
        }
        Ok(Ledger {
            taken_in_j_per_m2: stepper.now.taken_in,
            stored_j_per_m2: stepper.stored_since(self.start_c),
            latent_j_per_m2: stepper.now.latent,
            evaporated_kg_per_m2: stepper.now.evaporated,
            seconds,
            steps,
        })
    }

    /// Returns the temperatures at the cell centres at each of the given rising times, °C, side 0 first.
    ///
    /// Between two steps the temperature is taken as a straight line in time, which costs less than the error of a step.
    ///
    /// # Errors
    /// As [`Slab::run`]; [`HeatError::Time`] when a time lies outside the stages.
    pub fn profiles(&self, stages: &[Stage], at_s: &[f64]) -> Result<Vec<Vec<f64>>, HeatError> {
        let end_s = stages.last().map_or(0.0, |stage| stage.until_s);
        if let Some(bad) = at_s.iter().find(|s| !(0.0..=end_s + 1e-9).contains(*s)) {
            return Err(HeatError::Time(*bad));
        }
        if let Some(pair) = at_s.windows(2).find(|pair| pair[0] > pair[1]) {
            return Err(HeatError::Time(pair[1]));
        }
        let mut profiles = Vec::with_capacity(at_s.len());
        let mut before = (0.0, vec![self.start_c; CELLS]);
        self.run(stages, |moment| {
            while profiles.len() < at_s.len() && at_s[profiles.len()] <= moment.seconds + 1e-9 {
                let share = (at_s[profiles.len()] - before.0) / (moment.seconds - before.0);
                profiles.push(
                    before
                        .1
                        .iter()
                        .zip(moment.cells_c)
                        .map(|(a, b)| a + share * (b - a))
                        .collect(),
                );
            }
            before.0 = moment.seconds;
            before.1.copy_from_slice(moment.cells_c);
            if profiles.len() == at_s.len() {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        })?;
        profiles.resize_with(at_s.len(), || before.1.clone());
        Ok(profiles)
    }

    /// Returns the depth of each cell centre from side 0, mm.
    pub fn depths_mm(&self) -> Vec<f64> {
        let mut edge = 0.0;
        cell_widths(CELLS)
            .map(|width| {
                edge += width;
                (edge - width / 2.0) * self.thickness_mm
            })
            .collect()
    }

    fn check(&self, stages: &[Stage]) -> Result<(), HeatError> {
        let (low, high) = THICKNESSES_MM;
        if !(low..=high).contains(&self.thickness_mm) {
            return Err(HeatError::Thickness {
                mm: self.thickness_mm,
                range: THICKNESSES_MM,
            });
        }
        let range = match self.matter {
            Matter::Constant { .. } => CONSTANT_RANGE_C,
            Matter::Food(_) => FOOD_RANGE_C,
        };
        let check_temperature = |c: f64| match (range.0..=range.1).contains(&c) {
            true => Ok(()),
            false => Err(HeatError::Surroundings { c, range }),
        };
        check_temperature(self.start_c)?;
        if let Matter::Constant {
            density_kg_per_m3,
            conductivity_w_per_m_k,
            specific_heat_j_per_kg_k,
        } = self.matter
        {
            for figure in [density_kg_per_m3, conductivity_w_per_m_k, specific_heat_j_per_kg_k] {
                if !(figure > 0.0 && figure.is_finite()) {
                    return Err(HeatError::Matter(figure));
                }
            }
        }
        let mut before_s = 0.0;
        for stage in stages {
            if !(before_s..=LONGEST_RUN_S).contains(&stage.until_s) {
                return Err(HeatError::Time(stage.until_s));
            }
            before_s = stage.until_s;
            for face in &stage.faces {
                check_temperature(face.ambient_c)?;
                let convection = match face.skin {
                    Skin::Dries { convection_w_per_m2_k } => convection_w_per_m2_k,
                    Skin::Dry | Skin::Boils => 0.0,
                };
                for h in [face.h_w_per_m2_k, convection] {
                    if !(h >= 0.0 && h.is_finite()) {
                        return Err(HeatError::Coefficient(h));
                    }
                }
            }
        }
        Ok(())
    }
}
