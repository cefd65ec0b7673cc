//! `slackwater lay FILE --stock FILE`: which of the cloths in stock can make the suit.
//!
//! A workroom file says how much of which cloth there is; any file with a `[shell]`, `[lining]` or `[mesh]` says how a cloth stretches,
//! the suit's own among them. Cloths go by their name; one without a width is taken as wide as `--width`. Nothing is written.

use std::path::PathBuf;

use cloth::Layer;
use serde::Serialize;
use units::LengthUnit;

use super::console::Console;
use super::table::wrap;
use super::{Outcome, Trouble, read_file};
use crate::at_hand::{Asked, CanMake, ClothAsked, SuitOn, Verdict, drafted_for, size_of, which_can_make};
use crate::laying::{LAYERS, LaySettings, ReportedLay};
use crate::laying_kept::{AtHand, ON_THE_SHELF};
use crate::suit_file::{ClothEntry, FaultKind, Faults, Parts, SuitFile, read_parts};
use crate::workroom_file::{Room, read_room_bytes};

/// What the files of `--stock` hold.
#[derive(Default)]
struct InStock {
    /// Cloths with their tests, and the layer they are for.
    tested: Vec<(Layer, ClothEntry)>,
    /// Rooms that say how much there is.
    rooms: Vec<Room>,
}

/// One answer, for scripts.
#[derive(Debug, Serialize)]
struct ToldRow {
    layer: &'static str,
    cloth: String,
    piece: Option<String>,
    from: String,
    verdict: Verdict,
    says: String,
    changes: Vec<String>,
    drafted_anew: bool,
    stops: String,
    lay: Option<ReportedLay>,
}

/// All of it; `lays` again as every reader of lays knows them.
#[derive(Debug, Serialize)]
struct Told<'a> {
    can_make: &'a [ToldRow],
    lays: Vec<&'a ReportedLay>,
}

const LAYER_NAMES: [&str; 4] = ["shell", "lining", "mesh", "contrast"];

fn read(paths: &[PathBuf]) -> Result<InStock, Faults> {
    let mut all = InStock::default();
    for path in paths {
        let file = path.display().to_string();
        let bytes = read_file(path)?;
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let has_cloths = text
            .parse::<toml::Table>()
            .is_ok_and(|table| LAYER_NAMES.iter().any(|name| table.contains_key(*name)));
        if !has_cloths {
            all.rooms.push(read_room_bytes(&file, &bytes)?);
            continue;
        }
        let parts = read_parts(&file, &text)?;
        // Of a file with cloths only the cloths must read well.
        let is_of_cloth = |field: &str| {
            LAYER_NAMES
                .iter()
                .any(|name| field.strip_prefix(name).is_some_and(|rest| rest.starts_with('.')))
        };
        let faults: Vec<_> = parts
            .faults
            .iter()
            .filter(|f| is_of_cloth(&f.field))
            .cloned()
            .collect();
        if !faults.is_empty() {
            return Err(Faults::new(&file, &text, faults));
        }
        let Parts {
            shell,
            lining,
            mesh,
            contrast,
            ..
        } = parts;
        let of = [
            (Layer::Shell, shell),
            (Layer::Lining, lining),
            (Layer::Mesh, mesh),
            (Layer::Shell, contrast),
        ];
        all.tested
            .extend(of.into_iter().filter_map(|(layer, entry)| Some((layer, entry?))));
    }
    Ok(all)
}

/// The cloths for that layer: the suit's own first, then those of the files by name, then names of which only the amount is known.
fn cloths_for(own: &SuitOn, layer: Layer, stock: &InStock, assumed_mm: f64) -> Vec<ClothAsked> {
    let mut all: Vec<(String, Option<ClothEntry>)> = Vec::new();
    let of_suit = match layer {
        Layer::Shell => Some(&own.file.shell),
        Layer::Lining => own.file.lining.as_ref(),
        Layer::Mesh => own.file.mesh.as_ref(),
        Layer::Contrast => own.file.contrast.as_ref().or(Some(&own.file.shell)),
    };
    if let Some(entry) = of_suit {
        all.push((entry.record.name.clone(), Some(entry.clone())));
    }
    let wanted = if layer == Layer::Contrast {
        Layer::Shell
    } else {
        layer
    };
    let mut others: Vec<&ClothEntry> = stock
        .tested
        .iter()
        .filter(|(l, _)| *l == wanted)
        .map(|(_, e)| e)
        .collect();
    others.sort_by(|a, b| a.record.name.cmp(&b.record.name));
    for entry in others {
        if !all.iter().any(|(name, _)| *name == entry.record.name) {
            all.push((entry.record.name.clone(), Some(entry.clone())));
        }
    }
    // Of a name without a test the use is not known: it stands under every layer, unless it is tested for another.
    let named = stock.rooms.iter().flat_map(|r| {
        let whole = r.cloths.iter().filter(|c| c.stock.is_some()).map(|c| &c.name);
        whole.chain(r.remnants.iter().map(|(name, _)| name))
    });
    let own_names: Vec<&str> = [
        Some(&own.file.shell),
        own.file.lining.as_ref(),
        own.file.mesh.as_ref(),
        own.file.contrast.as_ref(),
    ]
    .into_iter()
    .flatten()
    .map(|e| e.record.name.as_str())
    .collect();
    for name in named {
        let is_for_another =
            own_names.contains(&name.as_str()) || stock.tested.iter().any(|(_, e)| e.record.name == *name);
        if !is_for_another && !all.iter().any(|(known, _)| known == name) {
            all.push((name.clone(), None));
        }
    }
    all.into_iter()
        .enumerate()
        .map(|(k, (name, entry))| {
            let width = entry
                .as_ref()
                .and_then(|e| e.record.width_mm)
                .unwrap_or(assumed_mm);
            let suit = match entry {
                _ if k == 0 && of_suit.is_some() => Ok(Box::new(own.clone())),
                Some(entry) => drafted_for(&own.file, layer, entry),
                None => Err(format!(
                    "no stretch test of {name} is known here; give a file with its [{}] as --stock too",
                    wanted.name()
                )),
            };
            ClothAsked {
                pieces: pieces(&name, width, &stock.rooms),
                name,
                suit,
                flaws: Vec::new(),
            }
        })
        .collect()
}

/// What there is of a cloth: lengths on the shelf, then remnants.
fn pieces(name: &str, width_mm: f64, rooms: &[Room]) -> Vec<Option<AtHand>> {
    let lengths = rooms
        .iter()
        .flat_map(|r| &r.cloths)
        .filter(|c| c.name == name)
        .filter_map(|c| c.stock);
    let shelf = lengths.filter(|l| l.get() >= 1.0).map(|l| {
        Some(AtHand {
            width_mm,
            length_mm: l.get(),
            words: ON_THE_SHELF.to_owned(),
            corners: None,
        })
    });
    let remnants = rooms
        .iter()
        .flat_map(|r| &r.remnants)
        .filter(|(of, _)| of == name);
    shelf
        .chain(remnants.map(|(_, piece)| Some(piece.clone())))
        .collect()
}

/// Asks and tells. `file` is the one suit.
pub(super) fn run(
    file: &SuitFile,
    order: crate::order::Order,
    stock: &[PathBuf],
    settings: &LaySettings,
    threads: u16,
    console: &mut Console<'_>,
) -> Result<Outcome, Trouble> {
    let stock = read(stock)?;
    let own = SuitOn {
        file: file.clone(),
        order,
    };
    let layers: Vec<Layer> = LAYERS
        .into_iter()
        .filter(|l| settings.layers.is_empty() || settings.layers.contains(l))
        .filter(|l| own.order.cut_list.iter().any(|row| row.layer == *l))
        .collect();
    if layers.is_empty() {
        return Err(Trouble::from(Faults::whole(
            "--layer",
            FaultKind::Refused,
            "the suit has no piece of this layer".to_owned(),
            "leave --layer out to ask about every layer",
        )));
    }
    let pool = super::lay::pool(threads)?;
    let bar = super::progress::Bar::new(console.manner.progress);
    let mut rows = Vec::new();
    let mut is_enough = true;
    for layer in layers {
        let cloths = cloths_for(&own, layer, &stock, settings.width_mm);
        let asked = Asked {
            own: &own,
            layer,
            settings,
            unit: file.units,
        };
        let answers = pool
            .install(|| which_can_make(&asked, &cloths, &bar))
            .map_err(|_| {
                Faults::whole(
                    &file.file,
                    FaultKind::Refused,
                    "stopped".to_owned(),
                    "nothing was written",
                )
            })?;
        is_enough &= answers.iter().any(|a| a.verdict == Verdict::Enough);
        rows.extend(
            answers
                .into_iter()
                .map(|answer| row(layer, &cloths, answer, file.units)),
        );
    }
    drop(bar);
    if console.manner.json {
        console.print_json(&Told {
            can_make: &rows,
            lays: rows.iter().filter_map(|r| r.lay.as_ref()).collect(),
        })?;
    } else {
        let text = text(&rows, console);
        console.print(&text)?;
    }
    Ok(if is_enough { Outcome::Done } else { Outcome::Stop })
}

fn row(layer: Layer, cloths: &[ClothAsked], answer: CanMake, unit: LengthUnit) -> ToldRow {
    let cloth = cloths.get(answer.cloth);
    let piece = cloth
        .zip(answer.piece)
        .and_then(|(c, p)| c.pieces.get(p)?.as_ref());
    ToldRow {
        layer: layer.name(),
        cloth: cloth.map(|c| c.name.clone()).unwrap_or_default(),
        piece: piece.map(|p| size_of(p, unit)),
        from: piece.map(|p| p.words.clone()).unwrap_or_default(),
        verdict: answer.verdict,
        says: answer.says,
        changes: answer.changes,
        drafted_anew: answer.is_redrafted,
        stops: answer.stops,
        lay: answer.laid.as_ref().map(ReportedLay::of),
    }
}

fn text(rows: &[ToldRow], console: &Console<'_>) -> String {
    const COLUMNS: usize = 100;
    let mut out = String::new();
    let mut layer = "";
    for row in rows {
        if row.layer != layer {
            layer = row.layer;
            out += &format!(
                "{}{}\n",
                if out.is_empty() { "" } else { "\n" },
                console.heading(layer)
            );
        }
        let piece = row.piece.as_ref().map_or_else(String::new, |p| format!(", {p}"));
        let from = if row.from.is_empty() {
            String::new()
        } else {
            format!(" ({})", row.from)
        };
        out += &format!("  {}{piece}{from}\n", row.cloth);
        let mut says = vec![row.says.clone()];
        if !row.changes.is_empty() {
            says.push(format!("It would do if you {}.", row.changes.join(", or ")));
        }
        if row.drafted_anew {
            says.push("Counted with the suit drafted anew for its stretch.".into());
        }
        if !row.stops.is_empty() {
            says.push(row.stops.clone());
        }
        out += &format!("    {}\n", wrap(&says.join(" "), COLUMNS, 4));
    }
    out
}
