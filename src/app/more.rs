//! Settings, backup, and what this is.

use crate::desk::{Desk, Kept};
use crate::field::{Field, weight};
use crate::keeper::{demo, download_backup};
use crate::live::{live, shown};
use crate::parts::Chips;
use crate::store::persisted;
use leptos::prelude::*;
use pattywright::document::{Document, merge, read};
use pattywright::measure::{Cup, trimmed};
use pattywright::sheet::safety;
use std::sync::Arc;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};

#[component]
pub fn MoreRoom(desk: Desk) -> impl IntoView {
    view! {
        <a class="list__one" href="#pantry"><strong>"Pantry"</strong><span class="soft small">"ingredients, your cups"</span></a>
        <Measures desk/>
        <crate::cook::Rulers desk/>
        <Backup desk/>
        <section class="card">
            <h2 class="card__title">"Keep it safe"</h2>
            <p><strong>{safety::FIRST}</strong></p>
            {safety::WET_MIX.into_iter().chain([safety::POWDER]).map(|caution| view! {
                <p class="small">{caution.says} <span class="soft">" (" {caution.source} ")"</span></p>
            }).collect_view()}
        </section>
        <section class="card">
            <h2 class="card__title">"What this is"</h2>
            <p class="small">"A calculator for burgers from dry textured plant protein. It works without a network, and nothing leaves this phone unless you save a file and share it yourself."</p>
            <p class="small">"Every figure is worked out from published tables, your own weighings, or starting figures marked as such. Tap an ingredient or a reading to see where a number comes from. Estimates show their spread as ±, one standard deviation."</p>
        </section>
    }
}

#[component]
fn Measures(desk: Desk) -> impl IntoView {
    let cup = Signal::derive(move || Some(desk.document.with(|d| d.settings.cup)));
    let step = RwSignal::new(desk.document.with_untracked(|d| trimmed(d.settings.scale_step_g, 3)));
    let alert = RwSignal::new(String::new());
    let on_type =
        Callback::new(
            move |typed: String| match weight(&typed).filter(|step| *step > 0.0 && *step <= 100.0) {
                Some(step) => {
                    alert.set(String::new());
                    desk.edit("scale step", |document| document.settings.scale_step_g = step);
                }
                None => alert.set("Type the smallest step your scale shows, such as 1 or 0.1".into()),
            },
        );
    view! {
        <section class="card">
            <h2 class="card__title">"Which cup"</h2>
            <Chips label="Which cup" large=true choices=Cup::ALL.map(|cup| (cup, cup.name().to_owned())).to_vec() chosen=cup
                on_choose=move |cup| desk.edit("", |document| document.settings.cup = cup)/>
            <Field label="The scale's smallest step, grams" value=step alert=alert unit="g" number=true on_type/>
        </section>
    }
}

#[component]
fn Backup(desk: Desk) -> impl IntoView {
    let found = RwSignal::new(None::<Arc<Document>>);
    let alert = RwSignal::new(String::new());
    let chosen = move |event: web_sys::Event| {
        let file = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok())
            .and_then(|input| input.files())
            .and_then(|files| files.get(0));
        let Some(file) = file else { return };
        found.set(None);
        if file.size() > pattywright::document::LONGEST_TEXT as f64 {
            alert.set(pattywright::document::Unreadable::TooLong.to_string());
            return;
        }
        spawn_local(async move {
            let text = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
            match text.as_deref().map(read) {
                Some(Ok(asked)) => {
                    let left_out = asked.problems.len();
                    alert.set(if left_out == 0 {
                        String::new()
                    } else {
                        format!("{left_out} parts of it could not be read and are left out.")
                    });
                    found.set(Some(Arc::new(asked.document)));
                }
                Some(Err(why)) => alert.set(why.to_string()),
                None => alert.set("This file could not be read.".into()),
            }
        });
    };
    let kept = move || match desk.kept.get() {
        Kept::Saving => "Saving …".to_owned(),
        Kept::Saved => "Everything is saved on this phone.".to_owned(),
        Kept::Not(why) => why,
    };
    let promised = RwSignal::new(None::<bool>);
    spawn_local(async move { promised.set(persisted().await) });
    let promise = move || match promised.get() {
        Some(true) => "This browser has promised not to clear it away.",
        Some(false) => {
            "This browser may clear it away when space runs short: save a backup file now and then, or install the page on the home screen."
        }
        None => "",
    };
    let take = move |document: Document, said: &str| {
        desk.edit("", |now| *now = document);
        found.set(None);
        desk.say(said, true);
    };
    view! {
        <section class="card">
            <h2 class="card__title">"Backup"</h2>
            <p class="small" role="status">{kept}</p>
            <p class="small soft">{promise}</p>
            <button type="button" class="button" on:click=move |_| download_backup(desk)>"Save a backup file"</button>
            <div class="field">
                <label class="field__label" for="restore">"Open a backup file"</label>
                <input id="restore" class="field__input" type="file" aria-describedby="restore-says" accept=".json,application/json" on:change=chosen/>
                <p class="field__message alert" id="restore-says" role="status">{alert}</p>
            </div>
            {shown(move || found.get().map(|document| {
                let (replace, add) = (document.clone(), document.clone());
                let names: Vec<String> = document.formulas.iter().map(|f| f.name.clone()).collect();
                view! {
                    <div class="notice">
                        <span>{format!("{} formulas: {}. {} own ingredients.", names.len(), names.join(", "), document.pantry.len())}</span>
                        <button type="button" class="button" on:click=move |_| take((*replace).clone(), "The backup is in place of what was here.")>"Replace all I have"</button>
                        <button type="button" class="button" on:click=move |_| {
                            take(added(&add, &desk.document.get_untracked()), "The backup is added to what was here.");
                        }>"Add to what I have"</button>
                    </div>
                }
            }))}
            <Earlier desk/>
            <button type="button" class="button button--plain" on:click=move |_| {
                take(added(&demo(), &desk.document.get_untracked()), "The demonstration is added to what you have.");
            }>"Show the demonstration again"</button>
        </section>
    }
}

/// `more` added to what there is: formulas both have are kept twice, settings and the batch on the scale stay.
fn added(more: &Document, now: &Document) -> Document {
    let more = Document {
        settings: now.settings.clone(),
        weighing: now.weighing.clone(),
        ..more.clone()
    };
    merge(&Document::default(), &more, now).document
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
                        .rev()
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
                    desk.say("This is how it was then.", true);
                }
                _ => desk.say("That one could not be read; nothing was changed.", false),
            }
        });
    };
    view! {
        <details on:toggle=move |_| look()>
            <summary>"Earlier versions on this phone"</summary>
            <ul>
                {shown(move || list.get().into_iter().map(|(rev, saved_at)| view! {
                    <li><button type="button" class="list__one" on:click=move |_| take(rev)>{saved_at}<span class="soft small">"Go back to this"</span></button></li>
                }).collect_view())}
            </ul>
            <p class="small soft" hidden=live(move || list.with(|l| !l.is_empty()))>"None yet."</p>
        </details>
    }
}
