//! Writes the service worker from the finished files.
//!
//! The list of files, and the name of the cache with it, comes from the SHA-256 of the bytes that are served.
//! File names alone would not do: they carry a hash from before the WebAssembly was made smaller.

use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;
use std::{fs, io};

const TEMPLATE: &str = include_str!("../../src/app/shell/sw.js");

/// Whether a file is for scripts only, and not brought to a cook's phone.
pub fn for_scripts(address: &str) -> bool {
    address.starts_with("evaluate")
}

/// Writes `sw.js` into `dist`, listing every other file for the phone with its SHA-256.
pub fn write(dist: &Path) -> io::Result<()> {
    let mut files = BTreeMap::new();
    for path in files_below(dist)? {
        let address = address_of(dist, &path);
        if address != "sw.js" && !for_scripts(&address) {
            let address = if address == "index.html" {
                "./".to_owned()
            } else {
                address
            };
            files.insert(address, sha256(&fs::read(&path)?));
        }
    }
    fs::write(dist.join("sw.js"), text(&files))
}

fn text(files: &BTreeMap<String, String>) -> String {
    let list = serde_json::to_string_pretty(files).unwrap_or_default();
    // The template's own text is part of the build: a changed rule must reach the phones too.
    let build = &sha256(format!("{list}{TEMPLATE}").as_bytes())[..16];
    // In one block, so that a text cut short anywhere is no script at all, and a half-uploaded worker is refused.
    format!("{{\nconst BUILD = '{build}';\nconst FILES = {list};\n\n{TEMPLATE}}}\n")
}

/// Returns every file below `folder`, sorted.
pub fn files_below(folder: &Path) -> io::Result<Vec<std::path::PathBuf>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            found.extend(files_below(&path)?);
        } else {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

/// Returns the address of a file relative to the page: `icons/bowl.svg`.
pub fn address_of(dist: &Path, file: &Path) -> String {
    let inside = file.strip_prefix(dist).unwrap_or(file);
    let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
    parts.join("/")
}

/// Returns the SHA-256 of the bytes in hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().fold(String::new(), |mut hex, byte| {
        let _ = write!(hex, "{byte:02x}");
        hex
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: FIPS 180-4 example values, the SHA-256 of `abc`.
    #[test]
    fn sha256_matches_the_published_example() {
        assert_eq!(
            sha256(b"abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }

    #[test]
    fn a_changed_file_changes_the_build() {
        let files = |hash: &str| BTreeMap::from([("./".to_owned(), hash.to_owned())]);
        let build = |hash: &str| text(&files(hash)).lines().nth(1).map(str::to_owned);
        assert!(build("a").is_some_and(|line| line.starts_with("const BUILD")));
        assert_eq!(build("a"), build("a"));
        assert_ne!(build("a"), build("b"));
    }
}
