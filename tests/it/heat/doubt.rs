//! How sure the cook's answers are: every doubt has its part.

use pattywright::heat::Estimate;
use pattywright::heat::cook::*;

use super::check_within;
use super::cook::plan;

/// What is beside the model's own spread in the time of a plan, s².
fn squares_beside_own(answers: &Answers) -> f64 {
    answers.done_s.sd.powi(2) - (MODEL_RELATIVE_SD * answers.done_s.value).powi(2)
}

/// Independent doubts add as squares, each by what it moves: first order, as the ISO/IEC Guide 98-3 has it.
#[test]
fn every_doubt_has_its_part_in_the_spread_of_a_time() {
    let patty = |thickness: Estimate, contact: Estimate| {
        let mut plan = plan(10.0);
        plan.patty.thickness_mm = thickness;
        plan.way = Way::Pan {
            pan_c: 190.0,
            contact,
            turns: Turns::At(vec![180.0]),
        };
        plan.answers().unwrap()
    };
    let sure = |value: f64| Estimate::new(value, 0.0);
    let (thickness, contact) = (Estimate::new(10.0, 0.5), PAN_CONTACT);
    let rest = squares_beside_own(&patty(sure(10.0), sure(contact.value)));
    let best_s = patty(thickness, contact).done_s.value;
    for (unsure, moved) in [
        (
            patty(thickness, sure(contact.value)),
            patty(sure(10.5), sure(contact.value)),
        ),
        (
            patty(sure(10.0), contact),
            patty(sure(10.0), sure(contact.value - contact.sd)),
        ),
    ] {
        let part_s = moved.done_s.value - best_s;
        assert!(part_s > 10.0, "{part_s}");
        check_within((squares_beside_own(&unsure) - rest).sqrt() / part_s, 1.0, 0.01);
    }
}

/// Between plates what is left is a conductivity 7 % lower, and the time goes as one over it or less. In a pan or an
/// oven there is the air besides, which takes heat away or brings it.
#[test]
fn air_is_less_sure_than_conductivity() {
    let share = |way: Way| {
        let mut plan = plan(10.0);
        plan.patty.thickness_mm.sd = 0.0;
        plan.way = way;
        let answers = plan.answers().unwrap();
        squares_beside_own(&answers).sqrt() / answers.done_s.value
    };
    let sure = |contact: Estimate| Estimate::new(contact.value, 0.0);
    let press = share(Way::Press {
        plates_c: 190.0,
        contact: sure(PRESS_CONTACT),
    });
    let pan = share(Way::Pan {
        pan_c: 190.0,
        contact: sure(PAN_CONTACT),
        turns: Turns::At(vec![180.0]),
    });
    let oven = share(Way::Oven { oven_c: 200.0 });
    assert!(press > 0.02 && press < 0.08, "{press}");
    assert!(
        [pan, oven].iter().all(|share| *share > press + 0.01 && *share < 0.5),
        "{pan}, {oven}"
    );
}

/// Where the binder sets is as unsure as the turn is.
#[test]
fn the_turn_waits_for_a_binder_that_sets_later() {
    let turn = |gel: Estimate| {
        let mut plan = plan(10.0);
        plan.gel.sets_c = gel;
        plan.answers().unwrap().first_turn_s.unwrap()
    };
    let (sure, unsure) = (turn(Estimate::new(50.0, 0.0)), turn(Estimate::new(50.0, 4.0)));
    let later_s = turn(Estimate::new(54.0, 0.0)).value - sure.value;
    check_within((unsure.sd.powi(2) - sure.sd.powi(2)).sqrt() / later_s, 1.0, 0.01);
}

/// Water boils at 100 °C, so a core is no surer of passing it than it can.
#[test]
fn a_core_near_boiling_is_no_further_off_than_boiling() {
    let mut hot = plan(10.0);
    hot.core_c = 98.0;
    hot.way = Way::Press {
        plates_c: 200.0,
        contact: PRESS_CONTACT,
    };
    let sd = hot.answers().unwrap().core_c_at_done.sd;
    assert!(sd > 0.0 && sd <= 2.0, "{sd}");
}

/// How unsure the temperature of softening is turns into minutes as the core falls through its range, beside the model's own spread.
#[test]
fn an_unsure_softening_is_as_unsure_in_minutes() {
    let minutes = |softens_c: Estimate| {
        let mut plan = plan(15.0);
        plan.gel.softens_c = Some(softens_c);
        match plan.answers().unwrap().softens {
            Softening::AfterMinutes(minutes) => minutes,
            other => panic!("{other:?}"),
        }
    };
    let at = |softens_c: f64| minutes(Estimate::new(softens_c, 0.0)).value;
    let unsure = minutes(Estimate::new(50.0, 4.0));
    let sd = ((at(46.0) - at(54.0)) / 2.0).hypot(MODEL_RELATIVE_SD * at(50.0));
    check_within(unsure.value / at(50.0), 1.0, 1e-9);
    check_within(unsure.sd / sd, 1.0, 1e-9);
}
