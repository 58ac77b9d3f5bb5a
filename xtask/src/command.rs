//! Running other programs, and saying so.

use std::io::IsTerminal;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// What went wrong, as a sentence for the person at the keyboard.
pub type Outcome<T = ()> = Result<T, String>;

/// Says what is about to happen.
pub fn say(what: &str) {
    if std::io::stderr().is_terminal() {
        eprintln!("\x1b[1m→ {what}\x1b[0m");
    } else {
        eprintln!("→ {what}");
    }
}

/// Runs a program with its output shown, and wants it to succeed.
pub fn run(command: &mut Command) -> Outcome {
    let status = command
        .status()
        .map_err(|error| format!("{} did not start: {error}", name(command)))?;
    if status.success() {
        Ok(())
    } else {
        Err(format!("{} failed ({status})", shown(command)))
    }
}

/// Runs a program and returns what it printed.
pub fn read(command: &mut Command) -> Outcome<String> {
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .map_err(|error| format!("{} did not start: {error}", name(command)))?;
    if !output.status.success() {
        return Err(format!("{} failed ({})", shown(command), output.status));
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// Returns a cargo command; the cargo that runs us is the one that is used.
pub fn cargo(words: &str) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or("cargo".into()));
    command.args(words.split_whitespace());
    command
}

/// Finds a program on the search path.
pub fn on_path(program: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path)
        .map(|folder| folder.join(program))
        .find(|file| file.is_file())
}

/// Returns what a program says its version is, or nothing when it does not run.
pub fn version(program: &Path) -> Option<String> {
    let output = Command::new(program).arg("--version").output().ok()?;
    Some(String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

fn name(command: &Command) -> String {
    command.get_program().to_string_lossy().into_owned()
}

fn shown(command: &Command) -> String {
    let words = command.get_args().map(|word| word.to_string_lossy());
    std::iter::once(command.get_program().to_string_lossy())
        .chain(words)
        .collect::<Vec<_>>()
        .join(" ")
}
