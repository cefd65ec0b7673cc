//! Laying the tape on a form: every measure as the line it follows, and its length.
//!
//! A measure that has a line is the length of that line, so what is drawn is what was measured. Girths, the trunk, the
//! crotch and the lengths over the bust are taut (convex hull of the section); the waist lengths down the midline lie
//! on the skin.
//!
//! **Shapes and units.** mm, frame of [`super::torso`].
//! **Source.** As [`super::measure`].
//! **Limits.** The trunk tape crosses the crotch 20 mm beside the midline, as the form's check values have it.

use super::measure::FormMeasure;
use super::section::{self, Plane};
use super::surface::Surface;
use crate::measured::WaistLevel;

/// How far below the crotch the thigh is measured.
pub(crate) const THIGH_BELOW_CROTCH_MM: f64 = 25.0;
/// How far beside the midline the trunk tape crosses the crotch.
const TRUNK_BESIDE_MIDLINE_MM: f64 = 20.0;
/// The trunk tape takes in what lies this little below the crotch.
const TRUNK_BELOW_CROTCH_MM: f64 = 5.0;

/// A horizontal girth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Girth {
    UpperChest,
    Bust,
    Underbust,
    Waist,
    Navel,
    HighHip,
    Hip,
    Thigh,
}

/// A line on the form: its points, and whether the last joins the first.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Line {
    pub(crate) points: Vec<[f64; 3]>,
    pub(crate) closed: bool,
}

impl Line {
    const fn open(points: Vec<[f64; 3]>) -> Line {
        Line {
            points,
            closed: false,
        }
    }

    pub(crate) fn length(&self) -> f64 {
        if self.closed {
            section::perimeter3(&self.points)
        } else {
            section::length3(&self.points)
        }
    }
}

/// A form in one shape, ready to be measured.
#[derive(Clone, Copy)]
pub(crate) struct Shape<'a> {
    pub(crate) surface: &'a Surface,
    pub(crate) vertices: &'a [[f64; 3]],
    /// The edges to cut: all, or those near the measure's plane.
    pub(crate) edges: &'a [[usize; 2]],
}

impl<'a> Shape<'a> {
    pub(crate) fn new(surface: &'a Surface, vertices: &'a [[f64; 3]]) -> Shape<'a> {
        Shape {
            surface,
            vertices,
            edges: &surface.edges,
        }
    }

    fn at(&self, vertex: usize) -> [f64; 3] {
        self.vertices[vertex]
    }

    fn height(&self, vertices: [usize; 2]) -> f64 {
        (self.at(vertices[0])[1] + self.at(vertices[1])[1]) / 2.0
    }

    pub(crate) fn crotch_y(&self) -> f64 {
        self.at(self.surface.landmarks.crotch)[1]
    }

    pub(crate) fn underarm_y(&self) -> f64 {
        self.height(self.surface.landmarks.underarm)
    }

    pub(crate) fn shoulder_y(&self) -> f64 {
        self.height(self.surface.landmarks.shoulder)
    }

    pub(crate) fn waist_y(&self, waist: WaistLevel) -> f64 {
        match waist {
            WaistLevel::Natural => self.height(self.surface.landmarks.waist),
            WaistLevel::Navel => self.at(self.surface.landmarks.navel)[1],
        }
    }

    pub(crate) fn girth_y(&self, girth: Girth) -> f64 {
        let marks = &self.surface.landmarks;
        match girth {
            Girth::UpperChest => self.height(marks.underarm),
            Girth::Bust => self.height(marks.bust_point),
            Girth::Underbust => self.height(marks.underbust),
            Girth::Waist => self.waist_y(WaistLevel::Natural),
            Girth::Navel => self.waist_y(WaistLevel::Navel),
            Girth::HighHip => (self.waist_y(WaistLevel::Natural) + self.height(marks.hip)) / 2.0,
            Girth::Hip => self.height(marks.hip),
            Girth::Thigh => self.crotch_y() - THIGH_BELOW_CROTCH_MM,
        }
    }

    /// The section points of a girth; of the left leg only for the thigh.
    pub(crate) fn girth_points(&self, girth: Girth) -> Vec<[f64; 2]> {
        let plane = Plane::horizontal(self.girth_y(girth));
        let mut points = self.cut(&plane);
        if girth == Girth::Thigh {
            points.retain(|p| p[0] > 0.0);
        }
        points
    }

    fn cut(&self, plane: &Plane) -> Vec<[f64; 2]> {
        section::cut(plane, self.edges, self.vertices)
            .into_iter()
            .map(|p| plane.flat(p))
            .collect()
    }

    pub(crate) fn girth_line(&self, girth: Girth) -> Line {
        let plane = Plane::horizontal(self.girth_y(girth));
        ring(&plane, section::hull(self.girth_points(girth)))
    }

    /// Mid shoulder and the point beside the crotch between which the trunk tape runs.
    fn trunk_ends(&self) -> ([f64; 3], [f64; 3]) {
        let marks = &self.surface.landmarks;
        let middle = section::between(self.at(marks.side_neck[0]), self.at(marks.shoulder[0]), 0.5);
        ([TRUNK_BESIDE_MIDLINE_MM, self.crotch_y(), 0.0], middle)
    }

    fn trunk_line(&self) -> Line {
        let (low, high) = self.trunk_ends();
        let (plane, _) = Plane::through(low, high);
        let least = self.crotch_y() - TRUNK_BELOW_CROTCH_MM;
        let mut points = self.cut(&plane);
        points.retain(|p| plane.space(*p)[1] >= least);
        ring(&plane, section::hull(points))
    }

    fn side_neck_to_bust_point(&self) -> Line {
        let marks = &self.surface.landmarks;
        let (neck, bust) = (self.at(marks.side_neck[0]), self.at(marks.bust_point[0]));
        let (plane, end) = Plane::through(neck, bust);
        let mut points = self.cut(&plane);
        points.retain(|p| p[0] > 0.0 && p[0] < end);
        points.push([0.0, neck[2]]);
        points.push([end, bust[2]]);
        Line::open(
            section::taut(points)
                .into_iter()
                .map(|p| plane.space(p))
                .collect(),
        )
    }

    /// From the bust point straight down to the waist, taut.
    fn bust_point_to_waist(&self, waist: WaistLevel) -> Line {
        let bust = self.at(self.surface.landmarks.bust_point[0]);
        let (plane, end) = Plane::through(bust, [bust[0], self.waist_y(waist), bust[2]]);
        let points = self.cut(&plane);
        let level = front_at(&points, end);
        let mut points: Vec<[f64; 2]> = points.into_iter().filter(|p| p[0] > 0.0 && p[0] < end).collect();
        points.push([0.0, bust[2]]);
        points.extend(level);
        Line::open(
            section::taut(points)
                .into_iter()
                .map(|p| plane.space(p))
                .collect(),
        )
    }

    fn front_over_bust(&self, waist: WaistLevel) -> Line {
        let mut line = self.side_neck_to_bust_point();
        line.points
            .extend(self.bust_point_to_waist(waist).points.into_iter().skip(1));
        line
    }

    /// The part of a midline from a vertex down to a height, on the skin.
    fn midline(&self, chain: &[usize], from: usize, down_to: f64) -> Line {
        let start = chain.iter().position(|v| *v == from).unwrap_or(0);
        let mut points: Vec<[f64; 3]> = Vec::new();
        for &v in &chain[start..] {
            let p = self.at(v);
            if let Some(&above) = points.last()
                && p[1] < down_to
            {
                points.push(to_height(above, p, down_to));
                break;
            }
            points.push(p);
        }
        Line::open(points)
    }

    /// The crotch tape from the waist in front to the waist behind, taut.
    fn crotch_line(&self, waist: WaistLevel) -> Line {
        let level = self.waist_y(waist);
        let plane = Plane::through([0.0, 0.0, 0.0], [0.0, 1.0, 0.0]).0;
        let front = self.below(&self.surface.midline_front, level);
        let back = self.below(&self.surface.midline_back, level);
        let Some(top_back) = back.first().map(|p| plane.flat(*p)) else {
            return Line::open(Vec::new());
        };
        let points = front.iter().chain(&back).map(|p| plane.flat(*p)).collect();
        // With u up and z forward the hull runs from the back's top to the front's top over the crotch against the
        // clock, so from the top back point backwards.
        let mut ring = section::hull(points);
        let at = ring.iter().position(|p| *p == top_back).unwrap_or(0);
        ring.rotate_left(at);
        let mut line: Vec<[f64; 3]> = ring.into_iter().map(|p| plane.space(p)).collect();
        if line.get(1).is_some_and(|p| p[1] >= level - 1e-9) {
            line.rotate_left(1);
        } else {
            line.reverse();
        }
        Line::open(line)
    }

    /// The lower end of a midline, from a height down, with the point at that height first.
    fn below(&self, chain: &[usize], level: f64) -> Vec<[f64; 3]> {
        let mut points: Vec<[f64; 3]> = Vec::new();
        for &v in chain.iter().rev() {
            let p = self.at(v);
            if let Some(&under) = points.last()
                && p[1] > level
            {
                points.push(to_height(under, p, level));
                break;
            }
            points.push(p);
        }
        points.reverse();
        points
    }

    /// The lengths of the crotch tape before and behind its lowest point.
    fn crotch_parts(&self, waist: WaistLevel) -> [f64; 2] {
        let line = self.crotch_line(waist).points;
        let lowest = (0..line.len())
            .min_by(|a, b| line[*a][1].total_cmp(&line[*b][1]))
            .unwrap_or(0);
        [
            section::length3(&line[..line.len().min(lowest + 1)]),
            section::length3(&line[lowest..]),
        ]
    }

    pub(crate) fn neck_base_points(&self) -> Vec<[f64; 3]> {
        self.surface
            .neck_base_curve
            .iter()
            .map(|&(a, b, t)| section::between(self.at(a), self.at(b), t))
            .collect()
    }

    fn straight(&self, a: usize, b: usize) -> Line {
        Line::open(vec![self.at(a), self.at(b)])
    }

    /// The line of a measure; `None` for breadths, depths, heights and the slope.
    pub(crate) fn line(&self, measure: FormMeasure) -> Option<Line> {
        use FormMeasure as M;
        use WaistLevel::{Natural, Navel};
        let marks = &self.surface.landmarks;
        let s = self.surface;
        Some(match measure {
            M::UpperChestGirth => self.girth_line(Girth::UpperChest),
            M::BustGirth => self.girth_line(Girth::Bust),
            M::UnderbustGirth => self.girth_line(Girth::Underbust),
            M::WaistGirth => self.girth_line(Girth::Waist),
            M::NavelGirth => self.girth_line(Girth::Navel),
            M::HighHipGirth => self.girth_line(Girth::HighHip),
            M::HipGirth => self.girth_line(Girth::Hip),
            M::ThighGirth => self.girth_line(Girth::Thigh),
            M::NeckBaseGirth => Line {
                points: self.neck_base_points(),
                closed: true,
            },
            M::ArmscyeGirth => Line {
                points: s.arm_left.iter().map(|v| self.at(*v)).collect(),
                closed: true,
            },
            M::TrunkCircumference => self.trunk_line(),
            M::CrotchLengthNatural => self.crotch_line(Natural),
            M::CrotchLengthNavel => self.crotch_line(Navel),
            M::BackWaistLength => self.midline(&s.midline_back, marks.back_neck, self.waist_y(Natural)),
            M::BackWaistLengthNavel => self.midline(&s.midline_back, marks.back_neck, self.waist_y(Navel)),
            M::FrontMidlineLength => self.midline(&s.midline_front, marks.front_neck, self.waist_y(Natural)),
            M::FrontMidlineLengthNavel => {
                self.midline(&s.midline_front, marks.front_neck, self.waist_y(Navel))
            }
            M::FrontWaistLength => self.front_over_bust(Natural),
            M::FrontWaistLengthNavel => self.front_over_bust(Navel),
            M::SideNeckToBustPoint => self.side_neck_to_bust_point(),
            M::BustPointDistance => self.straight(marks.bust_point[0], marks.bust_point[1]),
            M::ShoulderLength => self.straight(marks.side_neck[0], marks.shoulder[0]),
            M::ShoulderBreadth => self.straight(marks.shoulder[0], marks.shoulder[1]),
            M::CrotchLengthNaturalFront
            | M::CrotchLengthNavelFront
            | M::CrotchLengthNavelBack
            | M::BustBreadth
            | M::BustDepth
            | M::WaistBreadth
            | M::WaistDepth
            | M::NavelBreadth
            | M::NavelDepth
            | M::HipBreadth
            | M::HipDepth
            | M::ShoulderSlope
            | M::WaistToHip
            | M::NavelToHip
            | M::UnderarmToWaist
            | M::UnderarmToNavel
            | M::BackNeckAboveCrotch
            | M::NavelAboveCrotch
            | M::HipAboveCrotch
            | M::FrontNeckAboveCrotch
            | M::BustAboveCrotch
            | M::ShoulderAboveCrotch => return None,
        })
    }

    /// The value of a measure, in mm or degrees.
    pub(crate) fn value(&self, measure: FormMeasure) -> f64 {
        use FormMeasure as M;
        use WaistLevel::{Natural, Navel};
        let marks = &self.surface.landmarks;
        let crotch = self.crotch_y();
        match measure {
            M::BustBreadth => extent(&self.girth_points(Girth::Bust), 0),
            M::BustDepth => extent(&self.girth_points(Girth::Bust), 1),
            M::WaistBreadth => extent(&self.girth_points(Girth::Waist), 0),
            M::WaistDepth => extent(&self.girth_points(Girth::Waist), 1),
            M::NavelBreadth => extent(&self.girth_points(Girth::Navel), 0),
            M::NavelDepth => extent(&self.girth_points(Girth::Navel), 1),
            M::HipBreadth => extent(&self.girth_points(Girth::Hip), 0),
            M::HipDepth => extent(&self.girth_points(Girth::Hip), 1),
            M::CrotchLengthNaturalFront => self.crotch_parts(Natural)[0],
            M::CrotchLengthNavelFront => self.crotch_parts(Navel)[0],
            M::CrotchLengthNavelBack => self.crotch_parts(Navel)[1],
            M::ShoulderSlope => {
                let (neck, tip) = (self.at(marks.side_neck[0]), self.at(marks.shoulder[0]));
                let aside = section::distance2([neck[0], neck[2]], [tip[0], tip[2]]);
                (neck[1] - tip[1]).atan2(aside).to_degrees()
            }
            M::WaistToHip => self.waist_y(Natural) - self.height(marks.hip),
            M::NavelToHip => self.waist_y(Navel) - self.height(marks.hip),
            M::UnderarmToWaist => self.underarm_y() - self.waist_y(Natural),
            M::UnderarmToNavel => self.underarm_y() - self.waist_y(Navel),
            M::BackNeckAboveCrotch => self.at(marks.back_neck)[1] - crotch,
            M::NavelAboveCrotch => self.waist_y(Navel) - crotch,
            M::HipAboveCrotch => self.height(marks.hip) - crotch,
            M::FrontNeckAboveCrotch => self.at(marks.front_neck)[1] - crotch,
            M::BustAboveCrotch => self.height(marks.bust_point) - crotch,
            M::ShoulderAboveCrotch => self.shoulder_y() - crotch,
            _ => self.line(measure).map_or(f64::NAN, |line| line.length()),
        }
    }

    /// The planes a measure cuts, so that far edges can be left out; none if it cuts nothing.
    pub(crate) fn planes(&self, measure: FormMeasure) -> [Option<Plane>; 2] {
        use FormMeasure as M;
        let marks = &self.surface.landmarks;
        let over_bust = || Plane::through(self.at(marks.side_neck[0]), self.at(marks.bust_point[0])).0;
        let girth = match measure {
            M::UpperChestGirth => Girth::UpperChest,
            M::BustGirth | M::BustBreadth | M::BustDepth => Girth::Bust,
            M::UnderbustGirth => Girth::Underbust,
            M::WaistGirth | M::WaistBreadth | M::WaistDepth => Girth::Waist,
            M::NavelGirth | M::NavelBreadth | M::NavelDepth => Girth::Navel,
            M::HighHipGirth => Girth::HighHip,
            M::HipGirth | M::HipBreadth | M::HipDepth => Girth::Hip,
            M::ThighGirth => Girth::Thigh,
            M::TrunkCircumference => {
                let (low, high) = self.trunk_ends();
                return [Some(Plane::through(low, high).0), None];
            }
            M::SideNeckToBustPoint => return [Some(over_bust()), None],
            M::FrontWaistLength | M::FrontWaistLengthNavel => {
                let bust = self.at(marks.bust_point[0]);
                let down = Plane::through(bust, [bust[0], bust[1] - 1.0, bust[2]]).0;
                return [Some(over_bust()), Some(down)];
            }
            _ => return [None, None],
        };
        [Some(Plane::horizontal(self.girth_y(girth))), None]
    }
}

fn ring(plane: &Plane, hull: Vec<[f64; 2]>) -> Line {
    Line {
        points: hull.into_iter().map(|p| plane.space(p)).collect(),
        closed: true,
    }
}

/// The point of a section's front at a given u: between the nearest points before and behind, on the front side.
fn front_at(points: &[[f64; 2]], u: f64) -> Option<[f64; 2]> {
    let middle = points.iter().map(|p| p[1]).sum::<f64>() / points.len().max(1) as f64;
    let front = || points.iter().filter(|p| p[1] > middle);
    let before = front()
        .filter(|p| p[0] <= u)
        .max_by(|a, b| a[0].total_cmp(&b[0]))?;
    let behind = front()
        .filter(|p| p[0] > u)
        .min_by(|a, b| a[0].total_cmp(&b[0]))?;
    let share = (u - before[0]) / (behind[0] - before[0]);
    Some([u, before[1] + (behind[1] - before[1]) * share])
}

/// Where the line from `p` to `q` has the height `y`.
fn to_height(p: [f64; 3], q: [f64; 3], y: f64) -> [f64; 3] {
    let share = if p[1] == q[1] {
        0.0
    } else {
        (y - p[1]) / (q[1] - p[1])
    };
    let mut at = section::between(p, q, share.clamp(0.0, 1.0));
    at[1] = y;
    at
}

fn extent(points: &[[f64; 2]], axis: usize) -> f64 {
    let (least, most) = points
        .iter()
        .map(|p| p[axis])
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), x| {
            (l.min(x), m.max(x))
        });
    most - least
}
