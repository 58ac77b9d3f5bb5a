//! A new version arrives whole, and only when the cook takes it.

use e2e::{Folder, Phone, Server, names, site, worker};
use std::fs;

/// A phone with a page on it that a test may change, and the server it came from.
pub struct Kitchen {
    pub site: Folder,
    pub phone: Phone,
    pub address: String,
    pub server: Option<Server>,
    _profile: Folder,
}

impl Kitchen {
    /// Opens a page that a test may change, and waits until it is on the phone.
    pub async fn open() -> Kitchen {
        let (site, profile) = (site(), Folder::new());
        let server = Server::start(site.path(), "/bowl/", "127.0.0.1:0").unwrap();
        let address = format!("http://127.0.0.1:{}/bowl/", server.port());
        let phone = Phone::pick_up(&profile).await;
        phone.open(&address).await;
        phone.wait_until_told("pw-offline-ready").await;
        Kitchen {
            site,
            phone,
            address,
            server: Some(server),
            _profile: profile,
        }
    }

    pub fn server(&self) -> &Server {
        self.server.as_ref().expect("the server is there")
    }

    /// Makes another program of the same kind: what follows at its end is a section that nothing asks for.
    ///
    /// Source: WebAssembly Core Specification 2.0, 5.5.3: a custom section is id 0, a size, a name and anything.
    pub fn change_program(&self) {
        let files = fs::read_dir(self.site.path())
            .unwrap()
            .map(|entry| entry.unwrap().path());
        let mut programs = files.filter(|file| crate::shell::is_program(file));
        let program = programs.next().unwrap();
        let mut bytes = fs::read(&program).unwrap();
        bytes.extend([0, 2, 1, b'x']);
        fs::write(program, bytes).unwrap();
    }

    /// Finishes the changed page as a build does.
    pub fn publish(&self) {
        names::by_content(self.site.path()).unwrap();
        worker::write(self.site.path()).unwrap();
    }

    /// Changes the page's title, which stands for any change.
    pub fn change_page(&self) {
        let page = self.site.path().join("index.html");
        let text = fs::read_to_string(&page).unwrap();
        fs::write(page, text.replace("<title>Pattywright", "<title>New Pattywright")).unwrap();
    }

    /// Makes the browser look for a new version; says whether the look went well.
    pub async fn look_for_update(&self) -> bool {
        let looked = self
            .phone
            .ask("(await navigator.serviceWorker.ready).update().then(() => true, () => false)");
        looked.await == true
    }

    async fn check_title(&self, title: &str) {
        assert_eq!(self.phone.driver().title().await.unwrap(), title);
    }
}

#[tokio::test]
async fn a_new_version_waits_until_it_is_taken() {
    let kitchen = Kitchen::open().await;
    kitchen.change_page();
    worker::write(kitchen.site.path()).unwrap();
    assert!(kitchen.look_for_update().await);
    kitchen.phone.wait_until_told("pw-update-waiting").await;
    kitchen.phone.reload().await;
    kitchen.check_title("Pattywright").await;

    kitchen.phone.wait_until_told("pw-update-waiting").await;
    kitchen.phone.ask("pattywright.acceptUpdate()").await;
    kitchen.phone.wait_for("document.title === 'New Pattywright'").await;
    kitchen.phone.wait_until_ready().await;
    assert_eq!(
        kitchen.phone.ask("(await caches.keys()).length").await,
        1,
        "the old version is gone"
    );
    kitchen.phone.check_quiet().await;
    kitchen.phone.put_down().await;
}

#[tokio::test]
async fn a_half_uploaded_version_is_refused() {
    let kitchen = Kitchen::open().await;
    kitchen.change_page();
    worker::write(kitchen.site.path()).unwrap();
    // The list is new, and one file is not the one it names.
    let page = kitchen.site.path().join("index.html");
    let text = fs::read_to_string(&page).unwrap();
    fs::write(&page, text.replace("New", "Half")).unwrap();
    kitchen.look_for_update().await;
    kitchen
        .phone
        .wait_for("(await navigator.serviceWorker.ready).installing === null")
        .await;
    kitchen.phone.reload().await;
    kitchen.check_title("Pattywright").await;
    assert_eq!(kitchen.phone.ask("told.includes('pw-update-waiting')").await, false);

    fs::write(&page, text).unwrap();
    assert!(kitchen.look_for_update().await);
    kitchen.phone.wait_until_told("pw-update-waiting").await;
    kitchen.phone.put_down().await;
}

#[tokio::test]
async fn a_second_tab_is_told_and_runs_on() {
    let kitchen = Kitchen::open().await;
    let driver = kitchen.phone.driver();
    kitchen.phone.reload().await;
    let first = driver.window().await.unwrap();
    let second = driver.new_tab().await.unwrap();
    driver.switch_to_window(second).await.unwrap();
    kitchen.phone.open(&kitchen.address).await;
    kitchen.change_page();
    worker::write(kitchen.site.path()).unwrap();
    assert!(kitchen.look_for_update().await);
    kitchen
        .phone
        .wait_for("(await navigator.serviceWorker.ready).waiting !== null")
        .await;
    kitchen.phone.ask("pattywright.acceptUpdate()").await;
    kitchen.phone.wait_for("document.title === 'New Pattywright'").await;

    driver.switch_to_window(first).await.unwrap();
    kitchen.phone.wait_until_told("pw-update-taken").await;
    kitchen.check_title("Pattywright").await;
    kitchen.phone.put_down().await;
}

#[tokio::test]
async fn a_neighbour_on_the_same_host_is_left_alone() {
    let kitchen = Kitchen::open().await;
    kitchen
        .phone
        .ask("(await Promise.all([caches.open('other'), caches.open('pattywright:/:old')])).length")
        .await;
    kitchen
        .phone
        .ask("(await caches.open('pattywright:/bowl/:old'), 1)")
        .await;
    kitchen.change_page();
    worker::write(kitchen.site.path()).unwrap();
    assert!(kitchen.look_for_update().await);
    kitchen.phone.wait_until_told("pw-update-waiting").await;
    kitchen.phone.ask("pattywright.acceptUpdate()").await;
    kitchen.phone.wait_for("document.title === 'New Pattywright'").await;
    kitchen
        .phone
        .wait_for("!(await caches.keys()).includes('pattywright:/bowl/:old')")
        .await;
    assert_eq!(kitchen.phone.ask("(await caches.keys()).length").await, 3);
    kitchen.phone.put_down().await;
}

#[tokio::test]
async fn the_app_can_be_taken_off_the_phones_and_saved_work_stays() {
    let kitchen = Kitchen::open().await;
    kitchen.phone.reload().await;
    kitchen.phone.ask("localStorage.setItem('kept', 'yes')").await;
    kitchen.change_page();
    let retire = include_bytes!("../../../src/app/shell/sw-retire.js");
    fs::write(kitchen.site.path().join("sw.js"), retire).unwrap();
    assert!(kitchen.look_for_update().await);
    kitchen.phone.wait_for("document.title === 'New Pattywright'").await;
    assert_eq!(kitchen.phone.ask("(await caches.keys()).length").await, 0);
    assert_eq!(kitchen.phone.ask("localStorage.getItem('kept')").await, "yes");
    kitchen.phone.put_down().await;
}
