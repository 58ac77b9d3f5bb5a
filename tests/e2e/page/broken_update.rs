//! Everything that can go wrong with a new version: the old one goes on working without a network, and no mixture ever runs.

use crate::update::Kitchen;
use e2e::{Fault, Server};
use serde_json::{Value, json};
use std::fs;

/// What the page was built of: its title and the names of its script and its program.
const RUNNING: &str = "[document.title, ...Object.values(document.querySelector('script[data-js]').dataset)]";

impl Kitchen {
    async fn running(&self) -> Value {
        self.phone.ask(RUNNING).await
    }

    /// Wants nothing but this version to be on the phone, and a reload to bring it.
    async fn check_still(&self, version: &Value, why: &str) {
        self.phone
            .wait_for("(await navigator.serviceWorker.ready).installing === null")
            .await;
        self.phone.reload().await;
        assert_eq!(self.running().await, *version, "{why}");
        assert_eq!(
            self.phone.ask("told.includes('pw-update-waiting')").await,
            false,
            "{why}"
        );
        assert_eq!(self.phone.ask("(await caches.keys()).length").await, 1, "{why}");
    }

    /// Takes the new version, and wants all of it to be new, also without a server.
    async fn check_taken(&mut self, old: &Value) {
        self.phone.wait_until_told("pw-update-waiting").await;
        self.phone.ask("pattywright.acceptUpdate()").await;
        self.phone.wait_for("document.title === 'New Pattywright'").await;
        self.phone.wait_until_ready().await;
        self.server = None;
        self.phone.reload().await;
        let new = self.running().await;
        assert_eq!(new[0], "New Pattywright");
        assert_ne!(new[2], old[2], "the program is another");
    }
}

#[tokio::test]
async fn fail_to_bring_a_new_version() {
    let mut kitchen = Kitchen::open().await;
    let old = kitchen.running().await;
    kitchen.change_program();
    kitchen.change_page();
    kitchen.publish();
    let files = [".wasm", "/bowl/", ".css"].map(|file| {
        (
            file,
            vec![Fault::CutOff, Fault::Short, Fault::Missing, Fault::OtherPage],
        )
    });
    let worker = (
        "/sw.js",
        vec![Fault::CutOff, Fault::Short, Fault::Missing, Fault::OtherPage],
    );
    for (file, faults) in files.into_iter().chain([worker]) {
        for fault in faults {
            kitchen.server().spoil(file, fault);
            kitchen.look_for_update().await;
            kitchen.check_still(&old, &format!("{file}: {fault:?}")).await;
        }
    }

    // No room for a second version.
    kitchen.server().mend();
    let origin = kitchen.phone.ask("location.origin").await;
    let quota = |bytes: Value| json!({ "origin": origin, "quotaSize": bytes });
    kitchen
        .phone
        .tell("Storage.overrideQuotaForOrigin", quota(json!(1)))
        .await;
    kitchen.look_for_update().await;
    kitchen.check_still(&old, "a full phone").await;
    kitchen
        .phone
        .tell("Storage.overrideQuotaForOrigin", json!({ "origin": origin }))
        .await;

    // The server goes half-way and does not come back for a while.
    kitchen.server().spoil(".wasm", Fault::Dies);
    kitchen.look_for_update().await;
    kitchen.check_still(&old, "the server died").await;
    kitchen.phone.check_nothing_left().await;

    let port = kitchen.server().port();
    kitchen.server = None;
    let again = Server::start(kitchen.site.path(), "/bowl/", &format!("127.0.0.1:{port}")).unwrap();
    kitchen.server = Some(again);
    kitchen.look_for_update().await;
    kitchen.check_taken(&old).await;
    kitchen.phone.put_down().await;
}

/// A worker that is cut short but still runs would leave the page without its files.
#[tokio::test]
async fn half_a_worker_is_no_script() {
    let kitchen = Kitchen::open().await;
    let whole = fs::read_to_string(kitchen.site.path().join("sw.js")).unwrap();
    let compile = |script: &str| json!({ "expression": script, "sourceURL": "", "persistScript": false });
    let mut cut = 0;
    for (end, _) in whole.trim_end().match_indices(['\n', ';']).step_by(3) {
        let answer = kitchen
            .phone
            .tell("Runtime.compileScript", compile(&whole[..end]))
            .await;
        assert!(answer["exceptionDetails"].is_object(), "{}", &whole[..end]);
        cut += 1;
    }
    assert!(cut > 20, "{cut}");
    let answer = kitchen.phone.tell("Runtime.compileScript", compile(&whole)).await;
    assert!(answer["exceptionDetails"].is_null(), "{answer}");
    kitchen.phone.put_down().await;
}

const SHOWN_AGAIN: &str = "document.dispatchEvent(new Event('visibilitychange'))";

#[tokio::test]
async fn clear_the_files_away_while_the_page_is_open() {
    let mut kitchen = Kitchen::open().await;
    let old = kitchen.running().await;
    let count = "(await (await caches.open((await caches.keys())[0])).keys()).length";
    let all = kitchen.phone.ask(count).await;
    for cleared in [
        "await caches.delete((await caches.keys())[0])",
        "await (await caches.open((await caches.keys())[0])).delete(document.querySelector('script[data-js]').dataset.wasm)",
    ] {
        assert_eq!(kitchen.phone.ask(cleared).await, true);
        kitchen.phone.ask(SHOWN_AGAIN).await;
        kitchen
            .phone
            .wait_for(&format!("(await caches.keys()).length === 1 && {count} === {all}"))
            .await;
    }
    // With a newer version on the server, the page comes from there, all of it, until that version is taken.
    kitchen.change_program();
    kitchen.change_page();
    kitchen.publish();
    kitchen.phone.ask("await caches.delete((await caches.keys())[0])").await;
    kitchen.phone.reload().await;
    let new = kitchen.running().await;
    assert_eq!(new[0], "New Pattywright");
    assert_ne!(new[2], old[2]);
    kitchen.check_taken(&old).await;
    kitchen.phone.put_down().await;
}

#[tokio::test]
async fn go_on_in_an_old_tab_beside_a_new_version() {
    let mut kitchen = Kitchen::open().await;
    kitchen.phone.reload().await;
    let old = kitchen.running().await;
    let driver = kitchen.phone.driver();
    let first = driver.window().await.unwrap();
    let second = driver.new_tab().await.unwrap();
    driver.switch_to_window(second).await.unwrap();
    kitchen.phone.prepare_tab().await;
    kitchen.phone.open(&kitchen.address).await;
    kitchen.change_program();
    kitchen.change_page();
    kitchen.publish();
    kitchen.look_for_update().await;
    kitchen.check_taken(&old).await;

    // The old tab runs on with no server and no files of its own, saves, and says what there is to do.
    kitchen.phone.driver().switch_to_window(first).await.unwrap();
    assert_eq!(kitchen.running().await, old);
    kitchen
        .phone
        .wait_for("document.body.innerText.includes('A new version is on this phone and waits.')")
        .await;
    kitchen.phone.ask("(location.hash = '#more', 1)").await;
    let chip = "[...document.querySelectorAll('[aria-label=\"Which cup\"] [aria-pressed=false]')][0]";
    kitchen.phone.ask(&format!("({chip}.click(), 1)")).await;
    kitchen
        .phone
        .wait_for("document.body.innerText.includes('Everything is saved on this phone.')")
        .await;
    let take = "[...document.querySelectorAll('button')].find((e) => e.textContent === 'Use it now').click()";
    kitchen.phone.ask(&format!("({take}, 1)")).await;
    kitchen.phone.wait_for("document.title === 'New Pattywright'").await;
    kitchen.phone.wait_until_ready().await;
    kitchen.phone.put_down().await;
}

/// The page's clock can be set; the worker looks at none.
const CLOCK: &str = "
    const Real = Date;
    window.years = YEARS;
    const now = () => Real.now() + years * 31_557_600_000;
    window.Date = class extends Real {
        constructor(...parts) { if (parts.length) super(...parts); else super(now()); }
        static now() { return now(); }
    };
";

#[tokio::test]
async fn set_the_clock_wrong_by_years() {
    let mut kitchen = Kitchen::open().await;
    let old = kitchen.running().await;
    let clock = json!({ "source": CLOCK.replace("YEARS", "20") });
    kitchen.phone.tell("Page.addScriptToEvaluateOnNewDocument", clock).await;
    kitchen.phone.reload().await;
    kitchen.change_program();
    kitchen.change_page();
    kitchen.publish();
    // Set back by forty years: an hour has not gone by, and yet it is looked for.
    kitchen.phone.ask("(years = -20)").await;
    kitchen.phone.ask(SHOWN_AGAIN).await;
    kitchen.check_taken(&old).await;
    kitchen.phone.check_nothing_left().await;
    kitchen.phone.put_down().await;
}
