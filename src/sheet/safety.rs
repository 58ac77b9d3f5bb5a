//! Keeping it safe: short cautions, each with its source. Local codes and licensed practice come first.

use crate::words::say;

/// One caution, in the language spoken.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Caution {
    /// What to do.
    pub says: &'static str,
    /// Who says so.
    pub source: &'static str,
}

/// Said wherever cautions stand.
pub fn first() -> &'static str {
    say("Local codes and licensed practice come first.")
}

/// For a bowl of wet mix.
pub fn wet_mix() -> [Caution; 4] {
    [
        Caution {
            says: say(
                "From the moment it is wet, treat the mix as perishable: 5 °C (41 °F) or colder, and out of the fridge only while you work.",
            ),
            source: say(
                "US FDA Food Code 3-501.16, cold holding; treating wet plant protein as such a food follows its water and protein",
            ),
        },
        Caution {
            says: say("Use raw mix within 1–2 days at 5 °C, or freeze it."),
            source: say("From memory, conservative; no published figure for this mix"),
        },
        Caution {
            says: say(
                "Cool cooked patties from 57 to 21 °C within 2 hours and to 5 °C within 6 in all; reheat to a core of 74 °C (165 °F) for 15 seconds.",
            ),
            source: say("US FDA Food Code 3-501.14 and 3-403.11; the 6 hours from memory"),
        },
        Caution {
            says: say(
                "Soy, wheat, mustard, celery, sesame and lupin are allergens. Pea and other legumes can act on people with peanut or soy allergy. Keep a clean board, pan and turner for guests with allergies.",
            ),
            source: say("From memory: US and EU allergen lists; ask the guest and read every pack"),
        },
    ]
}

/// For methylcellulose and other powders.
pub fn powder() -> Caution {
    Caution {
        says: say(
            "Fine powders make dust and slippery floors: pour low, wipe spills dry. Gelling agents in gram amounts want plenty of water with the meal.",
        ),
        source: say("From memory: Phillips and Williams, Handbook of Hydrocolloids; 21 CFR 334"),
    }
}
