//! Heat through a patty: how it conducts, when it has set, when its core is hot enough.
//!
//! The cook asks when the patty may be turned and when it is done.
//! A patty is a flat slab: heat moves through its thickness only, water boils off its wet faces, and a dry crust grows there.
//! Edges, draining fat and juice, swelling, frozen starts and uneven pans are left out on purpose.
//!
//! - [`properties`]: density, specific heat and conductivity from composition.
//! - [`slab`]: the conduction solver, with its energy ledger.
//! - [`binder`]: the temperature at which a binder sets, and softens again.
//! - [`cook`]: the cook's answers, each with its spread.
//! - [`strips`]: thin glazed sheets baked in an oven.

pub mod binder;
pub mod cook;
mod curves;
mod error;
pub mod properties;
pub mod slab;
mod steam;
mod step;
pub mod strips;

pub use crate::measure::Estimate;
pub use error::HeatError;
pub(crate) use error::as_given;
pub use properties::{Composition, Food};
