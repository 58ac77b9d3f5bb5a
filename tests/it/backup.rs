//! Backups: what is added is all there, and nothing that was here is touched.

use pattywright::document::{Document, add, read};
use pattywright::formula::{Formula, Line};
use pattywright::pantry::Entry;
use pattywright::sheet::backup::{last_backup, preview};

const DEMO: &str = include_str!("../documents/demo.json");
const HOUR_MS: f64 = 3_600_000.0;

fn line(key: u32, ingredient: &str, amount: &str) -> Line {
    Line {
        key,
        ingredient: Some(ingredient.into()),
        amount: amount.into(),
        ..Line::default()
    }
}

fn formula(id: &str, lines: Vec<Line>) -> Formula {
    Formula {
        id: id.into(),
        name: id.replace('_', " "),
        lines,
        ..Formula::default()
    }
}

fn book(formulas: Vec<Formula>, pantry: Vec<Entry>) -> Document {
    Document {
        formulas,
        pantry,
        ..Document::default()
    }
}

/// An ingredient of the cook's own, or an own weighing of a published one.
fn own(id: &str, cup_g: f64) -> Entry {
    let published = pattywright::pantry::listed(id).is_some();
    Entry {
        id: id.into(),
        name: if published { String::new() } else { id.replace('_', " ") },
        cup_g: Some(cup_g),
        ..Entry::default()
    }
}

fn names(document: &Document) -> Vec<&str> {
    document.formulas.iter().map(|formula| formula.name.as_str()).collect()
}

#[test]
fn a_backup_of_what_is_here_adds_nothing() {
    let now = read(DEMO).unwrap().document;
    assert_eq!(add(&now, &now), Ok(now));
}

#[test]
fn a_formula_that_differs_is_kept_twice_and_never_mixed() {
    let now = book(
        vec![formula(
            "shed_patty",
            vec![line(1, "water", "1 cup"), line(3, "table_salt", "1 tsp")],
        )],
        vec![],
    );
    let more = book(
        vec![formula(
            "shed_patty",
            vec![line(1, "water", "1 cup"), line(2, "methylcellulose", "9 g")],
        )],
        vec![],
    );
    let all = add(&now, &more).unwrap();
    assert_eq!(all.formulas[0], now.formulas[0]);
    assert_eq!(all.formulas[1].lines, more.formulas[0].lines);
    assert_eq!(names(&all), ["shed patty", "shed patty (from backup)"]);
    assert_ne!(all.formulas[0].id, all.formulas[1].id);
    let again = add(&all, &book(vec![formula("shed_patty", vec![])], vec![])).unwrap();
    assert_eq!(names(&again)[2], "shed patty (from backup 2)");
}

#[test]
fn the_same_name_under_another_id_is_told_apart() {
    let mut other = formula("another", vec![line(1, "water", "1 cup")]);
    other.name = "shed patty".into();
    let all = add(
        &book(vec![formula("shed_patty", vec![])], vec![]),
        &book(vec![other], vec![]),
    )
    .unwrap();
    assert_eq!(names(&all), ["shed patty", "shed patty (from backup)"]);
}

#[test]
fn a_formula_that_uses_one_that_differs_comes_along_and_points_to_it() {
    let within = |amount: &str| {
        let part = Line {
            key: 1,
            formula: Some("crumbs".into()),
            amount: "50 g".into(),
            ..Line::default()
        };
        vec![
            formula("burger", vec![part]),
            formula("crumbs", vec![line(1, "water", amount)]),
        ]
    };
    let all = add(&book(within("10 g"), vec![]), &book(within("20 g"), vec![])).unwrap();
    assert_eq!(all.formulas[..2], within("10 g"));
    let crumbs = &all.formulas[3];
    assert_eq!(crumbs.lines[0].amount, "20 g");
    assert_eq!(all.formulas[2].lines[0].formula.as_deref(), Some(crumbs.id.as_str()));
}

/// Ids of the copies may not fall upon ids that the backup itself brings.
#[test]
fn an_own_ingredient_that_differs_is_kept_twice_and_its_formula_points_to_it() {
    let here = vec![
        own("shed_flour", 120.0),
        own("table_salt", 290.0),
        own("shed_oats", 90.0),
    ];
    let now = book(vec![], here);
    let lines = vec![line(1, "shed_flour", "1 cup"), line(2, "table_salt", "1 tsp")];
    let more = book(
        vec![formula("dumpling", lines)],
        vec![
            own("shed_flour", 140.0),
            own("shed_flour_2", 99.0),
            own("table_salt", 310.0),
            own("shed_oats", 90.0),
            own("shed_bran", 60.0),
            own("coconut_oil", 218.0),
        ],
    );
    let all = add(&now, &more).unwrap();
    assert_eq!(all.pantry[..3], now.pantry);
    let mut ids: Vec<&str> = all.pantry.iter().map(|entry| entry.id.as_str()).collect();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!((ids.len(), all.pantry.len()), (8, 8), "{ids:?}");
    let find = |cup_g| all.pantry.iter().find(|entry| entry.cup_g == Some(cup_g)).unwrap();
    let used: Vec<_> = all.formulas[0]
        .lines
        .iter()
        .map(|line| line.ingredient.as_deref())
        .collect();
    assert_eq!(used, [Some(find(140.0).id.as_str()), Some(find(310.0).id.as_str())]);
    assert_eq!(find(310.0).like.as_deref(), Some("table_salt"));
    assert!(find(310.0).name.ends_with("(from backup)"), "{}", find(310.0).name);
    // What is the same here is not kept twice, and what is new comes as it is.
    for (index, cup_g) in [(1, 99.0), (4, 60.0), (5, 218.0)] {
        assert_eq!(find(cup_g), &more.pantry[index]);
    }
    assert_eq!(read(&all.write()).unwrap().problems, vec![]);
}

#[test]
fn settings_stay_and_a_demonstration_with_own_work_is_none() {
    let mut demo = read(DEMO).unwrap().document;
    demo.settings.demo = true;
    let mut more = book(vec![formula("mine", vec![])], vec![]);
    more.settings.scale_step_g = 0.1;
    let all = add(&demo, &more).unwrap();
    assert_eq!(
        (all.settings.demo, all.settings.scale_step_g),
        (false, demo.settings.scale_step_g)
    );
    assert!(!add(&more, &demo).unwrap().settings.demo);
}

#[test]
fn more_than_a_book_holds_is_refused() {
    let many = |stem: &str| {
        let formulas = (0..1_500).map(|n| formula(&format!("{stem}_{n}"), vec![])).collect();
        book(formulas, vec![])
    };
    let why = add(&many("here"), &many("there")).unwrap_err().to_string();
    assert!(why.contains("more than 2000 formulas together with yours"), "{why}");
}

#[test]
fn a_backup_says_when_it_was_saved_and_reads_as_the_same_document() {
    let document = read(DEMO).unwrap().document;
    let back = read(&document.write_backup("2026-11-13 18:40")).unwrap();
    assert_eq!(
        (back.saved.as_deref(), &back.document),
        (Some("2026-11-13 18:40"), &document)
    );
    assert_eq!(read(DEMO).unwrap().saved, None);
    let hostile = document.write_backup(&"\"},{\\\n".repeat(100));
    assert_eq!(read(&hostile).unwrap().saved.map(|when| when.chars().count()), Some(40));
}

#[test]
fn the_preview_says_what_is_in_it() {
    let now = book(vec![formula("shed_patty", vec![])], vec![]);
    let text = book(
        vec![
            formula("shed_patty", vec![line(1, "water", "1 g")]),
            formula("crumbs", vec![]),
        ],
        vec![own("table_salt", 290.0)],
    )
    .write_backup("2026-11-13 18:40");
    let says = preview(&read(&text).unwrap(), &now).join(" ");
    assert!(
        says.starts_with("Saved on 2026-11-13 18:40. 2 formulas: shed patty, crumbs. 1 own ingredient: "),
        "{says}"
    );
    assert!(
        says.ends_with("Not the same as what you have now: shed patty. If you add it, both are kept."),
        "{says}"
    );
    let many = book((0..40).map(|n| formula(&format!("f{n}"), vec![])).collect(), vec![]);
    let says = preview(&read(&many.write()).unwrap(), &now).join(" ");
    assert!(
        says.starts_with("The file does not say when it was saved. 40 formulas: f0, "),
        "{says}"
    );
    assert!(says.ends_with(" and 28 more."), "{says}");
}

#[test]
fn the_age_of_the_last_backup_is_told_in_words() {
    let now = 1_000_000.0 * HOUR_MS;
    let says = |hours: f64| last_backup(Some(now - hours * HOUR_MS), now);
    assert_eq!(last_backup(None, now), "Never backed up.");
    for (hours, wanted) in [
        (0.1, "within the hour."),
        (1.0, "1 hour ago."),
        (23.9, "23 hours ago."),
        (24.0, "1 day ago."),
        (12.5 * 24.0, "12 days ago."),
        (90.0 * 24.0, "2 months ago."),
        (800.0 * 24.0, "2 years ago."),
    ] {
        assert_eq!(says(hours), format!("Last backup: {wanted}"));
    }
    for strange in [-2.0, -1e7, 9e5, f64::NEG_INFINITY] {
        assert!(
            says(strange).contains("clock was changed") || says(strange) == "Never backed up.",
            "{}",
            says(strange)
        );
    }
}
