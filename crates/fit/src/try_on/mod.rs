//! What a wearer says at a try-on, in the trade's words, and what to change for it.
//!
//! A complaint has several causes; the remedies stand with the likeliest and least costly first, each with its reason and, where this
//! suit's own numbers say something to it, with those. A remedy is a change of the design, or something to do with needle and
//! pins that no parameter can stand for. Nothing is changed here: the maker accepts, the draft is drawn anew.
//!
//! **Source.** Common practice, no single source; the order and the amounts own.
//! **Limits.** Words, not a diagnosis: two complaints at once may have one cause, and a toile shows which.

mod remedies;

use cloth::{Fit, OwnFit};
use draft::{BackShape, BustShaping, Cups, Design, Draft, LiningCover, Seat, Shared};
use serde::Serialize;

use crate::FitReport;
use remedies::remedies;

/// What she says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Complaint {
    /// Rides up at the back.
    RidesUpBehind,
    /// The front leg shows too much.
    RidesUpInFront,
    /// Gapes at the neckline.
    NecklineGapes,
    /// Gapes at the armhole.
    ArmholeGapes,
    /// The back stands off.
    BackGapes,
    /// Straps slip off the shoulder.
    StrapsSlip,
    /// Straps dig in.
    StrapsDig,
    /// The leg cuts in.
    LegCutsIn,
    /// The leg gapes.
    LegGapes,
    /// Too long in the body: folds across.
    TooLong,
    /// Too short in the body: pulls at shoulder and crotch.
    TooShort,
    /// Folds across the back waist only.
    BackWaistFolds,
    /// Squashes the bust.
    SquashesBust,
    /// The bust is not held.
    BustNotHeld,
    /// Too tight around.
    TooTight,
    /// Too loose around.
    TooLoose,
    /// Rolls or slides down at the waist.
    WaistSlides,
    /// Hard to get into.
    HardToGetInto,
    /// Skirt too short.
    SkirtShort,
    /// Skirt too long.
    SkirtLong,
}

impl Complaint {
    /// All, from the top of the body down.
    pub const ALL: [Complaint; 20] = [
        Complaint::StrapsSlip,
        Complaint::StrapsDig,
        Complaint::NecklineGapes,
        Complaint::ArmholeGapes,
        Complaint::BackGapes,
        Complaint::SquashesBust,
        Complaint::BustNotHeld,
        Complaint::TooTight,
        Complaint::TooLoose,
        Complaint::TooLong,
        Complaint::TooShort,
        Complaint::BackWaistFolds,
        Complaint::WaistSlides,
        Complaint::RidesUpBehind,
        Complaint::RidesUpInFront,
        Complaint::LegCutsIn,
        Complaint::LegGapes,
        Complaint::HardToGetInto,
        Complaint::SkirtShort,
        Complaint::SkirtLong,
    ];

    /// In her words.
    pub const fn words(self) -> &'static str {
        match self {
            Complaint::RidesUpBehind => "Rides up at the back",
            Complaint::RidesUpInFront => "Shows too much at the front leg",
            Complaint::NecklineGapes => "Gapes at the neckline",
            Complaint::ArmholeGapes => "Gapes at the armhole",
            Complaint::BackGapes => "Stands off at the back",
            Complaint::StrapsSlip => "Straps slip",
            Complaint::StrapsDig => "Straps dig in",
            Complaint::LegCutsIn => "Leg cuts in",
            Complaint::LegGapes => "Leg gapes",
            Complaint::TooLong => "Too long in the body",
            Complaint::TooShort => "Pulls at shoulder and crotch",
            Complaint::BackWaistFolds => "Folds across the back waist",
            Complaint::SquashesBust => "Squashes the bust",
            Complaint::BustNotHeld => "Does not hold the bust",
            Complaint::TooTight => "Too tight around",
            Complaint::TooLoose => "Too loose around",
            Complaint::WaistSlides => "Slides or rolls at the waist",
            Complaint::HardToGetInto => "Hard to get into",
            Complaint::SkirtShort => "Skirt too short",
            Complaint::SkirtLong => "Skirt too long",
        }
    }

    /// Whether it can be said of a suit of this design.
    pub fn is_of(self, design: &Design, draft: &Draft) -> bool {
        let style = design.style;
        let has = |shared| style.has(shared);
        let is_high = has(Shared::Neckline);
        match self {
            Complaint::StrapsSlip | Complaint::StrapsDig => has(Shared::Strap),
            Complaint::NecklineGapes | Complaint::ArmholeGapes => is_high,
            Complaint::BackGapes => has(Shared::Back),
            Complaint::SquashesBust | Complaint::BustNotHeld => has(Shared::Cups) || has(Shared::BustShaping),
            Complaint::TooTight | Complaint::TooLoose | Complaint::HardToGetInto => true,
            Complaint::TooLong | Complaint::TooShort | Complaint::BackWaistFolds => {
                style.spec().has_trunk_loop
            }
            Complaint::WaistSlides => {
                draft.openings.iter().any(|o| o.kind == draft::OpeningKind::Waist)
                    && !style.spec().has_trunk_loop
            }
            Complaint::RidesUpBehind | Complaint::RidesUpInFront => has(Shared::Leg) && has(Shared::Seat),
            Complaint::LegCutsIn | Complaint::LegGapes => has(Shared::Leg),
            Complaint::SkirtShort | Complaint::SkirtLong => design.skirt.is_some(),
        }
    }
}

/// A change of the design. Lengths are added to what is in force, mm on the body or finished.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Change {
    /// Neckline deeper by, or higher where negative.
    NeckDepth(f64),
    /// Back lower by.
    BackDepth(f64),
    /// Strap wider by.
    StrapWidth(f64),
    /// Strap further out by this share of the shoulder.
    StrapPosition(f64),
    /// Finished side seam longer by: the leg is cut lower.
    SideSeam(f64),
    /// Crotch wider by.
    CrotchWidth(f64),
    /// Skirt longer by.
    SkirtCover(f64),
    /// Another seat.
    Seat(Seat),
    /// Another fit.
    Fit(Fit),
    /// Another back.
    Back(BackShape),
    /// Another shaping over the bust.
    Bust(BustShaping),
    /// Another lining.
    Lining(LiningCover),
    /// Cups.
    Cups(Cups),
    /// Sway back: more taken out by.
    SwayBack(f64),
    /// Fuller seat by, flatter where negative.
    FigureSeat(f64),
    /// Shoulder seam further forward by.
    ShoulderForward(f64),
    /// Bust point higher by.
    BustHeight(f64),
    /// Waist higher by: a longer rise.
    RiseLength(f64),
    /// Wide side seams, to fit once more.
    FirstFitting,
}

/// One thing to do about a complaint.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Remedy {
    /// What to do: `Straps 6 % of the shoulder nearer the neck`.
    pub says: String,
    /// Why that may be it.
    pub why: String,
    /// The change; none for what is done by hand on the suit that is there.
    pub change: Option<Change>,
}

/// What to do about a complaint on this suit, the likeliest first. Never empty for one that [`Complaint::is_of`] it.
pub fn about(complaint: Complaint, design: &Design, draft: &Draft, fit: &FitReport) -> Vec<Remedy> {
    remedies(complaint, design, draft, fit)
}

/// The fit after the side seams were pinned in at a fitting by so many mm each (let out where negative), so that the next draft
/// is as wide as the pinned suit at its widest level. `None` where that cannot be drafted, or the suit has no level it is
/// stretched at.
///
/// The worn stretch of a level grows in proportion to the share of the cloth's stretch used around; a pin that takes t in takes it
/// off front and back, at both sides.
pub fn fit_as_pinned(fit: Fit, draft: &Draft, pinned_each_mm: f64) -> Option<Fit> {
    let widest = draft
        .levels
        .iter()
        .filter(|l| l.pattern_mm > 0.0)
        .max_by(|a, b| a.pattern_mm.total_cmp(&b.pattern_mm))?;
    let girth = widest.pattern_mm - 4.0 * pinned_each_mm;
    if girth <= 0.0 {
        return None;
    }
    let worn = |girth: f64| widest.body_mm / girth - 1.0;
    let before = worn(widest.pattern_mm);
    if before < 1e-3 {
        return None;
    }
    let around = fit.around() * worn(girth) / before;
    OwnFit::new(around, fit.lengthwise()).ok().map(Fit::Own)
}
