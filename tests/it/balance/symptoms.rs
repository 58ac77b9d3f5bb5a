//! What each symptom asks for.

use super::{advise, advise_on, mix, plain, role_grams, seasoned};
use pattywright::balance::{Status, Symptom};
use pattywright::document::Document;
use pattywright::pantry::Role;

/// A mix that shows the cause of a symptom: what must go in, and what must not.
#[track_caller]
fn check_remedy(symptom: Symptom, document: &Document, wanted: &[Role], unwanted: &[Role]) {
    let rescued = advise(document, symptom);
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
    let weak = seasoned(4.0, 385.0, 60.0, 7.0);
    check_remedy(Symptom::CrumblesForming, &weak, &[Role::Binder], &[Role::Textured]);
    check_remedy(Symptom::BreaksInPan, &weak, &[Role::Binder], &[]);
    check_remedy(Symptom::BreaksWhenTurned, &weak, &[Role::Binder], &[]);
    let thin = seasoned(7.0, 385.0, 60.0, 7.0);
    check_remedy(Symptom::ThinOnesBreak, &thin, &[Role::Binder], &[]);
    let no_powder = mix(&[
        ("tvp_soy_granules", 150.0),
        ("water", 375.0),
        ("methylcellulose", 9.0),
        ("coconut_oil", 60.0),
        ("table_salt", 7.0),
    ]);
    check_remedy(Symptom::FallsApartCooling, &no_powder, &[Role::Powder], &[Role::Binder]);
    let wet = seasoned(11.0, 520.0, 60.0, 7.0);
    check_remedy(Symptom::CrumblesForming, &wet, &[Role::Textured], &[Role::Liquid]);
    check_remedy(Symptom::StickyWet, &wet, &[Role::Textured], &[Role::Liquid]);
    check_remedy(Symptom::Mushy, &wet, &[Role::Textured], &[Role::Liquid]);
    let gummy = seasoned(20.0, 385.0, 60.0, 7.0);
    check_remedy(Symptom::Gummy, &gummy, &[Role::Liquid], &[Role::Binder]);
    let dry = seasoned(9.0, 250.0, 60.0, 7.0);
    check_remedy(Symptom::Dry, &dry, &[Role::Liquid], &[Role::Textured]);
    let stretched = [Role::Textured, Role::Liquid];
    let greasy = seasoned(9.0, 385.0, 140.0, 7.0);
    check_remedy(Symptom::Greasy, &greasy, &stretched, &[Role::Fat]);
    let salty = seasoned(9.0, 385.0, 60.0, 14.0);
    check_remedy(Symptom::TooSalty, &salty, &stretched, &[Role::Seasoning]);
    let dark = mix(&[
        ("tvp_soy_granules", 150.0),
        ("pea_protein_isolate", 30.0),
        ("water", 385.0),
        ("methylcellulose", 9.0),
        ("coconut_oil", 60.0),
        ("cocoa_powder", 9.0),
    ]);
    check_remedy(Symptom::TooDark, &dark, &stretched, &[Role::Colour]);
}

#[test]
fn what_is_off_is_named_and_never_called_right() {
    let wet = mix(&[
        ("tvp_soy_granules", 120.0),
        ("pea_protein_isolate", 53.0),
        ("water", 400.0),
        ("methylcellulose", 7.0),
        ("table_salt", 6.0),
        ("coconut_oil", 60.0),
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
            ("textured_pea_protein", 150.0),
            ("pea_protein_isolate", 30.0),
            ("water", 385.0),
            (own, 2.0),
            ("coconut_oil", 60.0),
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

/// Where all is in its window, what is to be tried is of the symptom's own kind: common practice, no source.
#[test]
fn a_small_step_belongs_to_its_symptom() {
    let document = plain();
    for (symptom, kinds) in [
        (Symptom::CrumblesForming, &[Role::Binder, Role::Liquid][..]),
        (Symptom::BreaksInPan, &[Role::Binder, Role::Liquid]),
        (Symptom::BreaksWhenTurned, &[Role::Binder, Role::Liquid]),
        (Symptom::FallsApartCooling, &[Role::Powder]),
        (Symptom::StickyWet, &[Role::Textured, Role::Powder]),
        (Symptom::Gummy, &[Role::Textured, Role::Liquid]),
        (Symptom::Mushy, &[Role::Textured, Role::Powder]),
        (Symptom::Dry, &[Role::Liquid]),
        (Symptom::Greasy, &[Role::Binder, Role::Liquid]),
        (Symptom::TooSalty, &[Role::Textured, Role::Liquid]),
        (Symptom::TooDark, &[]),
    ] {
        let rescued = advise(&document, symptom);
        assert_eq!(rescued.status, Status::NotNeeded, "{symptom:?}");
        let step = &rescued.if_that_fails;
        assert!(
            step.iter().all(|add| kinds.contains(&add.role)),
            "{symptom:?}: {step:?}"
        );
        assert_eq!(step.is_empty(), kinds.is_empty(), "{symptom:?}");
        let says = rescued
            .steps
            .iter()
            .any(|says| says.starts_with("Every reading is in its window"));
        assert!(says, "{symptom:?}: {:?}", rescued.steps);
    }
}

/// A binder that is short is none of the salt's business.
#[test]
fn salt_in_its_window_asks_for_no_binder() {
    let rescued = advise(&seasoned(4.0, 385.0, 60.0, 7.0), Symptom::TooSalty);
    assert_eq!(rescued.status, Status::NotNeeded);
    assert_eq!(role_grams(&rescued.if_that_fails, Role::Binder), 0.0);
}

/// Nothing forces it out of proportion, so all but the salt grows alike.
#[test]
fn a_mix_that_grows_around_its_salt_keeps_its_proportions() {
    let document = seasoned(9.0, 385.0, 60.0, 14.0);
    let rescued = advise(&document, Symptom::TooSalty);
    assert_eq!(rescued.status, Status::Reached);
    assert_eq!(rescued.add.len(), 5);
    for (add, was) in rescued.add.iter().zip([150.0, 30.0, 385.0, 9.0, 60.0]) {
        let times = add.grams / was * 150.0 / rescued.add[0].grams;
        assert!((times - 1.0).abs() < 1e-6, "{}: {times}", add.name);
    }
}

/// 1 g and 2 g of binder in 100 g are the ends of its window, 1–2 %.
#[test]
fn what_stands_on_the_edge_of_its_window_is_not_off() {
    let called_off = |binder: f64| {
        let document = mix(&[
            ("tvp_soy_granules", 24.0),
            ("water", 66.0 - binder),
            ("methylcellulose", binder),
            ("coconut_oil", 10.0),
        ]);
        let rescued = advise_on(&document, 100.0, Symptom::FallsApartCooling);
        rescued.steps.iter().any(|step| step.contains("binder in the mix ("))
    };
    assert_eq!([0.5, 1.0, 2.0, 2.5].map(called_off), [true, false, false, true]);
}
