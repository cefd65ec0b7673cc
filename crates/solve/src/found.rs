//! What is found of a worn suit: each a severity, a place, a number, its limit with the source, and what to change.
//!
//! The remedy is a draft parameter with a proposed value wherever one is known to act on what was found: the maker may try it and see
//! before and after. Limits are handed in, so that they stand in one place each. A pressure is never more than a watch unless the
//! force of that cloth or elastic was weighed.
//!
//! **Shapes and units.** Ratios of stretch as `0.15`; kPa; mm; N.
//! **Limits.** Nothing is said of a suit that was not solved. Not judged here: leg line against the groin crease, seams
//! against their stitch, translucency beyond how far the cloth is drawn out.

use cloth::{Fit, Layer};
use draft::{BackShape, Design, OpenKind};
use serde::Serialize;
use units::{Finding, Level, Limit, Severity};

use crate::outcome::Stop;
use crate::reading::voronoi_areas;
use crate::suit::SuitMesh;
use crate::vector::{norm, sub};
use crate::worn::{Gape, WornLevel, WornSuit};

/// Cloth this much shorter lengthwise than it was cut lies in folds (own: bands that folded read 0.50 to 0.80).
pub const FOLDED: f64 = 0.85;
/// Dry skin holds with about this friction: 0.31 at the forearm, 0.90 at the chest (Temel et al. 2022, cotton, abstract).
pub const SKIN_FRICTION: f64 = 0.3;
/// A gap at an edge deeper than this shows (own), mm.
pub const GAPE_WATCH_MM: f64 = 5.0;
/// Area ratio at which a light cloth begins to show what is under it (own, no source).
pub const AREA_WATCH: f64 = 1.45;
/// Less of it standing off is not worth a word, mm^2.
const LEAST_BRIDGE_MM2: f64 = 100.0;
/// A peak is the mean within this of its vertex, mm: single vertices are as sharp as the mesh is fine.
const PEAK_MM: f64 = 10.0;
/// Within this of the middle, and below the hip behind, lies the inner seat fold, where no pressure is good; mm.
const SEAT_FOLD_MM: f64 = 55.0;

/// The limits a worn suit is held against, and what is known of its cloth and elastic.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundLimits {
    /// Least worn stretch that holds, and where it comes from.
    pub hold: f64,
    /// Share of a layer's stretch that leaves a reserve, and the share past which there is none.
    pub share: (f64, f64),
    /// Panels, kPa: watch above, stop above.
    pub panel_kpa: (f64, f64),
    /// Edges, straps, bindings, kPa.
    pub edge_kpa: (f64, f64),
    /// Where the pressure limits come from.
    pub pressure_source: &'static str,
    /// Whether the force of the cloth was weighed.
    pub cloth_weighed: bool,
    /// Whether that of the elastic was.
    pub elastic_weighed: bool,
    /// Width of the elastic on the edges, mm.
    pub elastic_mm: f64,
    /// Stretch around of each layer that is there.
    pub layers: Vec<(Layer, f64)>,
}

/// A draft parameter set anew.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Change {
    /// Key in the suit file's design section: `fit_around`; `figure.sway_back`.
    pub key: &'static str,
    /// What it is now; nothing for a named fit.
    pub from: Option<f64>,
    /// What is proposed: mm, or a share.
    pub to: f64,
}

/// A finding of a worn suit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Found {
    /// What was found.
    #[serde(flatten)]
    pub finding: Finding,
    /// Key of the piece, where it is one piece's.
    pub piece: Option<String>,
    /// Draft parameters that act on it.
    pub changes: Vec<Change>,
}

/// What is found of a worn suit, the worst first; nothing if it was not solved.
pub fn found(suit: &SuitMesh, worn: &WornSuit, design: &Design, limits: &FoundLimits) -> Vec<Found> {
    if worn.solved.stop != Stop::Converged {
        return Vec::new();
    }
    let job = Job {
        suit,
        worn,
        design,
        limits,
    };
    let mut all = Vec::new();
    for level in worn.levels.iter().filter(|l| l.closes) {
        job.stretch(level, &mut all);
    }
    job.folds(&mut all);
    job.panels(&mut all);
    job.edges(&mut all);
    job.gapes(&mut all);
    job.strap(&mut all);
    job.drawn_out(&mut all);
    all.sort_by_key(|f| std::cmp::Reverse(f.finding.severity));
    all
}

struct Job<'a> {
    suit: &'a SuitMesh,
    worn: &'a WornSuit,
    design: &'a Design,
    limits: &'a FoundLimits,
}

fn percent(ratio: f64) -> f64 {
    100.0 * ratio
}

fn limit(text: String, source: &'static str) -> Option<Limit> {
    Some(Limit { text, source })
}

impl Job<'_> {
    fn place(&self, level: Level) -> &'static str {
        level.name()
    }

    /// The fit with its share around times `by`, kept within what an own fit may be. Both shares must be given together.
    fn fit_changed(&self, around_by: f64, lengthwise_by: f64) -> Vec<Change> {
        let fit = self.design.fit;
        let now = |x: f64| matches!(fit, Fit::Own(_)).then_some(x);
        let step = |x: f64| (x * 1000.0).round() / 1000.0;
        let (low, high) = cloth::OWN_AROUND;
        let around = step((fit.around() * around_by).clamp(low, high));
        let (low, high) = cloth::OWN_LENGTHWISE;
        let lengthwise = step((fit.lengthwise() * lengthwise_by).clamp(low, high));
        vec![
            Change {
                key: "fit_around",
                from: now(fit.around()),
                to: around,
            },
            Change {
                key: "fit_lengthwise",
                from: now(fit.lengthwise()),
                to: lengthwise,
            },
        ]
    }

    fn stretch(&self, level: &WornLevel, all: &mut Vec<Found>) {
        let e = level.around - 1.0;
        let (reserve, most) = self.limits.share;
        let worst = self
            .limits
            .layers
            .iter()
            .map(|(layer, stretch)| (layer, e / stretch.max(f64::MIN_POSITIVE)))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((layer, share)) = worst
            && share > reserve
        {
            let is_stop = share > most;
            all.push(Found {
                finding: Finding {
                    code: "worn.share",
                    severity: if is_stop { Severity::Stop } else { Severity::Watch },
                    place: self.place(level.level).to_owned(),
                    message: format!(
                        "worn {:.0} % stretched around: {:.0} % of what the {} can stretch is used",
                        percent(e),
                        percent(share),
                        layer.name()
                    ),
                    value: Some(share),
                    limit: limit(format!("{:.2}", if is_stop { most } else { reserve }), "own"),
                    remedy: "take a looser fit".to_owned(),
                },
                piece: None,
                changes: self.fit_changed(reserve / share, 1.0),
            });
        }
        if e < self.limits.hold {
            let is_loose = e < 0.0;
            all.push(Found {
                finding: Finding {
                    code: "worn.hold",
                    severity: Severity::Watch,
                    place: self.place(level.level).to_owned(),
                    message: if is_loose {
                        format!("it lies {:.0} % wider than it is pulled: it bags", -percent(e))
                    } else {
                        format!("worn only {:.1} % stretched around: it hardly holds", percent(e))
                    },
                    value: Some(e),
                    limit: limit(format!("{:.0} %", percent(self.limits.hold)), "own"),
                    remedy: "take a closer fit, or the girth again".to_owned(),
                },
                piece: None,
                changes: self.fit_changed(1.15, 1.0),
            });
        }
    }

    /// Cloth that was pushed together lengthwise, by piece.
    fn folds(&self, all: &mut Vec<Found>) {
        for (half, piece) in ["front", "back"].into_iter().enumerate() {
            let worst = self
                .worn
                .levels
                .iter()
                .filter(|l| l.closes)
                .filter_map(|l| Some((l, l.halves[half]?.0[0])))
                .min_by(|a, b| a.1.total_cmp(&b.1));
            let Some((level, along)) = worst else { continue };
            if along >= FOLDED {
                continue;
            }
            let mut changes = Vec::new();
            if piece == "back" && matches!(level.level, Level::Waist | Level::Underbust | Level::HighHip) {
                let now = self.design.figure.sway_back.get();
                changes.push(Change {
                    key: "figure.sway_back",
                    from: Some(now),
                    to: (now + 8.0).min(15.0),
                });
            }
            all.push(Found {
                finding: Finding {
                    code: "worn.folds",
                    severity: Severity::Watch,
                    place: format!("{}, {}", piece, self.place(level.level)),
                    message: format!(
                        "the cloth lies in folds: lengthwise {:.0} % shorter than it was cut",
                        percent(1.0 - along)
                    ),
                    value: Some(along),
                    limit: limit(format!("{FOLDED:.2} of its length"), "own"),
                    remedy: "sew a firmer elastic to the edges, or take length out of the centre back after a toile"
                        .to_owned(),
                },
                piece: Some(piece.to_owned()),
                changes,
            });
        }
    }

    /// The place of the greatest mean pressure within 10 mm, away from the edges and the inner seat fold.
    fn peak(&self) -> Option<(usize, f64)> {
        let x = &self.worn.solved.positions;
        let areas = voronoi_areas(&self.suit.mesh, x);
        let mut near_edge = vec![false; x.len()];
        for line in &self.suit.open_lines {
            for v in &line.vertices {
                near_edge[*v] = true;
            }
        }
        let hip = self.worn.levels.iter().find(|l| l.level == Level::Hip);
        let fold_below = hip.map_or(f64::NEG_INFINITY, |l| l.height_mm);
        let is_fold = |p: [f64; 3]| p[0] < SEAT_FOLD_MM && p[1] < fold_below;
        let edge_points: Vec<[f64; 3]> = (0..x.len()).filter(|v| near_edge[*v]).map(|v| x[v]).collect();
        let free = |p: [f64; 3]| edge_points.iter().all(|q| norm(sub(p, *q)) > 2.0 * PEAK_MM);
        (0..x.len())
            .filter(|v| areas[*v] > 0.0 && !is_fold(x[*v]) && free(x[*v]))
            .map(|v| {
                let near = (0..x.len()).filter(|w| norm(sub(x[v], x[*w])) <= PEAK_MM);
                let (force, area) = near.fold((0.0, 0.0), |(f, a), w| {
                    (f + self.worn.solved.contact_n[w], a + areas[w])
                });
                (v, 1e3 * force / area.max(f64::MIN_POSITIVE))
            })
            .max_by(|a, b| a.1.total_cmp(&b.1))
    }

    fn panels(&self, all: &mut Vec<Found>) {
        let Some((v, kpa)) = self.peak() else { return };
        let (watch, stop) = self.limits.panel_kpa;
        let is_weighed = self.limits.cloth_weighed;
        let severity = match kpa {
            k if k > stop && is_weighed => Severity::Stop,
            k if k > watch => Severity::Watch,
            _ => Severity::Good,
        };
        let at = self.worn.solved.positions[v];
        let relative = if is_weighed {
            ""
        } else {
            "; relative, the force of the cloth was not weighed"
        };
        let is_good = severity == Severity::Good;
        let by = (watch / kpa.max(f64::MIN_POSITIVE)).clamp(0.5, 1.0);
        all.push(Found {
            finding: Finding {
                code: "worn.pressure",
                severity,
                place: self.words_at(at),
                message: format!("presses most, {kpa:.2} kPa over a thumb's breadth{relative}"),
                value: Some(kpa),
                limit: limit(
                    format!("{:.1} kPa", if severity == Severity::Stop { stop } else { watch }),
                    self.limits.pressure_source,
                ),
                remedy: if is_good {
                    String::new()
                } else {
                    "take a looser fit, or a softer cloth".to_owned()
                },
            },
            piece: None,
            changes: if is_good {
                Vec::new()
            } else {
                self.fit_changed(by, 1.0)
            },
        });
    }

    fn edges(&self, all: &mut Vec<Found>) {
        let (watch, stop) = self.limits.edge_kpa;
        let width = self.limits.elastic_mm;
        if width <= 0.0 {
            return;
        }
        let is_weighed = self.limits.cloth_weighed && self.limits.elastic_weighed;
        for edge in &self.worn.edges {
            // N/m over mm is kPa.
            let kpa = edge.line_load_n_per_m / width;
            if kpa <= watch {
                continue;
            }
            let is_stop = kpa > stop && is_weighed;
            let relative = if is_weighed {
                ""
            } else {
                "; relative, its force was not weighed"
            };
            all.push(Found {
                finding: Finding {
                    code: "worn.edge_digs",
                    severity: if is_stop { Severity::Stop } else { Severity::Watch },
                    place: format!("{} of the {}", edge.kind.name(), edge.piece),
                    message: format!("presses {kpa:.1} kPa along its {width:.0} mm: it may dig in{relative}"),
                    value: Some(kpa),
                    limit: limit(
                        format!("{:.1} kPa", if is_stop { stop } else { watch }),
                        self.limits.pressure_source,
                    ),
                    remedy: "cut its elastic longer there, or take a wider or softer one".to_owned(),
                },
                piece: Some(edge.piece.clone()),
                changes: Vec::new(),
            });
        }
    }

    fn gapes(&self, all: &mut Vec<Found>) {
        for edge in self.worn.edges.iter().filter(|e| e.gape_mm > GAPE_WATCH_MM) {
            // More ease in its length draws a neckline to the body; other edges only their elastic does.
            let changes = if edge.kind == OpenKind::Neckline {
                self.fit_changed(1.0, 1.2)
            } else {
                Vec::new()
            };
            all.push(Found {
                finding: Finding {
                    code: "worn.gapes",
                    severity: Severity::Watch,
                    place: format!(
                        "{} of the {}, {}",
                        edge.kind.name(),
                        edge.piece,
                        self.words_at(edge.gape_at)
                    ),
                    message: format!("the edge stands {:.0} mm off the body", edge.gape_mm),
                    value: Some(edge.gape_mm),
                    limit: limit(format!("{GAPE_WATCH_MM:.0} mm"), "own"),
                    remedy:
                        "cut the elastic of that edge a little shorter, or take more ease out of its length"
                            .to_owned(),
                },
                piece: Some(edge.piece.clone()),
                changes,
            });
        }
        let deep = |g: &&Gape| g.depth_mm > GAPE_WATCH_MM && g.area_mm2 > LEAST_BRIDGE_MM2;
        for gape in self.worn.gapes.iter().filter(deep) {
            all.push(self.bridge(gape));
        }
    }

    /// Over a hollow: what cloth does between breasts and in the small of the back.
    fn bridge(&self, gape: &Gape) -> Found {
        Found {
            finding: Finding {
                code: "worn.bridges",
                severity: Severity::Good,
                place: self.words_at(gape.at),
                message: format!(
                    "the cloth bridges a hollow, {:.0} mm deep, over {:.0} cm2 of each side",
                    gape.depth_mm,
                    gape.area_mm2 / 100.0
                ),
                value: Some(gape.depth_mm),
                limit: None,
                remedy: String::new(),
            },
            piece: None,
            changes: Vec::new(),
        }
    }

    fn strap(&self, all: &mut Vec<Found>) {
        let Some(strap) = self.worn.strap else { return };
        let slides = strap.needed_friction > SKIN_FRICTION;
        let to = if strap.rail_n > 0.0 {
            "off the shoulder"
        } else {
            "to the neck"
        };
        let mut changes = Vec::new();
        if slides {
            let now = self.design.strap_position;
            let usual = if self.design.back_shape == BackShape::Racer {
                0.30
            } else {
                0.42
            };
            let by = if strap.rail_n > 0.0 { -0.05 } else { 0.05 };
            changes.push(Change {
                key: "strap_position",
                from: now,
                to: ((now.unwrap_or(usual) + by).clamp(0.25, 0.70) * 100.0).round() / 100.0,
            });
        }
        all.push(Found {
            finding: Finding {
                code: "worn.strap",
                severity: if slides { Severity::Watch } else { Severity::Good },
                place: "straps, shoulder".to_owned(),
                message: if slides {
                    format!(
                        "the strap wants to slide {to} with {:.1} N: it stays where the skin grips with {:.2}",
                        strap.rail_n.abs(),
                        strap.needed_friction
                    )
                } else {
                    format!("the strap stays where it is: a grip of {:.2} is enough", strap.needed_friction)
                },
                value: Some(strap.needed_friction),
                limit: limit(
                    format!("{SKIN_FRICTION:.2}, dry skin"),
                    "Temel et al. 2022, Tribology Letters 70(1), abstract",
                ),
                remedy: if slides { "move the strap along the shoulder".to_owned() } else { String::new() },
            },
            piece: None,
            changes,
        });
    }

    fn drawn_out(&self, all: &mut Vec<Found>) {
        let worst = self
            .worn
            .levels
            .iter()
            .filter(|l| l.closes)
            .max_by(|a, b| a.area.total_cmp(&b.area));
        let Some(level) = worst else { return };
        let is_watch = level.area > AREA_WATCH;
        all.push(Found {
            finding: Finding {
                code: "worn.drawn_out",
                severity: if is_watch { Severity::Watch } else { Severity::Good },
                place: self.place(level.level).to_owned(),
                message: format!(
                    "the cloth is drawn out most, to {:.2} of its area: there it is thinnest to look through",
                    level.area
                ),
                value: Some(level.area),
                limit: limit(format!("{AREA_WATCH:.2}"), "own, no source"),
                remedy: if is_watch {
                    "hold the cloth stretched so far against the light; line it".to_owned()
                } else {
                    String::new()
                },
            },
            piece: None,
            changes: Vec::new(),
        });
    }

    /// `front, near the bust`.
    fn words_at(&self, at: [f64; 3]) -> String {
        let side = if at[0] > 2.0 * at[2].abs() {
            "side"
        } else if at[2] > 0.0 {
            "front"
        } else {
            "back"
        };
        let off = |l: &&WornLevel| (l.height_mm - at[1]).abs();
        let near = self.worn.levels.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        near.map_or_else(
            || side.to_owned(),
            |l| format!("{side}, near the {}", l.level.name()),
        )
    }
}
