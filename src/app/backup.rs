//! Backup files: made, opened with a look inside first, added or put in place; and what was here before.

use crate::care::download_backup;
use crate::desk::{Desk, Kept};
use crate::keeper::demo;
use crate::live::{live, shown};
use leptos::prelude::*;
use markup::view;
use pattywright::document::{Asked, Document, LONGEST_TEXT, Unreadable, add, read};
use pattywright::sheet::backup::{last_backup, preview};
use pattywright::words::say;
use std::sync::Arc;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};

#[component]
pub fn Backup(desk: Desk) -> impl IntoView {
    let found = RwSignal::new(None::<Arc<Asked>>);
    let alert = RwSignal::new(String::new());
    let chosen = move |event: web_sys::Event| {
        let input = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok());
        let Some(file) = input.and_then(|input| input.files()).and_then(|files| files.get(0)) else {
            return;
        };
        found.set(None);
        alert.set(String::new());
        if file.size() > LONGEST_TEXT as f64 {
            return alert.set(Unreadable::TooLong.to_string());
        }
        spawn_local(async move {
            let text = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
            match text.as_deref().map(read) {
                Some(Ok(asked)) => found.set(Some(Arc::new(asked))),
                Some(Err(why)) => alert.set(why.to_string()),
                None => alert.set(say("This file could not be read.").into()),
            }
        });
    };
    let kept = move || match desk.kept.get() {
        Kept::Saving => say("Saving …").to_owned(),
        Kept::Saved => say("Everything is saved on this phone.").to_owned(),
        Kept::Not(why) => why,
    };
    let promise = move || match desk.care.promised.get() {
        Some(true) => say("This browser has promised not to clear it away."),
        Some(false) => say(
            "This browser may clear it away when space runs short: save a backup file now and then, or install the page on the home screen.",
        ),
        None => "",
    };
    let take = move |document: Document, said: &str| {
        desk.edit("", |now| *now = document);
        desk.care.settle();
        found.set(None);
        desk.say(said, true);
    };
    let take_added = move |more: &Document, said: &str| match add(&desk.document.get_untracked(), more) {
        Ok(all) => take(all, said),
        Err(why) => alert.set(why.to_string()),
    };
    view! {
        <section class="card">
            <h2 class="card__title">{say("Backup")}</h2>
            <p class="small" role="status">{kept}</p>
            <p class="small soft">{promise}</p>
            <p class="small">{move || last_backup(desk.care.backed_up.get(), js_sys::Date::now())}</p>
            <button type="button" class="button" on:click=move |_| download_backup(desk)>{say("Save a backup file")}</button>
            <div class="field">
                <label class="field__label" for="restore">{say("Open a backup file")}</label>
                <input id="restore" class="field__input" type="file" aria-describedby="restore-says" accept=".json,application/json" on:change=chosen/>
                <p class="field__message alert" id="restore-says" role="status">{alert}</p>
            </div>
            {shown(move || found.get().map(|asked| {
                let says = desk.document.with(|now| preview(&asked, now));
                let (replace, more) = (asked.clone(), asked);
                view! {
                    <div class="notice">
                        <div>{says.into_iter().map(|sentence| view! { <p class="small">{sentence}</p> }).collect_view()}</div>
                        <button type="button" class="button" on:click=move |_| take_added(&more.document, say("The backup is added to what was here."))>{say("Add to what I have")}</button>
                        <button type="button" class="button" on:click=move |_| take(replace.document.clone(), say("The backup is in place of what was here."))>{say("Replace all I have")}</button>
                    </div>
                }
            }))}
            <Earlier desk/>
            <button type="button" class="button button--plain" on:click=move |_| {
                take_added(&demo(), say("The demonstration is added to what you have."));
            }>{say("Show the demonstration again")}</button>
        </section>
    }
}

/// Earlier revisions kept on this phone, newest first, to go back beyond undo.
#[component]
fn Earlier(desk: Desk) -> impl IntoView {
    let list = RwSignal::new(Vec::<(u32, String)>::new());
    let look = move || {
        let Some(store) = desk.store.get_value() else { return };
        spawn_local(async move {
            if let Ok(found) = store.earlier().await {
                list.set(
                    found
                        .into_iter()
                        .map(|(rev, saved_at)| (rev, crate::script::date(saved_at)))
                        .collect(),
                );
            }
        });
    };
    let take = move |rev: u32| {
        let Some(store) = desk.store.get_value() else { return };
        spawn_local(async move {
            let text = store.load_earlier(rev).await.ok().flatten();
            match text.as_deref().map(read) {
                Some(Ok(asked)) => {
                    desk.edit("", |now| *now = asked.document);
                    desk.say(say("This is how it was then."), true);
                }
                _ => desk.say(say("That one could not be read; nothing was changed."), false),
            }
        });
    };
    view! {
        <details on:toggle=move |_| look()>
            <summary>{say("Earlier versions on this phone")}</summary>
            <ul>
                {shown(move || list.get().into_iter().map(|(rev, saved_at)| view! {
                    <li><button type="button" class="list__one" on:click=move |_| take(rev)>{saved_at}<span class="soft small">{say("Go back to this")}</span></button></li>
                }).collect_view())}
            </ul>
            <p class="small soft" hidden=live(move || list.with(|l| !l.is_empty()))>{say("None yet.")}</p>
        </details>
    }
}
