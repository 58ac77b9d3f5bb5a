//! A second copy of the book, in a file that the browser keeps for this page alone (the File System standard's origin
//! private files): browsers keep those apart from databases, and put a new text in place of the old one whole.
//!
//! Where a browser has no such files, the copy is a note in `localStorage`, which browsers write out late.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    File, FileSystemDirectoryHandle, FileSystemFileHandle, FileSystemGetFileOptions, FileSystemWritableFileStream,
};

const FILE: &str = "book.json";
const NOTE: &str = "pattywright-copy";
/// The browser gives all notes together about five million characters.
const LONGEST_NOTE: usize = 1_000_000;

/// Keeps second copies, one after the other; of what is saved meanwhile only the newest is copied.
#[derive(Clone, Default)]
pub struct Copies {
    waiting: Rc<RefCell<Option<String>>>,
    busy: Rc<Cell<bool>>,
}

impl Copies {
    /// Copies the book as it was just saved.
    pub fn keep(&self, text: String) {
        *self.waiting.borrow_mut() = Some(text);
        if self.busy.replace(true) {
            return;
        }
        let copies = self.clone();
        spawn_local(async move {
            while let Some(text) = copies.newest() {
                // An older copy is worse than none: it would pass for the book.
                if write(&text).await.is_ok() {
                    forget_note();
                } else {
                    let _ = forget_file().await;
                    note(&text);
                }
            }
            copies.busy.set(false);
        });
    }

    fn newest(&self) -> Option<String> {
        self.waiting.borrow_mut().take()
    }
}

/// The second copy of the book.
pub async fn copy() -> Option<String> {
    let noted = || notes()?.get_item(NOTE).ok()?;
    read().await.ok().flatten().or_else(noted)
}

async fn folder() -> Result<FileSystemDirectoryHandle, JsValue> {
    let storage = web_sys::window().ok_or(JsValue::NULL)?.navigator().storage();
    can(&storage, "getDirectory")?;
    JsFuture::from(storage.get_directory()).await?.dyn_into()
}

async fn forget_file() -> Result<JsValue, JsValue> {
    JsFuture::from(folder().await?.remove_entry(FILE)).await
}

async fn file(create: bool) -> Result<FileSystemFileHandle, JsValue> {
    let options = FileSystemGetFileOptions::new();
    options.set_create(create);
    let file = JsFuture::from(folder().await?.get_file_handle_with_options(FILE, &options)).await?;
    file.dyn_into()
}

/// An older browser lacks some of it, and asking for what is not there would stop the app.
fn can(object: &JsValue, method: &str) -> Result<(), JsValue> {
    let found = js_sys::Reflect::get(object, &method.into())?;
    if found.is_function() { Ok(()) } else { Err(found) }
}

/// What is written takes the place of the old text when the stream is closed, and not before.
async fn write(text: &str) -> Result<(), JsValue> {
    let file = file(true).await?;
    can(&file, "createWritable")?;
    let stream: FileSystemWritableFileStream = JsFuture::from(file.create_writable()).await?.dyn_into()?;
    JsFuture::from(stream.write_with_str(text)?).await?;
    JsFuture::from(stream.close()).await?;
    Ok(())
}

async fn read() -> Result<Option<String>, JsValue> {
    let file: File = JsFuture::from(file(false).await?.get_file()).await?.dyn_into()?;
    Ok(JsFuture::from(file.text()).await?.as_string())
}

fn note(text: &str) {
    if let Some(notes) = notes() {
        let kept = text.len() <= LONGEST_NOTE && notes.set_item(NOTE, text).is_ok();
        if !kept {
            forget_note();
        }
    }
}

fn forget_note() {
    if let Some(notes) = notes() {
        let _ = notes.remove_item(NOTE);
    }
}

fn notes() -> Option<web_sys::Storage> {
    web_sys::window()?.local_storage().ok()?
}
