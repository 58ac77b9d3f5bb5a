//! When the phone is full, and when the browser has cleared things away: it is said, nothing typed is lost, and a backup brings it back.

use crate::cook::Cook;
use e2e::Folder;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::time::Duration;

const LIST: &str = "100 g soy granules\n200 g water\n5 g salt";

impl Cook {
    async fn origin(&self) -> Value {
        self.phone.ask("location.origin").await
    }

    /// Leaves so many bytes for the page; none means as many as there are.
    async fn leave_room(&self, origin: &Value, bytes: Option<u32>) {
        let mut quota = json!({ "origin": origin });
        if let Some(bytes) = bytes {
            quota["quotaSize"] = json!(bytes);
        }
        self.phone.tell("Storage.overrideQuotaForOrigin", quota).await;
    }

    /// Clears what the browser keeps for the page, `indexeddb` or `local_storage`, while no tab has it open.
    async fn clear(&self, what: &str) {
        let kept = json!({ "origin": self.origin().await, "storageTypes": what });
        self.phone.driver().goto("about:blank").await.unwrap();
        self.phone.tell("Storage.clearDataForOrigin", kept).await;
        self.phone.open(&self.address).await;
    }

    /// Saves a backup file by the button on the page, and returns it with its folder.
    async fn back_up(&self) -> (Folder, PathBuf) {
        let folder = Folder::new();
        let to = json!({ "behavior": "allow", "downloadPath": folder.path() });
        self.phone.tell("Browser.setDownloadBehavior", to).await;
        self.press("Save a backup file").await;
        self.see("among your downloads.").await;
        for _ in 0..100 {
            let mut files = std::fs::read_dir(folder.path())
                .unwrap()
                .map(|file| file.unwrap().path());
            if let Some(file) = files.find(|file| file.extension().is_some_and(|kind| kind == "json")) {
                return (folder, file);
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        panic!("no backup came");
    }

    /// Hands the page a file.
    async fn open_backup(&self, file: &Path) {
        let input = self.phone.driver().find(e2e::By::Id("restore")).await.unwrap();
        input.send_keys(file.to_str().unwrap()).await.unwrap();
    }

    async fn check_for_everyone(&self, what: &str) {
        for light in ["light", "dark"] {
            self.phone.prefer(&[("prefers-color-scheme", light)]).await;
            self.wait("all('.toast').length === 0").await;
            self.phone.ask("(scrollTo(0, 0), 1)").await;
            self.phone.check_accessible(&format!("{what} ({light})")).await;
        }
    }

    async fn formula_names(&self) -> Value {
        self.go("#formula/formulas").await;
        let names = self
            .look("all('.list__one strong').map((e) => plain(e.textContent))")
            .await;
        self.phone.driver().back().await.unwrap();
        names
    }
}

#[tokio::test]
async fn fill_the_phone() {
    let cook = Cook::arrive().await;
    cook.start_with(LIST).await;
    cook.see_it_saved().await;
    // A browser that runs remembers for half a minute what room there was.
    let origin = cook.origin().await;
    let cook = cook.start_browser_again().await;
    cook.leave_room(&origin, Some(1)).await;
    cook.phone.open(&cook.address).await;
    cook.press_one_line(1).await;
    cook.write("Amount", "333 g").await;
    cook.see("This phone is full: what you type is not being saved.").await;
    assert_eq!(cook.read("Amount").await, "333 g");
    cook.check_for_everyone("A full phone").await;
    let (_folder, backup) = cook.back_up().await;
    let backup: Value = serde_json::from_str(&std::fs::read_to_string(backup).unwrap()).unwrap();
    assert_eq!(backup["formulas"][0]["lines"][1]["amount"], "333 g");
    cook.write("Amount", "334 g").await;
    cook.see("This phone is full: what you type is not being saved.").await;

    cook.leave_room(&origin, None).await;
    cook.see("Saving works again.").await;
    cook.see_it_saved().await;
    cook.phone.reload().await;
    cook.press("Formula").await;
    cook.wait("all('.line__grams')[1]?.textContent === '334 g'").await;
    cook.phone.check_nothing_left().await;
    cook.phone.put_down().await;
}

#[tokio::test]
async fn arrive_at_a_full_phone() {
    let cook = Cook::arrive().await;
    let origin = cook.origin().await;
    cook.leave_room(&origin, Some(1)).await;
    cook.clear("indexeddb").await;
    cook.press("Clear it").await;
    cook.see("This phone is full: what you type is not being saved.").await;
    cook.leave_room(&origin, None).await;
    cook.see("Saving works again.").await;
    cook.see_it_saved().await;
    cook.phone.reload().await;
    cook.press("Formula").await;
    cook.see("Write your first formula").await;
    cook.phone.put_down().await;
}

/// A browser that is killed has no time to write out what it had put off.
#[tokio::test]
async fn the_second_copy_is_as_new_as_the_book_though_the_browser_is_killed() {
    let cook = Cook::arrive().await;
    cook.start_with(LIST).await;
    cook.see_it_saved().await;
    for step in ["0.2", "0.3", "0.4"] {
        cook.write("The scale's smallest step, grams", step).await;
        cook.wait("all('.card [role=status]').some((e) => e.textContent.startsWith('Saving'))")
            .await;
        cook.see("Everything is saved on this phone.").await;
    }
    cook.phone
        .ask("await new Promise((later) => setTimeout(() => later(true), 500))")
        .await;
    let cook = cook.kill_and_come_back("#more").await;
    cook.clear("indexeddb").await;
    cook.see("It is back from its second copy").await;
    cook.go("#more").await;
    assert_eq!(cook.read("The scale's smallest step, grams").await, "0.4");
    cook.phone.put_down().await;
}

#[tokio::test]
async fn lose_the_book_and_bring_it_back() {
    let cook = Cook::arrive().await;
    cook.start_with(LIST).await;
    cook.press("More").await;
    cook.see("Never backed up.").await;
    cook.see_it_saved().await;
    let (_folder, backup) = cook.back_up().await;
    cook.see("Last backup: within the hour.").await;
    let name = cook.formula_names().await;

    // The browser loses the book alone: its second copy brings it back, and it is saved again.
    cook.clear("indexeddb").await;
    cook.see("It is back from its second copy").await;
    assert_eq!(cook.formula_names().await, name);
    cook.press("More").await;
    cook.see_it_saved().await;

    cook.phone
        .ask(
            "await navigator.storage.getDirectory().then((folder) => folder.removeEntry('book.json')).then(() => true)",
        )
        .await;
    cook.clear("indexeddb").await;
    for _ in 0..2 {
        cook.see("This browser has cleared your book away").await;
        cook.see("Write your first formula").await;
        assert_eq!(
            cook.look("document.body.innerText.includes('demonstration')").await,
            false
        );
        // Until the cook has done something about it, it is said again.
        cook.phone.reload().await;
    }
    cook.check_for_everyone("A book that is gone").await;
    cook.press("Open a backup file").await;
    cook.open_backup(&backup).await;
    cook.see("1 formula: ").await;
    cook.see("Saved on ").await;
    cook.check_for_everyone("A look into a backup").await;
    cook.press("Replace all I have").await;
    cook.wait("!document.body.innerText.includes('cleared your book away')")
        .await;
    assert_eq!(cook.formula_names().await, name);
    cook.press("Formula").await;
    cook.press_one_line(1).await;
    cook.write("Amount", "250 g").await;
    cook.see_it_saved().await;

    // What has the same name and is another is kept twice; the age of the backup outlives a reload.
    cook.phone.reload().await;
    cook.see("Last backup: within the hour.").await;
    cook.open_backup(&backup).await;
    cook.see("Not the same as what you have now").await;
    cook.press("Add to what I have").await;
    cook.see("The backup is added to what was here.").await;
    let names = cook.formula_names().await;
    let name = name[0].as_str().unwrap();
    assert_eq!(names, json!([name, format!("{name} (from backup)")]));
    cook.see_it_saved().await;

    cook.clear("local_storage").await;
    cook.see("Your book is all here.").await;
    assert_eq!(cook.formula_names().await, names);
    cook.press("More").await;
    cook.see("Never backed up.").await;
    cook.check_well().await;
    cook.phone.put_down().await;
}

/// Some browsers ask the cook, so they are not bothered before there is something to keep.
#[tokio::test]
async fn ask_for_a_promise_once_there_is_own_work() {
    let cook = Cook::arrive().await;
    let spy = "const persist = StorageManager.prototype.persist; window.asked = 0;
        StorageManager.prototype.persist = function () { asked++; return persist.call(this); };";
    let spy = json!({ "source": spy });
    cook.phone.tell("Page.addScriptToEvaluateOnNewDocument", spy).await;
    cook.phone.reload().await;
    cook.press("Clear it").await;
    cook.see_it_saved().await;
    assert_eq!(cook.phone.ask("asked").await, 0);
    cook.press("Formula").await;
    cook.press("Paste a list").await;
    cook.write(crate::cook::PASTE, LIST).await;
    cook.press("Make a new formula").await;
    cook.see_it_saved().await;
    cook.phone.wait_for("asked === 1").await;
    let promised = cook.phone.ask("await navigator.storage.persisted()").await;
    cook.see(if promised == true {
        "has promised not to clear it away."
    } else {
        "may clear it away when space runs short"
    })
    .await;
    cook.back_up().await;
    cook.phone.wait_for("asked === 2").await;
    cook.check_well().await;
    cook.phone.put_down().await;
}
