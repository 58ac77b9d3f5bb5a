//! Gelling agents and when they hold: in the heat, in the cold, or by swelling.
//!
//! # Source
//! Methylcellulose gels hot and melts again as it cools; HPMC gels higher and needs water below about 25 °C
//! (Vigouret and others, J Chim Phys 1996;93:858; temperatures of hydration from memory: Phillips and Williams, *Handbook of Hydrocolloids*).
//! Carrageenan and agar set as they cool and melt when hot (from memory, the same handbook).
//! Xanthan thickens and sets nothing alone; above about 0.3 % it softens patties (Tunnarut and others, JCST; the rest from memory).
//! Psyllium, flax and chia swell in water: common practice, no source.

use crate::words::say;

/// When an agent holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Holds {
    /// Gels in the heat, thick when cold, melts as it cools.
    Hot,
    /// Sets as it cools, runs when hot; it has to be boiled first.
    Cold,
    /// Swells with water, hot and cold.
    Swelling,
    /// Thickens only.
    Thickening,
}

/// When a patty has to hold.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Moment {
    /// Cold, while it is formed.
    Forming,
    /// In the pan, until it is turned.
    Pan,
    /// On the plate.
    Plate,
}

/// When a binder holds; unknown ones are none of our advice.
pub fn holds(ingredient: &str) -> Option<Holds> {
    match ingredient {
        "methylcellulose" | "hpmc" => Some(Holds::Hot),
        "kappa_carrageenan" | "agar_powder" => Some(Holds::Cold),
        "psyllium_husk" | "flax_ground" | "chia_seed" => Some(Holds::Swelling),
        "xanthan_gum" | "guar_gum" | "konjac_glucomannan" => Some(Holds::Thickening),
        _ => None,
    }
}

/// True where more of this binder helps at this moment, stirred into a raw mix.
pub(super) fn helps(ingredient: &str, moment: Moment) -> bool {
    match holds(ingredient) {
        Some(Holds::Hot) => true,
        Some(Holds::Swelling) => moment != Moment::Pan,
        // A cold-set gel must be boiled, which a bowl of raw mix is not; a thickener alone sets nothing.
        Some(Holds::Cold | Holds::Thickening) | None => false,
    }
}

/// How so much `binder` is stirred into so much `water`, and how long it stands.
pub(super) fn whisked(ingredient: &str, binder: &str, water: &str) -> String {
    match (ingredient, holds(ingredient)) {
        ("hpmc", _) => say!(
            "Whisk {binder} into {water} of cold water, under 25 °C, and leave it 10 minutes to thicken. Never dry into the bowl.",
            binder,
            water
        ),
        (_, Some(Holds::Swelling)) => say!(
            "Whisk {binder} into {water} of cold water and leave it 10 minutes to swell. Never dry into the bowl.",
            binder,
            water
        ),
        _ => say!(
            "Whisk {binder} into {water} of ice-cold water and leave it 10 minutes to thicken. Never dry into the bowl.",
            binder,
            water
        ),
    }
}
