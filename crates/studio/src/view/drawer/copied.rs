//! The copy of a favourite suit: found from its measures, drawn over them, carried over to the new cloth.

use body::Body;
use cloth::ClothPlan;
use draft::{Draft, Piece, draft};
use drawer::{CopyError, CopyRequest, FavouriteCopy, FlatMeasure, SeatOnSuit, copy_favourite};
use kurbo::{Point, Vec2};
use units::{Finding, LengthUnit, Severity};

use super::drawn::{flat_tapes, outline, pieces};
use super::found;
use super::papers::DrawerPapers;
use super::taken::{example_suit, favourite, path_of};
use super::{CopiedSuit, CopyView, DrawnPath, DrawnSide, DrawnWords};
use crate::view::shape::{frame, polygon, polyline, spot};
use crate::view::told::{finding, note, sentence};
use crate::view::{Head, Note, State, length};

/// What a copy is made from, and the copy.
pub(super) struct Copied {
    pub(super) copy: FavouriteCopy,
    pub(super) old: ClothPlan,
    pub(super) new: ClothPlan,
    pub(super) body: Body,
}

/// Copies the suit of these papers.
///
/// # Errors
/// Notes to the maker: everything that is missing, wrong or refused.
pub(super) fn copy(papers: &DrawerPapers) -> Result<Copied, Vec<Note>> {
    let mut notes = Vec::new();
    let mut kept = |found: Vec<Note>| notes.extend(found);
    let body = papers.body().map_err(&mut kept).ok();
    let (old, new) = (papers.cloth("old"), papers.cloth("new"));
    let old = old.map_err(&mut kept).ok();
    let new = new.map_err(&mut kept).ok();
    let shapes = papers.design();
    let example = body.as_ref().and_then(|b| example_suit(b.form, &shapes));
    let taken = favourite(papers, example.as_ref()).map_err(&mut kept).ok();
    let (Some(body), Some(old), Some(new), Some(taken)) = (body, old, new, taken) else {
        return Err(notes);
    };
    let request = CopyRequest {
        favourite: &taken,
        body: &body,
        old: &old,
        new: &new,
        shapes: &shapes,
        seat: if papers.judges_seat() {
            SeatOnSuit::Judge
        } else {
            SeatOnSuit::Seen
        },
    };
    match copy_favourite(&request) {
        Ok(copy) => Ok(Copied { copy, old, new, body }),
        Err(errors) => Err(errors.iter().map(refused).collect()),
    }
}

fn refused(error: &CopyError) -> Note {
    let text = error.to_string();
    match error {
        CopyError::OutOfRange { measure, .. }
        | CopyError::Twice { measure }
        | CopyError::NotOnThisSuit { measure } => {
            let says = text
                .strip_prefix(measure.key())
                .map_or(text.as_str(), |t| t.trim_start_matches(": "));
            note(State::Stop, measure.name(), sentence(says), "").at(path_of(*measure))
        }
        CopyError::TooFew { take, .. }
        | CopyError::FewerThanUnknown { take, .. }
        | CopyError::CannotTell { take } => {
            let note = note(State::Missing, "measures", sentence(&text), "");
            match take.first() {
                Some(first) => note.at(path_of(*first)),
                None => note,
            }
        }
        _ => note(
            State::Stop,
            "suit",
            sentence(&text),
            "Look whether wearer, cloth and shapes are those of this suit.",
        ),
    }
}

/// The copy as its page shows it.
pub fn copy_view(papers: &DrawerPapers) -> CopyView {
    let copied = match copy(papers) {
        Ok(copied) => copied,
        Err(notes) => {
            return CopyView {
                head: Head::of("It cannot be worked out yet.", notes),
                copy: None,
            };
        }
    };
    let unit = papers.unit();
    let Copied { copy, old, new, body } = &copied;
    let (shares, design) = found::found(copy, unit);
    let suspects = found::suspects(copy, unit);
    let can_make = copy.conflict.as_ref().is_none_or(|c| c.left_out.is_some());
    let summary = match (suspects.first(), can_make) {
        (None, _) => "The measures agree.".to_owned(),
        (Some(first), true) => format!("The {} was left out.", first.name),
        (Some(_), false) => "The measures contradict each other.".to_owned(),
    };
    CopyView {
        head: Head::of(summary, notes(copy)),
        copy: Some(CopiedSuit {
            sides: sides(copy, body, old, new, unit),
            old_cloth: old.shell.cloth.clone(),
            new_cloth: new.shell.cloth.clone(),
            shares,
            ease: found::ease(copy, old.around, new.around, (old.lengthwise, new.lengthwise)),
            found: design,
            measures: found::met(copy, unit),
            unchecked: found::unchecked(copy),
            suspects,
            can_make,
        }),
    }
}

/// What of the findings stands in the margin: what the tables and the report say themselves is left out.
fn notes(copy: &FavouriteCopy) -> Vec<Note> {
    let is_shown_elsewhere = |f: &&Finding| {
        matches!(
            f.code,
            "drawer.copy_unchecked"
                | "drawer.copy_residual"
                | "drawer.copy_left_out"
                | "drawer.copy_conflict"
        )
    };
    let mut notes: Vec<Note> = copy
        .findings
        .iter()
        .filter(|f| {
            !is_shown_elsewhere(f)
                || f.severity == Severity::Stop
                    && copy.conflict.as_ref().is_some_and(|c| c.suspects.is_empty())
        })
        .map(finding)
        .collect();
    if let Some(conflict) = &copy.conflict
        && let Some(first) = conflict.suspects.first()
    {
        let (state, says) = if conflict.left_out.is_some() {
            (
                State::Doubtful,
                format!(
                    "The {} contradicts the others and was left out.",
                    first.measure.name()
                ),
            )
        } else {
            (
                State::Stop,
                "The measures contradict each other, and which is wrong cannot be told.".to_owned(),
            )
        };
        notes.push(match conflict.would_tell {
            Some(tells) => note(
                state,
                first.measure.name(),
                says,
                format!("Measure the {} as well: it tells which.", tells.name()),
            )
            .at(path_of(tells)),
            None => note(state, first.measure.name(), says, "Measure it again.").at("suspects"),
        });
    }
    notes
}

/// Both sides of the suit: as it was found in the old cloth, what was measured, and how it is cut from the new cloth.
fn sides(
    copy: &FavouriteCopy,
    body: &Body,
    old: &ClothPlan,
    new: &ClothPlan,
    unit: LengthUnit,
) -> Vec<DrawnSide> {
    let mut washed = old.clone();
    washed.shrinkage_factor_around = 1.0;
    washed.shrinkage_factor_lengthwise = 1.0;
    let (Ok(found), Ok(next)) = (draft(body, &washed, &copy.design), draft(body, new, &copy.design)) else {
        return Vec::new();
    };
    let (Some(was), Some(will)) = (pieces(&found), pieces(&next)) else {
        return Vec::new();
    };
    let bars = bars(copy, &found);
    was.into_iter()
        .zip(will)
        .zip([("front", "Front"), ("back", "Back")])
        .map(|((was, will), (key, name))| side(was, will, key, name, &bars, unit))
        .collect()
}

/// What was measured, as a straight bar where the tape lay.
struct Bar {
    side: String,
    from: Point,
    to: Point,
    is_doubtful: bool,
    taken: units::Mm,
}

fn bars(copy: &FavouriteCopy, found: &Draft) -> Vec<Bar> {
    use FlatMeasure as M;
    let tapes = flat_tapes(found);
    let worst = copy
        .conflict
        .as_ref()
        .map(|c| c.as_likely().map(|s| s.measure).collect::<Vec<_>>())
        .unwrap_or_default();
    copy.measures
        .iter()
        .filter(|m| {
            matches!(
                m.measure,
                M::AcrossBust | M::AcrossWaist | M::AcrossAboveLeg | M::CentreFront | M::CentreBack
            )
        })
        .filter_map(|m| {
            let side = &tapes.iter().find(|t| t.measure == m.measure.key())?.side;
            let [front, back] = pieces(found)?;
            let piece = if side == "front" { front } else { back };
            let all = outline(piece);
            let taken = m.taken.get();
            let (from, to) = match m.measure {
                M::CentreFront | M::CentreBack => {
                    // From the crotch up: the top edge is what the eye compares.
                    let low = all.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
                    (Point::new(0.0, low), Point::new(0.0, low + taken))
                }
                _ => {
                    let y = height(found, front, m.measure)?;
                    (Point::new(-taken / 2.0, y), Point::new(taken / 2.0, y))
                }
            };
            Some(Bar {
                side: side.clone(),
                from,
                to,
                is_doubtful: worst.contains(&m.measure),
                taken: m.taken,
            })
        })
        .collect()
}

fn height(found: &Draft, front: &Piece, measure: FlatMeasure) -> Option<f64> {
    let side = front.edges.iter().filter(|e| e.name.starts_with("side"));
    let ends: Vec<f64> = side.flat_map(|e| [e.curve.start().y, e.curve.end().y]).collect();
    let (low, high) = (
        ends.iter().copied().fold(f64::INFINITY, f64::min),
        ends.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    );
    drawer::finished_measure(found, measure)?;
    Some(match measure {
        FlatMeasure::AcrossBust => 0.75 * high,
        FlatMeasure::AcrossAboveLeg => low + 20.0,
        _ => 0.0,
    })
}

fn side(was: &Piece, will: &Piece, key: &str, name: &str, bars: &[Bar], unit: LengthUnit) -> DrawnSide {
    const END: f64 = 9.0;
    let (old, new) = (outline(was), outline(will));
    let mut all: Vec<Point> = old.iter().chain(&new).copied().collect();
    let mut lines = vec![
        DrawnPath {
            kind: "next".into(),
            path: polygon(&new),
        },
        DrawnPath {
            kind: "cut".into(),
            path: polygon(&old),
        },
    ];
    let mut words = Vec::new();
    for bar in bars.iter().filter(|b| b.side == key) {
        let kind = if bar.is_doubtful { "doubtful" } else { "measured" };
        let way = (bar.to - bar.from).normalize();
        let square = Vec2::new(-way.y, way.x) * END;
        for (a, b) in [
            (bar.from, bar.to),
            (bar.from - square, bar.from + square),
            (bar.to - square, bar.to + square),
        ] {
            lines.push(DrawnPath {
                kind: kind.into(),
                path: polyline(&[a, b]),
            });
        }
        all.extend([bar.from, bar.to]);
        let is_upright = way.y.abs() > 0.5;
        words.push(DrawnWords {
            at: spot(if is_upright {
                bar.from.lerp(bar.to, 0.28) + Vec2::new(8.0, 0.0)
            } else {
                bar.from.lerp(bar.to, 0.25) + Vec2::new(0.0, 7.0)
            }),
            anchor: if is_upright { "start" } else { "middle" }.into(),
            says: length(bar.taken, unit).text(),
            kind: kind.into(),
        });
    }
    DrawnSide {
        key: key.to_owned(),
        name: name.to_owned(),
        frame: frame(&all),
        behind: None,
        paper: polygon(&old),
        lines,
        words,
    }
}
