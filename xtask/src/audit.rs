//! The page under Lighthouse, as on a middling phone with a slow network: performance, accessibility, best practices.

use crate::command::{Outcome, on_path, read, say};
use crate::tools::lighthouse;
use serde_json::{Value, json};
use std::path::Path;
use std::process::Command;
use xtask::server::Server;

/// Lighthouse asks for the median of five runs where they differ.
const ROUNDS: usize = 5;
const CATEGORIES: [&str; 3] = ["performance", "accessibility", "best-practices"];

/// The scores of each kind, of 100.
pub fn scores() -> Outcome<Vec<Value>> {
    let lighthouse = lighthouse()?;
    say(&format!("Auditing the page {ROUNDS} times (about 3 minutes)"));
    let server =
        Server::start(Path::new("dist"), "/", "127.0.0.1:0").map_err(|error| format!("No port is free: {error}"))?;
    let mut scores = [const { Vec::new() }; CATEGORIES.len()];
    for _ in 0..ROUNDS {
        let mut audit = Command::new(&lighthouse);
        audit
            .arg(format!("http://127.0.0.1:{}/", server.port()))
            .args(["--quiet", "--output=json", "--chrome-flags=--headless --no-sandbox"])
            .arg(format!("--only-categories={}", CATEGORIES.join(",")));
        if let Some(chromium) = on_path("chromium") {
            audit.env("CHROME_PATH", chromium);
        }
        let report: Value = serde_json::from_str(&read(&mut audit)?).map_err(|error| error.to_string())?;
        for (name, scores) in CATEGORIES.iter().zip(&mut scores) {
            let score = report["categories"][name]["score"].as_f64();
            scores.push(100.0 * score.ok_or_else(|| format!("Lighthouse gave no score for {name}."))?);
        }
    }
    Ok(CATEGORIES
        .iter()
        .zip(scores)
        .map(|(name, scores)| figure(name, scores))
        .collect())
}

fn figure(name: &str, mut scores: Vec<f64>) -> Value {
    scores.sort_by(f64::total_cmp);
    json!({ "figure": format!("Lighthouse, {name}"), "unit": "of 100", "rounds": scores.len(), "reach": 100.0,
        "median": scores[scores.len() / 2], "least": scores[0], "most": scores[scores.len() - 1] })
}
