//! The readings: ratios that decide whether a mix holds, each with its spread and its window.
//!
//! Every reading is `scale · N / D` with `N = Σ n·m` and `D = Σ d·m` over the lines.
//! Its spread follows from the lines' spreads by the gradient `∂r/∂m = scale · (n − r·d) / D`, lines being independent.
//! The spread of the food tables themselves is left out on purpose; the tables' notes put it at 10–20 % for a single retail product.

use super::{Component, Part, Profile, Weighed, WeighedLine, Window};
use crate::measure::Estimate;
use crate::pantry::Role;
use crate::words::say;

/// Shares of lines without a figure are counted half-way, with their whole range as spread, up to this share of the mix.
const SMALL_UNKNOWN: f64 = 0.02;

/// A ratio read off the mix.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Reading {
    /// Water of the liquids to dry textured protein, by weight.
    Hydration,
    /// All water, percent of the mix.
    Moisture,
    /// Protein, percent of the mix.
    Protein,
    /// Fat, percent of the mix.
    Fat,
    /// Salt (sodium × 2.5), percent of the mix.
    Salt,
    /// Binder, percent of the mix.
    BinderShare,
    /// Binder, g to 100 g of water: what gel strength depends on.
    BinderInWaterPhase,
    /// Protein powder to textured protein, by weight.
    PowderToTextured,
    /// Fat that is hard in the fridge, percent of the mix.
    SolidFatShare,
}

/// A reading and what to make of it.
#[derive(Clone, Debug)]
pub struct ReadingValue {
    /// The figure, or why there is none.
    pub value: Value,
    /// The good range for the style, if one is known.
    pub window: Option<&'static Window>,
}

/// A reading's figure.
#[derive(Clone, PartialEq, Debug)]
pub enum Value {
    /// A figure with one standard deviation.
    Known(Estimate),
    /// Lines without a figure for it are too large a part of the mix: it lies between these two.
    Between {
        /// If those lines hold none.
        at_least: f64,
        /// If they are nothing else.
        at_most: f64,
        /// The lines.
        lines: Vec<String>,
    },
    /// No figure, and why.
    Unknown(String),
}

impl Value {
    /// The figure where it is known.
    pub fn estimate(&self) -> Option<Estimate> {
        match self {
            Value::Known(estimate) => Some(*estimate),
            _ => None,
        }
    }
}

impl Reading {
    /// Every reading, in the order shown.
    pub const ALL: [Reading; 9] = [
        Reading::Hydration,
        Reading::BinderShare,
        Reading::BinderInWaterPhase,
        Reading::Moisture,
        Reading::Protein,
        Reading::Fat,
        Reading::SolidFatShare,
        Reading::Salt,
        Reading::PowderToTextured,
    ];

    /// The name used in documents and reports.
    pub fn id(self) -> &'static str {
        match self {
            Reading::Hydration => "hydration",
            Reading::Moisture => "moisture",
            Reading::Protein => "protein",
            Reading::Fat => "fat",
            Reading::Salt => "salt",
            Reading::BinderShare => "binder_share",
            Reading::BinderInWaterPhase => "binder_in_water_phase",
            Reading::PowderToTextured => "powder_to_textured",
            Reading::SolidFatShare => "solid_fat_share",
        }
    }

    /// Finds a reading by its id.
    pub fn from_id(id: &str) -> Option<Reading> {
        Reading::ALL.into_iter().find(|reading| reading.id() == id)
    }

    /// The words on screen.
    pub fn name(self) -> &'static str {
        match self {
            Reading::Hydration => say("Hydration"),
            Reading::Moisture => say("Water in the mix"),
            Reading::Protein => say("Protein"),
            Reading::Fat => say("Fat"),
            Reading::Salt => say("Salt"),
            Reading::BinderShare => say("Binder in the mix"),
            Reading::BinderInWaterPhase => say("Binder to 100 g water"),
            Reading::PowderToTextured => say("Powder to textured"),
            Reading::SolidFatShare => say("Solid fat"),
        }
    }

    /// What the figure means, in one sentence.
    pub fn meaning(self) -> &'static str {
        match self {
            Reading::Hydration => say("Grams of water from the liquids for each gram of dry textured protein."),
            Reading::Moisture => say("All the water in the mix, from every line."),
            Reading::Protein => say("Protein from every line."),
            Reading::Fat => say("Fat from every line."),
            Reading::Salt => say("All sodium counted as salt (sodium × 2.5), soy sauce and pastes too."),
            Reading::BinderShare => say("Methylcellulose, gums and other gelling agents."),
            Reading::BinderInWaterPhase => say("How strong the gel can get: grams of binder for 100 g of water."),
            Reading::PowderToTextured => say("Grams of protein powder for each gram of textured protein."),
            Reading::SolidFatShare => say("Fat that is hard in the fridge; it melts in the pan."),
        }
    }

    /// The unit behind the figure; empty for a plain ratio.
    pub fn unit(self) -> &'static str {
        match self {
            Reading::Hydration | Reading::PowderToTextured => "",
            Reading::BinderInWaterPhase => "g",
            _ => "%",
        }
    }

    fn scale(self) -> f64 {
        if self.unit().is_empty() { 1.0 } else { 100.0 }
    }

    /// What one gram of a line adds to the top of the ratio.
    fn top(self, profile: &Profile) -> Part {
        match self {
            Reading::Hydration => profile.liquid_water(),
            Reading::Moisture => profile.component(Component::Water),
            Reading::Protein => profile.component(Component::Protein),
            Reading::Fat => profile.component(Component::Fat),
            Reading::Salt => profile.component(Component::Salt),
            Reading::BinderShare | Reading::BinderInWaterPhase => Part::exactly(profile.role(Role::Binder)),
            Reading::PowderToTextured => Part::exactly(profile.role(Role::Powder)),
            Reading::SolidFatShare => Part::exactly(profile.solid_fat()),
        }
    }

    /// What one gram of a line adds to the bottom of the ratio.
    fn bottom(self, profile: &Profile) -> Part {
        match self {
            Reading::Hydration | Reading::PowderToTextured => Part::exactly(profile.role(Role::Textured)),
            Reading::BinderInWaterPhase => profile.component(Component::Water),
            _ => Part::exactly(1.0),
        }
    }

    /// What one gram of a line adds to `N − bound·D`, so that "reading ≥ bound" is a sum over lines ≥ 0.
    ///
    /// Unknown shares count as their middle, as in [`Reading::of`].
    pub fn above(self, profile: &Profile, bound: f64) -> f64 {
        let middle = |part: Part| part.known + part.unknown / 2.0;
        middle(self.top(profile)) - bound / self.scale() * middle(self.bottom(profile))
    }

    /// Reads the mix.
    pub fn of(self, weighed: &Weighed) -> ReadingValue {
        ReadingValue {
            value: self.value(weighed),
            window: weighed.style.and_then(|style| Window::of(style, self)),
        }
    }

    fn value(self, weighed: &Weighed) -> Value {
        if !weighed.complete() {
            return Value::Unknown(say!("Weigh first: {lines}", lines = weighed.missing().join(", ")));
        }
        let (mut top, mut bottom) = (Part::default(), Part::default());
        for (line, grams) in weighed.known() {
            top.add(self.top(&line.profile), grams.value);
            bottom.add(self.bottom(&line.profile), grams.value);
        }
        if bottom.known + bottom.unknown <= 0.0 {
            return Value::Unknown(self.no_bottom().into());
        }
        let unknown = top.unknown.max(bottom.unknown) / weighed.total.value;
        if unknown > SMALL_UNKNOWN {
            let most = bottom.known + bottom.unknown;
            return Value::Between {
                at_least: self.scale() * top.known / most,
                at_most: self.scale() * (top.known + top.unknown) / bottom.known.max(f64::MIN_POSITIVE),
                lines: self.unknown_lines(weighed),
            };
        }
        let denominator = bottom.known + bottom.unknown / 2.0;
        let ratio = (top.known + top.unknown / 2.0) / denominator;
        let measured: f64 = self
            .gradient(weighed, ratio, denominator)
            .zip(weighed.known())
            .map(|(slope, (_, grams))| (slope * grams.sd).powi(2))
            .sum();
        // An unknown share lies anywhere in its range: an even spread.
        let unsure = |part: f64| (part / denominator).powi(2) / 12.0;
        let variance = measured + unsure(top.unknown) + unsure(bottom.unknown * ratio);
        Value::Known(Estimate {
            value: self.scale() * ratio,
            sd: self.scale() * variance.sqrt(),
        })
    }

    /// Slope of the unscaled ratio against each known line's grams, 1/g.
    fn gradient(self, weighed: &Weighed, ratio: f64, denominator: f64) -> impl Iterator<Item = f64> + '_ {
        let middle = |part: Part| part.known + part.unknown / 2.0;
        weighed.known().map(move |(line, _)| {
            (middle(self.top(&line.profile)) - ratio * middle(self.bottom(&line.profile))) / denominator
        })
    }

    /// Each line's share of the reading's variance, largest first: what to put on the scale.
    pub fn spread_by_line(self, weighed: &Weighed) -> Vec<(&WeighedLine, f64)> {
        let Value::Known(estimate) = self.value(weighed) else {
            return Vec::new();
        };
        let ratio = estimate.value / self.scale();
        let denominator: f64 = weighed
            .known()
            .map(|(line, grams)| {
                let part = self.bottom(&line.profile);
                (part.known + part.unknown / 2.0) * grams.value
            })
            .sum();
        let mut shares: Vec<(&WeighedLine, f64)> = self
            .gradient(weighed, ratio, denominator)
            .zip(weighed.known())
            .map(|(slope, (line, grams))| (line, (slope * grams.sd * self.scale() / estimate.sd).powi(2)))
            .filter(|(_, share)| share.is_finite())
            .collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        shares
    }

    fn unknown_lines(self, weighed: &Weighed) -> Vec<String> {
        weighed
            .known()
            .filter(|(line, _)| self.top(&line.profile).unknown + self.bottom(&line.profile).unknown > 0.0)
            .map(|(line, _)| line.name.clone())
            .collect()
    }

    fn no_bottom(self) -> &'static str {
        match self {
            Reading::Hydration | Reading::PowderToTextured => say("No textured protein in it"),
            Reading::BinderInWaterPhase => say("No water in it"),
            _ => say("Nothing in it yet"),
        }
    }
}
