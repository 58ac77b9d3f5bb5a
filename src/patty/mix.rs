//! From the bowl to the stove: what a weighed formula is, as size and heat count it.
//!
//! The cook has a formula; density, conduction and setting want its composition and its binder.
//! Water, protein, fat and the rest come from the lines' own tables; the binder sets by its grade, its strength and the salt in its water.
//! Setting by protein, starch, egg or a gum that gels on cooling is left out on purpose: no figure for a patty is known to us.

use super::{USUAL_AIR, density_g_per_ml};
use crate::formula::{Component, Formula, Kitchen, Part, Weighed};
use crate::heat::binder::{Gel, Grade, gel};
use crate::heat::{Composition, Estimate, Food, HeatError};
use crate::measure::fixed;
use crate::pantry::Role;
use crate::words::say;
use std::fmt;

/// The most of a mix, g/g, that may be of unknown make-up; it is then taken to be like the rest.
const MOST_UNKNOWN: f64 = 0.05;

/// Relative spread of the density for each g/g of unknown make-up: dry solids are up to half denser than a wet mix, spread evenly.
const DENSITY_PER_UNKNOWN: f64 = 0.2;

/// The least binder, g to 100 g of water, that is taken to gel.
const LEAST_BINDER_PERCENT: f64 = 0.3;

/// A mix ready for the sums of size and heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mix {
    /// The mix with the air that forming leaves in it.
    pub food: Food,
    /// Share of the mix that nobody has a figure for, g/g.
    pub unknown_share: f64,
    /// All binders, percent of the mix.
    pub binder_percent: f64,
    /// Where its binder sets, or why that is not known.
    pub gel: Result<Gel, NoGel>,
    /// True where lines without a figure for salt leave it open: more salt sets the gel sooner.
    pub salt_open: bool,
}

/// Why it is not known where a mix sets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoGel {
    /// Neither methylcellulose nor HPMC is in it.
    NoBinder,
    /// So little of it, g to 100 g of water, that it does not gel.
    TooLittle(f64),
    /// Binder or salt lie outside what the figures cover.
    Beyond(HeatError),
}

impl fmt::Display for NoGel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            Self::NoBinder => say!(
                "No methylcellulose or HPMC is in the mix, and where other binders set in a patty is not known: turn it when its edge is firm and it lets go of the pan"
            ),
            Self::TooLittle(percent) => say!(
                "{grams} g of binder to 100 g of water is too little to set: turn it when its edge is firm and it lets go of the pan",
                grams = fixed(*percent, 2)
            ),
            Self::Beyond(why) => return write!(f, "{why}"),
        })
    }
}

/// Why a formula cannot be sized or cooked yet; each kind reads as one sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum MixProblem {
    /// Lines without grams.
    Unweighed(Vec<String>),
    /// Nothing in it.
    Empty,
    /// Too much of it is of unknown make-up; these lines.
    UnknownMakeUp(Vec<String>),
    /// The composition adds up to nothing that heat can count.
    Heat(HeatError),
}

impl fmt::Display for MixProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self {
            Self::Unweighed(lines) => say!("Weigh these lines first: {lines}", lines = lines.join(", ")),
            Self::Empty => say!("Add a line to the formula first"),
            Self::UnknownMakeUp(lines) => say!(
                "Nobody has said what is in {lines}: type in the figures of the pack",
                lines = lines.join(", ")
            ),
            Self::Heat(why) => return write!(f, "{why}"),
        })
    }
}

impl std::error::Error for MixProblem {}

/// Where the middle is when a patty of unknown binder is turned, °C: half way from the fridge to boiling.
/// Only the cooking time follows it; no turn is told. Common practice, no source.
const UNKNOWN_TURN_C: Estimate = Estimate { value: 50.0, sd: 10.0 };

/// What heat counts. Salt is part of the ash.
const COUNTED: [Component; 6] = [
    Component::Water,
    Component::Protein,
    Component::Fat,
    Component::Carbohydrate,
    Component::Fibre,
    Component::Ash,
];

impl Mix {
    /// Takes a formula as it is weighed.
    ///
    /// - `grade`: what the packet says; without it methylcellulose counts as type A, and HPMC as any of its grades.
    ///
    /// # Errors
    /// [`MixProblem`], each with a sentence that says what to do.
    pub fn of(kitchen: &Kitchen, formula: &Formula, grade: Option<Grade>) -> Result<Self, MixProblem> {
        let weighed = kitchen.weigh(formula);
        if !weighed.complete() {
            return Err(MixProblem::Unweighed(
                weighed.missing().into_iter().map(str::to_owned).collect(),
            ));
        }
        let total = weighed.total.value;
        if !(total > 0.0 && total.is_finite()) {
            return Err(MixProblem::Empty);
        }
        let share = |component| -> Part {
            weighed.known().fold(Part::default(), |sum, (line, grams)| {
                let part = line.profile.component(component);
                Part {
                    known: sum.known + part.known * grams.value / total,
                    unknown: sum.unknown + part.unknown * grams.value / total,
                }
            })
        };
        let [water, protein, fat, carbohydrate, fibre, ash] = COUNTED.map(|component| share(component).known);
        let unknown_share = (1.0 - [water, protein, fat, carbohydrate, fibre, ash].iter().sum::<f64>()).max(0.0);
        if unknown_share > MOST_UNKNOWN {
            return Err(MixProblem::UnknownMakeUp(unknown_lines(&weighed)));
        }
        let composition = Composition {
            water,
            protein,
            fat,
            carbohydrate,
            fibre,
            ash,
        };
        let food = Food::new(composition, USUAL_AIR.value).map_err(MixProblem::Heat)?;
        let salt = share(Component::Salt);
        let gelling = Gelling::within(kitchen, formula, &weighed);
        Ok(Self {
            food,
            unknown_share,
            binder_percent: 100.0 * weighed.by_role()[Role::Binder.index()] / total,
            gel: gelling.sets(grade, water * total, salt.known * total),
            salt_open: salt.unknown > MOST_UNKNOWN,
        })
    }

    /// Returns the gel to follow a cook with: its own, or where that is not known a turn about half way, which may not be told as a turn.
    pub fn gel_to_follow(&self) -> Gel {
        self.gel.unwrap_or(Gel {
            sets_c: UNKNOWN_TURN_C,
            softens_c: None,
        })
    }

    /// Returns the density of a formed raw patty, g/ml, its unknown part in the spread.
    pub fn density_g_per_ml(&self, temperature_c: f64) -> Estimate {
        let density = density_g_per_ml(&self.food, USUAL_AIR.sd, temperature_c);
        Estimate::new(
            density.value,
            density
                .sd
                .hypot(density.value * DENSITY_PER_UNKNOWN * self.unknown_share),
        )
    }
}

/// Lines to describe, the largest gap first, until what the others leave open is little enough.
fn unknown_lines(weighed: &Weighed) -> Vec<String> {
    let mut gaps: Vec<(f64, &str)> = weighed
        .known()
        .map(|(line, grams)| {
            let known = COUNTED.map(|component| line.profile.component(component).known);
            (grams.value * (1.0 - known.iter().sum::<f64>()), line.name.as_str())
        })
        .collect();
    gaps.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut open: f64 = gaps.iter().map(|(gap, _)| gap).sum();
    let to_describe = gaps.into_iter().take_while(|(gap, _)| {
        let too_much = open > MOST_UNKNOWN * weighed.total.value;
        open -= gap;
        too_much
    });
    to_describe.map(|(_, name)| name.to_owned()).collect()
}

/// How much there is of each binder that gels when hot, g.
#[derive(Debug, Clone, Copy, Default)]
struct Gelling {
    methylcellulose_g: f64,
    hpmc_g: f64,
}

impl Gelling {
    /// Adds up a formula and the formulas within it. A circle cannot come here: its lines have no grams.
    fn within(kitchen: &Kitchen, formula: &Formula, weighed: &Weighed) -> Self {
        let mut found = Self::default();
        for (line, typed) in weighed.lines.iter().zip(&formula.lines) {
            let Some(grams) = line.grams().map(|grams| grams.value) else {
                continue;
            };
            if let Some(inner) = typed.formula.as_deref().and_then(|id| kitchen.formula(id)) {
                let whole = kitchen.weigh(inner);
                let times = grams / whole.total.value;
                let inside = Self::within(kitchen, inner, &whole);
                if times.is_finite() {
                    found.methylcellulose_g += times * inside.methylcellulose_g;
                    found.hpmc_g += times * inside.hpmc_g;
                }
                continue;
            }
            let ingredient = line.ingredient.as_deref().and_then(|id| kitchen.pantry.get(id));
            match ingredient.and_then(|found| found.row()).map(|row| row.id) {
                Some("methylcellulose") => found.methylcellulose_g += grams,
                Some("hpmc") => found.hpmc_g += grams,
                _ => {}
            }
        }
        found
    }

    /// Where it sets. Of two binders the heavier decides: how they act together is not known.
    fn sets(self, grade: Option<Grade>, water_g: f64, salt_g: f64) -> Result<Gel, NoGel> {
        let binder_g = self.methylcellulose_g.max(self.hpmc_g);
        if !(binder_g > 0.0 && water_g > 0.0) {
            return Err(NoGel::NoBinder);
        }
        let binder_percent = 100.0 * binder_g / water_g;
        if binder_percent < LEAST_BINDER_PERCENT {
            return Err(NoGel::TooLittle(binder_percent));
        }
        let set = |grade| gel(grade, binder_percent, 100.0 * salt_g / water_g).map_err(NoGel::Beyond);
        match grade {
            Some(grade) => set(grade),
            None if self.methylcellulose_g >= self.hpmc_g => set(Grade::TypeA),
            // The lowest and the highest grade, with all that lies between as doubt.
            None => {
                let (low, high) = (set(Grade::HydroxypropylE)?.sets_c, set(Grade::HydroxypropylK)?.sets_c);
                let sd = ((high.value - low.value) / 2.0).hypot(low.sd.max(high.sd));
                Ok(Gel {
                    sets_c: Estimate::new((low.value + high.value) / 2.0, sd),
                    softens_c: None,
                })
            }
        }
    }
}
