//! What opens and closes the suit, and its hems.

use draft::{Closure, ClosureKind, EdgeUse, Family, Mark, Setting};
use units::Level;

use super::build::{BEFORE_EDGES, Builder, CLOSE, HEM, work};
use super::edges::{EdgeAt, is_outer};
use super::{Gate, Phase, SideUp, Touch, Work};
use crate::job::Job;
use crate::needs::{MOVEMENT, Need, level_stretch};
use crate::say::Say;

impl Builder<'_> {
    pub(super) fn closures(&mut self) {
        let all = |b: &Builder<'_>, part: &str| -> Vec<Touch> {
            let pieces = b.draft.pieces.iter().filter(|p| p.key.contains(part));
            pieces.map(|p| Touch::whole(p.key.as_str())).collect()
        };
        let closure = self.design.closure;
        let has_shield = self.draft.pieces.iter().any(|p| p.key.starts_with("zip_shield"));
        let is = |kind: ClosureKind| closure.is_some_and(|c: Closure| c.kind == kind);
        if is(ClosureKind::Zip) || has_shield {
            let is_front = has_shield || closure.is_some_and(|c| c.place == draft::ClosurePlace::Front);
            let mut touches = all(self, if is_front { "front" } else { "back" });
            touches.extend(all(self, "zip_shield"));
            let length = closure.map_or(180.0, |c| c.length.get());
            let op = self.op("join.zip", "step.zip", Phase::Join, BEFORE_EDGES, Gate::Sew);
            op.touches = touches;
            op.work = work(Job::Zip, 2);
            op.length_mm = 2.0 * length;
            op.runs = 2;
            op.side_up = Some(SideUp::Right);
            op.notes = vec![Say::plain("note.stay_zip")];
        }
        if is(ClosureKind::Clasp) {
            let touches = all(
                self,
                if closure.is_some_and(|c| c.place == draft::ClosurePlace::Front) {
                    "front"
                } else {
                    "back"
                },
            );
            let length = closure.map_or(0.0, |c| c.length.get());
            let op = self.op("join.slit", "step.slit", Phase::Join, BEFORE_EDGES, Gate::Sew);
            op.touches.clone_from(&touches);
            op.work = work(Job::Topstitch, 2);
            op.length_mm = 2.0 * length;
            let op = self.op("close.clasp", "step.clasp", Phase::Finish, CLOSE, Gate::After);
            op.touches = touches;
            op.work = work(Job::BarTack, 3);
            op.length_mm = 16.0;
            op.runs = 2;
        }
        let marks = |b: &Builder<'_>, start: &str| -> Vec<Touch> {
            let has = |p: &draft::Piece| {
                p.marks
                    .iter()
                    .any(|m| matches!(m, Mark::Placement { text, .. } | Mark::Cross { text, .. } if text.starts_with(start)))
            };
            let pieces = b.draft.pieces.iter().filter(|p| has(p));
            pieces.map(|p| Touch::whole(p.key.as_str())).collect()
        };
        if self.is_on("nursing") {
            let touches = marks(self, "nursing");
            let op = self.op("join.nursing", "step.nursing", Phase::Lining, 114, Gate::Sew);
            op.touches = touches;
            op.work = work(Job::Topstitch, 2);
            op.length_mm = 1200.0;
            op.runs = 2;
        }
        if matches!(self.own("stoma"), Some(Setting::Word(w)) if w != "none") {
            let touches = self.lining_fronts();
            let op = self.op("join.stoma", "step.stoma", Phase::Lining, 114, Gate::Sew);
            op.touches = touches;
            op.work = work(Job::Topstitch, 2);
            op.length_mm = 600.0;
            op.runs = 2;
        }
        if self.has_word("bandeau_front", &["gathered"]) {
            let touches = marks(self, "gather");
            let op = self.op("join.gather", "step.gather", Phase::Join, 115, Gate::Sew);
            op.touches = touches;
            op.work = work(Job::Gather, 1);
            op.length_mm = 200.0;
        }
        let has_cord = matches!(self.own("drawcord"), Some(Setting::Word(w)) if w != "none");
        if has_cord {
            let (mut touches, is_child) = (all(self, "front"), self.is_child);
            touches.retain(|t| !t.piece.contains("lining") && !t.piece.contains("mesh"));
            let op = self.op("join.eyelets", "step.eyelets", Phase::Join, 105, Gate::Sew);
            op.touches.clone_from(&touches);
            op.minutes = Some((5.0, 10.0));
            op.notes = vec![Say::plain("note.eyelet_patch")];
            let op = self.op("close.cord", "step.cord", Phase::Finish, CLOSE, Gate::After);
            op.touches = touches;
            op.minutes = Some((5.0, 10.0));
            op.notes = vec![Say::plain("note.cord_tacked")];
            op.cautions = if is_child {
                vec!["kids_cord_waist", "kids_cord_us"]
            } else {
                vec!["entrap"]
            };
        }
        let hooked = self.has_word("back_closure", &["hooked"]);
        if hooked {
            self.hook_facing();
            let touches = [all(self, "back"), all(self, "band")].concat();
            let op = self.op("close.hooks", "step.hooks", Phase::Finish, CLOSE, Gate::After);
            op.touches = touches;
            op.work = work(Job::BarTack, 3);
            op.length_mm = 80.0;
            op.runs = 4;
            op.cautions = vec!["weights"];
        }
        if is(ClosureKind::Hook) || is(ClosureKind::Ring) || self.has_word("neck_strap", &["hooked"]) {
            let touches = all(self, "neck_");
            let op = self.op(
                "close.neck",
                "step.neck_hook",
                Phase::Finish,
                CLOSE + 1,
                Gate::After,
            );
            op.touches = touches;
            op.work = work(Job::BarTack, 3);
            op.length_mm = 32.0;
            op.runs = 4;
            op.cautions = vec!["weights"];
        }
        if self.draft.pieces.iter().any(|p| p.key.starts_with("strap")) {
            let ends = self
                .ledger
                .free(|_, e| e.role == EdgeUse::Seam && e.name.starts_with("shoulder"));
            let ends = self.ledger.claim(ends);
            let mut touches = self.ledger.touches(&ends, &[]);
            for more in [all(self, "strap"), all(self, "back")].concat() {
                if touches.iter().all(|t| t.piece != more.piece) {
                    touches.push(more);
                }
            }
            let op = self.op(
                "straps",
                "step.cross_straps",
                Phase::Finish,
                CLOSE + 2,
                Gate::After,
            );
            op.touches = touches;
            op.work = work(Job::BarTack, 4);
            op.length_mm = 64.0;
            op.runs = 8;
            op.notes = vec![Say::plain("note.straps_by_trial")];
        }
        if self.draft.pieces.iter().any(|p| p.key.starts_with("back_tie")) {
            let touches = all(self, "back_tie");
            let op = self.op(
                "close.tie",
                "step.thread_tie",
                Phase::Finish,
                CLOSE + 3,
                Gate::After,
            );
            op.touches = touches;
            op.minutes = Some((5.0, 10.0));
            op.cautions = vec!["entrap"];
        }
    }

    /// The raw edges at the centre back that carry hooks: faced before an elastic runs over them.
    fn hook_facing(&mut self) {
        let raw = |e: &draft::PieceEdge| e.role == EdgeUse::Raw && !e.name.starts_with("free");
        let draft = self.draft;
        let faced = draft
            .pieces
            .iter()
            .filter(|p| p.key.contains("back") || p.key.contains("band"))
            .filter(|p| !p.key.contains("tie") && p.edges.iter().any(raw));
        let mut length = 0.0;
        let mut touches = Vec::new();
        for piece in faced {
            let edges: Vec<&draft::PieceEdge> = piece.edges.iter().filter(|e| raw(e)).collect();
            length += 2.0 * edges.iter().map(|e| e.curve.length()).sum::<f64>();
            touches.push(Touch {
                piece: piece.key.clone(),
                sewn: Vec::new(),
                handled: edges.iter().map(|e| e.name).collect(),
            });
        }
        if touches.is_empty() {
            return;
        }
        let op = self.op(
            "join.facing",
            "step.hook_facing",
            Phase::Join,
            BEFORE_EDGES,
            Gate::Sew,
        );
        op.touches = touches;
        op.work = work(Job::Topstitch, 2);
        op.length_mm = length;
        op.runs = 2;
        op.side_up = Some(SideUp::Right);
    }

    /// Hems by where they are: skirt, sleeves, lining, body; the ends of straps turned over rings.
    pub(super) fn hems(&mut self) {
        let mut groups: Vec<(&'static str, Vec<EdgeAt>)> = Vec::new();
        for at in self.ledger.free(|_, e| e.role == EdgeUse::Hem) {
            let (Some(piece), Some(edge)) = (self.ledger.piece(at), self.ledger.edge(at)) else {
                continue;
            };
            let place = match (piece.key.as_str(), edge.name) {
                (_, "shoulder") => "ring",
                (key, _) if key.starts_with("skirt") => "skirt",
                (key, _) if key.starts_with("sleeve") => "sleeve",
                (_, "base") => "channel",
                _ if !is_outer(piece) => "lining",
                (_, "slit") => "slit",
                _ => "body",
            };
            match groups.iter_mut().find(|(p, _)| *p == place) {
                Some((_, edges)) => edges.push(at),
                None => groups.push((place, vec![at])),
            }
        }
        for (place, edges) in groups {
            let edges = self.ledger.claim(edges);
            let touches = self.ledger.touches(&edges, &[]);
            let (length, runs) = (self.ledger.length(&edges), self.ledger.runs(&edges) as u32);
            let way_in = |kinds: &[draft::OpeningKind]| {
                let of = self.worn.way_in.iter().filter(|(k, _)| kinds.contains(k));
                of.map(|(_, need)| *need).fold(0.0, f64::max)
            };
            use draft::OpeningKind as Way;
            let (id, key, job, phase, rank, gate, way_in) = match place {
                "ring" => (
                    "close.rings",
                    "step.rings",
                    Job::BarTack,
                    Phase::Finish,
                    CLOSE,
                    Gate::After,
                    0.0,
                ),
                "skirt" => (
                    "join.skirt_hem",
                    "step.skirt_hem",
                    Job::Hem,
                    Phase::Join,
                    105,
                    Gate::Sew,
                    0.0,
                ),
                "sleeve" => (
                    "hem.sleeve",
                    "step.hem_sleeve",
                    Job::Hem,
                    Phase::Finish,
                    HEM,
                    Gate::After,
                    way_in(&[Way::Wrist]),
                ),
                "channel" => (
                    "hem.channel",
                    "step.channel",
                    Job::Casing,
                    Phase::Finish,
                    HEM,
                    Gate::After,
                    0.0,
                ),
                "lining" => (
                    "hem.lining",
                    "step.hem_lining",
                    Job::Neaten,
                    Phase::Lining,
                    140,
                    Gate::Sew,
                    0.0,
                ),
                // Before the hem, whose ends it makes.
                "slit" => (
                    "hem.slit",
                    "step.hem_slit",
                    Job::Hem,
                    Phase::Finish,
                    HEM - 10,
                    Gate::After,
                    0.0,
                ),
                _ => (
                    "hem.body",
                    "step.hem",
                    Job::Hem,
                    Phase::Finish,
                    HEM,
                    Gate::After,
                    way_in(&[Way::Hem, Way::Leg]),
                ),
            };
            let worn = match (place, self.family()) {
                ("body", Family::Trunks) => level_stretch(self.worn, Level::Thigh),
                ("body", _) => level_stretch(self.worn, Level::Hip),
                _ => 0.0,
            };
            let need = (job == Job::Hem || job == Job::Casing).then_some(Need {
                worn,
                way_in,
                movement: MOVEMENT,
                ..Need::default()
            });
            let op = self.op(id, key, phase, rank, gate);
            op.touches = touches;
            op.work = Some(Work { job, need, plies: 2 });
            op.length_mm = length;
            op.runs = runs.max(1);
            op.side_up = Some(SideUp::Right);
            op.press = Some(Say::plain("press.iron"));
        }
    }
}
