//! Units, quantities and what was typed.
