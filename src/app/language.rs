//! The language on the screen: the one the cook chose, else the browser's.

use crate::care;
use crate::desk::Desk;
use crate::keeper::demo;
use crate::parts::Chips;
use gloo::timers::callback::Timeout;
use leptos::prelude::*;
use markup::view;
use pattywright::document::Settings;
use pattywright::words::{Language, say, speak, speaking, spoken};

fn wanted(settings: &Settings) -> Language {
    let of_browser = || Language::of_tag(&window().navigator().language().unwrap_or_default());
    settings.language.unwrap_or_else(of_browser)
}

/// Speaks the language of these settings, and tells the browser which it is: for its voice, and for breaking lines.
pub fn speak_as(settings: &Settings) {
    let language = wanted(settings);
    speak(language);
    if let Some(page) = document().document_element() {
        let _ = page.set_attribute("lang", language.tag());
    }
}

/// Loads the page anew where another language is chosen: here, in another tab, by undo, or with a backup.
pub fn follow(desk: Desk) {
    let language = Memo::new(move |_| desk.document.with(|document| wanted(&document.settings)));
    Effect::new(move |_| {
        if language.get() != spoken() {
            // By then it is known to be unsaved.
            Timeout::new(0, move || care::load_anew(desk)).forget();
        }
    });
}

#[component]
pub fn Languages(desk: Desk) -> impl IntoView {
    let chosen = move || Some(desk.document.with(|document| wanted(&document.settings)));
    // The demonstration as it was found follows; what the cook has written stays as written.
    let choose = move |language| {
        let untouched = desk.document.with_untracked(|now| now.formulas == demo().formulas);
        desk.edit("", |document| {
            document.settings.language = Some(language);
            if untouched {
                document.formulas = speaking(language, demo).formulas;
            }
        });
    };
    view! {
        <section class="card">
            <h2 class="card__title">{say("Language")}</h2>
            <Chips label=say("Language") choices=Language::ALL.map(|language| (language, language.name().to_owned())).to_vec() chosen
                on_choose=choose/>
        </section>
    }
}
