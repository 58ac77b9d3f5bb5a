//! Two tabs, one document: what each changed since they last agreed, put together.

use super::Document;

/// Puts together what this tab (`mine`) and another one (`theirs`) made of the same document (`base`).
///
/// A thing changed on one side only takes that change.
/// A formula changed on both sides is kept twice, this tab's under a name of its own, so that nothing is overwritten in silence.
/// Settings, pantry entries and the batch on the scale follow this tab where it changed them.
pub fn merge(base: &Document, mine: &Document, theirs: &Document) -> Document {
    let mut merged = theirs.clone();
    if mine.settings != base.settings {
        merged.settings = mine.settings.clone();
    }
    if mine.weighing != base.weighing {
        merged.weighing.clone_from(&mine.weighing);
    }
    let entry = |document: &Document, id: &str| document.pantry.iter().find(|e| e.id == id).cloned();
    for changed in ids(base.pantry.iter().chain(&mine.pantry).map(|e| &e.id)) {
        let own = entry(mine, &changed);
        if own != entry(base, &changed) {
            merged.pantry.retain(|e| e.id != changed);
            merged.pantry.extend(own);
        }
    }
    let formula = |document: &Document, id: &str| document.formulas.iter().find(|f| f.id == id).cloned();
    for changed in ids(base.formulas.iter().chain(&mine.formulas).map(|f| &f.id)) {
        let (was, own, other) = (
            formula(base, &changed),
            formula(mine, &changed),
            formula(theirs, &changed),
        );
        if own == was || own == other {
            continue;
        }
        match own {
            // Deleted here and unchanged there: it goes. Changed there: it stays.
            None if other == was => merged.formulas.retain(|f| f.id != changed),
            None => {}
            Some(mut own) if other.is_some() && other != was => {
                own.name = format!("{} (other copy)", own.name);
                own.id = Document::free_id(&own.name, merged.formulas.iter().map(|f| f.id.as_str()));
                merged.formulas.push(own);
            }
            Some(own) => match merged.formulas.iter_mut().find(|f| f.id == changed) {
                Some(slot) => *slot = own,
                None => merged.formulas.push(own),
            },
        }
    }
    merged
}

fn ids<'a>(all: impl Iterator<Item = &'a String>) -> Vec<String> {
    let mut ids: Vec<String> = all.cloned().collect();
    ids.sort();
    ids.dedup();
    ids
}
