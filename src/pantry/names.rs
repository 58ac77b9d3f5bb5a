//! What an ingredient is called, word by word.

use super::Ingredient;
use crate::words::small;

/// The words of an ingredient's names, in every language: kitchen name, table name, aliases, the cook's own.
pub(super) struct Names {
    /// Every word of every name.
    pub words: Vec<String>,
    /// The word of each name that says what it is: "garlic clove", "burger bun", "lettuce, green leaf".
    pub things: Vec<String>,
}

impl Names {
    pub fn of(ingredient: &Ingredient) -> Names {
        let mut all = vec![ingredient.name()];
        if let Some(row) = ingredient.row() {
            all.extend([row.kitchen_name, row.name]);
            all.extend(row.aliases.iter().chain(row.german_aliases));
        }
        let thing = |name: &&str| words(name.split(',').next().unwrap_or_default()).last();
        Names {
            words: all.iter().flat_map(|name| words(name)).collect(),
            things: all.iter().filter_map(thing).collect(),
        }
    }
}

impl Ingredient<'_> {
    /// Whether every word typed is a word of one of its names, so that the name says all that was typed.
    pub fn goes_by(&self, typed: &str) -> bool {
        let names = Names::of(self);
        words(typed).all(|word| names.words.contains(&word))
    }
}

/// Words in lower case and in the singular.
pub(super) fn words(text: &str) -> impl Iterator<Item = String> + '_ {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| small(word.trim_end_matches('s')))
}
