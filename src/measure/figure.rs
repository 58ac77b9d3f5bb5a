//! How is a number written for the cook?
//!
//! Digits come from integer arithmetic, rounded to nearest with halves going away from zero.
//! Thousands separators are left out on purpose: they would read as decimals elsewhere.

use crate::words::{self, say};

/// What stands where no figure can be given.
const NO_FIGURE: &str = "–";
/// More decimals than this are never shown.
const MOST_DECIMALS: u8 = 9;

/// Writes a value with this many decimals, nine at most, and the decimal mark of the language spoken.
///
/// The minus sign is U+2212 and a zero never carries it; a value that is not finite, or is 10¹⁸ or more, is "–".
///
/// # Example
/// ```
/// # use pattywright::measure::figure::fixed;
/// assert_eq!(fixed(2.345, 1), "2.3");
/// assert_eq!(fixed(-0.5, 0), "−1");
/// assert_eq!(fixed(f64::NAN, 1), "–");
/// ```
pub fn fixed(value: f64, decimals: u8) -> String {
    write(value, decimals, words::spoken().decimal_mark())
}

/// Writes a value for drawings and styles, the same in every language: a point, and a plain hyphen for minus.
pub fn plain(value: f64, decimals: u8) -> String {
    write(value, decimals, '.').replace('−', "-")
}

fn write(value: f64, decimals: u8, mark: char) -> String {
    let size = value.abs();
    if !value.is_finite() || 1e18 <= size {
        return NO_FIGURE.to_string();
    }
    let decimals = decimals.min(MOST_DECIMALS);
    let ten_power = 10u64.pow(u32::from(decimals));
    let mut whole = size as u64;
    let mut rest = scaled_fraction(size - whole as f64, ten_power);
    if rest == ten_power {
        whole += 1;
        rest = 0;
    }
    let mut text = String::new();
    if value < 0.0 && (0 < whole || 0 < rest) {
        text.push('−');
    }
    text.push_str(&whole.to_string());
    if 0 < decimals {
        text.push(mark);
        let digits = rest.to_string();
        (digits.len()..usize::from(decimals)).for_each(|_| text.push('0'));
        text.push_str(&digits);
    }
    text
}

/// Returns `fraction × ten_power` rounded to nearest, halves up, without any error of its own.
///
/// A fraction from 0 up to 1 is `mantissa / 2^shift`, so the product is one exact integer shifted right.
fn scaled_fraction(fraction: f64, ten_power: u64) -> u64 {
    let bits = fraction.to_bits();
    let exponent = (bits >> 52) as u32;
    if exponent == 0 {
        return 0;
    }
    let mantissa = (bits & ((1 << 52) - 1)) | (1 << 52);
    let shift = 1075 - exponent;
    if 100 < shift {
        return 0;
    }
    let product = u128::from(mantissa) * u128::from(ten_power);
    ((product + (1 << (shift - 1))) >> shift) as u64
}

/// Writes a value with up to this many decimals, dropping zeros at the end: "0.5", "12".
pub fn trimmed(value: f64, decimals: u8) -> String {
    let text = fixed(value, decimals);
    let mark = words::spoken().decimal_mark();
    if !text.contains(mark) {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches(mark).to_string()
}

/// Writes a weight the way a kitchen scale would: "0.85 g", "3.4 g", "26 g", "1250 g", and "12.50 kg" from 10 kg up.
///
/// A weight above zero that would round to nothing is "under 0.01 g".
pub fn grams(value: f64) -> String {
    let size = value.abs();
    let decimals = match size {
        _ if !value.is_finite() => return NO_FIGURE.to_string(),
        _ if 9999.5 <= size => return fixed(value / 1000.0, 2) + " kg",
        _ if 9.95 <= size => 0,
        _ if 0.995 <= size => 1,
        _ if 0.0 < value && value < 0.005 => return say("under 0.01 g").to_string(),
        _ => 2,
    };
    fixed(value, decimals) + " g"
}

/// Writes a value and its standard deviation, both to the digit the deviation supports.
///
/// The three highest digits of the deviation decide: 100–354 keeps two of them, 355–949 keeps one, 950–999 rounds up to 1000 and keeps two.
/// Without a deviation (zero) the value is shown to three decimals at most; a deviation that is not finite is "–".
///
/// # Example
/// ```
/// # use pattywright::measure::figure::with_spread;
/// assert_eq!(with_spread(149.7, 24.1), ("150".to_string(), "24".to_string()));
/// assert_eq!(with_spread(1.31, 0.41), ("1.3".to_string(), "0.4".to_string()));
/// ```
///
/// # Source
/// Particle Data Group, *Review of Particle Physics*, Introduction, "Rounding".
pub fn with_spread(value: f64, sd: f64) -> (String, String) {
    let sd = sd.abs();
    if !sd.is_finite() || !value.is_finite() {
        return (trimmed(value, 3), NO_FIGURE.to_string());
    }
    if sd < 1e-9 {
        return (trimmed(value, 3), "0".to_string());
    }
    let (mut leading, mut place) = (sd, 0i32);
    while 1000.0 <= leading {
        leading /= 10.0;
        place += 1;
    }
    while leading < 100.0 {
        leading *= 10.0;
        place -= 1;
    }
    place += if leading < 355.0 { 1 } else { 2 };
    (to_place(value, place), to_place(sd, place))
}

/// Rounds to a multiple of 10^place and writes no digit beyond it.
fn to_place(value: f64, place: i32) -> String {
    if place <= 0 {
        return fixed(value, place.unsigned_abs().min(u32::from(MOST_DECIMALS)) as u8);
    }
    let step = 10f64.powi(place);
    fixed((value / step).round() * step, 0)
}
