//! The Pantry room: what an ingredient weighs, what it is made of, and where each number comes from.

use crate::formula::Kitchen;
use crate::measure::{Unit, fixed, trimmed};
use crate::pantry::{DensityFrom, Ingredient, Nutrient, PublishedMeasure};
use crate::words::say;

/// One ingredient's card.
#[derive(Clone, PartialEq, Debug)]
pub struct Card {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What it does.
    pub role: &'static str,
    /// `1 cup weighs 90 g ± 16 g`.
    pub cup: String,
    /// Where that comes from.
    pub density_source: String,
    /// True for a wide starting figure: weigh yours.
    pub starting: bool,
    /// True for the cook's own cup.
    pub calibrated: bool,
    /// Published household measures: `1 cup, coarse grain: 68 g`, with the source.
    pub measures: Vec<(String, String)>,
    /// Name and amount per 100 g; `not known` where a table is blank.
    pub composition: Vec<(&'static str, String)>,
    /// Where the composition comes from.
    pub composition_source: String,
    /// Allergens it brings by plain knowledge.
    pub allergens: String,
}

/// Works a card out.
pub fn card(kitchen: &Kitchen, ingredient: &Ingredient) -> Card {
    let density = kitchen.pantry.density(ingredient, Unit::Cup, None);
    let cup_ml = Unit::Cup.millilitres(kitchen.pantry.cup());
    let cup = density.as_ref().zip(cup_ml).map(|(density, millilitres)| {
        let weight = density.grams_per_millilitre * millilitres;
        let (value, spread) = crate::measure::with_spread(weight, weight * density.relative_sd);
        say!("A level cup weighs {value} ± {spread} g", value, spread)
    });
    let nutrients = ingredient.nutrients();
    let shown = [
        (say("Water"), Nutrient::Water, "g"),
        (say("Protein"), Nutrient::Protein, "g"),
        (say("Fat"), Nutrient::Fat, "g"),
        (say("of which saturated"), Nutrient::Saturated, "g"),
        (say("Carbohydrate, without fibre"), Nutrient::CarbohydrateAvailable, "g"),
        (say("Sugars"), Nutrient::Sugars, "g"),
        (say("Fibre"), Nutrient::Fibre, "g"),
        (say("Sodium"), Nutrient::Sodium, "mg"),
        (say("Energy"), Nutrient::EnergyKcal, "kcal"),
    ];
    let row = ingredient.row();
    Card {
        id: ingredient.id().to_owned(),
        name: ingredient.name().to_owned(),
        role: ingredient.role().name(),
        cup: cup.unwrap_or_else(|| say("Nobody has said what a cup weighs: weigh it").into()),
        density_source: density.as_ref().map_or(String::new(), |d| d.source.to_string()),
        starting: density.as_ref().is_some_and(|d| d.from == DensityFrom::Starting),
        calibrated: density.as_ref().is_some_and(|d| d.from == DensityFrom::Calibration),
        measures: row.map_or(Vec::new(), |row| row.measures.iter().map(measure).collect()),
        composition: shown
            .into_iter()
            .map(|(name, nutrient, unit)| {
                let value = nutrients.get(nutrient);
                (
                    name,
                    value.map_or(say("not known").into(), |v| {
                        format!("{} {unit}", fixed(v, u8::from(v < 99.95)))
                    }),
                )
            })
            .collect(),
        composition_source: ingredient.composition_source(),
        allergens: row.map_or(String::new(), |row| {
            row.allergens
                .iter()
                .map(|allergen| say(allergen).replace('_', " "))
                .collect::<Vec<_>>()
                .join(", ")
        }),
    }
}

fn measure(measure: &PublishedMeasure) -> (String, String) {
    let text = format!(
        "{} {}: {} g",
        trimmed(measure.quantity, 4),
        measure.in_words(),
        trimmed(measure.grams, 4)
    );
    (text, measure.source())
}
