//! Finding an ingredient by what the cook typed: any name, any order of words, a slip of the finger forgiven.

use super::{Ingredient, Pantry};

/// An ingredient found, with how well it fits.
#[derive(Clone, Copy, Debug)]
pub struct Match<'a> {
    /// What was found.
    pub ingredient: Ingredient<'a>,
    /// How far it is from what was typed: 0 is the very name, each step is a looser fit.
    pub distance: usize,
}

/// The loosest fit that is still taken as understood; anything looser is only offered.
pub const SURE: usize = 3;

/// Finds up to `most` ingredients for what was typed, best first.
///
/// All names are tried: kitchen name, table name, aliases. Every word typed must fit a word of the name,
/// whole or as its beginning, or with one slip in a word of four letters and two in one of eight.
pub fn search<'a>(pantry: &Pantry<'a>, typed: &str, most: usize) -> Vec<Match<'a>> {
    let typed = words(typed);
    if typed.is_empty() || typed.len() > 12 {
        return Vec::new();
    }
    let mut found: Vec<Match> = pantry
        .all()
        .filter_map(|ingredient| {
            let row = ingredient.row();
            let own = ingredient.entry().map(|entry| entry.name.as_str());
            let table = row.map(|row| [(row.kitchen_name, 0), (row.name, 2)]);
            let aliases = row.into_iter().flat_map(|row| row.aliases).map(|alias| (*alias, 0));
            own.map(|name| (name, 0))
                .into_iter()
                .chain(table.into_iter().flatten())
                .chain(aliases)
                .filter_map(|(name, handicap)| Some(distance(&typed, &words(name))? + handicap))
                .min()
                .map(|distance| Match { ingredient, distance })
        })
        .collect();
    found.sort_by_key(|m| (m.distance, m.ingredient.name().len()));
    found.truncate(most);
    found
}

/// Small words that say nothing about which food it is.
const SMALL: [&str; 12] = [
    "of", "the", "and", "a", "an", "in", "for", "with", "or", "dry", "plain", "fresh",
];

fn words(text: &str) -> Vec<String> {
    let all: Vec<String> = text
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| singular(&word.to_lowercase()))
        .collect();
    let telling: Vec<String> = all
        .iter()
        .filter(|word| !SMALL.contains(&word.as_str()))
        .cloned()
        .collect();
    if telling.is_empty() { all } else { telling }
}

fn singular(word: &str) -> String {
    match word.strip_suffix('s') {
        Some(stem) if stem.len() > 2 && !stem.ends_with('s') => stem.to_owned(),
        _ => word.to_owned(),
    }
}

/// How far the typed words are from a name: slips and beginnings cost, words left over on either side cost.
///
/// Words typed beyond the name ("ice cold water") are let pass only where the whole name was said.
fn distance(typed: &[String], name: &[String]) -> Option<usize> {
    let fits: Vec<Option<usize>> = typed
        .iter()
        .map(|word| name.iter().filter_map(|other| word_distance(word, other)).min())
        .collect();
    let beyond = fits.iter().filter(|fit| fit.is_none()).count();
    let missing = name
        .iter()
        .filter(|other| typed.iter().all(|word| word_distance(word, other).is_none()))
        .count();
    if beyond == typed.len() || (beyond > 0 && missing > 0) {
        return None;
    }
    Some(fits.iter().flatten().sum::<usize>() + 2 * beyond + missing)
}

fn word_distance(typed: &str, name: &str) -> Option<usize> {
    if typed == name {
        return Some(0);
    }
    if name.starts_with(typed) {
        return Some(1);
    }
    let letters = typed.chars().count();
    let slips = if letters >= 8 { 2 } else { usize::from(letters >= 4) };
    // Words of very different lengths are more slips apart than that, and need no looking at.
    if letters.abs_diff(name.chars().count()) > slips {
        return None;
    }
    let distance = strsim::osa_distance(typed, name);
    (distance <= slips).then_some(distance * 2)
}
