//! Timers at the stove: they count by the clock on the wall, whatever the phone does.

use pattywright::sheet::timer::{Call, Timer, read, write};

const NOON_MS: f64 = 1_764_072_000_000.0;

fn patty() -> Timer {
    Timer::start(
        1,
        "90 g, round",
        " front left ",
        NOON_MS,
        &[(Call::Turn, 160), (Call::Probe, 350)],
    )
}

fn after(seconds: f64) -> f64 {
    NOON_MS + 1000.0 * seconds
}

#[test]
fn a_timer_calls_for_the_turn_and_then_for_the_probe() {
    let mut timer = patty();
    let face = timer.face(after(40.0));
    assert_eq!(face.title, "90 g, round · front left");
    assert_eq!(
        (face.call, face.clock.as_str(), face.due),
        (Some(Call::Turn), "2:00", false)
    );
    assert!(!timer.notice(after(159.0)));
    assert!(
        timer.notice(after(160.0)) && !timer.notice(after(161.0)),
        "it rings once"
    );
    assert!(timer.face(after(160.0)).due);
    assert!(timer.take());
    let face = timer.face(after(175.0));
    assert_eq!(
        (face.call, face.clock.as_str(), face.due),
        (Some(Call::Probe), "2:55", false)
    );
    assert!(!timer.take(), "nothing is left");
}

#[test]
fn a_timer_survives_being_written_down() {
    let mut timers = vec![patty()];
    timers[0].notice(after(200.0));
    assert_eq!(read(&write(&timers), after(210.0)), timers);
    assert!(
        read(&write(&timers), after(90_000.0)).is_empty(),
        "a day later it is put away"
    );
    for broken in ["", "[", "7", "[7]", r#"[{"id":1}]"#] {
        assert!(read(broken, NOON_MS).is_empty(), "{broken}");
    }
    let half = format!("[7,{}]", &write(&timers)[1..write(&timers).len() - 1]);
    assert_eq!(read(&half, after(210.0)), timers, "what can be read stays");
}

#[test]
fn a_phone_that_slept_past_it_says_so() {
    let mut timer = patty();
    assert!(timer.notice(after(280.0)));
    let face = timer.face(after(285.0));
    assert!(
        face.slept.contains("asleep") && face.slept.contains("2:00"),
        "{}",
        face.slept
    );
    let mut awake = patty();
    awake.notice(after(160.4));
    assert_eq!(awake.face(after(300.0)).slept, "");
}

#[test]
fn a_clock_set_back_shows_no_more_than_the_whole() {
    assert_eq!(patty().face(after(-3_600.0)).clock, "2:40");
    assert_eq!(patty().face(f64::NAN).clock.len(), 4);
}
