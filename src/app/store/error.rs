//! What went wrong with keeping the book, as one sentence the cook can act on.

use indexed_db_futures::error::{Error, OpenDbError};
use indexed_db_futures::internals::SystemRepr;
use pattywright::words::say;
use std::fmt;

/// Why the book could not be read or saved; nothing kept was changed.
#[derive(Debug, PartialEq)]
pub enum StoreError {
    /// This window keeps nothing; holds the sentence for the cook.
    Unavailable(String),
    /// No room is left for the book.
    Full,
    /// The book was within reach and is not any more; holds the sentence for the cook.
    Lost(String),
}

impl StoreError {
    fn unavailable(why: &str) -> Self {
        Self::Unavailable(say!(
            "This window keeps nothing{why}. Save a backup file before you close it, then open Pattywright in an ordinary window.",
            why
        ))
    }

    /// Another tab will not let go of an older layout of the database.
    pub(super) fn held_by_another_tab() -> Self {
        Self::Unavailable(
            say("An older Pattywright in another tab holds on to the book. Close that tab, then reload this one.")
                .into(),
        )
    }
}

impl fmt::Display for StoreError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Unavailable(sentence) | Self::Lost(sentence) => sentence,
            Self::Full => {
                say("This phone is full: what you type is not being saved. Save a backup file, then free some space; saving goes on by itself.")
            }
        })
    }
}

impl std::error::Error for StoreError {}

impl From<OpenDbError> for StoreError {
    fn from(error: OpenDbError) -> Self {
        match error {
            OpenDbError::Base(base) if is_full(&base) => Self::Full,
            OpenDbError::Base(base) if is_named(&base, "VersionError") => Self::Lost(
                say("A newer Pattywright is open in another tab. Save a backup file, then reload this one.").into(),
            ),
            OpenDbError::Base(base) => Self::unavailable(&format!(" ({base})")),
            // The rest carries no word of the browser's own.
            _ => Self::unavailable(""),
        }
    }
}

impl From<Error> for StoreError {
    fn from(error: Error) -> Self {
        if is_full(&error) {
            return Self::Full;
        }
        Self::Lost(say!(
            "The book on this phone is out of reach ({error}). Save a backup file, then reload Pattywright.",
            error
        ))
    }
}

/// True where the browser refused for want of room.
pub(super) fn is_full(error: &Error) -> bool {
    is_named(error, "QuotaExceededError")
}

fn is_named(error: &Error, name: &str) -> bool {
    matches!(error, Error::DomException(exception) if exception.as_sys().name() == name)
}
