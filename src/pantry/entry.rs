//! The cook's own shelf: own ingredients, own weighed cups, the pack's own panel.

use super::{Nutrient, Nutrients, Role};
use crate::measure::{Cup, Unit, fixed};
use crate::words::say;
use serde::{Deserialize, Serialize};

/// Heaviest thing a kitchen scoops: denser than any syrup, lighter than any metal, g/ml.
pub const DENSITY_RANGE: (f64, f64) = (0.02, 3.0);

/// An ingredient of the cook's own, or the cook's own figures over a published row (same id).
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Entry {
    /// Id in snake_case; the id of a published row lays this entry over it.
    pub id: String,
    /// The name on screen; empty keeps the row's.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Id of the published row whose composition it borrows.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub like: Option<String>,
    /// What it does in a patty.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub role: Option<Role>,
    /// What one level cup weighs, g, by the cook's own scale, in the cup of the settings.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cup_g: Option<f64>,
    /// Density, g/ml, as the cook was told it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub density_g_per_ml: Option<f64>,
    /// Own weighings of level measures; the last one counts.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub calibrations: Vec<Calibration>,
    /// The pack's own nutrition panel.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub panel: Option<Panel>,
}

/// Level measures put on the scale by the cook.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Calibration {
    /// How many level measures were weighed together.
    pub count: f64,
    /// Which measure: `cup`, `tablespoon`, `teaspoon`.
    pub measure: Scoop,
    /// Which cup it belongs to.
    #[serde(default)]
    pub cup: Cup,
    /// What they weighed together, g.
    pub grams: f64,
    /// When, as `2026-11-25`.
    #[serde(default)]
    pub date: String,
}

/// A level measure that can be calibrated.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Scoop {
    /// A cup.
    Cup,
    /// A tablespoon.
    Tablespoon,
    /// A teaspoon.
    Teaspoon,
}

impl Scoop {
    /// The unit it holds.
    pub fn unit(self) -> Unit {
        match self {
            Scoop::Cup => Unit::Cup,
            Scoop::Tablespoon => Unit::Tablespoon,
            Scoop::Teaspoon => Unit::Teaspoon,
        }
    }
}

impl Calibration {
    /// Density, g/ml.
    pub fn density(&self) -> Option<f64> {
        let millilitres = self.measure.unit().millilitres(self.cup)? * self.count;
        plausible(self.grams / millilitres)
    }
}

/// A density that can be true.
fn plausible(density: f64) -> Option<f64> {
    (DENSITY_RANGE.0..=DENSITY_RANGE.1)
        .contains(&density)
        .then_some(density)
}

/// What the pack says, per serving.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Panel {
    /// Serving the figures are for, g; 100 where the pack says "per 100 g".
    pub serving_g: f64,
    /// Energy, kcal.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub energy_kcal: Option<f64>,
    /// Fat, g.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fat_g: Option<f64>,
    /// Saturated fat, g.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub saturated_g: Option<f64>,
    /// Carbohydrate, g.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub carbohydrate_g: Option<f64>,
    /// True for packs that count fibre within carbohydrate (US); false where it stands apart (EU).
    pub carbohydrate_with_fibre: bool,
    /// Sugars, g.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sugars_g: Option<f64>,
    /// Fibre, g.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fibre_g: Option<f64>,
    /// Protein, g.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub protein_g: Option<f64>,
    /// Salt, g.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub salt_g: Option<f64>,
    /// Sodium, mg, where the pack gives it in place of salt.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sodium_mg: Option<f64>,
}

impl Panel {
    /// The panel per 100 g.
    ///
    /// Packs do not print water. It is taken by difference: what protein, fat, carbohydrate and fibre leave of 100 g.
    /// That counts ash as water, a few grams too much in a dry powder.
    pub fn per_100_g(&self) -> Nutrients {
        let factor = 100.0 / self.serving_g;
        let scaled = |value: Option<f64>| value.map(|v| v * factor);
        let (carbohydrate, fibre) = (scaled(self.carbohydrate_g), scaled(self.fibre_g));
        let (total, available) = if self.carbohydrate_with_fibre {
            (carbohydrate, carbohydrate.zip(fibre).map(|(c, f)| c - f))
        } else {
            (carbohydrate.zip(fibre).map(|(c, f)| c + f), carbohydrate)
        };
        let (protein, fat) = (scaled(self.protein_g), scaled(self.fat_g));
        let water = protein
            .zip(fat)
            .zip(total)
            .map(|((p, f), c)| (100.0 - p - f - c).max(0.0));
        let sodium = scaled(self.sodium_mg).or(scaled(self.salt_g).map(|salt| salt * 400.0));
        let mut nutrients = Nutrients::UNKNOWN;
        for (nutrient, value) in [
            (Nutrient::EnergyKcal, scaled(self.energy_kcal)),
            (Nutrient::Water, water),
            (Nutrient::Protein, protein),
            (Nutrient::Fat, fat),
            (Nutrient::Saturated, scaled(self.saturated_g)),
            (Nutrient::CarbohydrateTotal, total),
            (Nutrient::CarbohydrateAvailable, available),
            (Nutrient::Sugars, scaled(self.sugars_g)),
            (Nutrient::Fibre, fibre),
            (Nutrient::Sodium, sodium),
        ] {
            nutrients.set(nutrient, value);
        }
        nutrients
    }
}

/// What cannot be right in an entry.
#[derive(Clone, PartialEq, Debug)]
pub enum EntryProblem {
    /// No name.
    NoName,
    /// A weight or density outside the possible range.
    Density {
        /// g/ml, as it works out.
        grams_per_millilitre: f64,
    },
    /// A panel figure that is negative, not a number, or more than its serving.
    Figure {
        /// Which figure, as in the tables of texts.
        name: &'static str,
    },
    /// Protein, fat, carbohydrate and fibre together weigh more than the serving.
    TooFull {
        /// Their sum, g per 100 g.
        per_100_g: f64,
    },
    /// A serving of nothing.
    Serving,
}

impl std::fmt::Display for EntryProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&match self {
            EntryProblem::NoName => say!("Give it a name"),
            EntryProblem::Density { .. } => say!(
                "That weight does not fit the measure: one millilitre of food weighs 0.02 to 3 g. Check the number and the measure"
            ),
            EntryProblem::Figure { name } => say!(
                "Check {name}: it must be 0 or more, and no more than the serving",
                name = say(name)
            ),
            EntryProblem::TooFull { per_100_g } => say!(
                "Protein, fat, carbohydrate and fibre add up to {grams} g in 100 g. Check them against the pack",
                grams = fixed(*per_100_g, 0)
            ),
            EntryProblem::Serving => say!("Type the serving in grams, more than 0"),
        })
    }
}

impl Entry {
    /// Looks for what cannot be right; nothing is changed.
    ///
    /// # Errors
    /// The first [`EntryProblem`] found.
    pub fn check(&self, cup: Cup) -> Result<(), EntryProblem> {
        if self.name.trim().is_empty() && super::listed(&self.id).is_none() {
            return Err(EntryProblem::NoName);
        }
        let by_cup = self
            .cup_g
            .zip(Unit::Cup.millilitres(cup))
            .map(|(grams, millilitres)| grams / millilitres);
        for density in by_cup.into_iter().chain(self.density_g_per_ml) {
            plausible(density).ok_or(EntryProblem::Density {
                grams_per_millilitre: density,
            })?;
        }
        for calibration in &self.calibrations {
            calibration.density().ok_or(EntryProblem::Density {
                grams_per_millilitre: f64::NAN,
            })?;
        }
        self.panel.as_ref().map_or(Ok(()), Panel::check)
    }
}

impl Panel {
    fn check(&self) -> Result<(), EntryProblem> {
        if !(self.serving_g > 0.0 && self.serving_g.is_finite()) {
            return Err(EntryProblem::Serving);
        }
        let serving = self.serving_g * 1.005;
        for (name, value, most) in [
            ("energy", self.energy_kcal, serving * 9.5),
            ("fat", self.fat_g, serving),
            ("saturated fat", self.saturated_g, serving),
            ("carbohydrate", self.carbohydrate_g, serving),
            ("sugars", self.sugars_g, serving),
            ("fibre", self.fibre_g, serving),
            ("protein", self.protein_g, serving),
            ("salt", self.salt_g, serving),
            ("sodium", self.sodium_mg, serving * 1000.0),
        ] {
            if value.is_some_and(|v| !(0.0..=most).contains(&v)) {
                return Err(EntryProblem::Figure { name });
            }
        }
        let apart = if self.carbohydrate_with_fibre {
            None
        } else {
            self.fibre_g
        };
        let sum: f64 = [self.protein_g, self.fat_g, self.carbohydrate_g, apart]
            .into_iter()
            .flatten()
            .sum();
        // Packs round each figure, so a little more than all of it is still honest.
        if sum > self.serving_g * 1.05 {
            return Err(EntryProblem::TooFull {
                per_100_g: sum / self.serving_g * 100.0,
            });
        }
        Ok(())
    }
}
