//! What the cook should know of how safe the work is, and what is done about it: backups, promises, losses.

use crate::desk::{Desk, Kept};
use crate::live::shown;
use crate::route;
use crate::script;
use crate::store::witness::Mark;
use crate::store::{ask_to_persist, persisted};
use gloo::timers::callback::Timeout;
use leptos::prelude::*;
use markup::view;
use pattywright::document::Document;
use pattywright::words::say;
use wasm_bindgen_futures::spawn_local;

/// How often it is looked whether everything is saved, ms.
const LOOK_MS: u32 = 100;

/// How safe the work is. Cheap to copy.
#[derive(Clone, Copy)]
pub struct Care {
    /// When a backup file was last made, ms since 1970.
    pub backed_up: RwSignal<Option<f64>>,
    /// Whether the browser promised to keep the book for good; none where it cannot promise.
    pub promised: RwSignal<Option<bool>>,
    /// When the book that is gone was last saved, ms since 1970.
    pub cleared: RwSignal<Option<f64>>,
}

impl Care {
    pub fn take_up() -> Care {
        let care = Care {
            backed_up: RwSignal::new(Mark::BackedUp.at_ms()),
            promised: RwSignal::new(None),
            cleared: RwSignal::new(Mark::Cleared.at_ms()),
        };
        spawn_local(async move { care.promised.set(persisted().await) });
        care
    }

    /// Notes a save; the first one of the cook's own work is worth a promise.
    pub fn saved(self, document: &Document) {
        let now_ms = js_sys::Date::now();
        Mark::Saved.note(now_ms);
        let own = !document.settings.demo && !document.formulas.is_empty();
        if own && Mark::Asked.at_ms().is_none() {
            self.ask(now_ms);
        }
    }

    fn ask(self, now_ms: f64) {
        Mark::Asked.note(now_ms);
        spawn_local(async move { self.promised.set(ask_to_persist().await) });
    }

    /// The cook has the book back, or does without it.
    pub fn settle(self) {
        Mark::Cleared.forget();
        self.cleared.set(None);
    }
}

/// Offers the whole document as a file.
pub fn download_backup(desk: Desk) {
    let name = format!("pattywright-{}.json", script::today());
    let text = desk.document.get_untracked().write_backup(&script::now());
    if script::download(&name, &text).is_err() {
        return desk.say(say("This browser would not save a file."), false);
    }
    desk.say(say!("Look for {name} among your downloads.", name), false);
    let now_ms = js_sys::Date::now();
    Mark::BackedUp.note(now_ms);
    desk.care.backed_up.set(Some(now_ms));
    desk.care.ask(now_ms);
}

/// Loads the page anew once everything is saved, with the new version where one waits.
pub fn load_anew(desk: Desk) {
    match desk.kept.get_untracked() {
        Kept::Saved => script::accept_update(),
        Kept::Saving => drop(Timeout::new(LOOK_MS, move || load_anew(desk)).forget()),
        Kept::Not(_) => desk.say(say("That waits, for what you typed is not saved yet."), false),
    }
}

/// Says that the book is gone, or cannot be saved, and what to do.
#[component]
pub fn Losses(desk: Desk) -> impl IntoView {
    let not_kept = move || match desk.kept.get() {
        Kept::Not(why) => Some(why),
        Kept::Saving | Kept::Saved => None,
    };
    view! {
        {shown(move || not_kept().map(|why| view! {
            <div class="notice" role="alert">
                <span class="alert">{why}</span>
                <button type="button" class="button" on:click=move |_| download_backup(desk)>{say("Save a backup file")}</button>
            </div>
        }))}
        {shown(move || desk.care.cleared.get().map(|saved_ms| view! {
            <div class="notice" role="alert">
                <span class="alert">{say!("This browser has cleared your book away, as it was saved on {when}. Have you a backup file?", when = script::date(saved_ms))}</span>
                <a class="button" href=route::Route::room(route::Room::More).write()>{say("Open a backup file")}</a>
                <button type="button" class="button" on:click=move |_| desk.care.settle()>{say("Start anew")}</button>
            </div>
        }))}
    }
}
