//! The saved document: any of them comes back as it was, and anything else is answered with a sentence.

use crate::laws;
use pattywright::document::{Document, Settings, Weighing, read};
use pattywright::formula::{Addition, Base, Batch, Formula, Line, Patties, Style};
use pattywright::measure::{Cup, Degrees, Length};
use pattywright::pantry::{Calibration, Entry, Panel, Role, Scoop};
use pattywright::words::Language;
use proptest::collection::{btree_map, vec};
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::select;

fn words() -> impl Strategy<Value = String> {
    prop_oneof!["[a-z_]{1,12}", "\\PC{0,20}"]
}

fn line() -> impl Strategy<Value = Line> {
    let kind = (of(words()), of(words()), of(words()), of(select(Role::ALL.to_vec())));
    (kind, words(), of(words()), words()).prop_map(|((ingredient, formula, name, role), amount, cut, note)| Line {
        key: 0,
        ingredient,
        formula,
        name,
        amount,
        role,
        cut,
        note,
    })
}

fn addition() -> impl Strategy<Value = Addition> {
    (words(), words(), 0.0..1e6, vec((words(), 0.0..1e5), 0..3)).prop_map(|(at, why, left_g, added)| Addition {
        at,
        why,
        left_g,
        added,
    })
}

fn formula() -> impl Strategy<Value = Formula> {
    let style = of(select(Style::ALL.to_vec()));
    (
        "[a-z_]{1,12}",
        "[a-z ]{1,12}",
        style,
        select(Base::ALL.to_vec()),
        vec(line(), 0..6),
        vec(addition(), 0..2),
    )
        .prop_map(|(id, name, style, base, lines, log)| {
            let mut formula = Formula {
                id,
                name,
                style,
                base,
                lines,
                log,
            };
            formula.give_keys();
            formula
        })
}

fn entry() -> impl Strategy<Value = Entry> {
    let calibration = (
        1.0..9.0,
        select(vec![Scoop::Cup, Scoop::Tablespoon, Scoop::Teaspoon]),
        select(Cup::ALL.to_vec()),
        0.1..2.0,
    )
        .prop_map(|(count, measure, cup, density): (f64, _, _, f64)| Calibration {
            count,
            measure,
            cup,
            grams: density * count * measure.unit().millilitres(cup).unwrap(),
            date: "2026-11-25".into(),
        });
    let panel = (1.0..500.0, 0.0..0.3, 0.0..0.3, of(0.0..0.3)).prop_map(|(serving_g, protein, fat, fibre)| Panel {
        serving_g,
        protein_g: Some(protein * serving_g),
        fat_g: Some(fat * serving_g),
        fibre_g: fibre.map(|fibre: f64| fibre * serving_g),
        ..Panel::default()
    });
    let own = (
        of(words()),
        of(select(Role::ALL.to_vec())),
        // In the largest cup, 284 ml, lighter than 5.7 g would be lighter than any food.
        of(6.0..600.0),
        of(0.03..2.9),
    );
    (
        "[a-z_]{1,12}",
        "[a-z ]{0,5}[a-z]",
        own,
        vec(calibration, 0..3),
        of(panel),
    )
        .prop_map(
            |(id, name, (like, role, cup_g, density_g_per_ml), calibrations, panel)| Entry {
                id,
                name,
                like,
                role,
                cup_g,
                density_g_per_ml,
                calibrations,
                panel,
            },
        )
}

fn batch() -> impl Strategy<Value = Batch> {
    let patties = vec((1.0..50.0, 20.0..300.0), 1..3);
    prop_oneof![
        (0.01..100.0).prop_map(|factor| Batch::Factor { factor }),
        (1.0..1e6).prop_map(|grams| Batch::Total { grams }),
        (1u32..9, 1.0..1e6).prop_map(|(line, grams)| Batch::Limited { line, grams }),
        (patties, 0.0..80.0).prop_map(|(patties, loss_percent)| Batch::Patties {
            patties: patties
                .into_iter()
                .map(|(count, grams)| Patties { count, grams })
                .collect(),
            loss_percent,
        }),
    ]
}

fn document() -> impl Strategy<Value = Document> {
    let gauges = (
        select(vec![Degrees::Celsius, Degrees::Fahrenheit]),
        select(vec![Length::Millimetres, Length::Inches]),
        proptest::option::of(select(Language::ALL.to_vec())),
    );
    let settings = (select(Cup::ALL.to_vec()), 0.001..100.0, gauges, any::<bool>()).prop_map(
        |(cup, scale_step_g, (degrees, length, language), demo)| Settings {
            cup,
            scale_step_g,
            degrees,
            length,
            language,
            demo,
        },
    );
    let weighing = ("[a-z_]{1,12}", batch(), btree_map(1u32..400, 0.0..1e5, 0..4), 1.0..5.0).prop_map(
        |(formula, batch, poured, growth)| Weighing {
            formula,
            batch,
            poured,
            growth,
        },
    );
    (settings, vec(entry(), 0..4), vec(formula(), 0..4), of(weighing)).prop_map(
        |(settings, pantry, formulas, weighing)| Document {
            settings,
            pantry,
            formulas,
            weighing,
            ..Document::default()
        },
    )
}

proptest! {
    #[test]
    fn every_document_comes_back_as_it_was_written(document in document()) {
        let asked = read(&document.write()).unwrap();
        prop_assert_eq!(&asked.problems, &[]);
        prop_assert_eq!(&asked.document, &document);
        prop_assert_eq!(laws::opened_document(&document.write()), Ok(()));
    }

    #[test]
    fn a_document_with_a_piece_changed_or_lost_is_still_answered(document in document(), cut in any::<proptest::sample::Index>(), put in "\\PC{0,3}") {
        let mut text = document.write();
        let at = cut.index(text.len());
        let at = (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
        prop_assert_eq!(laws::opened_document(&text[..at]), Ok(()));
        text.insert_str(at, &put);
        prop_assert_eq!(laws::opened_document(&text), Ok(()));
    }

    #[test]
    fn any_bytes_are_answered(bytes in vec(any::<u8>(), 0..300)) {
        prop_assert_eq!(laws::opened_document(&String::from_utf8_lossy(&bytes)), Ok(()));
    }
}

/// Numbers that no kitchen has: each is refused with a sentence, or left out with one, or weighs nothing.
#[test]
fn numbers_no_kitchen_has_are_answered_with_a_sentence() {
    for number in [
        "1e999",
        "-1e999",
        "NaN",
        "Infinity",
        "1e308",
        "-1",
        "0",
        "1e-300",
        "99999999999999999999",
        "null",
        "\"7\"",
        "[]",
    ] {
        for place in [
            r#""settings":{"scale_step_g":@}"#,
            r#""pantry":[{"id":"a","name":"A","cup_g":@}]"#,
            r#""pantry":[{"id":"a","name":"A","density_g_per_ml":@}]"#,
            r#""pantry":[{"id":"a","name":"A","calibrations":[{"count":@,"measure":"cup","grams":@}]}]"#,
            r#""pantry":[{"id":"a","name":"A","panel":{"serving_g":@,"protein_g":@}}]"#,
            r#""formulas":[{"id":"a","lines":[{"key":@,"ingredient":"water","amount":"1 g"}]}]"#,
            r#""formulas":[{"id":"a","lines":[{"ingredient":"water","amount":"@ g"}]}]"#,
            r#""weighing":{"formula":"a","batch":{"by":"factor","factor":@},"poured":{"1":@},"growth":@}"#,
            r#""formulas":[{"id":"a","lines":[{"ingredient":"water","amount":"1 g"}]}],"questions":[{"ask":"scale","formula":"a","total_g":@}]"#,
            r#""formulas":[{"id":"a","lines":[{"ingredient":"water","amount":"1 g"}]}],"questions":[{"ask":"rescue","formula":"a","left_g":@,"symptom":"dry"}]"#,
        ] {
            let text = format!(r#"{{"format":"pattywright/1",{}}}"#, place.replace('@', number));
            assert_eq!(laws::opened_document(&text), Ok(()), "{text}");
        }
    }
}

#[test]
fn each_way_to_scale_a_batch_comes_back() {
    let ways = [
        (r#"{"by":"factor","factor":2.0}"#, Batch::Factor { factor: 2.0 }),
        (r#"{"by":"total","grams":800.0}"#, Batch::Total { grams: 800.0 }),
        (
            r#"{"by":"patties","patties":[{"count":4.0,"grams":90.0}],"loss_percent":3.0}"#,
            Batch::Patties {
                patties: vec![Patties {
                    count: 4.0,
                    grams: 90.0,
                }],
                loss_percent: 3.0,
            },
        ),
        (
            r#"{"by":"limited","line":2,"grams":120.0}"#,
            Batch::Limited { line: 2, grams: 120.0 },
        ),
    ];
    for (written, batch) in ways {
        assert_eq!(serde_json::to_string(&batch).unwrap(), written);
        assert_eq!(serde_json::from_str::<Batch>(written).unwrap(), batch);
    }
    for bad in [
        r#"{"by":"factor","grams":2}"#,
        r#"{"by":"limited","grams":2}"#,
        r#"{"by":"patties","patties":[]}"#,
        r#"{"by":"guess","factor":2}"#,
        r#"{"factor":2}"#,
    ] {
        assert!(serde_json::from_str::<Batch>(bad).is_err(), "{bad}");
    }
}

#[test]
fn nesting_deeper_than_any_document_is_refused() {
    for open in ["[", "{\"a\":", "{\"format\":\"pattywright/1\",\"formulas\":["] {
        let text = open.repeat(3_000_000 / open.len());
        assert!(read(&text).unwrap_err().to_string().contains("damaged"), "{open}");
    }
}

#[test]
fn a_weighing_that_cannot_be_is_left_out_with_a_sentence() {
    for (poured, growth) in [("-1", "1"), ("1e9", "1"), ("5", "-2"), ("5", "0"), ("5", "1e300")] {
        let text = format!(
            r#"{{"format":"pattywright/1","weighing":{{"formula":"a","batch":{{"by":"factor","factor":1}},"poured":{{"1":{poured}}},"growth":{growth}}}}}"#
        );
        let asked = read(&text).unwrap();
        assert_eq!(asked.document.weighing, None, "{text}");
        assert!(
            asked.problems[0].say.contains("Weigh that batch again"),
            "{:?}",
            asked.problems
        );
    }
}
