//! The shell around the app: it starts, it asks nobody else, it can be installed, and it says so when it stops.

use crate::cook::Cook;
use e2e::{Folder, Phone, Server, dist, site, worker};
use serde_json::{Value, json};
use std::fs;

async fn visit(under: &str) -> (Folder, Phone, Server, String) {
    let server = Server::start(&dist(), under, "127.0.0.1:0").unwrap();
    let address = format!("http://127.0.0.1:{}{under}", server.port());
    let profile = Folder::new();
    let phone = Phone::pick_up(&profile).await;
    phone.open(&address).await;
    (profile, phone, server, address)
}

#[tokio::test]
async fn the_page_starts_and_asks_nobody_else() {
    let (_profile, phone, _server, address) = visit("/").await;
    phone.wait_until_told("pw-offline-ready").await;
    let asked = phone
        .ask("performance.getEntriesByType('resource').map((entry) => entry.name)")
        .await;
    let asked: Vec<&str> = asked.as_array().unwrap().iter().filter_map(Value::as_str).collect();
    assert!(asked.iter().any(|file| file.ends_with(".wasm")), "{asked:?}");
    assert!(asked.iter().all(|file| file.starts_with(&address)), "{asked:?}");
    assert_eq!(phone.ask("document.getElementById('skeleton')").await, Value::Null);
    phone.check_quiet().await;
    phone.put_down().await;
}

/// Starts are timed by this word of the page, so it may not come before the lines of the first screen.
#[tokio::test]
async fn the_page_says_it_is_there_once_its_first_screen_is_drawn() {
    let cook = Cook::arrive().await;
    let list: Vec<String> = (101..=160).map(|grams| format!("{grams} g water")).collect();
    cook.start_with(&list.join("\n")).await;
    cook.see_it_saved().await;
    let watch = "addEventListener('pw-mounted', () => {
        const lines = [...document.querySelectorAll('.line')];
        window.thereThen = [lines.length < 60, innerHeight <= lines.at(-1).getBoundingClientRect().bottom];
    });";
    cook.phone
        .tell("Page.addScriptToEvaluateOnNewDocument", json!({ "source": watch }))
        .await;
    cook.phone.driver().goto("about:blank").await.unwrap();
    cook.phone.open(&format!("{}#formula", cook.address)).await;
    assert_eq!(cook.phone.ask("window.thereThen").await, json!([true, true]));
    // The others follow, in their order, and what is below them.
    cook.see("What one more spoon does").await;
    let all: Vec<String> = (101..=160).map(|grams| format!("{grams} g")).collect();
    assert_eq!(cook.words(".line__grams").await, all);
    cook.check_well().await;
    cook.phone.put_down().await;
}

/// Source of the figure: USDA SR28 2047, table salt, 1 tsp = 6.0 g.
#[tokio::test]
async fn scripts_fetch_the_sums_and_cooks_do_not() {
    let (_profile, phone, _server, _) = visit("/").await;
    phone.wait_until_told("pw-offline-ready").await;
    let fetched = "performance.getEntriesByType('resource').filter((entry) => /evaluate/.test(entry.name)).length";
    let kept = "await (async () => {
        const [name] = await caches.keys();
        const kept = await (await caches.open(name)).keys();
        return [kept.length > 5, kept.filter((request) => /evaluate/.test(request.url)).length];
    })()";
    assert_eq!(phone.ask(fetched).await, 0);
    assert_eq!(phone.ask(kept).await, json!([true, 0]));
    let question = json!({ "ask": "convert", "ingredient": "table_salt", "amount": "1 tsp", "to": "g" });
    let document = json!({ "format": "pattywright/1", "questions": [question] });
    let report = phone.ask(&format!("await pattywright.evaluate({document})")).await;
    let grams = report["answers"][0]["value"].as_f64().expect("an answer");
    assert!((grams - 6.0).abs() < 1e-9, "{report}");
    let refused = phone
        .ask("await pattywright.evaluate({ format: 'pattywright/99' }).catch((error) => error.message)")
        .await;
    assert!(
        refused.as_str().is_some_and(|why| why.contains("pattywright/99")),
        "{refused}"
    );
    phone.check_quiet().await;
    phone.put_down().await;
}

#[tokio::test]
async fn another_site_and_foreign_script_are_refused() {
    let (_profile, phone, _server, _) = visit("/").await;
    let fetched = phone
        .ask("await fetch('http://pantry.example/').then(() => 'came', () => 'refused')")
        .await;
    assert_eq!(fetched, "refused");
    let written = phone
        .ask("(() => { try { document.body.innerHTML = '<img onerror=\"1\">'; return 'came' } catch { return 'refused' } })()")
        .await;
    assert_eq!(written, "refused");
    phone.check_nothing_left().await;
    phone.put_down().await;
}

/// The check above would be worth nothing if it could not fail.
#[tokio::test]
async fn a_request_that_leaves_is_noticed() {
    let leaky = Folder::new();
    fs::write(
        leaky.path().join("index.html"),
        "<img src='http://pantry.example/bowl.png'>",
    )
    .unwrap();
    let server = Server::start(leaky.path(), "/", "127.0.0.1:0").unwrap();
    let profile = Folder::new();
    let phone = Phone::pick_up(&profile).await;
    phone
        .driver()
        .goto(format!("http://127.0.0.1:{}/", server.port()))
        .await
        .unwrap();
    assert_eq!(phone.left().await, ["http://pantry.example/bowl.png"]);
    phone.put_down().await;
}

#[tokio::test]
async fn the_page_can_be_installed_under_any_path() {
    let (_profile, phone, _server, address) = visit("/kitchen/bowl/").await;
    phone.wait_until_told("pw-offline-ready").await;
    let faults = phone.tell("Page.getInstallabilityErrors", json!({})).await;
    // A throw-away profile is all that is held against it in some versions of Chromium.
    let faults: Vec<&Value> = faults["installabilityErrors"].as_array().unwrap().iter().collect();
    assert!(
        faults.iter().all(|fault| fault["errorId"] == "in-incognito"),
        "{faults:?}"
    );

    let manifest = phone.tell("Page.getAppManifest", json!({})).await;
    assert_eq!(manifest["errors"], json!([]));
    assert_eq!(manifest["url"], format!("{address}manifest.webmanifest"));
    let manifest: Value = serde_json::from_str(manifest["data"].as_str().unwrap()).unwrap();
    assert_eq!(
        (&manifest["start_url"], &manifest["scope"]),
        (&json!("./"), &json!("./"))
    );
    for icon in manifest["icons"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|icon| icon["type"] == "image/png")
    {
        let bytes = fs::read(dist().join(icon["src"].as_str().unwrap())).unwrap();
        assert_eq!(icon["sizes"], png_size(&bytes), "{icon}");
    }
    phone.put_down().await;
}

/// Source: PNG specification (W3C), 11.2.1 IHDR: width and height are the first two numbers, high byte first.
fn png_size(bytes: &[u8]) -> String {
    let number = |at: usize| u32::from_be_bytes(bytes[at..at + 4].try_into().unwrap());
    format!("{}x{}", number(16), number(20))
}

#[tokio::test]
async fn a_stopped_app_says_so_and_hands_over_what_was_saved() {
    let (_profile, phone, _server, _) = visit("/").await;
    let downloads = Folder::new();
    let to = json!({ "behavior": "allow", "downloadPath": downloads.path() });
    phone.tell("Browser.setDownloadBehavior", to).await;

    phone
        .ask("window.dispatchEvent(new CustomEvent('pw-panic', { detail: 'a bowl fell' }))")
        .await;
    phone.press("#trouble-copy").await;
    phone
        .wait_for("document.getElementById('trouble-said').textContent.startsWith('Nothing has been saved')")
        .await;
    phone.ask(SAVE_ONE).await;
    phone.press("#trouble-copy").await;
    let copy = downloads.path().join("pattywright-raw-data.json");
    phone
        .wait_for("document.getElementById('trouble-said').textContent.startsWith('Look for')")
        .await;
    for _ in 0..100 {
        if copy.is_file() {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
    let copy: Value = serde_json::from_str(&fs::read_to_string(copy).expect("the copy was downloaded")).unwrap();
    assert_eq!(
        copy,
        json!({ "book": [{ "key": "book", "value": { "lines": 3 } }], "earlier": [] })
    );
    assert!(phone.text("#trouble").await.contains("still on this phone"));
    phone.check_accessible("The sentence about trouble").await;
    phone.picture("trouble").await;

    phone.press("#trouble-reload").await;
    phone.wait_until_ready().await;
    phone.put_down().await;
}

const SAVE_ONE: &str = "await new Promise((resolve, reject) => {
    const opening = indexedDB.open('pattywright');
    opening.onerror = reject;
    opening.onsuccess = () => {
        const saving = opening.result.transaction('book', 'readwrite');
        saving.objectStore('book').put({ lines: 3 }, 'book');
        saving.oncomplete = () => { opening.result.close(); resolve(true); };
    };
})";

#[tokio::test]
async fn an_app_that_cannot_start_says_so_and_is_replaced_by_one_that_can() {
    let broken = site();
    let mut files = fs::read_dir(broken.path()).unwrap().map(|entry| entry.unwrap().path());
    let app = files.find(|file| is_program(file)).unwrap();
    let good = fs::read(&app).unwrap();
    fs::write(&app, b"not a program").unwrap();
    worker::write(broken.path()).unwrap();
    let server = Server::start(broken.path(), "/", "127.0.0.1:0").unwrap();
    let profile = Folder::new();
    let phone = Phone::pick_up(&profile).await;
    phone
        .driver()
        .goto(format!("http://127.0.0.1:{}/", server.port()))
        .await
        .unwrap();
    phone.wait_for("!document.getElementById('trouble').hidden").await;
    phone.wait_until_told("pw-offline-ready").await;

    fs::write(&app, good).unwrap();
    worker::write(broken.path()).unwrap();
    phone
        .ask("(await navigator.serviceWorker.ready).update().then(() => true)")
        .await;
    phone.wait_until_told("pw-update-waiting").await;
    phone.press("#trouble-reload").await;
    phone.wait_until_ready().await;
    phone.put_down().await;
}

#[tokio::test]
async fn everyone_can_use_it_in_the_light_in_the_dark_and_with_forced_colours() {
    let (_profile, phone, _server, _) = visit("/").await;
    let looks: [(&str, &[(&str, &str)]); 3] = [
        ("light", &[("prefers-color-scheme", "light")]),
        ("dark", &[("prefers-color-scheme", "dark")]),
        ("forced-colours", &[("forced-colors", "active")]),
    ];
    for (name, features) in looks {
        phone.prefer(features).await;
        phone.picture(&format!("first-room-{name}")).await;
        phone.check_accessible(&format!("The first room ({name})")).await;
    }
    phone.put_down().await;
}

/// Whether a file is the page's program, and not the one for scripts beside it.
pub fn is_program(file: &std::path::Path) -> bool {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    name.starts_with("app-") && name.ends_with(".wasm")
}
