//! One open line to the browser's database: how it is opened, and when it lets go.

use super::error::StoreError;
use gloo::events::EventListener;
use indexed_db_futures::database::{Database, VersionChangeEvent};
use indexed_db_futures::error::Error;
use indexed_db_futures::internals::SystemRepr;
use indexed_db_futures::prelude::*;
use std::cell::Cell;
use std::future::poll_fn;
use std::rc::Rc;
use std::task::{Poll, Waker};
use wasm_bindgen_futures::spawn_local;

/// The name of the database.
pub const NAME: &str = "pattywright";
/// The store of the one record kept now.
pub const BOOK: &str = "book";
/// The store of the records it replaced, keyed by revision.
pub const EARLIER: &str = "earlier";

/// An open database; closed when dropped, or when another tab wants to change its layout.
pub struct Connection {
    pub db: Database,
    _let_go: EventListener,
}

impl Connection {
    /// Opens the database in this version of its layout, and makes the stores it lacks.
    ///
    /// # Errors
    /// [`StoreError::Unavailable`] where the browser keeps nothing or another tab holds on to an older version;
    /// [`StoreError::Lost`] where the layout is newer than asked for; [`StoreError::Full`].
    pub async fn open(version: u32) -> Result<Self, StoreError> {
        let held = Rc::new(Held::default());
        let on_blocked = held.clone();
        let mut request = Database::open(NAME)
            .with_version(version)
            .with_on_blocked(move |_| {
                on_blocked.tell();
                Ok(())
            })
            .with_on_upgrade_needed(lay_out)
            .build()?;
        let opened = poll_fn(|cx| match request.poll_unpinned(cx) {
            Poll::Pending if held.is(cx.waker()) => Poll::Ready(None),
            answer => answer.map(Some),
        });
        match opened.await {
            Some(answer) => Ok(Self::new(answer?)),
            None => {
                // The browser still opens it once the other tab is gone: the stores are made then, and it is closed.
                spawn_local(async move { drop(request.await.map(Self::new)) });
                Err(StoreError::held_by_another_tab())
            }
        }
    }

    fn new(db: Database) -> Self {
        let closing = db.clone();
        let let_go = EventListener::new(db.as_sys(), "versionchange", move |_| {
            closing.clone().close();
        });
        Self { db, _let_go: let_go }
    }
}

impl Drop for Connection {
    fn drop(&mut self) {
        self.db.clone().close();
    }
}

fn lay_out(event: VersionChangeEvent, db: Database) -> Result<(), Error> {
    if event.old_version() < 1.0 {
        db.create_object_store(BOOK).build()?;
        db.create_object_store(EARLIER).build()?;
    }
    Ok(())
}

/// Whether another tab holds on, and who waits to hear of it.
#[derive(Default)]
struct Held {
    yes: Cell<bool>,
    waiting: Cell<Option<Waker>>,
}

impl Held {
    fn tell(&self) {
        self.yes.set(true);
        if let Some(waker) = self.waiting.take() {
            waker.wake();
        }
    }

    fn is(&self, waker: &Waker) -> bool {
        self.waiting.set(Some(waker.clone()));
        self.yes.get()
    }
}
