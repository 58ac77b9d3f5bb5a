//! What only a real browser can show.
#![cfg(target_arch = "wasm32")]

wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

/// The parts of the app that are checked without the page around them.
#[path = "../../src/app"]
mod app {
    pub mod store;
}

#[allow(clippy::unwrap_used, clippy::panic)]
mod store;
