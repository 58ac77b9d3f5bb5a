//! One line of a formula, closed or opened for editing.

use crate::desk::Desk;
use crate::field::{Field, fresh_id};
use crate::icon::{DOWN, Icon, UP};
use crate::live::{self, live, shown};
use crate::parts::Chips;
use crate::route::{self, Over, Room, Route};
use leptos::prelude::*;
use markup::view;
use pattywright::formula::Line;
use pattywright::measure::{Measure, Unit, read};
use pattywright::pantry::{Role, search};
use pattywright::sheet::formula::{FormulaSheet, Row};
use pattywright::words::{say, small};
use wasm_bindgen::JsCast;

/// Lines this near to the one typed in follow every key; more than fit on a phone.
const NEAR: usize = 8;

#[component]
pub fn LineRow(
    desk: Desk,
    sheet: Memo<FormulaSheet>,
    /// The same once typing has paused.
    settled: RwSignal<FormulaSheet>,
    /// The lines in order.
    keys: Memo<Vec<u32>>,
    key: u32,
) -> impl IntoView {
    // Every key moves the share of every line; those out of sight wait until typing pauses, so that it is drawn at once.
    let near = Memo::new(move |_| match desk.over() {
        Over::Line(typed_in) => keys.with(|keys| {
            let at = |wanted: u32| keys.iter().position(|key| *key == wanted);
            at(key)
                .zip(at(typed_in))
                .is_none_or(|(here, there)| here.abs_diff(there) <= NEAR)
        }),
        _ => true,
    });
    let find = move |sheet: &FormulaSheet| sheet.rows.iter().find(|row| row.key == key).cloned();
    let all_of_it = move || {
        if near.get() {
            sheet.with(find)
        } else {
            settled.with(find)
        }
    };
    // What another line moves is told apart from what only this one does.
    let share = Memo::new(move |_| all_of_it().map_or(String::new(), |row| row.shares()));
    let row = Memo::new(move |_| all_of_it().map(Row::without_shares));
    let open = Memo::new(move |_| desk.over() == Over::Line(key));
    let place = NodeRef::<leptos::html::Li>::new();
    Effect::new(move |was: Option<bool>| {
        let open = open.get();
        if open
            && was == Some(false)
            && let Some(place) = place.get()
        {
            place.scroll_into_view();
        }
        // What held the keyboard goes with the closing line; the row takes it back.
        if !open
            && was == Some(true)
            && let Some(place) = place.get()
            && document()
                .active_element()
                .is_none_or(|here| here.tag_name() == "BODY" || place.contains(Some(&here)))
            && let Some(Ok(row)) = place
                .query_selector(".line__row")
                .ok()
                .flatten()
                .map(JsCast::dyn_into::<web_sys::HtmlElement>)
        {
            let _ = row.focus();
        }
        open
    });
    let toggle = move |_| {
        if open.get_untracked() {
            route::close()
        } else {
            route::go(&Route {
                room: Room::Formula,
                over: Over::Line(key),
            })
        }
    };
    view! {
        <li class="line" class:line--open=live(move || open.get()) node_ref=place>
            <button type="button" class="line__row" aria-expanded=live(move || open.get().to_string()) on:click=toggle>
                {shown(move || row.get().map(closed))}
                <span class="line__share">{live(move || share.get())}</span>
            </button>
            {shown(move || open.get().then(|| view! { <LineEdit desk row key/> }))}
        </li>
    }
}

/// What a line says without being opened, but for its share of the mix.
fn closed(row: Row) -> impl IntoView {
    let weighed = row.problem.is_empty();
    let amount = if row.spread.is_empty() {
        row.amount
    } else {
        format!("{} · {}", row.amount, row.spread)
    };
    view! {
        <span class=format!("line__role role--{}", row.role.id())></span>
        <span class="line__name">{row.name}</span>
        <span class="line__grams" class:line__grams--none=!weighed>{row.grams}</span>
        <span class="line__amount">{amount}</span>
        <span class="line__problem" hidden=weighed>{row.problem}</span>
    }
}

/// The measures offered beside the amount.
const UNITS: [Unit; 5] = [
    Unit::Gram,
    Unit::Millilitre,
    Unit::Cup,
    Unit::Tablespoon,
    Unit::Teaspoon,
];

#[component]
fn LineEdit(desk: Desk, row: Memo<Option<Row>>, key: u32) -> impl IntoView {
    let line = Memo::new(move |_| {
        desk.with_formula(|formula| formula.and_then(|f| f.lines.iter().find(|line| line.key == key).cloned()))
    });
    let amount = RwSignal::new(line.get_untracked().map_or(String::new(), |line| line.amount));
    // Undo and other tabs change the amount under the field.
    Effect::new(move |_| {
        if let Some(line) = line.get()
            && line.amount != amount.get_untracked()
        {
            amount.set(line.amount);
        }
    });
    let edit_name = StoredValue::new(format!("amount {key}"));
    let set_amount =
        move |typed: String| edit_name.with_value(|name| desk.edit_line(name, key, |line| line.amount = typed));
    let unit = Memo::new(move |_| {
        read(&amount.get()).ok().and_then(|q| match q.measure {
            Measure::Unit(unit) => Some(unit),
            Measure::Count(_) => None,
        })
    });
    let choose_unit = move |unit: Unit| {
        let number: String = amount
            .get_untracked()
            .trim_end_matches(|c: char| c.is_alphabetic() || c.is_whitespace() || c == '.')
            .to_owned();
        let number = if number.is_empty() { "1".to_owned() } else { number };
        let typed = format!("{number} {}", unit.written(false));
        amount.set(typed.clone());
        set_amount(typed);
    };
    let answer = move || {
        row.with(|row| {
            row.as_ref().map_or(String::new(), |row| {
                if row.problem.is_empty() {
                    format!("{} {}. {}", row.grams, row.spread, row.source)
                } else {
                    String::new()
                }
            })
        })
    };
    let alert = Signal::derive(move || row.with(|row| row.as_ref().map_or(String::new(), |row| row.problem.clone())));
    view! {
        <div class="line__edit">
            <Field label=say("Amount") value=amount hint=Signal::derive(answer) alert=alert on_type=Callback::new(set_amount) on_done=Callback::new(|()| route::close())/>
            <Chips label=say("Measure") choices=UNITS.map(|unit| (unit, unit.written(false).to_owned())).to_vec() chosen=move || unit.get() on_choose=choose_unit/>
            <Cuts desk key line/>
            <Which desk key line/>
            <WhatItDoes desk key row/>
            <Note desk key line/>
            <Moves desk key/>
        </div>
    }
}

/// Published cuts, where a cup of them weighs differently.
#[component]
fn Cuts(desk: Desk, key: u32, line: Memo<Option<Line>>) -> impl IntoView {
    let id = Memo::new(move |_| line.get().and_then(|line| line.ingredient));
    let cuts = Memo::new(move |_| {
        let id = id.get();
        desk.document.with_untracked(|d| {
            let found = id
                .as_deref()
                .and_then(|id| d.kitchen().pantry.get(id))
                .and_then(|found| found.row());
            found.map_or(Vec::new(), |row| row.cuts())
        })
    });
    let by_measure = move || {
        line.get()
            .is_some_and(|line| read(&line.amount).is_ok_and(|q| q.grams().is_none()))
    };
    let chosen = move || line.get().and_then(|line| line.cut).unwrap_or_default();
    view! {
        <div class="field" hidden=live(move || cuts.with(Vec::is_empty) || !by_measure())>
            <span class="field__label">{say("Cut, or how the cup is filled")}</span>
            <div class="chips" role="group" aria-label=say("Cut")>
                {shown(move || std::iter::once("").chain(cuts.get()).map(|cut| view! {
                    <button type="button" class="chip" aria-pressed=live(move || (chosen() == cut).to_string())
                        on:click=move |_| desk.edit_line("", key, |line| line.cut = (!cut.is_empty()).then(|| cut.to_owned()))>
                        {if cut.is_empty() { say("not known") } else { say(cut) }}
                    </button>
                }).collect_view())}
            </div>
        </div>
    }
}

/// Which ingredient or formula the line is.
#[component]
fn Which(desk: Desk, key: u32, line: Memo<Option<Line>>) -> impl IntoView {
    let unknown = move || {
        line.with(|line| {
            line.as_ref()
                .is_some_and(|line| line.ingredient.is_none() && line.formula.is_none())
        })
    };
    let typed = RwSignal::new(String::new());
    let changing = RwSignal::new(false);
    let shown = Memo::new(move |_| changing.get() || unknown());
    let wanted = Memo::new(move |_| {
        let name = || line.get().and_then(|line| line.name).unwrap_or_default();
        Some(typed.get()).filter(|typed| !typed.is_empty()).unwrap_or_else(name)
    });
    // The pantry cannot change while this is open, so that a key in the amount asks for no search.
    let offers = Memo::new(move |_| {
        if !shown.get() {
            return Vec::new();
        }
        let wanted = wanted.get();
        desk.document.with_untracked(|d| {
            let current = desk.current.get();
            let formulas = d
                .formulas
                .iter()
                .filter(|f| f.id != current && !wanted.is_empty() && small(&f.name).contains(&small(&wanted)));
            let formulas = formulas.take(3).map(|f| (f.id.clone(), f.name.clone(), true));
            let found = search(&d.kitchen().pantry, &wanted, 6);
            formulas
                .chain(
                    found
                        .iter()
                        .map(|m| (m.ingredient.id().to_owned(), m.ingredient.name().to_owned(), false)),
                )
                .collect::<Vec<_>>()
        })
    });
    let choose = move |id: String, formula: bool| {
        desk.edit_line("", key, |line| {
            line.name = None;
            line.cut = None;
            line.role = None;
            line.ingredient = (!formula).then(|| id.clone());
            line.formula = formula.then_some(id);
        });
        changing.set(false);
        typed.set(String::new());
    };
    let card = move || line.get().and_then(|line| line.ingredient);
    view! {
        <div class="buttons" hidden=live(move || shown.get())>
            <button type="button" class="button" on:click=move |_| changing.set(true)>{say("Change ingredient")}</button>
            <button type="button" class="button" hidden=live(move || card().is_none()) on:click=move |_| if let Some(id) = card() { route::open(Over::Card(id)) }>{say("What it weighs")}</button>
        </div>
        <div class="field" hidden=live(move || !shown.get())>
            <Field label=say("Ingredient, or one of your formulas") value=typed/>
            <ul class="offers" hidden=live(move || offers.with(Vec::is_empty))>
                {live::rows(move || offers.get(), |offer| offer.clone(), move |(id, name, formula)| view! {
                    <li><button type="button" class="offers__one" on:click=move |_| choose(id.clone(), formula)>
                        {name}<span class="soft small">{formula.then_some(say("your formula"))}</span>
                    </button></li>
                })}
            </ul>
            <button type="button" class="button" on:click=move |_| {
                let name = { let typed = typed.get_untracked(); if typed.is_empty() { line.get_untracked().and_then(|l| l.name).unwrap_or_default() } else { typed } };
                crate::pantry::start_own(desk, key, &name);
            }>{say("Add it as your own ingredient")}</button>
        </div>
    }
}

#[component]
fn WhatItDoes(desk: Desk, key: u32, row: Memo<Option<Row>>) -> impl IntoView {
    let id = fresh_id("role");
    let for_id = id.clone();
    let role = Memo::new(move |_| row.with(|row| row.as_ref().map_or(Role::Filler, |row| row.role)));
    view! {
        <div class="field">
            <label class="field__label" for=for_id>{say("What it does")}</label>
            <select id=id class="field__input" prop:value=live(move || role.get().id())
                on:change:target=move |event| desk.edit_line("", key, |line| line.role = Role::from_id(&event.target().value()))>
                {Role::ALL.into_iter().map(|choice| view! {
                    <option value=choice.id() selected=live(move || role.get() == choice)>{choice.name()}</option>
                }).collect_view()}
            </select>
        </div>
    }
}

#[component]
fn Note(desk: Desk, key: u32, line: Memo<Option<Line>>) -> impl IntoView {
    let note = RwSignal::new(line.get_untracked().map_or(String::new(), |line| line.note));
    let name = StoredValue::new(format!("note {key}"));
    view! {
        <Field label=say("Note") value=note on_type=Callback::new(move |typed: String| name.with_value(|name| desk.edit_line(name, key, |line| line.note = typed)))/>
    }
}

/// Up, down, once more, away.
#[component]
fn Moves(desk: Desk, key: u32) -> impl IntoView {
    let shift = move |by: isize| {
        desk.edit_formula("", |formula| {
            let from = formula.lines.iter().position(|line| line.key == key);
            if let Some(from) = from
                && let Some(to) = from.checked_add_signed(by)
                && to < formula.lines.len()
            {
                formula.lines.swap(from, to);
            }
        });
    };
    view! {
        <div class="buttons">
            <button type="button" class="button" aria-label=say("Move up") on:click=move |_| shift(-1)><Icon d=UP/></button>
            <button type="button" class="button" aria-label=say("Move down") on:click=move |_| shift(1)><Icon d=DOWN/></button>
            <button type="button" class="button" on:click=move |_| desk.edit_formula("", |formula| {
                if let Some(at) = formula.lines.iter().position(|line| line.key == key) {
                    let mut twin = formula.lines[at].clone();
                    twin.key = 0;
                    formula.lines.insert(at + 1, twin);
                }
            })>{say("Duplicate")}</button>
            <button type="button" class="button" on:click=move |_| {
                desk.edit_formula("", |formula| formula.lines.retain(|line| line.key != key));
                route::close();
                desk.say(say("Line removed."), true);
            }>{say("Remove")}</button>
        </div>
    }
}
