//! Change the mix: bring readings into ranges, or put one ingredient in another's place.

use super::rescue::AddRow;
use super::rule::{Rule, moved};
pub use crate::balance::holding::CROWDED;
use crate::balance::{Aim, Changed, Status, Targets, Want, change_formula, reach, swap};
use crate::formula::{Formula, Kitchen, Reading};
use crate::measure::{grams, read};
use crate::words::say;

/// A range as the cook typed it; an empty text asks for nothing.
#[derive(Clone, PartialEq, Debug)]
pub struct Wish {
    /// Which reading.
    pub reading: Reading,
    /// At least.
    pub low: String,
    /// At most.
    pub high: String,
}

/// Everything asked on the sheet.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Asked {
    /// The ranges.
    pub wishes: Vec<Wish>,
    /// Ids of ingredients, or names of formulas, that stay as they are.
    pub lock: Vec<String>,
    /// Allergens that come out.
    pub without: Vec<String>,
    /// What is best among all that fits.
    pub aim: Aim,
}

/// Allergens offered: the start of the name in the tables, and the words on screen.
pub fn allergens() -> [(&'static str, &'static str); 6] {
    [
        ("soy", say("no soy")),
        ("gluten", say("no gluten")),
        ("wheat", say("no wheat")),
        ("mustard", say("no mustard")),
        ("sesame", say("no sesame")),
        ("lupin", say("no lupin")),
    ]
}

/// The answer, ready to draw.
#[derive(Clone, PartialEq, Debug)]
pub struct ChangeSheet {
    /// "Change these lines", "This gets nearest" …
    pub headline: &'static str,
    /// Lines that move, signed.
    pub rows: Vec<AddRow>,
    /// Wishes that clash, and how near it gets.
    pub clash: Vec<String>,
    /// What else to know.
    pub notes: Vec<String>,
    /// Readings that move, with the change in.
    pub after: Vec<Rule>,
    /// The formula with the change in; none where nothing moves.
    pub formula: Option<Formula>,
}

/// Works out the least change that grants the wishes; none while nothing is asked.
///
/// # Errors
/// A sentence that says what to do.
pub fn aim(kitchen: &Kitchen, formula: &Formula, asked: &Asked) -> Result<Option<ChangeSheet>, String> {
    let want: Vec<Want> = asked.wishes.iter().map(wish).collect::<Result<_, _>>()?;
    let want: Vec<Want> = want
        .into_iter()
        .filter(|want| want.low.or(want.high).is_some())
        .collect();
    if want.is_empty() && asked.without.is_empty() && asked.aim == Aim::LeastChange {
        return Ok(None);
    }
    let targets = Targets {
        want,
        lock: asked.lock.clone(),
        without: asked.without.clone(),
        aim: asked.aim,
    };
    let changed = reach(kitchen, formula, &targets).map_err(|why| why.to_string())?;
    let after = change_formula(formula, &changed.change);
    Ok(Some(sheet(changed, after)))
}

/// Works out a swap at equal protein and equal water held; `crowded` is typed, see [`CROWDED`].
///
/// # Errors
/// A sentence that says what to do.
pub fn exchange(
    kitchen: &Kitchen,
    formula: &Formula,
    (from, to): (&str, &str),
    crowded: &str,
) -> Result<ChangeSheet, String> {
    let crowded = read(crowded.trim()).map_or(f64::NAN, |quantity| quantity.middle());
    let (changed, after) = swap(kitchen, formula, from, to, crowded).map_err(|why| why.to_string())?;
    Ok(sheet(changed, after))
}

fn wish(wish: &Wish) -> Result<Want, String> {
    let limit = |text: &str| {
        if text.trim().is_empty() {
            return Ok(None);
        }
        let reading = wish.reading.name();
        Want::limit(text)
            .map(Some)
            .ok_or_else(|| say!("{reading}: type a number such as 18, or leave it empty", reading))
    };
    Ok(Want {
        reading: wish.reading,
        low: limit(&wish.low)?,
        high: limit(&wish.high)?,
    })
}

fn sheet(changed: Changed, after: Formula) -> ChangeSheet {
    let headline = match changed.status {
        Status::Reached if changed.change.is_empty() => say("Nothing has to change"),
        Status::Reached => say("Change these lines"),
        Status::NotNeeded => say("Nothing has to change"),
        Status::OutOfReach if changed.change.is_empty() => say("This cannot be reached"),
        Status::OutOfReach => say("This gets nearest"),
    };
    // What no scale shows is not shown.
    let seen = changed.change.iter().filter(|change| change.grams.abs() >= 0.005);
    let rows = seen.map(|change| AddRow {
        name: change.name.clone(),
        grams: format!(
            "{} {}",
            if change.grams < 0.0 { "−" } else { "+" },
            grams(change.grams.abs())
        ),
        spoons: change
            .by_spoon()
            .map_or(String::new(), |spoons| say!("about {spoons}", spoons)),
    });
    ChangeSheet {
        headline,
        rows: rows.collect(),
        formula: (!changed.change.is_empty()).then_some(after),
        after: moved(&changed.before, &changed.after),
        clash: changed.clash,
        notes: changed.notes,
    }
}
