//! How long a key press takes to show.

use e2e::Phone;
use serde_json::json;

const PRESSES: usize = 20;

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

/// Types figures into the first field that `selector` finds; without such a field there is nothing to time.
pub async fn presses(phone: &Phone, selector: &str) -> Vec<Press> {
    let field = format!("document.querySelector('{selector}')");
    if phone.ask(&format!("{field} === null")).await == true {
        return Vec::new();
    }
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
        phone.wait_for(&format!("presses.length === {count}")).await;
    }
    let presses = phone.ask("presses").await;
    let number = |value: &serde_json::Value| value.as_f64().expect("a time is a number");
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

fn with_type(key: &serde_json::Value, kind: &str) -> serde_json::Value {
    let mut event = key.clone();
    event["type"] = json!(kind);
    event
}
