//! Pan, press and oven, as the Cook room and the document ask for them.

use pattywright::document::{Cooking, evaluate, read};
use pattywright::heat::cook::{Plan, Stove};
use pattywright::measure::Degrees;
use pattywright::sheet::cook::{HeatSheet, sheet, strips};
use pattywright::sheet::timer::Call;
use serde_json::{Value, json};

const DEMO: &str = include_str!("../documents/demo.json");

fn heat(stove: Stove, pan_c: f64) -> HeatSheet {
    let document = read(DEMO).unwrap().document;
    let cooking = Cooking {
        stove,
        pan_c,
        ..Cooking::default()
    };
    let sheet = sheet(
        &document.kitchen(),
        &document.settings,
        &document.formulas[0],
        &cooking,
        &Plan::answers,
    )
    .unwrap();
    sheet.builds[0].clone().unwrap().heat.unwrap()
}

/// Between two hot plates a patty is done sooner than over one; in an oven, through still air, later.
/// Source of the order: heat from two sides halves the way it has to go (Incropera, 6th ed., ch. 5: time as thickness squared);
/// published plates of 177 to 204 °C cook 10 to 11 mm in about 2 minutes (J Food Process Preserv 2001;25:207, abstract).
#[test]
fn plates_are_quicker_than_a_pan_and_an_oven_slower() {
    let [pan, press, oven] = Stove::ALL.map(|stove| heat(stove, 190.0));
    assert!(press.done.seconds < pan.done.seconds && pan.done.seconds < oven.done.seconds);
    assert!((60..=200).contains(&press.done.seconds), "{:?}", press.done);
    assert!(pan.turn.is_ok());
    for way in [press, oven] {
        assert!(way.turn.unwrap_err().contains("not turned"));
    }
}

#[test]
fn an_oven_has_its_own_caution() {
    assert!(
        heat(Stove::Oven, 200.0)
            .cautions
            .iter()
            .any(|said| said.contains("tray"))
    );
    assert!(
        heat(Stove::Pan, 180.0)
            .cautions
            .iter()
            .any(|said| said.contains("Hot fat burns"))
    );
}

#[test]
fn a_document_may_ask_for_any_of_them() {
    let mut document: Value = serde_json::from_str(DEMO).unwrap();
    let id = document["formulas"][0]["id"].clone();
    document["questions"] = ["pan", "press", "oven", "campfire"]
        .map(|stove| json!({ "ask": "cook", "formula": id, "thickness_mm": 10, "pan_c": 190, "stove": stove }))
        .to_vec()
        .into();
    let report = serde_json::to_value(evaluate(&read(&document.to_string()).unwrap())).unwrap();
    let done = |which: usize| report["answers"][which]["done_s"]["value"].as_f64();
    assert!(
        done(1) < done(0) && done(0) < done(2),
        "{:?}",
        [done(0), done(1), done(2)]
    );
    assert!(report["answers"][3]["why"].as_str().unwrap().contains("campfire"));
}

/// Trade practice, no source: about 400 °F for 6 to 7 minutes, first look at 3.
#[test]
fn strips_follow_the_trade() {
    let (says, marks) = strips(Degrees::Celsius);
    assert!(
        says.contains("204 °C for 6 to 7 minutes") && says.contains("after 3"),
        "{says}"
    );
    assert_eq!(marks, [(Call::Look, 180), (Call::Out, 360)]);
    assert!(strips(Degrees::Fahrenheit).0.contains("399 °F") || strips(Degrees::Fahrenheit).0.contains("400 °F"));
}

/// A bun of 100 mm with 5 mm over each edge wants what a bun of 110 mm does.
#[test]
fn an_overhang_is_a_wider_bun() {
    let document = read(DEMO).unwrap().document;
    let wide = |bun_mm, overhang_mm| {
        let cooking = Cooking {
            bun_mm,
            overhang_mm,
            ..Cooking::default()
        };
        let sheet = sheet(
            &document.kitchen(),
            &document.settings,
            &document.formulas[0],
            &cooking,
            &Plan::answers,
        );
        sheet.unwrap().builds[0].clone().unwrap().for_bun
    };
    let form = |said: &str| said.split("form it ").nth(1).unwrap().to_owned();
    let (over, plain) = (wide(100.0, 5.0), wide(110.0, 0.0));
    assert!(
        over.starts_with("To hang 5 mm over the edge of a bun of 100 mm"),
        "{over}"
    );
    assert_eq!(form(&over), form(&plain));
}

/// On an open rack both faces meet the kitchen's air; a bun keeps the heat, so the gel stays firm longer on the bun.
#[test]
fn a_rack_cools_sooner_than_a_bun() {
    let document = read(DEMO).unwrap().document;
    let softens = |rest: &str| {
        let mut asking: Value = serde_json::from_str(&document.write()).unwrap();
        let id = asking["formulas"][0]["id"].clone();
        asking["questions"] = json!([{ "ask": "cook", "formula": id, "thickness_mm": 10, "pan_c": 190, "rest": rest }]);
        let report = serde_json::to_value(evaluate(&read(&asking.to_string()).unwrap())).unwrap();
        report["answers"][0].clone()
    };
    let (bun, rack) = (softens("bun"), softens("rack"));
    let minutes = |answer: &Value| {
        answer
            .as_object()
            .unwrap()
            .iter()
            .find(|(name, _)| name.contains("soft"))
            .map(|(_, value)| value["value"].as_f64().unwrap())
            .unwrap()
    };
    assert!(minutes(&rack) < minutes(&bun), "{rack} {bun}");
}
