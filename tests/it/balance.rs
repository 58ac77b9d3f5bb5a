//! The rescue: laws it may never break.

use pattywright::balance::solver::{Outcome, Program};
use pattywright::balance::{Add, Rescue, RescueProblem, Status, Symptom, apply, rescue};
use pattywright::document::{Document, read};
use pattywright::pantry::Role;
use proptest::prelude::*;

fn bowl(granules: f64, water: f64, binder: f64, fat: f64) -> Document {
    let text = format!(
        r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","style":"standard_patty","lines":[
        {{"ingredient":"tvp_soy_granules","amount":"{granules:.1} g"}},{{"ingredient":"water","amount":"{water:.1} g"}},
        {{"ingredient":"methylcellulose","amount":"{binder:.2} g"}},{{"ingredient":"coconut_oil","amount":"{fat:.1} g"}}]}}]}}"#
    );
    read(&text).unwrap().document
}

#[test]
fn crumbling_for_want_of_binder_is_reached_and_carried() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    let rescued = rescue(
        &document.kitchen(),
        &document.formulas[0],
        400.0,
        Symptom::CrumblesForming,
    )
    .unwrap();
    assert_eq!(rescued.status, Status::Reached);
    for (reading, value) in &rescued.after {
        if matches!(reading.id(), "binder_share" | "moisture" | "hydration") {
            let (value, window) = (value.value.estimate().unwrap().value, value.window.unwrap());
            assert!(
                value >= window.low - 1e-9 && value <= window.high + 1e-9,
                "{reading:?} {value}"
            );
        }
    }
    let grams = |role| {
        rescued
            .add
            .iter()
            .find(|add| add.role == role)
            .map_or(0.0, |add| add.grams)
    };
    assert!(grams(Role::Binder) > 0.0);
    assert!(grams(Role::Liquid) / 6.0 + grams(Role::Fat) / 2.0 >= grams(Role::Binder) - 1e-6);
}

#[test]
fn half_the_bowl_needs_half_the_addition() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    let of = |left_g| {
        rescue(
            &document.kitchen(),
            &document.formulas[0],
            left_g,
            Symptom::CrumblesForming,
        )
        .unwrap()
    };
    let (whole, half) = (of(400.0), of(200.0));
    assert_eq!(whole.add.len(), half.add.len());
    for (whole, half) in whole.add.iter().zip(&half.add) {
        assert!((whole.grams / half.grams - 2.0).abs() < 1e-6, "{}", whole.name);
    }
}

#[test]
fn a_mix_within_its_windows_is_not_touched() {
    let document = bowl(150.0, 375.0, 9.0, 60.0);
    let rescued = rescue(
        &document.kitchen(),
        &document.formulas[0],
        400.0,
        Symptom::CrumblesForming,
    )
    .unwrap();
    assert_eq!(rescued.status, Status::NotNeeded);
    assert!(rescued.add.is_empty() && !rescued.steps.is_empty());
}

#[test]
fn what_cannot_be_reached_is_said_with_how_near_it_gets() {
    // Far too much fat and no room to add the water that soaks more granules.
    let document = bowl(100.0, 900.0, 1.0, 10.0);
    let rescued = rescue(&document.kitchen(), &document.formulas[0], 1000.0, Symptom::BreaksInPan).unwrap();
    if rescued.status == Status::OutOfReach {
        assert!(
            rescued.clash.iter().all(|what| what.contains("this gets it to")),
            "{:?}",
            rescued.clash
        );
        assert!(!rescued.clash.is_empty());
    } else {
        assert_eq!(rescued.status, Status::Reached);
    }
}

#[test]
fn the_formula_of_record_becomes_what_is_in_the_bowl() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    let kitchen = document.kitchen();
    let rescued = rescue(&kitchen, &document.formulas[0], 400.0, Symptom::CrumblesForming).unwrap();
    let after = apply(
        &kitchen,
        &document.formulas[0],
        400.0,
        &rescued.add,
        "crumbles",
        "2026-11-25 18:40",
    )
    .unwrap();
    let added: f64 = rescued.add.iter().map(|add| add.grams).sum();
    assert!((kitchen.weigh(&after).total.value - 400.0 - added).abs() < 0.3);
    assert_eq!(after.log.len(), 1);
}

#[test]
fn impossible_leftovers_are_refused() {
    let document = bowl(150.0, 370.0, 3.0, 60.0);
    for left_g in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let why = rescue(&document.kitchen(), &document.formulas[0], left_g, Symptom::Dry).unwrap_err();
        assert_eq!(why, RescueProblem::Left);
    }
}

/// The mix of this style with these lines; amounts as typed.
fn mix(lines: &[(&str, &str)]) -> Document {
    let lines: Vec<String> = lines
        .iter()
        .map(|(ingredient, amount)| format!(r#"{{"ingredient":"{ingredient}","amount":"{amount}"}}"#))
        .collect();
    let text = format!(
        r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","style":"standard_patty","lines":[{}]}}]}}"#,
        lines.join(",")
    );
    read(&text).unwrap().document
}

fn advise(document: &Document, symptom: Symptom) -> Rescue {
    rescue(&document.kitchen(), &document.formulas[0], 400.0, symptom).unwrap()
}

fn role_grams(add: &[Add], role: Role) -> f64 {
    add.iter().filter(|add| add.role == role).map(|add| add.grams).sum()
}

/// A mix that shows the cause of a symptom: what must go in, and what must not.
#[track_caller]
fn check_remedy(symptom: Symptom, lines: &[(&str, &str)], wanted: &[Role], unwanted: &[Role]) {
    let rescued = advise(&mix(lines), symptom);
    assert_eq!(rescued.status, Status::Reached, "{symptom:?}: {:?}", rescued.clash);
    for role in wanted {
        assert!(
            role_grams(&rescued.add, *role) > 0.0,
            "{symptom:?} wants {role:?}: {:?}",
            rescued.add
        );
    }
    for role in unwanted {
        assert!(
            role_grams(&rescued.add, *role) == 0.0,
            "{symptom:?} without {role:?}: {:?}",
            rescued.add
        );
    }
}

/// Causes and remedies: common practice, no source, except where the module names one.
#[test]
fn every_symptom_gets_what_its_cause_asks_for() {
    let (soy, pea, water, binder, oil, salt) = (
        "tvp_soy_granules",
        "pea_protein_isolate",
        "water",
        "methylcellulose",
        "coconut_oil",
        "table_salt",
    );
    let plain = |binder_g, water_g, oil_g| {
        [
            (soy, "150 g"),
            (pea, "30 g"),
            (water, water_g),
            (binder, binder_g),
            (oil, oil_g),
            (salt, "7 g"),
        ]
    };
    let weak = plain("4 g", "385 g", "60 g");
    check_remedy(Symptom::CrumblesForming, &weak, &[Role::Binder], &[Role::Textured]);
    check_remedy(Symptom::BreaksInPan, &weak, &[Role::Binder], &[]);
    check_remedy(Symptom::BreaksWhenTurned, &weak, &[Role::Binder], &[]);
    check_remedy(
        Symptom::ThinOnesBreak,
        &plain("7 g", "385 g", "60 g"),
        &[Role::Binder],
        &[],
    );
    let no_powder = [
        (soy, "150 g"),
        (water, "375 g"),
        (binder, "9 g"),
        (oil, "60 g"),
        (salt, "7 g"),
    ];
    check_remedy(Symptom::FallsApartCooling, &no_powder, &[Role::Powder], &[Role::Binder]);
    let wet = plain("11 g", "520 g", "60 g");
    check_remedy(Symptom::CrumblesForming, &wet, &[Role::Textured], &[Role::Liquid]);
    check_remedy(Symptom::StickyWet, &wet, &[Role::Textured], &[Role::Liquid]);
    check_remedy(Symptom::Mushy, &wet, &[Role::Textured], &[Role::Liquid]);
    check_remedy(
        Symptom::Gummy,
        &plain("20 g", "385 g", "60 g"),
        &[Role::Liquid],
        &[Role::Binder],
    );
    check_remedy(
        Symptom::Dry,
        &plain("9 g", "250 g", "60 g"),
        &[Role::Liquid],
        &[Role::Textured],
    );
    check_remedy(
        Symptom::Greasy,
        &plain("9 g", "385 g", "140 g"),
        &[Role::Textured, Role::Liquid],
        &[Role::Fat],
    );
    let salty = [
        (soy, "150 g"),
        (pea, "30 g"),
        (water, "385 g"),
        (binder, "9 g"),
        (oil, "60 g"),
        (salt, "14 g"),
    ];
    check_remedy(
        Symptom::TooSalty,
        &salty,
        &[Role::Textured, Role::Liquid],
        &[Role::Seasoning],
    );
    let dark = [
        (soy, "150 g"),
        (pea, "30 g"),
        (water, "385 g"),
        (binder, "9 g"),
        (oil, "60 g"),
        ("cocoa_powder", "9 g"),
    ];
    check_remedy(
        Symptom::TooDark,
        &dark,
        &[Role::Textured, Role::Liquid],
        &[Role::Colour],
    );
}

#[test]
fn what_is_off_is_named_and_never_called_right() {
    let wet = mix(&[
        ("tvp_soy_granules", "120 g"),
        ("pea_protein_isolate", "53 g"),
        ("water", "400 g"),
        ("methylcellulose", "7 g"),
        ("table_salt", "6 g"),
        ("coconut_oil", "60 g"),
    ]);
    let crumbles = advise(&wet, Symptom::CrumblesForming);
    assert_eq!(crumbles.status, Status::Reached);
    assert!(
        crumbles.steps.iter().any(|step| step.contains("hydration (high)")),
        "{:?}",
        crumbles.steps
    );
    let dry = advise(&wet, Symptom::Dry);
    assert_eq!(dry.status, Status::NotNeeded);
    assert!(
        dry.steps.iter().any(|step| step.contains("hydration (high)")),
        "{:?}",
        dry.steps
    );
}

/// Which agent holds when: carrageenan and agar set cold and must be boiled, xanthan sets nothing (sources: module `gelling`).
#[test]
fn the_binder_that_helps_at_that_moment_is_offered() {
    let offered = |own: &str, symptom| {
        let document = mix(&[
            ("textured_pea_protein", "150 g"),
            ("pea_protein_isolate", "30 g"),
            ("water", "385 g"),
            (own, "2 g"),
            ("coconut_oil", "60 g"),
        ]);
        let rescued = advise(&document, symptom);
        let found = rescued.add.iter().find(|add| add.role == Role::Binder);
        found.map(|add| add.ingredient.clone())
    };
    for (own, forming, pan) in [
        ("methylcellulose", "methylcellulose", "methylcellulose"),
        ("hpmc", "hpmc", "hpmc"),
        ("kappa_carrageenan", "methylcellulose", "methylcellulose"),
        ("xanthan_gum", "methylcellulose", "methylcellulose"),
        ("psyllium_husk", "psyllium_husk", "methylcellulose"),
    ] {
        assert_eq!(
            offered(own, Symptom::CrumblesForming).as_deref(),
            Some(forming),
            "{own}"
        );
        assert_eq!(offered(own, Symptom::BreaksInPan).as_deref(), Some(pan), "{own}");
    }
}

#[test]
fn a_new_allergen_is_told() {
    // Everything here is of pea; the plainest granules are of soy.
    let wet = mix(&[
        ("pea_protein_isolate", "100 g"),
        ("water", "400 g"),
        ("methylcellulose", "8 g"),
        ("coconut_oil", "50 g"),
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
            ("textured_pea_protein", "150 g"),
            ("water", "520 g"),
            ("methylcellulose", "11 g"),
            ("coconut_oil", "60 g"),
        ]),
        Symptom::StickyWet,
    );
    assert!(
        pea.steps.iter().all(|step| !step.contains("tell your guests")),
        "{:?}",
        pea.steps
    );
}

/// Worked case: 800 g at 1.0 % binder and 58 % water, wanted 1.8 % and 60 %: 858.6 g in all, 7.46 g of binder and 51.2 g of water.
/// Source: the algebra `T = M(1 − m₀ − w₀)/(1 − m₁ − w₁)`, done by hand.
#[test]
fn the_closed_form_and_the_program_agree() {
    let (mass, binder, water, more_binder, more_water) = (800.0, 0.010, 0.58, 0.018, 0.60);
    let total = mass * (1.0 - binder - water) / (1.0 - more_binder - more_water);
    let by_hand = [more_binder * total - binder * mass, more_water * total - water * mass];
    let mut program = Program::new(2);
    for column in 0..2 {
        program.set_cost(column, 1.0).unwrap();
        program.set_bounds(column, 0.0, f64::INFINITY).unwrap();
    }
    // Share at least: (1 − s)·x − s·w ≥ s·M − what is there.
    let short_of_binder = more_binder * mass - binder * mass;
    let short_of_water = more_water * mass - water * mass;
    program
        .add_row(&[1.0 - more_binder, -more_binder], short_of_binder, f64::INFINITY)
        .unwrap();
    program
        .add_row(&[-more_water, 1.0 - more_water], short_of_water, f64::INFINITY)
        .unwrap();
    let Outcome::Optimal { x, .. } = program.solve() else {
        panic!("it can be reached");
    };
    for ((x, hand), printed) in x.iter().zip(by_hand).zip([7.46, 51.2]) {
        assert!((x - hand).abs() < 1e-9, "{x} against {hand}");
        assert!((x / printed - 1.0).abs() < 1e-3, "{x} against {printed}");
    }
}

#[test]
fn what_was_to_be_thinned_is_not_put_back() {
    let document = mix(&[
        ("tvp_soy_granules", "150 g"),
        ("pea_protein_isolate", "30 g"),
        ("water", "385 g"),
        ("methylcellulose", "9 g"),
        ("coconut_oil", "60 g"),
        ("table_salt", "16 g"),
        ("cocoa_powder", "9 g"),
    ]);
    let put_back = |symptom, id: &str| {
        let rescued = advise(&document, symptom);
        assert!(!rescued.add.is_empty(), "{symptom:?}");
        rescued.top_up.iter().any(|add| add.ingredient == id)
    };
    assert!(!put_back(Symptom::TooSalty, "table_salt") && put_back(Symptom::TooSalty, "cocoa_powder"));
    assert!(!put_back(Symptom::TooDark, "cocoa_powder") && put_back(Symptom::TooDark, "table_salt"));
}

/// The water named in the steps is the water of the list, no gram of it twice.
#[test]
fn no_water_is_named_twice() {
    let document = mix(&[
        ("tvp_soy_granules", "150 g"),
        ("pea_protein_isolate", "30 g"),
        ("water", "385 g"),
        ("methylcellulose", "9 g"),
        ("coconut_oil", "60 g"),
        ("table_salt", "16 g"),
    ]);
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

/// Shares of seasoning and colour stay within 5 % of what they were, with the top-up in.
#[test]
fn the_flavour_is_kept() {
    let document = mix(&[
        ("tvp_soy_granules", "150 g"),
        ("water", "250 g"),
        ("methylcellulose", "3 g"),
        ("coconut_oil", "60 g"),
        ("table_salt", "7 g"),
        ("cocoa_powder", "5 g"),
    ]);
    let kitchen = document.kitchen();
    let before = kitchen.weigh(&document.formulas[0]);
    let mut topped_up = 0;
    for symptom in Symptom::ALL {
        let rescued = advise(&document, symptom);
        topped_up += usize::from(!rescued.top_up.is_empty());
        let all: Vec<Add> = rescued.add.iter().chain(&rescued.top_up).cloned().collect();
        let after = apply(&kitchen, &document.formulas[0], 400.0, &all, "", "").unwrap();
        let after = kitchen.weigh(&after);
        for (line, was) in after.lines.iter().zip(&before.lines) {
            let thinned = matches!(symptom, Symptom::TooSalty | Symptom::TooDark);
            if matches!(line.role, Role::Seasoning | Role::Colour) && !thinned {
                let kept = after.share(line).unwrap() / before.share(was).unwrap();
                // The formula keeps hundredths of a gram.
                assert!((0.949..=1.051).contains(&kept), "{symptom:?} {}: {kept}", line.name);
            }
        }
    }
    assert!(topped_up > 0);
}

/// A thin mix whose binder is right and whose other wishes are out of reach: the binder stays right.
#[test]
fn a_wish_already_granted_is_not_given_up_for_another() {
    let document = bowl(126.2, 287.4, 7.84, 65.8);
    let rescued = rescue(
        &document.kitchen(),
        &document.formulas[0],
        500.0,
        Symptom::ThinOnesBreak,
    )
    .unwrap();
    let binder = rescued
        .after
        .iter()
        .find(|(reading, _)| reading.id() == "binder_share")
        .unwrap();
    let (value, window) = (binder.1.value.estimate().unwrap().value, binder.1.window.unwrap());
    assert!(value >= window.low - 1e-3, "{value} of {}", window.low);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]
    #[test]
    fn laws_hold_for_any_mix(granules in 20.0..300.0f64, water in 20.0..900.0f64, binder in 0.1..40.0f64, fat in 1.0..200.0f64) {
        let document = bowl(granules, water, binder, fat);
        let kitchen = document.kitchen();
        for symptom in Symptom::ALL {
            let Ok(rescued) = rescue(&kitchen, &document.formulas[0], 500.0, symptom) else { continue };
            prop_assert!(rescued.add.iter().chain(&rescued.if_that_fails).chain(&rescued.top_up).all(|add| add.grams > 0.0));
            prop_assert!(rescued.status != Status::NotNeeded || rescued.add.is_empty());
            prop_assert_eq!(rescued.status == Status::OutOfReach, !rescued.clash.is_empty());
            for add in [&rescued.add, &rescued.if_that_fails] {
                let carried = role_grams(add, Role::Liquid) / 6.0 + role_grams(add, Role::Fat) / 2.0;
                let dry = role_grams(add, Role::Binder) - carried;
                prop_assert!(dry <= 1e-3 * 500.0, "{:?}: {} g of binder would go in dry", symptom, dry);
            }
            // What was right stays right; salt is the top-up's to mend.
            for ((reading, was), (_, is)) in rescued.before.iter().zip(&rescued.after) {
                let guarded = matches!(reading.id(), "hydration" | "moisture" | "binder_share" | "powder_to_textured" | "protein" | "fat");
                if let (true, Some(was), Some(is), Some(window)) = (guarded, was.value.estimate(), is.value.estimate(), was.window)
                    && (window.low..=window.high).contains(&was.value)
                {
                    let slack = 1e-3 * (window.high - window.low);
                    prop_assert!((window.low - slack..=window.high + slack).contains(&is.value), "{:?}: {} left its window: {} to {}", symptom, reading.name(), was.value, is.value);
                }
            }
            let half = rescue(&kitchen, &document.formulas[0], 250.0, symptom).unwrap();
            let sum = |add: &[Add]| add.iter().map(|add| add.grams).sum::<f64>();
            prop_assert!((sum(&rescued.add) - 2.0 * sum(&half.add)).abs() < 1e-3 * 500.0);
            let after = apply(&kitchen, &document.formulas[0], 500.0, &rescued.add, "", "").unwrap();
            prop_assert!((kitchen.weigh(&after).total.value - 500.0 - sum(&rescued.add)).abs() < 0.5, "mass balance");
        }
    }
}
