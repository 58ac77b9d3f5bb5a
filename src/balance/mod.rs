//! What to change so that the mix holds: rescue of what is left in the bowl.
//!
//! Everything asked of a mix is linear in its masses once a ratio is multiplied out, so one small solver serves every question.
//! The solver's words stay inside [`solver`]; here people speak of what to add.
//! Texture itself is not predicted: readings are brought into windows, and each window names its source.

mod allergens;
mod bowl;
mod candidate;
mod demand;
pub mod gelling;
pub mod holding;
mod reach;
mod rescue;
pub mod solver;
mod steps;
mod swap;
mod symptom;

pub use reach::{Aim, Change, Changed, Targets, Want, change_formula, reach};
pub use rescue::{Add, Rescue, RescueProblem, Status, apply, rescue};
pub use swap::swap;
pub use symptom::Symptom;
