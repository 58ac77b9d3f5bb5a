//! The advice as sentences, in the order of doing.

use super::candidate::{OIL, WATER_TO_CARRY};
use super::gelling::whisked;
use super::rescue::{Add, Rescue, Status};
use super::symptom::Remedy;
use crate::formula::{Reading, ReadingValue};
use crate::measure::grams;
use crate::pantry::Role;
use crate::words::{say, within};

pub(super) fn steps(remedy: &Remedy, rescue: &Rescue) -> Vec<String> {
    let mut steps = vec![say(remedy.check_first).to_owned(), say(remedy.action).to_owned()];
    let outside = outside(&rescue.before);
    let add = if rescue.status == Status::NotNeeded {
        steps.push(if outside.is_empty() {
            say!("Every reading is in its window, so nothing needs adding yet.")
        } else {
            say!(
                "What usually causes this is in its window, so nothing needs adding yet. Off for another reason: {readings}.",
                readings = outside.join(", ")
            )
        });
        if !rescue.if_that_fails.is_empty() {
            steps.push(say!("If it still fails, add a small step:"));
        }
        &rescue.if_that_fails
    } else {
        if !outside.is_empty() {
            steps.push(say!("Off now: {readings}.", readings = outside.join(", ")));
        }
        &rescue.add
    };
    steps.extend(how_to_add(add));
    if !add.is_empty() {
        steps.push(say!(
            "Fold in, cover, and rest {minutes} minutes in the fridge. Then try one patty.",
            minutes = remedy.rest_min
        ));
    }
    steps
}

/// What stands outside its window: "hydration (high)".
fn outside(before: &[(Reading, ReadingValue)]) -> Vec<String> {
    before
        .iter()
        .filter_map(|(reading, value)| {
            let (now, window) = (value.value.estimate()?.value, value.window?);
            let name = within(reading.name());
            if now < window.low {
                Some(say!("{name} (low)", name))
            } else if now > window.high {
                Some(say!("{name} (high)", name))
            } else {
                None
            }
        })
        .collect()
}

/// How each addition goes in; the binder never dry into wet.
fn how_to_add(add: &[Add]) -> Vec<String> {
    let doing = |role| -> Vec<&Add> { add.iter().filter(|addition| addition.role == role).collect() };
    let (binders, granules, powders) = (doing(Role::Binder), doing(Role::Textured), doing(Role::Powder));
    let water = sum(&doing(Role::Liquid));
    let oil = add.iter().find(|addition| addition.ingredient == OIL);
    // Water and oil carry the binder between them: what the water cannot take is shaken into the oil.
    let binder = sum(&binders);
    let into_water = binder.min(water / WATER_TO_CARRY);
    let into_oil = if into_water > 0.999 * binder {
        0.0
    } else {
        binder - into_water
    };
    // Where granules are soaked too, the binder takes only the water that carries it.
    let for_binder = match (into_water > 0.0, granules.is_empty()) {
        (true, false) => WATER_TO_CARRY * into_water,
        (true, true) => water,
        (false, _) => 0.0,
    };
    let mut how = Vec::new();
    if let Some(first) = binders.first().filter(|_| into_water > 0.0) {
        how.push(whisked(
            &first.ingredient,
            &part_of(&binders, into_water),
            &grams(for_binder),
        ));
    }
    let carrier = oil.filter(|_| into_oil > 0.0);
    if let Some(oil) = carrier {
        let (binder, oil) = (part_of(&binders, into_oil), list(&[oil]));
        how.push(if into_water > 0.0 {
            say!(
                "Shake the other {binder} into {oil} until no lump is left. Never dry into the bowl.",
                binder,
                oil
            )
        } else {
            say!(
                "Shake {binder} into {oil} until no lump is left. Never dry into the bowl.",
                binder,
                oil
            )
        });
    }
    how.extend(soaked(&granules, water - for_binder));
    if !powders.is_empty() {
        how.push(say!("Sift {powders} over the mix.", powders = list(&powders)));
    }
    let rest: Vec<&Add> = add
        .iter()
        .filter(|one| !matches!(one.role, Role::Binder | Role::Liquid | Role::Textured | Role::Powder))
        .filter(|one| carrier.is_none_or(|oil| oil != *one))
        .collect();
    if !rest.is_empty() {
        how.push(say!("Work in {rest}, cold.", rest = list(&rest)));
    }
    how
}

/// How the granules go in with the water that is left for them, or the water alone.
fn soaked(granules: &[&Add], water: f64) -> Option<String> {
    let words = list(granules);
    let dry = sum(granules);
    match (granules.is_empty(), grams(water)) {
        (true, _) if water < 0.05 => None,
        (true, water) => Some(say!(
            "Sprinkle {water} of cold water over the mix, a little at a time, and work it in.",
            water
        )),
        (false, soak) if water > dry => Some(say!(
            "Soak {granules} in {water} of cold water for 20 minutes first.",
            granules = words,
            water = soak
        )),
        (false, some) if water > 0.5 => Some(say!(
            "Mix {granules} with {water} of cold water, leave them 20 minutes, then fold both in.",
            granules = words,
            water = some
        )),
        (false, _) => Some(say!(
            "Scatter {granules} over the mix: they drink what is free.",
            granules = words
        )),
    }
}

fn sum(add: &[&Add]) -> f64 {
    add.iter().map(|addition| addition.grams).sum()
}

/// "26 g of soy granules and 0.12 g (a small pinch) of methylcellulose": what no spoon measures is told as a pinch.
fn list(add: &[&Add]) -> String {
    let of = |addition: &&Add| {
        let (name, grams) = (within(&addition.name), grams(addition.grams));
        match addition.by_spoon().filter(|_| addition.spoons.is_none()) {
            Some(pinch) => say!("{grams} ({pinch}) of {name}", grams, pinch, name),
            None => say!("{grams} of {name}", grams, name),
        }
    };
    joined(&add.iter().map(of).collect::<Vec<_>>())
}

/// "soybeans and wheat".
pub(super) fn joined(names: &[String]) -> String {
    names.join(&format!(" {} ", say("and")))
}

/// So much of what may be several ingredients: all of each, or a part named by the first.
fn part_of(add: &[&Add], part: f64) -> String {
    match add {
        [first, ..] if part < 0.999 * sum(add) => {
            say!("{grams} of {name}", grams = grams(part), name = within(&first.name))
        }
        all => list(all),
    }
}
