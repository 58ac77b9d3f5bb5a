//! Settings, backup, and what this is.

use crate::backup::Backup;
use crate::desk::Desk;
use crate::field::{Field, weight};
use crate::language::Languages;
use crate::parts::Chips;
use leptos::prelude::*;
use markup::view;
use pattywright::measure::{Cup, trimmed};
use pattywright::sheet::safety;
use pattywright::words::say;

#[component]
pub fn MoreRoom(desk: Desk) -> impl IntoView {
    view! {
        <a class="list__one" href="#pantry"><strong>{say("Pantry")}</strong><span class="soft small">{say("ingredients, your cups")}</span></a>
        <Languages desk/>
        <Measures desk/>
        <crate::cook::Rulers desk/>
        <Backup desk/>
        <section class="card">
            <h2 class="card__title">{say("Keep it safe")}</h2>
            <p><strong>{safety::first()}</strong></p>
            {safety::wet_mix().into_iter().chain([safety::powder()]).map(|caution| view! {
                <p class="small">{caution.says} <span class="soft">" (" {caution.source} ")"</span></p>
            }).collect_view()}
        </section>
        <section class="card">
            <h2 class="card__title">{say("What this is")}</h2>
            <p class="small">{say("A calculator for burgers from dry textured plant protein. It works without a network, and nothing leaves this phone unless you save a file and share it yourself.")}</p>
            <p class="small">{say("Every figure is worked out from published tables, your own weighings, or starting figures marked as such. Tap an ingredient or a reading to see where a number comes from. Estimates show their spread as ±, one standard deviation.")}</p>
        </section>
    }
}

#[component]
fn Measures(desk: Desk) -> impl IntoView {
    let cup = move || Some(desk.document.with(|d| d.settings.cup));
    let step = RwSignal::new(desk.document.with_untracked(|d| trimmed(d.settings.scale_step_g, 3)));
    let alert = RwSignal::new(String::new());
    let on_type =
        Callback::new(
            move |typed: String| match weight(&typed).filter(|step| *step > 0.0 && *step <= 100.0) {
                Some(step) => {
                    alert.set(String::new());
                    desk.edit("scale step", |document| document.settings.scale_step_g = step);
                }
                None => alert.set(say("Type the smallest step your scale shows, such as 1 or 0.1").into()),
            },
        );
    view! {
        <section class="card">
            <h2 class="card__title">{say("Which cup")}</h2>
            <Chips label=say("Which cup") large=true choices=Cup::ALL.map(|cup| (cup, cup.name().to_owned())).to_vec() chosen=cup
                on_choose=move |cup| desk.edit("", |document| document.settings.cup = cup)/>
            <Field label=say("The scale's smallest step, grams") value=step alert=alert unit="g" number=true on_type/>
        </section>
    }
}
