//! The rules themselves: text in, sentences about breaches out.

/// Packages that bring a browser, a clock, chance or a network; any name that begins so is meant.
const NOT_IN_THE_LIBRARY: [&str; 20] = [
    "chrono",
    "fastrand",
    "getrandom",
    "gloo",
    "hyper",
    "instant",
    "js-sys",
    "leptos",
    "mio",
    "rand",
    "reqwest",
    "serde-wasm-bindgen",
    "socket2",
    "time",
    "tokio",
    "ureq",
    "uuid",
    "wasm-bindgen",
    "web-sys",
    "web-time",
];

/// Parts of the standard library that reach outside the sums.
const NOT_IN_THE_SUMS: [&str; 6] = ["std::time", "std::net", "std::fs", "std::env", "Instant", "SystemTime"];

/// The order of the modules: each may use only those in the rows above its own.
const ROWS: [&[&str]; 9] = [
    &["words"],
    &["measure"],
    &["pantry"],
    &["formula"],
    &["balance", "heat", "service", "label", "trial"],
    &["patty"],
    &["document"],
    &["sheet"],
    &["app"],
];

/// Written apart, so that this file keeps its own rule.
const UNFINISHED: [&str; 4] = [
    concat!("TO", "DO"),
    concat!("FIX", "ME"),
    concat!("todo", "!"),
    concat!("unimplemented", "!"),
];

/// Licences that ask for no more than their notice; any of them may go into a page under MIT.
const LICENCES: [&str; 11] = [
    "0BSD",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "Unicode-3.0",
    "Zlib",
];

/// The name of a notation is written as an address, but nothing is asked for there.
const NOTATIONS: &str = "http://www.w3.org/";

/// Looks through `cargo tree --format "{p}|{l}"` for packages whose licence is not among ours.
pub fn licences(tree: &str) -> Vec<String> {
    let packages = tree.lines().filter_map(|line| line.split_once('|'));
    let mut found: Vec<String> = packages
        .filter(|(_, licence)| !may_be_used(licence.trim_end_matches(" (*)")))
        .map(|(package, licence)| format!("{package}: its licence is “{licence}”"))
        .collect();
    found.sort_unstable();
    found.dedup();
    found
}

/// Reads "A OR B", "A/B" and "(A OR B) AND C": of every part that must be kept, one choice has to be ours.
fn may_be_used(licence: &str) -> bool {
    let choices = |part: &str| part.replace('/', " OR ");
    licence.split(" AND ").all(|part| {
        let part = choices(part.trim_matches(['(', ')', ' ']));
        part.split(" OR ").any(|one| LICENCES.contains(&one.trim()))
    })
}

/// Looks through `cargo tree` for packages that the library must do without.
pub fn library_packages(tree: &str) -> Vec<String> {
    let names = tree.lines().filter_map(|line| line.split_whitespace().next());
    let mut found: Vec<&str> = names
        .filter(|name| NOT_IN_THE_LIBRARY.iter().any(|bad| is_or_belongs_to(name, bad)))
        .collect();
    found.sort_unstable();
    found.dedup();
    found
        .iter()
        .map(|name| format!("The library depends on {name}: it knows no browser, clock, chance or network."))
        .collect()
}

fn is_or_belongs_to(name: &str, family: &str) -> bool {
    name.strip_prefix(family)
        .is_some_and(|rest| rest.is_empty() || rest.starts_with(['-', '_']))
}

/// Looks for clocks, files, networks and the environment in library code.
pub fn library_words(file: &str, text: &str) -> Vec<String> {
    if module_of(file).is_none_or(|module| module == "app") {
        return Vec::new();
    }
    let code = code_of(text);
    let used = names_after(&code, "std::")
        .into_iter()
        .map(|name| format!("std::{name}"));
    let words = words_of(&code).map(str::to_owned);
    let mut found: Vec<String> = used
        .chain(words)
        .filter(|word| NOT_IN_THE_SUMS.contains(&word.as_str()))
        .collect();
    found.sort_unstable();
    found.dedup();
    found
        .iter()
        .map(|word| format!("{file}: {word} has no place in the sums; the app hands in what it needs."))
        .collect()
}

/// Looks for uses that point the wrong way.
pub fn arrows(file: &str, text: &str) -> Vec<String> {
    let Some(module) = module_of(file) else {
        return Vec::new();
    };
    let Some(row) = row_of(module) else {
        return vec![format!(
            "{file}: module {module} has no row in the order of modules (xtask, tidy rules)."
        )];
    };
    let code = code_of(text);
    let mut used: Vec<&str> = names_after(&code, "crate::");
    used.extend(names_after(&code, "pattywright::"));
    used.sort_unstable();
    used.dedup();
    used.iter()
        .filter(|name| **name != module && row_of(name).is_some_and(|other| other >= row))
        .map(|name| format!("{file}: {module} may not use {name}; arrows point from the app to the measures."))
        .collect()
}

fn row_of(module: &str) -> Option<usize> {
    ROWS.iter().position(|row| row.contains(&module))
}

/// Looks for modules that the developers' map does not name.
pub fn unnamed_modules<'a>(files: impl Iterator<Item = &'a str>, developers: &str) -> Vec<String> {
    let mut modules: Vec<&str> = files.filter_map(module_of).collect();
    modules.sort_unstable();
    modules.dedup();
    modules.retain(|module| !developers.contains(&format!("src/{module}")));
    modules
        .iter()
        .map(|module| format!("DEVELOPERS.md does not name src/{module}."))
        .collect()
}

/// Looks for addresses of other sites in what the phone gets.
pub fn outside_addresses(file: &str, text: &str) -> Vec<String> {
    let code = code_of(text);
    let starts = code.match_indices("http").map(|(at, _)| &code[at..]);
    starts
        .filter(|rest| rest.starts_with("http://") || rest.starts_with("https://"))
        .filter(|rest| !rest.starts_with(NOTATIONS))
        .map(|rest| {
            let address: String = rest
                .chars()
                .take_while(|c| !c.is_whitespace() && !"\"'`)<>".contains(*c))
                .collect();
            format!("{file}: {address} is another site; nothing may be asked for there.")
        })
        .collect()
}

/// Looks for work that was left for later.
pub fn unfinished_words(file: &str, text: &str) -> Vec<String> {
    let found = UNFINISHED.iter().filter(|word| text.contains(**word));
    found
        .map(|word| format!("{file}: {word} marks work that is not finished."))
        .collect()
}

/// `src/heat/mod.rs` and `src/heat.rs` belong to module `heat`; the map `src/lib.rs` and the build script belong to none.
fn module_of(file: &str) -> Option<&str> {
    let inside = file.strip_prefix("src/")?;
    let first = inside.split('/').next()?;
    let module = first.strip_suffix(".rs").unwrap_or(first);
    (!["lib", "build"].contains(&module)).then_some(module)
}

/// Returns the text without its comment lines: prose may speak of anything.
fn code_of(text: &str) -> String {
    text.lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect::<Vec<_>>()
        .join("\n")
}

fn words_of(code: &str) -> impl Iterator<Item = &str> {
    code.split(|c: char| !c.is_alphanumeric() && c != '_')
        .filter(|word| !word.is_empty())
}

/// Returns the names that follow `start`, also those in braces: `crate::{heat::Pan, patty}` gives `heat` and `patty`.
fn names_after<'a>(code: &'a str, start: &str) -> Vec<&'a str> {
    let mut names = Vec::new();
    for (at, _) in code.match_indices(start) {
        let rest = &code[at + start.len()..];
        let Some(inside) = rest.strip_prefix('{') else {
            names.extend(words_of(rest).next());
            continue;
        };
        let (mut depth, mut item) = (1, 0);
        for (place, c) in inside.char_indices() {
            depth += i32::from(c == '{') - i32::from(c == '}');
            if depth == 0 || (depth == 1 && c == ',') {
                names.extend(words_of(&inside[item..place]).next());
                item = place + 1;
            }
            if depth == 0 {
                break;
            }
        }
    }
    names
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(found: Vec<String>, expected_words: &[&str]) {
        assert_eq!(found.len(), expected_words.len(), "{found:#?}");
        for (sentence, word) in found.iter().zip(expected_words) {
            assert!(sentence.contains(word), "{sentence} does not speak of {word}");
        }
    }

    #[test]
    fn a_browser_or_a_clock_in_the_library_is_found() {
        let tree = "pattywright v0.1.0\nserde v1.0.0\nweb-sys v0.3.1\nwasm-bindgen-macro v0.2.1 (proc-macro)\nweb-sys v0.3.1 (*)\ntime v0.3.0";
        check(library_packages(tree), &["time", "wasm-bindgen-macro", "web-sys"]);
        check(library_packages("serde v1.0.0\nitoa v1.0.0\ntimely v1.0.0\n"), &[]);
    }

    #[test]
    fn a_licence_that_is_not_ours_is_found() {
        for ours in [
            "MIT",
            "MIT/Apache-2.0",
            "GPL-3.0 OR MIT",
            "(MIT OR Apache-2.0) AND Unicode-3.0",
            "Apache-2.0 WITH LLVM-exception OR MIT",
        ] {
            check(licences(&format!("one v1.0.0|{ours}")), &[]);
        }
        for other in ["GPL-3.0", "", "MIT AND GPL-2.0", "(GPL-2.0 OR GPL-3.0) AND MIT"] {
            check(licences(&format!("one v1.0.0|{other}")), &["one v1.0.0"]);
        }
    }

    #[test]
    fn a_clock_in_the_sums_is_found_however_it_is_brought_in() {
        check(
            library_words("src/heat/pan.rs", "use std::time::Duration;"),
            &["std::time"],
        );
        check(
            library_words("src/heat.rs", "use std::{\n    fmt,\n    fs::File,\n};"),
            &["std::fs"],
        );
        check(
            library_words("src/heat.rs", "let start = Instant::now();"),
            &["Instant"],
        );
        check(
            library_words("src/heat.rs", "// Instant coffee.\nstruct InstantMash;"),
            &[],
        );
        check(library_words("src/app/store.rs", "use std::time::Duration;"), &[]);
    }

    #[test]
    fn an_arrow_that_points_the_wrong_way_is_found() {
        check(
            arrows("src/measure/unit.rs", "use crate::formula::Line;"),
            &["may not use formula"],
        );
        check(
            arrows(
                "src/heat/pan.rs",
                "use crate::{measure::Unit, patty::{Round, Square}, label};",
            ),
            &["label", "patty"],
        );
        check(
            arrows("src/sheet/cook.rs", "let x = crate::app::main();"),
            &["may not use app"],
        );
        check(
            arrows(
                "src/heat/pan.rs",
                "use crate::heat::slab;\nuse crate::measure::Unit;\n/// [`crate::sheet`]",
            ),
            &[],
        );
        check(arrows("src/app/main.rs", "use pattywright::sheet::Cook;"), &[]);
        check(arrows("src/extra.rs", ""), &["no row"]);
        check(arrows("src/lib.rs", "pub use crate::app;"), &[]);
    }

    #[test]
    fn a_module_missing_from_the_map_is_found() {
        let files = [
            "src/lib.rs",
            "src/heat/mod.rs",
            "src/heat/pan.rs",
            "src/patty.rs",
            "xtask/src/main.rs",
        ];
        check(
            unnamed_modules(files.into_iter(), "- `src/heat/`: how warm"),
            &["src/patty"],
        );
    }

    #[test]
    fn an_address_of_another_site_is_found() {
        check(
            outside_addresses("a.css", "@import url(https://fonts.example/a.css);"),
            &["https://fonts.example/a.css is"],
        );
        check(
            outside_addresses("a.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\">, httpish"),
            &[],
        );
    }

    #[test]
    fn unfinished_work_is_found() {
        check(
            unfinished_words("a.rs", &format!("// {}: later", UNFINISHED[0])),
            &[UNFINISHED[0]],
        );
        check(unfinished_words("a.rs", "let todos = 1;"), &[]);
    }
}
