//! The change sheet of a bought pattern: verdict, changes drawn on the piece and as a table, what the stretch means.

use drawer::{
    AdaptRequest, ChangeSheet, DrawnLine, DrawnPiece, LengthNeed, LineChange, PaperError, Verdict,
    WidthChange, adapt_pattern,
};
use kurbo::{ParamCurve, Point, Vec2};
use units::{Finding, LengthUnit, Mm};

use super::drawn::cubics;
use super::found::{signed, why};
use super::papers::DrawerPapers;
use super::taken::pattern;
use super::{
    ChangeLine, ChangeSheetView, DrawnPath, DrawnSide, DrawnWords, SheetView, SizeLine, StretchLine, TrueLine,
};
use crate::suit_file::trimmed;
use crate::view::shape::{frame, polyline, spot};
use crate::view::told::{capital, finding, note, said, sentence};
use crate::view::{Head, Note, State, length, percent};

const OWN: &str = "our own rule, from reasoning and trials";
/// Changes under this are lost in the pencil line, mm.
const PENCIL: f64 = 0.25;

/// The fit the suit is to have.
pub(super) fn fit_of(papers: &DrawerPapers) -> cloth::Fit {
    let word = papers.text("fit");
    cloth::Fit::NAMED
        .into_iter()
        .find(|f| f.key() == word)
        .unwrap_or_default()
}

/// The change sheet as its page shows it.
pub fn sheet_view(papers: &DrawerPapers) -> SheetView {
    let mut notes = Vec::new();
    let mut kept = |found: Vec<Note>| notes.extend(found);
    let body = papers.body().map_err(&mut kept).ok();
    let cloth = papers.cloth("new").map_err(&mut kept).ok();
    let paper = pattern(papers).map_err(&mut kept).ok();
    let (Some(body), Some(cloth), Some(paper)) = (body, cloth, paper) else {
        return SheetView {
            head: Head::of("It cannot be made yet.", notes),
            sheet: None,
        };
    };
    let request = AdaptRequest {
        pattern: &paper,
        body: &body,
        cloth: &cloth,
        fit: fit_of(papers),
    };
    let sheet = match adapt_pattern(&request) {
        Ok(sheet) => sheet,
        Err(errors) => {
            return SheetView {
                head: Head::of("It cannot be made yet.", errors.iter().map(refused).collect()),
                sheet: None,
            };
        }
    };
    let unit = papers.unit();
    let verdict = sheet.findings.iter().find(|f| f.code == "drawer.paper_verdict");
    let says = verdict.map_or_else(String::new, |f| sentence(&f.message));
    let view = ChangeSheetView {
        verdict: match &sheet.verdict {
            Verdict::Adapt => "adapt",
            Verdict::ChooseSize { .. } => "another_size",
            Verdict::Redraft { .. } => "redraft",
        }
        .to_owned(),
        next: verdict.map_or_else(String::new, |f| sentence(&f.remedy)),
        pattern: match &paper.size {
            Some(size) => format!("{}, size {size}", paper.name),
            None => paper.name.clone(),
        },
        wearer: papers
            .wearer
            .as_ref()
            .and_then(|w| w.body.get("name")?.as_str())
            .unwrap_or_default()
            .to_owned(),
        cloth: format!(
            "{}, {} around",
            cloth.shell.cloth,
            percent(cloth.around.ratio()).text()
        ),
        sides: vec![
            side("front", &sheet.schematic.front),
            side("back", &sheet.schematic.back),
        ],
        widths: sheet.widths.iter().map(|w| width(w, &request, unit)).collect(),
        lengths: sheet.lengths.lines.iter().map(|l| line(l, unit)).collect(),
        needs: needs(&sheet, &request, unit),
        sizes: sheet
            .sizes
            .iter()
            .map(|s| SizeLine {
                name: s.name.clone(),
                says: s
                    .widths
                    .iter()
                    .map(|w| format!("{} {}", w.level.name(), signed(w.quarter, unit).text()))
                    .collect::<Vec<_>>()
                    .join(", "),
                is_within: s.worst() <= 1.0,
            })
            .collect(),
        stretch: stretch(&sheet),
        truing: sheet
            .truing
            .iter()
            .map(|t| TrueLine {
                place: capital(t.place),
                what: sentence(&t.what),
            })
            .collect(),
        says: says.clone(),
    };
    SheetView {
        head: Head::of(says, margin(&sheet)),
        sheet: Some(view),
    }
}

/// Findings for the margin: the verdict heads the sheet, the stretch has its own words.
fn margin(sheet: &ChangeSheet) -> Vec<Note> {
    let is_said = |f: &Finding| matches!(f.code, "drawer.paper_stretch" | "drawer.paper_verdict");
    sheet
        .findings
        .iter()
        .filter(|f| !is_said(f))
        .map(finding)
        .collect()
}

fn refused(error: &PaperError) -> Note {
    let text = sentence(&error.to_string());
    match error {
        PaperError::Missing { .. } => {
            note(State::Missing, "wearer", text, "Take it on her own page.").at("wearer")
        }
        PaperError::NoWidths => note(State::Missing, "widths", text, "").at("widths.bust"),
        _ => note(State::Stop, "measures", text, ""),
    }
}

fn width(w: &WidthChange, request: &AdaptRequest<'_>, unit: LengthUnit) -> ChangeLine {
    let change = signed(w.quarter, unit);
    let place = if w.quarter.abs().get() < PENCIL {
        "nothing to change".to_owned()
    } else if w.at_slash.abs().get() < PENCIL {
        "at the side seam".to_owned()
    } else {
        format!(
            "{} at the side seam, {} at the slash",
            signed(w.at_side, unit).text(),
            signed(w.at_slash, unit).text()
        )
    };
    let question = format!("Why {} at the {}?", change.text(), w.level.name());
    let answer = if w.is_widened_for_way_in {
        "The width for this body, left wide enough to pass the hips, less the paper, a quarter of it. More than 6 mm at a side seam makes another seam of it; the rest goes in at a slash."
    } else {
        "The width for this body in this cloth less the paper, a quarter of it. More than 6 mm at a side seam makes another seam of it; the rest goes in at a slash."
    };
    ChangeLine {
        name: capital(w.level.name()),
        place,
        paper: Some(length(w.paper, unit)),
        wanted: Some(length(w.wanted, unit)),
        why: why(
            question,
            answer.into(),
            format!(
                "({} − {}) ÷ 4 = {}",
                said(w.wanted, unit),
                said(w.paper, unit),
                change.text()
            ),
            &[
                ("Body, once round", said(w.body, unit)),
                ("Cut for it", said(w.wanted, unit)),
                ("Paper, once round", said(w.paper, unit)),
                ("Fit", request.fit.key().to_owned()),
                ("Cloth around", percent(request.cloth.around.ratio()).text()),
            ],
            OWN,
        ),
        change,
        back: None,
        is_over: w.is_over(),
    }
}

fn line(l: &LineChange, unit: LengthUnit) -> ChangeLine {
    let (front, back) = (signed(l.front, unit), signed(l.back, unit));
    let most = Mm::new(l.front.abs().get().max(l.back.abs().get()));
    ChangeLine {
        name: l.line.label().to_owned(),
        place: l.line.place().to_owned(),
        paper: None,
        wanted: None,
        why: why(
            format!("Why {} on {}?", front.text(), l.line.label()),
            "The torso loop changes by a quarter on each line, half of it on the front and half on the back; where single lengths were measured it goes where they differ. L2 and L3 cross the side seam, so front and back change alike there."
                .into(),
            format!("{} + {} = {} in the loop", front.text(), back.text(), signed(l.in_loop(), unit).text()),
            &[],
            "lengthen-or-shorten lines: common practice, no single source; how it is shared: our own",
        ),
        change: front,
        back: Some(back),
        is_over: most > drawer::MOST_A_LINE,
    }
}

fn needs(sheet: &ChangeSheet, request: &AdaptRequest<'_>, unit: LengthUnit) -> Vec<ChangeLine> {
    let one = |name: &str, need: Option<LengthNeed>| {
        let need = need?;
        let change = signed(need.change(), unit);
        Some(ChangeLine {
            name: name.to_owned(),
            place: "shared among the lines".into(),
            paper: Some(length(need.paper, unit)),
            wanted: Some(length(need.wanted, unit)),
            why: why(
                format!("Why {} in the {}?", change.text(), name.to_lowercase()),
                "What our own draft would cut for this body in this cloth, less the paper.".into(),
                format!(
                    "{} − {} = {}",
                    said(need.wanted, unit),
                    said(need.paper, unit),
                    change.text()
                ),
                &[
                    ("Fit", request.fit.key().to_owned()),
                    (
                        "Cloth lengthwise",
                        percent(request.cloth.lengthwise.ratio()).text(),
                    ),
                ],
                OWN,
            ),
            change,
            back: None,
            is_over: false,
        })
    };
    [
        one("Torso loop", sheet.lengths.trunk_loop),
        one("Front waist length", sheet.lengths.front_waist_length),
        one("Crotch length", sheet.lengths.crotch_length),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn stretch(sheet: &ChangeSheet) -> Option<StretchLine> {
    let verdict = sheet.stretch.as_ref()?;
    let said = sheet.findings.iter().find(|f| f.code == "drawer.paper_stretch");
    Some(StretchLine {
        asked: percent(verdict.asked.ratio()),
        cloth: percent(verdict.cloth.ratio()),
        says: said.map_or_else(String::new, |f| sentence(&format!("{}; {}", f.message, f.remedy))),
        levels: verdict
            .levels
            .iter()
            .map(|l| {
                format!(
                    "{}: worn at {} %, {} of what the cloth has; meant as {} of what the envelope asks",
                    capital(l.level.name()),
                    trimmed(l.worn.percent(), 0),
                    percent(l.share).text(),
                    percent(l.share_asked).text()
                )
            })
            .collect(),
    })
}

/// Room for the words of the side changes, right of the piece, and of the others, left of the fold, mm.
const ROOM: f64 = 168.0;
/// Words left of the fold stand so far apart at least, mm: a line of the printed sheet's.
const APART: f64 = 35.0;

fn side(key: &str, piece: &DrawnPiece) -> DrawnSide {
    let mut all: Vec<Point> = piece
        .outline
        .iter()
        .chain(&piece.new_side)
        .flat_map(|c| (0..=12).map(|i| c.eval(f64::from(i) / 12.0)))
        .collect();
    let widest = all.iter().map(|p| p.x).fold(0.0, f64::max);
    let top = all.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
    let low = all.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
    all.extend([Point::new(-ROOM, 0.0), Point::new(widest + ROOM, 0.0)]);
    let path = |kind: &str, path: String| DrawnPath {
        kind: kind.to_owned(),
        path,
    };
    let fold = [
        Point::new(0.0, low),
        Point::new(0.0, piece.outline.last().map_or(top, |c| c.p0.y)),
    ];
    let mut lines = vec![
        path("cut", cubics(&piece.outline)),
        path("fold", polyline(&fold)),
        path("new_side", cubics(&piece.new_side)),
    ];
    let mut words = Vec::new();
    let mut word = |at: Point, anchor: &str, says: &str, kind: &str| {
        words.push(DrawnWords {
            at: spot(at),
            anchor: anchor.to_owned(),
            says: says.replace('-', "−"),
            kind: kind.to_owned(),
        });
    };
    // What is named left of the fold, where no line runs through it: the end of its line and its words.
    let mut left: Vec<(Point, &str, &str)> = Vec::new();
    for l in &piece.lengths {
        lines.push(path("change", straight(l)));
        left.push((l.from, &l.label, "change"));
    }
    for l in &piece.sides {
        let end = if l.to.x > l.from.x { l.to } else { l.from };
        let lead = Point::new(widest + 8.0, end.y);
        lines.push(path("side", straight(l)));
        lines.push(path("lead", polyline(&[end + Vec2::new(3.0, 0.0), lead])));
        word(lead + Vec2::new(5.0, -4.5), "start", &capital(&l.label), "side");
    }
    for l in &piece.slashes {
        lines.push(path("slash", straight(l)));
        left.push((l.from.midpoint(l.to), &l.label, "slash"));
    }
    left.sort_by(|(a, ..), (b, ..)| b.y.total_cmp(&a.y));
    let mut above = f64::INFINITY;
    for (end, says, kind) in left {
        above = end.y.min(above - APART);
        let lead = Point::new(-8.0, above);
        lines.push(path("lead", polyline(&[lead, end - Vec2::new(3.0, 0.0)])));
        word(lead + Vec2::new(-5.0, -4.5), "end", says, kind);
    }
    DrawnSide {
        key: key.to_owned(),
        name: format!("Half {}", piece.name.to_lowercase()),
        frame: frame(&all),
        behind: None,
        paper: cubics(&piece.outline),
        lines,
        words,
    }
}

fn straight(line: &DrawnLine) -> String {
    polyline(&[line.from, line.to])
}
