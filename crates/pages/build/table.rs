//! The table of files as Rust source, and the values of the page's head that depend on their bytes.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::PathBuf;
use std::{fs, io};

use sha2::{Digest as _, Sha256};

/// Where `index.html` wants the style sheets' links.
const STYLES: &str = "<!-- styles -->\n";
/// These come first, in this order; then every other sheet of `web/style` by name, and `print.css` last.
const FIRST_STYLES: [&str; 4] = ["tokens", "type", "frame", "parts"];
const LAST_STYLE: &str = "print";

const MAP_START: &str = "<script type=\"importmap\">";
const MAP_END: &str = "</script>";

/// The type a browser is told, by extension; `None` for files no browser asks for.
pub(crate) fn mime(path: &str) -> Option<&'static str> {
    Some(match path.rsplit_once('.')?.1 {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "svg" => "image/svg+xml",
        "woff2" => "font/woff2",
        "png" => "image/png",
        "txt" => "text/plain; charset=utf-8",
        _ => return None,
    })
}

/// `table.rs`: all shipped files but `index.html`, then that page with links to every style sheet, and its import map's sum.
///
/// # Errors
/// When a file cannot be read, `index.html` is missing, or it has not exactly one import map and nothing else inline.
pub(crate) fn library(files: &BTreeMap<String, PathBuf>) -> Result<String, String> {
    let index = files.get("index.html").ok_or("web/index.html is missing")?;
    let html = fs::read_to_string(index).map_err(|error| format!("web/index.html: {error}"))?;
    let (head, tail) = html
        .split_once(STYLES)
        .ok_or("web/index.html: no <!-- styles --> line")?;
    let html = format!("{head}{}{tail}", style_links(files));
    let map = import_map(&html)?;
    let sum = format!("sha256-{}", base64(&Sha256::digest(map.as_bytes())));

    let mut source = String::from("static ASSETS: &[Asset] = &[\n");
    for (path, file) in files.iter().filter(|(path, _)| *path != "index.html") {
        entry(&mut source, path, file).map_err(|error| format!("{path}: {error}"))?;
    }
    let _ = write!(
        source,
        "];\nstatic INDEX_HTML: &str = {html:?};\nstatic IMPORT_MAP_SHA256: &str = {sum:?};\n",
    );
    Ok(source)
}

fn style_links(files: &BTreeMap<String, PathBuf>) -> String {
    let place = |name: &str| match FIRST_STYLES.iter().position(|first| *first == name) {
        Some(place) => place,
        None if name == LAST_STYLE => FIRST_STYLES.len() + 1,
        None => FIRST_STYLES.len(),
    };
    let mut names: Vec<&str> = files
        .keys()
        .filter_map(|path| path.strip_prefix("style/")?.strip_suffix(".css"))
        .collect();
    names.sort_by_key(|name| (place(name), *name));
    names
        .iter()
        .map(|name| format!("<link rel=\"stylesheet\" href=\"/pages/style/{name}.css\">\n"))
        .collect()
}

/// `gallery.rs`: the files of `web/test`, for the example server alone.
///
/// # Errors
/// When a file cannot be read.
pub(crate) fn gallery(files: &BTreeMap<String, PathBuf>) -> io::Result<String> {
    let mut source = String::from("static GALLERY: &[(&str, &[u8], &str)] = &[\n");
    for (path, file) in files {
        let mime = mime(path).unwrap_or("application/octet-stream");
        let _ = writeln!(source, "    ({path:?}, include_bytes!({file:?}), {mime:?}),");
    }
    source.push_str("];\n");
    Ok(source)
}

fn entry(source: &mut String, path: &str, file: &PathBuf) -> io::Result<()> {
    let sum = Sha256::digest(fs::read(file)?);
    // Half the sum is plenty to tell two versions of one file apart; quotes are part of an entity tag.
    let tag: String = sum.iter().take(16).map(|byte| format!("{byte:02x}")).collect();
    let mime = mime(path).unwrap_or("application/octet-stream");
    let _ = writeln!(
        source,
        "    Asset {{ path: {path:?}, bytes: include_bytes!({file:?}), mime: {mime:?}, etag: \"\\\"{tag}\\\"\" }},",
    );
    Ok(())
}

/// The text of the one import map: the only inline script, allowed by its sum.
fn import_map(html: &str) -> Result<&str, String> {
    let (_, rest) = html
        .split_once(MAP_START)
        .ok_or("web/index.html: no import map; it starts with <script type=\"importmap\">")?;
    let (map, rest) = rest
        .split_once(MAP_END)
        .ok_or("web/index.html: the import map has no end")?;
    if rest.contains(MAP_START) {
        return Err("web/index.html: two import maps; a browser takes one".to_owned());
    }
    if html.contains(" style=") || html.contains("<style") || html.contains(" onload=") {
        return Err("web/index.html: inline style or handler; the page's policy refuses those".to_owned());
    }
    Ok(map)
}

/// Standard base64 with padding (RFC 4648, section 4).
fn base64(bytes: &[u8]) -> String {
    const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::new();
    for chunk in bytes.chunks(3) {
        let group = chunk
            .iter()
            .fold(0_u32, |sum, byte| (sum << 8) | u32::from(*byte))
            << (8 * (3 - chunk.len()));
        for place in 0..4 {
            let letter = LETTERS[(group >> (18 - 6 * place)) as usize & 63];
            text.push(if place > chunk.len() {
                '='
            } else {
                char::from(letter)
            });
        }
    }
    text
}
