//! The Cook room: sizes, times and pictures as they are said.

use pattywright::document::{Build, Cooking, Document, read};
use pattywright::formula::{Batch, Patties};
use pattywright::heat::cook::Plan;
use pattywright::measure::{Degrees, Estimate, Length};
use pattywright::patty::Shape;
use pattywright::sheet::cook::*;

fn demo() -> Document {
    read(include_str!("../../documents/demo.json")).unwrap().document
}

fn work_out(document: &Document, cooking: &Cooking) -> Result<CookSheet, String> {
    let (kitchen, formula) = (document.kitchen(), &document.formulas[0]);
    sheet(&kitchen, &document.settings, formula, cooking, &Plan::answers)
}

fn of(builds: &[(f64, f64)]) -> Cooking {
    let build = |(grams, across_mm): &(f64, f64)| Build {
        grams: *grams,
        across_mm: *across_mm,
        shape: Shape::Round,
    };
    Cooking {
        builds: builds.iter().map(build).collect(),
        ..Cooking::default()
    }
}

#[track_caller]
fn heat(sheet: &CookSheet, which: usize) -> &HeatSheet {
    sheet.builds[which].as_ref().unwrap().heat.as_ref().unwrap()
}

/// A thinner patty of the same mix sets and is done sooner: conduction time goes with the square of the thickness.
#[test]
fn thin_patties_are_turned_and_done_sooner() {
    let sheet = work_out(&demo(), &of(&[(90.0, 105.0), (45.0, 105.0)])).unwrap();
    let (thick, thin) = (heat(&sheet, 0), heat(&sheet, 1));
    let turn = |heat: &HeatSheet| heat.turn.as_ref().unwrap().seconds;
    assert!(turn(thin) < turn(thick) && thin.done.seconds < thick.done.seconds);
    assert!(turn(thick) < thick.done.seconds);
    assert_eq!(sheet.builds[1].as_ref().unwrap().name, "45 g, round");
    // Half the weight over the same area is half as thick.
    let mm = |which: usize| {
        sheet.builds[which]
            .as_ref()
            .unwrap()
            .thickness
            .value
            .parse::<f64>()
            .unwrap()
    };
    assert!((mm(0) - 2.0 * mm(1)).abs() < 0.3, "{} {}", mm(0), mm(1));
}

#[test]
fn times_are_rounded_as_their_spread_allows() {
    let moment = Moment::of(Estimate::new(163.2, 71.0));
    assert_eq!(
        (moment.seconds, moment.text.as_str(), moment.spread.as_str()),
        (160, "2:40", "± 1:10")
    );
    let moment = Moment::of(Estimate::new(43.0, 11.0));
    assert_eq!((moment.text.as_str(), moment.spread.as_str()), ("0:45", "± 0:10"));
    assert_eq!(clock(3_905), "1:05:05");
}

/// 74 °C is 165.2 °F and an inch 25.4 mm: NIST SP 811, Appendix B.8.
#[test]
fn the_cook_reads_fahrenheit_and_inches_where_they_are_chosen() {
    let mut document = demo();
    document.settings.degrees = Degrees::Fahrenheit;
    document.settings.length = Length::Inches;
    let sheet = work_out(&document, &of(&[(90.0, 101.6)])).unwrap();
    assert_eq!(heat(&sheet, 0).target, "165 °F");
    let build = sheet.builds[0].as_ref().unwrap();
    assert_eq!(build.thickness.unit, "in");
    assert!(
        (0.3..0.5).contains(&build.thickness.value.parse::<f64>().unwrap()),
        "{:?}",
        build.thickness
    );
    assert!(
        heat(&sheet, 0).cautions.iter().all(|said| !said.contains("°C")),
        "{:?}",
        heat(&sheet, 0).cautions
    );
}

#[test]
fn a_patty_too_thin_for_its_granules_is_warned_of() {
    let mut cooking = of(&[(45.0, 120.0)]);
    assert!(
        !work_out(&demo(), &cooking).unwrap().builds[0]
            .as_ref()
            .unwrap()
            .thin
            .alert
    );
    cooking.granule_mm = Some(5.0);
    let sheet = work_out(&demo(), &cooking).unwrap();
    let thin = &sheet.builds[0].as_ref().unwrap().thin;
    assert!(thin.alert && thin.says.contains("crush a quarter"), "{}", thin.says);
}

#[test]
fn what_cannot_be_cooked_gets_a_sentence_and_the_others_are_answered() {
    let mut cooking = of(&[(0.0, 105.0), (90.0, f64::NAN), (90.0, 105.0)]);
    let sheet = work_out(&demo(), &cooking).unwrap();
    assert!(sheet.builds[0].is_err() && sheet.builds[1].is_err() && sheet.builds[2].is_ok());
    cooking.pan_c = 60.0;
    let cold = work_out(&demo(), &cooking).unwrap();
    assert!(
        cold.builds[2]
            .as_ref()
            .unwrap()
            .heat
            .as_ref()
            .unwrap_err()
            .contains("make it hotter")
    );
    cooking.start_c = -18.0;
    let frozen = work_out(&demo(), &cooking).unwrap();
    assert!(frozen.builds[2].as_ref().unwrap_err().contains("Thaw"));
    let mut document = demo();
    document.formulas[0].lines[0].amount = "some".into();
    assert!(
        work_out(&document, &cooking)
            .unwrap_err()
            .contains("Weigh these lines first")
    );
}

#[test]
fn the_picture_says_what_the_figures_say() {
    let sheet = work_out(&demo(), &of(&[(90.0, 105.0)])).unwrap();
    let picture = &heat(&sheet, 0).picture;
    assert_eq!(picture.rows[0][1..], ["5", "5", "5"]);
    assert!(picture.turn_x.unwrap() < picture.done_x && picture.done_x < 300.0);
    for path in [&picture.set, &picture.hot, &picture.set_line, &picture.hot_line] {
        assert!(path.starts_with('M') && !path.contains("NaN"), "{path}");
    }
    // Nothing has set when it goes in; the set region starts later than the left edge, the hot one later still.
    let first_x = |path: &str| path[1..].split(' ').next().unwrap().parse::<f64>().unwrap();
    assert!(first_x(&picture.set) <= first_x(&picture.hot));
    // Every mark stands where its minute is, to the end of the drawing.
    let minute = picture.ticks[1].x / picture.ticks[1].label.parse::<f64>().unwrap();
    for tick in &picture.ticks {
        let at = minute * tick.label.parse::<f64>().unwrap();
        assert!(
            (tick.x - at).abs() < 1e-9 && tick.x < 300.0,
            "{}: {}",
            tick.label,
            tick.x
        );
    }
    // And so does the moment it is done, as it is told to the second.
    let told = picture.says.rsplit("after ").next().unwrap().trim_end_matches('.');
    let (minutes, seconds) = told.split_once(':').unwrap();
    let done = minutes.parse::<f64>().unwrap() + seconds.parse::<f64>().unwrap() / 60.0;
    assert!((picture.done_x - minute * done).abs() < 0.01 * minute, "{told}");
}

/// All numbers of a path, in order.
fn numbers(path: &str) -> Vec<f64> {
    let apart: String = path
        .chars()
        .map(|c| if c.is_ascii_digit() || ".-".contains(c) { c } else { ' ' })
        .collect();
    apart.split_whitespace().map(|number| number.parse().unwrap()).collect()
}

/// Every point of an edge lies where one of the strips it bounds begins or ends, within a strip's width and a sixtieth
/// of the height.
#[test]
fn edges_are_drawn_where_the_regions_end() {
    let sheet = work_out(&demo(), &of(&[(90.0, 105.0)])).unwrap();
    let picture = &heat(&sheet, 0).picture;
    for (region, edge) in [(&picture.set, &picture.set_line), (&picture.hot, &picture.hot_line)] {
        let (strips, points) = (numbers(region), numbers(edge));
        assert!(strips.len() > 50 && points.len() > 20);
        for point in points.chunks(2) {
            let (x, y) = (point[0], point[1]);
            let bounds = strips.chunks(5).any(|strip| {
                let [left, top, wide, bottom] = [strip[0], strip[1], strip[2], strip[3]];
                let beside = (left - wide..=left + 2.0 * wide).contains(&x);
                let at_an_end = (y - top).abs() < 2.0 || (y - bottom).abs() < 2.0;
                let within = (bottom.min(top)..=bottom.max(top)).contains(&y);
                let before = (x - left).abs() <= wide || (x - left - wide).abs() <= wide;
                beside && (at_an_end || (within && before))
            });
            assert!(bounds, "{x} {y}");
        }
    }
}

#[test]
fn patties_of_the_batch_come_first_until_the_cook_sets_others() {
    let mut document = demo();
    let formula = document.formulas[0].id.clone();
    assert_eq!(tonight(&document, &formula), Cooking::default());
    let patties = [(4.0, 90.0), (6.0, 45.0)]
        .map(|(count, grams)| Patties { count, grams })
        .to_vec();
    document.start_weighing(
        &formula,
        Batch::Patties {
            patties,
            loss_percent: 3.0,
        },
    );
    let weights: Vec<f64> = tonight(&document, &formula)
        .builds
        .iter()
        .map(|build| build.grams)
        .collect();
    assert_eq!(weights, [90.0, 45.0]);
    document.cooking = Some(of(&[(70.0, 100.0)]));
    let again = read(&document.write()).unwrap();
    assert!(again.problems.is_empty(), "{:?}", again.problems);
    assert_eq!(tonight(&again.document, &formula), of(&[(70.0, 100.0)]));
}

/// What is drawn as hot is hot: by the middle of the picture the cook judges whether the patty is done.
#[test]
fn the_middle_is_drawn_hot_when_it_is_done_and_no_sooner() {
    let sheet = work_out(&demo(), &of(&[(90.0, 105.0)])).unwrap();
    let picture = &heat(&sheet, 0).picture;
    let (middle, strip) = (60.0, 6.0);
    // A strip is "M left bottom h wide V top h -wide z", 120 high in all.
    let hot_from = picture.hot.split('M').skip(1).find_map(|strip| {
        let figure = |text: &str| text.parse::<f64>().unwrap();
        let (left, rest) = strip.split_once(' ').unwrap();
        let (bottom, rest) = rest.split_once('h').unwrap();
        let top = rest.split_once('V').unwrap().1.split('h').next().unwrap();
        (figure(top) <= middle && middle <= figure(bottom)).then(|| figure(left))
    });
    let hot_from = hot_from.unwrap();
    assert!(
        (hot_from - picture.done_x).abs() < strip,
        "{hot_from} and {}",
        picture.done_x
    );
}
