//! The pen: draws inks on the pages of a PDF, with tags for readers that do not see them.
//!
//! Everything above works in millimetres and `f64`; a point of the sheet becomes a point of the page here, in one place,
//! and only then an `f32` of PDF points (at 2 m one step of it is 0.0002 mm). Drawings are marked as artifacts, words
//! as paragraphs, headings and table cells, so that the file passes the writer's own PDF/UA-1 checks or is not made.
//!
//! **Shapes and units.** Inks in sheet mm, y down. A [`View`] says which part of the sheet lies where on the page.
//! **Source.** PDF 1.7, ISO 32000-1; one point is 1/72 in.

use std::collections::BTreeSet;
use std::num::NonZeroU16;

use krilla::color::luma;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Transform};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, SpanTag, TableHeaderScope, Tag, TagGroup, TagKind,
    TagTree,
};
use krilla::{Document, SerializeSettings};
use kurbo::{PathEl, Point, Rect, Vec2};

use crate::ink::{Ink, Pen, Plane, Role, Tone, What, Words};
use crate::layers;

/// Points in a millimetre.
const PT_PER_MM: f64 = 72.0 / 25.4;
/// Longest page side PDF allows without a user unit: 14400 points (ISO 32000-1, annex C).
pub(crate) const LONGEST_PAGE_MM: f64 = 5080.0;

/// Which part of a sheet is drawn, and where on the page.
#[derive(Clone, Copy, Debug)]
pub(crate) struct View {
    /// A point of the sheet ...
    pub(crate) sheet: Point,
    /// ... and where on the page it lies, mm.
    pub(crate) page: Point,
    /// Page millimetres per sheet millimetre across and down: 1 but for a printer that is off.
    pub(crate) scale: (f64, f64),
    /// What is drawn, on the sheet; the rest is cut off. `None` draws all.
    pub(crate) clip: Option<Rect>,
    /// Black and white swapped, on a black page.
    pub(crate) is_inverted: bool,
}

impl View {
    /// The page itself.
    pub(crate) const fn page(scale: (f64, f64)) -> View {
        View {
            sheet: Point::ZERO,
            page: Point::ZERO,
            scale,
            clip: None,
            is_inverted: false,
        }
    }

    fn map(&self, p: Point) -> (f32, f32) {
        let d: Vec2 = p - self.sheet;
        (
            ((self.page.x + d.x * self.scale.0) * PT_PER_MM) as f32,
            ((self.page.y + d.y * self.scale.1) * PT_PER_MM) as f32,
        )
    }
}

/// A line of words with its place in the structure.
struct Tagged {
    role: Role,
    id: Identifier,
    text: String,
}

/// A PDF in the making.
pub(crate) struct Book {
    document: Document,
    outline: Outline,
    tags: TagTree,
    /// For every page, the layer of each marked section in drawing order.
    sections: Vec<Vec<Plane>>,
    undrawn: BTreeSet<char>,
}

impl Book {
    /// A book without pages, in English.
    pub(crate) fn new(title: &str, description: &str) -> Result<Book, String> {
        Book::in_language(title, description, "en")
    }

    /// A book without pages in the language of that tag.
    pub(crate) fn in_language(title: &str, description: &str, language: &str) -> Result<Book, String> {
        let configuration = ConfigurationBuilder::new()
            .with_accessibility_validator(Accessibility::UA1)
            .finish()
            .map_err(|e| format!("{e:?}"))?;
        let mut document = Document::new_with(SerializeSettings {
            configuration,
            ..Default::default()
        });
        // No date and an id made of the contents: the same suit gives the same bytes.
        document.set_metadata(
            Metadata::new()
                .title(title.to_owned())
                .description(description.to_owned())
                .language(language.to_owned())
                .creator("Slackwater".to_owned()),
        );
        Ok(Book {
            document,
            outline: Outline::new(),
            tags: TagTree::new().with_lang(Some(language.to_owned())),
            sections: Vec::new(),
            undrawn: BTreeSet::new(),
        })
    }

    /// Adds a page of `width` x `height` mm, `entry` in the outline, drawn from views of inks in order.
    pub(crate) fn page(
        &mut self,
        size: (f64, f64),
        entry: &str,
        views: &[(View, &[Ink])],
    ) -> Result<(), String> {
        let settings = PageSettings::from_wh((size.0 * PT_PER_MM) as f32, (size.1 * PT_PER_MM) as f32)
            .ok_or_else(|| format!("a page of {} x {} mm", size.0, size.1))?;
        let index = self.sections.len();
        let mut sections = Vec::new();
        let mut tagged: Vec<Tagged> = Vec::new();
        let mut page = self.document.start_page_with(settings);
        let mut surface = page.surface();
        for (view, inks) in views {
            let clip = view
                .clip
                .and_then(|r| path_of(&crate::ink::closed(&corners(r)), view));
            if let Some(clip) = &clip {
                surface.push_clip_path(clip, &FillRule::NonZero);
            }
            draw_view(
                &mut surface,
                view,
                inks,
                &mut sections,
                &mut tagged,
                &mut self.undrawn,
            );
            if clip.is_some() {
                surface.pop();
            }
        }
        surface.finish();
        page.finish();
        self.sections.push(sections);
        let mut part = TagGroup::new(Tag::Part);
        group(&tagged, &mut part);
        if !part.children.is_empty() {
            self.tags.push(part);
        }
        let top = XyzDestination::new(index, krilla::geom::Point::from_xy(0.0, 0.0));
        self.outline.push_child(OutlineNode::new(entry.to_owned(), top));
        Ok(())
    }

    /// The file, and the characters no font has.
    pub(crate) fn finish(mut self) -> Result<(Vec<u8>, Vec<char>), String> {
        self.document.set_outline(self.outline);
        self.document.set_tag_tree(self.tags);
        let plain = self.document.finish().map_err(|e| format!("{e:?}"))?;
        let bytes = layers::add(&plain, &self.sections)?;
        Ok((bytes, self.undrawn.into_iter().collect()))
    }
}

fn corners(r: Rect) -> [Point; 4] {
    [
        Point::new(r.x0, r.y0),
        Point::new(r.x1, r.y0),
        Point::new(r.x1, r.y1),
        Point::new(r.x0, r.y1),
    ]
}

/// Draws what of the inks falls into the view, one marked section for every run of lines and every line of words.
fn draw_view(
    surface: &mut Surface<'_>,
    view: &View,
    inks: &[Ink],
    sections: &mut Vec<Plane>,
    tagged: &mut Vec<Tagged>,
    undrawn: &mut BTreeSet<char>,
) {
    let seen: Vec<&Ink> = inks
        .iter()
        .filter(|i| view.clip.is_none_or(|c| touches(i.bounds(), c)))
        .collect();
    let planes: BTreeSet<(crate::ink::Kind, crate::ink::Cloths)> =
        seen.iter().map(|i| (i.plane.kind, i.plane.cloths)).collect();
    for (kind, cloths) in planes {
        let plane = Plane { cloths, kind };
        let mut is_open = false;
        for ink in seen.iter().filter(|i| i.plane == plane) {
            match &ink.what {
                What::Words(words) => {
                    if is_open {
                        surface.end_tagged();
                        is_open = false;
                    }
                    undrawn.extend(words.line.undrawn.iter());
                    sections.push(plane);
                    match words.role {
                        Role::Aside => {
                            surface.start_tagged(artifact());
                        }
                        role => {
                            let id = surface.start_tagged(ContentTag::Span(SpanTag::empty()));
                            tagged.push(Tagged {
                                role,
                                id,
                                text: words.line.text(),
                            });
                        }
                    }
                    draw_words(surface, view, words);
                    surface.end_tagged();
                }
                What::Line { path, pen } => {
                    open_lines(surface, sections, plane, &mut is_open);
                    if let Some(path) = path_of(path, view) {
                        surface.set_fill(None);
                        surface.set_stroke(Some(stroke_of(*pen, view)));
                        surface.draw_path(&path);
                    }
                }
                What::Fill { path, tone } => {
                    open_lines(surface, sections, plane, &mut is_open);
                    if let Some(path) = path_of(path, view) {
                        surface.set_stroke(None);
                        surface.set_fill(Some(fill_of(*tone, view)));
                        surface.draw_path(&path);
                    }
                }
            }
        }
        if is_open {
            surface.end_tagged();
        }
    }
}

fn artifact() -> ContentTag<'static> {
    ContentTag::Artifact(Artifact::with_kind(ArtifactType::Other))
}

fn open_lines(surface: &mut Surface<'_>, sections: &mut Vec<Plane>, plane: Plane, is_open: &mut bool) {
    if !*is_open {
        surface.start_tagged(artifact());
        sections.push(plane);
        *is_open = true;
    }
}

/// Rectangles that touch count: a line on the very edge of a tile is drawn on both.
fn touches(a: Rect, b: Rect) -> bool {
    a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

fn path_of(path: &kurbo::BezPath, view: &View) -> Option<Path> {
    let mut out = PathBuilder::new();
    for el in path.elements() {
        match *el {
            PathEl::MoveTo(p) => {
                let (x, y) = view.map(p);
                out.move_to(x, y);
            }
            PathEl::LineTo(p) => {
                let (x, y) = view.map(p);
                out.line_to(x, y);
            }
            PathEl::QuadTo(p, q) => {
                let ((x1, y1), (x, y)) = (view.map(p), view.map(q));
                out.quad_to(x1, y1, x, y);
            }
            PathEl::CurveTo(p, q, r) => {
                let ((x1, y1), (x2, y2), (x, y)) = (view.map(p), view.map(q), view.map(r));
                out.cubic_to(x1, y1, x2, y2, x, y);
            }
            PathEl::ClosePath => out.close(),
        }
    }
    out.finish()
}

fn stroke_of(pen: Pen, view: &View) -> Stroke {
    let mm = |v: f64| (v * PT_PER_MM) as f32;
    Stroke {
        paint: colour_of(Tone::Black, view).into(),
        width: mm(pen.width),
        miter_limit: 8.0,
        line_cap: if pen.round { LineCap::Round } else { LineCap::Butt },
        line_join: LineJoin::Miter,
        opacity: NormalizedF32::ONE,
        dash: (!pen.dash.is_empty()).then(|| StrokeDash {
            array: pen.dash.iter().map(|d| mm(*d)).collect(),
            offset: 0.0,
        }),
    }
}

fn colour_of(tone: Tone, view: &View) -> luma::Color {
    if (tone == Tone::Black) == view.is_inverted {
        luma::Color::white()
    } else {
        luma::Color::black()
    }
}

fn fill_of(tone: Tone, view: &View) -> Fill {
    Fill {
        paint: colour_of(tone, view).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn draw_words(surface: &mut Surface<'_>, view: &View, words: &Words) {
    surface.set_stroke(None);
    surface.set_fill(Some(fill_of(words.tone, view)));
    let (sin, cos) = words.turn.sin_cos();
    let is_turned = words.turn != 0.0;
    let mut along = 0.0;
    for span in &words.line.spans {
        // Each span starts where the drawing's scale puts it; the letters themselves keep their shape.
        let start = words.at + Vec2::new(cos, sin) * along;
        let (x, y) = view.map(start);
        let size = (words.line.size * PT_PER_MM) as f32;
        let origin = if is_turned {
            surface.push_transform(&Transform::from_row(
                cos as f32,
                sin as f32,
                -sin as f32,
                cos as f32,
                x,
                y,
            ));
            krilla::geom::Point::from_xy(0.0, 0.0)
        } else {
            krilla::geom::Point::from_xy(x, y)
        };
        surface.draw_glyphs(origin, &span.glyphs, span.font.clone(), &span.text, size, false);
        if is_turned {
            surface.pop();
        }
        along += span.width;
    }
}

/// Gathers lines into paragraphs and cells into tables, in drawing order.
fn group(tagged: &[Tagged], part: &mut TagGroup) {
    let mut i = 0;
    while let Some(Tagged { role, id, text }) = tagged.get(i) {
        match *role {
            Role::Aside => i += 1,
            Role::Heading(level) => {
                let level = NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
                let kind: TagKind = Tag::Hn(level, Some(text.clone())).into();
                part.push(TagGroup::with_children(kind, vec![(*id).into()]));
                i += 1;
            }
            Role::Paragraph(number) => {
                let mut p = TagGroup::new(Tag::P);
                while let Some(Tagged {
                    role: Role::Paragraph(n),
                    id,
                    ..
                }) = tagged.get(i)
                    && *n == number
                {
                    p.push(*id);
                    i += 1;
                }
                part.push(p);
            }
            Role::Cell { table, .. } => {
                let end = tagged[i..]
                    .iter()
                    .position(|t| !matches!(t.role, Role::Cell { table: t, .. } if t == table))
                    .map_or(tagged.len(), |n| i + n);
                part.push(table_group(tagged.get(i..end).unwrap_or_default()));
                i = end;
            }
        }
    }
}

fn table_group(cells: &[Tagged]) -> TagGroup {
    let mut table = TagGroup::new(Tag::Table);
    let mut now: Option<(u32, u32, TagGroup, TagGroup)> = None;
    for Tagged { role, id, .. } in cells {
        let Role::Cell {
            row, column, is_head, ..
        } = *role
        else {
            continue;
        };
        let cell = || -> TagGroup {
            if is_head {
                TagGroup::new(Tag::TH(TableHeaderScope::Column))
            } else {
                TagGroup::new(Tag::TD)
            }
        };
        now = Some(match now.take() {
            Some((r, c, tr, mut td)) if r == row && c == column => {
                td.push(*id);
                (r, c, tr, td)
            }
            Some((r, _, mut tr, td)) if r == row => {
                tr.push(td);
                let mut td = cell();
                td.push(*id);
                (row, column, tr, td)
            }
            before => {
                if let Some((_, _, mut tr, td)) = before {
                    tr.push(td);
                    table.push(tr);
                }
                let mut td = cell();
                td.push(*id);
                (row, column, TagGroup::new(Tag::TR), td)
            }
        });
    }
    if let Some((_, _, mut tr, td)) = now {
        tr.push(td);
        table.push(tr);
    }
    table
}
