//! What the program weighs, crate by crate: the functions of the compiled module by name, before wasm-opt shrinks them.

use serde_json::{Value, json};
use std::collections::{BTreeMap, HashMap};
use std::path::Path;
use wasmparser::{KnownCustom, Name, Parser, Payload};

/// Crates below this share of the code are told together.
const SMALL: f64 = 0.01;

/// Returns one figure for each crate, heaviest first.
pub fn by_crate(module: &Path) -> Vec<Value> {
    let bytes = std::fs::read(module).expect("the page has been built");
    let (names, bodies) = functions(&bytes);
    let mut weights: BTreeMap<String, usize> = BTreeMap::new();
    for (index, size) in bodies {
        let name = names.get(&index).map_or("no name", String::as_str);
        *weights.entry(crate_of(name)).or_default() += size;
    }
    let all: usize = weights.values().sum();
    let (large, small): (Vec<_>, Vec<_>) = weights
        .into_iter()
        .partition(|(_, size)| *size as f64 >= SMALL * all as f64);
    let rest: usize = small.iter().map(|(_, size)| size).sum();
    let mut rows = large;
    rows.sort_by_key(|(_, size)| std::cmp::Reverse(*size));
    rows.push((format!("{} smaller crates", small.len()), rest));
    let figure =
        |(name, size): (String, usize)| json!({ "figure": format!("code of {name}"), "unit": "byte", "median": size });
    rows.into_iter().map(figure).collect()
}

/// Names by function index, and the size of each body with its index; imported functions come first.
fn functions(module: &[u8]) -> (HashMap<u32, String>, Vec<(u32, usize)>) {
    let (mut names, mut bodies, mut next) = (HashMap::new(), Vec::new(), 0);
    for payload in Parser::new(0).parse_all(module) {
        match payload.expect("rustc writes valid modules") {
            Payload::CodeSectionEntry(body) => {
                bodies.push((next, body.as_bytes().len()));
                next += 1;
            }
            Payload::CustomSection(section) => {
                if let KnownCustom::Name(reader) = section.as_known() {
                    for name in reader.into_iter().flatten() {
                        if let Name::Function(functions) = name {
                            let functions = functions.into_iter().flatten();
                            names.extend(functions.map(|f| (f.index, rustc_demangle::demangle(f.name).to_string())));
                        }
                    }
                }
            }
            Payload::ImportSection(imports) => {
                let imports = imports.into_imports().flatten();
                next += imports
                    .filter(|import| matches!(import.ty, wasmparser::TypeRef::Func(_)))
                    .count() as u32;
            }
            _ => {}
        }
    }
    (names, bodies)
}

/// `<app::House as core::ops::Drop>::drop` belongs to `app`; what is generic belongs to where it is written.
fn crate_of(name: &str) -> String {
    let name = name.trim_start_matches(['<', '&', '(', '*']);
    let name = name.strip_prefix("dyn ").unwrap_or(name);
    let end = name
        .find(|c: char| !c.is_alphanumeric() && c != '_')
        .unwrap_or(name.len());
    name[..end].to_owned()
}
