//! Seams: those the draft walked, and the edges of linings, straps and bands that no walk names.

use cloth::Layer;
use draft::EdgeUse;

use super::build::Builder;
use super::edges::{EdgeAt, Unit, is_outer};
use super::role::Role;
use super::{Gate, Phase, SideUp, Touch, Work};
use crate::needs::{MOVEMENT, Need};
use crate::say::{Arg, Say};

impl Builder<'_> {
    /// Every seam the draft walked; seams of one role in one suit are one operation.
    pub(super) fn walked_seams(&mut self) {
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
            let mut onto: Vec<String> = Vec::new();
            let mut edges: Vec<EdgeAt> = Vec::new();
            let mut handled: Vec<EdgeAt> = Vec::new();
            for i in &seams {
                let Some(seam) = self.draft.seams.get(*i) else {
                    continue;
                };
                for (key, names) in [&seam.first, &seam.second] {
                    let found = self.walked(key, names);
                    if found.is_empty() {
                        // A line on the suit, not an edge of it: the skirt's.
                        onto.extend(self.suit_pieces(unit));
                    }
                    for at in found {
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
            self.touch_whole(&onto);
        }
    }

    /// Keys of the outer fronts and backs of a suit.
    fn suit_pieces(&self, unit: Unit) -> Vec<String> {
        let draft = self.draft;
        let of = draft.pieces.iter().filter(|p| {
            is_outer(p) && Unit::of(draft, p) == unit && (p.key.contains("front") || p.key.contains("back"))
        });
        of.filter(|p| !p.key.contains("tie"))
            .map(|p| p.key.clone())
            .collect()
    }

    /// The operation just made touches those pieces too, at none of their edges.
    fn touch_whole(&mut self, pieces: &[String]) {
        let Some(op) = self.ops.last_mut() else { return };
        for key in pieces {
            if op.touches.iter().all(|t| t.piece != *key) {
                op.touches.push(Touch::whole(key.as_str()));
            }
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
    pub(super) fn seam(
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
        let walked: f64 = seams
            .iter()
            .filter_map(|i| self.draft.seams.get(*i))
            .map(|s| s.first_mm.max(s.second_mm))
            .sum();
        // Two edges make one seam. A ring is walked whole; a strap's end is sewn to a line.
        let length = match role {
            Role::Band | Role::Collar | Role::SkirtJoin if walked > 0.0 => walked,
            Role::Attach | Role::SkirtJoin => self.ledger.length(&edges),
            _ => 0.5 * self.ledger.length(&edges),
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
    pub(super) fn other_seams(&mut self) {
        let mut groups: Vec<(Unit, Role, bool, Vec<EdgeAt>)> = Vec::new();
        for at in self
            .ledger
            .free(|_, e| matches!(e.role, EdgeUse::Seam | EdgeUse::Dart))
        {
            let (Some(piece), Some(edge)) = (self.ledger.piece(at), self.ledger.edge(at)) else {
                continue;
            };
            let role = Role::of_edge(&piece.key, edge.name);
            if role == Role::Shoulder && self.has_strap_ends() {
                // A crossed strap ends there; it is sewn on when its length was tried.
                continue;
            }
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
                    None => {
                        self.seam(unit, role, false, Vec::new(), &edges, &[], need);
                        if role == Role::Attach {
                            let onto = self.suit_pieces(unit);
                            self.touch_whole(&onto);
                        }
                    }
                }
            }
        }
    }

    /// Whether the shoulders of the front take straps: no back has a shoulder to meet them.
    pub(super) fn has_strap_ends(&self) -> bool {
        let has = |piece: &str, edge: &str| {
            let pieces = self.draft.pieces.iter().filter(|p| p.key.starts_with(piece));
            pieces
                .into_iter()
                .any(|p| edge.is_empty() || p.edges.iter().any(|e| e.name.starts_with(edge)))
        };
        has("strap", "") && !has("back", "shoulder")
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

    pub(super) fn find(&self, unit: Unit, role: Role, is_lining: bool) -> Option<usize> {
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
}
