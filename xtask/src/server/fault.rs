//! How hosts and networks fail, for the tests of what the page makes of it.

/// What goes wrong with a file.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fault {
    /// Half of it comes, then the line is cut.
    CutOff,
    /// Half of it comes, and is said to be all.
    Short,
    /// It is not there: status 404.
    Missing,
    /// A page of the host's own comes in its place, with status 200.
    OtherPage,
    /// The server goes for good, half-way through it.
    Dies,
}

/// What some hosts answer whatever they are asked.
const OTHER_PAGE: &[u8] = b"<!doctype html><title>Welcome</title><p>This host is being set up.";

impl Fault {
    /// The status, type and body sent in place of `body`; none where only the line fails.
    pub(super) fn instead(self, body: &[u8]) -> Option<(&'static str, Option<&'static str>, Vec<u8>)> {
        match self {
            Fault::CutOff | Fault::Dies => None,
            Fault::Short => Some(("200 OK", None, half(body).to_vec())),
            Fault::Missing => Some((
                "404 Not Found",
                Some("text/plain"),
                b"There is nothing here.\n".to_vec(),
            )),
            Fault::OtherPage => Some(("200 OK", Some("text/html; charset=utf-8"), OTHER_PAGE.to_vec())),
        }
    }

    /// Whether the line is cut half-way through the answer.
    pub(super) fn cuts(self) -> bool {
        matches!(self, Fault::CutOff | Fault::Dies)
    }
}

pub(super) fn half(bytes: &[u8]) -> &[u8] {
    &bytes[..bytes.len() / 2]
}
