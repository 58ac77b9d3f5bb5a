//! Times the page in a browser beside a plain counter page, and weighs its code crate by crate:
//! `measure COUNTER_FOLDER MODULE ROUNDS`; JSON on standard output.
//!
//! Every round is a new phone (no kept files, no compiled code), and the two pages take turns, so that a busy
//! moment of the machine falls on both.

mod key;
mod weight;

use e2e::{Folder, Phone, Server, dist};
use serde_json::{Value, json};
use std::path::Path;
use std::time::Duration;

const SLOWER: f64 = 4.0;
/// Longer than a start takes.
const START: Duration = Duration::from_secs(3);

#[tokio::main(flavor = "current_thread")]
async fn main() {
    let words: Vec<String> = std::env::args().collect();
    let [_, counter, module, rounds] = words.as_slice() else {
        eprintln!("measure COUNTER_FOLDER MODULE ROUNDS");
        std::process::exit(2);
    };
    let rounds: usize = rounds.parse().expect("ROUNDS is a number");

    let (mut counter_ms, mut cold_ms, mut warm_ms) = (Vec::new(), Vec::new(), Vec::new());
    let (mut work_ms, mut painted_ms, mut rescues_ms) = (Vec::new(), Vec::new(), Vec::new());
    let mut bare_ms = Vec::new();
    for _ in 0..rounds {
        counter_ms.push(cold_start(Path::new(counter)).await);
        let visit = visit().await;
        cold_ms.push(visit.cold_ms);
        warm_ms.push(visit.warm_ms);
        bare_ms.extend(visit.bare_keys.iter().map(|key| key.painted_ms));
        work_ms.extend(visit.keys.iter().map(|key| key.work_ms));
        rescues_ms.extend(visit.rescues_ms);
        painted_ms.extend(visit.keys.iter().map(|key| key.painted_ms));
    }

    let counter = median(&counter_ms);
    let mut figures = weight::by_crate(Path::new(module));
    figures.extend([
        figure("cold start of the counter, 4× slower", &counter_ms, Value::Null),
        figure("cold start, 4× slower", &cold_ms, json!(1.5 * counter)),
        figure("warm start, server stopped, 4× slower", &warm_ms, json!(counter)),
        figure("key press in 60 lines, work, 4× slower", &work_ms, Value::Null),
        figure("key press in 60 lines, painted, 4× slower", &painted_ms, Value::Null),
        figure("key press in a bare field, painted, 4× slower", &bare_ms, Value::Null),
        json!({ "figure": "key press in a bare field, 95 in 100, 4× slower", "unit": "ms",
            "median": quantile(&bare_ms, 0.95), "reach": null }),
        json!({ "figure": "key press, painted, 95 in 100, 4× slower", "unit": "ms",
            "median": quantile(&painted_ms, 0.95), "reach": 16.0 }),
        figure("rescue in the page, 4× slower", &rescues_ms, json!(12.0)),
    ]);
    println!("{}", Value::from(figures));
}

struct Visit {
    cold_ms: f64,
    warm_ms: f64,
    keys: Vec<key::Press>,
    bare_keys: Vec<key::Press>,
    rescues_ms: Vec<f64>,
}

/// Visits the page on a new phone: a cold start, some key presses, and a warm start with the server stopped.
async fn visit() -> Visit {
    let server = Server::start(&dist(), "/", "127.0.0.1:0").expect("a port is free");
    let address = format!("http://127.0.0.1:{}/", server.port());
    let profile = Folder::new();
    let phone = slow_phone(&profile).await;
    let cold_ms = ready_ms(&phone, &address).await;
    phone.wait_until_told("pw-offline-ready").await;
    let keys = key::presses(&phone, &address).await;
    let rescues_ms = rescues_ms(&phone).await;
    drop(server);
    go(&phone, "about:blank").await;
    let warm_ms = ready_ms(&phone, &address).await;
    let bare_keys = key::bare_presses(&phone).await;
    phone.put_down().await;
    Visit {
        cold_ms,
        warm_ms,
        keys,
        bare_keys,
        rescues_ms,
    }
}

/// Times the whole answer to a rescue in the page, the document's reading and the report's writing with it.
async fn rescues_ms(phone: &Phone) -> Vec<f64> {
    let demo: Value = serde_json::from_str(include_str!("../../documents/demo.json")).expect("a document");
    let formula = &demo["formulas"][0]["id"];
    let mut asking = demo.clone();
    asking["questions"] =
        json!([{ "ask": "rescue", "formula": formula, "left_g": 400, "symptom": "crumbles_forming" }]);
    let times = phone
        .ask(&format!(
            "await (async () => {{
                const times = [];
                for (let n = 0; n <= 20; n++) {{
                    const start = performance.now();
                    const report = await pattywright.evaluate({asking});
                    if (!report.answers[0].steps.length) throw new Error('no advice');
                    times.push(performance.now() - start);
                }}
                return times.slice(1); // The first fetches the module.
            }})()"
        ))
        .await;
    let times = times.as_array().into_iter().flatten();
    times.map(|ms| ms.as_f64().expect("a time is a number")).collect()
}

async fn cold_start(site: &Path) -> f64 {
    let server = Server::start(site, "/", "127.0.0.1:0").expect("a port is free");
    let profile = Folder::new();
    let phone = slow_phone(&profile).await;
    let ms = ready_ms(&phone, &format!("http://127.0.0.1:{}/", server.port())).await;
    phone.put_down().await;
    ms
}

async fn go(phone: &Phone, address: &str) {
    let gone = phone.driver().goto(address).await;
    gone.unwrap_or_else(|error| panic!("{address}: {error}"));
}

async fn slow_phone(profile: &Folder) -> Phone {
    let phone = Phone::pick_up(profile).await;
    // Chromedriver has one attached, and with it the browser compiles every function so that it could be stopped in.
    phone.tell("Debugger.disable", json!({})).await;
    phone.slow_down(SLOWER).await;
    phone
}

/// Returns the time from the start of the navigation until the page said that it is ready.
///
/// It is left alone meanwhile: a question put to a page keeps it busy, and with a slow processor for long.
async fn ready_ms(phone: &Phone, address: &str) -> f64 {
    go(phone, address).await;
    tokio::time::sleep(START).await;
    phone.wait_until_ready().await;
    let ms = phone.ask("performance.getEntriesByName('pw-ready')[0].startTime").await;
    ms.as_f64().expect("a time is a number")
}

fn figure(name: &str, values: &[f64], reach: Value) -> Value {
    json!({
        "figure": name, "unit": "ms", "rounds": values.len(), "reach": reach,
        "median": median(values), "least": quantile(values, 0.0), "most": quantile(values, 1.0),
    })
}

fn median(values: &[f64]) -> f64 {
    quantile(values, 0.5)
}

/// Returns the value that this share of all values does not exceed (nearest rank; an even count's median is the lower of the middle two).
fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let rank = (share * sorted.len() as f64).ceil() as usize;
    sorted[rank.saturating_sub(1)]
}
