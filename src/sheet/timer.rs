//! Timers at the stove: what is next, how long still, and whether the phone slept past it.
//!
//! A timer is kept as the moment it started, so it goes on whatever the phone does; the screen hands in the time.

use super::cook::clock;
use crate::words::say;
use serde::{Deserialize, Serialize};

/// The most timers at once.
pub const MOST_TIMERS: usize = 24;

/// A mark noticed so much too late, s, was slept past.
const SLEPT_S: f64 = 15.0;

/// A timer older than this, s, is put away by itself.
const OLDEST_S: f64 = 86_400.0;

/// What a mark calls for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Call {
    /// Turn the patty.
    Turn,
    /// Put the probe in.
    Probe,
    /// Look at the strips in the oven, and turn them.
    Look,
    /// Take the strips out.
    Out,
}

impl Call {
    /// What to do, in two words.
    pub fn says(self) -> &'static str {
        match self {
            Call::Turn => say("Turn it"),
            Call::Probe => say("Probe it"),
            Call::Look => say("Look, and turn them"),
            Call::Out => say("Take them out"),
        }
    }

    /// What the cook says when it is done.
    pub fn done(self) -> &'static str {
        match self {
            Call::Turn | Call::Look => say("Turned"),
            Call::Probe | Call::Out => say("Done"),
        }
    }
}

/// A moment to do something.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Mark {
    /// What to do.
    pub call: Call,
    /// When, s after the start.
    pub after_s: f64,
    /// When it was first noticed, ms since 1970; nothing while it lies ahead.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rang_ms: Option<f64>,
}

/// A patty in the pan.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Timer {
    /// Its number.
    pub id: u32,
    /// Which patty: `90 g, round`.
    pub name: String,
    /// Where it lies: `front left`; may be empty.
    #[serde(default)]
    pub place: String,
    /// When it went in, ms since 1970.
    pub started_ms: f64,
    /// What is to be done still, in order.
    pub marks: Vec<Mark>,
}

/// A timer as it stands now.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Face {
    /// `90 g, round · front left`.
    pub title: String,
    /// What is next.
    pub call: Option<Call>,
    /// `1:20` to go, or `0:15` over.
    pub clock: String,
    /// True once it is time.
    pub due: bool,
    /// That the phone slept past it, in a sentence; empty otherwise.
    pub slept: String,
}

impl Timer {
    /// Starts a timer now; marks in rising order.
    pub fn start(id: u32, name: &str, place: &str, now_ms: f64, marks: &[(Call, u32)]) -> Self {
        Self {
            id,
            name: name.to_owned(),
            place: place.trim().chars().take(40).collect(),
            started_ms: now_ms,
            marks: marks
                .iter()
                .map(|(call, seconds)| Mark {
                    call: *call,
                    after_s: f64::from(*seconds),
                    rang_ms: None,
                })
                .collect(),
        }
    }

    /// How it stands.
    pub fn face(&self, now_ms: f64) -> Face {
        let title = if self.place.is_empty() {
            self.name.clone()
        } else {
            format!("{} · {}", self.name, self.place)
        };
        let Some(mark) = self.marks.first() else {
            return Face {
                title,
                call: None,
                clock: clock(0),
                due: false,
                slept: String::new(),
            };
        };
        let left_s = self.left_s(mark, now_ms);
        let late_s = mark.rang_ms.map_or(0.0, |rang_ms| -self.left_s(mark, rang_ms));
        Face {
            title,
            call: Some(mark.call),
            // Counting down shows the second that is running; a clock set back shows no more than the whole.
            clock: clock(left_s.abs().ceil().min(OLDEST_S) as u32),
            due: left_s <= 0.0,
            slept: if late_s > SLEPT_S {
                say!(
                    "The phone was asleep: this was due {late} before it could ring.",
                    late = clock(late_s.min(OLDEST_S) as u32)
                )
            } else {
                String::new()
            },
        }
    }

    fn left_s(&self, mark: &Mark, now_ms: f64) -> f64 {
        mark.after_s.min(mark.after_s - (now_ms - self.started_ms) / 1000.0)
    }

    /// Notices what is due; true where it was not noticed before, so that it must ring.
    pub fn notice(&mut self, now_ms: f64) -> bool {
        let left_s = self.marks.first().map(|mark| self.left_s(mark, now_ms));
        match self.marks.first_mut() {
            Some(mark) if mark.rang_ms.is_none() && left_s.is_some_and(|left_s| left_s <= 0.0) => {
                mark.rang_ms = Some(now_ms);
                true
            }
            _ => false,
        }
    }

    /// Takes the mark that is next as done; false once nothing is left.
    pub fn take(&mut self) -> bool {
        if !self.marks.is_empty() {
            self.marks.remove(0);
        }
        !self.marks.is_empty()
    }
}

/// Writes timers for keeping.
pub fn write(timers: &[Timer]) -> String {
    serde_json::to_string(timers).unwrap_or_default()
}

/// Reads timers that were kept; what cannot be read, or is a day old, is left out.
pub fn read(text: &str, now_ms: f64) -> Vec<Timer> {
    let kept: Vec<serde_json::Value> = serde_json::from_str(text).unwrap_or_default();
    kept.into_iter()
        .filter_map(|timer| serde_json::from_value::<Timer>(timer).ok())
        .filter(|timer| !timer.marks.is_empty() && (now_ms - timer.started_ms) / 1000.0 < OLDEST_S)
        .take(MOST_TIMERS)
        .collect()
}
