//! Which cups and spoons make this volume? Level measures nearest to what was asked.
//!
//! The usual set is searched for the fewest scoops that come near enough.
//! Heaped and packed measures are left out on purpose: they cannot be repeated.

use super::unit::{Cup, Unit};
use std::fmt;

/// The part of a cup or spoon that one scoop holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ScoopSize {
    /// The whole cup or spoon.
    Whole,
    /// One half.
    Half,
    /// One third.
    Third,
    /// One quarter.
    Quarter,
    /// One eighth.
    Eighth,
}

impl ScoopSize {
    /// The size as a share of the whole measure.
    pub fn share(self) -> f64 {
        f64::from(self.twenty_fourths()) / 24.0
    }

    fn twenty_fourths(self) -> u32 {
        match self {
            ScoopSize::Whole => 24,
            ScoopSize::Half => 12,
            ScoopSize::Third => 8,
            ScoopSize::Quarter => 6,
            ScoopSize::Eighth => 3,
        }
    }
}

/// The usual set, large to small (common practice, no source).
const SET: [(ScoopSize, Unit); 10] = [
    (ScoopSize::Whole, Unit::Cup),
    (ScoopSize::Half, Unit::Cup),
    (ScoopSize::Third, Unit::Cup),
    (ScoopSize::Quarter, Unit::Cup),
    (ScoopSize::Whole, Unit::Tablespoon),
    (ScoopSize::Half, Unit::Tablespoon),
    (ScoopSize::Whole, Unit::Teaspoon),
    (ScoopSize::Half, Unit::Teaspoon),
    (ScoopSize::Quarter, Unit::Teaspoon),
    (ScoopSize::Eighth, Unit::Teaspoon),
];
/// Near enough, as a share of what was asked (common practice, no source).
const NEAR: f64 = 0.02;
/// More different measures than this are too many to keep apart.
const MOST_MEASURES: usize = 4;
/// More scoops than this, besides whole cups, are never needed with this set.
const MOST_SCOOPS: u32 = 8;
/// Larger amounts than this belong on a scale.
const LARGEST_ML: f64 = 1_000_000.0;

/// Level measures that make up a volume.
#[derive(Clone, PartialEq, Debug)]
pub struct LevelMeasures {
    /// How many scoops, of which part, of which measure; large to small.
    pub parts: Vec<(u32, ScoopSize, Unit)>,
    /// What they hold together.
    pub millilitres: f64,
    /// What they hold minus what was asked.
    pub error_millilitres: f64,
}

/// Returns the level measures to use for a volume, or nothing below half the smallest spoon (1/16 teaspoon) or above 1000 litres.
///
/// The usual set is 1, ½, ⅓ and ¼ cup; 1 and ½ tablespoon; 1, ½, ¼ and ⅛ teaspoon.
/// As many whole cups as fit come first; after them the fewest scoops win that come within 2 % of the volume (⅛ cup at most) or within half the smallest spoon, whichever is more.
/// Among equally many scoops the smallest error wins, and then the fewest different measures; there are never more than four.
///
/// # Example
/// ```
/// use pattywright::measure::{Cup, level_measures};
/// let measures = level_measures(280.0, Cup::Metric).unwrap();
/// assert_eq!(measures.to_string(), "1 cup + 2 tbsp");
/// assert_eq!(measures.error_millilitres, 0.0);
/// ```
pub fn level_measures(millilitres: f64, cup: Cup) -> Option<LevelMeasures> {
    let sizes_ml = SET.map(|(size, unit)| size.share() * unit.millilitres(cup).unwrap_or_default());
    let (cup_ml, half_smallest_ml) = (sizes_ml[0], sizes_ml[SET.len() - 1] / 2.0);
    if !(half_smallest_ml..=LARGEST_ML).contains(&millilitres) {
        return None;
    }
    let whole_cups = (millilitres / cup_ml) as u32;
    let mut search = Search {
        sizes_ml,
        near_ml: (NEAR * millilitres).min(cup_ml / 8.0).max(half_smallest_ml),
        counts: [0; SET.len()],
        best: None,
    };
    search.counts[0] = whole_cups;
    let left_ml = millilitres - f64::from(whole_cups) * cup_ml;
    let least = u32::from(whole_cups == 0);
    let counts = (least..=MOST_SCOOPS).find_map(|scoops| {
        search.fill(0, scoops, left_ml);
        search.best.map(|best| best.counts)
    })?;
    let held_ml = (0..SET.len()).map(|at| f64::from(counts[at]) * sizes_ml[at]).sum();
    let parts = (0..SET.len()).filter(|at| 0 < counts[*at]);
    Some(LevelMeasures {
        parts: parts.map(|at| (counts[at], SET[at].0, SET[at].1)).collect(),
        millilitres: held_ml,
        error_millilitres: held_ml - millilitres,
    })
}

struct Search {
    sizes_ml: [f64; SET.len()],
    near_ml: f64,
    counts: [u32; SET.len()],
    best: Option<Found>,
}

#[derive(Clone, Copy)]
struct Found {
    counts: [u32; SET.len()],
    error_ml: f64,
    measures: usize,
}

impl Search {
    /// Tries every choice of exactly `scoops` more scoops, none larger than the one at `from`.
    fn fill(&mut self, from: usize, scoops: u32, left_ml: f64) {
        if scoops == 0 {
            return self.weigh_up(left_ml.abs());
        }
        for at in from..SET.len() {
            let out_of_reach = self.near_ml < left_ml - f64::from(scoops) * self.sizes_ml[at];
            if out_of_reach {
                return;
            }
            if self.sizes_ml[at] <= left_ml + self.near_ml {
                self.counts[at] += 1;
                self.fill(at, scoops - 1, left_ml - self.sizes_ml[at]);
                self.counts[at] -= 1;
            }
        }
    }

    fn weigh_up(&mut self, error_ml: f64) {
        /// Errors closer than this are the same error.
        const SAME_ML: f64 = 1e-9;
        let measures = self.counts.iter().filter(|count| 0 < **count).count();
        let better = self.best.is_none_or(|best| {
            error_ml < best.error_ml - SAME_ML || (error_ml < best.error_ml + SAME_ML && measures < best.measures)
        });
        if error_ml <= self.near_ml && measures <= MOST_MEASURES && better {
            self.best = Some(Found {
                counts: self.counts,
                error_ml,
                measures,
            });
        }
    }
}

/// Writes "1 cup + 2 tbsp", "1½ tsp", "¾ cup": scoops of one measure are added up where a cook would say the sum.
impl fmt::Display for LevelMeasures {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut terms: Vec<(u32, Unit)> = Vec::new();
        for (count, size, unit) in &self.parts {
            let more = count * size.twenty_fourths();
            match terms.last_mut() {
                Some((sum, last)) if last == unit && is_said(*sum + more) => *sum += more,
                _ => terms.push((more, *unit)),
            }
        }
        for (at, (sum, unit)) in terms.into_iter().enumerate() {
            let plus = if at == 0 { "" } else { " + " };
            let amount = f64::from(sum) / 24.0;
            write!(f, "{plus}{}", super::Quantity::of(amount, unit))?;
        }
        Ok(())
    }
}

/// Whether a cook says this many twenty-fourths as one number: ¾ and ⅔, but ½ and ⅛ rather than ⅝.
fn is_said(twenty_fourths: u32) -> bool {
    matches!(twenty_fourths % 24, 0 | 3 | 6 | 8 | 12 | 16 | 18)
}
