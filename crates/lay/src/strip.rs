//! Strip packing as the research literature states it: polygons, copies, allowed turns, a strip of given height.
//!
//! The same search that lays suits, without the trade's rules, so that it can be measured against published figures.
//!
//! **Shapes and units.** Any unit; the strip's height is across, its length is what is wanted. Angles in degrees, as the files
//! have them.
//! **Limits.** Where a file allows any angle, angles are tried in steps of 10 degrees. Outlines without holes.

use kurbo::{Point, Vec2};
use serde::{Deserialize, Serialize};
use units::Progress;

use crate::error::LayError;
use crate::polygon;
use crate::search::{Effort, Item, Task, Way, solve};
use crate::shape::Shapes;

/// Steps tried when any angle is allowed.
const FREE_STEP_DEGREES: usize = 10;

/// A strip packing instance, in the JSON of the benchmark files.
#[derive(Clone, Debug, Deserialize)]
pub struct Strip {
    /// Its name.
    pub name: String,
    /// Height of the strip.
    pub strip_height: f64,
    /// What to place.
    pub items: Vec<StripItem>,
}

/// A kind of piece.
#[derive(Clone, Debug, Deserialize)]
pub struct StripItem {
    /// Unique in the file.
    pub id: u64,
    /// How many.
    pub demand: usize,
    /// Allowed turns in degrees, counter-clockwise; any angle if missing.
    #[serde(default)]
    pub allowed_orientations: Option<Vec<f64>>,
    /// The outline.
    pub shape: StripShape,
}

/// An outline, as the files wrap it.
#[derive(Clone, Debug, Deserialize)]
pub struct StripShape {
    /// Corners; the last may repeat the first, either way round.
    pub data: Vec<[f64; 2]>,
}

/// A placed piece: turn the file's outline about the origin, then move it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StripPlaced {
    /// Of which item.
    pub id: u64,
    /// Turn, degrees counter-clockwise.
    pub rotation_deg: f64,
    /// Then moved along.
    pub x: f64,
    /// And across.
    pub y: f64,
}

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub struct StripLay {
    /// One entry for each copy.
    pub placed: Vec<StripPlaced>,
    /// Length used.
    pub length: f64,
    /// Piece area / (height x length).
    pub usage: f64,
    /// Rounds of work done.
    pub rounds: u64,
}

impl StripItem {
    /// The outline without the repeated last point.
    pub fn ring(&self) -> Vec<Point> {
        let ring: Vec<Point> = self.shape.data.iter().map(|&[x, y]| Point::new(x, y)).collect();
        polygon::tidy(&ring)
    }
}

impl Strip {
    /// Reads an instance.
    ///
    /// # Errors
    /// [`LayError::UnreadableStrip`] for broken JSON or missing keys.
    pub fn from_json(text: &str) -> Result<Strip, LayError> {
        serde_json::from_str(text).map_err(|e| LayError::UnreadableStrip {
            reason: e.to_string(),
        })
    }

    /// Area of all pieces.
    pub fn area(&self) -> f64 {
        self.items
            .iter()
            .map(|i| i.demand as f64 * polygon::signed_area(&i.ring()))
            .sum()
    }

    /// Searches until `rounds` are done or the progress says stop; `better` hears length and usage of each better lay.
    ///
    /// Same seed, chains and rounds: same lay. Works in the rayon pool of the caller.
    ///
    /// # Errors
    /// [`LayError::BadOutline`] for an outline that crosses itself or has no area, [`LayError::TooWide`] for a piece that fits
    /// across in no allowed turn, [`LayError::NotPositive`] for the strip's height.
    pub fn solve(
        &self,
        seed: u64,
        chains: usize,
        rounds: Option<u64>,
        progress: &dyn Progress,
        better: &mut dyn FnMut(f64, f64),
    ) -> Result<StripLay, LayError> {
        if !(self.strip_height > 0.0 && self.strip_height.is_finite()) {
            return Err(LayError::NotPositive {
                what: "strip_height",
                value: self.strip_height,
            });
        }
        let (task, origins) = self.task()?;
        let area = self.area();
        let usage = |length: f64| area / (self.strip_height * length);
        let effort = Effort {
            seed,
            chains,
            rounds,
            enough: None,
        };
        let found = solve(&task, &effort, None, progress, &mut |_, f| {
            if let Some(f) = f {
                better(f.length, usage(f.length));
            }
        });
        let placed = found
            .poses
            .iter()
            .zip(&origins)
            .map(|(pose, origin)| {
                let degrees = origin.degrees[pose.way];
                let (sin, cos) = polygon::exact_sin_cos(degrees.to_radians());
                let middle = origin.middle;
                StripPlaced {
                    id: origin.id,
                    rotation_deg: degrees,
                    x: pose.x - (cos * middle.x - sin * middle.y),
                    y: pose.y - (sin * middle.x + cos * middle.y),
                }
            })
            .collect();
        Ok(StripLay {
            placed,
            length: found.length,
            usage: usage(found.length),
            rounds: found.rounds,
        })
    }

    /// What is wrong with a lay, in words: pieces missing, turned as they may not be, outside the strip, or over each other by more than
    /// a ten-millionth of the smaller one. Judged in double precision on the file's outlines.
    pub fn check(&self, lay: &StripLay) -> Vec<String> {
        let mut wrong = Vec::new();
        for item in &self.items {
            let there = lay.placed.iter().filter(|p| p.id == item.id).count();
            if there != item.demand {
                wrong.push(format!("item {}: {there} placed of {}", item.id, item.demand));
            }
        }
        let slack = 1e-9 * self.strip_height;
        let mut rings = Vec::new();
        for placed in &lay.placed {
            let Some(item) = self.items.iter().find(|i| i.id == placed.id) else {
                wrong.push(format!("item {} is not in the file", placed.id));
                continue;
            };
            let is_allowed = |allowed: &Vec<f64>| {
                allowed.is_empty() && placed.rotation_deg == 0.0 || allowed.contains(&placed.rotation_deg)
            };
            if !item.allowed_orientations.as_ref().is_none_or(is_allowed) {
                wrong.push(format!("item {} is turned by {}", placed.id, placed.rotation_deg));
            }
            let mut ring = polygon::turned(&item.ring(), false, placed.rotation_deg.to_radians());
            for p in &mut ring {
                *p += Vec2::new(placed.x, placed.y);
            }
            let b = polygon::Bounds::of(&ring);
            if b.x0 < -slack || b.y0 < -slack || b.y1 > self.strip_height + slack || b.x1 > lay.length + slack
            {
                wrong.push(format!("item {} lies outside", placed.id));
            }
            rings.push((placed.id, ring, b));
        }
        for (i, (id, ring, b)) in rings.iter().enumerate() {
            for (other_id, other, other_box) in &rings[i + 1..] {
                if polygon::overlap(ring, b, other, other_box, Vec2::ZERO) {
                    let area = crate::check::shared_area(ring, other);
                    let least = polygon::signed_area(ring).min(polygon::signed_area(other));
                    if area > 1e-7 * least {
                        wrong.push(format!("items {id} and {other_id} share {area}"));
                    }
                }
            }
        }
        wrong
    }

    fn task(&self) -> Result<(Task, Vec<Origin>), LayError> {
        let mut shapes = Shapes::default();
        let (mut items, mut origins) = (Vec::new(), Vec::new());
        for item in &self.items {
            let name = || format!("item {}", item.id);
            let ring = item.ring();
            if ring.len() < 3 || polygon::crosses_itself(&ring) || ring.iter().any(|p| !p.is_finite()) {
                return Err(LayError::BadOutline { piece: name() });
            }
            let bounds = polygon::Bounds::of(&ring);
            let middle = Vec2::new(0.5 * (bounds.x0 + bounds.x1), 0.5 * (bounds.y0 + bounds.y1));
            let centred: Vec<Point> = ring.iter().map(|&p| p - middle).collect();
            let prepared = shapes
                .prepare(centred)
                .ok_or_else(|| LayError::BadOutline { piece: name() })?;
            let degrees = item
                .allowed_orientations
                .clone()
                .unwrap_or_else(|| (0..360).step_by(FREE_STEP_DEGREES).map(|d| d as f64).collect());
            let degrees = if degrees.is_empty() { vec![0.0] } else { degrees };
            let (mut ways, mut kept) = (Vec::new(), Vec::new());
            for degrees in degrees {
                let shape = shapes.turn(&prepared, false, degrees.to_radians());
                if shapes.get(shape).bounds.height() <= self.strip_height {
                    kept.push(degrees);
                    ways.push(Way {
                        shape,
                        is_turned: false,
                        fixed_y: None,
                        lane: (0.0, self.strip_height),
                        grid: [None, None],
                    });
                }
            }
            if ways.is_empty() {
                return Err(LayError::TooWide {
                    piece: name(),
                    least_mm: bounds.height().min(bounds.width()),
                    width_mm: self.strip_height,
                });
            }
            for _ in 0..item.demand {
                items.push(Item {
                    ways: ways.clone(),
                    garment: None,
                    bears_grade: 0,
                });
                origins.push(Origin {
                    id: item.id,
                    degrees: kept.clone(),
                    middle,
                });
            }
        }
        shapes.close();
        let task = Task {
            shapes,
            items,
            fixed: Vec::new(),
            height: self.strip_height,
            garments: 0,
        };
        Ok((task, origins))
    }
}

struct Origin {
    id: u64,
    degrees: Vec<f64>,
    middle: Vec2,
}
