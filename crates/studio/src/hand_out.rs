//! A suit's booklet: for its maker or for a class, in one language, as PDF or as pages.
//!
//! **Shapes and units.** A suit file and its [`Order`] in, named bytes out; same suit, same bytes.
//! **Limits.** PDF needs the typesetter (feature `typeset`); a build without it says so.

use body::{BodyForm, Dimension};
use booklet::{Booklet, Choice, Edition, Plan, Suit, compose};
use cloth::Layer;
use make::{Making, MakingInput, Shopping, ShoppingInput, WornStretch, making, shopping};
use units::Mm;
use words::Language;

use crate::cli::folder::Sheet;
use crate::laying::Lays;
use crate::order::Order;
use crate::suit_file::{PaperChoice, SuitFile};
use crate::workroom_file::Room;

/// Why a booklet could not be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotSet {
    /// This program was built without the typesetter.
    NoTypesetter,
    /// The typesetter refused it: a fault of ours.
    Fault(String),
}

impl std::fmt::Display for NotSet {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            NotSet::NoTypesetter => write!(f, "this slackwater was built without its typesetter"),
            NotSet::Fault(says) => write!(f, "{says}"),
        }
    }
}

impl std::error::Error for NotSet {}

impl NotSet {
    /// What to do about it.
    pub fn help(&self) -> &'static str {
        match self {
            NotSet::NoTypesetter => "build it without `--no-default-features`, or ask for --html",
            NotSet::Fault(_) => "please report it with the suit file; --html may still work",
        }
    }
}

/// The document of a suit's booklet, its stitches chosen for the machines and samples of that workroom.
pub fn booklet_of(suit: &SuitFile, order: &Order, room: &Room, lays: &Lays, choice: Choice) -> Booklet {
    let cautions: Vec<&str> = order.cautions.iter().map(|c| c.id).collect();
    let (making, shopping) = plan_with_lays(suit, order, room, &lays.lengths());
    compose(
        &Suit {
            name: &suit.name,
            wearer: &suit.wearer.name,
            version: &order.version,
            body: &order.body,
            cloth: &order.cloth,
            draft: &order.draft,
            fit_key: suit.design.fit.key(),
            fit: &order.fit,
            elastic: &order.elastic,
            elastic_to_buy: &order.elastic_to_buy,
            cut_list: &order.cut_list,
            plan: Some(Plan {
                making: &making,
                workroom: &room.workroom,
                shopping: Some(&shopping),
            }),
            cautions: &cautions,
            notes: &suit.notes,
            first_unit: suit.units,
        },
        choice,
    )
}

/// Stitches, steps and shopping list of the suit in that workroom; cloth by area, without a lay.
pub fn plan_of(suit: &SuitFile, order: &Order, room: &Room) -> (Making, Shopping) {
    plan_with_lays(suit, order, room, &[])
}

/// The same, with the length each layer takes where it was laid.
pub fn plan_with_lays(
    suit: &SuitFile,
    order: &Order,
    room: &Room,
    lays: &[(Layer, Mm)],
) -> (Making, Shopping) {
    let (masses, worn) = (masses(suit), stretches(order, None));
    let input = input((suit, order, room), &worn, &masses);
    let making = making(&input);
    let girth = |d: Dimension| order.body.mm(d);
    let cup = girth(Dimension::BustGirth)
        .zip(girth(Dimension::UnderbustGirth))
        .map(|(b, u)| Mm::new(b - u));
    let more = ShoppingInput {
        lays,
        cup_difference: cup.filter(|_| suit.wearer.form == BodyForm::Woman),
        stock: &room.stock_for(suit),
        prices: &room.prices_for(suit),
    };
    let shopping = shopping(&input, &making, &more);
    (making, shopping)
}

/// Stitches and steps alone, from these stretches where they are given.
pub(crate) fn stitches_of(
    suit: &SuitFile,
    order: &Order,
    room: &Room,
    solved: Option<&WornStretch>,
) -> Making {
    let (masses, worn) = (masses(suit), stretches(order, solved));
    making(&input((suit, order, room), &worn, &masses))
}

/// The stretches a plan is made from: the solved ones where the suit was solved, else the draft's own.
fn stretches(order: &Order, solved: Option<&WornStretch>) -> WornStretch {
    let known = solved.or(order.worn.as_ref()).cloned();
    known.unwrap_or_else(|| WornStretch::of_draft(&order.draft))
}

/// Mass of each cloth where it was entered.
fn masses(suit: &SuitFile) -> Vec<(Layer, f64)> {
    let entries = [
        (Layer::Shell, Some(&suit.shell)),
        (Layer::Lining, suit.lining.as_ref()),
        (Layer::Mesh, suit.mesh.as_ref()),
        (Layer::Contrast, suit.contrast.as_ref()),
    ];
    entries
        .into_iter()
        .filter_map(|(layer, entry)| Some((layer, entry?.record.mass_g_per_m2?)))
        .collect()
}

fn input<'a>(
    (suit, order, room): (&'a SuitFile, &'a Order, &'a Room),
    worn: &'a WornStretch,
    masses: &'a [(Layer, f64)],
) -> MakingInput<'a> {
    MakingInput {
        draft: &order.draft,
        design: &suit.design,
        cloth: &order.cloth,
        elastic: &suit.elastic,
        workroom: &room.workroom,
        samples: &room.samples,
        worn,
        masses,
        is_child: suit.wearer.form == BodyForm::Child,
    }
}

/// Whether this program was built with the typesetter.
pub const CAN_SET_PDF: bool = cfg!(feature = "typeset");

/// `booklet-a4.pdf`, `booklet-class-de-letter.pdf`.
pub fn pdf_name(choice: Choice, paper: PaperChoice) -> String {
    let edition = match choice.edition {
        Edition::Maker => "",
        Edition::Class => "-class",
    };
    let language = match choice.language {
        Language::English => String::new(),
        other => format!("-{}", other.tag()),
    };
    let paper = match paper {
        PaperChoice::A4 => "a4",
        PaperChoice::Letter => "letter",
    };
    format!("booklet{edition}{language}-{paper}.pdf")
}

/// The booklet as PDF on that paper, and how many pages it has.
///
/// # Errors
/// [`NotSet`].
#[cfg(feature = "typeset")]
pub fn pdf(booklet: &Booklet, paper: PaperChoice) -> Result<(Vec<u8>, usize), NotSet> {
    let paper = match paper {
        PaperChoice::A4 => sheet::Paper::A4,
        PaperChoice::Letter => sheet::Paper::Letter,
    };
    booklet::pdf(booklet, paper).map_err(|fault| NotSet::Fault(fault.to_string()))
}

/// The booklet as PDF; this build has no typesetter.
///
/// # Errors
/// [`NotSet::NoTypesetter`], always.
#[cfg(not(feature = "typeset"))]
pub fn pdf(_: &Booklet, _: PaperChoice) -> Result<(Vec<u8>, usize), NotSet> {
    Err(NotSet::NoTypesetter)
}

/// The booklet as a folder of pages: open `index.html`.
pub fn pages(booklet: &Booklet) -> Vec<Sheet> {
    let files = booklet::html(booklet).into_iter();
    files
        .map(|f| Sheet {
            name: f.name,
            bytes: f.bytes,
        })
        .collect()
}
