//! `cargo xtask measure`: what the page weighs and how soon it answers.
//!
//! Times drift on a shared machine, so each is set beside a yardstick measured in turn with it:
//! a plain Leptos counter for the page, a spreadsheet engine and a general integrator for the sums.
//! The sizes are taken here; the page is timed in a browser, in the end-to-end package.

use crate::audit;
use crate::checks::in_browser;
use crate::command::{Outcome, cargo, read, run, say};
use crate::page;
use crate::tools::PageTools;
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::process::Command;
use xtask::server::gzip;
use xtask::worker::{address_of, files_below, for_scripts};

/// So many rounds are worth keeping.
pub const FULL: usize = 9;
/// Everything a first visit brings to the phone, gzip.
const FIRST_VISIT_BYTES: usize = 300_000;
const COUNTER: &str = "target/counter";
const SUMS: &str = "target/sums";
/// The compiled module with the names of its functions.
const MODULE: &str = "target/wasm32-unknown-unknown/phone/app.wasm";
/// One line for each full measuring, oldest first.
const HISTORY: &str = "xtask/measured.jsonl";

/// Measures, and prints a table and then JSON.
pub fn measure(rounds: usize) -> Outcome {
    page::dist()?;
    build_counter()?;
    let (files, mut figures) = sizes()?;
    say(&format!(
        "Timing {rounds} rounds in Chromium (about {} minutes)",
        rounds / 4 + 1
    ));
    let timed = cargo(&format!(
        "run --quiet --package e2e --bin measure -- {COUNTER}/dist {MODULE} {rounds}"
    ));
    let timed: Vec<Value> =
        serde_json::from_str(&read(in_browser(&mut { timed })?)?).map_err(|error| error.to_string())?;
    figures.extend(timed);
    figures.extend(sums()?);
    if rounds >= FULL {
        figures.extend(audit::scores()?);
    }
    println!("{}", table(&files, &figures));
    let all = json!({ "figures": figures, "files": files });
    println!(
        "{}",
        serde_json::to_string_pretty(&all).map_err(|error| error.to_string())?
    );
    if rounds >= FULL { keep(&figures) } else { Ok(()) }
}

/// Adds a line to the history: the commit that was measured, and the median of every figure.
fn keep(figures: &[Value]) -> Outcome {
    let commit = read(Command::new("git").args(["log", "-1", "--format=%h %cs"]))?;
    let median = |figure: &Value| Some((figure["figure"].as_str()?.to_owned(), figure["median"].clone()));
    let medians: serde_json::Map<String, Value> = figures.iter().filter_map(median).collect();
    let line = json!({ "commit": commit.trim(), "medians": medians });
    let mut history = fs::read_to_string(HISTORY).unwrap_or_default();
    history.push_str(&format!("{line}\n"));
    fs::write(HISTORY, history).map_err(|error| format!("{HISTORY}: {error}"))
}

/// Returns every file of the page with its size, and the total as a figure.
fn sizes() -> Outcome<(Vec<Value>, Vec<Value>)> {
    let dist = Path::new("dist");
    let (mut files, mut raw_total, mut gzip_total) = (Vec::new(), 0, 0);
    for file in files_below(dist).map_err(|error| format!("dist: {error}"))? {
        let bytes = fs::read(&file).map_err(|error| format!("{}: {error}", file.display()))?;
        let (raw, packed) = (bytes.len(), gzip(&bytes).len());
        let address = address_of(dist, &file);
        if !for_scripts(&address) {
            raw_total += raw;
            gzip_total += packed;
        }
        files.push(json!({ "file": address, "raw": raw, "gzip": packed }));
    }
    let figures = vec![
        json!({ "figure": "first visit, every file, gzip", "unit": "byte", "median": gzip_total, "reach": FIRST_VISIT_BYTES }),
        json!({ "figure": "first visit, every file, raw", "unit": "byte", "median": raw_total }),
    ];
    Ok((files, figures))
}

/// Builds the page's yardstick.
fn build_counter() -> Outcome {
    let root = Path::new(COUNTER);
    unpack(
        root,
        &[
            ("Cargo.toml", include_str!("../counter/package.toml")),
            ("src/main.rs", include_str!("../counter/main.rs")),
            ("index.html", include_str!("../counter/index.html")),
            ("Trunk.toml", "[build]\nno_sri = true\n"),
        ],
    )?;
    say("Building the counter to compare with (about 2 minutes the first time)");
    run(PageTools::set_up()?
        .trunk()
        .args(["build", "--offline"])
        .current_dir(root))
}

/// Times the sums natively, beside a spreadsheet engine.
fn sums() -> Outcome<Vec<Value>> {
    let root = Path::new(SUMS);
    unpack(
        root,
        &[
            ("Cargo.toml", include_str!("../sums/package.toml")),
            ("src/main.rs", include_str!("../sums/main.rs")),
            ("src/heat.rs", include_str!("../sums/heat.rs")),
        ],
    )?;
    say("Timing the sums (about 2 minutes the first time)");
    let timed = read(cargo("run --quiet --release").current_dir(root))?;
    serde_json::from_str(&timed).map_err(|error| error.to_string())
}

/// Lays a package out in a folder of its own, with the versions this project uses.
fn unpack(root: &Path, files: &[(&str, &str)]) -> Outcome {
    let lock = fs::read_to_string("Cargo.lock").map_err(|error| format!("Cargo.lock: {error}"))?;
    for (name, text) in files.iter().copied().chain([("Cargo.lock", lock.as_str())]) {
        let file = root.join(name);
        // What has not changed is left alone, so that it need not be built again; Cargo shortens the lock file.
        if fs::read_to_string(&file).is_ok_and(|old| old == text || name == "Cargo.lock") {
            continue;
        }
        let folder = file.parent().unwrap_or(root);
        fs::create_dir_all(folder)
            .and_then(|()| fs::write(&file, text))
            .map_err(|error| format!("{name}: {error}"))?;
    }
    Ok(())
}

fn table(files: &[Value], figures: &[Value]) -> String {
    let mut table = format!("{:<44} {:>9} {:>9}\n", "file", "raw", "gzip");
    for file in files {
        let name = file["file"].as_str().unwrap_or_default();
        table.push_str(&format!(
            "{name:<44} {:>9} {:>9}\n",
            shown(&file["raw"]),
            shown(&file["gzip"])
        ));
    }
    let head = ["median", "least", "most", "reach", "unit"]
        .map(|word| format!(" {word:>9}"))
        .concat();
    table.push_str(&format!("\n{:<44}{head}\n", "figure"));
    for figure in figures {
        let name = figure["figure"].as_str().unwrap_or_default();
        let cells = ["median", "least", "most", "reach", "unit"].map(|key| format!(" {:>9}", shown(&figure[key])));
        table.push_str(&format!("{name:<44}{}\n", cells.concat()));
    }
    table
}

/// What was not measured is shown as a dash, never as nought.
fn shown(value: &Value) -> String {
    match value {
        Value::Null => "–".to_owned(),
        Value::String(text) => text.clone(),
        Value::Number(number) if number.is_f64() => {
            format!("{:.2}", number.as_f64().unwrap_or(f64::NAN))
        }
        other => other.to_string(),
    }
}
