//! The app on the phone: rooms drawn with Leptos over the plain library.
//!
//! Screens hold no sums: what is said and to how many digits is decided in `pattywright::sheet`.

mod backup;
mod care;
mod change;
mod cook;
mod desk;
mod ears;
mod element;
mod evidence;
mod field;
mod formula;
mod house;
mod icon;
mod keeper;
mod language;
mod live;
mod more;
mod over;
mod pantry;
mod parts;
mod rescue;
mod route;
mod script;
mod store;
mod turns;
mod weigh;

use leptos::prelude::*;
use markup::view;
use wasm_bindgen::JsCast;

fn main() {
    script::tell_of_panics();
    let Some(place) = document()
        .get_element_by_id("app")
        .and_then(|found| found.dyn_into().ok())
    else {
        return;
    };
    wasm_bindgen_futures::spawn_local(async move {
        let opened = keeper::open().await;
        let house = move || {
            mount_to(place, move || view! { <house::House desk=opened.desk()/> }).forget();
            script::tell("pw-house");
        };
        turns::draw(house, || script::tell("pw-mounted"));
    });
}
