//! Finding an ingredient by what the cook typed: any name, any order of words, a slip of the finger forgiven.

use super::{Ingredient, Pantry};
use crate::words::{Language, small, spoken};

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
/// All names are tried: kitchen name, table name, aliases, a little sooner those of the language spoken.
/// Every word typed must fit a word of the name, whole or as its beginning, or with one slip in a word of four letters and two in one of eight.
pub fn search<'a>(pantry: &Pantry<'a>, typed: &str, most: usize) -> Vec<Match<'a>> {
    Index::of(pantry).find(typed, most)
}

/// Every name in the pantry, parted into words once: for who looks for many ingredients in a row.
pub struct Index<'a> {
    /// An ingredient, one of its names, and what the name costs before a letter is compared.
    names: Vec<(Ingredient<'a>, Vec<Word>, usize)>,
}

/// A word in lower case and in the singular.
struct Word {
    text: String,
    letters: usize,
    /// Which letters are in it, one bit for each (several letters to a bit beyond the alphabet).
    kinds: u32,
}

impl<'a> Index<'a> {
    /// Takes the names of every ingredient of the pantry.
    pub fn of(pantry: &Pantry<'a>) -> Index<'a> {
        let (english, german) = match spoken() {
            Language::British | Language::American => (0, 1),
            Language::German => (1, 0),
        };
        let mut names = Vec::new();
        for ingredient in pantry.all() {
            let mut add = |name: &str, handicap| names.push((ingredient, words(name), handicap));
            if let Some(entry) = ingredient.entry() {
                add(&entry.name, 0);
            }
            if let Some(row) = ingredient.row() {
                add(row.kitchen_name, english);
                add(row.name, 2);
                row.aliases.iter().for_each(|alias| add(alias, english));
                row.german_aliases.iter().for_each(|alias| add(alias, german));
            }
        }
        Index { names }
    }

    /// Finds up to `most` ingredients for what was typed, best first, as [`search`] does.
    pub fn find(&self, typed: &str, most: usize) -> Vec<Match<'a>> {
        let typed = words(typed);
        if typed.is_empty() || typed.len() > 12 {
            return Vec::new();
        }
        let mut found: Vec<Match> = Vec::new();
        for (ingredient, name, handicap) in &self.names {
            let Some(distance) = distance(&typed, name).map(|distance| distance + handicap) else {
                continue;
            };
            // The names of one ingredient stand together.
            match found.last_mut() {
                Some(last) if last.ingredient.id() == ingredient.id() => last.distance = last.distance.min(distance),
                _ => found.push(Match {
                    ingredient: *ingredient,
                    distance,
                }),
            }
        }
        found.sort_by_cached_key(|m| (m.distance, m.ingredient.name().len()));
        found.truncate(most);
        found
    }
}

/// Small words that say nothing about which food it is.
const SMALL: [&str; 16] = [
    "of", "the", "and", "a", "an", "in", "for", "with", "or", "dry", "plain", "fresh", "und", "oder", "mit", "frisch",
];

fn words(text: &str) -> Vec<Word> {
    let all = || {
        text.split(|c: char| !c.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .map(|word| Word::of(&small(word)))
    };
    let telling: Vec<Word> = all().filter(|word| !SMALL.contains(&word.text.as_str())).collect();
    if telling.is_empty() { all().collect() } else { telling }
}

impl Word {
    fn of(word: &str) -> Word {
        let text = match word.strip_suffix('s') {
            Some(stem) if stem.len() > 2 && !stem.ends_with('s') => stem,
            _ => word,
        };
        Word {
            text: text.to_owned(),
            letters: text.chars().count(),
            kinds: text.chars().fold(0, |kinds, c| kinds | 1 << (u32::from(c) % 32)),
        }
    }
}

/// How far the typed words are from a name: slips and beginnings cost, words left over on either side cost.
///
/// Words typed beyond the name ("ice cold water") are let pass only where the whole name was said, and by more than a
/// letter or two: the x of a stray word is not xanthan.
fn distance(typed: &[Word], name: &[Word]) -> Option<usize> {
    let mut said = vec![false; name.len()];
    let (mut sum, mut beyond, mut hinted) = (0, 0, false);
    for word in typed {
        let fits = name.iter().zip(&mut said).filter_map(|(other, said)| {
            let distance = word_distance(word, other)?;
            *said = true;
            hinted |= word.letters < 3 && word.text != other.text;
            Some(distance)
        });
        match fits.min() {
            Some(distance) => sum += distance,
            None => beyond += 1,
        }
    }
    let missing = said.iter().filter(|said| !**said).count();
    if beyond == typed.len() || (beyond > 0 && (missing > 0 || hinted)) {
        return None;
    }
    Some(sum + 2 * beyond + missing)
}

fn word_distance(typed: &Word, name: &Word) -> Option<usize> {
    if name.text.starts_with(&typed.text) {
        return Some(usize::from(typed.text.len() < name.text.len()));
    }
    let slips = if typed.letters >= 8 {
        2
    } else {
        usize::from(typed.letters >= 4)
    };
    // A slip changes the length by one and the kinds of letters by two at most; words further apart need no looking at.
    let kinds_apart = (typed.kinds ^ name.kinds).count_ones() as usize;
    if slips == 0 || typed.letters.abs_diff(name.letters) > slips || kinds_apart > 2 * slips {
        return None;
    }
    let distance = strsim::osa_distance(&typed.text, &name.text);
    (distance <= slips).then_some(distance * 2)
}
