//! The page at phone size, as a cook meets it.

mod axe;
mod bad_input;
mod broken_update;
mod change;
mod cook;
mod cook_room;
mod eyes;
mod guide;
mod job;
mod keys;
mod kill;
mod offline;
mod shell;
mod storage;
mod two_tabs;
mod update;
mod words;
