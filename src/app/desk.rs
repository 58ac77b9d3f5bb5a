//! What the rooms share: the document, the way back, and what was just said.

use crate::care::Care;
use crate::cook::Timers;
use crate::route::{self, Over, Room, Route};
use crate::script;
use crate::store::Store;
use leptos::prelude::*;
use pattywright::document::{Document, MOST_LINES};
use pattywright::formula::{Formula, Line};
use pattywright::words::say;
use std::ops::Deref;
use std::sync::Arc;

/// Where the tab notes which formula is open, and which one is written step by step.
const OPEN: &str = "pattywright-open";
const GUIDED: &str = "pattywright-guided";

/// How many steps back are kept.
const STEPS_BACK: usize = 200;

/// The document with its past and its undone future.
#[derive(Default)]
struct History {
    past: Vec<Arc<Document>>,
    future: Vec<Arc<Document>>,
    /// The edit that is going on; keys typed into one field are one step.
    going_on: String,
}

/// What was just done, with a way back where there is one.
#[derive(Clone, PartialEq, Debug)]
pub struct Said {
    pub text: String,
    pub undo: bool,
}

/// How the document stands on this phone.
#[derive(Clone, PartialEq, Debug)]
pub enum Kept {
    /// On its way.
    Saving,
    /// On the phone.
    Saved,
    /// It could not be kept; the sentence says what to do.
    Not(String),
}

/// What the rooms share. Cheap to copy: there is one for as long as the page lives.
#[derive(Clone, Copy)]
pub struct Desk(&'static Shared);

impl Deref for Desk {
    type Target = Shared;

    fn deref(&self) -> &Shared {
        self.0
    }
}

/// What lies on the desk.
pub struct Shared {
    pub document: RwSignal<Arc<Document>>,
    pub current: RwSignal<String>,
    pub route: RwSignal<Route>,
    pub said: RwSignal<Option<Said>>,
    pub kept: RwSignal<Kept>,
    pub update_waiting: RwSignal<bool>,
    /// The formula that is being written step by step, if one is.
    pub guiding: RwSignal<Option<String>>,
    /// What is in the pan.
    pub timers: Timers,
    /// How safe it all is.
    pub care: Care,
    /// Where it is kept, once it is.
    pub store: StoredValue<Option<Store>, LocalStorage>,
    history: StoredValue<History>,
    pub can_undo: RwSignal<bool>,
    pub can_redo: RwSignal<bool>,
}

impl Desk {
    pub fn new(document: Document) -> Desk {
        let there = |id: &String| document.formulas.iter().any(|formula| formula.id == *id);
        let first = || document.formulas.first().map(|formula| formula.id.clone());
        let current = script::noted_in_tab(OPEN)
            .filter(there)
            .or_else(first)
            .unwrap_or_default();
        Desk(Box::leak(Box::new(Shared {
            guiding: RwSignal::new(script::noted_in_tab(GUIDED).filter(there)),
            document: RwSignal::new(Arc::new(document)),
            current: RwSignal::new(current),
            route: RwSignal::new(route::here()),
            said: RwSignal::new(None),
            kept: RwSignal::new(Kept::Saved),
            update_waiting: RwSignal::new(false),
            timers: Timers::take_up(),
            care: Care::take_up(),
            store: StoredValue::new_local(None),
            history: StoredValue::new(History::default()),
            can_undo: RwSignal::new(false),
            can_redo: RwSignal::new(false),
        })))
    }

    /// Notes what is open as it changes, so that the page can be loaded anew without losing the place.
    pub fn note_place(self) {
        Effect::new(move |_| {
            script::note_in_tab(OPEN, &self.current.get());
            script::note_in_tab(GUIDED, &self.guiding.get().unwrap_or_default());
        });
    }

    /// Changes the document. Edits with the same `name` in a row are one step back; an empty name is always a step of its own.
    pub fn edit(self, name: &str, change: impl FnOnce(&mut Document)) {
        let before = self.document.get_untracked();
        let mut after = (*before).clone();
        change(&mut after);
        if after == *before {
            return;
        }
        // What is not read again may not be saved.
        if after.formulas.iter().any(|formula| formula.lines.len() > MOST_LINES) {
            return self.say(
                say!(
                    "A formula holds {most} lines; nothing was added. Make a second one, and use it as a line.",
                    most = MOST_LINES
                ),
                false,
            );
        }
        self.history.update_value(|history| {
            if name.is_empty() || history.going_on != name {
                history.past.push(before);
                if history.past.len() > STEPS_BACK {
                    history.past.remove(0);
                }
            }
            name.clone_into(&mut history.going_on);
            history.future.clear();
        });
        self.show(Arc::new(after));
    }

    /// Ends an edit that was going on, so that the next one is a step of its own.
    pub fn settle(self) {
        self.history.update_value(|history| history.going_on.clear());
    }

    /// Takes the last edit back.
    pub fn undo(self) {
        self.step(|history, now| {
            let earlier = history.past.pop()?;
            history.future.push(now);
            Some(earlier)
        });
    }

    /// Does again what was taken back.
    pub fn redo(self) {
        self.step(|history, now| {
            let later = history.future.pop()?;
            history.past.push(now);
            Some(later)
        });
    }

    fn step(self, take: impl FnOnce(&mut History, Arc<Document>) -> Option<Arc<Document>>) {
        let now = self.document.get_untracked();
        let taken = self.history.try_update_value(|history| {
            history.going_on.clear();
            take(history, now)
        });
        if let Some(Some(document)) = taken {
            self.show(document);
            self.said.set(None);
        }
    }

    /// Takes a document as it now is: from another tab, from a backup.
    pub fn show(self, document: Arc<Document>) {
        let current = self.current.get_untracked();
        if document.formulas.iter().all(|formula| formula.id != current) {
            self.current
                .set(document.formulas.first().map_or(String::new(), |f| f.id.clone()));
        }
        self.document.set(document);
        self.history.with_value(|history| {
            self.can_undo.set(!history.past.is_empty());
            self.can_redo.set(!history.future.is_empty());
        });
    }

    /// Says what was done, with the way back.
    pub fn say(self, text: impl Into<String>, undo: bool) {
        self.said.set(Some(Said {
            text: text.into(),
            undo,
        }));
    }

    /// The formula on the desk, if there is one.
    pub fn formula(self) -> Option<Formula> {
        self.with_formula(|formula| formula.cloned())
    }

    /// Looks at the formula on the desk, if there is one.
    pub fn with_formula<T>(self, look: impl FnOnce(Option<&Formula>) -> T) -> T {
        let current = self.current.get();
        self.document
            .with(|document| look(document.formulas.iter().find(|formula| formula.id == current)))
    }

    /// Changes the formula on the desk; see [`Desk::edit`].
    pub fn edit_formula(self, name: &str, change: impl FnOnce(&mut Formula)) {
        let current = self.current.get_untracked();
        self.edit(name, |document| {
            if let Some(formula) = document.formulas.iter_mut().find(|formula| formula.id == current) {
                change(formula);
                formula.give_keys();
            }
        });
    }

    /// Changes one line of the formula on the desk.
    pub fn edit_line(self, name: &str, key: u32, change: impl FnOnce(&mut Line)) {
        self.edit_formula(name, |formula| {
            if let Some(line) = formula.lines.iter_mut().find(|line| line.key == key) {
                change(line);
            }
        });
    }

    /// Starts a formula called `name` and puts it on the desk.
    pub fn new_formula(self, name: &str, lines: Vec<Line>) {
        let name = if name.trim().is_empty() {
            say("New formula")
        } else {
            name.trim()
        };
        let mut id = String::new();
        self.edit("", |document| {
            id = Document::free_id(name, document.formulas.iter().map(|f| f.id.as_str()));
            document.settings.demo = false;
            let mut formula = Formula {
                id: id.clone(),
                name: name.to_owned(),
                lines,
                ..Formula::default()
            };
            formula.give_keys();
            document.formulas.push(formula);
        });
        self.current.set(id);
    }

    /// What lies over the room now.
    pub fn over(self) -> Over {
        self.route.with(|route| route.over.clone())
    }

    /// The room now.
    pub fn room(self) -> Room {
        self.route.with(|route| route.room)
    }
}
