//! The Cook room: how thick, how thin, when to turn, when is the core hot?

mod answers;
mod bell;
mod drawing;
mod gauges;
mod timers;

pub use gauges::Rulers;
pub use timers::{Timers, TimersDue};

use crate::desk::Desk;
use crate::live::{live, shown};
use crate::parts::Chips;
use answers::{Details, Heated, Strips, Table, thick};
use gauges::{Heat, More, Size};
use gloo::timers::callback::Timeout;
use leptos::prelude::*;
use markup::view;
use pattywright::document::{Build, Cooking, MOST_BUILDS};
use pattywright::heat::HeatError;
use pattywright::heat::cook::{Answers, Plan};
use pattywright::sheet::cook::{self, BuildSheet, CookSheet, tonight};
use pattywright::words::say;
use timers::Running;

/// So many plans are remembered, so that a key pressed for one patty does not cook the others again.
const REMEMBERED: usize = 24;

/// What the parts of the room share. Cheap to copy.
#[derive(Clone, Copy)]
pub struct Stove {
    desk: Desk,
    cooking: Memo<Cooking>,
    /// Which patty is looked at.
    chosen: RwSignal<usize>,
    /// Labels of the fields that hold no figure.
    wrong: RwSignal<Vec<&'static str>>,
}

impl Stove {
    fn build(self) -> Build {
        let chosen = self.chosen.get();
        self.cooking
            .with(|cooking| cooking.builds.get(chosen).copied().unwrap_or_default())
    }

    /// The field of this name holds a figure again.
    fn right(self, name: &str) {
        self.wrong.update(|wrong| wrong.retain(|other| *other != name));
    }

    fn change(self, name: &str, change: impl FnOnce(&mut Cooking)) {
        let mut now = self.cooking.get_untracked();
        change(&mut now);
        self.desk.edit(name, |document| document.cooking = Some(now));
    }

    fn change_build(self, name: &str, change: impl FnOnce(&mut Build)) {
        let chosen = self.chosen.get_untracked();
        self.change(name, |cooking| {
            if let Some(build) = cooking.builds.get_mut(chosen) {
                change(build);
            }
        });
    }
}

#[component]
pub fn CookRoom(desk: Desk) -> impl IntoView {
    let there =
        Memo::new(move |_| desk.with_formula(|formula| formula.is_some_and(|formula| !formula.lines.is_empty())));
    view! {
        <Running timers=desk.timers/>
        {shown(move || if there.get() { view! { <AtTheStove desk/> }.into_any() } else {
            view! { <section class="card"><p>{say("Write a formula first; then its patties can be sized and timed here.")}</p><a class="button button--main" href="#formula">{say("Go to Formula")}</a></section> }.into_any()
        })}
    }
}

#[component]
fn AtTheStove(desk: Desk) -> impl IntoView {
    let stove = Stove {
        desk,
        cooking: Memo::new(move |_| {
            let formula = desk.current.get();
            desk.document.with(|document| tonight(document, &formula))
        }),
        chosen: RwSignal::new(0),
        wrong: RwSignal::new(Vec::new()),
    };
    let sheet = worked_out(stove);
    let chosen = move || {
        sheet.with(|sheet| match sheet {
            Err(why) => Err(format!("{why}.")),
            Ok(sheet) => sheet
                .builds
                .get(stove.chosen.get())
                .cloned()
                .unwrap_or_else(|| Err(say("Choose a patty above.").into())),
        })
    };
    view! {
        <Builds stove/>
        {shown(move || { stove.chosen.get(); view! { <Size stove/> } })}
        <Heat stove/>
        {shown(move || if stove.wrong.with(|wrong| !wrong.is_empty()) {
            view! { <p class="alert" role="status">{say("Put right what is marked above; then the times come back.")}</p> }.into_any()
        } else {
            match chosen() {
                Ok(patty) => view! { <Answered stove patty/> }.into_any(),
                Err(why) => view! { <p class="alert" role="status">{why}</p> }.into_any(),
            }
        })}
        <Table stove sheet/>
        <More stove/>
        <Strips stove/>
        <details>
            <summary>{say("How these times are come by")}</summary>
            <p class="small">{cook::how()}</p>
        </details>
        <p class="small soft">{pattywright::sheet::safety::wet_mix()[2].says} " " {pattywright::sheet::safety::first()}</p>
    }
}

/// A key that changes a figure is drawn first; the cooking follows once no key has come for so long, ms.
const PAUSE_MS: u32 = 120;

/// What the cook set, once typing pauses; at once where a patty is added or removed.
fn settled(cooking: Memo<Cooking>) -> RwSignal<Cooking> {
    let settled = RwSignal::new(cooking.get_untracked());
    let pause = StoredValue::new_local(None::<Timeout>);
    Effect::new(move |_| {
        let now = cooking.get();
        let as_many = settled.with_untracked(|before| before.builds.len() == now.builds.len());
        if as_many {
            pause.set_value(Some(Timeout::new(PAUSE_MS, move || settled.set(now))));
        } else {
            pause.set_value(None);
            settled.set(now);
        }
    });
    settled
}

/// The sheet, cooked anew only where a plan has changed.
fn worked_out(stove: Stove) -> Memo<Result<CookSheet, String>> {
    let remembered = StoredValue::new(Vec::<(Plan, Result<Answers, HeatError>)>::new());
    let answer = move |plan: &Plan| {
        let known = remembered.with_value(|known| known.iter().find(|(other, _)| other == plan).cloned());
        known.map_or_else(
            || {
                let answer = plan.answers();
                remembered.update_value(|known| {
                    known.truncate(REMEMBERED - 1);
                    known.insert(0, (plan.clone(), answer.clone()));
                });
                answer
            },
            |(_, answer)| answer,
        )
    };
    let settled = settled(stove.cooking);
    Memo::new(move |_| {
        let formula = stove.desk.formula().unwrap_or_default();
        let cooking = settled.get();
        stove
            .desk
            .document
            .with(|d| cook::sheet(&d.kitchen(), &d.settings, &formula, &cooking, &answer))
    })
}

/// Which patty is looked at, and another size.
#[component]
fn Builds(stove: Stove) -> impl IntoView {
    let names = Memo::new(move |_| {
        stove
            .cooking
            .with(|cooking| cooking.builds.iter().map(cook::name).collect::<Vec<_>>())
    });
    // A patty removed, or undone, leaves none beyond the last to look at.
    Effect::new(move |_| {
        let last = names.with(Vec::len).saturating_sub(1);
        if stove.chosen.get_untracked() > last {
            stove.chosen.set(last);
        }
    });
    let choose = move |which: usize| {
        stove.wrong.update(Vec::clear);
        stove.chosen.set(which);
    };
    let add = move |_| {
        let like = untrack(|| stove.build());
        stove.change("", |cooking| cooking.builds.push(like));
        choose(stove.cooking.with_untracked(|cooking| cooking.builds.len()) - 1);
    };
    let remove = move |_| {
        let chosen = stove.chosen.get_untracked();
        stove.wrong.update(Vec::clear);
        stove.change("", |cooking| {
            cooking.builds.remove(chosen);
        });
        stove.desk.say(say("That size is removed."), true);
    };
    view! {
        <section class="builds" aria-label=say("Patties")>
            {shown(move || { let names = names.get(); (names.len() > 1).then(|| view! {
                <Chips label=say("Which patty") chosen=move || Some(stove.chosen.get()) on_choose=choose
                    choices=names.into_iter().enumerate().collect()/>
            }) })}
            <div class="builds__more">
                <button type="button" class="button button--plain small" hidden=live(move || names.with(|n| n.len() >= MOST_BUILDS)) on:click=add>{say("Add another size")}</button>
                <button type="button" class="button button--plain small" hidden=live(move || names.with(|n| n.len() < 2)) on:click=remove>{say("Remove this size")}</button>
            </div>
        </section>
    }
}

#[component]
fn Answered(stove: Stove, patty: BuildSheet) -> impl IntoView {
    let (name, thickness) = (patty.name.clone(), patty.thickness.clone());
    let warning = if patty.thin.alert {
        patty.thin.says.clone()
    } else {
        String::new()
    };
    let heat = match patty.heat.clone() {
        Ok(heat) => view! { <Heated timers=stove.desk.timers heat name thickness thin=warning/> }.into_any(),
        Err(why) => view! {
            <section class="answers" aria-label=say("Size")>{thick(thickness)}</section>
            <p class="alert">{warning}</p>
            <p class="alert" role="status">{why}</p>
        }
        .into_any(),
    };
    view! {
        {heat}
        <Details patty/>
    }
}
