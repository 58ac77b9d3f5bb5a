//! The good range of each reading for what is being made, and who says so.

use super::Reading;
use crate::words::say;
use serde::{Deserialize, Serialize};

/// What is made of a mix.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Style {
    /// A patty about as thick as a finger.
    StandardPatty,
    /// A thin, pressed patty.
    ThinPatty,
    /// A ball.
    Meatball,
    /// A sausage.
    Sausage,
    /// Loose crumbs for the pan.
    Crumble,
    /// Strips or thin sheets.
    Strip,
    /// A sauce, glaze, fat or topping: no windows apply.
    Component,
}

impl Style {
    /// Every style.
    pub const ALL: [Style; 7] = [
        Style::StandardPatty,
        Style::ThinPatty,
        Style::Meatball,
        Style::Sausage,
        Style::Crumble,
        Style::Strip,
        Style::Component,
    ];

    /// The words on screen.
    pub fn name(self) -> &'static str {
        match self {
            Style::StandardPatty => say("standard patty"),
            Style::ThinPatty => say("thin patty"),
            Style::Meatball => say("meatball"),
            Style::Sausage => say("sausage"),
            Style::Crumble => say("crumble"),
            Style::Strip => say("strip"),
            Style::Component => say("sauce, glaze or fat"),
        }
    }
}

/// The good range of one reading.
#[derive(Clone, Copy, Debug)]
pub struct Window {
    /// For what.
    pub style: Style,
    /// Which reading.
    pub reading: Reading,
    /// Lower end, in the reading's own unit.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Who says so: a source, "from memory", or "common practice, no source".
    pub source: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/windows.rs"));

impl Window {
    /// The window of a reading for a style, if one is known.
    pub fn of(style: Style, reading: Reading) -> Option<&'static Window> {
        WINDOWS
            .iter()
            .find(|window| window.style == style && window.reading == reading)
    }
}
