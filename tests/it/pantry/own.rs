//! The cook's own packs and cups, and measures turned into others, with how sure each is.

use pattywright::measure::{Cup, Habits, Unit};
use pattywright::pantry::{
    Calibration, Entry, EntryProblem, GramsFrom, Nutrient, Panel, Pantry, Role, Scoop, listed, search,
};

const HABITS: fn() -> Habits = Habits::default;

/// 100 g of lentil flakes as a pack might print it: invented.
fn pack() -> Panel {
    Panel {
        serving_g: 50.0,
        fat_g: Some(1.0),
        carbohydrate_g: Some(20.0),
        fibre_g: Some(6.0),
        protein_g: Some(13.0),
        sodium_mg: Some(10.0),
        ..Panel::default()
    }
}

/// Source: Regulation (EU) 1169/2011, Annex I: carbohydrate is what is metabolised, so fibre stands apart from it.
#[test]
fn fibre_stands_beside_carbohydrate_or_within_it() {
    let beside = pack().per_100_g();
    assert_eq!(beside.get(Nutrient::CarbohydrateTotal), Some(52.0));
    assert_eq!(beside.get(Nutrient::CarbohydrateAvailable), Some(40.0));
    assert_eq!(beside.get(Nutrient::Water), Some(20.0));
    let within = Panel {
        carbohydrate_with_fibre: true,
        ..pack()
    }
    .per_100_g();
    assert_eq!(within.get(Nutrient::CarbohydrateTotal), Some(40.0));
    assert_eq!(within.get(Nutrient::CarbohydrateAvailable), Some(28.0));
    assert_eq!(within.get(Nutrient::Water), Some(32.0));
}

#[track_caller]
fn check_pack(panel: Panel, problem: Option<EntryProblem>) {
    let entry = Entry {
        id: "flakes".into(),
        name: "Flakes".into(),
        panel: Some(panel),
        ..Entry::default()
    };
    assert_eq!(entry.check(Cup::Us).err(), problem);
}

/// Sodium is printed in milligrams, all else in grams.
#[test]
fn a_figure_is_held_to_its_serving() {
    check_pack(pack(), None);
    check_pack(
        Panel {
            sodium_mg: Some(20_000.0),
            ..pack()
        },
        None,
    );
    // All fat, and printed to half a gram more than it can be.
    let oil = |fat_g| Panel {
        serving_g: 50.0,
        fat_g: Some(fat_g),
        ..Panel::default()
    };
    check_pack(oil(50.2), None);
    check_pack(oil(50.5), Some(EntryProblem::Figure { name: "fat" }));
    let sodium = EntryProblem::Figure { name: "sodium" };
    check_pack(
        Panel {
            sodium_mg: Some(60_000.0),
            ..pack()
        },
        Some(sodium),
    );
    let full = EntryProblem::TooFull { per_100_g: 120.0 };
    check_pack(
        Panel {
            protein_g: Some(33.0),
            ..pack()
        },
        Some(full),
    );
}

/// Ten cups weighed at once are surer than one, by the root of ten; what is left is the refill (3 %, common practice, no source).
#[test]
fn the_more_cups_are_weighed_the_surer_each_is() {
    let spread = |count: f64| {
        let weighed = Entry {
            id: "flakes".into(),
            name: "Flakes".into(),
            calibrations: vec![Calibration {
                count,
                measure: Scoop::Cup,
                cup: Cup::Us,
                grams: 96.0 * count,
                date: "2026-11-26".into(),
            }],
            ..Entry::default()
        };
        let entries = [weighed];
        let pantry = Pantry::new(&entries, Cup::Us);
        let density = pantry.density(&pantry.get("flakes").unwrap(), Unit::Cup, None);
        density.unwrap().relative_sd
    };
    assert_eq!(spread(1.0), 0.03);
    assert!((spread(10.0) - 0.03 / 10f64.sqrt()).abs() < 1e-12);
}

/// Source: USDA Standard Reference 28, 19334, brown sugar: a cup is 220 g packed and 145 g unpacked.
#[test]
fn a_packed_cup_is_weighed_as_packed() {
    let pantry = Pantry::new(&[], Cup::Us);
    let sugar = pantry.get("brown_sugar").unwrap();
    let grams = |typed| pantry.amount(&sugar, typed, None, &HABITS()).unwrap().grams.value;
    assert!(
        (grams("1 packed cup") - 220.0).abs() < 0.01,
        "{}",
        grams("1 packed cup")
    );
    let unpacked = pantry.amount(&sugar, "1 cup", Some("unpacked"), &HABITS()).unwrap();
    assert!((unpacked.grams.value - 145.0).abs() < 0.01);
}

/// A spoon of a spoon's spread stays one: 16 tablespoons are a cup (NIST Handbook 44, Appendix C).
#[test]
fn what_is_turned_into_another_measure_is_no_surer_than_it_was() {
    let pantry = Pantry::new(&[], Cup::Us);
    let salt = pantry.get("table_salt").unwrap();
    let turned = |typed, unit| pantry.convert(&salt, typed, None, unit, &HABITS()).unwrap().value;
    let (cup, spoons) = (turned("1 cup", Unit::Cup), turned("1 cup", Unit::Tablespoon));
    assert!((cup.value - 1.0).abs() < 1e-9 && (spoons.value - 16.0).abs() < 1e-9);
    assert!((cup.sd - HABITS().cup).abs() < 1e-12, "{}", cup.sd);
    assert!((spoons.sd - 16.0 * cup.sd).abs() < 1e-12, "{}", spoons.sd);
    // On a scale of whole grams 6 g are ± 0.29 g (1/√12), 4.8 %; a spoon of them is less sure than that by the density's spread.
    let density = pantry.density(&salt, Unit::Teaspoon, None).unwrap();
    let spoon = turned("6 g", Unit::Teaspoon);
    let scale = 1.0 / 12f64.sqrt() / 6.0;
    let sd = spoon.value * (scale.powi(2) + density.relative_sd.powi(2)).sqrt();
    assert!(
        (spoon.value - 1.0).abs() < 1e-9 && (spoon.sd - sd).abs() < 1e-9,
        "{spoon:?}"
    );
}

/// Source: NIST Handbook 44, Appendix C: an avoirdupois ounce is 28.349 523 125 g.
#[test]
fn grams_turn_into_ounces_and_spoons_into_grams() {
    let pantry = Pantry::new(&[], Cup::Us);
    let salt = pantry.get("table_salt").unwrap();
    let turned = |typed, unit| pantry.convert(&salt, typed, None, unit, &HABITS()).unwrap().value;
    let ounces = turned("100 g", Unit::Ounce);
    assert!((ounces.value - 100.0 / 28.349_523_125).abs() < 1e-9, "{ounces:?}");
    assert!((turned("1 tsp", Unit::Gram).value - 6.0).abs() < 1e-9);
}

/// Two onions of 110 g (USDA Standard Reference 28, 11282) differ each by 15 %, and “about” adds a tenth of both (common
/// practice, no source).
#[test]
fn pieces_differ_each_on_its_own() {
    let pantry = Pantry::new(&[], Cup::Us);
    let onion = pantry.get("onion_raw").unwrap();
    let grams = |typed| pantry.amount(&onion, typed, None, &HABITS()).unwrap().grams;
    let two = grams("2 onions");
    assert!((two.sd - 0.15 * 110.0 * 2f64.sqrt()).abs() < 1e-9, "{two:?}");
    let about = grams("about 2 onions");
    assert!((about.sd - two.sd.hypot(0.1 * 220.0)).abs() < 1e-9, "{about:?}");
}

/// A printed 6.0 g stands for 5.95 to 6.05 g, a printed 68 g for 67.5 to 68.5 g: evenly spread, that is 1/√12 of a digit.
#[test]
fn a_table_is_no_surer_than_its_last_digit() {
    let pantry = Pantry::new(&[], Cup::Us);
    let sd = |id, unit| {
        pantry
            .density(&pantry.get(id).unwrap(), unit, None)
            .unwrap()
            .relative_sd
    };
    let garlic = sd("garlic_powder", Unit::Teaspoon);
    assert!(
        (garlic - 0.05f64.hypot(0.1 / 12f64.sqrt() / 3.1)).abs() < 1e-9,
        "{garlic}"
    );
    let sugar = sd("sugar", Unit::Cup);
    assert!(
        (sugar - 0.05f64.hypot(1.0 / 12f64.sqrt() / 200.0)).abs() < 1e-9,
        "{sugar}"
    );
}

/// The words that scripts find in reports and style sheets know.
#[test]
fn words_for_scripts_stay_what_they_are() {
    use GramsFrom::{Calibration, Entry, Formula, Starting, Table, Weight};
    let words = [Calibration, Table, Weight, Entry, Starting, Formula].map(GramsFrom::id);
    assert_eq!(
        words,
        ["calibration", "table", "weight", "entry", "starting", "formula"]
    );
    let short = Role::ALL.map(Role::short_name);
    let told = [
        "textured",
        "powder",
        "binder",
        "liquid",
        "fat",
        "seasoning",
        "colour",
        "filler",
    ];
    assert_eq!(short, told);
}

#[test]
fn a_source_is_told_for_what_it_is() {
    let pantry = Pantry::new(&[], Cup::Us);
    let source = |id| pantry.get(id).unwrap().composition_source();
    assert!(source("methylcellulose").starts_with("Starting figure, from memory"));
    assert_eq!(source("table_salt"), listed("table_salt").unwrap().source());
    assert_eq!(
        source("table_salt"),
        "USDA National Nutrient Database for Standard Reference, release 28 (2016), no. 02047, “Salt, table”"
    );
    let measure = &listed("brown_sugar").unwrap().measures[1];
    assert_eq!(measure.in_words(), "cup packed");
}

#[test]
fn a_plural_is_told_from_a_word_that_ends_in_s() {
    let pantry = Pantry::new(&[], Cup::Us);
    let first = |typed| {
        search(&pantry, typed, 1)
            .first()
            .map(|found| found.ingredient.id().to_owned())
    };
    assert_eq!(first("onions"), first("onion"));
    // Neither garlic nor butter.
    assert_eq!(first("gas"), None);
    assert_eq!(first("bus"), None);
}

/// “ice cold water” is water, for all of its name was said; “soy helicopter” is not some soy or other.
#[test]
fn words_beyond_a_name_pass_only_where_all_of_it_was_said() {
    let pantry = Pantry::new(&[], Cup::Us);
    assert!(search(&pantry, "soy helicopter", 3).is_empty());
}
