//! The quick converter, one tap from every room.

use crate::desk::Desk;
use crate::ears;
use crate::field::Field;
use crate::live::{self, live, shown};
use crate::over::Sheet;
use crate::route::{self, Over};
use leptos::prelude::*;
use markup::view;
use pattywright::measure::Unit;
use pattywright::pantry::search;
use pattywright::sheet::convert::sheet;
use pattywright::words::say;

#[component]
pub fn Convert(desk: Desk, id: String) -> impl IntoView {
    let name_of = move |id: &str| {
        desk.document
            .with_untracked(|d| d.kitchen().pantry.get(id).map(|found| found.name().to_owned()))
    };
    let typed = RwSignal::new(name_of(&id).unwrap_or_default());
    let chosen = RwSignal::new(if id.is_empty() { None } else { Some(id) });
    let amount = RwSignal::new(format!("1 {}", Unit::Cup.written(false)));
    let cut = RwSignal::new(String::new());
    let offers = Memo::new(move |_| {
        let typed = typed.get();
        if chosen.get().is_some() {
            return Vec::new();
        }
        desk.document.with(|d| {
            search(&d.kitchen().pantry, &typed, 6)
                .iter()
                .map(|m| (m.ingredient.id().to_owned(), m.ingredient.name().to_owned()))
                .collect::<Vec<_>>()
        })
    });
    let cuts = Memo::new(move |_| {
        let id = chosen.get();
        desk.document.with(|d| {
            id.as_deref()
                .and_then(|id| d.kitchen().pantry.get(id))
                .and_then(|f| f.row())
                .map_or(Vec::new(), |row| row.cuts())
        })
    });
    let answer = Memo::new(move |_| {
        let id = chosen.get()?;
        let (amount, cut) = (amount.get(), cut.get());
        desk.document.with(|d| {
            let kitchen = d.kitchen();
            let found = kitchen.pantry.get(&id)?;
            Some(sheet(
                &kitchen,
                &found,
                &amount,
                (!cut.is_empty()).then_some(cut.as_str()),
            ))
        })
    });
    let alert = Signal::derive(move || answer.get().and_then(Result::err).unwrap_or_default());
    view! {
        <Sheet title=say("Convert a measure")>
            <Field label=say("Ingredient") value=typed on_type=Callback::new(move |_| { chosen.set(None); cut.set(String::new()); })/>
            <ul class="offers" hidden=live(move || offers.with(Vec::is_empty))>
                {live::rows(move || offers.get(), |offer| offer.clone(), move |(id, name)| {
                    let shown = name.clone();
                    view! { <li><button type="button" class="offers__one" on:click=move |_| { typed.set(name.clone()); chosen.set(Some(id.clone())); }>{shown}</button></li> }
                })}
            </ul>
            <Field label=say("Amount, in any measure") value=amount hint=say("1 cup, 7 g, ½ tsp, 2 oz …") alert=alert/>
            <div class="chips" role="group" aria-label=say("Cut") hidden=live(move || cuts.with(Vec::is_empty))>
                {shown(move || std::iter::once("").chain(cuts.get()).map(|one| view! {
                    <button type="button" class="chip" aria-pressed=live(move || (cut.get() == one).to_string()) on:click=move |_| cut.set(one.to_owned())>
                        {if one.is_empty() { say("cut not known") } else { say(one) }}
                    </button>
                }).collect_view())}
            </div>
            {shown(move || answer.get().and_then(Result::ok).map(|sheet| {
                ears::tell(format!("{} g", sheet.grams.value));
                view! {
                <section class="card">
                    <p class="big">{sheet.grams.value} " g " <span class="soft small">{sheet.grams.spread}</span></p>
                    {(!sheet.level.is_empty()).then(|| view! { <p><strong>{say("Level measures:")}</strong> " " {sheet.level}</p> })}
                    <table class="table"><caption class="quiet">{say("In other measures")}</caption>
                        <tbody>{sheet.others.into_iter().map(|(value, unit)| view! { <tr><th scope="row">{unit}</th><td>{value}</td></tr> }).collect_view()}</tbody>
                    </table>
                    <p class="small" class:alert=sheet.starting>{sheet.source}</p>
                    <button type="button" class="button" on:click=move |_| if let Some(id) = chosen.get_untracked() { route::open(Over::Card(id)) }>{say("Where this comes from; weigh yours")}</button>
                </section>
            }}))}
        </Sheet>
    }
}
