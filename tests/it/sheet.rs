//! The sheets: what is said in the rooms.

mod convert;
mod cook;
mod formula;
mod guide;
mod rescue;
mod rule;
mod timer;
mod weigh;
mod words;
