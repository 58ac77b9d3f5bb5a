//! The Formula room: what is in it, in grams and percentages, and do the ratios make sense?

pub mod guide;
mod line;
mod list;
mod paste;

pub use list::Formulas;
pub use paste::Paste;

use crate::desk::Desk;
use crate::field::Field;
use crate::live::{self, live, shown};
use crate::parts::{Chips, Fold, Rules, Strip};
use crate::route::{self, Over, Room, Route};
use crate::turns::{self, in_turn};
use gloo::timers::callback::Timeout;
use guide::Guide;
use leptos::prelude::*;
use line::LineRow;
use markup::view;
use pattywright::document::{PasteProblem, Understood, paste as read_list};
use pattywright::formula::{Base, Formula, Style};
use pattywright::sheet::formula::{FormulaSheet, first_rules, sheet};
use pattywright::sheet::ladder::ladder;
use pattywright::sheet::safety;
use pattywright::words::{say, within};

/// How long typing pauses before lines far from it follow, ms.
const PAUSE_MS: u32 = 150;

/// How high a line is at least, and what stands above the first one, px.
const LINE_PX: f64 = 60.0;
const ABOVE_PX: f64 = 190.0;

/// So many more are drawn each time the browser has had its turn.
const MORE: usize = 8;

/// Every line is drawn, and what is below them may come.
const ALL: usize = usize::MAX;

#[component]
pub fn FormulaRoom(desk: Desk) -> impl IntoView {
    let there = Memo::new(move |_| desk.with_formula(|formula| formula.is_some()));
    view! {
        {move || if there.get() { view! { <Written desk/> }.into_any() } else { view! { <Empty desk/> }.into_any() }}
    }
}

/// So many lines are drawn at first: no fewer than the screen shows, however little is above them.
fn first_screen() -> usize {
    let height = window().inner_height().ok().and_then(|height| height.as_f64());
    ((height.unwrap_or_default() - ABOVE_PX) / LINE_PX).ceil().max(1.0) as usize
}

/// Nothing written yet.
#[component]
fn Empty(desk: Desk) -> impl IntoView {
    view! {
        <section class="card">
            <h2 class="card__title">{say("Write your first formula")}</h2>
            <p>{say("Type each line as you measure it, such as “1¾ cups soy granules”, or paste a list. Grams and ratios appear as you go.")}</p>
            <button type="button" class="button button--main" on:click=move |_| guide::start(desk)>{say("Step by step")}</button>
            <button type="button" class="button" on:click=move |_| desk.new_formula(say("My patty"), Vec::new())>{say("Start a formula")}</button>
            <button type="button" class="button" on:click=move |_| route::open(Over::Paste)>{say("Paste a list")}</button>
            <a class="button" href=Route::room(Room::More).write()>{say("Open a backup file")}</a>
        </section>
    }
}

#[component]
fn Written(desk: Desk) -> impl IntoView {
    let sheet = Memo::new(move |_| {
        let empty = Formula::default();
        desk.document
            .with(|document| desk.with_formula(|formula| sheet(&document.kitchen(), formula.unwrap_or(&empty))))
    });
    let keys = Memo::new(move |_| sheet.with(|s| s.rows.iter().map(|row| row.key).collect::<Vec<_>>()));
    let empty = Memo::new(move |_| keys.with(Vec::is_empty));
    let drawn = RwSignal::new(first_screen());
    view! {
        <Guide desk/>
        <section class="sum" aria-label=say("The mix")>
            <span class="big">{live(move || sheet.with(|s| format!("{} g", s.total.value)))}</span>
            <span class="soft">{live(move || sheet.with(|s| s.total.spread.clone()))}</span>
            <span class="alert small">{live(move || sheet.with(|s| s.incomplete.clone()))}</span>
        </section>
        <div hidden=live(move || empty.get())>
            {in_turn(move || view! { <Strip parts=Signal::derive(move || sheet.with(|s| s.strip.clone())) on_part=|key| route::open(Over::Line(key))/> })}
        </div>
        {in_turn(move || view! { <Readings sheet/> })}
        {in_turn(move || view! { <Lines desk sheet keys drawn/> })}
        {shown(move || (drawn.get() == ALL).then(|| view! { <Below desk sheet/> }))}
    }
}

/// Which line to weigh first, and the lines: those of the first screen, and once they are painted the others.
#[component]
fn Lines(desk: Desk, sheet: Memo<FormulaSheet>, keys: Memo<Vec<u32>>, drawn: RwSignal<usize>) -> impl IntoView {
    let settled = settled(sheet);
    let shown_keys = move || keys.get().into_iter().take(drawn.get());
    request_animation_frame(move || draw_more(keys, drawn));
    view! {
        <p class="small" hidden=live(move || sheet.with(|s| s.weigh_first.is_empty()))>
            <strong>{live(move || sheet.with(|s| s.weigh_first.clone()))}</strong>
        </p>
        <section aria-label=say("Lines")>
            <ul class="lines">
                {live::rows(move || shown_keys().collect(), |key| *key, move |key| view! { <LineRow desk sheet settled keys key/> })}
            </ul>
            {shown(move || (drawn.get() == ALL).then(|| view! { <AddLine desk/> }))}
        </section>
    }
}

/// Draws the lines after the first in turns. The room may have been left meanwhile.
fn draw_more(keys: Memo<Vec<u32>>, drawn: RwSignal<usize>) {
    let some = move || {
        let _ = drawn.try_update(|drawn| {
            let lines = keys.try_with_untracked(Vec::len).unwrap_or_default();
            *drawn = if lines <= *drawn { ALL } else { *drawn + MORE };
        });
    };
    let more = move || {
        if drawn.try_get_untracked().is_some_and(|drawn| drawn != ALL) {
            draw_more(keys, drawn);
        }
    };
    turns::draw(some, more);
}

/// What follows the lines.
#[component]
fn Below(desk: Desk, sheet: Memo<FormulaSheet>) -> impl IntoView {
    view! {
        <div class="buttons">
            <button type="button" class="button" on:click=move |_| route::open(Over::Aim)>{say("Aim for a range")}</button>
            <button type="button" class="button" on:click=move |_| route::open(Over::Swap)>{say("Swap an ingredient")}</button>
        </div>
        {in_turn(move || view! { <Ladder desk/> })}
        {in_turn(move || view! { <Choices desk sheet/> })}
        {in_turn(move || view! { <Log desk/> })}
        <Fold says=say("Keep it safe")>
            <div class="caution">
                <p><strong>{safety::first()}</strong></p>
                {safety::wet_mix().into_iter().chain([safety::powder()]).map(|caution| view! {
                    <p>{caution.says} <span class="soft">" (" {caution.source} ")"</span></p>
                }).collect_view()}
            </div>
        </Fold>
    }
}

/// The sheet as it was when typing last paused.
fn settled(sheet: Memo<FormulaSheet>) -> RwSignal<FormulaSheet> {
    let settled = RwSignal::new(sheet.get_untracked());
    let pause = StoredValue::new_local(None::<Timeout>);
    Effect::new(move |_| {
        sheet.track();
        pause.set_value(Some(Timeout::new(PAUSE_MS, move || settled.set(sheet.get_untracked()))));
    });
    settled
}

/// The readings that matter first, and the rest behind a tap.
#[component]
fn Readings(sheet: Memo<FormulaSheet>) -> impl IntoView {
    let all = RwSignal::new(false);
    let shown = Memo::new(move |_| {
        sheet.with(|s| {
            let first = first_rules(&s.rules);
            let wanted = |rule: &&pattywright::sheet::rule::Rule| all.get() || first.contains(&rule.reading);
            s.rules.iter().filter(wanted).cloned().collect::<Vec<_>>()
        })
    });
    let some = move || {
        sheet.with(|s| {
            s.strip
                .iter()
                .any(|part| part.role == pattywright::pantry::Role::Textured)
        })
    };
    view! {
        <section hidden=live(move || !some())>
            <Rules label=say("Readings") rules=shown/>
            <button type="button" class="button button--plain small" aria-expanded=live(move || all.get().to_string()) on:click=move |_| all.update(|a| *a = !*a)>
                {live(move || if all.get() { say("Fewer readings") } else { say("All readings") })}
            </button>
        </section>
    }
}

/// Adds lines as they are typed or pasted.
fn add_lines(desk: Desk, text: &str) -> Result<(), PasteProblem> {
    let read = desk
        .document
        .with_untracked(|document| read_list(&document.kitchen().pantry, text))?;
    let unsure = read.iter().find(|pasted| pasted.understood == Understood::Unsure);
    let unsure = unsure.map(|pasted| {
        say!(
            "Taken to be {name}. If it is not, open the line and change it.",
            name = within(&pasted.read_as)
        )
    });
    desk.edit_formula("", |formula| {
        formula.lines.extend(read.into_iter().map(|pasted| pasted.line))
    });
    if let Some(unsure) = unsure {
        desk.say(unsure, true);
    }
    Ok(())
}

/// One field that understands a line as it would be said.
#[component]
fn AddLine(desk: Desk) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let alert = RwSignal::new(String::new());
    let add = move || {
        let text = typed.get_untracked();
        if text.trim().is_empty() {
            alert.set(say("Type an amount and a name, such as “2 tbsp soy sauce”.").into());
            return;
        }
        match add_lines(desk, &text) {
            Ok(()) => {
                typed.set(String::new());
                alert.set(String::new());
            }
            Err(why) => alert.set(why.to_string()),
        }
    };
    view! {
        <div class="add-line">
            <Field label=say("Add a line: amount and name") value=typed alert=alert hint=say("Such as “1¾ cups soy granules”") on_done=Callback::new(move |()| add())/>
            <div class="buttons">
                <button type="button" class="button" on:click=move |_| add()>{say("Add line")}</button>
                <button type="button" class="button" on:click=move |_| route::open(Over::Paste)>{say("Paste a list")}</button>
            </div>
        </div>
    }
}

/// What one more spoon of each line does.
#[component]
fn Ladder(desk: Desk) -> impl IntoView {
    let open = RwSignal::new(false);
    let rungs = move || {
        let formula = desk.formula().unwrap_or_default();
        desk.document.with(|document| ladder(&document.kitchen(), &formula))
    };
    view! {
        <details on:toggle=move |_| open.update(|open| *open = !*open)>
            <summary>{say("What one more spoon does")}</summary>
            {shown(move || open.get().then(|| {
                let rungs = rungs();
                let none = rungs.is_empty().then(|| view! { <p class="small soft">{say("Give every line an amount first.")}</p> });
                view! {
                    {none}
                    <ul class="ladder">
                        {rungs.into_iter().map(|rung| view! {
                            <li class="small"><strong>{rung.step}</strong>
                                {if rung.moves.is_empty() { vec![say("moves no reading").to_owned()] } else { rung.moves }.into_iter().map(|says| view! { <span class="ladder__move">{says}</span> }).collect_view()}
                            </li>
                        }).collect_view()}
                    </ul>
                }
            }))}
        </details>
    }
}

/// What is made of it, and what counts as 100.
#[component]
fn Choices(desk: Desk, sheet: Memo<FormulaSheet>) -> impl IntoView {
    let style = Memo::new(move |_| sheet.with(|sheet| Some(sheet.style)));
    let base = Memo::new(move |_| desk.with_formula(|formula| formula.map(|formula| formula.base)));
    view! {
        <Fold says=Signal::derive(move || style.get().map_or(String::new(), |s| say!("Made into: {style}", style = s.name())))>
            <Chips label=say("Made into") choices=Style::ALL.map(|s| (s, s.name().to_owned())).to_vec() chosen=move || style.get()
                on_choose=move |chosen| desk.edit_formula("", |formula| formula.style = Some(chosen))/>
        </Fold>
        <Fold says=Signal::derive(move || base.get().map_or(String::new(), |b| say!("Baker’s percentages: {base} is 100", base = b.name())))>
            <Chips label=say("What counts as 100") choices=Base::ALL.map(|b| (b, b.name().to_owned())).to_vec() chosen=move || base.get()
                on_choose=move |chosen| desk.edit_formula("", |formula| formula.base = chosen)/>
        </Fold>
    }
}

/// What was added to the bowl after mixing.
#[component]
fn Log(desk: Desk) -> impl IntoView {
    let log =
        Memo::new(move |_| desk.with_formula(|formula| formula.map_or(Vec::new(), |formula| formula.log.clone())));
    let name = move |id: &str| {
        desk.document.with_untracked(|d| {
            d.kitchen()
                .pantry
                .get(id)
                .map_or(id.to_owned(), |found| found.name().to_owned())
        })
    };
    view! {
        <details hidden=live(move || log.with(Vec::is_empty))>
            <summary>{live(move || say!("Added after mixing: {times}", times = log.with(Vec::len)))}</summary>
            <ul>
                {shown(move || log.get().into_iter().rev().map(|entry| {
                    let added: Vec<String> = entry.added.iter().map(|(id, grams)| format!("{} {}", pattywright::measure::grams(*grams), name(id))).collect();
                    view! { <li class="small">{say!("{when}: {added} to {left} ({why})", when = entry.at, added = added.join(", "), left = pattywright::measure::grams(entry.left_g), why = entry.why)}</li> }
                }).collect_view())}
            </ul>
        </details>
    }
}
