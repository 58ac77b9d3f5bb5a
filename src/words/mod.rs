//! What is said, in the cook's language.
//!
//! The code speaks plain British English. Other languages stand beside it in the tables of this folder (`*.csv`):
//! one row for a text, one column for a language, so that a translator needs a spreadsheet and no code.
//! An empty cell is the English as it is. A name in braces, such as `{grams}`, is filled in and may stand anywhere.
//!
//! The tables are typed while the crate is built; nothing is parsed on the phone.
//! Which language is spoken is the one thing the library remembers, for each thread: an error must be able to say itself.

mod fill;
mod letters;

pub use fill::fill;
pub use letters::{capital, small};

use serde::{Deserialize, Serialize};
use std::cell::Cell;

include!(concat!(env!("OUT_DIR"), "/texts.rs"));

/// A language the tables hold whole.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
pub enum Language {
    /// British English, the language of the code.
    #[default]
    #[serde(rename = "en-GB")]
    British,
    /// American English: other spellings, a few other words.
    #[serde(rename = "en-US")]
    American,
    /// German.
    #[serde(rename = "de")]
    German,
}

impl Language {
    /// Every language, in the order the settings show them.
    pub const ALL: [Language; 3] = [Language::British, Language::American, Language::German];

    /// The name of the language in itself.
    pub fn name(self) -> &'static str {
        match self {
            Language::British => "English (UK)",
            Language::American => "English (US)",
            Language::German => "Deutsch",
        }
    }

    /// The tag by which browsers know it (BCP 47).
    pub fn tag(self) -> &'static str {
        match self {
            Language::British => "en-GB",
            Language::American => "en-US",
            Language::German => "de",
        }
    }

    /// The language for a browser that asks for `tag`: its own, else a near one, else British English.
    pub fn of_tag(tag: &str) -> Language {
        let begins = |with: &str| {
            tag.get(..with.len())
                .is_some_and(|start| start.eq_ignore_ascii_case(with))
        };
        let mut others = Language::ALL.into_iter().rev();
        others.find(|language| begins(language.tag())).unwrap_or_default()
    }

    /// What stands between wholes and decimals.
    pub fn decimal_mark(self) -> char {
        match self {
            Language::British | Language::American => '.',
            Language::German => ',',
        }
    }

    /// Whether it is the language of the code and of the published tables, in any spelling.
    pub fn is_english(self) -> bool {
        matches!(self, Language::British | Language::American)
    }

    fn column(self) -> Option<usize> {
        match self {
            Language::British => None,
            Language::American => Some(0),
            Language::German => Some(1),
        }
    }
}

thread_local! {
    static SPOKEN: Cell<Language> = const { Cell::new(Language::British) };
}

/// Says everything in this language from now on, on this thread.
pub fn speak(language: Language) {
    SPOKEN.set(language);
}

/// The language spoken on this thread.
pub fn spoken() -> Language {
    SPOKEN.get()
}

/// What `say` says in another language than the one spoken.
pub fn speaking<T>(language: Language, say: impl FnOnce() -> T) -> T {
    let before = spoken();
    speak(language);
    let said = say();
    speak(before);
    said
}

/// A text in the language spoken; the English itself where the tables have nothing else.
///
/// # Example
/// ```
/// use pattywright::words::{Language, say, speak};
/// assert_eq!(say("Tablespoon"), "Tablespoon");
/// speak(Language::German);
/// assert_eq!(say("Tablespoon"), "Esslöffel");
/// ```
pub fn say(english: &'static str) -> &'static str {
    look_up(english).unwrap_or(english)
}

/// What the tables have for an English text that is not part of the code; nothing where it is the English itself.
pub fn look_up(english: &str) -> Option<&'static str> {
    let column = spoken().column()?;
    let at = TEXTS.binary_search_by(|(text, _)| (*text).cmp(english)).ok()?;
    Some(TEXTS[at].1[column]).filter(|text| !text.is_empty())
}

/// A name as it stands within a sentence: in small letters, except in German, where nouns keep their capital.
pub fn within(name: &str) -> String {
    if spoken().is_english() {
        small(name)
    } else {
        name.to_owned()
    }
}

/// Every text of the tables with its translations, American and German; for checks.
pub fn texts() -> impl Iterator<Item = (&'static str, [&'static str; 2])> {
    TEXTS.iter().copied()
}

/// A text with what is filled in: `say!("{n} lines", n)`, `say!("Batches of {name}", name = batch.name)`.
///
/// With several texts, the first is for one and the last for any other number:
/// `say!(n => "{n} line", "{n} lines")`.
#[macro_export]
macro_rules! say {
    ($count:ident => $one:literal, $many:literal $(, $name:ident $(= $value:expr)?)* $(,)?) => {
        if $count == 1 {
            $crate::say!($one, $count $(, $name $(= $value)?)*)
        } else {
            $crate::say!($many, $count $(, $name $(= $value)?)*)
        }
    };
    ($text:literal $(, $name:ident $(= $value:expr)?)* $(,)?) => {{
        $(let $name = &$crate::say!(@value $name $(= $value)?);)*
        // Never run: it holds the names to those of the text.
        if false {
            let _ = ::std::format_args!($text, $($name = $name),*);
        }
        $crate::words::fill($text, &[$((::std::stringify!($name), $name as &dyn ::std::fmt::Display)),*])
    }};
    (@value $name:ident = $value:expr) => { $value };
    (@value $name:ident) => { $name };
}

#[doc(inline)]
pub use crate::say;
