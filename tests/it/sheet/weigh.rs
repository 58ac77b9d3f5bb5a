//! The Weigh room as it is told: 50 g of granules and 125 g of water, twice, by hand.

use pattywright::document::{Document, read};
use pattywright::formula::{Batch, Reading};
use pattywright::sheet::weigh::{WeighRow, WeighSheet, sheet};

fn started() -> Document {
    let text = r#"{"format":"pattywright/1","formulas":[{"id":"mix","name":"Mix","style":"standard_patty","lines":[
        {"ingredient":"tvp_soy_granules","amount":"50 g"},{"ingredient":"water","amount":"125 g"}]}]}"#;
    let mut document = read(text).unwrap().document;
    document.start_weighing("mix", Batch::Factor { factor: 2.0 });
    document
}

fn look(document: &Document) -> (WeighSheet, [WeighRow; 2]) {
    let weighing = document.weighing.as_ref().unwrap();
    let sheet = sheet(&document.kitchen(), &document.formulas[0], weighing).unwrap();
    let rows: Vec<WeighRow> = sheet.stages.iter().flat_map(|stage| stage.rows.clone()).collect();
    (sheet, rows.try_into().unwrap())
}

fn pour(document: &mut Document, row: &WeighRow, grams: f64) {
    document.weighing.as_mut().unwrap().poured.insert(row.key, grams);
}

#[test]
fn a_batch_poured_as_planned() {
    let mut document = started();
    let (sheet, rows) = look(&document);
    assert_eq!(sheet.summary, "350 g of mix, 2.00 times the formula");
    assert_eq!(rows.each_ref().map(|row| row.grams.as_str()), ["100 g", "250 g"]);
    assert_eq!(rows.each_ref().map(|row| row.running.as_str()), ["100 g", "350 g"]);
    for row in &rows {
        assert!(!look(&document).0.done);
        document.weighing.as_mut().unwrap().tick(row);
    }
    let (sheet, rows) = look(&document);
    assert!(sheet.done && rows.iter().all(|row| row.ticked && row.over.is_empty()));
    assert_eq!((sheet.on_scale.as_str(), sheet.rules.len()), ("350 g", 0));
    document.weighing.as_mut().unwrap().tick(&rows[0]);
    assert_eq!(look(&document).0.on_scale, "250 g");
}

#[test]
fn what_is_short_is_still_to_come() {
    let mut document = started();
    let (_, rows) = look(&document);
    pour(&mut document, &rows[0], 75.0);
    let (sheet, rows) = look(&document);
    assert_eq!((rows[0].grams.as_str(), rows[0].ticked), ("25 g more", false));
    assert!(!sheet.done && rows[0].over.is_empty());
    assert_eq!(rows[1].running, "325 g");
}

/// 120 g of granules where 100 g were planned: 1.2 times as much of all the rest brings it into proportion again.
#[test]
fn an_over_pour_is_told_and_put_right() {
    let mut document = started();
    let (_, rows) = look(&document);
    pour(&mut document, &rows[0], 120.0);
    let (sheet, rows) = look(&document);
    assert!(
        rows[0].over.starts_with("120 g went in, 20 g over."),
        "{}",
        rows[0].over
    );
    assert!(rows[0].ticked);
    let hydration = sheet.rules.iter().find(|rule| rule.reading == Reading::Hydration);
    // The granules bring 6.24 % of water of their own (FNDDS 41440000).
    let by_hand = 250.0 / 120.0;
    let told = hydration.and_then(|rule| rule.value).unwrap();
    assert!((told - by_hand).abs() < 0.07, "{told}");

    document.weighing.as_mut().unwrap().scale_the_rest(&rows[0]);
    let (sheet, rows) = look(&document);
    assert_eq!(sheet.summary, "420 g of mix, 2.40 times the formula");
    assert_eq!((rows[0].over.as_str(), rows[0].ticked), ("", true));
    assert_eq!(rows[1].grams, "300 g");
    assert!(sheet.rules.is_empty(), "all is in proportion again");
}
