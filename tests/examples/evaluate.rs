//! Reads a document on standard input, writes the report on standard output.
//!
//! Exit status 0 when a report was written; 2 when the document could not be read, with one sentence on standard error.

use std::io::Read;
use std::process::ExitCode;

fn main() -> ExitCode {
    let mut text = String::new();
    if std::io::stdin().read_to_string(&mut text).is_err() {
        eprintln!("Standard input is not text in UTF-8");
        return ExitCode::from(2);
    }
    match pattywright::document::read(&text) {
        Ok(asked) => {
            let report = pattywright::document::evaluate(&asked);
            match serde_json::to_string_pretty(&report) {
                Ok(text) => println!("{text}"),
                Err(error) => {
                    eprintln!("The report could not be written: {error}");
                    return ExitCode::from(2);
                }
            }
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("{why}");
            ExitCode::from(2)
        }
    }
}
