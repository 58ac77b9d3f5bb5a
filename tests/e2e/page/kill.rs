//! The browser is killed while it saves: what the page called saved is there afterwards, and whole.
//!
//! A killed program is not a dead battery: what the browser has handed to the system is still written.
//! Whether the disk keeps it then is asked for by strict durability, and cannot be seen from here.
//!
//! Chromium now and then finds its own database damaged after a kill ("Corruption: checksum mismatch") and deletes it whole.
//! The page cannot prevent that; it has to say so, and such kills are counted apart.

use crate::cook::{Cook, PASTE};
use serde_json::Value;
use std::time::{Duration, Instant};

/// How often in an ordinary run; `PATTYWRIGHT_KILLS=200` asks for more.
const KILLS: u64 = 8;

/// Lines of the formula that is saved each time: a book of some 20 KB.
const LINES: usize = 200;

/// The field whose figure counts the saves, in thousandths.
const COUNTER: &str = "The scale's smallest step, grams";

/// What the field counts before anything was typed: 1 g.
const BEFORE: u64 = 1_000;

/// Types the next figure as soon as the page says that the last one is saved.
///
/// Leaving the page saves at once, so that the browser does little else than save.
const SAVE_ON: &str = r#"
    const field = fields("The scale's smallest step, grams")[0];
    const status = all('.card [role=status]').find((e) => /saved|Saving/.test(e.textContent));
    const until = async (says) => { while (!status.textContent.startsWith(says)) await new Promise((on) => setTimeout(on)); };
    window.acknowledged = 0;
    (async () => {
        for (let count = FIRST; ; count++) {
            field.value = String(count / 1000);
            field.dispatchEvent(new Event('input', { bubbles: true }));
            await until('Saving');
            window.dispatchEvent(new Event('blur'));
            await until('Everything is saved on this phone.');
            window.acknowledged = count;
        }
    })();
    return 1;
"#;

/// Every record that is kept, oldest first: its revision, its count, and the lines of its formula; none where it is torn.
const RECORDS: &str = "await new Promise((resolve, reject) => {
    const opening = indexedDB.open('pattywright');
    opening.onerror = reject;
    opening.onsuccess = () => {
        const look = opening.result.transaction(['book', 'earlier']);
        const rows = ['earlier', 'book'].map((name) => look.objectStore(name).getAll());
        const read = ({ text, rev }) => {
            try {
                const { settings, formulas } = JSON.parse(text);
                return [rev, Math.round(settings.scale_step_g * 1000), formulas[0]?.lines.length];
            } catch { return null; }
        };
        look.oncomplete = () => { opening.result.close(); resolve(rows.flatMap((row) => row.result).map(read)); };
    };
})";

#[derive(Default, Debug)]
struct Tally {
    kills: u64,
    acknowledged: u64,
    lost: u64,
    torn: u64,
    /// Kills after which the browser had deleted its database, and the page said so.
    deleted: u64,
    /// Kills after which the browser had deleted its database, and the page brought the book back from its second copy.
    brought_back: u64,
    /// Acknowledged saves by which those second copies were behind.
    behind: u64,
    /// Saves that were on disk though the page had not said so yet: the kill fell into them.
    caught: u64,
}

#[tokio::test]
async fn kill_browser_while_it_saves() {
    let kills = std::env::var("PATTYWRIGHT_KILLS").map_or(KILLS, |kills| kills.parse().expect("a number of kills"));
    let mut cook = Cook::arrive().await;
    let list: Vec<String> = (1..=LINES).map(|line| format!("{line} g soy granules")).collect();
    let list = list.join("\n");
    cook.start_with(&list).await;
    cook.see_it_saved().await;

    let (mut tally, mut last) = (Tally::default(), BEFORE);
    for kill in 0..kills {
        let first = last + 1;
        cook.look(&format!(
            "(() => {{ {} }})()",
            SAVE_ON.replace("FIRST", &first.to_string())
        ))
        .await;
        // Spread over the milliseconds of a save, the same in every run; every other one falls right after the word.
        let pause = Duration::from_millis(if kill % 2 == 0 { 0 } else { kill * 7 % 40 });
        let acknowledged = acknowledged_within(&cook, first + kill % 10, pause).await;
        cook = cook.kill_and_come_back("#more").await;

        tally.kills += 1;
        tally.acknowledged += acknowledged + 1 - first;
        if cook
            .look("document.body.innerText.includes('back from its second copy')")
            .await
            == true
        {
            last = found(&cook).await;
            tally.brought_back += 1;
            tally.behind += acknowledged.saturating_sub(last);
            assert_eq!(
                lines_of_book(&cook).await,
                LINES,
                "what came back is not whole: {tally:?}"
            );
            continue;
        }
        if is_deleted(&cook).await {
            tally.deleted += 1;
            begin_anew(&cook, &list).await;
            last = BEFORE;
            continue;
        }
        last = found(&cook).await;
        tally.lost += acknowledged.saturating_sub(last);
        tally.caught += last.saturating_sub(acknowledged);
        tally.torn += torn(&cook, last).await;
        assert_eq!((tally.lost, tally.torn), (0, 0), "{tally:?}");
    }
    println!("{tally:?}");
    assert!(tally.acknowledged >= kills);
    cook.check_well().await;
    cook.phone.put_down().await;
}

/// Whether the browser has deleted the book, and the page says when it was last saved.
async fn is_deleted(cook: &Cook) -> bool {
    let records = cook.phone.ask(RECORDS).await;
    let deleted = records.as_array().is_some_and(Vec::is_empty);
    if deleted {
        cook.see("This browser has cleared your book away, as it was saved on")
            .await;
    }
    deleted
}

async fn begin_anew(cook: &Cook, list: &str) {
    cook.press("Start anew").await;
    cook.press("Formula").await;
    cook.press("Paste a list").await;
    cook.write(PASTE, list).await;
    cook.press("Make a new formula").await;
    cook.see_it_saved().await;
}

/// Waits for this count and some time more; returns the last count that the page called saved.
async fn acknowledged_within(cook: &Cook, count: u64, more: Duration) -> u64 {
    cook.phone.wait_for(&format!("acknowledged >= {count}")).await;
    let start = Instant::now();
    loop {
        let acknowledged = cook.phone.ask("acknowledged").await.as_u64().expect("a count");
        if start.elapsed() >= more {
            return acknowledged;
        }
    }
}

/// How many lines the formula has that is saved.
async fn lines_of_book(cook: &Cook) -> usize {
    cook.see("Everything is saved on this phone.").await;
    let records = cook.phone.ask(RECORDS).await;
    let book = records.as_array().and_then(|records| records.last().cloned());
    book.and_then(|book| book[2].as_u64()).unwrap_or_default() as usize
}

/// Returns the count that the page shows.
async fn found(cook: &Cook) -> u64 {
    cook.see("Everything is saved on this phone.").await;
    let shown: f64 = cook.read(COUNTER).await.parse().expect("a figure in the field");
    (shown * 1000.0).round() as u64
}

/// Returns how many records are not whole, or are not in order up to what the page shows.
async fn torn(cook: &Cook, last: u64) -> u64 {
    let records = cook.phone.ask(RECORDS).await;
    let records: Vec<Value> = serde_json::from_value(records).expect("a list of records");
    // The first ones are from before the formula was there, and before the counting.
    let counts = |record: &Value| record[1].as_u64().is_some_and(|count| count > BEFORE);
    let torn = records
        .iter()
        .filter(|record| record.is_null() || (counts(record) && record[2] != LINES))
        .count();
    let follows = |pair: &[Value]| {
        let more = pair[0][1].as_u64() < pair[1][1].as_u64() || !counts(&pair[1]);
        pair[0][0].as_u64() < pair[1][0].as_u64() && more
    };
    let jumbled = records.windows(2).filter(|pair| !follows(pair)).count();
    let end = records.last().is_none_or(|book| book[1] != last);
    (torn + jumbled + usize::from(end)) as u64
}
