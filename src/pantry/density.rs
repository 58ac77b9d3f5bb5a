//! What a millilitre of it weighs, how sure that is, and who says so.
//!
//! The cook's own weighed cup comes first, then a published household measure, then the cook's entry, then a wide starting figure.
//! Where nobody has said, there is no density: the line says "weigh this one".

use super::listed::{Listed, PublishedMeasure, StartingDensity};
use super::{Ingredient, Pantry, Role, Source};
use crate::measure::{Cup, Unit, root_of_squares};

/// Spread of a published density between one bag and the next, share of itself; common practice, no source.
const BAG_TO_BAG: f64 = 0.05;
/// The same for a liquid; common practice, no source.
const LIQUID_TO_LIQUID: f64 = 0.01;
/// Spread of one level cup filled again and again by the same hand; common practice, no source.
const REFILL: f64 = 0.03;

/// Who says what a millilitre weighs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum DensityFrom {
    /// The cook's own weighed cup.
    Calibration,
    /// A published table.
    Table,
    /// The cook's typed figure.
    Entry,
    /// A wide starting figure: weigh yours.
    Starting,
}

/// Mass of one millilitre, loosely filled.
#[derive(Clone, PartialEq, Debug)]
pub struct Density {
    /// g/ml.
    pub grams_per_millilitre: f64,
    /// One standard deviation as a share of it.
    pub relative_sd: f64,
    /// Who says so.
    pub from: DensityFrom,
    /// The same with its row, for "where does this number come from?".
    pub source: Source,
}

impl Pantry<'_> {
    /// What a millilitre of `ingredient` weighs when it is measured with `unit`.
    ///
    /// `cut` picks among published cuts (`coarse grain`, `packed`); see [`Listed::cuts`].
    /// A published measure in the very unit typed is preferred, so that the table's own weights come back to the printed digit.
    pub fn density(&self, ingredient: &Ingredient, unit: Unit, cut: Option<&str>) -> Option<Density> {
        let entry = ingredient.entry();
        let own = entry.and_then(|entry| {
            let weighed = entry.calibrations.last().and_then(|weighing| {
                let density = weighing.density()?;
                let refill = REFILL / weighing.count.max(1.0).sqrt();
                Some((density, refill, weighing.date.as_str()))
            });
            let by_cup = || {
                let millilitres = Unit::Cup.millilitres(self.cup)?;
                Some((entry.cup_g? / millilitres, REFILL, ""))
            };
            weighed.or_else(by_cup)
        });
        if let Some((grams_per_millilitre, relative_sd, date)) = own {
            return Some(Density {
                grams_per_millilitre,
                relative_sd,
                from: DensityFrom::Calibration,
                source: Source::OwnCup { date: date.into() },
            });
        }
        let typed = || {
            entry?.density_g_per_ml.map(|grams_per_millilitre| Density {
                grams_per_millilitre,
                relative_sd: BAG_TO_BAG,
                from: DensityFrom::Entry,
                source: Source::OwnFigure,
            })
        };
        let row = ingredient.row();
        let table = || row?.published_density(unit, cut);
        let starting = || row?.starting_density.as_ref().map(StartingDensity::density);
        if entry.is_some_and(|entry| entry.like.is_some()) {
            typed().or_else(table).or_else(starting)
        } else {
            table().or_else(typed).or_else(starting)
        }
    }
}

impl StartingDensity {
    /// The middle, with the whole range as an even spread.
    fn density(&'static self) -> Density {
        Density {
            grams_per_millilitre: self.value,
            relative_sd: (self.high - self.low) / 12f64.sqrt() / self.value,
            from: DensityFrom::Starting,
            source: Source::Starting(self),
        }
    }
}

impl Listed {
    /// The cuts and ways of filling its published measures tell apart: `coarse grain`, `fine grain`.
    pub fn cuts(&self) -> Vec<&'static str> {
        let mut cuts: Vec<&str> = Vec::new();
        for measure in self.measures.iter().filter(|m| m.unit.is_some()) {
            let cut = measure.cut();
            if !cut.is_empty() && !cuts.contains(&cut) {
                cuts.push(cut);
            }
        }
        cuts
    }

    fn published_density(&'static self, unit: Unit, cut: Option<&str>) -> Option<Density> {
        let scoops = || self.measures.iter().filter(|m| m.unit.is_some());
        let chosen = match cut {
            Some(cut) => scoops()
                .find(|m| m.cut() == cut && m.unit == Some(unit))
                .or_else(|| scoops().find(|m| m.cut() == cut)),
            // A row with both a published density and a starting range has cuts too far apart to guess between.
            None if self.starting_density.is_some() => return None,
            None => {
                let default =
                    |m: &&PublishedMeasure| self.density.is_some_and(|d| (m.density() / d - 1.0).abs() < 0.002);
                scoops()
                    .find(|m| m.unit == Some(unit) && m.cut().is_empty())
                    .or_else(|| scoops().find(|m| m.unit == Some(unit) && default(m)))
                    .or_else(|| scoops().find(default))
            }
        };
        let runny = self.role == Role::Liquid || (self.role == Role::Fat && !self.solid_when_cold);
        let filling = if runny { LIQUID_TO_LIQUID } else { BAG_TO_BAG };
        let density = |grams_per_millilitre, rounding: f64, source| Density {
            grams_per_millilitre,
            relative_sd: root_of_squares([filling, rounding]),
            from: DensityFrom::Table,
            source,
        };
        match chosen {
            Some(measure) => Some(density(measure.density(), measure.rounding(), Source::Measure(measure))),
            None => self.density.map(|d| density(d, 0.0, Source::Row(self))),
        }
    }
}

impl PublishedMeasure {
    /// What the measure's text says beside the unit: `coarse grain`, `packed`; empty where it says nothing.
    ///
    /// What stands in brackets only explains (`cup shelled (50 halves)`), unless it is all there is (`fl oz (no ice)`).
    pub fn cut(&self) -> &'static str {
        const UNITS: [&str; 8] = ["cups", "cup", "tablespoon", "tbsp", "teaspoon", "tsp", "fl oz", "liter"];
        let rest = UNITS.iter().find_map(|unit| self.text.strip_prefix(unit)).unwrap_or("");
        let plain = rest.split_once(" (").map_or(rest, |(before, _)| before);
        let said = if plain.is_empty() { rest } else { plain };
        let cut = said.trim_matches(|c: char| " ,()".contains(c));
        if cut == "NFS" || cut.contains(|c: char| c.is_ascii_digit()) {
            ""
        } else {
            cut
        }
    }

    /// g/ml; published measures are US customary.
    fn density(&self) -> f64 {
        let millilitres = self.unit.and_then(|unit| unit.millilitres(Cup::Us)).unwrap_or(f64::NAN);
        self.grams / (self.quantity * millilitres)
    }

    /// One standard deviation of the table's own rounding, share of the weight: half a printed digit, evenly spread.
    fn rounding(&self) -> f64 {
        let digit = if self.grams.fract() == 0.0 { 1.0 } else { 0.1 };
        digit / 12f64.sqrt() / self.grams
    }
}
