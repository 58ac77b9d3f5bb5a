//! Where the book stays between visits: on this phone, and nowhere else.
//!
//! The whole document is one record with a revision that only grows.
//! A save names the revision it was based on, and the browser compares and writes in one transaction,
//! so no tab can replace what another saved meanwhile.
//! What the text means, when to save, and how two texts are put together are left to the caller.

pub mod connection;
pub mod copy;
mod error;
pub mod witness;

use connection::{BOOK, Connection, EARLIER};
pub use error::StoreError;
use error::is_full;
use gloo::events::EventListener;
use indexed_db_futures::database::Database;
use indexed_db_futures::error::Error;
use indexed_db_futures::internals::SystemRepr;
use indexed_db_futures::prelude::*;
use indexed_db_futures::primitive::TryToJs;
use indexed_db_futures::transaction::{Transaction, TransactionDurability, TransactionMode, TransactionOptions};
use js_sys::Promise;
use serde::{Deserialize, Serialize};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{BroadcastChannel, MessageEvent, StorageManager};

/// The layout of the database; another layout gets the next number.
const VERSION: u32 = 1;
/// Of the replaced revisions the last five stay, of those before every fifth, of those before every 25th, and so on.
const EACH: u32 = 5;
/// How often so: 21 texts at most, the oldest from some 3,000 saves ago.
const THINNED: u32 = 5;

/// The kept book. Cheap to clone; clones share one connection and count as one tab.
#[derive(Clone)]
pub struct Store(Rc<Inner>);

struct Inner {
    connection: RefCell<Rc<Connection>>,
    /// Absent in browsers that cannot speak between tabs; saves are as safe without it.
    tabs: Option<BroadcastChannel>,
    listeners: RefCell<Vec<EventListener>>,
}

/// How a save ended.
#[derive(Debug, PartialEq)]
pub enum Saved {
    /// The text is on disk under this revision.
    Done { rev: u32 },
    /// Another tab saved meanwhile: this is what is there, and nothing was written.
    Conflict { text: String, rev: u32 },
}

/// One record, in either store.
#[derive(Serialize, Deserialize)]
struct Kept {
    text: String,
    rev: u32,
    /// Milliseconds since 1970.
    saved_at: f64,
}

/// A record without its text, which may be large.
#[derive(Deserialize)]
struct Label {
    rev: u32,
    saved_at: f64,
}

/// What the other tabs are told after a save.
#[derive(Serialize, Deserialize)]
struct News {
    rev: u32,
}

impl Store {
    /// Opens the book, and makes it on the first visit.
    ///
    /// # Errors
    /// Any [`StoreError`].
    pub async fn open() -> Result<Self, StoreError> {
        Ok(Self(Rc::new(Inner {
            connection: RefCell::new(Rc::new(Connection::open(VERSION).await?)),
            tabs: BroadcastChannel::new(connection::NAME).ok(),
            listeners: RefCell::default(),
        })))
    }

    /// Returns the text and its revision; none before the first save.
    ///
    /// # Errors
    /// Any [`StoreError`]; a record that cannot be read is [`StoreError::Lost`], not nothing.
    pub async fn load(&self) -> Result<Option<(String, u32)>, StoreError> {
        let kept = self.on_connection(async |db| read(db, BOOK, BOOK).await).await?;
        Ok(kept.map(|kept| (kept.text, kept.rev)))
    }

    /// Saves the text, unless another tab saved since `based_on` (0: nothing was there yet).
    ///
    /// Returns only once the browser says that the text is on disk.
    /// A text that is there already is not written again, so a save may be repeated safely.
    /// Where the browser threw the book away, the text goes in under the revision after `based_on`.
    ///
    /// # Errors
    /// Any [`StoreError`]. What was kept before is still kept.
    pub async fn save(&self, text: &str, based_on: u32) -> Result<Saved, StoreError> {
        let (saved, is_new) = self
            .on_connection(async |db| compare_and_set(db, text, based_on).await)
            .await?;
        if let (Saved::Done { rev }, true, Some(tabs)) = (&saved, is_new, &self.0.tabs)
            && let Ok(news) = serde_wasm_bindgen::to_value(&News { rev: *rev })
        {
            let _ = tabs.post_message(&news);
        }
        Ok(saved)
    }

    /// Lists the revision and time (milliseconds since 1970) of what was replaced lately, newest first.
    ///
    /// # Errors
    /// Any [`StoreError`].
    pub async fn earlier(&self) -> Result<Vec<(u32, f64)>, StoreError> {
        self.on_connection(async |db| {
            let transaction = db.transaction(EARLIER).build()?;
            let labels = transaction.object_store(EARLIER)?.get_all::<Label>().serde()?.await?;
            let mut found = labels
                .map(|label| label.map(|label| (label.rev, label.saved_at)))
                .collect::<Result<Vec<_>, Error>>()?;
            found.reverse();
            Ok(found)
        })
        .await
    }

    /// Returns the text of an earlier revision; none where it is kept no longer.
    ///
    /// # Errors
    /// Any [`StoreError`].
    pub async fn load_earlier(&self, rev: u32) -> Result<Option<String>, StoreError> {
        let kept = self.on_connection(async |db| read(db, EARLIER, rev).await).await?;
        Ok(kept.map(|kept| kept.text))
    }

    /// Calls `f` with the new revision whenever another tab has saved, for as long as this store lives.
    pub fn on_other_tab(&self, f: impl Fn(u32) + 'static) {
        let Some(tabs) = &self.0.tabs else { return };
        let listener = EventListener::new(tabs, "message", move |event| {
            if let Some(message) = event.dyn_ref::<MessageEvent>()
                && let Ok(news) = serde_wasm_bindgen::from_value::<News>(message.data())
            {
                f(news.rev);
            }
        });
        self.0.listeners.borrow_mut().push(listener);
    }

    /// Does the job, and once more on a fresh connection where the first was lost.
    ///
    /// Browsers give a lost connection several names, so every error but a full phone is tried again;
    /// each job is safe to repeat.
    async fn on_connection<T>(&self, job: impl AsyncFn(&Database) -> Result<T, Error>) -> Result<T, StoreError> {
        let connection = self.0.connection.borrow().clone();
        match job(&connection.db).await {
            Err(error) if !is_full(&error) => {
                let fresh = Rc::new(Connection::open(VERSION).await?);
                *self.0.connection.borrow_mut() = fresh.clone();
                Ok(job(&fresh.db).await?)
            }
            answer => Ok(answer?),
        }
    }
}

async fn read<K>(db: &Database, store: &str, key: K) -> Result<Option<Kept>, Error>
where
    K: Serialize + TryToJs,
{
    let transaction = db.transaction(store).build()?;
    transaction.object_store(store)?.get(key).serde()?.await
}

/// Returns how the save ended, and whether anything was written.
async fn compare_and_set(db: &Database, text: &str, based_on: u32) -> Result<(Saved, bool), Error> {
    let transaction = db
        .transaction([BOOK, EARLIER])
        .with_mode(TransactionMode::Readwrite)
        .with_options(TransactionOptions::new().with_durability(TransactionDurability::Strict))
        .build()?;
    let book = transaction.object_store(BOOK)?;
    if let Some(kept) = book.get::<Kept, _, _>(BOOK).serde()?.await? {
        if kept.text == text {
            return Ok((Saved::Done { rev: kept.rev }, false));
        }
        if kept.rev != based_on {
            let Kept { text, rev, .. } = kept;
            return Ok((Saved::Conflict { text, rev }, false));
        }
        let earlier = transaction.object_store(EARLIER)?;
        earlier.put(&kept).with_key(kept.rev).serde()?.await?;
        for rev in outgrown(kept.rev) {
            earlier.delete(rev).serde()?.await?;
        }
    }
    let rev = based_on.saturating_add(1);
    let next = Kept {
        text: text.to_owned(),
        rev,
        saved_at: js_sys::Date::now(),
    };
    book.put(next).with_key(BOOK).without_key_type().serde()?.await?;
    commit(transaction).await?;
    Ok((Saved::Done { rev }, true))
}

/// Which replaced revisions go when this one is replaced.
pub fn outgrown(rev: u32) -> impl Iterator<Item = u32> {
    (1..=THINNED).filter_map(move |times| {
        let age = EACH.pow(times);
        let old = rev.checked_sub(age)?;
        (old % age != 0 || times == THINNED).then_some(old)
    })
}

/// Waits until everything is on disk.
///
/// A phone may turn out to be full only now; the cause then stays with the transaction.
async fn commit(transaction: Transaction<'_>) -> Result<(), Error> {
    let raw = transaction.as_sys().clone();
    transaction
        .commit()
        .await
        .map_err(|error| raw.error().map_or(error, Error::from))
}

/// Asks the browser never to clear the book by itself; none where it cannot promise.
pub async fn ask_to_persist() -> Option<bool> {
    answer(storage()?.persist()).await
}

/// Tells whether the browser promised never to clear the book by itself; none where it cannot promise.
pub async fn persisted() -> Option<bool> {
    answer(storage()?.persisted()).await
}

/// In a browser without it, the manager is undefined and asking it is an error.
fn storage() -> Option<StorageManager> {
    Some(web_sys::window()?.navigator().storage())
}

async fn answer(asked: Result<Promise, JsValue>) -> Option<bool> {
    JsFuture::from(asked.ok()?).await.ok()?.as_bool()
}
