//! The ruler a reading is drawn on.

use pattywright::document::read;
use pattywright::formula::Reading;
use pattywright::sheet::formula::sheet;
use pattywright::sheet::rule::{Place, moved};

/// Our own way of drawing: only a reading far outside its range makes the ruler longer.
#[test]
fn a_range_takes_the_middle_half_of_its_ruler_while_the_reading_is_in_it() {
    let document = read(include_str!("../../documents/demo.json")).unwrap().document;
    let rules = sheet(&document.kitchen(), &document.formulas[0]).rules;
    let inside: Vec<_> = rules.iter().filter(|rule| rule.place == Place::Inside).collect();
    assert!(inside.len() >= 5, "{} readings lie in their range", inside.len());
    for rule in inside {
        // The ruler ends at zero, so a range near zero takes more of it, never less.
        let (low, high) = rule.window.unwrap();
        assert!(high - low >= 0.5 - 1e-9, "{}: {low} to {high}", rule.name);
    }
    let hydration = rules.iter().find(|rule| rule.reading == Reading::Hydration).unwrap();
    let (low, high) = hydration.window.unwrap();
    assert!(
        (low - 0.25).abs() < 1e-9 && (high - 0.75).abs() < 1e-9,
        "{low} to {high}"
    );
}

/// 1.5, 2.5 and 4 g of water to a gram of granules, where 2 to 3 is the range.
#[test]
fn a_reading_is_told_below_inside_or_above_its_range() {
    for (water, place) in [(150.0, Place::Below), (250.0, Place::Inside), (400.0, Place::Above)] {
        let text = format!(
            r#"{{"format":"pattywright/1","formulas":[{{"id":"mix","name":"Mix","style":"standard_patty","lines":[
            {{"ingredient":"tvp_soy_granules","amount":"100 g"}},{{"ingredient":"water","amount":"{water} g"}}]}}]}}"#
        );
        let document = read(&text).unwrap().document;
        let rules = sheet(&document.kitchen(), &document.formulas[0]).rules;
        let hydration = rules.iter().find(|rule| rule.reading == Reading::Hydration).unwrap();
        assert_eq!(hydration.place, place, "{water} g");
        let ((low, high), tick) = (hydration.window.unwrap(), hydration.tick.unwrap());
        let (left, right) = hydration.whisker.unwrap();
        assert_eq!(
            (tick < low, tick > high),
            (place == Place::Below, place == Place::Above)
        );
        assert!(
            (tick - left - (right - tick)).abs() < 1e-9 && left < tick,
            "{left} {tick} {right}"
        );
    }
}

/// The demonstration with a tenth more of its first line, and as it is.
#[test]
fn only_what_moved_or_is_outside_is_shown_again() {
    let document = read(include_str!("../../documents/demo.json")).unwrap().document;
    let weighed = document.kitchen().weigh(&document.formulas[0]);
    let before = weighed.readings();
    let outside = |place| matches!(place, Place::Below | Place::Above);
    let still = moved(&before, &before);
    assert!(still.iter().all(|rule| outside(rule.place)), "{still:?}");
    let mut masses: Vec<f64> = weighed.known().map(|(_, grams)| grams.value).collect();
    masses[0] *= 1.1;
    let after = weighed.with_masses(&masses, 1.0).readings();
    let shown = moved(&before, &after);
    assert!(shown.iter().any(|rule| rule.reading == Reading::Hydration), "{shown:?}");
    assert!(shown.len() > still.len() && shown.len() < before.len(), "{shown:?}");
}

/// Weighed to the gram, shares are known to a few in ten thousand; no cook judges by that, and no table of what is in food is as exact.
#[test]
fn a_reading_has_three_digits_however_exactly_it_was_weighed() {
    let text = r#"{"format":"pattywright/1","formulas":[{"id":"mix","name":"Mix","style":"standard_patty","lines":[
        {"ingredient":"tvp_soy_granules","amount":"295.25 g"},{"ingredient":"water","amount":"592.27 g"},
        {"ingredient":"methylcellulose","amount":"17.485 g"},{"ingredient":"canola_oil","amount":"21.169 g"}]}]}"#;
    let document = read(text).unwrap().document;
    let rules = sheet(&document.kitchen(), &document.formulas[0]).rules;
    let told = |reading| rules.iter().find(|rule| rule.reading == reading).unwrap().figure.text();
    // 592.27 ÷ 295.25 = 2.006, less what tap water holds; 17.485 of 926.17 g are 1.888 %, and ± 0.29 g is one part in 60 of that.
    assert_eq!(told(Reading::Hydration), "2.00");
    assert_eq!(told(Reading::BinderShare), "1.89 ± 0.03 %");
    assert_eq!(told(Reading::Moisture), "66.0 %");
}
