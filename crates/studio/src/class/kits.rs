//! The kits of a class: a folder for each person, the sheets for the room with the lay plans of all kits, the class as data, a page that names it all.
//!
//! **Shapes and units.** A [`WorkedClass`] in, named bytes out, none written; people's kits are made side by side and come in order.

use booklet::Choice;
use rayon::prelude::*;
use serde::Serialize;
use sheet::listing::{self, Listing};
use sheet::{Paper, Printed};
use units::{Progress, Severity};

use super::bag::{Printout, bag_list};
use super::lays::kits_counter;
use super::voice::Voice;
use super::work::{Counter, Drafted, LAY_PARTS, PARTS, Stopped, WorkedClass};
use super::{Person, csv, index, report, room, shop};
use crate::cli::folder::Sheet;
use crate::hand_out::{NotSet, booklet_of, pages, pdf, pdf_name};
use crate::laying::{Laid, Lays};
use crate::paper::{Made, PackChoice, SUIT_FILE, make_prints};
use crate::suit_file::PaperChoice;

/// One person's kit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Kit {
    /// Her name.
    pub name: String,
    /// Her folder.
    pub folder: String,
    /// Version of her suit; none if it could not be drafted.
    pub version: Option<String>,
    /// The worst finding of her suit.
    pub worst: Option<Severity>,
    /// Why her suit could not be drafted; empty if it was.
    pub refused: Vec<String>,
    /// What lies in her folder.
    pub files: Vec<Made>,
}

/// All kits, with what is for everybody.
#[derive(Clone, Debug, PartialEq)]
pub struct Kits {
    /// The files, to be written.
    pub sheets: Vec<Sheet>,
    /// What each person got.
    pub kits: Vec<Kit>,
    /// What is for everybody.
    pub room: Vec<Made>,
}

/// Why there are no kits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum KitFault {
    /// It was asked to stop.
    Stopped,
    /// Somebody's paper was refused or could not be set.
    Paper {
        /// Whose; empty for a sheet of the room.
        name: String,
        /// Why.
        why: String,
    },
}

impl std::fmt::Display for KitFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            KitFault::Stopped => write!(f, "stopped"),
            KitFault::Paper { name, why } if name.is_empty() => write!(f, "{why}"),
            KitFault::Paper { name, why } => write!(f, "{name}: {why}"),
        }
    }
}

impl std::error::Error for KitFault {}

impl From<Stopped> for KitFault {
    fn from(_: Stopped) -> KitFault {
        KitFault::Stopped
    }
}

/// Name of a bag list in its folder.
const BAG_LIST: &str = "bag-list.pdf";
/// Says why there is no suit.
pub(super) const NOT_DRAFTED: &str = "not-drafted.txt";
/// The page that names everything.
pub(super) const INDEX: &str = "index.html";

/// The paper of a class.
fn paper_of(class: &WorkedClass) -> Paper {
    match class.setting.paper() {
        PaperChoice::A4 => Paper::A4,
        PaperChoice::Letter => Paper::Letter,
    }
}

/// Makes all kits. Goes on counting where [`super::lay_class`] ended; a class whose cloth was not laid has no lay plan.
///
/// # Errors
/// [`KitFault`].
pub fn make_kits(class: &WorkedClass, progress: &(dyn Progress + Sync)) -> Result<Kits, KitFault> {
    let count = class.takers.len();
    let counter = kits_counter(class, progress);
    let places: Vec<usize> = (0..count).collect();
    let made: Vec<(Kit, Vec<Sheet>)> = places
        .into_par_iter()
        .map(|place| one(class, place, &counter))
        .collect::<Result<_, KitFault>>()?;
    if progress.should_stop() {
        return Err(KitFault::Stopped);
    }
    let of = (PARTS + LAY_PARTS) * count as u64;
    progress.at(of, of, "the sheets for the room");
    let (kits, folders): (Vec<Kit>, Vec<Vec<Sheet>>) = made.into_iter().unzip();
    let mut sheets: Vec<Sheet> = folders.into_iter().flatten().collect();
    let room = for_the_room(class, &kits, &mut sheets)?;
    Ok(Kits { sheets, kits, room })
}

fn made(file: &str, what: &'static str, printed: Option<&Printed>, bytes: usize) -> Made {
    Made {
        file: file.to_owned(),
        what,
        pages: printed.map(|p| p.pages),
        bytes,
        undrawn: printed.map_or(String::new(), |p| p.undrawn.iter().collect()),
    }
}

/// A listing as a file.
fn listed(class: &WorkedClass, listing: &Listing, name: &str) -> Result<Printed, KitFault> {
    listing::pdf(listing, paper_of(class)).map_err(|fault| KitFault::Paper {
        name: name.to_owned(),
        why: fault.to_string(),
    })
}

/// The kit of one person, with its files.
fn one(class: &WorkedClass, place: usize, counter: &Counter<'_>) -> Result<(Kit, Vec<Sheet>), KitFault> {
    let Some(taker) = class.takers.get(place) else {
        return Err(KitFault::Stopped);
    };
    let person = &taker.person;
    let mut kit = Kit {
        name: person.name.clone(),
        folder: person.folder.clone(),
        version: None,
        worst: None,
        refused: Vec::new(),
        files: Vec::new(),
    };
    let mut sheets = Vec::new();
    let mut put = |kit: &mut Kit, made: Made, bytes: Vec<u8>| {
        sheets.push(Sheet {
            name: format!("{}/{}", person.folder, made.file),
            bytes,
        });
        kit.files.push(made);
    };
    let text = person.text.clone().into_bytes();
    match &taker.drafted {
        Err(why) => {
            counter.begins(place, &person.name, "why there is no suit")?;
            kit.refused.clone_from(why);
            let says: Vec<String> = why.iter().map(|w| format!("- {w}\n")).collect();
            let says = format!(
                "The design of {} could not be drafted for {}.\n\n{}",
                class.setting.name,
                person.name,
                says.concat()
            );
            let file = made(NOT_DRAFTED, "why there is no suit", None, says.len());
            put(&mut kit, file, says.into_bytes());
            for _ in 1..PARTS {
                counter.ends();
            }
        }
        Ok(drafted) => {
            kit.version = Some(drafted.order.version.clone());
            kit.worst = Some(drafted.order.worst());
            for (file, bytes) in printed(class, place, person, drafted, counter)? {
                put(&mut kit, file, bytes);
            }
        }
    }
    let file = made(SUIT_FILE, "the suit as a file", None, text.len());
    put(&mut kit, file, text);
    Ok((kit, sheets))
}

/// Pattern, booklet and bag list.
fn printed(
    class: &WorkedClass,
    place: usize,
    person: &Person,
    drafted: &Drafted,
    counter: &Counter<'_>,
) -> Result<Vec<(Made, Vec<u8>)>, KitFault> {
    let setting = &class.setting;
    let refused = |why: String| KitFault::Paper {
        name: person.name.clone(),
        why,
    };
    counter.begins(place, &person.name, "pattern")?;
    let choice = PackChoice {
        paper: Some(setting.paper()),
        halves: false,
        measured_square_mm: drafted.suit.printer.measured_square_mm,
        white_edge: drafted.suit.printer.white_edge,
    };
    let pack = make_prints(&drafted.suit, &drafted.order, &choice, &units::Silent)
        .map_err(|refusal| refused(refusal.to_string()))?;
    let mut out: Vec<(Made, Vec<u8>)> = pack
        .made
        .into_iter()
        .zip(pack.sheets.into_iter().map(|s| s.bytes))
        .collect();
    counter.ends();
    counter.begins(place, &person.name, "booklet")?;
    let at = class
        .sewing
        .iter()
        .position(|p| *p == place)
        .unwrap_or(usize::MAX);
    // Where cut pieces go into the bags cloth is bought for the whole class, not by a lay of one kit.
    let nothing = Lays::default();
    let own = class
        .lays
        .as_ref()
        .and_then(|l| l.alone.get(at))
        .unwrap_or(&nothing);
    for laid in &own.laid {
        out.push(plan(laid, OWN_PLAN, &person.name)?);
    }
    let wanted = Choice {
        edition: setting.edition,
        language: setting.language,
    };
    let document = booklet_of(&drafted.suit, &drafted.order, &setting.room, own, wanted);
    match pdf(&document, setting.paper()) {
        Ok((bytes, count)) => {
            let mut file = made(&pdf_name(wanted, setting.paper()), BOOKLET, None, bytes.len());
            file.pages = Some(count);
            out.push((file, bytes));
        }
        // A build without the typesetter gives the same booklet as pages.
        Err(NotSet::NoTypesetter) => out.extend(pages(&document).into_iter().map(|page| {
            let name = format!("booklet/{}", page.name);
            (made(&name, BOOKLET, None, page.bytes.len()), page.bytes)
        })),
        Err(fault) => return Err(refused(fault.to_string())),
    }
    counter.ends();
    counter.begins(place, &person.name, "bag list")?;
    let prints: Vec<Printout> = printouts(&out);
    if let Some(list) = bag_list(class, at, &prints, &Voice::new(setting)) {
        let printed = listed(class, &list, &person.name)?;
        let file = made(
            BAG_LIST,
            "what goes in the bag",
            Some(&printed),
            printed.bytes.len(),
        );
        out.insert(0, (file, printed.bytes));
    }
    counter.ends();
    Ok(out)
}

/// A lay plan as a file.
fn plan(laid: &Laid, what: &'static str, name: &str) -> Result<(Made, Vec<u8>), KitFault> {
    let printed = sheet::lay_plan::pdf(&laid.plan()).map_err(|fault| KitFault::Paper {
        name: name.to_owned(),
        why: fault.to_string(),
    })?;
    let file = made(&laid.file("pdf"), what, Some(&printed), printed.bytes.len());
    Ok((file, printed.bytes))
}

const OWN_PLAN: &str = "how the pieces lie on the cloth";
const PLAN_OF_ALL: &str = "how all kits lie on one length of this cloth";
const BOOKLET: &str = "how to sew it, to print and fill in";

/// What is printed for the bag: the tiles and the booklet.
fn printouts(files: &[(Made, Vec<u8>)]) -> Vec<Printout> {
    let is_tiles = |file: &str| matches!(file, "pattern-a4.pdf" | "pattern-letter.pdf");
    let is_booklet =
        |file: &str| file.starts_with("booklet") && (file.ends_with(".pdf") || file.ends_with("/index.html"));
    files
        .iter()
        .filter(|(made, _)| is_tiles(&made.file) || is_booklet(&made.file))
        .map(|(made, _)| Printout {
            file: made.file.clone(),
            pages: made.pages,
            is_booklet: is_booklet(&made.file),
        })
        .collect()
}

fn for_the_room(class: &WorkedClass, kits: &[Kit], sheets: &mut Vec<Sheet>) -> Result<Vec<Made>, KitFault> {
    let voice = Voice::new(&class.setting);
    let mut all = Vec::new();
    let mut put = |made: Made, bytes: Vec<u8>| {
        sheets.push(Sheet {
            name: made.file.clone(),
            bytes,
        });
        all.push(made);
    };
    let list = listed(class, &shop::shopping_list(class, &voice), "")?;
    put(
        made(
            "shopping-list.pdf",
            "one shopping list for all",
            Some(&list),
            list.bytes.len(),
        ),
        list.bytes,
    );
    for laid in class.lays.iter().flat_map(|l| &l.together.laid) {
        let (file, bytes) = plan(laid, PLAN_OF_ALL, "")?;
        put(file, bytes);
    }
    let csv = csv::shopping_csv(class, &voice).into_bytes();
    put(
        made("shopping-list.csv", "the same for a spreadsheet", None, csv.len()),
        csv,
    );
    let table = listed(class, &room::timetable(class, &voice), "")?;
    put(
        made(
            "timetable.pdf",
            "who sits where when",
            Some(&table),
            table.bytes.len(),
        ),
        table.bytes,
    );
    let data = crate::cli::console::to_json(&report::report(class, kits)).into_bytes();
    put(made("class.json", "the class as data", None, data.len()), data);
    let page = index::index(class, kits, &voice).into_bytes();
    put(made(INDEX, "what is in this folder", None, page.len()), page);
    Ok(all)
}
