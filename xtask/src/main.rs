//! The project's own commands: `cargo xtask COMMAND`.

mod audit;
mod checks;
mod command;
mod coverage;
mod measure;
mod page;
mod tidy;
mod tools;

use command::Outcome;
use std::process::ExitCode;

const USAGE: &str = "\
cargo xtask COMMAND

  serve [--watch]       set up what is missing, build the page, serve it
  dist                  set up, build the page into the folder dist and one archive
  test [--only A,B]     set up, check everything; --only names the steps to run
  coverage              print how many lines of the library the native tests run
  tidy                  check the house rules that need no build
  measure [--quick]     print sizes and times; a full one is kept in xtask/measured.jsonl";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match page::go_home().and_then(|()| obey(&words)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

fn obey(words: &[&str]) -> Outcome {
    match words {
        ["serve"] => page::serve(false),
        ["serve", "--watch"] => page::serve(true),
        ["dist"] => page::dist(),
        ["test"] => checks::test(""),
        ["test", "--only", steps] => checks::test(steps),
        ["coverage"] => coverage::coverage(),
        ["tidy"] => tidy::tidy(),
        ["measure"] => measure::measure(measure::FULL),
        ["measure", "--quick"] => measure::measure(3),
        // Trunk calls this when the files of the page are finished.
        ["postbuild"] => {
            let folder = std::env::var_os("TRUNK_STAGING_DIR").ok_or("TRUNK_STAGING_DIR is not set; Trunk sets it.")?;
            let folder = std::path::Path::new(&folder);
            let finished = xtask::styles::join(folder)
                .and_then(|()| xtask::names::by_content(folder))
                .and_then(|()| xtask::worker::write(folder));
            finished.map_err(|error| format!("The page could not be finished: {error}"))
        }
        _ => Err(USAGE.to_owned()),
    }
}
