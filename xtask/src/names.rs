//! Names the scripts and the program of the finished page by their bytes.
//!
//! The same name is then always the same file, so no page can be served with a file of another version,
//! whatever a browser, a host or a cache between them keeps. Trunk's own names come from before the program was made smaller.

use crate::worker::sha256;
use std::path::Path;
use std::{fs, io};

/// Renames every `.js` and `.wasm` beside `index.html`, and writes the new names into it.
pub fn by_content(dist: &Path) -> io::Result<()> {
    let page = dist.join("index.html");
    let mut text = fs::read_to_string(&page)?;
    for entry in fs::read_dir(dist)? {
        let path = entry?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let new = new_name(&name, &fs::read(&path).unwrap_or_default());
        if let Some(new) = new.filter(|_| text.contains(&format!("./{name}\""))) {
            text = text.replace(&format!("./{name}\""), &format!("./{new}\""));
            fs::rename(&path, dist.join(new))?;
        }
    }
    fs::write(page, text)
}

/// `boot.js` becomes `boot-0123456789abcdef.js`; other kinds of files keep their names.
fn new_name(name: &str, bytes: &[u8]) -> Option<String> {
    let (stem, kind) = name.rsplit_once('.')?;
    let stem = stem.split('-').next()?;
    ["js", "wasm"]
        .contains(&kind)
        .then(|| format!("{stem}-{}.{kind}", &sha256(bytes)[..16]))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: FIPS 180-4 example values, the SHA-256 of `abc`.
    #[test]
    fn a_script_is_named_by_its_bytes_wherever_the_page_names_it() {
        let dist = std::env::temp_dir().join(format!("pattywright-names-{}", std::process::id()));
        fs::create_dir_all(&dist).unwrap();
        fs::write(
            dist.join("index.html"),
            r#"<a x="./boot.js" y="./app-9_bg.wasm"><a x="./app-9.js"><a y="./boot.js">"#,
        )
        .unwrap();
        for name in ["boot.js", "app-9.js", "app-9_bg.wasm", "loose.js"] {
            fs::write(dist.join(name), "abc").unwrap();
        }
        by_content(&dist).unwrap();
        let page = fs::read_to_string(dist.join("index.html")).unwrap();
        let hash = "ba7816bf8f01cfea";
        assert_eq!(
            page,
            format!(r#"<a x="./boot-{hash}.js" y="./app-{hash}.wasm"><a x="./app-{hash}.js"><a y="./boot-{hash}.js">"#)
        );
        for name in [
            format!("boot-{hash}.js"),
            format!("app-{hash}.js"),
            format!("app-{hash}.wasm"),
            "loose.js".into(),
        ] {
            assert!(dist.join(name).is_file());
        }
    }
}
