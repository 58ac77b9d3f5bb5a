//! The first formula, step by step; it can be left at any time.

use crate::desk::Desk;
use crate::live::shown;
use leptos::prelude::*;
use markup::view;
use pattywright::sheet::guide::{done, next, place};
use pattywright::words::say;

/// Starts a formula of the cook's own with the guide beside it.
pub fn start(desk: Desk) {
    desk.new_formula(say("My first patty"), Vec::new());
    desk.guiding.set(Some(desk.current.get_untracked()));
}

/// What goes in next, and why.
#[component]
pub fn Guide(desk: Desk) -> impl IntoView {
    let lines = Memo::new(move |_| desk.with_formula(|formula| formula.map_or(0, |formula| formula.lines.len())));
    let here = Memo::new(move |_| desk.guiding.get().is_some_and(|guided| guided == desk.current.get()));
    let leave = move |_| desk.guiding.set(None);
    let step = move || {
        let Some(step) = next(lines.get()) else {
            return view! {
                <p>{done()}</p>
                <div class="buttons">
                    <a class="button button--main" href="#weigh" on:click=leave>{say("Weigh it")}</a>
                    <button type="button" class="button" on:click=leave>{say("Stay here")}</button>
                </div>
            }
            .into_any();
        };
        view! {
            <p class="small soft">{place(lines.get())}</p>
            <h2 class="card__title">{step.title}</h2>
            <p>{step.says}</p>
            <div class="buttons">
                <button type="button" class="button button--main" on:click=move |_| _ = super::add_lines(desk, step.example)>
                    {say!("Put in {example}", example = step.example)}
                </button>
                <button type="button" class="button" on:click=leave>{say("Go on alone")}</button>
            </div>
        }
        .into_any()
    };
    view! {
        {shown(move || here.get().then(|| view! {
            <section class="card" aria-label=say("Step by step") aria-live="polite">{shown(step)}</section>
        }))}
    }
}
