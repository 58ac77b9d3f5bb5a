//! Pasting a list: each line shown as understood, unsure or not understood before anything is added.

use crate::desk::Desk;
use crate::field::fresh_id;
use crate::live::{live, shown};
use crate::over::Sheet;
use crate::route::{self, Room, Route};
use leptos::prelude::*;
use markup::view;
use pattywright::document::{Pasted, Understood, paste};
use pattywright::words::say;

#[component]
pub fn Paste(desk: Desk) -> impl IntoView {
    let text = RwSignal::new(String::new());
    let read = Memo::new(move |_| {
        let text = text.get();
        if text.trim().is_empty() {
            return Err(String::new());
        }
        desk.document
            .with(|d| paste(&d.kitchen().pantry, &text))
            .map_err(|why| why.to_string())
    });
    let add = move |new: bool| {
        if let Ok(lines) = read.get_untracked() {
            let lines: Vec<_> = lines.into_iter().map(|pasted| pasted.line).collect();
            let count = lines.len();
            if new || desk.formula().is_none() {
                desk.new_formula(say("Pasted formula"), lines);
            } else {
                desk.edit_formula("", |formula| formula.lines.extend(lines));
            }
            route::go(&Route::room(Room::Formula));
            desk.say(say!(count => "{count} line added.", "{count} lines added."), true);
        }
    };
    let id = fresh_id("paste");
    let (for_id, message) = (id.clone(), format!("{id}-says"));
    let described = message.clone();
    let why = move || read.get().err().unwrap_or_default();
    let ready = move || read.with(Result::is_ok);
    view! {
        <Sheet title=say("Paste a list")>
            <div class="field">
                <label class="field__label" for=for_id>{say("One ingredient on each line, as it is written")}</label>
                <textarea id=id class="field__input" aria-describedby=described aria-invalid=live(move || (!why().is_empty()).to_string()) prop:value=live(move || text.get()) on:input:target=move |event| text.set(event.target().value())></textarea>
                <p class="field__message alert" id=message role="status">{live(why)}</p>
            </div>
            <ul class="lines" hidden=live(move || !ready())>
                {shown(move || read.get().unwrap_or_default().into_iter().map(one).collect_view())}
            </ul>
            <div class="buttons" hidden=live(move || !ready())>
                <button type="button" class="button button--main" on:click=move |_| add(true)>{say("Make a new formula")}</button>
                <button type="button" class="button" hidden=live(move || desk.formula().is_none()) on:click=move |_| add(false)>{say("Add to the open one")}</button>
            </div>
        </Sheet>
    }
}

fn one(pasted: Pasted) -> impl IntoView {
    let (mark, word) = match pasted.understood {
        Understood::Yes => ("✓", say("understood")),
        Understood::Unsure => ("?", say("look at this one")),
        Understood::No => ("!", say("not understood: kept as text")),
    };
    let class = if pasted.understood == Understood::Yes {
        "soft small"
    } else {
        "alert small"
    };
    let amount = if pasted.line.amount.is_empty() {
        say("no amount").to_owned()
    } else {
        pasted.line.amount.clone()
    };
    let name = if pasted.read_as.is_empty() {
        pasted.line.name.clone().unwrap_or_default()
    } else {
        pasted.read_as.clone()
    };
    let cut = pasted.line.cut.clone().map(|cut| format!(" ({cut})"));
    view! {
        <li class="line">
            <p class="soft small">{pasted.text}</p>
            <p><strong>{amount} " · " {name}</strong>{cut}</p>
            <p class=class>{mark} " " {word}</p>
        </li>
    }
}
