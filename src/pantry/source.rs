//! Who says what something weighs, written out only where it is shown.

use super::{Listed, PublishedMeasure, StartingDensity};
use crate::measure::trimmed;
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
            Source::Weighed => f.write_str("Weighed"),
            Source::OwnCup { date } if date.is_empty() => f.write_str("Your own cup, weighed"),
            Source::OwnCup { date } => write!(f, "Your own cup, weighed, {date}"),
            Source::OwnFigure => f.write_str("Your own figure, typed in"),
            Source::Measure(measure) => f.write_str(&measure.source()),
            Source::Row(row) => f.write_str(&row.source()),
            Source::Starting(starting) => {
                let (low, high) = (trimmed(starting.low, 2), trimmed(starting.high, 2));
                let provenance = starting.provenance;
                write!(f, "Starting figure of {low}–{high} g/ml, {provenance}. Weigh yours")?;
                if starting.note.is_empty() {
                    return Ok(());
                }
                write!(f, " ({})", starting.note)
            }
            Source::Batches(name) => write!(f, "Batches of {name}"),
            Source::VolumeToVolume => f.write_str("Volume to volume: no density needed"),
        }
    }
}

impl Serialize for Source {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}
