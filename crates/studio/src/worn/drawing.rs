//! A worn suit drawn on its form in section rings with the solved stretch ladder beside it: front, back and side, as SVG.
//!
//! Seen from a little above, the form is thin rings, as a dress form is ruled. The suit lies on it as paper does on a form, ruled by rings of its own that are
//! drawn the heavier the harder the cloth presses there; its edges are ink lines. Form, rings and rungs share one height
//! scale. No colour carries meaning: it reads the same from a black-and-white printer.
//!
//! **Shapes and units.** Inside, mm of the form's frame, y up; on the page, user units of about a screen's point, y down.
//! **Limits.** Of the side view only her left half is drawn. What faces away is left out; nothing else hides anything.

use std::fmt::Write;

use cloth::RESERVE_SHARE;
use units::{Level, Mm};

use super::OnForm;
use super::report::LevelReport;

/// Page units for a millimetre of the body.
const SCALE: f64 = 0.85;
/// Distance between the suit's rings, mm.
pub(super) const RING_STEP: f64 = 12.0;
/// How far down the page a millimetre towards the eye lies: a look from a little above, so that rings are round.
const TILT: f64 = 0.16;
/// Rings of the form.
const FORM_RINGS: usize = 52;
/// Weights of the suit's rings, page units: without pressure, and at the heaviest.
const WEIGHTS: (f64, f64) = (0.55, 2.5);
/// Steps between them.
const WEIGHT_STEPS: usize = 8;
/// Pressure of the heaviest ring, kPa: the panel's stop limit; more is drawn no heavier.
pub(crate) const HEAVIEST_KPA: f64 = fit::PANEL_STOP_KPA;
const MARGIN: f64 = 36.0;
const HEAD: f64 = 92.0;
const FOOT: f64 = 96.0;
/// Between figure and ladder.
const GUTTER: f64 = 56.0;
const LADDER: f64 = 300.0;
const WORDS: f64 = 330.0;
/// A gap at an edge that gets a word, mm.
const SAID_GAPE_MM: f64 = 5.0;

const GROUND: &str = "#FBFAF4";
const INK: &str = "#1D2830";
const SLATE: &str = "#46545E";
const PENCIL: &str = "#4B5157";
const RULE: &str = "#B9BDB8";
const CLOTH: &str = "#E4E4DC";
const OAT: &str = "#E4D3AB";
const SERIF: &str = "Besley, Georgia, serif";
const SANS: &str = "'Libre Franklin', 'Helvetica Neue', Arial, sans-serif";

/// From where the figure is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The wearer's front.
    Front,
    /// Her back.
    Back,
    /// Her left.
    Left,
}

impl Side {
    /// All three.
    pub const ALL: [Side; 3] = [Side::Front, Side::Back, Side::Left];

    /// In file names.
    pub const fn key(self) -> &'static str {
        match self {
            Side::Front => "front",
            Side::Back => "back",
            Side::Left => "side",
        }
    }

    pub(crate) const fn words(self) -> &'static str {
        match self {
            Side::Front => "from the front",
            Side::Back => "from behind",
            Side::Left => "from the left",
        }
    }

    /// To the right on the page.
    fn across(self, p: [f64; 3]) -> f64 {
        match self {
            // Her left is on the right when she faces us.
            Side::Front => p[0],
            Side::Back => -p[0],
            // Seen from her left she faces to the left.
            Side::Left => -p[2],
        }
    }

    /// Towards the eye.
    fn near(self, p: [f64; 3]) -> f64 {
        match self {
            Side::Front => p[2],
            Side::Back => -p[2],
            Side::Left => p[0],
        }
    }

    fn faces(self, normal: [f64; 3]) -> bool {
        self.near(normal) + TILT * normal[1] > 0.0
    }

    /// Which halves of the suit are seen: her left as it is, her right as its mirror image unless both sides are meshed.
    const fn mirrors(self, is_whole: bool) -> &'static [f64] {
        match self {
            Side::Front | Side::Back if !is_whole => &[1.0, -1.0],
            _ => &[1.0],
        }
    }
}

/// The page: where the form's frame lies on it.
struct Sheet {
    side: Side,
    left: f64,
    top: f64,
    figure: [f64; 2],
    width: f64,
    height: f64,
    out: String,
}

impl Sheet {
    fn new(on: &OnForm, side: Side) -> Sheet {
        let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for p in on.drawn_points() {
            for (i, q) in [side.across(p), p[1] - TILT * side.near(p)]
                .into_iter()
                .enumerate()
            {
                low[i] = low[i].min(q);
                high[i] = high[i].max(q);
            }
        }
        let figure = [(high[0] - low[0]) * SCALE, (high[1] - low[1]) * SCALE];
        Sheet {
            side,
            left: low[0],
            top: high[1],
            figure,
            width: 2.0 * MARGIN + figure[0] + GUTTER + LADDER + WORDS,
            height: HEAD + figure[1] + FOOT,
            out: String::new(),
        }
    }

    fn x(&self, p: [f64; 3]) -> f64 {
        MARGIN + (self.side.across(p) - self.left) * SCALE
    }

    fn y(&self, height_mm: f64) -> f64 {
        HEAD + (self.top - height_mm) * SCALE
    }

    fn at(&self, p: [f64; 3]) -> [f64; 2] {
        [self.x(p), self.y(p[1] - TILT * self.side.near(p))]
    }

    fn spot(&self, p: [f64; 3]) -> String {
        let [x, y] = self.at(p);
        format!("{x:.1} {y:.1}")
    }

    fn put(&mut self, text: &str) {
        self.out += text;
        self.out.push('\n');
    }

    fn words(&mut self, (x, y): (f64, f64), style: &str, text: &str) {
        let _ = writeln!(
            self.out,
            "<text x=\"{x:.1}\" y=\"{y:.1}\" {style}>{}</text>",
            escaped(text)
        );
    }

    fn line(&mut self, [x, y]: [f64; 2], [u, v]: [f64; 2], style: &str) {
        let _ = writeln!(self.out, "<path d=\"M{x:.1} {y:.1}L{u:.1} {v:.1}\" {style}/>");
    }
}

/// The drawing of one side.
pub fn draw(on: &OnForm, name: &str, side: Side) -> String {
    let mut sheet = Sheet::new(on, side);
    let (width, height) = (sheet.width, sheet.height);
    let title = format!("{name}, worn, {}", side.words());
    sheet.put(&format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"0 0 {width:.0} {height:.0}\" role=\"img\" fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n<title>{}</title>\n<rect width=\"{width:.0}\" height=\"{height:.0}\" fill=\"{GROUND}\"/>",
        escaped(&title)
    ));
    head(&mut sheet, on, &title);
    form_rings(&mut sheet, on);
    cloth(&mut sheet, on);
    suit_rings(&mut sheet, on);
    straps(&mut sheet, on);
    open_edges(&mut sheet, on);
    drapes(&mut sheet, on);
    gapes(&mut sheet, on);
    ladder(&mut sheet, on);
    foot(&mut sheet, on);
    sheet.put("</svg>");
    sheet.out
}

fn head(sheet: &mut Sheet, on: &OnForm, title: &str) {
    let style = format!("fill=\"{INK}\" font-family=\"{SERIF}\" font-size=\"22\"");
    sheet.words((MARGIN, 40.0), &style, title);
    let report = &on.report;
    let says = format!(
        "{}; {} cloth, friction {:.1}; solved in {} steps, {:.0e} N left. The body is rigid.",
        report.scene, report.cloth, report.friction, report.convergence.steps, report.convergence.residual_n
    );
    let style = format!("fill=\"{SLATE}\" font-family=\"{SANS}\" font-size=\"15\"");
    sheet.words((MARGIN, 64.0), &style, &says);
}

fn form_rings(sheet: &mut Sheet, on: &OnForm) {
    let side = sheet.side;
    let mut path = String::new();
    for ring in on.form.rings(FORM_RINGS, &[]) {
        if side == Side::Left && ring.part == body::RingPart::Right {
            continue;
        }
        let n = ring.points.len();
        let mut pen_at = None;
        for i in 0..n {
            let (a, b) = (ring.points[i], ring.points[(i + 1) % n]);
            // Rings run from the back over her left to the front: outside is to the right of travel.
            if side.faces([b[2] - a[2], 0.0, a[0] - b[0]]) {
                if pen_at != Some(i) {
                    let _ = write!(path, "M{}", sheet.spot(a));
                }
                let _ = write!(path, "L{}", sheet.spot(b));
                pen_at = Some(i + 1);
            }
        }
    }
    sheet.put(&format!(
        "<path d=\"{path}\" stroke=\"{RULE}\" stroke-width=\"0.8\"/>"
    ));
}

/// Outward normals of the triangles.
pub(super) fn normal(q: [[f64; 3]; 3]) -> [f64; 3] {
    let minus = |a: [f64; 3], b: [f64; 3]| [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
    let (u, w) = (minus(q[1], q[0]), minus(q[2], q[0]));
    [
        u[1] * w[2] - u[2] * w[1],
        u[2] * w[0] - u[0] * w[2],
        u[0] * w[1] - u[1] * w[0],
    ]
}

/// The shell's triangles that face the eye, as they lie, with the pressure at their corners.
fn seen(on: &OnForm, side: Side, p: &[f64]) -> impl Iterator<Item = ([[f64; 3]; 3], [f64; 3])> {
    let x = &on.worn.solved.positions;
    let shell = on.mesh.mesh.triangles().iter().filter(|t| t.layer == 0);
    shell.flat_map(move |t| {
        let (q, kpa) = (t.corners.map(|v| x[v]), t.corners.map(|v| p[v]));
        let n = normal(q);
        side.mirrors(on.mesh.is_whole).iter().filter_map(move |m| {
            let there = side.faces([n[0] * m, n[1], n[2]]);
            there.then(|| (q.map(|p| [p[0] * m, p[1], p[2]]), kpa))
        })
    })
}

/// The cloth itself, so that the form's rings end where it begins.
fn cloth(sheet: &mut Sheet, on: &OnForm) {
    let mut path = String::new();
    for (q, _) in seen(on, sheet.side, &on.worn.pressure_kpa) {
        let _ = write!(
            path,
            "M{}L{}L{}Z",
            sheet.spot(q[0]),
            sheet.spot(q[1]),
            sheet.spot(q[2])
        );
    }
    sheet.put(&format!(
        "<path d=\"{path}\" fill=\"{CLOTH}\" stroke=\"{CLOTH}\" stroke-width=\"0.8\"/>"
    ));
}

/// Pressure at each vertex as the mean of its own and its neighbours', by area, twice: a single vertex is as sharp as the mesh is fine.
pub(super) fn smoothed(on: &OnForm) -> Vec<f64> {
    let triangles = on.mesh.mesh.triangles();
    let areas = solve::voronoi_areas(&on.mesh.mesh, &on.worn.solved.positions);
    let mut p = on.worn.pressure_kpa.clone();
    for _ in 0..2 {
        let mut sums: Vec<[f64; 2]> = areas.iter().zip(&p).map(|(a, p)| [a * p, *a]).collect();
        for t in triangles.iter().filter(|t| t.layer == 0) {
            for (i, v) in t.corners.into_iter().enumerate() {
                // Each inner edge is met twice: once from either side.
                let w = t.corners[(i + 1) % 3];
                for (a, b) in [(v, w), (w, v)] {
                    sums[a][0] += 0.5 * areas[b] * p[b];
                    sums[a][1] += 0.5 * areas[b];
                }
            }
        }
        p = sums
            .into_iter()
            .map(|[f, a]| if a > 0.0 { f / a } else { 0.0 })
            .collect();
    }
    p
}

/// The suit's own rings, heavier where it presses.
fn suit_rings(sheet: &mut Sheet, on: &OnForm) {
    let mut paths = vec![String::new(); WEIGHT_STEPS];
    let p = smoothed(on);
    for (q, kpa) in seen(on, sheet.side, &p) {
        let bottom = q.iter().map(|p| p[1]).fold(f64::INFINITY, f64::min);
        let top = q.iter().map(|p| p[1]).fold(f64::NEG_INFINITY, f64::max);
        let mut step = (bottom / RING_STEP).ceil();
        while step * RING_STEP < top {
            let y = step * RING_STEP;
            step += 1.0;
            let mut ends = Vec::new();
            let mut pressures = 0.0;
            for i in 0..3 {
                let (a, b) = (q[i], q[(i + 1) % 3]);
                if (a[1] < y) != (b[1] < y) {
                    let s = (y - a[1]) / (b[1] - a[1]);
                    ends.push([0, 1, 2].map(|k| a[k] + s * (b[k] - a[k])));
                    pressures += kpa[i] + s * (kpa[(i + 1) % 3] - kpa[i]);
                }
            }
            if let [a, b] = ends[..] {
                let share = (pressures / 2.0 / HEAVIEST_KPA).clamp(0.0, 1.0);
                let class = (share * (WEIGHT_STEPS - 1) as f64).round() as usize;
                let _ = write!(paths[class], "M{}L{}", sheet.spot(a), sheet.spot(b));
            }
        }
    }
    for (class, path) in paths.iter().enumerate().filter(|(_, path)| !path.is_empty()) {
        let weight = weight_at(class as f64 / (WEIGHT_STEPS - 1) as f64);
        sheet.put(&format!(
            "<path d=\"{path}\" stroke=\"{INK}\" stroke-width=\"{weight:.2}\"/>"
        ));
    }
}

fn weight_at(share: f64) -> f64 {
    WEIGHTS.0 + (WEIGHTS.1 - WEIGHTS.0) * share
}

fn open_edges(sheet: &mut Sheet, on: &OnForm) {
    let side = sheet.side;
    let x = &on.worn.solved.positions;
    // What faces the eye at a vertex: the sum of its triangles' normals.
    let mut normals = vec![[0.0; 3]; x.len()];
    for t in on.mesh.mesh.triangles().iter().filter(|t| t.layer == 0) {
        let n = normal(t.corners.map(|v| x[v]));
        for v in t.corners {
            for k in 0..3 {
                normals[v][k] += n[k];
            }
        }
    }
    let mut path = String::new();
    for line in &on.mesh.open_lines {
        for m in side.mirrors(on.mesh.is_whole) {
            let flip = |q: [f64; 3]| [q[0] * m, q[1], q[2]];
            let mut is_down = false;
            for w in line.vertices.windows(2) {
                // An edge that turns away is still the cloth's outline: one end in sight is enough.
                let is_seen = w.iter().any(|v| side.faces(flip(normals[*v])));
                if is_seen {
                    if !is_down {
                        let _ = write!(path, "M{}", sheet.spot(flip(x[w[0]])));
                    }
                    let _ = write!(path, "L{}", sheet.spot(flip(x[w[1]])));
                }
                is_down = is_seen;
            }
        }
    }
    sheet.put(&format!(
        "<path d=\"{path}\" stroke=\"{INK}\" stroke-width=\"2.2\"/>"
    ));
}

/// What hangs from the suit lies over it as tracing paper does: ruled level, its hem an ink line.
fn drapes(sheet: &mut Sheet, on: &OnForm) {
    let side = sheet.side;
    let (mut cloth, mut rows, mut hem) = (String::new(), String::new(), String::new());
    for drape in &on.worn.hanging {
        let columns = drape.hem.len();
        let mut normals = vec![[0.0; 3]; drape.points.len()];
        for t in &drape.triangles {
            let n = normal(t.map(|v| drape.points[v]));
            for v in t {
                for k in 0..3 {
                    normals[*v][k] += n[k];
                }
            }
        }
        for m in side.mirrors(on.mesh.is_whole) {
            let flip = |q: [f64; 3]| [q[0] * m, q[1], q[2]];
            for t in &drape.triangles {
                let q = t.map(|v| drape.points[v]);
                if side.faces(flip(normal(q))) {
                    let [a, b, c] = q.map(|p| sheet.spot(flip(p)));
                    let _ = write!(cloth, "M{a}L{b}L{c}Z");
                }
            }
            // Every second row, and the last with more ink.
            for (row, line) in (0..drape.points.len())
                .collect::<Vec<_>>()
                .chunks(columns.max(1))
                .enumerate()
            {
                let path = if line == drape.hem { &mut hem } else { &mut rows };
                if row % 2 == 1 && line != drape.hem {
                    continue;
                }
                for w in line.windows(2) {
                    if w.iter().any(|v| side.faces(flip(normals[*v]))) {
                        let [a, b] = [w[0], w[1]].map(|v| sheet.spot(flip(drape.points[v])));
                        let _ = write!(path, "M{a}L{b}");
                    }
                }
            }
        }
    }
    if cloth.is_empty() {
        return;
    }
    sheet.put(&format!(
        "<g opacity=\"0.86\"><path d=\"{cloth}\" fill=\"{CLOTH}\" stroke=\"{CLOTH}\" stroke-width=\"0.8\"/></g>\n<path d=\"{rows}\" stroke=\"{SLATE}\" stroke-width=\"0.8\"/>\n<path d=\"{hem}\" stroke=\"{INK}\" stroke-width=\"2.2\"/>"
    ));
}

/// The form's normal nearest to a point.
pub(super) fn outward(on: &OnForm, p: [f64; 3]) -> [f64; 3] {
    let vertices = on.form.vertices();
    let corners = |face: &[usize; 3]| face.map(|v| vertices[v]);
    let off = |face: &&[usize; 3]| -> f64 {
        let q = corners(face);
        (0..3)
            .map(|k| ((q[0][k] + q[1][k] + q[2][k]) / 3.0 - p[k]).powi(2))
            .sum()
    };
    let nearest = on.form.faces().iter().min_by(|a, b| off(a).total_cmp(&off(b)));
    nearest.map_or([0.0; 3], |face| normal(corners(face)))
}

/// Straps and ties, as wide as they lie on the body.
fn straps(sheet: &mut Sheet, on: &OnForm) {
    let side = sheet.side;
    let x = &on.worn.solved.positions;
    for strap in on.mesh.straps.iter().filter(|s| s.width_mm > 0.0) {
        let mut path = String::new();
        for m in side.mirrors(on.mesh.is_whole) {
            let mut is_down = false;
            for w in strap.vertices.windows(2) {
                let ends = [w[0], w[1]].map(|v| [x[v][0] * m, x[v][1], x[v][2]]);
                // It is seen where the body behind it turns to the eye.
                let middle = [0, 1, 2].map(|k| f64::midpoint(ends[0][k], ends[1][k]));
                let n = outward(on, [middle[0] * m, middle[1], middle[2]]);
                let is_seen = side.faces([n[0] * m, n[1], n[2]]);
                if is_seen {
                    if !is_down {
                        let _ = write!(path, "M{}", sheet.spot(ends[0]));
                    }
                    let _ = write!(path, "L{}", sheet.spot(ends[1]));
                }
                is_down = is_seen;
            }
        }
        let width = (strap.width_mm * SCALE).max(2.0);
        sheet.put(&format!(
            "<path d=\"{path}\" stroke=\"{INK}\" stroke-width=\"{width:.1}\" stroke-linecap=\"butt\"/>\n<path d=\"{path}\" stroke=\"{CLOTH}\" stroke-width=\"{:.1}\" stroke-linecap=\"butt\"/>",
            (width - 2.0).max(0.5)
        ));
    }
}

/// A pencil word where an edge stands off.
fn gapes(sheet: &mut Sheet, on: &OnForm) {
    let style = format!("fill=\"{PENCIL}\" font-family=\"{SANS}\" font-size=\"15\"");
    let off = on.report.edges.iter().filter(|e| e.gape_mm > SAID_GAPE_MM);
    let side = sheet.side;
    let mut at = HEAD + 4.0;
    for edge in off.filter(|e| side.faces(e.gape_at_mm)) {
        let to = sheet.at(edge.gape_at_mm);
        let says = format!("{} stands off {:.0} mm", edge.edge, edge.gape_mm);
        sheet.words((MARGIN, at), &style, &says);
        let dots = format!("stroke=\"{PENCIL}\" stroke-width=\"1.2\" stroke-dasharray=\"0.1 4\"");
        sheet.line([MARGIN + 60.0, at + 6.0], to, &dots);
        sheet.put(&format!(
            "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"4\" stroke=\"{PENCIL}\" stroke-width=\"1.4\"/>",
            to[0], to[1]
        ));
        at += 22.0;
    }
}

fn ladder(sheet: &mut Sheet, on: &OnForm) {
    let rungs: Vec<&LevelReport> = on.report.levels.iter().filter(|l| is_rung(l)).collect();
    let Some(highest) = rungs.first() else { return };
    let shell = on.shell_stretch_around * 100.0;
    let hold = fit::LEAST_HOLD * 100.0;
    let reserve = RESERVE_SHARE * shell;
    let most = rungs
        .iter()
        .map(|l| l.around_spread_percent[1].max(l.around_percent))
        .fold(0.0, f64::max);
    let least = rungs
        .iter()
        .map(|l| l.around_spread_percent[0])
        .fold(0.0, f64::min);
    let most = (most * 1.08).max(reserve * 1.06);
    let left = MARGIN + sheet.figure[0] + GUTTER;
    let x = |percent: f64| left + (percent - least) / (most - least) * (LADDER - 24.0);
    let lowest = rungs.last().unwrap_or(highest);
    let (top, bottom) = (
        sheet.y(highest.height_mm) - 44.0,
        sheet.y(lowest.height_mm) + 26.0,
    );
    let small = format!("fill=\"{SLATE}\" font-family=\"{SANS}\" font-size=\"15\"");
    for (at, words) in [
        (hold, format!("{hold:.0} % holds")),
        (reserve, format!("{reserve:.0} % keeps reserve")),
    ] {
        let rail = format!("stroke=\"{OAT}\" stroke-width=\"9\" stroke-linecap=\"butt\"");
        sheet.line([x(at), top], [x(at), bottom], &rail);
        let anchor = if at > most * 0.5 { "end" } else { "start" };
        let from = if anchor == "end" { x(at) + 6.0 } else { x(at) - 5.0 };
        sheet.words(
            (from, top - 8.0),
            &format!("{small} text-anchor=\"{anchor}\""),
            &words,
        );
    }
    for rung in &rungs {
        let y = sheet.y(rung.height_mm);
        let dots = format!("stroke=\"{RULE}\" stroke-width=\"1.2\" stroke-dasharray=\"0.1 5\"");
        sheet.line([MARGIN + sheet.figure[0] - 30.0, y], [left - 8.0, y], &dots);
        sheet.line(
            [left, y],
            [left + LADDER, y],
            &format!("stroke=\"{INK}\" stroke-width=\"1\""),
        );
        let [low, high] = rung.around_spread_percent;
        sheet.line(
            [x(low), y],
            [x(high), y],
            &format!("stroke=\"{SLATE}\" stroke-width=\"4\" stroke-linecap=\"butt\""),
        );
        let at = x(rung.around_percent);
        sheet.put(&format!(
            "<path d=\"M{at:.1} {:.1}l-6 -11h12Z\" fill=\"{INK}\"/>",
            y - 2.5
        ));
        if let Some(meant) = rung.meant_percent.filter(|_| rung.closes) {
            sheet.put(&format!(
                "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"4.5\" fill=\"{GROUND}\" stroke=\"{INK}\" stroke-width=\"1.5\"/>",
                x(meant),
                y + 8.0
            ));
        }
        beside(sheet, on, rung, left + LADDER + 16.0, y);
    }
    let y = bottom + 20.0;
    sheet.put(&format!(
        "<path d=\"M{:.1} {:.1}l-6 -11h12Z\" fill=\"{INK}\"/>",
        left + 8.0,
        y
    ));
    sheet.words((left + 20.0, y), &small, "worn, solved");
    sheet.put(&format!(
        "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"4.5\" stroke=\"{INK}\" stroke-width=\"1.5\"/>",
        left + 132.0,
        y - 5.0
    ));
    sheet.words((left + 144.0, y), &small, "meant");
    let bar = format!("stroke=\"{SLATE}\" stroke-width=\"4\" stroke-linecap=\"butt\"");
    sheet.line([left + 212.0, y - 5.0], [left + 240.0, y - 5.0], &bar);
    sheet.words((left + 248.0, y), &small, "nine tenths of the level");
}

/// Levels that lie on the trunk: where the suit does not close, what cloth there is.
pub(crate) fn is_rung(level: &LevelReport) -> bool {
    level.closes || matches!(level.level, Level::Bust | Level::HighHip | Level::Hip)
}

/// The words of a rung.
fn beside(sheet: &mut Sheet, on: &OnForm, rung: &LevelReport, x: f64, y: f64) {
    let name = format!("fill=\"{INK}\" font-family=\"{SERIF}\" font-size=\"17\"");
    let cm = |mm: Option<f64>| mm.map(|mm| Mm::new(mm).to_cm_text());
    let widths = match (cm(rung.body_mm), cm(rung.cut_mm)) {
        _ if !rung.closes => "open at the side".to_owned(),
        (Some(body), Some(cut)) => format!("  body {body}, cut {cut}"),
        _ => String::new(),
    };
    sheet.words((x, y - 3.0), &name, capital(rung.level));
    let small = format!("fill=\"{SLATE}\" font-family=\"{SANS}\" font-size=\"15\"");
    sheet.words((x + 92.0, y - 3.0), &small, widths.trim_start());
    let mark = if on.report.cloth_weighed { "" } else { "~" };
    let worn = format!(
        "worn {:.0} %, lengthwise {:+.0} %, {mark}{:.2} kPa",
        rung.around_percent, rung.lengthwise_percent, rung.pressure_kpa
    );
    sheet.words((x, y + 16.0), &small, &worn);
}

const fn capital(level: Level) -> &'static str {
    match level {
        Level::NeckBase => "Neck base",
        Level::Shoulder => "Shoulder",
        Level::UpperChest => "Upper chest",
        Level::Bust => "Bust",
        Level::Underbust => "Under-bust",
        Level::Waist => "Waist",
        Level::Navel => "Navel",
        Level::HighHip => "High hip",
        Level::Hip => "Hip",
        Level::Crotch => "Crotch",
        Level::Thigh => "Thigh",
    }
}

/// The weights of the rings with their pressures.
fn foot(sheet: &mut Sheet, on: &OnForm) {
    let y = sheet.height - 40.0;
    let small = format!("fill=\"{SLATE}\" font-family=\"{SANS}\" font-size=\"15\"");
    sheet.words(
        (MARGIN, y - 20.0),
        &small,
        "The squeeze, by the weight of the ring:",
    );
    for i in 0..5 {
        let share = f64::from(i) / 4.0;
        let x = MARGIN + 92.0 * f64::from(i);
        let ring = format!("stroke=\"{INK}\" stroke-width=\"{:.2}\"", weight_at(share));
        sheet.line([x, y], [x + 24.0, y], &ring);
        let more = if i == 4 { " or more" } else { "" };
        sheet.words(
            (x + 30.0, y + 5.0),
            &small,
            &format!("{:.1} kPa{more}", HEAVIEST_KPA * share),
        );
    }
    if !on.report.cloth_weighed {
        let says = "~ The force of this cloth was assumed: compare places, don't trust the number.";
        sheet.words((MARGIN, y + 26.0), &small, says);
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}
