//! Units, typed quantities, spreads, spoons and figures.

// A check that cannot go on should stop there, also outside the functions clippy knows as tests.
#![allow(clippy::unwrap_used)]

mod figures;
mod spoons;
mod spread;
mod typed;
mod units;
