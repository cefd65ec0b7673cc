//! What there is to do for this very suit, in an order that can be sewn.
//!
//! Washing and cutting, proving stitch and elastic, joining the shell, the lining likewise, both laid together and tried
//! on, then elastic edge by edge, turning, and the last look. Ids go by role, so that a tick stays when a length changes.
//!
//! **Source.** Order of operations: common practice, no single source: tests and washing before cutting; crotch before
//! sides; sides before the leg elastic; legs before the waist; a basted try-on before any elastic; topstitching last.
//! **Limits.** No stitch is named: it is proved on a scrap of this cloth.

use cloth::Layer;
use draft::{Cups, EdgeUse, LiningCover, Mark, OpeningKind, Piece, SeamWalk};
use make::ElasticPlan;
use serde_json::Value as Json;
use units::Mm;

use super::{FLAT, SettingView, StepView, cut_words, join_words};
use crate::cautions::caution_of;
use crate::document::Worked;
use crate::order::Order;
use crate::view::lay::{paper_of, plan_of};
use crate::view::{Quantity, length, percent, small_length, told};

/// The steps, with her ticks.
pub(super) fn steps(worked: &Worked, order: &Order) -> Vec<StepView> {
    let mut list = List {
        worked,
        order,
        steps: Vec::new(),
    };
    list.wash();
    list.cut();
    list.prove();
    list.shell();
    list.lining();
    list.try_on_basted();
    list.elastic();
    list.finish();
    for step in &mut list.steps {
        step.done = is_ticked(&worked.suit.body, &step.id);
    }
    list.steps
}

/// Whether she ticked it: `sewn` holds it by its id, or by the parts of its id.
fn is_ticked(suit: &Json, id: &str) -> bool {
    let Some(sewn) = suit.get("sewn") else {
        return false;
    };
    let nested = id.split('.').try_fold(sewn, |at, key| at.get(key));
    nested.or_else(|| sewn.get(id)).and_then(Json::as_bool) == Some(true)
}

/// The greatest worn stretch of the suit around the body, and the greatest an edge takes to let the body pass; ratios.
pub(in crate::view) fn stretches(worked: &Worked, order: &Order) -> (f64, f64) {
    let worn = order
        .draft
        .levels
        .iter()
        .filter(|l| l.pattern_mm > 0.0)
        .map(|l| l.body_mm / l.pattern_mm - 1.0)
        .fold(0.0, f64::max);
    let is_brief = worked
        .file
        .as_ref()
        .is_some_and(|f| !f.design.style.spec().has_trunk_loop);
    let edges = order
        .draft
        .openings
        .iter()
        // The waist of a one-piece is no edge.
        .filter(|o| o.rest_mm > 0.0 && (is_brief || o.kind != OpeningKind::Waist))
        .map(|o| o.passes_mm / o.rest_mm - 1.0)
        .fold(0.0, f64::max);
    (worn, edges)
}

struct List<'a> {
    worked: &'a Worked,
    order: &'a Order,
    steps: Vec<StepView>,
}

impl List<'_> {
    fn step(
        &mut self,
        group: &str,
        id: impl Into<String>,
        title: impl Into<String>,
        says: impl Into<String>,
    ) -> &mut StepView {
        let at = self.steps.len();
        self.steps.push(StepView {
            id: id.into(),
            group: group.to_owned(),
            title: title.into(),
            says: says.into(),
            settings: Vec::new(),
            edge: None,
            pieces: Vec::new(),
            hot: Vec::new(),
            caution: String::new(),
            done: false,
        });
        // Pushed just above.
        &mut self.steps[at]
    }

    fn design(&self) -> Option<&draft::Design> {
        self.worked.file.as_ref().map(|f| &f.design)
    }

    fn wash(&mut self) {
        let (mut washed, mut shrinks, mut unknown) = (Vec::new(), Vec::new(), Vec::new());
        for layer in [Layer::Shell, Layer::Lining, Layer::Mesh] {
            let Some(plan) = plan_of(self.order, layer) else {
                continue;
            };
            let body = paper_of(self.worked, layer).map(|p| &p.body);
            let is_washed = body.and_then(|b| b.get("washed")).and_then(Json::as_bool) == Some(true);
            let is_known = body
                .and_then(|b| b.get("shrinkage"))
                .is_some_and(|s| !s.is_null());
            let group = match (is_washed, is_known) {
                (true, _) => &mut washed,
                (false, true) => &mut shrinks,
                (false, false) => &mut unknown,
            };
            group.push(plan.cloth.clone());
        }
        let mut says = Vec::new();
        if !washed.is_empty() {
            says.push(format!(
                "Wash {} as the suit will be washed, dry flat and let lie for a day; soak the elastic too.",
                told::list(&washed)
            ));
        }
        if !shrinks.is_empty() {
            says.push(format!(
                "Cut {} unwashed: the pattern allows for the shrinkage you wrote down.",
                told::list(&shrinks)
            ));
        }
        if !unknown.is_empty() {
            says.push(format!(
                "Of {} no shrinkage is written down. Wash a measured scrap first; if it shrinks, wash the cloth and say so.",
                told::list(&unknown)
            ));
        }
        let title = if washed.is_empty() {
            "Ready the cloth"
        } else {
            "Wash the cloth"
        };
        self.step("cut", "wash", title, says.join(" "));
    }

    fn cut(&mut self) {
        let order = self.order;
        for (i, piece) in order.draft.pieces.iter().enumerate() {
            let from: Vec<String> = piece
                .cuts
                .iter()
                .map(|cut| {
                    let name = plan_of(order, cut.layer).map_or(cut.layer.name(), |p| p.cloth.as_str());
                    let pair = if cut.mirrored { ", a left and a right" } else { "" };
                    format!("{} of {name}{pair}", cut.count)
                })
                .collect();
            let title = format!("Cut {}: {}", piece.name, told::list(&from));
            let says = marking(piece);
            let step = self.step("cut", format!("cut.{}", piece.key), title, says);
            step.pieces = vec![piece.key.clone()];
            if i == 0 {
                step.caution = caution("blade");
            }
        }
    }

    fn prove(&mut self) {
        let (worn, edges) = stretches(self.worked, self.order);
        let layers = if self.has_full_lining() {
            "both layers"
        } else {
            "the cloth"
        };
        let elastic = self.worked.file.as_ref().map(|f| f.elastic);
        let says = format!(
            "Sew on a scrap of {layers} with a stitch that stretches, elastic on its edge. Pull it as far as below: nothing may \
             pop, and it must go back. Try the iron on the same scrap."
        );
        let step = self.step("join", "prove", "Prove stitch, elastic and iron on a scrap", says);
        step.settings = vec![
            setting("Suit is worn stretched", percent(worn).why("sew.worn")),
            setting("Edges open by", percent(edges).why("sew.edges")),
        ];
        if let Some(elastic) = elastic {
            let pull = percent(elastic.working_extension().ratio()).why("sew.working_extension");
            step.settings.push(setting("Elastic works to", pull));
        }
        step.caution = caution("heat");
    }

    fn shell(&mut self) {
        self.darts(false);
        self.princess(false);
        if self.lining_cover() == Some(LiningCover::Front) {
            self.front_lining();
        }
        self.crotch(false);
        if self.piece("crotch_lining").is_some() {
            let says = "Lay it over the crotch seam inside, soft side to the skin, its dotted line on the seam. Baste its sides to the \
                        leg edges. Neaten the ends and leave them free.";
            let step = self.step("join", "join.crotch_lining", "Crotch lining", says);
            step.pieces = vec!["crotch_lining".into()];
            step.hot = vec!["leg".into()];
        }
        self.sides(false);
        self.skirt();
        self.shoulders(false);
        if self.piece("strap").is_some() {
            let says = "Fold each strap lengthwise, right sides together. Sew the long edge, turn, and let the seam lie in the middle of \
                        the under side. The ends stay open.";
            let step = self.step("join", "join.strap", "Strap tubes, two", says);
            step.pieces = vec!["strap".into()];
            step.hot = vec!["long_left".into(), "long_right".into()];
        }
    }

    fn lining(&mut self) {
        if self.has_full_lining() {
            self.darts(true);
            self.princess(true);
            self.cups();
            self.crotch(true);
            self.sides(true);
            self.shoulders(true);
            let edges: Vec<String> = self.order.elastic.iter().map(|e| e.edge.to_owned()).collect();
            let says = format!(
                "Put the lining into the shell, wrong sides together, seams on seams. Baste them as one at {}. The lining must not \
                 stand out.",
                told::list(&edges)
            );
            self.step("join", "join.together", "Shell and lining together", says);
        } else if self.lining_cover() != Some(LiningCover::Front) {
            self.cups();
        }
    }

    fn try_on_basted(&mut self) {
        let says = "Baste what is not sewn, by hand or with the longest stitch. Sit, reach and bend in it. Here a correction is \
                    cheap; after the elastic it is not.";
        self.step("join", "try_on.basted", "Try it on, basted", says)
            .caution = caution("pressure");
    }

    fn elastic(&mut self) {
        let unit = self.worked.unit();
        let order = self.order;
        let latex = order
            .cautions
            .iter()
            .find(|c| c.id == "latex")
            .map(|c| c.say.clone());
        for (i, plan) in in_sewing_order(&order.elastic).into_iter().enumerate() {
            let says = format!(
                "{} {} Wrong side, edge to edge, mark on mark: {}.",
                cut_words(plan, unit),
                join_words(plan),
                eases(plan)
            );
            let title = told::capital(&format!("{} elastic{}", plan.edge, sides(plan)));
            let step = self.step("elastic", format!("elastic.{}", plan.edge), title, says);
            step.edge = Some(plan.edge.to_owned());
            let cut = length(plan.cut_length, unit).why(format!("elastic.cut.{}", plan.edge));
            step.settings.push(setting("Cut", cut));
            if plan.overlap > Mm::ZERO {
                let overlap = small_length(plan.overlap, unit).why(format!("elastic.overlap.{}", plan.edge));
                step.settings.push(setting("Overlap", overlap));
            }
            step.settings
                .push(setting("Width", small_length(plan.width, unit)));
            step.settings.push(setting("Marks", marks(plan)));
            step.pieces = pieces_with(order, plan.edge);
            step.hot = hot_edges(order, plan.edge);
            if i == 0 {
                step.caution = latex.clone().unwrap_or_default();
            }
        }
    }

    fn finish(&mut self) {
        let order = self.order;
        for plan in in_sewing_order(&order.elastic) {
            let title = format!("Turn and topstitch {}", edges_in_words(plan));
            let says = "Turn the elastic once to the inside. Topstitch from the right side, with a stitch that stretches as far as \
                        the edge; pull the edge as it opens while you sew, no further.";
            let step = self.step("finish", format!("turn.{}", plan.edge), title, says);
            step.edge = Some(plan.edge.to_owned());
            step.pieces = pieces_with(order, plan.edge);
            step.hot = hot_edges(order, plan.edge);
        }
        if self.piece("strap").is_some() {
            let says = "Baste the straps at their marks, front to front edge, crossed to the other side of the back. Try on, reach, trim \
                        to length, then sew each end twice.";
            let step = self.step("finish", "straps", "Cross the straps", says);
            step.pieces = vec!["strap".into(), "back".into()];
            step.hot = vec!["end_back".into(), "end_front".into()];
        }
        self.step(
            "finish",
            "rinse",
            "Fasten threads and rinse",
            "Fasten every thread end, take the basting out. Rinse in cool water and dry flat, out of the sun.",
        );
        let unit = self.worked.unit();
        let measures: Vec<SettingView> = order
            .draft
            .finished
            .iter()
            .take(4)
            .map(|f| {
                let value = length(Mm::new(f.value_mm), unit).why(format!("finished.{}", f.name));
                setting(&told::capital(&f.name), value)
            })
            .collect();
        let says = "Lay it flat and measure. Pull every seam by hand as far as it is worn: no stitch may pop or be skipped. Look at \
                    the crotch and pull the straps.";
        self.step("finish", "inspect", "Look it over and measure", says)
            .settings = measures;
        self.step(
            "finish",
            "try_on.finished",
            "Try it on, dry and then wet",
            "Dry first: sit, reach, bend. Then wet, in daylight: look whether it shows, and where the edges sit.",
        )
        .caution = caution("float");
    }

    fn darts(&mut self, of_lining: bool) {
        let of = |p: &&Piece| {
            p.key.ends_with("_lining") == of_lining && p.edges.iter().any(|e| e.role == EdgeUse::Dart)
        };
        let keys: Vec<String> = self
            .order
            .draft
            .pieces
            .iter()
            .filter(of)
            .map(|p| p.key.clone())
            .collect();
        if keys.is_empty() {
            return;
        }
        let says = "Fold each dart leg on leg, from the side to the point. Run the stitches off at the point and knot them; fold the dart \
                    down.";
        let step = self.step(
            "join",
            role("dart", of_lining),
            layered("Side darts", of_lining),
            says,
        );
        step.pieces = keys;
        step.hot = vec!["dart_low".into(), "dart_up".into()];
    }

    fn princess(&mut self, of_lining: bool) {
        let walks: Vec<&SeamWalk> = self
            .order
            .draft
            .seams
            .iter()
            .filter(|s| s.name.starts_with("princess"))
            .collect();
        let Some(first) = walks.first() else { return };
        let keys = vec![
            layer_key(&first.first.0, of_lining),
            layer_key(&first.second.0, of_lining),
        ];
        if !keys.iter().all(|k| self.piece(k).is_some()) {
            return;
        }
        let hot = walks
            .iter()
            .flat_map(|w| w.first.1.iter().map(|e| (*e).to_owned()))
            .collect();
        let says = "Pin the notches of waist and bust first, then sew from the leg to the bust and on to the armhole.";
        let step = self.step(
            "join",
            role("princess", of_lining),
            layered("Princess seams, left and right", of_lining),
            says,
        );
        step.pieces = keys;
        step.hot = hot;
    }

    fn crotch(&mut self, of_lining: bool) {
        let says = "Right sides together, front to back, leg edge to leg edge. Keep the seam narrow: it lies under the crotch.";
        self.seam("crotch", "Crotch seam", says, of_lining);
    }

    fn sides(&mut self, of_lining: bool) {
        let walk = self.order.draft.seams.iter().find(|s| s.name == "side");
        let ease = walk
            .filter(|w| w.sewn_ease_mm > 0.05)
            .map_or_else(String::new, |w| {
                format!(
                    " Ease the {} the front is longer into the bust.",
                    small_length(Mm::new(w.sewn_ease_mm), self.worked.unit()).text()
                )
            });
        let says =
            format!("Right sides together, notch on notch, from the leg up.{ease} Pull neither layer.");
        self.seam("side", "Side seams, left and right", &says, of_lining);
    }

    fn shoulders(&mut self, of_lining: bool) {
        let says = "Right sides together. Stay the seam with a strip of straight elastic or clear tape, so that the straps do not grow.";
        self.seam("shoulder", "Shoulder seams, left and right", says, of_lining);
    }

    /// A seam the draft walked, in shell or lining; no step where the suit or the layer has none.
    fn seam(&mut self, name: &'static str, title: &str, says: &str, of_lining: bool) {
        let Some(walk) = self.order.draft.seams.iter().find(|s| s.name == name) else {
            return;
        };
        let keys = vec![
            layer_key(&walk.first.0, of_lining),
            layer_key(&walk.second.0, of_lining),
        ];
        if !keys.iter().all(|k| self.piece(k).is_some()) {
            return;
        }
        let mut hot: Vec<String> = walk
            .first
            .1
            .iter()
            .chain(&walk.second.1)
            .map(|e| (*e).to_owned())
            .collect();
        hot.dedup();
        let (first_mm, unit) = (walk.first_mm, self.worked.unit());
        let step = self.step("join", role(name, of_lining), layered(title, of_lining), says);
        step.pieces = keys;
        step.hot = hot;
        let seam = length(Mm::new(first_mm), unit).why(format!("seam.{}", walk.name));
        step.settings = vec![setting("Seam", seam)];
    }

    fn front_lining(&mut self) {
        self.darts(true);
        self.princess(true);
        self.cups();
        let keys: Vec<String> = self
            .order
            .draft
            .pieces
            .iter()
            .filter(|p| p.key.ends_with("front_lining"))
            .map(|p| p.key.clone())
            .collect();
        let says = "Lay the front lining on the wrong side of the front, edges together. Baste them as one all round; from here they are \
                    one piece.";
        self.step("join", "join.together", "Front and its lining together", says)
            .pieces = keys;
    }

    fn cups(&mut self) {
        let cups = self.design().map_or(Cups::None, |d| d.cups);
        let says = match cups {
            Cups::None => return,
            Cups::Marks => {
                "Sew the cups to the lining, never to the shell, centred on the bust points at their marks."
            }
            Cups::Pocket => {
                "Hem the opening of each pocket. Sew the pockets to the wrong side of the lining round the bust points; leave the opening \
                 free."
            }
        };
        let keys = self.order.draft.pieces.iter().filter(|p| p.key.contains("cup"));
        let keys = keys.map(|p| p.key.clone()).collect();
        self.step("join", "join.cups", "Cups, left and right", says)
            .pieces = keys;
    }

    fn skirt(&mut self) {
        if !self.order.draft.seams.iter().any(|s| s.name == "skirt join") {
            return;
        }
        let keys: Vec<String> = self
            .order
            .draft
            .pieces
            .iter()
            .filter(|p| p.key.starts_with("skirt"))
            .map(|p| p.key.clone())
            .collect();
        let step = self.step(
            "join",
            "join.skirt_side",
            "Skirt sides and hem",
            "Sew the skirt's sides, right sides together. Turn the hem once and sew it with a stitch that stretches.",
        );
        step.pieces.clone_from(&keys);
        step.hot = vec!["side".into(), "hem".into()];
        let step = self.step(
            "join",
            "join.skirt",
            "Skirt to the suit",
            "Baste the skirt on the dotted line, sides on side seams, centres on centres. Sew it over flat elastic, one to one, which stays \
             the seam.",
        );
        step.pieces = keys;
        step.hot = vec!["top".into()];
    }

    fn piece(&self, key: &str) -> Option<&Piece> {
        self.order.draft.pieces.iter().find(|p| p.key == key)
    }

    fn lining_cover(&self) -> Option<LiningCover> {
        self.design().map(|d| d.lining)
    }

    fn has_full_lining(&self) -> bool {
        self.lining_cover() == Some(LiningCover::Full)
    }
}

fn setting(name: &str, value: Quantity) -> SettingView {
    SettingView {
        name: name.to_owned(),
        value,
    }
}

fn caution(id: &'static str) -> String {
    caution_of(id).map(|c| c.say).unwrap_or_default()
}

fn role(name: &str, of_lining: bool) -> String {
    if of_lining {
        format!("join.lining_{name}")
    } else {
        format!("join.{name}")
    }
}

fn layered(title: &str, of_lining: bool) -> String {
    if of_lining {
        format!("{title}, lining")
    } else {
        title.to_owned()
    }
}

fn layer_key(key: &str, of_lining: bool) -> String {
    if of_lining {
        format!("{key}_lining")
    } else {
        key.to_owned()
    }
}

/// What to transfer to the cut piece.
fn marking(piece: &Piece) -> String {
    let mut words: Vec<String> = Vec::new();
    let mut letters: Vec<char> = Vec::new();
    for mark in &piece.marks {
        match mark {
            Mark::Cross { text, .. } | Mark::Placement { text, .. } => {
                if !words.contains(text) {
                    words.push(text.clone());
                }
            }
            Mark::ArcEnd { letter, .. } => letters.push(*letter),
            Mark::LevelLine { .. } => {}
        }
    }
    let mut says = vec![match piece.notches.len() {
        0 => "No notches.".to_owned(),
        _ => "Snip the notches, half the allowance deep at most.".to_owned(),
    }];
    if !letters.is_empty() {
        letters.sort_unstable();
        letters.dedup();
        let letters: Vec<String> = letters.iter().map(char::to_string).collect();
        says.push(format!("Mark {} for the elastic.", told::list(&letters)));
    }
    if !words.is_empty() {
        says.push(format!("Mark: {}.", words.join("; ")));
    }
    says.push("Chalk the wrong side.".to_owned());
    says.join(" ")
}

/// Legs, then the waist, then what lies higher.
fn in_sewing_order(plans: &[ElasticPlan]) -> Vec<&ElasticPlan> {
    let rank = |edge: &str| match edge {
        "leg" => 0,
        "waist" => 1,
        "neckline" => 2,
        _ => 3,
    };
    let mut sorted: Vec<&ElasticPlan> = plans.iter().collect();
    sorted.sort_by_key(|p| rank(p.edge));
    sorted
}

fn sides(plan: &ElasticPlan) -> &'static str {
    if plan.count == 2 { ", left and right" } else { "" }
}

fn edges_in_words(plan: &ElasticPlan) -> String {
    match (plan.edge, plan.count) {
        ("leg", 2) => "the legs".to_owned(),
        ("armhole", 2) => "the armholes".to_owned(),
        ("armhole", 1) => "armholes and back".to_owned(),
        (edge, _) => format!("the {edge}"),
    }
}

/// `d, a, b, c`.
fn marks(plan: &ElasticPlan) -> Quantity {
    let letters: Vec<String> = (0..plan.arcs.len()).map(|i| plan.mark(i)).collect();
    let main = letters.join(", ");
    Quantity {
        spoken: main.clone(),
        main,
        ..Quantity::default()
    }
}

/// `flat at crotch and front, eased at side and back`.
fn eases(plan: &ElasticPlan) -> String {
    let of = |is_flat: bool| {
        let mut names: Vec<String> = Vec::new();
        for arc in plan.arcs.iter().filter(|a| (a.ratio >= FLAT) == is_flat) {
            let name = arc.name.to_owned();
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names
    };
    let (flat, eased) = (of(true), of(false));
    let mut words = Vec::new();
    if !flat.is_empty() {
        words.push(format!("flat at {}", told::list(&flat)));
    }
    if !eased.is_empty() {
        words.push(format!("eased at {}", told::list(&eased)));
    }
    words.join(", ")
}

fn is_of(edge: &draft::PieceEdge, kind: &str) -> bool {
    matches!(edge.role, EdgeUse::Open(open) if open.name() == kind)
}

/// The shell's pieces with an open edge of that kind.
fn pieces_with(order: &Order, kind: &str) -> Vec<String> {
    let pieces = order.draft.pieces.iter();
    pieces
        .filter(|p| p.cuts.iter().any(|c| c.layer == Layer::Shell) && p.edges.iter().any(|e| is_of(e, kind)))
        .map(|p| p.key.clone())
        .collect()
}

fn hot_edges(order: &Order, kind: &str) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for edge in order
        .draft
        .pieces
        .iter()
        .flat_map(|p| &p.edges)
        .filter(|e| is_of(e, kind))
    {
        let name = edge.name.to_owned();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}
