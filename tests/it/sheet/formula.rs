//! The Formula room as it is told, against a mix worked out by hand.

use pattywright::document::{Document, read};
use pattywright::formula::Reading;
use pattywright::pantry::Role;
use pattywright::sheet::change::{Asked, aim};
use pattywright::sheet::evidence::evidence;
use pattywright::sheet::formula::{FormulaSheet, sheet};

fn document(lines: &[(&str, &str)]) -> Document {
    let lines: Vec<String> = lines
        .iter()
        .map(|(id, amount)| format!(r#"{{"ingredient":"{id}","amount":"{amount}"}}"#))
        .collect();
    let lines = lines.join(",");
    let text = format!(r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","lines":[{lines}]}}]}}"#);
    read(&text).unwrap().document
}

fn told(lines: &[(&str, &str)]) -> FormulaSheet {
    let document = document(lines);
    sheet(&document.kitchen(), &document.formulas[0])
}

/// 100 g of granules, 300 g of water, a level teaspoon of salt: 406 g.
/// Source of the salt: USDA SR28 2047, table salt, 1 tsp = 6.0 g.
#[test]
fn a_mix_of_three_lines_by_hand() {
    let sheet = told(&[
        ("tvp_soy_granules", "100 g"),
        ("water", "300 g"),
        ("table_salt", "1 tsp"),
    ]);
    assert_eq!(sheet.total.value, "406.0");
    let columns: Vec<[&str; 3]> = sheet
        .rows
        .iter()
        .map(|row| [row.grams.as_str(), row.bakers.as_str(), row.share.as_str()])
        .collect();
    assert_eq!(
        columns,
        [
            ["100 g", "100", "24.6 %"],
            ["300 g", "300", "73.9 %"],
            ["6.0 g", "6.0", "1.5 %"]
        ]
    );
    let strip: Vec<(Role, &str)> = sheet
        .strip
        .iter()
        .map(|part| (part.role, part.percent.as_str()))
        .collect();
    assert_eq!(
        strip,
        [
            (Role::Textured, "25 %"),
            (Role::Liquid, "74 %"),
            (Role::Seasoning, "1.5 %")
        ]
    );
    let whole: f64 = sheet.strip.iter().map(|part| part.part).sum();
    assert!((whole - 1.0).abs() < 1e-12, "{whole}");
    for (part, row) in sheet.strip.iter().zip(&sheet.rows) {
        assert_eq!(part.first_key, Some(row.key));
    }
}

/// What a scale leaves open is within 2 % here and is not told; what a spoon does is, in two digits.
#[test]
fn a_spread_is_told_where_it_matters() {
    let lines = [("tvp_soy_granules", "100 g"), ("table_salt", "1 tsp")];
    let sheet = told(&lines);
    assert_eq!(sheet.rows[0].spread, "");
    let document = document(&lines);
    let weighed = document.kitchen().weigh(&document.formulas[0]);
    let sd = weighed.lines[1].grams().unwrap().sd;
    let spread = sheet.rows[1]
        .spread
        .strip_prefix("± ")
        .and_then(|told| told.strip_suffix(" g"));
    let printed: f64 = spread.unwrap().parse().unwrap();
    assert!(
        sd > 0.02 * 6.0 && (printed / sd - 1.0).abs() < 0.05,
        "{printed} of {sd}"
    );
}

/// A teaspoon of binder among weighed lines leaves nearly all the doubt there is; a weighed one leaves none to speak of.
#[test]
fn the_line_to_weigh_first_is_the_one_the_doubt_is_from() {
    let lines = |binder| {
        [
            ("tvp_soy_granules", "150 g"),
            ("water", "385 g"),
            ("coconut_oil", "60 g"),
            ("methylcellulose", binder),
        ]
    };
    let by_spoon = told(&lines("3 tsp"));
    assert!(
        by_spoon
            .weigh_first
            .starts_with("Weigh the methylcellulose first: nearly all of the doubt")
    );
    assert_eq!(by_spoon.weigh_first_key, Some(by_spoon.rows[3].key));
    let weighed = told(&lines("9 g"));
    assert_eq!((weighed.weigh_first.as_str(), weighed.weigh_first_key), ("", None));
    // All doubt about salt is from its spoon, and yet too little to trouble anyone.
    let a_little = [&lines("9 g")[..], &[("table_salt", "1/8 tsp")]].concat();
    assert_eq!(told(&a_little).weigh_first, "");
}

#[test]
fn nothing_asked_is_nothing_worked_out_and_an_aim_alone_is() {
    let lines = [("pea_protein_isolate", "20 g"), ("water", "480 g")];
    let document = document(&lines);
    let ask = |best| {
        let asked = Asked {
            aim: best,
            ..Asked::default()
        };
        aim(&document.kitchen(), &document.formulas[0], &asked).unwrap()
    };
    assert!(ask(pattywright::balance::Aim::LeastChange).is_none());
    assert!(ask(pattywright::balance::Aim::MostProtein).is_some());
}

/// The cook's own reading is drawn among the published patties where it belongs: left of all, between, right of all.
#[test]
fn the_own_reading_is_drawn_among_the_published_ones() {
    let mut drawn = 0;
    for reading in Reading::ALL {
        let published: Vec<f64> = pattywright::formula::evidence::Property::MEASURED
            .into_iter()
            .flat_map(|property| pattywright::formula::evidence::points(reading, property))
            .map(|point| point.at)
            .collect();
        let (first, last) = published
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
                (low.min(*at), high.max(*at))
            });
        for (own, sides) in [
            (0.9 * first, (0, 1)),
            ((first + last) / 2.0, (1, 1)),
            (1.1 * last, (1, 0)),
        ] {
            for plot in evidence(reading, Some(own)).plots {
                let at = plot.own.unwrap();
                let left = plot.dots.iter().any(|dot| dot.x < at);
                let right = plot.dots.iter().any(|dot| dot.x > at);
                assert_eq!((usize::from(left), usize::from(right)), sides, "{reading:?} {own}");
                let end = |text: &str| text.split(' ').next().unwrap().parse::<f64>().unwrap();
                let (low, high) = (end(&plot.across.0), end(&plot.across.1));
                // The ends are printed in two digits.
                assert!(
                    (at - (own - low) / (high - low)).abs() < 0.03,
                    "{reading:?} {own}: {at}"
                );
                assert!(
                    plot.dots.iter().all(|dot| 0.0 < dot.x && dot.x < 1.0 && dot.y < 1.0),
                    "{plot:?}"
                );
                drawn += 1;
            }
        }
    }
    assert!(drawn > 0);
}
