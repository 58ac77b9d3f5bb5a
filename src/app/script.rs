//! The few things asked of the browser itself.

use leptos::prelude::*;
use wasm_bindgen::prelude::*;

/// Dispatches an event on the window.
pub fn tell(name: &str) {
    if let Ok(event) = web_sys::CustomEvent::new(name) {
        let _ = window().dispatch_event(&event);
    }
}

/// Hands the message of a panic to the shell, which says so and offers a copy of the data.
pub fn tell_of_panics() {
    std::panic::set_hook(Box::new(|info| {
        let init = web_sys::CustomEventInit::new();
        init.set_detail(&JsValue::from_str(&info.to_string()));
        if let Ok(event) = web_sys::CustomEvent::new_with_event_init_dict("pw-panic", &init) {
            let _ = window().dispatch_event(&event);
        }
    }));
}

/// Date and time on this phone now: `2026-11-25 18:40`.
pub fn now() -> String {
    date(js_sys::Date::now())
}

/// Date and time on this phone at a moment in ms since 1970.
pub fn date(at_ms: f64) -> String {
    let date = js_sys::Date::new(&JsValue::from_f64(at_ms));
    let two = |n: u32| if n < 10 { format!("0{n}") } else { n.to_string() };
    format!(
        "{}-{}-{} {}:{}",
        date.get_full_year(),
        two(date.get_month() + 1),
        two(date.get_date()),
        two(date.get_hours()),
        two(date.get_minutes())
    )
}

/// The date on this phone: `2026-11-25`.
pub fn today() -> String {
    now().chars().take(10).collect()
}

/// Notes something for as long as this tab is open, through reloads.
pub fn note_in_tab(key: &str, text: &str) {
    if let Ok(Some(notes)) = window().session_storage() {
        let _ = notes.set_item(key, text);
    }
}

/// What was noted in this tab, if anything.
pub fn noted_in_tab(key: &str) -> Option<String> {
    window().session_storage().ok()??.get_item(key).ok()?
}

/// Offers a text as a file to keep.
pub fn download(name: &str, text: &str) -> Result<(), JsValue> {
    let parts = js_sys::Array::of1(&JsValue::from_str(text));
    let bag = web_sys::BlobPropertyBag::new();
    bag.set_type("application/json");
    let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &bag)?;
    let address = web_sys::Url::create_object_url_with_blob(&blob)?;
    let link: web_sys::HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    gloo::timers::callback::Timeout::new(60_000, move || {
        let _ = web_sys::Url::revoke_object_url(&address);
    })
    .forget();
    Ok(())
}

/// Takes the waiting new version; the shell reloads the page.
pub fn accept_update() {
    let taken = js_sys::Reflect::get(&window(), &"pattywright".into())
        .and_then(|shell| js_sys::Reflect::get(&shell, &"acceptUpdate".into()))
        .ok()
        .and_then(|accept| accept.dyn_into::<js_sys::Function>().ok())
        .and_then(|accept| accept.call0(&JsValue::NULL).ok());
    if taken.is_none() {
        let _ = window().location().reload();
    }
}
