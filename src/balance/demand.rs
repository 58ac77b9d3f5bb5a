//! One thing asked of a mix, as a sum over its lines.

use crate::formula::{Profile, Reading, Weighed};
use crate::measure::{fixed, trimmed};
use crate::pantry::Role;
use crate::words::say;

/// What is asked of the mix: `Σ weigh(line)·m` at least, or at most, zero.
#[derive(Clone)]
pub(super) struct Demand {
    pub about: About,
    pub bound: f64,
    pub at_least: bool,
    /// A wish of the remedy; the others only keep what is right from going wrong.
    pub wished: bool,
}

#[derive(Clone, Copy, PartialEq)]
pub(super) enum About {
    Reading(Reading),
    Share(Role),
}

impl Demand {
    /// What one gram of a line adds to it.
    pub fn weigh(&self, profile: &Profile) -> f64 {
        match self.about {
            About::Reading(reading) => reading.above(profile, self.bound),
            About::Share(role) => profile.role(role) - self.bound / 100.0,
        }
    }

    /// "Water in the mix should be at most 65 %; this gets it to 66.2 %".
    pub fn missed_in(&self, mix: &Weighed) -> String {
        let gets_to = match self.about {
            About::Reading(reading) => reading.of(mix).value.estimate().map(|e| e.value),
            About::Share(role) => Some(100.0 * mix.by_role()[role.index()] / mix.total.value),
        };
        let decimals = (decimals(&self.bound_said()) + 1).max(2);
        say!(
            "{demand}; this gets it to {value}",
            demand = self.said(),
            value = self.with_unit(gets_to.map_or("–".into(), |value| fixed(value, decimals)))
        )
    }

    /// "Water in the mix should be at most 65 %".
    pub fn said(&self) -> String {
        let (name, bound) = (self.name(), self.with_unit(self.bound_said()));
        if self.at_least {
            say!("{name} should be at least {bound}", name, bound)
        } else {
            say!("{name} should be at most {bound}", name, bound)
        }
    }

    /// A figure with the unit of what it speaks of: "65 %", or "2.4" for a plain ratio.
    fn with_unit(&self, figure: String) -> String {
        match self.about {
            About::Reading(reading) if reading.unit().is_empty() => figure,
            About::Reading(reading) => figure + " " + reading.unit(),
            About::Share(_) => figure + " %",
        }
    }

    /// What it speaks of: "Water in the mix".
    pub fn name(&self) -> String {
        match self.about {
            About::Reading(reading) => reading.name().to_owned(),
            About::Share(role) => say!("{role} in the mix", role = role.name()),
        }
    }

    /// A bound as it was typed; a share that was worked out, to a tenth.
    fn bound_said(&self) -> String {
        match self.about {
            About::Reading(_) => trimmed(self.bound, 6),
            About::Share(_) => fixed(self.bound, 1),
        }
    }
}

/// Figures behind the decimal mark: 2 in "0.15".
fn decimals(text: &str) -> u8 {
    let behind = text.split_once(['.', ',']).map_or(0, |(_, behind)| behind.len());
    u8::try_from(behind).unwrap_or(u8::MAX - 1)
}
