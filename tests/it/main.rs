//! The library, checked from outside.
#![allow(clippy::unwrap_used, clippy::panic)]

mod backup;
mod balance;
mod document;
mod evidence;
mod formula;
mod heat;
mod ladder;
#[path = "../fuzz/laws.rs"]
mod laws;
mod measure;
mod merge;
mod pantry;
mod patty;
mod sheet;
mod solver;
mod stove;
mod words;
