//! Folders: the built page, copies of it that a test may change, and a browser's profile.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use xtask::worker::{address_of, files_below};

/// A folder of the test's own; it goes when dropped.
pub struct Folder(PathBuf);

impl Folder {
    /// Makes an empty folder.
    pub fn new() -> Folder {
        static COUNT: AtomicUsize = AtomicUsize::new(0);
        let name = format!(
            "pattywright-{}-{}",
            std::process::id(),
            COUNT.fetch_add(1, Ordering::Relaxed)
        );
        let path = std::env::temp_dir().join(name);
        fs::create_dir_all(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        Folder(path)
    }

    /// Returns where it is.
    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Default for Folder {
    fn default() -> Folder {
        Folder::new()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// Returns the folder of the built page.
pub fn dist() -> PathBuf {
    let dist = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../dist");
    assert!(
        dist.join("sw.js").is_file(),
        "The page is not built: run cargo xtask dist."
    );
    dist
}

/// Returns a copy of the built page that a test may change.
pub fn site() -> Folder {
    let (from, to) = (dist(), Folder::new());
    for file in files_below(&from).expect("the built page can be read") {
        let copy = to.path().join(address_of(&from, &file));
        fs::create_dir_all(copy.parent().expect("a file is in a folder")).expect("a folder can be made");
        fs::copy(&file, &copy).expect("a file can be copied");
    }
    to
}
