//! The page that opens first in a class's folder: whose kit is where, and the sheets for the room.
//!
//! One file, no script, nothing fetched; it works from a stick and prints.

use super::kits::{Kit, NOT_DRAFTED};
use super::voice::Voice;
use super::work::WorkedClass;

/// Text that can stand in a page, also in a quoted attribute.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// A path as it stands in an address: everything but letters, digits and `-._/` by its bytes.
fn address(path: &str) -> String {
    let mut out = String::new();
    for byte in path.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'/' => out.push(char::from(byte)),
            other => out += &format!("%{other:02X}"),
        }
    }
    out
}

fn link(path: &str, says: &str) -> String {
    format!("<a href=\"{}\">{}</a>", address(path), escaped(says))
}

const STYLE: &str = "body{font:1.06rem/1.5 \"Libre Franklin\",system-ui,sans-serif;color:#1D2830;background:#F0F0E9;margin:3rem auto;max-width:44rem;padding:0 1.2rem}\
h1{font:600 2.2rem/1.1 Besley,Georgia,serif;margin:0 0 .4rem}h2{font:500 1.4rem/1.2 Besley,Georgia,serif;border-top:2px solid #1D2830;padding-top:.6rem;margin:2.2rem 0 .6rem}\
ul{list-style:none;padding:0}li{padding:.55rem 0;border-bottom:1px solid #B9BDB8}b{font-weight:600}a{color:inherit;margin-right:1rem;display:inline-block;line-height:2}\
@media (prefers-color-scheme:dark){body{color:#ECE9DE;background:#171E23}h2{border-color:#ECE9DE}li{border-color:#46525A}}\
@media print{body{background:#fff;color:#000}}";

/// The page.
pub(super) fn index(class: &WorkedClass, kits: &[Kit], voice: &Voice) -> String {
    let setting = &class.setting;
    let mut out = format!(
        "<!doctype html>\n<html lang=\"{}\">\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width\">\n<title>{}</title>\n<style>{STYLE}</style>\n<h1>{}</h1>\n",
        setting.language.tag(),
        escaped(&setting.name),
        escaped(&setting.name)
    );
    if !setting.when.is_empty() {
        out += &format!("<p>{}</p>\n", escaped(&setting.when));
    }
    out += &format!(
        "<p>{}</p>\n<h2>{}</h2>\n<ul>\n",
        escaped(&voice.word("class-index-lead")),
        escaped(&voice.word("class-index-room"))
    );
    for (file, says) in [
        ("timetable.pdf", "class-timetable"),
        ("shopping-list.pdf", "class-shopping"),
        ("shopping-list.csv", "class-index-csv"),
        ("class.json", "class-index-report"),
    ] {
        out += &format!("<li>{}</li>\n", link(file, &voice.word(says)));
    }
    for laid in class.lays.iter().flat_map(|l| &l.together.laid) {
        let cloth = &laid.task.request.cloth.name;
        let says = voice.say("class-index-lay", &[("cloth", cloth.into())]);
        out += &format!("<li>{}</li>\n", link(&laid.file("pdf"), &says));
    }
    out += &format!(
        "</ul>\n<h2>{}</h2>\n<ul>\n",
        escaped(&voice.word("class-index-people"))
    );
    for kit in kits.iter().filter(|k| k.refused.is_empty()) {
        let files = kit
            .files
            .iter()
            // Of a booklet of pages only its first.
            .filter(|f| !f.file.starts_with("booklet/") || f.file == "booklet/index.html")
            .map(|f| link(&format!("{}/{}", kit.folder, f.file), &f.file));
        let files: Vec<String> = files.collect();
        out += &format!("<li><b>{}</b><br>{}</li>\n", escaped(&kit.name), files.join(" "));
    }
    out += "</ul>\n";
    if kits.iter().any(|k| !k.refused.is_empty()) {
        out += &format!("<h2>{}</h2>\n<ul>\n", escaped(&voice.word("class-index-none")));
        for kit in kits.iter().filter(|k| !k.refused.is_empty()) {
            let why = link(
                &format!("{}/{NOT_DRAFTED}", kit.folder),
                &voice.word("class-index-why"),
            );
            out += &format!(
                "<li><b>{}</b>: {} {why}</li>\n",
                escaped(&kit.name),
                escaped(&kit.refused.join(" "))
            );
        }
        out += "</ul>\n";
    }
    out + "</html>\n"
}

#[cfg(test)]
mod tests {
    use super::{address, escaped};

    #[test]
    fn names_cannot_break_the_page() {
        assert_eq!(escaped("<b>\"&"), "&lt;b&gt;&quot;&amp;");
        assert_eq!(address("zoë/bag-list.pdf"), "zo%C3%AB/bag-list.pdf");
        assert_eq!(address("a\" onclick=x"), "a%22%20onclick%3Dx");
    }
}
