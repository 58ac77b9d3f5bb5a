//! Units, quantities and what was typed.
//!
//! In reading order: [`mod@unit`] (how much is one), [`quantity`] (what was typed), [`estimate`] and [`spread`] (how sure),
//! [`spoons`] (a volume back in level measures), [`figure`] (numbers for people), [`gauge`] (thermometer and ruler).

pub mod estimate;
pub mod figure;
pub mod gauge;
mod number;
pub mod quantity;
mod scan;
pub mod spoons;
pub mod spread;
mod thing;
mod typed;
pub mod unit;

pub use estimate::Estimate;
pub use figure::{fixed, grams, plain, trimmed, with_spread};
pub use gauge::{Degrees, Length};
pub use quantity::{Measure, Packing, Quantity, QuantityError, read, take};
pub(crate) use scan::is_space;
pub use spoons::{LevelMeasures, level_measures};
pub use spread::{Habits, relative_sd, root_of_squares};
pub use unit::{Cup, Unit};
