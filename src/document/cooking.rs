//! What goes into the pan tonight: patties of several sizes, and how hot.

use crate::heat::cook::{Rest, Stove};
use crate::patty::Shape;
use serde::{Deserialize, Serialize};

/// The most patties of different sizes at once.
pub const MOST_BUILDS: usize = 12;

/// Tonight's patties and their heat.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct Cooking {
    /// The patties, one for each size.
    pub builds: Vec<Build>,
    /// Temperature when they meet the pan, °C.
    pub start_c: f64,
    /// How they are heated.
    #[serde(skip_serializing_if = "super::is_default")]
    pub stove: Stove,
    /// Temperature of the pan, the plates or the oven, °C.
    pub pan_c: f64,
    /// Core target, °C.
    pub core_c: f64,
    /// Where they rest once cooked.
    #[serde(skip_serializing_if = "super::is_default")]
    pub rest: Rest,
    /// Width of the bun, mm.
    pub bun_mm: f64,
    /// How far the cooked patty reaches beyond the bun on each side, mm.
    #[serde(skip_serializing_if = "super::is_default")]
    pub overhang_mm: f64,
    /// The larger granules once soaked, mm; none while nobody has measured one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub granule_mm: Option<f64>,
    /// What the binder's packet says, an id of [`Grade`](crate::heat::binder::Grade); none while nobody has looked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grade: Option<String>,
}

/// A patty of one size.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Build {
    /// Raw weight, g.
    pub grams: f64,
    /// Diameter or side, mm.
    pub across_mm: f64,
    /// Seen from above.
    #[serde(default)]
    pub shape: Shape,
}

/// A usual patty on a usual bun: common practice, no source.
impl Default for Build {
    fn default() -> Self {
        Self {
            grams: 90.0,
            across_mm: 105.0,
            shape: Shape::Round,
        }
    }
}

/// From the fridge (5 °C, US Food Code 3-501.16) into a pan of 180 °C, about the middle of published pan settings (163 to 204 °C), to a core of 74 °C.
/// A bun of 100 mm is common practice, no source.
impl Default for Cooking {
    fn default() -> Self {
        Self {
            builds: vec![Build::default()],
            start_c: 5.0,
            stove: Stove::Pan,
            pan_c: 180.0,
            core_c: crate::heat::cook::USUAL_CORE_C,
            rest: Rest::Bun,
            bun_mm: 100.0,
            overhang_mm: 0.0,
            granule_mm: None,
            grade: None,
        }
    }
}
