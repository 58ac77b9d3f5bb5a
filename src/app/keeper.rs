//! Keeps the document on the phone: saved as it changes, put together with what other tabs did, never lost in silence.

use crate::desk::{Desk, Kept};
use crate::script;
use crate::store::{Saved, Store, ask_to_persist};
use gloo::timers::callback::Timeout;
use leptos::prelude::*;
use pattywright::document::{Document, merge, read};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;

/// How long typing may pause before it is saved, ms.
const PAUSE_MS: u32 = 300;

/// The demonstration shown on first start: our own invented supper club.
const DEMO: &str = include_str!("../../tests/documents/demo.json");

/// What was found on the phone.
pub struct Opened {
    document: Document,
    /// Where it is kept, and its revision; or why it is not, in a sentence.
    kept: Result<(Store, u32), String>,
}

/// Opens what was kept, or the demonstration on first start.
pub async fn open() -> Opened {
    let opened = async {
        let store = Store::open().await.map_err(|why| why.to_string())?;
        match store.load().await.map_err(|why| why.to_string())? {
            Some((text, rev)) => {
                // What cannot be read stays as it is, untouched, and the app runs beside it.
                let asked = read(&text).map_err(|why| {
                    format!("What is saved on this phone could not be read. {why}. New work is not being saved.")
                })?;
                Ok((asked.document, store, rev))
            }
            None => Ok((demo(), store, 0)),
        }
    };
    match opened.await {
        Ok((document, store, rev)) => Opened {
            document,
            kept: Ok((store, rev)),
        },
        Err(why) => Opened {
            document: demo(),
            kept: Err(why),
        },
    }
}

impl Opened {
    /// Lays it on the desk, and keeps it from now on.
    pub fn desk(self) -> Desk {
        let desk = Desk::new(self.document);
        match self.kept {
            Ok((store, rev)) => keep(desk, store, rev),
            Err(why) => desk.kept.set(Kept::Not(why)),
        }
        desk
    }
}

/// The demonstration, marked as one.
pub fn demo() -> Document {
    let mut document = read(DEMO).map(|asked| asked.document).unwrap_or_default();
    document.settings.demo = true;
    document
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
    /// The pause after the last key.
    pause: Rc<RefCell<Option<Timeout>>>,
}

/// Saves the document as it changes, from now on.
fn keep(desk: Desk, store: Store, rev: u32) {
    desk.store.set_value(Some(store.clone()));
    let document = desk.document.get_untracked();
    let keeper = Keeper {
        desk,
        store,
        agreed: Rc::new(RefCell::new(Agreed { document, rev })),
        busy: Rc::default(),
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
    let flush = Closure::<dyn Fn()>::new(move || keeper.save_now());
    for name in ["pagehide", "visibilitychange", "blur"] {
        let _ = window().add_event_listener_with_callback(name, flush.as_ref().unchecked_ref());
        let _ = document_target().add_event_listener_with_callback(name, flush.as_ref().unchecked_ref());
    }
    flush.forget();
}

fn document_target() -> web_sys::Document {
    leptos::prelude::document()
}

impl Keeper {
    fn unsaved(&self) -> bool {
        !Arc::ptr_eq(&self.desk.document.get_untracked(), &self.agreed.borrow().document)
    }

    fn changed(&self) {
        if !self.unsaved() {
            // What was typed is taken back before it was saved: there is nothing left to save.
            if !self.busy.get() && self.desk.kept.get_untracked() == Kept::Saving {
                self.desk.kept.set(Kept::Saved);
            }
            return;
        }
        self.desk.kept.set(Kept::Saving);
        let keeper = self.clone();
        *self.pause.borrow_mut() = Some(Timeout::new(PAUSE_MS, move || keeper.save_now()));
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
            match self.store.save(&document.write(), based_on).await {
                Ok(Saved::Done { rev }) => {
                    // Asked once there is something worth keeping, so that the browser does not clear it away.
                    if based_on == 0 {
                        ask_to_persist().await;
                    }
                    *self.agreed.borrow_mut() = Agreed { document, rev };
                    self.desk.kept.set(Kept::Saved);
                }
                Ok(Saved::Conflict { text, rev }) => {
                    if !self.put_together(&text, rev) {
                        return;
                    }
                }
                Err(why) => {
                    self.desk.kept.set(Kept::Not(why.to_string()));
                    return;
                }
            }
        }
    }

    /// Another tab saved first: both changes are kept.
    fn put_together(&self, text: &str, rev: u32) -> bool {
        let Ok(theirs) = read(text) else {
            self.desk.kept.set(Kept::Not(
                "Another tab saved something this one cannot read. Reload this page; save a backup file first if you typed something here.".into(),
            ));
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

/// Offers the whole document as a file.
pub fn download_backup(desk: Desk) {
    let name = format!("pattywright-{}.json", script::today());
    match script::download(&name, &desk.document.get_untracked().write()) {
        Ok(()) => desk.say(format!("Look for {name} among your downloads."), false),
        Err(_) => desk.say("This browser would not save a file.", false),
    }
}
