//! The list of formulas: choose, start, rename, copy, delete.

use crate::desk::Desk;
use crate::field::Field;
use crate::live::{self, live};
use crate::over::Sheet;
use crate::route;
use leptos::prelude::*;
use markup::view;
use pattywright::document::Document;
use pattywright::words::say;

#[component]
pub fn Formulas(desk: Desk) -> impl IntoView {
    let all = Memo::new(move |_| {
        desk.document.with(|d| {
            let kitchen = d.kitchen();
            let total = |f| {
                let weighed = kitchen.weigh(f);
                let grams = pattywright::measure::grams(weighed.total.value);
                if weighed.complete() {
                    grams
                } else {
                    say!("at least {grams}", grams)
                }
            };
            d.formulas
                .iter()
                .map(|f| (f.id.clone(), f.name.clone(), total(f)))
                .collect::<Vec<_>>()
        })
    });
    let fresh = RwSignal::new(String::new());
    let renamed = RwSignal::new(desk.formula().map_or(String::new(), |f| f.name));
    let start = move || {
        desk.new_formula(&fresh.get_untracked(), Vec::new());
        route::go(&route::Route::room(route::Room::Formula));
    };
    let there = Memo::new(move |_| desk.formula().is_some());
    view! {
        <Sheet title=say("Formulas")>
            <ul>
                {live::rows(move || all.get(), |one| one.clone(), move |(id, name, total)| {
                    let (here, to) = (id.clone(), id);
                    view! {
                        <li><button type="button" class="list__one" aria-current=live(move || (desk.current.get() == here).then_some("true"))
                            on:click=move |_| { desk.current.set(to.clone()); route::close(); }>
                            <strong>{name}</strong><span class="soft">{total}</span>
                        </button></li>
                    }
                })}
            </ul>
            <div class="fields">
                <Field label=say("Name of a new formula") value=fresh on_done=Callback::new(move |()| start())/>
                <button type="button" class="button button--main" on:click=move |_| start()>{say("Start it")}</button>
            </div>
            <div class="card" hidden=live(move || !there.get())>
                <Field label=say("Name of the open formula") value=renamed on_type=Callback::new(move |name: String| {
                    if !name.trim().is_empty() { desk.edit_formula("rename", |formula| formula.name = name); }
                })/>
                <div class="buttons">
                    <button type="button" class="button" on:click=move |_| {
                        if let Some(formula) = desk.formula() {
                            let mut copy = formula;
                            copy.name = say!("{name} copy", name = copy.name);
                            copy.log.clear();
                            desk.edit("", |document| {
                                copy.id = Document::free_id(&copy.name, document.formulas.iter().map(|f| f.id.as_str()));
                                document.formulas.push(copy.clone());
                            });
                            desk.current.set(copy.id);
                            route::close();
                        }
                    }>{say("Duplicate it")}</button>
                    <button type="button" class="button" on:click=move |_| {
                        let current = desk.current.get_untracked();
                        desk.edit("", |document| {
                            document.formulas.retain(|formula| formula.id != current);
                            document.weighing.take_if(|weighing| weighing.formula == current);
                        });
                        route::close();
                        desk.say(say("Formula deleted."), true);
                    }>{say("Delete it")}</button>
                </div>
            </div>
        </Sheet>
    }
}
