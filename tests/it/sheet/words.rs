//! The sheets in German: whole sentences, the same figures, and no English left between them.

use pattywright::balance::Aim;
use pattywright::document::{Asked, Build, Cooking, Document, Weighing, paste, read};
use pattywright::formula::{Batch, Formula, Reading};
use pattywright::heat::cook::{Plan, Rest, Stove};
use pattywright::measure::Degrees;
use pattywright::patty::Shape;
use pattywright::sheet::backup::{last_backup, preview};
use pattywright::sheet::timer::{Call, Timer};
use pattywright::sheet::{change, convert, cook, evidence, formula, guide, ladder, pantry, rescue, safety, weigh};
use pattywright::words::{Language, speak};
use std::collections::BTreeMap;

const DEMO: &str = include_str!("../../documents/demo.json");

fn demo() -> Document {
    read(DEMO).unwrap().document
}

#[track_caller]
fn no_english(texts: &[String]) {
    for text in texts {
        let padded = format!(" {text} ");
        for word in [
            " the ", " of ", " and ", " is ", "Type ", " with ", " to ", " it ", " not ",
        ] {
            assert!(!padded.contains(word), "{word:?} in {text:?}");
        }
    }
}

/// Figures as they are in any language: digits, the decimal mark a point.
fn figures(text: &str) -> Vec<String> {
    let number = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    let mut all: Vec<String> = text
        .split(|c| !number(c))
        .map(|figure| figure.trim_matches(['.', ',']).replace(',', "."))
        .filter(|figure| !figure.is_empty())
        .collect();
    all.sort_unstable();
    all
}

fn cautions() -> Vec<String> {
    let all = safety::wet_mix().into_iter().chain([safety::powder()]);
    let texts = all.flat_map(|caution| [caution.says, caution.source]);
    texts.chain([safety::first()]).map(str::to_owned).collect()
}

/// A caution that lost a figure on the way, or a word of who comes first, would be another caution.
#[test]
fn a_caution_has_the_same_figures_and_defers_to_the_same() {
    let english = cautions();
    speak(Language::German);
    let german = cautions();
    for (english, german) in english.iter().zip(&german) {
        assert_ne!(english, german);
        assert_eq!(figures(english), figures(german), "{german}");
    }
    // The title of a book stays as printed.
    let title = "Handbook of Hydrocolloids";
    no_english(&german.iter().map(|text| text.replace(title, "")).collect::<Vec<_>>());
    assert_eq!(
        german[0],
        "Behandle die Masse, sobald sie nass ist, als leicht verderblich: 5 °C (41 °F) oder kälter, und nur während der \
         Arbeit außerhalb des Kühlschranks."
    );
    assert_eq!(
        safety::first(),
        "Örtliche Vorschriften und die Praxis zugelassener Fachbetriebe gehen vor."
    );
}

#[test]
fn the_formula_and_its_readings_are_told_in_german() {
    speak(Language::German);
    let document = demo();
    let (kitchen, patty) = (document.kitchen(), &document.formulas[0]);
    let sheet = formula::sheet(&kitchen, patty);
    let mut texts = vec![sheet.weigh_first.clone(), guide::done().into()];
    let first = &kitchen.weigh(patty).lines[0].name;
    assert!(
        sheet
            .weigh_first
            .starts_with(&format!("Zuerst wiegen: {first}. Tasse oder Löffel machen ")),
        "{}",
        sheet.weigh_first
    );
    texts.extend(sheet.rules.iter().map(|rule| rule.says.clone()));
    let hydration = sheet.rules.iter().find(|rule| rule.reading == Reading::Hydration);
    assert_eq!(hydration.unwrap().says, "2,5 ± 0,5, im Bereich 2,0–3,0.");
    texts.extend(ladder::ladder(&kitchen, patty).into_iter().map(|rung| rung.step));
    for reading in Reading::ALL {
        let found = evidence::evidence(reading, Some(0.9));
        texts.push(found.used);
        texts.extend(found.plots.into_iter().map(|plot| plot.says));
    }
    no_english(&texts);

    let mut unweighed = patty.clone();
    unweighed.lines[0].amount = String::new();
    assert_eq!(
        formula::sheet(&kitchen, &unweighed).incomplete,
        format!("Mindestens so viel; noch nicht gewogen: {first}")
    );
}

#[test]
fn scale_rescue_and_change_are_told_in_german() {
    speak(Language::German);
    let document = demo();
    let (kitchen, patty) = (document.kitchen(), &document.formulas[0]);
    let mut weighing = Weighing {
        formula: patty.id.clone(),
        batch: Batch::Factor { factor: 1.5 },
        poured: BTreeMap::new(),
        growth: 1.0,
    };
    let planned = weigh::sheet(&kitchen, patty, &weighing).unwrap();
    let rows: Vec<_> = planned.stages.iter().flat_map(|stage| &stage.rows).collect();
    weighing.poured.insert(rows[0].key, 2.0 * rows[0].planned);
    weighing.poured.insert(rows[1].key, 0.5 * rows[1].planned);
    let sheet = weigh::sheet(&kitchen, patty, &weighing).unwrap();
    assert!(
        sheet.summary.ends_with(" Masse, 1,50-mal die Rezeptur"),
        "{}",
        sheet.summary
    );
    let mut texts = vec![sheet.summary];
    for row in sheet.stages.into_iter().flat_map(|stage| stage.rows) {
        texts.extend([row.grams, row.spoons, row.over]);
    }
    for shown in [
        "noch ",
        "etwa ",
        " zu viel. Den Rest daran anpassen oder beim Plan bleiben?",
    ] {
        assert!(texts.iter().any(|text| text.contains(shown)), "{shown:?} in {texts:?}");
    }
    for symptom in rescue::CRUMBLES.into_iter().chain(rescue::OTHERS) {
        let sheet = rescue::sheet(&kitchen, patty, 400.0, symptom).unwrap();
        texts.push(sheet.headline);
        texts.extend(sheet.add.into_iter().map(|add| add.spoons));
    }
    let wish = |low: &str| change::Asked {
        wishes: vec![change::Wish {
            reading: Reading::Protein,
            low: low.into(),
            high: String::new(),
        }],
        aim: Aim::LeastChange,
        ..change::Asked::default()
    };
    let reached = change::aim(&kitchen, patty, &wish("18,5")).unwrap().unwrap();
    assert_eq!(reached.headline, "Ändere diese Zeilen");
    texts.extend(reached.rows.into_iter().map(|row| row.spoons));
    let refused = change::aim(&kitchen, patty, &wish("viel")).unwrap_err();
    assert!(
        refused.ends_with(": Gib eine Zahl ein, etwa 18, oder lass das Feld leer"),
        "{refused}"
    );
    texts.extend(change::allergens().map(|(_, name)| name.to_owned()));
    no_english(&texts);
}

#[test]
fn the_stove_and_its_timers_are_told_in_german() {
    speak(Language::German);
    let document = demo();
    let mut texts = vec![
        cook::estimates().into(),
        cook::how().into(),
        cook::strips(Degrees::Celsius).0,
    ];
    for (stove, rest, granule_mm, overhang_mm) in [
        (Stove::Pan, Rest::Bun, None, 0.0),
        (Stove::Pan, Rest::Rack, Some(3.0), 5.0),
        (Stove::Press, Rest::Bun, Some(5.0), 0.0),
        (Stove::Oven, Rest::Bun, None, 0.0),
    ] {
        let cooking = Cooking {
            builds: vec![Build {
                grams: 90.0,
                across_mm: 105.0,
                shape: Shape::Square,
            }],
            pan_c: 235.0,
            stove,
            rest,
            granule_mm,
            overhang_mm,
            ..Cooking::default()
        };
        let (kitchen, settings) = (document.kitchen(), &document.settings);
        let sheet = cook::sheet(&kitchen, settings, &document.formulas[0], &cooking, &Plan::answers).unwrap();
        let build = sheet.builds[0].clone().unwrap();
        let heat = build.heat.unwrap();
        assert_eq!(build.name, "90 g, quadratisch");
        texts.extend([build.form, build.thin.says, build.cooked, build.for_bun]);
        texts.extend([
            heat.after,
            heat.holds,
            heat.loss,
            heat.picture.says,
            heat.picture.key.0,
            heat.picture.key.1,
        ]);
        texts.extend(heat.turn.err());
        texts.extend(heat.cautions);
    }
    for shown in [
        "An heißem Fett verbrennt man sich: Leg das Patty von dir weg hinein, und lass kein Wasser in die Pfanne.",
        "Steck einen Fühler in die Mitte und warte auf 74 °C: Er entscheidet, nicht die Uhr.",
        "Über 230 °C rauchen gängige Öle und können Feuer fangen: Stell die Hitze niedriger.",
        "Nicht wenden: Die Hitze kommt von beiden Seiten.",
    ] {
        assert!(texts.iter().any(|text| text == shown), "{shown:?} in {texts:#?}");
    }
    let mut timer = Timer::start(1, "90 g, quadratisch", "", 0.0, &[(Call::Turn, 60), (Call::Probe, 120)]);
    timer.notice(95_000.0);
    let slept = timer.face(95_000.0).slept;
    assert_eq!(
        slept,
        "Das Handy hat geschlafen: Dies war schon 0:35 fällig, bevor es klingeln konnte."
    );
    texts.push(slept);
    for call in [Call::Turn, Call::Probe, Call::Look, Call::Out] {
        texts.extend([call.says().to_owned(), call.done().to_owned()]);
    }
    no_english(&texts);
}

#[test]
fn pantry_and_backups_are_told_in_german() {
    speak(Language::German);
    let document = demo();
    let kitchen = document.kitchen();
    let gluten = kitchen.pantry.get("vital_wheat_gluten").unwrap();
    let card = pantry::card(&kitchen, &gluten);
    let mut texts = vec![card.cup];
    texts.extend(
        card.composition
            .into_iter()
            .map(|(name, value)| format!("{name}: {value}")),
    );
    let converted = convert::sheet(&kitchen, &gluten, "50 g", None).unwrap();
    assert!(
        converted.others.iter().any(|(_, unit)| *unit == "Tasse"),
        "{:?}",
        converted.others
    );
    texts.push(converted.level);

    const DAY_MS: f64 = 86_400_000.0;
    for days in [0.01, 0.05, 0.5, 1.0, 5.0, 61.0, 300.0, 800.0, 2000.0, -1.0] {
        texts.push(last_backup(Some(0.0), days * DAY_MS));
    }
    assert_eq!(last_backup(Some(0.0), 5.0 * DAY_MS), "Letzte Sicherung: vor 5 Tagen.");
    let mut asked: Asked = read(&DEMO.replace("385 ml", "400 ml")).unwrap();
    asked.document.formulas.extend((0..12).map(|at| Formula {
        name: format!("Masse {at}"),
        ..Formula::default()
    }));
    let told = preview(&asked, &document);
    assert_eq!(told[0], "In der Datei steht nicht, wann sie gesichert wurde.");
    assert!(
        told[1].starts_with("15 Rezepturen: ") && told[1].ends_with(" und 3 weitere."),
        "{told:?}"
    );
    texts.extend(told);
    no_english(&texts);
}

#[test]
fn allergens_and_who_says_what_is_good_are_told_in_german() {
    speak(Language::German);
    let document = demo();
    let kitchen = document.kitchen();
    let gluten = kitchen.pantry.get("vital_wheat_gluten").unwrap();
    assert_eq!(
        pantry::card(&kitchen, &gluten).allergens,
        "Weizen, glutenhaltiges Getreide"
    );
    let sheet = formula::sheet(&kitchen, &document.formulas[0]);
    let sources = sheet.rules.into_iter().map(|rule| rule.source.to_owned());
    no_english(&sources.collect::<Vec<_>>());
}

/// The guide puts in what its example says: the German lines have to lead to the same formula as the English ones.
#[test]
fn the_german_guide_puts_in_the_same_lines() {
    let document = Document::default();
    let kitchen = document.kitchen();
    let put_in = |step: guide::Step| {
        let pasted = paste(&kitchen.pantry, step.example).unwrap();
        let amount = pattywright::measure::read(&pasted[0].line.amount).unwrap();
        (pasted.len(), pasted[0].line.ingredient.clone(), amount)
    };
    let steps = guide::STEPS.len();
    let english: Vec<_> = (0..steps).filter_map(guide::next).collect();
    speak(Language::German);
    let german: Vec<_> = (0..steps).filter_map(guide::next).collect();
    for (english, german) in english.into_iter().zip(german) {
        assert_ne!(english.title, german.title);
        no_english(&[german.title, german.says, german.example].map(str::to_owned));
        assert_eq!(put_in(german), put_in(english), "{}", german.example);
    }
    assert_eq!(guide::place(1), "Schritt 2 von 6");
}
