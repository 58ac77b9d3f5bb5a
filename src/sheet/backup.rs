//! Backups: how old the last one is, and what is in the one just opened.

use crate::document::{Asked, Document};
use crate::words::say;

/// Names listed before the rest is only counted.
const MOST_NAMES: usize = 12;

const HOUR_MS: f64 = 3_600_000.0;
const DAY_MS: f64 = 24.0 * HOUR_MS;

/// How old the last backup is, in words; both moments in ms since 1970 by this phone's clock.
pub fn last_backup(at_ms: Option<f64>, now_ms: f64) -> String {
    let Some(at_ms) = at_ms.filter(|at_ms| at_ms.is_finite()) else {
        return say("Never backed up.").into();
    };
    let age_ms = now_ms - at_ms;
    let days = (age_ms / DAY_MS).floor();
    // A clock set back and forth tells nothing; so does one a life away.
    if age_ms < -HOUR_MS || days > 36_500.0 {
        say("Last backup: not known, for this phone's clock was changed since.").into()
    } else if age_ms < HOUR_MS {
        say("Last backup: within the hour.").into()
    } else if days < 1.0 {
        let hours = (age_ms / HOUR_MS) as u32;
        say!(hours => "Last backup: {hours} hour ago.", "Last backup: {hours} hours ago.")
    } else if days < 60.0 {
        let days = days as u32;
        say!(days => "Last backup: {days} day ago.", "Last backup: {days} days ago.")
    } else if days < 730.0 {
        let months = (days / 30.44) as u32;
        say!(months => "Last backup: {months} month ago.", "Last backup: {months} months ago.")
    } else {
        let years = (days / 365.25) as u32;
        say!(years => "Last backup: {years} year ago.", "Last backup: {years} years ago.")
    }
}

/// What is in an opened backup, sentence by sentence, beside what is here `now`.
pub fn preview(asked: &Asked, now: &Document) -> Vec<String> {
    let document = &asked.document;
    let mut says = vec![match &asked.saved {
        Some(when) => say!("Saved on {when}.", when),
        None => say("The file does not say when it was saved.").into(),
    }];
    let names = document.formulas.iter().map(|formula| formula.name.as_str());
    let formulas = document.formulas.len();
    says.push(listed(
        say!(formulas => "{formulas} formula", "{formulas} formulas"),
        names,
    ));
    let pantry = crate::pantry::Pantry::new(&document.pantry, document.settings.cup);
    let names = document
        .pantry
        .iter()
        .filter_map(|entry| Some(pantry.get(&entry.id)?.name()));
    if !document.pantry.is_empty() {
        let own = names.clone().count();
        says.push(listed(
            say!(own => "{own} own ingredient", "{own} own ingredients"),
            names,
        ));
    }
    let differ = document.formulas.iter().filter(|formula| {
        now.formulas
            .iter()
            .any(|own| (own.id == formula.id || own.name == formula.name) && own != *formula)
    });
    let differ: Vec<&str> = differ.map(|formula| formula.name.as_str()).collect();
    if !differ.is_empty() {
        says.push(say!(
            "Not the same as what you have now: {names}. If you add it, both are kept.",
            names = shortened(differ.into_iter())
        ));
    }
    let parts = asked.problems.len();
    if parts > 0 {
        says.push(say!(
            parts => "{parts} part of it could not be read and is left out.",
            "{parts} parts of it could not be read and are left out."
        ));
    }
    says
}

fn listed<'a>(many: String, names: impl Iterator<Item = &'a str> + Clone) -> String {
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
        rest => say!("{names} and {rest} more", names = shown.join(", "), rest),
    }
}
