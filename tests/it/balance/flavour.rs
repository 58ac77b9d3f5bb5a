//! The top-up that keeps the flavour.

use super::{advise, mix};
use pattywright::balance::{Add, Symptom, apply};
use pattywright::pantry::Role;

#[test]
fn what_was_to_be_thinned_is_not_put_back() {
    let document = mix(&[
        ("tvp_soy_granules", 150.0),
        ("pea_protein_isolate", 30.0),
        ("water", 385.0),
        ("methylcellulose", 9.0),
        ("coconut_oil", 60.0),
        ("table_salt", 16.0),
        ("cocoa_powder", 9.0),
    ]);
    let put_back = |symptom, id: &str| {
        let rescued = advise(&document, symptom);
        assert!(!rescued.add.is_empty(), "{symptom:?}");
        rescued.top_up.iter().any(|add| add.ingredient == id)
    };
    assert!(!put_back(Symptom::TooSalty, "table_salt") && put_back(Symptom::TooSalty, "cocoa_powder"));
    assert!(!put_back(Symptom::TooDark, "cocoa_powder") && put_back(Symptom::TooDark, "table_salt"));
}

/// Shares of seasoning and colour stay within 5 % of what they were, with the top-up in.
#[test]
fn the_flavour_is_kept() {
    let document = mix(&[
        ("tvp_soy_granules", 150.0),
        ("water", 250.0),
        ("methylcellulose", 3.0),
        ("coconut_oil", 60.0),
        ("table_salt", 7.0),
        ("cocoa_powder", 5.0),
    ]);
    let kitchen = document.kitchen();
    let before = kitchen.weigh(&document.formulas[0]);
    let mut topped_up = 0;
    for symptom in Symptom::ALL {
        let rescued = advise(&document, symptom);
        topped_up += usize::from(!rescued.top_up.is_empty());
        let all: Vec<Add> = rescued.add.iter().chain(&rescued.top_up).cloned().collect();
        let after = apply(&kitchen, &document.formulas[0], 400.0, &all, "", "").unwrap();
        let after = kitchen.weigh(&after);
        for (line, was) in after.lines.iter().zip(&before.lines) {
            let thinned = matches!(symptom, Symptom::TooSalty | Symptom::TooDark);
            if matches!(line.role, Role::Seasoning | Role::Colour) && !thinned {
                let kept = after.share(line).unwrap() / before.share(was).unwrap();
                // The formula keeps hundredths of a gram.
                assert!((0.949..=1.051).contains(&kept), "{symptom:?} {}: {kept}", line.name);
            }
        }
    }
    assert!(topped_up > 0);
}
