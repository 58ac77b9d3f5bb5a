//! The first drawing in turns: between two parts of the page the browser may paint, and hear a finger.

use crate::live::shown;
use gloo::timers::callback::Timeout;
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::VecDeque;

thread_local! {
    /// Parts that wait for their turn; none once all are there, and what comes then is drawn at once.
    static WAITING: RefCell<Option<VecDeque<RwSignal<bool>>>> = const { RefCell::new(Some(VecDeque::new())) };
}

/// A part of the page that has its own turn when the page is first drawn.
pub fn in_turn<V: IntoAny + 'static>(make: impl Fn() -> V + Send + 'static) -> Box<dyn Fn() -> AnyView + Send> {
    let due = WAITING.with_borrow_mut(|waiting| {
        let due = RwSignal::new(waiting.is_none());
        waiting.iter_mut().for_each(|parts| parts.push_back(due));
        due
    });
    shown(move || due.get().then(|| make().into_any()))
}

/// Gives every part its turn, also those that come with another; then calls `all_there`.
pub fn take(all_there: impl FnOnce() + 'static) {
    let next = WAITING.with_borrow_mut(|waiting| {
        let next = waiting.as_mut().and_then(VecDeque::pop_front);
        if next.is_none() {
            *waiting = None;
        }
        next
    });
    let Some(due) = next else {
        return all_there();
    };
    Timeout::new(0, move || {
        let _ = due.try_set(true);
        take(all_there);
    })
    .forget();
}
