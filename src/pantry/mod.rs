//! What is in the cupboard: what a cup of it weighs, what it is made of, and where each number comes from.
//!
//! Published rows are carried in as their own tables (`data/*.csv`) and typed while the crate is built.
//! The cook's own entries lie over them: a calibrated cup beats a table, a table beats a guess.
//! Brands and prices are left out on purpose: a pack's own panel is the cook's to enter.

mod amount;
mod convert;
mod density;
mod entry;
mod listed;
mod names;
mod nutrients;
mod piece;
mod role;
mod search;
mod source;

pub use amount::{Amount, GramsFrom, NotWeighed};
pub use convert::Converted;
pub use density::{Density, DensityFrom};
pub use entry::{Calibration, Entry, EntryProblem, Panel, Scoop};
pub use listed::{Listed, PublishedMeasure, StartingDensity, listed};
pub use nutrients::{Nutrient, Nutrients};
pub use role::Role;
pub use search::{Index, Match, SURE, search};
pub use source::Source;

use crate::measure::Cup;
use crate::words::say;

/// Every ingredient the cook can name: the published table with the cook's own entries laid over it.
#[derive(Clone, Debug)]
pub struct Pantry<'a> {
    entries: &'a [Entry],
    cup: Cup,
}

impl<'a> Pantry<'a> {
    /// Lays the cook's `entries` over the published table; `cup` is the cup meant where none is named.
    pub fn new(entries: &'a [Entry], cup: Cup) -> Self {
        Pantry { entries, cup }
    }

    /// The cup that amounts are read with.
    pub fn cup(&self) -> Cup {
        self.cup
    }

    /// Finds an ingredient by its id.
    pub fn get(&self, id: &str) -> Option<Ingredient<'a>> {
        let entry = self.entries.iter().find(|entry| entry.id == id);
        let base = match entry {
            Some(entry) => entry.like.as_deref().map_or_else(|| listed(id), listed),
            None => listed(id),
        };
        (entry.is_some() || base.is_some()).then_some(Ingredient { base, entry })
    }

    /// Every ingredient offered by name, the cook's own first.
    pub fn all(&self) -> impl Iterator<Item = Ingredient<'a>> + '_ {
        let own = self.entries.iter().filter_map(|entry| self.get(&entry.id));
        let table = listed::LISTED
            .iter()
            .filter(|row| row.group != "comparison_only")
            .filter(|row| self.entries.iter().all(|entry| entry.id != row.id))
            .map(|row| Ingredient {
                base: Some(row),
                entry: None,
            });
        own.chain(table)
    }
}

/// One ingredient: a published row, the cook's own entry, or an entry over a row.
#[derive(Clone, Copy, Debug)]
pub struct Ingredient<'a> {
    base: Option<&'static Listed>,
    entry: Option<&'a Entry>,
}

impl<'a> Ingredient<'a> {
    /// Its id, as saved in documents.
    pub fn id(&self) -> &'a str {
        match (self.entry, self.base) {
            (Some(entry), _) => &entry.id,
            (None, Some(base)) => base.id,
            (None, None) => "",
        }
    }

    /// The name a cook would say, in the language spoken.
    pub fn name(&self) -> &'a str {
        match (self.entry, self.base) {
            (Some(entry), _) if !entry.name.is_empty() => &entry.name,
            (_, Some(base)) => say(base.kitchen_name),
            (Some(entry), None) => &entry.id,
            (None, None) => "",
        }
    }

    /// What it does in a patty, unless a formula says otherwise.
    pub fn role(&self) -> Role {
        self.entry
            .and_then(|entry| entry.role)
            .or(self.base.map(|base| base.role))
            .unwrap_or(Role::Filler)
    }

    /// The cook's own entry, if there is one.
    pub fn entry(&self) -> Option<&'a Entry> {
        self.entry
    }

    /// The published row behind it, if there is one.
    pub fn row(&self) -> Option<&'static Listed> {
        self.base
    }

    /// True for a fat that is hard in the fridge, so that it can be grated.
    pub fn solid_when_cold(&self) -> bool {
        self.base.is_some_and(|base| base.solid_when_cold)
    }

    /// What 100 g holds: the pack's own panel where the cook typed it, else the published row.
    pub fn nutrients(&self) -> Nutrients {
        let table = self.base.map_or(Nutrients::UNKNOWN, |base| base.nutrients);
        match self.entry.and_then(|entry| entry.panel.as_ref()) {
            Some(panel) => panel.per_100_g(),
            None => table,
        }
    }

    /// Where the composition comes from, in one line.
    pub fn composition_source(&self) -> String {
        if self.entry.is_some_and(|entry| entry.panel.is_some()) {
            return say!("The pack's own panel, typed in");
        }
        match self.base {
            Some(base) if base.composition_from_memory => {
                say!("Starting figure, from memory: replace it by the pack's own panel")
            }
            Some(base) => base.source(),
            None => say!("Not known yet: type in the pack's panel"),
        }
    }
}
