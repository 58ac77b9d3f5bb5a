//! Unit factors against published tables and a units library.

use pattywright::measure::unit::{MILLIMETRES_PER_INCH, celsius_to_fahrenheit, fahrenheit_to_celsius};
use pattywright::measure::{Cup, Degrees, Length as Ruler, Unit};
use uom::si::f64::{Length, Mass, ThermodynamicTemperature, Volume};
use uom::si::{length, mass, thermodynamic_temperature, volume};

/// Checks one unit of a cup in millilitres, to half of the last digit of `printed`.
#[track_caller]
fn check_ml(unit: Unit, cup: Cup, printed: &str) {
    check_printed(unit.millilitres(cup).unwrap(), printed);
}

/// Checks a value to half of the last digit of `printed`.
#[track_caller]
fn check_printed(value: f64, printed: &str) {
    let decimals = printed.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    assert_eq!(format!("{value:.decimals$}"), printed);
}

/// Source: NIST SP 430, Household Weights and Measures, Table 1, column "Milliliters".
#[test]
fn us_measures_match_the_household_table_of_nist_sp_430() {
    check_ml(Unit::Teaspoon, Cup::Us, "4.9");
    check_ml(Unit::Tablespoon, Cup::Us, "15");
    check_ml(Unit::FluidOunce, Cup::Us, "30");
    check_ml(Unit::Cup, Cup::Us, "237");
    check_ml(Unit::Pint, Cup::Us, "473");
    check_ml(Unit::Quart, Cup::Us, "946");
}

/// Source: NIST Handbook 44, Appendix C, Tables of Equivalents; the printed digits are from memory.
#[test]
fn us_measures_match_nist_handbook_44_appendix_c() {
    check_ml(Unit::Teaspoon, Cup::Us, "4.929");
    check_ml(Unit::Tablespoon, Cup::Us, "14.79");
    check_ml(Unit::FluidOunce, Cup::Us, "29.57353");
    check_ml(Unit::Cup, Cup::Us, "236.6");
    check_ml(Unit::Pint, Cup::Us, "473.176473");
    check_ml(Unit::Quart, Cup::Us, "946.352946");
    check_printed(Unit::Ounce.grams().unwrap(), "28.349523125");
    check_printed(Unit::Pound.grams().unwrap(), "453.59237");
}

/// Source: 21 CFR 101.9(b)(5)(viii): "a teaspoon means 5 milliliters (mL), a tablespoon means 15 mL, a cup means 240 mL, 1 fl oz means 30 mL".
///
/// DIFFERENCE: the same paragraph makes 1 oz 28 g for labels; here an ounce is always a sixteenth of a pound, as on a scale.
#[test]
fn label_measures_match_21_cfr_101_9() {
    check_ml(Unit::Teaspoon, Cup::Label, "5");
    check_ml(Unit::Tablespoon, Cup::Label, "15");
    check_ml(Unit::Cup, Cup::Label, "240");
    check_ml(Unit::FluidOunce, Cup::Label, "30");
}

/// Common practice, no source, apart from the imperial pint of 568.26125 ml (UK Weights and Measures Act 1985, Schedule 1; from memory).
#[test]
fn other_cups_hold_what_cooks_there_expect() {
    for (cup, cup_ml, tablespoon_ml, teaspoon_ml) in [
        (Cup::Metric, "250", "15", "5"),
        (Cup::Australian, "250", "20", "5"),
        (Cup::Imperial, "284.130625", "17.758164", "5.919388"),
    ] {
        check_ml(Unit::Cup, cup, cup_ml);
        check_ml(Unit::Tablespoon, cup, tablespoon_ml);
        check_ml(Unit::Teaspoon, cup, teaspoon_ml);
        check_ml(Unit::Pint, cup, "568.26125");
    }
}

#[test]
fn spoons_divide_their_cups_evenly() {
    let us = |unit: Unit| unit.millilitres(Cup::Us).unwrap();
    assert_eq!(us(Unit::Cup), 236.5882365);
    assert_eq!(us(Unit::Tablespoon) * 16.0, us(Unit::Cup));
    assert!((us(Unit::Teaspoon) * 48.0 - us(Unit::Cup)).abs() < 1e-12);
    for cup in Cup::ALL {
        let teaspoon_ml = Unit::Teaspoon.millilitres(cup).unwrap();
        assert_eq!(Unit::Pinch.millilitres(cup), Some(teaspoon_ml / 16.0));
        assert_eq!(Unit::Dash.millilitres(cup), Some(teaspoon_ml / 8.0));
    }
}

/// Source: the units library `uom`, whose factors are those of NIST SP 811 (2008), Appendix B.8, printed to seven digits.
#[test]
fn factors_match_a_units_library() {
    #[track_caller]
    fn near(ours: f64, theirs: f64) {
        assert!((ours / theirs - 1.0).abs() < 5e-7, "ours {ours}, theirs {theirs}");
    }
    let ml = |litres: Volume| litres.get::<volume::milliliter>();
    let us = |unit: Unit| unit.millilitres(Cup::Us).unwrap();
    near(us(Unit::Cup), ml(Volume::new::<volume::cup>(1.0)));
    near(us(Unit::Tablespoon), ml(Volume::new::<volume::tablespoon>(1.0)));
    near(us(Unit::Teaspoon), ml(Volume::new::<volume::teaspoon>(1.0)));
    near(us(Unit::FluidOunce), ml(Volume::new::<volume::fluid_ounce>(1.0)));
    near(us(Unit::Pint), ml(Volume::new::<volume::pint_liquid>(1.0)));
    near(us(Unit::Quart), ml(Volume::new::<volume::quart_liquid>(1.0)));
    near(us(Unit::Decilitre), ml(Volume::new::<volume::deciliter>(1.0)));
    near(us(Unit::Centilitre), ml(Volume::new::<volume::centiliter>(1.0)));
    near(us(Unit::Litre), ml(Volume::new::<volume::liter>(1.0)));
    near(
        Unit::FluidOunce.millilitres(Cup::Imperial).unwrap(),
        ml(Volume::new::<volume::fluid_ounce_imperial>(1.0)),
    );
    let gallon_ml = ml(Volume::new::<volume::gallon_imperial>(1.0));
    for cup in [Cup::Imperial, Cup::Metric, Cup::Australian] {
        near(Unit::Pint.millilitres(cup).unwrap(), gallon_ml / 8.0);
        near(Unit::Quart.millilitres(cup).unwrap(), gallon_ml / 4.0);
        near(Unit::FluidOunce.millilitres(cup).unwrap(), gallon_ml / 160.0);
    }
    near(
        Unit::Cup.millilitres(Cup::Imperial).unwrap(),
        2.0 * ml(Volume::new::<volume::gill_imperial>(1.0)),
    );
    let grams = |mass: Mass| mass.get::<mass::gram>();
    near(Unit::Pound.grams().unwrap(), grams(Mass::new::<mass::pound>(1.0)));
    near(Unit::Ounce.grams().unwrap(), grams(Mass::new::<mass::ounce>(1.0)));
    near(Unit::Kilogram.grams().unwrap(), grams(Mass::new::<mass::kilogram>(1.0)));
    near(
        Unit::Milligram.grams().unwrap(),
        grams(Mass::new::<mass::milligram>(1.0)),
    );
    near(
        MILLIMETRES_PER_INCH,
        Length::new::<length::inch>(1.0).get::<length::millimeter>(),
    );
    for temperature_f in [-40.0, 32.0, 41.0, 135.0, 165.0, 212.0] {
        let theirs = ThermodynamicTemperature::new::<thermodynamic_temperature::degree_fahrenheit>(temperature_f);
        let theirs_c = theirs.get::<thermodynamic_temperature::degree_celsius>();
        let ours_c = fahrenheit_to_celsius(temperature_f);
        assert!((ours_c - theirs_c).abs() < 1e-9, "{temperature_f} °F");
        assert!((celsius_to_fahrenheit(ours_c) - temperature_f).abs() < 1e-9);
    }
}

#[test]
fn every_unit_is_either_a_weight_or_a_volume_and_reads_its_own_symbol() {
    for unit in Unit::ALL {
        assert_eq!(Unit::read(unit.symbol()), Some(unit));
        for cup in Cup::ALL {
            assert!(unit.grams().is_some() != unit.millilitres(cup).is_some(), "{unit:?}");
        }
    }
}

#[test]
fn cups_are_saved_under_their_ids() {
    for cup in Cup::ALL {
        let saved = serde_json::to_string(&cup).unwrap();
        assert_eq!(saved, format!("\"{}\"", cup.id()));
        assert_eq!(serde_json::from_str::<Cup>(&saved).unwrap(), cup);
    }
}

#[test]
fn words_that_are_no_units_are_not_units() {
    for word in [
        "",
        "s",
        "clove",
        "tt",
        "TT",
        "gallon",
        "ss",
        "glass",
        "tablespoonfulsss",
    ] {
        assert_eq!(Unit::read(word), None, "{word}");
    }
}

/// Source: NIST SP 811, Appendix B: °C = (°F − 32)/1.8; an inch is 25.4 mm.
#[test]
fn gauges_read_the_unit_that_was_typed() {
    assert_eq!(Degrees::Celsius.read("212 °F"), Some(100.0));
    assert_eq!(Degrees::Fahrenheit.read("100 °C"), Some(100.0));
    assert_eq!(Degrees::Celsius.read("74"), Some(74.0));
    assert_eq!(Degrees::Fahrenheit.read("32"), Some(0.0));
    assert_eq!(Degrees::Celsius.read("74 CF"), None);
    assert_eq!(
        [Ruler::Millimetres, Ruler::Inches].map(Ruler::name),
        ["millimetres", "inches"]
    );
}
