//! The pantry, the formula and the gauges in German.

use pattywright::document::Document;
use pattywright::formula::evidence::Property;
use pattywright::formula::{Base, Batch, Formula, Line, Reading, Stage, Style, Value, Weighed, Window};
use pattywright::measure::{Cup, Degrees, Estimate, Habits, Length, Unit};
use pattywright::pantry::{Entry, Index, Ingredient, Panel, Pantry, Role, Source};
use pattywright::words::{Language, speak, texts, within};
use std::collections::BTreeSet;

fn pantry() -> Pantry<'static> {
    Pantry::new(&[], Cup::Us)
}

/// Every ingredient of the pantry.
fn all() -> Vec<Ingredient<'static>> {
    pantry().all().collect()
}

fn weighed(lines: &[(&str, &str)]) -> Weighed {
    let line = |(id, amount): &(&str, &str)| Line {
        ingredient: Some((*id).to_owned()),
        amount: (*amount).to_owned(),
        ..Line::default()
    };
    let formula = Formula {
        lines: lines.iter().map(line).collect(),
        ..Formula::default()
    };
    Document::default().kitchen().weigh(&formula)
}

#[track_caller]
fn check_german(said: &str) {
    for word in [
        " the ", " of ", " and ", " is ", "Type ", " with ", " to ", " from ", "source", "about ",
    ] {
        let said = format!(" {said} ");
        assert!(!said.contains(word), "{said:?} holds {word:?}");
    }
}

#[test]
fn every_text_of_the_data_is_in_the_tables() {
    let known: BTreeSet<&str> = texts().map(|(english, _)| english).collect();
    let windows = Style::ALL
        .iter()
        .flat_map(|style| Reading::ALL.iter().filter_map(|reading| Window::of(*style, *reading)));
    let mut said: BTreeSet<&str> = windows.map(|window| window.source).collect();
    for row in all().iter().filter_map(Ingredient::row) {
        said.insert(row.kitchen_name);
        said.extend(row.allergens);
        said.extend(row.cuts());
        let starting = row.starting_density.as_ref();
        said.extend(
            starting
                .into_iter()
                .flat_map(|starting| [starting.provenance, starting.note]),
        );
    }
    said.remove("");
    let missing: Vec<_> = said.difference(&known).collect();
    assert!(said.len() > 150, "the texts were not found: {}", said.len());
    assert!(missing.is_empty(), "not in src/words/*.csv: {missing:#?}");
}

#[test]
fn names_are_those_of_the_language_spoken() {
    let name = |id: &str| pantry().get(id).unwrap().name();
    assert_eq!((name("table_salt"), name("canola_oil")), ("Salt", "Rapeseed oil"));
    speak(Language::American);
    assert_eq!((name("table_salt"), name("canola_oil")), ("Salt", "Canola oil"));
    speak(Language::German);
    assert_eq!((name("table_salt"), name("canola_oil")), ("Salz", "Rapsöl"));
}

#[test]
fn german_names_are_found_whichever_language_is_spoken() {
    let english: Vec<(String, String)> = all()
        .iter()
        .map(|found| (found.id().to_owned(), found.name().to_owned()))
        .collect();
    speak(Language::German);
    let german = all()
        .into_iter()
        .map(|found| (found.id().to_owned(), found.name().to_owned()));
    let names: Vec<_> = english.into_iter().chain(german).collect();
    let pantry = pantry();
    for language in Language::ALL {
        speak(language);
        let index = Index::of(&pantry);
        let check = |typed: &str, id: &str| {
            let found = index.find(typed, 1).first().map(|found| found.ingredient.id());
            assert_eq!(found, Some(id), "{typed} in {language:?}");
        };
        for (typed, id) in [
            ("Sojagranulat", "tvp_soy_granules"),
            ("Soja Granulat", "tvp_soy_granules"),
            ("Sojaschnetzel", "tvp_soy_granules"),
            ("Zwiebelpulver", "onion_powder"),
            ("Rapsöl", "canola_oil"),
            ("Öl", "canola_oil"),
            ("Kokosfett", "coconut_oil"),
            ("Salz", "table_salt"),
            ("Zucker", "sugar"),
            ("kaltes Wasser", "water"),
            ("Knoblauch", "garlic_raw"),
            ("Zwiebeln", "onion_raw"),
            ("Flohsamenschalen", "psyllium_husk"),
            ("Speisestärke", "corn_starch"),
            ("Methylzellulose", "methylcellulose"),
            ("Brötchen", "burger_bun"),
        ] {
            check(typed, id);
        }
        for (id, name) in &names {
            check(name, id);
        }
    }
}

#[test]
fn german_pieces_weigh_as_their_english_counterparts() {
    for language in [Language::British, Language::German] {
        speak(language);
        for (id, german, english) in [
            ("garlic_raw", "2 Zehen", "2 cloves"),
            ("garlic_raw", "2 Zehen Knoblauch", "2 cloves garlic"),
            ("garlic_raw", "eine Knoblauchzehe", "1 garlic clove"),
            ("burger_bun", "1 Brötchen", "1 bun"),
            ("sesame_burger_bun", "2 Burgerbrötchen", "2 burger buns"),
            ("onion_raw", "1 Zwiebel", "1 onion"),
            ("onion_raw", "2 kleine Zwiebeln", "2 small onions"),
            ("onion_raw", "1 mittelgroße Zwiebel", "1 medium onion"),
            ("tomato_raw", "3 Scheiben", "3 slices"),
            ("lettuce_iceberg", "2 große Blätter", "2 large leaves"),
            ("dill_pickle", "1 halbe Gurke", "half a pickle"),
        ] {
            let found = pantry().get(id).unwrap();
            let grams = |typed: &str| pantry().amount(&found, typed, None, &Habits::default()).unwrap().grams;
            assert_eq!(grams(german), grams(english), "{german}");
        }
    }
}

#[test]
fn readings_and_problems_of_a_formula_are_german() {
    speak(Language::German);
    let lines = [
        ("tvp_soy_granules", "1 Tasse"),
        ("pea_protein_isolate", "40 g"),
        ("methylcellulose", "1 EL"),
        ("table_salt", "1 TL"),
        ("water", "250 ml"),
        ("coconut_oil", "60 g"),
        ("onion_raw", "1 Zwiebel"),
    ];
    let mix = weighed(&lines);
    assert!(mix.complete(), "{:?}", mix.missing());
    assert_eq!(mix.lines[0].name, "Sojagranulat");
    let density = &mix.lines[2].amount.as_ref().unwrap().source;
    assert_eq!(
        density.to_string(),
        "Startwert von 0,3–0,6 g/ml, aus dem Gedächtnis. Wiege dein eigenes \
         (ein gestrichener EL 4,5–9 g, je nach Sorte und Schüttung: zuallererst wiegen)"
    );
    assert_eq!(
        Batch::Factor { factor: 0.0 }.scale(&mix).unwrap_err().to_string(),
        "Gib eine Zahl über 0 ein: Faktor"
    );

    let short = weighed(&[
        ("tvp_soy_granules", "100 g"),
        ("water", "etwas"),
        ("table_salt", "3 Zehen"),
    ]);
    let Value::Unknown(why) = Reading::Moisture.of(&short).value else {
        panic!("a line without grams gives no reading");
    };
    assert_eq!(why, "Zuerst wiegen: Wasser, Salz");
    let problem = Batch::Total { grams: 500.0 }.scale(&short).unwrap_err().to_string();
    assert_eq!(
        problem,
        "Wiege zuerst diese Zeilen, dann lässt sich umrechnen: Wasser, Salz"
    );

    let mut said = vec![why, problem];
    said.extend(
        short
            .lines
            .iter()
            .filter_map(|line| Some(line.amount.as_ref().err()?.to_string())),
    );
    for reading in Reading::ALL {
        said.extend([reading.name(), reading.meaning()].map(str::to_owned));
        said.extend(Value::estimate(&reading.of(&mix).value).map(|e| Degrees::Celsius.text(e.value)));
    }
    said.extend(
        Role::ALL
            .iter()
            .flat_map(|role| [role.name(), role.short_name()])
            .map(str::to_owned),
    );
    said.extend(Style::ALL.iter().map(|style| style.name().to_owned()));
    said.extend(Base::ALL.iter().map(|base| base.name().to_owned()));
    said.extend(
        Stage::ALL
            .iter()
            .flat_map(|stage| [stage.name(), stage.says()])
            .map(str::to_owned),
    );
    said.extend(Property::MEASURED.iter().map(|property| property.name().to_owned()));
    said.iter().for_each(|said| check_german(said));
    assert_eq!(within(Reading::SolidFatShare.name()), "Festes Fett");
}

#[test]
fn sources_of_every_ingredient_are_german_beside_the_titles() {
    speak(Language::German);
    let titles = [
        "USDA National Nutrient Database for Standard Reference, release 28 (2016)",
        "USDA Food and Nutrient Database for Dietary Studies 2021–2023",
        "Anses, Ciqual food composition table 2020",
    ];
    for found in all() {
        check_german(found.name());
        let density = pantry().density(&found, Unit::Cup, None);
        let (row, name) = found.row().map_or(("", ""), |row| (row.row_name, row.name));
        let starting = density
            .map(|density| density.source)
            .filter(|source| matches!(source, Source::Starting(_)));
        for said in [
            Some(found.composition_source()),
            starting.map(|source| source.to_string()),
        ] {
            let mut said = said.unwrap_or_default();
            for title in titles.into_iter().chain([row, name]).filter(|title| !title.is_empty()) {
                said = said.replace(title, "");
            }
            check_german(&said);
        }
    }
    let salt = pantry().get("table_salt").unwrap();
    assert_eq!(
        pantry()
            .amount(&salt, "1 TL", None, &Habits::default())
            .unwrap()
            .source
            .to_string(),
        "USDA National Nutrient Database for Standard Reference, release 28 (2016), Nr. 02047: 1 tsp = 6 g"
    );
}

#[test]
fn own_entries_are_refused_in_german() {
    speak(Language::German);
    let entry = |name: &str, panel: Panel| Entry {
        id: "eigenes".into(),
        name: name.into(),
        panel: Some(panel),
        ..Entry::default()
    };
    let refused = |entry: Entry| entry.check(Cup::Us).unwrap_err().to_string();
    let panel = Panel {
        serving_g: 100.0,
        fibre_g: Some(120.0),
        ..Panel::default()
    };
    assert_eq!(
        refused(entry("Mein Pulver", panel.clone())),
        "Prüfe die Angabe für Ballaststoffe: mindestens 0 und höchstens so viel wie die Portion"
    );
    assert_eq!(refused(entry("", panel.clone())), "Gib einen Namen ein");
    let full = Panel {
        protein_g: Some(80.0),
        fat_g: Some(60.5),
        fibre_g: None,
        ..panel.clone()
    };
    let serving = Panel {
        serving_g: 0.0,
        ..panel
    };
    check_german(&refused(entry("Mein Pulver", full)));
    check_german(&refused(entry("Mein Pulver", serving)));
}

#[test]
fn lengths_written_in_german_read_back() {
    speak(Language::German);
    assert_eq!(Length::Inches.text(Estimate::new(101.6, 0.3)), "4,00 ± 0,01 Zoll");
    assert_eq!(Length::Millimetres.read("4,5 Zoll"), Some(114.3));
    assert_eq!(Length::Inches.read("10 Millimeter"), Some(10.0));
    assert_eq!(Degrees::Celsius.name(), "Grad Celsius");
}
