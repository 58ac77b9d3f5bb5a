//! Sizes of patties, against geometry, published shrink and laws.
#![allow(clippy::unwrap_used, reason = "helpers of tests may fail a test")]

use pattywright::document::{Document, read};
use pattywright::heat::binder::Grade;
use pattywright::heat::{Composition, Estimate, Food};
use pattywright::patty::*;
use proptest::prelude::*;

fn exact(value: f64) -> Estimate {
    Estimate::new(value, 0.0)
}

#[track_caller]
fn check_within(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "found {found}, expected {expected} ± {tolerance}"
    );
}

/// Source: geometry worked by hand, 94.2478 ml in a disc of 100 mm by 12 mm, 120 ml in a square of the same width.
#[test]
fn a_disc_and_a_square_hold_what_geometry_says() {
    check_within(
        grams(exact(1.0), Shape::Round, exact(100.0), exact(12.0))
            .unwrap()
            .value,
        94.2478,
        1e-4,
    );
    check_within(
        grams(exact(1.0), Shape::Square, exact(100.0), exact(12.0))
            .unwrap()
            .value,
        120.0,
        1e-9,
    );
    check_within(ball_mm(exact(94.2478), exact(1.0)).unwrap().value, 56.46, 0.01);
}

#[test]
fn the_spread_of_the_width_counts_twice_in_the_thickness() {
    let thickness = thickness_mm(
        Estimate::new(90.0, 0.9),
        exact(1.0),
        Shape::Round,
        Estimate::new(100.0, 2.0),
    )
    .unwrap();
    check_within(thickness.sd / thickness.value, 0.01f64.hypot(0.04), 1e-12);
}

/// A width goes with the square root of the weight, a ball with its cube root: 1 % of weight is ½ % and ⅓ %.
#[test]
fn the_spread_of_the_weight_counts_in_part_in_a_width_and_a_ball() {
    let patty = Estimate::new(90.0, 0.9);
    let across = across_mm(patty, exact(1.0), Shape::Round, exact(12.0)).unwrap();
    check_within(across.sd / across.value, 0.005, 1e-12);
    let ball = ball_mm(patty, exact(1.0)).unwrap();
    check_within(ball.sd / ball.value, 0.01 / 3.0, 1e-12);
}

#[test]
fn a_spread_that_is_none_is_refused() {
    for sd in [-1.0, f64::NAN, f64::INFINITY] {
        let weight = Estimate { value: 90.0, sd };
        assert!(
            matches!(ball_mm(weight, exact(1.0)), Err(PattyError::Weight(_))),
            "{sd}"
        );
    }
}

#[test]
fn air_lowers_the_density_and_its_doubt_widens_it() {
    let mix = Composition {
        water: 0.6,
        protein: 0.18,
        fat: 0.12,
        carbohydrate: 0.05,
        fibre: 0.03,
        ash: 0.02,
    };
    let airy = Food::new(mix, USUAL_AIR.value).unwrap();
    let density = density_g_per_ml(&airy, USUAL_AIR.sd, 5.0);
    check_within(density.value, 0.95 * 1.0755, 1e-4);
    check_within(density.sd / density.value, 0.02f64.hypot(0.03), 1e-12);
}

/// Source: Bakhsh A, et al. Foods 2021;10(3):560, Table 4: cook loss 9.98 and 7.12 % (1.5 and 4 % methylcellulose, common textured protein),
/// 12.01 and 7.30 % (1.5 and 3 %, isolate); widths 16.63 → 14.96, 15.83 → 15.16, 16.30 → 15.08, 15.37 → 14.29.
#[test]
fn published_patties_lie_within_the_published_spread() {
    for (texture, binder, loss, raw, cooked_width) in [
        (Texture::Flour, 1.5, 9.98, 16.63, 14.96),
        (Texture::Flour, 4.0, 7.12, 15.83, 15.16),
        (Texture::Isolate, 1.5, 12.01, 16.30, 15.08),
        (Texture::Isolate, 3.0, 7.30, 15.37, 14.29),
    ] {
        let cooking = Cooking::published(texture, binder);
        check_within(cooking.loss_percent.value, loss, 0.01);
        let shrink = 100.0 * (1.0 - cooked_width / raw);
        check_within(cooking.shrink_percent.value, shrink, 1.5 * cooking.shrink_percent.sd);
    }
}

#[test]
fn own_measurements_give_own_loss_and_shrink() {
    let cooking = Cooking::measured(
        (Estimate::new(90.0, 0.5), Estimate::new(81.0, 0.5)),
        (exact(110.0), exact(104.5)),
    )
    .unwrap();
    check_within(cooking.loss_percent.value, 10.0, 1e-9);
    check_within(cooking.shrink_percent.value, 5.0, 1e-9);
    assert!(cooking.loss_percent.sd > 0.5 && cooking.loss_percent.sd < 1.0);
    assert!(matches!(
        Cooking::measured((exact(90.0), exact(99.0)), (exact(110.0), exact(104.0))),
        Err(PattyError::Percent(_))
    ));
}

#[test]
fn a_patty_formed_for_its_bun_stands_out_by_the_overhang_when_cooked() {
    let cooking = Cooking::published(Texture::Flour, 1.5);
    let raw = raw_across_for_bun_mm(100.0, 5.0, &cooking).unwrap();
    let left = cooked(exact(90.0), raw, exact(9.0), &cooking).unwrap();
    check_within(left.across_mm.value, 110.0, 1e-9);
    check_within(left.grams.value, 90.0 * 0.9002, 1e-9);
}

/// Nine tenths are left, ± 0.02: the raw width is as uncertain.
#[test]
fn doubt_about_the_shrink_is_doubt_about_the_raw_width() {
    let cooking = Cooking {
        loss_percent: exact(10.0),
        shrink_percent: Estimate::new(10.0, 2.0),
    };
    let raw = raw_across_for_bun_mm(100.0, 5.0, &cooking).unwrap();
    check_within(raw.sd / raw.value, 0.02 / 0.9, 1e-12);
}

/// Of 90 g, 10 ± 2 points are lost: 81 ± 1.8 g are left.
/// Source of the rule: JCGM 100:2008 (GUM), 5.1.2, first-order propagation.
#[test]
fn doubt_about_the_loss_is_doubt_about_what_is_left() {
    let cooking = Cooking {
        loss_percent: Estimate::new(10.0, 2.0),
        shrink_percent: exact(5.0),
    };
    let left = cooked(exact(90.0), exact(110.0), exact(9.0), &cooking).unwrap();
    check_within(left.grams.value, 81.0, 1e-9);
    check_within(left.grams.sd, 1.8, 1e-9);
}

/// Granules, water and this binder, and what the cook's own pack says little of, grams each.
fn mix(binder: (&str, f64), own: &[(&str, f64)]) -> Document {
    let listed = [
        ("tvp_soy_granules", 150.0),
        ("water", 385.0),
        ("coconut_oil", 60.0),
        binder,
    ];
    let lines: Vec<String> = listed
        .iter()
        .chain(own)
        .map(|(id, grams)| format!(r#"{{"ingredient":"{id}","amount":"{grams} g"}}"#))
        .collect();
    let pantry = r#"{"id":"much","name":"Much"},{"id":"some","name":"Some"},{"id":"unsalted","name":"Unsalted",
        "panel":{"serving_g":100,"fat_g":1,"carbohydrate_g":30,"fibre_g":2,"protein_g":60}}"#;
    let lines = lines.join(",");
    let text = format!(
        r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","lines":[{lines}]}}],"pantry":[{pantry}]}}"#
    );
    read(&text).unwrap().document
}

fn of(document: &Document, grade: Option<Grade>) -> Result<Mix, MixProblem> {
    Mix::of(&document.kitchen(), &document.formulas[0], grade)
}

/// The middle of the grades; half of what lies between them and the doubt about either add up as independent doubts do.
#[test]
fn binder_of_unknown_grade_sets_between_the_grades() {
    let document = mix(("hpmc", 9.0), &[]);
    let sets = |grade| of(&document, grade).unwrap().gel.unwrap().sets_c;
    let (low, high) = (sets(Some(Grade::HydroxypropylE)), sets(Some(Grade::HydroxypropylK)));
    let between = sets(None);
    check_within(between.value, (low.value + high.value) / 2.0, 1e-9);
    let half = (high.value - low.value) / 2.0;
    assert!(half > 0.0);
    check_within(between.sd.powi(2), half.powi(2) + low.sd.max(high.sd).powi(2), 1e-9);
}

/// A twentieth of 681 g may be open, 34 g; granules and binder, whose rows lack the ash or all, leave some 20 g of it.
#[test]
fn what_nobody_has_described_is_named_the_largest_first() {
    let named = |own: &[(&str, f64)]| match of(&mix(("methylcellulose", 9.0), own), None) {
        Err(MixProblem::UnknownMakeUp(lines)) => lines,
        other => panic!("{other:?}"),
    };
    let salt = ("table_salt", 7.0);
    assert_eq!(named(&[("some", 30.0), ("much", 40.0), salt]), ["Much", "Some"]);
    // Once the large one is described, the small one may stay open.
    assert_eq!(named(&[("some", 3.0), ("much", 40.0), salt]), ["Much"]);
}

/// More salt sets the gel sooner; where a pack says none, that is left open.
#[test]
fn salt_is_open_only_where_a_pack_leaves_it_out() {
    let open = |own: &[(&str, f64)]| of(&mix(("methylcellulose", 9.0), own), None).unwrap().salt_open;
    assert!(!open(&[("table_salt", 7.0)]));
    assert!(open(&[("unsalted", 60.0)]));
}

#[test]
fn a_bowl_gives_whole_patties_and_says_what_is_left() {
    assert_eq!(
        from_bowl(900.0, 90.0, 0.0).unwrap(),
        FromBowl { count: 10, left_g: 0.0 }
    );
    let short = from_bowl(900.0, 90.0, 3.0).unwrap();
    assert_eq!(short.count, 9);
    check_within(short.left_g, 63.0, 1e-9);
    assert_eq!(from_bowl(40.0, 90.0, 0.0).unwrap().count, 0);
}

#[test]
fn thin_patties_of_coarse_granules_are_warned_of() {
    let coarse = thinnest(4.0, 1.5, 6.0).unwrap();
    check_within(coarse.thinnest_mm.value, 12.0, 1e-12);
    assert_eq!(coarse.thinness, Thinness::TooThin);
    assert!(coarse.advice().unwrap().contains("12 mm"));
    assert_eq!(thinnest(4.0, 1.5, 12.0).unwrap().thinness, Thinness::Risky);
    assert_eq!(thinnest(2.0, 1.5, 12.0).unwrap().thinness, Thinness::Fine);
    assert_eq!(thinnest(2.0, 1.5, 12.0).unwrap().advice(), None);
    check_within(thinnest(4.0, 0.3, 6.0).unwrap().thinnest_mm.value, 16.0, 1e-12);
}

#[test]
fn soaking_never_shrinks_a_granule() {
    check_within(hydrated_granule_mm(3.0, 0.287, 0.0).unwrap(), 3.0, 1e-12);
    let soaked = hydrated_granule_mm(3.0, 0.287, 2.0).unwrap();
    check_within(soaked, 3.0 * ((1.0 / 1.4 + 2.0) * 0.287 / 0.55f64).cbrt(), 1e-12);
}

#[test]
fn impossible_sizes_are_refused_by_name() {
    let fine = exact(100.0);
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
        assert!(matches!(
            thickness_mm(exact(bad), exact(1.0), Shape::Round, fine),
            Err(PattyError::Weight(_))
        ));
        assert!(matches!(
            thickness_mm(fine, exact(bad), Shape::Round, fine),
            Err(PattyError::Density(_))
        ));
        assert!(matches!(
            thickness_mm(fine, exact(1.0), Shape::Round, exact(bad)),
            Err(PattyError::Width(_))
        ));
        assert!(matches!(
            across_mm(fine, exact(1.0), Shape::Round, exact(bad)),
            Err(PattyError::Thickness(_))
        ));
        assert!(thinnest(bad, 1.5, 10.0).is_err());
        assert!(from_bowl(900.0, bad, 0.0).is_err());
    }
    assert!(from_bowl(900.0, 90.0, 100.0).is_err());
    let sentence = thickness_mm(exact(0.0), exact(1.0), Shape::Round, fine)
        .unwrap_err()
        .to_string();
    assert_eq!(sentence, "Give a weight above 0 and up to 100 000 g, not 0 g");
}

proptest! {
    #[test]
    fn weight_width_and_thickness_agree_both_ways(
        weight in 10.0f64..500.0, density in 0.5f64..1.3, width in 40.0f64..200.0, square: bool,
    ) {
        let shape = if square { Shape::Square } else { Shape::Round };
        let thick = thickness_mm(exact(weight), exact(density), shape, exact(width)).unwrap();
        if (1.0..=100.0).contains(&thick.value) {
            let back = across_mm(exact(weight), exact(density), shape, thick).unwrap();
            prop_assert!((back.value - width).abs() < 1e-9 * width);
            let same = grams(exact(density), shape, exact(width), thick).unwrap();
            prop_assert!((same.value - weight).abs() < 1e-9 * weight);
        }
    }

    #[test]
    fn cooking_keeps_the_density(loss in 0.0f64..30.0, shrink in 0.0f64..30.0) {
        let cooking = Cooking { loss_percent: exact(loss), shrink_percent: exact(shrink) };
        let left = cooked(exact(90.0), exact(100.0), exact(11.0), &cooking).unwrap();
        let volume = |across: f64, thick: f64| Shape::Round.area_mm2(across) * thick;
        let before = 90.0 / volume(100.0, 11.0);
        let after = left.grams.value / volume(left.across_mm.value, left.thickness_mm.value);
        prop_assert!((before - after).abs() < 1e-12);
    }
}
