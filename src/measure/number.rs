//! One number as cooks write it: "1 1/2", "½", "0,5", "three quarters", "1 to 2", read and written back.
//!
//! A number is a whole, a decimal of nine places or a fraction; all three come back as they were typed, or shorter.

use super::figure::trimmed;
use super::quantity::{LARGEST_AMOUNT, QuantityError};
use super::scan::{Reader, Token, fold, is_one_of};
use crate::words;

/// Fractions that have a sign of their own.
const FRACTION_SIGNS: [(char, u32, u32); 19] = [
    ('½', 1, 2),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
    ('¼', 1, 4),
    ('¾', 3, 4),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
    ('⅙', 1, 6),
    ('⅚', 5, 6),
    ('⅕', 1, 5),
    ('⅖', 2, 5),
    ('⅗', 3, 5),
    ('⅘', 4, 5),
    ('⅐', 1, 7),
    ('⅑', 1, 9),
    ('⅒', 1, 10),
    ('↉', 0, 3),
];

/// Denominators found on measuring spoons and rulers.
const KITCHEN_DENOMINATORS: [u32; 6] = [1, 2, 3, 4, 8, 16];
/// Fractions typed with a denominator above this come back as decimals.
const LARGEST_DENOMINATOR: u32 = 99;
/// Digits after the point that are read and written.
const DECIMALS: u32 = 9;

/// A number, or two with "to", "or" or a dash between them.
pub(super) fn range(reader: &mut Reader) -> Result<Option<(f64, f64)>, QuantityError> {
    let Some(low) = amount(reader)? else {
        return Ok(None);
    };
    let before = *reader;
    if range_mark(reader)
        && let Some(high) = amount(reader)?
    {
        return Ok(Some((low, high)));
    }
    *reader = before;
    Ok(Some((low, low)))
}

/// The "to", "or" or dash of a range.
pub(super) fn range_mark(reader: &mut Reader) -> bool {
    reader.sign('-') || reader.word(&["to", "or", "bis", "oder"])
}

/// One number: "1 1/2", "1½", "1-1/2", ".5", "half", "three quarters", "one and a half".
pub(super) fn amount(reader: &mut Reader) -> Result<Option<f64>, QuantityError> {
    if reader.at_end() {
        return Ok(None);
    }
    let start = *reader;
    let whole = match reader.next_token().0 {
        Token::Digits(digits) => {
            let value = decimal(digits)?;
            if value.fract() != 0.0 {
                return Ok(Some(value));
            }
            if reader.splits_thousands(digits) {
                return Err(QuantityError::Ambiguous { typed: start.excerpt() });
            }
            Some(value)
        }
        Token::Word(word) => number_word(word),
        _ => None,
    };
    let Some(whole) = whole else {
        *reader = start;
        return Ok(fraction(reader)?.map(|(over, under)| ratio(over, under)));
    };
    if let Some(under) = denominator(reader)? {
        return Ok(Some(ratio(whole, under)));
    }
    let before_noun = *reader;
    reader.tight_hyphen();
    if let Some(under) = fraction_noun(reader) {
        return Ok(Some(whole / under));
    }
    *reader = before_noun;
    Ok(Some(match added_fraction(reader)? {
        Some((over, under)) => ratio(whole * under + over, under),
        None => whole,
    }))
}

/// Divides; a fraction with a large denominator is kept to nine decimals, which is how it will be written back.
fn ratio(over: f64, under: f64) -> f64 {
    let ten_power = 10f64.powi(DECIMALS as i32);
    match over / under {
        value if f64::from(LARGEST_DENOMINATOR) < under => (value * ten_power).round() / ten_power,
        value => value,
    }
}

/// The fraction after a whole number: the "1/2" of "1 1/2" and "1-1/2", the "a half" of "one and a half".
fn added_fraction(reader: &mut Reader) -> Result<Option<(f64, f64)>, QuantityError> {
    if reader.at_end() {
        return Ok(None);
    }
    let before = *reader;
    reader.tight_hyphen();
    let in_words = reader.sign('&') || reader.word(&["and", "und"]);
    if in_words {
        reader.tight_hyphen();
    }
    let starts_with_word = matches!(reader.peek().0, Token::Word(_));
    if (in_words || !starts_with_word)
        && let Some((over, under)) = fraction(reader)?
        && over < under
    {
        return Ok(Some((over, under)));
    }
    *reader = before;
    Ok(None)
}

/// A fraction that stands by itself: "1/2", "½", "⅟8", "half", "a quarter", "three quarters".
fn fraction(reader: &mut Reader) -> Result<Option<(f64, f64)>, QuantityError> {
    let start = *reader;
    let over = match reader.next_token().0 {
        Token::Sign('⅟') => {
            return Ok(Some((1.0, under_stroke(reader)?)));
        }
        Token::Sign(sign) => {
            let known = FRACTION_SIGNS.iter().find(|(known, ..)| *known == sign);
            if known.is_none() {
                *reader = start;
            }
            return Ok(known.map(|(_, over, under)| (f64::from(*over), f64::from(*under))));
        }
        Token::Digits(_) => {
            *reader = start;
            whole(reader)?
        }
        Token::Word(word) => number_word(word),
        Token::End => None,
    };
    if let Some(over) = over {
        if let Some(under) = denominator(reader)? {
            return Ok(Some((over, under)));
        }
        reader.tight_hyphen();
    } else {
        *reader = start;
        if reader.article() {
            reader.tight_hyphen();
        }
    }
    let under = fraction_noun(reader);
    if under.is_none() {
        *reader = start;
    }
    Ok(under.map(|under| (over.unwrap_or(1.0), under)))
}

/// The number under a fraction stroke, when there is a stroke.
fn denominator(reader: &mut Reader) -> Result<Option<f64>, QuantityError> {
    Ok(if reader.sign('/') {
        Some(under_stroke(reader)?)
    } else {
        None
    })
}

fn under_stroke(reader: &mut Reader) -> Result<f64, QuantityError> {
    let under = whole(reader)?.filter(|under| *under != 0.0);
    under.ok_or(QuantityError::NoNumber)
}

fn whole(reader: &mut Reader) -> Result<Option<f64>, QuantityError> {
    let start = *reader;
    if let Token::Digits(digits) = reader.next_token().0 {
        let value = decimal(digits)?;
        if value.fract() == 0.0 {
            return Ok(Some(value));
        }
    }
    *reader = start;
    Ok(None)
}

/// Reads digits with at most one point or comma between them; digits beyond the ninth decimal are dropped.
fn decimal(digits: &str) -> Result<f64, QuantityError> {
    let (mut wholes, mut whole_digits, mut parts, mut part_digits) = (0u64, 0u32, 0u64, 0u32);
    let (mut marks, mut other_mark) = (0u32, false);
    let decimal_mark = words::spoken().decimal_mark();
    for c in digits.chars().map(fold) {
        match c.to_digit(10) {
            None => {
                marks += 1;
                other_mark |= c != decimal_mark;
            }
            Some(digit) if marks == 0 => {
                wholes = wholes.saturating_mul(10).saturating_add(u64::from(digit));
                whole_digits += 1;
            }
            Some(digit) => {
                if part_digits < DECIMALS {
                    parts = parts * 10 + u64::from(digit);
                }
                part_digits += 1;
            }
        }
    }
    let like_thousands = other_mark && part_digits == 3 && 0 < wholes && whole_digits <= 3;
    if 1 < marks || like_thousands {
        return Err(QuantityError::Ambiguous {
            typed: Reader::new(digits).excerpt(),
        });
    }
    if LARGEST_AMOUNT < wholes as f64 {
        return Err(QuantityError::TooLarge);
    }
    if part_digits == 0 {
        return Ok(wholes as f64);
    }
    let ten_power = 10u64.pow(part_digits.min(DECIMALS));
    Ok((wholes * ten_power + parts) as f64 / ten_power as f64)
}

fn number_word(word: &str) -> Option<f64> {
    const WORDS: [[&str; 12]; 2] = [
        [
            "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
        ],
        [
            "eins", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun", "zehn", "elf", "zwölf",
        ],
    ];
    let position = |words: &[&str]| words.iter().position(|known| is_one_of(word, &[known]));
    let at = WORDS.iter().find_map(|words| position(words))?;
    Some((at + 1) as f64)
}

pub(super) fn fraction_noun(reader: &mut Reader) -> Option<f64> {
    // The shortest of these words is "half"; most words that stand here are units.
    if !reader.word_of_at_least(4) {
        return None;
    }
    [
        (2.0, &["half", "halves", "halb", "halbe", "halber", "halbes"][..]),
        (3.0, &["third", "thirds", "drittel"]),
        (4.0, &["quarter", "quarters", "fourth", "fourths", "viertel"]),
        (5.0, &["fifth", "fifths"]),
        (6.0, &["sixth", "sixths"]),
        (8.0, &["eighth", "eighths", "achtel"]),
    ]
    .into_iter()
    .find_map(|(under, words)| reader.word(words).then_some(under))
}

/// Writes a number as the shortest text that reads back to it: "1½", "3/16", "0.35".
///
/// `in_fractions` prefers kitchen fractions to decimals.
pub(super) fn number(value: f64, in_fractions: bool) -> String {
    // A product taken apart again can be off by a rounding error, so a second round allows for one.
    for slack in [0.0, 4.0 * f64::EPSILON] {
        let is = |candidate: f64| (candidate - value).abs() <= slack * value;
        let as_fraction = |denominator: u32| {
            let numerator = (value * f64::from(denominator)).round();
            is(numerator / f64::from(denominator)).then(|| with_sign(numerator as u64, denominator))
        };
        if in_fractions && let Some(text) = KITCHEN_DENOMINATORS.into_iter().find_map(as_fraction) {
            return text;
        }
        let ten_power = 10f64.powi(DECIMALS as i32);
        if is((value * ten_power).round() / ten_power) {
            break;
        }
        if let Some(text) = (2..=LARGEST_DENOMINATOR).find_map(as_fraction) {
            return text;
        }
    }
    trimmed(value, DECIMALS as u8)
}

fn with_sign(numerator: u64, denominator: u32) -> String {
    let denominator = u64::from(denominator);
    let (whole, rest) = (numerator / denominator, numerator % denominator);
    if rest == 0 {
        return whole.to_string();
    }
    let sign = FRACTION_SIGNS
        .iter()
        .find(|(_, over, under)| (u64::from(*over), u64::from(*under)) == (rest, denominator));
    match (whole, sign) {
        (0, Some((sign, ..))) => sign.to_string(),
        (_, Some((sign, ..))) => format!("{whole}{sign}"),
        (0, None) => format!("{rest}/{denominator}"),
        (_, None) => format!("{whole} {rest}/{denominator}"),
    }
}
