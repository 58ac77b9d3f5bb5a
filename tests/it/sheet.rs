//! The sheets: what is said in the rooms.

mod convert;
mod cook;
mod guide;
mod rescue;
mod timer;
mod words;
