//! A static file server, for looking at the page, for the tests and for the measurements.
//!
//! Of HTTP it knows only what a static host needs: GET, the type, gzip, and 304 for a file that has not changed.
//! Small enough to be read here, so no server crate is needed, and the tests can stop it at any moment.

mod fault;

pub use fault::Fault;

use crate::worker::files_below;
use flate2::{Compression, write::GzEncoder};
use std::collections::HashMap;
use std::fs;
use std::io::{self, BufRead, BufReader, Write};
use std::net::{SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// A running server; it stops when dropped.
pub struct Server {
    address: SocketAddr,
    stop: Arc<AtomicBool>,
    site: Arc<Site>,
    listening: Option<JoinHandle<()>>,
}

impl Server {
    /// Serves the files of `folder` below the path `under` (`/` or `/some/where/`) on `address`; port 0 means any free port.
    pub fn start(folder: &Path, under: &str, address: &str) -> io::Result<Server> {
        let listener = TcpListener::bind(address)?;
        let address = listener.local_addr()?;
        let stop = Arc::new(AtomicBool::new(false));
        let site = Arc::new(Site {
            folder: folder.to_owned(),
            under: under.to_owned(),
            packed: Mutex::default(),
            spoiled: Mutex::default(),
        });
        let served = Arc::clone(&site);
        let stopped = Arc::clone(&stop);
        let listening = thread::spawn(move || {
            for visitor in listener.incoming() {
                if stopped.load(Ordering::SeqCst) {
                    break;
                }
                let Ok(visitor) = visitor else { continue };
                let (site, stopped) = (Arc::clone(&site), Arc::clone(&stopped));
                thread::spawn(move || site.talk(visitor, &stopped));
            }
        });
        Ok(Server {
            address,
            stop,
            site: served,
            listening: Some(listening),
        })
    }

    /// Returns the port that was bound.
    pub fn port(&self) -> u16 {
        self.address.port()
    }

    /// From now on this goes wrong with every file whose address ends so; nothing goes wrong with the others any more.
    pub fn spoil(&self, address_end: &str, fault: Fault) {
        if let Ok(mut spoiled) = self.site.spoiled.lock() {
            *spoiled = Some((address_end.to_owned(), fault));
        }
    }

    /// Nothing goes wrong any more.
    pub fn mend(&self) {
        if let Ok(mut spoiled) = self.site.spoiled.lock() {
            *spoiled = None;
        }
    }

    /// Waits for ever.
    pub fn wait(mut self) {
        if let Some(listening) = self.listening.take() {
            let _ = listening.join();
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::SeqCst);
        // The listener wakes only for a visitor, so we are the last one.
        let _ = TcpStream::connect(("127.0.0.1", self.port()));
        if let Some(listening) = self.listening.take() {
            let _ = listening.join();
        }
    }
}

struct Site {
    folder: PathBuf,
    under: String,
    /// Gzip of what was already asked for, by the tag of its bytes.
    packed: Mutex<HashMap<String, Arc<Vec<u8>>>>,
    /// The end of the addresses with which something goes wrong, and what.
    spoiled: Mutex<Option<(String, Fault)>>,
}

impl Site {
    fn talk(&self, visitor: TcpStream, stopped: &AtomicBool) {
        // Short, so that a browser's idle connections end soon after the server has stopped.
        let _ = visitor.set_read_timeout(Some(Duration::from_millis(200)));
        let _ = visitor.set_nodelay(true);
        let Ok(mut answer_to) = visitor.try_clone() else {
            return;
        };
        let mut lines = BufReader::new(visitor);
        while let Some(request) = read_request(&mut lines, stopped) {
            if stopped.load(Ordering::SeqCst) {
                return;
            }
            let answer = self.answer(&request);
            match self.fault_of(&request).filter(|fault| fault.cuts()) {
                Some(fault) => {
                    let _ = answer_to.write_all(fault::half(&answer));
                    stopped.fetch_or(fault == Fault::Dies, Ordering::SeqCst);
                    return;
                }
                None if answer_to.write_all(&answer).is_err() => return,
                None => {}
            }
        }
    }

    fn fault_of(&self, request: &Request) -> Option<Fault> {
        let spoiled = self.spoiled.lock().ok()?;
        let (end, fault) = spoiled.as_ref()?;
        request.path.ends_with(end).then_some(*fault)
    }

    fn answer(&self, request: &Request) -> Vec<u8> {
        if request.method != "GET" {
            return reply("405 Method Not Allowed", "", b"");
        }
        let Some(path) = self.file_at(&request.path) else {
            return reply(
                "404 Not Found",
                "Content-Type: text/plain\r\n",
                b"There is nothing here.\n",
            );
        };
        let Ok(bytes) = fs::read(&path) else {
            return reply(
                "404 Not Found",
                "Content-Type: text/plain\r\n",
                b"There is nothing here.\n",
            );
        };
        let fault = self.fault_of(request);
        if let Some((status, kind, body)) = fault.and_then(|fault| fault.instead(&bytes)) {
            let kind = kind.unwrap_or_else(|| content_type(&path));
            return reply(status, &format!("Content-Type: {kind}\r\n"), &body);
        }
        let tag = crc(&bytes);
        let mut headers = format!(
            "Content-Type: {}\r\nETag: \"{tag}\"\r\nCache-Control: max-age=600\r\nVary: Accept-Encoding\r\n",
            content_type(&path)
        );
        // Half of "nothing has changed" would be as good as the whole.
        let known = request.header("if-none-match").filter(|_| fault.is_none());
        if known.is_some_and(|known| known.contains(&tag)) {
            return reply("304 Not Modified", &headers, b"");
        }
        if request
            .header("accept-encoding")
            .is_some_and(|known| known.contains("gzip"))
        {
            headers.push_str("Content-Encoding: gzip\r\n");
            return reply("200 OK", &headers, &self.packed(tag, &bytes));
        }
        reply("200 OK", &headers, &bytes)
    }

    /// Only files that are listed below the folder can be reached, so no path leads out of it.
    fn file_at(&self, path: &str) -> Option<PathBuf> {
        let inside = path.split(['?', '#']).next()?.strip_prefix(&self.under)?;
        let wanted = self.folder.join(if inside.is_empty() { "index.html" } else { inside });
        files_below(&self.folder).ok()?.into_iter().find(|file| *file == wanted)
    }

    fn packed(&self, tag: String, bytes: &[u8]) -> Arc<Vec<u8>> {
        let Ok(mut packed) = self.packed.lock() else {
            return Arc::new(gzip(bytes));
        };
        Arc::clone(packed.entry(tag).or_insert_with(|| Arc::new(gzip(bytes))))
    }
}

struct Request {
    method: String,
    path: String,
    headers: Vec<(String, String)>,
}

impl Request {
    fn header(&self, name: &str) -> Option<&str> {
        self.headers
            .iter()
            .find(|(key, _)| key == name)
            .map(|(_, value)| value.as_str())
    }
}

/// Returns the next request, or nothing when the visitor has left or the server is to stop.
fn read_request(lines: &mut impl BufRead, stopped: &AtomicBool) -> Option<Request> {
    let first = read_line(lines, stopped)?;
    let mut words = first.split_whitespace();
    let (method, path) = (words.next()?.to_owned(), words.next()?.to_owned());
    let mut headers = Vec::new();
    loop {
        let line = read_line(lines, stopped)?;
        match line.trim_end().split_once(':') {
            Some((key, value)) => headers.push((key.to_lowercase(), value.trim().to_owned())),
            None => {
                return Some(Request { method, path, headers });
            }
        }
    }
}

fn read_line(lines: &mut impl BufRead, stopped: &AtomicBool) -> Option<String> {
    let mut line = String::new();
    loop {
        match lines.read_line(&mut line) {
            Ok(0) => return None,
            Ok(_) => return Some(line),
            Err(error) if matches!(error.kind(), io::ErrorKind::WouldBlock | io::ErrorKind::TimedOut) => {
                if stopped.load(Ordering::SeqCst) {
                    return None;
                }
            }
            Err(_) => return None,
        }
    }
}

fn reply(status: &str, headers: &str, body: &[u8]) -> Vec<u8> {
    let mut whole = format!("HTTP/1.1 {status}\r\n{headers}Content-Length: {}\r\n\r\n", body.len()).into_bytes();
    whole.extend_from_slice(body);
    whole
}

/// Returns the bytes as a static host would send them: gzip at its usual best level.
pub fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    // Writing into memory does not fail.
    let _ = encoder.write_all(bytes);
    encoder.finish().unwrap_or_default()
}

fn crc(bytes: &[u8]) -> String {
    let mut crc = flate2::Crc::new();
    crc.update(bytes);
    format!("{:08x}-{}", crc.sum(), crc.amount())
}

fn content_type(path: &Path) -> &'static str {
    match path.extension().and_then(|extension| extension.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("webmanifest") => "application/manifest+json",
        Some("json") => "application/json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    fn ask(port: u16, path: &str, header: &str) -> String {
        let mut visitor = TcpStream::connect(("127.0.0.1", port)).unwrap();
        visitor
            .write_all(format!("GET {path} HTTP/1.1\r\n{header}\r\n\r\n").as_bytes())
            .unwrap();
        visitor.shutdown(std::net::Shutdown::Write).unwrap();
        let mut answer = Vec::new();
        visitor.read_to_end(&mut answer).unwrap();
        String::from_utf8_lossy(&answer).into_owned()
    }

    fn site(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("pattywright-server-{name}-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("index.html"), "<p>bowl").unwrap();
        folder
    }

    #[test]
    fn the_page_is_found_under_its_path_and_nothing_outside() {
        let server = Server::start(&site("path"), "/a/b/", "127.0.0.1:0").unwrap();
        assert!(ask(server.port(), "/a/b/?x=1", "A: b").ends_with("<p>bowl"));
        assert!(ask(server.port(), "/", "A: b").starts_with("HTTP/1.1 404"));
        assert!(ask(server.port(), "/a/b/../../../etc/passwd", "A: b").starts_with("HTTP/1.1 404"));
    }

    #[test]
    fn an_unchanged_file_is_not_sent_again() {
        let server = Server::start(&site("tag"), "/", "127.0.0.1:0").unwrap();
        let first = ask(server.port(), "/", "A: b");
        let tag = first
            .lines()
            .find_map(|line| line.strip_prefix("ETag: "))
            .unwrap()
            .to_owned();
        assert!(ask(server.port(), "/", &format!("If-None-Match: {tag}")).starts_with("HTTP/1.1 304"));
    }

    #[test]
    fn a_spoiled_file_fails_as_told_and_the_others_do_not() {
        let folder = site("spoiled");
        fs::write(folder.join("boot.js"), "0123456789").unwrap();
        let server = Server::start(&folder, "/", "127.0.0.1:0").unwrap();
        let said = |fault| {
            server.spoil(".js", fault);
            assert!(ask(server.port(), "/", "A: b").ends_with("<p>bowl"));
            ask(server.port(), "/boot.js", "A: b")
        };
        let short = said(Fault::Short);
        assert!(
            short.contains("Content-Length: 5\r\n") && short.ends_with("\r\n\r\n01234"),
            "{short}"
        );
        assert!(said(Fault::Missing).starts_with("HTTP/1.1 404"));
        let other = said(Fault::OtherPage);
        assert!(
            other.starts_with("HTTP/1.1 200") && other.contains("text/html"),
            "{other}"
        );
        let cut = said(Fault::CutOff);
        assert!(!cut.is_empty() && !cut.ends_with("0123456789"), "{cut}");
        server.mend();
        assert!(ask(server.port(), "/boot.js", "A: b").ends_with("0123456789"));
        said(Fault::Dies);
        assert_eq!(ask_if_there(server.port()), None);
    }

    fn ask_if_there(port: u16) -> Option<u8> {
        let mut visitor = TcpStream::connect(("127.0.0.1", port)).ok()?;
        visitor.write_all(b"GET / HTTP/1.1\r\n\r\n").ok()?;
        let mut first = [0];
        visitor.read_exact(&mut first).ok()?;
        Some(first[0])
    }

    #[test]
    fn a_stopped_server_answers_nobody_not_even_an_old_acquaintance() {
        let server = Server::start(&site("stop"), "/", "127.0.0.1:0").unwrap();
        let port = server.port();
        let mut known = TcpStream::connect(("127.0.0.1", port)).unwrap();
        known.write_all(b"GET / HTTP/1.1\r\n").unwrap();
        drop(server);
        let _ = known.write_all(b"\r\n");
        let mut answer = Vec::new();
        let _ = known.read_to_end(&mut answer);
        assert_eq!(answer, b"");
        assert!(TcpStream::connect(("127.0.0.1", port)).is_err());
    }
}
