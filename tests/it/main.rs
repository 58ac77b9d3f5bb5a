//! The library, checked from outside.
#![allow(clippy::unwrap_used, clippy::panic)]

mod balance;
mod document;
mod formula;
mod heat;
#[path = "../fuzz/laws.rs"]
mod laws;
mod measure;
mod merge;
mod pantry;
mod patty;
mod solver;
