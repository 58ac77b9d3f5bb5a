//! The parts of the house-keeping that the end-to-end tests use too.

pub mod archive;
pub mod names;
pub mod server;
pub mod styles;
pub mod worker;
