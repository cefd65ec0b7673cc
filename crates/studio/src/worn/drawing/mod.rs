//! A worn suit drawn on its form in section rings with the solved stretch ladder beside it: front, back and side, as SVG; and its
//! isolines.
//!
//! Seen from a little above, the form is thin rings, as a dress form is ruled. The suit lies on it as paper does on a form, ruled by rings of its own that are
//! drawn the heavier the harder the cloth presses there; its edges are ink lines. Form, rings and rungs share one height
//! scale. No colour carries meaning: it reads the same from a black-and-white printer. Everything is drawn from the mesh, whatever
//! pieces the suit is cut in.
//!
//! **Shapes and units.** Inside, mm of the form's frame, y up; on the page, units of about a pixel at a width of 700, y down. A sheet has a
//! view box and no size.
//! **Limits.** Of the side view only her left half is drawn. What faces away is left out; of the isolines also what is hidden.

mod contour;
mod drape;
mod figure;
mod hidden;
mod isolines;
mod ladder;
mod sheet;
mod strap;

use std::fmt::Write;

use self::drape::drapes;
use self::figure::{Seen, cloth, form_rings, open_edges, seen};
use self::ladder::ladder;
use self::sheet::{INK, MARGIN, PENCIL, Place, SLATE, SMALL, Sheet, TILT, WIDTH, small, wrapped};
use super::OnForm;

pub(super) use self::figure::normal;
pub use self::isolines::{Isolines, draw_isolines};
pub(crate) use self::ladder::is_rung;
pub(super) use self::strap::outward;

/// Distance between the suit's rings, mm.
pub(super) const RING_STEP: f64 = 12.0;
/// Weights of the suit's rings, page units: without pressure, and at the heaviest.
const WEIGHTS: (f64, f64) = (0.55, 2.5);
/// Steps between them.
const WEIGHT_STEPS: usize = 8;
/// Pressure of the heaviest ring, kPa: the panel's stop limit; more is drawn no heavier.
pub(crate) const HEAVIEST_KPA: f64 = fit::PANEL_STOP_KPA;
/// Width of the figure, page units.
const FIGURE: f64 = 330.0;
/// Between figure and ladder.
const GUTTER: f64 = 16.0;

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

/// The drawing of one side.
pub fn draw(on: &OnForm, name: &str, side: Side) -> String {
    let title = format!("{name}, worn, {}", side.words());
    let mut sheet = Sheet::default();
    let top = sheet.head(on, &title);
    let place = Place::new(on, side, [MARGIN, top], FIGURE);
    form_rings(&mut sheet, &place, on);
    cloth(&mut sheet, &place, on);
    suit_rings(&mut sheet, &place, on);
    strap::straps(&mut sheet, &place, on);
    open_edges(&mut sheet, &place, on);
    drapes(&mut sheet, &place, on);
    let right = MARGIN + FIGURE + GUTTER;
    let told = gapes(&mut sheet, &place, on, (right, top + 10.0));
    let beside = ladder(&mut sheet, &place, on, (right, told));
    let height = foot(&mut sheet, on, place.bottom().max(beside) + 34.0);
    sheet.done(height, &title)
}

/// Pressure at each vertex, smoothed over its neighbours.
pub(super) fn smoothed(on: &OnForm) -> Vec<f64> {
    figure::smoothed(on, &on.worn.pressure_kpa)
}

/// The suit's own rings, heavier where it presses.
fn suit_rings(sheet: &mut Sheet, place: &Place, on: &OnForm) {
    let mut paths = vec![String::new(); WEIGHT_STEPS];
    let p = smoothed(on);
    for Seen { at: q, corners, .. } in seen(on, place.side) {
        let kpa = corners.map(|v| p[v]);
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
                let _ = write!(paths[class], "M{}L{}", place.spot(a), place.spot(b));
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

/// A pencil word beside the figure where an edge stands off; where the words end.
fn gapes(sheet: &mut Sheet, place: &Place, on: &OnForm, (left, top): (f64, f64)) -> f64 {
    let off = on
        .report
        .edges
        .iter()
        .filter(|e| e.gape_mm > solve::GAPE_WATCH_MM);
    let mut at = top;
    for edge in off.filter(|e| place.side.faces(e.gape_at_mm)) {
        let to = place.at(edge.gape_at_mm);
        let says = format!(
            "{} of the {} stands off {:.0} mm",
            edge.edge,
            edge.piece.replace('_', " "),
            edge.gape_mm
        );
        let first = at;
        for line in wrapped(&says, SMALL, WIDTH - MARGIN - left) {
            sheet.words((left, at), &small(PENCIL), &line);
            at += 20.0;
        }
        let dots = format!("stroke=\"{PENCIL}\" stroke-width=\"1.2\" stroke-dasharray=\"0.1 4\"");
        sheet.line([left - 6.0, first - 5.0], to, &dots);
        sheet.put(&format!(
            "<circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"4\" stroke=\"{PENCIL}\" stroke-width=\"1.4\"/>",
            to[0], to[1]
        ));
        at += 6.0;
    }
    at
}

/// The weights of the rings with their pressures; the height of the whole sheet.
fn foot(sheet: &mut Sheet, on: &OnForm, top: f64) -> f64 {
    let style = small(SLATE);
    sheet.words(
        (MARGIN, top),
        &style,
        "The squeeze, by the weight of the ring, kPa:",
    );
    let y = top + 24.0;
    for i in 0..5 {
        let share = f64::from(i) / 4.0;
        let x = MARGIN + 78.0 * f64::from(i);
        let ring = format!("stroke=\"{INK}\" stroke-width=\"{:.2}\"", weight_at(share));
        sheet.line([x, y - 5.0], [x + 24.0, y - 5.0], &ring);
        let more = if i == 4 { " or more" } else { "" };
        sheet.words(
            (x + 30.0, y),
            &style,
            &format!("{:.1}{more}", HEAVIEST_KPA * share),
        );
    }
    let mut y = y;
    if !on.report.cloth_weighed {
        let says = "~ The force of this cloth was assumed: compare places, don't trust the number.";
        for line in wrapped(says, SMALL, WIDTH - 2.0 * MARGIN) {
            y += 22.0;
            sheet.words((MARGIN, y), &style, &line);
        }
    }
    y + MARGIN
}
