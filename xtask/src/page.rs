//! Building the page and showing it.

use crate::command::{Outcome, run, say};
use crate::tools::PageTools;
use std::env;
use std::net::UdpSocket;
use std::path::Path;
use xtask::archive;
use xtask::server::Server;

/// The page in one file.
const ARCHIVE: &str = "target/pattywright.tar.gz";

/// Builds the page into `dist`, and packs it into one archive.
pub fn dist() -> Outcome {
    let tools = PageTools::set_up()?;
    say("Building the page (about 3 minutes the first time, then half a minute)");
    run(tools.trunk().args(["build", "--offline"]))?;
    archive::write(Path::new("dist"), Path::new(ARCHIVE)).map_err(|error| format!("{ARCHIVE}: {error}"))?;
    say(&format!("The page is in the folder dist, and in one file: {ARCHIVE}"));
    Ok(())
}

/// Builds the page and serves it to this machine and to phones near by; with `watch`, builds it again at each change.
pub fn serve(watch: bool) -> Outcome {
    dist()?;
    let server = (8080..8100)
        .find_map(|port| Server::start(Path::new("dist"), "/", &format!("0.0.0.0:{port}")).ok())
        .ok_or("No port from 8080 to 8099 is free.")?;
    let port = server.port();
    println!("\nOn this machine:  http://localhost:{port}/");
    if let Some(address) = near_address() {
        println!("On a phone near by, to look at it:  http://{address}:{port}/");
    }
    println!(
        "A browser keeps a page for use without a network only from https or localhost.\n\
         To install it on a phone, put the folder dist on any static host with https, at a root or in a sub-folder.\n\
         An Android phone on a cable can also use this machine: adb reverse tcp:{port} tcp:{port}, then http://localhost:{port}/.\n\
         Stop with Ctrl-C."
    );
    if watch {
        return run(PageTools::set_up()?.trunk().args(["watch", "--offline"]));
    }
    server.wait();
    Ok(())
}

/// Returns this machine's address on the local network; connecting a UDP socket sends nothing.
fn near_address() -> Option<String> {
    let socket = UdpSocket::bind("0.0.0.0:0").ok()?;
    socket.connect("192.0.2.1:9").ok()?;
    Some(socket.local_addr().ok()?.ip().to_string())
}

/// Goes to the project's folder, so that every path can be written from there.
pub fn go_home() -> Outcome {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    env::set_current_dir(&home).map_err(|error| format!("{}: {error}", home.display()))
}
