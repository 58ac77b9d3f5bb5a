//! Packs the finished page into one file, for hosts that want one.

use crate::worker::{address_of, files_below};
use flate2::{Compression, GzBuilder};
use std::fs::{self, File};
use std::io;
use std::path::Path;

/// Writes every file of `dist` into a `.tar.gz`; the same files give the same archive to the byte.
pub fn write(dist: &Path, archive: &Path) -> io::Result<()> {
    if let Some(folder) = archive.parent() {
        fs::create_dir_all(folder)?;
    }
    // No name and no time of its own.
    let packed = GzBuilder::new().write(File::create(archive)?, Compression::best());
    let mut tar = tar::Builder::new(packed);
    for path in files_below(dist)? {
        let bytes = fs::read(&path)?;
        let mut header = tar::Header::new_gnu();
        header.set_size(bytes.len() as u64);
        header.set_mode(0o644);
        tar.append_data(&mut header, address_of(dist, &path), bytes.as_slice())?;
    }
    tar.into_inner()?.finish()?.sync_all()
}

#[cfg(test)]
mod tests {
    use super::*;
    use flate2::read::GzDecoder;
    use std::io::Read;

    #[test]
    fn every_file_comes_out_as_it_went_in() {
        let folder = std::env::temp_dir().join(format!("pattywright-archive-{}", std::process::id()));
        let dist = folder.join("dist");
        fs::create_dir_all(dist.join("icons")).unwrap();
        fs::write(dist.join("index.html"), "<p>bowl").unwrap();
        fs::write(dist.join("icons/bowl.svg"), [0_u8, 255]).unwrap();
        let archive = folder.join("deep/page.tar.gz");
        write(&dist, &archive).unwrap();
        let first = fs::read(&archive).unwrap();

        let mut found = Vec::new();
        for entry in tar::Archive::new(GzDecoder::new(first.as_slice())).entries().unwrap() {
            let mut entry = entry.unwrap();
            let mut bytes = Vec::new();
            entry.read_to_end(&mut bytes).unwrap();
            found.push((entry.path().unwrap().display().to_string(), bytes));
        }
        let expected = [
            ("icons/bowl.svg", b"\x00\xff".to_vec()),
            ("index.html", b"<p>bowl".to_vec()),
        ];
        assert_eq!(found, expected.map(|(name, bytes)| (name.to_owned(), bytes)));
        write(&dist, &archive).unwrap();
        assert_eq!(fs::read(&archive).unwrap(), first);
    }
}
