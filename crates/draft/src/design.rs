//! A design: a style and its parameters, as a maker sets them. No lengths of the body in here.

use body::BodyForm;
use cloth::Fit;
use serde::Serialize;
use units::{Level, Mm};

use crate::factors::FRONT_LENGTH_SHARE;
use crate::parameter::{Parameter, Setting, Settings, Shared};
use crate::style::{Family, Style, StyleSpec};

/// Shape of the front neckline.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NeckShape {
    /// A round scoop.
    #[default]
    Scoop,
    /// Square with rounded corners.
    Square,
    /// A V to the fold.
    V,
    /// A scoop close under the neck.
    High,
}

/// How deep the front neckline lies.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum NeckDepth {
    /// Share: 0.05 high to 0.60 plunging, 0.5 is bust level.
    Share(f64),
    /// On the body, straight down from the neck pit.
    BelowNeckPit(Mm),
}

/// Shape of the back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BackShape {
    /// A round scoop.
    #[default]
    Scoop,
    /// A V to the fold.
    V,
    /// Straps drawn together between the shoulder blades.
    Racer,
    /// A low scoop with separate straps that cross.
    CrossedStraps,
}

/// How deep the back lies. Ignored by a racer back, whose depth follows the armhole.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BackDepth {
    /// Share of the back waist length: 0.05 high to 0.95 nearly the waist.
    Share(f64),
    /// On the body, down from the nape.
    BelowNape(Mm),
}

/// How high the leg is cut.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LegHeight {
    /// Just above the hip level.
    Low,
    /// The usual.
    #[default]
    Mid,
    /// High over the hip bone.
    High,
    /// Nearly to the waist.
    ExtraHigh,
    /// Share of waist-to-hip below the waist: 0.05 to 1.0.
    Share(f64),
    /// By the finished side seam, as a maker can measure on a suit she likes.
    SideSeam(Mm),
}

/// How much of the seat the back leg covers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Seat {
    /// Full cover.
    #[default]
    Full,
    /// Somewhat less.
    Moderate,
    /// Half.
    Cheeky,
}

/// How high a brief comes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rise {
    /// Low on the hip.
    Low,
    /// Between hip bone and waist.
    #[default]
    Mid,
    /// At the waist.
    High,
}

/// How the front is shaped over the bust.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum BustShaping {
    /// Nothing, ease or a side dart, as the bust needs.
    #[default]
    Auto,
    /// A side dart.
    SideDart,
    /// Princess seams.
    Princess,
}

/// What is lined.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LiningCover {
    /// Nothing: not for swimming, but a toile may be.
    None,
    /// Front and back.
    Full,
    /// Front only.
    Front,
    /// The least a suit needs: its crotch; of a top, its front.
    #[default]
    Crotch,
}

/// Cups.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cups {
    /// None.
    #[default]
    None,
    /// Placement marks on the lining to sew cups to.
    Marks,
    /// A pocket in the lining to slip cups into.
    Pocket,
}

/// Fullness of a swim skirt.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum SkirtKind {
    /// A full circle.
    FullCircle,
    /// Half a circle.
    #[default]
    HalfCircle,
    /// A quarter circle.
    QuarterCircle,
    /// A slightly flared panel; flare angle of each half piece in radians, 0.10 to 0.35.
    FlaredPanel {
        /// Radians per half piece.
        flare: f64,
    },
}

/// Where a swim skirt joins the suit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum SkirtJoin {
    /// At the waist.
    #[default]
    Waist,
    /// At three quarters of the way from waist to hip.
    Hip,
    /// Under the bust.
    Underbust,
}

/// A swim skirt.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Skirt {
    /// How full.
    pub kind: SkirtKind,
    /// Where it joins.
    pub join: SkirtJoin,
    /// How far the hem hangs below the crotch level, 0 to 120 mm: "how long at the top of the leg".
    pub cover: Mm,
}

/// Corrections for a figure, mm on the body; all nought unless the maker knows better than the dimensions. What each moves and by
/// how much stands in the draft's findings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// Taken out of the centre back at the waist, 0 to 15: only after a toile.
    pub sway_back: Mm,
    /// Hip girth moved to the back for a full seat, or, negative, to the front for a flat one: -20 to 20.
    pub seat: Mm,
    /// High hip girth moved to the front for a full abdomen, 0 to 40.
    pub abdomen: Mm,
    /// How much further forward the shoulder seam lies, 0 to 20.
    pub shoulder_forward: Mm,
    /// How much higher than taken the bust point lies, -25 to 25.
    pub bust_height: Mm,
    /// Extra length of the front over a belly in pregnancy, 0 to 60: some 15 in the first trimester, 35 in the second, 60 in the third.
    pub belly: Mm,
    /// How much higher than taken the waist lies: a long rise, or, negative, a short one; -25 to 25.
    pub rise_length: Mm,
}

impl Figure {
    /// No correction.
    pub const NONE: Figure = Figure {
        sway_back: Mm::ZERO,
        seat: Mm::ZERO,
        abdomen: Mm::ZERO,
        shoulder_forward: Mm::ZERO,
        bust_height: Mm::ZERO,
        belly: Mm::ZERO,
        rise_length: Mm::ZERO,
    };

    /// Whether there is nothing to correct.
    pub fn is_none(&self) -> bool {
        *self == Figure::NONE
    }
}

impl Default for Figure {
    fn default() -> Self {
        Figure::NONE
    }
}

/// What opens the suit for getting in and out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ClosureKind {
    /// A zip in the seam at the centre, from the neckline down.
    #[default]
    Zip,
    /// A slit from the neckline down that a flat clasp closes at its top.
    Clasp,
    /// A hook at the end of a neck piece.
    Hook,
    /// A ring at the end of a neck piece, and a hook that goes into it.
    Ring,
}

/// Where a closure sits.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ClosurePlace {
    /// At the centre of the back.
    #[default]
    Back,
    /// At the centre of the front.
    Front,
    /// Behind the neck.
    Neck,
}

/// An opening that is closed once the suit is on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Closure {
    /// What closes it.
    pub kind: ClosureKind,
    /// Where.
    pub place: ClosurePlace,
    /// How long it opens, from the edge it begins at, mm as sewn; nothing to a hook or ring, which open their edge altogether.
    pub length: Mm,
}

/// Seam allowances, mm outside the seam line.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Allowances {
    /// Joins but the side seam.
    pub seam: Mm,
    /// Side seams; 15 mm for a first fitting.
    pub side_seam: Mm,
    /// The crotch seam.
    pub crotch_seam: Mm,
    /// Turned hems.
    pub hem: Mm,
    /// Width of the elastic turned in at open edges; their allowance is 1 mm more.
    pub elastic_width: Mm,
}

impl Allowances {
    /// Side seams wide enough to let out at a first fitting.
    pub const FIRST_FITTING_SIDE: Mm = Mm::new(15.0);

    /// Allowance of an open edge that is turned over its elastic: elastic width + 1 mm for the turn of cloth.
    pub fn elastic_edge(&self) -> Mm {
        self.elastic_width + Mm::new(1.0)
    }
}

impl Default for Allowances {
    /// Common practice, no single source: 7 mm joins on the overlocker, 6 mm crotch, 20 mm hems, 8 mm elastic.
    fn default() -> Self {
        Allowances {
            seam: Mm::new(7.0),
            side_seam: Mm::new(7.0),
            crotch_seam: Mm::new(6.0),
            hem: Mm::new(20.0),
            elastic_width: Mm::new(8.0),
        }
    }
}

/// A whole design. `Default` is a beginner's one-piece: scoop neck and back, mid leg, full seat, crotch lining.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Design {
    /// What is drafted.
    pub style: Style,
    /// How tight.
    pub fit: Fit,
    /// Front neckline.
    pub neck_shape: NeckShape,
    /// Its depth; `None` for the shape's usual depth.
    pub neck_depth: Option<NeckDepth>,
    /// Back.
    pub back_shape: BackShape,
    /// Its depth; `None` for the shape's usual depth.
    pub back_depth: Option<BackDepth>,
    /// Strap width, 12 to 90 mm.
    pub strap_width: Mm,
    /// Where on the shoulder the strap's middle sits, 0.25 (neck) to 0.7; `None` for the back's usual place.
    pub strap_position: Option<f64>,
    /// Leg.
    pub leg: LegHeight,
    /// Seat.
    pub seat: Seat,
    /// Rise of a brief.
    pub rise: Rise,
    /// Finished width of the crotch; `None` for 66 mm (women), 84 (men), 54 (children).
    pub crotch_width: Option<Mm>,
    /// Shaping over the bust.
    pub bust_shaping: BustShaping,
    /// Lining.
    pub lining: LiningCover,
    /// Cups.
    pub cups: Cups,
    /// Skirt.
    pub skirt: Option<Skirt>,
    /// Corrections for the figure.
    #[serde(skip_serializing_if = "Figure::is_none")]
    pub figure: Figure,
    /// Room for a child to grow, round the trunk and in sleeves, 0 to 25 mm on the body.
    #[serde(skip_serializing_if = "is_nought")]
    pub growth: Mm,
    /// What opens it.
    pub closure: Option<Closure>,
    /// What the style has for itself.
    pub own: Settings,
    /// Allowances.
    pub allowances: Allowances,
}

fn is_nought(mm: &Mm) -> bool {
    *mm == Mm::ZERO
}

impl Design {
    /// How far the lining reaches: what the least means for this style. A two-piece's top is lined in front.
    pub fn lining_worn(&self) -> LiningCover {
        match (self.lining, self.style.spec().family) {
            (LiningCover::Crotch, Family::Top | Family::TwoPiece) => LiningCover::Front,
            (lining, _) => lining,
        }
    }

    /// Shares of the fit's length ease that front and back are drafted with at a level of that form of body: all of it, three quarters
    /// for a woman's front above the waist, none of what hangs ([`StyleSpec::is_held_below`]).
    pub fn length_shares(&self, form: BodyForm, level: Level) -> [f64; 2] {
        let spec = self.style.spec();
        let is_above = level < Level::Waist;
        let is_held = match spec.parts.map(|parts| parts(&self.own)) {
            // A top that comes over the hips brings its levels down with it.
            Some([top, _]) if is_above || top.key == Style::TANKINI.key() => top.is_held_below(),
            Some([_, below]) => below.is_held_below(),
            None => spec.is_held_below(),
        };
        let front = if form == BodyForm::Woman && is_above {
            FRONT_LENGTH_SHARE
        } else {
            1.0
        };
        if is_held { [front, 1.0] } else { [0.0; 2] }
    }

    /// Whether a parameter of the style's own does anything to this suit: the panels' place nothing to a suit without panels, a band's
    /// height nothing to a two-piece whose top has no band.
    pub fn is_heard(&self, parameter: &Parameter) -> bool {
        let spec = self.style.spec();
        let has = |spec: &StyleSpec| spec.own.iter().any(|p| p.key == parameter.key);
        let is_there = match spec.parts {
            // What chooses the parts is none of theirs.
            Some(parts) => spec.chooses_parts(parameter) || parts(&self.own).into_iter().any(has),
            None => has(spec),
        };
        let needs = [parameter.only_with, parameter.or_with];
        is_there && (needs == [None, None] || needs.into_iter().flatten().any(|need| self.meets(need)))
    }

    /// Whether a key is one of these words, and heard itself.
    fn meets(&self, (key, words): (&str, &[&str])) -> bool {
        let is_word = |word: &str| words.is_empty() || words.contains(&word);
        match key {
            // A swim dress has its skirt whatever is said of it.
            "skirt" => self.skirt.is_some() || self.style.spec().family == Family::Dress,
            "cups" => {
                self.hears(Shared::Cups)
                    && match self.cups {
                        Cups::None => false,
                        Cups::Marks => is_word("marks"),
                        Cups::Pocket => is_word("pocket"),
                    }
            }
            "lining" => match self.lining_worn() {
                LiningCover::None => is_word("none"),
                LiningCover::Full => is_word("full"),
                LiningCover::Front => is_word("front"),
                LiningCover::Crotch => is_word("crotch"),
            },
            key => self.style.own(key).is_some_and(|governing| {
                self.is_heard(governing)
                    && match self.own.get(governing) {
                        Setting::Word(word) => is_word(word),
                        Setting::Yes(is_on) => is_on,
                        Setting::Length(mm) => mm.get() > 0.0,
                        Setting::Number(number) => number > 0.0,
                    }
            }),
        }
    }

    /// Whether a shared parameter does anything to this suit: of a two-piece, whether the top it has or its brief hears it.
    pub fn hears(&self, shared: Shared) -> bool {
        let spec = self.style.spec();
        match spec.parts {
            Some(parts) => {
                spec.shared.contains(&shared)
                    && parts(&self.own).iter().any(|part| part.shared.contains(&shared))
            }
            None => spec.shared.contains(&shared),
        }
    }

    /// A beginner's suit of a style: everything as usual.
    pub fn of(style: Style) -> Design {
        Design {
            style,
            fit: style.spec().usual_fit,
            ..Design::default()
        }
    }
}

impl Default for Design {
    fn default() -> Self {
        Design {
            style: Style::default(),
            fit: Fit::default(),
            neck_shape: NeckShape::default(),
            neck_depth: None,
            back_shape: BackShape::default(),
            back_depth: None,
            strap_width: Mm::new(38.0),
            strap_position: None,
            leg: LegHeight::default(),
            seat: Seat::default(),
            rise: Rise::default(),
            crotch_width: None,
            bust_shaping: BustShaping::default(),
            lining: LiningCover::default(),
            cups: Cups::default(),
            skirt: None,
            figure: Figure::NONE,
            growth: Mm::ZERO,
            closure: None,
            own: Settings::default(),
            allowances: Allowances::default(),
        }
    }
}
