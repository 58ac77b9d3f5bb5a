//! The house: heading, room, doors, and what lies over them.

use crate::care::{Losses, load_anew};
use crate::change::{AimSheet, SwapSheet};
use crate::cook::{CookRoom, TimersDue};
use crate::desk::Desk;
use crate::ears;
use crate::formula::{FormulaRoom, Formulas, Paste};
use crate::icon::{Icon, REDO, SWAP, UNDO, door};
use crate::live::{live, shown};
use crate::more::MoreRoom;
use crate::over::Origin;
use crate::pantry::{Card, Convert, Own, PantryRoom};
use crate::rescue::RescueRoom;
use crate::route::{self, Over, Room, Route};
use crate::turns::in_turn;
use crate::weigh::WeighRoom;
use gloo::events::{EventListener, EventListenerOptions};
use leptos::prelude::*;
use markup::view;
use pattywright::words::say;
use wasm_bindgen::JsCast;

#[component]
pub fn House(desk: Desk) -> impl IntoView {
    let ears = ears::open();
    let origin = Origin::new();
    let hash = window_event_listener(leptos::ev::hashchange, move |_| {
        desk.settle();
        let (was, now) = (desk.route.get_untracked(), route::here());
        let (was_covered, covered) = (was.over.covers(), now.over.covers());
        if covered && !was_covered {
            origin.note();
        }
        desk.route.set(now);
        if was_covered && !covered {
            origin.give_back();
        }
    });
    on_cleanup(move || hash.remove());
    let update = window_event_listener_untyped("pw-update-waiting", move |_| desk.update_waiting.set(true));
    on_cleanup(move || update.remove());
    // Another tab took it: here it comes with the next load.
    let taken = window_event_listener_untyped("pw-update-taken", move |_| desk.update_waiting.set(true));
    on_cleanup(move || taken.remove());
    let offline = window_event_listener_untyped("pw-offline-ready", move |_| {
        desk.say(say("Now works without a network."), false);
    });
    on_cleanup(move || offline.remove());
    desk.timers.listen();
    // What is over a room hides the timers of that room.
    Effect::new(move |_| {
        let due = desk.timers.fresh.get();
        let over = desk.route.with_untracked(|route| route.over.clone());
        if !due.is_empty() && !matches!(over, Over::Nothing | Over::Line(_)) {
            desk.say(due, false);
        }
    });
    let room = Memo::new(move |_| desk.room());
    let over = Memo::new(move |_| desk.over());
    Effect::new(move |was: Option<Room>| {
        let room = room.get();
        if was.is_some_and(|was| was != room) {
            window().scroll_to_with_x_and_y(0.0, 0.0);
        }
        room
    });
    view! {
        <div class="house" inert=live(move || over.get().covers())>
            <Top desk/>
            <main class="room" id="room" tabindex="-1">
                {in_turn(move || view! { <Notices desk/> })}
                {in_turn(move || match room.get() {
                    Room::Formula => view! { <FormulaRoom desk/> }.into_any(),
                    Room::Weigh => view! { <WeighRoom desk/> }.into_any(),
                    Room::Rescue => view! { <RescueRoom desk/> }.into_any(),
                    Room::Cook => view! { <CookRoom desk/> }.into_any(),
                    Room::Pantry => view! { <PantryRoom desk/> }.into_any(),
                    Room::More => view! { <MoreRoom desk/> }.into_any(),
                })}
            </main>
            <nav class="doors" aria-label=say("Rooms")>
                <div class="doors__row">
                    {Room::DOORS.into_iter().map(|to| view! {
                        <a class="door" href=Route::room(to).write() aria-current=live(move || (room.get().door() == to).then_some("page"))>
                            <Icon d=door(to)/>
                            {to.name()}
                        </a>
                    }).collect_view()}
                </div>
            </nav>
        </div>
        {shown(move || match over.get() {
            Over::Nothing | Over::Line(_) => ().into_any(),
            Over::Formulas => view! { <Formulas desk/> }.into_any(),
            Over::Paste => view! { <Paste desk/> }.into_any(),
            Over::Aim => view! { <AimSheet desk/> }.into_any(),
            Over::Swap => view! { <SwapSheet desk/> }.into_any(),
            Over::Convert(id) => view! { <Convert desk id/> }.into_any(),
            Over::Card(id) => view! { <Card desk id/> }.into_any(),
            Over::Own(id) => view! { <Own desk id/> }.into_any(),
        })}
        <Toast desk/>
        {ears}
    }
}

#[component]
fn Top(desk: Desk) -> impl IntoView {
    let title = move || desk.with_formula(|f| f.map_or(say("No formula yet").to_owned(), |f| f.name.clone()));
    let of_formula = Memo::new(move |_| matches!(desk.room(), Room::Formula | Room::Weigh | Room::Rescue | Room::Cook));
    view! {
        <header class="top">
            <h1 class="top__title">
                {shown(move || if of_formula.get() {
                    view! { <button type="button" class="top__name" on:click=move |_| route::open(Over::Formulas)>{live(title)}</button> }.into_any()
                } else {
                    view! { <span class="room__title">{live(move || desk.room().name())}</span> }.into_any()
                })}
            </h1>
            <button type="button" class="button button--round" aria-label=say("Undo") disabled=live(move || !desk.can_undo.get()) on:click=move |_| desk.undo()>
                <Icon d=UNDO/>
            </button>
            <button type="button" class="button button--round" aria-label=say("Redo") hidden=live(move || !desk.can_redo.get()) on:click=move |_| desk.redo()>
                <Icon d=REDO/>
            </button>
            <button type="button" class="button button--round" aria-label=say("Convert a measure") on:click=move |_| route::open(Over::Convert(String::new()))>
                <Icon d=SWAP/>
            </button>
        </header>
    }
}

/// What the cook must know before anything else.
#[component]
fn Notices(desk: Desk) -> impl IntoView {
    let demo = Memo::new(move |_| desk.document.with(|d| d.settings.demo));
    view! {
        {move || (desk.room() != Room::Cook).then(|| view! { <TimersDue timers=desk.timers/> })}
        <Losses desk/>
        {shown(move || desk.update_waiting.get().then(|| view! {
            <div class="notice">
                <span>{say("A new version is on this phone and waits.")}</span>
                <button type="button" class="button" on:click=move |_| load_anew(desk)>{say("Use it now")}</button>
            </div>
        }))}
        {shown(move || (demo.get() && desk.room() == Room::Formula).then(|| view! {
            <div class="notice">
                <span>{say("A demonstration: invented figures.")}</span>
                <button type="button" class="button" on:click=move |_| crate::formula::guide::start(desk)>{say("Write your own")}</button>
                <button type="button" class="button" on:click=move |_| {
                    desk.edit("", |document| {
                        document.formulas.clear();
                        document.pantry.clear();
                        document.weighing = None;
                        document.cooking = None;
                        document.settings.demo = false;
                    });
                    desk.say(say("The demonstration is cleared."), true);
                }>{say("Clear it")}</button>
            </div>
        }))}
    }
}

#[component]
fn Toast(desk: Desk) -> impl IntoView {
    // It leaves on its own once it has been there long enough to read twice, or when something else is pressed.
    let pressed = move |event: &web_sys::Event| {
        let on_it = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::Element>().ok());
        if on_it.is_none_or(|on_it| !matches!(on_it.closest(".toast"), Ok(Some(_)))) {
            desk.said.set(None);
        }
    };
    EventListener::new_with_options(
        &window(),
        "click",
        EventListenerOptions::run_in_capture_phase(),
        pressed,
    )
    .forget();
    let leaving = StoredValue::new_local(None::<gloo::timers::callback::Timeout>);
    Effect::new(move |_| {
        if desk.said.get().is_some() {
            leaving.set_value(Some(gloo::timers::callback::Timeout::new(6_000, move || {
                desk.said.set(None)
            })));
        }
    });
    view! {
        <div role="status">
            {shown(move || desk.said.get().map(|said| view! {
                <div class="toast" on:click=move |_| desk.said.set(None)>
                    <span class="toast__text">{said.text}</span>
                    {said.undo.then(|| view! { <button type="button" class="button" on:click=move |_| desk.undo()>{say("Undo")}</button> })}
                </div>
            }))}
        </div>
    }
}
