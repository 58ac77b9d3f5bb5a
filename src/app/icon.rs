//! Icons, drawn for this project: one stroke, 24 by 24.

use crate::route::Room;
use leptos::prelude::*;
use markup::view;

#[component]
pub fn Icon(
    /// The path's `d`.
    d: &'static str,
) -> impl IntoView {
    view! {
        <svg class="icon" viewBox="0 0 24 24" aria-hidden="true">
            <path d=d></path>
        </svg>
    }
}

pub const UNDO: &str = "M9 7 4 12l5 5M4 12h10a6 6 0 0 1 6 6";
pub const REDO: &str = "m15 7 5 5-5 5M20 12H10a6 6 0 0 0-6 6";
pub const SWAP: &str = "M5 8h14m-4-4 4 4-4 4M19 16H5m4-4-4 4 4 4";
pub const CLOSE: &str = "M6 6l12 12M18 6 6 18";
pub const TICK: &str = "M5 13l5 5L20 7";
pub const UP: &str = "M12 19V5m-6 6 6-6 6 6";
pub const DOWN: &str = "M12 5v14m-6-6 6 6 6-6";

/// The picture on a room's door.
pub fn door(room: Room) -> &'static str {
    match room {
        Room::Formula => "M5 4h14v16H5zM8 8h8M8 12h8M8 16h4",
        Room::Weigh => "M4 19h16l-2-9H6zM7 10c0-3 2-5 5-5s5 2 5 5M12 15l2-3",
        Room::Rescue => "M4 11h16c0 5-3 8-8 8s-8-3-8-8zM9 7l1-3M14 7l1-3",
        Room::Cook => "M3 13h12v2a3 3 0 0 1-3 3H6a3 3 0 0 1-3-3zM15 14l7-3M6 9c1-1-1-2 0-3M10 9c1-1-1-2 0-3",
        Room::Pantry => "M7 4h10v3H7zM6 7h12v13H6zM9 12h6v4H9z",
        Room::More => "M5 7h14M5 12h14M5 17h14",
    }
}
