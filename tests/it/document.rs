//! The saved format, bad input, merging, pasted lists.

mod heat;

use pattywright::document::{Document, Understood, evaluate, paste, read};
use pattywright::measure::Cup;
use pattywright::pantry::Pantry;
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

#[track_caller]
fn check_pasted(text: &str, amount: &str, id: &str, understood: Understood) {
    let pasted = paste(&Pantry::new(&[], Cup::Us), text).unwrap().remove(0);
    assert_eq!(
        (pasted.line.amount.trim(), pasted.line.ingredient.as_deref()),
        (amount, (!id.is_empty()).then_some(id)),
        "{text}"
    );
    assert_eq!(pasted.understood, understood, "{text}");
}

#[test]
fn pasted_lines_are_understood_or_kept() {
    check_pasted(
        "1¾ cups soy granules (coarse)",
        "1¾ cups",
        "tvp_soy_granules",
        Understood::Yes,
    );
    check_pasted(
        "• half a cup of pea protein",
        "half a cup of",
        "pea_protein_isolate",
        Understood::Yes,
    );
    check_pasted(
        "- 1 to 2 tbsp soy sauce, to taste",
        "1 to 2 tbsp",
        "soy_sauce",
        Understood::Yes,
    );
    check_pasted("Salt 10 g", "10 g", "table_salt", Understood::Yes);
    check_pasted("2 cloves garlic", "2 cloves", "garlic_raw", Understood::Yes);
    check_pasted("3 tbsp moon dust", "3 tbsp", "", Understood::No);
    check_pasted("salt", "", "table_salt", Understood::Unsure);
    assert!(paste(&Pantry::new(&[], Cup::Us), &"1 g salt\n".repeat(10_000)).is_err());
}

proptest! {
    #[test]
    fn no_text_stops_the_reader(text in "\\PC{0,200}", tail in "[\\[\\]{}\",:0-9a-z ]{0,200}") {
        let _ = read(&text);
        let framed = format!(r#"{{"format":"pattywright/1","formulas":[{tail}"#);
        if let Ok(asked) = read(&framed) { evaluate(&asked); }
        let _ = paste(&Pantry::new(&[], Cup::Us), &format!("{text}\n{tail}"));
    }
}
