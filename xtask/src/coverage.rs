//! `cargo xtask coverage`: how many lines of each module of the library its native tests run.
//!
//! A line that is run is not yet a line that is checked; for that, changes are made to the code on purpose (DEVELOPERS.md).

use crate::command::{Outcome, cargo, read, run, say};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

const FOLDER: &str = "target/coverage";

/// Runs the tests with counters in the code, and prints a table.
pub fn coverage() -> Outcome {
    let tools = llvm_tools()?;
    let folder = env::current_dir().map_err(|error| error.to_string())?.join(FOLDER);
    let counts = folder.join("counts");
    // What an earlier run counted would be added.
    let _ = fs::remove_dir_all(&counts);
    let counting = |words: &str| {
        let mut command = cargo(words);
        command
            .env("RUSTFLAGS", "-C instrument-coverage")
            .env("CARGO_TARGET_DIR", &folder)
            .env("LLVM_PROFILE_FILE", counts.join("%m-%p.profraw"));
        command
    };
    say("Running the native tests with counters (about 3 minutes the first time)");
    run(&mut counting("test --quiet --test it"))?;
    let program = test_program(&read(&mut counting(
        "test --quiet --test it --no-run --message-format=json",
    ))?)?;

    let merged = folder.join("merged.profdata");
    let raw = fs::read_dir(&counts).map_err(|error| format!("{}: {error}", counts.display()))?;
    run(Command::new(tools.join("llvm-profdata"))
        .args(["merge", "--sparse", "--output"])
        .arg(&merged)
        .args(raw.flatten().map(|entry| entry.path())))?;
    let report = read(
        Command::new(tools.join("llvm-cov"))
            .args(["export", "--summary-only", "--instr-profile"])
            .arg(&merged)
            .arg(program),
    )?;
    print!("{}", table(&report)?);
    Ok(())
}

/// The folder of LLVM's programs that belong to this Rust.
fn llvm_tools() -> Outcome<PathBuf> {
    let libraries = read(Command::new("rustc").args(["--print", "target-libdir"]))?;
    let tools = Path::new(libraries.trim()).with_file_name("bin");
    if !tools.join("llvm-cov").is_file() {
        say("Adding the Rust component llvm-tools (about 20 seconds)");
        run(Command::new("rustup").args(["component", "add", "llvm-tools"]))?;
    }
    Ok(tools)
}

/// The program of the tests, from what Cargo says it has built.
fn test_program(said: &str) -> Outcome<String> {
    said.lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok())
        .find_map(|built| built["executable"].as_str().map(str::to_owned))
        .ok_or_else(|| "Cargo named no test program.".to_owned())
}

fn table(report: &str) -> Outcome<String> {
    let report: Value = serde_json::from_str(report).map_err(|error| error.to_string())?;
    let mut modules: BTreeMap<&str, (u64, u64)> = BTreeMap::new();
    for file in report["data"][0]["files"].as_array().into_iter().flatten() {
        let name = file["filename"].as_str().unwrap_or_default();
        let Some(module) = module_of(name) else { continue };
        let lines = &file["summary"]["lines"];
        for module in [module, "all"] {
            let sums = modules.entry(module).or_default();
            sums.0 += lines["count"].as_u64().unwrap_or_default();
            sums.1 += lines["covered"].as_u64().unwrap_or_default();
        }
    }
    let mut table = format!("{:<12} {:>8} {:>8} {:>8}\n", "module", "lines", "run", "of 100");
    for (module, (lines, covered)) in modules {
        let share = 100.0 * covered as f64 / lines as f64;
        table.push_str(&format!("{module:<12} {lines:>8} {covered:>8} {share:>8.1}\n"));
    }
    Ok(table)
}

/// `balance` of `/somewhere/src/balance/rescue.rs`; nothing for what is not the library's own.
fn module_of(file: &str) -> Option<&str> {
    let (before, within) = file.rsplit_once("/src/")?;
    let own = Path::new(before).join("src/balance").is_dir();
    let module = within.split(['/', '.']).next()?;
    (own && module != "app").then_some(module)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_summed_by_module_and_over_all() {
        let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../src");
        let report = serde_json::json!({ "data": [{ "files": [
            { "filename": format!("{root}/heat/slab.rs"), "summary": { "lines": { "count": 30, "covered": 30 } } },
            { "filename": format!("{root}/heat/step.rs"), "summary": { "lines": { "count": 10, "covered": 0 } } },
            { "filename": "/elsewhere/src/lib.rs", "summary": { "lines": { "count": 99, "covered": 0 } } },
        ] }] });
        let table = table(&report.to_string()).unwrap();
        assert!(table.contains("heat               40       30     75.0"), "{table}");
        assert!(table.contains("all                40       30     75.0"), "{table}");
    }
}
