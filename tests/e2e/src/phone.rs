//! The phone itself.

use crate::Folder;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader};
use std::mem::ManuallyDrop;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use std::{env, fs};
use thirtyfour::prelude::*;
use thirtyfour::{BrowserLogEntry, ChromiumLikeCapabilities, LoggingPrefsLogLevel};

const PATIENCE: Duration = Duration::from_secs(20);

/// Every test serves its page here.
const HERE: &str = "http://127.0.0.1:";

/// Quiet, so that nothing but the page asks for anything.
const BROWSER: [&str; 12] = [
    "--headless=new",
    "--no-sandbox",
    // The tests look for the words of British English.
    "--accept-lang=en-GB",
    "--disable-gpu",
    "--disable-quic",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-default-apps",
    // What the browser asks for on its own account finds nobody.
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
];

/// Runs before any script of the page, and writes down what the shell tells the app and what the browser refuses.
const NOTEBOOK: &str = "
    window.told = [];
    window.refused = [];
    for (const name of ['pw-mounted', 'pw-offline-ready', 'pw-update-waiting', 'pw-update-taken'])
        addEventListener(name, () => told.push(name));
    document.addEventListener('securitypolicyviolation', (e) => refused.push(`${e.violatedDirective}: ${e.blockedURI}`));
";

/// A browser of 360 × 640, in somebody's hand.
pub struct Phone {
    /// Never dropped: after a failed test it would wait for an answer, and its runtime has stopped.
    driver: ManuallyDrop<WebDriver>,
    _driving: Driving,
}

impl Phone {
    /// Picks up a phone with the profile in `profile`; an empty folder is a new phone.
    pub async fn pick_up(profile: &Folder) -> Phone {
        let (driving, port) = Driving::start();
        let mut wants = DesiredCapabilities::chrome();
        let profile = format!("--user-data-dir={}", profile.path().display());
        for argument in BROWSER.into_iter().chain([profile.as_str()]) {
            wants.add_arg(argument).expect("an argument can be added");
        }
        wants
            .set_browser_log_level(LoggingPrefsLogLevel::All)
            .expect("the log can be asked for");
        wants
            .set_logging_prefs("performance", LoggingPrefsLogLevel::All)
            .expect("the log can be asked for");
        let driver = WebDriver::new(format!("http://127.0.0.1:{port}"), wants)
            .await
            .expect("Chromium starts");
        let phone = Phone {
            driver: ManuallyDrop::new(driver),
            _driving: driving,
        };
        phone.prepare_tab().await;
        phone
    }

    /// Makes the tab in front as large as a phone, and lays out the notebook for what is opened in it.
    pub async fn prepare_tab(&self) {
        let notebook = json!({ "source": NOTEBOOK });
        self.tell("Page.addScriptToEvaluateOnNewDocument", notebook).await;
        let size = json!({ "width": 360, "height": 640, "deviceScaleFactor": 2, "mobile": true });
        self.tell("Emulation.setDeviceMetricsOverride", size).await;
        let touch = json!({ "enabled": true });
        self.tell("Emulation.setTouchEmulationEnabled", touch).await;
    }

    /// Closes the browser; the profile stays.
    pub async fn put_down(self) {
        ManuallyDrop::into_inner(self.driver)
            .quit()
            .await
            .expect("Chromium closes");
    }

    /// Ends the browser as a phone does when the battery falls out: every process of it at once, without a word (SIGKILL).
    ///
    /// The profile stays, and nobody writes into it any more when this returns.
    pub fn kill(self) {
        let first = self.driver.capabilities().get("goog:processID").and_then(Value::as_u64);
        let first = first.expect("chromedriver names the browser's process");
        let family = family_of(first);
        let words = family.iter().map(ToString::to_string);
        // A child that went by itself meanwhile is no fault.
        let _ = Command::new("kill")
            .arg("-9")
            .args(words)
            .stderr(Stdio::null())
            .status();
        let start = Instant::now();
        while family.iter().any(|process| parent_of(*process).is_some()) {
            assert!(start.elapsed() < PATIENCE, "process {first} cannot be killed");
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    /// Returns the driver, for what this phone has no word for.
    pub fn driver(&self) -> &WebDriver {
        &self.driver
    }

    /// Sends a command of the Chrome DevTools Protocol.
    pub async fn tell(&self, command: &str, parameters: Value) -> Value {
        let answer = self.driver.cdp().send_raw(command, parameters).await;
        answer.unwrap_or_else(|error| panic!("{command}: {error}"))
    }

    /// Makes the processor `times` slower.
    pub async fn slow_down(&self, times: f64) {
        self.tell("Emulation.setCPUThrottlingRate", json!({ "rate": times }))
            .await;
    }

    /// Sets what the cook prefers: `("prefers-color-scheme", "dark")`, `("forced-colors", "active")`.
    pub async fn prefer(&self, features: &[(&str, &str)]) {
        let features: Vec<Value> = features
            .iter()
            .map(|(name, value)| json!({ "name": name, "value": value }))
            .collect();
        self.tell("Emulation.setEmulatedMedia", json!({ "features": features }))
            .await;
    }

    /// Goes to an address and waits until the app has mounted.
    pub async fn open(&self, address: &str) {
        self.driver
            .goto(address)
            .await
            .unwrap_or_else(|error| panic!("{address}: {error}"));
        self.wait_until_ready().await;
    }

    /// Loads the page again and waits until the app has mounted.
    pub async fn reload(&self) {
        self.driver.refresh().await.expect("the page loads again");
        self.wait_until_ready().await;
    }

    /// Waits until the app has mounted.
    pub async fn wait_until_ready(&self) {
        self.wait_for("performance.getEntriesByName('pw-ready').length === 1")
            .await;
    }

    /// Waits until the shell has told the app of `event`.
    pub async fn wait_until_told(&self, event: &str) {
        self.wait_for(&format!("told.includes('{event}')")).await;
    }

    /// Waits until a JavaScript expression is true.
    pub async fn wait_for(&self, expression: &str) {
        let start = Instant::now();
        while self.try_ask(expression).await != Ok(json!(true)) {
            if start.elapsed() > PATIENCE {
                let log = self.complaints().await.join("\n");
                let page = self.try_ask("document.body.innerText").await;
                let page = page.unwrap_or_default();
                panic!(
                    "This did not become true in {PATIENCE:?}: {expression}\nThe browser said:\n{log}\nThe page says:\n{}",
                    page.as_str().unwrap_or_default()
                );
            }
            tokio::time::sleep(Duration::from_millis(30)).await;
        }
    }

    /// Returns the value of a JavaScript expression; a promise is waited for.
    pub async fn ask(&self, expression: &str) -> Value {
        self.try_ask(expression)
            .await
            .unwrap_or_else(|error| panic!("{expression}: {error}"))
    }

    async fn try_ask(&self, expression: &str) -> Result<Value, String> {
        let script = format!("return (async () => ({expression}))()");
        let answer = self
            .driver
            .execute(script, Vec::new())
            .await
            .map_err(|error| error.to_string())?;
        Ok(answer.json().clone())
    }

    /// Presses what a CSS selector finds.
    pub async fn press(&self, selector: &str) {
        let found = self
            .driver
            .find(By::Css(selector))
            .await
            .unwrap_or_else(|_| panic!("There is no {selector}."));
        found
            .click()
            .await
            .unwrap_or_else(|error| panic!("{selector} cannot be pressed: {error}"));
    }

    /// Returns the text that a CSS selector finds, as it is shown.
    pub async fn text(&self, selector: &str) -> String {
        let found = self
            .driver
            .find(By::Css(selector))
            .await
            .unwrap_or_else(|_| panic!("There is no {selector}."));
        found
            .text()
            .await
            .unwrap_or_else(|error| panic!("{selector} cannot be read: {error}"))
    }

    /// Keeps a picture of the screen as `target/e2e/NAME.png`.
    pub async fn picture(&self, name: &str) {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/e2e");
        fs::create_dir_all(&folder).expect("a folder for pictures can be made");
        self.driver
            .screenshot(&folder.join(format!("{name}.png")))
            .await
            .expect("the screen can be pictured");
    }

    /// Returns what the browser complained of since the last time: errors, warnings, refusals.
    pub async fn complaints(&self) -> Vec<String> {
        let log: Vec<BrowserLogEntry> = self.driver.browser_log().await.expect("the browser's log can be read");
        let loud = log
            .into_iter()
            .filter(|entry| entry.level == "SEVERE" || entry.level == "WARNING");
        let mut complaints: Vec<String> = loud.map(|entry| entry.message).collect();
        let refused = self.try_ask("refused").await.unwrap_or_default();
        complaints.extend(refused.as_array().into_iter().flatten().map(ToString::to_string));
        complaints
    }

    /// Returns every address outside this machine that the page has asked for since the last time.
    ///
    /// A request that the page's own policy stopped has not left.
    pub async fn left(&self) -> Vec<String> {
        let log = self
            .driver
            .get_log("performance")
            .await
            .expect("the browser's log can be read");
        let events: Vec<Value> = log
            .iter()
            .filter_map(|entry| serde_json::from_str(&entry.message).ok())
            .collect();
        let named = |name: &'static str| {
            events
                .iter()
                .map(|event| &event["message"])
                .filter(move |event| event["method"] == name)
        };
        let stopped: Vec<&Value> = named("Network.loadingFailed")
            .filter(|event| event["params"]["blockedReason"] == "csp")
            .map(|event| &event["params"]["requestId"])
            .collect();
        let asked = named("Network.requestWillBeSent")
            .filter(|event| !stopped.contains(&&event["params"]["requestId"]))
            // The browser's own pages are not ours.
            .filter(|event| address(&event["params"]["documentURL"]).starts_with(HERE))
            .map(|event| address(&event["params"]["request"]["url"]));
        let sockets = named("Network.webSocketCreated").map(|event| address(&event["params"]["url"]));
        let outside =
            |address: &&str| (address.starts_with("http") || address.starts_with("ws")) && !address.starts_with(HERE);
        asked.chain(sockets).filter(outside).map(str::to_owned).collect()
    }

    /// Wants that nothing was complained of, and that no request left this machine.
    pub async fn check_quiet(&self) {
        let complaints = self.complaints().await;
        assert!(
            complaints.is_empty(),
            "The browser complained:\n{}",
            complaints.join("\n")
        );
        self.check_nothing_left().await;
    }

    /// Wants that no request left this machine.
    pub async fn check_nothing_left(&self) {
        let left = self.left().await;
        assert!(left.is_empty(), "Requests left this machine:\n{}", left.join("\n"));
    }

    /// Wants that axe-core finds no fault on the page as it is now, small targets among them.
    pub async fn check_accessible(&self, where_: &str) {
        let faults = self.faults().await;
        assert!(
            faults.is_empty(),
            "{where_} is not for everyone:\n{}",
            faults.join("\n")
        );
    }

    /// Returns what axe-core holds against the page as it is now, small targets among them.
    pub async fn faults(&self) -> Vec<String> {
        let axe = env::var_os("PATTYWRIGHT_AXE").map(PathBuf::from);
        let axe = axe.expect("PATTYWRIGHT_AXE names axe.min.js; cargo xtask test sets it.");
        let axe = fs::read_to_string(axe).expect("axe.min.js can be read");
        self.driver.execute(axe, Vec::new()).await.expect("axe-core starts");
        let faults = self
            .ask(
                "(await axe.run(document, { rules: { 'target-size': { enabled: true } }, resultTypes: ['violations'] }))
                    .violations.flatMap((v) => v.nodes.map((n) =>
                        `${v.id}: ${n.target.join(' ')}: ${[...n.any, ...n.all, ...n.none].map((c) => c.message).join('; ')}`))",
            )
            .await;
        serde_json::from_value(faults).expect("axe-core answers with a list")
    }
}

/// A process and all that it started, as Linux lists them.
fn family_of(first: u64) -> Vec<u64> {
    let processes = fs::read_dir("/proc").expect("Linux lists its processes");
    let numbers = processes.filter_map(|entry| entry.ok()?.file_name().to_str()?.parse().ok());
    let mut others: Vec<(u64, u64)> = numbers
        .filter_map(|process| Some((process, parent_of(process)?)))
        .collect();
    let mut family = vec![first];
    let mut next = 0;
    while let Some(parent) = family.get(next).copied() {
        family.extend(
            others
                .extract_if(.., |(_, of)| *of == parent)
                .map(|(process, _)| process),
        );
        next += 1;
    }
    family
}

/// The parent of a process that still runs.
///
/// Source: proc_pid_stat(5): after the name in brackets come the state (Z: dead, not yet counted out) and the parent.
fn parent_of(process: u64) -> Option<u64> {
    let line = fs::read_to_string(format!("/proc/{process}/stat")).ok()?;
    let (_, after) = line.rsplit_once(')')?;
    let mut words = after.split_whitespace();
    let state = words.next()?;
    let parent = words.next()?.parse().ok()?;
    (!["Z", "X"].contains(&state)).then_some(parent)
}

fn address(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}

/// The chromedriver program; Chromium goes with it when it is ended.
struct Driving(Child);

impl Driving {
    /// Starts it on a port of its own choice. That may be taken by the time it listens there, and then it ends at once.
    fn start() -> (Driving, u16) {
        let started = (0..5).find_map(|_| Driving::try_start());
        started.expect("chromedriver says its port")
    }

    fn try_start() -> Option<(Driving, u16)> {
        let program = env::var_os("CHROMEDRIVER").unwrap_or("chromedriver".into());
        let mut child = Command::new(program)
            .arg("--port=0")
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("chromedriver starts; cargo xtask test installs it");
        let said = BufReader::new(child.stdout.take().expect("its output is ours")).lines();
        let port = said.map_while(Result::ok).find_map(|line| {
            line.split_once("started successfully on port ")?
                .1
                .trim_end_matches('.')
                .parse()
                .ok()
        });
        let driving = Driving(child);
        port.map(|port| (driving, port))
    }
}

impl Drop for Driving {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}
