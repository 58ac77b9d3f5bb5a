//! How much water leaves a wet face, and what heat it takes with it.

/// Boiling point of the water in the patty at sea level, °C. Salt raises it by less than one degree.
pub(super) const BOILING_C: f64 = 100.0;

/// Vapour in kitchen air of 25 °C at 50 % humidity, kg/m³; the air of an oven is kitchen air warmed.
const KITCHEN_VAPOUR: f64 = 0.0115;

/// Density times specific heat of air, J/(m³ K), at 60 °C. From memory: Incropera et al., 6th ed., Table A.4.
const AIR_HEAT_CAPACITY: f64 = 1067.0;

/// Lewis number of water vapour in air to the power two thirds. From memory: Incropera et al., 6th ed., section 6.7.
const LEWIS_TWO_THIRDS: f64 = 0.9;

/// Diffusivity of water vapour in air, m²/s, at 75 °C: 0.26e-4 at 25 °C, raised by absolute temperature to the power 1.5.
/// From memory: Incropera et al., 6th ed., Table A.8.
const VAPOUR_DIFFUSIVITY: f64 = 0.33e-4;

/// Returns the heat that boils off water, J/kg: a straight line through the steam table from 0 to 100 °C.
pub(super) fn latent_heat_j_per_kg(temperature_c: f64) -> f64 {
    2.501e6 - 2440.0 * temperature_c
}

/// Returns the vapour over wet food, kg/m³.
///
/// # Source
/// Antoine equation for water, 1 to 100 °C, `log10 p[mmHg] = 8.07131 − 1730.63/(233.426 + T)`, then the gas law.
fn saturated_vapour_kg_per_m3(temperature_c: f64) -> f64 {
    let pascal = 133.322 * 10f64.powf(8.07131 - 1730.63 / (233.426 + temperature_c));
    pascal / (461.5 * (temperature_c + 273.15))
}

/// Returns the water that leaves a wet face for the air, kg/(m² s), never less than zero.
///
/// Heat and vapour cross the same film of air (Lewis relation), then vapour has the pores of the crust to pass.
/// - `convection`: the part of the heat transfer coefficient that moving air carries, W/(m² K).
/// - `crust_m` and `porosity`: thickness of the dried crust, and its open share (Bruggeman: `D·ε^1.5`).
pub(super) fn drying_kg_per_m2_s(temperature_c: f64, convection: f64, crust_m: f64, porosity: f64) -> f64 {
    if convection <= 0.0 {
        return 0.0;
    }
    let film = AIR_HEAT_CAPACITY * LEWIS_TWO_THIRDS / convection;
    let pores = crust_m / (VAPOUR_DIFFUSIVITY * porosity.powf(1.5));
    ((saturated_vapour_kg_per_m3(temperature_c) - KITCHEN_VAPOUR) / (film + pores)).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: steam table values from memory (Incropera et al., 6th ed., Table A.6): 0.5977 kg/m³ and 2257 kJ/kg at 100 °C, 0.0830 and 2383 at 50 °C.
    #[test]
    fn steam_has_the_tabled_density_and_latent_heat() {
        for (temperature_c, density, latent) in [(100.0, 0.5977, 2257e3), (50.0, 0.0830, 2383e3)] {
            assert!((saturated_vapour_kg_per_m3(temperature_c) / density - 1.0).abs() < 0.02);
            assert!((latent_heat_j_per_kg(temperature_c) / latent - 1.0).abs() < 0.005);
        }
    }

    /// Worked by hand as in Incropera et al., 6th ed., section 6.7: a film of 1067 × 0.9/10 = 96 s/m, and with 0.5 mm of
    /// crust, 60 % open, 5e-4/(0.33e-4 × 0.4648) = 33 s/m more; 0.0830 kg/m³ of vapour at 50 °C against 0.0115 in the air.
    #[test]
    fn vapour_passes_the_film_and_the_pores_one_after_the_other() {
        for (crust_m, rate) in [(0.0, 0.0715 / 96.0), (5e-4, 0.0715 / 128.6)] {
            let found = drying_kg_per_m2_s(50.0, 10.0, crust_m, 0.6);
            assert!((found / rate - 1.0).abs() < 0.02, "{found} for {rate}");
        }
    }

    #[test]
    fn cold_food_takes_up_no_water_and_a_crust_slows_drying() {
        assert_eq!(drying_kg_per_m2_s(2.0, 10.0, 0.0, 0.6), 0.0);
        assert!(drying_kg_per_m2_s(80.0, 10.0, 5e-4, 0.6) < drying_kg_per_m2_s(80.0, 10.0, 0.0, 0.6));
    }
}
