//! An evening at the stove: size a patty, read when to turn and probe it, start a timer, and find it again.

use crate::cook::Cook;

#[tokio::test]
async fn time_patties() {
    let cook = Cook::arrive().await;
    cook.wait("all('.toast').length === 0").await;
    cook.press("Cook").await;
    cook.write("Weight, g", "90").await;
    cook.write("Across, mm", "105").await;
    let (turn, probe) = times(&cook).await;
    assert!(
        60 < turn && turn < probe && probe < 900,
        "turn {turn} s, probe {probe} s"
    );

    // The core target is the usual one for reheating, 74 °C (US Food Code 3-403.11, 165 °F).
    assert_eq!(cook.read("Core, °C").await, "74");
    cook.press("Add another size").await;
    cook.write("Weight, g", "45").await;
    cook.wait("all('tbody tr').length >= 2 && all('.table')[0].textContent.includes('45 g')")
        .await;
    let shown = "all('.answer__figure')[1].textContent.split(':').reduce((sum, part) => 60 * sum + Number(part), 0)";
    cook.wait(&format!("{shown} < {turn}")).await;
    let (thin_turn, thin_probe) = times(&cook).await;
    assert!(thin_turn < turn && thin_probe < probe, "{thin_turn} s, {thin_probe} s");

    refuse_what_cannot_be(&cook).await;

    cook.write("Place in the pan", "front left").await;
    cook.press("It is in now").await;
    cook.press("90 g, round").await;
    cook.write("Place in the pan", "back").await;
    cook.press("It is in now").await;
    cook.see("45 g, round · front left").await;
    cook.see("90 g, round · back").await;
    let before = left(&cook).await;
    assert!(before[0] <= thin_turn && before[1] <= turn, "{before:?}");

    cook.see_it_saved().await;
    cook.phone.reload().await;
    cook.press("Cook").await;
    cook.see("45 g, round · front left").await;
    let shown = cook.words(".timer__clock .big").await.remove(0);
    cook.wait(&format!("all('.timer__clock .big')[0].textContent !== '{shown}'"))
        .await;
    let after = left(&cook).await;
    assert!(after[0] < before[0] && after[1] <= before[1], "{before:?} {after:?}");
    assert!(after[0] + 60 > before[0], "{before:?} {after:?}");

    sleep_past_it(&cook).await;
    cook.press("Turned").await;
    cook.wait("!all('.timer')[0].textContent.includes('Turn it')").await;
    cook.press_one("Stop this timer", 1).await;
    cook.press_one("Stop this timer", 0).await;
    cook.wait("all('.timer').length === 0").await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

/// Everyone can use the room, with a timer running and with one that is due.
#[tokio::test]
async fn look_at_the_stove_in_the_light_and_in_the_dark() {
    let cook = Cook::arrive().await;
    cook.wait("all('.toast').length === 0").await;
    cook.press("Cook").await;
    cook.press("Add another size").await;
    cook.press("It is in now").await;
    cook.press("The same in figures").await;
    cook.press("Granules, bun, rest, binder").await;
    cook.write("Large soaked granule, mm", "4").await;
    cook.see("Soaked granules of 4 mm").await;
    for light in ["light", "dark"] {
        cook.phone.prefer(&[("prefers-color-scheme", light)]).await;
        cook.phone.ask("(scrollTo(0, 0), 1)").await;
        cook.phone.check_accessible(&format!("#cook, {light}")).await;
    }
    sleep_past_it(&cook).await;
    for light in ["light", "dark"] {
        cook.phone.prefer(&[("prefers-color-scheme", light)]).await;
        cook.phone
            .check_accessible(&format!("#cook with a timer due, {light}"))
            .await;
    }
    // Another room says so too.
    cook.press("Formula").await;
    cook.see("Turn it now").await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

async fn refuse_what_cannot_be(cook: &Cook) {
    for (typed, says) in [
        ("", "Type a temperature"),
        ("hot", "Type a temperature"),
        ("40", "make it hotter than the target"),
        ("99999", "Give a temperature between"),
    ] {
        cook.write("Pan, °C", typed).await;
        cook.see(says).await;
        assert_eq!(cook.read("Pan, °C").await, typed, "what was typed is kept");
        assert!(
            cook.words(".heat").await.is_empty(),
            "no times are told for a pan of “{typed}”"
        );
    }
    cook.write("Pan, °C", "356 °F").await;
    cook.wait("all('.heat').length === 1").await;
    cook.write("Pan, °C", "180").await;
    cook.wait("all('.answer__figure').length === 3").await;
}

/// Moves the kept start of the timers an hour back, as if the phone had slept.
async fn sleep_past_it(cook: &Cook) {
    let back = "(() => {
        const record = JSON.parse(localStorage.getItem('pattywright-timers'));
        for (const timer of record) timer.started_ms -= 3_600_000;
        localStorage.setItem('pattywright-timers', JSON.stringify(record));
        return 1;
    })()";
    cook.phone.ask(back).await;
    cook.phone.reload().await;
    cook.press("Cook").await;
    cook.see("The phone was asleep").await;
}

/// Returns when to turn and when to probe, s.
async fn times(cook: &Cook) -> (u32, u32) {
    cook.wait("all('.answer__figure').length === 3").await;
    let figures = cook.words(".answer__figure").await;
    (seconds(&figures[1]), seconds(&figures[2]))
}

/// Returns what each timer still has to go, s.
async fn left(cook: &Cook) -> Vec<u32> {
    let clocks = cook.words(".timer__clock .big").await;
    clocks.iter().map(|clock| seconds(clock)).collect()
}

/// Reads `2:40` as seconds.
#[track_caller]
fn seconds(clock: &str) -> u32 {
    let (minutes, seconds) = clock.rsplit_once(':').unwrap();
    minutes.parse::<u32>().unwrap() * 60 + seconds.parse::<u32>().unwrap()
}
