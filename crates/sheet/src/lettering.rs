//! The letters on paper: six embedded fonts, lines of shaped glyphs with their true widths, and wrapping.
//!
//! Headings and piece names are set in Besley, everything that is read in Libre Franklin; letters those lack (Greek,
//! Cyrillic) come from Noto Sans, run by run. A cluster no font has becomes one stand-in and is reported, so that a strange
//! name never stops a page. Widths are measured on the same glyphs that are drawn, so nothing can grow after placing.
//!
//! **Shapes and units.** Sizes and widths in mm; `pt` only in [`pt`].
//! **Limits.** No right-to-left scripts: their letters are not in the fonts and print as stand-ins.

use krilla::text::{Font, GlyphId, KrillaGlyph};
use rustybuzz::{Direction, UnicodeBuffer};

use crate::fonts;

/// A size in points, as mm.
pub(crate) const fn pt(points: f64) -> f64 {
    points * 25.4 / 72.0
}

/// Nothing on paper is set smaller (look: nothing under 8 pt).
pub(crate) const LEAST: f64 = pt(8.0);
/// Notes.
pub(crate) const NOTE: f64 = pt(9.0);
/// Reading text.
pub(crate) const BODY: f64 = pt(10.0);

/// A voice on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Face {
    /// Besley 600: piece names, titles.
    Title,
    /// Besley 500: headings, values.
    Heading,
    /// Libre Franklin 400: reading.
    Text,
    /// Libre Franklin 600: heads of tables, codes.
    Strong,
}

/// One of the embedded font files.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum File {
    Besley600,
    Besley500,
    Franklin400,
    Franklin600,
    Noto400,
    Noto600,
}

const FILES: [(File, &[u8]); 6] = [
    (File::Besley600, fonts::BESLEY_600),
    (File::Besley500, fonts::BESLEY_500),
    (File::Franklin400, fonts::LIBRE_FRANKLIN_400),
    (File::Franklin600, fonts::LIBRE_FRANKLIN_600),
    (File::Noto400, fonts::NOTO_SANS_400),
    (File::Noto600, fonts::NOTO_SANS_600),
];

/// Stands for a cluster no font has: Unicode's replacement character, a query in a diamond. Noto Sans has it.
const STAND_IN: char = '\u{FFFD}';

struct Loaded {
    shaper: rustybuzz::Face<'static>,
    font: Font,
    units_per_em: f64,
}

/// The fonts, loaded once per document.
pub(crate) struct Lettering {
    loaded: Vec<Loaded>,
}

/// A stretch of one line in one font.
#[derive(Clone, Debug)]
pub(crate) struct Span {
    pub(crate) font: Font,
    pub(crate) glyphs: Vec<KrillaGlyph>,
    pub(crate) text: String,
    /// Width, mm.
    pub(crate) width: f64,
}

/// One shaped line.
#[derive(Clone, Debug)]
pub(crate) struct Line {
    pub(crate) spans: Vec<Span>,
    /// Size, mm.
    pub(crate) size: f64,
    /// Width, mm.
    pub(crate) width: f64,
    /// Characters a stand-in was drawn for.
    pub(crate) undrawn: Vec<char>,
}

impl Line {
    /// What it says, as drawn.
    pub(crate) fn text(&self) -> String {
        self.spans.iter().map(|s| s.text.as_str()).collect()
    }

    /// Height above the baseline that capitals and most ascenders stay under, mm.
    pub(crate) fn ascent(&self) -> f64 {
        0.76 * self.size
    }

    /// Depth below the baseline that descenders stay over, mm.
    pub(crate) fn descent(&self) -> f64 {
        0.22 * self.size
    }
}

impl Lettering {
    /// Loads the embedded fonts.
    ///
    /// # Errors
    /// The name of a font file that cannot be read: a fault of this build, never of a suit.
    pub(crate) fn load() -> Result<Lettering, String> {
        let mut loaded = Vec::with_capacity(FILES.len());
        for (file, bytes) in FILES {
            let (Some(shaper), Some(font)) =
                (rustybuzz::Face::from_slice(bytes, 0), Font::new(bytes.into(), 0))
            else {
                return Err(format!("font {file:?} cannot be read"));
            };
            let units_per_em = f64::from(shaper.units_per_em());
            loaded.push(Loaded {
                shaper,
                font,
                units_per_em,
            });
        }
        Ok(Lettering { loaded })
    }

    fn has(&self, file: File, cluster: &str) -> bool {
        self.loaded.get(file as usize).is_some_and(|l| {
            // Glyph 0 stands for nothing: some fonts map U+FFFF to it.
            cluster
                .chars()
                .all(|c| l.shaper.glyph_index(c).is_some_and(|g| g.0 != 0))
        })
    }

    /// Shapes one line; line breaks and control characters become spaces.
    pub(crate) fn line(&self, face: Face, size: f64, text: &str) -> Line {
        let (first, second) = match face {
            Face::Title => (File::Besley600, File::Noto600),
            Face::Heading => (File::Besley500, File::Noto600),
            Face::Text => (File::Franklin400, File::Noto400),
            Face::Strong => (File::Franklin600, File::Noto600),
        };
        let mut undrawn = Vec::new();
        let mut runs: Vec<(File, String)> = Vec::new();
        for cluster in clusters(text) {
            // Joiners and direction marks draw nothing; PDF/UA forbids some of them.
            let cluster: String = cluster.chars().filter(|c| !is_silent(*c)).collect();
            if cluster.is_empty() {
                continue;
            }
            let (file, part) = if self.has(first, &cluster) {
                (first, cluster)
            } else if self.has(second, &cluster) {
                (second, cluster)
            } else {
                undrawn.extend(cluster.chars());
                (second, STAND_IN.to_string())
            };
            match runs.last_mut() {
                Some((f, run)) if *f == file => run.push_str(&part),
                _ => runs.push((file, part)),
            }
        }
        let spans: Vec<Span> = runs
            .into_iter()
            .filter_map(|(f, t)| self.span(f, size, t))
            .collect();
        let width = spans.iter().map(|s| s.width).sum();
        Line {
            spans,
            size,
            width,
            undrawn,
        }
    }

    fn span(&self, file: File, size: f64, text: String) -> Option<Span> {
        let loaded = self.loaded.get(file as usize)?;
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(&text);
        buffer.set_direction(Direction::LeftToRight);
        buffer.guess_segment_properties();
        buffer.set_direction(Direction::LeftToRight);
        let shaped = rustybuzz::shape(&loaded.shaper, &[], buffer);
        let infos = shaped.glyph_infos();
        let em = loaded.units_per_em as f32;
        let mut width = 0.0;
        let glyphs = infos
            .iter()
            .zip(shaped.glyph_positions())
            .map(|(info, at)| {
                width += f64::from(at.x_advance) / loaded.units_per_em * size;
                let start = info.cluster as usize;
                // Left to right: a cluster ends where the next greater one starts.
                let end = infos
                    .iter()
                    .map(|i| i.cluster as usize)
                    .filter(|c| *c > start)
                    .min()
                    .unwrap_or(text.len());
                KrillaGlyph::new(
                    GlyphId::new(info.glyph_id),
                    at.x_advance as f32 / em,
                    at.x_offset as f32 / em,
                    at.y_offset as f32 / em,
                    at.y_advance as f32 / em,
                    start..end,
                    None,
                )
            })
            .collect();
        Some(Span {
            font: loaded.font.clone(),
            glyphs,
            text,
            width,
        })
    }

    /// Breaks a text into lines no wider than `room` mm, at spaces, or inside a word that is wider by itself.
    ///
    /// Always at least one line; every line but one with a single cluster fits.
    pub(crate) fn wrap(&self, face: Face, size: f64, text: &str, room: f64) -> Vec<Line> {
        self.wrap_most(face, size, text, room, usize::MAX)
    }

    /// As [`Lettering::wrap`], but at most so many lines; an ellipsis ends the last one if something is left out.
    pub(crate) fn wrap_most(&self, face: Face, size: f64, text: &str, room: f64, most: usize) -> Vec<Line> {
        let mut lines: Vec<Line> = Vec::new();
        let mut now = String::new();
        let mut words = text.split(is_break).filter(|w| !w.is_empty());
        while let Some(word) = words.next() {
            let longer = if now.is_empty() {
                word.to_owned()
            } else {
                format!("{now} {word}")
            };
            if self.line(face, size, &longer).width <= room {
                now = longer;
                continue;
            }
            if lines.len() + 1 >= most {
                // The last line takes what fits of the rest; more than a few words never do.
                let rest: Vec<&str> = words.by_ref().take(20).collect();
                lines.push(self.fit(face, size, &format!("{longer} {}", rest.join(" ")), room));
                return lines;
            }
            if !now.is_empty() {
                lines.push(self.line(face, size, &now));
                now.clear();
            }
            for cluster in clusters(word) {
                let longer = format!("{now}{cluster}");
                if !now.is_empty() && self.line(face, size, &longer).width > room {
                    if lines.len() + 1 >= most {
                        lines.push(self.fit(face, size, &format!("{longer}…"), room));
                        return lines;
                    }
                    lines.push(self.line(face, size, &now));
                    now = cluster;
                } else {
                    now = longer;
                }
            }
        }
        if !now.is_empty() || lines.is_empty() {
            lines.push(self.line(face, size, &now));
        }
        lines
    }

    /// The text cut to one line no wider than `room` mm, with an ellipsis where something is left out.
    pub(crate) fn fit(&self, face: Face, size: f64, text: &str, room: f64) -> Line {
        // No letter is narrower than a twentieth of its size, so more of them than this cannot fit.
        let most = (20.0 * room / size).max(8.0) as usize;
        let mut parts = clusters(text);
        let is_short = parts.len() <= most;
        parts.truncate(most);
        if is_short {
            let whole = self.line(face, size, text);
            if whole.width <= room {
                return whole;
            }
        }
        // Widths grow with length, so halving finds the longest that fits.
        let (mut fits, mut over) = (0, parts.len());
        while over - fits > 1 {
            let mid = (fits + over) / 2;
            let cut = format!("{}…", parts[..mid].concat().trim_end());
            if self.line(face, size, &cut).width <= room {
                fits = mid
            } else {
                over = mid
            }
        }
        self.line(face, size, &format!("{}…", parts[..fits].concat().trim_end()))
    }
}

/// Where a line may break: white space, but not the spaces that tie a number to its unit.
fn is_break(c: char) -> bool {
    c.is_whitespace() && !matches!(c, '\u{A0}' | '\u{202F}')
}

/// Characters that join or modify others and need no glyph of their own.
fn is_silent(c: char) -> bool {
    matches!(c, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{2069}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}')
}

/// Marks that belong to the character before them.
fn is_attached(c: char) -> bool {
    is_silent(c)
        || matches!(c, '\u{0300}'..='\u{036F}' | '\u{1AB0}'..='\u{1AFF}' | '\u{1DC0}'..='\u{1DFF}' | '\u{20D0}'..='\u{20FF}' | '\u{1F3FB}'..='\u{1F3FF}')
}

/// The text in clusters of a character and its marks; control characters as spaces.
fn clusters(text: &str) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    let mut joined = false;
    for c in text.chars() {
        let c = if c.is_control() || c == '\u{2028}' || c == '\u{2029}' {
            ' '
        } else {
            c
        };
        match out.last_mut() {
            Some(last) if is_attached(c) || joined => last.push(c),
            _ => out.push(c.to_string()),
        }
        joined = c == '\u{200D}';
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn greek_and_cyrillic_come_from_another_font_and_nothing_is_lost() {
        let letters = Lettering::load().unwrap();
        let line = letters.line(Face::Text, 4.0, "Ines Ελλάδα Ж 38½");
        assert!(line.spans.len() > 1, "one font cannot have drawn all of it");
        assert!(line.undrawn.is_empty(), "{:?}", line.undrawn);
        assert_eq!(
            line.spans.iter().map(|s| s.text.as_str()).collect::<String>(),
            "Ines Ελλάδα Ж 38½"
        );
    }

    #[test]
    fn an_emoji_family_becomes_one_stand_in_and_is_reported() {
        let letters = Lettering::load().unwrap();
        let line = letters.line(Face::Title, 4.0, "👩\u{200D}👧 Maren");
        assert_eq!(line.undrawn, ['👩', '👧']);
        assert_eq!(
            line.spans.iter().map(|s| s.text.as_str()).collect::<String>(),
            "\u{FFFD} Maren"
        );
    }

    #[test]
    fn every_font_knows_what_the_wording_uses() {
        let letters = Lettering::load().unwrap();
        for face in [Face::Title, Face::Heading, Face::Text, Face::Strong] {
            let line = letters.line(face, 4.0, "⅛¼⅜½⅝¾⅞ × ± % ’ – … É ø ß \u{FFFD}");
            assert!(line.undrawn.is_empty(), "{face:?}: {:?}", line.undrawn);
        }
    }

    #[test]
    fn wrapped_lines_stay_within_the_room() {
        let letters = Lettering::load().unwrap();
        let text =
            "Slate tricot, Oat lining, Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichen and more";
        let lines = letters.wrap(Face::Text, BODY, text, 30.0);
        assert!(lines.len() > 4);
        assert!(lines.iter().all(|l| l.width <= 30.0));
        let three = letters.wrap_most(Face::Text, BODY, text, 30.0, 3);
        assert_eq!(three.len(), 3);
        assert!(three[2].text().ends_with('…') && three[2].width <= 30.0);
        let cut = letters.fit(Face::Text, BODY, text, 30.0);
        assert!(cut.width <= 30.0 && cut.width > 20.0);
    }
}
