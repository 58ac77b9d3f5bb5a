//! The advice as sentences, in the order of doing.

use super::bowl::WATER_TO_CARRY;
use super::gelling::water_for;
use super::rescue::{Add, Rescue, Status};
use super::symptom::Remedy;
use crate::formula::{Reading, ReadingValue};
use crate::measure::grams;
use crate::pantry::Role;

pub(super) fn steps(remedy: &Remedy, rescue: &Rescue) -> Vec<String> {
    let mut steps = vec![remedy.check_first.to_owned(), remedy.action.to_owned()];
    let outside = outside(&rescue.before);
    let add = if rescue.status == Status::NotNeeded {
        steps.push(if outside.is_empty() {
            "Every reading is in its window, so nothing needs adding yet.".into()
        } else {
            format!(
                "What usually causes this is in its window, so nothing needs adding yet. Off for another reason: {}.",
                outside.join(", ")
            )
        });
        if !rescue.if_that_fails.is_empty() {
            steps.push("If it still fails, add a small step:".into());
        }
        &rescue.if_that_fails
    } else {
        if !outside.is_empty() {
            steps.push(format!("Off now: {}.", outside.join(", ")));
        }
        &rescue.add
    };
    steps.extend(how_to_add(add));
    if !add.is_empty() {
        steps.push(format!(
            "Fold in, cover, and rest {} minutes in the fridge. Then try one patty.",
            remedy.rest_min
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
            let side = if now < window.low {
                "low"
            } else if now > window.high {
                "high"
            } else {
                return None;
            };
            Some(format!("{} ({side})", reading.name().to_lowercase()))
        })
        .collect()
}

/// How each addition goes in; the binder never dry into wet.
fn how_to_add(add: &[Add]) -> Vec<String> {
    let find = |role| add.iter().find(|addition| addition.role == role);
    let of = |addition: &Add| format!("{} of {}", grams(addition.grams), addition.name.to_lowercase());
    let mut how = Vec::new();
    let water = find(Role::Liquid);
    // Where granules are soaked too, the binder takes only the water that carries it.
    let for_binder = match (water, find(Role::Binder), find(Role::Textured)) {
        (Some(water), Some(binder), Some(_)) => water.grams.min(WATER_TO_CARRY * binder.grams),
        (Some(water), Some(_), None) => water.grams,
        _ => 0.0,
    };
    let for_granules = water.map_or(0.0, |water| water.grams - for_binder);
    if let Some(binder) = find(Role::Binder) {
        let by_water = water.filter(|water| water.grams >= 0.999 * WATER_TO_CARRY * binder.grams);
        how.extend(match (by_water, find(Role::Fat)) {
            (Some(_), _) => Some(format!(
                "Whisk {} into {} {}. Never dry into the bowl.",
                of(binder),
                grams(for_binder),
                water_for(&binder.ingredient)
            )),
            (None, Some(oil)) => Some(format!(
                "Shake {} into {} until no lump is left. Never dry into the bowl.",
                of(binder),
                of(oil)
            )),
            (None, None) => None,
        });
    }
    if let Some(granules) = find(Role::Textured) {
        how.push(match for_granules > granules.grams {
            true => format!(
                "Soak {} in {} of cold water for 20 minutes first.",
                of(granules),
                grams(for_granules)
            ),
            false if for_granules > 0.5 => format!(
                "Mix {} with {} of cold water, leave them 20 minutes, then fold both in.",
                of(granules),
                grams(for_granules)
            ),
            false => format!("Scatter {} over the mix: they drink what is free.", of(granules)),
        });
    }
    if let Some(powder) = find(Role::Powder) {
        how.push(format!("Sift {} over the mix.", of(powder)));
    }
    how
}
