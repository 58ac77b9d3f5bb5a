//! What a line does in the mix.

use crate::words::say;
use serde::{Deserialize, Serialize};

/// What a line does in the mix; readings count lines by role.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Dry textured plant protein: granules, chunks. The usual base of baker's percentages.
    Textured,
    /// Protein powder and protein-rich flour.
    Powder,
    /// A gelling agent that holds the patty: methylcellulose, gums, psyllium, flax.
    Binder,
    /// Water and everything that counts by its water.
    Liquid,
    /// Fat and oil.
    Fat,
    /// Salt, spice, flavour.
    Seasoning,
    /// Colour.
    Colour,
    /// Starch, crumbs, vegetables and whatever else fills.
    Filler,
}

impl Role {
    /// Every role, in the order of the bowl strip.
    pub const ALL: [Role; 8] = [
        Role::Textured,
        Role::Powder,
        Role::Binder,
        Role::Liquid,
        Role::Fat,
        Role::Seasoning,
        Role::Colour,
        Role::Filler,
    ];

    /// Its place in [`Role::ALL`].
    pub fn index(self) -> usize {
        self as usize
    }

    /// The word on screen.
    pub fn name(self) -> &'static str {
        match self {
            Role::Textured => say("textured protein"),
            Role::Powder => say("protein powder"),
            Role::Binder => say("binder"),
            Role::Liquid => say("liquid"),
            Role::Fat => say("fat"),
            Role::Seasoning => say("seasoning"),
            Role::Colour => say("colour"),
            Role::Filler => say("filler"),
        }
    }

    /// The word where room is short.
    pub fn short_name(self) -> &'static str {
        match self {
            Role::Textured => say("textured"),
            Role::Powder => say("powder"),
            other => other.name(),
        }
    }

    /// The id used in saved documents and in style sheets.
    pub fn id(self) -> &'static str {
        match self {
            Role::Textured => "textured",
            Role::Powder => "powder",
            Role::Binder => "binder",
            Role::Liquid => "liquid",
            Role::Fat => "fat",
            Role::Seasoning => "seasoning",
            Role::Colour => "colour",
            Role::Filler => "filler",
        }
    }

    /// Finds a role by its id.
    pub fn from_id(id: &str) -> Option<Role> {
        Role::ALL.into_iter().find(|role| role.id() == id)
    }
}
