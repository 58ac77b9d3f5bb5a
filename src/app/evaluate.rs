//! The sums for scripts, tests and other pages, in a module of their own: a cook's phone need not fetch it.
//!
//! ```js
//! import start, { evaluate } from './evaluate.js';
//! await start();
//! const report = evaluate({ format: 'pattywright/1', formulas: [], questions: [] });
//! ```

use serde::Serialize;
use wasm_bindgen::prelude::*;

fn main() {}

/// Answers a document.
///
/// Takes and returns plain objects in the formats described in the library's `document` module.
/// Throws an `Error` with one sentence when the document cannot be read.
///
/// # Errors
/// The document is not one of this project, or is of an unknown version.
#[wasm_bindgen]
pub fn evaluate(document: JsValue) -> Result<JsValue, JsError> {
    let value = serde_wasm_bindgen::from_value(document).map_err(|error| JsError::new(&error.to_string()))?;
    let asked = pattywright::document::from_value(value).map_err(|why| JsError::new(&why.to_string()))?;
    let report = pattywright::document::evaluate(&asked);
    report
        .serialize(&serde_wasm_bindgen::Serializer::json_compatible())
        .map_err(|error| JsError::new(&error.to_string()))
}
