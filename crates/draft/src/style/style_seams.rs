//! Style seams of a one-piece: a seam round the body under the bust or at the waist, and blocks of another cloth.
//!
//! A level seam is the cone edge at one length up the side seam of front and back, so that it is level when worn and runs smooth
//! over the sides. A side panel's line leaves armhole and leg square; a diagonal runs over the whole front.
//!
//! **Shapes and units.** mm flat, piece frame. A block of a cloth that stretches otherwise than the shell by more than 15 % is cut
//! so that it is as wide as before on the body: w' = w k' / k, k the pattern / body factor at the bust.
//! **Source.** Construction own; the 15 % is own.
//! **Limits.** No line crosses a dart: where it would, the refusal says so. The ladder judges a block by the shell's stretch.

use cloth::{Layer, worn_around};
use kurbo::Point;
use units::{Finding, Level, Limit, Severity};

use super::cut::{self, SeamNames, Side, along, square_to_both, with_ends};
use super::{Drawn, Job, Widths, cone_edge};
use crate::block::Block;
use crate::geometry::{Curve, root, unit};
use crate::parameter::{Parameter, Word};
use crate::piece::OpenKind;
use crate::refusal::Refusal;

/// A level seam stays this far above the leg and below armhole, neckline or dart, mm (own): room for elastic and allowances.
const CLEAR: f64 = 25.0;
/// A level seam passes this far below the end of neckline or back on the fold, mm: the turned edge and a seam (own).
const UNDER_TOP: f64 = 18.0;
/// How far it dips for that at the fold, mm (own); more would show.
const DIP: f64 = 30.0;
/// A panel is at least this wide at the waist, mm flat (own), and nowhere narrower than the second.
const PANEL: (f64, f64) = (45.0, 15.0);
/// A second outer cloth whose stretch is within this share of the shell's is cut as the shell.
const ALIKE: f64 = 0.15;

pub(super) const SEAM_AT: Parameter = Parameter::choice(
    "seam_at",
    "Seam across",
    "a seam round the body; under the bust it draws the suit in to the ribs",
    &[
        Word::new("none", "None", "front and back run through"),
        Word::new("underbust", "Under the bust", "drawn in to the under-bust girth"),
        Word::new("waist", "At the waist", "level with the waist"),
    ],
);
pub(super) const BLOCK_LINES: Parameter = Parameter::choice(
    "block_lines",
    "Blocks",
    "parts of the suit in a second outer cloth",
    &[
        Word::new("none", "None", "one cloth"),
        Word::new(
            "side-panels",
            "Side panels",
            "from armhole to leg, front and back",
        ),
        Word::new("chest-band", "Chest band", "a band round the bust"),
        Word::new("lower", "Lower part", "everything below a level line"),
        Word::new(
            "diagonal",
            "Diagonal",
            "across the front, from one armhole to the other leg",
        ),
    ],
);
pub(super) const PANEL_AT: Parameter = Parameter::share(
    "panel_at",
    "Panel",
    "where a side panel or diagonal leaves the armhole, a share of it from the underarm up",
    (0.20, 0.45, 0.75),
)
.only_with("block_lines", &["side-panels", "diagonal"]);
pub(super) const PANEL_LEG: Parameter = Parameter::share(
    "panel_at_leg",
    "Panel at the leg",
    "where a side panel or diagonal meets the leg, a share of it from the side down",
    (0.15, 0.30, 0.55),
)
.only_with("block_lines", &["side-panels", "diagonal"]);
pub(super) const BAND_FROM: Parameter = Parameter::share(
    "band_from",
    "Band from",
    "lower edge of a chest band, a share of the way from waist to underarm",
    (0.10, 0.40, 0.60),
)
.only_with("block_lines", &["chest-band"]);
pub(super) const BAND_TO: Parameter = Parameter::share(
    "band_to",
    "Band to",
    "upper edge of a chest band, a share of the way from waist to underarm",
    (0.35, 0.80, 0.90),
)
.only_with("block_lines", &["chest-band"]);
pub(super) const BLOCK_LEVEL: Parameter = Parameter::length(
    "block_level",
    "Lower part from",
    "how far below the waist the lower part begins, on the body; less than 0 is above it",
    (-120.0, 0.0, 120.0),
)
.only_with("block_lines", &["lower"]);

const WAIST_SEAM: SeamNames = SeamNames {
    edge: "waist_seam",
    walk: "waist seam",
    middle: "waist_seam",
    quarter: "waist_seam_quarter",
};
const UNDERBUST_SEAM: SeamNames = SeamNames {
    edge: "underbust_seam",
    walk: "underbust seam",
    middle: "underbust_seam",
    quarter: "underbust_seam_quarter",
};
const PANEL_SEAM: SeamNames = SeamNames {
    edge: "panel_seam",
    walk: "side panel",
    middle: "panel",
    quarter: "panel_quarter",
};
const DIAGONAL_SEAM: SeamNames = SeamNames {
    edge: "diagonal_seam",
    walk: "diagonal",
    middle: "diagonal",
    quarter: "diagonal_quarter",
};
const BAND_LOW: SeamNames = SeamNames {
    edge: "band_low",
    walk: "lower band seam",
    middle: "band_low",
    quarter: "band_low_quarter",
};
const BAND_UP: SeamNames = SeamNames {
    edge: "band_up",
    walk: "upper band seam",
    middle: "band_up",
    quarter: "band_up_quarter",
};
const BLOCK_SEAM: SeamNames = SeamNames {
    edge: "block_seam",
    walk: "block seam",
    middle: "block",
    quarter: "block_quarter",
};

const fn part(key: &'static str, name: &'static str, layer: Option<Layer>) -> Side {
    Side { key, name, layer }
}

/// Whether the suit has a seam under the bust, so that it can be drawn in there altogether.
///
/// # Errors
/// [`Refusal::Combination`] for a word the parameter does not have.
pub(super) fn draws_in_underbust(job: &Job<'_>) -> Result<bool, Refusal> {
    Ok(job.word(&SEAM_AT)? == "underbust")
}

/// Cuts the seam across and the blocks.
///
/// # Errors
/// [`Refusal::Combination`] for lines that run into an edge, a dart or each other; any [`Refusal`] of the parts.
pub(super) fn cut_all(job: &Job<'_>, block: &Block, drawn: &mut Drawn) -> Result<(), Refusal> {
    let across = job.word(&SEAM_AT)?;
    let blocks = job.word(&BLOCK_LINES)?;
    if across != "none" && blocks != "none" {
        return Err(Refusal::Combination {
            parameter: "seam_at",
            why: "a seam across and blocks would cut each other; keep one of them (a lower part in another cloth has a seam across)",
        });
    }
    let upper = part("upper", "upper part", None);
    let lower = part("lower", "lower part", None);
    match across {
        "waist" => level(job, block, drawn, ("seam_at", 0.0), WAIST_SEAM, (lower, upper))?,
        "underbust" => {
            let y = block.levels.underbust_height();
            level(job, block, drawn, ("seam_at", y), UNDERBUST_SEAM, (lower, upper))?;
        }
        _ => {}
    }
    let f = likeness(job, Level::Bust);
    match blocks {
        "side-panels" => side_panels(job, block, drawn, f)?,
        "chest-band" => chest_band(job, block, drawn, f)?,
        "lower" => {
            alike_only(f)?;
            let y = -job.number(&BLOCK_LEVEL)? * block.levels.k_side;
            let lower = part("lower", "lower part", Some(Layer::Contrast));
            level(job, block, drawn, ("block_level", y), BLOCK_SEAM, (lower, upper))?;
        }
        "diagonal" => {
            alike_only(f)?;
            diagonal(job, block, drawn)?;
        }
        _ => {}
    }
    Ok(())
}

/// Factor on the width of a block in the second cloth: 1 where it stretches as the shell, within 15 %.
fn likeness(job: &Job<'_>, at: Level) -> f64 {
    let (Some(contrast), shell) = (&job.cloth.contrast, &job.cloth.shell) else {
        return 1.0;
    };
    if (contrast.around.ratio() / shell.around.ratio().max(1e-9) - 1.0).abs() <= ALIKE {
        return 1.0;
    }
    let k = |stretch| worn_around(at, job.design.fit, stretch).factor();
    k(contrast.around) / k(shell.around)
}

fn alike_only(f: f64) -> Result<(), Refusal> {
    if f == 1.0 {
        return Ok(());
    }
    Err(Refusal::Combination {
        parameter: "block_lines",
        why: "the second cloth stretches more than 15 % otherwise than the shell, and this block has leg or crotch in it; choose a \
              cloth that stretches alike, or \"chest-band\" or \"side-panels\"",
    })
}

/// Cuts front and back at a height of the side seam, by cone edges.
fn level(
    job: &Job<'_>,
    block: &Block,
    drawn: &mut Drawn,
    (key, y): (&'static str, f64),
    seam: SeamNames,
    sides: (Side, Side),
) -> Result<(), Refusal> {
    let lines = level_lines(
        block,
        drawn,
        key,
        y,
        ["front", "back", "centre_front", "side_front"],
    )?;
    let w = Widths::shell(job.design);
    cut::along_lines(drawn, job.cloth, lines, seam, sides, w.seam)
}

/// One line a piece: front, back, and with princess seams centre and side front, by their keys.
fn level_lines(
    block: &Block,
    drawn: &Drawn,
    key: &'static str,
    y: f64,
    [front, back, centre, side]: [&str; 4],
) -> Result<Vec<(String, Curve)>, Refusal> {
    let refuse = |why| Err(Refusal::Combination { parameter: key, why });
    let Some(s) = block.front.side.length_to_height(y).filter(|&s| s >= CLEAR) else {
        return refuse(
            "the leg is cut so high that the seam would run into it; cut the leg lower, or put the seam higher",
        );
    };
    if block.front.side.length().min(block.back.side.length()) - s < CLEAR {
        return refuse("the seam would run into the armhole; put it lower");
    }
    if let Some(dart) = &block.dart
        && s > dart.side_low.length() - CLEAR
    {
        return refuse("the seam would run into the bust dart; put it lower, or leave it out");
    }
    let line = |run: &Curve, top: &Curve| {
        let (p, t) = run.at_length(s);
        level_line(p, t, top)
    };
    let Some(front_line) = line(&block.front.side, &block.front.neck) else {
        return refuse("the seam would run along the neckline; move one of them by 2 cm");
    };
    let behind = drawn.pieces.iter().find(|p| p.key == back);
    let top = behind.and_then(|p| p.edge("neck").or(p.edge("top")));
    let Some(back_line) = line(&block.back.side, top.map_or(&block.back.neck, |e| &e.curve)) else {
        return refuse("the seam would run along the back's edge; move one of them by 2 cm");
    };
    let mut lines = vec![(back.to_owned(), back_line)];
    let piece = |key: &str| drawn.pieces.iter().find(|p| p.key == key);
    match (piece(centre), piece(side)) {
        (Some(centre_piece), Some(side_piece)) => {
            // The princess seams of centre and side part a little under the bust: the line crosses both at one length from the leg.
            let (Some(on_centre), Some(on_side)) =
                (centre_piece.edge("princess_low"), side_piece.edge("princess_low"))
            else {
                return refuse("the princess seam ends above the seam; put the seam higher");
            };
            let off = |t: f64| {
                let p = front_line.at_length(t).0;
                let at = on_centre.curve.length_to_height(p.y).unwrap_or(0.0);
                p.x - on_centre.curve.at_length(at).0.x
            };
            let Some(t) = root(off, 0.0, front_line.length()) else {
                return refuse("the seam does not cross the princess seam; put the seam higher");
            };
            let (outer, inner) = front_line.split_at(t);
            let from_leg = along(&on_centre.curve, inner.start()).0;
            let on_centre_at = on_centre.curve.at_length(from_leg).0;
            let end = on_side.curve.at_length(on_side.curve.length() - from_leg).0;
            // The side part's line is sheared to its own seam: nothing at the side, all of it at the princess seam.
            let (a, b) = (outer.start(), outer.end());
            let shift = end - b;
            let share = |p: Point| ((p.x - a.x) / (b.x - a.x)).clamp(0.0, 1.0);
            let outer = with_ends(&outer.map(|p| p + shift * share(p) * share(p)), a, end);
            lines.push((centre.to_owned(), with_ends(&inner, on_centre_at, inner.end())));
            lines.push((side.to_owned(), outer));
        }
        _ => lines.push((front.to_owned(), front_line)),
    }
    Ok(lines)
}

/// The level line from a point of the side seam to the fold; where neckline or back lie lower than that, it dips below their end on
/// the fold, or runs into them.
fn level_line(p: Point, t: kurbo::Vec2, top: &Curve) -> Option<Curve> {
    let line = cone_edge(p, t, 0.0);
    let end = top.end();
    let below = end.y - line.end().y;
    if below >= UNDER_TOP {
        return Some(line);
    }
    if below >= UNDER_TOP - DIP {
        return Some(cone_edge(p, t, below - UNDER_TOP));
    }
    // A scoop and a V fall all the way to the fold, so at each height there is one place on them.
    let off = |s: f64| {
        let q = line.at_length(s).0;
        let edge = if q.y <= end.y {
            0.0
        } else {
            top.length_to_height(q.y).map_or(0.0, |at| top.at_length(at).0.x)
        };
        q.x - edge
    };
    let s = root(off, 0.0, line.length())?;
    let (kept, cut) = line.split_at(s);
    // Not a sliver at either end.
    (kept.length() > CLEAR && cut.length() > CLEAR).then_some(kept)
}

fn no_dart(block: &Block, is_princess: bool) -> Result<(), Refusal> {
    if block.dart.is_none() {
        return Ok(());
    }
    Err(Refusal::Combination {
        parameter: "block_lines",
        why: if is_princess {
            "these blocks would cross the princess seams; choose \"side-panels\", \"lower\" or \"none\""
        } else {
            "the line would cross the bust dart; choose \"lower\" or \"none\", or \"side-panels\" with bust_shaping = \"princess\""
        },
    })
}

fn has(drawn: &Drawn, key: &str) -> bool {
    drawn.pieces.iter().any(|p| p.key == key)
}

fn side_panels(job: &Job<'_>, block: &Block, drawn: &mut Drawn, f: f64) -> Result<(), Refusal> {
    let is_princess = has(drawn, "side_front");
    if !is_princess {
        no_dart(block, false)?;
    }
    let (at_arm, at_leg) = (job.number(&PANEL_AT)?, job.number(&PANEL_LEG)?);
    let mut lines = Vec::with_capacity(2);
    for key in ["front", "back"] {
        let Some(piece) = drawn.pieces.iter().find(|p| p.key == key) else {
            continue;
        };
        let (Some(arm), Some(leg)) = (piece.edge("armhole").or(piece.edge("top")), piece.edge("leg")) else {
            continue;
        };
        let share = if arm.name == "top" { 0.5 * at_arm } else { at_arm };
        let from = (&arm.curve, share * arm.curve.length());
        let to = (&leg.curve, (1.0 - at_leg) * leg.curve.length());
        let half = if key == "front" { &block.front } else { &block.back };
        let line = panel_line(from, to, &half.profile);
        let (low, high) = (half.side.start().y, half.side.end().y);
        let narrow = line
            .flatten(1.0)
            .iter()
            .filter(|p| (low..=high).contains(&p.y))
            .any(|p| half.profile.at(p.y) - p.x < PANEL.1 || p.x < PANEL.1);
        if narrow {
            return Err(Refusal::Combination {
                parameter: "panel_at",
                why: "the side panel would come to nothing on this body; let it leave the armhole higher, or meet the leg further in",
            });
        }
        lines.push((key.to_owned(), line));
    }
    let w = Widths::shell(job.design);
    let sides = (
        part("panel", "side panel", Some(Layer::Contrast)),
        part("middle", "middle", None),
    );
    cut::along_lines(drawn, job.cloth, lines, PANEL_SEAM, sides, w.seam)?;
    if is_princess {
        cut::recolour(drawn, job.cloth, "side_front")?;
    }
    if f != 1.0 {
        let keys: Vec<(String, bool)> = drawn
            .pieces
            .iter()
            .filter(|p| p.cuts.iter().any(|c| c.layer == Layer::Contrast))
            .map(|p| (p.key.clone(), p.key.contains("front")))
            .collect();
        for (key, is_front) in keys {
            let half = if is_front { &block.front } else { &block.back };
            let (low, high) = (half.side.start().y, half.side.end().y);
            // The side seam stays; everything moves towards it or away.
            let narrowed = |p: Point| {
                let side = half.profile.at(p.y.clamp(low, high));
                Point::new(side + (p.x - side) * f, p.y)
            };
            cut::moved(drawn, job.cloth, &key, narrowed)?;
        }
        told(job, drawn, f);
    }
    Ok(())
}

/// A panel's line from armhole to leg, held off the side seam where the waist is narrow.
fn panel_line(from: (&Curve, f64), to: (&Curve, f64), side: &crate::geometry::Profile) -> Curve {
    let straight = square_to_both(from, to);
    let (p, q) = (straight.start(), straight.end());
    let Some(at_waist) = straight.length_to_height(0.0) else {
        return straight;
    };
    let waist = straight.at_length(at_waist).0;
    let room = side.at(0.0) - PANEL.0;
    if waist.x <= room || p.y < 40.0 || q.y > -40.0 {
        return straight;
    }
    let waist = Point::new(room, 0.0);
    let along = unit(q - p);
    let (a, b) = ((waist - p).hypot(), (q - waist).hypot());
    let (t, u) = (straight.start_tangent(), straight.end_tangent());
    Curve::cubic(p, p + t * (0.30 * a), waist - along * (0.38 * a), waist).then(&Curve::cubic(
        waist,
        waist + along * (0.38 * b),
        q - u * (0.30 * b),
        q,
    ))
}

fn chest_band(job: &Job<'_>, block: &Block, drawn: &mut Drawn, f: f64) -> Result<(), Refusal> {
    no_dart(block, has(drawn, "side_front"))?;
    let (from, to) = (job.number(&BAND_FROM)?, job.number(&BAND_TO)?);
    if to < from + 0.15 {
        return Err(Refusal::Combination {
            parameter: "band_to",
            why: "the chest band would be too narrow to sew; let it begin lower or end higher",
        });
    }
    let up = block.back.side.end().y.min(block.front.side.end().y);
    let w = Widths::shell(job.design);
    let plain = part("lower", "lower part", None);
    let rest = part("upper", "upper part", None);
    let low = level_lines(block, drawn, "band_from", from * up, ["front", "back", "", ""])?;
    let high = level_lines(block, drawn, "band_to", to * up, ["front", "back", "", ""])?;
    cut::along_lines(drawn, job.cloth, low, BAND_LOW, (plain, rest), w.seam)?;
    let high = high
        .into_iter()
        .map(|(key, line)| (format!("{key}_upper"), line))
        .collect();
    let band = part("band", "band", Some(Layer::Contrast));
    let yoke = part("yoke", "yoke", None);
    cut::along_lines(drawn, job.cloth, high, BAND_UP, (band, yoke), w.seam)?;
    if f != 1.0 {
        for key in ["front_upper_band", "back_upper_band"] {
            cut::moved(drawn, job.cloth, key, |p| Point::new(p.x * f, p.y))?;
        }
        told(job, drawn, f);
    }
    Ok(())
}

fn diagonal(job: &Job<'_>, block: &Block, drawn: &mut Drawn) -> Result<(), Refusal> {
    no_dart(block, has(drawn, "side_front"))?;
    let (at_arm, at_leg) = (job.number(&PANEL_AT)?, job.number(&PANEL_LEG)?);
    let w = Widths::shell(job.design);
    let sides = (
        part("low", "right, lower part", Some(Layer::Contrast)),
        part("high", "left, upper part", None),
    );
    let line = |whole: &cut::Parts| {
        let (Some(arm), Some(leg)) = (whole.edge("armhole"), whole.edge("leg_left")) else {
            return Err(Refusal::Combination {
                parameter: "block_lines",
                why: "a diagonal runs from armhole to leg of a plain front; choose another block",
            });
        };
        let from = (&arm.curve, at_arm * arm.curve.length());
        let to = (&leg.curve, at_leg * leg.curve.length());
        Ok(square_to_both(from, to))
    };
    cut::unfolded_along(drawn, job.cloth, "front", line, DIAGONAL_SEAM, sides, w.seam)
}

/// Says that blocks were cut wider or narrower; open edges are measured again.
fn told(job: &Job<'_>, drawn: &mut Drawn, f: f64) {
    for kind in [OpenKind::Leg, OpenKind::Armhole] {
        for (arc, front) in [("front", true), ("back", false)] {
            let now: f64 = drawn
                .pieces
                .iter()
                .filter(|p| p.key.starts_with("back") != front)
                .filter(|p| p.cuts.iter().any(|c| c.layer != Layer::Lining))
                .flat_map(|p| &p.edges)
                .filter(|e| e.role == crate::piece::EdgeUse::Open(kind))
                .map(|e| e.curve.length())
                .sum();
            for edge in drawn
                .open_edges
                .iter_mut()
                .filter(|e| e.kind == kind && e.count == 2)
            {
                // What lies beside the arc on the same piece keeps its length.
                let fixed: f64 = match (kind, arc) {
                    (OpenKind::Leg, _) => 80.0,
                    _ => 30.0,
                };
                for a in edge.arcs.iter_mut().filter(|a| a.name == arc) {
                    a.length_mm = now - fixed;
                }
            }
        }
    }
    drawn.findings.push(Finding {
        code: "draft.block_width",
        severity: Severity::Watch,
        place: "blocks".into(),
        message: format!(
            "the second cloth stretches otherwise than the shell, so its blocks are cut {:.0} % {}",
            (f - 1.0).abs() * 100.0,
            if f < 1.0 { "narrower" } else { "wider" }
        ),
        value: Some(f),
        limit: Some(Limit {
            text: format!("{:.0} % of the stretch", ALIKE * 100.0),
            source: "own",
        }),
        remedy: format!(
            "stretch the smaller edge on to the larger, notch on notch{}",
            if job.design.lining == crate::design::LiningCover::Full {
                "; the lining is cut as for the shell"
            } else {
                ""
            }
        ),
    });
}
