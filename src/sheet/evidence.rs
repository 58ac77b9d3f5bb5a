//! The published patties behind a window: small plots with the cook's own reading among them.

use crate::formula::Reading;
use crate::formula::evidence::{Point, Property, Trend, points};
use crate::measure::{Estimate, trimmed};
use crate::words::say;

/// What is published about a reading. Positions run from 0 (left, bottom) to 1 (right, top).
#[derive(Clone, PartialEq, Debug)]
pub struct Evidence {
    /// One plot for each property measured against the reading.
    pub plots: Vec<Plot>,
    /// What published formulas use, or that nothing is published; and whether the cook's own lies outside it all.
    pub used: String,
    /// The studies.
    pub sources: Vec<&'static str>,
}

/// A property against the reading.
#[derive(Clone, PartialEq, Debug)]
pub struct Plot {
    /// "Cook loss, %".
    pub title: String,
    /// Published patties.
    pub dots: Vec<Dot>,
    /// The trend through them.
    pub line: Vec<(f64, f64)>,
    /// Its spread, one standard deviation, in the plot's height.
    pub spread: f64,
    /// The cook's own reading; at the edge where it lies beyond.
    pub own: Option<f64>,
    /// The trend at the cook's own reading; none outside the published range.
    pub expected: Option<f64>,
    /// Left and right end of the ruler.
    pub across: (String, String),
    /// Bottom and top.
    pub up: (String, String),
    /// The whole of it in a sentence.
    pub says: String,
}

/// A published patty.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Dot {
    /// Across.
    pub x: f64,
    /// Up.
    pub y: f64,
    /// Made of textured soy isolate: drawn as a square.
    pub square: bool,
}

/// What is published about a reading, with the cook's own figure among it.
pub fn evidence(reading: Reading, own: Option<f64>) -> Evidence {
    let measured = Property::MEASURED.into_iter();
    let plots: Vec<Plot> = measured.filter_map(|property| plot(reading, property, own)).collect();
    let all = Property::MEASURED.into_iter().chain([Property::Used]);
    let mut sources: Vec<&str> = all
        .flat_map(|property| points(reading, property))
        .map(|point| point.source)
        .collect();
    sources.sort_unstable();
    sources.dedup();
    let mut used = used(reading, &plots);
    if own.is_some() && plots.iter().any(|plot| plot.expected.is_none()) {
        used.extend([
            " ",
            say("Yours lies outside what was measured, so no figure is given for it."),
        ]);
    }
    Evidence { used, plots, sources }
}

fn used(reading: Reading, plots: &[Plot]) -> String {
    let mut at: Vec<f64> = points(reading, Property::Used).map(|point| point.at).collect();
    at.sort_by(f64::total_cmp);
    at.dedup();
    match (at.first().zip(at.last()), plots.is_empty()) {
        (Some((low, high)), _) => {
            let studies = {
                let mut all: Vec<&str> = points(reading, Property::Used).map(|point| point.source).collect();
                all.sort_unstable();
                all.dedup();
                all.len()
            };
            say!(
                studies => "{studies} published study is between {low} and {high} {unit}.",
                "{studies} published studies are between {low} and {high} {unit}.",
                low = short(*low),
                high = short(*high),
                unit = reading.unit()
            )
        }
        (None, true) => say("Nothing is published that sets a texture against this reading.").into(),
        (None, false) => String::new(),
    }
}

fn plot(reading: Reading, property: Property, own: Option<f64>) -> Option<Plot> {
    let trend = Trend::of(reading, property)?;
    let measured: Vec<(&Point, f64)> = points(reading, property)
        .filter_map(|point| Some((point, point.value?)))
        .collect();
    let (first, last) = trend.range();
    let margin = 0.15 * (last - first);
    // A reading a little outside is still drawn where it is.
    let near = own.map(|own| own.clamp(first - (last - first), last + (last - first)));
    let (low, high) = near.map_or((first, last), |own| (first.min(own), last.max(own)));
    let (left, right) = ((low - margin).max(0.0), high + margin);
    let values = measured.iter().map(|(_, value)| *value);
    let top = 1.1 * (values.clone().fold(0.0, f64::max) + trend.sd);
    let across = |at: f64| ((at - left) / (right - left)).clamp(0.0, 1.0);
    let up = |value: f64| value / top;
    let expected = own.and_then(|own| trend.at(own));
    let unit = property.unit();
    let says = says(reading, property, expected, (first, last), values);
    Some(Plot {
        title: format!("{}, {unit}", property.name()),
        dots: measured
            .iter()
            .map(|(point, value)| Dot {
                x: across(point.at),
                y: up(*value),
                square: point.made_of.contains("isolate"),
            })
            .collect(),
        line: trend
            .corners
            .iter()
            .map(|(at, value)| (across(*at), up(*value)))
            .collect(),
        spread: up(trend.sd),
        own: own.map(across),
        expected: expected.map(|estimate| up(estimate.value)),
        across: (short(left), format!("{} {}", short(right), reading.unit())),
        up: ("0".into(), short(top)),
        says,
    })
}

fn says(
    reading: Reading,
    property: Property,
    expected: Option<Estimate>,
    (first, last): (f64, f64),
    values: impl Iterator<Item = f64> + Clone,
) -> String {
    let (low, high) = (
        values.clone().fold(f64::INFINITY, f64::min),
        values.fold(f64::NEG_INFINITY, f64::max),
    );
    let published = say!(
        "Published: {found} at {readings}.",
        found = format!("{}–{} {}", short(low), short(high), property.unit()),
        readings = format!("{}–{} {}", short(first), short(last), reading.unit())
    );
    match expected {
        Some(expected) => {
            let own = say!(
                "About {expected} at yours.",
                expected = format!("{} ± {} {}", short(expected.value), short(expected.sd), property.unit())
            );
            format!("{own} {published}")
        }
        None => published,
    }
}

/// One decimal, and none where it is nought.
fn short(value: f64) -> String {
    trimmed(value, 1)
}
