//! Where in the house we are, kept in the address after `#`, so that the phone's own "back" works.

use leptos::prelude::*;
use pattywright::words::say;

/// A room. Five have a door at the thumb; the Pantry lies behind More.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Room {
    Formula,
    Weigh,
    Rescue,
    Cook,
    Pantry,
    More,
}

impl Room {
    pub const ALL: [Room; 6] = [
        Room::Formula,
        Room::Weigh,
        Room::Rescue,
        Room::Cook,
        Room::Pantry,
        Room::More,
    ];

    /// Rooms with a door at the thumb.
    pub const DOORS: [Room; 5] = [Room::Formula, Room::Weigh, Room::Rescue, Room::Cook, Room::More];

    /// The door that leads here.
    pub fn door(self) -> Room {
        match self {
            Room::Pantry => Room::More,
            room => room,
        }
    }

    pub fn id(self) -> &'static str {
        match self {
            Room::Formula => "formula",
            Room::Weigh => "weigh",
            Room::Rescue => "rescue",
            Room::Cook => "cook",
            Room::Pantry => "pantry",
            Room::More => "more",
        }
    }

    pub fn name(self) -> &'static str {
        match self {
            Room::Formula => say("Formula"),
            Room::Weigh => say("Weigh"),
            Room::Rescue => say("Rescue"),
            Room::Cook => say("Cook"),
            Room::Pantry => say("Pantry"),
            Room::More => say("More"),
        }
    }
}

/// What lies over a room, or is open in it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Over {
    Nothing,
    /// A line opened for editing.
    Line(u32),
    /// The list of formulas.
    Formulas,
    /// Pasting a list.
    Paste,
    /// Ranges for the readings.
    Aim,
    /// One ingredient in another's place.
    Swap,
    /// The converter, perhaps with an ingredient chosen.
    Convert(String),
    /// An ingredient's card.
    Card(String),
    /// An own ingredient, new (empty id) or edited.
    Own(String),
}

impl Over {
    /// It covers the room, and takes the keyboard with it.
    pub fn covers(&self) -> bool {
        !matches!(self, Over::Nothing | Over::Line(_))
    }
}

/// Where we are.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Route {
    pub room: Room,
    pub over: Over,
}

impl Route {
    pub fn room(room: Room) -> Route {
        Route {
            room,
            over: Over::Nothing,
        }
    }

    pub fn read(hash: &str) -> Route {
        let mut parts = hash.trim_start_matches('#').splitn(3, '/');
        let room = parts.next().unwrap_or_default();
        let room = Room::ALL.into_iter().find(|r| r.id() == room).unwrap_or(Room::Formula);
        let (over, rest) = (parts.next().unwrap_or_default(), parts.next().unwrap_or_default());
        let over = match over {
            "line" => rest.parse().map_or(Over::Nothing, Over::Line),
            "formulas" => Over::Formulas,
            "paste" => Over::Paste,
            "aim" => Over::Aim,
            "swap" => Over::Swap,
            "convert" => Over::Convert(rest.into()),
            "card" => Over::Card(rest.into()),
            "own" => Over::Own(rest.into()),
            _ => Over::Nothing,
        };
        Route { room, over }
    }

    pub fn write(&self) -> String {
        let room = self.room.id();
        match &self.over {
            Over::Nothing => format!("#{room}"),
            Over::Line(key) => format!("#{room}/line/{key}"),
            Over::Formulas => format!("#{room}/formulas"),
            Over::Paste => format!("#{room}/paste"),
            Over::Aim => format!("#{room}/aim"),
            Over::Swap => format!("#{room}/swap"),
            Over::Convert(id) => format!("#{room}/convert/{id}"),
            Over::Card(id) => format!("#{room}/card/{id}"),
            Over::Own(id) => format!("#{room}/own/{id}"),
        }
    }
}

/// The address now.
pub fn here() -> Route {
    Route::read(&window().location().hash().unwrap_or_default())
}

/// Goes somewhere; "back" returns.
pub fn go(route: &Route) {
    let _ = window().location().set_hash(&route.write());
}

/// Goes to what lies over the room we are in.
pub fn open(over: Over) {
    go(&Route {
        room: here().room,
        over,
    });
}

/// Closes what lies over the room.
pub fn close() {
    go(&Route::room(here().room));
}
