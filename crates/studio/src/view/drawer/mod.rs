//! The drawer: a favourite suit to copy or a bought pattern to adapt, step by step, and what comes of it.
//!
//! [`drawer_view`] shows what was written so far and what is asked next; it is quick. [`copy_view`] and [`sheet_view`] are the
//! results, worked out only when they are asked for.
//!
//! **Shapes and units.** Drawings in mm, y down, fold or middle at x = 0, waist at y = 0.

mod asked;
mod copied;
mod drawn;
mod found;
mod papers;
mod sheet;
mod suit;
mod taken;
#[cfg(test)]
mod tests;

use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use super::{Choice, Frame, Head, Named, Note, Quantity, Spot, Stamp, Why};

pub use asked::{DrawerAround, drawer_view};
pub use copied::copy_view;
pub use papers::{DrawerPapers, LINKS};
pub use sheet::sheet_view;
pub use suit::suit_of_drawer;

/// One thing of the drawer as its page asks for it.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DrawerView {
    /// The document with the revision shown.
    pub item: Stamp,
    /// What she calls it.
    pub name: String,
    /// `suit` or `pattern`.
    pub of: String,
    /// Her unit.
    pub units: String,
    /// What "Back one" would undo.
    pub back: Option<String>,
    /// What "Forward" would do again.
    pub forward: Option<String>,
    /// What it is and whom it is for.
    pub what: Head,
    /// Words to choose: shapes of a suit, how a pattern was measured and how tight it is to be.
    pub choices: Vec<Choice>,
    /// Wearers there are.
    pub wearers: Vec<Named>,
    /// Whom it fits, or is to fit.
    pub wearer: Option<String>,
    /// The measures.
    pub measuring: Head,
    /// All measures, in the order they are best taken.
    pub measures: Vec<DrawerMeasure>,
    /// Key of the one to take now; none when all that is asked for is there.
    pub now: Option<String>,
    /// What lies on the table.
    pub sides: Vec<DrawnSide>,
    /// Where the tape goes for each measure.
    pub tapes: Vec<DrawerTape>,
    /// The cloths.
    pub cloth: Head,
    /// Cloths there are.
    pub cloths: Vec<Named>,
    /// Cloth of the suit as it is; none for a pattern.
    pub old: Option<DrawerCloth>,
    /// Cloth of what is to be sewn.
    pub new: DrawerCloth,
    /// Other sizes of the envelope; empty for a suit.
    pub sizes: Vec<DrawerSize>,
    /// The stretch the envelope asks, as typed.
    pub stretch_asked: String,
    /// The size the measures were taken on, as typed.
    pub size: String,
    /// What still keeps the result from being worked out, a sentence each.
    pub waits_for: Vec<String>,
}

/// One measure of a suit or pattern.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DrawerMeasure {
    /// Key: `across_waist`.
    pub key: String,
    /// Where it is kept in the document.
    pub path: String,
    /// Name in a sentence.
    pub name: String,
    /// How the tape is laid.
    pub how: String,
    /// Whether it is asked for; the others sharpen the answer.
    pub is_asked: bool,
    /// As she typed it; empty when it is not taken.
    pub typed: String,
    /// The same read; none when it is not taken or cannot be read.
    pub quantity: Option<Quantity>,
    /// What is wrong with it.
    pub problem: Option<Note>,
}

/// A cloth of the drawer: a swatch of the workroom, or a stretch typed by hand.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DrawerCloth {
    /// Where it is kept in the document: `old`, `new`.
    pub path: String,
    /// `swatch` or `typed`.
    pub from: String,
    /// Id of the swatch.
    pub swatch: Option<String>,
    /// Stretch around as typed.
    pub around: String,
    /// Stretch lengthwise as typed.
    pub lengthwise: String,
    /// What is known of it, in a sentence.
    pub says: String,
    /// What is missing or wrong with it.
    pub notes: Vec<Note>,
}

/// Another size of the envelope.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DrawerSize {
    /// Its key in the document.
    pub key: String,
    /// What the envelope calls it.
    pub name: String,
    /// Its widths.
    pub measures: Vec<DrawerMeasure>,
}

/// One thing drawn: the front of a suit, half a back.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DrawnSide {
    /// `front`, `back`.
    pub key: String,
    /// Its name.
    pub name: String,
    /// The box of all of it.
    pub frame: Frame,
    /// What shows behind it.
    pub behind: Option<String>,
    /// Its outline, filled as paper.
    pub paper: String,
    /// Lines on it.
    pub lines: Vec<DrawnPath>,
    /// Words on it.
    pub words: Vec<DrawnWords>,
}

/// A line of a drawing.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DrawnPath {
    /// `cut`, `seam`, `fold`, `level`, `measured`, `doubtful`, `next`, `change`, `slash`.
    pub kind: String,
    /// SVG path.
    pub path: String,
}

/// Words of a drawing.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DrawnWords {
    /// Where.
    pub at: Spot,
    /// `start`, `middle` or `end`: what of them stands there.
    pub anchor: String,
    /// The words.
    pub says: String,
    /// As of the line they belong to.
    pub kind: String,
}

/// Where the tape goes.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct DrawerTape {
    /// Key of the measure.
    pub measure: String,
    /// Key of the side it lies on.
    pub side: String,
    /// SVG path of the tape.
    pub path: String,
    /// Where it goes on behind.
    pub behind: String,
    /// A level it is read at, dotted.
    pub level: String,
}

/// A copied suit, or why there is none.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct CopyView {
    /// State, summary, notes.
    pub head: Head,
    /// The suit that was found; none when it could not be.
    pub copy: Option<CopiedSuit>,
}

/// A suit found from its flat measures.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct CopiedSuit {
    /// The suit that was found in ink, what was measured on it as bars, the new one in dots.
    pub sides: Vec<DrawnSide>,
    /// Name of the old cloth.
    pub old_cloth: String,
    /// Name of the new cloth.
    pub new_cloth: String,
    /// Shares of the stretch used, around and lengthwise.
    pub shares: Vec<FoundLine>,
    /// Worn stretch by place, in both cloths.
    pub ease: Vec<EaseLine>,
    /// What was found of the design.
    pub found: Vec<FoundLine>,
    /// How each measure is met.
    pub measures: Vec<MetLine>,
    /// Measures that contradict the others, the likeliest first; empty when all agree.
    pub suspects: Vec<SuspectLine>,
    /// Measures no other checks.
    pub unchecked: Vec<String>,
    /// Whether the suit can be made of it: nothing contradicts.
    pub can_make: bool,
}

/// One thing that was found, and why.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct FoundLine {
    /// Name.
    pub name: String,
    /// Value.
    pub value: Quantity,
    /// How sure it is: `give or take 2 mm`.
    pub sure: String,
    /// Why.
    pub why: Why,
}

/// Worn stretch at a place in both cloths.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct EaseLine {
    /// Place: `waist`, `lengthwise`.
    pub place: String,
    /// In the old cloth.
    pub old: Quantity,
    /// In the new one.
    pub new: Quantity,
    /// Why it is not the plain proportion; empty when it is.
    pub says: String,
    /// Why.
    pub why: Why,
}

/// How a measure is met.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct MetLine {
    /// Key of the measure.
    pub key: String,
    /// Name.
    pub name: String,
    /// As measured.
    pub taken: Quantity,
    /// On the suit that was found.
    pub found: Quantity,
    /// The difference, signed.
    pub off: Quantity,
    /// Where the bar of the chart ends: -1 to 1, ±1 at four times what the reading varies by.
    pub bar: f64,
    /// How it stands: `good`, `doubtful`, `left_out`, `unchecked`.
    pub stands: String,
    /// In words.
    pub says: String,
    /// Why.
    pub why: Why,
}

/// A measure that may be wrong.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SuspectLine {
    /// Key of the measure.
    pub key: String,
    /// Name.
    pub name: String,
    /// As measured.
    pub taken: Quantity,
    /// What the others ask of it.
    pub needs: Quantity,
    /// `Measure the waist again: it would need 31.0 cm.`
    pub says: String,
    /// How it is taken.
    pub how: String,
    /// Whether it was left out of the copy.
    pub is_left_out: bool,
}

/// A change sheet, or why there is none.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SheetView {
    /// State, summary, notes.
    pub head: Head,
    /// The sheet; none when it could not be made.
    pub sheet: Option<ChangeSheetView>,
}

/// How a bought pattern is changed.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ChangeSheetView {
    /// `adapt`, `another_size`, `redraft`.
    pub verdict: String,
    /// The verdict in a sentence.
    pub says: String,
    /// What to do about it; empty when there is nothing.
    pub next: String,
    /// Name and size of the pattern.
    pub pattern: String,
    /// Whom it is for.
    pub wearer: String,
    /// Of what.
    pub cloth: String,
    /// Half front and half back with the lines of change.
    pub sides: Vec<DrawnSide>,
    /// Changes of width.
    pub widths: Vec<ChangeLine>,
    /// Changes of length.
    pub lengths: Vec<ChangeLine>,
    /// Torso loop, front waist length, crotch length: paper against body.
    pub needs: Vec<ChangeLine>,
    /// What each other size would need.
    pub sizes: Vec<SizeLine>,
    /// What the cloth's stretch means for it.
    pub stretch: Option<StretchLine>,
    /// What to true afterwards, in order.
    pub truing: Vec<TrueLine>,
}

/// One change of the paper.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct ChangeLine {
    /// Level or line: `bust`, `L2`.
    pub name: String,
    /// Where it is made, in words.
    pub place: String,
    /// On the paper, if it was measured.
    pub paper: Option<Quantity>,
    /// As it should be.
    pub wanted: Option<Quantity>,
    /// The change, signed: of a quarter, or of the front on a line.
    pub change: Quantity,
    /// On the back, where it differs in kind: the back's change on a line.
    pub back: Option<Quantity>,
    /// Whether it is more than an adaptation.
    pub is_over: bool,
    /// Why.
    pub why: Why,
}

/// What another size would need.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SizeLine {
    /// Its name.
    pub name: String,
    /// `bust +2 mm, waist -1 mm`: each quarter.
    pub says: String,
    /// Whether every change is small enough.
    pub is_within: bool,
}

/// The envelope's stretch against the cloth's.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct StretchLine {
    /// What the envelope asks.
    pub asked: Quantity,
    /// What the cloth has around.
    pub cloth: Quantity,
    /// What that means, in a sentence.
    pub says: String,
    /// Each level of the unchanged paper: `bust: 24 % worn, 28 % of what the cloth has`.
    pub levels: Vec<String>,
}

/// One thing to true.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct TrueLine {
    /// Where.
    pub place: String,
    /// What to do.
    pub what: String,
}
