//! The demonstration, as the cook would have written it.

use crate::document::Document;
use crate::measure::read;
use crate::words::{Language, look_up, spoken};

/// The demonstration with its names, notes and amounts in the language spoken.
pub fn in_words(mut demo: Document) -> Document {
    if spoken() == Language::British {
        return demo;
    }
    let translate = |text: &mut String| {
        if let Some(known) = look_up(text) {
            known.clone_into(text);
        }
    };
    for formula in &mut demo.formulas {
        translate(&mut formula.name);
        for line in &mut formula.lines {
            translate(&mut line.note);
            if let Ok(amount) = read(&line.amount) {
                line.amount = amount.to_string();
            }
        }
    }
    demo
}
