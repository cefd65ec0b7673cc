//! What the page of a range shows: tables to choose from, the sizes, the nest as drawings, growth and branches in words.
//!
//! **Shapes and units.** Paths in mm, y down, pieces laid over each other as in the nest.

use kurbo::Point;
use range::{BuiltIn, ChartRow, NestPiece, SizeTable};
use serde::Serialize;
use sheet::nest::line_of_size;
use ts_rs::TS;
use units::{LengthUnit, Mm, Severity};
use utoipa::ToSchema;

use super::made::MadeRange;
use crate::suit_file::form_key;
use crate::view::shape::{frame, polygon};
use crate::view::{Frame, Head, Note, Quantity, State, length, sentence};

/// A size table to choose.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct SizeTableView {
    /// `women`, `men`, `children`; `own` for the maker's.
    pub key: String,
    /// Its name.
    pub name: String,
    /// What it is, where it comes from, what it leaves out.
    pub provenance: String,
    /// `woman`, `man`, `child`.
    pub form: String,
    /// Its sizes.
    pub sizes: Vec<SizeNameView>,
    /// Whether every size has a stature of its own.
    pub has_stature: bool,
}

/// A size of a table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct SizeNameView {
    /// Its name.
    pub name: String,
    /// Anything beside it: a letter, an age; may be empty.
    pub note: String,
}

/// A suit whose cloth and design may be drafted in sizes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct RangeSuitView {
    /// Its id.
    pub id: String,
    /// Number and name.
    pub name: String,
    /// Form of its wearer; empty when it has none.
    pub form: String,
}

/// A wearer to choose a size for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct RangeWearerView {
    /// Her id.
    pub id: String,
    /// Her name.
    pub name: String,
    /// `woman`, `man`, `child`.
    pub form: String,
}

/// What a range can be made of.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct RangesView {
    /// The tables that come with the program.
    pub tables: Vec<SizeTableView>,
    /// The suits.
    pub suits: Vec<RangeSuitView>,
    /// The wearers.
    pub wearers: Vec<RangeWearerView>,
    /// `cm` or `in`: how bare lengths are read.
    pub unit: String,
}

/// A drafted range.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RangeView {
    /// Its id, for its files and questions about it.
    pub id: String,
    /// `Harbour one-piece, women, by bust girth`.
    pub title: String,
    /// Cloth, fit, version.
    pub subtitle: String,
    /// Where the table comes from.
    pub provenance: String,
    /// Whose bodies: `woman`, `man`, `child`.
    pub form: String,
    /// State, summary, and what must be looked at: refusals and stops.
    pub head: Head,
    /// Sizes that were drafted, in order.
    pub sizes: Vec<RangeSizeView>,
    /// Body dimensions over the sizes.
    pub body: Vec<RangeRowView>,
    /// Finished measures over the sizes, flat and unstretched.
    pub finished: Vec<RangeRowView>,
    /// The pieces, all sizes laid over each other.
    pub pieces: Vec<NestPieceView>,
    /// Where growth fails or is uneven, a sentence each; empty when it is even.
    pub growth: Vec<String>,
    /// Where the draft went another way, a sentence each.
    pub branches: Vec<String>,
    /// Sizes that were not drafted; those with one reason together.
    pub refused: Vec<RefusedSizeView>,
    /// What can be taken away; empty when no size was drafted or the nest does not fit its paper.
    pub files: Vec<RangeFileView>,
}

/// A size with its line in the nest.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RangeSizeView {
    /// Its name.
    pub name: String,
    /// Anything beside it.
    pub note: String,
    /// Width of its line, mm.
    pub width: f64,
    /// Strokes and gaps of its line in turn, mm; empty for a line without gaps.
    pub dash: Vec<f64>,
}

/// A measure over the sizes.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RangeRowView {
    /// Its name.
    pub name: String,
    /// One for every size; none where the size has none.
    pub cells: Vec<Option<RangeCellView>>,
}

/// One figure.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct RangeCellView {
    /// The length.
    pub quantity: Quantity,
    /// Whether it was estimated and stands in no table.
    pub is_estimated: bool,
    /// Where it comes from.
    pub source: String,
}

/// A piece in all its sizes.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct NestPieceView {
    /// Its key.
    pub key: String,
    /// Its name on paper.
    pub name: String,
    /// Where the sizes lie over each other.
    pub stacked: String,
    /// Sizes that do not have it.
    pub missing: Vec<String>,
    /// The box of all its sizes.
    pub frame: Frame,
    /// Its cut lines.
    pub layers: Vec<NestLayerView>,
}

/// The cut line of one size.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct NestLayerView {
    /// Which size, counted from 0 in the list of sizes.
    pub size: u32,
    /// Its cut line.
    pub path: String,
}

/// Sizes that were not drafted for one reason.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct RefusedSizeView {
    /// Their names: `84, 88`.
    pub size: String,
    /// Why, and what to do.
    pub says: String,
}

/// A file of a range.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct RangeFileView {
    /// Its name.
    pub name: String,
    /// What it is for.
    pub says: String,
    /// Where it is fetched.
    pub href: String,
}

/// A table as it is chosen.
pub fn size_table_view(key: &str, table: &SizeTable) -> SizeTableView {
    let stature = |r: &range::SizeRow| r.figure(body::Dimension::Stature).is_some();
    SizeTableView {
        key: key.to_owned(),
        name: table.name.clone(),
        provenance: table.provenance.clone(),
        form: form_key(table.form).to_owned(),
        has_stature: table.rows().iter().all(stature),
        sizes: table
            .rows()
            .iter()
            .map(|row| SizeNameView {
                name: row.name.clone(),
                note: row.note.clone(),
            })
            .collect(),
    }
}

/// The tables that come with the program.
pub fn built_in_tables() -> Vec<SizeTableView> {
    BuiltIn::ALL
        .into_iter()
        .filter_map(|b| Some(size_table_view(b.key(), &b.table().ok()?)))
        .collect()
}

/// A drafted range as its page shows it. `why_no_files` says why the nest could not be drawn, when it could not.
pub fn range_view(
    id: &str,
    made: &MadeRange,
    files: &[(String, String)],
    why_no_files: Option<&str>,
) -> RangeView {
    let unit = made.of.unit;
    let note = |state: State, place: String, says: &str, next: &str| Note {
        state,
        place,
        says: sentence(says),
        next: sentence(next),
        field: None,
        why: None,
        try_this: None,
    };
    let mut notes: Vec<Note> = made
        .findings(Severity::Stop)
        .map(|(size, f)| {
            note(
                State::Stop,
                format!("size {size}, {}", f.place),
                &f.message,
                &f.remedy,
            )
        })
        .collect();
    if let Some(why) = why_no_files {
        notes.push(note(State::Doubtful, "paper".into(), why, ""));
    }
    if !made.nest.refused.is_empty() {
        let count = made.nest.refused.len();
        notes.push(note(
            State::Doubtful,
            "sizes".into(),
            &format!("{count} of {} sizes could not be drafted", made.range.sizes.len()),
            "the reason stands beside each",
        ));
    }
    let summary = format!(
        "{} of {} sizes drafted, each from its own body.",
        made.chart.sizes.len(),
        made.range.sizes.len()
    );
    let row_note = |name: &str| {
        made.range
            .table
            .row(name)
            .map_or(String::new(), |r| r.note.clone())
    };
    RangeView {
        id: id.to_owned(),
        title: made.title(),
        subtitle: made.subtitle(),
        provenance: made.range.table.provenance.clone(),
        form: form_key(made.range.table.form).to_owned(),
        head: Head::of(summary, notes),
        sizes: made
            .chart
            .sizes
            .iter()
            .enumerate()
            .map(|(i, name)| {
                let (width, dash) = line_of_size(i);
                RangeSizeView {
                    name: name.clone(),
                    note: row_note(name),
                    width,
                    dash: dash.to_vec(),
                }
            })
            .collect(),
        body: rows(&made.chart.body, unit),
        finished: rows(&made.chart.finished, unit),
        pieces: made.nest.pieces.iter().map(piece).collect(),
        growth: made.growth.faults.iter().map(|f| sentence(&f.words())).collect(),
        branches: made
            .branches
            .changes
            .iter()
            .map(|c| format!("From {} to {}: {}", c.from, c.to, sentence(&c.words())))
            .collect(),
        refused: refused(&made.nest.refused),
        files: files
            .iter()
            .map(|(name, what)| RangeFileView {
                name: name.clone(),
                says: sentence(what),
                href: format!("/api/v1/ranges/{id}/files/{name}"),
            })
            .collect(),
    }
}

/// Sizes in the order of the table, those with one reason on one line.
fn refused(all: &[(String, String)]) -> Vec<RefusedSizeView> {
    let mut lines: Vec<RefusedSizeView> = Vec::new();
    for (size, why) in all {
        let says = sentence(why);
        match lines.iter_mut().find(|line| line.says == says) {
            Some(line) => {
                line.size.push_str(", ");
                line.size.push_str(size);
            }
            None => lines.push(RefusedSizeView {
                size: size.clone(),
                says,
            }),
        }
    }
    lines
}

fn rows(all: &[ChartRow], unit: LengthUnit) -> Vec<RangeRowView> {
    all.iter()
        .map(|row| RangeRowView {
            name: row.name.clone(),
            cells: row
                .cells
                .iter()
                .map(|cell| {
                    let cell = cell.as_ref()?;
                    Some(RangeCellView {
                        quantity: length(Mm::new(cell.value.get()), unit),
                        is_estimated: cell.is_estimated,
                        source: cell.source.to_owned(),
                    })
                })
                .collect(),
        })
        .collect()
}

fn piece(piece: &NestPiece) -> NestPieceView {
    let lines: Vec<(usize, Vec<Point>)> = piece
        .layers
        .iter()
        .map(|layer| (layer.size, layer.shape(true).cut_line))
        .collect();
    let all: Vec<Point> = lines
        .iter()
        .flat_map(|(_, points)| points.iter().copied())
        .collect();
    NestPieceView {
        key: piece.key.clone(),
        name: piece.name.clone(),
        stacked: piece.stacked.words().to_owned(),
        missing: piece.missing.clone(),
        frame: frame(&all),
        layers: lines
            .iter()
            .map(|(size, points)| NestLayerView {
                size: u32::try_from(*size).unwrap_or(u32::MAX),
                path: polygon(points),
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_refused_for_one_reason_stand_on_one_line() {
        let of = |size: &str, why: &str| (size.to_owned(), why.to_owned());
        let lines = refused(&[
            of("84", "no hip"),
            of("88", "too long; draft a brief"),
            of("92", "no hip"),
        ]);
        let told: Vec<(&str, &str)> = lines.iter().map(|l| (l.size.as_str(), l.says.as_str())).collect();
        assert_eq!(told, [("84, 92", "No hip."), ("88", "Too long. Draft a brief.")]);
    }
}
