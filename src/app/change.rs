//! Change the mix: ranges for the readings, and one ingredient in another's place.

use crate::desk::Desk;
use crate::ears;
use crate::field::{Field, fresh_id, number};
use crate::live::{self, live, shown};
use crate::over::Sheet;
use crate::parts::{Chips, Fold, Rules, adds};
use crate::route;
use leptos::prelude::*;
use markup::view;
use pattywright::balance::Aim;
use pattywright::formula::{Formula, Line, Reading, WeighedLine};
use pattywright::measure::trimmed;
use pattywright::pantry::search;
use pattywright::sheet::change::{Asked, CROWDED, ChangeSheet, Wish, aim, allergens, exchange};
use pattywright::words::say;

/// One range, as it is being typed.
#[derive(Clone, Copy)]
struct Typed {
    key: usize,
    reading: RwSignal<Reading>,
    low: RwSignal<String>,
    high: RwSignal<String>,
}

impl Typed {
    fn new(key: usize, reading: Reading) -> Typed {
        Typed {
            key,
            reading: RwSignal::new(reading),
            low: RwSignal::new(String::new()),
            high: RwSignal::new(String::new()),
        }
    }

    fn wish(self) -> Wish {
        Wish {
            reading: self.reading.get(),
            low: self.low.get(),
            high: self.high.get(),
        }
    }
}

/// Ranges wanted, what stays, what comes out: the least change that grants it.
#[component]
pub fn AimSheet(desk: Desk) -> impl IntoView {
    let typed = RwSignal::new(vec![Typed::new(0, Reading::Protein)]);
    let lock = RwSignal::new(Vec::<String>::new());
    let without = RwSignal::new(Vec::<String>::new());
    let best = RwSignal::new(Aim::LeastChange);
    let answer = Memo::new(move |_| {
        let asked = Asked {
            wishes: typed.get().into_iter().map(Typed::wish).collect(),
            lock: lock.get(),
            without: without.get(),
            aim: best.get(),
        };
        let formula = desk.formula().unwrap_or_default();
        desk.document
            .with(|document| aim(&document.kitchen(), &formula, &asked))
    });
    let names = move || {
        let formula = desk.formula().unwrap_or_default();
        let weighed = desk.document.with(|document| document.kitchen().weigh(&formula));
        let of =
            |(line, weighed): (Line, &WeighedLine)| Some((line.ingredient.or(line.formula)?, weighed.name.clone()));
        formula
            .lines
            .into_iter()
            .zip(&weighed.lines)
            .filter_map(of)
            .collect::<Vec<_>>()
    };
    let aims = [
        (Aim::LeastChange, say("few lines, by little")),
        (Aim::LeastSalt, say("the least salt")),
        (Aim::MostProtein, say("the most protein")),
    ];
    view! {
        <Sheet title=say("Aim for a range")>
            <p class="small soft">{say("The mix keeps its weight, and what is in its range stays there if it can.")}</p>
            {live::rows(move || typed.get(), |one| one.key, move |one| view! { <Range one/> })}
            <button type="button" class="button" on:click=move |_| typed.update(|typed| {
                let asked: Vec<Reading> = typed.iter().map(|one| one.reading.get_untracked()).collect();
                let next = Reading::ALL.into_iter().find(|reading| !asked.contains(reading)).unwrap_or(Reading::Protein);
                typed.push(Typed::new(typed.len(), next));
            })>{say("Another reading")}</button>
            <Fold says=say("Lines that stay as they are")>
                <div class="chips" role="group" aria-label=say("Lines that stay")>
                    {shown(move || names().into_iter().map(|(id, name)| view! { <Toggle id name list=lock/> }).collect_view())}
                </div>
            </Fold>
            <Fold says=say("What has to come out")>
                <div class="chips" role="group" aria-label=say("Allergens that come out")>
                    {allergens().map(|(id, name)| view! { <Toggle id=id.to_owned() name=name.to_owned() list=without/> }).collect_view()}
                </div>
            </Fold>
            <Fold says=say("What is best")>
                <Chips label=say("What is best") choices=aims.map(|(aim, name)| (aim, name.to_owned())).to_vec() chosen=move || Some(best.get()) on_choose=move |aim| best.set(aim)/>
            </Fold>
            {shown(move || match answer.get() {
                Ok(None) => ().into_any(),
                Ok(Some(sheet)) => view! { <Answer desk sheet/> }.into_any(),
                Err(why) => refused(why),
            })}
        </Sheet>
    }
}

/// Why there is no answer, for eyes and ears.
fn refused(why: String) -> AnyView {
    ears::tell(why.clone());
    view! { <p class="alert">{why} "."</p> }.into_any()
}

/// Said of a limit that is no number; empty while it is one, or nothing.
fn unread(typed: RwSignal<String>) -> Signal<String> {
    Signal::derive(move || {
        let wrong = typed.with(|typed| !typed.trim().is_empty() && number(typed).is_none());
        if wrong {
            say("Not a number").into()
        } else {
            String::new()
        }
    })
}

#[component]
fn Range(one: Typed) -> impl IntoView {
    let id = fresh_id("reading");
    let for_id = id.clone();
    let unit = move || {
        let unit = one.reading.get().unit();
        if unit.is_empty() {
            String::new()
        } else {
            format!(", {unit}")
        }
    };
    view! {
        <div class="range">
            <div class="field">
                <label class="field__label" for=for_id>{say("Reading")}</label>
                <select id=id class="field__input" on:change:target=move |event| {
                    if let Some(reading) = Reading::from_id(&event.target().value()) { one.reading.set(reading) }
                }>
                    {Reading::ALL.map(|reading| view! {
                        <option value=reading.id() selected=live(move || one.reading.get() == reading)>{reading.name()}</option>
                    }).collect_view()}
                </select>
            </div>
            <div class="fields">
                <Field label=Signal::derive(move || say!("At least{unit}", unit = unit())) value=one.low alert=unread(one.low) number=true/>
                <Field label=Signal::derive(move || say!("At most{unit}", unit = unit())) value=one.high alert=unread(one.high) number=true/>
            </div>
        </div>
    }
}

/// A chip that is in a list or not.
#[component]
fn Toggle(id: String, name: String, list: RwSignal<Vec<String>>) -> impl IntoView {
    let here = id.clone();
    view! {
        <button type="button" class="chip" aria-pressed=live(move || list.with(|list| list.contains(&here)).to_string())
            on:click=move |_| list.update(|list| match list.iter().position(|one| *one == id) {
                Some(at) => { list.remove(at); }
                None => list.push(id.clone()),
            })>{name}</button>
    }
}

/// One ingredient in another's place.
#[component]
pub fn SwapSheet(desk: Desk) -> impl IntoView {
    let from = RwSignal::new(String::new());
    let to = RwSignal::new(None::<(String, String)>);
    let typed = RwSignal::new(String::new());
    let crowded = RwSignal::new(trimmed(CROWDED, 2));
    let id = fresh_id("from");
    let for_id = id.clone();
    let lines = Memo::new(move |_| {
        let formula = desk.formula().unwrap_or_default();
        desk.document.with(|document| {
            let pantry = document.kitchen().pantry;
            let of = |line: &pattywright::formula::Line| {
                let found = pantry.get(line.ingredient.as_deref()?)?;
                Some((found.id().to_owned(), found.name().to_owned()))
            };
            formula.lines.iter().filter_map(of).collect::<Vec<_>>()
        })
    });
    let offers = Memo::new(move |_| {
        let wanted = typed.get();
        desk.document.with(|document| {
            let found = search(&document.kitchen().pantry, &wanted, 6);
            let named = found
                .iter()
                .map(|found| (found.ingredient.id().to_owned(), found.ingredient.name().to_owned()));
            named.collect::<Vec<_>>()
        })
    });
    let answer = Memo::new(move |_| {
        let (to, _) = to.get()?;
        let from = Some(from.get()).filter(|from| !from.is_empty())?;
        let formula = desk.formula().unwrap_or_default();
        Some(
            desk.document
                .with(|document| exchange(&document.kitchen(), &formula, (&from, &to), &crowded.get())),
        )
    });
    view! {
        <Sheet title=say("Swap an ingredient")>
            <p class="small soft">{say("As much protein goes in as comes out, and the water follows what each holds.")}</p>
            <div class="field">
                <label class="field__label" for=for_id>{say("Goes out")}</label>
                <select id=id class="field__input" on:change:target=move |event| from.set(event.target().value())>
                    <option value="">{say("Choose a line")}</option>
                    {shown(move || lines.get().into_iter().map(|(id, name)| view! { <option value=id>{name}</option> }).collect_view())}
                </select>
            </div>
            <Field label=say("Comes in") value=typed hint=Signal::derive(move || to.get().map_or(say("Type a name, such as gluten").into(), |(_, name)| say!("Chosen: {name}", name)))/>
            <ul class="offers" hidden=live(move || offers.with(Vec::is_empty))>
                {live::rows(move || offers.get(), |offer| offer.clone(), move |offer| {
                    let name = offer.1.clone();
                    view! {
                        <li><button type="button" class="offers__one" on:click=move |_| { to.set(Some(offer.clone())); typed.set(String::new()); }>{name}</button></li>
                    }
                })}
            </ul>
            <Fold says=say("How much water counts")>
                <Field label=say("Part of what a powder could hold, 0 to 1") value=crowded number=true hint=say("A crowded mix gives it only a part. Nobody has published how much: start at 0.5, and learn.")/>
            </Fold>
            {shown(move || match answer.get() {
                None => ().into_any(),
                Some(Ok(sheet)) => view! { <Answer desk sheet/> }.into_any(),
                Some(Err(why)) => refused(why),
            })}
        </Sheet>
    }
}

#[component]
fn Answer(desk: Desk, sheet: ChangeSheet) -> impl IntoView {
    let take = move |after: &Formula| {
        let after = after.clone();
        desk.edit_formula("", |formula| *formula = after);
        route::close();
        desk.say(say("The formula is changed."), true);
    };
    ears::tell(sheet.headline.to_owned());
    let formula = sheet.formula;
    view! {
        <section class="card">
            <h3 class="card__title">{sheet.headline}</h3>
            {(!sheet.clash.is_empty()).then(|| view! { <ul class="alert">{sheet.clash.into_iter().map(|clash| view! { <li>{clash} "."</li> }).collect_view()}</ul> })}
            {adds(sheet.rows)}
            {sheet.notes.into_iter().map(|note| view! { <p class="small">{note}</p> }).collect_view()}
            {(!sheet.after.is_empty()).then(|| view! {
                <Rules label=say("The mix afterwards") rules=Signal::stored(sheet.after)/>
            })}
            {formula.map(|formula| view! { <button type="button" class="button button--main" on:click=move |_| take(&formula)>{say("Change the formula")}</button> })}
        </section>
    }
}
