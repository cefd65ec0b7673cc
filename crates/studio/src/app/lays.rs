//! Lays of the studio: packed by a job that is watched, pieces moved by hand, and which of the cloths at hand will do.
//!
//! What comes of it is an ordinary edit of the suit's document, so that version check, history and "Back one" hold here too.

use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use cloth::Layer;
use lay::{Effort, Lay, LayRequest, Placed, lay_around};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use store::{DocumentEdit, DocumentId, Edit, Kind, Store as _, StoreError};
use ts_rs::TS;
use units::Progress;
use utoipa::ToSchema;

use super::jobs::Reporter;
use super::papers::{blocking, name_of};
use super::{App, locked};
use crate::at_hand::{Asked, ClothAsked, SuitOn, first_of, which_can_make};
use crate::document::{Paper, Worked};
use crate::laying::Laid;
use crate::laying_kept::{SuitLay, faults_of, flat_flaws, may_stay, paper_of, pieces_of_cloth, settings_of};
use crate::view::{
    FitsView, LaidPiece, Quantity, Stamp, fits_view, laid_piece, lay_now, length, stretch_is_across,
};

/// How a lay is packed.
#[derive(Clone, Debug, Default, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PackLayRequest {
    /// Seconds to search at most; 20 when left out, 600 at most.
    pub seconds: Option<f64>,
    /// Packs pieces a hand placed as well, instead of going around them.
    pub afresh: bool,
}

/// A piece moved by hand.
#[derive(Clone, Debug, Deserialize, Serialize, TS, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct PlaceRequest {
    /// Revision of the suit the maker was looking at.
    pub base: u64,
    /// Key of the piece.
    pub piece: String,
    /// Which of its copies.
    pub copy: u32,
    /// To the right as drawn: across the cloth, mm.
    #[serde(default)]
    pub right: f64,
    /// Down as drawn: along the cloth, mm.
    #[serde(default)]
    pub down: f64,
    /// So many steps on among the ways it may be turned.
    #[serde(default)]
    pub turns: u32,
    /// Whether to keep it there if it lies well; else it is only tried.
    #[serde(default)]
    pub keep: bool,
    /// Lets all pieces go that a hand placed, instead of moving one.
    #[serde(default)]
    pub let_go: bool,
}

/// What came of moving a piece.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct PlaceAnswer {
    /// The piece where it was put.
    pub piece: Option<LaidPiece>,
    /// Why it may not lie there; empty when it may.
    pub faults: Vec<String>,
    /// How long the lay would be.
    pub length: Quantity,
    /// The suit as it stands, if it was kept.
    pub kept: Option<Stamp>,
}

/// How long a lay is packed when nothing is said, and at most.
const SECONDS: f64 = 20.0;
const MOST_SECONDS: f64 = 600.0;
/// Least time between two lays that are shown.
const SHOW_EVERY: Duration = Duration::from_millis(150);
/// Searches side by side at most; more heads change little.
const MOST_WORKERS: usize = 4;

/// A job's progress with a limit of time.
struct Clock<'a> {
    job: &'a Reporter,
    start: Instant,
    seconds: f64,
}

impl Progress for Clock<'_> {
    fn at(&self, _: u64, _: u64, _: &str) {
        self.job.goes(self.start.elapsed().as_secs_f64() / self.seconds);
    }

    fn should_stop(&self) -> bool {
        self.job.should_stop() || self.start.elapsed().as_secs_f64() >= self.seconds
    }

    fn share_of_time(&self) -> Option<f64> {
        Some(self.start.elapsed().as_secs_f64() / self.seconds)
    }
}

/// Layer of a name in an address.
fn layer_of(name: &str) -> Option<Layer> {
    crate::laying::LAYERS.into_iter().find(|l| l.name() == name)
}

impl App {
    fn lay_of(worked: &Worked, layer: &str) -> Result<SuitLay, String> {
        let layer = layer_of(layer).ok_or_else(|| format!("there is no layer {layer}"))?;
        let lays = worked.lays();
        let found = lays.iter().find(|l| l.task.layer == layer);
        found
            .cloned()
            .ok_or_else(|| "the suit has no piece of this layer yet".to_owned())
    }

    /// Starts packing a cloth closer. Returns the job's id; the inner error is a sentence for the maker.
    ///
    /// # Errors
    /// [`StoreError`] for a suit that is not there.
    pub async fn start_lay(
        self: &Arc<App>,
        suit: &DocumentId,
        layer: &str,
        request: &PackLayRequest,
    ) -> Result<Result<String, String>, StoreError> {
        let worked = self.worked(suit).await?;
        let (lay, layer) = {
            let (worked, layer) = (Arc::clone(&worked), layer.to_owned());
            match blocking(move || App::lay_of(&worked, &layer)).await {
                Ok(lay) => {
                    let layer = lay.task.layer;
                    (lay, layer)
                }
                Err(says) => return Ok(Err(says)),
            }
        };
        if let Err(not_laid) = &lay.laid {
            return Ok(Err(not_laid.why()));
        }
        let seconds = request.seconds.unwrap_or(SECONDS).clamp(0.2, MOST_SECONDS);
        let afresh = request.afresh;
        let (app, base) = (Arc::clone(self), worked.suit.revision);
        let runtime = tokio::runtime::Handle::current();
        Ok(self
            .jobs
            .start_telling(&format!("Packing the {}", layer.name()), move |job| {
                // What a hand placed before something changed may lie wrong now: then it goes with the rest.
                let mut pinned = if afresh { Vec::new() } else { lay.pinned() };
                if !may_stay(&lay.task.request, &pinned) {
                    pinned.clear();
                }
                let by_hand: Vec<(usize, u32)> = pinned.iter().map(|p| (p.piece, p.copy)).collect();
                let packed = pack(&worked, &lay, &pinned, &by_hand, seconds, job)?;
                let words = format!("packed the {}", layer.name());
                let kept = lay.to_keep(&packed.placed, &by_hand);
                let edit = edit_of(&worked, base, layer, &kept, words);
                runtime
                    .block_on(app.store.edit(edit))
                    .map_err(|e| format!("the lay was found but not kept: {e}"))?;
                Ok(super::jobs::Made {
                    name: format!("lay-{}.json", layer.name()),
                    mime: "application/json",
                    bytes: serde_json::to_vec(&packed).map_err(|e| e.to_string())?,
                })
            }))
    }

    /// Tries or keeps a piece where a hand put it. The inner error is a sentence for the maker.
    ///
    /// # Errors
    /// Those of the store; a clash when the lay was changed meanwhile.
    pub async fn place(
        &self,
        suit: &DocumentId,
        layer: &str,
        request: PlaceRequest,
    ) -> Result<Result<PlaceAnswer, String>, StoreError> {
        let worked = self.worked(suit).await?;
        let keep = request.keep;
        let base = request.base;
        let layer = layer.to_owned();
        let tried = {
            let worked = Arc::clone(&worked);
            blocking(move || place(&worked, &layer, &request)).await
        };
        let (mut answer, kept) = match tried {
            Ok(tried) => tried,
            Err(says) => return Ok(Err(says)),
        };
        if keep && answer.faults.is_empty() {
            let edited = self
                .store
                .edit(edit_of(&worked, base, kept.layer, &kept.lay, kept.words))
                .await?;
            answer.kept = edited.documents.first().map(|d| Stamp {
                id: d.id.as_str().to_owned(),
                kind: d.kind.key().to_owned(),
                revision: d.revision,
            });
        }
        Ok(Ok(answer))
    }

    /// Starts laying a layer on every cloth of the workroom that may serve, and every piece of them at hand. Returns the job's id; what
    /// comes of it is a [`FitsView`] as JSON. The inner error is a sentence.
    ///
    /// # Errors
    /// [`StoreError`] for a suit that is not there.
    pub async fn start_fits(
        self: &Arc<App>,
        suit: &DocumentId,
        layer: &str,
    ) -> Result<Result<String, String>, StoreError> {
        let worked = self.worked(suit).await?;
        let Some(layer) = layer_of(layer) else {
            return Ok(Err(format!("there is no layer {layer}")));
        };
        let is_cut = worked
            .order
            .as_ref()
            .is_some_and(|o| o.cut_list.iter().any(|row| row.layer == layer));
        if !is_cut {
            return Ok(Err("the suit has no piece of this layer yet".to_owned()));
        }
        let mut cloths: Vec<Paper> = self
            .store
            .list(Kind::Cloth)
            .await?
            .into_iter()
            .map(|d| Paper {
                id: d.id.as_str().to_owned(),
                kind: d.kind.key(),
                revision: d.revision,
                body: d.body,
            })
            .filter(|p| serves(&p.body, layer))
            .collect();
        // Its own cloth first, the rest by name.
        let own = paper_of(&worked, layer).map(|p| p.id.clone());
        cloths.sort_by_key(|p| {
            (
                Some(&p.id) != own.as_ref(),
                name_of(&p.body).to_owned(),
                p.id.clone(),
            )
        });
        Ok(self
            .jobs
            .start("Laying it on each of your cloths", move |progress| {
                let view = fits(&worked, layer, &cloths, progress)?;
                Ok(super::jobs::Made {
                    name: format!("cloths-{}.json", layer.name()),
                    mime: "application/json",
                    bytes: serde_json::to_vec(&view).map_err(|e| e.to_string())?,
                })
            }))
    }
}

/// Whether a cloth is one for that layer; contrast is cut from outer cloths.
fn serves(cloth: &Value, layer: Layer) -> bool {
    let role = cloth.get("role").and_then(Value::as_str).unwrap_or("shell");
    let wanted = if layer == Layer::Contrast {
        Layer::Shell
    } else {
        layer
    };
    role == wanted.name()
}

struct ToKeep {
    layer: Layer,
    lay: crate::laying_kept::KeptLay,
    words: String,
}

fn edit_of(
    worked: &Worked,
    base: u64,
    layer: Layer,
    kept: &crate::laying_kept::KeptLay,
    words: String,
) -> Edit {
    let value = serde_json::to_value(kept).unwrap_or(Value::Null);
    let changes = vec![store::Set {
        path: format!("lay.{}", layer.name()),
        value: (!value.is_null()).then_some(value),
    }];
    let parts = worked
        .suit
        .id
        .parse()
        .map(|id| DocumentEdit { id, base, changes })
        .into_iter()
        .collect();
    Edit { parts, words }
}

/// Searches until the time is over or she says stop; what was best by then is what comes back.
fn pack(
    worked: &Worked,
    lay: &SuitLay,
    pinned: &[Placed],
    by_hand: &[(usize, u32)],
    seconds: f64,
    job: &Reporter,
) -> Result<Lay, String> {
    let unit = worked.unit();
    let is_across = worked
        .order
        .as_ref()
        .is_none_or(|o| stretch_is_across(o, lay.task.layer));
    let clock = Clock {
        job,
        start: Instant::now(),
        seconds,
    };
    let effort = Effort {
        seed: 1,
        workers: rayon::current_num_threads().clamp(1, MOST_WORKERS),
        passes: None,
    };
    // Where the pieces lay before the draft changed is where the search begins.
    let warm: Vec<Placed> = match (&lay.laid, lay.places.is_empty()) {
        (_, false) => lay.places.clone(),
        (Ok(laid), true) => laid.lay.placed.clone(),
        (Err(_), true) => Vec::new(),
    };
    let shown: Mutex<Option<Instant>> = Mutex::new(None);
    let mut better = |found: &Lay| {
        let mut last = locked(&shown);
        if last.is_some_and(|at| at.elapsed() < SHOW_EVERY) {
            return;
        }
        *last = Some(Instant::now());
        let laid = Laid::of(lay.task.clone(), found.clone());
        let now = lay_now(&laid, is_across, by_hand, unit);
        let share = (clock.start.elapsed().as_secs_f64() / seconds).clamp(0.0, 1.0);
        let says = format!(
            "{} long, {} used. No lay can be shorter than {}.",
            now.length.text(),
            now.usage.text(),
            now.bound.text()
        );
        job.shows(share, &says, now);
    };
    lay_around(
        &lay.task.request,
        pinned,
        &effort,
        Some(&warm),
        &clock,
        &mut better,
    )
    .map_err(|errors| {
        errors
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join("; ")
    })
}

fn place(worked: &Worked, layer: &str, request: &PlaceRequest) -> Result<(PlaceAnswer, ToKeep), String> {
    let lay = App::lay_of(worked, layer)?;
    let laid = lay.laid.as_ref().map_err(crate::laying::NotLaid::why)?;
    let task = &lay.task.request;
    let unit = worked.unit();
    let is_across = worked
        .order
        .as_ref()
        .is_none_or(|o| stretch_is_across(o, lay.task.layer));
    let mut placed = laid.lay.placed.clone();
    // A quick lay that stands in for a spoilt one has nothing placed by hand.
    let mut by_hand = if lay.places == placed {
        lay.by_hand.clone()
    } else {
        Vec::new()
    };
    let words;
    let mut moved = None;
    if request.let_go {
        by_hand.clear();
        words = format!("let the pieces of the {} go", lay.task.layer.name());
    } else {
        let index = placed
            .iter()
            .position(|p| {
                p.copy == request.copy && task.pieces.get(p.piece).is_some_and(|q| q.key == request.piece)
            })
            .ok_or("this piece is not on the cloth any more")?;
        let one = turned(task, placed[index], request)?;
        placed[index] = one;
        moved = Some(one);
        if !by_hand.contains(&(one.piece, one.copy)) {
            by_hand.push((one.piece, one.copy));
        }
        let name = task.pieces.get(one.piece).map_or("", |p| p.name.as_str());
        words = format!(
            "{} {name} by hand",
            if request.turns > 0 { "turned" } else { "moved" }
        );
    }
    let faults = faults_of(task, &placed);
    let drawn = moved.and_then(|one| laid_piece(task, &one, 0, is_across, true, unit));
    let length_mm = Lay::of(task, placed.clone()).cloth_mm;
    let kept = lay.to_keep(&placed, &by_hand);
    Ok((
        PlaceAnswer {
            piece: drawn,
            faults,
            length: length(units::Mm::new(length_mm), unit),
            kept: None,
        },
        ToKeep {
            layer: lay.task.layer,
            lay: kept,
            words,
        },
    ))
}

/// The piece moved as drawn, and turned about the middle of its box.
fn turned(task: &LayRequest, from: Placed, request: &PlaceRequest) -> Result<Placed, String> {
    const FAR_MM: f64 = 1e5;
    if !(request.right.abs() <= FAR_MM && request.down.abs() <= FAR_MM) {
        return Err("that is further than any cloth reaches".into());
    }
    let piece = task.pieces.get(from.piece).ok_or("this piece is gone")?;
    let mut to = from;
    if request.turns > 0 {
        let angles = task.angles(piece);
        let now = angles
            .iter()
            .position(|a| {
                let turns = (a - from.angle) / std::f64::consts::TAU;
                (turns - turns.round()).abs() < 1e-6
            })
            .unwrap_or(0);
        let next = angles.get((now + request.turns as usize) % angles.len().max(1));
        to.angle = next.copied().unwrap_or(from.angle);
        let (before, after) = (middle(&from, piece), middle(&to, piece));
        to.x += before.x - after.x;
        to.y += before.y - after.y;
    }
    to.x += request.down;
    to.y += request.right;
    Ok(to)
}

fn middle(placed: &Placed, piece: &lay::LayPiece) -> kurbo::Point {
    let ring = placed.outline(piece);
    let spread = |of: fn(&kurbo::Point) -> f64| {
        let (low, high) = ring
            .iter()
            .map(of)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| {
                (a.min(v), b.max(v))
            });
        0.5 * (low + high)
    };
    kurbo::Point::new(spread(|p| p.x), spread(|p| p.y))
}

/// The suit's layer on each of these cloths.
fn fits(
    worked: &Worked,
    layer: Layer,
    cloths: &[Paper],
    progress: &(dyn Progress + Sync),
) -> Result<FitsView, String> {
    let (Some(file), Some(order)) = (&worked.file, &worked.order) else {
        return Err("the suit has no piece of this layer yet".to_owned());
    };
    let own = SuitOn {
        file: file.clone(),
        order: order.clone(),
    };
    let settings = settings_of(worked);
    let asked = Asked {
        own: &own,
        layer,
        settings: &settings,
        unit: worked.unit(),
    };
    let of_suit = paper_of(worked, layer).map(|p| p.id.as_str());
    let mut all = Vec::with_capacity(cloths.len());
    for paper in cloths {
        if progress.should_stop() {
            return Err("stopped".to_owned());
        }
        let suit = if of_suit == Some(paper.id.as_str()) {
            Ok(Box::new(own.clone()))
        } else {
            progress.at(0, 1, &format!("Drafting for {}", name_of(&paper.body)));
            drafted_on(worked, layer, paper)
        };
        all.push(ClothAsked {
            name: name_of(&paper.body).to_owned(),
            flaws: flat_flaws(&paper.body),
            pieces: pieces_of_cloth(&paper.body)
                .into_iter()
                .map(|(piece, _)| piece)
                .collect(),
            suit,
        });
    }
    let answers = which_can_make(&asked, &all, progress).map_err(|_| "stopped".to_owned())?;
    Ok(fits_view(worked, layer, cloths, &all, &answers))
}

/// The suit with another cloth in that layer.
fn drafted_on(worked: &Worked, layer: Layer, paper: &Paper) -> Result<Box<SuitOn>, String> {
    let mut linked = worked.linked();
    *match layer {
        Layer::Shell => &mut linked.shell,
        Layer::Lining => &mut linked.lining,
        Layer::Mesh => &mut linked.mesh,
        Layer::Contrast => &mut linked.contrast,
    } = Some(paper.clone());
    let other = crate::document::work(worked.suit.clone(), linked);
    match (other.file, other.order) {
        (Some(file), Some(order)) => Ok(Box::new(SuitOn { file, order })),
        _ => Err(first_of(&other.faults)),
    }
}
