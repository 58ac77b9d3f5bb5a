//! The quick converter: any ingredient, any measure, both ways.

use super::Figure;
use crate::formula::Kitchen;
use crate::measure::{Unit, fixed, grams};
use crate::pantry::{GramsFrom, Ingredient};
use crate::words::say;

/// An amount in every measure a kitchen uses.
#[derive(Clone, PartialEq, Debug)]
pub struct ConvertSheet {
    /// Grams, large.
    pub grams: Figure,
    /// The same in other units: `3.2 oz`, `1 cup`.
    pub others: Vec<(String, &'static str)>,
    /// The nearest level cups and spoons, with what they are off by.
    pub level: String,
    /// Where the figure comes from.
    pub source: String,
    /// True for a wide starting figure.
    pub starting: bool,
}

/// Works it out.
///
/// # Errors
/// A sentence that says what to do.
pub fn sheet(
    kitchen: &Kitchen,
    ingredient: &Ingredient,
    typed: &str,
    cut: Option<&str>,
) -> Result<ConvertSheet, String> {
    let pantry = &kitchen.pantry;
    let convert = |unit| pantry.convert(ingredient, typed, cut, unit, &kitchen.habits);
    let by_weight = convert(Unit::Gram).map_err(|why| why.to_string())?;
    let volume = convert(Unit::Teaspoon).ok();
    let mut others = Vec::new();
    for unit in [
        Unit::Ounce,
        Unit::Cup,
        Unit::Tablespoon,
        Unit::Teaspoon,
        Unit::Millilitre,
    ] {
        if let Ok(converted) = convert(unit) {
            let value = converted.value.value;
            let decimals = if value < 10.0 { 2 } else { u8::from(value < 100.0) };
            others.push((fixed(value, decimals), unit.written(false)));
        }
    }
    let level =
        volume
            .as_ref()
            .and_then(|v| v.level.as_ref())
            .map_or(String::new(), |(level, error_g)| match *error_g {
                Some(error) if error <= -0.05 => say!("{level}, {off} short", level, off = grams(-error)),
                Some(error) if error >= 0.05 => say!("{level}, {off} over", level, off = grams(error)),
                _ => level.to_string(),
            });
    let told = volume
        .filter(|_| by_weight.from == GramsFrom::Weight)
        .unwrap_or(by_weight.clone());
    Ok(ConvertSheet {
        grams: Figure::of(by_weight.value, "g"),
        others,
        level,
        source: told.source,
        starting: told.from == GramsFrom::Starting,
    })
}
