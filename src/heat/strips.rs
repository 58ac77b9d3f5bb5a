//! Thin glazed sheets baked in an oven.
//!
//! The cook asks how long, and when to look.
//! The glaze decides, not the core: it has to set and brown, which the slab does not follow.
//! So the times are those of the trade, and the slab only says when the middle is hot.

/// How the trade bakes a strip of 2 to 4 mm. Trade practice, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TradeBake {
    /// Oven temperature, °C (400 °F).
    pub oven_c: f64,
    /// Shortest and longest bake, s.
    pub bake_s: (f64, f64),
    /// When to look and turn for the first time, s.
    pub first_look_s: f64,
}

/// About 204 °C for 6 to 7 minutes, looked at and turned after 3. Trade practice, no source.
pub const TRADE_BAKE: TradeBake = TradeBake {
    oven_c: 204.0,
    bake_s: (360.0, 420.0),
    first_look_s: 180.0,
};
