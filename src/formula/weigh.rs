//! From typed lines to grams, shares and baker's percentages.

use super::{Base, Formula, Kitchen, Line, Profile, Reading, ReadingValue, Style};
use crate::measure::{Estimate, Measure, read, relative_sd};
use crate::pantry::{Amount, GramsFrom, NotWeighed, Role, Source};
use std::collections::BTreeMap;

/// A formula on the scale.
#[derive(Clone, Debug)]
pub struct Weighed {
    /// Its lines, in the order written.
    pub lines: Vec<WeighedLine>,
    /// Sum of the lines that have grams.
    pub total: Estimate,
    /// Grams of the lines that count as 100 in baker's percentages.
    pub base_g: f64,
    /// The style whose windows apply; `None` for a sauce or another component.
    pub style: Option<Style>,
    /// What counts as 100 in baker's percentages.
    pub base: Base,
}

/// One line on the scale.
#[derive(Clone, Debug)]
pub struct WeighedLine {
    /// The line's own key.
    pub key: u32,
    /// Name on screen.
    pub name: String,
    /// Id of its ingredient, if it is one.
    pub ingredient: Option<String>,
    /// What it does here.
    pub role: Role,
    /// Grams, or why there are none.
    pub amount: Result<Amount, NotWeighed>,
    /// What one gram of it is.
    pub profile: Profile,
}

impl WeighedLine {
    /// A line that cannot be weighed, and why.
    fn unweighed(line: &Line, name: String, why: NotWeighed) -> WeighedLine {
        WeighedLine {
            key: line.key,
            name,
            ingredient: line.ingredient.clone(),
            role: line.role.unwrap_or(Role::Filler),
            amount: Err(why),
            profile: Profile::default(),
        }
    }

    /// Grams where they are known.
    pub fn grams(&self) -> Option<Estimate> {
        self.amount.as_ref().ok().map(|amount| amount.grams)
    }
}

impl Weighed {
    /// True when every line has grams, so that totals are whole.
    pub fn complete(&self) -> bool {
        self.lines.iter().all(|line| line.amount.is_ok())
    }

    /// Names of the lines without grams.
    pub fn missing(&self) -> Vec<&str> {
        self.lines
            .iter()
            .filter(|line| line.amount.is_err())
            .map(|line| line.name.as_str())
            .collect()
    }

    /// Lines with grams: the line, its grams.
    pub fn known(&self) -> impl Iterator<Item = (&WeighedLine, Estimate)> {
        self.lines.iter().filter_map(|line| Some((line, line.grams()?)))
    }

    /// Percent of the whole mix: `100·m / Σ m`.
    pub fn share(&self, line: &WeighedLine) -> Option<f64> {
        percent(line.grams()?.value, self.total.value)
    }

    /// Baker's percentage: `100·m / Σ m` of the base lines; `None` without a base.
    pub fn bakers_percentage(&self, line: &WeighedLine) -> Option<f64> {
        percent(line.grams()?.value, self.base_g)
    }

    /// Grams by role, in the order of [`Role::ALL`]; a formula inside counts by its own lines' roles.
    pub fn by_role(&self) -> [f64; 8] {
        Role::ALL.map(|role| {
            self.known()
                .map(|(line, grams)| grams.value * line.profile.role(role))
                .sum()
        })
    }

    /// Every reading.
    pub fn readings(&self) -> Vec<(Reading, ReadingValue)> {
        Reading::ALL
            .into_iter()
            .map(|reading| (reading, reading.of(self)))
            .collect()
    }

    /// So many times the mix, every line as sure as before.
    pub fn times(&self, factor: f64) -> Weighed {
        let mut other = self.clone();
        for amount in other.lines.iter_mut().filter_map(|line| line.amount.as_mut().ok()) {
            amount.grams = amount.grams.scale(factor);
        }
        other.add_up();
        other
    }

    /// The same mix with one more line of `grams`.
    pub fn with_line(&self, name: &str, role: Role, profile: Profile, grams: Estimate) -> Weighed {
        let mut other = self.clone();
        other.lines.push(WeighedLine {
            key: 0,
            name: name.to_owned(),
            ingredient: None,
            role,
            amount: Ok(Amount {
                grams,
                from: GramsFrom::Weight,
                source: Source::Weighed,
            }),
            profile,
        });
        other.add_up();
        other
    }

    /// The same mix with one line weighed anew.
    pub fn with_mass(&self, key: u32, grams: f64, scale_step_grams: f64) -> Weighed {
        let mut other = self.clone();
        for line in other.lines.iter_mut().filter(|line| line.key == key) {
            line.amount = Ok(weighed_amount(grams, scale_step_grams));
        }
        other.add_up();
        other
    }

    /// The same mix as it was really poured: line masses in order, each as sure as the scale.
    pub fn with_masses(&self, masses: &[f64], scale_step_grams: f64) -> Weighed {
        let mut other = self.clone();
        for (line, mass) in other.lines.iter_mut().zip(masses) {
            line.amount = Ok(weighed_amount(*mass, scale_step_grams));
        }
        other.add_up();
        other
    }

    /// Sums the lines.
    fn add_up(&mut self) {
        let (mut sum, mut variance, mut base) = (0.0, 0.0, 0.0);
        for (line, grams) in self.known() {
            sum += grams.value;
            variance += grams.sd * grams.sd;
            let counted: f64 = Role::ALL
                .into_iter()
                .filter(|role| self.base.counts(*role))
                .map(|role| line.profile.role(role))
                .sum();
            base += grams.value * counted;
        }
        self.total = Estimate {
            value: sum,
            sd: variance.sqrt(),
        };
        self.base_g = base;
    }
}

fn weighed_amount(grams: f64, scale_step_grams: f64) -> Amount {
    Amount {
        grams: on_the_scale(grams, scale_step_grams),
        from: GramsFrom::Weight,
        source: Source::Weighed,
    }
}

/// A weighing, as sure as the scale's step: an even spread.
pub fn on_the_scale(grams: f64, scale_step_grams: f64) -> Estimate {
    Estimate {
        value: grams,
        sd: scale_step_grams / 12f64.sqrt(),
    }
}

fn percent(part: f64, whole: f64) -> Option<f64> {
    (whole > 0.0).then(|| 100.0 * part / whole)
}

/// Formulas within formulas deeper than this are no kitchen's.
const DEEPEST: usize = 20;

/// The formulas within the one being weighed: those being weighed now, outermost first, and what came of those that are done.
///
/// Each is weighed once, however many lines name it, so that the work grows with the lines and not with the ways through them.
#[derive(Default)]
struct Nest<'n> {
    path: Vec<&'n str>,
    done: BTreeMap<&'n str, Result<Whole, NotWeighed>>,
}

/// A formula as a line of another one.
#[derive(Clone, Copy)]
struct Whole {
    total: Estimate,
    profile: Profile,
}

impl Kitchen<'_> {
    /// Weighs a formula.
    ///
    /// Lines that cannot be weighed keep their reason; the others are answered.
    pub fn weigh(&self, formula: &Formula) -> Weighed {
        self.weigh_within(formula, &mut Nest::default())
    }

    fn weigh_within<'n>(&'n self, formula: &'n Formula, nest: &mut Nest<'n>) -> Weighed {
        nest.path.push(&formula.id);
        let lines = formula.lines.iter().map(|line| self.weigh_line(line, nest)).collect();
        nest.path.pop();
        let mut weighed = Weighed {
            lines,
            total: Estimate::exact(0.0),
            base_g: 0.0,
            style: formula.style,
            base: formula.base,
        };
        weighed.add_up();
        if weighed.style.is_none() && weighed.by_role()[Role::Textured.index()] > 0.0 {
            weighed.style = Some(Style::StandardPatty);
        }
        weighed
    }

    fn weigh_line<'n>(&'n self, line: &'n Line, nest: &mut Nest<'n>) -> WeighedLine {
        if let Some(id) = &line.formula {
            return self.weigh_inner(line, id, nest);
        }
        let id = line.ingredient.as_deref().unwrap_or_default();
        let Some(ingredient) = self.pantry.get(id) else {
            let named = line.name.as_deref().filter(|_| id.is_empty()).unwrap_or(id).to_owned();
            return WeighedLine::unweighed(line, named.clone(), NotWeighed::NotFound(named));
        };
        let role = line.role.unwrap_or(ingredient.role());
        WeighedLine {
            key: line.key,
            name: ingredient.name().to_owned(),
            ingredient: line.ingredient.clone(),
            role,
            amount: self
                .pantry
                .amount(&ingredient, &line.amount, line.cut.as_deref(), &self.habits),
            profile: Profile::of(&ingredient, role),
        }
    }

    /// Weighs a line that is another formula: by weight, or by the batch.
    fn weigh_inner<'n>(&'n self, line: &'n Line, id: &'n str, nest: &mut Nest<'n>) -> WeighedLine {
        let Some(inner) = self.formula(id) else {
            return WeighedLine::unweighed(line, id.to_owned(), NotWeighed::NoFormula(id.to_owned()));
        };
        let whole = match self.whole(inner, nest) {
            Ok(whole) => whole,
            Err(why) => return WeighedLine::unweighed(line, inner.name.clone(), why),
        };
        let amount = read(&line.amount).map_err(NotWeighed::Unread).and_then(|quantity| {
            if let Some(grams) = quantity.grams() {
                Ok(Amount {
                    grams: Estimate::with_relative_sd(grams, relative_sd(&quantity, &self.habits)),
                    from: GramsFrom::Weight,
                    source: Source::Weighed,
                })
            } else if matches!(&quantity.measure, Measure::Count(word) if word == "batch" || word == "ansatz") {
                Ok(Amount {
                    grams: whole.total.scale(quantity.middle()),
                    from: GramsFrom::Formula,
                    source: Source::Batches(inner.name.clone()),
                })
            } else {
                Err(NotWeighed::NoDensity)
            }
        });
        WeighedLine {
            key: line.key,
            name: inner.name.clone(),
            ingredient: line.ingredient.clone(),
            role: line.role.unwrap_or(whole.profile.main_role()),
            amount,
            profile: whole.profile,
        }
    }

    /// Weighs a formula that stands as a line, unless it has been already.
    fn whole<'n>(&'n self, inner: &'n Formula, nest: &mut Nest<'n>) -> Result<Whole, NotWeighed> {
        if let Some(start) = nest.path.iter().position(|seen| *seen == inner.id) {
            let circle = nest.path[start..].iter().copied().chain([inner.id.as_str()]);
            let names = circle.map(|id| self.formula(id).map_or(id, |f| &f.name).to_owned());
            return Err(NotWeighed::Circle(names.collect()));
        }
        if let Some(done) = nest.done.get(inner.id.as_str()) {
            return done.clone();
        }
        if nest.path.len() >= DEEPEST {
            return Err(NotWeighed::TooDeep(inner.name.clone()));
        }
        let weighed = self.weigh_within(inner, nest);
        let whole = weighed.whole(&inner.name);
        nest.done.insert(&inner.id, whole.clone());
        whole
    }
}

impl Weighed {
    /// What it is as a line of another formula; a circle further in is passed on with its path.
    fn whole(&self, name: &str) -> Result<Whole, NotWeighed> {
        let further_in = self.lines.iter().find_map(|line| match &line.amount {
            Err(why @ (NotWeighed::Circle(_) | NotWeighed::TooDeep(_))) => Some(why.clone()),
            _ => None,
        });
        if let Some(why) = further_in {
            return Err(why);
        }
        if !self.complete() || self.total.value <= 0.0 {
            return Err(NotWeighed::Within(name.to_owned()));
        }
        let parts = self
            .known()
            .map(|(line, grams)| (line.profile, grams.value / self.total.value));
        Ok(Whole {
            total: self.total,
            profile: Profile::mix(parts),
        })
    }
}
