//! What the matter of a slab stores and conducts, looked up at every step.

use super::slab::Matter;

/// Spacing and number of the points between which conductivity is interpolated: 0 to 400 °C.
const TABLE_STEP_C: f64 = 5.0;
const TABLE_POINTS: usize = 81;

/// The dried layer that a food grows: what it conducts, the water it gave, and its open share.
#[derive(Debug, Clone, Copy)]
pub(super) struct Crust {
    pub(super) conductivity: f64,
    pub(super) water_kg_per_m3: f64,
    pub(super) porosity: f64,
}

/// What the matter stores and conducts, tabulated once so that a step only looks up.
pub(super) struct Curves {
    /// Heat capacity by volume, J/(m³ K), quadratic in °C.
    capacity: [f64; 3],
    conductivity: [f64; TABLE_POINTS],
    pub(super) crust: Option<Crust>,
}

impl Curves {
    pub(super) fn new(matter: &Matter, start_c: f64) -> Self {
        match matter {
            Matter::Constant {
                density_kg_per_m3,
                conductivity_w_per_m_k,
                specific_heat_j_per_kg_k,
            } => Self {
                capacity: [density_kg_per_m3 * specific_heat_j_per_kg_k, 0.0, 0.0],
                conductivity: [*conductivity_w_per_m_k; TABLE_POINTS],
                crust: None,
            },
            Matter::Food(food) => {
                let density = food.density_kg_per_m3(start_c);
                Self {
                    capacity: food.specific_heat_quadratic().map(|term| density * term),
                    conductivity: std::array::from_fn(|i| food.conductivity_w_per_m_k(i as f64 * TABLE_STEP_C)),
                    crust: Some(Crust {
                        conductivity: food.crust_conductivity(),
                        water_kg_per_m3: food.water_kg_per_m3(start_c),
                        porosity: food.crust_porosity(),
                    }),
                }
            }
        }
    }

    pub(super) fn capacity_at(&self, temperature_c: f64) -> f64 {
        let [a, b, c] = self.capacity;
        a + temperature_c * (b + temperature_c * c)
    }

    pub(super) fn enthalpy_at(&self, temperature_c: f64) -> f64 {
        let [a, b, c] = self.capacity;
        temperature_c * (a + temperature_c * (b / 2.0 + temperature_c * c / 3.0))
    }

    /// Newton from a close guess: the curve is nearly straight, so two rounds reach the last digits.
    pub(super) fn temperature_of(&self, enthalpy: f64, guess_c: f64) -> f64 {
        let mut temperature_c = guess_c;
        for _ in 0..2 {
            temperature_c -= (self.enthalpy_at(temperature_c) - enthalpy) / self.capacity_at(temperature_c);
        }
        temperature_c
    }

    pub(super) fn conductivity_at(&self, temperature_c: f64) -> f64 {
        let place = (temperature_c / TABLE_STEP_C).clamp(0.0, (TABLE_POINTS - 1) as f64);
        let below = (place as usize).min(TABLE_POINTS - 2);
        let [left, right] = [self.conductivity[below], self.conductivity[below + 1]];
        left + (right - left) * (place - below as f64)
    }
}
