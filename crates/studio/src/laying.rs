//! From suits to lays: what is cut from which cloth and by which rules, a quick lay of it, and what that says to buy.
//!
//! One place for the `lay` command, the pack, the plan and the studio, so that they cannot disagree. Every cloth is a lay of its own;
//! suits cut from a cloth of the same name and layer share it. [`quick_lay`] does a fixed amount of work from a fixed seed: the same
//! suit gives the same lay on any machine, in a fraction of a second.
//!
//! **Shapes and units.** Suit files and their drafts in, [`lay::LayRequest`]s and lays out; mm.
//! **Source.** Shrinkage where no wash test was made, 20 cm for test strips: common practice, no single source.
//! **Limits.** A quick lay is a few hundredths longer than what a search of a minute finds.

use cloth::Layer;
use draft::Draft;
use lay::{
    BuyRules, Buying, Direction, Effort, Flaw, Fold, Lay, LayCloth, LayError, LayRequest, Placed, Remnant,
    SaleStep, buying, check, cutting_order, fold_depths, lay as lay_pieces, pieces_of, remnants,
};
use serde::Serialize;
use sheet::lay_plan::LayPlan;
use units::{LengthUnit, Mm, Progress, Silent};

use crate::suit_file::{ClothEntry, SuitFile};

/// Layers in the order they are told of.
pub const LAYERS: [Layer; 4] = [Layer::Shell, Layer::Lining, Layer::Mesh, Layer::Contrast];
/// Width of a cloth whose swatch has none; the shopping list assumes the same.
pub const ASSUMED_WIDTH_MM: f64 = 1500.0;
/// Shrinkage where no wash test was made.
const UNTESTED_SHRINKAGE: f64 = 0.05;
/// Length for test strips.
const TEST_STRIPS_MM: f64 = 200.0;
/// Passes of the quick lay: most of what a search gains it gains in these.
pub const QUICK_PASSES: u64 = 6;
const QUICK_SEED: u64 = 1;

/// By which rules cloths are laid; the usual ones by [`Default`].
#[derive(Clone, Debug, PartialEq)]
pub struct LaySettings {
    /// Only these; all when empty.
    pub layers: Vec<Layer>,
    /// Suits share the first one's cloth even if their swatches bear different names.
    pub one_cloth: bool,
    /// Width of cloths whose swatch has none.
    pub width_mm: f64,
    /// Which way tops point; one-way when nothing is said.
    pub direction: Option<Direction>,
    /// Layers on the table.
    pub fold: Fold,
    /// The depth of a partial fold is not given: the best of several is to be found, by [`with_best_depth`].
    pub finds_depth: bool,
    /// Least distance between pieces.
    pub gap_mm: f64,
    /// Kept free along each selvedge.
    pub selvedge_margin_mm: f64,
    /// Kept free at each cut end.
    pub end_allowance_mm: f64,
    /// Repeat of a print to match, along and across.
    pub repeat_mm: Option<(f64, Option<f64>)>,
    /// Radians by which the grain may be off.
    pub tilt: f64,
    /// What is kept clear on every cloth, measured on the flat cloth: from the cut end and from the selvedge.
    pub flaws: Vec<Flaw>,
    /// A one-way print may lie on its side where a piece is turned for its stretch.
    pub print_on_its_side: bool,
    /// What the shop cuts by.
    pub step: SaleStep,
    /// The swatch is in hand: no cloth for test strips.
    pub is_tested: bool,
}

impl Default for LaySettings {
    fn default() -> LaySettings {
        let usual = LayCloth::of_width("", ASSUMED_WIDTH_MM);
        LaySettings {
            layers: Vec::new(),
            one_cloth: false,
            width_mm: ASSUMED_WIDTH_MM,
            direction: None,
            fold: usual.fold,
            finds_depth: false,
            gap_mm: usual.gap_mm,
            selvedge_margin_mm: usual.selvedge_margin_mm,
            end_allowance_mm: usual.end_allowance_mm,
            repeat_mm: None,
            tilt: usual.tilt,
            flaws: Vec::new(),
            print_on_its_side: false,
            step: SaleStep::default(),
            is_tested: false,
        }
    }
}

impl LaySettings {
    /// The usual ones where cloth is sold by that unit.
    pub fn usual(unit: LengthUnit) -> LaySettings {
        LaySettings {
            step: match unit {
                LengthUnit::In => SaleStep::EighthYard,
                LengthUnit::Cm | LengthUnit::Mm => SaleStep::Tenth,
            },
            ..LaySettings::default()
        }
    }
}

/// A lay to be made, and how its cloth is bought.
#[derive(Clone, Debug, PartialEq)]
pub struct LayTask {
    /// `Maren, lap suit: shell`.
    pub title: String,
    /// `shell`, `shell-2`: its files are `lay-shell.pdf` and so on.
    pub file_stem: String,
    /// The layer.
    pub layer: Layer,
    /// Pieces and cloth.
    pub request: LayRequest,
    /// How it is bought.
    pub rules: BuyRules,
}

/// The lays of some suits, one for each cloth that something is cut from; none when no layer has a piece.
pub fn lay_tasks(suits: &[(&SuitFile, &Draft)], settings: &LaySettings) -> Vec<LayTask> {
    let mut all: Vec<LayTask> = Vec::new();
    for (suit, draft) in suits {
        for layer in LAYERS {
            let is_wanted = settings.layers.is_empty() || settings.layers.contains(&layer);
            let Some(entry) = entry_of(suit, layer).filter(|_| is_wanted) else {
                continue;
            };
            let mut pieces = pieces_of(draft, layer, 0, settings.repeat_mm.is_some());
            if pieces.is_empty() {
                continue;
            }
            let known = all.iter().position(|t| {
                t.layer == layer && (settings.one_cloth || t.request.cloth.name == entry.record.name)
            });
            let task = match known {
                Some(known) => &mut all[known],
                None => {
                    all.push(LayTask {
                        title: String::new(),
                        file_stem: layer.name().to_owned(),
                        layer,
                        request: LayRequest {
                            garments: Vec::new(),
                            pieces: Vec::new(),
                            cloth: lay_cloth(settings, entry),
                        },
                        rules: buy_rules(settings, entry),
                    });
                    let last = all.len() - 1;
                    &mut all[last]
                }
            };
            for piece in &mut pieces {
                piece.garment = task.request.garments.len();
            }
            task.request.garments.push(suit.name.clone());
            task.request.pieces.extend(pieces);
        }
    }
    for task in &mut all {
        let whose = match &task.request.garments[..] {
            [one] => one.clone(),
            several => format!("{} suits", several.len()),
        };
        task.title = format!("{whose}: {}", task.layer.name());
    }
    apart(&mut all);
    all
}

/// Two cloths of one layer must not write over each other.
pub fn apart(tasks: &mut [LayTask]) {
    for i in 0..tasks.len() {
        let (before, rest) = tasks.split_at_mut(i);
        let Some(task) = rest.first_mut() else {
            continue;
        };
        if before.iter().any(|t| t.file_stem == task.file_stem) {
            let same = before.iter().filter(|t| t.layer == task.layer).count();
            task.file_stem = format!("{}-{}", task.layer.name(), same + 1);
        }
    }
}

/// The cloth a layer is cut from; contrast pieces are cut from the shell until a second outer cloth is chosen.
pub(crate) fn entry_of(suit: &SuitFile, layer: Layer) -> Option<&ClothEntry> {
    match layer {
        Layer::Shell => Some(&suit.shell),
        Layer::Lining => suit.lining.as_ref(),
        Layer::Mesh => suit.mesh.as_ref(),
        Layer::Contrast => suit.contrast.as_ref().or(Some(&suit.shell)),
    }
}

fn lay_cloth(settings: &LaySettings, entry: &ClothEntry) -> LayCloth {
    let record = &entry.record;
    let mut cloth = LayCloth {
        selvedge_margin_mm: settings.selvedge_margin_mm,
        end_allowance_mm: settings.end_allowance_mm,
        gap_mm: settings.gap_mm,
        direction: settings.direction.unwrap_or(Direction::OneWay),
        fold: settings.fold,
        repeat_mm: (
            settings.repeat_mm.map(|r| r.0),
            settings.repeat_mm.and_then(|r| r.1),
        ),
        tilt: settings.tilt,
        has_one_way_print: record.is_one_way,
        print_on_its_side: settings.print_on_its_side,
        ..LayCloth::of_width(&record.name, record.width_mm.unwrap_or(settings.width_mm))
    };
    cloth.flaws = settings
        .flaws
        .iter()
        .flat_map(|f| cloth.flaws_on_table(f))
        .collect();
    cloth
}

fn buy_rules(settings: &LaySettings, entry: &ClothEntry) -> BuyRules {
    let record = &entry.record;
    let tested = record.shrinkage_along_percent / 100.0;
    BuyRules {
        step: settings.step,
        // Washed before cutting: what is bought is longer than what is laid on. Otherwise the draft has grown the pieces already.
        shrinks_along: record
            .is_washed
            .then_some(if tested > 0.0 { tested } else { UNTESTED_SHRINKAGE }),
        test_strip_mm: if settings.is_tested { 0.0 } else { TEST_STRIPS_MM },
        least_mm: 0.0,
        price_per_metre: record.price_per_metre,
    }
}

/// A lay with what follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// What was laid.
    pub task: LayTask,
    /// How.
    pub lay: Lay,
    /// What to buy for it.
    pub buying: Buying,
    /// What is left: of the cloth there is, or of what is bought.
    pub remnants: Vec<Remnant>,
}

impl Laid {
    /// What follows from a lay.
    pub fn of(task: LayTask, lay: Lay) -> Laid {
        let buying = buying(&task.request, &lay, &task.rules);
        let there_is = task.request.cloth.length_mm.unwrap_or(buying.buy_mm);
        let remnants = remnants(&task.request, &lay, there_is);
        Laid {
            task,
            lay,
            buying,
            remnants,
        }
    }

    /// From a lay that was kept: none if a piece is missing or lies where it may not.
    pub fn kept(task: LayTask, placed: Vec<Placed>) -> Option<Laid> {
        check(&task.request, &placed)
            .is_empty()
            .then(|| Lay::of(&task.request, placed))
            .map(|lay| Laid::of(task, lay))
    }

    /// For drawing.
    pub fn plan(&self) -> LayPlan<'_> {
        LayPlan {
            title: &self.task.title,
            request: &self.task.request,
            lay: &self.lay,
            buying: Some(&self.buying),
            remnants: &self.remnants,
        }
    }

    /// Name of its plan: `lay-shell.pdf`.
    pub fn file(&self, end: &str) -> String {
        format!("lay-{}.{end}", self.task.file_stem)
    }

    /// What the lay takes of the cloth as bought: ends, repeat and shrinkage counted, test strips not.
    pub fn takes(&self) -> Mm {
        let rules = BuyRules {
            test_strip_mm: 0.0,
            ..self.task.rules
        };
        Mm::new(buying(&self.task.request, &self.lay, &rules).need_mm)
    }

    /// The first suit's share of the pieces, by area; 1 of a lay of one.
    pub fn share(&self) -> f64 {
        let area = |of_all: bool| -> f64 {
            let pieces = self
                .task
                .request
                .pieces
                .iter()
                .filter(|p| of_all || p.garment == 0);
            pieces.map(|p| p.area_mm2() * f64::from(p.count)).sum()
        };
        if self.task.request.garments.len() > 1 {
            area(false) / area(true).max(1.0)
        } else {
            1.0
        }
    }
}

/// A cloth that can't be laid, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct NotLaid {
    /// What was to be laid.
    pub task: Box<LayTask>,
    /// All that stands against it.
    pub errors: Vec<LayError>,
}

impl NotLaid {
    /// All of it in one sentence.
    pub fn why(&self) -> String {
        let all: Vec<String> = self.errors.iter().map(ToString::to_string).collect();
        all.join("; ")
    }

    /// The same with what was to be laid.
    pub fn says(&self) -> String {
        format!("{}: {}", self.task.request.cloth.name, self.why())
    }
}

/// The lays of one suit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lays {
    /// One for each cloth.
    pub laid: Vec<Laid>,
    /// Cloths that can't be laid.
    pub not_laid: Vec<NotLaid>,
}

impl Lays {
    /// What each layer takes, for the shopping list: of a lay of several suits the first one's share.
    pub fn lengths(&self) -> Vec<(Layer, Mm)> {
        self.laid
            .iter()
            .map(|l| (l.task.layer, l.takes() * l.share()))
            .collect()
    }

    /// The lay of a layer.
    pub fn of(&self, layer: Layer) -> Option<&Laid> {
        self.laid.iter().find(|l| l.task.layer == layer)
    }

    /// Adds what came of a task.
    pub fn add(&mut self, came: Result<Laid, NotLaid>) {
        match came {
            Ok(laid) => self.laid.push(laid),
            Err(not_laid) => self.not_laid.push(not_laid),
        }
    }
}

/// A lay by a fixed amount of work: the same on any machine.
///
/// # Errors
/// [`NotLaid`] with everything that stands against it.
pub fn quick_lay(task: LayTask) -> Result<Laid, NotLaid> {
    quick_lay_told(task, &Silent)
}

/// The same, told how far it is; stopped, it is as good as it was by then.
///
/// # Errors
/// As [`quick_lay`].
pub fn quick_lay_told(task: LayTask, progress: &dyn Progress) -> Result<Laid, NotLaid> {
    let effort = Effort {
        seed: QUICK_SEED,
        workers: 1,
        passes: Some(QUICK_PASSES),
    };
    match lay_pieces(&task.request, &effort, None, progress, &mut |_| {}) {
        Ok(lay) => Ok(Laid::of(task, lay)),
        Err(errors) => Err(NotLaid {
            task: Box::new(task),
            errors,
        }),
    }
}

/// The quick lays of one suit by the usual rules.
pub fn quick_lays(suit: &SuitFile, draft: &Draft) -> Lays {
    let mut all = Lays::default();
    for task in lay_tasks(&[(suit, draft)], &LaySettings::usual(suit.units)) {
        all.add(quick_lay(task));
    }
    all
}

/// Work on each depth of a fold that is tried.
const DEPTH_PASSES: u64 = 1;

/// The task on its cloth folded over as deep as is best: of the depths at which something just fits double, the one whose lay is
/// shortest, the least deep of equals. `flat` are the cloth's flaws on the flat cloth: where they come to lie depends on the fold.
///
/// Where nothing comes out double at any depth the cloth lies single: a fold would gain nothing.
pub fn with_best_depth(task: LayTask, flat: &[Flaw]) -> LayTask {
    let folded = |fold: Fold| {
        let mut task = task.clone();
        task.request.cloth.fold = fold;
        let cloth = &task.request.cloth;
        let flaws = flat.iter().flat_map(|f| cloth.flaws_on_table(f)).collect();
        task.request.cloth.flaws = flaws;
        task
    };
    let effort = Effort {
        seed: QUICK_SEED,
        workers: 1,
        passes: Some(DEPTH_PASSES),
    };
    let mut best: Option<(f64, LayTask)> = None;
    for depth_mm in fold_depths(&task.request) {
        let tried = folded(Fold::Partial { depth_mm });
        let Ok(lay) = lay_pieces(&tried.request, &effort, None, &Silent, &mut |_| {}) else {
            continue;
        };
        let comes_out_double = lay.placed.iter().any(|p| p.layers == 2);
        let is_shorter = best
            .as_ref()
            .is_none_or(|(shortest, _)| lay.cloth_mm < shortest - 0.05);
        if comes_out_double && is_shorter {
            best = Some((lay.cloth_mm, tried));
        }
    }
    best.map_or_else(|| folded(Fold::Single), |(_, task)| task)
}

/// A lay as data: what scripts and other readers get.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ReportedLay {
    /// `Maren, lap suit: shell`.
    pub title: String,
    /// Layer.
    pub layer: &'static str,
    /// Name of the cloth.
    pub cloth: String,
    /// Selvedge to selvedge.
    pub width_mm: f64,
    /// Least distance between pieces.
    pub gap_mm: f64,
    /// Kept free along each selvedge.
    pub selvedge_margin_mm: f64,
    /// Kept free at each cut end.
    pub end_allowance_mm: f64,
    /// Which way tops point.
    pub direction: &'static str,
    /// `single`, `half` or `partial`.
    pub fold: &'static str,
    /// From the selvedge that is folded over to the fold; 0 without one. On the table y counts from the fold.
    pub fold_at_mm: f64,
    /// Repeat of a print that is matched, along and across.
    pub repeat_mm: (Option<f64>, Option<f64>),
    /// Flaws as they lie on the table.
    pub flaws: Vec<FlawOnTable>,
    /// How many are laid.
    pub pieces: usize,
    /// In the order of cutting, as they lie.
    pub on_table: Vec<OnTable>,
    /// Placements, length, usage, bound.
    pub lay: Lay,
    /// What to buy.
    pub buying: Buying,
    /// What is left of that.
    pub remnants: Vec<Remnant>,
}

impl ReportedLay {
    /// A lay as data.
    pub fn of(laid: &Laid) -> ReportedLay {
        let cloth = &laid.task.request.cloth;
        ReportedLay {
            title: laid.task.title.clone(),
            layer: laid.task.layer.name(),
            cloth: cloth.name.clone(),
            width_mm: cloth.width_mm,
            gap_mm: cloth.gap_mm,
            selvedge_margin_mm: cloth.selvedge_margin_mm,
            end_allowance_mm: cloth.end_allowance_mm,
            direction: cloth.direction.name(),
            fold: match cloth.fold {
                Fold::Single => "single",
                Fold::Half => "half",
                Fold::Partial { .. } => "partial",
            },
            fold_at_mm: cloth.fold_at_mm(),
            repeat_mm: cloth.repeat_mm,
            flaws: cloth
                .flaws
                .iter()
                .map(|f| FlawOnTable {
                    outline: f.outline.iter().map(|p| [p.x, p.y]).collect(),
                    grade: f.grade,
                })
                .collect(),
            pieces: laid.lay.placed.len(),
            on_table: on_table(&laid.task.request, &laid.lay),
            lay: laid.lay.clone(),
            buying: laid.buying.clone(),
            remnants: laid.remnants.clone(),
        }
    }
}

/// A flaw on the cloth, for scripts; frame of [`OnTable`].
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FlawOnTable {
    /// Its outline.
    pub outline: Vec<[f64; 2]>,
    /// 0: nothing may touch it; else pieces that bear this grade or a higher one may.
    pub grade: u32,
}

/// A piece on the cloth, for scripts; x along from the cut end, y across from the selvedge, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OnTable {
    /// Key in the suit.
    pub key: String,
    /// Name on paper.
    pub name: String,
    /// Letter.
    pub letter: char,
    /// Whose.
    pub garment: String,
    /// Which of the suits of this lay: several may bear one name.
    pub suit: usize,
    /// Which of its copies.
    pub copy: u32,
    /// Laid face down.
    pub is_reflected: bool,
    /// Half of it, on the fold.
    pub is_half: bool,
    /// Layers cut at once.
    pub layers: u32,
    /// Turned counter-clockwise.
    pub turned_degrees: f64,
    /// How many of it are wanted.
    pub count: u32,
    /// Cut as a left and a right.
    pub is_pair: bool,
    /// Grade of the flaws it may lie on.
    pub bears_grade: u32,
    /// The point that is matched to the print's repeat.
    pub match_point: Option<[f64; 2]>,
    /// Both ends of the grain arrow: the two chalk marks.
    pub chalk: [[f64; 2]; 2],
    /// Its outline as it lies.
    pub outline: Vec<[f64; 2]>,
}

/// Every piece in the order of cutting, as it lies.
pub fn on_table(request: &LayRequest, lay: &Lay) -> Vec<OnTable> {
    let pair = |p: kurbo::Point| [p.x, p.y];
    cutting_order(request, lay)
        .into_iter()
        .filter_map(|i| {
            let placed = lay.placed.get(i)?;
            let piece = request.pieces.get(placed.piece)?;
            let table = placed.table_from_piece();
            Some(OnTable {
                key: piece.key.clone(),
                name: piece.name.clone(),
                letter: piece.letter,
                garment: request.garments.get(piece.garment).cloned().unwrap_or_default(),
                suit: piece.garment,
                copy: placed.copy,
                is_reflected: placed.is_reflected,
                is_half: placed.is_half,
                layers: placed.layers,
                turned_degrees: placed.angle.to_degrees(),
                count: piece.count,
                is_pair: piece.is_pair && !piece.either_face,
                bears_grade: piece.bears_grade,
                match_point: piece.match_point.map(|p| pair(table * p)),
                chalk: [pair(table * piece.grain.0), pair(table * piece.grain.1)],
                outline: placed.outline(piece).into_iter().map(pair).collect(),
            })
        })
        .collect()
}
