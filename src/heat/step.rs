//! One implicit step of the slab: cells, faces, and the tridiagonal solve.
//!
//! Finite volumes carry enthalpy.
//! A step linearises once, solves for the new temperatures, and then moves exactly the heat of the fluxes it solved for,
//! so that what enters is stored or leaves as steam to the last digit.

use super::curves::Curves;
use super::slab::{Face, Matter, Skin};
use super::steam::{BOILING_C, drying_kg_per_m2_s, latent_heat_j_per_kg};

/// The greatest share of the thickness that may dry out on one side; then the face counts as dry.
const DRIEST_SHARE: f64 = 0.45;

/// Everything that changes with time. Index 0 is the side that was below at the start.
#[derive(Debug, Clone)]
pub(super) struct State {
    /// J/m³ above 0 °C, by cell.
    enthalpy: Vec<f64>,
    pub(super) cells_c: Vec<f64>,
    /// Temperature of each wet face, under its crust.
    pub(super) front_c: [f64; 2],
    boiling: [bool; 2],
    /// Heat taken in from each side, J/m².
    pub(super) taken_in: [f64; 2],
    /// Heat gone with the steam from each side, J/m².
    pub(super) latent: [f64; 2],
    /// Water gone from each side, kg/m².
    pub(super) evaporated: [f64; 2],
}

impl State {
    fn copy_from(&mut self, other: &Self) {
        self.enthalpy.copy_from_slice(&other.enthalpy);
        self.cells_c.copy_from_slice(&other.cells_c);
        self.front_c = other.front_c;
        self.boiling = other.boiling;
        self.taken_in = other.taken_in;
        self.latent = other.latent;
        self.evaporated = other.evaporated;
    }

    /// Goes from two half steps (self) beyond one whole step (`whole`): second order in time.
    fn extrapolate(&mut self, whole: &Self, curves: &Curves) {
        for ((enthalpy, cell_c), coarse) in self.enthalpy.iter_mut().zip(&mut self.cells_c).zip(&whole.enthalpy) {
            *enthalpy = 2.0 * *enthalpy - coarse;
            *cell_c = curves.temperature_of(*enthalpy, *cell_c);
        }
        for side in 0..2 {
            self.taken_in[side] = 2.0 * self.taken_in[side] - whole.taken_in[side];
            self.latent[side] = 2.0 * self.latent[side] - whole.latent[side];
            self.evaporated[side] = 2.0 * self.evaporated[side] - whole.evaporated[side];
        }
    }
}

/// A face during one step. Its heat balance is linear in the temperature `T` of the wet face:
/// `pull − hold·T` comes from outside, drying paid for, and `to_cell·(T − cell)` goes inwards.
#[derive(Clone, Copy)]
struct Edge {
    pull: f64,
    hold: f64,
    to_cell: f64,
    wet: bool,
    boiling: bool,
}

impl Edge {
    /// Returns source and conductance of the heat that enters the outermost cell: `source − conductance·cell`, W/m².
    fn inflow(&self) -> (f64, f64) {
        if self.boiling {
            return (self.to_cell * BOILING_C, self.to_cell);
        }
        let share = self.to_cell / (self.to_cell + self.hold);
        (share * self.pull, share * self.hold)
    }

    fn front_c(&self, cell_c: f64) -> f64 {
        if self.boiling {
            BOILING_C
        } else {
            (self.pull + self.to_cell * cell_c) / (self.hold + self.to_cell)
        }
    }

    /// Whether more heat comes in at the boiling point than passes inwards, so that water must boil.
    fn must_boil(&self, cell_c: f64) -> bool {
        self.wet && self.pull - self.hold * BOILING_C > self.to_cell * (BOILING_C - cell_c)
    }
}

/// Returns the width of each cell as a share of the thickness: narrow at the faces, where temperature bends most.
pub(super) fn cell_widths(cells: usize) -> impl Iterator<Item = f64> {
    let width = move |i: usize| {
        let at = (i as f64 + 0.5) / cells as f64;
        0.8 + 4.0 * at * (1.0 - at)
    };
    let total: f64 = (0..cells).map(width).sum();
    (0..cells).map(move |i| width(i) / total)
}

/// What stays the same from step to step.
struct Body {
    curves: Curves,
    /// Width of each cell, m.
    widths_m: Vec<f64>,
    thickness_m: f64,
}

/// Room for the solve.
struct Work {
    /// Conductance between neighbours, W/(m² K).
    between: Vec<f64>,
    /// Heat capacity of a cell over the step, W/(m² K).
    inertia: Vec<f64>,
    sweep: Vec<f64>,
    solved_c: Vec<f64>,
}

/// The slab cut into cells, with room for every step: nothing is allocated while stepping.
pub(super) struct Stepper {
    body: Body,
    work: Work,
    pub(super) now: State,
    half: State,
    whole: State,
}

impl Stepper {
    pub(super) fn new(matter: &Matter, thickness_mm: f64, start_c: f64, cells: usize) -> Self {
        let curves = Curves::new(matter, start_c);
        let state = State {
            enthalpy: vec![curves.enthalpy_at(start_c); cells],
            cells_c: vec![start_c; cells],
            front_c: [start_c; 2],
            boiling: [false; 2],
            taken_in: [0.0; 2],
            latent: [0.0; 2],
            evaporated: [0.0; 2],
        };
        let thickness_m = thickness_mm / 1000.0;
        Self {
            body: Body {
                curves,
                widths_m: cell_widths(cells).map(|share| share * thickness_m).collect(),
                thickness_m,
            },
            work: Work {
                between: vec![0.0; cells],
                inertia: vec![0.0; cells],
                sweep: vec![0.0; cells],
                solved_c: vec![0.0; cells],
            },
            now: state.clone(),
            half: state.clone(),
            whole: state,
        }
    }

    /// Tries one step and its two halves; `half` then holds the better answer. Returns the error estimate, K.
    pub(super) fn attempt(&mut self, faces: &[Face; 2], seconds: f64) -> f64 {
        let Self {
            body,
            work,
            now,
            half,
            whole,
        } = self;
        whole.copy_from(now);
        half.copy_from(now);
        body.step(whole, work, faces, seconds);
        body.step(half, work, faces, seconds / 2.0);
        body.step(half, work, faces, seconds / 2.0);
        let error = half
            .cells_c
            .iter()
            .zip(&whole.cells_c)
            .map(|(a, b)| (a - b).abs())
            .fold(0.0, f64::max);
        half.extrapolate(whole, &body.curves);
        error
    }

    /// Takes over what the last attempt found.
    pub(super) fn accept(&mut self) {
        std::mem::swap(&mut self.now, &mut self.half);
    }

    /// Heat stored since the start, J/m², worked out from the temperatures alone.
    pub(super) fn stored_since(&self, start_c: f64) -> f64 {
        let Body { curves, widths_m, .. } = &self.body;
        let start = curves.enthalpy_at(start_c);
        let cells = self.now.cells_c.iter().zip(widths_m);
        cells
            .map(|(cell_c, width_m)| width_m * (curves.enthalpy_at(*cell_c) - start))
            .sum()
    }

    /// Temperature at the very outside, on the crust.
    pub(super) fn outside_c(&self, side: usize, face: &Face) -> f64 {
        let front_c = self.now.front_c[side];
        if face.h_w_per_m2_k <= 0.0 {
            return front_c;
        }
        let outer = self.body.outer_conductance(&self.now, side, face);
        face.ambient_c - outer * (face.ambient_c - front_c) / face.h_w_per_m2_k
    }
}

impl Body {
    /// Thickness of the dried crust on a side, m.
    fn crust_m(&self, state: &State, side: usize) -> f64 {
        match self.curves.crust {
            Some(crust) => (state.evaporated[side] / crust.water_kg_per_m3).clamp(0.0, DRIEST_SHARE * self.thickness_m),
            None => 0.0,
        }
    }

    /// Conductance from the surroundings to the wet face, through air or contact and crust, W/(m² K).
    fn outer_conductance(&self, state: &State, side: usize, face: &Face) -> f64 {
        if face.h_w_per_m2_k <= 0.0 {
            return 0.0;
        }
        let crust = self
            .curves
            .crust
            .map_or(0.0, |crust| self.crust_m(state, side) / crust.conductivity);
        1.0 / (1.0 / face.h_w_per_m2_k + crust)
    }

    /// Heat that leaves a wet face below boiling, and how fast that grows with its temperature: W/m² and W/(m² K).
    fn drying_heat(&self, state: &State, side: usize, face: &Face) -> (f64, f64) {
        let Skin::Dries { convection_w_per_m2_k } = face.skin else {
            return (0.0, 0.0);
        };
        let porosity = self.curves.crust.map_or(1.0, |crust| crust.porosity);
        let crust_m = self.crust_m(state, side);
        let heat = |temperature_c: f64| {
            latent_heat_j_per_kg(temperature_c)
                * drying_kg_per_m2_s(temperature_c, convection_w_per_m2_k, crust_m, porosity)
        };
        let front_c = state.front_c[side];
        (heat(front_c), (heat(front_c + 0.5) - heat(front_c - 0.5)).max(0.0))
    }

    /// What a side meets during the step that starts at `state`.
    fn edge(&self, state: &State, side: usize, face: &Face, half_cell: f64) -> Edge {
        let wet = face.skin != Skin::Dry && self.crust_m(state, side) < DRIEST_SHARE * self.thickness_m;
        let outer = self.outer_conductance(state, side, face);
        let (drying, slope) = if wet {
            self.drying_heat(state, side, face)
        } else {
            (0.0, 0.0)
        };
        Edge {
            pull: outer * face.ambient_c - drying + slope * state.front_c[side],
            hold: outer + slope,
            to_cell: 1.0 / half_cell,
            wet,
            boiling: wet && state.boiling[side],
        }
    }

    /// One backward Euler step.
    fn step(&self, state: &mut State, work: &mut Work, faces: &[Face; 2], seconds: f64) {
        let last = state.cells_c.len() - 1;
        // What half a cell resists, m²K/W; the first and the last half stand between a face and its cell.
        let half = |i: usize| self.widths_m[i] / (2.0 * self.curves.conductivity_at(state.cells_c[i]));
        let first_half = half(0);
        let mut left_half = first_half;
        for (i, cell_c) in state.cells_c.iter().enumerate() {
            work.inertia[i] = self.curves.capacity_at(*cell_c) * self.widths_m[i] / seconds;
            if i < last {
                let right_half = half(i + 1);
                work.between[i] = 1.0 / (left_half + right_half);
                left_half = right_half;
            }
        }
        let mut edges = [
            self.edge(state, 0, &faces[0], first_half),
            self.edge(state, 1, &faces[1], left_half),
        ];

        // Whether a face boils is part of the answer; it settles in one or two rounds.
        let mut outermost_c = [0.0; 2];
        for _ in 0..4 {
            work.solve(&state.cells_c, &edges);
            outermost_c = [work.solved_c[0], work.solved_c[last]];
            let before = edges.map(|edge| edge.boiling);
            for (edge, cell_c) in edges.iter_mut().zip(outermost_c) {
                edge.boiling = edge.must_boil(cell_c);
            }
            if edges.map(|edge| edge.boiling) == before {
                break;
            }
        }

        for (side, (edge, cell_c)) in edges.iter().zip(outermost_c).enumerate() {
            let (source, conductance) = edge.inflow();
            let inward = source - conductance * cell_c;
            let front_c = edge.front_c(cell_c);
            let taken_in = self.outer_conductance(state, side, &faces[side]) * (faces[side].ambient_c - front_c);
            state.taken_in[side] += taken_in * seconds;
            state.latent[side] += (taken_in - inward) * seconds;
            state.evaporated[side] += (taken_in - inward) * seconds / latent_heat_j_per_kg(front_c);
            state.front_c[side] = front_c;
            state.boiling[side] = edge.boiling;
        }
        for i in 0..=last {
            state.enthalpy[i] += work.inertia[i] * seconds / self.widths_m[i] * (work.solved_c[i] - state.cells_c[i]);
            state.cells_c[i] = self.curves.temperature_of(state.enthalpy[i], work.solved_c[i]);
        }
    }
}

impl Work {
    /// Thomas algorithm for the new temperatures; `between` of the last cell stays zero.
    fn solve(&mut self, cells_c: &[f64], edges: &[Edge; 2]) {
        let last = cells_c.len() - 1;
        let (mut left, mut left_sweep, mut left_c) = (0.0, 0.0, 0.0);
        for (i, cell_c) in cells_c.iter().enumerate() {
            let mut diagonal = self.inertia[i] + self.between[i] + left * (1.0 - left_sweep);
            let mut right_side = self.inertia[i] * cell_c + left * left_c;
            for (end, edge) in [0, last].into_iter().zip(edges) {
                if i == end {
                    let (source, conductance) = edge.inflow();
                    diagonal += conductance;
                    right_side += source;
                }
            }
            left = self.between[i];
            left_sweep = left / diagonal;
            left_c = right_side / diagonal;
            self.sweep[i] = left_sweep;
            self.solved_c[i] = left_c;
        }
        for i in (0..last).rev() {
            self.solved_c[i] += self.sweep[i] * self.solved_c[i + 1];
        }
    }
}
