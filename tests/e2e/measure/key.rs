//! How long a key press takes to show.

use e2e::Phone;
use serde_json::{Value, json};
use std::time::Duration;

const PRESSES: usize = 20;
/// From one key to the next.
const PAUSE: Duration = Duration::from_millis(400);
const KINDS: [&str; 6] = [
    "tvp_soy_granules",
    "water",
    "methylcellulose",
    "pea_protein_isolate",
    "coconut_oil",
    "table_salt",
];

pub struct Press {
    /// From the key's event until the page's own work for it is done.
    pub work_ms: f64,
    /// From the key's event until the frame that follows has been handed to the screen.
    pub painted_ms: f64,
}

/// Notes both times for every key. The first message is posted before the page's own handlers run and comes after
/// them; the second is posted in the next frame and comes after it was painted.
const STOPWATCH: &str = "
    window.presses = [];
    addEventListener('keydown', (key) => {
        const after = (done) => {
            const channel = new MessageChannel();
            channel.port1.onmessage = done;
            channel.port2.postMessage(0);
        };
        addEventListener('input', () => {
            const press = {};
            after(() => (press.work_ms = performance.now() - key.timeStamp));
            requestAnimationFrame(() => after(() => {
                press.painted_ms = performance.now() - key.timeStamp;
                presses.push(press);
            }));
        }, { once: true, capture: true });
    }, { capture: true });
";

/// Puts a formula of 60 lines on the phone, opens one line, and types figures into its amount.
pub async fn presses(phone: &Phone, address: &str) -> Vec<Press> {
    let lines: Vec<Value> = (0..60)
        .map(|n| json!({ "key": n + 1, "ingredient": KINDS[n % KINDS.len()], "amount": "12 g" }))
        .collect();
    let formula = json!({ "id": "mix", "name": "Mix", "style": "standard_patty", "lines": lines });
    let text = json!({ "format": "pattywright/1", "formulas": [formula] }).to_string();
    crate::go(phone, "about:blank").await;
    phone.open(address).await;
    let book = json!({ "text": text, "rev": 1, "saved_at": 0 });
    phone
        .ask(&format!(
            "await new Promise((done, failed) => {{
                const opening = indexedDB.open('pattywright');
                opening.onerror = failed;
                opening.onsuccess = () => {{
                    const saving = opening.result.transaction('book', 'readwrite');
                    saving.objectStore('book').put({book}, 'book');
                    saving.oncomplete = () => {{ opening.result.close(); done(true); }};
                }};
            }})"
        ))
        .await;
    crate::go(phone, "about:blank").await;
    phone.open(&format!("{address}#formula/line/30")).await;
    phone
        .wait_for(
            "document.querySelectorAll('.line').length === 60 && document.querySelector('.line__edit .field__input') !== null",
        )
        .await;
    typed_into(phone, "document.querySelector('.line__edit .field__input')").await
}

/// The same in a page that holds nothing but a field: what a browser takes for itself on this machine.
pub async fn bare_presses(phone: &Phone) -> Vec<Press> {
    crate::go(phone, "about:blank").await;
    phone
        .ask("(document.body.append(document.createElement('input')), true)")
        .await;
    typed_into(phone, "document.querySelector('input')").await
}

async fn typed_into(phone: &Phone, field: &str) -> Vec<Press> {
    phone.ask(&format!("({field}.focus(), {field}.select(), true)")).await;
    phone.tell("Runtime.evaluate", json!({ "expression": STOPWATCH })).await;
    for count in 1..=PRESSES {
        // Two figures at most, then one is taken away, so that what is typed stays a likely amount.
        let (down, up) = if count % 3 == 0 {
            let key = json!({ "key": "Backspace", "code": "Backspace", "windowsVirtualKeyCode": 8 });
            (with_type(&key, "rawKeyDown"), with_type(&key, "keyUp"))
        } else {
            let key = json!({ "key": "4", "code": "Digit4", "windowsVirtualKeyCode": 52, "text": "4" });
            (with_type(&key, "keyDown"), with_type(&key, "keyUp"))
        };
        phone.tell("Input.dispatchKeyEvent", down).await;
        phone.tell("Input.dispatchKeyEvent", up).await;
        // A question put to the page would be answered before it is painted.
        tokio::time::sleep(PAUSE).await;
        phone.wait_for(&format!("presses.length === {count}")).await;
    }
    let presses = phone.ask("presses").await;
    let number = |value: &Value| value.as_f64().expect("a time is a number");
    presses
        .as_array()
        .into_iter()
        .flatten()
        .map(|press| Press {
            work_ms: number(&press["work_ms"]),
            painted_ms: number(&press["painted_ms"]),
        })
        .collect()
}

fn with_type(key: &Value, kind: &str) -> Value {
    let mut event = key.clone();
    event["type"] = json!(kind);
    event
}
