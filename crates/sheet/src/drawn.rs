//! One piece as it is printed: its lines, marks and arrows, and the words placed among them.
//!
//! Lines come first, then the words beside the arrows, then the label, then everything small that has several places to
//! stand. What does not fit inside stands to the right of the piece with a line pointing to it.
//!
//! **Shapes and units.** In: the piece frame, mm, y up. Out: mm, y down, the upper left corner of everything drawn at the
//! origin. Turned over here, once.

use draft::{Arrow, EdgeUse, Mark, OpenKind, Piece, Shape};
use kurbo::{BezPath, PathEl, Point, Rect, Vec2};

use crate::ink::{Cloths, Drawing, Kind, Pen, Plane, Role, Tone, closed, open, pens};
use crate::label;
use crate::lettering::{BODY, Face, LEAST, Lettering, Line, NOTE};
use crate::pattern::{Pattern, PieceForm};
use crate::room::{Crossing, Room, distance_to_segment};
use crate::wording;

/// How heavy the lines are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Weight {
    /// As on paper.
    Paper,
    /// 1.5 mm at least, to be seen under a projector.
    Projected,
}

/// Lines under a projector are at least this wide, mm (common practice, no single source).
const PROJECTED_LINE: f64 = 1.5;

impl Weight {
    fn pen(self, pen: Pen) -> Pen {
        match self {
            Weight::Paper => pen,
            Weight::Projected => Pen {
                width: pen.width.max(PROJECTED_LINE),
                dash: projected_dash(pen),
                ..pen
            },
        }
    }

    /// Words are twice as large when projected.
    pub(crate) fn letters(self) -> f64 {
        match self {
            Weight::Paper => 1.0,
            Weight::Projected => 2.0,
        }
    }
}

/// The rhythm of a pen at the width of a projected line; thin dashes would close up.
fn projected_dash(pen: Pen) -> &'static [f64] {
    match pen.dash.len() {
        0 => &[],
        2 if pen.round => &[0.0, 5.0],
        2 => &[12.0, 6.0],
        _ => &[20.0, 5.0, 4.0, 5.0],
    }
}

/// A piece ready to be laid on a sheet.
#[derive(Clone, Debug)]
pub(crate) struct DrawnPiece {
    pub(crate) key: String,
    pub(crate) letter: char,
    pub(crate) drawing: Drawing,
    /// The cut line.
    pub(crate) outline: Vec<Point>,
    /// Everything drawn, a label outside included; its upper left corner is the origin.
    pub(crate) size: (f64, f64),
}

impl DrawnPiece {
    /// What must lie on paper: the cut line, or the whole box if words stand outside it.
    pub(crate) fn footprint(&self) -> Vec<Point> {
        let right = self.outline.iter().map(|p| p.x).fold(0.0, f64::max);
        if self.size.0 > right + 2.0 {
            rect_corners(Rect::new(0.0, 0.0, self.size.0, self.size.1)).to_vec()
        } else {
            self.outline.clone()
        }
    }
}

/// Which cloths a piece is cut from.
fn cloths_of(piece: &Piece) -> Cloths {
    Cloths(piece.cuts.iter().fold(0, |bits, c| {
        bits | match c.layer {
            cloth::Layer::Shell => 1,
            cloth::Layer::Lining => 2,
            cloth::Layer::Mesh => 4,
        }
    }))
}

/// Draws a piece.
pub(crate) fn draw(
    piece: &Piece,
    pattern: &Pattern<'_>,
    form: PieceForm,
    weight: Weight,
    letters: &Lettering,
) -> DrawnPiece {
    let shape = match form {
        PieceForm::Whole => piece.whole(),
        PieceForm::Half => piece.as_drafted(),
    };
    draw_shape(piece, &piece.name, &shape, pattern, weight, letters)
}

/// Draws the other one of a pair: the piece turned over.
pub(crate) fn draw_mirrored(
    piece: &Piece,
    pattern: &Pattern<'_>,
    form: PieceForm,
    weight: Weight,
    letters: &Lettering,
) -> DrawnPiece {
    let shape = match form {
        PieceForm::Whole => piece.whole(),
        PieceForm::Half => piece.as_drafted(),
    };
    draw_shape(
        piece,
        &format!("{}, mirrored", piece.name),
        &mirrored(&shape),
        pattern,
        weight,
        letters,
    )
}

fn draw_shape(
    piece: &Piece,
    name: &str,
    shape: &Shape,
    pattern: &Pattern<'_>,
    weight: Weight,
    letters: &Lettering,
) -> DrawnPiece {
    let mut pen = PiecePen::new(piece, shape, weight, letters);
    pen.lines(shape);
    pen.notches(shape);
    pen.arcs(shape);
    pen.marks(shape);
    pen.arrows(shape);
    pen.arrow_words(piece, shape, pattern);
    let wanted = pen.flip(shape.label_at);
    let label = label::place(piece, name, pattern, &mut pen, wanted);
    pen.fold(shape, &label);
    pen.mark_words(shape);
    pen.finish(piece)
}

/// Draws one piece, keeping track of where there is room.
pub(crate) struct PiecePen<'a> {
    pub(crate) letters: &'a Lettering,
    pub(crate) weight: Weight,
    pub(crate) room: Room,
    pub(crate) drawing: Drawing,
    pub(crate) outline: Vec<Point>,
    cloths: Cloths,
    corner: Point,
}

impl<'a> PiecePen<'a> {
    fn new(piece: &Piece, shape: &Shape, weight: Weight, letters: &'a Lettering) -> PiecePen<'a> {
        let first = shape.cut_line.first().copied().unwrap_or_default();
        let bounds = shape
            .cut_line
            .iter()
            .fold(Rect::from_points(first, first), |r, p| r.union_pt(*p));
        let corner = Point::new(bounds.x0, bounds.y1);
        let outline: Vec<Point> = shape
            .cut_line
            .iter()
            .map(|p| Point::new(p.x - corner.x, corner.y - p.y))
            .collect();
        PiecePen {
            letters,
            weight,
            room: Room::new(&outline),
            drawing: Drawing::default(),
            outline,
            cloths: cloths_of(piece),
            corner,
        }
    }

    /// From the piece frame to the drawing: the one place where y turns over.
    pub(crate) fn flip(&self, p: Point) -> Point {
        Point::new(p.x - self.corner.x, self.corner.y - p.y)
    }

    fn flip_path(&self, path: &BezPath) -> BezPath {
        path.elements()
            .iter()
            .map(|el| match *el {
                PathEl::MoveTo(p) => PathEl::MoveTo(self.flip(p)),
                PathEl::LineTo(p) => PathEl::LineTo(self.flip(p)),
                PathEl::QuadTo(p, q) => PathEl::QuadTo(self.flip(p), self.flip(q)),
                PathEl::CurveTo(p, q, r) => PathEl::CurveTo(self.flip(p), self.flip(q), self.flip(r)),
                PathEl::ClosePath => PathEl::ClosePath,
            })
            .collect()
    }

    pub(crate) fn plane(&self, kind: Kind) -> Plane {
        Plane {
            cloths: self.cloths,
            kind,
        }
    }

    fn lines(&mut self, shape: &Shape) {
        let cut = self.weight.pen(pens::CUT);
        // On a half, the fold is drawn as a fold, not cut.
        let n = shape.cut_line.len();
        let on_fold = |p: &Point| shape.fold_is_edge && p.x.abs() < 1e-9;
        let gap = (0..n).find(|i| {
            shape.cut_line.get(*i).is_some_and(on_fold)
                && shape.cut_line.get((i + 1) % n).is_some_and(on_fold)
        });
        let path = match gap {
            Some(i) => {
                let run: Vec<Point> = self.outline.iter().cycle().skip(i + 1).take(n).copied().collect();
                open(&run)
            }
            None => closed(&self.outline),
        };
        let plane = self.plane(Kind::Cutting);
        self.drawing.path(plane, cut, path);
        let plane = self.plane(Kind::Seam);
        let seam = self.weight.pen(pens::SEAM);
        for run in seam_runs(shape) {
            let mut path = BezPath::new();
            for (i, edge) in run.iter().enumerate() {
                let edge_path = self.flip_path(&edge.curve.to_path());
                path.extend(edge_path.elements().iter().skip(usize::from(i > 0)).copied());
                let points: Vec<Point> = edge
                    .curve
                    .flatten(0.2)
                    .into_iter()
                    .map(|p| self.flip(p))
                    .collect();
                self.room.keep_off_seam(&points);
            }
            self.drawing.path(plane, seam, path);
        }
        if let Some((foot, head)) = shape.fold_line {
            let line = [self.flip(foot), self.flip(head)];
            self.room.keep_off_fold(&line);
        }
    }

    /// Filled triangles on the cut line, pointing in.
    fn notches(&mut self, shape: &Shape) {
        /// Base on the cut line, mm.
        const BASE: f64 = 5.0;
        /// Middles of a double notch, mm apart.
        const APART: f64 = 6.5;
        let plane = self.plane(Kind::Marks);
        for notch in &shape.notches {
            let along = Vec2::new(-notch.inward.y, notch.inward.x);
            let middles: &[f64] = if notch.double {
                &[-0.5 * APART, 0.5 * APART]
            } else {
                &[0.0]
            };
            for m in middles {
                let at = notch.at + along * *m;
                let triangle = [
                    at - along * (0.5 * BASE),
                    at + notch.inward * notch.depth_mm,
                    at + along * (0.5 * BASE),
                ]
                .map(|p| self.flip(p));
                self.drawing.fill(plane, Tone::Black, closed(&triangle));
                self.room.take(&triangle);
            }
        }
    }

    /// Two short strokes across the edge and a ring with the letter at the inner end.
    fn arcs(&mut self, shape: &Shape) {
        /// Strokes apart, mm.
        const APART: f64 = 1.8;
        /// How far the strokes reach past the seam line, mm.
        const PAST: f64 = 3.0;
        let k = self.weight.letters();
        let radius = 2.5 * k;
        let plane = self.plane(Kind::Marks);
        let pen = self.weight.pen(pens::ARC);
        for mark in &shape.marks {
            let Mark::ArcEnd { at, inward, letter } = mark else {
                continue;
            };
            let along = Vec2::new(-inward.y, inward.x);
            let out = *inward * -allowance_at(shape, *at);
            for side in [-0.5 * APART * k, 0.5 * APART * k] {
                let from = self.flip(*at + out + along * side);
                let to = self.flip(*at + *inward * PAST + along * side);
                self.drawing.line(plane, pen, from, to);
            }
            let middle = self.ring_place(*at, *inward, PAST, radius);
            self.drawing.ring(plane, pen, middle, radius);
            let line = self.letters.line(Face::Strong, LEAST * k, &letter.to_string());
            let at_words = middle + Vec2::new(-0.5 * line.width, 0.36 * line.size);
            let words = self.plane(Kind::Words);
            self.drawing.words(words, line, at_words, Role::Aside);
            let square = Rect::from_center_size(middle, (2.0 * radius, 2.0 * radius));
            self.room.take(&rect_corners(square));
            self.room
                .keep_off(&[self.flip(*at + out), self.flip(*at + *inward * PAST)]);
        }
    }

    /// At the inner end of the strokes; on a narrow strap, where the other edge's ring stands there already, nearer or
    /// farther or beside them.
    fn ring_place(&self, at: Point, inward: Vec2, past: f64, radius: f64) -> Point {
        let along = Vec2::new(-inward.y, inward.x);
        let usual = past + radius;
        let beside = radius + 2.0;
        let places = [
            (usual, 0.0),
            (usual + radius, 0.0),
            (radius - 0.3, beside),
            (radius - 0.3, -beside),
            (usual + 3.0 * radius, 0.0),
        ];
        places
            .into_iter()
            .map(|(deep, aside)| self.flip(at + inward * deep + along * aside))
            .find(|m| {
                let square = Rect::from_center_size(*m, (2.0 * radius, 2.0 * radius));
                self.room.is_free(&rect_corners(square), Crossing::FoldAndSeams)
            })
            .unwrap_or_else(|| self.flip(at + inward * usual))
    }

    fn marks(&mut self, shape: &Shape) {
        let plane = self.plane(Kind::Marks);
        for mark in &shape.marks {
            match mark {
                Mark::Cross { at, .. } => {
                    const ARM: f64 = 4.0;
                    let at = self.flip(*at);
                    let pen = self.weight.pen(pens::CROSS);
                    for arm in [Vec2::new(ARM, 0.0), Vec2::new(0.0, ARM)] {
                        self.drawing.line(plane, pen, at - arm, at + arm);
                    }
                    self.room
                        .take(&rect_corners(Rect::from_center_size(at, (2.0 * ARM, 2.0 * ARM))));
                }
                Mark::LevelLine { from, to, .. } => {
                    let (from, to) = (self.flip(*from), self.flip(*to));
                    let pen = self.weight.pen(pens::LEVEL);
                    self.drawing.line(plane, pen, from, to);
                    self.room.keep_off(&[from, to]);
                }
                Mark::Placement { curve, .. } => {
                    let pen = self.weight.pen(pens::PLACEMENT);
                    let path = self.flip_path(&curve.to_path());
                    self.drawing.path(plane, pen, path);
                    let points: Vec<Point> = curve.flatten(0.2).into_iter().map(|p| self.flip(p)).collect();
                    self.room.keep_off(&points);
                }
                Mark::ArcEnd { .. } => {}
            }
        }
    }

    fn arrows(&mut self, shape: &Shape) {
        let plane = self.plane(Kind::Marks);
        // Grain: a bar at the foot, an open head.
        let (foot, head) = self.ends(shape.grain);
        if let Some(way) = unit(head - foot) {
            let across = Vec2::new(-way.y, way.x);
            let pen = self.weight.pen(pens::GRAIN);
            let size = (0.12 * (head - foot).hypot()).clamp(2.0, 6.0 * self.weight.letters());
            self.drawing.line(plane, pen, foot, head);
            self.drawing
                .line(plane, pen, foot - across * 2.6, foot + across * 2.6);
            self.drawing.path(plane, pen, barbs(head, way, size));
            self.room.take(&[
                foot - across * 2.6,
                foot + across * 2.6,
                head + across * 2.2,
                head - across * 2.2,
            ]);
        }
        // Greater stretch: a head at both ends and three ribs in the middle.
        let (from, to) = self.ends(shape.stretch);
        if let Some(way) = unit(to - from) {
            let across = Vec2::new(-way.y, way.x);
            let pen = self.weight.pen(pens::STRETCH);
            let size = (0.12 * (to - from).hypot()).clamp(2.0, 6.0 * self.weight.letters());
            self.drawing.line(plane, pen, from, to);
            self.drawing.path(plane, pen, barbs(to, way, size));
            self.drawing.path(plane, pen, barbs(from, -way, size));
            let middle = from.midpoint(to);
            for rib in [-2.4, 0.0, 2.4] {
                let at = middle + way * (rib * self.weight.letters());
                self.drawing
                    .line(plane, pen, at - across * 3.0, at + across * 3.0);
            }
            self.room.take(&[
                from - across * 3.0,
                from + across * 3.0,
                to + across * 3.0,
                to - across * 3.0,
            ]);
        }
    }

    fn ends(&self, arrow: Arrow) -> (Point, Point) {
        (self.flip(arrow.from), self.flip(arrow.to))
    }

    /// The word "grain" and the words of the stretch arrow, along their arrows.
    fn arrow_words(&mut self, piece: &Piece, shape: &Shape, pattern: &Pattern<'_>) {
        let k = self.weight.letters();
        let (from, to) = self.ends(shape.stretch);
        let is_around = (to.x - from.x).abs() >= (to.y - from.y).abs();
        let choices = wording::stretch(piece, is_around, pattern.cloth);
        'stretch: for size in [BODY, NOTE, LEAST] {
            for lines in &choices {
                let shaped: Vec<Line> = lines
                    .iter()
                    .map(|t| self.letters.line(Face::Text, size * k, t))
                    .collect();
                if self.along(from, to, &shaped, 5.2) {
                    break 'stretch;
                }
            }
        }
        let (from, to) = self.ends(shape.grain);
        for size in [BODY, NOTE, LEAST] {
            let line = self
                .letters
                .line(Face::Text, size * k, &wording::grain(&piece.cuts));
            if self.along(from, to, &[line], 4.8) {
                break;
            }
        }
    }

    /// Stacks lines beside an arrow, above or below it, or as far along as there is room; false if there is none.
    fn along(&mut self, from: Point, to: Point, lines: &[Line], off: f64) -> bool {
        let Some(way) = unit(to - from) else { return false };
        // Words read upwards or rightwards, whichever way the arrow points.
        let upward = way.y < -0.7 || (way.y.abs() <= 0.7 && way.x > 0.0);
        let way = if upward { way } else { -way };
        let turn = way.y.atan2(way.x);
        let above = Vec2::new(way.y, -way.x);
        let length = (to - from).hypot();
        let width = lines.iter().map(|l| l.width).fold(0.0, f64::max);
        let Some(first) = lines.first() else { return false };
        let leading = 1.25 * first.size;
        let height = leading * (lines.len() - 1) as f64 + first.ascent() + first.descent();
        let middle = from.midpoint(to);
        let slides = [0.0, 0.15, -0.15, 0.25, -0.25, 0.35, -0.35, 0.5, -0.5, 0.65, -0.65];
        for side in [1.0, -1.0] {
            for slide in slides {
                let centre = middle + way * (slide * length) + above * (side * (off + 0.5 * height));
                let corners = turned_box(centre, way, width, height);
                if !self.room.is_free(&corners, Crossing::Nothing) {
                    continue;
                }
                for (i, line) in lines.iter().enumerate() {
                    let up = 0.5 * height - first.ascent() - leading * i as f64;
                    let at = centre - way * (0.5 * line.width) + above * up;
                    let plane = self.plane(Kind::Words);
                    let role = Role::Paragraph(self.drawing.next_number());
                    self.drawing.turned_words(plane, line.clone(), at, turn, role);
                }
                self.room.take(&corners);
                return true;
            }
        }
        false
    }

    /// The fold, broken where words stand on it, with its word.
    fn fold(&mut self, shape: &Shape, label: &Option<Rect>) {
        let Some((foot, head)) = shape.fold_line else {
            return;
        };
        let (foot, head) = (self.flip(foot), self.flip(head));
        let plane = self.plane(Kind::Marks);
        let pen = self.weight.pen(pens::FOLD);
        let word = if shape.fold_is_edge {
            "place on the fold"
        } else {
            "fold"
        };
        let k = self.weight.letters();
        let line = self.letters.line(Face::Text, NOTE * k, word);
        let length = (head - foot).hypot();
        let steps = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88];
        let up = Vec2::new(0.0, -1.0);
        'word: for share in steps {
            for side in [-1.0, 1.0] {
                let height = line.ascent() + line.descent();
                let centre = foot + up * (share * length) + Vec2::new(side * (2.2 + 0.5 * height), 0.0);
                let corners = turned_box(centre, up, line.width, height);
                if self.room.is_free(&corners, Crossing::Nothing) {
                    // Read upwards: the baseline lies right of the middle of the letters.
                    let at = centre + Vec2::new(0.5 * height - line.descent(), 0.5 * line.width);
                    let words = self.plane(Kind::Words);
                    let turn = -std::f64::consts::FRAC_PI_2;
                    self.drawing
                        .turned_words(words, line.clone(), at, turn, Role::Aside);
                    self.room.take(&corners);
                    break 'word;
                }
            }
        }
        match label {
            Some(r) if r.x0 < foot.x && foot.x < r.x1 && head.y < r.y0 && r.y1 < foot.y => {
                self.drawing
                    .line(plane, pen, foot, Point::new(foot.x, r.y1 + 2.0));
                self.drawing
                    .line(plane, pen, Point::new(foot.x, r.y0 - 2.0), head);
            }
            _ => self.drawing.line(plane, pen, foot, head),
        }
    }

    /// Words of level lines, crosses and placements, each near what it names.
    fn mark_words(&mut self, shape: &Shape) {
        let k = self.weight.letters();
        for mark in &shape.marks {
            match mark {
                Mark::LevelLine { from, to, text } => {
                    let (from, to) = (self.flip(*from), self.flip(*to));
                    for size in [NOTE, LEAST] {
                        let line = self.letters.line(Face::Text, size * k, text);
                        if self.beside_line(from, to, &line) {
                            break;
                        }
                    }
                }
                Mark::Cross { at, text } => {
                    let at = self.flip(*at);
                    let line = self.letters.line(Face::Text, LEAST * k, text);
                    self.near(at, 6.0, &line);
                }
                Mark::Placement { curve, text } => {
                    let line = self.letters.line(Face::Text, LEAST * k, text);
                    let points: Vec<Point> = curve.flatten(0.5).into_iter().map(|p| self.flip(p)).collect();
                    let middles = [0.5, 0.3, 0.7, 0.1, 0.9];
                    for share in middles {
                        let i = ((points.len().saturating_sub(1)) as f64 * share).round() as usize;
                        if let Some(p) = points.get(i)
                            && self.near(*p, 2.0, &line)
                        {
                            break;
                        }
                    }
                }
                Mark::ArcEnd { .. } => {}
            }
        }
    }

    /// Above or below a level line, from its outer end inwards.
    fn beside_line(&mut self, from: Point, to: Point, line: &Line) -> bool {
        let (left, right) = if from.x < to.x { (from, to) } else { (to, from) };
        let free = (right.x - left.x - line.width).max(0.0);
        for i in 0..=20 {
            // Alternating from both ends: the middle is for the label.
            let share = 0.06 + 0.88 * f64::from(i / 2) / 20.0;
            let x = if i % 2 == 0 {
                left.x + free * share
            } else {
                left.x + free * (1.0 - share)
            };
            for y in [left.y - 2.0 - line.descent(), left.y + 2.0 + line.ascent()] {
                if self.set(Point::new(x, y), line) {
                    return true;
                }
            }
        }
        false
    }

    /// In one of eight places round a point.
    fn near(&mut self, at: Point, off: f64, line: &Line) -> bool {
        let (w, up, down) = (line.width, line.ascent(), line.descent());
        let rows = [0.36 * line.size, -off - down, off + up];
        let columns = [off, -off - w, -0.5 * w];
        for y in rows {
            for x in columns {
                if x == -0.5 * w && y == rows[0] {
                    continue;
                }
                if self.set(at + Vec2::new(x, y), line) {
                    return true;
                }
            }
        }
        false
    }

    /// Sets a level line of words if there is room, crossing nothing.
    fn set(&mut self, at: Point, line: &Line) -> bool {
        let r = Rect::new(
            at.x,
            at.y - line.ascent(),
            at.x + line.width,
            at.y + line.descent(),
        );
        let corners = rect_corners(r);
        if !self.room.is_free(&corners, Crossing::Nothing) {
            return false;
        }
        let plane = self.plane(Kind::Words);
        let role = Role::Paragraph(self.drawing.next_number());
        self.drawing.words(plane, line.clone(), at, role);
        self.room.take(&corners);
        true
    }

    fn finish(self, piece: &Piece) -> DrawnPiece {
        let first = self.outline.first().copied().unwrap_or_default();
        let start = Rect::from_points(first, first);
        let cut = self
            .outline
            .iter()
            .fold(start, |r, p| r.union_pt(*p))
            .inflate(0.5, 0.5);
        let all = self.drawing.inks.iter().fold(cut, |r, ink| r.union(ink.bounds()));
        let by = Vec2::new(-all.x0, -all.y0);
        let mut drawing = Drawing::default();
        drawing.add(&self.drawing, by);
        DrawnPiece {
            key: piece.key.clone(),
            letter: piece.letter,
            drawing,
            outline: self.outline.into_iter().map(|p| p + by).collect(),
            size: (all.width(), all.height()),
        }
    }
}

/// Edges that follow on each other, so that a dashed seam runs on through their joints.
fn seam_runs(shape: &Shape) -> Vec<Vec<&draft::PieceEdge>> {
    let mut runs: Vec<Vec<&draft::PieceEdge>> = Vec::new();
    for edge in shape
        .seam_line
        .iter()
        .filter(|e| e.role != EdgeUse::Fold && !e.curve.cubics().is_empty())
    {
        match runs.last_mut() {
            Some(run)
                if run
                    .last()
                    .is_some_and(|l| (l.curve.end() - edge.curve.start()).hypot() < 1e-6) =>
            {
                run.push(edge);
            }
            _ => runs.push(vec![edge]),
        }
    }
    runs
}

/// Allowance of the edge a point of the seam line lies on.
fn allowance_at(shape: &Shape, at: Point) -> f64 {
    let is_open = |e: &&draft::PieceEdge| {
        matches!(
            e.role,
            EdgeUse::Open(OpenKind::Leg | OpenKind::Waist | OpenKind::Neckline | OpenKind::Armhole)
        )
    };
    shape
        .seam_line
        .iter()
        .filter(is_open)
        .map(|e| {
            let near = e
                .curve
                .flatten(0.2)
                .windows(2)
                .map(|w| distance_to_segment(at, w[0], w[1]))
                .fold(f64::INFINITY, f64::min);
            (near, e.allowance_mm)
        })
        .fold(
            (f64::INFINITY, 0.0),
            |best, new| if new.0 < best.0 { new } else { best },
        )
        .1
}

/// The shape turned over in a mirror beside it.
fn mirrored(shape: &Shape) -> Shape {
    let flip = |p: Point| Point::new(-p.x, p.y);
    let turn = |v: Vec2| Vec2::new(-v.x, v.y);
    let arrow = |a: Arrow| Arrow {
        from: flip(a.from),
        to: flip(a.to),
    };
    let mark = |m: &Mark| match m {
        Mark::Cross { at, text } => Mark::Cross {
            at: flip(*at),
            text: text.clone(),
        },
        Mark::LevelLine { from, to, text } => Mark::LevelLine {
            from: flip(*from),
            to: flip(*to),
            text: text.clone(),
        },
        Mark::Placement { curve, text } => Mark::Placement {
            curve: curve.mirrored(),
            text: text.clone(),
        },
        Mark::ArcEnd { at, inward, letter } => Mark::ArcEnd {
            at: flip(*at),
            inward: turn(*inward),
            letter: *letter,
        },
    };
    Shape {
        seam_line: shape
            .seam_line
            .iter()
            .rev()
            .map(|e| draft::PieceEdge {
                curve: e.curve.mirrored(),
                ..e.clone()
            })
            .collect(),
        cut_line: shape.cut_line.iter().rev().map(|p| flip(*p)).collect(),
        fold_line: shape.fold_line.map(|(a, b)| (flip(a), flip(b))),
        fold_is_edge: shape.fold_is_edge,
        notches: shape
            .notches
            .iter()
            .map(|n| draft::Notch {
                at: flip(n.at),
                seam_at: flip(n.seam_at),
                inward: turn(n.inward),
                ..n.clone()
            })
            .collect(),
        marks: shape.marks.iter().map(mark).collect(),
        grain: arrow(shape.grain),
        stretch: arrow(shape.stretch),
        label_at: flip(shape.label_at),
    }
}

fn unit(v: Vec2) -> Option<Vec2> {
    let length = v.hypot();
    (length > 1e-6).then(|| v / length)
}

/// An open arrow head.
fn barbs(head: Point, way: Vec2, size: f64) -> BezPath {
    let across = Vec2::new(-way.y, way.x);
    let back = head - way * size;
    open(&[back - across * (0.32 * size), head, back + across * (0.32 * size)])
}

/// A box of `width` along `way` and `height` across it.
fn turned_box(centre: Point, way: Vec2, width: f64, height: f64) -> [Point; 4] {
    let (a, b) = (way * (0.5 * width), Vec2::new(-way.y, way.x) * (0.5 * height));
    [centre - a - b, centre + a - b, centre + a + b, centre - a + b]
}

pub(crate) fn rect_corners(r: Rect) -> [Point; 4] {
    [
        Point::new(r.x0, r.y0),
        Point::new(r.x1, r.y0),
        Point::new(r.x1, r.y1),
        Point::new(r.x0, r.y1),
    ]
}

#[cfg(test)]
#[path = "../tests/suits/mod.rs"]
mod suits;

#[cfg(test)]
mod tests {
    use draft::{
        BackShape, BustShaping, Cups, Design, LiningCover, Rise, Skirt, SkirtJoin, SkirtKind, Style,
    };
    use units::Mm;

    use super::suits::{Suit, suit};
    use super::*;
    use crate::ink::{Ink, What, Words};
    use crate::room::Obstacle;

    fn all() -> Vec<Suit> {
        let skirt = Skirt {
            kind: SkirtKind::HalfCircle,
            join: SkirtJoin::Waist,
            cover: Mm::new(40.0),
        };
        let designs = [
            (
                "tall",
                Design {
                    lining: LiningCover::Full,
                    ..Design::default()
                },
            ),
            (
                "petite",
                Design {
                    style: Style::Brief,
                    rise: Rise::Mid,
                    ..Design::default()
                },
            ),
            (
                "large_cup",
                Design {
                    skirt: Some(skirt),
                    bust_shaping: BustShaping::Princess,
                    cups: Cups::Pocket,
                    lining: LiningCover::Full,
                    ..Design::default()
                },
            ),
            (
                "petite",
                Design {
                    back_shape: BackShape::CrossedStraps,
                    strap_width: Mm::new(15.0),
                    ..Design::default()
                },
            ),
            (
                "plus",
                Design {
                    bust_shaping: BustShaping::SideDart,
                    ..Design::default()
                },
            ),
            ("child8", Design::default()),
        ];
        designs
            .iter()
            .map(|(body, design)| suit("Suit", "Wearer", body, design))
            .collect()
    }

    fn words_of(piece: &DrawnPiece) -> Vec<&Words> {
        piece
            .drawing
            .inks
            .iter()
            .filter_map(|i| match &i.what {
                What::Words(w) => Some(w),
                _ => None,
            })
            .collect()
    }

    /// Straight parts of a line or filled shape.
    fn parts(ink: &Ink) -> Vec<Obstacle> {
        let (What::Line { path, .. } | What::Fill { path, .. }) = &ink.what else {
            return Vec::new();
        };
        let mut points = Vec::new();
        let mut out = Vec::new();
        kurbo::flatten(path.elements().iter().copied(), 0.1, |el| match el {
            PathEl::MoveTo(p) => points = vec![p],
            PathEl::LineTo(p) => {
                out.extend(points.last().map(|l| Obstacle::new(vec![*l, p], 0.3)));
                points.push(p);
            }
            _ => {
                let ends = points.last().zip(points.first());
                out.extend(ends.map(|(a, b)| Obstacle::new(vec![*a, *b], 0.3)));
            }
        });
        out
    }

    fn bounds(corners: &[Point; 4]) -> Rect {
        corners
            .iter()
            .fold(Rect::from_points(corners[0], corners[2]), |r, p| r.union_pt(*p))
    }

    /// Every suit, whole and half, for paper and projector: no words on words, none on a cut line, an arrow or a mark.
    #[test]
    fn words_touch_nothing() {
        let letters = Lettering::load().unwrap();
        for suit in all() {
            let pattern = suit.pattern();
            for form in [PieceForm::Whole, PieceForm::Half] {
                for weight in [Weight::Paper, Weight::Projected] {
                    for piece in &suit.draft.pieces {
                        let drawn = draw(piece, &pattern, form, weight, &letters);
                        let words = words_of(&drawn);
                        for (i, a) in words.iter().enumerate() {
                            let corners = a.corners();
                            let says = a.line.text();
                            for b in words.iter().skip(i + 1) {
                                let other = Obstacle::new(b.corners().to_vec(), 0.0);
                                let same = a.role == b.role && a.role != Role::Aside;
                                assert!(
                                    same || !other.touches(&corners, bounds(&corners)),
                                    "{}: `{says}` lies on `{}`",
                                    drawn.key,
                                    b.line.text()
                                );
                            }
                            // A ring's letter lies in its ring.
                            if a.role == Role::Aside && says.chars().count() == 1 {
                                continue;
                            }
                            let hard = drawn
                                .drawing
                                .inks
                                .iter()
                                .filter(|k| matches!(k.plane.kind, Kind::Cutting | Kind::Marks));
                            for part in hard.flat_map(parts) {
                                assert!(
                                    !part.touches(&corners, bounds(&corners)),
                                    "{} {form:?} {weight:?}: `{says}` lies on a line",
                                    drawn.key
                                );
                            }
                        }
                    }
                }
            }
        }
    }

    /// A piece says what it is, what to cut and for whom, on itself or beside it.
    #[test]
    fn every_piece_is_labelled() {
        let letters = Lettering::load().unwrap();
        for suit in all() {
            for piece in &suit.draft.pieces {
                let drawn = draw(piece, &suit.pattern(), PieceForm::Whole, Weight::Paper, &letters);
                let text: String = words_of(&drawn).iter().map(|w| w.line.text() + " ").collect();
                let first = piece.name.split_whitespace().next().unwrap();
                assert!(
                    text.contains(first) && text.to_lowercase().contains("cut "),
                    "{}: {text}",
                    piece.key
                );
                assert!(text.contains("Wearer"), "{}: {text}", piece.key);
                assert!(text.contains('%'), "{} says no stretch: {text}", piece.key);
            }
        }
    }

    #[test]
    fn a_strip_no_words_fit_on_is_labelled_beside_it() {
        let letters = Lettering::load().unwrap();
        let suit = suit("Suit", "Wearer", "petite", &Design::default());
        let mut piece = suit.draft.pieces[0].clone();
        // A binding 7 mm wide: nothing of 8 pt fits between its cut lines.
        let (w, h) = (7.0, 300.0);
        piece.on_fold = false;
        piece.edges.clear();
        piece.notches.clear();
        piece.marks.clear();
        piece.cut_line = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec();
        piece.grain = Arrow {
            from: Point::new(3.5, 100.0),
            to: Point::new(3.5, 200.0),
        };
        piece.stretch = Arrow {
            from: Point::new(1.5, 60.0),
            to: Point::new(5.5, 60.0),
        };
        piece.label_at = Point::new(3.5, 150.0);
        let drawn = draw(&piece, &suit.pattern(), PieceForm::Whole, Weight::Paper, &letters);
        assert!(
            drawn.size.0 > w + 20.0,
            "the label stands beside the piece: {:?}",
            drawn.size
        );
        assert!(
            words_of(&drawn)
                .iter()
                .any(|words| words.line.text().contains("Front"))
        );
    }
}
