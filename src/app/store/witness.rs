//! Noted beside the book, in `localStorage`: when it was saved and backed up, and a second copy of it.
//!
//! Browsers clear the two apart, so each can tell that the other is gone.
//! Nothing here is needed to read the book; where the browser takes no notes, nothing is claimed.

const COPY: &str = "pattywright-copy";
/// The browser gives all notes together about five million characters.
const LARGEST_COPY: usize = 1_000_000;

/// What happened.
#[derive(Clone, Copy, Debug)]
pub enum Mark {
    /// The book was last saved.
    Saved,
    /// The book as it was last saved is gone, and the cook has not been helped yet.
    Cleared,
    /// A backup file was last made.
    BackedUp,
    /// The browser was asked to keep the book for good.
    Asked,
}

impl Mark {
    fn key(self) -> &'static str {
        match self {
            Mark::Saved => "pattywright-saved",
            Mark::Cleared => "pattywright-cleared",
            Mark::BackedUp => "pattywright-backed-up",
            Mark::Asked => "pattywright-asked",
        }
    }

    /// When it happened, ms since 1970; none where nothing was noted.
    pub fn at_ms(self) -> Option<f64> {
        notes()?.get_item(self.key()).ok()??.parse().ok()
    }

    /// Notes that it happened then; false where the browser takes no notes.
    pub fn note(self, at_ms: f64) -> bool {
        let text = (at_ms as i64).to_string();
        notes().is_some_and(|notes| notes.set_item(self.key(), &text).is_ok())
    }

    /// Forgets that it happened.
    pub fn forget(self) {
        if let Some(notes) = notes() {
            let _ = notes.remove_item(self.key());
        }
    }
}

/// Keeps a second copy of the book as it was just saved; a book too large for it has none.
pub fn keep_copy(text: &str) {
    if let Some(notes) = notes() {
        let kept = text.len() <= LARGEST_COPY && notes.set_item(COPY, text).is_ok();
        if !kept {
            // An older copy is worse than none: it would pass for the book.
            let _ = notes.remove_item(COPY);
        }
    }
}

/// The second copy of the book.
pub fn copy() -> Option<String> {
    notes()?.get_item(COPY).ok()?
}

fn notes() -> Option<web_sys::Storage> {
    web_sys::window()?.local_storage().ok()?
}
