//! How much is one of these? Kitchen units in grams and millilitres.
//!
//! A unit of weight is a fixed number of grams; a unit of volume is a fixed number of millilitres once the cup is known.
//! Density is left out on purpose: turning a cup into grams is the pantry's work.

use super::scan::fold;
use crate::words::say;
use serde::{Deserialize, Serialize};

/// One inch in millimetres, exactly.
///
/// # Source
/// NIST SP 811 (2008), Appendix B.8, "inch".
pub const MILLIMETRES_PER_INCH: f64 = 25.4;

/// One avoirdupois pound in grams, exactly (NIST SP 811, Appendix B.8).
const GRAMS_PER_POUND: f64 = 453.59237;
/// One US fluid ounce, exactly 1/128 of a gallon of 231 cubic inches (NIST Handbook 44, Appendix C).
const US_FLUID_OUNCE_ML: f64 = 29.5735295625;
/// One imperial fluid ounce, exactly 1/160 of a gallon of 4.54609 litres (UK Weights and Measures Act 1985, Schedule 1).
const IMPERIAL_FLUID_OUNCE_ML: f64 = 28.4130625;

/// Turns °F into °C.
///
/// `°C = (°F − 32) / 1.8`
///
/// # Source
/// NIST SP 811 (2008), Appendix B.8, "degree Fahrenheit".
pub fn fahrenheit_to_celsius(temperature_f: f64) -> f64 {
    (temperature_f - 32.0) / 1.8
}

/// Turns °C into °F, the reverse of [`fahrenheit_to_celsius`].
pub fn celsius_to_fahrenheit(temperature_c: f64) -> f64 {
    temperature_c * 1.8 + 32.0
}

/// Which cup (and its spoons) a recipe means.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cup {
    /// The US customary cup: 236.588 ml, tablespoon 14.787 ml, teaspoon 4.929 ml.
    #[default]
    Us,
    /// The metric cup: 250 ml, tablespoon 15 ml, teaspoon 5 ml (common practice, no source).
    Metric,
    /// The cup of US nutrition labels: 240 ml, tablespoon 15 ml, teaspoon 5 ml (21 CFR 101.9(b)(5)(viii)).
    Label,
    /// Half an imperial pint: 284.131 ml. Its tablespoon is ⅝ fluid ounce (17.758 ml) and its teaspoon a third of that
    /// (common practice, no source).
    Imperial,
    /// The Australian cup: 250 ml, tablespoon 20 ml, teaspoon 5 ml (common practice, no source).
    Australian,
}

impl Cup {
    /// Every cup, in the order the settings show them.
    pub const ALL: [Cup; 5] = [Cup::Us, Cup::Metric, Cup::Label, Cup::Imperial, Cup::Australian];

    /// The name used in saved documents.
    pub fn id(self) -> &'static str {
        match self {
            Cup::Us => "us",
            Cup::Metric => "metric",
            Cup::Label => "label",
            Cup::Imperial => "imperial",
            Cup::Australian => "australian",
        }
    }

    /// The name for the settings screen.
    pub fn name(self) -> &'static str {
        match self {
            Cup::Us => say("US cup, 237 ml"),
            Cup::Metric => say("Metric cup, 250 ml"),
            Cup::Label => say("US label cup, 240 ml"),
            Cup::Imperial => say("Imperial cup, 284 ml"),
            Cup::Australian => say("Australian cup, 250 ml, tablespoon 20 ml"),
        }
    }

    /// Millilitres in the cup, the tablespoon, the teaspoon and the fluid ounce.
    fn measures_ml(self) -> (f64, f64, f64, f64) {
        const US_CUP_ML: f64 = 8.0 * US_FLUID_OUNCE_ML;
        const IMPERIAL_TABLESPOON_ML: f64 = 0.625 * IMPERIAL_FLUID_OUNCE_ML;
        match self {
            Cup::Us => (US_CUP_ML, US_CUP_ML / 16.0, US_CUP_ML / 48.0, US_FLUID_OUNCE_ML),
            Cup::Metric => (250.0, 15.0, 5.0, IMPERIAL_FLUID_OUNCE_ML),
            Cup::Label => (240.0, 15.0, 5.0, 30.0),
            Cup::Imperial => (
                10.0 * IMPERIAL_FLUID_OUNCE_ML,
                IMPERIAL_TABLESPOON_ML,
                IMPERIAL_TABLESPOON_ML / 3.0,
                IMPERIAL_FLUID_OUNCE_ML,
            ),
            Cup::Australian => (250.0, 20.0, 5.0, IMPERIAL_FLUID_OUNCE_ML),
        }
    }
}

/// A unit a cook may type.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// The gram.
    Gram,
    /// 1000 g.
    Kilogram,
    /// A thousandth of a gram.
    Milligram,
    /// The avoirdupois ounce: a sixteenth of a pound.
    Ounce,
    /// The avoirdupois pound: 453.59237 g.
    Pound,
    /// The millilitre.
    Millilitre,
    /// 10 ml.
    Centilitre,
    /// 100 ml.
    Decilitre,
    /// 1000 ml.
    Litre,
    /// The teaspoon of the chosen cup.
    Teaspoon,
    /// The tablespoon of the chosen cup.
    Tablespoon,
    /// The cup.
    Cup,
    /// The fluid ounce of the chosen cup.
    FluidOunce,
    /// 16 US fluid ounces, or 20 imperial ones.
    Pint,
    /// Two pints.
    Quart,
    /// A sixteenth of a teaspoon (common practice, no source).
    Pinch,
    /// An eighth of a teaspoon (common practice, no source).
    Dash,
}

impl Unit {
    /// Every unit, weights first.
    pub const ALL: [Unit; 17] = [
        Unit::Gram,
        Unit::Kilogram,
        Unit::Milligram,
        Unit::Ounce,
        Unit::Pound,
        Unit::Millilitre,
        Unit::Centilitre,
        Unit::Decilitre,
        Unit::Litre,
        Unit::Teaspoon,
        Unit::Tablespoon,
        Unit::Cup,
        Unit::FluidOunce,
        Unit::Pint,
        Unit::Quart,
        Unit::Pinch,
        Unit::Dash,
    ];

    /// Grams in one of a unit of weight, nothing for a unit of volume.
    ///
    /// # Source
    /// NIST SP 811 (2008), Appendix B.8; the ounce is a sixteenth of the pound (NIST Handbook 44, Appendix C).
    pub fn grams(self) -> Option<f64> {
        match self {
            Unit::Gram => Some(1.0),
            Unit::Kilogram => Some(1000.0),
            Unit::Milligram => Some(0.001),
            Unit::Ounce => Some(GRAMS_PER_POUND / 16.0),
            Unit::Pound => Some(GRAMS_PER_POUND),
            _ => None,
        }
    }

    /// Millilitres in one of a unit of volume, nothing for a unit of weight.
    ///
    /// Spoons, fluid ounces, pints and quarts follow the cup.
    ///
    /// # Source
    /// US: NIST Handbook 44, Appendix C. Label: 21 CFR 101.9(b)(5)(viii). The others: see [`Cup`].
    pub fn millilitres(self, cup: Cup) -> Option<f64> {
        let (cup_ml, tablespoon_ml, teaspoon_ml, fluid_ounce_ml) = cup.measures_ml();
        let pint_ml = match cup {
            Cup::Us | Cup::Label => 16.0 * fluid_ounce_ml,
            Cup::Metric | Cup::Imperial | Cup::Australian => 20.0 * fluid_ounce_ml,
        };
        match self {
            Unit::Gram | Unit::Kilogram | Unit::Milligram | Unit::Ounce | Unit::Pound => None,
            Unit::Millilitre => Some(1.0),
            Unit::Centilitre => Some(10.0),
            Unit::Decilitre => Some(100.0),
            Unit::Litre => Some(1000.0),
            Unit::Teaspoon => Some(teaspoon_ml),
            Unit::Tablespoon => Some(tablespoon_ml),
            Unit::Cup => Some(cup_ml),
            Unit::FluidOunce => Some(fluid_ounce_ml),
            Unit::Pint => Some(pint_ml),
            Unit::Quart => Some(2.0 * pint_ml),
            Unit::Pinch => Some(teaspoon_ml / 16.0),
            Unit::Dash => Some(teaspoon_ml / 8.0),
        }
    }

    /// The short form shown after a number, for one or for more, in the language spoken.
    pub fn written(self, many: bool) -> &'static str {
        say(match self {
            Unit::Cup if many => "cups",
            Unit::Pint if many => "pints",
            Unit::Quart if many => "quarts",
            Unit::Pinch if many => "pinches",
            Unit::Dash if many => "dashes",
            _ => self.symbol(),
        })
    }

    /// The short form in English.
    pub fn symbol(self) -> &'static str {
        match self {
            Unit::Gram => "g",
            Unit::Kilogram => "kg",
            Unit::Milligram => "mg",
            Unit::Ounce => "oz",
            Unit::Pound => "lb",
            Unit::Millilitre => "ml",
            Unit::Centilitre => "cl",
            Unit::Decilitre => "dl",
            Unit::Litre => "l",
            Unit::Teaspoon => "tsp",
            Unit::Tablespoon => "tbsp",
            Unit::Cup => "cup",
            Unit::FluidOunce => "fl oz",
            Unit::Pint => "pint",
            Unit::Quart => "quart",
            Unit::Pinch => "pinch",
            Unit::Dash => "dash",
        }
    }

    /// Reads a name, an abbreviation or a plural; dots and spaces inside are ignored.
    ///
    /// A single capital `T` is a tablespoon and a small `t` a teaspoon; otherwise capitals do not matter.
    ///
    /// # Example
    /// ```
    /// use pattywright::measure::Unit;
    /// assert_eq!(Unit::read("Tbsp."), Some(Unit::Tablespoon));
    /// assert_eq!(Unit::read("fl. oz."), Some(Unit::FluidOunce));
    /// assert_eq!(Unit::read("clove"), None);
    /// ```
    pub fn read(word: &str) -> Option<Unit> {
        Unit::spelled([word, ""])
    }

    /// Reads a name of one word or two ("fl oz").
    pub(super) fn spelled(words: [&str; 2]) -> Option<Unit> {
        // The longest name is "tablespoonfuls"; a longer word is no unit.
        let mut letters = [0u8; 14];
        let mut length = 0;
        for word in words {
            for c in word.chars().map(fold).filter(|c| *c != '.' && !c.is_whitespace()) {
                *letters.get_mut(length)? = u8::try_from(without_dots(c)).ok()?;
                length += 1;
            }
        }
        let letters = &mut letters[..length];
        match &*letters {
            b"T" | b"Ts" => return Some(Unit::Tablespoon),
            b"t" | b"ts" => return Some(Unit::Teaspoon),
            _ => letters.make_ascii_lowercase(),
        }
        let name = std::str::from_utf8(letters).ok()?;
        named(name).or_else(|| named(name.strip_suffix('s')?))
    }
}

/// The letter without the dots that German sets on it, so that "Esslöffel" is plain letters.
fn without_dots(c: char) -> char {
    match c {
        'ä' | 'Ä' => 'a',
        'ö' | 'Ö' => 'o',
        'ü' | 'Ü' => 'u',
        _ => c,
    }
}

/// Looks up one spelling, lower case, of any language the tables have; a plural in `s` has already lost its `s` or is tried next.
fn named(word: &str) -> Option<Unit> {
    Some(match word {
        "g" | "gr" | "gm" | "gram" | "gramme" | "gramm" => Unit::Gram,
        "kg" | "kilo" | "kilogram" | "kilogramme" | "kilogramm" => Unit::Kilogram,
        "mg" | "milligram" | "milligramme" => Unit::Milligram,
        "oz" | "ounce" => Unit::Ounce,
        "lb" | "pound" => Unit::Pound,
        "ml" | "cc" | "millilitre" | "milliliter" => Unit::Millilitre,
        "cl" | "centilitre" | "centiliter" => Unit::Centilitre,
        "dl" | "decilitre" | "deciliter" => Unit::Decilitre,
        "l" | "ltr" | "litre" | "liter" => Unit::Litre,
        "tsp" | "teaspoon" | "teaspoonful" | "tl" | "teeloffel" => Unit::Teaspoon,
        "tbsp" | "tbs" | "tb" | "tbl" | "tblsp" | "tablespoon" | "tablespoonful" | "el" | "essloffel" => {
            Unit::Tablespoon
        }
        "c" | "cup" | "cupful" | "tasse" | "tassen" => Unit::Cup,
        "floz" | "fluidounce" | "fluidoz" => Unit::FluidOunce,
        "pt" | "pint" => Unit::Pint,
        "qt" | "quart" => Unit::Quart,
        "pinch" | "pinche" | "prise" | "prisen" => Unit::Pinch,
        "dash" | "dashe" | "spritzer" => Unit::Dash,
        _ => return None,
    })
}
