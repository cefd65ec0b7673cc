//! Kinds of elastic and what a maker should know of each: core, widths sold, how far it works, whether it holds latex.
//!
//! **Source.** `data/trade/elastics.csv`, common practice but for braided, knitted and woven, which are from published
//! teaching texts; a test holds every entry against that table.
//! **Limits.** The working extension is a band by kind; the low end is used unless the maker's own elastic was tested.

use std::fmt;

use serde::Serialize;
use units::{Mm, Stretch};

/// A kind of elastic.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ElasticKind {
    /// Cotton-covered braided rubber, the usual swim elastic.
    #[default]
    BraidedRubber,
    /// A thin flat strip of rubber.
    FlatRubber,
    /// Braided polyester over rubber or elastane.
    BraidedPolyester,
    /// Knitted.
    Knitted,
    /// Woven.
    Woven,
    /// Clear polyurethane.
    ClearPolyurethane,
    /// Fold-over knitted.
    FoldOver,
    /// Plush or picot lingerie elastic.
    Plush,
    /// Tubular or plush strap elastic.
    Strap,
    /// Silicone-backed gripper.
    Gripper,
}

/// Whether an elastic narrows when it is stretched.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Narrowing {
    /// Keeps its width.
    No,
    /// A little.
    Slightly,
    /// Clearly.
    Yes,
}

impl Narrowing {
    /// `keeps its width`, `narrows slightly`, `narrows when stretched`.
    pub const fn words(self) -> &'static str {
        match self {
            Narrowing::No => "keeps its width",
            Narrowing::Slightly => "narrows slightly",
            Narrowing::Yes => "narrows when stretched",
        }
    }
}

/// Whether an elastic holds natural rubber latex.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Latex {
    /// No latex.
    No,
    /// Natural rubber.
    Yes,
    /// It may: read the label or ask the seller.
    Ask,
}

/// How an elastic takes pool water.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Chlorine {
    /// Not for frequent pool use.
    Poor,
    /// Ages; look at it.
    Fair,
    /// Holds.
    Good,
}

/// What the table says of a kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KindFacts {
    /// Its name in the trade's words.
    pub name: &'static str,
    /// Least and greatest width sold, mm.
    pub widths_mm: (f64, f64),
    /// Whether it narrows when stretched.
    pub narrows: Narrowing,
    /// Extension it works at without tiring, least and greatest.
    pub working_extension: (Stretch, Stretch),
    /// Whether it holds latex.
    pub latex: Latex,
}

const fn facts(
    name: &'static str,
    widths_mm: (f64, f64),
    narrows: Narrowing,
    percent: (f64, f64),
    latex: Latex,
) -> KindFacts {
    let working_extension = (Stretch::from_percent(percent.0), Stretch::from_percent(percent.1));
    KindFacts {
        name,
        widths_mm,
        narrows,
        working_extension,
        latex,
    }
}

impl ElasticKind {
    /// Every kind, in the table's order.
    pub const ALL: [ElasticKind; 10] = [
        ElasticKind::BraidedRubber,
        ElasticKind::FlatRubber,
        ElasticKind::BraidedPolyester,
        ElasticKind::Knitted,
        ElasticKind::Woven,
        ElasticKind::ClearPolyurethane,
        ElasticKind::FoldOver,
        ElasticKind::Plush,
        ElasticKind::Strap,
        ElasticKind::Gripper,
    ];

    /// What is known of it.
    pub const fn facts(self) -> KindFacts {
        use Narrowing::{No, Slightly, Yes};
        match self {
            ElasticKind::BraidedRubber => facts(
                "cotton-covered braided rubber (swim)",
                (6.0, 12.0),
                Yes,
                (60.0, 100.0),
                Latex::Yes,
            ),
            ElasticKind::FlatRubber => facts(
                "flat rubber (thin strip)",
                (6.0, 12.0),
                Slightly,
                (60.0, 120.0),
                Latex::Ask,
            ),
            ElasticKind::BraidedPolyester => facts(
                "braided polyester over rubber or elastane",
                (3.0, 12.0),
                Yes,
                (60.0, 100.0),
                Latex::Ask,
            ),
            ElasticKind::Knitted => facts("knitted", (6.0, 50.0), No, (80.0, 120.0), Latex::Ask),
            ElasticKind::Woven => facts("woven", (10.0, 50.0), No, (60.0, 100.0), Latex::Ask),
            ElasticKind::ClearPolyurethane => facts(
                "clear polyurethane",
                (4.0, 10.0),
                Slightly,
                (50.0, 150.0),
                Latex::No,
            ),
            ElasticKind::FoldOver => facts("fold-over knitted", (12.0, 20.0), No, (50.0, 80.0), Latex::Ask),
            ElasticKind::Plush => facts(
                "plush or picot lingerie",
                (8.0, 15.0),
                No,
                (60.0, 100.0),
                Latex::No,
            ),
            ElasticKind::Strap => facts(
                "swim strap elastic (tubular or plush)",
                (8.0, 20.0),
                No,
                (40.0, 60.0),
                Latex::Ask,
            ),
            ElasticKind::Gripper => facts(
                "silicone-backed gripper",
                (10.0, 20.0),
                No,
                (30.0, 60.0),
                Latex::No,
            ),
        }
    }

    /// How it takes pool water; of a band in the table (`poor to fair`) the lower word.
    pub const fn chlorine(self) -> Chlorine {
        match self {
            ElasticKind::BraidedRubber | ElasticKind::FlatRubber | ElasticKind::ClearPolyurethane => {
                Chlorine::Good
            }
            ElasticKind::Plush => Chlorine::Poor,
            _ => Chlorine::Fair,
        }
    }

    /// The name in suit files: `braided-rubber`.
    pub const fn key(self) -> &'static str {
        match self {
            ElasticKind::BraidedRubber => "braided-rubber",
            ElasticKind::FlatRubber => "flat-rubber",
            ElasticKind::BraidedPolyester => "braided-polyester",
            ElasticKind::Knitted => "knitted",
            ElasticKind::Woven => "woven",
            ElasticKind::ClearPolyurethane => "clear-polyurethane",
            ElasticKind::FoldOver => "fold-over",
            ElasticKind::Plush => "plush",
            ElasticKind::Strap => "strap",
            ElasticKind::Gripper => "gripper",
        }
    }

    /// The kind of that key, or `None`; see [`ElasticKind::key`].
    pub fn from_key(key: &str) -> Option<ElasticKind> {
        ElasticKind::ALL.into_iter().find(|kind| kind.key() == key)
    }
}

/// The elastic a maker has in her hand.
///
/// Built with [`ElasticChoice::new`], which refuses what is not a number.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ElasticChoice {
    kind: ElasticKind,
    width: Mm,
    k_newton: Option<f64>,
    latex: Latex,
    working_extension: Stretch,
}

/// Why an elastic is not one.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ElasticError {
    /// The width is not a number or outside what any kind is sold in.
    #[error("elastic width {mm} mm: give a width from {least} to {most} mm")]
    Width {
        /// As given, mm.
        mm: f64,
        /// Least of any kind, mm.
        least: f64,
        /// Greatest of any kind, mm.
        most: f64,
    },
    /// The measured force is not a number, zero, negative or beyond any elastic.
    #[error(
        "elastic force {newton} N: give the force in newtons at double length, above 0 and up to {most} N; leave it out \
         if it was not measured"
    )]
    Force {
        /// As given, N.
        newton: f64,
        /// Greatest taken, N.
        most: f64,
    },
    /// The tested working extension is not a number or out of range.
    #[error("elastic working extension {percent} %: give a per cent from {least} to {most}")]
    Extension {
        /// As given, per cent.
        percent: f64,
        /// Least taken, per cent.
        least: f64,
        /// Greatest taken, per cent.
        most: f64,
    },
}

/// Least and greatest width any kind is sold in, mm.
const WIDTHS_MM: (f64, f64) = (3.0, 50.0);
/// No sewing elastic pulls harder at double length (own: 50 mm webbing pulls well under it). Catches grams for newtons.
const MOST_K_NEWTON: f64 = 200.0;
/// Bounds of a tested working extension, per cent (own).
const EXTENSION_PERCENT: (f64, f64) = (10.0, 400.0);

impl Default for ElasticChoice {
    /// 8 mm cotton-covered braided rubber, not measured: the usual leg elastic.
    fn default() -> Self {
        ElasticChoice::of_kind(ElasticKind::default(), Mm::new(8.0))
    }
}

impl ElasticChoice {
    /// An elastic of that kind and width.
    ///
    /// `k_newton`: the measured force at 100 % stretch (double length) in N, above 0 and up to 200; `None` if it was not
    /// measured. `latex`: what the label says; `None` takes what is usual for the kind. `working_extension`: tested on this
    /// elastic, 10 to 400 %; `None` takes the low end of the kind's band.
    ///
    /// # Errors
    /// Every fault at once: [`ElasticError::Width`] outside 3 to 50 mm, [`ElasticError::Force`],
    /// [`ElasticError::Extension`].
    pub fn new(
        kind: ElasticKind,
        width: Mm,
        k_newton: Option<f64>,
        latex: Option<Latex>,
        working_extension: Option<Stretch>,
    ) -> Result<ElasticChoice, Vec<ElasticError>> {
        let mut faults = Vec::new();
        let (least, most) = WIDTHS_MM;
        if !(least..=most).contains(&width.get()) {
            faults.push(ElasticError::Width {
                mm: width.get(),
                least,
                most,
            });
        }
        if let Some(newton) = k_newton
            && !(newton > 0.0 && newton <= MOST_K_NEWTON)
        {
            faults.push(ElasticError::Force {
                newton,
                most: MOST_K_NEWTON,
            });
        }
        if let Some(tested) = working_extension {
            let (least, most) = EXTENSION_PERCENT;
            if !(least..=most).contains(&tested.percent()) {
                faults.push(ElasticError::Extension {
                    percent: tested.percent(),
                    least,
                    most,
                });
            }
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let usual = ElasticChoice::of_kind(kind, width);
        Ok(ElasticChoice {
            k_newton,
            latex: latex.unwrap_or(usual.latex),
            working_extension: working_extension.unwrap_or(usual.working_extension),
            ..usual
        })
    }

    fn of_kind(kind: ElasticKind, width: Mm) -> ElasticChoice {
        let facts = kind.facts();
        ElasticChoice {
            kind,
            width,
            k_newton: None,
            latex: facts.latex,
            working_extension: facts.working_extension.0,
        }
    }

    /// What it is.
    pub const fn kind(&self) -> ElasticKind {
        self.kind
    }

    /// Its width at rest.
    pub const fn width(&self) -> Mm {
        self.width
    }

    /// The measured force at double length, N.
    pub const fn k_newton(&self) -> Option<f64> {
        self.k_newton
    }

    /// Whether it holds latex.
    pub const fn latex(&self) -> Latex {
        self.latex
    }

    /// How far it may be stretched in wear.
    pub const fn working_extension(&self) -> Stretch {
        self.working_extension
    }
}

impl fmt::Display for ElasticChoice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm {}", self.width.get(), self.kind.facts().name)
    }
}
