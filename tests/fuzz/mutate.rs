//! A text changed at random: pieces taken out, doubled, moved, put in from another text or from a list of awkward ones.

use super::chance::Chance;
use serde_json::Value;

/// Pieces that readers stumble over.
const AWKWARD: [&str; 96] = [
    "0",
    "1",
    "2",
    "9",
    "00",
    "0.",
    ".5",
    "1/0",
    "1/2",
    "½",
    "⅟",
    "↉",
    "⁄",
    "/",
    "-",
    "–",
    "−",
    "—",
    "+",
    "×",
    "x",
    "*",
    "~",
    "≈",
    "to ",
    "or ",
    "and ",
    "a ",
    "an ",
    "of ",
    "half ",
    "third ",
    "halves",
    "one ",
    "twelve ",
    "cup",
    "cups ",
    "tsp",
    "T",
    "t",
    "g",
    "kg ",
    "mg",
    "lb ",
    "oz ",
    "fl ",
    "fl oz",
    "ml",
    "pinch ",
    "dashes",
    "heaped ",
    "packed ",
    "firmly ",
    "scant ",
    "about ",
    "approx. ",
    "plus ",
    "clove ",
    "leaves",
    "batch",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    "\"",
    "\\",
    ":",
    ",",
    ";",
    ".",
    "|",
    "•",
    "1. ",
    "\n",
    "\r",
    "\t",
    "\u{a0}",
    "\u{200b}",
    "\u{feff}",
    "\u{2028}",
    "１",
    "Ｔ",
    "İ",
    "ß",
    "é",
    "e\u{301}",
    "\u{10ffff}",
    "null",
    "true",
    "1e308",
    "-1",
    "NaN",
    "18446744073709551616",
    "''",
];

/// Values no field expects.
const UNEXPECTED: [&str; 14] = [
    "null",
    "true",
    "[]",
    "{}",
    "\"\"",
    "0",
    "-1",
    "1e308",
    "-0.0",
    "5e-324",
    "18446744073709551616",
    "\"7\"",
    "[[[[]]]]",
    "\"\\u0000\"",
];

/// One of the texts with one to four of its values changed, so that it stays JSON; where it was none, as [`changed`].
pub fn changed_json(pool: &[String], longest: usize, chance: &mut Chance) -> String {
    let read = |text: &String| serde_json::from_str::<Value>(text).ok();
    let Some(mut value) = chance.pick(pool).and_then(read) else {
        return changed(pool, longest, chance);
    };
    for _ in 0..=chance.below(4) {
        let mut place = chance.below(nodes(&value));
        let other = chance.pick(pool).and_then(read).unwrap_or(Value::Null);
        let mut put_at = chance.below(nodes(&other));
        let put = node(&mut other.clone(), &mut put_at).map(|found| found.take());
        if let Some(found) = node(&mut value, &mut place) {
            change_value(found, put.unwrap_or(Value::Null), chance);
        }
    }
    value.to_string()
}

fn change_value(value: &mut Value, put: Value, chance: &mut Chance) {
    match (chance.below(4), &mut *value) {
        (0, _) => *value = put,
        (1, Value::Array(items)) if !items.is_empty() => {
            let copy = items[chance.below(items.len())].clone();
            items.push(copy);
        }
        (1, Value::Object(fields)) => {
            let names: Vec<String> = fields.keys().cloned().collect();
            if let Some(name) = chance.pick(&names) {
                fields.remove(name);
            }
        }
        (2, Value::String(text)) => *text = changed(std::slice::from_ref(text), 60, chance),
        (2, Value::Number(_)) => *value = Value::from(chance.below(1 << 20) as f64 / 1024.0),
        (3, Value::Array(items)) if !items.is_empty() => {
            items.remove(chance.below(items.len()));
        }
        _ => {
            let unexpected = chance
                .pick(&UNEXPECTED)
                .and_then(|text| serde_json::from_str(text).ok());
            *value = unexpected.unwrap_or(Value::Null);
        }
    }
}

/// How many values there are in a value, itself counted.
fn nodes(value: &Value) -> usize {
    1 + match value {
        Value::Array(items) => items.iter().map(nodes).sum(),
        Value::Object(fields) => fields.values().map(nodes).sum(),
        _ => 0,
    }
}

/// The value at a place, counted as [`nodes`] counts.
fn node<'v>(value: &'v mut Value, place: &mut usize) -> Option<&'v mut Value> {
    if *place == 0 {
        return Some(value);
    }
    *place -= 1;
    match value {
        Value::Array(items) => items.iter_mut().find_map(|item| node(item, place)),
        Value::Object(fields) => fields.values_mut().find_map(|field| node(field, place)),
        _ => None,
    }
}

/// One of the texts, changed in one to six places.
pub fn changed(pool: &[String], longest: usize, chance: &mut Chance) -> String {
    let mut text: Vec<char> = chance.pick(pool).map(|text| text.chars().collect()).unwrap_or_default();
    for _ in 0..=chance.below(6) {
        change(&mut text, pool, chance);
    }
    text.truncate(longest);
    text.into_iter().collect()
}

fn change(text: &mut Vec<char>, pool: &[String], chance: &mut Chance) {
    let at = chance.below(text.len() + 1);
    let end = (at + 1 + chance.below(12)).min(text.len());
    match chance.below(8) {
        0 => {
            text.drain(at..end);
        }
        1 => {
            let piece: Vec<char> = text[at..end].to_vec();
            for _ in 0..=chance.below(4) {
                text.splice(at..at, piece.iter().copied());
            }
        }
        2 => {
            let piece: Vec<char> = text.drain(at..end).collect();
            let to = chance.below(text.len() + 1);
            text.splice(to..to, piece);
        }
        3 => {
            let other: Vec<char> = chance
                .pick(pool)
                .map(|other| other.chars().collect())
                .unwrap_or_default();
            let from = chance.below(other.len());
            let until = (from + 1 + chance.below(40)).min(other.len());
            text.splice(at..at, other[from..until].iter().copied());
        }
        4 => {
            if let Some(c) = text.get_mut(at) {
                // Near neighbours: the next letter, digit or sign of the same alphabet.
                *c = char::from_u32((u32::from(*c) ^ (1 << chance.below(5))).max(9)).unwrap_or(*c);
            }
        }
        5 => {
            if let Some(c) = text.get_mut(at) {
                *c = u32::try_from(chance.below(0x3000))
                    .ok()
                    .and_then(char::from_u32)
                    .unwrap_or(*c);
            }
        }
        _ => {
            let piece = chance.pick(&AWKWARD).copied().unwrap_or_default();
            text.splice(at..at, piece.chars());
        }
    }
}
