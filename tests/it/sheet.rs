//! The sheets: what is said in the rooms.

mod cook;
mod guide;
mod timer;
mod words;
