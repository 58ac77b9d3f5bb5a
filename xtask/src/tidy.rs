//! `cargo xtask tidy`: the house rules that a program can check.

mod rules;

use crate::command::{Outcome, cargo, read, say};
use std::fs;
use std::path::{Path, PathBuf};
use xtask::worker::{address_of, files_below};

/// A file this long is hard to hold in the head; it is listed, not refused.
const LONG_FILE_LINES: usize = 500;

/// Checks the rules, and lists every breach of them.
pub fn tidy() -> Outcome {
    let mut faults = rules::library_packages(&read(&mut cargo(
        "tree --package pattywright --edges normal --no-default-features --prefix none",
    ))?);

    for target in ["wasm32-unknown-unknown", "x86_64-unknown-linux-gnu"] {
        let mut tree = cargo(&format!(
            "tree --workspace --all-features --target {target} --prefix none --format"
        ));
        faults.extend(rules::licences(&read(tree.arg("{p}|{l}"))?));
    }

    let sources = texts(&["src", "tests", "xtask", "style", "index.html", "Trunk.toml"])?;
    for (file, text) in &sources {
        faults.extend(rules::unfinished_words(file, text));
        if file.ends_with(".rs") {
            faults.extend(rules::library_words(file, text));
            faults.extend(rules::arrows(file, text));
        }
    }
    let developers = fs::read_to_string("DEVELOPERS.md").unwrap_or_default();
    faults.extend(rules::unnamed_modules(
        sources.iter().map(|(file, _)| file.as_str()),
        &developers,
    ));

    if Path::new("dist").is_dir() {
        for (file, text) in texts(&["dist"])? {
            faults.extend(rules::outside_addresses(&file, &text));
        }
    } else {
        say("There is no dist, so it was not looked at (cargo xtask dist builds it)");
    }

    for (file, text) in &sources {
        let lines = text.lines().count();
        if lines > LONG_FILE_LINES && !file.ends_with(".csv") {
            println!("note: {file} has {lines} lines; could it be two files?");
        }
    }
    if faults.is_empty() {
        println!("House rules kept in {} files.", sources.len());
        return Ok(());
    }
    Err(format!(
        "{} breaches of the house rules:\n{}",
        faults.len(),
        faults.join("\n")
    ))
}

/// Returns every text file below the given places: its path from the project's folder, and what is in it.
fn texts(places: &[&str]) -> Outcome<Vec<(String, String)>> {
    let mut found = Vec::new();
    for place in places {
        let files = if Path::new(place).is_file() {
            Ok(vec![PathBuf::from(place)])
        } else {
            files_below(place.as_ref())
        };
        for file in files.map_err(|error| format!("{place}: {error}"))? {
            // What is not text (a picture, WebAssembly) has no words to check.
            if let Ok(text) = fs::read_to_string(&file) {
                found.push((address_of(Path::new(""), &file), text));
            }
        }
    }
    Ok(found)
}
