//! Keeps the document on the phone: saved as it changes, put together with what other tabs did, never lost in silence.

use crate::desk::{Desk, Kept};
use crate::language;
use crate::store::copy::{Copies, copy};
use crate::store::witness::Mark;
use crate::store::{Saved, Store, StoreError};
use gloo::timers::callback::Timeout;
use leptos::prelude::*;
use pattywright::document::{Document, LONGEST_TEXT, Settings, merge, read};
use pattywright::sheet::demo::in_words;
use pattywright::words::say;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// How long typing may pause before it is saved, ms.
const PAUSE_MS: u32 = 300;

/// How long until a save that failed is tried again, ms.
const RETRY_MS: u32 = 5_000;

/// The demonstration shown on first start: our own invented supper club.
const DEMO: &str = include_str!("../../tests/documents/demo.json");

/// What was found on the phone.
pub struct Opened {
    document: Document,
    /// Where it is kept, and its revision; or why it is not.
    kept: Result<(Store, u32), Refused>,
    /// What the phone holds, where that is not what was opened.
    agreed: Option<Document>,
    /// Something to be said of it.
    said: Option<&'static str>,
}

/// Why nothing is kept.
struct Refused {
    /// What to do, in a sentence.
    says: String,
    /// No room: there may be some later.
    full: bool,
}

impl From<StoreError> for Refused {
    fn from(error: StoreError) -> Self {
        Refused {
            says: error.to_string(),
            full: error == StoreError::Full,
        }
    }
}

/// Opens what was kept, or the demonstration on first start.
///
/// Where there was a book and is none, the room is empty and says so: a demonstration would look as if nothing had been.
pub async fn open() -> Opened {
    language::speak_as(&Settings::default());
    let opened = async {
        let store = Store::open().await?;
        match store.load().await? {
            Some((text, rev)) => {
                // What cannot be read stays as it is, untouched, and the app runs beside it.
                let asked = read(&text).map_err(|why| Refused {
                    says: say!(
                        "What is saved on this phone could not be read. {why}. New work is not being saved.",
                        why
                    ),
                    full: false,
                })?;
                Ok((Some(asked.document), store, rev))
            }
            None => Ok((None, store, 0)),
        }
    };
    let opened: Result<_, Refused> = opened.await;
    let saved_ms = Mark::Saved.at_ms();
    let (mut said, mut agreed) = (None, None);
    let (found, kept) = match opened {
        Ok((mut found, store, rev)) => {
            match (&found, saved_ms) {
                (None, Some(saved_ms)) => match copy().await.and_then(|text| read(&text).ok()) {
                    Some(copy) => {
                        found = Some(copy.document);
                        agreed = Some(Document::default());
                        said = Some(say(
                            "This browser had lost your book. It is back from its second copy: look it over.",
                        ));
                    }
                    None => {
                        Mark::Cleared.note(saved_ms);
                        Mark::Saved.forget();
                    }
                },
                (Some(_), None) if Mark::Saved.note(js_sys::Date::now()) => {
                    said = Some(say(
                        "This browser has forgotten running timers and when the last backup was. Your book is all here.",
                    ));
                }
                _ => {}
            }
            (found, Ok((store, rev)))
        }
        Err(refused) => (None, Err(refused)),
    };
    let had_a_book = saved_ms.is_some() || Mark::Cleared.at_ms().is_some();
    if let Some(found) = &found {
        language::speak_as(&found.settings);
    }
    Opened {
        document: found.unwrap_or_else(|| if had_a_book { Document::default() } else { demo() }),
        kept,
        agreed,
        said,
    }
}

impl Opened {
    /// Lays it on the desk, and keeps it from now on.
    pub fn desk(self) -> Desk {
        let desk = Desk::new(self.document);
        if let Some(said) = self.said {
            desk.say(said, false);
        }
        warn_of_leaving(desk);
        language::follow(desk);
        desk.note_place();
        match self.kept {
            Ok((store, rev)) => {
                let agreed = self.agreed.map_or(desk.document.get_untracked(), Arc::new);
                drop(keep(desk, store, rev, agreed));
            }
            Err(refused) => {
                desk.kept.set(Kept::Not(refused.says));
                if refused.full {
                    open_later(desk, desk.document.get_untracked(), Owner::current());
                }
            }
        }
        desk
    }
}

/// Tries again and again to open the book on a full phone; `shown` is what the cook was shown in its place.
fn open_later(desk: Desk, shown: Arc<Document>, owner: Option<Owner>) {
    let again = move || {
        spawn_local(async move {
            let (Ok(store), Some(owner)) = (Store::open().await, owner.clone()) else {
                return open_later(desk, shown, owner);
            };
            // What is there counts as saved by another tab.
            let keeper = owner.with(|| keep(desk, store, 0, shown));
            keeper.saved_again();
            keeper.save_now();
            keeper.take_from_other_tab();
        });
    };
    Timeout::new(RETRY_MS, again).forget();
}

/// The browser asks before it closes a page with work that could not be saved.
fn warn_of_leaving(desk: Desk) {
    let leaving = window_event_listener_untyped("beforeunload", move |event| {
        if matches!(desk.kept.get_untracked(), Kept::Not(_)) && desk.can_undo.get_untracked() {
            event.prevent_default();
        }
    });
    on_cleanup(move || leaving.remove());
}

/// The demonstration, marked as one.
pub fn demo() -> Document {
    let mut document = read(DEMO).map(|asked| asked.document).unwrap_or_default();
    document.settings.demo = true;
    in_words(document)
}

/// What this tab and the phone last agreed on.
struct Agreed {
    document: Arc<Document>,
    rev: u32,
}

#[derive(Clone)]
struct Keeper {
    desk: Desk,
    store: Store,
    agreed: Rc<RefCell<Agreed>>,
    /// A save is under way; another one follows if the document moved on meanwhile.
    busy: Rc<Cell<bool>>,
    /// The book a second time.
    copies: Copies,
    /// The pause after the last key.
    pause: Rc<RefCell<Option<Timeout>>>,
}

/// Saves the document as it changes, from now on; `document` is what the phone has, under `rev`.
fn keep(desk: Desk, store: Store, rev: u32, document: Arc<Document>) -> Keeper {
    desk.store.set_value(Some(store.clone()));
    let keeper = Keeper {
        desk,
        store,
        agreed: Rc::new(RefCell::new(Agreed { document, rev })),
        busy: Rc::default(),
        copies: Copies::default(),
        pause: Rc::default(),
    };
    let on_change = keeper.clone();
    Effect::new(move |_| {
        desk.document.track();
        on_change.changed();
    });
    let on_other = keeper.clone();
    keeper.store.on_other_tab(move |rev| {
        if rev > on_other.agreed.borrow().rev {
            on_other.clone().take_from_other_tab();
        }
    });
    // A phone may put a page away at any time: what is typed goes to disk at once.
    let on_leaving = keeper.clone();
    let flush = Closure::<dyn Fn()>::new(move || on_leaving.save_now());
    for name in ["pagehide", "visibilitychange", "blur"] {
        let _ = window().add_event_listener_with_callback(name, flush.as_ref().unchecked_ref());
        let _ = document_target().add_event_listener_with_callback(name, flush.as_ref().unchecked_ref());
    }
    flush.forget();
    keeper
}

fn document_target() -> web_sys::Document {
    leptos::prelude::document()
}

impl Keeper {
    fn unsaved(&self) -> bool {
        !Arc::ptr_eq(&self.desk.document.get_untracked(), &self.agreed.borrow().document)
    }

    fn changed(&self) {
        // Opened, and nothing done yet. What is taken back before it was saved goes the whole way.
        if !self.unsaved() && self.desk.kept.get_untracked() == Kept::Saved {
            return;
        }
        // While it cannot be saved, that is what is said.
        if !matches!(self.desk.kept.get_untracked(), Kept::Not(_)) {
            self.desk.kept.set(Kept::Saving);
        }
        self.save_after(PAUSE_MS);
    }

    fn save_after(&self, pause_ms: u32) {
        let keeper = self.clone();
        let save = move || {
            if keeper.unsaved() {
                keeper.save_now();
            } else if !keeper.busy.get() {
                keeper.saved_again();
            }
        };
        *self.pause.borrow_mut() = Some(Timeout::new(pause_ms, save));
    }

    fn save_now(&self) {
        if self.unsaved() && !self.busy.replace(true) {
            let keeper = self.clone();
            spawn_local(async move {
                keeper.save().await;
                keeper.busy.set(false);
            });
        }
    }

    async fn save(&self) {
        while self.unsaved() {
            let document = self.desk.document.get_untracked();
            let based_on = self.agreed.borrow().rev;
            let text = document.write();
            // What is not read again may not be saved.
            if text.len() > LONGEST_TEXT {
                return self.not_saved(say("The book has grown larger than 4 MB and is not being saved. Save a backup file, then take something out.").into());
            }
            match self.store.save(&text, based_on).await {
                Ok(Saved::Done { rev }) => {
                    self.desk.care.saved(&document);
                    self.copies.keep(text);
                    *self.agreed.borrow_mut() = Agreed { document, rev };
                    self.saved_again();
                }
                Ok(Saved::Conflict { text, rev }) => {
                    if !self.put_together(&text, rev) {
                        return;
                    }
                }
                Err(why) => {
                    self.not_saved(why.to_string());
                    self.save_after(RETRY_MS);
                    return;
                }
            }
        }
    }

    /// Says that it is not saved, once.
    fn not_saved(&self, why: String) {
        let now = Kept::Not(why);
        if self.desk.kept.get_untracked() != now {
            self.desk.kept.set(now);
        }
    }

    fn saved_again(&self) {
        if matches!(self.desk.kept.get_untracked(), Kept::Not(_)) {
            self.desk.say(say("Saving works again."), false);
        }
        self.desk.kept.set(Kept::Saved);
    }

    /// Another tab saved first: both changes are kept.
    fn put_together(&self, text: &str, rev: u32) -> bool {
        let Ok(theirs) = read(text) else {
            self.not_saved(
                say("Another tab saved something this one cannot read. Reload this page; save a backup file first if you typed something here.").into(),
            );
            return false;
        };
        let mine = self.desk.document.get_untracked();
        let base = self.agreed.borrow().document.clone();
        let theirs = Arc::new(theirs.document);
        *self.agreed.borrow_mut() = Agreed {
            document: theirs.clone(),
            rev,
        };
        if Arc::ptr_eq(&mine, &base) {
            self.agreed.borrow_mut().document = theirs.clone();
            self.desk.show(theirs);
        } else {
            let merged = merge(&base, &mine, &theirs);
            let told = merged.told();
            self.desk.show(Arc::new(merged.document));
            // What was typed here stays on the screen.
            if let Some(copy) = merged
                .copies
                .iter()
                .find(|copy| copy.of == self.desk.current.get_untracked())
            {
                self.desk.current.set(copy.id.clone());
            }
            self.desk.say(told, false);
        }
        true
    }

    fn take_from_other_tab(self) {
        if self.busy.get() {
            return; // The save under way meets the other tab's revision itself.
        }
        spawn_local(async move {
            if let Ok(Some((text, rev))) = self.store.load().await
                && rev > self.agreed.borrow().rev
                && self.put_together(&text, rev)
            {
                self.save_now();
            }
        });
    }
}
