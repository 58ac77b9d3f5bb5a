//! `cargo xtask test`: every check there is, one after the other, and a table at the end.

use crate::command::{Outcome, cargo, run, say};
use crate::tools::{BrowserTools, wasm_target};
use crate::{page, tidy};
use std::path::Path;
use std::process::Command;
use std::time::Instant;

struct Step {
    name: &'static str,
    what: &'static str,
    run: fn() -> Outcome,
}

/// The later steps take what the earlier ones have built.
const STEPS: [Step; 9] = [
    Step {
        name: "format",
        what: "Formatting",
        run: || run(&mut cargo("fmt --all --check")),
    },
    Step {
        name: "lint",
        what: "Lints, native (1 minute)",
        run: lint,
    },
    Step {
        name: "lint-app",
        what: "Lints, app in WebAssembly (2 minutes the first time)",
        run: lint_app,
    },
    Step {
        name: "native",
        what: "Native tests and examples in the docs (2 minutes)",
        run: native,
    },
    Step {
        name: "docs",
        what: "Documentation without warnings",
        run: docs,
    },
    Step {
        name: "browser",
        what: "WebAssembly tests in Chromium (3 minutes the first time)",
        run: browser,
    },
    Step {
        name: "page",
        what: "The page as a phone gets it",
        run: page::dist,
    },
    Step {
        name: "tidy",
        what: "House rules",
        run: tidy::tidy,
    },
    Step {
        name: "e2e",
        what: "The page at phone size, without a network, for everyone (2 minutes)",
        run: e2e,
    },
];

/// Runs the named steps (separated by commas; none named means all), and fails when one of them failed.
pub fn test(only: &str) -> Outcome {
    let names: Vec<&str> = only.split(',').filter(|name| !name.is_empty()).collect();
    if let Some(unknown) = names.iter().find(|name| STEPS.iter().all(|step| step.name != **name)) {
        let known: Vec<&str> = STEPS.iter().map(|step| step.name).collect();
        return Err(format!(
            "There is no step {unknown}. The steps are {}.",
            known.join(", ")
        ));
    }
    let mut table = String::new();
    let mut failed = 0;
    let steps: Vec<&Step> = STEPS
        .iter()
        .filter(|step| names.is_empty() || names.contains(&step.name))
        .collect();
    for step in &steps {
        say(step.what);
        let start = Instant::now();
        let outcome = (step.run)();
        let seconds = start.elapsed().as_secs_f64();
        let (mark, why) = match &outcome {
            Ok(()) => ("ok", String::new()),
            Err(why) => ("FAILED", why.lines().take(1).collect()),
        };
        if let Err(why) = outcome {
            failed += 1;
            eprintln!("{why}");
        }
        table.push_str(&format!("{:<10} {mark:<7} {seconds:>6.1} s  {why}\n", step.name));
    }
    println!("\n{table}\nsteps: {} passed, {failed} failed", steps.len() - failed);
    if failed == 0 {
        Ok(())
    } else {
        Err("Not everything passed.".to_owned())
    }
}

fn lint() -> Outcome {
    run(&mut cargo("clippy --quiet --workspace --all-targets -- -D warnings"))
}

fn lint_app() -> Outcome {
    wasm_target()?;
    run(&mut cargo(
        "clippy --quiet --target wasm32-unknown-unknown --features app --bins -- -D warnings",
    ))
}

fn native() -> Outcome {
    run(&mut cargo("test --workspace --exclude e2e"))
}

fn docs() -> Outcome {
    run(cargo("doc --quiet --no-deps --lib").env("RUSTDOCFLAGS", "-D warnings"))
}

/// Runs the app's own tests, and those in `tests/browser` when there are any.
fn browser() -> Outcome {
    let tools = BrowserTools::set_up()?;
    let mut tests = cargo("test --target wasm32-unknown-unknown --features app --bin app");
    if Path::new("tests/browser").is_dir() {
        tests.args(["--test", "browser"]);
    }
    run(tests
        .env("CHROMEDRIVER", &tools.chromedriver)
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", &tools.wasm_test_runner)
        .env("WASM_BINDGEN_TEST_TIMEOUT", "120"))
}

fn e2e() -> Outcome {
    if !Path::new("dist/sw.js").is_file() {
        page::dist()?;
    }
    // A browser has two cores' worth of work with one page, so the tests take turns.
    run(in_browser(&mut cargo("test --package e2e"))?.args(["--", "--test-threads=1"]))
}

/// Tells a command of the end-to-end package where the browser's tools are.
pub fn in_browser(command: &mut Command) -> Outcome<&mut Command> {
    let tools = BrowserTools::set_up()?;
    Ok(command
        .env("CHROMEDRIVER", &tools.chromedriver)
        .env("PATTYWRIGHT_AXE", &tools.axe))
}
