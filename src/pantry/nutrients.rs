//! What 100 g holds. A blank is unknown, never zero.

/// A nutrient the tables carry, per 100 g as eaten from the pack.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Nutrient {
    /// Energy, kcal, as published.
    EnergyKcal,
    /// Water, g.
    Water,
    /// Protein, g.
    Protein,
    /// Fat, g.
    Fat,
    /// Saturated fat, g.
    Saturated,
    /// Trans fat, g.
    Trans,
    /// Cholesterol, mg.
    Cholesterol,
    /// Carbohydrate with fibre, g.
    CarbohydrateTotal,
    /// Carbohydrate without fibre, g.
    CarbohydrateAvailable,
    /// Sugars, g.
    Sugars,
    /// Fibre, g.
    Fibre,
    /// Ash, g.
    Ash,
    /// Sodium, mg.
    Sodium,
    /// Calcium, mg.
    Calcium,
    /// Iron, mg.
    Iron,
    /// Potassium, mg.
    Potassium,
    /// Vitamin B12, µg.
    VitaminB12,
    /// Vitamin D, µg.
    VitaminD,
}

/// How many nutrients the tables carry.
const COUNT: usize = 18;

/// Marks a blank cell.
pub(super) const UNKNOWN: f64 = f64::NAN;

/// What 100 g of an ingredient holds.
#[derive(Clone, Copy, Debug)]
pub struct Nutrients(pub(super) [f64; COUNT]);

impl Nutrients {
    /// Nothing is known.
    pub const UNKNOWN: Nutrients = Nutrients([UNKNOWN; COUNT]);

    /// The amount per 100 g in the nutrient's own unit; `None` where nobody has said.
    pub fn get(&self, nutrient: Nutrient) -> Option<f64> {
        let value = self.0[nutrient as usize];
        (!value.is_nan()).then_some(value)
    }

    /// Sets an amount per 100 g.
    pub fn set(&mut self, nutrient: Nutrient, value: Option<f64>) {
        self.0[nutrient as usize] = value.unwrap_or(UNKNOWN);
    }

    /// Salt, g per 100 g: sodium × 2.5.
    ///
    /// # Source
    /// Regulation (EU) 1169/2011, Annex I: salt = sodium × 2.5.
    pub fn salt(&self) -> Option<f64> {
        self.get(Nutrient::Sodium).map(|milligrams| milligrams * 2.5 / 1000.0)
    }
}
