//! The library, checked from outside.
#![allow(clippy::unwrap_used, clippy::panic)]

mod balance;
mod document;
mod formula;
mod heat;
mod measure;
mod merge;
mod pantry;
mod patty;
mod sheet;
mod solver;
