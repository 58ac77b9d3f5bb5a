//! The library, checked from outside.
