//! A phone for the tests: Chromium at phone size, driven from outside, and the places it needs.
//!
//! The tests prove that the parts are wired together as a cook meets them; numbers are checked elsewhere.
//! A phone that does not do what it is asked panics with a sentence: there is no test without it.

mod folder;
mod phone;

pub use folder::{Folder, dist, site};
pub use phone::Phone;
pub use thirtyfour::{By, WindowHandle as Tab};
pub use xtask::server::{Fault, Server};
pub use xtask::{names, worker};
