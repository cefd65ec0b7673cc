//! The booklet as a folder of files for a web site: one page, its style, its fonts; nothing is fetched, nothing runs.
//!
//! **Shapes and units.** Text is escaped here, once; drawings stand in the page, named by the sentence that describes them.
//! **Source.** Structure after the WAI practices: landmarks, one h1, headings in order, table heads with scope, drawings as
//! images with a name; from memory.

use std::fmt::Write as _;

use crate::model::{Align, Block, Booklet, Callout, Cell, Chapter, Fact, Figure, Sign, Step, Table};

/// A file of the folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct File {
    /// Its name in the folder; there are no folders in it.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

const STYLE: &str = include_str!("booklet.css");

/// The folder: `index.html`, `booklet.css` and four fonts.
pub fn html(booklet: &Booklet) -> Vec<File> {
    std::iter::once(page(booklet)).chain(assets()).collect()
}

/// `index.html` alone; it names what [`assets`] gives.
pub fn page(booklet: &Booklet) -> File {
    File {
        name: "index.html".to_owned(),
        bytes: written(booklet).into_bytes(),
    }
}

/// What every booklet's page names, the same for all: its style, its fonts.
pub fn assets() -> Vec<File> {
    let file = |name: &str, bytes: &[u8]| File {
        name: name.to_owned(),
        bytes: bytes.to_vec(),
    };
    vec![
        file("booklet.css", STYLE.as_bytes()),
        file("besley-500.ttf", sheet::fonts::BESLEY_500),
        file("besley-600.ttf", sheet::fonts::BESLEY_600),
        file("libre-franklin-400.ttf", sheet::fonts::LIBRE_FRANKLIN_400),
        file("libre-franklin-600.ttf", sheet::fonts::LIBRE_FRANKLIN_600),
    ]
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

fn written(booklet: &Booklet) -> String {
    let mut out = String::new();
    let title = escaped(&booklet.title);
    let _ = write!(
        out,
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\" />\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n<title>{title}</title>\n\
         <meta name=\"description\" content=\"{}\" />\n<link rel=\"stylesheet\" href=\"booklet.css\" />\n</head>\n<body>\n",
        booklet.language,
        escaped(&booklet.about)
    );
    let cover = &booklet.cover;
    let blank = if cover.is_blank {
        " <span class=\"blank\"></span>"
    } else {
        ""
    };
    let _ = write!(
        out,
        "<header>\n<h1>{title}</h1>\n<p class=\"for\">{}{blank}</p>\n",
        escaped(&cover.made_for)
    );
    drawing(&mut out, &cover.figure);
    for line in &cover.lines {
        let _ = writeln!(out, "<p class=\"note\">{}</p>", escaped(line));
    }
    if let Some(c) = &cover.callout {
        callout(&mut out, c);
    }
    let contents = escaped(&booklet.contents_title);
    let _ = writeln!(
        out,
        "</header>\n<nav aria-labelledby=\"contents\">\n<h2 id=\"contents\">{contents}</h2>\n<ol>"
    );
    for chapter in &booklet.chapters {
        let _ = writeln!(
            out,
            "<li><a href=\"#{}\">{}</a></li>",
            chapter.id,
            escaped(&chapter.title)
        );
    }
    out.push_str("</ol>\n</nav>\n<main>\n");
    for one in &booklet.chapters {
        chapter(&mut out, one);
    }
    out.push_str("</main>\n</body>\n</html>\n");
    out
}

fn chapter(out: &mut String, chapter: &Chapter) {
    let (id, title) = (chapter.id, escaped(&chapter.title));
    let _ = writeln!(
        out,
        "<section aria-labelledby=\"{id}\">\n<h2 id=\"{id}\">{title}</h2>"
    );
    if !chapter.lead.is_empty() {
        let _ = writeln!(out, "<p class=\"lead\">{}</p>", escaped(&chapter.lead));
    }
    for one in &chapter.blocks {
        block(out, one);
    }
    out.push_str("</section>\n");
}

fn block(out: &mut String, block: &Block) {
    match block {
        Block::Heading { text } => {
            let _ = writeln!(out, "<h3>{}</h3>", escaped(text));
        }
        Block::Paragraph { text, is_note } => {
            let class = if *is_note { " class=\"note\"" } else { "" };
            let _ = writeln!(out, "<p{class}>{}</p>", escaped(text));
        }
        Block::List { items, is_lettered } => list(out, items, *is_lettered),
        Block::Table(t) => table(out, t),
        Block::Figures { figures } => drawings(out, figures),
        Block::Facts { facts } => fact_list(out, facts),
        Block::Callout(c) => callout(out, c),
        Block::Blank { label, lines } => write_line(out, label, *lines),
        Block::Step(s) => step(out, s),
        Block::Keep { blocks } => blocks.iter().for_each(|b| self::block(out, b)),
        Block::Terms { terms } => {
            out.push_str("<dl class=\"terms\">\n");
            for (word, meaning) in terms {
                let _ = writeln!(out, "<dt>{}</dt><dd>{}</dd>", escaped(word), escaped(meaning));
            }
            out.push_str("</dl>\n");
        }
    }
}

fn list(out: &mut String, items: &[String], is_lettered: bool) {
    let (open, close) = if is_lettered {
        ("<ol type=\"a\">", "</ol>")
    } else {
        ("<ul>", "</ul>")
    };
    let _ = writeln!(out, "{open}");
    for item in items {
        let _ = writeln!(out, "<li>{}</li>", escaped(item));
    }
    let _ = writeln!(out, "{close}");
}

fn write_line(out: &mut String, label: &str, lines: usize) {
    let _ = writeln!(out, "<p class=\"write\">{}</p>", escaped(label));
    for _ in 0..lines {
        out.push_str("<div class=\"line\"></div>\n");
    }
}

fn step(out: &mut String, s: &Step) {
    let _ = writeln!(
        out,
        "<article class=\"step\">\n<h3><span class=\"number\">{}</span> {}</h3>",
        s.number,
        escaped(&s.title)
    );
    if !s.lead.is_empty() {
        let _ = writeln!(out, "<p class=\"note\">{}</p>", escaped(&s.lead));
    }
    drawings(out, &s.figures);
    if !s.facts.is_empty() {
        fact_list(out, &s.facts);
    }
    list(out, &s.how, true);
    if !s.why.is_empty() {
        let _ = writeln!(out, "<p class=\"note\">{}</p>", escaped(&s.why));
    }
    if let Some(c) = &s.callout {
        callout(out, c);
    }
    if !s.note.is_empty() {
        write_line(out, &s.note, 1);
    }
    out.push_str("</article>\n");
}

fn sign(sign: Sign) -> (&'static str, &'static str) {
    match sign {
        Sign::Good => ("good", "M3 13l6.5 7L21 4"),
        Sign::Watch => (
            "watch",
            "M12 2.5l10.5 19h-21zM9 12a3 3 0 1 1 3.6 2.9V16M12 18.4v.4",
        ),
        Sign::Stop => ("stop", "M7.5 1.5h9l6 6v9l-6 6h-9l-6-6v-9zM6 12h12"),
        Sign::Note => ("pencil", "M4 20l1.5-5.5L17 3l4 4L9.5 18.5z"),
    }
}

fn callout(out: &mut String, c: &Callout) {
    let (class, d) = sign(c.sign);
    let _ = writeln!(
        out,
        "<p class=\"callout {class}\"><svg viewBox=\"0 0 24 24\" aria-hidden=\"true\"><path d=\"{d}\"/></svg><span><strong>{}</strong> {}</span></p>",
        escaped(&c.word),
        escaped(&c.text)
    );
}

fn fact_list(out: &mut String, facts: &[Fact]) {
    out.push_str("<dl class=\"facts\">\n");
    for fact in facts {
        let _ = write!(out, "<div><dt>{}</dt><dd class=\"value\">", escaped(&fact.name));
        cell(out, &fact.value);
        out.push_str("</dd>");
        if !fact.note.is_empty() {
            let _ = write!(out, "<dd>{}</dd>", escaped(&fact.note));
        }
        out.push_str("</div>\n");
    }
    out.push_str("</dl>\n");
}

fn drawings(out: &mut String, figures: &[Figure]) {
    if figures.is_empty() {
        return;
    }
    out.push_str("<div class=\"figures\">\n");
    for figure in figures {
        drawing(out, figure);
    }
    out.push_str("</div>\n");
}

/// The drawing itself stands in the page, so that its words take the page's fonts.
fn image(figure: &Figure) -> String {
    let named = format!("<svg role=\"img\" aria-label=\"{}\"", escaped(&figure.alt));
    figure.svg.replacen("<svg", &named, 1)
}

fn drawing(out: &mut String, figure: &Figure) {
    let _ = write!(out, "<figure>{}", image(figure));
    if !figure.caption.is_empty() {
        let _ = write!(out, "<figcaption>{}</figcaption>", escaped(&figure.caption));
    }
    out.push_str("</figure>\n");
}

fn cell(out: &mut String, cell: &Cell) {
    match cell {
        Cell::Text { main, other } if other.is_empty() => out.push_str(&escaped(main)),
        Cell::Text { main, other } => {
            let _ = write!(out, "{}<small>{}</small>", escaped(main), escaped(other));
        }
        Cell::Blank { unit } => {
            let _ = write!(out, "<span class=\"blank\"></span> {}", escaped(unit));
        }
        Cell::Tick { says } => {
            let _ = write!(
                out,
                "<span class=\"tick\" role=\"img\" aria-label=\"{}\"></span>",
                escaped(says)
            );
        }
        Cell::Figure(figure) => out.push_str(&image(figure)),
        Cell::Sign { sign: kind, word } => {
            let (class, d) = sign(*kind);
            let _ = write!(
                out,
                "<span class=\"sign {class}\"><svg viewBox=\"0 0 24 24\" aria-hidden=\"true\"><path d=\"{d}\"/></svg>{}</span>",
                escaped(word)
            );
        }
    }
}

fn table(out: &mut String, t: &Table) {
    let class = |align: Align| {
        if align == Align::Right {
            " class=\"number\""
        } else {
            ""
        }
    };
    let _ = write!(
        out,
        "<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"{says}\"><table>\n<caption>{says}</caption>\n<thead><tr>",
        says = escaped(&t.says)
    );
    for column in &t.columns {
        let _ = write!(
            out,
            "<th scope=\"col\"{}>{}</th>",
            class(column.align),
            escaped(&column.title)
        );
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for row in &t.rows {
        out.push_str("<tr>");
        for (column, one) in t.columns.iter().zip(row) {
            let _ = write!(out, "<td{}>", class(column.align));
            cell(out, one);
            out.push_str("</td>");
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody></table></div>\n");
}
