//! The saved document: everything the cook has, as one versioned JSON text.
//!
//! It serves storage, backup files and the JavaScript interface alike.
//! Unknown versions and broken files are refused with a sentence and change nothing.
//! Amounts are kept as typed; grams are always worked out anew.
//!
//! # Example
//! ```
//! let text = r#"{
//!   "format": "pattywright/1",
//!   "settings": { "cup": "us" },
//!   "formulas": [ { "id": "shed_patty", "name": "Shed patty", "style": "standard_patty", "lines": [
//!     { "ingredient": "tvp_soy_granules", "amount": "1 3/4 cups" },
//!     { "ingredient": "water", "amount": "400 ml" },
//!     { "ingredient": "methylcellulose", "amount": "11 g" } ] } ],
//!   "questions": [ { "ask": "convert", "ingredient": "table_salt", "amount": "1 tsp", "to": "g" } ]
//! }"#;
//! let asked = pattywright::document::read(text).unwrap();
//! assert!(asked.problems.is_empty());
//! let report = pattywright::document::evaluate(&asked);
//! let answer = serde_json::to_value(&report.answers[0]).unwrap();
//! assert_eq!(format!("{:.1}", answer["value"].as_f64().unwrap()), "6.0");
//! ```

mod add;
mod answer;
mod cooking;
mod evaluate;
mod merge;
mod paste;
mod question;
mod report;

pub use add::add;
pub use answer::{CookAnswer, FieldAnswer, PattyAnswer, Point, SlabAnswer, Told};
pub use cooking::{Build, Cooking, MOST_BUILDS};
pub use evaluate::evaluate;
pub use merge::{Copied, Merged, merge};
pub use paste::{LONGEST_PASTE, PasteProblem, Pasted, Understood, paste};
pub use question::{CookQuestion, FaceQuestion, PattyQuestion, Question, SlabQuestion};
pub use report::{Answer, FormulaReport, LineReport, Problem, ReadingReport, Report};

use crate::formula::{Batch, Formula, Kitchen, LARGEST_BATCH_G};
use crate::measure::{Cup, Degrees, Habits, Length};
use crate::pantry::{Entry, Pantry};
use crate::words::{Language, say};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use std::collections::BTreeMap;

/// The format this version reads and writes.
pub const FORMAT: &str = "pattywright/1";
/// The longest text read, bytes.
pub const LONGEST_TEXT: usize = 4_000_000;
/// The most formulas in a document.
pub const MOST_FORMULAS: usize = 2_000;
/// The most lines in a formula.
pub const MOST_LINES: usize = 300;
/// The most pantry entries in a document.
pub const MOST_ENTRIES: usize = 5_000;
/// The most questions answered at once.
pub const MOST_QUESTIONS: usize = 1_000;

/// Everything the cook has.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Document {
    /// [`FORMAT`].
    pub format: &'static str,
    /// How this cook measures.
    pub settings: Settings,
    /// Own ingredients, own cups, own panels.
    pub pantry: Vec<Entry>,
    /// Formulas, in the cook's order.
    pub formulas: Vec<Formula>,
    /// What stands on the scale.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub weighing: Option<Weighing>,
    /// What goes into the pan.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cooking: Option<Cooking>,
}

/// How this cook measures.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// Which cup a recipe means.
    pub cup: Cup,
    /// The smallest step the scale shows, g.
    pub scale_step_g: f64,
    /// The degrees on the thermometer.
    #[serde(skip_serializing_if = "is_default")]
    pub degrees: Degrees,
    /// The marks on the ruler.
    #[serde(skip_serializing_if = "is_default")]
    pub length: Length,
    /// The language; none leaves it to the browser.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub language: Option<Language>,
    /// True while the document is the demonstration.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub demo: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Settings {
            cup: Cup::default(),
            scale_step_g: Habits::default().scale_step_grams,
            degrees: Degrees::default(),
            length: Length::default(),
            language: None,
            demo: false,
        }
    }
}

/// The batch on the scale: how much, and what has gone in.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Weighing {
    /// Which formula.
    pub formula: String,
    /// How much of it.
    pub batch: Batch,
    /// What is in the bowl, g, by line key.
    #[serde(default)]
    pub poured: BTreeMap<u32, f64>,
    /// What the batch grew by after an over-pour; 1 if nothing was.
    #[serde(default = "one")]
    pub growth: f64,
}

impl Weighing {
    /// Whether a bowl can hold what was poured, and the batch grew as batches do: nothing can be taken out again.
    fn possible(&self) -> bool {
        let weight = |grams: &f64| (0.0..=LARGEST_BATCH_G).contains(grams);
        self.poured.values().all(weight) && (1.0..=LARGEST_BATCH_G).contains(&self.growth)
    }
}

fn one() -> f64 {
    1.0
}

fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

impl Default for Document {
    fn default() -> Self {
        Document {
            format: FORMAT,
            settings: Settings::default(),
            pantry: Vec::new(),
            formulas: Vec::new(),
            weighing: None,
            cooking: None,
        }
    }
}

impl Document {
    /// The kitchen that weighs this document's formulas.
    pub fn kitchen(&self) -> Kitchen<'_> {
        Kitchen {
            pantry: Pantry::new(&self.pantry, self.settings.cup),
            formulas: &self.formulas,
            habits: Habits {
                scale_step_grams: self.settings.scale_step_g,
                ..Habits::default()
            },
        }
    }

    /// The document as saved.
    pub fn write(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// The document as a file to keep; `when`, as `2026-11-25 18:40`, comes back as [`Asked::saved`].
    pub fn write_backup(&self, when: &str) -> String {
        let saved = serde_json::Value::from(when);
        let text = self.write();
        text.strip_prefix('{')
            .map_or_else(String::new, |rest| format!("{{\"saved\":{saved},{rest}"))
    }

    /// An id of its own for a thing called `name`, among ids `taken`.
    pub fn free_id<'a>(name: &str, taken: impl Iterator<Item = &'a str> + Clone) -> String {
        let stem: String = name
            .to_ascii_lowercase()
            .split(|c: char| !c.is_ascii_alphanumeric())
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join("_");
        let stem = if stem.is_empty() { "mine".to_owned() } else { stem };
        let free = |id: &str| taken.clone().all(|other| other != id);
        if free(&stem) {
            return stem;
        }
        (2u32..)
            .map(|n| format!("{stem}_{n}"))
            .find(|id| free(id))
            .unwrap_or(stem)
    }
}

/// A document read, with the questions asked along with it and what could not be understood.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// The document.
    pub document: Document,
    /// When it was made into a backup, in the words of the phone that did; nothing where the file does not say.
    pub saved: Option<String>,
    /// Its questions, as they stand.
    pub questions: Vec<Value>,
    /// Parts that could not be read; the rest stands.
    pub problems: Vec<Problem>,
}

/// Why a text is not a document at all. Nothing was changed.
#[derive(Clone, PartialEq, Debug)]
pub enum Unreadable {
    /// Longer than [`LONGEST_TEXT`].
    TooLong,
    /// Not JSON: where it stops making sense.
    NotJson {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// JSON, but not a document of this project.
    NotADocument,
    /// A version from the future.
    UnknownVersion(String),
    /// More of something than a kitchen has: what, in the language spoken, and the most of it.
    TooMany(&'static str, usize),
}

impl std::fmt::Display for Unreadable {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&match self {
            Unreadable::TooLong => say!("This file is larger than 4 MB, too large to be a backup of this app"),
            Unreadable::NotJson { line, column } => say!(
                "This file is damaged or cut short at line {line}, column {column}. Nothing was changed",
                line,
                column
            ),
            Unreadable::NotADocument => say!("This is not a Pattywright file. Nothing was changed"),
            Unreadable::UnknownVersion(version) => say!(
                "This file is of version “{version}”, which this app does not know yet. Update the app first; nothing was changed",
                version
            ),
            Unreadable::TooMany(what, most) => say!(
                "This file has more than {most} {what}. Nothing was changed",
                most,
                what
            ),
        })
    }
}

/// Reads a document; parts that do not fit are left out and named, the rest stands.
///
/// # Errors
/// [`Unreadable`] where the text is no document at all.
pub fn read(text: &str) -> Result<Asked, Unreadable> {
    if text.len() > LONGEST_TEXT {
        return Err(Unreadable::TooLong);
    }
    let value: Value = serde_json::from_str(text).map_err(|error| Unreadable::NotJson {
        line: error.line(),
        column: error.column(),
    })?;
    from_value(value)
}

/// Reads a document that is already JSON; see [`read`].
///
/// # Errors
/// [`Unreadable`] where the value is no document at all.
pub fn from_value(value: Value) -> Result<Asked, Unreadable> {
    let Value::Object(mut fields) = value else {
        return Err(Unreadable::NotADocument);
    };
    match fields.get("format").and_then(Value::as_str) {
        Some(FORMAT) => {}
        Some(other) if other.starts_with("pattywright/") => {
            return Err(Unreadable::UnknownVersion(other.chars().take(40).collect()));
        }
        _ => return Err(Unreadable::NotADocument),
    }
    let saved = fields.get("saved").and_then(Value::as_str);
    let mut asked = Asked {
        saved: saved.map(|when| when.chars().take(40).collect()),
        ..Asked::default()
    };
    let problems = &mut asked.problems;
    if let Some(settings) = fields.remove("settings") {
        asked.document.settings = part(settings, "settings", problems).unwrap_or_default();
    }
    let step = asked.document.settings.scale_step_g;
    if !(step > 0.0 && step <= 100.0) {
        asked.document.settings.scale_step_g = Settings::default().scale_step_g;
        problems.push(Problem::at(
            "settings.scale_step_g",
            say("Type the scale's step in grams, above 0 and up to 100"),
        ));
    }
    let entries: Vec<Entry> = parts(
        fields.remove("pantry"),
        "pantry",
        say("pantry entries"),
        MOST_ENTRIES,
        problems,
    )?;
    for (index, entry) in entries.into_iter().enumerate() {
        match entry.check(asked.document.settings.cup) {
            Ok(()) => asked.document.pantry.push(entry),
            Err(problem) => problems.push(Problem::at(format!("pantry[{index}]"), problem.to_string())),
        }
    }
    for (index, formula) in list(fields.remove("formulas"), "formulas", problems)
        .into_iter()
        .enumerate()
    {
        if index >= MOST_FORMULAS {
            return Err(Unreadable::TooMany(say("formulas"), MOST_FORMULAS));
        }
        let Value::Object(mut formula) = formula else {
            problems.push(Problem::at(format!("formulas[{index}]"), say("This is not a formula")));
            continue;
        };
        let place = format!("formulas[{index}].lines");
        let lines = parts(
            formula.remove("lines"),
            &place,
            say("lines in one formula"),
            MOST_LINES,
            problems,
        )?;
        let read: Option<Formula> = part(Value::Object(formula), &format!("formulas[{index}]"), problems);
        if let Some(mut formula) = read {
            formula.lines = lines;
            formula.give_keys();
            if formula.id.is_empty() {
                let taken = asked.document.formulas.iter().map(|f| f.id.as_str());
                formula.id = Document::free_id(&formula.name, taken);
            }
            if formula.name.is_empty() {
                formula.name.clone_from(&formula.id);
            }
            asked.document.formulas.push(formula);
        }
    }
    if let Some(weighing) = fields.remove("weighing") {
        let read: Option<Weighing> = part(weighing, "weighing", problems);
        if read.as_ref().is_some_and(|weighing| !weighing.possible()) {
            problems.push(Problem::at(
                "weighing",
                say("What stands on the scale has a weight that cannot be. Weigh that batch again"),
            ));
        }
        asked.document.weighing = read.filter(Weighing::possible);
    }
    if let Some(cooking) = fields.remove("cooking") {
        let read: Option<Cooking> = part(cooking, "cooking", problems);
        asked.document.cooking = read.filter(|cooking| (1..=MOST_BUILDS).contains(&cooking.builds.len()));
    }
    asked.questions = list(fields.remove("questions"), "questions", problems);
    if asked.questions.len() > MOST_QUESTIONS {
        return Err(Unreadable::TooMany(say("questions"), MOST_QUESTIONS));
    }
    Ok(asked)
}

fn list(value: Option<Value>, place: &str, problems: &mut Vec<Problem>) -> Vec<Value> {
    match value {
        None | Some(Value::Null) => Vec::new(),
        Some(Value::Array(items)) => items,
        Some(_) => {
            problems.push(Problem::at(place, say("This should be a list")));
            Vec::new()
        }
    }
}

fn parts<T: DeserializeOwned>(
    value: Option<Value>,
    place: &str,
    what: &'static str,
    most: usize,
    problems: &mut Vec<Problem>,
) -> Result<Vec<T>, Unreadable> {
    let items = list(value, place, problems);
    if items.len() > most {
        return Err(Unreadable::TooMany(what, most));
    }
    Ok(items
        .into_iter()
        .enumerate()
        .filter_map(|(index, item)| part(item, &format!("{place}[{index}]"), problems))
        .collect())
}

fn part<T: DeserializeOwned>(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<T> {
    match serde_json::from_value(value) {
        Ok(part) => Some(part),
        Err(error) => {
            problems.push(Problem::at(
                place,
                say!("This part does not fit the format: {error}", error),
            ));
            None
        }
    }
}
