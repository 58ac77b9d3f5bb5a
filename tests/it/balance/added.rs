//! How what is added goes in, and what the guests are told.

use super::{advise, advise_on, mix, plain, role_grams, seasoned};
use pattywright::balance::Symptom;
use pattywright::document::read;
use pattywright::pantry::Role;

/// The water named in the steps is the water of the list, no gram of it twice.
#[test]
fn no_water_is_named_twice() {
    let document = seasoned(9.0, 385.0, 60.0, 16.0);
    let rescued = advise(&document, Symptom::TooSalty);
    let named: f64 = rescued
        .steps
        .iter()
        .filter(|step| {
            step.contains("water") && (step.starts_with("Whisk") || step.starts_with("Soak") || step.starts_with("Mix"))
        })
        .map(|step| {
            let before = step
                .split(" g of ice-cold water")
                .next()
                .unwrap()
                .split(" g of cold water")
                .next()
                .unwrap();
            before.rsplit(' ').next().unwrap().parse::<f64>().unwrap()
        })
        .sum();
    let listed = role_grams(&rescued.add, Role::Liquid);
    assert!(
        listed > 0.0 && (named - listed).abs() < 1.5,
        "{named} named of {listed}: {:?}",
        rescued.steps
    );
}

#[test]
fn a_new_allergen_is_told() {
    // Everything here is of pea; the plainest granules are of soy.
    let wet = mix(&[
        ("pea_protein_isolate", 100.0),
        ("water", 400.0),
        ("methylcellulose", 8.0),
        ("coconut_oil", 50.0),
    ]);
    let rescued = advise(&wet, Symptom::StickyWet);
    assert!(role_grams(&rescued.add, Role::Textured) > 0.0, "{:?}", rescued.add);
    assert!(
        rescued.steps.iter().any(|step| step.contains("soybeans")),
        "{:?}",
        rescued.steps
    );
    let pea = advise(
        &mix(&[
            ("textured_pea_protein", 150.0),
            ("water", 520.0),
            ("methylcellulose", 11.0),
            ("coconut_oil", 60.0),
        ]),
        Symptom::StickyWet,
    );
    assert!(
        pea.steps.iter().all(|step| !step.contains("tell your guests")),
        "{:?}",
        pea.steps
    );
}
#[test]
fn an_allergen_in_a_formula_within_is_not_new() {
    // The plainest granules are of soy; the paste has soy already.
    let with_paste = |paste: &str| {
        let text = format!(
            r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","lines":[
            {{"ingredient":"pea_protein_isolate","amount":"100 g"}},{{"ingredient":"water","amount":"400 g"}},
            {{"ingredient":"methylcellulose","amount":"8 g"}},{{"ingredient":"coconut_oil","amount":"50 g"}},
            {{"formula":"paste","amount":"5 g"}}]}},
            {{"id":"paste","name":"Paste","lines":[{{"ingredient":"{paste}","amount":"5 g"}}]}}]}}"#
        );
        let rescued = advise(&read(&text).unwrap().document, Symptom::StickyWet);
        assert!(role_grams(&rescued.add, Role::Textured) > 0.0, "{:?}", rescued.add);
        rescued.steps.iter().any(|step| step.contains("soybeans"))
    };
    assert!(with_paste("faba_protein_isolate") && !with_paste("soy_protein_isolate"));
}

/// "Whisk 0.65 g of methylcellulose into 3.9 g of …": the grams named in a sentence, in order.
fn grams_in(step: &str) -> Vec<f64> {
    let words: Vec<&str> = step.split(' ').collect();
    let pairs = words.windows(2).filter(|pair| pair[1] == "g");
    pairs.filter_map(|pair| pair[0].parse().ok()).collect()
}

/// Six parts of water or two of oil to one of binder: common practice, no source.
#[test]
fn water_and_oil_carry_the_binder_between_them() {
    let rescued = advise(&plain(), Symptom::ThinOnesBreak);
    let binder = role_grams(&rescued.add, Role::Binder);
    let step = |verb: &str| {
        let found = rescued.steps.iter().find(|step| step.starts_with(verb));
        grams_in(found.unwrap())
    };
    let (whisked, shaken) = (step("Whisk"), step("Shake"));
    assert!(whisked[1] >= 5.9 * whisked[0], "{whisked:?}");
    assert!(shaken[1] >= 1.9 * shaken[0], "{shaken:?}");
    assert!(
        (whisked[0] + shaken[0] - binder).abs() < 0.02,
        "{binder}: {whisked:?} {shaken:?}"
    );
}

#[test]
fn every_addition_is_told_how_it_goes_in() {
    for document in [
        plain(),
        seasoned(9.0, 250.0, 60.0, 7.0),
        seasoned(9.0, 385.0, 60.0, 14.0),
    ] {
        for symptom in Symptom::ALL {
            let rescued = advise(&document, symptom);
            for add in rescued.add.iter().chain(&rescued.if_that_fails) {
                let name = add.name.to_lowercase();
                assert!(
                    rescued
                        .steps
                        .iter()
                        .any(|step| step.contains(&name) && step.contains(" g of ")),
                    "{symptom:?}, {name}: {:?}",
                    rescued.steps
                );
            }
        }
    }
}

/// 0.3 g or less that no level spoon measures is a pinch: common practice, no source.
#[test]
fn what_no_scale_shows_is_told_as_a_pinch() {
    let small = advise_on(&seasoned(6.0, 385.0, 60.0, 7.0), 30.0, Symptom::CrumblesForming);
    let binder = small.add.iter().find(|add| add.role == Role::Binder).unwrap();
    assert!(binder.grams < 0.1 && binder.spoons.is_none(), "{binder:?}");
    assert_eq!(binder.by_spoon().as_deref(), Some("a small pinch"));
    assert!(
        small
            .steps
            .iter()
            .any(|step| step.contains("(a small pinch) of methylcellulose")),
        "{:?}",
        small.steps
    );
}

/// Nothing but salt is off, so every line but the salt grows alike.
#[test]
fn a_mix_too_salty_grows_in_its_own_proportions() {
    let rescued = advise(&seasoned(9.0, 385.0, 60.0, 16.0), Symptom::TooSalty);
    let lines = [
        ("tvp_soy_granules", 150.0),
        ("pea_protein_isolate", 30.0),
        ("water", 385.0),
        ("methylcellulose", 9.0),
        ("coconut_oil", 60.0),
    ];
    let times: Vec<f64> = lines
        .iter()
        .map(|(id, was)| {
            let added = rescued.add.iter().filter(|add| add.ingredient == *id);
            added.map(|add| add.grams).sum::<f64>() / was
        })
        .collect();
    assert!(times.iter().all(|one| (one / times[0] - 1.0).abs() < 1e-6), "{times:?}");
    assert!(times[0] > 0.0);
}

/// 47.97 g of water and 8 g of binder grow with the mix: a hair short of six parts, which no scale shows.
#[test]
fn a_hair_too_little_water_still_carries_all_the_binder() {
    let salty = mix(&[
        ("tvp_soy_granules", 60.0),
        ("potato_starch", 300.0),
        ("water", 47.97),
        ("methylcellulose", 8.0),
        ("canola_oil", 50.0),
        ("table_salt", 14.0),
    ]);
    let rescued = advise(&salty, Symptom::TooSalty);
    assert!(role_grams(&rescued.add, Role::Fat) > 0.0, "{:?}", rescued.add);
    let whisked = rescued.steps.iter().find(|step| step.starts_with("Whisk")).unwrap();
    let binder = role_grams(&rescued.add, Role::Binder);
    assert!(
        (grams_in(whisked)[0] / binder - 1.0).abs() < 0.01,
        "{binder}: {whisked}"
    );
    assert!(
        rescued.steps.iter().all(|step| !step.starts_with("Shake")),
        "{:?}",
        rescued.steps
    );
}

/// From 5 % of salt a food counts as salted (common practice, no source), and a mix does not grow around its salt with that.
#[test]
fn a_mix_too_salty_grows_by_nothing_salted() {
    let grows_by = |salt_g: f64| {
        let text = format!(
            r#"{{"format":"pattywright/1","pantry":[{{"id":"mine","name":"Mine","role":"filler",
            "panel":{{"serving_g":100,"protein_g":5,"fat_g":1,"carbohydrate_g":60,"fibre_g":10,"salt_g":{salt_g}}}}}],
            "formulas":[{{"id":"mix","name":"Mix","lines":[
            {{"ingredient":"tvp_soy_granules","amount":"150 g"}},{{"ingredient":"pea_protein_isolate","amount":"30 g"}},
            {{"ingredient":"water","amount":"385 g"}},{{"ingredient":"methylcellulose","amount":"9 g"}},
            {{"ingredient":"coconut_oil","amount":"60 g"}},{{"ingredient":"table_salt","amount":"14 g"}},
            {{"ingredient":"mine","amount":"10 g"}}]}}]}}"#
        );
        let rescued = advise(&read(&text).unwrap().document, Symptom::TooSalty);
        assert!(role_grams(&rescued.add, Role::Textured) > 0.0, "{:?}", rescued.add);
        rescued.add.iter().any(|add| add.ingredient == "mine")
    };
    assert!(grows_by(4.9) && !grows_by(5.0));
}
