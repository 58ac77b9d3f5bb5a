//! What one gram of a line is: its make-up by component and by role.
//!
//! A line may be another formula; then its profile is the weighted mean of that formula's lines, so readings look right through it.

use crate::pantry::{Ingredient, Nutrient, Nutrients, Role};

/// What food is made of, as readings and heat count it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Component {
    /// Water.
    Water,
    /// Protein.
    Protein,
    /// Fat.
    Fat,
    /// Carbohydrate without fibre.
    Carbohydrate,
    /// Fibre.
    Fibre,
    /// Ash.
    Ash,
    /// Salt: sodium × 2.5.
    Salt,
}

/// A share of one gram, of which a part may be unknown.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Part {
    /// What is known to be there, g/g.
    pub known: f64,
    /// How much more there may be, g/g: the shares of lines nobody has a figure for.
    pub unknown: f64,
}

impl Part {
    fn of(value: Option<f64>) -> Part {
        match value {
            Some(per_100) => Part {
                known: per_100 / 100.0,
                unknown: 0.0,
            },
            None => Part {
                known: 0.0,
                unknown: 1.0,
            },
        }
    }

    /// A part that is wholly known.
    pub fn exactly(known: f64) -> Part {
        Part { known, unknown: 0.0 }
    }

    /// Adds `weight` times another part.
    pub(super) fn add(&mut self, other: Part, weight: f64) {
        self.known += other.known * weight;
        self.unknown += other.unknown * weight;
    }
}

/// Textured protein wetter than this has been soaked, g/g: the driest soaked and the wettest dry product lie far apart.
const SOAKED: f64 = 0.2;
/// Water in dry textured protein, g/g: the mean of fourteen commercial products, which lie between 0.026 and 0.084.
///
/// # Source
/// Food Engineering Progress 2020;24(4):299, table 2.
const DRY_MOISTURE: f64 = 0.066;

/// What one gram of a line is.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Profile {
    components: [Part; 7],
    roles: [f64; 8],
    liquid_water: Part,
    solid_fat: f64,
}

impl Profile {
    /// The profile of an ingredient doing `role`.
    ///
    /// Textured protein bought or weighed soaked counts as the dry product and the water it was soaked in.
    pub fn of(ingredient: &Ingredient, role: Role) -> Profile {
        Profile::from_nutrients(
            &ingredient.nutrients(),
            role,
            role == Role::Fat && ingredient.solid_when_cold(),
        )
    }

    fn from_nutrients(nutrients: &Nutrients, role: Role, solid_fat: bool) -> Profile {
        let part = |nutrient| Part::of(nutrients.get(nutrient));
        let water = part(Nutrient::Water);
        let mut roles = [0.0; 8];
        roles[role.index()] = 1.0;
        let mut liquid_water = if role == Role::Liquid { water } else { Part::default() };
        if role == Role::Textured && water.known > SOAKED {
            let dry = (1.0 - water.known) / (1.0 - DRY_MOISTURE);
            roles[Role::Textured.index()] = dry;
            roles[Role::Liquid.index()] = 1.0 - dry;
            liquid_water = Part::exactly(1.0 - dry);
        }
        Profile {
            components: [
                water,
                part(Nutrient::Protein),
                part(Nutrient::Fat),
                part(Nutrient::CarbohydrateAvailable),
                part(Nutrient::Fibre),
                part(Nutrient::Ash),
                Part::of(nutrients.salt()),
            ],
            roles,
            liquid_water,
            solid_fat: f64::from(u8::from(solid_fat)),
        }
    }

    /// The weighted mean of parts that make up one gram; weights are shares of it.
    pub fn mix(parts: impl IntoIterator<Item = (Profile, f64)>) -> Profile {
        let mut mixed = Profile::default();
        for (part, weight) in parts {
            for (sum, component) in mixed.components.iter_mut().zip(part.components) {
                sum.add(component, weight);
            }
            for (sum, role) in mixed.roles.iter_mut().zip(part.roles) {
                *sum += role * weight;
            }
            mixed.liquid_water.add(part.liquid_water, weight);
            mixed.solid_fat += part.solid_fat * weight;
        }
        mixed
    }

    /// The share of a component, g/g.
    pub fn component(&self, component: Component) -> Part {
        self.components[component as usize]
    }

    /// The share that does a role, g/g.
    pub fn role(&self, role: Role) -> f64 {
        self.roles[role.index()]
    }

    /// Water brought by liquids, g/g.
    pub fn liquid_water(&self) -> Part {
        self.liquid_water
    }

    /// Fat that is hard in the fridge, g/g.
    pub fn solid_fat(&self) -> f64 {
        self.solid_fat
    }

    /// The role most of it does.
    pub fn main_role(&self) -> Role {
        Role::ALL
            .into_iter()
            .max_by(|a, b| self.role(*a).total_cmp(&self.role(*b)))
            .unwrap_or(Role::Filler)
    }
}
