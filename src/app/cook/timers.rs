//! Timers on the screen: kept in a small record of their own, so that a reload or a sleeping tab loses none.

use super::bell::Bell;
use crate::icon::{CLOSE, Icon};
use crate::live::{self, live};
use gloo::timers::callback::Interval;
use leptos::prelude::*;
use markup::view;
use pattywright::sheet::timer::{Call, Face, MOST_TIMERS, Timer, read, write};
use pattywright::words::say;

/// Where the record lies, beside the book.
const RECORD: &str = "pattywright-timers";

/// How often the clock is looked at, ms.
const LOOK_MS: u32 = 500;

/// A due timer rings again after so long, and for so long, ms.
const RING_AGAIN_MS: f64 = 4_000.0;
const RING_FOR_MS: f64 = 60_000.0;

/// Every timer, the time, and the bell. Cheap to copy.
#[derive(Clone, Copy)]
pub struct Timers {
    all: RwSignal<Vec<Timer>>,
    now_ms: RwSignal<f64>,
    /// What has just become due, in a few words.
    pub fresh: RwSignal<String>,
    /// False where the browser keeps nothing.
    kept: RwSignal<bool>,
    last_ring_ms: StoredValue<f64>,
    looking: StoredValue<Option<Interval>, LocalStorage>,
    bell: Bell,
}

impl Timers {
    /// Takes up the timers that were kept.
    pub fn take_up() -> Timers {
        let timers = Timers {
            all: RwSignal::new(Vec::new()),
            now_ms: RwSignal::new(js_sys::Date::now()),
            fresh: RwSignal::new(String::new()),
            kept: RwSignal::new(true),
            last_ring_ms: StoredValue::new(0.0),
            looking: StoredValue::new_local(None),
            bell: Bell::new(),
        };
        timers.read();
        timers
    }

    /// Listens to what moves the clock: a touch, the page shown again, another tab. Called once, by the house.
    pub fn listen(self) {
        let touch = window_event_listener(leptos::ev::pointerdown, move |_| {
            if self.all.with_untracked(|all| !all.is_empty()) && !self.bell.touched.get_untracked() {
                self.bell.open();
            }
        });
        let shown = window_event_listener_untyped("visibilitychange", move |_| self.wake());
        let other = window_event_listener_untyped("storage", move |_| {
            self.read();
            self.wake();
        });
        on_cleanup(move || {
            touch.remove();
            shown.remove();
            other.remove();
        });
        self.wake();
    }

    /// Starts a timer now; false where there are as many as fit.
    pub fn start(self, name: &str, place: &str, marks: &[(Call, u32)]) -> bool {
        self.bell.open();
        if self.all.with_untracked(Vec::len) >= MOST_TIMERS {
            return false;
        }
        self.all.update(|all| {
            let id = all
                .iter()
                .map(|timer| timer.id)
                .max()
                .map_or(1, |id| id.wrapping_add(1));
            all.push(Timer::start(id, name, place, js_sys::Date::now(), marks));
        });
        self.keep();
        self.wake();
        true
    }

    /// The cook has done what was called for.
    fn take(self, id: u32) {
        self.all
            .update(|all| all.retain_mut(|timer| timer.id != id || timer.take()));
        self.keep();
        self.wake();
    }

    fn stop(self, id: u32) {
        self.all.update(|all| all.retain(|timer| timer.id != id));
        self.keep();
        self.wake();
    }

    fn face(self, id: u32) -> Option<Face> {
        let now_ms = self.now_ms.get();
        self.all
            .with(|all| all.iter().find(|timer| timer.id == id).map(|timer| timer.face(now_ms)))
    }

    fn ids(self, due: bool) -> Vec<u32> {
        let now_ms = self.now_ms.get();
        self.all.with(|all| {
            all.iter()
                .filter(|timer| !due || timer.face(now_ms).due)
                .map(|timer| timer.id)
                .collect()
        })
    }

    /// Starts or stops looking at the clock, as there are timers.
    fn wake(self) {
        if self.all.with_untracked(Vec::is_empty) {
            self.looking.set_value(None);
            self.bell.let_sleep();
            return;
        }
        self.look();
        self.bell.stay_awake();
        if self.looking.with_value(Option::is_none) {
            self.looking
                .set_value(Some(Interval::new(LOOK_MS, move || self.look())));
        }
    }

    /// Looks at the clock, and rings for what is due.
    fn look(self) {
        let now_ms = js_sys::Date::now();
        self.now_ms.set(now_ms);
        let due = self
            .all
            .with_untracked(|all| all.iter().any(|timer| timer.face(now_ms).due));
        if !due {
            return;
        }
        let mut fresh = Vec::new();
        let mut noticed = self.all.get_untracked();
        for timer in &mut noticed {
            if timer.notice(now_ms) {
                let face = timer.face(now_ms);
                fresh.push(format!("{}: {}", face.title, face.call.map_or("", Call::says)));
            }
        }
        let fresh = fresh.join(". ");
        if !fresh.is_empty() {
            self.all.set(noticed);
            self.keep();
            self.fresh.set(fresh.clone());
        }
        let lately = self.all.with_untracked(|all| {
            all.iter().any(|timer| {
                let rang_ms = timer.marks.first().and_then(|mark| mark.rang_ms);
                rang_ms.is_some_and(|rang_ms| now_ms - rang_ms < RING_FOR_MS)
            })
        });
        if lately && (!fresh.is_empty() || now_ms - self.last_ring_ms.get_value() >= RING_AGAIN_MS) {
            self.last_ring_ms.set_value(now_ms);
            self.bell.ring();
        }
    }

    fn read(self) {
        let kept = record().and_then(|record| record.get_item(RECORD).ok().flatten());
        self.all.set(read(&kept.unwrap_or_default(), js_sys::Date::now()));
    }

    fn keep(self) {
        let text = self.all.with_untracked(|all| write(all));
        let kept = record().is_some_and(|record| record.set_item(RECORD, &text).is_ok());
        self.kept.set(kept);
    }
}

fn record() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten()
}

/// Every timer, in the room where they are started.
#[component]
pub fn Running(timers: Timers) -> impl IntoView {
    let ids = Memo::new(move |_| timers.ids(false));
    view! {
        <section class="timers" aria-label=say("Timers") hidden=live(move || ids.with(Vec::is_empty))>
            <ul>{live::rows(move || ids.get(), |id| *id, move |id| view! { <li><One timers id/></li> })}</ul>
            <p class="small soft" hidden=live(move || timers.bell.touched.get())>{say("Touch the screen once, so that it can ring.")}</p>
            <p class="small alert" hidden=live(move || timers.kept.get())>{say("This browser keeps nothing: the timers end when the page is closed.")}</p>
        </section>
    }
}

/// Timers that are due, in every other room.
#[component]
pub fn TimersDue(timers: Timers) -> impl IntoView {
    let ids = Memo::new(move |_| timers.ids(true));
    view! {
        <section class="timers" aria-label=say("Timers due") hidden=live(move || ids.with(Vec::is_empty))>
            <ul>{live::rows(move || ids.get(), |id| *id, move |id| view! { <li><One timers id/></li> })}</ul>
        </section>
    }
}

#[component]
fn One(timers: Timers, id: u32) -> impl IntoView {
    let face = Memo::new(move |_| timers.face(id));
    let due = Memo::new(move |_| face.with(|face| face.as_ref().is_some_and(|face| face.due)));
    let call = move || face.with(|face| face.as_ref().and_then(|face| face.call));
    let of = move |part: fn(&Face) -> String| move || face.with(|face| face.as_ref().map_or(String::new(), part));
    let says = move || call().map_or("", Call::says);
    view! {
        <div class="timer" class:timer--due=live(move || due.get())>
            <p class="timer__title">{of(|face| face.title.clone())}</p>
            <p class="timer__clock" role="timer">
                <span class="small">{live(move || if due.get() { say!("{call} now", call = says()) } else { say!("{call} in", call = says()) })}</span>
                " "
                <span class="big">{of(|face| face.clock.clone())}</span>
                " "
                <span class="small">{live(move || due.get().then_some(say("over")))}</span>
            </p>
            <p class="quiet" role="alert">{live(move || due.get().then(|| format!("{}: {}", of(|face| face.title.clone())(), says())))}</p>
            <div class="buttons">
                <button type="button" class="button" on:click=move |_| timers.take(id)>{live(move || call().map_or("", Call::done))}</button>
                <button type="button" class="button button--round" aria-label=say("Stop this timer") on:click=move |_| timers.stop(id)><Icon d=CLOSE/></button>
            </div>
            <p class="small alert" hidden=live(move || of(|face| face.slept.clone())().is_empty())>{of(|face| face.slept.clone())}</p>
        </div>
    }
}
