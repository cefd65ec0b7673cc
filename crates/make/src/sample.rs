//! Samples: scraps that were really sewn, pulled, ironed and wetted, and what they said.
//!
//! A measured sample outranks any forecast for the same cloth, thread and stitch, and the plan says which of the two it used.
//!
//! **Shapes and units.** Lengths mm on one scrap: between the same two marks relaxed, pulled, and let go again.
//! **Source.** Length, growth: as a stretch test of the cloth, (pulled - relaxed) / relaxed; common practice, no source.

use serde::Serialize;
use units::Mm;

use crate::kind::{ElasticChoice, ElasticError, ElasticKind, Latex};
use crate::stitch::Stitch;
use crate::thread::Thread;

/// What the maker thought of a sample.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Use it.
    Good,
    /// Change a setting and sew another.
    NotYet,
    /// Not for this cloth.
    No,
}

/// Why a record is no sample.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SampleError {
    /// It names no cloth or elastic.
    #[error("{field}: say which cloth or elastic the scrap was of")]
    NoName {
        /// Which field.
        field: &'static str,
    },
    /// A length that is not a number or out of range.
    #[error("{field}: {mm} mm; give a length from {least} to {most} mm")]
    Length {
        /// Which field.
        field: &'static str,
        /// As given.
        mm: f64,
        /// Least taken.
        least: f64,
        /// Greatest taken.
        most: f64,
    },
    /// Pulled, popped or let go, it would be shorter than relaxed, or popped beyond where it was pulled to.
    #[error("{field}: {mm} mm does not fit the other lengths of the sample ({other_mm} mm)")]
    Contradiction {
        /// Which field.
        field: &'static str,
        /// As given.
        mm: f64,
        /// What it was held against.
        other_mm: f64,
    },
    /// A temperature that is not a number or out of range.
    #[error("{celsius} degrees: give the iron's temperature from 40 to 230 degrees")]
    Heat {
        /// As given.
        celsius: f64,
    },
    /// The elastic itself is at fault.
    #[error(transparent)]
    Elastic(#[from] ElasticError),
}

/// Marks on a scrap: nothing shorter is worth measuring, mm (own).
const LEAST_MARKS: f64 = 20.0;
/// Nor anything longer laid on a table, mm (own).
const MOST_MARKS: f64 = 2000.0;

fn length(field: &'static str, mm: Mm, faults: &mut Vec<SampleError>) {
    if !(LEAST_MARKS..=MOST_MARKS).contains(&mm.get()) {
        faults.push(SampleError::Length {
            field,
            mm: mm.get(),
            least: LEAST_MARKS,
            most: MOST_MARKS,
        });
    }
}

fn not_shorter(field: &'static str, mm: Mm, than: Mm, faults: &mut Vec<SampleError>) {
    if mm < than {
        faults.push(SampleError::Contradiction {
            field,
            mm: mm.get(),
            other_mm: than.get(),
        });
    }
}

/// A seam sewn on a scrap. Fields are as the maker measured them; [`SeamSample::faults`] says what cannot be.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SeamSample {
    /// The maker's name for it: shown where the plan uses it.
    pub name: String,
    /// The cloth's name; the shell's for a seam through several layers.
    pub cloth: String,
    /// Thread in the needle.
    pub thread: Thread,
    /// Stitch.
    pub stitch: Stitch,
    /// Its width; zero for one without.
    pub width: Mm,
    /// Its length.
    pub length: Mm,
    /// Between the marks, relaxed.
    pub relaxed: Mm,
    /// As far as it was pulled.
    pub stretched: Mm,
    /// Where the first stitch popped; none if none did.
    pub first_pop: Option<Mm>,
    /// After letting go; none if not measured.
    pub after: Option<Mm>,
    /// What she thought of it.
    pub verdict: Verdict,
    /// Anything else.
    pub note: String,
}

impl SeamSample {
    /// Everything that cannot be as it is written; empty for a sample that can be used.
    pub fn faults(&self) -> Vec<SampleError> {
        let mut faults = Vec::new();
        if self.cloth.trim().is_empty() {
            faults.push(SampleError::NoName { field: "cloth" });
        }
        length("relaxed", self.relaxed, &mut faults);
        length("stretched", self.stretched, &mut faults);
        if !(0.2..=10.0).contains(&self.length.get()) {
            faults.push(SampleError::Length {
                field: "length",
                mm: self.length.get(),
                least: 0.2,
                most: 10.0,
            });
        }
        if !(0.0..=15.0).contains(&self.width.get()) {
            faults.push(SampleError::Length {
                field: "width",
                mm: self.width.get(),
                least: 0.0,
                most: 15.0,
            });
        }
        if !faults.is_empty() {
            return faults;
        }
        not_shorter("stretched", self.stretched, self.relaxed, &mut faults);
        if let Some(pop) = self.first_pop {
            length("first_pop", pop, &mut faults);
            not_shorter("first_pop", pop, self.relaxed, &mut faults);
            not_shorter("stretched", self.stretched, pop, &mut faults);
        }
        if let Some(after) = self.after {
            length("after", after, &mut faults);
            not_shorter("after", after, self.relaxed, &mut faults);
            not_shorter("stretched", self.stretched, after, &mut faults);
        }
        faults
    }

    /// How far it goes before it pops, a ratio; as far as it was pulled if nothing popped.
    pub fn extension(&self) -> f64 {
        self.first_pop.unwrap_or(self.stretched).get() / self.relaxed.get() - 1.0
    }

    /// Whether it may go further than it was pulled: nothing popped.
    pub fn is_lower_bound(&self) -> bool {
        self.first_pop.is_none()
    }

    /// (after - relaxed) / relaxed, if measured.
    pub fn growth(&self) -> Option<f64> {
        self.after.map(|after| after.get() / self.relaxed.get() - 1.0)
    }
}

/// An iron tried on a scrap.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct IronTest {
    /// The maker's name for it.
    pub name: String,
    /// The cloth's name.
    pub cloth: String,
    /// Temperature of the sole, degrees C: one dot is at most 110.
    pub celsius: f64,
    /// Through a press cloth.
    pub has_press_cloth: bool,
    /// With steam.
    pub has_steam: bool,
    /// What she thought of it.
    pub verdict: Verdict,
    /// Anything else.
    pub note: String,
}

impl IronTest {
    /// Everything that cannot be as it is written.
    pub fn faults(&self) -> Vec<SampleError> {
        let mut faults = Vec::new();
        if self.cloth.trim().is_empty() {
            faults.push(SampleError::NoName { field: "cloth" });
        }
        if !(40.0..=230.0).contains(&self.celsius) {
            faults.push(SampleError::Heat {
                celsius: self.celsius,
            });
        }
        faults
    }
}

/// An elastic pulled by itself, washed first or not.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ElasticTest {
    /// The maker's name for it.
    pub name: String,
    /// Kind.
    pub kind: ElasticKind,
    /// Width at rest.
    pub width: Mm,
    /// What the label says of latex; none if it says nothing.
    pub latex: Option<Latex>,
    /// Between the marks, relaxed.
    pub relaxed: Mm,
    /// As far as it goes without effort.
    pub stretched: Mm,
    /// After letting go; none if not measured.
    pub after: Option<Mm>,
    /// Force at double length, N; none if not weighed.
    pub newton_at_double: Option<f64>,
    /// Washed or soaked before.
    pub is_prewashed: bool,
}

impl ElasticTest {
    /// The elastic as the plan takes it: works as far as it went, at most.
    ///
    /// # Errors
    /// Every fault at once: a length out of range or against the others, or [`SampleError::Elastic`].
    pub fn choice(&self) -> Result<ElasticChoice, Vec<SampleError>> {
        let mut faults = Vec::new();
        length("relaxed", self.relaxed, &mut faults);
        length("stretched", self.stretched, &mut faults);
        if !faults.is_empty() {
            return Err(faults);
        }
        not_shorter("stretched", self.stretched, self.relaxed, &mut faults);
        if let Some(after) = self.after {
            not_shorter("after", after, self.relaxed, &mut faults);
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let extension = units::Stretch::from_ratio(self.stretched.get() / self.relaxed.get() - 1.0);
        ElasticChoice::new(
            self.kind,
            self.width,
            self.newton_at_double,
            self.latex,
            Some(extension),
        )
        .map_err(|e| e.into_iter().map(SampleError::Elastic).collect())
    }

    /// (after - relaxed) / relaxed, if measured.
    pub fn growth(&self) -> Option<f64> {
        self.after.map(|after| after.get() / self.relaxed.get() - 1.0)
    }
}

/// How a cloth looks wet and stretched.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wet {
    /// A printed page cannot be read through it.
    Opaque,
    /// It can be read where the cloth is stretched.
    ShowsStretched,
    /// It can be read.
    Shows,
}

/// A cloth wetted, stretched to its worn length over a printed page in daylight.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WetTest {
    /// The cloth's name.
    pub cloth: String,
    /// How it looked.
    pub wet: Wet,
}

/// Everything a maker tried.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SampleBook {
    /// Seams.
    pub seams: Vec<SeamSample>,
    /// Irons.
    pub irons: Vec<IronTest>,
    /// Elastics.
    pub elastics: Vec<ElasticTest>,
    /// Cloths wetted.
    pub wets: Vec<WetTest>,
}

/// Settings count as the same as a sample's within so much, mm (own: as fine as a dial is read).
const SAME_SETTING: f64 = 0.26;

impl SampleBook {
    /// The last usable seam sample of that cloth, thread, stitch and settings.
    pub fn seam(
        &self,
        cloth: &str,
        thread: Thread,
        stitch: Stitch,
        width: Mm,
        length: Mm,
    ) -> Option<&SeamSample> {
        self.seams.iter().rev().find(|s| {
            s.cloth == cloth
                && s.thread == thread
                && s.stitch == stitch
                && (s.width - width).get().abs() <= SAME_SETTING
                && (s.length - length).get().abs() <= SAME_SETTING
                && s.faults().is_empty()
        })
    }

    /// The last usable iron test of that cloth.
    pub fn iron(&self, cloth: &str) -> Option<&IronTest> {
        self.irons
            .iter()
            .rev()
            .find(|i| i.cloth == cloth && i.faults().is_empty())
    }

    /// The last wet test of that cloth.
    pub fn wet(&self, cloth: &str) -> Option<Wet> {
        self.wets.iter().rev().find(|w| w.cloth == cloth).map(|w| w.wet)
    }

    /// The last test of an elastic of that kind and width.
    pub fn elastic(&self, kind: ElasticKind, width: Mm) -> Option<&ElasticTest> {
        self.elastics
            .iter()
            .rev()
            .find(|e| e.kind == kind && e.width == width && e.choice().is_ok())
    }
}
