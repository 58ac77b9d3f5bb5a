//! What the two faces of a patty meet in pan, press, oven, rack and bun.

use super::{Rest, Way};
use crate::heat::Estimate;
use crate::heat::slab::{Face, Skin};

/// Contact coefficient of a patty that lies in a pan under its own weight, W/(m² K).
///
/// Fitted, not measured: it brings the model near the 6.6 min that 100 g beef patties took when turned every 30 s
/// (Rhee M-S, et al. J Food Prot 2003, abstract), a patty of 12 mm and a grill of 170 °C assumed.
/// Oil and a press raise it, a domed patty lowers it.
pub const PAN_CONTACT: Estimate = Estimate { value: 100.0, sd: 40.0 };

/// Contact coefficient between two pressed plates, W/(m² K): the middle of 250 to 650, and a spread that fills the range evenly.
///
/// # Source
/// Wichchukit S, Zorrilla SE, Singh RP. J Food Process Preserv 2001;25:207–221, abstract: plates at 177 to 204 °C, gaps of 10 to 11 mm, 130 s.
pub const PRESS_CONTACT: Estimate = Estimate {
    value: 450.0,
    sd: 115.0,
};

/// Convection over a patty in still air, W/(m² K): the low end of 5 to 25 for natural convection over so small a plate.
/// From memory: Incropera et al., 6th ed., Table 1.1.
pub(super) const STILL_AIR: Estimate = Estimate { value: 5.0, sd: 2.0 };

/// Convection in a household oven without a fan, W/(m² K), within the same range. A fan may bring 20 to 60.
pub(super) const OVEN_AIR: Estimate = Estimate { value: 10.0, sd: 4.0 };

/// What a bun draws from the patty, W/(m² K), averaged over ten minutes.
///
/// Heat soaks into cool crumb as into a deep solid: `2·√(k·ρ·c/(π·t))`, with 0.06 W/(m K), 200 kg/m³ and 2700 J/(kg K), all from memory, gives 8;
/// the open rim of the patty and steam into the crumb are rounded up to 10.
const INTO_BUN: f64 = 10.0;

/// Emissivity of moist food. From memory: about 0.95.
const EMISSIVITY: f64 = 0.95;

/// Typical temperature of a face while it cooks, °C: radiation is made linear about it.
const WARM_FACE_C: f64 = 70.0;

/// Returns the radiation coefficient between a warm face and its surroundings, W/(m² K): `ε σ (T₁² + T₂²)(T₁ + T₂)`.
///
/// # Source
/// Incropera et al., 6th ed., equation 1.9.
fn radiation(surroundings_c: f64) -> f64 {
    let [face, around] = [WARM_FACE_C, surroundings_c].map(|c| c + 273.15);
    EMISSIVITY * 5.67e-8 * (face * face + around * around) * (face + around)
}

fn open(air_c: f64, convection: f64) -> Face {
    Face {
        ambient_c: air_c,
        h_w_per_m2_k: convection + radiation(air_c),
        skin: Skin::Dries {
            convection_w_per_m2_k: convection,
        },
    }
}

fn hot_plate(plate_c: f64, contact: f64) -> Face {
    Face {
        ambient_c: plate_c,
        h_w_per_m2_k: contact,
        skin: Skin::Boils,
    }
}

/// Returns the surroundings below and above, for a contact and a convection that may have been moved within their spread.
pub(super) fn while_cooking(way: &Way, room_c: f64, contact: f64, convection: f64) -> [Face; 2] {
    match way {
        Way::Pan { pan_c, .. } => [hot_plate(*pan_c, contact), open(room_c, convection)],
        Way::Press { plates_c, .. } => [hot_plate(*plates_c, contact); 2],
        // The tray is as hot as the oven and shuts the steam in below.
        Way::Oven { oven_c } => {
            let above = open(*oven_c, convection);
            [hot_plate(*oven_c, above.h_w_per_m2_k), above]
        }
    }
}

/// Returns the surroundings below and above at rest.
pub(super) fn while_resting(rest: Rest, room_c: f64) -> [Face; 2] {
    match rest {
        Rest::Rack => [open(room_c, STILL_AIR.value); 2],
        Rest::Bun => {
            [Face {
                ambient_c: room_c,
                h_w_per_m2_k: INTO_BUN,
                skin: Skin::Boils,
            }; 2]
        }
    }
}

/// Returns contact and convection with their spreads.
pub(super) fn coefficients(way: &Way) -> (Estimate, Estimate) {
    match way {
        Way::Pan { contact, .. } => (*contact, STILL_AIR),
        Way::Press { contact, .. } => (*contact, STILL_AIR),
        Way::Oven { .. } => (Estimate::new(0.0, 0.0), OVEN_AIR),
    }
}
