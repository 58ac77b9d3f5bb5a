//! The saved format, bad input, pasted lists.

mod heat;
mod paste;
mod saved;
mod words;

use crate::laws;
use pattywright::document::{evaluate, read};
use proptest::prelude::*;

const DEMO: &str = include_str!("../documents/demo.json");

#[test]
fn the_demonstration_reads_round_trips_and_answers_everything() {
    let asked = read(DEMO).unwrap();
    assert!(asked.problems.is_empty());
    assert_eq!(read(&asked.document.write()).unwrap().document, asked.document);
    let report = evaluate(&asked);
    assert!(report.problems.is_empty(), "{:?}", report.problems);
    assert!(report.formulas.iter().all(|formula| formula.complete));
    let report = serde_json::to_value(&report).unwrap();
    for (question, answer) in asked.questions.iter().zip(report["answers"].as_array().unwrap()) {
        assert_eq!(question["ask"], answer["ask"]);
        assert!(answer.get("why").is_none(), "{answer}");
    }
    assert_eq!(report["answers"][2]["mix_g"].as_f64().unwrap().round(), 649.0);
}

#[track_caller]
fn check_refused(text: &str, says: &str) {
    let why = read(text).unwrap_err().to_string();
    assert!(why.contains(says), "{why}");
}

#[test]
fn broken_files_get_a_sentence() {
    check_refused("", "damaged");
    check_refused(&DEMO[..DEMO.len() / 2], "damaged or cut short");
    check_refused("[]", "not a Pattywright file");
    check_refused(r#"{"format":"other/1"}"#, "not a Pattywright file");
    check_refused(r#"{"format":"pattywright/99"}"#, "does not know yet");
    check_refused(&"[".repeat(100_000), "damaged");
    check_refused(&" ".repeat(5_000_000), "larger than 4 MB");
    let lines = r#"{"ingredient":"water","amount":"1 g"},"#.repeat(10_000);
    let long = format!(
        r#"{{"format":"pattywright/1","formulas":[{{"id":"a","lines":[{}]}}]}}"#,
        lines.trim_end_matches(',')
    );
    check_refused(&long, "more than 300 lines");
}

#[test]
fn a_bad_part_is_named_and_the_rest_is_answered() {
    let text = r#"{"format":"pattywright/1","formulas":[{"id":"a","lines":[{"ingredient":"nothing_such","amount":"1 g"},{"ingredient":"water","amount":"10 g"},7]}],
        "questions":[{"ask":"dance"},{"ask":"convert","ingredient":"table_salt","amount":"1 tsp","to":"g"}]}"#;
    let report = evaluate(&read(text).unwrap());
    let places: Vec<&str> = report.problems.iter().map(|problem| problem.place.as_str()).collect();
    assert_eq!(places, ["formulas[0].lines[2]", "formulas[0].lines[0]", "questions[0]"]);
    let report = serde_json::to_value(&report).unwrap();
    assert_eq!(report["formulas"][0]["lines"][1]["grams"], 10.0);
    assert!((report["answers"][1]["value"].as_f64().unwrap() - 6.0).abs() < 1e-9);
}

/// 100 g of granules and 300 g of water, asked for in each way, come to the same half; two ways at once are refused.
#[test]
fn a_batch_may_be_asked_for_in_four_ways() {
    let ask = |how: &str| {
        let text = format!(
            r#"{{"format":"pattywright/1","formulas":[{{"id":"a","lines":[{{"ingredient":"tvp_soy_granules","amount":"100 g"}},
            {{"ingredient":"water","amount":"300 g"}}]}}],"questions":[{{"ask":"scale","formula":"a",{how}}}]}}"#
        );
        serde_json::to_value(evaluate(&read(&text).unwrap())).unwrap()["answers"][0].clone()
    };
    let patties = r#""patties":[{"count":2,"grams":95}],"loss_percent":5"#;
    for how in [
        r#""factor":0.5"#,
        r#""total_g":200"#,
        r#""limited":{"ingredient":"water","grams":150}"#,
        patties,
    ] {
        let answer = ask(how);
        let number = |place: &str| answer.pointer(place).and_then(|found| found.as_f64()).unwrap();
        for (place, by_hand) in [
            ("/factor", 0.5),
            ("/mix_g", 200.0),
            ("/running_total_g/0", 50.0),
            ("/running_total_g/1", 200.0),
        ] {
            assert!((number(place) - by_hand).abs() < 1e-9, "{how} {place}: {answer}");
        }
    }
    for more in [
        r#""factor":0.5"#,
        r#""total_g":200"#,
        r#""limited":{"ingredient":"water","grams":150}"#,
    ] {
        let refused = ask(&format!("{patties},{more}"));
        assert!(refused["why"].is_string(), "{more}: {refused}");
    }
}

#[test]
fn a_question_that_is_none_is_named() {
    let text = r#"{"format":"pattywright/1","questions":[7,{"to":"g"},{"ask":["swap"]},{"ask":"swap","formula":"a"},
        {"ask":"reach","formula":"a","want":[{"reading":"protein","low":[18]}]}]}"#;
    let report = evaluate(&read(text).unwrap());
    let said: Vec<&str> = report.problems.iter().map(|problem| problem.say.as_str()).collect();
    assert_eq!(report.answers.len(), 5);
    for (said, part) in said.iter().zip([
        "invalid type",
        "`ask`",
        "`ask`",
        "`from`",
        "a limit is a number or a text",
    ]) {
        assert!(said.contains(part), "{said}");
    }
    assert_eq!(said.len(), 5, "{said:?}");
}

proptest! {
    #[test]
    fn no_text_in_a_document_s_frame_stops_the_reader(tail in "[\\[\\]{}\",:0-9a-z ]{0,200}") {
        let framed = format!(r#"{{"format":"pattywright/1","formulas":[{tail}"#);
        prop_assert_eq!(laws::opened_document(&framed), Ok(()));
    }
}
