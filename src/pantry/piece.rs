//! What one piece weighs: a clove, a bun, a medium onion.
//!
//! Only published pieces count. A number with no word is a whole piece of middling size, where the table has one;
//! otherwise nothing is guessed, and the line asks for a unit.

use super::names::{Names, words};
use super::{Ingredient, Pantry, PublishedMeasure, Source};
use crate::measure::Estimate;

/// Spread of a piece (a clove, a bun), share of itself; common practice, no source.
const PIECE_TO_PIECE: f64 = 0.15;
/// What a table calls a piece of which nobody has said how large it is.
const MIDDLING: [&str; 3] = ["medium", "whole", "regular"];
/// German words for pieces, as [`ENDINGS`] follow them, and the English of the tables.
const GERMAN: [(&str, &str); 30] = [
    ("blatt", "leaf"),
    ("blätter", "leaf"),
    ("brötchen", "bun"),
    ("burgerbrötchen", "bun"),
    ("dick", "thick"),
    ("dose", "can"),
    ("dünn", "thin"),
    ("flasche", "bottle"),
    ("ganz", "whole"),
    ("groß", "large"),
    ("gurke", "pickle"),
    ("hälfte", "half"),
    ("klein", "small"),
    ("knoblauchzehe", "clove"),
    ("kopf", "head"),
    ("köpfe", "head"),
    ("mittelgroß", "medium"),
    ("mittler", "medium"),
    ("packung", "package"),
    ("pilz", "mushroom"),
    ("päckchen", "packet"),
    ("scheibe", "slice"),
    ("semmel", "bun"),
    ("spalte", "wedge"),
    ("stück", "piece"),
    ("tomate", "tomato"),
    ("tropfen", "drop"),
    ("würfel", "cube"),
    ("zehe", "clove"),
    ("zwiebel", "onion"),
];
/// Endings of number and case.
const ENDINGS: [&str; 7] = ["", "e", "n", "en", "er", "es", "em"];
/// Words of the tables that tell one piece from another as little as no word.
const IDLE: [&str; 2] = ["yield", "serving"];

impl Pantry<'_> {
    /// What one piece weighs, g, and who says so: `2 cloves`, `1 bun`; `word` is the singular, empty for a bare number.
    ///
    /// German words are understood as their English counterparts, whichever language is spoken.
    /// Every word must be one of the published piece or of the ingredient's own names; the piece with the fewest other words is meant.
    pub fn piece(&self, ingredient: &Ingredient, word: &str) -> Option<(Estimate, Source)> {
        let asked: Vec<String> = words(word).map(in_the_tables).collect();
        let names = Names::of(ingredient);
        let found = ingredient
            .row()?
            .measures
            .iter()
            .filter(|measure| measure.unit.is_none())
            .filter_map(|measure| Some((looseness(measure, &asked, &names)?, measure)))
            .min_by_key(|(looseness, _)| *looseness)?
            .1;
        let grams = found.grams / found.quantity;
        Some((
            Estimate::with_relative_sd(grams, PIECE_TO_PIECE),
            Source::Measure(found),
        ))
    }
}

/// The tables' own word for a German one; any other word as it is.
fn in_the_tables(word: String) -> String {
    let means = |stem: &str| word.strip_prefix(stem).is_some_and(|rest| ENDINGS.contains(&rest));
    let found = GERMAN.iter().find(|(stem, _)| means(stem));
    found.map_or(word, |(_, english)| (*english).to_owned())
}

/// How loosely a published piece fits the words asked for, less is closer; `None` where it does not.
fn looseness(measure: &PublishedMeasure, asked: &[String], names: &Names) -> Option<(usize, usize, bool)> {
    let plain = measure.text.split('(').next().unwrap_or_default();
    // Figures say nothing about which piece it is: "roll 1 serving".
    let text: Vec<String> = words(plain).filter(|word| word.contains(char::is_alphabetic)).collect();
    let fits = asked
        .iter()
        .all(|word| text.contains(word) || names.words.contains(word));
    let told = asked.iter().any(|word| text.contains(word));
    let beyond = text
        .iter()
        .filter(|word| !asked.contains(word) && !names.things.contains(word));
    let middling = |word: &String| MIDDLING.contains(&word.as_str());
    let telling = beyond
        .clone()
        .filter(|word| !middling(word) && !IDLE.contains(&word.as_str()))
        .count();
    // With nothing but the ingredient's own name to go by, a slice or a head is as likely as the whole.
    (fits && (told || telling == 0)).then(|| (telling, beyond.count(), !text.iter().any(middling)))
}
