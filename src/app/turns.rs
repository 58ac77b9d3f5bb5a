//! Drawing in turns: between two parts of the page the browser may paint, and hear a finger.

use crate::live::shown;
use gloo::timers::callback::Timeout;
use js_sys::Date;
use leptos::prelude::*;
use leptos::task::tick;
use std::cell::RefCell;
use std::collections::VecDeque;
use wasm_bindgen_futures::spawn_local;

/// How long parts are drawn before the browser has its turn, ms; one part may take longer.
const SLICE_MS: f64 = 25.0;

thread_local! {
    /// Parts that wait for their turn; `None` while nothing is drawn in turns, and what comes then is drawn at once.
    static WAITING: RefCell<Option<VecDeque<RwSignal<bool>>>> = const { RefCell::new(None) };
}

/// A part that has its own turn where it is drawn [in turns](draw).
pub fn in_turn<V: IntoAny + 'static>(make: impl Fn() -> V + Send + 'static) -> Box<dyn Fn() -> AnyView + Send> {
    let due = WAITING.with_borrow_mut(|waiting| {
        let due = RwSignal::new(waiting.is_none());
        waiting.iter_mut().for_each(|parts| parts.push_back(due));
        due
    });
    shown(move || due.get().then(|| make().into_any()))
}

/// Draws when the browser has had its turn, and gives every part its own, also those that come with another; then
/// calls `all_there`.
pub fn draw(make: impl FnOnce() + 'static, all_there: impl FnOnce() + 'static) {
    let first = async {
        WAITING.with_borrow_mut(|waiting| {
            waiting.get_or_insert_default();
        });
        make();
        tick().await;
        take(Box::new(all_there));
    };
    Timeout::new(0, || spawn_local(first)).forget();
}

fn take(all_there: Box<dyn FnOnce()>) {
    let Some(first) = next() else {
        return all_there();
    };
    let slice = async move {
        let (start, mut due) = (Date::now(), first);
        loop {
            let _ = due.try_set(true);
            tick().await;
            if SLICE_MS <= Date::now() - start {
                return take(all_there);
            }
            match next() {
                Some(next) => due = next,
                None => return all_there(),
            }
        }
    };
    Timeout::new(0, || spawn_local(slice)).forget();
}

fn next() -> Option<RwSignal<bool>> {
    WAITING.with_borrow_mut(|waiting| {
        let next = waiting.as_mut().and_then(VecDeque::pop_front);
        if next.is_none() {
            *waiting = None;
        }
        next
    })
}
