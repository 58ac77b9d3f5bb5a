//! Who says what something weighs, written out only where it is shown.

use super::{Listed, PublishedMeasure, StartingDensity};
use crate::measure::trimmed;
use crate::words::say;
use serde::{Serialize, Serializer};
use std::fmt;

/// Who says what something weighs; shown as one line.
#[derive(Clone, PartialEq, Debug)]
pub enum Source {
    /// It was put on the scale, or typed as a weight.
    Weighed,
    /// The cook's own weighed cup, with the day if that was noted.
    OwnCup {
        /// As `2026-11-25`; empty where it was not noted.
        date: String,
    },
    /// The cook's typed density.
    OwnFigure,
    /// A published household measure.
    Measure(&'static PublishedMeasure),
    /// A published row's own density.
    Row(&'static Listed),
    /// A wide starting figure.
    Starting(&'static StartingDensity),
    /// The lines of another formula, by its name.
    Batches(String),
    /// From volume to volume nobody need say.
    VolumeToVolume,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Source::Weighed => f.write_str(say("Weighed")),
            Source::OwnCup { date } if date.is_empty() => f.write_str(say("Your own cup, weighed")),
            Source::OwnCup { date } => f.write_str(&say!("Your own cup, weighed, {date}", date)),
            Source::OwnFigure => f.write_str(say("Your own figure, typed in")),
            Source::Measure(measure) => f.write_str(&measure.source()),
            Source::Row(row) => f.write_str(&row.source()),
            Source::Starting(starting) => {
                f.write_str(&say!(
                    "Starting figure of {low}–{high} g/ml, {provenance}. Weigh yours",
                    low = trimmed(starting.low, 2),
                    high = trimmed(starting.high, 2),
                    provenance = say(starting.provenance)
                ))?;
                if starting.note.is_empty() {
                    return Ok(());
                }
                write!(f, " ({})", say(starting.note))
            }
            Source::Batches(name) => f.write_str(&say!("Batches of {name}", name)),
            Source::VolumeToVolume => f.write_str(say("Volume to volume: no density needed")),
        }
    }
}

impl Serialize for Source {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}
