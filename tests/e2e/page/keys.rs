//! The whole job with a keyboard alone: Tab, Enter, Space, Escape, and typing.

use crate::cook::Cook;
use serde_json::{Value, json};

/// So many presses of Tab go further than any room is long.
const FAR: usize = 150;

/// What has the keyboard: its words, whether that is seen, and whether it lies in a sheet.
const HERE: &str = "(() => {
    const plain = (text) => (text ?? '').replace(/\\s+/g, ' ').trim();
    const e = document.activeElement;
    if (!e || e === document.body) return { words: '', fault: '', sheet: true };
    const style = getComputedStyle(e);
    const box = e.getBoundingClientRect();
    const [x, y] = [box.left + box.width / 2, box.top + Math.min(box.height / 2, 20)];
    const top = document.elementFromPoint(x, y);
    const fault = !e.matches(':focus-visible') || style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2 ? 'is not seen to have the keyboard'
        : !top || !(e.contains(top) || top.contains(e) || [...(e.labels ?? [])].some((label) => label.contains(top))) ? `is covered at ${x}, ${y} by ${top?.className}` : '';
    return { words: plain(e.getAttribute('aria-label') ?? e.labels?.[0]?.textContent ?? e.textContent), fault, sheet: !!e.closest('.over, .toast') };
})()";

async fn key(cook: &Cook, key: &str) {
    let (name, code, text, number, modifiers) = match key {
        "Tab" => ("Tab", "Tab", "", 9, 0),
        "Shift+Tab" => ("Tab", "Tab", "", 9, 8),
        "Enter" => ("Enter", "Enter", "\r", 13, 0),
        "Space" => (" ", "Space", " ", 32, 0),
        "Escape" => ("Escape", "Escape", "", 27, 0),
        _ => panic!("There is no key {key} here."),
    };
    let mut event = json!({ "type": "keyDown", "key": name, "code": code, "windowsVirtualKeyCode": number, "modifiers": modifiers });
    if !text.is_empty() {
        event["text"] = json!(text);
    }
    cook.phone.tell("Input.dispatchKeyEvent", event.clone()).await;
    event["type"] = json!("keyUp");
    cook.phone.tell("Input.dispatchKeyEvent", event).await;
}

/// Presses Tab, and wants whatever has the keyboard now to be seen.
async fn step(cook: &Cook, tab: &str) -> Value {
    key(cook, tab).await;
    let here = cook.phone.ask(HERE).await;
    assert_eq!(here["fault"], "", "{}", here["words"]);
    here
}

async fn go_to(cook: &Cook, words: &str, tab: &str) {
    let mut passed = Vec::new();
    for _ in 0..FAR {
        let here = step(cook, tab).await;
        if here["words"].as_str().is_some_and(|here| here.starts_with(words)) {
            return;
        }
        passed.push(here["words"].to_string());
    }
    panic!("{tab} never comes to {words}, only to {}", passed.join(", "));
}

async fn press(cook: &Cook, words: &str) {
    go_to(cook, words, "Tab").await;
    key(cook, "Enter").await;
}

async fn press_back(cook: &Cook, words: &str) {
    go_to(cook, words, "Shift+Tab").await;
    key(cook, "Enter").await;
}

/// Writes over what is in the field that the keyboard has come to: Tab selects it.
async fn write(cook: &Cook, label: &str, text: &str, tab: &str) {
    go_to(cook, label, tab).await;
    cook.phone.tell("Input.insertText", json!({ "text": text })).await;
}

async fn back_at(cook: &Cook, words: &str) {
    cook.wait(&format!(
        "all('.over').length === 0 && plain(document.activeElement.getAttribute('aria-label') ?? document.activeElement.textContent).startsWith({})",
        json!(words)
    ))
    .await;
}

/// Opens a sheet from the room, walks round it without leaving, closes it, and is back where it began.
async fn open_and_close(cook: &Cook, words: &str, tab: &str) {
    go_to(cook, words, tab).await;
    key(cook, "Enter").await;
    cook.wait("all('.over').length === 1 && all('.over')[0].contains(document.activeElement)")
        .await;
    let many = cook
        .look("all('.over :is(button, a, input, select, textarea, summary)').length")
        .await;
    for _ in 0..many.as_u64().unwrap().min(20) + 2 {
        let here = step(cook, "Tab").await;
        assert_eq!(here["sheet"], true, "{} is under {words}", here["words"]);
    }
    key(cook, "Escape").await;
    back_at(cook, words).await;
}

/// Where one sheet opens another, the keyboard goes along, and "back" brings it back.
#[tokio::test]
async fn go_from_sheet_to_sheet() {
    let cook = Cook::arrive().await;
    cook.wait("all('.toast').length === 0").await;
    let in_sheet = |title: &str| {
        format!(
            "all('.over').length === 1 && plain(all('.over__title')[0].textContent) === {} && all('.over')[0].contains(document.activeElement)",
            json!(title)
        )
    };
    cook.go("pantry/card/table_salt").await;
    cook.wait(&in_sheet("Where the numbers come from")).await;
    cook.touch("all('.over button').filter((e) => plain(e.textContent) === 'Convert a measure')[0]")
        .await;
    cook.wait(&in_sheet("Convert a measure")).await;
    cook.look("(history.back(), 1)").await;
    cook.wait(&in_sheet("Where the numbers come from")).await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

#[tokio::test]
async fn do_the_job_with_keys_alone() {
    let cook = Cook::arrive().await;
    cook.wait("all('.toast').length === 0").await;
    for look in [
        [("prefers-color-scheme", "dark"), ("forced-colors", "none")],
        [("prefers-color-scheme", "dark"), ("forced-colors", "active")],
        [("prefers-color-scheme", "light"), ("forced-colors", "none")],
    ] {
        cook.phone.prefer(&look).await;
        for _ in 0..12 {
            step(&cook, "Tab").await;
        }
        for _ in 0..12 {
            step(&cook, "Shift+Tab").await;
        }
    }
    write_formula(&cook).await;
    weigh(&cook).await;
    rescue_and_cook(&cook).await;
    keep(&cook).await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

async fn write_formula(cook: &Cook) {
    // A formula is opened, and the list of formulas gives the keyboard back.
    let lines = cook.words(".line__row").await.len();
    go_to(cook, "Boat-shed patty", "Tab").await;
    key(cook, "Enter").await;
    cook.see("Name of a new formula").await;
    press(cook, "Boat-shed patty").await;
    back_at(cook, "Boat-shed patty").await;
    open_and_close(cook, "Convert a measure", "Tab").await;

    write(cook, "Add a line", "1 tsp smoked paprika", "Tab").await;
    key(cook, "Enter").await;
    cook.wait(&format!("all('.line__row').length === {}", lines + 1)).await;
    for sheet in ["Paste a list", "Aim for a range", "Swap an ingredient"] {
        open_and_close(cook, sheet, "Tab").await;
    }

    // A line opens once the page's address has changed, and no hand is quicker than that.
    let open = "all('.line__edit').length === 1";
    press_back(cook, "Soy granules").await;
    cook.wait(open).await;
    write(cook, "Amount", "200 g", "Tab").await;
    cook.wait("all('.line__grams')[0].textContent === '200 g'").await;
    press(cook, "What it weighs").await;
    cook.see("Where the numbers come from").await;
    key(cook, "Escape").await;
    back_at(cook, "Soy granules").await;
    key(cook, "Enter").await;
    cook.wait(open).await;
    go_to(cook, "Amount", "Tab").await;
    key(cook, "Enter").await;
    back_at(cook, "Soy granules").await;
}

async fn weigh(cook: &Cook) {
    press_back(cook, "Weigh").await;
    press(cook, "for patties").await;
    write(cook, "How many", "6", "Tab").await;
    write(cook, "Each, grams", "80", "Tab").await;
    // 6 × 80 g, of which 3 in 100 stay behind: 480 ÷ 0.97.
    cook.see("495 g of mix").await;
    go_to(cook, "Soy granules is in the bowl", "Tab").await;
    key(cook, "Space").await;
    cook.wait("all('.pour__tick')[0].ariaPressed === 'true'").await;
}

async fn rescue_and_cook(cook: &Cook) {
    press_back(cook, "Rescue").await;
    go_to(cook, "While I form it", "Tab").await;
    key(cook, "Space").await;
    cook.wait("all('.steps li').length > 0").await;
    // What is found is told to ears, in a few words, once.
    cook.wait("/^Add to|^[A-Z]/.test(document.getElementById('ears').textContent)")
        .await;

    press(cook, "Cook").await;
    press(cook, "It is in now").await;
    cook.wait("all('.timer').length === 1").await;
    press_back(cook, "Stop this timer").await;
    cook.wait("all('.timer').length === 0").await;
}

async fn keep(cook: &Cook) {
    press_back(cook, "More").await;
    press(cook, "Pantry").await;
    go_to(cook, "Find an ingredient", "Tab").await;
    cook.phone
        .tell("Input.insertText", json!({ "text": "table salt" }))
        .await;
    cook.wait("all('.list__one').length < 20").await;
    open_and_close(cook, "Salt", "Tab").await;
    open_and_close(cook, "Add your own ingredient", "Tab").await;
    press(cook, "More").await;
    cook.phone
        .ask("(window.offered = 0, URL.createObjectURL = ((make) => (blob) => (window.offered = blob.size, make.call(URL, blob)))(URL.createObjectURL), 1)")
        .await;
    press_back(cook, "Save a backup file").await;
    cook.wait("window.offered > 100").await;
}

/// Errors are tied to their fields, and a field says nothing while it is typed in.
#[tokio::test]
async fn hear_what_is_wrong_once_typing_pauses() {
    let cook = Cook::arrive().await;
    cook.wait("all('.toast').length === 0").await;
    cook.go("#weigh").await;
    cook.press("for patties").await;
    cook.write("Each, grams", "heavy").await;
    let field = "fields('Each, grams')[0]";
    cook.wait(&format!("{field}.ariaInvalid === 'true'")).await;
    assert_eq!(cook.said_below("Each, grams").await, "Above 0");
    assert_eq!(cook.look("document.getElementById('ears').textContent").await, "");
    cook.wait("document.getElementById('ears').textContent === 'Above 0'")
        .await;
    cook.write("Each, grams", "90").await;
    cook.wait(&format!("{field}.ariaInvalid === 'false'")).await;
    // One place speaks of fields, so no field is a live region of its own.
    assert_eq!(
        cook.look("document.querySelectorAll('.field__message[role=status]').length")
            .await,
        0
    );
    cook.phone.put_down().await;
}
