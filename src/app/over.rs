//! What lies over a room: a sheet with a title and a way back.

use crate::icon::{CLOSE, Icon};
use crate::route;
use leptos::prelude::*;
use markup::view;
use pattywright::words::say;
use std::time::Duration;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Where the keyboard was before a sheet took it.
#[derive(Clone, Copy)]
pub struct Origin(StoredValue<Option<HtmlElement>, LocalStorage>);

impl Origin {
    pub fn new() -> Origin {
        Origin(StoredValue::new_local(None))
    }

    /// Remembers it. An open line closes under the sheet, so its row stands for what is in it.
    pub fn note(self) {
        let here = document().active_element();
        let line = here.as_ref().and_then(|here| here.closest(".line").ok().flatten());
        let row = line.and_then(|line| line.query_selector(".line__row").ok().flatten());
        self.0.set_value(row.or(here).and_then(|here| here.dyn_into().ok()));
    }

    /// Gives it back once the room can have it; to the room itself where what was pressed is gone.
    pub fn give_back(self) {
        set_timeout(
            move || {
                let noted = self.0.try_get_value().flatten();
                let there = noted.filter(|place| place.is_connected() && place.tag_name() != "BODY");
                let room = || document().get_element_by_id("room")?.dyn_into().ok();
                if let Some(place) = there.or_else(room) {
                    let _ = place.focus();
                }
            },
            Duration::ZERO,
        );
    }
}

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
            // Another sheet may have stood here, scrolled down.
            place.set_scroll_top(0);
            let _ = place.focus();
        }
    });
    // Heard wherever the keyboard is: what it was on may just have gone.
    let escape = window_event_listener(leptos::ev::keydown, move |event| {
        if event.key() == "Escape" {
            route::close();
        }
    });
    on_cleanup(move || escape.remove());
    view! {
        <section class="over" role="dialog" aria-modal="true" aria-label=title tabindex="-1" node_ref=place>
            <div class="over__inside">
                <div class="over__top">
                    <h2 class="over__title">{title}</h2>
                    <button type="button" class="button button--round" aria-label=say("Close") on:click=move |_| route::close()>
                        <Icon d=CLOSE/>
                    </button>
                </div>
                {children()}
            </div>
        </section>
    }
}
