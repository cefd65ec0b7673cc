//! What each dimension is called and how the tape is laid for it, in words a maker can read out while she measures.
//!
//! Names are those of ISO 8559-1 where it has the dimension; definitions and instructions are in our own words.
//!
//! **Source.** Names: ISO 8559-1 from memory, some seen in EN 13402-1 and the ISO 8559:1989 list; see the `grade`
//! column of `data/trade/body_dims.csv` (S seen, M from memory, D our own). Instructions: common practice, no single
//! source.
//! **Limits.** Clause numbers of the standard are not given: they were not checked.

use crate::dimension::{BodyForm, Dimension};

/// Whether a wearer can take a dimension of her own body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TakenAlone {
    /// She can.
    Alone,
    /// She can, in front of a mirror; a helper does better.
    WithMirror,
    /// Somebody else must hold the tape.
    NeedsHelper,
}

impl BodyForm {
    /// `a woman`, `a man`, `a child`: for sentences.
    pub const fn person(self) -> &'static str {
        match self {
            BodyForm::Woman => "a woman",
            BodyForm::Man => "a man",
            BodyForm::Child => "a child",
        }
    }

    /// How a body of this form is measured at all: what is worn, who is there.
    ///
    /// Source: common practice, no single source.
    pub const fn before_measuring(self) -> &'static str {
        match self {
            BodyForm::Woman => {
                "over thin underwear and a soft bra that does not shape; tie a thin elastic at the waist and leave it on; \
                 stand easily, breathe normally, tape level and snug without pressing"
            }
            BodyForm::Man => {
                "over thin underwear; tie a thin elastic at the waist and leave it on; stand easily, breathe normally, tape \
                 level and snug without pressing"
            }
            BodyForm::Child => {
                "with the parent or carer present, who may hold the tape; over thin close clothes, never bare; say first \
                 where the tape will go, and for crotch and trunk let the child or carer lay it; tie a thin elastic at the \
                 waist; measure again every few months"
            }
        }
    }
}

struct Guide {
    name: &'static str,
    definition: &'static str,
    how: &'static str,
    alone: TakenAlone,
}

impl Dimension {
    /// What the dimension is called on paper for a body of this form: `bust girth` (women), `chest girth` (men,
    /// children).
    pub const fn iso_name(self, form: BodyForm) -> &'static str {
        match (self, form) {
            (Dimension::BustGirth, BodyForm::Man | BodyForm::Child) => "chest girth",
            _ => self.guide().name,
        }
    }

    /// What the dimension is, in one phrase.
    pub const fn definition(self) -> &'static str {
        self.guide().definition
    }

    /// How the tape is laid, in one or two sentences. What goes for the whole body stands in
    /// [`BodyForm::before_measuring`].
    pub const fn how_to_take(self) -> &'static str {
        self.guide().how
    }

    /// Whether the wearer can take it alone.
    pub const fn taken_alone(self) -> TakenAlone {
        self.guide().alone
    }

    const fn guide(self) -> Guide {
        use TakenAlone::{Alone, NeedsHelper, WithMirror};
        let (name, definition, how, alone) = match self {
            Dimension::Stature => (
                "stature",
                "floor to the top of the head, standing",
                "stand barefoot, heels and back to a wall, look straight ahead; lay a book flat on the head against the wall \
                 and measure to its underside",
                WithMirror,
            ),
            Dimension::BustGirth => (
                "bust girth",
                "largest level girth of the trunk over the bust or chest",
                "round the fullest part of the bust and over the shoulder blades, level; read at the end of a normal breath",
                WithMirror,
            ),
            Dimension::UpperChestGirth => (
                "chest girth at armpit level",
                "girth high under the arms, above the bust",
                "lift the arms, lay the tape high under the armpits, lower the arms, read",
                NeedsHelper,
            ),
            Dimension::UnderbustGirth => (
                "under-bust girth",
                "level girth just under the breasts",
                "just below the breasts where a bra band lies, level; snug, after breathing out",
                Alone,
            ),
            Dimension::WaistGirth => (
                "waist girth",
                "level girth at the natural waist, midway between the lowest rib and the top of the hip bone",
                "along the elastic that marks the waist, relaxed, not drawn in",
                Alone,
            ),
            Dimension::HighHipGirth => (
                "top-hip girth",
                "level girth over the hip bones, between waist and hip",
                "over the front points of the hip bones, level",
                Alone,
            ),
            Dimension::HipGirth => (
                "hip girth",
                "largest level girth at the buttocks",
                "feet together, round the fullest part of the seat; look from the side that the tape lies level",
                WithMirror,
            ),
            Dimension::ThighGirth => (
                "thigh girth",
                "girth at the top of the thigh, just below the seat fold",
                "weight on both feet, slightly apart; round one thigh just under the fold of the seat, level",
                Alone,
            ),
            Dimension::NeckBaseGirth => (
                "neck-base girth",
                "girth round the base of the neck: over the neck bone behind, the side neck points and the neck pit in front",
                "lay the tape on its edge round the base of the neck, where a fine chain would lie",
                WithMirror,
            ),
            Dimension::ShoulderGirth => (
                "shoulder girth",
                "level girth over both shoulders and arms at their widest",
                "arms hanging; round shoulders and upper arms at the widest place, level",
                NeedsHelper,
            ),
            Dimension::ArmscyeGirth => (
                "armscye girth",
                "girth round the shoulder joint: over the shoulder point and under the armpit",
                "from the shoulder point, under the armpit and back, arm hanging",
                NeedsHelper,
            ),
            Dimension::UpperArmGirth => (
                "upper-arm girth",
                "largest girth of the relaxed upper arm",
                "arm hanging loose, round the fullest part; don't tense it",
                Alone,
            ),
            Dimension::WristGirth => (
                "wrist girth",
                "girth over the wrist bones",
                "round the wrist over both bones",
                Alone,
            ),
            Dimension::TrunkCircumference => (
                "trunk circumference",
                "closed loop from mid shoulder over the fullest bust, through the crotch and up the back to the same point",
                "from the middle of one shoulder, over the bust point, between the legs, up over the seat and back to the \
                 start; close but not tight; take it twice",
                NeedsHelper,
            ),
            Dimension::CrotchLength => (
                "total crotch length",
                "from the waist in front, through the crotch, to the waist behind",
                "from the lower edge of the waist elastic in front, between the legs, to its lower edge behind; close but not \
                 tight",
                Alone,
            ),
            Dimension::CrotchLengthFront => (
                "front crotch length",
                "the part of the total crotch length in front of the crotch point",
                "with the tape of the total crotch length in place, pinch it at the crotch point where a suit's crotch seam \
                 would lie, and read the front part",
                Alone,
            ),
            Dimension::BackWaistLength => (
                "back waist length",
                "from the neck bone that stands out on bending the head, down the spine to the waist",
                "bend the head to find the bone, straighten; down the middle of the back to the waist elastic",
                NeedsHelper,
            ),
            Dimension::FrontWaistLength => (
                "front waist length",
                "from the side neck point over the bust point to the waist",
                "from the side of the neck, over the fullest point of the bust, straight down to the waist elastic; keep the \
                 tape on the body below the bust; say so if it was taken down the middle instead",
                Alone,
            ),
            Dimension::SideNeckToBustPoint => (
                "side neck to bust point",
                "from the side neck point over the chest to the bust point",
                "read it in passing when the front waist length is taken; in the bra support the suit will have",
                Alone,
            ),
            Dimension::BustPointDistance => (
                "bust point width",
                "distance between the bust points",
                "straight across from point to point, not into the hollow between",
                Alone,
            ),
            Dimension::ShoulderLength => (
                "shoulder length",
                "from the side neck point to the shoulder point",
                "along the top of the shoulder to the bone at its end",
                NeedsHelper,
            ),
            Dimension::SideLength => (
                "side length",
                "from the underarm straight down the side to the waist",
                "hold a ruler or card high under the arm, arm hanging; from its upper edge to the waist elastic",
                NeedsHelper,
            ),
            Dimension::WaistToHip => (
                "waist to hip",
                "height between waist and hip level at the side",
                "vertically beside the body, from the waist elastic to the level where the hip was taken; along the curve the \
                 tape reads more",
                Alone,
            ),
            Dimension::RiseHeight => (
                "waist to crotch height",
                "height between waist and crotch, vertical",
                "sit upright on a hard flat chair; at the side, from the waist elastic straight down to the seat",
                WithMirror,
            ),
            Dimension::AcrossBack => (
                "back width",
                "across the back from arm fold to arm fold",
                "arms hanging, level across the shoulder blades, half way down the armscye",
                NeedsHelper,
            ),
            Dimension::AcrossFront => (
                "front width",
                "across the chest from arm fold to arm fold",
                "arms hanging, level above the bust, half way down the armscye",
                Alone,
            ),
            Dimension::ArmLength => (
                "arm length",
                "from the shoulder point over the bent elbow to the wrist bone",
                "hand on the hip; from the shoulder point over the elbow to the outer wrist bone",
                NeedsHelper,
            ),
            Dimension::CrotchHeight => (
                "inside leg length",
                "height of the crotch above the floor",
                "barefoot, back to a wall, a thin book pulled up lightly between the legs; from its upper edge to the floor",
                Alone,
            ),
            Dimension::WaistHeight => (
                "waist height",
                "height of the waist above the floor",
                "barefoot, at the side, from the waist elastic straight down to the floor",
                NeedsHelper,
            ),
        };
        Guide {
            name,
            definition,
            how,
            alone,
        }
    }
}
