//! Which thermometer and which ruler does the cook have? Degrees and lengths, typed and shown.
//!
//! Everything is kept in °C and mm; these only read and write. A unit that is typed along wins over the cook's own.
//! Differences of temperature are left out on purpose: none is typed.

use super::Estimate;
use super::figure::fixed;
use super::quantity::{Measure, read};
use super::unit::{MILLIMETRES_PER_INCH, celsius_to_fahrenheit, fahrenheit_to_celsius};
use crate::words::say;
use serde::{Deserialize, Serialize};

/// The degrees on the cook's thermometer.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Degrees {
    /// °C.
    #[default]
    Celsius,
    /// °F.
    Fahrenheit,
}

impl Degrees {
    /// Every scale.
    pub const ALL: [Degrees; 2] = [Degrees::Celsius, Degrees::Fahrenheit];

    /// The sign beside a figure.
    pub fn symbol(self) -> &'static str {
        match self {
            Degrees::Celsius => "°C",
            Degrees::Fahrenheit => "°F",
        }
    }

    /// The word for ears.
    pub fn name(self) -> &'static str {
        match self {
            Degrees::Celsius => say("degrees Celsius"),
            Degrees::Fahrenheit => say("degrees Fahrenheit"),
        }
    }

    /// Reads a temperature as typed: `190`, `375 F`, `−18 °C`. Returns °C; nothing where it is not a temperature.
    ///
    /// # Example
    /// ```
    /// use pattywright::measure::Degrees;
    /// assert_eq!(Degrees::Celsius.read("165 °F").map(f64::round), Some(74.0));
    /// assert_eq!(Degrees::Fahrenheit.read("165").map(f64::round), Some(74.0));
    /// assert_eq!(Degrees::Celsius.read("-18"), Some(-18.0));
    /// assert_eq!(Degrees::Celsius.read("hot"), None);
    /// ```
    pub fn read(self, typed: &str) -> Option<f64> {
        let typed = typed.trim();
        let (below_zero, typed) = match typed.strip_prefix(['-', '−']) {
            Some(rest) => (true, rest),
            None => (false, typed),
        };
        let bare = typed.trim_end_matches(['c', 'C', 'f', 'F', '°', 'º', ' ', '.']);
        let scale = match typed[bare.len()..].to_ascii_lowercase().as_str() {
            unit if unit.contains('f') && unit.contains('c') => return None,
            unit if unit.contains('f') => Degrees::Fahrenheit,
            unit if unit.contains('c') => Degrees::Celsius,
            _ => self,
        };
        let size = plain_number(bare)?;
        let degrees = if below_zero { -size } else { size };
        Some(match scale {
            Degrees::Celsius => degrees,
            Degrees::Fahrenheit => fahrenheit_to_celsius(degrees),
        })
    }

    /// Writes °C as the cook reads them, without a sign.
    pub fn write(self, celsius: f64) -> String {
        match self {
            Degrees::Celsius => fixed(celsius, 0),
            Degrees::Fahrenheit => fixed(celsius_to_fahrenheit(celsius), 0),
        }
    }

    /// Writes °C with its sign: `74 °C`.
    pub fn text(self, celsius: f64) -> String {
        format!("{} {}", self.write(celsius), self.symbol())
    }

    /// The estimate in the cook's degrees; the spread is a difference and has no zero to move.
    pub fn of(self, celsius: Estimate) -> Estimate {
        match self {
            Degrees::Celsius => celsius,
            Degrees::Fahrenheit => Estimate::new(celsius_to_fahrenheit(celsius.value), 1.8 * celsius.sd),
        }
    }
}

/// The marks on the cook's ruler.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Length {
    /// mm.
    #[default]
    Millimetres,
    /// in.
    Inches,
}

impl Length {
    /// Every ruler.
    pub const ALL: [Length; 2] = [Length::Millimetres, Length::Inches];

    /// The sign beside a figure.
    pub fn symbol(self) -> &'static str {
        match self {
            Length::Millimetres => "mm",
            Length::Inches => say("in"),
        }
    }

    /// The word for ears.
    pub fn name(self) -> &'static str {
        match self {
            Length::Millimetres => say("millimetres"),
            Length::Inches => say("inches"),
        }
    }

    /// Reads a length as typed: `105`, `4 1/8 in`, `10 cm`, `4"`. Returns mm; nothing where it is not a length.
    ///
    /// # Example
    /// ```
    /// use pattywright::measure::Length;
    /// assert_eq!(Length::Millimetres.read("4 in"), Some(101.6));
    /// assert_eq!(Length::Inches.read("4 1/2"), Some(114.3));
    /// assert_eq!(Length::Inches.read("10 cm"), Some(100.0));
    /// assert_eq!(Length::Millimetres.read("wide"), None);
    /// ```
    pub fn read(self, typed: &str) -> Option<f64> {
        const UNITS: [(&str, f64); 12] = [
            ("millimetres", 1.0),
            ("millimeters", 1.0),
            ("millimeter", 1.0),
            ("mm", 1.0),
            ("cm", 10.0),
            ("inches", MILLIMETRES_PER_INCH),
            ("inch", MILLIMETRES_PER_INCH),
            ("in", MILLIMETRES_PER_INCH),
            ("zoll", MILLIMETRES_PER_INCH),
            ("\"", MILLIMETRES_PER_INCH),
            ("″", MILLIMETRES_PER_INCH),
            ("”", MILLIMETRES_PER_INCH),
        ];
        let typed = typed.trim().trim_end_matches('.').to_ascii_lowercase();
        let named = UNITS
            .iter()
            .find_map(|(unit, mm)| Some((typed.strip_suffix(unit)?, *mm)));
        let (number, mm) = named.unwrap_or((
            &typed,
            match self {
                Length::Millimetres => 1.0,
                Length::Inches => MILLIMETRES_PER_INCH,
            },
        ));
        Some(plain_number(number)? * mm)
    }

    /// Writes mm as the cook types them, without a sign.
    pub fn write(self, mm: f64) -> String {
        match self {
            Length::Millimetres => super::trimmed(mm, 1),
            Length::Inches => super::trimmed(mm / MILLIMETRES_PER_INCH, 2),
        }
    }

    /// Writes mm with their spread and sign: `10.2 ± 0.5 mm`.
    pub fn text(self, mm: Estimate) -> String {
        let (value, sd) = self.figure(mm);
        format!("{value} ± {sd} {}", self.symbol())
    }

    /// Writes mm and their spread as far as a ruler shows them: to 0.1 mm or 0.01 in, and to whole mm or tenths where the spread is wider.
    ///
    /// # Example
    /// ```
    /// use pattywright::measure::{Estimate, Length};
    /// assert_eq!(Length::Millimetres.text(Estimate::new(10.17, 0.53)), "10.2 ± 0.5 mm");
    /// assert_eq!(Length::Millimetres.text(Estimate::new(97.4, 3.1)), "97 ± 3 mm");
    /// assert_eq!(Length::Inches.text(Estimate::new(10.17, 0.53)), "0.40 ± 0.02 in");
    /// ```
    pub fn figure(self, mm: Estimate) -> (String, String) {
        let (own, finest) = match self {
            Length::Millimetres => (mm, 1),
            Length::Inches => (mm.scale(1.0 / MILLIMETRES_PER_INCH), 2),
        };
        let wide = own.sd >= 10f64.powi(1 - finest);
        let decimals = (finest - i32::from(wide)).unsigned_abs() as u8;
        (fixed(own.value, decimals), fixed(own.sd, decimals))
    }
}

/// A number and nothing else: comma or point, fractions too.
fn plain_number(text: &str) -> Option<f64> {
    let quantity = read(text.trim()).ok()?;
    matches!(&quantity.measure, Measure::Count(word) if word.is_empty()).then(|| quantity.middle())
}
