//! The page at phone size, as a cook meets it.

mod axe;
mod bad_input;
mod change;
mod cook;
mod cook_room;
mod eyes;
mod job;
mod keys;
mod offline;
mod shell;
mod two_tabs;
mod update;
