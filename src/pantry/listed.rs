//! The published table, typed while the crate is built.

use super::nutrients::UNKNOWN;
use super::{Nutrients, Role};
use crate::measure::{Unit, trimmed};
use crate::words::{say, spoken};

/// One ingredient of the published table.
#[derive(Debug)]
pub struct Listed {
    /// Its id, as saved in documents.
    pub id: &'static str,
    /// The table's own name for it.
    pub name: &'static str,
    /// The name a cook would say.
    pub kitchen_name: &'static str,
    /// What it does in a patty.
    pub role: Role,
    /// True for a fat that is hard in the fridge.
    pub solid_when_cold: bool,
    /// Other English names it is found by.
    pub aliases: &'static [&'static str],
    /// German names it is found by, the one shown among them.
    pub german_aliases: &'static [&'static str],
    /// Shelf of the table.
    pub group: &'static str,
    /// Which published data set the composition was read from.
    pub dataset: &'static str,
    /// The row's number in that data set.
    pub row: &'static str,
    /// The row's name in that data set.
    pub row_name: &'static str,
    /// How well the row fits: exact, proxy, gap …
    pub match_quality: &'static str,
    /// Published bulk density, g/ml, if there is one.
    pub density: Option<f64>,
    /// What 100 g holds.
    pub nutrients: Nutrients,
    /// True where no table has the composition and a remembered figure stands in.
    pub composition_from_memory: bool,
    /// A wide starting figure where no table has a density.
    pub starting_density: Option<StartingDensity>,
    /// Allergens it brings, by plain knowledge: read the pack.
    pub allergens: &'static [&'static str],
    /// Traps of the row.
    pub notes: &'static str,
    /// Household measures, as published.
    pub measures: &'static [PublishedMeasure],
}

/// A published household measure: so many grams to a cup, a spoon, a piece.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PublishedMeasure {
    /// The measure in the table's words: `cup, coarse grain`.
    pub text: &'static str,
    /// How many of it.
    pub quantity: f64,
    /// The unit of volume, in US customary measure; none for a piece.
    pub unit: Option<Unit>,
    /// What it weighs, g.
    pub grams: f64,
    /// The data set.
    pub dataset: &'static str,
    /// The row's number in it.
    pub row: &'static str,
}

/// A bulk density with a wide range, where no table has one.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct StartingDensity {
    /// The middle, g/ml.
    pub value: f64,
    /// Lowest to be expected, g/ml.
    pub low: f64,
    /// Highest to be expected, g/ml.
    pub high: f64,
    /// How it is known.
    pub provenance: &'static str,
    /// What to know about it.
    pub note: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/listed.rs"));

impl PartialEq for Listed {
    /// A row is told by its id.
    fn eq(&self, other: &Listed) -> bool {
        self.id == other.id
    }
}

/// Finds a row of the published table by its id.
pub fn listed(id: &str) -> Option<&'static Listed> {
    LISTED.iter().find(|row| row.id == id)
}

impl Listed {
    /// Where the composition was read, in one line.
    pub fn source(&self) -> String {
        if self.dataset == "NONE" {
            return say!("No published table has it");
        }
        let (data_set, row, name) = (data_set(self.dataset), self.row, self.row_name);
        match self.match_quality {
            "exact" => say!("{data_set}, no. {row}, “{name}”", data_set, row, name),
            "calculated" => say!("Calculated from the {name}, {row}", name = say(name), row),
            _ => say!(
                "{data_set}, no. {row}, “{name}” (nearest row, not this very food)",
                data_set,
                row,
                name
            ),
        }
    }
}

impl PublishedMeasure {
    /// The measure as a cook reads it: the table's own words in English, else the unit and the cut.
    pub fn in_words(&self) -> String {
        match self.unit {
            Some(unit) if !spoken().is_english() => {
                let cut = say(self.cut());
                let gap = if cut.is_empty() { "" } else { ", " };
                format!("{}{gap}{cut}", unit.written(1.0 < self.quantity))
            }
            _ => self.text.to_owned(),
        }
    }

    /// Where the weight was read, in one line.
    pub fn source(&self) -> String {
        say!(
            "{data_set}, no. {row}: {quantity} {text} = {grams} g",
            data_set = data_set(self.dataset),
            row = self.row,
            quantity = trimmed(self.quantity, 4),
            text = self.text,
            grams = trimmed(self.grams, 4)
        )
    }
}

/// The data set's full name, as it was published.
fn data_set(tag: &'static str) -> &'static str {
    match tag {
        "USDA_SR28" => "USDA National Nutrient Database for Standard Reference, release 28 (2016)",
        "USDA_FNDDS_2021_2023" => "USDA Food and Nutrient Database for Dietary Studies 2021–2023",
        "CIQUAL_2020" => "Anses, Ciqual food composition table 2020",
        "PAPER" => say("Published paper"),
        "CALC" => say("Calculated"),
        other => other,
    }
}
