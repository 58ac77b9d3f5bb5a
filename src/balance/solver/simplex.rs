//! The walk from corner to corner, on a scaled problem.

use super::dictionary::Dictionary;

/// How far a value may lie beyond its limit and still count as within, per unit of the limit, at least per one.
pub(super) const WITHIN: f64 = 1e-9;
/// How far a step may carry a value beyond its limit for the sake of a larger divisor; well below [`WITHIN`].
const SLACK: f64 = 1e-10;
/// A slope nearer zero than this is level: no gain is seen in following it.
pub(super) const LEVEL: f64 = 1e-12;
/// A variable that moves less than this per unit of step is taken to stand still.
const STILL: f64 = 1e-9;
/// A step shorter than this makes no progress.
const NO_PROGRESS: f64 = 1e-12;
/// After so many steps without progress the walk turns to Bland's rule, which cannot go round in circles.
const PATIENCE: usize = 20;
/// The dictionary is built afresh after so many exchanges.
const FRESHNESS: usize = 50;

/// A scaled problem: variables are the columns, then the row sums; each has a low and a high limit.
#[derive(Clone)]
pub(super) struct Scaled {
    pub(super) coefficients: Vec<f64>,
    pub(super) costs: Vec<f64>,
    pub(super) low: Vec<f64>,
    pub(super) high: Vec<f64>,
}

/// How the walk ended.
pub(super) enum End {
    /// The value of every variable at the cheapest corner.
    Cheapest(Vec<f64>),
    /// A weight for every variable: the weighted sum is zero for any `x`, yet the limits keep it above zero.
    Clash(Vec<f64>),
    /// Cost falls for ever.
    Bottomless,
    /// The step limit was reached.
    Lost,
}

/// What stops the variable on the move.
enum Stop {
    Nothing,
    /// Its own opposite limit.
    Itself(f64),
    /// Basic variable `row`, which comes to rest at `limit` after a step of length `step`.
    Basic {
        row: usize,
        limit: f64,
        step: f64,
    },
}

struct Walk<'a> {
    problem: &'a Scaled,
    dictionary: Dictionary,
    values: Vec<f64>,
    exchanges: usize,
}

impl Scaled {
    pub(super) fn walk(&self) -> End {
        let columns = self.costs.len();
        let rows = self.low.len() - columns;
        let mut walk = Walk {
            problem: self,
            dictionary: Dictionary::new(&self.coefficients, rows, columns),
            values: vec![0.0; rows + columns],
            exchanges: 0,
        };
        walk.run()
    }
}

impl Walk<'_> {
    fn run(&mut self) -> End {
        let step_limit = 1000 + 50 * self.values.len();
        let mut idle = 0;
        self.settle();
        for count in 0..step_limit {
            if FRESHNESS <= self.exchanges {
                self.rebuild();
            }
            let pulls = self.pulls();
            let outside = pulls.iter().any(|pull| *pull != 0.0);
            let slopes = if outside {
                self.dictionary.weighted_sum(&pulls)
            } else {
                self.cost_slopes()
            };
            let careful = PATIENCE <= idle || step_limit / 2 <= count;
            let entering = self.entering(&slopes, careful);
            let stop = entering.map(|(j, direction)| (j, self.stop(j, direction, &pulls, careful)));
            match stop {
                Some((j, Stop::Itself(limit))) => {
                    self.values[self.dictionary.resting[j]] = limit;
                    idle = 0;
                }
                Some((j, Stop::Basic { row, limit, step })) => {
                    self.values[self.dictionary.basic[row]] = limit;
                    self.dictionary.exchange(row, j);
                    self.exchanges += 1;
                    idle = if NO_PROGRESS < step { 0 } else { idle + 1 };
                }
                // The walk seems over; look once more with fresh numbers before saying so.
                _ if 0 < self.exchanges => self.rebuild(),
                None if outside => return End::Clash(self.weights(&pulls, &slopes)),
                None => return End::Cheapest(std::mem::take(&mut self.values)),
                Some(_) if outside => return End::Lost,
                Some(_) => return End::Bottomless,
            }
            self.update_basic();
        }
        End::Lost
    }

    fn rebuild(&mut self) {
        self.dictionary.rebuild(&self.problem.coefficients);
        self.exchanges = 0;
        self.settle();
    }

    /// Puts every resting variable on the limit nearest to its value, or leaves it when it has none.
    fn settle(&mut self) {
        for &variable in &self.dictionary.resting {
            let (low, high) = (self.problem.low[variable], self.problem.high[variable]);
            let value = self.values[variable];
            let nearest = if (value - low).abs() <= (high - value).abs() {
                low
            } else {
                high
            };
            if nearest.is_finite() {
                self.values[variable] = nearest;
            }
        }
        self.update_basic();
    }

    fn update_basic(&mut self) {
        for (i, &variable) in self.dictionary.basic.iter().enumerate() {
            let terms = self.dictionary.row(i).iter().zip(&self.dictionary.resting);
            self.values[variable] = terms.map(|(share, &j)| share * self.values[j]).sum();
        }
    }

    /// For every basic variable: −1 when it lies below its limits and must rise, +1 above, 0 within.
    /// The sum of pull × value is how far outside the corner lies.
    fn pulls(&self) -> Vec<f64> {
        let pull = |&variable: &usize| {
            let (value, low, high) = (
                self.values[variable],
                self.problem.low[variable],
                self.problem.high[variable],
            );
            if value < low - WITHIN * low.abs().max(1.0) {
                -1.0
            } else if high + WITHIN * high.abs().max(1.0) < value {
                1.0
            } else {
                0.0
            }
        };
        self.dictionary.basic.iter().map(pull).collect()
    }

    fn cost(&self, variable: usize) -> f64 {
        self.problem.costs.get(variable).copied().unwrap_or(0.0)
    }

    /// How cost changes per unit of each resting variable.
    fn cost_slopes(&self) -> Vec<f64> {
        let basic: Vec<f64> = self.dictionary.basic.iter().map(|&v| self.cost(v)).collect();
        let mut slopes = self.dictionary.weighted_sum(&basic);
        for (slope, &variable) in slopes.iter_mut().zip(&self.dictionary.resting) {
            *slope += self.cost(variable);
        }
        slopes
    }

    /// The resting variable to move and its direction: the steepest, or by Bland's rule the first.
    fn entering(&self, slopes: &[f64], careful: bool) -> Option<(usize, f64)> {
        let mut best = None;
        for (j, (&slope, &variable)) in slopes.iter().zip(&self.dictionary.resting).enumerate() {
            let value = self.values[variable];
            let falls = slope < -LEVEL && value < self.problem.high[variable];
            let rises = LEVEL < slope && self.problem.low[variable] < value;
            let merit = if careful { -(variable as f64) } else { slope.abs() };
            if (falls || rises) && best.is_none_or(|(_, _, other)| other < merit) {
                best = Some((j, -slope.signum(), merit));
            }
        }
        best.map(|(j, direction, _)| (j, direction))
    }

    /// Finds what stops resting variable `j`.
    ///
    /// Among the basic variables that stop it at nearly the same step, the one with the largest divisor
    /// is taken, to keep rounding small (Harris); by Bland's rule, the first of those with the least step.
    fn stop(&self, j: usize, direction: f64, pulls: &[f64], careful: bool) -> Stop {
        let variable = self.dictionary.resting[j];
        let (low, high) = (self.problem.low[variable], self.problem.high[variable]);
        let mut stops = Vec::new();
        let mut reach = f64::INFINITY;
        for (i, &pull) in pulls.iter().enumerate() {
            let rate = direction * self.dictionary.share(i, j);
            let limit = self.limit_ahead(self.dictionary.basic[i], rate, pull);
            if STILL < rate.abs() && limit.is_finite() {
                let room = ((limit - self.values[self.dictionary.basic[i]]) * rate.signum()).max(0.0);
                let slack = if careful { 0.0 } else { SLACK };
                reach = reach.min((room + slack) / rate.abs());
                stops.push((i, limit, room / rate.abs(), rate.abs()));
            }
        }
        let span = high - low;
        if span.is_finite() && span <= reach {
            return Stop::Itself(if 0.0 < direction { high } else { low });
        }
        let merit = |&(i, _, _, rate): &(usize, f64, f64, f64)| {
            if careful {
                -(self.dictionary.basic[i] as f64)
            } else {
                rate
            }
        };
        stops
            .into_iter()
            .filter(|(_, _, step, _)| *step <= reach)
            .max_by(|a, b| merit(a).total_cmp(&merit(b)))
            .map_or(Stop::Nothing, |(row, limit, step, _)| Stop::Basic { row, limit, step })
    }

    /// The limit a basic variable meets when it moves at this rate.
    /// One that lies outside stops at the limit it is outside of, and nowhere when it moves away.
    fn limit_ahead(&self, variable: usize, rate: f64, pull: f64) -> f64 {
        let (low, high) = (self.problem.low[variable], self.problem.high[variable]);
        match (0.0 < rate, pull) {
            (true, -1.0) => low,
            (true, 0.0) => high,
            (false, 1.0) => high,
            (false, 0.0) => low,
            _ => f64::INFINITY,
        }
    }

    /// Reads the proof of a clash off the last corner.
    ///
    /// There `Σ pull·basic = Σ slope·resting` for any `x`.
    /// Taking one side from the other gives a sum that is always zero, though the limits keep it above zero:
    /// every resting variable already lies on the limit that makes the sum least.
    fn weights(&self, pulls: &[f64], slopes: &[f64]) -> Vec<f64> {
        let mut weights = vec![0.0; self.values.len()];
        for (pull, &variable) in pulls.iter().zip(&self.dictionary.basic) {
            weights[variable] = -pull;
        }
        for (slope, &variable) in slopes.iter().zip(&self.dictionary.resting) {
            weights[variable] = if LEVEL < slope.abs() { *slope } else { 0.0 };
        }
        weights
    }
}
