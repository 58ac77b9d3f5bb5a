//! Grams of what was typed: quantity × millilitres × density, with how sure that is.

use super::{DensityFrom, Ingredient, Pantry, Source};
use crate::measure::{
    Estimate, Habits, Measure, Packing, Quantity, QuantityError, Unit, read, relative_sd, root_of_squares,
};
use crate::words::say;

/// How an amount came to its grams.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum GramsFrom {
    /// The cook's own weighed cup.
    Calibration,
    /// A published table.
    Table,
    /// It was typed as a weight.
    Weight,
    /// The cook's typed density.
    Entry,
    /// A wide starting figure.
    Starting,
    /// Another formula's own lines.
    Formula,
}

impl GramsFrom {
    /// The word used in reports.
    pub fn id(self) -> &'static str {
        match self {
            GramsFrom::Calibration => "calibration",
            GramsFrom::Table => "table",
            GramsFrom::Weight => "weight",
            GramsFrom::Entry => "entry",
            GramsFrom::Starting => "starting",
            GramsFrom::Formula => "formula",
        }
    }
}

impl From<DensityFrom> for GramsFrom {
    fn from(density: DensityFrom) -> GramsFrom {
        match density {
            DensityFrom::Calibration => GramsFrom::Calibration,
            DensityFrom::Table => GramsFrom::Table,
            DensityFrom::Entry => GramsFrom::Entry,
            DensityFrom::Starting => GramsFrom::Starting,
        }
    }
}

/// An amount in grams.
#[derive(Clone, PartialEq, Debug)]
pub struct Amount {
    /// Grams, with one standard deviation.
    pub grams: Estimate,
    /// How they were come by.
    pub from: GramsFrom,
    /// Who says so.
    pub source: Source,
}

/// Why an amount has no grams.
#[derive(Clone, PartialEq, Debug)]
pub enum NotWeighed {
    /// What was typed is not a quantity.
    Unread(QuantityError),
    /// Nobody has said what a cup of it weighs.
    NoDensity,
    /// Nobody has said what one piece of it weighs.
    NoPiece(String),
    /// The line names nothing in the pantry.
    NotFound(String),
    /// The line's formula is not there.
    NoFormula(String),
    /// Formulas that contain each other, by name.
    Circle(Vec<String>),
    /// Formulas within formulas, deeper than any kitchen's.
    TooDeep(String),
    /// The inner formula cannot be weighed itself.
    Within(String),
}

impl std::fmt::Display for NotWeighed {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&match self {
            NotWeighed::Unread(error) => error.to_string(),
            NotWeighed::NoDensity => say!("Weigh this one: no table says what a cup or spoon of it weighs"),
            NotWeighed::NoPiece(word) if word.is_empty() => {
                say!("Add a unit, such as g or tbsp: no table says what one of it weighs")
            }
            NotWeighed::NoPiece(word) => say!(
                "“{word}” is not a measure known here for this. Type grams, cups or spoons",
                word
            ),
            NotWeighed::NotFound(name) => say!(
                "“{name}” is not in the pantry yet. Choose an ingredient or add it as your own",
                name
            ),
            NotWeighed::NoFormula(name) => say!("The formula “{name}” is not here any more", name),
            NotWeighed::Circle(path) => say!(
                "A formula cannot contain itself: {path}. Take one of them out",
                path = path.join(" → ")
            ),
            NotWeighed::TooDeep(name) => say!(
                "“{name}” is a formula within too many others. Write its own lines here instead",
                name
            ),
            NotWeighed::Within(name) => say!("“{name}” has a line that still needs weighing", name),
        })
    }
}

impl Pantry<'_> {
    /// Reads a typed amount of `ingredient` and weighs it.
    ///
    /// # Errors
    /// [`NotWeighed`] where the text is not a quantity or nobody has said what the measure weighs.
    pub fn amount(
        &self,
        ingredient: &Ingredient,
        typed: &str,
        cut: Option<&str>,
        habits: &Habits,
    ) -> Result<Amount, NotWeighed> {
        let quantity = read(typed).map_err(NotWeighed::Unread)?;
        self.weigh(ingredient, &quantity, cut, habits)
    }

    /// Weighs a quantity of `ingredient`.
    ///
    /// # Errors
    /// [`NotWeighed::NoDensity`] or [`NotWeighed::NoPiece`].
    pub fn weigh(
        &self,
        ingredient: &Ingredient,
        quantity: &Quantity,
        cut: Option<&str>,
        habits: &Habits,
    ) -> Result<Amount, NotWeighed> {
        let measuring = relative_sd(quantity, habits);
        if let Some(grams) = quantity.grams() {
            return Ok(Amount {
                grams: Estimate {
                    value: grams,
                    sd: grams * measuring,
                },
                from: GramsFrom::Weight,
                source: Source::Weighed,
            });
        }
        if let Measure::Count(word) = &quantity.measure {
            let (one, source) = self
                .piece(ingredient, word)
                .ok_or_else(|| NotWeighed::NoPiece(word.clone()))?;
            let count = quantity.middle();
            // Pieces differ on their own, so their spread grows with the root of the count.
            let grams = one.value * count;
            let sd = (one.sd * count.sqrt()).hypot(grams * measuring);
            return Ok(Amount {
                grams: Estimate { value: grams, sd },
                from: GramsFrom::Table,
                source,
            });
        }
        let unit = match quantity.measure {
            Measure::Unit(unit) => unit,
            Measure::Count(_) => Unit::Millilitre,
        };
        let millilitres = quantity.millilitres(self.cup()).ok_or(NotWeighed::NoDensity)?;
        let packed = (quantity.packing == Packing::Packed)
            .then(|| {
                ingredient
                    .row()
                    .and_then(|row| row.cuts().into_iter().find(|cut| *cut == "packed"))
            })
            .flatten();
        let density = self
            .density(ingredient, unit, cut.or(packed))
            .ok_or(NotWeighed::NoDensity)?;
        let grams = millilitres * density.grams_per_millilitre;
        Ok(Amount {
            grams: Estimate {
                value: grams,
                sd: grams * root_of_squares([measuring, density.relative_sd]),
            },
            from: density.from.into(),
            source: density.source,
        })
    }
}
