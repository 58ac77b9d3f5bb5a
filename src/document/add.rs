//! A backup added to what there is: nothing there is changed, and what differs is kept beside it.

use super::{Document, MOST_ENTRIES, MOST_FORMULAS, Unreadable};
use crate::formula::Formula;
use crate::pantry::{Entry, listed};
use crate::words::say;
use std::collections::BTreeMap;

/// Adds the formulas and own ingredients of a backup, `more`, to what is here, `now`.
///
/// What both have alike is not added again.
/// What differs under the same id or name comes in under another, "Shed patty (from backup)", and the lines that came along point to it.
/// An own weighing of an ingredient that has none here counts from now on.
/// Settings, the batch on the scale and the patties in the pan stay as they are here.
///
/// # Errors
/// [`Unreadable::TooMany`] where both together are more than a document holds.
pub fn add(now: &Document, more: &Document) -> Result<Document, Unreadable> {
    let mut all = now.clone();
    all.settings.demo = now.settings.demo && more.settings.demo;

    let mut ingredients = Renamed::new();
    for entry in &more.pantry {
        let here = now.pantry.iter().find(|own| own.id == entry.id);
        if here != Some(entry) {
            let mut new = beside(&all.pantry, entry, here.is_some());
            if here.is_some() {
                let taken = all.pantry.iter().chain(&more.pantry).map(|own| own.id.as_str());
                new.id = Document::free_id(&entry.id, taken);
                ingredients.insert(entry.id.clone(), new.id.clone());
            }
            all.pantry.push(new);
        }
    }
    let renamed = renamed_formulas(now, more, &ingredients);
    for formula in &more.formulas {
        let mut formula = pointed(formula, &ingredients, &renamed);
        if now.formulas.contains(&formula) {
            continue;
        }
        formula.name = free_name(&formula.name, all.formulas.iter().map(|own| own.name.as_str()));
        all.formulas.push(formula);
    }
    for (what, count, most) in [
        (say("formulas together with yours"), all.formulas.len(), MOST_FORMULAS),
        (
            say("own ingredients together with yours"),
            all.pantry.len(),
            MOST_ENTRIES,
        ),
    ] {
        if count > most {
            return Err(Unreadable::TooMany(what, most));
        }
    }
    Ok(all)
}

/// Ids of the backup, and what they are called here.
type Renamed = BTreeMap<String, String>;

/// The backup's ingredient as it is called beside those that are here; `is_taken` where its id is one of theirs.
fn beside(all: &[Entry], entry: &Entry, is_taken: bool) -> Entry {
    let mut new = entry.clone();
    let row = listed(&entry.id);
    if is_taken {
        // What lay over a published row still borrows from it.
        new.like = entry.like.clone().or(row.map(|_| entry.id.clone()));
    }
    let name = match row {
        Some(row) if is_taken && entry.name.is_empty() => say(row.kitchen_name),
        _ => &entry.name,
    };
    let names = all.iter().map(|own| own.name.as_str());
    new.name = match (name, is_taken) {
        // It keeps the published name.
        ("", false) => String::new(),
        ("", true) => free_name(&entry.id.replace('_', " "), names.chain([entry.id.as_str()])),
        (name, true) => free_name(name, names.chain([name])),
        (name, false) => free_name(name, names),
    };
    new
}

/// The formulas that differ from those here, or use one that does.
fn renamed_formulas(now: &Document, more: &Document, ingredients: &Renamed) -> Renamed {
    let mut renamed = Renamed::new();
    loop {
        let before = renamed.len();
        for formula in &more.formulas {
            let here = now.formulas.iter().find(|own| own.id == formula.id);
            let differs = here.is_some_and(|here| *here != pointed(formula, ingredients, &renamed));
            if differs && !renamed.contains_key(&formula.id) {
                let taken = [now, more].into_iter().flat_map(|document| &document.formulas);
                let taken = taken
                    .map(|own| own.id.as_str())
                    .chain(renamed.values().map(String::as_str));
                let id = Document::free_id(&formula.id, taken);
                renamed.insert(formula.id.clone(), id);
            }
        }
        if renamed.len() == before {
            return renamed;
        }
    }
}

/// The formula under the ids used here.
fn pointed(formula: &Formula, ingredients: &Renamed, formulas: &Renamed) -> Formula {
    let point = |id: &mut String, renamed: &Renamed| {
        if let Some(here) = renamed.get(id) {
            id.clone_from(here);
        }
    };
    let mut formula = formula.clone();
    point(&mut formula.id, formulas);
    for line in &mut formula.lines {
        line.ingredient.iter_mut().for_each(|id| point(id, ingredients));
        line.formula.iter_mut().for_each(|id| point(id, formulas));
    }
    for (id, _) in formula.log.iter_mut().flat_map(|addition| &mut addition.added) {
        point(id, ingredients);
    }
    formula
}

/// What a kept-twice thing is called beside the one that was here.
fn free_name<'a>(name: &str, taken: impl Iterator<Item = &'a str> + Clone) -> String {
    let free = |wanted: &str| !wanted.is_empty() && taken.clone().all(|other| other != wanted);
    if free(name) {
        return name.to_owned();
    }
    let first = say!("{name} (from backup)", name);
    if free(&first) {
        return first;
    }
    (2u32..)
        .map(|n| say!("{name} (from backup {n})", name, n))
        .find(|name| free(name))
        .unwrap_or(first)
}
