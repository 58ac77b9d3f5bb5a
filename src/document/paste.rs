//! A pasted list, line by line: each one understood, unsure, or not understood; nothing dropped in silence.

use super::MOST_LINES;
use crate::formula::Line;
use crate::measure::take;
use crate::pantry::{Pantry, SURE, search};

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
}

impl std::fmt::Display for PasteProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            PasteProblem::Empty => write!(f, "Paste or type a list first, one ingredient on each line"),
            PasteProblem::TooLong { lines } => write!(
                f,
                "That is {lines} lines; a formula takes up to {MOST_LINES}. Paste only the ingredient list"
            ),
        }
    }
}

/// Reads a pasted list: bullets, ranges, "half a cup", notes in brackets and after a comma.
///
/// # Errors
/// [`PasteProblem`] where it is no list; the text stays with the cook.
pub fn paste(pantry: &Pantry, text: &str) -> Result<Vec<Pasted>, PasteProblem> {
    let lines: Vec<&str> = text.lines().map(str::trim).filter(|line| !line.is_empty()).collect();
    if lines.is_empty() {
        return Err(PasteProblem::Empty);
    }
    if lines.len() > MOST_LINES {
        return Err(PasteProblem::TooLong { lines: lines.len() });
    }
    Ok(lines.into_iter().map(|line| read_line(pantry, line)).collect())
}

/// The longest line looked at; the rest of it is kept as a note.
const LONGEST_LINE: usize = 300;

fn read_line(pantry: &Pantry, text: &str) -> Pasted {
    let clipped: String = text.chars().take(LONGEST_LINE).collect();
    let body = clipped
        .trim_start_matches(|c: char| "•·●○▪◦‣*–—-☐□✓✔>".contains(c) || c.is_whitespace())
        .trim();
    let (plain, mut notes) = without_brackets(body);
    let (amount, rest) = match take(&plain) {
        Some((_, end)) => (plain[..end].trim().to_owned(), plain[end..].trim().to_owned()),
        None => amount_at_end(&plain),
    };
    let rest = rest.trim_start_matches("of ").trim();
    let (name, after) = rest.split_once([',', ';']).unwrap_or((rest, ""));
    if !after.trim().is_empty() {
        notes.push(after.trim().to_owned());
    }
    let (amount, name) = with_counted_word(pantry, amount, name.trim());
    // The cut may stand in the note: "granules (coarse)".
    let found = search(pantry, &name, 1).into_iter().next();
    let mut line = Line {
        amount: amount.clone(),
        note: notes.join("; "),
        ..Line::default()
    };
    let Some(found) = found else {
        line.name = Some(if name.is_empty() { body.to_owned() } else { name });
        return Pasted {
            text: text.to_owned(),
            understood: Understood::No,
            line,
            read_as: String::new(),
        };
    };
    let all_words = body.to_lowercase();
    line.ingredient = Some(found.ingredient.id().to_owned());
    line.cut = found
        .ingredient
        .row()
        .into_iter()
        .flat_map(|row| row.cuts())
        .find(|cut| {
            cut.split(' ')
                .next()
                .is_some_and(|word| all_words.split(|c: char| !c.is_alphanumeric()).any(|w| w == word))
        })
        .map(str::to_owned);
    let sure = found.distance <= SURE && !amount.is_empty();
    Pasted {
        text: text.to_owned(),
        understood: if sure { Understood::Yes } else { Understood::Unsure },
        line,
        read_as: found.ingredient.name().to_owned(),
    }
}

/// "Salt 10 g", "Salt: 10 g", "Salt – 10 g".
fn amount_at_end(text: &str) -> (String, String) {
    let starts = text
        .char_indices()
        .filter(|(index, c)| *index > 0 && (c.is_numeric() || ".½⅓⅔¼¾⅛⅜⅝⅞".contains(*c)))
        .map(|(index, _)| index);
    for start in starts {
        if let Some((_, end)) = take(&text[start..])
            && text[start + end..].trim().is_empty()
        {
            let name = text[..start].trim_end_matches(|c: char| " :–—-=".contains(c));
            return (text[start..].trim().to_owned(), name.to_owned());
        }
    }
    (String::new(), text.to_owned())
}

/// "2 cloves garlic": the counted word belongs to the amount where the pantry knows what one weighs.
fn with_counted_word(pantry: &Pantry, amount: String, name: &str) -> (String, String) {
    let bare = crate::measure::read(&amount)
        .is_ok_and(|quantity| quantity.measure == crate::measure::Measure::Count(String::new()));
    if bare && let Some((word, rest)) = name.split_once(' ') {
        let rest = rest.trim_start_matches("of ").trim();
        let known = search(pantry, rest, 1)
            .first()
            .is_some_and(|found| pantry.piece(&found.ingredient, word.trim_end_matches('s')).is_some());
        if known {
            return (format!("{amount} {word}"), rest.to_owned());
        }
    }
    (amount, name.to_owned())
}

/// Takes what stands in brackets out as notes.
fn without_brackets(text: &str) -> (String, Vec<String>) {
    let (mut plain, mut notes, mut depth) = (String::new(), Vec::new(), 0usize);
    let mut note = String::new();
    for c in text.chars() {
        match c {
            '(' | '[' => depth += 1,
            ')' | ']' if depth > 0 => {
                depth -= 1;
                if depth == 0 {
                    notes.push(std::mem::take(&mut note).trim().to_owned());
                }
            }
            _ if depth > 0 => note.push(c),
            _ => plain.push(c),
        }
    }
    if !note.trim().is_empty() {
        notes.push(note.trim().to_owned());
    }
    notes.retain(|note| !note.is_empty());
    (plain.split_whitespace().collect::<Vec<_>>().join(" "), notes)
}
