//! A pasted list, line by line: each one understood, unsure, or not understood; nothing dropped in silence.

use super::MOST_LINES;
use crate::formula::Line;
use crate::measure::{Measure, is_space, read, take};
use crate::pantry::{Index, Ingredient, Match, Pantry, SURE};
use crate::words::{Language, say, small, speaking};

/// One pasted line, read.
#[derive(Clone, PartialEq, Debug)]
pub struct Pasted {
    /// The line as it was pasted.
    pub text: String,
    /// How well it was understood.
    pub understood: Understood,
    /// The formula line it becomes.
    pub line: Line,
    /// The name on screen of what it was read as; empty where nothing was found.
    pub read_as: String,
}

/// How well a pasted line was understood.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Understood {
    /// Amount and ingredient are both plain.
    Yes,
    /// Something was found, but look at it.
    Unsure,
    /// Kept as text: no ingredient was found.
    No,
}

/// Why a paste is refused as a whole.
#[derive(Clone, PartialEq, Debug)]
pub enum PasteProblem {
    /// No text in it.
    Empty,
    /// More lines than a formula takes.
    TooLong {
        /// How many there were.
        lines: usize,
    },
    /// More than [`LONGEST_PASTE`].
    TooMuch,
}

impl std::fmt::Display for PasteProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&match self {
            PasteProblem::Empty => say!("Paste or type a list first, one ingredient on each line"),
            PasteProblem::TooLong { lines } => say!(
                "That is {lines} lines; a formula takes up to {most}. Paste only the ingredient list",
                lines,
                most = MOST_LINES
            ),
            PasteProblem::TooMuch => {
                say!("That is more text than a list of ingredients. Paste only the ingredient list")
            }
        })
    }
}

/// The longest text read as a list, bytes.
pub const LONGEST_PASTE: usize = 100_000;

/// Reads a pasted list: bullets, numbers, ranges, "half a cup", notes in brackets and after a comma.
///
/// Every line that is not blank comes back, and every word of it is in its [`Line`], in the ingredient's names or in the note;
/// only bullets, the number of a list and an "of" between amount and name are not.
///
/// # Errors
/// [`PasteProblem`] where it is no list; the text stays with the cook.
pub fn paste(pantry: &Pantry, text: &str) -> Result<Vec<Pasted>, PasteProblem> {
    let line_ends = ['\n', '\r', '\u{85}', '\u{2028}', '\u{2029}'];
    let lines: Vec<&str> = text
        .split(line_ends)
        .map(str::trim)
        .filter(|line| !line.chars().all(is_space))
        .collect();
    if lines.is_empty() {
        return Err(PasteProblem::Empty);
    }
    if lines.len() > MOST_LINES {
        return Err(PasteProblem::TooLong { lines: lines.len() });
    }
    if lines.iter().map(|line| line.len()).sum::<usize>() > LONGEST_PASTE {
        return Err(PasteProblem::TooMuch);
    }
    let shelf = Shelf {
        pantry,
        index: Index::of(pantry),
    };
    Ok(lines.into_iter().map(|line| read_line(&shelf, line)).collect())
}

/// The pantry, and its names for finding.
struct Shelf<'a> {
    pantry: &'a Pantry<'a>,
    index: Index<'a>,
}

impl<'a> Shelf<'a> {
    fn find(&self, name: &str) -> Option<Match<'a>> {
        self.index.find(name, 1).into_iter().next()
    }

    /// Whether it is known what one such piece weighs; a piece is called by two words at most.
    fn counts(&self, word: &str, name: &str) -> bool {
        let known = |found: Match| self.pantry.piece(&found.ingredient, word).is_some();
        word.split(' ').count() <= 2 && self.find(name).is_some_and(known)
    }
}

fn read_line(shelf: &Shelf, text: &str) -> Pasted {
    // Marks that take no room come with text from web pages; here they are spaces, as they are in amounts.
    let spaced: String = text.chars().map(|c| if is_space(c) { ' ' } else { c }).collect();
    let (beginning, beyond) = beginning(spaced.trim());
    let body = without_number(without_bullet(beginning));
    let (plain, mut notes) = without_brackets(body);
    let taken = take(&plain);
    let (amount, rest) = match &taken {
        Some((_, end)) => (without_of(plain[..*end].trim()), plain[*end..].trim()),
        None => amount_at_end(shelf, &plain),
    };
    let rest = rest.trim_start_matches("of ").trim();
    let (name, after) = rest.split_once([',', ';']).unwrap_or((rest, ""));
    let (amount, name) = match taken {
        Some((quantity, _)) if quantity.unit().is_none() => with_counted_word(shelf, amount, name.trim()),
        _ => (amount, name.trim()),
    };
    let found = shelf.find(name);
    // The ingredient's own name stands in the line from here on; what it does not say is kept beside it.
    if found.as_ref().is_some_and(|found| !found.ingredient.goes_by(name)) {
        notes.insert(0, name.to_owned());
    }
    notes.extend([after, beyond].map(|note| note.trim().to_owned()));
    notes.retain(|note| !note.is_empty());
    let mut line = Line {
        amount,
        note: notes.join("; "),
        ..Line::default()
    };
    let Some(found) = found else {
        line.name = Some(if name.is_empty() { body } else { name }.to_owned());
        return Pasted {
            text: text.to_owned(),
            understood: Understood::No,
            line,
            read_as: String::new(),
        };
    };
    line.ingredient = Some(found.ingredient.id().to_owned());
    line.cut = cut(&found.ingredient, body);
    let sure = found.distance <= SURE && !line.amount.is_empty();
    Pasted {
        text: text.to_owned(),
        understood: if sure { Understood::Yes } else { Understood::Unsure },
        line,
        read_as: found.ingredient.name().to_owned(),
    }
}

/// As much of a line as is looked at, whole words, and the rest of it.
fn beginning(text: &str) -> (&str, &str) {
    const LONGEST_LINE: usize = 300;
    let Some((end, _)) = text.char_indices().nth(LONGEST_LINE) else {
        return (text, "");
    };
    text.split_at(text[..end].rfind(char::is_whitespace).unwrap_or(end))
}

fn without_bullet(text: &str) -> &str {
    text.trim_start_matches(|c: char| "•·●○▪◦‣*–—-☐□✓✔>".contains(c) || c.is_whitespace())
}

/// Takes off the "2." or "2)" of a numbered list, where an amount follows it.
fn without_number(text: &str) -> &str {
    let rest = text.trim_start_matches(|c: char| c.is_ascii_digit());
    let after = rest
        .strip_prefix(['.', ')'])
        .filter(|after| after.starts_with(char::is_whitespace));
    after
        .map(str::trim_start)
        .filter(|after| rest.len() < text.len() && take(after).is_some())
        .unwrap_or(text)
}

/// Takes the "of" off the end of "half a cup of", which belongs to neither amount nor name.
fn without_of(amount: &str) -> String {
    let end = amount.len().saturating_sub(" of".len());
    match amount.get(end..) {
        Some(last) if last.eq_ignore_ascii_case(" of") => amount[..end].trim_end().to_owned(),
        _ => amount.to_owned(),
    }
}

/// "Salt 10 g", "Salt: a pinch", "Salt – 10 g", "Garlic, 2 cloves".
///
/// The earliest amount that runs to the end is taken; one with a figure before it is not, for it may be the end of that
/// figure ("Flour 1 250 g").
fn amount_at_end<'a>(shelf: &Shelf, text: &'a str) -> (String, &'a str) {
    const BETWEEN: &str = " :–—-=|·….,;";
    // A decimal may begin with its point, but not after other points, which lead from name to amount.
    let begins = |c: char, before: char| match c {
        '.' => before == ' ',
        _ => (c.is_alphanumeric() || "~≈".contains(c)) && BETWEEN.contains(before),
    };
    let starts = text
        .char_indices()
        .zip(text.chars().skip(1))
        .filter(|((_, before), c)| begins(*c, *before))
        .map(|((index, before), _)| index + before.len_utf8());
    for start in starts {
        let name = text[..start].trim_end_matches(|c| BETWEEN.contains(c));
        if name.is_empty() || name.ends_with(char::is_numeric) {
            continue;
        }
        let understood = read(&text[start..]).is_ok_and(|quantity| match quantity.measure {
            Measure::Unit(_) => true,
            Measure::Count(word) => word.is_empty() || shelf.counts(&word, name),
        });
        if understood {
            return (text[start..].to_owned(), name);
        }
    }
    (String::new(), text)
}

/// "2 cloves garlic": the counted word belongs to the amount where the pantry knows what one weighs.
fn with_counted_word<'a>(shelf: &Shelf, amount: String, name: &'a str) -> (String, &'a str) {
    if let Some((word, rest)) = name.split_once(' ') {
        let rest = rest.trim_start_matches("of ").trim();
        let counted = format!("{amount} {word}");
        if read(&counted).is_ok() && shelf.counts(word.trim_end_matches('s'), rest) {
            return (counted, rest);
        }
    }
    (amount, name)
}

/// The published cut that the line names, wherever it stands: "granules (coarse)", "grobes Granulat".
fn cut(ingredient: &Ingredient, body: &str) -> Option<String> {
    const NO_CUT: [&str; 6] = ["as", "in", "no", "als", "mit", "ohne"];
    const GERMAN_ENDINGS: [&str; 6] = ["", "e", "em", "en", "er", "es"];
    let body = small(body);
    let says = |name: &str| {
        let word = small(name.split(' ').next().unwrap_or_default());
        let mut endings = body
            .split(|c: char| !c.is_alphanumeric())
            .filter_map(|said| said.strip_prefix(&*word));
        !NO_CUT.contains(&&*word) && endings.any(|end| GERMAN_ENDINGS.contains(&end))
    };
    let cuts = ingredient.row().map(|row| row.cuts()).unwrap_or_default();
    let named = |cut: &&'static str| says(cut) || speaking(Language::German, || says(say(cut)));
    cuts.into_iter().find(named).map(str::to_owned)
}

/// Takes what stands in brackets out as notes; brackets within brackets stay in the note.
fn without_brackets(text: &str) -> (String, Vec<String>) {
    let (mut plain, mut notes, mut depth) = (String::new(), Vec::new(), 0usize);
    let mut note = String::new();
    for c in text.chars() {
        match c {
            '(' | '[' => {
                depth += 1;
                // Words on either side of a bracket stay two words.
                if depth > 1 { &mut note } else { &mut plain }.push(if depth > 1 { c } else { ' ' });
            }
            ')' | ']' if depth > 0 => {
                depth -= 1;
                if depth == 0 {
                    notes.push(std::mem::take(&mut note).trim().to_owned());
                } else {
                    note.push(c);
                }
            }
            _ if depth > 0 => note.push(c),
            _ => plain.push(c),
        }
    }
    notes.push(note.trim().to_owned());
    notes.retain(|note| !note.is_empty());
    (plain.split_whitespace().collect::<Vec<_>>().join(" "), notes)
}
