//! Two tabs, one document: what each changed since they last agreed, put together.

use super::{Document, Settings, Weighing};
use crate::formula::{Formula, Line};
use crate::pantry::Entry;
use crate::words::say;

/// What two tabs made of one document, put together.
#[derive(Clone, PartialEq, Debug)]
pub struct Merged {
    /// Both changes in one document.
    pub document: Document,
    /// Formulas that both changed in the same place: this tab's stand under another name.
    pub copies: Vec<Copied>,
    /// Names of other things that both changed: this tab's are used.
    pub decided: Vec<String>,
}

/// A formula kept twice.
#[derive(Clone, PartialEq, Debug)]
pub struct Copied {
    /// Id that now holds what the other tab made of it.
    pub of: String,
    /// Id of the copy that holds what this tab made of it.
    pub id: String,
    /// Name of the copy.
    pub name: String,
}

impl Merged {
    /// What happened, in a sentence or two.
    pub fn told(&self) -> String {
        let mut told = Vec::new();
        for copy in &self.copies {
            told.push(say!(
                "Another tab changed the same line. Yours is kept as “{name}”.",
                name = copy.name
            ));
        }
        if !self.decided.is_empty() {
            told.push(say!(
                "Changed in another tab too, and used as set here: {names}. The other is under More, Earlier versions.",
                names = self.decided.join(", ")
            ));
        }
        if told.is_empty() {
            told.push(say!("Another tab changed this too: both changes are kept."));
        }
        told.join(" ")
    }
}

/// Puts together what this tab (`mine`) and another one (`theirs`) made of the same document (`base`).
///
/// A thing changed on one side only takes that change, down to single lines of a formula and single figures of an ingredient.
/// Where both changed the same line, the formula is kept twice; weighed cups of both sides all stay.
/// Where both changed another thing that there can be only one of, this tab's is used, and named.
pub fn merge(base: &Document, mine: &Document, theirs: &Document) -> Merged {
    let mut decided = Vec::new();
    let mut copied = Vec::new();
    let settings = settings(&base.settings, &mine.settings, &theirs.settings, &mut decided);
    let pantry = keyed(
        &base.pantry,
        &mine.pantry,
        &theirs.pantry,
        |entry| entry.id.clone(),
        |base, mine, theirs| entry(base, mine, theirs, &mut decided),
    );
    let mut formulas = keyed(
        &base.formulas,
        &mine.formulas,
        &theirs.formulas,
        |formula| formula.id.clone(),
        |base, mine, theirs| {
            formula(base, mine, theirs).unwrap_or_else(|| {
                copied.push(mine.clone());
                theirs.clone()
            })
        },
    );
    let mut copies = Vec::new();
    for mut copy in copied {
        let of = std::mem::take(&mut copy.id);
        // The id is the same whatever language the name is in.
        let wanted = format!("{} other copy", copy.name);
        copy.id = Document::free_id(&wanted, formulas.iter().map(|f| f.id.as_str()));
        copy.name = say!("{name} (other copy)", name = copy.name);
        let (id, name) = (copy.id.clone(), copy.name.clone());
        copies.push(Copied { of, id, name });
        formulas.push(copy);
    }
    let weighing = weighing(&base.weighing, &mine.weighing, &theirs.weighing, &mut decided);
    let mut clash = false;
    let cooking = pick(&base.cooking, &mine.cooking, &theirs.cooking, &mut clash);
    if clash {
        decided.push(say!("the patties in the pan"));
    }
    Merged {
        document: Document {
            format: theirs.format,
            settings,
            pantry,
            formulas,
            weighing,
            cooking,
        },
        copies,
        decided,
    }
}

/// The side that changed; this one, and `clash`, where both did.
fn pick<T: Clone + PartialEq>(base: &T, mine: &T, theirs: &T, clash: &mut bool) -> T {
    if mine == base || mine == theirs {
        return theirs.clone();
    }
    *clash |= theirs != base;
    mine.clone()
}

/// Puts two lists of things with keys together; what both have and either changed is left to `both`.
///
/// Removed on one side and unchanged on the other is removed; changed on the other stays.
/// Where both changed something, the order is this side's, and what only the other has follows.
fn keyed<T: Clone + PartialEq + Default, K: PartialEq>(
    base: &[T],
    mine: &[T],
    theirs: &[T],
    key: impl Fn(&T) -> K,
    mut both: impl FnMut(&T, &T, &T) -> T,
) -> Vec<T> {
    if mine == base {
        return theirs.to_vec();
    }
    if theirs == base {
        return mine.to_vec();
    }
    let find = |list: &[T], wanted: &T| list.iter().find(|item| key(item) == key(wanted)).cloned();
    let of_mine = mine
        .iter()
        .filter_map(|mine| match (find(base, mine), find(theirs, mine)) {
            (_, Some(theirs)) if theirs == *mine => Some(theirs),
            (base, Some(theirs)) => Some(both(&base.unwrap_or_default(), mine, &theirs)),
            (Some(base), None) if base == *mine => None,
            (_, None) => Some(mine.clone()),
        });
    let mut merged: Vec<T> = of_mine.collect();
    let only_theirs = theirs.iter().filter(|theirs| find(mine, theirs).is_none());
    merged.extend(
        only_theirs
            .filter(|theirs| find(base, theirs).as_ref() != Some(theirs))
            .cloned(),
    );
    merged
}

fn settings(base: &Settings, mine: &Settings, theirs: &Settings, decided: &mut Vec<String>) -> Settings {
    let mut clash = false;
    let merged = Settings {
        cup: pick(&base.cup, &mine.cup, &theirs.cup, &mut clash),
        scale_step_g: pick(&base.scale_step_g, &mine.scale_step_g, &theirs.scale_step_g, &mut clash),
        degrees: pick(&base.degrees, &mine.degrees, &theirs.degrees, &mut clash),
        length: pick(&base.length, &mine.length, &theirs.length, &mut clash),
        language: pick(&base.language, &mine.language, &theirs.language, &mut clash),
        demo: pick(&base.demo, &mine.demo, &theirs.demo, &mut clash),
    };
    if clash {
        decided.push(say!("settings"));
    }
    merged
}

fn entry(base: &Entry, mine: &Entry, theirs: &Entry, decided: &mut Vec<String>) -> Entry {
    let mut clash = false;
    let mut calibrations = theirs.calibrations.clone();
    calibrations.retain(|one| mine.calibrations.contains(one) || !base.calibrations.contains(one));
    let new = mine
        .calibrations
        .iter()
        .filter(|one| !theirs.calibrations.contains(one));
    calibrations.extend(new.filter(|one| !base.calibrations.contains(one)).cloned());
    let merged = Entry {
        id: mine.id.clone(),
        name: pick(&base.name, &mine.name, &theirs.name, &mut clash),
        like: pick(&base.like, &mine.like, &theirs.like, &mut clash),
        role: pick(&base.role, &mine.role, &theirs.role, &mut clash),
        cup_g: pick(&base.cup_g, &mine.cup_g, &theirs.cup_g, &mut clash),
        density_g_per_ml: pick(
            &base.density_g_per_ml,
            &mine.density_g_per_ml,
            &theirs.density_g_per_ml,
            &mut clash,
        ),
        calibrations,
        panel: pick(&base.panel, &mine.panel, &theirs.panel, &mut clash),
    };
    if clash {
        let name = if merged.name.is_empty() {
            &merged.id
        } else {
            &merged.name
        };
        decided.push(name.replace('_', " "));
    }
    merged
}

/// `None` where both changed the same place.
fn formula(base: &Formula, mine: &Formula, theirs: &Formula) -> Option<Formula> {
    let mut clash = false;
    let lines = keyed(
        &base.lines,
        &mine.lines,
        &theirs.lines,
        |line| line.key,
        |base, mine, theirs| pick::<Line>(base, mine, theirs, &mut clash),
    );
    let removed_and_changed = |one: &[Line], other: &[Line]| {
        base.lines.iter().any(|was| {
            let find = |lines: &[Line]| lines.iter().find(|line| line.key == was.key).cloned();
            find(one).is_none() && find(other).is_some_and(|line| line != *was)
        })
    };
    let merged = Formula {
        id: mine.id.clone(),
        name: pick(&base.name, &mine.name, &theirs.name, &mut clash),
        style: pick(&base.style, &mine.style, &theirs.style, &mut clash),
        base: pick(&base.base, &mine.base, &theirs.base, &mut clash),
        lines,
        log: pick(&base.log, &mine.log, &theirs.log, &mut clash),
    };
    clash |= removed_and_changed(&mine.lines, &theirs.lines) || removed_and_changed(&theirs.lines, &mine.lines);
    (!clash).then_some(merged)
}

/// What each poured stays, as long as both pour the same batch.
fn weighing(
    base: &Option<Weighing>,
    mine: &Option<Weighing>,
    theirs: &Option<Weighing>,
    decided: &mut Vec<String>,
) -> Option<Weighing> {
    let mut clash = false;
    let merged = match (mine, theirs) {
        (Some(mine), Some(theirs))
            if (&mine.formula, &mine.batch, mine.growth) == (&theirs.formula, &theirs.batch, theirs.growth) =>
        {
            let mut merged = theirs.clone();
            let poured = |weighing: &Option<Weighing>, key| weighing.as_ref().and_then(|w| w.poured.get(key)).copied();
            for key in mine.poured.keys().chain(theirs.poured.keys()) {
                let own = mine.poured.get(key).copied();
                match pick(&poured(base, key), &own, &theirs.poured.get(key).copied(), &mut clash) {
                    Some(grams) => merged.poured.insert(*key, grams),
                    None => merged.poured.remove(key),
                };
            }
            Some(merged)
        }
        _ => pick(base, mine, theirs, &mut clash),
    };
    if clash {
        decided.push(say!("the batch on the scale"));
    }
    merged
}
