//! Filling figures and names into a text.

use super::say;
use std::fmt::{Display, Write};

/// Fills `values` into the text, as it is in the language spoken; a name nobody gave a value stays as it is.
pub fn fill(english: &'static str, values: &[(&str, &dyn Display)]) -> String {
    let mut filled = String::new();
    let mut rest = say(english);
    while let Some((before, after)) = rest.split_once('{') {
        filled.push_str(before);
        let (name, after) = after.split_once('}').unwrap_or((after, ""));
        match values.iter().find(|(known, _)| *known == name) {
            // Writing to a text cannot fail.
            Some((_, value)) => _ = write!(filled, "{value}"),
            None => filled.extend(["{", name, "}"]),
        }
        rest = after;
    }
    filled + rest
}
