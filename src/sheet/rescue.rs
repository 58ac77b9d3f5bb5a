//! The Rescue room: it crumbles: what do I add, to what is left?

use super::rule::{Rule, moved};
use crate::balance::{Add, Rescue, RescueProblem, Status, Symptom};
use crate::formula::{Formula, Kitchen};
use crate::measure::grams;
use crate::words::say;

/// The four moments of crumbling come first; the rest stand behind "something else".
pub const CRUMBLES: [Symptom; 4] = [
    Symptom::CrumblesForming,
    Symptom::BreaksInPan,
    Symptom::BreaksWhenTurned,
    Symptom::ThinOnesBreak,
];

/// Everything that is not crumbling.
pub const OTHERS: [Symptom; 8] = [
    Symptom::FallsApartCooling,
    Symptom::StickyWet,
    Symptom::Gummy,
    Symptom::Mushy,
    Symptom::Dry,
    Symptom::Greasy,
    Symptom::TooSalty,
    Symptom::TooDark,
];

/// The advice, ready to draw.
#[derive(Clone, PartialEq, Debug)]
pub struct RescueSheet {
    /// "Add to 397 g in the bowl", "Nothing to add yet" …
    pub headline: String,
    /// Why it happens.
    pub why: &'static str,
    /// What to add.
    pub add: Vec<AddRow>,
    /// True where the additions are only a small step to try.
    pub small_step: bool,
    /// Seasoning that keeps the flavour.
    pub top_up: Vec<AddRow>,
    /// What stays outside its window, and how near it gets.
    pub clash: Vec<String>,
    /// What to do, in order.
    pub steps: Vec<String>,
    /// What makes it worse.
    pub avoid: &'static str,
    /// Readings that move, with the additions in.
    pub after: Vec<Rule>,
    /// The additions themselves, to be applied.
    pub additions: Vec<Add>,
    /// The seasoning of the top-up, to be applied with them.
    pub flavour: Vec<Add>,
    /// What is left, g.
    pub left_g: f64,
}

/// One addition.
#[derive(Clone, PartialEq, Debug)]
pub struct AddRow {
    /// Name.
    pub name: String,
    /// `26 g`.
    pub grams: String,
    /// `1¾ tbsp`; empty where its density is not known.
    pub spoons: String,
}

impl AddRow {
    fn of(add: &Add) -> AddRow {
        AddRow {
            name: add.name.clone(),
            grams: grams(add.grams),
            spoons: add
                .by_spoon()
                .map_or(String::new(), |spoons| say!("about {spoons}", spoons)),
        }
    }
}

/// Works the advice out.
///
/// # Errors
/// [`RescueProblem`], each with a sentence that says what to do.
pub fn sheet(
    kitchen: &Kitchen,
    formula: &Formula,
    left_g: f64,
    symptom: Symptom,
) -> Result<RescueSheet, RescueProblem> {
    let rescue = crate::balance::rescue(kitchen, formula, left_g, symptom)?;
    let small_step = rescue.status == Status::NotNeeded && !rescue.if_that_fails.is_empty();
    let additions = if small_step {
        rescue.if_that_fails.clone()
    } else {
        rescue.add.clone()
    };
    Ok(RescueSheet {
        headline: headline(&rescue),
        why: symptom.why(),
        add: additions.iter().map(AddRow::of).collect(),
        small_step,
        top_up: rescue.top_up.iter().map(AddRow::of).collect(),
        clash: rescue.clash.clone(),
        steps: rescue.steps.clone(),
        avoid: symptom.avoid(),
        after: moved(&rescue.before, &rescue.after),
        additions,
        flavour: rescue.top_up,
        left_g,
    })
}

fn headline(rescue: &Rescue) -> String {
    let left = grams(rescue.left_g);
    match rescue.status {
        Status::Reached => say!("Add to the {left} left", left),
        Status::NotNeeded => say("Check before you add").into(),
        Status::OutOfReach if rescue.add.is_empty() => say("Adding alone cannot mend this").into(),
        Status::OutOfReach => say("This gets nearest").into(),
    }
}

/// What is left after so many patties were formed: total − count × weight, g; `None` when more was formed than there was.
pub fn left_after(total_g: f64, formed: f64, patty_g: f64) -> Option<f64> {
    let left = total_g - formed * patty_g;
    (formed >= 0.0 && patty_g >= 0.0 && left > 0.0 && left.is_finite()).then_some(left)
}
