//! Any ingredient, any measure, both ways.

use super::{GramsFrom, Ingredient, NotWeighed, Pantry, Source};
use crate::measure::{Estimate, Habits, LevelMeasures, Measure, Unit, level_measures, read, relative_sd};

/// An amount in the unit asked for.
#[derive(Clone, Debug)]
pub struct Converted {
    /// The amount, with one standard deviation.
    pub value: Estimate,
    /// Its unit.
    pub unit: Unit,
    /// How its grams were come by.
    pub from: GramsFrom,
    /// The same in words.
    pub source: String,
    /// To a volume: the nearest level measures, and the grams they are off by (more is positive), where grams are known.
    pub level: Option<(LevelMeasures, Option<f64>)>,
}

impl Pantry<'_> {
    /// Converts a typed amount of `ingredient` to `unit`.
    ///
    /// From volume to volume no density is needed; everything else goes by grams.
    ///
    /// # Errors
    /// [`NotWeighed`] where the amount is not understood or nobody has said what a cup weighs.
    pub fn convert(
        &self,
        ingredient: &Ingredient,
        typed: &str,
        cut: Option<&str>,
        unit: Unit,
        habits: &Habits,
    ) -> Result<Converted, NotWeighed> {
        let quantity = read(typed).map_err(NotWeighed::Unread)?;
        let wanted = unit.millilitres(self.cup());
        let by_volume = matches!(quantity.measure, Measure::Unit(_))
            .then(|| quantity.millilitres(self.cup()))
            .flatten();
        if let (Some(millilitres), Some(one)) = (by_volume, wanted) {
            let density = self.density(ingredient, unit, cut);
            let value = millilitres / one;
            return Ok(Converted {
                value: Estimate {
                    value,
                    sd: value * relative_sd(&quantity, habits),
                },
                unit,
                from: GramsFrom::Weight,
                source: Source::VolumeToVolume.to_string(),
                level: self.level(millilitres, density.map(|d| d.grams_per_millilitre)),
            });
        }
        let amount = self.weigh(ingredient, &quantity, cut, habits)?;
        if let Some(one) = unit.grams() {
            return Ok(Converted {
                value: amount.grams.scale(1.0 / one),
                unit,
                from: amount.from,
                source: amount.source.to_string(),
                level: None,
            });
        }
        let density = self.density(ingredient, unit, cut).ok_or(NotWeighed::NoDensity)?;
        let one = wanted.ok_or(NotWeighed::NoDensity)?;
        let millilitres = amount.grams.value / density.grams_per_millilitre;
        let relative = (amount.grams.sd / amount.grams.value).hypot(density.relative_sd);
        Ok(Converted {
            value: Estimate {
                value: millilitres / one,
                sd: millilitres / one * relative,
            },
            unit,
            from: density.from.into(),
            source: density.source.to_string(),
            level: self.level(millilitres, Some(density.grams_per_millilitre)),
        })
    }

    fn level(&self, millilitres: f64, density: Option<f64>) -> Option<(LevelMeasures, Option<f64>)> {
        let level = level_measures(millilitres, self.cup())?;
        let error_g = density.map(|density| level.error_millilitres * density);
        Some((level, error_g))
    }
}
