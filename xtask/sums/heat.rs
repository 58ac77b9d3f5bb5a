//! The same patty cooked for ten minutes by the project's own slab and by a general integrator of the registry.

use ode_solvers::{DVector, Dop853, OutputType, System};
use pattywright::heat::slab::{Face, Matter, Skin, Slab, turned};
use pattywright::heat::{Composition, Food};

const MIX: Composition = Composition {
    water: 0.60,
    protein: 0.18,
    fat: 0.12,
    carbohydrate: 0.05,
    fibre: 0.03,
    ash: 0.02,
};
const THICKNESS_MM: f64 = 10.0;
const END_S: f64 = 600.0;
const PIECE_S: f64 = 30.0;
/// Surroundings, °C, and coefficient, W/(m² K), of either face.
const BELOW: (f64, f64) = (190.0, 400.0);
const ABOVE: (f64, f64) = (25.0, 20.0);
const NODES: usize = 101;

fn food() -> Food {
    Food::new(MIX, 0.05).expect("a food")
}

/// The middle after ten minutes, °C, by the project's slab.
pub fn ours() -> f64 {
    let slab = Slab {
        thickness_mm: THICKNESS_MM,
        matter: Matter::Food(food()),
        start_c: 5.0,
    };
    let dry = |(ambient_c, h_w_per_m2_k)| Face {
        ambient_c,
        h_w_per_m2_k,
        skin: Skin::Dry,
    };
    let stages = turned([dry(BELOW), dry(ABOVE)], &[], END_S);
    let profile = &slab.profiles(&stages, &[END_S]).expect("a profile")[0];
    // One cell lies in the middle where their number is odd, two beside it where it is even.
    let (below, above) = ((profile.len() - 1) / 2, profile.len() / 2);
    0.5 * (profile[below] + profile[above])
}

/// The same by Dormand–Prince 8(5,3) and the method of lines, tolerances 1e-6.
pub fn theirs() -> f64 {
    let food = food();
    let mut cells = DVector::from_element(NODES, 5.0);
    let mut start_s = 0.0;
    // In pieces: over a longer stretch it stops, and calls the problem stiff.
    while start_s < END_S {
        let nodes = Nodes {
            density: food.density_kg_per_m3(5.0),
            spacing_m: THICKNESS_MM / 1000.0 / (NODES - 1) as f64,
            food,
        };
        let end_s = start_s + PIECE_S;
        let mut integrator = Dop853::new(nodes, start_s, end_s, PIECE_S, cells, 1e-6, 1e-6);
        integrator.set_output(OutputType::Sparse);
        integrator.integrate().expect("it comes to an end");
        cells = integrator.y_out().last().expect("the end").clone();
        start_s = end_s;
    }
    cells[NODES / 2]
}

struct Nodes {
    food: Food,
    density: f64,
    spacing_m: f64,
}

impl System<f64, DVector<f64>> for Nodes {
    fn system(&self, _seconds: f64, y: &DVector<f64>, dy: &mut DVector<f64>) {
        let last = y.len() - 1;
        let k_between = |i: usize| self.food.conductivity_w_per_m_k(0.5 * (y[i] + y[i + 1]));
        let flux = |i: usize| k_between(i) * (y[i] - y[i + 1]) / self.spacing_m;
        let store = |i: usize| self.density * self.food.specific_heat_j_per_kg_k(y[i]) * self.spacing_m;
        dy[0] = 2.0 * (BELOW.1 * (BELOW.0 - y[0]) - flux(0)) / store(0);
        for i in 1..last {
            dy[i] = (flux(i - 1) - flux(i)) / store(i);
        }
        dy[last] = 2.0 * (flux(last - 1) - ABOVE.1 * (y[last] - ABOVE.0)) / store(last);
    }
}
