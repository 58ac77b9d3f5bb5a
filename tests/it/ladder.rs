//! The levers: one more spoon of each line.

use pattywright::document::read;
use pattywright::sheet::formula::sheet;
use pattywright::sheet::ladder::ladder;

const MIX: &str = r#"{"format":"pattywright/1","formulas":[{"id":"mix","name":"Mix","style":"standard_patty","lines":[
    {"ingredient":"tvp_soy_granules","amount":"150 g"},{"ingredient":"water","amount":"375 g"},
    {"ingredient":"methylcellulose","amount":"9 g"},{"ingredient":"coconut_oil","amount":"66 g"}]}]}"#;

/// By hand: 600 g with 9 g of binder is 1.5 %; a level teaspoon of 2.2 g more (0.45 g/ml, from memory) makes
/// 11.218 of 602.218 g, 1.863 %.
#[test]
fn a_teaspoon_of_binder_moves_the_binder_most() {
    let document = read(MIX).unwrap().document;
    let rungs = ladder(&document.kitchen(), &document.formulas[0]);
    assert_eq!(rungs.len(), 4);
    let binder = &rungs[2];
    assert_eq!(binder.step, "Methylcellulose, 1 tsp more (2.2 g)");
    assert!(
        binder
            .moves
            .iter()
            .any(|says| says == "Binder in the mix 1.50 → 1.86 %"),
        "{binder:?}"
    );
    // 5 g of water: 380/150 by weight, counted with what little water the granules' own line brings to neither.
    assert!(
        rungs[1].step == "Water, 5 g more" && !rungs[1].moves.is_empty(),
        "{:?}",
        rungs[1]
    );
}

#[test]
fn no_lever_is_shown_while_a_line_is_not_weighed() {
    let document = read(&MIX.replace("375 g", "some")).unwrap().document;
    assert!(ladder(&document.kitchen(), &document.formulas[0]).is_empty());
}

#[test]
fn weighing_the_first_thing_says_what_it_gains() {
    let document = read(&MIX.replace("9 g", "1 tbsp")).unwrap().document;
    let says = sheet(&document.kitchen(), &document.formulas[0]).weigh_first;
    assert!(says.starts_with("Weigh the methylcellulose first"), "{says}");
    assert!(says.contains("then falls to about ±"), "{says}");
}
