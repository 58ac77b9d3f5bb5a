//! The Pantry room: what an ingredient weighs, where each number comes from, and the cook's own shelf.

mod card;
mod convert;
mod own;

pub use card::Card;
pub use convert::Convert;
pub use own::{Own, start_own};

use crate::desk::Desk;
use crate::field::Field;
use crate::live::{self, live};
use crate::route::{self, Over};
use leptos::prelude::*;
use markup::view;
use pattywright::pantry::search;
use pattywright::sheet::pantry::card;
use pattywright::words::say;

#[component]
pub fn PantryRoom(desk: Desk) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let found = Memo::new(move |_| {
        let typed = typed.get();
        desk.document.with(|d| {
            let kitchen = d.kitchen();
            let all: Vec<_> = if typed.trim().is_empty() {
                kitchen.pantry.all().collect()
            } else {
                search(&kitchen.pantry, &typed, 30)
                    .into_iter()
                    .map(|found| found.ingredient)
                    .collect()
            };
            all.iter()
                .map(|ingredient| {
                    let card = card(&kitchen, ingredient);
                    let mark = if card.calibrated {
                        say("your cup")
                    } else if card.starting {
                        say("weigh yours")
                    } else {
                        ""
                    };
                    (card.id, card.name, card.role, mark)
                })
                .collect::<Vec<_>>()
        })
    });
    view! {
        <Field label=say("Find an ingredient") value=typed/>
        <ul>
            {live::rows(move || found.get(), |one| one.clone(), move |(id, name, role, mark)| view! {
                <li><button type="button" class="list__one" on:click=move |_| route::open(Over::Card(id.clone()))>
                    <span><strong>{name}</strong><br/><span class="soft small">{role}</span></span>
                    <span class="soft small">{mark}</span>
                </button></li>
            })}
        </ul>
        <p class="soft" hidden=live(move || found.with(|f| !f.is_empty()))>{say("Nothing by that name. Add it as your own ingredient.")}</p>
        <button type="button" class="button button--main" on:click=move |_| route::open(Over::Own(String::new()))>{say("Add your own ingredient")}</button>
    }
}
