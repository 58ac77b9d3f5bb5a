//! Pattywright: the sums behind burgers made from dry textured plant protein.
//!
//! In reading order, each module knowing only those before it:
//!
//! - [`words`]: what is said, in the cook's language.
//! - [`measure`]: units, typed quantities, level spoons, how sure a measure is.
//! - [`pantry`]: what is in the cupboard, what a cup of it weighs, and who says so.
//! - [`formula`]: lines, grams, percentages, readings and their windows; batches and weighing out.
//! - [`balance`]: what to add to what is left so that it holds; targets and swaps.
//! - [`heat`]: conduction through the thickness: when it has set, when it is done.
//! - [`patty`]: size and density, raw and cooked.
//! - [`document`]: the saved format, questions and reports, two tabs merged, backups added, pasted lists.
//! - [`sheet`]: one sheet for each room: typed text in, answers and sentences out.
//!
//! The library knows no browser, no clock, no network and no storage.
#![deny(missing_docs, rustdoc::broken_intra_doc_links)]

pub mod balance;
pub mod document;
pub mod formula;
pub mod heat;
pub mod measure;
pub mod pantry;
pub mod patty;
pub mod sheet;
pub mod words;
