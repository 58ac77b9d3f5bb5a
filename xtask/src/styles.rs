//! Joins the stylesheets of the finished page into one: fewer requests, so a sooner start on a slow network and offline.

use crate::worker::sha256;
use std::path::Path;
use std::{fs, io};

const LINK: &str = "<link rel=\"stylesheet\" href=\"./";

/// Puts one stylesheet in place of all those that `index.html` links, in their order.
pub fn join(dist: &Path) -> io::Result<()> {
    let page = dist.join("index.html");
    let text = fs::read_to_string(&page)?;
    let names = linked(&text);
    if names.is_empty() {
        return Ok(());
    }
    let mut joined = String::new();
    for name in &names {
        joined.push_str(&fs::read_to_string(dist.join(name))?);
        joined.push('\n');
        fs::remove_file(dist.join(name))?;
    }
    let name = format!("style-{}.css", &sha256(joined.as_bytes())[..16]);
    fs::write(dist.join(&name), joined)?;
    fs::write(page, with_one_link(&text, &name))
}

fn linked(page: &str) -> Vec<&str> {
    page.split(LINK)
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect()
}

fn with_one_link(page: &str, name: &str) -> String {
    let mut parts = page.split(LINK);
    let mut whole = parts.next().unwrap_or_default().to_owned();
    whole.push_str(&format!("{LINK}{name}\">"));
    for part in parts {
        // What follows the tag stays; a page without the end of a tag is left as it is.
        whole.push_str(part.split_once('>').map_or(part, |(_, rest)| rest));
    }
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_links_become_one_and_the_rest_of_the_page_stays() {
        let page = format!("<head>{LINK}a-1.css\">\n{LINK}b-2.css\"/><title>Bowl</title></head>");
        assert_eq!(linked(&page), ["a-1.css", "b-2.css"]);
        assert_eq!(
            with_one_link(&page, "style-3.css"),
            format!("<head>{LINK}style-3.css\">\n<title>Bowl</title></head>")
        );
    }
}
