//! Tries to break the readers: a typed quantity, a pasted list, a saved document.
//!
//! `cargo run --release --example fuzz -- <quantity | list | document> <inputs> [seed]`
//!
//! Inputs are the texts of `corpus` changed at random, and changed again where a change was answered in a new way.
//! Each must keep the laws of `laws.rs`, without a panic and within a second. What breaks them is made as short as it
//! still breaks and printed; the exit status is then 1. The same seed gives the same inputs.

mod chance;
mod laws;
mod mutate;

use chance::Chance;
use pattywright::document::{paste, read as read_document};
use pattywright::measure::{Cup, read};
use pattywright::pantry::Pantry;
use std::collections::HashSet;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::panic::catch_unwind;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// One reader under attack.
struct Target {
    name: &'static str,
    corpus: &'static str,
    law: fn(&str) -> Result<(), String>,
    /// What kind of answer a text gets, in a few words.
    answer: fn(&str) -> String,
    /// Whether most changes should leave JSON.
    json: bool,
    /// Inputs grow no longer than this, characters.
    longest: usize,
}

const TARGETS: [Target; 3] = [
    Target {
        name: "quantity",
        corpus: include_str!("corpus/quantities.txt"),
        law: laws::typed_quantity,
        answer: quantity_answer,
        json: false,
        longest: 250,
    },
    Target {
        name: "list",
        corpus: include_str!("corpus/lists.txt"),
        law: laws::pasted_list,
        answer: list_answer,
        json: false,
        longest: 700,
    },
    Target {
        name: "document",
        corpus: include_str!("corpus/documents.txt"),
        law: laws::opened_document,
        answer: document_answer,
        json: true,
        longest: 3_000,
    },
];

/// Longer than this is a fault of its own.
const SLOWEST: Duration = Duration::from_secs(1);
/// Kept inputs beyond this take the place of older ones.
const MOST_KEPT: usize = 4_000;

fn main() -> ExitCode {
    let mut words = std::env::args().skip(1);
    let target = words
        .next()
        .and_then(|name| TARGETS.iter().find(|target| target.name == name));
    let inputs = words.next().and_then(|count| count.parse::<u64>().ok());
    let (Some(target), Some(inputs)) = (target, inputs) else {
        eprintln!("Name a reader (quantity, list or document) and how many inputs to try, such as: quantity 1000000");
        return ExitCode::from(2);
    };
    let seed = words.next().and_then(|seed| seed.parse().ok()).unwrap_or(1);
    // A panic is caught and told below, in one line.
    std::panic::set_hook(Box::new(|_| {}));
    let start = Instant::now();
    let (findings, kept) = attack(target, inputs, seed);
    println!(
        "{}: {inputs} inputs, seed {seed}, {:.1} s, {kept} kept, {} findings",
        target.name,
        start.elapsed().as_secs_f64(),
        findings.len()
    );
    for finding in &findings {
        println!("{finding}");
    }
    ExitCode::from(u8::from(!findings.is_empty()))
}

/// Tries so many inputs; returns what was found, and how many inputs were kept for their answers.
fn attack(target: &Target, inputs: u64, seed: u64) -> (Vec<String>, usize) {
    const MOST_FINDINGS: usize = 20;
    let mut chance = Chance::new(seed);
    let mut pool: Vec<String> = target.corpus.split("\n---\n").map(str::to_owned).collect();
    let mut seen = HashSet::new();
    let mut findings = Vec::new();
    for _ in 0..inputs {
        let text = if target.json && chance.below(4) > 0 {
            mutate::changed_json(&pool, target.longest, &mut chance)
        } else {
            mutate::changed(&pool, target.longest, &mut chance)
        };
        if let Some(fault) = fault(target, &text) {
            let shortest = shortened(target, &text);
            findings.push(format!("{fault}\n  shortest: {shortest:?}"));
            if findings.len() == MOST_FINDINGS {
                break;
            }
            continue;
        }
        let mut hasher = DefaultHasher::new();
        (target.answer)(&text).hash(&mut hasher);
        if seen.insert(hasher.finish()) {
            if pool.len() < MOST_KEPT {
                pool.push(text);
            } else {
                let place = chance.below(pool.len());
                pool[place] = text;
            }
        }
    }
    (findings, seen.len())
}

/// What is wrong with the answer to a text, if anything.
fn fault(target: &Target, text: &str) -> Option<String> {
    let start = Instant::now();
    let outcome = catch_unwind(|| (target.law)(text));
    let took = start.elapsed();
    match outcome {
        Err(panic) => {
            let said = panic.downcast_ref::<String>().map(String::as_str);
            let said = said.or(panic.downcast_ref::<&str>().copied()).unwrap_or("no words");
            Some(format!("{text:?} panics: {said}"))
        }
        Ok(Err(broken)) => Some(broken),
        // A busy machine can hold up any one run, but hardly three.
        Ok(Ok(())) if SLOWEST < took && (0..2).all(|_| SLOWEST < time(target, text)) => {
            Some(format!("{text:?} takes {took:?}"))
        }
        Ok(Ok(())) => None,
    }
}

fn time(target: &Target, text: &str) -> Duration {
    let start = Instant::now();
    let _ = (target.law)(text);
    start.elapsed()
}

/// The text with as much taken out as leaves it at fault.
fn shortened(target: &Target, text: &str) -> String {
    let mut shortest: Vec<char> = text.chars().collect();
    let mut step = shortest.len().div_ceil(2);
    while step > 0 {
        let mut at = 0;
        while at < shortest.len() {
            let end = (at + step).min(shortest.len());
            let without: Vec<char> = [&shortest[..at], &shortest[end..]].concat();
            if fault(target, &without.iter().collect::<String>()).is_some() {
                shortest = without;
            } else {
                at = end;
            }
        }
        step /= 2;
    }
    shortest.into_iter().collect()
}

/// The answer with its figures and names rubbed out, so that only its kind is left.
fn kind(answer: &str) -> String {
    let mut kind = String::new();
    for c in answer.chars() {
        let rubbed = if c.is_numeric() { '0' } else { c };
        if !(rubbed == '0' && kind.ends_with('0')) {
            kind.push(rubbed);
        }
    }
    kind
}

fn quantity_answer(text: &str) -> String {
    match read(text) {
        Ok(quantity) => kind(&format!("{quantity:?}")),
        Err(why) => kind(&format!("{why:?}")).chars().take(30).collect(),
    }
}

fn list_answer(text: &str) -> String {
    let pantry = Pantry::new(&[], Cup::Us);
    let line = |pasted: pattywright::document::Pasted| {
        let line = pasted.line;
        let found = (line.ingredient.is_some(), line.cut.is_some(), line.note.is_empty());
        format!("{:?} {found:?} {};", pasted.understood, kind(&line.amount))
    };
    match paste(&pantry, text) {
        Ok(lines) => lines.into_iter().map(line).collect(),
        Err(why) => format!("{why:?}"),
    }
}

fn document_answer(text: &str) -> String {
    match read_document(text) {
        Ok(asked) => {
            let counts = (
                asked.document.pantry.len(),
                asked.document.formulas.len(),
                asked.questions.len(),
            );
            let problems = asked
                .problems
                .iter()
                .map(|problem| kind(&problem.say))
                .collect::<String>();
            format!("{counts:?} {problems}")
        }
        Err(why) => kind(&why.to_string()).chars().take(30).collect(),
    }
}
