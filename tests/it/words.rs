//! The tables of texts: whole, true to the code, and alike in what is filled in.

use pattywright::measure::{Unit, fixed, grams, plain, read};
use pattywright::words::{Language, say, speak, texts, within};
use std::collections::BTreeSet;
use std::path::Path;

/// Every text the code says, as `say("…")`, `say!("…")` or `say!(n => "…", "…")`.
fn said_in_code() -> BTreeSet<String> {
    let mut said = BTreeSet::new();
    for code in sources(Path::new("src")) {
        for (at, _) in code.match_indices("say") {
            let before = code[..at].chars().next_back().unwrap_or(' ');
            let line = code[..at].rsplit('\n').next().unwrap_or_default();
            let after = code[at + 3..].trim_start_matches('!');
            if before.is_alphanumeric() || before == '_' || before == '.' || line.contains("//") {
                continue;
            }
            if let Some(inside) = after.strip_prefix('(') {
                take_texts(inside, &mut said);
            }
        }
    }
    said
}

/// The text literals at the start of a call: one, or two after `n =>`.
fn take_texts(inside: &str, said: &mut BTreeSet<String>) {
    let mut rest = inside.trim_start();
    let mut wanted = 1;
    if let Some((count, after)) = rest.split_once("=>")
        && count.trim().chars().all(|c| c.is_alphanumeric() || c == '_')
    {
        (rest, wanted) = (after.trim_start(), 2);
    }
    for _ in 0..wanted {
        let Some((text, after)) = literal(rest) else { return };
        said.insert(text);
        rest = after.trim_start().trim_start_matches(',').trim_start();
    }
}

/// A string literal of Rust at the start of the code, and what follows it.
fn literal(code: &str) -> Option<(String, &str)> {
    let code = code.strip_prefix('"')?;
    let mut text = String::new();
    let mut letters = code.char_indices();
    while let Some((at, letter)) = letters.next() {
        match letter {
            '"' => return Some((text, &code[at + 1..])),
            '\\' => match letters.next()?.1 {
                'n' => text.push('\n'),
                '\n' => {
                    let rest = letters.as_str().trim_start();
                    letters = code.char_indices();
                    letters.nth(code[..code.len() - rest.len()].chars().count().checked_sub(1)?);
                }
                other => text.push(other),
            },
            other => text.push(other),
        }
    }
    None
}

fn sources(folder: &Path) -> Vec<String> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all.extend(sources(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            all.push(std::fs::read_to_string(&path).unwrap());
        }
    }
    all
}

fn holes(text: &str) -> BTreeSet<&str> {
    text.split('{')
        .skip(1)
        .filter_map(|part| part.split_once('}'))
        .map(|(name, _)| name)
        .collect()
}

#[test]
fn every_text_of_the_code_is_in_the_tables() {
    let tables: BTreeSet<String> = texts().map(|(english, _)| english.to_owned()).collect();
    let code = said_in_code();
    assert!(code.len() > 700, "only {} texts were found in the code", code.len());
    let missing: Vec<_> = code.difference(&tables).collect();
    assert!(missing.is_empty(), "not in src/words/*.csv: {missing:#?}");
}

/// A text that is said nowhere is work for a translator in vain.
#[test]
fn every_text_of_the_tables_is_in_the_code_or_in_its_data() {
    let code = said_in_code();
    let data = |path: &str| std::fs::read_to_string(path).unwrap();
    let tables = [
        "balance/data/holding",
        "formula/data/evidence",
        "formula/data/windows",
        "pantry/data/ingredients",
        "pantry/data/measures",
        "pantry/data/starting_values",
        "pantry/data/words",
    ];
    let tables = tables.map(|table| data(&format!("src/{table}.csv")));
    let mut known: Vec<String> = sources(Path::new("src"));
    known.extend(tables);
    known.push(data("tests/documents/demo.json"));
    let said = |text: &str| code.contains(text) || known.iter().any(|known| known.contains(text));
    let idle: Vec<&str> = texts().map(|(english, _)| english).filter(|text| !said(text)).collect();
    assert!(idle.is_empty(), "said nowhere: {idle:#?}");
}

#[test]
fn every_text_has_its_german_with_the_same_figures_to_fill_in() {
    for (english, [american, german]) in texts() {
        assert!(!german.is_empty(), "no German for {english:?}");
        assert_eq!(holes(english), holes(german), "{english:?} and {german:?}");
        for text in [english, american, german] {
            assert_eq!(text, text.trim(), "spreadsheets lose spaces at the ends");
        }
        assert_eq!(
            english.ends_with('.'),
            german.ends_with('.'),
            "{english:?} and {german:?}"
        );
        if !american.is_empty() {
            assert_eq!(holes(english), holes(american), "{english:?} and {american:?}");
            assert_ne!(english, american, "an empty cell says the same");
        }
    }
}

#[test]
fn numbers_wear_the_mark_of_the_language_and_drawings_do_not() {
    assert_eq!((fixed(1.5, 1), grams(3.4)), ("1.5".to_owned(), "3.4 g".to_owned()));
    speak(Language::German);
    assert_eq!((fixed(1.5, 1), grams(3.4)), ("1,5".to_owned(), "3,4 g".to_owned()));
    assert_eq!(plain(-1.5, 1), "-1.5");
}

#[test]
fn what_a_german_cook_types_is_understood_in_any_language() {
    let unit = |text: &str| read(text).unwrap().unit();
    for (typed, meant) in [
        ("2 EL", Unit::Tablespoon),
        ("1 Esslöffel", Unit::Tablespoon),
        ("1½ TL", Unit::Teaspoon),
        ("2 Teelöffel", Unit::Teaspoon),
        ("1¾ Tassen", Unit::Cup),
        ("eine halbe Tasse", Unit::Cup),
        ("1 Prise", Unit::Pinch),
        ("100 Gramm", Unit::Gram),
    ] {
        assert_eq!(unit(typed), Some(meant), "{typed}");
    }
    assert_eq!(read("eine halbe Tasse").unwrap().middle(), 0.5);
    assert_eq!(read("2 bis 3 EL").unwrap().middle(), 2.5);
    assert_eq!(read("zwei EL").unwrap().middle(), 2.0);
    assert_eq!(read("1,5 TL").unwrap().middle(), 1.5);
}

#[test]
fn a_mark_that_could_be_of_thousands_is_refused_in_either_language() {
    assert!(read("1,234 g").is_err());
    assert_eq!(read("1.234 g").unwrap().middle(), 1.234);
    speak(Language::German);
    assert_eq!(read("1,234 g").unwrap().middle(), 1.234);
    assert!(read("1.234 g").unwrap_err().to_string().contains("zwei Zahlen"));
}

#[test]
fn a_quantity_written_in_german_reads_back_the_same() {
    speak(Language::German);
    for typed in [
        "1½ cups",
        "2 heaped tsp",
        "3 pinches",
        "1.5 kg",
        "about 2 tbsp",
        "1–2 scant cups",
    ] {
        let quantity = read(typed).unwrap();
        let written = quantity.to_string();
        assert_eq!(read(&written).unwrap(), quantity, "{typed} became {written}");
    }
    assert_eq!(read("2 heaped tsp").unwrap().to_string(), "2 TL gehäuft");
}

#[test]
fn a_browser_gets_its_own_language_or_the_nearest() {
    for (tag, language) in [
        ("de-AT", Language::German),
        ("DE", Language::German),
        ("en-US", Language::American),
        ("en", Language::British),
        ("en-NZ", Language::British),
        ("fr", Language::British),
        ("", Language::British),
    ] {
        assert_eq!(Language::of_tag(tag), language, "{tag}");
    }
}

#[test]
fn german_nouns_keep_their_capital_within_a_sentence() {
    assert_eq!(within("Soy granules"), "soy granules");
    speak(Language::German);
    assert_eq!(within("Sojagranulat"), "Sojagranulat");
    assert_eq!(say("cups"), "Tassen");
}
