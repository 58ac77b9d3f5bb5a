//! What lies over a room: a sheet with a title and a way back.

use crate::icon::{CLOSE, Icon};
use crate::route;
use leptos::prelude::*;

/// A sheet over the room. Escape and the phone's "back" close it too.
#[component]
pub fn Sheet(
    /// Its title.
    title: &'static str,
    children: Children,
) -> impl IntoView {
    let place = NodeRef::<leptos::html::Section>::new();
    Effect::new(move |_| {
        if let Some(place) = place.get() {
            let _ = place.focus();
        }
    });
    view! {
        <section class="over" role="dialog" aria-modal="true" aria-label=title tabindex="-1" node_ref=place
            on:keydown=move |event| if event.key() == "Escape" { route::close() }>
            <div class="over__inside">
                <div class="over__top">
                    <h2 class="over__title">{title}</h2>
                    <button type="button" class="button button--round" aria-label="Close" on:click=move |_| route::close()>
                        <Icon d=CLOSE/>
                    </button>
                </div>
                {children()}
            </div>
        </section>
    }
}
