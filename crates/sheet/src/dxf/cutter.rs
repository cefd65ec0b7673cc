//! The plain file for a cutting machine or a drawing program: one layer for every kind of line, closed cut lines.
//!
//! Release 2007, so that text is UTF-8, with millimetres in the header. A cutter needs the layer `cut` and perhaps
//! `notch` (a slit from the cut line inwards); everything else can be switched off by its name.
//!
//! **Shapes and units.** mm, y up, all pieces spread out from the origin. Curves as lines within 0.05 mm.
//! **Limits.** The writer under this stamps the time and random ids into its header; both are overwritten, so that the
//! same suit gives the same bytes.

use draft::Mark;
use dxf::entities::{Entity, EntityType, Line, LwPolyline, Text};
use dxf::enums::{AcadVersion, Units};
use dxf::tables::Layer;
use dxf::{Drawing, LwPolylineVertex};
use kurbo::{Point, Vec2};

use super::{FLATTEN_MM, arc_stroke, is_closed, seam_runs};
use crate::pattern::{Fault, Options, Pattern, PieceForm, Refusal};
use crate::pdf::check;
use crate::spread::spread;
use crate::wording;

/// Layers, in the order they are listed.
const LAYERS: [&str; 10] = [
    "cut",
    "notch",
    "seam",
    "fold",
    "grain",
    "stretch",
    "elastic",
    "level",
    "placement",
    "words",
];

/// The pattern as a file for a cutter.
///
/// # Errors
/// [`Refusal`] with [`Fault::NoPieces`] and [`Fault::BrokenPiece`], or [`Fault::Writer`].
pub fn cutter(pattern: &Pattern<'_>, form: PieceForm) -> Result<Vec<u8>, Refusal> {
    check(
        pattern,
        &Options {
            form,
            ..Options::default()
        },
    )?;
    let spread = spread(pattern, form);
    let mut file = File {
        drawing: Drawing::new(),
        by: Vec2::ZERO,
    };
    file.drawing.header.version = AcadVersion::R2007;
    file.drawing.header.default_drawing_units = Units::Millimeters;
    file.drawing.header.fingerprint_guid = Default::default();
    file.drawing.header.version_guid = Default::default();
    for name in LAYERS {
        file.drawing.add_layer(Layer {
            name: name.to_owned(),
            ..Layer::default()
        });
    }
    for laid in &spread.laid {
        file.by = laid.offset_up(spread.size.1);
        let shape = &laid.shape;
        file.polyline("cut", &shape.cut_line, true);
        for notch in &shape.notches {
            let along = Vec2::new(-notch.inward.y, notch.inward.x);
            let middles: &[f64] = if notch.double { &[-3.25, 3.25] } else { &[0.0] };
            for m in middles {
                let at = notch.at + along * *m;
                file.line("notch", at, at + notch.inward * notch.depth_mm);
            }
        }
        for run in seam_runs(shape) {
            let closed = is_closed(&run);
            let points = if closed {
                run.get(..run.len() - 1).unwrap_or_default()
            } else {
                &run
            };
            file.polyline("seam", points, closed);
        }
        if let Some((foot, head)) = shape.fold_line {
            file.line("fold", foot, head);
        }
        file.line("grain", shape.grain.from, shape.grain.to);
        file.line("stretch", shape.stretch.from, shape.stretch.to);
        for mark in &shape.marks {
            match mark {
                Mark::Cross { at, text } => {
                    let (x, y) = (Vec2::new(4.0, 0.0), Vec2::new(0.0, 4.0));
                    file.line("placement", *at - x, *at + x);
                    file.line("placement", *at - y, *at + y);
                    file.words(*at + Vec2::new(5.0, 0.0), 4.0, text);
                }
                Mark::LevelLine { from, to, text } => {
                    file.line("level", *from, *to);
                    file.words(*from + Vec2::new(3.0, 1.0), 4.0, text);
                }
                Mark::Placement { curve, text } => {
                    file.polyline("placement", &curve.flatten(FLATTEN_MM), false);
                    file.words(curve.start() + Vec2::new(3.0, 1.0), 4.0, text);
                }
                Mark::ArcEnd { at, inward, letter } => {
                    let (from, to) = arc_stroke(*at, *inward);
                    file.line("elastic", from, to);
                    file.words(to, 4.0, &letter.to_string());
                }
            }
        }
        let label = shape.label_at;
        file.words(label, 8.0, &format!("{} {}", laid.piece.letter, laid.piece.name));
        file.words(label - Vec2::new(0.0, 8.0), 4.0, &wording::cut(&laid.piece.cuts));
        let whose = format!(
            "{}, {}, version {}",
            pattern.suit, pattern.wearer, pattern.version
        );
        file.words(label - Vec2::new(0.0, 14.0), 4.0, &whose);
    }
    let mut bytes = Vec::new();
    file.drawing
        .save(&mut bytes)
        .map_err(|e| Refusal::of(Fault::Writer(e.to_string())))?;
    without_time(bytes)
}

/// Transparency of an entity: by value (bit 25), alpha 255.
const OPAQUE: i32 = 0x0200_00FF;

struct File {
    drawing: Drawing,
    /// From the piece frame to the plane.
    by: Vec2,
}

impl File {
    fn add(&mut self, layer: &str, what: EntityType) {
        let mut entity = Entity::new(what);
        entity.common.layer = layer.to_owned();
        // Opaque; the writer's zero is no transparency this release knows.
        entity.common.transparency = OPAQUE;
        self.drawing.add_entity(entity);
    }

    fn point(&self, p: Point) -> dxf::Point {
        dxf::Point::new(p.x + self.by.x, p.y + self.by.y, 0.0)
    }

    fn line(&mut self, layer: &str, from: Point, to: Point) {
        let line = Line {
            p1: self.point(from),
            p2: self.point(to),
            ..Line::default()
        };
        self.add(layer, EntityType::Line(line));
    }

    fn polyline(&mut self, layer: &str, points: &[Point], closed: bool) {
        let vertices = points
            .iter()
            .map(|p| LwPolylineVertex {
                x: p.x + self.by.x,
                y: p.y + self.by.y,
                ..LwPolylineVertex::default()
            })
            .collect();
        let mut line = LwPolyline {
            vertices,
            ..LwPolyline::default()
        };
        line.set_is_closed(closed);
        self.add(layer, EntityType::LwPolyline(line));
    }

    fn words(&mut self, at: Point, height: f64, text: &str) {
        let value: String = text
            .chars()
            .map(|c| if c.is_control() { ' ' } else { c })
            .collect();
        if value.trim().is_empty() {
            return;
        }
        let text = Text {
            location: self.point(at),
            text_height: height,
            value,
            ..Text::default()
        };
        self.add("words", EntityType::Text(text));
    }
}

/// Puts one fixed day for the time of writing: Julian day 2451545 (2000-01-01).
fn without_time(bytes: Vec<u8>) -> Result<Vec<u8>, Refusal> {
    const TIMES: [&str; 4] = ["$TDCREATE", "$TDUCREATE", "$TDUPDATE", "$TDUUPDATE"];
    let text = String::from_utf8(bytes).map_err(|e| Refusal::of(Fault::Writer(e.to_string())))?;
    let mut out = String::with_capacity(text.len());
    // A variable is its name, a line with the group code, and a line with the value.
    let mut until_value = 0_u8;
    for line in text.split_inclusive('\n') {
        let is_time = TIMES.contains(&line.trim_end());
        if until_value == 1 {
            out.push_str("2451545.0\r\n");
        } else {
            out.push_str(line);
        }
        until_value = if is_time { 2 } else { until_value.saturating_sub(1) };
    }
    Ok(out.into_bytes())
}
