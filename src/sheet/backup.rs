//! Backups: how old the last one is, and what is in the one just opened.

use crate::document::{Asked, Document};

/// Names listed before the rest is only counted.
const MOST_NAMES: usize = 12;

const HOUR_MS: f64 = 3_600_000.0;
const DAY_MS: f64 = 24.0 * HOUR_MS;

/// How old the last backup is, in words; both moments in ms since 1970 by this phone's clock.
pub fn last_backup(at_ms: Option<f64>, now_ms: f64) -> String {
    let Some(at_ms) = at_ms.filter(|at_ms| at_ms.is_finite()) else {
        return "Never backed up.".into();
    };
    let age_ms = now_ms - at_ms;
    let days = (age_ms / DAY_MS).floor();
    let (number, unit) = match days {
        // A clock set back and forth tells nothing; so does one a life away.
        _ if age_ms < -HOUR_MS || days > 36_500.0 => {
            return "Last backup: not known, for this phone's clock was changed since.".into();
        }
        _ if age_ms < HOUR_MS => return "Last backup: within the hour.".into(),
        _ if days < 1.0 => ((age_ms / HOUR_MS).floor(), "hour"),
        _ if days < 60.0 => (days, "day"),
        _ if days < 730.0 => ((days / 30.44).floor(), "month"),
        _ => ((days / 365.25).floor(), "year"),
    };
    format!("Last backup: {} ago.", count(number as usize, unit))
}

/// What is in an opened backup, sentence by sentence, beside what is here `now`.
pub fn preview(asked: &Asked, now: &Document) -> Vec<String> {
    let document = &asked.document;
    let mut says = vec![match &asked.saved {
        Some(when) => format!("Saved on {when}."),
        None => "The file does not say when it was saved.".into(),
    }];
    let names = document.formulas.iter().map(|formula| formula.name.as_str());
    says.push(listed("formula", names));
    let pantry = crate::pantry::Pantry::new(&document.pantry, document.settings.cup);
    let names = document
        .pantry
        .iter()
        .filter_map(|entry| Some(pantry.get(&entry.id)?.name()));
    if !document.pantry.is_empty() {
        says.push(listed("own ingredient", names));
    }
    let differ = document.formulas.iter().filter(|formula| {
        now.formulas
            .iter()
            .any(|own| (own.id == formula.id || own.name == formula.name) && own != *formula)
    });
    let differ: Vec<&str> = differ.map(|formula| formula.name.as_str()).collect();
    if !differ.is_empty() {
        says.push(format!(
            "Not the same as what you have now: {}. If you add it, both are kept.",
            shortened(differ.into_iter())
        ));
    }
    if !asked.problems.is_empty() {
        says.push(format!(
            "{} of it could not be read and is left out.",
            count(asked.problems.len(), "part")
        ));
    }
    says
}

fn listed<'a>(what: &str, names: impl Iterator<Item = &'a str> + Clone) -> String {
    let many = count(names.clone().count(), what);
    match shortened(names) {
        names if names.is_empty() => format!("{many}."),
        names => format!("{many}: {names}."),
    }
}

fn shortened<'a>(names: impl Iterator<Item = &'a str> + Clone) -> String {
    let shown: Vec<&str> = names.clone().take(MOST_NAMES).collect();
    let rest = names.skip(MOST_NAMES).count();
    match rest {
        0 => shown.join(", "),
        rest => format!("{} and {rest} more", shown.join(", ")),
    }
}

fn count(number: usize, what: &str) -> String {
    let ending = if number == 1 { "" } else { "s" };
    format!("{number} {what}{ending}")
}
