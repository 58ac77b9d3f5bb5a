//! What a mix conducts and stores, from what it is made of.
//!
//! The cook knows the recipe; heat needs density, specific heat and conductivity.
//! Each component brings its own property, a quadratic in temperature, and the mix combines them:
//! specific heat by mass, specific volume by mass, conductivity by volume (components side by side along the heat flow).
//! Ice is left out on purpose: the equations for water hold from 0 °C, and a frozen patty is refused.
//!
//! # Source
//! Choi Y, Okos MR. Effects of temperature and composition on the thermal properties of foods.
//! In: Le Maguer M, Jelen P (eds), Food Engineering and Process Applications, vol. 1, Elsevier 1986, 93–101;
//! as tabulated in Singh RP, Heldman DR, Introduction to Food Engineering, Table A.2.9.
//! The range is 0 to 150 °C; up to 400 °C the quadratics stay positive and are used as they are, for dry walls only.
//!
//! Two misprints circulate.
//! The slope of the conductivity of fat is −2.7604e-4, not ±2.76e-3; the slope of the specific heat of fibre is 1.8306e-3, not 1.8906e-3.

use super::HeatError;

/// `A + B·T + C·T²`, with `T` in °C.
type Quadratic = [f64; 3];

fn at(temperature_c: f64, [a, b, c]: Quadratic) -> f64 {
    a + temperature_c * (b + temperature_c * c)
}

/// One component of a food and its three properties against temperature.
#[derive(Debug, Clone, Copy)]
pub struct Component {
    /// Its name in the published table.
    pub name: &'static str,
    /// Conductivity, W/(m K).
    pub conductivity: Quadratic,
    /// Density, kg/m³.
    pub density: Quadratic,
    /// Specific heat, J/(kg K).
    pub specific_heat: Quadratic,
}

/// The published components, in the order of the fields of [`Composition`].
#[rustfmt::skip]
pub const COMPONENTS: [Component; 6] = [
    Component { name: "water",        conductivity: [0.57109,  1.7625e-3, -6.7036e-6], density: [997.18,  3.1439e-3, -3.7574e-3], specific_heat: [4176.2, -9.0864e-2,  5.4731e-3] },
    Component { name: "protein",      conductivity: [0.17881,  1.1958e-3, -2.7178e-6], density: [1329.9, -0.5184,     0.0],       specific_heat: [2008.2,  1.2089,    -1.3129e-3] },
    Component { name: "fat",          conductivity: [0.18071, -2.7604e-4, -1.7749e-7], density: [925.59, -0.41757,    0.0],       specific_heat: [1984.2,  1.4733,    -4.8008e-3] },
    Component { name: "carbohydrate", conductivity: [0.20141,  1.3874e-3, -4.3312e-6], density: [1599.1, -0.31046,    0.0],       specific_heat: [1548.8,  1.9625,    -5.9399e-3] },
    Component { name: "fibre",        conductivity: [0.18331,  1.2497e-3, -3.1683e-6], density: [1311.5, -0.36589,    0.0],       specific_heat: [1845.9,  1.8306,    -4.6509e-3] },
    Component { name: "ash",          conductivity: [0.32962,  1.4011e-3, -2.9069e-6], density: [2423.8, -0.28063,    0.0],       specific_heat: [1092.6,  1.8896,    -3.6817e-3] },
];

/// Conductivity of air at 27 °C, W/(m K). From memory: Incropera et al., 6th ed., Table A.4.
const AIR_CONDUCTIVITY: f64 = 0.0263;

/// Conductivity of steam at 107 °C, W/(m K). From memory: Incropera et al., 6th ed., Table A.4.
const STEAM_CONDUCTIVITY: f64 = 0.0254;

/// Relative standard deviation of a conductivity worked out from composition, for unfrozen meats.
///
/// # Source
/// Effective thermal conductivities of meats from composition, Agric Biol Chem 1982;46(5):1235.
/// No measured plant patty is known to us.
pub const CONDUCTIVITY_RELATIVE_SD: f64 = 0.07;

/// What a mix is made of, as mass fractions.
///
/// They need not add up to one: only their proportions count.
/// A component that is not known is for the caller to settle first; here zero means none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Composition {
    /// Water.
    pub water: f64,
    /// Protein.
    pub protein: f64,
    /// Fat.
    pub fat: f64,
    /// Carbohydrate without fibre.
    pub carbohydrate: f64,
    /// Fibre.
    pub fibre: f64,
    /// Ash, the minerals.
    pub ash: f64,
}

/// A mix ready for heat sums: its composition has been checked and adds up to one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Food {
    fractions: [f64; 6],
    air: f64,
    /// One, or less where the doubt about conductivity is being followed.
    conductivity_factor: f64,
}

impl Food {
    /// Takes a composition and the share of the volume that is air, 0 to 0.9.
    ///
    /// # Errors
    /// [`HeatError::Composition`] and [`HeatError::Air`].
    ///
    /// # Example
    /// ```
    /// use pattywright::heat::{Composition, Food};
    /// let mix = Composition { water: 0.60, protein: 0.18, fat: 0.12, carbohydrate: 0.05, fibre: 0.03, ash: 0.02 };
    /// let patty = Food::new(mix, 0.0)?;
    /// assert_eq!(format!("{:.0}", patty.density_kg_per_m3(25.0)), "1071");
    /// # Ok::<(), pattywright::heat::HeatError>(())
    /// ```
    pub fn new(composition: Composition, air_volume_fraction: f64) -> Result<Self, HeatError> {
        let Composition {
            water,
            protein,
            fat,
            carbohydrate,
            fibre,
            ash,
        } = composition;
        let fractions = [water, protein, fat, carbohydrate, fibre, ash];
        let total: f64 = fractions.iter().sum();
        if !(fractions.iter().all(|share| *share >= 0.0) && total > 0.0 && total.is_finite()) {
            return Err(HeatError::Composition);
        }
        if !(0.0..=0.9).contains(&air_volume_fraction) {
            return Err(HeatError::Air(air_volume_fraction));
        }
        Ok(Self {
            fractions: fractions.map(|share| share / total),
            air: air_volume_fraction,
            conductivity_factor: 1.0,
        })
    }

    /// Returns the density, air included, kg/m³: `(1 − air) / Σ xᵢ/ρᵢ`.
    pub fn density_kg_per_m3(&self, temperature_c: f64) -> f64 {
        (1.0 - self.air) / self.cubic_metres_per_kg(temperature_c).iter().sum::<f64>()
    }

    /// Returns the specific heat, J/(kg K): `Σ xᵢ·cᵢ`. The air weighs next to nothing.
    pub fn specific_heat_j_per_kg_k(&self, temperature_c: f64) -> f64 {
        at(temperature_c, self.specific_heat_quadratic())
    }

    /// Returns the conductivity, W/(m K): `Σ vᵢ·kᵢ` over the components and the air, `v` by volume.
    pub fn conductivity_w_per_m_k(&self, temperature_c: f64) -> f64 {
        let volumes = self.cubic_metres_per_kg(temperature_c);
        let total: f64 = volumes.iter().sum();
        let conducted: f64 = volumes
            .iter()
            .zip(&COMPONENTS)
            .map(|(volume, component)| volume * at(temperature_c, component.conductivity))
            .sum();
        self.conductivity_factor * ((1.0 - self.air) * conducted / total + self.air * AIR_CONDUCTIVITY)
    }

    /// Returns the diffusivity, m²/s: conductivity over density times specific heat.
    pub fn diffusivity_m2_per_s(&self, temperature_c: f64) -> f64 {
        self.conductivity_w_per_m_k(temperature_c)
            / (self.density_kg_per_m3(temperature_c) * self.specific_heat_j_per_kg_k(temperature_c))
    }

    /// Returns the mass of water in a volume of the raw mix, kg/m³.
    pub fn water_kg_per_m3(&self, temperature_c: f64) -> f64 {
        self.fractions[0] * self.density_kg_per_m3(temperature_c)
    }

    /// Returns the same mix with its conductivity one standard deviation lower.
    pub(super) fn one_sd_less_conductive(&self) -> Self {
        Self {
            conductivity_factor: 1.0 - CONDUCTIVITY_RELATIVE_SD,
            ..*self
        }
    }

    /// Returns the share of the volume that is open once the water has boiled off.
    pub(super) fn crust_porosity(&self) -> f64 {
        let volumes = self.cubic_metres_per_kg(100.0);
        self.air + (1.0 - self.air) * volumes[0] / volumes.iter().sum::<f64>()
    }

    /// Returns the conductivity of the dried crust at 100 °C, W/(m K): the same mix with steam where the water was.
    pub(super) fn crust_conductivity(&self) -> f64 {
        let volumes = self.cubic_metres_per_kg(100.0);
        let solids: f64 = volumes[1..]
            .iter()
            .zip(&COMPONENTS[1..])
            .map(|(volume, component)| volume * at(100.0, component.conductivity))
            .sum();
        (1.0 - self.air) * solids / volumes.iter().sum::<f64>() + self.crust_porosity() * STEAM_CONDUCTIVITY
    }

    pub(super) fn specific_heat_quadratic(&self) -> Quadratic {
        let mut sum = [0.0; 3];
        for (share, component) in self.fractions.iter().zip(&COMPONENTS) {
            for (term, coefficient) in sum.iter_mut().zip(component.specific_heat) {
                *term += share * coefficient;
            }
        }
        sum
    }

    fn cubic_metres_per_kg(&self, temperature_c: f64) -> [f64; 6] {
        std::array::from_fn(|i| self.fractions[i] / at(temperature_c, COMPONENTS[i].density))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn water_and_protein(water: f64) -> Food {
        let mix = Composition {
            water,
            protein: 1.0 - water,
            fat: 0.0,
            carbohydrate: 0.0,
            fibre: 0.0,
            ash: 0.0,
        };
        Food::new(mix, 0.0).unwrap()
    }

    /// Choi and Okos at 100 °C, by hand: water 959.9 kg/m³, protein 1278.1 kg/m³ and 0.2712 W/(m K). Of equal weights
    /// 57.1 % of the volume is water, so the crust conducts 0.429 × 0.2712 + 0.571 × 0.0254 = 0.1308 W/(m K).
    #[test]
    fn a_crust_is_its_solids_with_steam_where_the_water_was() {
        for (water, porosity, conductivity) in [(0.0, 0.0, 0.2712), (0.5, 0.571, 0.1308), (1.0, 1.0, 0.0254)] {
            let food = water_and_protein(water);
            assert!(
                (food.crust_porosity() - porosity).abs() < 1e-3,
                "{water}: {}",
                food.crust_porosity()
            );
            let found = food.crust_conductivity();
            assert!((found - conductivity).abs() < 2e-4, "{water}: {found}");
        }
    }

    #[test]
    fn the_doubt_about_conductivity_is_seven_in_a_hundred() {
        let food = water_and_protein(0.6);
        let ratio = food.one_sd_less_conductive().conductivity_w_per_m_k(60.0) / food.conductivity_w_per_m_k(60.0);
        assert!((ratio - 0.93).abs() < 1e-12, "{ratio}");
    }
}
