//! Noted beside the book, in `localStorage`: when it was saved and backed up.
//!
//! Browsers clear the two apart, so each can tell that the other is gone.
//! Nothing here is needed to read the book; where the browser takes no notes, nothing is claimed.

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
        let noted: i64 = notes()?.get_item(self.key()).ok()??.parse().ok()?;
        Some(noted as f64)
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

fn notes() -> Option<web_sys::Storage> {
    web_sys::window()?.local_storage().ok()?
}
