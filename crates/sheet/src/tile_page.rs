//! A tile's page: its part of the sheet in a frame, with codes, crosses, rules and what it is.
//!
//! Joins close themselves: on the page that lies below, a whole diamond stands on the dotted line with both codes in it;
//! on the page that is laid over it, the half that belongs to it. Trimmed and laid right, the halves make the diamond.
//! Diamonds and words keep off the pattern's lines where there is room.
//!
//! **Shapes and units.** mm from the upper left corner of the tile's frame, y down.

use kurbo::{Point, Rect, Vec2};

use crate::ink::{Drawing, Ink, PAPER, Pen, Role, Tone, What, closed, open, pens};
use crate::lettering::{Face, LEAST, Lettering, NOTE, pt};
use crate::room::{Obstacle, thinned};
use crate::running::Running;
use crate::tiles::{Grid, OVERLAP, Tile};

/// Half the diagonals of a diamond: across the join, along it, mm.
const DIAMOND: (f64, f64) = (8.5, 7.0);

/// A diamond may stand at so many places along a join, the middle one first.
const PLACES: u32 = 24;

/// What of the sheet the codes must keep off.
pub(crate) struct Crowd {
    obstacles: Vec<Obstacle>,
}

impl Crowd {
    /// All lines and words of a sheet.
    pub(crate) fn new(inks: &[Ink]) -> Crowd {
        let mut obstacles = Vec::new();
        for ink in inks {
            match &ink.what {
                What::Words(words) => obstacles.push(Obstacle::new(words.corners().to_vec(), 1.0)),
                What::Line { path, .. } | What::Fill { path, .. } => {
                    let mut points: Vec<Point> = Vec::new();
                    let mut runs: Vec<Vec<Point>> = Vec::new();
                    kurbo::flatten(path.elements().iter().copied(), 0.2, |el| match el {
                        kurbo::PathEl::MoveTo(p) => runs.push(std::mem::replace(&mut points, vec![p])),
                        kurbo::PathEl::LineTo(p) => points.push(p),
                        _ => points.extend(points.first().copied()),
                    });
                    runs.push(points);
                    for run in runs {
                        obstacles.extend(thinned(&run).windows(2).map(|w| Obstacle::new(w.to_vec(), 0.8)));
                    }
                }
            }
        }
        Crowd { obstacles }
    }

    /// How many lines and words a shape would cover.
    fn covered(&self, corners: &[Point]) -> usize {
        let Some(first) = corners.first() else { return 0 };
        let bounds = corners
            .iter()
            .fold(Rect::from_points(*first, *first), |r, p| r.union_pt(*p));
        self.obstacles
            .iter()
            .filter(|o| o.touches(corners, bounds))
            .count()
    }
}

/// A join between two tiles.
#[derive(Clone, Copy)]
struct Join {
    /// The tile that lies below, left or above.
    under: Tile,
    over: Tile,
    /// Whether it runs up and down.
    is_upright: bool,
}

impl Join {
    /// Middle of the diamond on the sheet; the same for both pages.
    fn middle(self, grid: &Grid, crowd: &Crowd) -> Point {
        let w = grid.window(self.over);
        let own = grid.step();
        let at = |share: f64| {
            if self.is_upright {
                Point::new(w.x0, w.y0 + share * own.y)
            } else {
                Point::new(w.x0 + share * own.x, w.y0)
            }
        };
        // From the middle outwards, alternately: the first empty place, or the emptiest.
        let mut best = (usize::MAX, at(0.5));
        for i in 0..PLACES {
            let off = f64::from(i.div_ceil(2)) * 0.86 / f64::from(PLACES);
            let place = at(if i % 2 == 0 { 0.5 + off } else { 0.5 - off });
            let covered = crowd.covered(&self.diamond(place));
            if covered < best.0 {
                best = (covered, place);
            }
            if covered == 0 {
                break;
            }
        }
        best.1
    }

    /// Half the diagonals across and down.
    fn halves(self) -> Vec2 {
        if self.is_upright {
            Vec2::new(DIAMOND.0, DIAMOND.1)
        } else {
            Vec2::new(DIAMOND.1 + 1.0, DIAMOND.0)
        }
    }

    fn diamond(self, m: Point) -> [Point; 4] {
        let h = self.halves();
        [
            m - Vec2::new(h.x, 0.0),
            m - Vec2::new(0.0, h.y),
            m + Vec2::new(h.x, 0.0),
            m + Vec2::new(0.0, h.y),
        ]
    }

    fn draw(self, d: &mut Drawing, letters: &Lettering, m: Point, page: Tile) {
        let [left, top, right, foot] = self.diamond(m);
        if page == self.under {
            d.path(PAPER, pens::HAIR, closed(&[left, top, right, foot]));
        } else if self.is_upright {
            d.path(PAPER, pens::HAIR, open(&[top, right, foot]));
        } else {
            d.path(PAPER, pens::HAIR, open(&[right, foot, left]));
        }
        let h = self.halves();
        let middle_of = |tile: Tile| {
            let side = if tile == self.under { -1.0 } else { 1.0 };
            if self.is_upright {
                m + Vec2::new(side * 0.37 * h.x, 0.0)
            } else {
                m + Vec2::new(0.0, side * 0.33 * h.y)
            }
        };
        let shown: &[Tile] = if page == self.under {
            &[self.under, self.over]
        } else {
            &[self.over]
        };
        for tile in shown {
            let line = letters.line(Face::Strong, LEAST, &tile.code());
            let at = middle_of(*tile) + Vec2::new(-0.5 * line.width, 0.36 * line.size);
            d.words(PAPER, line, at, Role::Aside);
        }
    }
}

/// Everything on a tile's page but the pattern itself.
pub(crate) fn furniture(
    letters: &Lettering,
    grid: &Grid,
    tile: Tile,
    crowd: &Crowd,
    running: &Running,
    page_words: &str,
) -> Drawing {
    let mut d = Drawing::default();
    let (w, h) = grid.tile;
    d.rect(PAPER, pens::HAIR, Rect::new(0.0, 0.0, w, h));
    for corner in [
        Point::new(0.0, 0.0),
        Point::new(w, 0.0),
        Point::new(w, h),
        Point::new(0.0, h),
    ] {
        cross(&mut d, corner, 4.0);
    }
    let step = grid.step();
    let has = |row: Option<usize>, column: Option<usize>| match (row, column) {
        (Some(row), Some(column)) if grid.has(row, column) => Some(Tile { row, column }),
        _ => None,
    };
    let (row, column) = (tile.row, tile.column);
    let right = has(Some(row), Some(column + 1));
    let below = has(Some(row + 1), Some(column));
    if right.is_some() {
        d.line(
            PAPER,
            pens::OVERLAP,
            Point::new(step.x, 0.0),
            Point::new(step.x, h),
        );
    }
    if below.is_some() {
        d.line(
            PAPER,
            pens::OVERLAP,
            Point::new(0.0, step.y),
            Point::new(w, step.y),
        );
    }
    // Where the neighbours' corners come to lie.
    if right.is_some() || below.is_some() {
        // On the frame a short stroke inwards is enough.
        if right.is_some() {
            d.line(
                PAPER,
                pens::HAIR,
                Point::new(step.x, 0.0),
                Point::new(step.x, 2.5),
            );
        }
        if below.is_some() {
            d.line(
                PAPER,
                pens::HAIR,
                Point::new(0.0, step.y),
                Point::new(2.5, step.y),
            );
        }
        cross(&mut d, Point::new(step.x, step.y), 2.5);
    }
    let joins = [
        right.map(|over| Join {
            under: tile,
            over,
            is_upright: true,
        }),
        below.map(|over| Join {
            under: tile,
            over,
            is_upright: false,
        }),
        has(Some(row), column.checked_sub(1)).map(|under| Join {
            under,
            over: tile,
            is_upright: true,
        }),
        has(row.checked_sub(1), Some(column)).map(|under| Join {
            under,
            over: tile,
            is_upright: false,
        }),
    ];
    let origin = grid.window(tile).origin().to_vec2();
    for join in joins.into_iter().flatten() {
        let middle = join.middle(grid, crowd) - origin;
        join.draw(&mut d, letters, middle, tile);
    }
    head_and_foot(
        &mut d,
        letters,
        (w, h),
        &tile.code(),
        running,
        page_words,
        right.is_some() || below.is_some(),
    );
    d
}

fn head_and_foot(
    d: &mut Drawing,
    letters: &Lettering,
    (w, h): (f64, f64),
    code: &str,
    running: &Running,
    page_words: &str,
    has_strip: bool,
) {
    let code = letters.line(Face::Title, pt(13.0), code);
    let code_width = code.width;
    d.words(
        PAPER,
        code,
        Point::new(w - 6.0 - code_width, -2.4),
        Role::Heading(2),
    );
    let count = letters.line(Face::Text, NOTE, page_words);
    let count_at = w - 6.0 - code_width - 4.0 - count.width;
    let role = Role::Paragraph(d.next_number());
    d.words(PAPER, count, Point::new(count_at, -2.4), role);
    let title = running.line(letters, Face::Title, pt(11.0), count_at - 12.0);
    let role = Role::Paragraph(d.next_number());
    d.words(PAPER, title, Point::new(6.0, -2.4), role);
    rule(d, letters, Point::new(6.0, h + 2.2), Vec2::new(1.0, 0.0), 1);
    rule(d, letters, Point::new(w + 2.2, h - 6.0), Vec2::new(0.0, -1.0), 1);
    if has_strip {
        let line = letters.line(Face::Text, LEAST, "Dotted strips lie under the next page.");
        let at = Point::new(w - 6.0 - line.width, h + 2.2 + 2.35);
        d.words(PAPER, line, at, Role::Aside);
    }
}

/// Thickness of a rule, mm.
pub(crate) const RULE_THICK: f64 = 2.6;

/// A rule of so many times 100 mm in blocks of 10, its words behind its end.
pub(crate) fn rule(d: &mut Drawing, letters: &Lettering, from: Point, way: Vec2, hundreds: u32) {
    let across = Vec2::new(-way.y, way.x) * RULE_THICK;
    let length = 100.0 * f64::from(hundreds);
    for i in (0..10 * hundreds).step_by(2) {
        let (a, b) = (
            from + way * (10.0 * f64::from(i)),
            from + way * (10.0 * f64::from(i + 1)),
        );
        d.fill(PAPER, Tone::Black, closed(&[a, b, b + across, a + across]));
    }
    let end = from + way * length;
    d.path(
        PAPER,
        Pen::solid(0.2),
        closed(&[from, end, end + across, from + across]),
    );
    let line = letters.line(Face::Text, LEAST, &format!("{length:.0} mm"));
    let turn = way.y.atan2(way.x);
    let base = Vec2::new(-way.y, way.x) * (0.5 * RULE_THICK + 0.36 * line.size);
    let at = from + way * (length + 2.0) + base;
    d.turned_words(PAPER, line, at, turn, Role::Aside);
}

fn cross(d: &mut Drawing, at: Point, arm: f64) {
    for arm in [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)] {
        d.line(PAPER, pens::HAIR, at - arm, at + arm);
    }
}

const _: () = assert!(
    DIAMOND.0 < OVERLAP,
    "a diamond on the dotted line must stay inside the frame"
);
