//! The operations of a suit, from its draft and design.

use draft::{Design, Draft, Family, LiningCover, Setting};

use super::edges::{EdgeAt, Ledger, Unit, is_outer};
use super::{Gate, Operation, Phase, Touch, Work};
use crate::job::Job;
use crate::needs::{Needs, WornStretch};
use crate::say::{Arg, Say};

/// A lining of some pieces only, laid on flat when darts, panels and centre seams are closed.
pub(super) const PART_LINING: u16 = 147;
/// Shell and lining laid together.
pub(super) const TOGETHER: u16 = 300;
/// Before the elastic: eyelets, slits, zips.
pub(super) const BEFORE_EDGES: u16 = 146;
pub(super) const ELASTIC: u16 = 500;
pub(super) const TURN: u16 = 600;
pub(super) const HEM: u16 = 700;
pub(super) const CLOSE: u16 = 800;

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
    pub(super) fn own(&self, key: &str) -> Option<Setting> {
        let parameter = self.design.style.own(key)?;
        self.design
            .is_heard(parameter)
            .then(|| self.design.own.get(parameter))
    }

    pub(super) fn has_word(&self, key: &str, words: &[&str]) -> bool {
        matches!(self.own(key), Some(Setting::Word(word)) if words.contains(&word))
    }

    pub(super) fn is_on(&self, key: &str) -> bool {
        matches!(self.own(key), Some(Setting::Yes(true)))
    }

    pub(super) fn has_sleeves(&self) -> bool {
        self.draft.pieces.iter().any(|p| p.key.starts_with("sleeve"))
    }

    pub(super) fn family(&self) -> Family {
        self.design.style.spec().family
    }

    pub(super) fn unit(&self, at: EdgeAt) -> Unit {
        self.ledger
            .piece(at)
            .map_or(Unit::Main, |p| Unit::of(self.draft, p))
    }

    fn before(&mut self) {
        let op = self.op("prove", "step.prove", Phase::Prove, 10, Gate::Before);
        op.minutes = Some((20.0, 40.0));
        op.cautions = vec!["sheer", "pressure"];
        let op = self.op("prove_iron", "step.prove_iron", Phase::Prove, 9, Gate::Before);
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
            op.touches = vec![Touch::whole(key)];
            op.after = vec!["lay_out".into()];
            // Cutting and labelling together, shared over the pieces: 25 to 60 minutes.
            op.minutes = Some((25.0 / share, 60.0 / share));
            if i == 0 {
                op.cautions = vec!["blade"];
            }
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
        op.touches = pieces.into_iter().map(Touch::whole).collect();
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

/// Needlework that is not stretched.
pub(super) const fn work(job: Job, plies: u8) -> Option<Work> {
    Some(Work {
        job,
        need: None,
        plies,
    })
}
