//! Linings, mesh, cups and pockets: what is laid on what, and when.

use cloth::Layer;
use draft::{Cups, EdgeUse, Family, OpenKind};

use super::build::{Builder, PART_LINING, TOGETHER};
use super::edges::{Unit, is_outer};
use super::role::Role;
use super::{Gate, Phase, SideUp, Touch, Work};
use crate::job::Job;
use crate::say::Say;

impl Builder<'_> {
    /// Straps, ties, bands, skirts' sides: what is sewn by itself before it meets the suit; pockets and channels.
    pub(super) fn small_parts(&mut self) {
        self.pockets("cup_pocket", "join.cups", "step.cup_pocket", 115);
        self.pockets(
            "prosthesis_pocket",
            "join.prosthesis",
            "step.prosthesis_pocket",
            115,
        );
        self.pockets("pouch_pocket", "join.pouch_pocket", "step.pouch_pocket", 116);
        // Over the side seams, so after them.
        self.pockets("boning_channel", "join.boning", "step.boning", TOGETHER - 40);
        if self.design.cups == Cups::Marks
            && self.draft.pieces.iter().all(|p| !p.key.starts_with("cup_pocket"))
        {
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

    pub(super) fn lining_fronts(&self) -> Vec<Touch> {
        let of = |test: &dyn Fn(&draft::Piece) -> bool| -> Vec<Touch> {
            let pieces = self.draft.pieces.iter().filter(|p| test(p));
            pieces.map(|p| Touch::whole(p.key.as_str())).collect()
        };
        let is_front = |p: &draft::Piece| p.key.contains("front") || p.key == "shelf_bra";
        let linings = of(&|p| !is_outer(p) && is_front(p) && !p.key.contains("mesh"));
        if linings.is_empty() {
            of(&is_front)
        } else {
            linings
        }
    }

    fn pockets(&mut self, piece: &str, id: &str, key: &'static str, rank: u16) {
        let edges = self.ledger.free(|p, _| p.key.starts_with(piece));
        if edges.is_empty() {
            return;
        }
        let edges = self.ledger.claim(edges);
        let mut touches = self.ledger.touches(&edges, &[]);
        touches.extend(self.lining_fronts());
        let (length, runs) = (self.ledger.length(&edges), self.ledger.runs(&edges));
        let op = self.op(id, key, Phase::Lining, rank, Gate::Sew);
        op.touches = touches;
        op.work = Some(Work {
            job: Job::Cups,
            need: None,
            plies: 2,
        });
        op.length_mm = length;
        op.runs = runs as u32;
        op.press = Some(Say::plain("press.never"));
        if piece == "cup_pocket" {
            op.notes = vec![Say::plain("note.cups_to_lining")];
        }
    }

    /// Crotch lining, mesh, and what is laid on what.
    pub(super) fn layers(&mut self) {
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
                    "pouch_pocket",
                    "boning_channel",
                ]
                .iter()
                .any(|k| p.key.starts_with(k))
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
            let (key, rank) = if is_whole && self.family() == Family::Trunks {
                ("step.together_waist", TOGETHER)
            } else if is_whole {
                ("step.together", TOGETHER)
            } else {
                // Laid on flat, and sewn as one from there.
                ("step.part_lining", PART_LINING)
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
            // Basted at the lining's open edges.
            let length: f64 = draft
                .pieces
                .iter()
                .filter(|p| keys.iter().any(|k| **k == p.key))
                .flat_map(|p| p.edges.iter().map(move |e| (p, e)))
                .filter(|(_, e)| match e.role {
                    // A liner's legs are its own.
                    EdgeUse::Open(kind) => key != "step.together_waist" || kind == OpenKind::Waist,
                    EdgeUse::Seam => key == "step.together_waist" && e.name == "top",
                    _ => false,
                })
                .map(|(p, e)| e.curve.length() * super::edges::times(p))
                .sum();
            let op = self.op(id, key, Phase::Lining, rank, Gate::Sew);
            op.touches = touches;
            op.work = baste(2);
            op.length_mm = length.max(600.0);
            op.runs = 4;
            op.side_up = Some(SideUp::Wrong);
            op.notes = vec![Say::plain("note.lining_inside")];
        }
        // A lining that is laid on flat gets the elastic of its own free edge before that.
        let is_whole = |id: &str| {
            ["side", "crotch", "inseam"]
                .iter()
                .any(|role| id.starts_with("join.lining_") && id.ends_with(role))
        };
        if !self.ops.iter().any(|o| is_whole(&o.id)) {
            for op in &mut self.ops {
                if op.id.starts_with("elastic.lining_") {
                    op.rank = PART_LINING - 5;
                } else if op.id.starts_with("turn.lining_") {
                    op.rank = PART_LINING - 4;
                }
            }
        }
    }

    pub(super) fn pieces_of(&self, id: &str) -> Vec<String> {
        let of = self.ops.iter().filter(|o| o.id == id);
        of.flat_map(|o| o.touches.iter().map(|t| t.piece.clone()))
            .collect()
    }
}
