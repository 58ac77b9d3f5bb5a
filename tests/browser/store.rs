//! The kept book: two stores in one page stand for two tabs.

use crate::app::store::connection::{BOOK, Connection, NAME};
use crate::app::store::copy::{Copies, copy};
use crate::app::store::witness::Mark;
use crate::app::store::{Saved, Store, StoreError, ask_to_persist, outgrown, persisted};
use gloo::timers::callback::Timeout;
use indexed_db_futures::database::Database;
use indexed_db_futures::error::{Error, OpenDbError};
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::TransactionMode;
use js_sys::{Array, Object, Promise, Reflect};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::{JsFuture, future_to_promise};
use wasm_bindgen_test::wasm_bindgen_test;
use web_sys::{BroadcastChannel, DomException};

/// Opens a store on a phone that kept nothing so far.
async fn first_visit() -> Store {
    Database::delete_by_name(NAME).unwrap().await.unwrap();
    Store::open().await.unwrap()
}

#[track_caller]
fn check_done(saved: Result<Saved, StoreError>, rev: u32) {
    assert_eq!(saved, Ok(Saved::Done { rev }));
}

async fn check_kept(store: &Store, text: &str, rev: u32) {
    assert_eq!(store.load().await, Ok(Some((text.to_owned(), rev))));
}

async fn pause(milliseconds: u32) {
    let promise = Promise::new(&mut |resolve, _| {
        Timeout::new(milliseconds, move || drop(resolve.call0(&JsValue::NULL))).forget();
    });
    JsFuture::from(promise).await.unwrap();
}

#[wasm_bindgen_test]
async fn a_first_visit_finds_nothing() {
    let store = first_visit().await;
    assert_eq!(store.load().await, Ok(None));
    assert_eq!(store.earlier().await, Ok(vec![]));
    assert_eq!(store.load_earlier(1).await, Ok(None));
}

#[wasm_bindgen_test]
async fn a_saved_text_comes_back_in_the_next_visit() {
    let store = first_visit().await;
    check_done(store.save("soak 100 g", 0).await, 1);
    check_done(store.save("soak 120 g", 1).await, 2);
    drop(store);
    check_kept(&Store::open().await.unwrap(), "soak 120 g", 2).await;
}

#[wasm_bindgen_test]
async fn a_save_based_on_something_older_is_refused_with_what_is_there() {
    let here = first_visit().await;
    let there = Store::open().await.unwrap();
    check_done(here.save("mine", 0).await, 1);
    for based_on in [0, 2] {
        let refused = there.save("theirs", based_on).await;
        assert_eq!(
            refused,
            Ok(Saved::Conflict {
                text: "mine".into(),
                rev: 1
            })
        );
    }
    check_kept(&there, "mine", 1).await;
    assert_eq!(there.earlier().await, Ok(vec![]));
    check_done(there.save("both", 1).await, 2);
    check_kept(&here, "both", 2).await;
}

#[wasm_bindgen_test]
async fn a_repeated_save_is_no_conflict() {
    let store = first_visit().await;
    check_done(store.save("same", 0).await, 1);
    check_done(store.save("same", 0).await, 1);
    assert_eq!(store.earlier().await, Ok(vec![]));
}

#[wasm_bindgen_test]
async fn replaced_texts_stay_for_undoing_fewer_the_older_they_are() {
    let store = first_visit().await;
    let before = js_sys::Date::now();
    for rev in 0..150 {
        check_done(store.save(&format!("text {}", rev + 1), rev).await, rev + 1);
    }
    let (revs, times): (Vec<u32>, Vec<f64>) = store.earlier().await.unwrap().into_iter().unzip();
    assert_eq!(revs, [149, 148, 147, 146, 145, 140, 135, 130, 125, 100, 75, 50, 25]);
    assert!(times.is_sorted_by(|newer, older| newer >= older));
    assert!(times.iter().all(|time| (before..=js_sys::Date::now()).contains(time)));
    assert_eq!(store.load_earlier(100).await, Ok(Some("text 100".into())));
    assert_eq!(store.load_earlier(99).await, Ok(None));
    check_kept(&store, "text 150", 150).await;
}

/// The bounds follow from fives: five texts of an age below 5, and four each from there to 25, 125, 625 and 3,125.
#[wasm_bindgen_test]
fn a_long_past_takes_little_room_and_has_no_large_gap() {
    let mut kept = BTreeSet::new();
    for rev in 1..=20_000 {
        kept.insert(rev);
        outgrown(rev).for_each(|old| drop(kept.remove(&old)));
        assert!(kept.len() <= 21, "{rev}: {kept:?}");
        let ages: Vec<u32> = kept.iter().rev().map(|old| rev - old).collect();
        assert!(
            ages.starts_with(&[0, 1, 2, 3, 4][..ages.len().min(5)]),
            "{rev}: {ages:?}"
        );
        // The next older one is at most two and a quarter times as old.
        assert!(
            ages.windows(2).all(|pair| 4 * pair[1] <= 9 * pair[0] + 4),
            "{rev}: {ages:?}"
        );
        assert!(rev < 3_125 || ages.last() >= Some(&2_500), "{rev}: {ages:?}");
    }
}

#[wasm_bindgen_test]
async fn a_megabyte_comes_back_letter_for_letter() {
    let store = first_visit().await;
    let text: String = "½ cup of grünkern, 70 °C\u{0}\n"
        .chars()
        .cycle()
        .take(1_000_000)
        .collect();
    check_done(store.save(&text, 0).await, 1);
    assert!(store.load().await == Ok(Some((text, 1))));
}

/// Adds a line for each of `count` steps, putting both texts together after a conflict.
async fn add_lines(store: Store, name: &str, count: u32) {
    let (mut text, mut rev) = (String::new(), 0);
    for step in 0..count {
        loop {
            let longer = format!("{text}{name}{step}\n");
            match store.save(&longer, rev).await.unwrap() {
                Saved::Done { rev: done } => {
                    (text, rev) = (longer, done);
                    break;
                }
                Saved::Conflict {
                    text: theirs,
                    rev: newer,
                } => (text, rev) = (theirs, newer),
            }
        }
    }
}

#[wasm_bindgen_test]
async fn tabs_that_save_at_once_lose_nothing() {
    let store = first_visit().await;
    let tabs = ["a", "b", "c"].map(|name| {
        future_to_promise(async move {
            add_lines(Store::open().await.unwrap(), name, 12).await;
            Ok(JsValue::UNDEFINED)
        })
    });
    JsFuture::from(Promise::all(&tabs.iter().collect::<Array>()))
        .await
        .unwrap();
    let (text, rev) = store.load().await.unwrap().unwrap();
    let mut lines: Vec<&str> = text.lines().collect();
    assert_eq!((lines.len(), rev), (36, 36));
    lines.sort_unstable();
    lines.dedup();
    assert_eq!(lines.len(), 36);
}

/// Returns the list of revisions this store hears of.
fn listen(store: &Store) -> Rc<RefCell<Vec<u32>>> {
    let heard = Rc::new(RefCell::new(vec![]));
    let hears = heard.clone();
    store.on_other_tab(move |rev| hears.borrow_mut().push(rev));
    heard
}

#[wasm_bindgen_test]
async fn other_tabs_hear_of_a_save_and_the_saving_one_does_not() {
    let here = first_visit().await;
    let there = Store::open().await.unwrap();
    let (heard_here, heard_there) = (listen(&here), listen(&there));
    let stranger = BroadcastChannel::new(NAME).unwrap();
    stranger.post_message(&"no revision".into()).unwrap();
    stranger.close();
    check_done(here.save("one", 0).await, 1);
    check_done(here.clone().save("two", 1).await, 2);
    check_done(here.save("two", 2).await, 2);
    assert!(matches!(here.save("late", 1).await, Ok(Saved::Conflict { .. })));
    pause(200).await;
    assert_eq!(*heard_there.borrow(), [1, 2]);
    assert!(heard_here.borrow().is_empty());
}

#[wasm_bindgen_test]
async fn a_book_the_browser_threw_away_is_put_back_from_the_open_tab() {
    let store = first_visit().await;
    check_done(store.save("first", 0).await, 1);
    check_done(store.save("second", 1).await, 2);
    Database::delete_by_name(NAME).unwrap().await.unwrap();
    check_done(store.save("third", 2).await, 3);
    check_kept(&store, "third", 3).await;
}

#[wasm_bindgen_test]
async fn a_newer_layout_opens_at_once_and_the_old_tab_is_told_to_reload() {
    let store = first_visit().await;
    check_done(store.save("kept", 0).await, 1);
    let newer = Connection::open(2).await.unwrap();
    let Err(StoreError::Lost(sentence)) = store.save("late", 1).await else {
        panic!("the old tab must not save into a newer layout");
    };
    assert!(sentence.starts_with("A newer Pattywright"), "{sentence}");
    let transaction = newer.db.transaction(BOOK).build().unwrap();
    let book = transaction.object_store(BOOK).unwrap();
    assert_eq!(book.count().await, Ok(1));
}

#[wasm_bindgen_test]
async fn a_tab_that_holds_on_is_named_and_the_wait_ends_when_it_is_closed() {
    drop(first_visit().await);
    let stubborn = Database::open(NAME).with_version(1u32).await.unwrap();
    let Err(StoreError::Unavailable(sentence)) = Connection::open(2).await else {
        panic!("the older tab must be in the way");
    };
    assert!(sentence.contains("Close that tab"), "{sentence}");
    stubborn.close();
    // Nothing stays behind that would be in the way of the next layout.
    assert!(Connection::open(3).await.is_ok());
}

#[wasm_bindgen_test]
async fn a_record_that_cannot_be_read_is_neither_taken_for_nothing_nor_replaced() {
    let store = first_visit().await;
    let connection = Connection::open(1).await.unwrap();
    let transaction = connection
        .db
        .transaction(BOOK)
        .with_mode(TransactionMode::Readwrite)
        .build()
        .unwrap();
    let book = transaction.object_store(BOOK).unwrap();
    book.put("scribble").with_key(BOOK).await.unwrap();
    transaction.commit().await.unwrap();
    assert!(matches!(store.load().await, Err(StoreError::Lost(_))));
    assert!(matches!(store.save("new", 0).await, Err(StoreError::Lost(_))));
    let transaction = connection.db.transaction(BOOK).build().unwrap();
    let book = transaction.object_store(BOOK).unwrap();
    assert_eq!(book.get(BOOK).await, Ok(Some("scribble".to_owned())));
}

/// Source: W3C, *Indexed Database API 2.0*, section 3 "Exceptions": the names.
#[wasm_bindgen_test]
fn every_trouble_is_a_sentence_that_says_what_to_do() {
    let thrown = |name| Error::from(DomException::new_with_message_and_name("why", name).unwrap());
    assert_eq!(StoreError::from(thrown("QuotaExceededError")), StoreError::Full);
    assert_eq!(
        StoreError::from(OpenDbError::from(thrown("QuotaExceededError"))),
        StoreError::Full
    );
    let troubles = [
        StoreError::Full,
        thrown("InvalidStateError").into(),
        thrown("UnknownError").into(),
        OpenDbError::from(thrown("VersionError")).into(),
        OpenDbError::from(thrown("UnknownError")).into(),
        OpenDbError::NullFactory.into(),
    ];
    for sentence in troubles.map(|trouble| trouble.to_string()) {
        assert!(sentence.contains("Save a backup file"), "{sentence}");
        let small = sentence.to_lowercase();
        assert!(
            !["please", "oops", "invalid "].iter().any(|word| small.contains(word)),
            "{sentence}"
        );
    }
}

#[wasm_bindgen_test]
async fn the_browser_answers_whether_it_will_keep_the_book() {
    let promised = ask_to_persist().await;
    assert!(promised.is_some());
    assert_eq!(persisted().await, promised);
}

#[wasm_bindgen_test]
fn a_moment_is_noted_until_it_is_forgotten_and_a_browser_without_notes_claims_nothing() {
    let moment = 1_795_631_917_123.0;
    assert_eq!(Mark::Cleared.at_ms(), None);
    assert!(Mark::Cleared.note(moment));
    assert_eq!(Mark::Cleared.at_ms(), Some(moment));
    for other in [Mark::Saved, Mark::BackedUp, Mark::Asked] {
        assert_eq!(other.at_ms(), None, "{other:?}");
    }
    {
        let _notes = Lacking::new(web_sys::window().unwrap(), "localStorage");
        assert_eq!((Mark::Cleared.at_ms(), Mark::Cleared.note(1.0)), (None, false));
        Mark::Cleared.forget();
    }
    assert_eq!(Mark::Cleared.at_ms(), Some(moment));
    Mark::Cleared.forget();
    assert_eq!(Mark::Cleared.at_ms(), None);
}

/// Waits until the second copy is this one.
async fn copied(expected: Option<&str>) {
    for _ in 0..200 {
        if copy().await.as_deref() == expected {
            return;
        }
        pause(20).await;
    }
    assert_eq!(copy().await.as_deref(), expected);
}

#[wasm_bindgen_test]
async fn the_second_copy_is_the_last_text_kept() {
    let copies = Copies::default();
    for text in ["first", "second", "third"] {
        copies.keep(text.to_owned());
    }
    copied(Some("third")).await;
    copies.keep("fourth".to_owned());
    copied(Some("fourth")).await;

    // A browser that cannot write such a file keeps a note; an older copy in the file would pass for the book.
    let window = web_sys::window().unwrap();
    let handles = Reflect::get(&window, &"FileSystemFileHandle".into()).unwrap();
    let handles: Object = Reflect::get(&handles, &"prototype".into()).unwrap().into();
    {
        let _writing = Lacking::new(handles, "createWritable");
        copies.keep("fifth".to_owned());
        copied(Some("fifth")).await;
        // Too large to be kept twice.
        copies.keep("x".repeat(1_000_001));
        copied(None).await;
        copies.keep("sixth".to_owned());
        copied(Some("sixth")).await;
    }
    // A file takes the note's place again.
    copies.keep("seventh".to_owned());
    copied(Some("seventh")).await;
    let notes = window.local_storage().unwrap().unwrap();
    assert_eq!(notes.get_item("pattywright-copy").unwrap(), None);

    let _files = Lacking::new(window.navigator(), "storage");
    let _notes = Lacking::new(window, "localStorage");
    copies.keep("eighth".to_owned());
    pause(100).await;
    assert_eq!(copy().await, None);
}

/// Something the browser lacks until this is dropped.
struct Lacking {
    owner: Object,
    name: &'static str,
    before: JsValue,
}

impl Lacking {
    fn new(owner: impl Into<Object>, name: &'static str) -> Self {
        let owner = owner.into();
        let before = Reflect::get_own_property_descriptor(&owner, &name.into()).unwrap();
        let nothing = Object::new();
        Reflect::set(&nothing, &"value".into(), &JsValue::UNDEFINED).unwrap();
        Reflect::set(&nothing, &"configurable".into(), &true.into()).unwrap();
        Object::define_property(&owner, &name.into(), &nothing);
        assert!(Reflect::get(&owner, &name.into()).unwrap().is_undefined());
        Self { owner, name, before }
    }
}

impl Drop for Lacking {
    fn drop(&mut self) {
        Reflect::delete_property(&self.owner, &self.name.into()).unwrap();
        if let Some(before) = Object::try_from(&self.before) {
            Object::define_property(&self.owner, &self.name.into(), before);
        }
    }
}

#[wasm_bindgen_test]
async fn a_browser_without_news_or_promises_keeps_the_book_all_the_same() {
    let window = web_sys::window().unwrap();
    let _news = Lacking::new(window.clone(), "BroadcastChannel");
    let _promises = Lacking::new(window.navigator(), "storage");
    let store = first_visit().await;
    store.on_other_tab(|_| ());
    check_done(store.save("kept", 0).await, 1);
    assert_eq!((ask_to_persist().await, persisted().await), (None, None));
}

#[wasm_bindgen_test]
async fn a_browser_that_keeps_nothing_says_so() {
    let _database = Lacking::new(web_sys::window().unwrap(), "indexedDB");
    assert!(matches!(Store::open().await, Err(StoreError::Unavailable(_))));
}
