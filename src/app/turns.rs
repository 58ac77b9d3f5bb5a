//! The first drawing in turns: between two parts of the page the browser may paint, and hear a finger.

use crate::live::shown;
use gloo::timers::callback::Timeout;
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::VecDeque;

enum Turns {
    /// Parts that wait for theirs.
    Waiting(VecDeque<RwSignal<bool>>),
    /// All are there; what comes now is drawn at once.
    Over,
}

thread_local! {
    static TURNS: RefCell<Turns> = const { RefCell::new(Turns::Waiting(VecDeque::new())) };
}

/// A part of the page that has its own turn when the page is first drawn.
pub fn in_turn<V: IntoAny + 'static>(make: impl Fn() -> V + Send + 'static) -> Box<dyn Fn() -> AnyView + Send> {
    let due = TURNS.with_borrow_mut(|turns| {
        let waits = matches!(turns, Turns::Waiting(_));
        let due = RwSignal::new(!waits);
        if let Turns::Waiting(parts) = turns {
            parts.push_back(due);
        }
        due
    });
    shown(move || due.get().then(|| make().into_any()))
}

/// Gives every part its turn, also those that come with another; then calls `all_there`.
pub fn take(all_there: impl FnOnce() + 'static) {
    let next = TURNS.with_borrow_mut(|turns| {
        let next = match turns {
            Turns::Waiting(parts) => parts.pop_front(),
            Turns::Over => None,
        };
        if next.is_none() {
            *turns = Turns::Over;
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
