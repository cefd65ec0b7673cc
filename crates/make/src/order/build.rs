//! The operations of a suit, from its draft and design.

use cloth::Layer;
use draft::{
    Closure, ClosureKind, Cups, Design, Draft, EdgeUse, Family, LiningCover, Mark, OpenKind, Setting,
};

use super::edges::{EdgeAt, Ledger, Unit, is_outer};
use super::role::Role;
use super::{Gate, Operation, Phase, SideUp, Touch, Work, edge_rank};
use crate::job::Job;
use crate::needs::{MOVEMENT, Need, Needs, WornStretch};
use crate::say::{Arg, Say};

/// Shell and lining laid together.
const TOGETHER: u16 = 300;
/// Before the elastic: eyelets, slits, zips.
const BEFORE_EDGES: u16 = 146;
const ELASTIC: u16 = 500;
const TURN: u16 = 600;
const HEM: u16 = 700;
const CLOSE: u16 = 800;

/// What the operations are made from.
pub(crate) struct Builder<'a> {
    pub(super) draft: &'a Draft,
    pub(super) design: &'a Design,
    pub(super) needs: &'a Needs,
    pub(super) worn: &'a WornStretch,
    pub(super) is_child: bool,
    pub(super) ledger: Ledger<'a>,
    pub(super) ops: Vec<Operation>,
}

/// Every operation of the suit, in no order yet.
pub(crate) fn operations(
    draft: &Draft,
    design: &Design,
    needs: &Needs,
    worn: &WornStretch,
    is_child: bool,
) -> Vec<Operation> {
    let mut b = Builder {
        draft,
        design,
        needs,
        worn,
        is_child,
        ledger: Ledger::new(draft),
        ops: Vec::new(),
    };
    b.before();
    b.cut();
    b.open_edges();
    b.small_parts();
    b.walked_seams();
    b.other_seams();
    b.layers();
    b.closures();
    b.hems();
    b.try_on();
    b.end();
    b.ops
}

impl Builder<'_> {
    pub(super) fn op(
        &mut self,
        id: impl Into<String>,
        key: &'static str,
        phase: Phase,
        rank: u16,
        gate: Gate,
    ) -> &mut Operation {
        let at = self.ops.len();
        self.ops.push(Operation {
            id: id.into(),
            say: Say::plain(key),
            phase,
            rank,
            touches: Vec::new(),
            seams: Vec::new(),
            edges: Vec::new(),
            work: None,
            length_mm: 0.0,
            runs: 1,
            side_up: None,
            press: None,
            cautions: Vec::new(),
            notes: Vec::new(),
            after: Vec::new(),
            minutes: None,
            gate,
        });
        // Pushed just above.
        &mut self.ops[at]
    }

    /// Whether a style's own parameter has that word, or is on.
    fn own(&self, key: &str) -> Option<Setting> {
        let parameter = self.design.style.own(key)?;
        self.design
            .is_heard(parameter)
            .then(|| self.design.own.get(parameter))
    }

    fn has_word(&self, key: &str, words: &[&str]) -> bool {
        matches!(self.own(key), Some(Setting::Word(word)) if words.contains(&word))
    }

    fn is_on(&self, key: &str) -> bool {
        matches!(self.own(key), Some(Setting::Yes(true)))
    }

    fn has_sleeves(&self) -> bool {
        self.draft.pieces.iter().any(|p| p.key == "sleeve")
    }

    fn family(&self) -> Family {
        self.design.style.spec().family
    }

    fn unit(&self, at: EdgeAt) -> Unit {
        self.ledger
            .piece(at)
            .map_or(Unit::Main, |p| Unit::of(self.draft, p))
    }

    fn before(&mut self) {
        let op = self.op("prove", "step.prove", Phase::Prove, 10, Gate::Before);
        op.minutes = Some((20.0, 40.0));
        op.cautions = vec!["sheer", "pressure"];
        let op = self.op("prove_iron", "step.prove_iron", Phase::Prove, 11, Gate::Before);
        op.minutes = Some((5.0, 10.0));
        op.cautions = vec!["heat"];
        let op = self.op("wash", "step.wash", Phase::Prove, 12, Gate::Before);
        op.minutes = Some((10.0, 20.0));
        op.after = vec!["prove".into()];
        let op = self.op("check_paper", "step.check_paper", Phase::Prove, 13, Gate::Before);
        op.minutes = Some((20.0, 60.0));
    }

    fn cut(&mut self) {
        let op = self.op("lay_out", "step.lay_out", Phase::Cut, 20, Gate::Cut);
        op.minutes = Some((15.0, 30.0));
        let pieces: Vec<(String, String, u32)> = self
            .draft
            .pieces
            .iter()
            .map(|p| {
                (
                    p.key.clone(),
                    p.name.clone(),
                    p.cuts.iter().map(|c| c.count).sum(),
                )
            })
            .collect();
        let share = pieces.len().max(1) as f64;
        for (i, (key, name, count)) in pieces.into_iter().enumerate() {
            let op = self.op(format!("cut.{key}"), "step.cut", Phase::Cut, 30, Gate::Cut);
            op.say = Say::plain("step.cut")
                .with("piece", Arg::Name(name))
                .with("count", Arg::Count(count));
            op.touches = vec![Touch {
                piece: key,
                sewn: Vec::new(),
                handled: Vec::new(),
            }];
            op.after = vec!["lay_out".into()];
            // Cutting and labelling together, shared over the pieces: 25 to 60 minutes.
            op.minutes = Some((25.0 / share, 60.0 / share));
            if i == 0 {
                op.cautions = vec!["blade"];
            }
        }
    }

    /// Elastic of every open edge, and turning it. Claimed first: an open edge that also meets its lining is walked as a seam too.
    fn open_edges(&mut self) {
        let mut kinds: Vec<(Unit, OpenKind)> = Vec::new();
        for at in self.ledger.free(|_, e| matches!(e.role, EdgeUse::Open(_))) {
            let Some(EdgeUse::Open(kind)) = self.ledger.edge(at).map(|e| e.role) else {
                continue;
            };
            if !kinds.contains(&(self.unit(at), kind)) {
                kinds.push((self.unit(at), kind));
            }
        }
        let mut with_elastic: Vec<OpenKind> = Vec::new();
        for (unit, kind) in kinds {
            let taken = self.ledger.free(|_, e| e.role == EdgeUse::Open(kind));
            let edges: Vec<EdgeAt> = taken.into_iter().filter(|at| self.unit(*at) == unit).collect();
            let edges = self.ledger.claim(edges);
            let is_planned =
                self.draft.open_edges.iter().any(|e| e.kind == kind) && !with_elastic.contains(&kind);
            with_elastic.push(kind);
            self.elastic(unit, kind, &edges, is_planned);
        }
        // An open edge no piece shows: the elastic lies in the fold of a band.
        let hidden: Vec<usize> = (0..self.draft.open_edges.len())
            .filter(|i| {
                self.draft
                    .open_edges
                    .get(*i)
                    .is_some_and(|e| !with_elastic.contains(&e.kind))
            })
            .collect();
        for at in hidden {
            self.elastic_in_band(at);
        }
        self.rings();
    }

    fn elastic(&mut self, unit: Unit, kind: OpenKind, edges: &[EdgeAt], is_planned: bool) {
        let is_outer = edges
            .iter()
            .any(|at| self.ledger.piece(*at).is_some_and(is_outer));
        let has_inner = edges
            .iter()
            .any(|at| self.ledger.piece(*at).is_some_and(|p| !super::edges::is_outer(p)));
        let planned: Vec<usize> = (0..self.draft.open_edges.len())
            .filter(|i| is_planned && self.draft.open_edges.get(*i).is_some_and(|e| e.kind == kind))
            .collect();
        let need = planned
            .iter()
            .filter_map(|i| self.needs.edges.get(*i))
            .copied()
            .reduce(Need::with)
            .unwrap_or(Need {
                movement: MOVEMENT,
                ..Need::default()
            });
        let length = if planned.is_empty() {
            self.ledger.length(edges)
        } else {
            planned
                .iter()
                .filter_map(|i| self.draft.open_edges.get(*i))
                .map(|e| e.length_mm() * f64::from(e.count))
                .sum()
        };
        let runs: u32 = planned
            .iter()
            .filter_map(|i| self.draft.open_edges.get(*i))
            .map(|e| e.count)
            .sum();
        let name = kind.name();
        let prefix = if is_outer { unit.prefix() } else { "lining_" };
        let prefix = if is_outer && unit == Unit::Brief {
            ""
        } else {
            prefix
        };
        let (phase, rank, gate) = if is_outer {
            (Phase::Elastic, ELASTIC + edge_rank(kind), Gate::After)
        } else {
            // A lining's own free edge: while it is still flat.
            (Phase::Lining, 290, Gate::Sew)
        };
        let is_casing = kind == OpenKind::Waist && self.family() == Family::Trunks && is_outer;
        let touches = self.ledger.touches(edges, &[]);
        let plies = 1 + u8::from(has_inner && is_outer);
        let is_child = self.is_child;
        let op = self.op(
            format!("elastic.{prefix}{name}"),
            elastic_key(kind, is_outer),
            phase,
            rank,
            gate,
        );
        op.touches.clone_from(&touches);
        op.edges.clone_from(&planned);
        op.work = Some(Work {
            job: Job::Anchor,
            need: Some(need),
            plies,
        });
        op.length_mm = length;
        op.runs = runs.max(1);
        op.side_up = Some(SideUp::Wrong);
        op.press = Some(Say::plain("press.never"));
        op.cautions = vec!["latex", "skin"];
        op.notes = elastic_notes(kind);
        let (job, key) = if is_casing {
            (Job::Casing, "step.turn_casing")
        } else {
            (Job::EdgeTopstitch, turn_key(kind))
        };
        let (phase, rank) = if is_outer {
            (Phase::Finish, TURN + edge_rank(kind))
        } else {
            (Phase::Lining, 292)
        };
        let elastic_id = format!("elastic.{prefix}{name}");
        let op = self.op(format!("turn.{prefix}{name}"), key, phase, rank, gate);
        op.touches = touches
            .into_iter()
            .map(|t| Touch {
                piece: t.piece,
                sewn: Vec::new(),
                handled: t.sewn,
            })
            .collect();
        op.edges = planned;
        op.work = Some(Work {
            job,
            need: Some(need),
            plies: 2 * plies,
        });
        op.length_mm = length;
        op.runs = runs.max(1);
        op.side_up = Some(SideUp::Right);
        op.press = Some(Say::plain("press.never"));
        op.after = vec![elastic_id];
        if is_casing && is_child {
            op.cautions = vec!["kids_cord_waist"];
        }
    }

    fn elastic_in_band(&mut self, at: usize) {
        let Some(edge) = self.draft.open_edges.get(at) else {
            return;
        };
        let (name, length, count) = (edge.kind.name(), edge.length_mm(), edge.count);
        let bands: Vec<Touch> = self
            .draft
            .pieces
            .iter()
            .filter(|p| p.key.contains("band") && !p.key.contains("upper"))
            .map(|p| Touch {
                piece: p.key.clone(),
                sewn: Vec::new(),
                handled: p
                    .edges
                    .iter()
                    .filter(|e| e.role == EdgeUse::Seam)
                    .map(|e| e.name)
                    .collect(),
            })
            .collect();
        let need = self.needs.edges.get(at).copied();
        let op = self.op(
            format!("elastic.{name}"),
            "step.elastic_in_band",
            Phase::Join,
            Role::Band.rank(false) - 5,
            Gate::Sew,
        );
        op.touches = bands;
        op.edges = vec![at];
        op.work = Some(Work {
            job: Job::Anchor,
            need,
            plies: 1,
        });
        op.length_mm = length * f64::from(count);
        op.side_up = Some(SideUp::Wrong);
        op.press = Some(Say::plain("press.never"));
        op.cautions = vec!["latex"];
    }

    /// Every elastic that runs round is joined before it is sewn on.
    fn rings(&mut self) {
        let rings: Vec<usize> = (0..self.draft.open_edges.len())
            .filter(|i| self.draft.open_edges.get(*i).is_some_and(|e| e.is_ring))
            .collect();
        if rings.is_empty() {
            return;
        }
        let count: u32 = rings
            .iter()
            .filter_map(|i| self.draft.open_edges.get(*i))
            .map(|e| e.count)
            .sum();
        // Rings of a band or a lining are needed before the try-on, and joining needs nothing: first of all sewing.
        let early = self
            .ops
            .iter()
            .any(|o| o.gate == Gate::Sew && o.edges.iter().any(|e| rings.contains(e)));
        let (gate, rank) = if early {
            (Gate::Sew, 90)
        } else {
            (Gate::After, ELASTIC - 10)
        };
        let ids: Vec<String> = self
            .ops
            .iter()
            .filter(|o| o.id.starts_with("elastic.") && o.edges.iter().any(|e| rings.contains(e)))
            .map(|o| o.id.clone())
            .collect();
        let op = self.op("ring", "step.ring", Phase::Elastic, rank, gate);
        op.say = Say::plain("step.ring").with("count", Arg::Count(count));
        op.work = Some(Work {
            job: Job::ElasticRing,
            need: None,
            plies: 0,
        });
        op.length_mm = 24.0 * f64::from(count);
        op.runs = count;
        op.notes = vec![Say::plain("note.ring_over_scrap")];
        for op in &mut self.ops {
            if ids.contains(&op.id) {
                op.after.push("ring".into());
            }
        }
    }

    /// Straps, ties, bands, skirts' sides: what is sewn by itself before it meets the suit; pockets and channels.
    fn small_parts(&mut self) {
        self.pockets("cup_pocket", "join.cups", "step.cup_pocket", "cups");
        self.pockets(
            "prosthesis_pocket",
            "join.prosthesis",
            "step.prosthesis_pocket",
            "pocket",
        );
        self.pockets("boning_channel", "join.boning", "step.boning", "boning");
        if self.design.cups == Cups::Marks && self.draft.pieces.iter().all(|p| p.key != "cup_pocket") {
            let linings = self.lining_fronts();
            let op = self.op("join.cups", "step.cups", Phase::Lining, 115, Gate::Sew);
            op.touches = linings;
            op.work = Some(Work {
                job: Job::Cups,
                need: None,
                plies: 1,
            });
            op.length_mm = 800.0;
            op.runs = 2;
            op.press = Some(Say::plain("press.never"));
            op.notes = vec![Say::plain("note.cups_to_lining")];
        }
    }

    fn lining_fronts(&self) -> Vec<Touch> {
        let of = |test: &dyn Fn(&draft::Piece) -> bool| -> Vec<Touch> {
            let pieces = self.draft.pieces.iter().filter(|p| test(p));
            pieces
                .map(|p| Touch {
                    piece: p.key.clone(),
                    sewn: Vec::new(),
                    handled: Vec::new(),
                })
                .collect()
        };
        let is_front = |p: &draft::Piece| p.key.contains("front") || p.key == "shelf_bra";
        let linings = of(&|p| !is_outer(p) && is_front(p) && !p.key.contains("mesh"));
        if linings.is_empty() {
            of(&is_front)
        } else {
            linings
        }
    }

    fn pockets(&mut self, piece: &str, id: &str, key: &'static str, note: &str) {
        let edges = self.ledger.free(|p, _| p.key == piece);
        if edges.is_empty() {
            return;
        }
        let edges = self.ledger.claim(edges);
        let mut touches = self.ledger.touches(&edges, &[]);
        touches.extend(self.lining_fronts());
        let (length, runs) = (self.ledger.length(&edges), self.ledger.runs(&edges));
        let op = self.op(id, key, Phase::Lining, 115, Gate::Sew);
        op.touches = touches;
        op.work = Some(Work {
            job: Job::Cups,
            need: None,
            plies: 2,
        });
        op.length_mm = length;
        op.runs = runs as u32;
        op.press = Some(Say::plain("press.never"));
        if note == "cups" {
            op.notes = vec![Say::plain("note.cups_to_lining")];
        }
    }

    /// Every seam the draft walked; seams of one role in one suit are one operation.
    fn walked_seams(&mut self) {
        let mut groups: Vec<(Unit, Role, bool, Vec<usize>)> = Vec::new();
        for (i, seam) in self.draft.seams.iter().enumerate() {
            let keys = [&seam.first.0, &seam.second.0];
            let is_lining = keys
                .iter()
                .all(|k| self.draft.pieces.iter().any(|p| p.key == **k && !is_outer(p)));
            let unit = if keys.iter().any(|k| k.starts_with("brief_")) {
                Unit::Brief
            } else {
                Unit::Main
            };
            let role = Role::of_seam(seam.name);
            match groups
                .iter_mut()
                .find(|(u, r, l, _)| (*u, *r, *l) == (unit, role, is_lining))
            {
                Some((.., seams)) => seams.push(i),
                None => groups.push((unit, role, is_lining, vec![i])),
            }
        }
        for (unit, role, is_lining, seams) in groups {
            let mut edges: Vec<EdgeAt> = Vec::new();
            let mut handled: Vec<EdgeAt> = Vec::new();
            for i in &seams {
                let Some(seam) = self.draft.seams.get(*i) else {
                    continue;
                };
                for (key, names) in [&seam.first, &seam.second] {
                    for at in self.walked(key, names) {
                        let is_open = self
                            .ledger
                            .edge(at)
                            .is_some_and(|e| matches!(e.role, EdgeUse::Open(_)));
                        if is_open {
                            handled.push(at);
                        } else if !edges.contains(&at) {
                            edges.push(at);
                        }
                    }
                }
            }
            let edges = self.ledger.claim(edges);
            let need = seams
                .iter()
                .filter_map(|i| self.needs.seams.get(*i))
                .copied()
                .reduce(Need::with);
            self.seam(unit, role, is_lining, seams, &edges, &handled, need);
        }
    }

    /// The edges a walk names; `front and back` is every outer piece of the suit with such an edge.
    fn walked(&self, key: &str, names: &[&'static str]) -> Vec<EdgeAt> {
        let is_named = |edge: &draft::PieceEdge| {
            // `end, folded` is the edge `end`, folded.
            names
                .iter()
                .any(|n| *n == edge.name || n.split(',').next() == Some(edge.name))
        };
        let is_piece = |p: &draft::Piece| match key.split_once(" and ") {
            None => p.key == key,
            Some((front, back)) => {
                is_outer(p) && (p.key.contains(front) || p.key.contains(back)) && !p.key.contains("band")
            }
        };
        let mut found = Vec::new();
        for (i, piece) in self.draft.pieces.iter().enumerate() {
            if !is_piece(piece) {
                continue;
            }
            for (j, edge) in piece.edges.iter().enumerate() {
                if is_named(edge) && !matches!(edge.role, EdgeUse::Fold | EdgeUse::Raw) {
                    found.push((i, j));
                }
            }
        }
        found
    }

    #[allow(clippy::too_many_arguments, reason = "the parts of one operation")]
    fn seam(
        &mut self,
        unit: Unit,
        role: Role,
        is_lining: bool,
        seams: Vec<usize>,
        sewn: &[EdgeAt],
        handled: &[EdgeAt],
        need: Option<Need>,
    ) {
        let has_sleeves = self.has_sleeves();
        let is_crotch = role == Role::Crotch;
        let mut need = need.unwrap_or(Need {
            movement: MOVEMENT,
            ..Need::default()
        });
        if is_crotch {
            // Its width is set, not reduced, and nothing has to pass it.
            (need.worn, need.way_in) = (0.0, 0.0);
        }
        let lining = if is_lining { "lining_" } else { "" };
        let id = format!("join.{lining}{}{}", unit.prefix(), role.name());
        let keys = role.keys();
        let key = if is_lining { keys.1 } else { keys.0 };
        let mut edges = sewn.to_vec();
        edges.extend(handled);
        let touches = self.ledger.touches(sewn, handled);
        // Two sides make one seam; the walk's first side where the other is no edge.
        let length = if role == Role::SkirtJoin || role == Role::Attach {
            self.ledger.length(&edges)
        } else {
            0.5 * self.ledger.length(&edges)
        };
        let runs = (0.5 * self.ledger.runs(&edges)).round().max(1.0) as u32;
        let ease = seams
            .iter()
            .filter_map(|i| self.draft.seams.get(*i))
            .map(|s| s.sewn_ease_mm)
            .fold(0.0, f64::max);
        let (phase, rank) = if is_lining {
            (Phase::Lining, role.rank(has_sleeves) - 1)
        } else {
            (Phase::Join, role.rank(has_sleeves))
        };
        let op = self.op(id, key, phase, rank, Gate::Sew);
        op.touches = touches;
        op.seams = seams;
        op.work = Some(Work {
            job: role.job(),
            need: Some(need),
            plies: 2,
        });
        op.length_mm = length;
        op.runs = runs;
        op.side_up = Some(SideUp::Wrong);
        op.press = Some(Say::plain("press.finger"));
        if ease > 0.05 {
            op.notes
                .push(Say::plain("note.ease").with("ease", Arg::Length(units::Mm::new(ease))));
        }
        match role {
            Role::Shoulder if !is_lining => op.notes.push(Say::plain("note.stay_shoulder")),
            Role::SkirtJoin => op.notes.push(Say::plain("note.stay_skirt")),
            Role::Tube => op.cautions.push("entrap"),
            _ => {}
        }
    }

    /// Seam edges no walk names: linings, bands, tubes. A lining edge that meets another is a seam of its own; one that meets
    /// none is caught in the shell's.
    fn other_seams(&mut self) {
        let mut groups: Vec<(Unit, Role, bool, Vec<EdgeAt>)> = Vec::new();
        for at in self
            .ledger
            .free(|_, e| matches!(e.role, EdgeUse::Seam | EdgeUse::Dart))
        {
            let (Some(piece), Some(edge)) = (self.ledger.piece(at), self.ledger.edge(at)) else {
                continue;
            };
            let role = Role::of_edge(&piece.key, edge.name);
            let is_inner = !is_outer(piece);
            let unit = self.unit(at);
            match groups
                .iter_mut()
                .find(|(u, r, l, _)| (*u, *r, *l) == (unit, role, is_inner))
            {
                Some((.., edges)) => edges.push(at),
                None => groups.push((unit, role, is_inner, vec![at])),
            }
        }
        for (unit, role, is_inner, edges) in groups {
            let edges = self.ledger.claim(edges);
            if is_inner {
                // Power mesh lies on the lining, or on the shell, and is sewn with it; only trunks have a liner of mesh.
                let is_loose = |at: &EdgeAt| {
                    self.ledger.piece(*at).is_some_and(|p| {
                        let is_mesh = p.cuts.iter().all(|c| c.layer == Layer::Mesh);
                        !is_mesh || p.edges.iter().any(|e| e.name == "liner_side")
                    })
                };
                let (own, laid): (Vec<EdgeAt>, Vec<EdgeAt>) = edges.into_iter().partition(is_loose);
                let (own, mut caught) = if self.meets_itself(role, &own) {
                    (own, laid)
                } else {
                    (Vec::new(), [own, laid].concat())
                };
                if !own.is_empty() {
                    let need = self.same_need(unit, role);
                    match self.find(unit, role, true) {
                        Some(i) => self.add(i, &own),
                        None => self.seam(unit, role, true, Vec::new(), &own, &[], need),
                    }
                }
                if let Some(i) = self
                    .find(unit, role, true)
                    .or_else(|| self.find(unit, role, false))
                {
                    self.add(i, &caught);
                    caught.clear();
                }
                // A waist edge of a lining ends in the waist; a seam nobody else sews is sewn by itself.
                if !caught.is_empty() {
                    let waist = self.ops.iter().position(|o| o.id == "elastic.waist");
                    match waist.filter(|_| role == Role::Band) {
                        Some(i) => self.add(i, &caught),
                        None => {
                            let need = self.same_need(unit, role);
                            self.seam(unit, role, true, Vec::new(), &caught, &[], need);
                        }
                    }
                }
            } else {
                let need = self.same_need(unit, role);
                match self.find(unit, role, false) {
                    Some(i) => self.add(i, &edges),
                    None => self.seam(unit, role, false, Vec::new(), &edges, &[], need),
                }
            }
        }
    }

    /// Whether edges of a role meet each other: front and back, or two halves.
    fn meets_itself(&self, role: Role, edges: &[EdgeAt]) -> bool {
        match role {
            Role::Dart
            | Role::Princess
            | Role::Panel
            | Role::Diagonal
            | Role::Across
            | Role::CentreFront
            | Role::CentreBack
            | Role::Tube
            | Role::BandRing => !edges.is_empty(),
            Role::Crotch | Role::Inseam | Role::Side | Role::Shoulder => {
                let has = |part: &str| {
                    edges
                        .iter()
                        .any(|at| self.ledger.piece(*at).is_some_and(|p| p.key.contains(part)))
                };
                has("front") && has("back")
            }
            _ => false,
        }
    }

    fn find(&self, unit: Unit, role: Role, is_lining: bool) -> Option<usize> {
        let lining = if is_lining { "lining_" } else { "" };
        let id = format!("join.{lining}{}{}", unit.prefix(), role.name());
        self.ops.iter().position(|o| o.id == id)
    }

    fn same_need(&self, unit: Unit, role: Role) -> Option<Need> {
        self.find(unit, role, false)
            .and_then(|i| self.ops.get(i)?.work?.need)
    }

    fn add(&mut self, op: usize, edges: &[EdgeAt]) {
        let touches = self.ledger.touches(edges, &[]);
        let Some(op) = self.ops.get_mut(op) else { return };
        for touch in touches {
            match op.touches.iter_mut().find(|t| t.piece == touch.piece) {
                Some(known) => known.sewn.extend(touch.sewn),
                None => op.touches.push(touch),
            }
        }
        if let Some(work) = &mut op.work
            && !edges.is_empty()
        {
            work.plies = (work.plies + 1).min(6);
        }
    }

    /// Crotch lining, mesh, and what is laid on what.
    fn layers(&mut self) {
        let touch = |key: &str, handled: Vec<&'static str>| Touch {
            piece: key.to_owned(),
            sewn: Vec::new(),
            handled,
        };
        let baste = |plies| {
            Some(Work {
                job: Job::LayerBaste,
                need: None,
                plies,
            })
        };
        if self.draft.pieces.iter().any(|p| p.key == "crotch_lining") {
            let mut touches = vec![touch("crotch_lining", vec!["leg", "front_end", "back_end"])];
            touches.extend(
                self.pieces_of("join.crotch")
                    .into_iter()
                    .map(|k| touch(&k, vec!["leg"])),
            );
            touches.extend(
                self.pieces_of("join.brief_crotch")
                    .into_iter()
                    .map(|k| touch(&k, vec!["leg"])),
            );
            // After the crotch seam it lies on, before the sides.
            let op = self.op(
                "join.crotch_lining",
                "step.crotch_lining",
                Phase::Join,
                Role::Crotch.rank(false) + 5,
                Gate::Sew,
            );
            op.touches = touches;
            op.work = baste(2);
            op.length_mm = 500.0;
            op.runs = 2;
            op.side_up = Some(SideUp::Wrong);
            op.notes = vec![Say::plain("note.soft_side_in"), Say::plain("note.neaten_ends")];
        }
        let inner: Vec<(String, Unit, bool)> = self
            .draft
            .pieces
            .iter()
            .filter(|p| {
                !is_outer(p)
                    && p.edges
                        .iter()
                        .any(|e| matches!(e.role, EdgeUse::Open(_) | EdgeUse::Seam))
            })
            .filter(|p| {
                ![
                    "crotch_lining",
                    "cup_pocket",
                    "prosthesis_pocket",
                    "boning_channel",
                ]
                .contains(&p.key.as_str())
            })
            .map(|p| {
                let is_mesh = p.cuts.iter().all(|c| c.layer == Layer::Mesh)
                    && p.edges.iter().all(|e| e.name != "liner_side");
                (p.key.clone(), Unit::of(self.draft, p), is_mesh)
            })
            .collect();
        let mesh: Vec<String> = inner
            .iter()
            .filter(|(_, _, m)| *m)
            .map(|(k, ..)| k.clone())
            .collect();
        if !mesh.is_empty() {
            let mut touches: Vec<Touch> = mesh.iter().map(|k| touch(k, Vec::new())).collect();
            touches.extend(self.lining_fronts());
            let op = self.op("join.mesh", "step.mesh", Phase::Lining, 112, Gate::Sew);
            op.touches = touches;
            op.work = baste(2);
            op.length_mm = 1500.0;
            op.runs = 4;
        }
        for unit in [Unit::Main, Unit::Brief] {
            let keys: Vec<&String> = inner
                .iter()
                .filter(|(_, u, m)| *u == unit && !m)
                .map(|(k, ..)| k)
                .collect();
            // A triangle is bagged with its lining.
            let is_bagged = self.ops.iter().any(|o| o.id == "join.lining_edge");
            if keys.is_empty() || (is_bagged && unit == Unit::Main) {
                continue;
            }
            let is_whole = ["side", "crotch", "inseam"].iter().any(|r| {
                let id = format!("join.lining_{}{r}", unit.prefix());
                self.ops.iter().any(|o| o.id == id)
            });
            let id = match unit {
                Unit::Main => "join.together",
                Unit::Brief => "join.brief_together",
            };
            let (key, rank) = if is_whole {
                ("step.together", TOGETHER)
            } else {
                // Laid on flat, and sewn as one from there.
                ("step.part_lining", 135)
            };
            let mut touches: Vec<Touch> = keys.iter().map(|k| touch(k, Vec::new())).collect();
            let draft = self.draft;
            let shell = draft
                .pieces
                .iter()
                .filter(|p| is_outer(p) && Unit::of(draft, p) == unit)
                .filter(|p| is_whole || keys.iter().any(|k| k.contains("back")) || p.key.contains("front"))
                .filter(|p| p.key.contains("front") || p.key.contains("back"));
            touches.extend(shell.map(|p| touch(&p.key, Vec::new())));
            let length: f64 = draft
                .open_edges
                .iter()
                .map(|e| e.length_mm() * f64::from(e.count))
                .sum();
            let op = self.op(id, key, Phase::Lining, rank, Gate::Sew);
            op.touches = touches;
            op.work = baste(2);
            op.length_mm = length.max(600.0);
            op.runs = 4;
            op.side_up = Some(SideUp::Wrong);
            op.notes = vec![Say::plain("note.lining_inside")];
        }
    }

    fn pieces_of(&self, id: &str) -> Vec<String> {
        let of = self.ops.iter().filter(|o| o.id == id);
        of.flat_map(|o| o.touches.iter().map(|t| t.piece.clone()))
            .collect()
    }
}

fn elastic_key(kind: OpenKind, is_outer: bool) -> &'static str {
    match (kind, is_outer) {
        (_, false) => "step.elastic_lining",
        (OpenKind::Leg, _) => "step.elastic_leg",
        (OpenKind::Waist, _) => "step.elastic_waist",
        (OpenKind::Neckline, _) => "step.elastic_neckline",
        (OpenKind::Armhole, _) => "step.elastic_armhole",
        (OpenKind::Underbust, _) => "step.elastic_underbust",
        (OpenKind::Top, _) => "step.elastic_top",
        (OpenKind::Hem, _) => "step.elastic_hem",
        (OpenKind::Wrist, _) => "step.elastic_wrist",
    }
}

fn turn_key(kind: OpenKind) -> &'static str {
    match kind {
        OpenKind::Leg => "step.turn_leg",
        OpenKind::Waist => "step.turn_waist",
        OpenKind::Neckline => "step.turn_neckline",
        OpenKind::Armhole => "step.turn_armhole",
        OpenKind::Underbust => "step.turn_underbust",
        OpenKind::Top => "step.turn_top",
        OpenKind::Hem => "step.turn_hem",
        OpenKind::Wrist => "step.turn_wrist",
    }
}

fn elastic_notes(kind: OpenKind) -> Vec<Say> {
    match kind {
        OpenKind::Leg => vec![Say::plain("note.leg_ease"), Say::plain("note.match_marks")],
        _ => vec![Say::plain("note.match_marks")],
    }
}

/// Closures, hems, trying on and the end.
impl Builder<'_> {
    fn closures(&mut self) {
        let all = |b: &Builder<'_>, part: &str| -> Vec<Touch> {
            let pieces = b.draft.pieces.iter().filter(|p| p.key.contains(part));
            pieces
                .map(|p| Touch {
                    piece: p.key.clone(),
                    sewn: Vec::new(),
                    handled: Vec::new(),
                })
                .collect()
        };
        let closure = self.design.closure;
        let has_shield = self.draft.pieces.iter().any(|p| p.key == "zip_shield");
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
            pieces
                .map(|p| Touch {
                    piece: p.key.clone(),
                    sewn: Vec::new(),
                    handled: Vec::new(),
                })
                .collect()
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
            let (touches, is_child) = (all(self, "front"), self.is_child);
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
        if self.draft.pieces.iter().any(|p| p.key == "strap") {
            let mut touches = all(self, "strap");
            touches.extend(all(self, "back"));
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
        if self.draft.pieces.iter().any(|p| p.key == "back_tie") {
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

    /// Hems by where they are: skirt, sleeves, lining, body; the ends of straps turned over rings.
    fn hems(&mut self) {
        let mut groups: Vec<(&'static str, Vec<EdgeAt>)> = Vec::new();
        for at in self.ledger.free(|_, e| e.role == EdgeUse::Hem) {
            let (Some(piece), Some(edge)) = (self.ledger.piece(at), self.ledger.edge(at)) else {
                continue;
            };
            let place = match (piece.key.as_str(), edge.name) {
                (_, "shoulder") => "ring",
                ("skirt", _) => "skirt",
                ("sleeve", _) => "sleeve",
                (_, "base") => "channel",
                _ if !is_outer(piece) => "lining",
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
            let need = (job == Job::Hem || job == Job::Casing).then_some(Need {
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

    fn try_on(&mut self) {
        let pieces: Vec<String> = self
            .draft
            .pieces
            .iter()
            .filter(|p| is_outer(p))
            .map(|p| p.key.clone())
            .collect();
        let is_child = self.is_child;
        let op = self.op(
            "try_on.basted",
            "step.try_on_basted",
            Phase::Fit,
            400,
            Gate::TryOn,
        );
        op.touches = pieces
            .into_iter()
            .map(|piece| Touch {
                piece,
                sewn: Vec::new(),
                handled: Vec::new(),
            })
            .collect();
        op.minutes = Some((10.0, 30.0));
        op.work = work(Job::Baste, 2);
        op.length_mm = 1000.0;
        op.cautions = if is_child {
            vec!["pressure", "kids_fit"]
        } else {
            vec!["pressure"]
        };
    }

    fn end(&mut self) {
        let has_lining = self.design.lining_worn() != LiningCover::None;
        let op = self.op("rinse", "step.rinse", Phase::Finish, 900, Gate::End);
        op.minutes = Some((5.0, 15.0));
        op.cautions = vec!["chlorine"];
        let op = self.op("inspect", "step.inspect", Phase::Finish, 910, Gate::End);
        op.minutes = Some((10.0, 20.0));
        op.after = vec!["rinse".into()];
        let op = self.op(
            "try_on.finished",
            "step.try_on_finished",
            Phase::Finish,
            920,
            Gate::End,
        );
        op.minutes = Some((10.0, 20.0));
        op.after = vec!["inspect".into()];
        op.cautions = if has_lining {
            vec!["float", "uv"]
        } else {
            vec!["float", "uv", "sheer"]
        };
    }
}

const fn work(job: Job, plies: u8) -> Option<Work> {
    Some(Work {
        job,
        need: None,
        plies,
    })
}
