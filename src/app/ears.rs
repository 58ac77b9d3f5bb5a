//! What is said to ears alone: one place for the whole page, and only once typing pauses, so that no key chatters.

use gloo::timers::callback::Timeout;
use leptos::prelude::*;
use markup::view;

/// Typing has paused when no key has come for so long, ms.
const PAUSE_MS: u32 = 700;

/// What is said, and what waits to be.
#[derive(Clone, Copy)]
struct Ears {
    said: RwSignal<String>,
    waiting: StoredValue<Option<Timeout>, LocalStorage>,
}

/// The place itself. Made before anything that speaks; shown outside what a sheet makes inert.
pub fn open() -> impl IntoView {
    let ears = Ears {
        said: RwSignal::new(String::new()),
        waiting: StoredValue::new_local(None),
    };
    provide_context(ears);
    view! { <p class="quiet" role="status" id="ears">{ears.said}</p> }
}

/// Says this once typing pauses; what was about to be said is dropped.
pub fn tell(text: String) {
    if let Some(ears) = use_context::<Ears>() {
        ears.waiting
            .set_value(Some(Timeout::new(PAUSE_MS, move || ears.said.set(text))));
    }
}
