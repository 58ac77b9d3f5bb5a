//! What did the cook mean by this text? The reader behind [`read`] and [`take`].
//!
//! The text is read once from left to right, a token at a time, looking ahead a few tokens at most.
//! Nothing is guessed: digits that could be two numbers are refused, and a word that is no unit is kept as a thing.

use super::number::{amount, fraction_noun, range, range_mark};
use super::quantity::{LARGEST_AMOUNT, Measure, Packing, Quantity, QuantityError};
use super::scan::{Reader, Token, is_one_of, key};
use super::thing::{plural, singular};
use super::unit::{Cup, Unit};
use crate::words::small;

/// Reads a text that is a quantity and nothing else.
///
/// A word after the number that is not a unit becomes [`Measure::Count`].
///
/// # Errors
/// A [`QuantityError`] that says what to do.
///
/// # Example
/// ```
/// use pattywright::measure::{Cup, quantity::read};
/// let granules = read("1¾ cups")?;
/// assert_eq!(granules.millilitres(Cup::Metric), Some(437.5));
/// assert_eq!(read("1,234 g").unwrap_err().to_string(),
///     "“1,234” can be read as two numbers: leave thousands unmarked, and use a point for decimals");
/// # Ok::<(), pattywright::measure::QuantityError>(())
/// ```
pub fn read(text: &str) -> Result<Quantity, QuantityError> {
    // "2." is on its way to "2.5".
    let mut reader = Reader::new(text.trim_end().trim_end_matches(['.', ',']));
    if reader.at_end() {
        return Err(QuantityError::Empty);
    }
    let trimmed = text.trim();
    if beginning(trimmed).len() < trimmed.len() {
        return Err(QuantityError::TooLong);
    }
    let mut quantity = quantity(&mut reader)?.ok_or(QuantityError::NoNumber)?;
    if reader.at_end() {
        return if only_article(&quantity, text) {
            Err(QuantityError::NoNumber)
        } else {
            Ok(quantity)
        };
    }
    if quantity.unit().is_some() {
        return Err(QuantityError::LeftOver {
            words: reader.excerpt(),
        });
    }
    quantity.measure = Measure::Count(thing(&mut reader)?);
    Ok(quantity)
}

/// Takes the quantity off the front of a recipe line and returns it with the bytes it took, spaces after it included.
///
/// It has a known unit, or else it is a bare number and what it counts stays in the line: "2 cloves garlic" leaves "cloves garlic".
/// Nothing is returned for a line that starts otherwise, or with something [`read`] would refuse.
///
/// # Example
/// ```
/// use pattywright::measure::quantity::take;
/// let line = "1 3/4 cups dry granules";
/// let (quantity, bytes) = take(line).unwrap();
/// assert_eq!(quantity.to_string(), "1¾ cups");
/// assert_eq!(&line[bytes..], "dry granules");
/// ```
pub fn take(text: &str) -> Option<(Quantity, usize)> {
    let beginning = beginning(text);
    let mut reader = Reader::new(beginning);
    let quantity = quantity(&mut reader).ok()??;
    if quantity.unit().is_some() {
        // "1 t0o" is a slip for "1 to", not a teaspoon.
        if reader.peek_number() && !reader.peek().1 {
            return None;
        }
        let unit_end = reader;
        let of = reader.word(&["of"]) && !reader.at_end() && reader.peek().1;
        if !of {
            reader = unit_end;
        }
    } else {
        let (next, spaced) = reader.peek();
        let stands_alone = match next {
            Token::End => true,
            Token::Word(_) | Token::Sign('(') => spaced,
            _ => false,
        };
        if !stands_alone || only_article(&quantity, beginning) {
            return None;
        }
    }
    let bytes = reader.next_start();
    // What ends in the second half of a cut text may have been cut itself.
    let may_be_cut = beginning.len() < text.len() && beginning.len() < 2 * bytes;
    (!may_be_cut).then_some((quantity, bytes))
}

/// Whether an "a" with nothing to count is all there is.
fn only_article(quantity: &Quantity, text: &str) -> bool {
    quantity.unit().is_none() && quantity.low == 1.0 && Reader::new(text).article()
}

/// As much of a text as a quantity may take up, so that a pasted book costs no more than a line.
fn beginning(text: &str) -> &str {
    const LONGEST: usize = 200;
    if text.len() <= LONGEST {
        return text;
    }
    text.char_indices().nth(LONGEST).map_or(text, |(end, _)| &text[..end])
}

/// One amount or a sum of them, with "about" before it.
fn quantity(reader: &mut Reader) -> Result<Option<Quantity>, QuantityError> {
    let about = reader.sign('~')
        || reader.word(&[
            "about",
            "approx",
            "approximately",
            "around",
            "roughly",
            "circa",
            "ca",
            "etwa",
            "rund",
            "ungefähr",
        ]);
    let mut after_sign = *reader;
    if after_sign.sign('-') && amount(&mut after_sign)?.is_some() {
        return Err(QuantityError::Negative);
    }
    let Some(mut first) = part(reader)? else {
        return Ok(None);
    };
    first.about = about;
    let mut last_unit = first.unit();
    while let Some(unit) = last_unit
        && !reader.at_end()
    {
        let before = *reader;
        let added = reader.sign('+') || reader.word(&["plus"]);
        let joined = !added && (reader.sign('&') || reader.word(&["and", "und"]));
        // "1 lb 4 oz" is a sum only when the second unit is the smaller one.
        let beside = !added && !joined && {
            reader.sign(',');
            reader.peek_number()
        };
        let next = match part(reader) {
            Ok(next) => next,
            Err(error) if added => return Err(error),
            Err(_) => None,
        };
        let next_unit = next.as_ref().and_then(Quantity::unit);
        let fits =
            next_unit.is_some_and(|next_unit| same_kind(unit, next_unit) && (!beside || size(next_unit) < size(unit)));
        match next {
            Some(_) if fits && beside && first.times.is_some() => {
                return Err(QuantityError::LeftOver {
                    words: before.excerpt(),
                });
            }
            Some(next) if fits && (added || joined || beside) => {
                first.plus.push(next);
                last_unit = next_unit;
            }
            _ if added && next_unit.is_some() => return Err(QuantityError::WeightPlusVolume),
            _ => {
                *reader = before;
                last_unit = None;
            }
        }
    }
    Ok(Some(first))
}

fn same_kind(one: Unit, other: Unit) -> bool {
    one.grams().is_some() == other.grams().is_some()
}

fn size(unit: Unit) -> Option<f64> {
    unit.grams().or(unit.millilitres(Cup::Us))
}

/// One amount or range with its unit: "1–2 heaped tsp", "2 x 94 g", "half a cup", "a pinch".
fn part(reader: &mut Reader) -> Result<Option<Quantity>, QuantityError> {
    let start = *reader;
    let packed_first = packing(reader);
    let Some((mut low, mut high)) = range_or_article(reader)? else {
        return Ok(match unit(reader) {
            Some(unit) if packed_first.is_some() || matches!(unit, Unit::Pinch | Unit::Dash) => {
                let packing = packed_first.unwrap_or_default();
                Some(Quantity {
                    packing,
                    ..Quantity::of(1.0, unit)
                })
            }
            _ => {
                *reader = start;
                None
            }
        });
    };
    let mut times = None;
    let before_times = *reader;
    if low == high && (reader.sign('×') || reader.word(&["x"])) {
        match range(reader)? {
            Some(each) => {
                times = Some(low);
                (low, high) = (each.0 * low, each.1 * low);
            }
            None => *reader = before_times,
        }
    }
    if low == 0.0 {
        return Err(QuantityError::Zero);
    }
    if low.fract() != 0.0 {
        reader.word(&["of"]);
        reader.article();
    }
    let before_unit = *reader;
    let packing_before = packed_first.or_else(|| packing(reader));
    let Some(unit) = unit(reader) else {
        *reader = before_unit;
        if packed_first.is_some() {
            *reader = start;
            return Ok(None);
        }
        let mut bare = Quantity::plain(low, high, Measure::Count(String::new()));
        bare.times = times;
        return believable(bare).map(Some);
    };
    if low == high && times.is_none() {
        high = same_unit_range_end(reader, low, unit)?;
    }
    let mut quantity = Quantity::plain(low, high, Measure::Unit(unit));
    quantity.times = times;
    quantity.packing = packing_before.or_else(|| packing(reader)).unwrap_or_default();
    believable(quantity).map(Some)
}

fn believable(quantity: Quantity) -> Result<Quantity, QuantityError> {
    match quantity {
        _ if LARGEST_AMOUNT < quantity.high => Err(QuantityError::TooLarge),
        Quantity { low, high, .. } if high < low => Err(QuantityError::BackwardRange { low, high }),
        _ => Ok(quantity),
    }
}

fn range_or_article(reader: &mut Reader) -> Result<Option<(f64, f64)>, QuantityError> {
    Ok(match range(reader)? {
        None if reader.article() => Some((1.0, 1.0)),
        range => range,
    })
}

/// The upper end in "1 tbsp to 2 tbsp", or `low` again when there is no such end.
fn same_unit_range_end(reader: &mut Reader, low: f64, first: Unit) -> Result<f64, QuantityError> {
    let before = *reader;
    if range_mark(reader)
        && let Some(high) = amount(reader)?
        && unit(reader) == Some(first)
    {
        return Ok(high);
    }
    *reader = before;
    Ok(low)
}

fn packing(reader: &mut Reader) -> Option<Packing> {
    // The shortest of these words is "level"; most words that stand here are units.
    if !reader.word_of_at_least(5) {
        return None;
    }
    let before = *reader;
    if reader.word(&["firmly", "tightly"]) {
        if reader.word(&["packed"]) {
            return Some(Packing::Packed);
        }
        *reader = before;
        return None;
    }
    [
        (
            Packing::Level,
            &[
                "level",
                "levelled",
                "leveled",
                "gestrichen",
                "gestrichene",
                "gestrichener",
            ][..],
        ),
        (Packing::Packed, &["packed", "gepresst", "gepresste"]),
        (
            Packing::Heaped,
            &["heaped", "heaping", "rounded", "gehäuft", "gehäufte", "gehäufter"],
        ),
        (Packing::Scant, &["scant", "knapp", "knappe", "knapper"]),
    ]
    .into_iter()
    .find_map(|(packing, words)| reader.word(words).then_some(packing))
}

/// A unit, unless a hyphen makes it part of a longer word ("T-bone").
fn unit(reader: &mut Reader) -> Option<Unit> {
    let mut after = *reader;
    let Token::Word(word) = after.next_token().0 else {
        return None;
    };
    let mut second = "";
    if is_one_of(word, &["fl", "fluid"]) {
        let Token::Word(ounces) = after.next_token().0 else {
            return None;
        };
        second = ounces;
    }
    let unit = Unit::spelled([word, second])?;
    if after.hyphenated() {
        return None;
    }
    *reader = after;
    Some(unit)
}

/// The name of what a bare number counts: one to a few words, in the singular and in lower case.
fn thing(reader: &mut Reader) -> Result<String, QuantityError> {
    /// Longer than this is a sentence, not the name of a thing.
    const LONGEST: usize = 40;
    let unknown = QuantityError::UnknownUnit { word: reader.excerpt() };
    let mut name = String::new();
    loop {
        match reader.next_token() {
            (Token::Word(word), spaced) if name.len() + word.len() <= LONGEST => {
                if spaced && !name.is_empty() {
                    name.push(' ');
                }
                name += &small(&key(word));
            }
            (Token::Sign('-'), false) if !name.is_empty() && reader.peek_tight_word() => {
                name.push('-');
            }
            (Token::End, _) => break,
            _ => return Err(unknown),
        }
    }
    let name = singular(&name);
    let mut first = Reader::new(&name);
    // "pinc.h" is two words in the text and a unit once they are joined.
    let reserved = first.word(&["a", "an", "and", "of", "or", "plus", "the", "to", "x"])
        || fraction_noun(&mut first).is_some()
        || Unit::read(&name).is_some();
    // What is read must be readable when it is written back, and a plural is the longer word.
    if reserved || LONGEST < plural(&name).len() {
        Err(unknown)
    } else {
        Ok(name)
    }
}
