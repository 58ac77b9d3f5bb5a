//! What holds for any text that is typed, pasted or opened, whatever is in it.
//!
//! The property tests and the fuzzer hold the readers to the same laws. Each says what broke it.

use pattywright::document::{Pasted, Understood, evaluate, paste, read as read_document};
use pattywright::measure::{Cup, Habits, quantity::take, read, relative_sd};
use pattywright::pantry::Pantry;
use pattywright::words::{Language, speaking};
use serde_json::Value;

/// A typed quantity that is understood reads the same after it is written back, is above zero and has a spread;
/// what is taken off a line lies inside the line; a refusal says something.
pub fn typed_quantity(text: &str) -> Result<(), String> {
    [Language::British, Language::German]
        .into_iter()
        .try_for_each(|language| speaking(language, || quantity_as_spoken(text)))
}

fn quantity_as_spoken(text: &str) -> Result<(), String> {
    match read(text) {
        Ok(quantity) => {
            let written = quantity.to_string();
            if read(&written).as_ref() != Ok(&quantity) {
                return Err(format!(
                    "{text:?} is {quantity:?}, but written {written:?} is {:?}",
                    read(&written)
                ));
            }
            if !(0.0 < quantity.low && quantity.low <= quantity.high && quantity.high <= 1e6) {
                return Err(format!("{text:?} runs from {} to {}", quantity.low, quantity.high));
            }
            let sd = relative_sd(&quantity, &Habits::default());
            if !(0.0 <= sd && sd.is_finite()) {
                return Err(format!("{text:?} has a spread of {sd}"));
            }
        }
        Err(why) if why.to_string().is_empty() => return Err(format!("{text:?} is refused without a word")),
        Err(_) => {}
    }
    match take(text) {
        Some((quantity, bytes)) if !text.is_char_boundary(bytes) || quantity.low <= 0.0 => {
            Err(format!("{text:?} gives up {quantity:?} in {bytes} bytes"))
        }
        _ => Ok(()),
    }
}

/// Every line that is not blank comes back as it was, and every word of it in what the line becomes; an amount that is
/// called understood is one.
pub fn pasted_list(text: &str) -> Result<(), String> {
    let pantry = Pantry::new(&[], Cup::Us);
    let Ok(pasted) = paste(&pantry, text) else {
        return Ok(());
    };
    let lines: Vec<&str> = text
        .split(['\n', '\r', '\u{85}', '\u{2028}', '\u{2029}'])
        .map(str::trim)
        .filter(|line| line.chars().any(is_seen))
        .collect();
    let back: Vec<&str> = pasted.iter().map(|pasted| pasted.text.as_str()).collect();
    if lines != back {
        return Err(format!("{lines:?} came back as {back:?}"));
    }
    pasted.iter().try_for_each(|pasted| keeps_every_word(&pantry, pasted))
}

/// Whether a mark takes room and ink; a line of others is no line.
fn is_seen(c: char) -> bool {
    !c.is_whitespace() && !['\u{200b}', '\u{2060}', '\u{feff}'].contains(&c)
}

fn keeps_every_word(pantry: &Pantry, pasted: &Pasted) -> Result<(), String> {
    let Pasted {
        text, line, understood, ..
    } = pasted;
    let ingredient = line.ingredient.as_deref().and_then(|id| pantry.get(id));
    let name = line.name.as_deref().unwrap_or_default();
    let kept: Vec<String> = [line.amount.as_str(), name, &line.note]
        .into_iter()
        .flat_map(words)
        .collect();
    // "of" joins an amount to its name; a figure at the very start may number the list.
    let may_go = |at: usize, word: &str| word == "of" || (at == 0 && word.chars().all(|c| c.is_ascii_digit()));
    let lost = words(text).enumerate().find(|(at, word)| {
        let named = ingredient.is_some_and(|ingredient| ingredient.goes_by(word));
        !may_go(*at, word) && !kept.contains(word) && !named
    });
    if let Some((_, word)) = lost {
        return Err(format!("{text:?} lost {word:?}: {line:?}"));
    }
    if *understood == Understood::Yes && (read(&line.amount).is_err() || ingredient.is_none()) {
        return Err(format!("{text:?} was not understood after all: {line:?}"));
    }
    Ok(())
}

fn words(text: &str) -> impl Iterator<Item = String> + '_ {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| word.trim_end_matches('s').to_lowercase())
}

/// A document that is read is the same after it is written and read again, with nothing left to complain of; its report
/// has a figure or a reason everywhere; a refusal says something.
pub fn opened_document(text: &str) -> Result<(), String> {
    let asked = match read_document(text) {
        Ok(asked) => asked,
        Err(why) if why.to_string().is_empty() => return Err(format!("{text:?} is refused without a word")),
        Err(_) => return Ok(()),
    };
    let written = asked.document.write();
    let again = read_document(&written).map_err(|why| format!("{text:?} is written as {written:?}: {why}"))?;
    if again.document != asked.document || !again.problems.is_empty() {
        return Err(format!(
            "{text:?} is written as {written:?}, which reads otherwise: {:?}",
            again.problems
        ));
    }
    let report = serde_json::to_value(evaluate(&asked)).map_err(|why| why.to_string())?;
    figure_or_reason(&report).map_err(|place| format!("{text:?} has neither figure nor reason in {place}"))
}

/// JSON has no word for a number that is not one: it would be written as `null`, where only a `why` may stand.
fn figure_or_reason(report: &Value) -> Result<(), String> {
    for formula in report["formulas"].as_array().into_iter().flatten() {
        if !formula["total_g"].is_number() || !formula["total_sd"].is_number() {
            return Err(formula.to_string());
        }
        let lines = formula["lines"].as_array().into_iter().flatten();
        let readings = formula["readings"]
            .as_object()
            .into_iter()
            .flatten()
            .map(|(_, reading)| reading);
        let (grams, values) = (
            lines.map(|line| (line, "grams")),
            readings.map(|reading| (reading, "value")),
        );
        for (part, figure) in grams.chain(values) {
            let known = part[figure].as_f64().is_some_and(|figure| figure >= 0.0)
                && part["sd"].as_f64().is_some_and(|sd| sd >= 0.0);
            if !known && !part["why"].is_string() {
                return Err(part.to_string());
            }
        }
    }
    Ok(())
}
