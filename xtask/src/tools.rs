//! Set-up: everything the page and its tests need, from the package registries, never from a git host.
//!
//! A tool that is already there in exactly the right version is used; any other goes into a cache folder of its own,
//! one folder for each version, so that nothing on the machine is replaced.

use crate::command::{Outcome, cargo, on_path, read, run, say, version};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

/// 0.22 and later ask for a newer Rust than this project does.
const TRUNK: &str = "0.21.14";
/// Brings wasm-opt; Debian's is too old for what rustc writes today.
const BINARYEN: &str = "132.0.0";
const AXE: &str = "4.14.1";
const LIGHTHOUSE: &str = "13.5.0";
const WASM: &str = "wasm32-unknown-unknown";

/// What building the page needs.
pub struct PageTools {
    trunk: PathBuf,
    /// The search path on which Trunk finds wasm-bindgen and wasm-opt.
    path: OsString,
}

impl PageTools {
    /// Installs what is missing.
    pub fn set_up() -> Outcome<PageTools> {
        let bindgen = wasm_bindgen("wasm-bindgen")?;
        let trunk = cargo_tool("trunk", "trunk", TRUNK, "--locked", "about 6 minutes")?;
        let wasm_opt = npm_folder()?.join(".bin");
        let folders = bindgen.parent().map(Path::to_owned).into_iter().chain([wasm_opt]);
        let old = env::var_os("PATH").unwrap_or_default();
        let path = env::join_paths(folders.chain(env::split_paths(&old))).map_err(|error| error.to_string())?;
        Ok(PageTools { trunk, path })
    }

    /// Returns a Trunk command that downloads nothing.
    pub fn trunk(&self) -> Command {
        let mut command = Command::new(&self.trunk);
        // Trunk reads NO_COLOR as a flag that wants a value.
        command.env("PATH", &self.path).env_remove("NO_COLOR");
        command
    }
}

/// What running the page in a browser needs.
pub struct BrowserTools {
    /// The program that drives Chromium.
    pub chromedriver: PathBuf,
    /// The script that looks for accessibility faults.
    pub axe: PathBuf,
    /// The program that runs WebAssembly tests in the browser.
    pub wasm_test_runner: PathBuf,
}

impl BrowserTools {
    /// Installs what is missing.
    pub fn set_up() -> Outcome<BrowserTools> {
        debian_packages(
            &[("chromium", "chromium"), ("chromedriver", "chromium-driver")],
            "about 2 minutes",
        )?;
        let chromedriver = env::var_os("CHROMEDRIVER")
            .map(PathBuf::from)
            .or_else(|| on_path("chromedriver"));
        Ok(BrowserTools {
            chromedriver: chromedriver.ok_or("chromedriver is not on the search path; set CHROMEDRIVER to it.")?,
            axe: npm_folder()?.join("axe-core").join("axe.min.js"),
            wasm_test_runner: wasm_bindgen("wasm-bindgen-test-runner")?,
        })
    }
}

/// Makes sure that Rust can build for the browser.
pub fn wasm_target() -> Outcome {
    let libraries = read(Command::new("rustc").args(["--print", "target-libdir", "--target", WASM]))?;
    if Path::new(libraries.trim()).is_dir() {
        return Ok(());
    }
    say(&format!("Adding the Rust target {WASM} (about 20 seconds)"));
    run(Command::new("rustup").args(["target", "add", WASM]))
}

/// Returns a program of the wasm-bindgen that Cargo.lock names; the two must be of one version.
fn wasm_bindgen(program: &str) -> Outcome<PathBuf> {
    wasm_target()?;
    let lock = fs::read_to_string("Cargo.lock").map_err(|error| format!("Cargo.lock: {error}"))?;
    let wanted = locked_version(&lock, "wasm-bindgen").ok_or("Cargo.lock names no wasm-bindgen.")?;
    // Its own lock file may name packages that were withdrawn, so it is not used.
    cargo_tool("wasm-bindgen-cli", program, &wanted, "", "about 3 minutes")
}

fn locked_version(lock: &str, package: &str) -> Option<String> {
    let after = lock.split_once(&format!("name = \"{package}\"\nversion = \""))?.1;
    Some(after.split('"').next()?.to_owned())
}

fn cargo_tool(package: &str, program: &str, wanted: &str, how: &str, usually: &str) -> Outcome<PathBuf> {
    if let Some(found) = on_path(program).filter(|found| is_version(&version(found).unwrap_or_default(), wanted)) {
        return Ok(found);
    }
    let root = cache()?.join(format!("{package}-{wanted}"));
    let installed = root.join("bin").join(program);
    if !installed.is_file() {
        say(&format!("Installing {package} {wanted} ({usually}, once)"));
        run(cargo(&format!("install {package} --version ={wanted} {how} --root")).arg(&root))?;
    }
    Ok(installed)
}

/// `trunk 0.21.14` is version 0.21.14; `trunk 0.21.140` is not.
fn is_version(said: &str, wanted: &str) -> bool {
    said.split_whitespace().any(|word| word == wanted)
}

/// Returns the folder of packages that npm installs for us.
fn npm_folder() -> Outcome<PathBuf> {
    let wanted = [("binaryen", BINARYEN), ("axe-core", AXE)];
    npm_packages(&wanted, "axe-core/axe.min.js", "about 10 seconds")
}

/// Returns the program that audits the page, for measuring only.
pub fn lighthouse() -> Outcome<PathBuf> {
    let packages = npm_packages(&[("lighthouse", LIGHTHOUSE)], ".bin/lighthouse", "about 30 seconds")?;
    Ok(packages.join(".bin/lighthouse"))
}

/// Returns a folder with these packages and versions; `needed` is the file that tells whether they are there.
fn npm_packages(wanted: &[(&str, &str)], needed: &str, usually: &str) -> Outcome<PathBuf> {
    let names: String = wanted
        .iter()
        .map(|(name, version)| format!("-{name}-{version}"))
        .collect();
    let root = cache()?.join(format!("npm{names}"));
    let packages = root.join("node_modules");
    if !packages.join(needed).exists() {
        debian_packages(&[("npm", "npm")], "about 2 minutes")?;
        say(&format!("Installing npm{names} ({usually}, once)"));
        fs::create_dir_all(&root).map_err(|error| format!("{}: {error}", root.display()))?;
        run(Command::new("npm")
            .args(["install", "--no-audit", "--no-fund", "--prefix"])
            .arg(&root)
            .args(wanted.iter().map(|(name, version)| format!("{name}@{version}"))))?;
    }
    Ok(packages)
}

/// Installs Debian packages for the programs that are missing: pairs of program and package.
fn debian_packages(wanted: &[(&str, &str)], usually: &str) -> Outcome {
    let missing: Vec<&str> = wanted
        .iter()
        .filter(|(program, _)| on_path(program).is_none())
        .map(|(_, package)| *package)
        .collect();
    if missing.is_empty() {
        return Ok(());
    }
    let packages = missing.join(" ");
    let is_root = read(Command::new("id").arg("-u")).is_ok_and(|id| id.trim() == "0");
    if !is_root || on_path("apt-get").is_none() {
        return Err(format!(
            "Please install what is missing (on Debian: sudo apt-get install {packages}), then try again."
        ));
    }
    say(&format!("Installing {packages} ({usually}, once)"));
    run(Command::new("apt-get").args(["update", "-q"]))?;
    let mut install = Command::new("apt-get");
    install
        .env("DEBIAN_FRONTEND", "noninteractive")
        .args(["install", "-qy", "--no-install-recommends"]);
    run(install.args(missing))
}

fn cache() -> Outcome<PathBuf> {
    let base = env::var_os("XDG_CACHE_HOME").map(PathBuf::from);
    let base = base.or_else(|| env::var_os("HOME").map(|home| Path::new(&home).join(".cache")));
    Ok(base
        .ok_or("Neither HOME nor XDG_CACHE_HOME is set.")?
        .join("pattywright/tools"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_locked_version_is_that_of_the_package_itself() {
        let lock =
            "name = \"wasm-bindgen-futures\"\nversion = \"0.4.80\"\n\nname = \"wasm-bindgen\"\nversion = \"0.2.130\"\n";
        assert_eq!(locked_version(lock, "wasm-bindgen").as_deref(), Some("0.2.130"));
        assert_eq!(locked_version(lock, "trunk"), None);
    }

    #[test]
    fn a_near_version_is_not_the_wanted_one() {
        assert!(is_version("trunk 0.21.14", "0.21.14"));
        assert!(!is_version("trunk 0.21.140", "0.21.14"));
        assert!(!is_version("", "0.21.14"));
    }
}
