//! The report: what comes back for a document.
//!
//! Masses in grams, percentages as numbers. Every estimate has `sd`, one standard deviation in the same unit.
//! Unknown is `null` with a `why`, never 0.

use crate::formula::{Formula, Kitchen, Reading, ReadingValue, Value, Weighed, WeighedLine};
use crate::pantry::Source;
use crate::words::say;
use serde::Serialize;

pub use super::answer::Answer;

/// The format of the report.
pub const REPORT_FORMAT: &str = "pattywright-report/1";

/// The whole report.
#[derive(Clone, Debug, Serialize)]
pub struct Report {
    /// `pattywright-report/1`.
    pub format: &'static str,
    /// What could not be understood or answered.
    pub problems: Vec<Problem>,
    /// Every formula, weighed and read.
    pub formulas: Vec<FormulaReport>,
    /// One answer for each question, in their order.
    pub answers: Vec<Answer>,
}

/// Something that could not be understood, and where.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Problem {
    /// The place in the document: `formulas[0].lines[3]`.
    #[serde(rename = "where")]
    pub place: String,
    /// What is the matter and what to do, in a sentence.
    pub say: String,
}

impl Problem {
    /// A problem at a place.
    pub fn at(place: impl Into<String>, say: impl Into<String>) -> Problem {
        Problem {
            place: place.into(),
            say: say.into(),
        }
    }
}

/// One formula, weighed and read.
#[derive(Clone, Debug, Serialize)]
pub struct FormulaReport {
    /// Its id.
    pub id: String,
    /// Sum of the lines that have grams, g.
    pub total_g: f64,
    /// One standard deviation of it, g.
    pub total_sd: f64,
    /// False where a line still wants weighing, so that the total is "at least".
    pub complete: bool,
    /// Its lines, in the order written.
    pub lines: Vec<LineReport>,
    /// Readings by name.
    pub readings: Readings,
}

/// One line, weighed.
#[derive(Clone, Debug, Serialize)]
pub struct LineReport {
    /// Name.
    pub name: String,
    /// What it does.
    pub role: &'static str,
    /// g; `null` with `why` where it wants weighing.
    pub grams: Option<f64>,
    /// One standard deviation, g.
    pub sd: Option<f64>,
    /// Percent of the whole mix.
    pub share: Option<f64>,
    /// Percent of the base.
    pub bakers_percentage: Option<f64>,
    /// `calibration`, `table`, `weight`, `entry`, `starting` or `formula`.
    pub grams_from: Option<&'static str>,
    /// The same in words.
    pub source: Option<Source>,
    /// Why there are no grams.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
}

/// One reading with its window.
#[derive(Clone, Debug, Serialize)]
pub struct ReadingReport {
    /// The figure; `null` with `why` where it is not known.
    pub value: Option<f64>,
    /// One standard deviation.
    pub sd: Option<f64>,
    /// Lower end of the window; `null` where none is known for the style.
    pub low: Option<f64>,
    /// Upper end of the window.
    pub high: Option<f64>,
    /// Who says so.
    pub window_source: Option<&'static str>,
    /// Why there is no figure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
    /// The least it can be, where lines without a figure leave it open.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_least: Option<f64>,
    /// The most it can be.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_most: Option<f64>,
}

/// Readings by name, in the order shown.
#[derive(Clone, Debug)]
pub struct Readings(pub Vec<(Reading, ReadingReport)>);

impl Serialize for Readings {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(reading, report)| (reading.id(), report)))
    }
}

impl Readings {
    /// Reports readings as they were read.
    pub fn of(readings: &[(Reading, ReadingValue)]) -> Readings {
        Readings(
            readings
                .iter()
                .map(|(reading, value)| (*reading, ReadingReport::of(value)))
                .collect(),
        )
    }
}

impl ReadingReport {
    fn of(reading: &ReadingValue) -> ReadingReport {
        let mut report = ReadingReport {
            value: None,
            sd: None,
            low: reading.window.map(|window| window.low),
            high: reading.window.map(|window| window.high),
            window_source: reading.window.map(|window| say(window.source)),
            why: None,
            at_least: None,
            at_most: None,
        };
        match &reading.value {
            Value::Known(estimate) => {
                report.value = Some(estimate.value);
                report.sd = Some(estimate.sd);
            }
            Value::Between {
                at_least,
                at_most,
                lines,
            } => {
                report.at_least = Some(*at_least);
                report.at_most = at_most.is_finite().then_some(*at_most);
                report.why = Some(say!("Nobody has said what is in {lines}", lines = lines.join(", ")));
            }
            Value::Unknown(why) => report.why = Some(why.clone()),
        }
        report
    }
}

impl FormulaReport {
    /// Weighs and reads a formula, and adds what is the matter with its lines to `problems`.
    pub(super) fn of(kitchen: &Kitchen, formula: &Formula, place: &str, problems: &mut Vec<Problem>) -> FormulaReport {
        let weighed = kitchen.weigh(formula);
        for (index, line) in weighed.lines.iter().enumerate() {
            if let Err(why) = &line.amount {
                problems.push(Problem::at(
                    format!("{place}.lines[{index}]"),
                    format!("{}: {why}", line.name),
                ));
            }
        }
        FormulaReport {
            id: formula.id.clone(),
            total_g: weighed.total.value,
            total_sd: weighed.total.sd,
            complete: weighed.complete(),
            readings: Readings::of(&weighed.readings()),
            lines: LineReport::all(weighed),
        }
    }
}

impl LineReport {
    /// Reports every line; the names move from the lines to the report.
    fn all(mut weighed: Weighed) -> Vec<LineReport> {
        let figures = |line: &WeighedLine| (weighed.share(line), weighed.bakers_percentage(line));
        let figures: Vec<_> = weighed.lines.iter().map(figures).collect();
        let lines = weighed.lines.iter_mut().zip(figures);
        lines.map(|(line, figures)| LineReport::of(line, figures)).collect()
    }

    fn of(line: &mut WeighedLine, (share, bakers_percentage): (Option<f64>, Option<f64>)) -> LineReport {
        let amount = line.amount.as_ref().ok();
        LineReport {
            name: std::mem::take(&mut line.name),
            role: line.role.id(),
            grams: amount.map(|amount| amount.grams.value),
            sd: amount.map(|amount| amount.grams.sd),
            share,
            bakers_percentage,
            grams_from: amount.map(|amount| amount.from.id()),
            source: amount.map(|amount| amount.source.clone()),
            why: line.amount.as_ref().err().map(ToString::to_string),
        }
    }
}
