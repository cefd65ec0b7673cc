//! Elastic of every open edge: anchored, turned, in the fold of a band; its rings.

use draft::{EdgeUse, Family, OpenKind};

use super::build::{Builder, ELASTIC, TURN};
use super::edges::{EdgeAt, Unit, is_outer};
use super::role::Role;
use super::{Gate, Phase, SideUp, Touch, Work, edge_rank};
use crate::job::Job;
use crate::needs::{MOVEMENT, Need};
use crate::say::{Arg, Say};

impl Builder<'_> {
    /// Elastic of every open edge, and turning it. Claimed first: an open edge that also meets its lining is walked as a seam too.
    pub(super) fn open_edges(&mut self) {
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
