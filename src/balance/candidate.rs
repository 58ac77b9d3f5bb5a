//! What may go into the bowl: single ingredients, or more of the mix itself.

use super::bowl::Bowl;
use super::gelling::{Moment, helps};
use super::rescue::Add;
use super::symptom::{Remedy, Wish};
use crate::formula::{Component, Profile, Reading};
use crate::pantry::Role;

/// Water that one gram of binder is whisked into, g; common practice, no source.
pub(super) const WATER_TO_CARRY: f64 = 6.0;
/// Oil that one gram of binder is shaken into, g; common practice, no source.
pub(super) const OIL_TO_CARRY: f64 = 2.0;
/// The oil a binder is shaken into: liquid when cold.
pub(super) const OIL: &str = "canola_oil";
/// What is poured into a bowl is plain water.
const WATER: &str = "water";
/// A line with this part of salt or more is salted food, such as soy sauce or a paste, g/g
/// (common practice, no source).
const SALTED: f64 = 0.05;
/// What a gram of oil costs as a carrier against a gram of water: more than three, so that water carries the binder where it may;
/// a weight of the search, no figure of the trade.
const OIL_COST: f64 = 4.0;
/// Beside more of the mix itself, a single ingredient costs so many times as much:
/// a mix that has to grow keeps its proportions unless a window forces otherwise.
const OUT_OF_PROPORTION: f64 = 3.0;
/// Additions below this part of the mix are rounding.
pub(super) const NOTHING: f64 = 1e-6;

/// Something that may go in.
pub(super) struct Candidate {
    parts: Vec<Part>,
    /// What one gram of it is.
    pub profile: Profile,
    /// What a gram of it costs against a gram of anything else.
    pub cost: f64,
}

/// One ingredient of it.
struct Part {
    ingredient: String,
    name: String,
    role: Role,
    /// Its share, g/g.
    share: f64,
}

impl Candidate {
    /// Binder that one gram of it could still carry, g; below zero where it brings binder of its own.
    pub fn carries(&self) -> f64 {
        let by_part = self.parts.iter().map(|part| {
            part.share
                * match part.role {
                    Role::Binder => -1.0,
                    Role::Liquid => 1.0 / WATER_TO_CARRY,
                    Role::Fat if part.ingredient == OIL => 1.0 / OIL_TO_CARRY,
                    _ => 0.0,
                }
        });
        by_part.sum()
    }
}

impl Bowl<'_> {
    /// What may go in: for each role, more of what the formula already has, else the plainest thing;
    /// and for a mix that has to grow, more of itself from the roles of `stretch`.
    pub fn candidates(&self, remedy: &Remedy, may_add: &[Role], stretch: &[Role]) -> Vec<Candidate> {
        let whole = self.more_of_itself(stretch, remedy.moment);
        let dear = if whole.is_some() { OUT_OF_PROPORTION } else { 1.0 };
        let single = |role: &Role| self.single(*role, remedy.moment, dear);
        let mut candidates: Vec<Candidate> = whole.into_iter().chain(may_add.iter().filter_map(single)).collect();
        // Where water may not carry the binder, oil can.
        let binder = may_add.contains(&Role::Binder);
        let greasy = remedy.wishes.contains(&Wish::Lower(Reading::Fat));
        if binder && !greasy && !may_add.contains(&Role::Fat) {
            candidates.extend(self.single(Role::Fat, remedy.moment, OIL_COST * dear));
        }
        candidates
    }

    fn single(&self, role: Role, moment: Moment, cost: f64) -> Option<Candidate> {
        let plainest = match role {
            Role::Binder => "methylcellulose",
            Role::Liquid => WATER,
            Role::Powder => "pea_protein_isolate",
            Role::Textured => "tvp_soy_granules",
            Role::Fat => OIL,
            Role::Seasoning | Role::Colour | Role::Filler => return None,
        };
        // Water and oil carry the binder, so they are always themselves; the rest is more of what is there.
        let own = self
            .mix
            .known()
            .filter(|(line, _)| line.role == role && !matches!(role, Role::Liquid | Role::Fat))
            .filter_map(|(line, grams)| Some((line.ingredient.as_deref()?, grams.value)))
            .filter(|(id, _)| role != Role::Binder || helps(self.listed_id(id), moment))
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(id, _)| id);
        let (part, profile) = self.part(own.unwrap_or(plainest), role, 1.0)?;
        Some(Candidate {
            parts: vec![part],
            profile,
            cost,
        })
    }

    /// The mix in its own proportions, as far as its lines do one of these roles and bring no salt; its liquids as plain water.
    fn more_of_itself(&self, roles: &[Role], moment: Moment) -> Option<Candidate> {
        let lines: Vec<(&str, Role, f64)> = self
            .mix
            .known()
            .filter(|(line, _)| roles.contains(&line.role) && line.profile.component(Component::Salt).known < SALTED)
            .filter_map(|(line, grams)| Some((line.ingredient.as_deref()?, line.role, grams.value)))
            .filter(|(id, role, _)| *role != Role::Binder || helps(self.listed_id(id), moment))
            .map(|(id, role, grams)| (if role == Role::Liquid { WATER } else { id }, role, grams))
            .collect();
        let total: f64 = lines.iter().map(|(.., grams)| grams).sum();
        let parts: Vec<(Part, Profile)> = lines
            .into_iter()
            .filter_map(|(id, role, grams)| self.part(id, role, grams / total))
            .collect();
        (total > 0.0).then(|| Candidate {
            profile: Profile::mix(parts.iter().map(|(part, profile)| (*profile, part.share))),
            parts: parts.into_iter().map(|(part, _)| part).collect(),
            cost: 1.0,
        })
    }

    fn part(&self, id: &str, role: Role, share: f64) -> Option<(Part, Profile)> {
        let ingredient = self.kitchen.pantry.get(id)?;
        let part = Part {
            ingredient: ingredient.id().to_owned(),
            name: ingredient.name().to_owned(),
            role,
            share,
        };
        Some((part, Profile::of(&ingredient, role)))
    }

    /// The published row an ingredient is like; its own id where there is none.
    fn listed_id<'b>(&self, id: &'b str) -> &'b str {
        let row = self.kitchen.pantry.get(id).and_then(|found| found.row());
        row.map_or(id, |row| row.id)
    }

    /// What goes in when so many grams of each candidate do, ingredient by ingredient.
    pub fn additions(&self, candidates: &[Candidate], grams: &[f64]) -> Vec<Add> {
        let mut adds: Vec<Add> = Vec::new();
        let least = NOTHING * self.mix.total.value;
        for (candidate, grams) in candidates.iter().zip(grams).filter(|(_, grams)| **grams > least) {
            for part in &candidate.parts {
                let grams = grams * part.share;
                let same = |add: &&mut Add| add.ingredient == part.ingredient && add.role == part.role;
                match adds.iter_mut().find(same) {
                    Some(add) => add.grams += grams,
                    None => adds.push(Add {
                        ingredient: part.ingredient.clone(),
                        name: part.name.clone(),
                        role: part.role,
                        grams,
                        spoons: None,
                    }),
                }
            }
        }
        adds.retain(|add| add.grams > least);
        for add in &mut adds {
            add.spoons = self.spoons(&add.ingredient, add.grams);
        }
        adds
    }
}
