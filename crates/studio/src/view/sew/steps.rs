//! The order of work as the pages show it: each step of the plan with its drawing, settings, cautions and tick.
//!
//! Ids are the plan's: they go by role, so that a tick stays when a length changes or a layer is added.
//!
//! **Limits.** Steps whose work has no piece in hand (proving, washing, the paper, the whole suit) say why they have no drawing.

use cloth::Layer;
use draft::{Mark, Piece};
use make::{EdgeElastic, Job, Making, Phase, SideUp, Step, StitchChoice};
use serde_json::Value as Json;
use units::Mm;

use super::edges::edge_key;
use super::stitches::{class_of, machine_of, needle_words, rows_of, size_of, thread_of};
use super::{HandView, Planned, SettingView, StepView, Teller};
use crate::document::Worked;
use crate::order::Order;
use crate::view::lay::{paper_of, plan_of};
use crate::view::{Quantity, length, small_length, told};

/// More edges than this are not all named in the sentence of a drawing.
const NAMED_EDGES: usize = 4;

/// The steps, with her ticks.
pub(super) fn steps(worked: &Worked, order: &Order, planned: &Planned, teller: Teller<'_>) -> Vec<StepView> {
    let desk = Desk {
        worked,
        order,
        planned,
        making: planned.making(),
        teller,
    };
    // A caution is told where it is first needed.
    let mut told: Vec<&str> = Vec::new();
    let all = &planned.making().steps;
    all.iter().map(|step| desk.step(step, &mut told)).collect()
}

/// Whether she ticked it: `sewn` holds it by its id, or by the parts of its id.
fn is_ticked(suit: &Json, id: &str) -> bool {
    let Some(sewn) = suit.get("sewn") else {
        return false;
    };
    let nested = id.split('.').try_fold(sewn, |at, key| at.get(key));
    nested.or_else(|| sewn.get(id)).and_then(Json::as_bool) == Some(true)
}

struct Desk<'a> {
    worked: &'a Worked,
    order: &'a Order,
    planned: &'a Planned,
    making: &'a Making,
    teller: Teller<'a>,
}

impl<'a> Desk<'a> {
    fn step(&self, step: &'a Step, told: &mut Vec<&'a str>) -> StepView {
        let teller = self.teller;
        let choice = self.making.stitch_of(step);
        let hands = self.hands(step, choice);
        let mut notes = self.more(step);
        notes.extend(step.notes.iter().map(|n| teller.say(n)));
        notes.extend(step.press.iter().map(|p| teller.say(p)));
        let time = teller.words().minutes(step.minutes.0, step.minutes.1);
        StepView {
            phase: teller.word(step.phase.key()),
            machine: machine_of(&self.planned.workroom, step.machine, teller),
            is_sewn: choice.is_some() && step.phase != Phase::Fit,
            title: teller.say(&step.say),
            says: teller.part(&step.say, ".how").unwrap_or_default(),
            notes,
            minutes: teller.own("sew-step-time", &[("time", time.into())]),
            side: match step.side_up {
                Some(SideUp::Wrong) => teller.own("sew-side-wrong", &[]),
                Some(SideUp::Right) => teller.own("sew-side-right", &[]),
                None => String::new(),
            },
            seam_class: choice.map_or_else(String::new, |c| class_of(c, teller)),
            settings: self.settings(step, choice),
            stitch: step.stitch,
            drawing: self.drawing(step, &hands),
            hands,
            edges: step
                .edges
                .iter()
                .map(|at| edge_key(&self.making.edges, *at))
                .collect(),
            stop: choice.map_or_else(Vec::new, |c| self.stop(c)),
            cautions: self.cautions(step, told),
            done: is_ticked(&self.worked.suit.body, &step.id),
            id: step.id.clone(),
        }
    }

    /// Pieces in hand; those with edges at work first, so that a drawing of a few shows what is done.
    fn hands(&self, step: &Step, choice: Option<&StitchChoice>) -> Vec<HandView> {
        let is_elastic = choice.is_some_and(|c| c.job.has_elastic());
        let mut hands: Vec<HandView> = step
            .touches
            .iter()
            .filter_map(|touch| {
                let piece = self.piece(&touch.piece)?;
                let names = |all: &[&str]| all.iter().map(|n| (*n).to_owned()).collect();
                Some(HandView {
                    piece: piece.key.clone(),
                    name: self.teller.named(&piece.name),
                    sewn: names(&touch.sewn),
                    handled: names(&touch.handled),
                    is_wrong_side_up: false,
                })
            })
            .collect();
        hands.sort_by_key(|h| (h.sewn.is_empty(), h.handled.is_empty()));
        if step.side_up == Some(SideUp::Wrong) {
            // Right sides together: one lies with its wrong side up, the other under it.
            for hand in hands.iter_mut().take(if is_elastic { usize::MAX } else { 1 }) {
                hand.is_wrong_side_up = true;
            }
        }
        hands
    }

    fn piece(&self, key: &str) -> Option<&'a Piece> {
        self.order.draft.pieces.iter().find(|p| p.key == key)
    }

    /// The drawing in a sentence, or why there is none.
    fn drawing(&self, step: &Step, hands: &[HandView]) -> String {
        let teller = self.teller;
        if hands.is_empty() {
            let key = match step.id.as_str() {
                "prove" | "prove_iron" => "sew-bare-scraps",
                "wash" => "sew-bare-cloth",
                "check_paper" => "sew-bare-paper",
                "lay_out" => "sew-bare-lay",
                "ring" => "sew-bare-elastic",
                _ => "sew-bare-suit",
            };
            return teller.own(key, &[]);
        }
        let names: Vec<&String> = hands.iter().map(|h| &h.name).collect();
        let pieces = ("pieces", teller.words().list(&names).into());
        for (key, of) in [
            ("sew-drawing-sewn", (|h| &h.sewn) as fn(&HandView) -> &Vec<String>),
            ("sew-drawing-handled", |h| &h.handled),
        ] {
            let mut edges: Vec<String> = Vec::new();
            for name in hands.iter().flat_map(of) {
                let name = name.replace('_', " ");
                if !edges.contains(&name) {
                    edges.push(name);
                }
            }
            if edges.is_empty() {
                continue;
            }
            let is_more = edges.len() > NAMED_EDGES;
            edges.truncate(NAMED_EDGES);
            let said = if is_more {
                teller.own("sew-edges-more", &[("edges", edges.join(", ").into())])
            } else {
                teller.words().list(&edges)
            };
            return teller.own(key, &[pieces, ("edges", said.into())]);
        }
        teller.own("sew-drawing-plain", &[pieces])
    }

    /// What only this suit's papers know of a step: which cloth is washed, what a piece is cut from and marked with.
    fn more(&self, step: &Step) -> Vec<String> {
        if step.id == "wash" {
            return self.washing();
        }
        let cut = step.id.strip_prefix("cut.").and_then(|key| self.piece(key));
        cut.map_or_else(Vec::new, |piece| self.marking(piece))
    }

    fn washing(&self) -> Vec<String> {
        let (mut washed, mut shrinks, mut unknown) = (Vec::new(), Vec::new(), Vec::new());
        for layer in [Layer::Shell, Layer::Lining, Layer::Mesh, Layer::Contrast] {
            let (Some(plan), Some(paper)) = (plan_of(self.order, layer), paper_of(self.worked, layer)) else {
                continue;
            };
            let is_washed = paper.body.get("washed").and_then(Json::as_bool) == Some(true);
            let is_known = paper.body.get("shrinkage").is_some_and(|s| !s.is_null());
            let group = match (is_washed, is_known) {
                (true, _) => &mut washed,
                (false, true) => &mut shrinks,
                (false, false) => &mut unknown,
            };
            if !group.contains(&plan.cloth) {
                group.push(plan.cloth.clone());
            }
        }
        [
            ("sew-washed", washed),
            ("sew-shrinks", shrinks),
            ("sew-shrinkage-unknown", unknown),
        ]
        .into_iter()
        .filter(|(_, cloths)| !cloths.is_empty())
        .map(|(key, cloths)| {
            let cloths = self.teller.words().list(&cloths);
            self.teller.own(key, &[("cloths", cloths.into())])
        })
        .collect()
    }

    /// What to transfer to the cut piece.
    fn marking(&self, piece: &Piece) -> Vec<String> {
        let mut points: Vec<String> = Vec::new();
        let mut letters: Vec<String> = Vec::new();
        for mark in &piece.marks {
            match mark {
                Mark::Cross { text, .. } | Mark::Placement { text, .. } => points.push(text.clone()),
                Mark::ArcEnd { letter, .. } => letters.push(letter.to_string()),
                Mark::LevelLine { .. } => {}
            }
        }
        for list in [&mut points, &mut letters] {
            list.sort();
            list.dedup();
        }
        let mut says = Vec::new();
        if !letters.is_empty() {
            let letters = self.teller.words().list(&letters);
            says.push(
                self.teller
                    .own("sew-mark-letters", &[("letters", letters.into())]),
            );
        }
        if !points.is_empty() {
            says.push(
                self.teller
                    .own("sew-mark-points", &[("points", points.join("; ").into())]),
            );
        }
        says
    }

    fn setting(&self, key: &str, value: Quantity, note: String) -> SettingView {
        SettingView {
            name: self.teller.own(key, &[]),
            value,
            note,
        }
    }

    /// Settings and measures, the most needed first.
    fn settings(&self, step: &Step, choice: Option<&StitchChoice>) -> Vec<SettingView> {
        let mut all = Vec::new();
        if let Some(choice) = choice {
            let setting = &choice.setting;
            all.push(SettingView {
                name: told::capital(&self.teller.word(setting.stitch.key())),
                value: size_of(setting, self.teller),
                note: rows_of(setting, self.teller),
            });
            let needle = in_words(setting.needle.size_nm.to_string());
            let point = needle_words(setting, &self.planned.workroom, self.teller).join(", ");
            all.push(self.setting("sew-set-needle", needle, point));
        }
        all.extend(self.elastic(step));
        if let Some(piece) = step.id.strip_prefix("cut.").and_then(|key| self.piece(key)) {
            all.extend(self.cuts(piece));
        }
        if let Some((least, most)) = step.allowance {
            all.push(self.setting("sew-set-allowance", self.range(least, most), String::new()));
        }
        if let Some(choice) = choice {
            all.push(self.setting(
                "sew-set-thread",
                in_words(thread_of(&choice.setting, self.teller)),
                String::new(),
            ));
            all.push(
                self.setting(
                    "sew-set-tension",
                    in_words(self.teller.word(choice.setting.tension)),
                    choice
                        .setting
                        .also
                        .iter()
                        .map(|k| self.teller.word(k))
                        .collect::<Vec<_>>()
                        .join(" "),
                ),
            );
            // The basting of a try-on and a tack are no lengths anybody measures.
            if !matches!(choice.job, Job::Baste | Job::BarTack | Job::ElasticRing) && step.length > Mm::ZERO {
                let unit = self.teller.unit();
                let runs = self.teller.own("sew-runs", &[("count", step.runs.into())]);
                all.push(self.setting("sew-set-seam", length(step.length, unit), runs));
            }
        }
        if step.id == "inspect" {
            all.extend(self.finished());
        }
        all
    }

    /// The elastic of a step: what is cut of it, its lap, its marks.
    fn elastic(&self, step: &Step) -> Vec<SettingView> {
        let unit = self.teller.unit();
        let edges = &self.making.edges;
        let cut = |at: usize, e: &EdgeElastic| {
            length(e.plan.cut_length, unit).why(format!("elastic.cut.{}", edge_key(edges, at)))
        };
        if step.id == "ring" {
            let rings = edges
                .iter()
                .enumerate()
                .filter(|(_, e)| e.plan.overlap > Mm::ZERO);
            return rings
                .map(|(at, e)| SettingView {
                    name: super::edges::edge_name(&e.plan),
                    value: cut(at, e),
                    note: self.teller.say(&e.join),
                })
                .collect();
        }
        if !step.id.starts_with("elastic.") {
            return Vec::new();
        }
        let mut all = Vec::new();
        for at in &step.edges {
            let Some(e) = edges.get(*at) else { continue };
            let key = if e.plan.count > 1 {
                "sew-set-cut-each"
            } else {
                "sew-set-cut"
            };
            let kind = format!(
                "{}, {}",
                self.teller.named(&e.plan.kind),
                small_length(e.plan.width, unit).text()
            );
            all.push(self.setting(key, cut(*at, e), kind));
            let letters: Vec<String> = (0..e.plan.arcs.len()).map(|i| e.plan.mark(i)).collect();
            all.push(self.setting("sew-set-marks", in_words(letters.join(", ")), String::new()));
        }
        // The ruler shows the marks: they come after what is set on the machine.
        let (marks, cuts): (Vec<_>, Vec<_>) = all.into_iter().partition(|s| s.value.unit.is_empty());
        cuts.into_iter().chain(marks).collect()
    }

    /// From what a piece is cut, and how often.
    fn cuts(&self, piece: &Piece) -> Vec<SettingView> {
        let cuts = piece.cuts.iter().map(|cut| {
            let cloth = plan_of(self.order, cut.layer).map_or(cut.layer.name(), |p| p.cloth.as_str());
            let key = if cut.mirrored {
                "sew-cut-pair"
            } else {
                "sew-cut-from"
            };
            let args = [("count", cut.count.to_string().into()), ("cloth", cloth.into())];
            self.setting(
                "sew-set-count",
                in_words(self.teller.own(key, &args)),
                String::new(),
            )
        });
        cuts.collect()
    }

    /// Measures of the finished suit to look it over by.
    fn finished(&self) -> Vec<SettingView> {
        let unit = self.teller.unit();
        let measures = self.order.draft.finished.iter().take(4);
        measures
            .map(|f| SettingView {
                name: told::capital(&f.name),
                value: length(Mm::new(f.value_mm), unit).why(format!("finished.{}", f.name)),
                note: String::new(),
            })
            .collect()
    }

    fn range(&self, least: Mm, most: Mm) -> Quantity {
        let (low, high) = (
            small_length(least, self.teller.unit()),
            small_length(most, self.teller.unit()),
        );
        if low.main == high.main {
            return high;
        }
        let join = |a: &str, b: &str| {
            if b.is_empty() {
                String::new()
            } else {
                format!("{a}–{b}")
            }
        };
        Quantity {
            main: join(&low.main, &high.main),
            second: String::new(),
            spoken: format!("{} – {}", low.spoken, high.spoken),
            ..high
        }
    }

    fn stop(&self, choice: &StitchChoice) -> Vec<String> {
        if choice.is_safe {
            return Vec::new();
        }
        let mut says = vec![self.teller.own("stitch-not-safe", &[])];
        says.extend(choice.could.iter().map(|c| self.teller.say(c)));
        says
    }

    fn cautions(&self, step: &'a Step, told: &mut Vec<&'a str>) -> Vec<String> {
        let applies = |id: &str| {
            self.order.cautions.iter().any(|c| c.id == id) || !matches!(id, "latex" | "kids_parts")
        };
        let mut says = Vec::new();
        for id in &step.cautions {
            if applies(id) && !told.contains(id) {
                told.push(id);
                says.push(self.teller.own(&format!("caution-{}", id.replace('_', "-")), &[]));
            }
        }
        says
    }
}

/// A value that is words.
fn in_words(words: String) -> Quantity {
    Quantity {
        spoken: words.clone(),
        main: words,
        ..Quantity::default()
    }
}
