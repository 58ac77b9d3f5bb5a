//! A cook with the phone in one hand: finds things by the words on them, and waits until they are there.

use e2e::{Folder, Phone, Server, dist};
use serde_json::{Value, json};

/// What a cook can see: shown, and not under a sheet.
const EYES: &str = "
    const plain = (text) => (text ?? '').replace(/\\s+/g, ' ').trim();
    const shown = (e) => e.checkVisibility() && !e.closest('[inert]');
    const all = (selector) => [...document.querySelectorAll(selector)].filter(shown);
    const buttons = (words) => all('button, a, summary').filter((e) => [e.getAttribute('aria-label'), e.textContent].some((said) => plain(said) === words));
    const fields = (words) => all('label').filter((e) => plain(e.textContent) === words).map((e) => e.control);
";

/// A new phone with the page open on it, and the server it came from.
pub struct Cook {
    pub phone: Phone,
    pub address: String,
    server: Option<Server>,
    profile: Folder,
}

impl Cook {
    /// Opens the page for the first time, and waits until it is on the phone.
    pub async fn arrive() -> Cook {
        let server = Server::start(&dist(), "/", "127.0.0.1:0").unwrap();
        let address = format!("http://127.0.0.1:{}/", server.port());
        let profile = Folder::new();
        let phone = Phone::pick_up(&profile).await;
        phone.open(&address).await;
        phone.wait_until_told("pw-offline-ready").await;
        Cook {
            phone,
            address,
            server: Some(server),
            profile,
        }
    }

    /// Kills the browser, and opens the page again on the same phone, in one of its rooms.
    pub async fn kill_and_come_back(self, hash: &str) -> Cook {
        self.phone.kill();
        let phone = Phone::pick_up(&self.profile).await;
        phone.open(&format!("{}{hash}", self.address)).await;
        Cook { phone, ..self }
    }

    /// Closes the browser and starts it again on the same phone, with no page open.
    pub async fn start_browser_again(self) -> Cook {
        self.phone.put_down().await;
        let phone = Phone::pick_up(&self.profile).await;
        Cook { phone, ..self }
    }

    /// Clears the demonstration, and makes a formula of a pasted list.
    pub async fn start_with(&self, list: &str) {
        self.press("Clear it").await;
        self.press("Paste a list").await;
        self.write(PASTE, list).await;
        self.press("Make a new formula").await;
        self.see("In the bowl").await;
    }

    /// Wants the page to have gone from the network.
    pub async fn lose_the_network(&mut self) {
        self.server = None;
        let look = format!(
            "await fetch('{}sw.js', {{ cache: 'no-store' }}).then(() => 'there', () => 'gone')",
            self.address
        );
        assert_eq!(self.phone.ask(&look).await, "gone");
    }

    /// Goes to an address after `#`, and waits until it is drawn.
    pub async fn go(&self, hash: &str) {
        self.phone.ask(&format!("(location.hash = {}, 1)", json!(hash))).await;
        self.phone
            .ask("await new Promise((drawn) => requestAnimationFrame(() => setTimeout(() => drawn(1))))")
            .await;
    }

    /// Presses the button, door or fold with these words on it.
    pub async fn press(&self, words: &str) {
        self.press_one(words, 0).await;
    }

    /// Presses one of several with the same words, counted from 0.
    pub async fn press_one(&self, words: &str, which: usize) {
        let found = format!("buttons({})[{which}]", json!(words));
        self.touch(&found).await;
    }

    /// Opens or closes a line of the formula, counted from 0.
    pub async fn press_one_line(&self, which: usize) {
        self.touch(&format!("all('.line__row')[{which}]")).await;
    }

    /// Writes over what is in the field with this label.
    pub async fn write(&self, label: &str, text: &str) {
        self.write_one(label, 0, text).await;
    }

    /// Writes over one of several fields with the same label, counted from 0.
    pub async fn write_one(&self, label: &str, which: usize, text: &str) {
        let field = format!("fields({})[{which}]", json!(label));
        self.touch(&field).await;
        self.look(&format!("({field}.select(), 1)")).await;
        let how = if text.is_empty() {
            (
                "Input.dispatchKeyEvent",
                json!({ "type": "keyDown", "key": "Delete", "code": "Delete", "windowsVirtualKeyCode": 46 }),
            )
        } else {
            ("Input.insertText", json!({ "text": text }))
        };
        self.phone.tell(how.0, how.1).await;
    }

    /// Returns what is in the field with this label.
    pub async fn read(&self, label: &str) -> String {
        let field = format!("fields({})[0]", json!(label));
        self.wait(&format!("!!{field}")).await;
        text(self.look(&format!("{field}.value")).await)
    }

    /// Returns what is said below the field with this label.
    pub async fn said_below(&self, label: &str) -> String {
        let field = format!("fields({})[0]", json!(label));
        let said = format!("plain(document.getElementById({field}.getAttribute('aria-describedby')).textContent)");
        text(self.look(&said).await)
    }

    /// Returns the words of everything shown that a selector finds.
    pub async fn words(&self, selector: &str) -> Vec<String> {
        let found = self
            .look(&format!("all({}).map((e) => plain(e.textContent))", json!(selector)))
            .await;
        serde_json::from_value(found).unwrap()
    }

    /// Waits until these words are on the page.
    pub async fn see(&self, words: &str) {
        self.wait(&format!(
            "plain(document.body.innerText + all('[aria-label]').map((e) => e.ariaLabel).join(' ')).includes({})",
            json!(words)
        ))
        .await;
    }

    /// Waits until the work is saved on this phone, as the page itself says; ends in More.
    pub async fn see_it_saved(&self) {
        self.press("More").await;
        self.see("Everything is saved on this phone.").await;
    }

    /// Waits until an expression over what is seen is true.
    pub async fn wait(&self, expression: &str) {
        self.phone.wait_for(&seen(expression)).await;
    }

    /// Returns the value of an expression over what is seen.
    pub async fn look(&self, expression: &str) -> Value {
        self.phone.ask(&seen(expression)).await
    }

    /// Wants the app to be running, the browser to be content, and nothing to have left.
    pub async fn check_well(&self) {
        assert_eq!(self.look("all('#trouble').length").await, 0, "the app has stopped");
        self.phone.check_quiet().await;
    }

    /// Brings what the expression finds to the middle of the screen, and touches it.
    pub async fn touch(&self, found: &str) {
        self.wait(&format!("!!{found}")).await;
        let script = format!(
            "{EYES} const found = {found}; found.scrollIntoView({{ block: 'center', behavior: 'instant' }}); return found;"
        );
        let found_there = self.phone.driver().execute(script, Vec::new()).await;
        let element = found_there.and_then(|found| found.element());
        let element = element.unwrap_or_else(|error| panic!("{found} went away: {error}"));
        element
            .click()
            .await
            .unwrap_or_else(|error| panic!("{found} cannot be touched: {error}"));
    }
}

/// The label of the box that takes a list.
pub const PASTE: &str = "One ingredient on each line, as it is written";

fn seen(expression: &str) -> String {
    format!("(() => {{ {EYES} return {expression}; }})()")
}

fn text(value: Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

/// Returns the grams in words such as `187 g`.
#[track_caller]
pub fn grams(words: &str) -> f64 {
    let number = words.split(" g").next().unwrap_or_default();
    number.parse().unwrap_or_else(|_| panic!("“{words}” is not in grams"))
}
