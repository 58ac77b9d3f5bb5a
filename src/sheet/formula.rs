//! The Formula room: what is in it, in grams and percentages, and do the ratios make sense?

use super::Figure;
use super::rule::{Place, Rule};
use crate::formula::{Formula, Kitchen, Reading, Style, Weighed, WeighedLine};
use crate::measure::{Estimate, fixed, grams};
use crate::pantry::{GramsFrom, Role};
use crate::words::{say, within};

/// A line whose part of the doubt is under this is not worth a trip to the scale.
const WORTH_WEIGHING: f64 = 0.3;

/// The whole room.
#[derive(Clone, PartialEq, Debug)]
pub struct FormulaSheet {
    /// What is made of it, as chosen or as it looks.
    pub style: Style,
    /// The mix in all.
    pub total: Figure,
    /// What the total leaves out; empty when it is whole.
    pub incomplete: String,
    /// The bowl strip.
    pub strip: Vec<StripPart>,
    /// Readings on their rulers.
    pub rules: Vec<Rule>,
    /// Lines in the order written.
    pub rows: Vec<Row>,
    /// What to put on the scale first, in a sentence; empty where nothing stands out.
    pub weigh_first: String,
    /// The line meant by it.
    pub weigh_first_key: Option<u32>,
}

/// One part of the bowl strip.
#[derive(Clone, PartialEq, Debug)]
pub struct StripPart {
    /// What it does.
    pub role: Role,
    /// Its part of the bowl, 0 to 1.
    pub part: f64,
    /// The same for the key: `22 %`.
    pub percent: String,
    /// The first line of that role, to go to when the part is tapped.
    pub first_key: Option<u32>,
}

/// One line.
#[derive(Clone, PartialEq, Debug)]
pub struct Row {
    /// The line's key.
    pub key: u32,
    /// Name.
    pub name: String,
    /// Amount as typed.
    pub amount: String,
    /// What it does.
    pub role: Role,
    /// `150 g`, or `weigh` where there are none.
    pub grams: String,
    /// `± 24 g`; empty where the scale's own step is all there is.
    pub spread: String,
    /// `78.5`; empty where there is no base.
    pub bakers: String,
    /// `21.8 %`.
    pub share: String,
    /// What is the matter with it; empty when nothing is.
    pub problem: String,
    /// Where the grams come from.
    pub source: String,
    /// True for the cook's own weighed cup.
    pub calibrated: bool,
    /// True for a wide starting figure.
    pub starting: bool,
}

impl Row {
    /// Its share of the mix, behind its baker's percentage where there is one: `78.5 · 21.8 %`.
    pub fn shares(&self) -> String {
        match (self.bakers.is_empty(), self.share.is_empty()) {
            (_, true) => String::new(),
            (true, false) => self.share.clone(),
            (false, false) => format!("{} · {}", self.bakers, self.share),
        }
    }

    /// The row without what the other lines move.
    pub fn without_shares(self) -> Row {
        Row {
            bakers: String::new(),
            share: String::new(),
            ..self
        }
    }
}

/// Works the room out.
pub fn sheet(kitchen: &Kitchen, formula: &Formula) -> FormulaSheet {
    let weighed = kitchen.weigh(formula);
    let rules: Vec<Rule> = weighed
        .readings()
        .iter()
        .map(|(reading, value)| Rule::of(*reading, value))
        .collect();
    let (weigh_first_key, weigh_first) = weigh_first(&weighed, &rules);
    FormulaSheet {
        style: weighed.style.unwrap_or(Style::Component),
        total: Figure::of(weighed.total, "g"),
        incomplete: incomplete(&weighed),
        strip: strip(&weighed),
        rows: weighed
            .lines
            .iter()
            .zip(&formula.lines)
            .map(|(line, typed)| row(&weighed, line, &typed.amount))
            .collect(),
        rules,
        weigh_first,
        weigh_first_key,
    }
}

fn incomplete(weighed: &Weighed) -> String {
    let missing = weighed.missing();
    match missing.as_slice() {
        [] => String::new(),
        [one] => say!("At least: {one} is not weighed yet", one),
        many => say!("At least: {many} lines are not weighed yet", many = many.len()),
    }
}

fn strip(weighed: &Weighed) -> Vec<StripPart> {
    let total = weighed.total.value;
    Role::ALL
        .into_iter()
        .zip(weighed.by_role())
        .filter(|(_, mass)| *mass > 0.0 && total > 0.0)
        .map(|(role, mass)| {
            let percent = 100.0 * mass / total;
            StripPart {
                role,
                part: mass / total,
                percent: format!("{} %", fixed(percent, u8::from(percent < 9.95))),
                first_key: weighed
                    .lines
                    .iter()
                    .find(|line| line.profile.role(role) > 0.0)
                    .map(|line| line.key),
            }
        })
        .collect()
}

fn row(weighed: &Weighed, line: &WeighedLine, typed: &str) -> Row {
    let amount = line.amount.as_ref().ok();
    let relative = amount.map_or(0.0, |amount| amount.grams.sd / amount.grams.value);
    let percent = |value: Option<f64>| value.map_or(String::new(), |p| fixed(p, u8::from(p < 99.95)));
    Row {
        key: line.key,
        name: line.name.clone(),
        amount: typed.to_owned(),
        role: line.role,
        grams: amount.map_or(say("weigh").into(), |amount| grams(amount.grams.value)),
        spread: amount.filter(|_| relative > 0.02).map_or(String::new(), |amount| {
            format!("± {}", grams(round_to_two(amount.grams.sd)))
        }),
        bakers: percent(weighed.bakers_percentage(line)),
        share: weighed
            .share(line)
            .map_or(String::new(), |share| format!("{} %", fixed(share, 1))),
        problem: line.amount.as_ref().err().map_or(String::new(), ToString::to_string),
        source: amount.map_or(String::new(), |amount| amount.source.to_string()),
        calibrated: amount.is_some_and(|amount| amount.from == GramsFrom::Calibration),
        starting: amount.is_some_and(|amount| amount.from == GramsFrom::Starting),
    }
}

/// Two digits are enough for a spread.
fn round_to_two(sd: f64) -> f64 {
    if sd <= 0.0 {
        return 0.0;
    }
    let digit = 10f64.powf(sd.log10().floor() - 1.0);
    (sd / digit).round() * digit
}

/// The reading whose spread is widest against its window decides; the line with most of that spread goes on the scale.
fn weigh_first(weighed: &Weighed, rules: &[Rule]) -> (Option<u32>, String) {
    let doubt = |rule: &&Rule| -> Option<f64> {
        let (low, high) = rule.whisker?;
        let (from, to) = rule.window?;
        Some((high - low) / (to - from))
    };
    let widest = rules
        .iter()
        .filter(|rule| rule.tick.is_some())
        .filter_map(|rule| Some((rule, doubt(&rule)?)))
        .max_by(|a, b| a.1.total_cmp(&b.1));
    let Some((rule, doubt)) = widest else {
        return (None, String::new());
    };
    let shares = rule.reading.spread_by_line(weighed);
    match shares.first() {
        Some((line, share))
            if doubt > 0.25
                && *share > WORTH_WEIGHING
                && line.amount.as_ref().is_ok_and(|a| a.from != GramsFrom::Weight) =>
        {
            let part = if *share > 0.95 {
                say("nearly all").to_owned()
            } else {
                format!("{} %", fixed(100.0 * share, 0))
            };
            let mut says = say!(
                "Weigh the {name} first: {part} of the doubt about {reading} is its cup or spoon.",
                name = within(&line.name),
                part,
                reading = within(rule.reading.name())
            );
            // Lines are independent, so what is left of the variance is what the other lines bring.
            if let Some(now) = rule.reading.of(weighed).value.estimate() {
                let after = Estimate {
                    sd: now.sd * (1.0 - share).max(0.0).sqrt(),
                    ..now
                };
                let spread = |estimate| Figure::of(estimate, "").spread;
                let gain = say!(
                    "Its {now} then falls to about {after}.",
                    now = spread(now),
                    after = spread(after)
                );
                says.extend([" ", &gain]);
            }
            (Some(line.key), says)
        }
        _ => (None, String::new()),
    }
}

/// Readings worth a glance first: those out of their windows, then the three that decide whether it holds.
pub fn first_rules(rules: &[Rule]) -> Vec<Reading> {
    let leading = [Reading::Hydration, Reading::BinderShare, Reading::Protein];
    rules
        .iter()
        .filter(|rule| matches!(rule.place, Place::Below | Place::Above) || leading.contains(&rule.reading))
        .map(|rule| rule.reading)
        .collect()
}
