//! One ingredient in another's place: as much protein, as much water held.
//!
//! With `m` grams of A out, `m·p_A/p_B` grams of B go in.
//! Water moves by what B holds more than A did, less what B brings of its own: `Δ = (m_B·h_B − m_A·h_A) − (m_B·w_B − m_A·w_A)`.
//! Where nobody knows how much one of them holds, only the water they bring is made equal, and the answer says so.

use super::allergens::in_words;
use super::bowl::Bowl;
use super::holding::Holding;
use super::reach::{Change, Changed, typed};
use super::rescue::{RescueProblem, Status};
use crate::formula::{Component, Formula, Kitchen};
use crate::measure::{Estimate, fixed, grams};
use crate::pantry::{Ingredient, Role};
use crate::words::{say, within};

/// Puts `to` in the place of every line of `from`; `crowded` is the part of a powder's capacity that counts, from 0 to 1.
///
/// # Errors
/// [`RescueProblem`], each with a sentence that says what to do.
pub fn swap(
    kitchen: &Kitchen,
    formula: &Formula,
    from: &str,
    to: &str,
    crowded: f64,
) -> Result<(Changed, Formula), RescueProblem> {
    let bowl = Bowl::whole(kitchen, formula)?;
    let no_swap = |why: String| RescueProblem::NoSwap(why);
    let find = |id: &str| {
        let found = kitchen.pantry.get(id);
        found.ok_or_else(|| no_swap(say!("“{id}” is not in the pantry", id)))
    };
    let (old, new) = (find(from)?, find(to)?);
    if !(0.0..=1.0).contains(&crowded) {
        return Err(no_swap(say!(
            "Type the part of a powder’s water that counts as a number from 0 to 1"
        )));
    }
    let out: f64 = bowl
        .mix
        .known()
        .filter(|(line, _)| line.ingredient.as_deref() == Some(from))
        .map(|(_, grams)| grams.value)
        .sum();
    if out <= 0.0 || from == to {
        return Err(no_swap(say!(
            "There is no {name} in this formula to swap",
            name = within(old.name())
        )));
    }
    let (a, b) = (Holds::of(&old, crowded), Holds::of(&new, crowded));
    let into = match (a.protein, b.protein) {
        (Some(a), Some(b)) if b > 0.0 && a > 0.0 => out * a / b,
        _ => {
            return Err(no_swap(say!(
                "Protein of {old} or {new} is not known, or there is none: they cannot be swapped by protein",
                old = within(old.name()),
                new = within(new.name())
            )));
        }
    };
    let brought = into * b.water.unwrap_or(0.0) - out * a.water.unwrap_or(0.0);
    let held = a.holds.zip(b.holds).map(|(a, b)| Estimate {
        value: into * b.value - out * a.value,
        sd: (into * b.sd).hypot(out * a.sd),
    });
    let more_water = held.map_or(0.0, |held| held.value) - brought;
    let (after, missing) = swapped(&bowl, formula, (from, to), (out, into), more_water);
    let change = changes(&bowl, &after);
    let mut changed = Changed {
        status: if missing > 0.05 {
            Status::OutOfReach
        } else {
            Status::Reached
        },
        before: bowl.mix.readings(),
        after: kitchen.weigh(&after).readings(),
        notes: vec![say!("The protein stays the same.")],
        change,
        clash: Vec::new(),
    };
    changed.notes.push(water_step(more_water, held, (&old, &new)));
    changed.notes.extend(allergen_steps(&old, &new));
    if missing > 0.05 {
        changed.clash.push(say!(
            "There should be {water} less water, and no liquid line has that much to give",
            water = grams(missing)
        ));
    }
    Ok((changed, after))
}

/// What one gram is, as far as a swap goes.
struct Holds {
    protein: Option<f64>,
    water: Option<f64>,
    holds: Option<Estimate>,
}

impl Holds {
    fn of(ingredient: &Ingredient, crowded: f64) -> Holds {
        let profile = crate::formula::Profile::of(ingredient, ingredient.role());
        let known = |component| {
            let part = profile.component(component);
            (part.unknown == 0.0).then_some(part.known)
        };
        Holds {
            protein: known(Component::Protein),
            water: known(Component::Water),
            holds: Holding::of_ingredient(ingredient).map(|row| row.in_a_mix(ingredient.role(), crowded)),
        }
    }
}

/// The formula after the swap, and the water that could not be taken out, g.
fn swapped(
    bowl: &Bowl,
    formula: &Formula,
    (from, to): (&str, &str),
    (out, into): (f64, f64),
    more_water: f64,
) -> (Formula, f64) {
    let mut after = formula.clone();
    for (line, (_, grams)) in after.lines.iter_mut().zip(bowl.mix.known()) {
        if line.ingredient.as_deref() == Some(from) {
            line.ingredient = Some(to.into());
            line.amount = typed(grams.value * into / out);
            line.cut = None;
        }
    }
    // Plain water first; else the liquid with the most water in it.
    let wettest = bowl
        .mix
        .known()
        .enumerate()
        .filter(|(_, (line, _))| line.role == Role::Liquid)
        .map(|(index, (line, grams))| {
            let water = line.profile.component(Component::Water).known;
            let plain = line.ingredient.as_deref() == Some("water");
            (index, water, grams.value, plain)
        })
        .max_by(|a, b| {
            (a.3, a.1 * a.2)
                .partial_cmp(&(b.3, b.1 * b.2))
                .unwrap_or(std::cmp::Ordering::Equal)
        });
    let Some((index, water, there, _)) = wettest.filter(|(_, water, ..)| *water > 0.0) else {
        return (after, (-more_water).max(0.0));
    };
    let then = there + more_water / water;
    after.lines[index].amount = typed(then.max(0.0));
    (after, (-then * water).max(0.0))
}

fn changes(bowl: &Bowl, after: &Formula) -> Vec<Change> {
    let weighed = bowl.kitchen.weigh(after);
    let mut changes = Vec::new();
    for ((was, before), (is, now)) in bowl.mix.known().zip(weighed.known()) {
        let mut change = |line: &crate::formula::WeighedLine, delta: f64, then_g: f64| {
            if delta.abs() >= 0.005 {
                changes.push(Change {
                    key: line.key,
                    ingredient: line.ingredient.clone(),
                    name: line.name.clone(),
                    role: line.role,
                    grams: delta,
                    then_g,
                    spoons: line.ingredient.as_deref().and_then(|id| bowl.spoons(id, delta.abs())),
                });
            }
        };
        if was.ingredient == is.ingredient {
            change(is, now.value - before.value, now.value);
        } else {
            change(was, -before.value, 0.0);
            change(is, now.value, now.value);
        }
    }
    changes
}

fn water_step(more_water: f64, held: Option<Estimate>, (old, new): (&Ingredient, &Ingredient)) -> String {
    let Some(held) = held else {
        let unknown = if Holding::of_ingredient(old).is_none() {
            old
        } else {
            new
        };
        return say!(
            "Nobody has published how much water {name} holds: only the water they bring is made equal. Hold a little water back.",
            name = within(unknown.name())
        );
    };
    let (water, spread) = (grams(more_water.abs()), fixed(held.sd, 0));
    let step = if more_water >= 0.0 {
        say!(
            "{water} more water, ± {spread} g: laboratories differ by a third, so hold a little back.",
            water,
            spread
        )
    } else {
        say!(
            "{water} less water, ± {spread} g: laboratories differ by a third, so hold a little back.",
            water,
            spread
        )
    };
    let source = |ingredient: &Ingredient| {
        Holding::of_ingredient(ingredient).map_or(String::new(), |row| row.source_for(ingredient))
    };
    let sources = if source(old) == source(new) {
        say!("What they hold: {source}.", source = source(old))
    } else {
        format!("{}: {}. {}: {}.", old.name(), source(old), new.name(), source(new))
    };
    format!("{step} {sources}")
}

/// "wheat, gluten cereals".
fn words(allergens: &[&'static str]) -> String {
    let words: Vec<String> = allergens.iter().map(|one| in_words(one)).collect();
    words.join(", ")
}

fn allergen_steps(old: &Ingredient, new: &Ingredient) -> Vec<String> {
    let of = |ingredient: &Ingredient| ingredient.row().map_or(&[][..], |row| row.allergens);
    let (gone, come): (Vec<&'static str>, Vec<&'static str>) = (
        of(old).iter().filter(|one| !of(new).contains(one)).copied().collect(),
        of(new).iter().filter(|one| !of(old).contains(one)).copied().collect(),
    );
    let mut steps = Vec::new();
    if !come.is_empty() {
        steps.push(say!(
            "New allergen: {allergens}. Tell your guests, and read the pack.",
            allergens = words(&come)
        ));
    }
    if !gone.is_empty() {
        steps.push(say!(
            "{allergens} no longer comes from {name}; other lines may still bring it, so check every pack.",
            allergens = words(&gone),
            name = within(old.name())
        ));
    }
    steps
}
