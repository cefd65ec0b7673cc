//! The cloth of a class, really laid: all kits of one cloth together, and every kit by itself where each is cut from a length of its own.
//!
//! Together is what a teacher cuts who packs cut pieces, and what one length off the roll would save who packs lengths. A fixed amount of
//! work from a fixed seed, one search a cloth: the same class gives the same lays on any machine. Cloths and people are laid side by side.
//!
//! **Shapes and units.** A [`WorkedClass`] in, lays out: cloths in the order of layers, people in the order of those who sew.
//! **Limits.** Quick lays: some hundredths longer than what a search of a minute finds.

use std::sync::Mutex;

use make::{ClothInBag, LaidTogether};
use rayon::prelude::*;
use units::{Mm, Progress};

use super::work::{Counter, LAY_PARTS, PARTS, Stopped, WorkedClass};
use crate::laying::{LaySettings, LayTask, Lays, lay_tasks, quick_lay_told};
use crate::laying_kept::fingerprint;

/// The lays of a class.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ClassLays {
    /// All kits of one cloth on one length of it.
    pub together: Lays,
    /// Every kit on a length of its own, by the place among those who sew; empty where cut pieces go into the bags.
    pub alone: Vec<Lays>,
}

impl ClassLays {
    /// What each cloth takes with all kits on it, as bought; tests not counted.
    pub(super) fn lengths(&self) -> Vec<LaidTogether> {
        let laid = self.together.laid.iter();
        laid.map(|l| LaidTogether {
            layer: l.task.layer,
            cloth: l.task.request.cloth.name.clone(),
            length: l.takes(),
            least: Mm::new(l.lay.bound.length_mm + 2.0 * l.task.request.cloth.end_allowance_mm),
        })
        .collect()
    }
}

impl WorkedClass {
    /// What is laid with all kits on one length: a task a cloth; every kit is a suit of its own, also where two are alike.
    pub fn lay_tasks(&self) -> Vec<LayTask> {
        let sewn: Vec<_> = (0..self.sewing.len()).filter_map(|at| self.sewn(at)).collect();
        let suits: Vec<_> = sewn.iter().map(|(_, d)| (&d.suit, &d.order.draft)).collect();
        let mut tasks = lay_tasks(&suits, &LaySettings::usual(self.setting.units));
        for task in &mut tasks {
            task.title = format!("{}: {}, all kits", self.setting.name, task.layer.name());
            // A suit of a class is named after class and wearer; on the cloth the wearer tells them apart.
            for garment in &mut task.request.garments {
                let whose = sewn.iter().find(|(_, d)| d.suit.name == *garment);
                if let Some((person, _)) = whose {
                    garment.clone_from(&person.name);
                }
            }
        }
        tasks
    }

    /// What its lays rest on: when this is the same, they are.
    pub fn lays_of(&self) -> String {
        let tasks = self.lay_tasks();
        let of = tasks.iter().map(|t| {
            let cloth = &t.request.cloth;
            format!(
                "{} {} {:?} {:?};",
                t.title, cloth.name, t.request.garments, t.rules
            ) + &fingerprint(&t.request)
        });
        let of: Vec<String> = of.collect();
        format!("{:?} {}", self.setting.bags, of.join("|"))
    }
}

/// How far each of several lays is, told as one share.
struct Together<'a> {
    progress: &'a (dyn Progress + Sync),
    /// Pieces of each lay, and the share of it that is done.
    parts: Mutex<Vec<(f64, f64)>>,
    from: u64,
    to: u64,
    of: u64,
}

/// One of them.
struct One<'a> {
    of: &'a Together<'a>,
    at: usize,
    says: String,
}

impl Together<'_> {
    fn tell(&self, at: usize, share: f64, says: &str) {
        let mut parts = self
            .parts
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner);
        if let Some(part) = parts.get_mut(at) {
            part.1 = part.1.max(share.clamp(0.0, 1.0));
        }
        let all: f64 = parts.iter().map(|p| p.0).sum();
        let done: f64 = parts.iter().map(|p| p.0 * p.1).sum();
        let steps = (self.to - self.from) as f64 * done / all.max(1.0);
        drop(parts);
        self.progress.at(self.from + steps as u64, self.of, says);
    }
}

impl Progress for One<'_> {
    fn at(&self, done: u64, of: u64, _: &str) {
        self.of.tell(self.at, done as f64 / of.max(1) as f64, &self.says);
    }

    fn should_stop(&self) -> bool {
        self.of.progress.should_stop()
    }
}

/// Lays the cloth of a class. Goes on counting where [`super::work`] ended.
///
/// # Errors
/// [`Stopped`] when that was asked for.
pub fn lay_class(class: &WorkedClass, progress: &(dyn Progress + Sync)) -> Result<ClassLays, Stopped> {
    let count = class.takers.len() as u64;
    let settings = LaySettings::usual(class.setting.units);
    let suits = class.sewing.len();
    // The long ones first, so that no thread is left alone with one at the end.
    let mut all: Vec<(Option<usize>, LayTask)> = class.lay_tasks().into_iter().map(|t| (None, t)).collect();
    let mut names: Vec<String> = all
        .iter()
        .map(|(_, t)| format!("{suits} kits on {}", t.request.cloth.name))
        .collect();
    if class.setting.bags == ClothInBag::Lengths {
        for at in 0..suits {
            let Some((person, drafted)) = class.sewn(at) else {
                continue;
            };
            for task in lay_tasks(&[(&drafted.suit, &drafted.order.draft)], &settings) {
                names.push(format!("{}’s kit on {}", person.name, task.request.cloth.name));
                all.push((Some(at), task));
            }
        }
    }
    let pieces = |t: &LayTask| f64::from(t.request.pieces.iter().map(|p| p.count).sum::<u32>());
    let told = Together {
        progress,
        parts: Mutex::new(all.iter().map(|(_, t)| (pieces(t), 0.0)).collect()),
        from: count,
        to: (1 + LAY_PARTS) * count,
        of: (PARTS + LAY_PARTS) * count,
    };
    let came: Vec<_> = all
        .into_par_iter()
        .zip(names)
        .enumerate()
        .map(|(at, ((whose, task), name))| {
            let one = One {
                of: &told,
                at,
                says: format!("laying {name}"),
            };
            if one.should_stop() {
                return Err(Stopped);
            }
            told.tell(at, 0.0, &one.says);
            let laid = quick_lay_told(task, &one);
            if one.should_stop() {
                return Err(Stopped);
            }
            told.tell(at, 1.0, &one.says);
            Ok((whose, laid))
        })
        .collect::<Result<_, Stopped>>()?;
    let mut lays = ClassLays::default();
    if class.setting.bags == ClothInBag::Lengths {
        lays.alone = vec![Lays::default(); suits];
    }
    for (whose, laid) in came {
        match whose {
            None => lays.together.add(laid),
            Some(at) => {
                if let Some(own) = lays.alone.get_mut(at) {
                    own.add(laid);
                }
            }
        }
    }
    Ok(lays)
}

/// Where the kits go on counting.
pub(super) fn kits_counter<'a>(class: &WorkedClass, progress: &'a (dyn Progress + Sync)) -> Counter<'a> {
    let people = class.takers.len();
    let count = people as u64;
    Counter::new(
        progress,
        (1 + LAY_PARTS) * count,
        (PARTS + LAY_PARTS) * count,
        people,
    )
}
