//! A suit's documents worked out as far as they go.
//!
//! The pages must show a wearer whose cloth is not chosen yet, and a cloth without a wearer; so every stage here is on its
//! own: what can be computed is there, what cannot says why.

use std::sync::{Arc, OnceLock};

use body::{Body, complete};
use cloth::{ClothPlan, Layer, SuitCloth, SuitCloths, Swatch};
use make::{Making, Shopping, WornStretch};
use serde_json::Value as Json;
use units::Finding;

use super::compose::{SuitPapers, compose};
use super::room::{ReadRoom, RoomPapers, room_of};
use super::tries::Tries;
use crate::laying_kept::LayShelf;
use crate::order::{Order, reach, work_out};
use crate::suit_file::{Fault, Faults, Parts, SuitFile, read_parts};

/// A document with its id and revision.
#[derive(Clone, Debug, PartialEq)]
pub struct Paper {
    /// Its id.
    pub id: String,
    /// `suit`, `wearer`, `cloth`, `elastic`, `workroom`, `sample`.
    pub kind: &'static str,
    /// Its revision.
    pub revision: u64,
    /// Its body.
    pub body: Json,
}

/// The documents a suit names; what is not chosen yet is `None`.
#[derive(Clone, Debug, Default)]
pub struct Linked {
    /// The wearer.
    pub wearer: Option<Paper>,
    /// The outer cloth.
    pub shell: Option<Paper>,
    /// The lining.
    pub lining: Option<Paper>,
    /// The mesh.
    pub mesh: Option<Paper>,
    /// The second outer cloth.
    pub contrast: Option<Paper>,
    /// The elastic from stock.
    pub elastic: Option<Paper>,
    /// The workroom.
    pub workroom: Option<Paper>,
    /// The sample book, the oldest first: not named by the suit, but its stitches are chosen by it.
    pub samples: Vec<Paper>,
    /// Elastics in stock.
    pub elastics: Vec<Paper>,
}

impl Linked {
    fn each(&self) -> [&Option<Paper>; 7] {
        [
            &self.wearer,
            &self.shell,
            &self.lining,
            &self.mesh,
            &self.contrast,
            &self.elastic,
            &self.workroom,
        ]
    }

    fn each_mut(&mut self) -> [&mut Option<Paper>; 7] {
        [
            &mut self.wearer,
            &mut self.shell,
            &mut self.lining,
            &mut self.mesh,
            &mut self.contrast,
            &mut self.elastic,
            &mut self.workroom,
        ]
    }
}

/// The papers of a suit and everything that could be worked out of them.
#[derive(Clone, Debug)]
pub struct Worked {
    /// The suit.
    pub suit: Paper,
    /// Its wearer.
    pub wearer: Option<Paper>,
    /// Its outer cloth.
    pub shell: Option<Paper>,
    /// Its lining.
    pub lining: Option<Paper>,
    /// Its mesh.
    pub mesh: Option<Paper>,
    /// Its second outer cloth.
    pub contrast: Option<Paper>,
    /// Its elastic from stock.
    pub elastic: Option<Paper>,
    /// The workroom.
    pub workroom: Option<Paper>,
    /// The sample book, the oldest first.
    pub samples: Vec<Paper>,
    /// Elastics in stock.
    pub elastics: Vec<Paper>,
    /// Machines, stock, prices and samples as they could be read.
    pub room: ReadRoom,
    /// The suit file of them.
    pub text: String,
    /// What could be read of it; none for a text that is no TOML, which [`compose`] never writes.
    pub parts: Option<Parts>,
    /// The body, if the wearer is complete enough for one.
    pub body: Option<(Body, Vec<Finding>)>,
    /// The cloths together, if they can be.
    pub cloth: Option<ClothPlan>,
    /// The whole suit file, if it reads well.
    pub file: Option<SuitFile>,
    /// The order, if nothing was refused.
    pub order: Option<Order>,
    /// Everything missing, wrong or refused, by path of the suit file.
    pub faults: Vec<Fault>,
    /// Where its handles went when they were tried.
    pub(crate) tries: Tries,
    /// The making plan, once it was asked for.
    plan: OnceLock<Option<Arc<Planned>>>,
    /// Its lays, worked out when they are asked for.
    pub(crate) lays: LayShelf,
    /// Suits whose pieces are laid with its own.
    pub(crate) beside: Vec<Arc<Worked>>,
}

/// What is sewn and bought for a suit in this workroom.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// Stitches, steps, elastic, scraps.
    pub making: Making,
    /// What to buy.
    pub shopping: Shopping,
}

impl Worked {
    /// The papers, for [`compose`].
    pub fn papers(&self) -> SuitPapers<'_> {
        fn body(paper: &Option<Paper>) -> Option<&Json> {
            paper.as_ref().map(|p| &p.body)
        }
        SuitPapers {
            suit: Some(&self.suit.body),
            wearer: body(&self.wearer),
            shell: body(&self.shell),
            lining: body(&self.lining),
            mesh: body(&self.mesh),
            contrast: body(&self.contrast),
            elastic: body(&self.elastic),
            workroom: body(&self.workroom),
        }
    }

    /// The documents it names.
    pub fn linked(&self) -> Linked {
        Linked {
            wearer: self.wearer.clone(),
            shell: self.shell.clone(),
            lining: self.lining.clone(),
            mesh: self.mesh.clone(),
            contrast: self.contrast.clone(),
            elastic: self.elastic.clone(),
            workroom: self.workroom.clone(),
            samples: self.samples.clone(),
            elastics: self.elastics.clone(),
        }
    }

    /// Every document the suit is made of, itself first; the sample book and the stock are beside it.
    pub fn all(&self) -> impl Iterator<Item = &Paper> {
        let rest = [
            &self.wearer,
            &self.shell,
            &self.lining,
            &self.mesh,
            &self.contrast,
            &self.elastic,
            &self.workroom,
        ];
        std::iter::once(&self.suit).chain(rest.into_iter().flatten())
    }

    /// Every document that what is worked out rests on, the suit first.
    pub fn rests_on(&self) -> impl Iterator<Item = &Paper> {
        let beside = self.beside.iter().flat_map(|suit| suit.all());
        self.all()
            .chain(&self.samples)
            .chain(&self.elastics)
            .chain(beside)
    }

    /// Id of the document that a role of [`super::home_of`] names; the suit's own when there is none.
    pub fn id_of(&self, role: &str) -> &str {
        let paper = match role {
            "wearer" => &self.wearer,
            "shell" => &self.shell,
            "lining" => &self.lining,
            "mesh" => &self.mesh,
            "contrast" => &self.contrast,
            "elastic" => &self.elastic,
            "workroom" => &self.workroom,
            _ => &None,
        };
        paper.as_ref().map_or(&self.suit.id, |p| &p.id)
    }

    /// Stitches, steps and shopping list in the maker's own workroom; none before the suit is drafted. Made when it is first
    /// asked for, and kept.
    pub fn plan(&self) -> Option<Arc<Planned>> {
        let planned = self.plan.get_or_init(|| {
            let (making, shopping) = crate::hand_out::plan_with_lays(
                self.file.as_ref()?,
                self.order.as_ref()?,
                &self.room.room,
                &self.lays_in_force().lengths(),
            );
            Some(Arc::new(Planned { making, shopping }))
        });
        planned.clone()
    }

    /// The same with its making plan made from these stretches of the solved suit; from the draft's own without.
    pub fn planned_from(&self, worn: Option<WornStretch>) -> Worked {
        let mut worked = self.clone();
        if let Some(order) = &mut worked.order {
            order.worn = worn;
        }
        worked.plan = OnceLock::new();
        worked
    }

    /// Her unit.
    pub fn unit(&self) -> units::LengthUnit {
        self.parts.as_ref().map_or(units::LengthUnit::Cm, |p| p.units)
    }

    /// The papers with other bodies, worked out anew.
    pub fn with(&self, change: impl FnOnce(&mut [&mut Paper])) -> Worked {
        let mut suit = self.suit.clone();
        let mut linked = self.linked();
        // Moved aside, so that the rest can be lent out at the same time.
        let (mut samples, mut elastics) = (
            std::mem::take(&mut linked.samples),
            std::mem::take(&mut linked.elastics),
        );
        let mut all: Vec<&mut Paper> = std::iter::once(&mut suit)
            .chain(linked.each_mut().into_iter().flatten())
            .chain(&mut samples)
            .chain(&mut elastics)
            .collect();
        change(&mut all);
        (linked.samples, linked.elastics) = (samples, elastics);
        let mut worked = work(suit, linked);
        worked.lays = LayShelf::after(&self.lays);
        worked.beside.clone_from(&self.beside);
        worked
    }
}

/// Works the papers of a suit out as far as they go.
pub fn work(suit: Paper, linked: Linked) -> Worked {
    let text = {
        let [wearer, shell, lining, mesh, contrast, elastic, workroom] =
            linked.each().map(|paper| paper.as_ref().map(|p| &p.body));
        compose(&SuitPapers {
            suit: Some(&suit.body),
            wearer,
            shell,
            lining,
            mesh,
            contrast,
            elastic,
            workroom,
        })
    };
    let Linked {
        wearer,
        shell,
        lining,
        mesh,
        contrast,
        elastic,
        workroom,
        samples,
        elastics,
    } = linked;
    let room = room_of(&RoomPapers {
        workroom: workroom.as_ref(),
        samples: samples.iter().collect(),
        elastics: elastics.iter().chain(&elastic).collect(),
        cloths: [&shell, &lining, &mesh, &contrast]
            .into_iter()
            .flatten()
            .collect(),
    });
    let file_name = "this suit";
    let mut worked = Worked {
        suit,
        wearer,
        shell,
        lining,
        mesh,
        contrast,
        elastic,
        workroom,
        samples,
        elastics,
        room,
        parts: None,
        body: None,
        cloth: None,
        file: None,
        order: None,
        faults: Vec::new(),
        tries: Tries::default(),
        plan: OnceLock::new(),
        lays: LayShelf::default(),
        beside: Vec::new(),
        text,
    };
    let parts = match read_parts(file_name, &worked.text) {
        Ok(parts) => parts,
        Err(faults) => {
            worked.faults = faults.list;
            return worked;
        }
    };
    match parts.clone().whole(file_name, &worked.text) {
        Ok(file) => match work_out(&file) {
            Ok(order) => {
                worked.body = complete(&file.wearer).ok();
                worked.cloth = Some(order.cloth.clone());
                worked.order = Some(order);
                worked.file = Some(file);
            }
            Err(faults) => {
                apart(&mut worked, &parts);
                worked.faults = faults.list;
                worked.file = Some(file);
            }
        },
        Err(Faults { list, .. }) => {
            worked.faults = list;
            let more = apart(&mut worked, &parts);
            worked.faults.extend(more);
        }
    }
    worked.parts = Some(parts);
    worked
}

/// Body and cloths each on their own, with what each refuses.
fn apart(worked: &mut Worked, parts: &Parts) -> Vec<Fault> {
    let mut faults = Vec::new();
    if let Some((wearer, _)) = &parts.wearer {
        match complete(wearer) {
            Ok(body) => worked.body = Some(body),
            Err(errors) => faults.extend(errors.iter().map(|e| parts.body_fault(e))),
        }
    }
    let mut swatch = |layer: Layer, entry: Option<&crate::suit_file::ClothEntry>| {
        let entry = entry?;
        match Swatch::new(entry.record.clone()) {
            Ok(swatch) => Some(SuitCloth {
                swatch,
                lies: entry.lay,
            }),
            Err(errors) => {
                faults.extend(errors.iter().map(|e| parts.cloth_fault(layer, e)));
                None
            }
        }
    };
    let shell = swatch(Layer::Shell, parts.shell.as_ref());
    let lining = swatch(Layer::Lining, parts.lining.as_ref());
    let mesh = swatch(Layer::Mesh, parts.mesh.as_ref());
    let contrast = swatch(Layer::Contrast, parts.contrast.as_ref());
    if let Some(shell) = shell {
        let cloths = SuitCloths {
            shell,
            lining,
            mesh,
            contrast,
            tested_together: parts.tested_together,
        };
        worked.cloth = cloth::plan(&cloths, reach(parts.design.lining_worn())).ok();
    }
    faults
}
