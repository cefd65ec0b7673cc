//! The lays of a suit of the studio: the rules she chose, what was kept, and what stands in for it.
//!
//! A lay is kept in the suit's document under `lay.LAYER`: where every piece lies, which of them a hand placed, and the fingerprint of
//! what was laid. When pieces, cloth or rules change, the kept lay is *old*: it still serves if it passes the check with the pieces as
//! they are now, else a quick lay stands in until she packs anew. Rules stand under `lay.rules`, flaws and pieces at hand in the
//! cloth's own document, because another suit is cut from the same cloth.
//!
//! **Shapes and units.** Lengths in documents are as typed (`3 mm`, `1.5 in`; a bare number is cm); placements are numbers in `table`,
//! mm and degrees.
//! **Limits.** What cannot be read of a document is left out here; the view says so beside the field.

use std::sync::{Arc, OnceLock};

use cloth::Layer;
use draft::Draft;
use lay::{
    Direction, Flaw, Fold, LayCloth, LayError, LayFault, LayRequest, Placed, SaleStep, check, is_simple,
    pieces_of,
};
use serde::{Deserialize, Serialize};
use serde_json::Value as Json;
use units::LengthUnit;

use crate::document::{Paper, Worked};
use crate::laying::{
    Laid, LaySettings, LayTask, Lays, NotLaid, entry_of, lay_tasks, quick_lay, with_best_depth,
};
use crate::suit_file::SuitFile;

/// A kept lay, as the suit's document holds it.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, Serialize)]
pub struct KeptLay {
    /// Fingerprint of what was laid.
    pub of: String,
    /// Every piece.
    pub placed: Vec<KeptPlace>,
}

/// One piece of a kept lay.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct KeptPlace {
    /// Key of the piece.
    pub piece: String,
    /// Which of its copies.
    pub copy: u32,
    /// Laid face down.
    #[serde(default)]
    pub mirrored: bool,
    /// Degrees counter-clockwise.
    pub turned: f64,
    /// Half of it, on the fold.
    #[serde(default)]
    pub half: bool,
    /// Layers cut at once.
    pub layers: u32,
    /// Along.
    pub x: f64,
    /// Across.
    pub y: f64,
    /// A hand placed it: packing goes around it.
    #[serde(default)]
    pub by_hand: bool,
}

/// How a lay of a suit stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Kept, of the pieces as they are.
    Kept,
    /// Kept of other pieces or rules, and still good.
    OldButGood,
    /// Kept of other pieces or rules, and spoilt: a quick lay stands in.
    Spoilt,
    /// Nothing kept: a quick lay.
    Quick,
}

/// The lay of one cloth of a suit.
#[derive(Clone, Debug, PartialEq)]
pub struct SuitLay {
    /// What is to be laid.
    pub task: LayTask,
    /// Its fingerprint.
    pub of: String,
    /// The fingerprint before a depth of fold was found; the same as `of` where none was asked for.
    asked: String,
    /// How it stands.
    pub standing: Standing,
    /// The lay in force.
    pub laid: Result<Laid, NotLaid>,
    /// Where the kept lay has its pieces, old or not; empty when nothing is kept.
    pub places: Vec<Placed>,
    /// Which of them a hand placed: piece and copy.
    pub by_hand: Vec<(usize, u32)>,
}

impl SuitLay {
    /// The pieces a hand placed, where it did.
    pub fn pinned(&self) -> Vec<Placed> {
        let is_by_hand = |p: &&Placed| self.by_hand.contains(&(p.piece, p.copy));
        self.places.iter().filter(is_by_hand).copied().collect()
    }

    /// The lay as it is to be kept, with these pieces by hand.
    pub fn to_keep(&self, placed: &[Placed], by_hand: &[(usize, u32)]) -> KeptLay {
        let pieces = &self.task.request.pieces;
        let places = placed.iter().filter_map(|p| {
            Some(KeptPlace {
                piece: pieces.get(p.piece)?.key.clone(),
                copy: p.copy,
                mirrored: p.is_reflected,
                turned: p.angle.to_degrees(),
                half: p.is_half,
                layers: p.layers,
                x: p.x,
                y: p.y,
                by_hand: by_hand.contains(&(p.piece, p.copy)),
            })
        });
        KeptLay {
            of: self.of.clone(),
            placed: places.collect(),
        }
    }
}

/// The lays of a suit of the studio, worked out when they are first asked for.
#[derive(Clone, Debug, Default)]
pub(crate) struct LayShelf {
    now: OnceLock<Arc<Vec<SuitLay>>>,
    /// Those of the papers before: a cloth that did not change is not laid again.
    before: Option<Arc<Vec<SuitLay>>>,
}

impl LayShelf {
    /// For papers that follow on these.
    pub(crate) fn after(earlier: &LayShelf) -> LayShelf {
        LayShelf {
            now: OnceLock::new(),
            before: earlier.now.get().or(earlier.before.as_ref()).cloned(),
        }
    }
}

impl Worked {
    /// The lay of every cloth of the suit; empty before it can be drafted.
    pub fn lays(&self) -> Arc<Vec<SuitLay>> {
        let shelf = &self.lays;
        let work = || {
            Arc::new(suit_lays(
                self,
                shelf.before.as_deref().map_or(&[], Vec::as_slice),
            ))
        };
        Arc::clone(shelf.now.get_or_init(work))
    }

    /// The lays in force, for paper and shopping list.
    pub fn lays_in_force(&self) -> Lays {
        let mut all = Lays::default();
        for lay in self.lays().iter() {
            all.add(lay.laid.clone());
        }
        all
    }
}

fn suit_lays(worked: &Worked, before: &[SuitLay]) -> Vec<SuitLay> {
    let (Some(file), Some(order)) = (&worked.file, &worked.order) else {
        return Vec::new();
    };
    let settings = settings_of(worked);
    tasks_beside(worked, (file, &order.draft), &settings)
        .into_iter()
        .map(|task| suit_lay(worked, task, settings.finds_depth, before))
        .collect()
}

/// Suits that are laid with one at most: a cutting table is so long.
const MOST_BESIDE: usize = 12;

/// Ids of the suits that a suit is laid with.
pub(crate) fn laid_with(suit: &Json) -> Vec<&str> {
    let list = suit.pointer("/lay/with").and_then(Json::as_array);
    let ids = list.into_iter().flatten().filter_map(Json::as_str);
    ids.take(MOST_BESIDE).collect()
}

/// What is laid of a suit: a task a cloth, with the pieces of those laid with it that are cut from the same.
///
/// A piece of another suit has that suit's id before its key, so that it is told apart where it is kept.
fn tasks_beside(worked: &Worked, own: (&SuitFile, &Draft), settings: &LaySettings) -> Vec<LayTask> {
    let mut suits = vec![own];
    let mut ids = vec![worked.suit.id.as_str()];
    for suit in &worked.beside {
        if let (Some(file), Some(order)) = (&suit.file, &suit.order) {
            suits.push((file, &order.draft));
            ids.push(&suit.suit.id);
        }
    }
    // Its own come first; what only others are cut from is their affair.
    let own_tasks = lay_tasks(&[own], settings).len();
    let mut tasks = lay_tasks(&suits, settings);
    tasks.truncate(own_tasks);
    for task in &mut tasks {
        let cloth = task.request.cloth.name.clone();
        let layer = task.layer;
        let is_in = |(file, draft): &(&SuitFile, &Draft)| {
            entry_of(file, layer).is_some_and(|e| e.record.name == cloth)
                && !pieces_of(draft, layer, 0, false).is_empty()
        };
        let joined: Vec<&str> = suits
            .iter()
            .zip(&ids)
            .filter(|(suit, _)| is_in(suit))
            .map(|(_, id)| *id)
            .collect();
        for piece in task.request.pieces.iter_mut().filter(|p| p.garment > 0) {
            if let Some(id) = joined.get(piece.garment) {
                piece.key = format!("{id}/{}", piece.key);
            }
        }
    }
    tasks
}

fn suit_lay(worked: &Worked, mut task: LayTask, finds_depth: bool, before: &[SuitLay]) -> SuitLay {
    let flat = paper_of(worked, task.layer).map_or_else(Vec::new, |p| flat_flaws(&p.body));
    if let Some(on) = at_hand_chosen(&worked.suit.body, task.layer) {
        on.put_under(&mut task.request.cloth);
    }
    let (task, asked) = on_table(task, &flat, finds_depth, before);
    let of = fingerprint(&task.request);
    let kept = kept_of(&worked.suit.body, task.layer);
    let (places, by_hand) = kept
        .as_ref()
        .map_or_else(Default::default, |k| placed_of(&task.request, k));
    let laid = kept
        .as_ref()
        .and_then(|_| Laid::kept(task.clone(), places.clone()));
    let standing = match (&kept, &laid) {
        (None, _) => Standing::Quick,
        (Some(kept), Some(_)) if kept.of == of => Standing::Kept,
        (Some(_), Some(_)) => Standing::OldButGood,
        (Some(_), None) => Standing::Spoilt,
    };
    let same = |b: &&SuitLay| b.of == of && b.task == task && b.is_quick();
    let laid = match (laid, before.iter().find(same)) {
        (Some(laid), _) => Ok(laid),
        (None, Some(known)) => known.laid.clone(),
        (None, None) => quick_lay(task.clone()),
    };
    SuitLay {
        task,
        of,
        asked,
        standing,
        laid,
        places,
        by_hand,
    }
}

/// The task with the cloth's flaws where they lie on the table, and folded as deep as is best where that is asked for; with the
/// fingerprint of what was asked. A depth found before for the same is taken again.
pub(crate) fn on_table(
    mut task: LayTask,
    flat: &[Flaw],
    finds_depth: bool,
    before: &[SuitLay],
) -> (LayTask, String) {
    let is_partial = matches!(task.request.cloth.fold, Fold::Partial { .. });
    let cloth = &task.request.cloth;
    let flaws = flat.iter().flat_map(|f| cloth.flaws_on_table(f)).collect();
    task.request.cloth.flaws = flaws;
    let asked = fingerprint(&task.request);
    if !(finds_depth && is_partial) {
        return (task, asked);
    }
    let asked = format!("{asked} deep");
    let known = before
        .iter()
        .find(|b| b.asked == asked && b.task.layer == task.layer);
    let task = match known {
        Some(known) => {
            task.request.cloth.fold = known.task.request.cloth.fold;
            let cloth = &task.request.cloth;
            let flaws = flat.iter().flat_map(|f| cloth.flaws_on_table(f)).collect();
            task.request.cloth.flaws = flaws;
            task
        }
        None => with_best_depth(task, flat),
    };
    (task, asked)
}

impl SuitLay {
    fn is_quick(&self) -> bool {
        matches!(self.standing, Standing::Quick | Standing::Spoilt)
    }
}

/// A fingerprint of what is laid: outlines to a thousandth of a millimetre, counts, rules, the cloth. Prices and names are left out.
pub fn fingerprint(request: &LayRequest) -> String {
    let mut bytes = Vec::new();
    let mut length = |mm: f64| bytes.extend_from_slice(&((mm * 1000.0).round() as i64).to_le_bytes());
    let cloth = &request.cloth;
    for mm in [
        cloth.width_mm,
        cloth.length_mm.unwrap_or(-1.0),
        cloth.selvedge_margin_mm,
        cloth.end_allowance_mm,
        cloth.gap_mm,
        cloth.tilt,
        cloth.repeat_mm.0.unwrap_or(-1.0),
        cloth.repeat_mm.1.unwrap_or(-1.0),
        match cloth.fold {
            Fold::Single => -1.0,
            Fold::Half => -2.0,
            Fold::Partial { depth_mm } => depth_mm,
        },
    ] {
        length(mm);
    }
    for ring in cloth.flaws.iter().map(|f| &f.outline).chain(&cloth.remnant) {
        for p in ring {
            length(p.x);
            length(p.y);
        }
    }
    for piece in &request.pieces {
        length(f64::from(piece.count));
        for p in &piece.outline {
            length(p.x);
            length(p.y);
        }
    }
    for piece in &request.pieces {
        bytes.extend_from_slice(
            format!("{} {:?} {}|", piece.key, piece.orientation, piece.is_pair).as_bytes(),
        );
    }
    for flaw in &cloth.flaws {
        bytes.extend_from_slice(&flaw.grade.to_le_bytes());
    }
    bytes.extend_from_slice(
        format!(
            "{:?} {} {}",
            cloth.direction, cloth.has_one_way_print, cloth.print_on_its_side
        )
        .as_bytes(),
    );
    format!("{:016x}", crate::version::fingerprint(&bytes))
}

fn kept_of(suit: &Json, layer: Layer) -> Option<KeptLay> {
    let kept = suit.get("lay")?.get(layer.name())?;
    serde_json::from_value(kept.clone()).ok()
}

/// The kept places of the pieces there are; pieces that are gone are left out.
fn placed_of(request: &LayRequest, kept: &KeptLay) -> (Vec<Placed>, Vec<(usize, u32)>) {
    let mut by_hand = Vec::new();
    let placed = kept.placed.iter().filter_map(|k| {
        let piece = request.pieces.iter().position(|p| p.key == k.piece)?;
        let is_finite = [k.x, k.y, k.turned].iter().all(|v| v.is_finite());
        if !is_finite {
            return None;
        }
        if k.by_hand {
            by_hand.push((piece, k.copy));
        }
        Some(Placed {
            piece,
            copy: k.copy,
            is_reflected: k.mirrored,
            angle: k.turned.to_radians(),
            is_half: k.half,
            layers: k.layers,
            x: k.x,
            y: k.y,
        })
    });
    let mut placed: Vec<Placed> = placed.collect();
    placed.sort_by_key(|p| (p.piece, p.copy));
    (placed, by_hand)
}

/// The rules in force for a suit.
pub fn settings_of(worked: &Worked) -> LaySettings {
    let usual = LaySettings::usual(worked.unit());
    let rules = worked.suit.body.get("lay").and_then(|l| l.get("rules"));
    let text = |key: &str| rules.and_then(|r| r.get(key)).and_then(Json::as_str);
    let is_yes = |key: &str| text(key) == Some("yes");
    let mm = |key: &str| rules.and_then(|r| r.get(key)).and_then(length_of);
    let depth_mm = mm("depth").filter(|d| *d >= 1.0);
    LaySettings {
        direction: match text("direction") {
            Some("free") => Some(Direction::Free),
            Some("one-way") => Some(Direction::OneWay),
            Some("per-garment") => Some(Direction::PerGarment),
            _ => None,
        },
        fold: match text("fold") {
            Some("half") => Fold::Half,
            // Until the depth is found.
            Some("partial") => Fold::Partial {
                depth_mm: depth_mm.unwrap_or(1.0),
            },
            _ => Fold::Single,
        },
        finds_depth: text("fold") == Some("partial") && depth_mm.is_none(),
        gap_mm: mm("gap").unwrap_or(usual.gap_mm),
        selvedge_margin_mm: mm("margin").unwrap_or(usual.selvedge_margin_mm),
        end_allowance_mm: mm("end").unwrap_or(usual.end_allowance_mm),
        repeat_mm: mm("repeat")
            .filter(|r| *r >= 1.0)
            .map(|along| (along, mm("repeat_across").filter(|r| *r >= 1.0))),
        print_on_its_side: is_yes("print_on_its_side"),
        is_tested: is_yes("tested"),
        step: match text("step") {
            Some("tenth") => SaleStep::Tenth,
            Some("eighth") => SaleStep::EighthYard,
            _ => usual.step,
        },
        ..usual
    }
}

/// A length as documents hold it, mm, not below 0.
fn length_of(value: &Json) -> Option<f64> {
    let mm = match value {
        Json::String(text) => units::parse_length(text, LengthUnit::Cm).ok()?.get(),
        Json::Number(cm) => cm.as_f64()? * 10.0,
        _ => return None,
    };
    (mm.is_finite() && mm >= 0.0).then_some(mm)
}

/// The document of a layer's cloth.
pub(crate) fn paper_of(worked: &Worked, layer: Layer) -> Option<&Paper> {
    match layer {
        Layer::Shell => worked.shell.as_ref(),
        Layer::Lining => worked.lining.as_ref(),
        Layer::Mesh => worked.mesh.as_ref(),
        // Cut from the shell until a second outer cloth is chosen.
        Layer::Contrast => worked.contrast.as_ref().or(worked.shell.as_ref()),
    }
}

/// A flaw as the cloth's document holds it: a box from the cut end and the selvedge, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClothFlaw {
    /// From the cut end.
    pub along_mm: f64,
    /// From the selvedge.
    pub across_mm: f64,
    /// Extent along.
    pub length_mm: f64,
    /// Extent across.
    pub width_mm: f64,
    /// Lining pieces may lie on it.
    pub is_slight: bool,
}

impl ClothFlaw {
    fn flaw(self) -> Flaw {
        let (x, y) = (self.along_mm, self.across_mm);
        let (to_x, to_y) = (x + self.length_mm, y + self.width_mm);
        Flaw {
            outline: [(x, y), (to_x, y), (to_x, to_y), (x, to_y)]
                .map(|(x, y)| kurbo::Point::new(x, y))
                .to_vec(),
            grade: u32::from(self.is_slight),
        }
    }
}

/// The flaws of a cloth on the flat cloth.
pub(crate) fn flat_flaws(cloth: &Json) -> Vec<Flaw> {
    flaws_of(cloth).0.into_iter().map(ClothFlaw::flaw).collect()
}

/// The flaws of a cloth, and how many of its list cannot be read.
pub fn flaws_of(cloth: &Json) -> (Vec<ClothFlaw>, usize) {
    let list = cloth
        .get("flaws")
        .and_then(Json::as_array)
        .map_or(&[][..], Vec::as_slice);
    let read = |f: &Json| {
        let mm = |key: &str| f.get(key).and_then(length_of);
        Some(ClothFlaw {
            along_mm: mm("along")?,
            across_mm: mm("across")?,
            length_mm: mm("length").filter(|l| *l >= 1.0)?,
            width_mm: mm("width").filter(|w| *w >= 1.0)?,
            is_slight: f.get("slight").and_then(Json::as_bool).unwrap_or(false),
        })
    };
    let all: Vec<ClothFlaw> = list.iter().filter_map(read).collect();
    let unread = list.len() - all.len();
    (all, unread)
}

/// A piece of cloth at hand.
#[derive(Clone, Debug, PartialEq)]
pub struct AtHand {
    /// Selvedge to selvedge, or across if it is a remnant without one.
    pub width_mm: f64,
    /// Along.
    pub length_mm: f64,
    /// Where it is from: `left of Maren, lap suit`.
    pub words: String,
    /// The corners of an odd one, along and across from the corner of its box; width and length are those of the box then.
    pub corners: Option<Vec<kurbo::Point>>,
}

impl AtHand {
    /// Makes it the cloth that is laid on: so wide, so long, and of its own outline. An odd piece lies single.
    pub fn put_under(&self, cloth: &mut LayCloth) {
        cloth.width_mm = self.width_mm;
        cloth.length_mm = Some(self.length_mm);
        cloth.remnant.clone_from(&self.corners);
        if self.corners.is_some() {
            cloth.fold = Fold::Single;
        }
    }
}

/// Corners an odd piece may have.
const MOST_CORNERS: usize = 60;

/// The outline of an odd piece: corners in order around it, each along and across; none if it is no outline.
pub fn corners_of(value: &Json) -> Option<Vec<kurbo::Point>> {
    let list = value.as_array()?;
    let corner = |pair: &Json| match pair.as_array().map(Vec::as_slice) {
        Some([along, across]) => Some(kurbo::Point::new(length_of(along)?, length_of(across)?)),
        _ => None,
    };
    let all: Vec<kurbo::Point> = list.iter().map(corner).collect::<Option<_>>()?;
    outline_of(&all)
}

/// Corners moved to the corner of their box, if they make an outline: three or more, and no side over another.
pub(crate) fn outline_of(corners: &[kurbo::Point]) -> Option<Vec<kurbo::Point>> {
    let least = |of: fn(&kurbo::Point) -> f64| corners.iter().map(of).fold(f64::INFINITY, f64::min);
    let is_outline = corners.len() <= MOST_CORNERS && is_simple(corners);
    let from = kurbo::Vec2::new(least(|p| p.x), least(|p| p.y));
    is_outline.then(|| corners.iter().map(|&p| p - from).collect())
}

fn at_hand(value: &Json) -> Option<AtHand> {
    let mm = |key: &str| value.get(key).and_then(length_of).filter(|mm| *mm >= 1.0);
    let corners = match value.get("corners").filter(|c| !c.is_null()) {
        Some(corners) => Some(corners_of(corners)?),
        None => None,
    };
    let most = |of: fn(&kurbo::Point) -> f64| corners.as_ref().map(|c| c.iter().map(of).fold(0.0, f64::max));
    Some(AtHand {
        width_mm: most(|p| p.y).or_else(|| mm("width"))?,
        length_mm: most(|p| p.x).or_else(|| mm("length"))?,
        words: value
            .get("words")
            .and_then(Json::as_str)
            .unwrap_or_default()
            .to_owned(),
        corners,
    })
}

/// The pieces of a cloth at hand; none for an entry that cannot be read.
pub fn at_hand_of(cloth: &Json) -> Vec<Option<AtHand>> {
    let list = cloth.get("at_hand").and_then(Json::as_array);
    list.map_or_else(Vec::new, |list| list.iter().map(at_hand).collect())
}

/// All there is of a cloth, each with what to write to a suit to lay on it: the length on the shelf first, then the pieces at hand. None for
/// what cannot be read.
pub fn pieces_of_cloth(cloth: &Json) -> Vec<(Option<AtHand>, Json)> {
    let width = cloth.get("width").and_then(length_of).filter(|w| *w >= 1.0);
    let stock = match crate::view::stock_of(cloth) {
        None => None,
        Some(Err(_)) => Some(None),
        Some(Ok(length)) if length.get() < 1.0 => None,
        Some(Ok(length)) => Some(width.map(|width_mm| AtHand {
            width_mm,
            length_mm: length.get(),
            words: ON_THE_SHELF.to_owned(),
            corners: None,
        })),
    };
    let shelf = stock.map(|piece| {
        let mm = |mm: f64| Json::String(format!("{mm:.1} mm"));
        let value = piece.as_ref().map_or(
            Json::Null,
            |p| serde_json::json!({"width": mm(p.width_mm), "length": mm(p.length_mm), "words": p.words}),
        );
        (piece, value)
    });
    let written = cloth.get("at_hand").and_then(Json::as_array);
    let kept = written
        .into_iter()
        .flatten()
        .map(|value| (at_hand(value), value.clone()));
    shelf.into_iter().chain(kept).collect()
}

/// What a length on the shelf is called.
pub const ON_THE_SHELF: &str = "on the shelf";

/// The piece at hand a layer is to be cut from, if one was chosen.
fn at_hand_chosen(suit: &Json, layer: Layer) -> Option<AtHand> {
    at_hand(suit.get("lay")?.get("on")?.get(layer.name())?)
}

/// The faults of one piece where it lies among the others, in words; empty when it may lie there.
pub fn faults_of(request: &LayRequest, placed: &[Placed]) -> Vec<String> {
    check(request, placed).iter().map(ToString::to_string).collect()
}

/// Whether pieces placed by hand may stay where they are, whatever becomes of the rest.
pub fn may_stay(request: &LayRequest, pinned: &[Placed]) -> bool {
    let is_missing = |f: &LayFault| matches!(f, LayFault::Count { .. });
    check(request, pinned).iter().all(is_missing)
}

/// What a maker can answer, if that is all that stands against a lay.
pub fn asks_about_print(not_laid: &NotLaid) -> bool {
    let is_print = |e: &LayError| matches!(e, LayError::PrintAgainstStretch { .. });
    !not_laid.errors.is_empty() && not_laid.errors.iter().all(is_print)
}
