//! Cups to grams and back, as it is told.

use pattywright::document::Document;
use pattywright::sheet::convert::sheet;

/// A weight into spoons and a spoon into grams stand on the same density, and the cook has to know how sure that is.
#[test]
fn the_source_told_is_that_of_the_density() {
    let document = Document::default();
    let kitchen = document.kitchen();
    let salt = kitchen.pantry.get("table_salt").unwrap();
    let told = |typed| {
        let sheet = sheet(&kitchen, &salt, typed, None).unwrap();
        (sheet.source, sheet.starting)
    };
    assert!(!told("1 tsp").0.is_empty());
    assert_eq!(told("50 g"), told("1 tsp"));
}
