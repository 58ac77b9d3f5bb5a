//! Questions about size and heat.

use crate::heat::cook::{Rest, Stove};
use crate::patty::Shape;
use serde::Deserialize;

/// `{ "ask": "patty", "formula": "shed_patty", "grams": 90, "shape": "round", "across_mm": 105 }`
#[derive(Clone, PartialEq, Debug, Deserialize)]
pub struct PattyQuestion {
    /// Formula id.
    pub formula: String,
    /// Raw weight, g.
    pub grams: f64,
    /// `round` (unless said otherwise) or `square`.
    #[serde(default)]
    pub shape: Shape,
    /// Diameter or side, mm.
    pub across_mm: f64,
    /// One standard deviation of it, mm; 2 unless said otherwise (common practice, no source).
    #[serde(default = "across_sd")]
    pub across_sd: f64,
    /// The larger granules once soaked, mm; without it the thinnest patty is not known.
    #[serde(default)]
    pub granule_mm: Option<f64>,
    /// Temperature of the raw mix, °C; 5 unless said otherwise.
    #[serde(default = "fridge_c")]
    pub start_c: f64,
}

/// `{ "ask": "cook", "formula": "shed_patty", "thickness_mm": 10, "start_c": 5, "pan_c": 190, "core_c": 74 }`
#[derive(Clone, PartialEq, Debug, Deserialize)]
pub struct CookQuestion {
    /// Formula id.
    pub formula: String,
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// One standard deviation of it, mm; 5 % unless said otherwise (common practice, no source).
    #[serde(default)]
    pub thickness_sd: Option<f64>,
    /// Temperature when it meets the heat, °C; 5 unless said otherwise.
    #[serde(default = "fridge_c")]
    pub start_c: f64,
    /// Where it rests: `bun` or `rack`.
    #[serde(default)]
    pub rest: Rest,
    /// `pan`, `press` (between two plates) or `oven`.
    #[serde(default)]
    pub stove: Stove,
    /// Temperature of the pan, the plates or the oven, °C.
    pub pan_c: f64,
    /// Core target, °C; 74 unless said otherwise.
    #[serde(default = "usual_core_c")]
    pub core_c: f64,
    /// Temperature of the kitchen, °C; 22 unless said otherwise.
    #[serde(default = "room_c")]
    pub room_c: f64,
    /// When it is turned, s, in rising order; without it once, as soon as it has set half way.
    #[serde(default)]
    pub turns_s: Option<Vec<f64>>,
    /// What the binder's packet says: `low_setting`, `type_a`, `hydroxypropyl_e`, `hydroxypropyl_f`, `hydroxypropyl_k`.
    #[serde(default)]
    pub grade: Option<String>,
}

/// `{ "ask": "slab", "thickness_mm": 20, "conductivity": 0.45, "density": 1050, "specific_heat": 3300, "start_c": 5, "faces": [ … ], "at_s": [60] }`
#[derive(Clone, PartialEq, Debug, Deserialize)]
pub struct SlabQuestion {
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Conductivity, W/(m K).
    pub conductivity: f64,
    /// Density, kg/m³.
    pub density: f64,
    /// Specific heat, J/(kg K).
    pub specific_heat: f64,
    /// Temperature throughout at the start, °C.
    pub start_c: f64,
    /// What its two sides meet; the first is face 0.
    pub faces: [FaceQuestion; 2],
    /// When it is turned, s, in rising order, so that its two sides swap surroundings.
    #[serde(default)]
    pub turns_s: Vec<f64>,
    /// True where its faces are wet, so that they boil and never pass 100 °C.
    #[serde(default)]
    pub evaporation: bool,
    /// When to look, s, in rising order.
    pub at_s: Vec<f64>,
}

/// What a side of a slab meets.
#[derive(Clone, Copy, PartialEq, Debug, Deserialize)]
pub struct FaceQuestion {
    /// Temperature, °C.
    pub ambient_c: f64,
    /// Heat transfer coefficient, W/(m² K); 0 insulates.
    pub h: f64,
}

/// Cold holding, US Food Code 3-501.16.
fn fridge_c() -> f64 {
    5.0
}

fn usual_core_c() -> f64 {
    crate::heat::cook::USUAL_CORE_C
}

fn room_c() -> f64 {
    22.0
}

fn across_sd() -> f64 {
    crate::patty::HAND_FORMED_SD_MM
}
