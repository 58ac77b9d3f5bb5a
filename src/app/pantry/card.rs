//! One ingredient's card: its cup, its make-up, its sources; and weighing a cup of one's own.

use crate::desk::Desk;
use crate::field::{Field, number, weight};
use crate::live::{live, shown};
use crate::over::Sheet;
use crate::parts::Chips;
use crate::route::{self, Over};
use crate::script;
use leptos::prelude::*;
use markup::view;
use pattywright::pantry::{Calibration, Entry, Scoop};
use pattywright::sheet::pantry::card;
use pattywright::words::say;

#[component]
pub fn Card(desk: Desk, id: String) -> impl IntoView {
    let id = StoredValue::new(id);
    let card = Memo::new(move |_| {
        desk.document.with(|d| {
            let kitchen = d.kitchen();
            id.with_value(|id| kitchen.pantry.get(id).map(|found| card(&kitchen, &found)))
        })
    });
    let own = Memo::new(move |_| {
        desk.document
            .with(|d| id.with_value(|id| d.pantry.iter().any(|entry| entry.id == *id)))
    });
    let from_table = move || id.with_value(|id| pattywright::pantry::listed(id).is_some());
    view! {
        <Sheet title=say("Where the numbers come from")>
            {shown(move || card.get().map_or_else(|| view! { <p>{say("This ingredient is not here any more.")}</p> }.into_any(), |card| view! {
                <h3 class="card__title">{card.name}</h3>
                <div>
                    <p><strong>{card.cup}</strong></p>
                    <p class="small" class:alert=card.starting>{card.density_source}</p>
                </div>
                <table class="table">
                    <caption class="quiet">{say("What 100 g holds")}</caption>
                    <tbody>{card.composition.into_iter().map(|(name, value)| view! { <tr><th scope="row">{name}</th><td>{value}</td></tr> }).collect_view()}</tbody>
                </table>
                <p class="small soft">{say!("Per 100 g. {source}", source = card.composition_source)}</p>
                {(!card.allergens.is_empty()).then(|| view! { <p class="small"><strong>{say("Allergens:")}</strong> " " {say!("{allergens}. By plain knowledge: read the pack.", allergens = card.allergens)}</p> })}
                {(!card.measures.is_empty()).then(|| view! {
                    <details><summary>{say("Published measures")}</summary>
                        <ul class="small">{card.measures.into_iter().map(|(text, source)| view! { <li><strong>{text}</strong> <span class="soft">" " {source}</span></li> }).collect_view()}</ul>
                    </details>
                })}
            }.into_any()))}
            <Weighing desk id/>
            <div class="buttons">
                <button type="button" class="button" on:click=move |_| route::open(Over::Convert(id.get_value()))>{say("Convert a measure")}</button>
                <button type="button" class="button" on:click=move |_| route::open(Over::Own(id.get_value()))>{say("Type in the pack’s figures")}</button>
                <button type="button" class="button" hidden=live(move || !own.get()) on:click=move |_| {
                    desk.edit("", |document| id.with_value(|id| document.pantry.retain(|entry| entry.id != *id)));
                    desk.say(say("Your figures for it are deleted."), true);
                    if !from_table() { route::close(); }
                }>{say("Delete my figures")}</button>
            </div>
        </Sheet>
    }
}

/// "I put so many level cups on the scale."
#[component]
fn Weighing(desk: Desk, id: StoredValue<String>) -> impl IntoView {
    let count = RwSignal::new("3".to_owned());
    let grams = RwSignal::new(String::new());
    let scoop = RwSignal::new(Some(Scoop::Cup));
    let alert = RwSignal::new(String::new());
    let keep = move |_| {
        let (Some(count), Some(grams_weighed)) = (number(&count.get_untracked()), weight(&grams.get_untracked()))
        else {
            alert.set(say("Type how many level measures you weighed, and the grams.").into());
            return;
        };
        let calibration = Calibration {
            count,
            measure: scoop.get_untracked().unwrap_or(Scoop::Cup),
            cup: desk.document.with_untracked(|d| d.settings.cup),
            grams: grams_weighed,
            date: script::today(),
        };
        if count <= 0.0 || calibration.density().is_none() {
            alert.set(say("That weight does not fit the measure. Check both numbers: was the bowl tared?").into());
            return;
        }
        alert.set(String::new());
        desk.edit("", |document| {
            let id = id.get_value();
            match document.pantry.iter_mut().find(|entry| entry.id == id) {
                Some(entry) => entry.calibrations.push(calibration),
                None => document.pantry.push(Entry {
                    id,
                    calibrations: vec![calibration],
                    ..Entry::default()
                }),
            }
        });
        grams.set(String::new());
        desk.say(say("Your own cup counts from now on."), true);
    };
    view! {
        <section class="card">
            <h3 class="card__title">{say("Weigh yours")}</h3>
            <p class="small">{say("Fill a few level measures, put them on the scale together, and type what it shows. Three cups are surer than one.")}</p>
            <Chips label=say("Which measure") choices=vec![(Scoop::Cup, say("cup").into()), (Scoop::Tablespoon, say("tablespoon").into()), (Scoop::Teaspoon, say("teaspoon").into())]
                chosen=move || scoop.get() on_choose=move |s| scoop.set(Some(s))/>
            <div class="fields">
                <Field label=say("How many, level") value=count number=true/>
                <Field label=say("Together, grams") value=grams alert=alert unit="g" number=true/>
            </div>
            <button type="button" class="button" on:click=keep>{say("Keep my weighing")}</button>
        </section>
    }
}
