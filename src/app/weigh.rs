//! The Weigh room: what do I put on the scale now?

use crate::desk::Desk;
use crate::field::{Field, number, weight};
use crate::icon::{Icon, TICK};
use crate::live::{self, live};
use crate::parts::{Chips, Rules};
use leptos::prelude::*;
use markup::view;
use pattywright::document::Weighing;
use pattywright::formula::{Batch, Patties, Stage};
use pattywright::sheet::safety;
use pattywright::sheet::weigh::{WeighRow, WeighSheet, sheet};
use pattywright::words::say;

#[component]
pub fn WeighRoom(desk: Desk) -> impl IntoView {
    let there = Memo::new(move |_| desk.formula().is_some_and(|formula| !formula.lines.is_empty()));
    view! {
        {move || if there.get() {
            view! { <HowMuch desk/> <Pouring desk/> }.into_any()
        } else {
            view! { <section class="card"><p>{say("Write a formula first; then it can be weighed out here.")}</p><a class="button button--main" href="#formula">{say("Go to Formula")}</a></section> }.into_any()
        }}
    }
}

/// Ways to say how much.
#[derive(Clone, Copy, PartialEq, Eq)]
enum By {
    Patties,
    Factor,
    Total,
    Limited,
}

fn by(batch: &Batch) -> By {
    match batch {
        Batch::Patties { .. } => By::Patties,
        Batch::Factor { .. } => By::Factor,
        Batch::Total { .. } => By::Total,
        Batch::Limited { .. } => By::Limited,
    }
}

/// The batch on the scale, or the formula as it is written.
fn weighing(desk: Desk) -> Weighing {
    let current = desk.current.get();
    let started = desk
        .document
        .with(|d| d.weighing.clone())
        .filter(|weighing| weighing.formula == current);
    started.unwrap_or(Weighing {
        formula: current,
        batch: Batch::Factor { factor: 1.0 },
        poured: std::collections::BTreeMap::new(),
        growth: 1.0,
    })
}

/// Sets the batch anew; what was poured is kept only while the batch stays the same.
fn set_batch(desk: Desk, name: &str, batch: Batch) {
    let current = desk.current.get_untracked();
    desk.edit(name, |document| document.start_weighing(&current, batch));
}

fn change(desk: Desk, name: &str, change: impl FnOnce(&mut Weighing)) {
    let mut now = untrack(|| weighing(desk));
    change(&mut now);
    desk.edit(name, |document| document.weighing = Some(now));
}

#[component]
fn HowMuch(desk: Desk) -> impl IntoView {
    let chosen = move || Some(by(&weighing(desk).batch));
    let kind = Memo::new(move |_| (by(&weighing(desk).batch) as u8, desk.current.get()));
    let choose = move |to: By| {
        if Some(to) == untrack(chosen) {
            return;
        }
        let first = desk
            .formula()
            .and_then(|f| f.lines.first().map(|line| line.key))
            .unwrap_or(0);
        let total = untrack(|| {
            desk.formula()
                .map_or(0.0, |f| desk.document.with(|d| d.kitchen().weigh(&f).total.value))
        });
        set_batch(
            desk,
            "",
            match to {
                By::Patties => Batch::Patties {
                    patties: vec![Patties {
                        count: 4.0,
                        grams: 90.0,
                    }],
                    loss_percent: 3.0,
                },
                By::Factor => Batch::Factor { factor: 1.0 },
                By::Total => Batch::Total {
                    grams: total.round().max(1.0),
                },
                By::Limited => {
                    let grams = untrack(|| {
                        desk.formula().and_then(|f| {
                            desk.document
                                .with(|d| d.kitchen().weigh(&f).lines.first().and_then(|line| line.grams()))
                        })
                    })
                    .map_or(100.0, |g| g.value.round());
                    Batch::Limited { line: first, grams }
                }
            },
        );
    };
    view! {
        <section aria-label=say("How much")>
            <Chips label=say("How much") chosen=chosen on_choose=choose choices=vec![
                (By::Patties, say("for patties").into()),
                (By::Total, say("to a weight").into()),
                (By::Factor, say("so many times").into()),
                (By::Limited, say("from what I have").into()),
            ]/>
        </section>
        {live::shown(move || {
            kind.get();
            match untrack(|| weighing(desk)).batch {
                Batch::Patties { patties, loss_percent } => view! { <ForPatties desk patties loss_percent/> }.into_any(),
                Batch::Factor { factor } => view! { <OneNumber desk label=say("Times the formula") value=factor unit="×" make=|factor| Batch::Factor { factor }/> }.into_any(),
                Batch::Total { grams } => view! { <OneNumber desk label=say("Mix in all, grams") value=grams unit="g" make=|grams| Batch::Total { grams }/> }.into_any(),
                Batch::Limited { line, grams } => view! { <FromWhatIHave desk line grams/> }.into_any(),
            }
        })}
    }
}

/// A number as it is typed.
fn shown(value: f64) -> String {
    pattywright::measure::trimmed(value, 2)
}

#[component]
fn OneNumber(desk: Desk, label: &'static str, value: f64, unit: &'static str, make: fn(f64) -> Batch) -> impl IntoView {
    let typed = RwSignal::new(shown(value));
    let alert = RwSignal::new(String::new());
    let on_type = Callback::new(move |text: String| match weight(&text).filter(|value| *value > 0.0) {
        Some(value) => {
            alert.set(String::new());
            set_batch(desk, "batch", make(value));
        }
        None => alert.set(say("Type a number above 0, such as 1.5").into()),
    });
    view! { <Field label value=typed alert=alert unit number=true on_type/> }
}

#[component]
fn FromWhatIHave(desk: Desk, line: u32, grams: f64) -> impl IntoView {
    let typed = RwSignal::new(shown(grams));
    let alert = RwSignal::new(String::new());
    let key = RwSignal::new(line);
    let lines = Memo::new(move |_| {
        let formula = desk.formula().unwrap_or_default();
        desk.document.with(|d| {
            d.kitchen()
                .weigh(&formula)
                .lines
                .iter()
                .map(|line| (line.key, line.name.clone()))
                .collect::<Vec<_>>()
        })
    });
    let update = move || match weight(&typed.get_untracked()).filter(|grams| *grams > 0.0) {
        Some(grams) => {
            alert.set(String::new());
            set_batch(
                desk,
                "batch",
                Batch::Limited {
                    line: key.get_untracked(),
                    grams,
                },
            );
        }
        None => alert.set(say("Type what you have of it in grams, above 0").into()),
    };
    view! {
        <div class="fields">
            <div class="field">
                <label class="field__label" for="limited-by">{say("What runs short")}</label>
                <select id="limited-by" class="field__input" on:change:target=move |event| {
                    if let Ok(chosen) = event.target().value().parse() { key.set(chosen); update(); }
                }>
                    {live::shown(move || lines.get().into_iter().map(|(line, name)| view! { <option value=line.to_string() selected=live(move || key.get() == line)>{name}</option> }).collect_view())}
                </select>
            </div>
            <Field label=say("What I have of it, grams") value=typed alert=alert unit="g" number=true on_type=Callback::new(move |_| update())/>
        </div>
    }
}

/// One order as typed: how many, how heavy.
#[derive(Clone, Copy, PartialEq)]
struct Order {
    id: u32,
    count: RwSignal<String>,
    grams: RwSignal<String>,
}

impl Order {
    fn new(id: u32, patties: Patties) -> Order {
        Order {
            id,
            count: RwSignal::new(shown(patties.count)),
            grams: RwSignal::new(shown(patties.grams)),
        }
    }

    fn read(self) -> Option<Patties> {
        let count = number(&self.count.get_untracked()).filter(|count| *count > 0.0)?;
        let grams = weight(&self.grams.get_untracked()).filter(|grams| *grams > 0.0)?;
        Some(Patties { count, grams })
    }
}

/// Said of a figure that is none; how many and how heavy are both above 0.
fn above_zero(typed: RwSignal<String>) -> Signal<String> {
    Signal::derive(move || {
        let well = typed.with(|typed| weight(typed).is_some_and(|figure| figure > 0.0));
        if well { String::new() } else { say("Above 0").into() }
    })
}

#[component]
fn ForPatties(desk: Desk, patties: Vec<Patties>, loss_percent: f64) -> impl IntoView {
    let next = StoredValue::new(patties.len() as u32);
    let orders = RwSignal::new(
        patties
            .into_iter()
            .zip(0..)
            .map(|(p, id)| Order::new(id, p))
            .collect::<Vec<_>>(),
    );
    let loss = RwSignal::new(shown(loss_percent));
    let alert = RwSignal::new(String::new());
    let update = move || {
        let patties: Option<Vec<Patties>> = orders.get_untracked().into_iter().map(Order::read).collect();
        let loss_percent = number(&loss.get_untracked()).or(loss.get_untracked().trim().eq("0").then_some(0.0));
        match (patties, loss_percent) {
            (Some(patties), Some(loss_percent)) => {
                alert.set(String::new());
                set_batch(desk, "batch", Batch::Patties { patties, loss_percent });
            }
            (None, _) => alert.set(say("Type how many and how heavy as numbers above 0.").into()),
            (_, None) => alert.set(say("Type the loss as a percentage, such as 3.").into()),
        }
    };
    let step = move |order: Order, by: f64| {
        let count = number(&order.count.get_untracked()).unwrap_or(0.0);
        order.count.set(shown((count + by).max(1.0).round()));
        update();
    };
    view! {
        <section class="orders" aria-label=say("Patties")>
            {live::rows(move || orders.get(), |order| order.id, move |order| view! {
                <div class="order">
                    <button type="button" class="button button--round" aria-label=say("One patty fewer") on:click=move |_| step(order, -1.0)>"−"</button>
                    <Field label=say("How many") value=order.count alert=above_zero(order.count) number=true on_type=Callback::new(move |_| update())/>
                    <button type="button" class="button button--round" aria-label=say("One patty more") on:click=move |_| step(order, 1.0)>"+"</button>
                    <Field label=say("Each, grams") value=order.grams alert=above_zero(order.grams) unit="g" number=true on_type=Callback::new(move |_| update())/>
                    <button type="button" class="button button--round" aria-label=say("Remove these patties") disabled=live(move || orders.with(|o| o.len() < 2))
                        on:click=move |_| { orders.update(|all| all.retain(|o| o.id != order.id)); update(); }>"×"</button>
                </div>
            })}
            <p class="alert small" role="status">{alert}</p>
            <div class="fields">
                <Field label=say("Stays on bowl and hands, percent") value=loss unit="%" number=true on_type=Callback::new(move |_| update())/>
                <button type="button" class="button" on:click=move |_| {
                    let id = next.get_value();
                    next.set_value(id + 1);
                    orders.update(|all| all.push(Order::new(id, Patties { count: 4.0, grams: 45.0 })));
                    update();
                }>{say("Add another weight")}</button>
            </div>
        </section>
    }
}

#[component]
fn Pouring(desk: Desk) -> impl IntoView {
    let sheet = Memo::new(move |_| {
        let formula = desk.formula().unwrap_or_default();
        let weighing = weighing(desk);
        desk.document.with(|d| sheet(&d.kitchen(), &formula, &weighing))
    });
    let ok = move |part: fn(&WeighSheet) -> String| move || sheet.with(|s| s.as_ref().map_or(String::new(), part));
    let started = move || !weighing(desk).poured.is_empty();
    let rows = move |stage: Stage| {
        sheet.with(|s| {
            s.as_ref().map_or(Vec::new(), |s| {
                s.stages
                    .iter()
                    .find(|part| part.stage == stage)
                    .map_or(Vec::new(), |part| part.rows.clone())
            })
        })
    };
    view! {
        <p class="alert" role="status" hidden=live(move || sheet.with(Result::is_ok))>{live(move || sheet.get().err().unwrap_or_default())}</p>
        <section class="pair" hidden=live(move || sheet.with(Result::is_err))>
            <p><strong>{ok(|s| s.summary.clone())}</strong></p>
            <p class="soft" role="status">
                {live(move || if started() { say("On the scale:") } else { say("Tare the bowl, then pour in this order") })}
                " "
                <span class="on-scale">{live(move || if started() { ok(|s| s.on_scale.clone())() } else { String::new() })}</span>
            </p>
        </section>
        {Stage::ALL.into_iter().map(|stage| view! {
            <section class="stage" hidden=live(move || rows(stage).is_empty()) aria-label=stage.name()>
                <h2 class="stage__name">{stage.name()}</h2>
                <p class="small soft">{stage.says()}</p>
                <ul>
                    {live::rows(move || rows(stage), |row| row.key, move |row| {
                        let key = row.key;
                        let row = Memo::new(move |_| rows(stage).into_iter().find(|r| r.key == key));
                        view! { <Pour desk row/> }
                    })}
                </ul>
            </section>
        }).collect_view()}
        <section class="card" hidden=live(move || sheet.with(|s| s.as_ref().map_or(true, |s| s.rules.is_empty())))>
            <h2 class="card__title">{say("As poured, the mix reads")}</h2>
            <Rules label=say("As poured") rules=Signal::derive(move || sheet.with(|s| s.as_ref().map_or(Vec::new(), |s| s.rules.clone())))/>
        </section>
        <section class="card" hidden=live(move || !sheet.with(|s| s.as_ref().is_ok_and(|s| s.done)))>
            <h2 class="card__title">{say("Everything is in")}</h2>
            <p>{safety::wet_mix()[0].says}</p>
            <a class="button" href="#rescue">{say("It does not hold together")}</a>
        </section>
        <button type="button" class="button" hidden=live(move || !started()) on:click=move |_| {
            change(desk, "", |weighing| { weighing.poured.clear(); weighing.growth = 1.0; });
            desk.say(say("The scale is empty again."), true);
        }>{say("Start weighing again")}</button>
    }
}

#[component]
fn Pour(desk: Desk, row: Memo<Option<WeighRow>>) -> impl IntoView {
    let of = move |part: fn(&WeighRow) -> String| move || row.with(|row| row.as_ref().map_or(String::new(), part));
    let ticked = move || row.with(|row| row.as_ref().is_some_and(|row| row.ticked));
    let typing = RwSignal::new(false);
    let poured = RwSignal::new(String::new());
    let alert = RwSignal::new(String::new());
    let over = move || row.with(|row| row.as_ref().map_or(String::new(), |row| row.over.clone()));
    let put = move || match (weight(&poured.get_untracked()), row.get_untracked()) {
        (Some(grams), Some(row)) if grams >= 0.0 => {
            alert.set(String::new());
            typing.set(false);
            change(desk, "", |weighing| {
                weighing.poured.insert(row.key, grams);
            });
        }
        _ => alert.set(say("Type what went in, in grams").into()),
    };
    let kept = RwSignal::new(false);
    view! {
        <li class="pour" class:pour--done=live(ticked)>
            <button type="button" class="pour__tick" aria-pressed=live(move || ticked().to_string()) aria-label=live(move || say!("{name} is in the bowl", name = of(|row| row.name.clone())()))
                on:click=move |_| if let Some(row) = row.get_untracked() { change(desk, "", |weighing| weighing.tick(&row)); }>
                {live::shown(move || ticked().then(|| view! { <Icon d=TICK/> }))}
            </button>
            <div class="pour__says">
                <p class="line__name">{of(|row| row.name.clone())}</p>
                <p class="small soft">{say("scale shows")} " " {of(|row| row.running.clone())}</p>
                <p class="small soft">{of(|row| row.spoons.clone())}</p>
            </div>
            <p class="pour__grams">{of(|row| row.grams.clone())}</p>
            <div class="pour__more">
                <button type="button" class="pour__other small" hidden=live(move || typing.get()) on:click=move |_| {
                    poured.set(String::new());
                    kept.set(false);
                    typing.set(true);
                }>{say("Something else went in")}</button>
                <div class="fields" hidden=live(move || !typing.get())>
                    <Field label=say("What went in, grams") value=poured alert=alert unit="g" number=true on_done=Callback::new(move |()| put())/>
                    <button type="button" class="button" on:click=move |_| put()>{say("That is in the bowl")}</button>
                </div>
                <div class="notice" hidden=live(move || over().is_empty() || kept.get())>
                    <span>{over}</span>
                    <button type="button" class="button" on:click=move |_| if let Some(row) = row.get_untracked() { change(desk, "", |weighing| weighing.scale_the_rest(&row)); }>{say("Scale the rest")}</button>
                    <button type="button" class="button" on:click=move |_| kept.set(true)>{say("Keep the plan")}</button>
                </div>
            </div>
        </li>
    }
}
