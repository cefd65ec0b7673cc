//! What a maker looks up at the table: what to cut, the finished measures, the elastic, what the lines mean, cautions.
//!
//! **Source.** Cautions: `data/trade/cautions.csv` (blade: common practice; latex: survey figure and its source there).

use draft::FinishedMeasure;
use kurbo::{Point, Vec2};
use make::ElasticPlan;
use units::LengthUnit;

use crate::flow::{Column, Flow};
use crate::ink::{Drawing, PAPER, Pen, Role, Tone, closed, open, pens};
use crate::lettering::{BODY, Face, LEAST, Lettering, NOTE};
use crate::pattern::{Pattern, PieceForm};
use crate::wording::{both_units, sentence, small};

/// A table row of one line, mm.
const ROW_MM: f64 = 7.0;
/// Longer tables may break.
const MOST_ROWS_KEPT: usize = 12;

/// Sets all of it.
pub(crate) fn set(flow: &mut Flow<'_>, letters: &Lettering, pattern: &Pattern<'_>, form: PieceForm) {
    cutting(flow, pattern, form);
    finished(flow, &pattern.draft.finished, pattern.first_unit);
    elastic(flow, pattern.elastic, pattern.first_unit);
    let legend = legend(letters, flow.width());
    flow.heading_over("What the lines mean", legend.1);
    flow.figure(legend.1, &legend.0);
    cautions(flow);
    if pattern.notes.iter().any(|n| !n.trim().is_empty()) {
        flow.heading("Notes");
        for note in pattern.notes {
            flow.paragraph(Face::Text, BODY, note);
        }
    }
}

fn cutting(flow: &mut Flow<'_>, pattern: &Pattern<'_>, form: PieceForm) {
    flow.heading("What to cut");
    let lies = |o: cloth::Orientation| match o {
        cloth::Orientation::Upright => "grain lengthwise",
        cloth::Orientation::Turned => "grain around",
    };
    let rows: Vec<Vec<String>> = pattern
        .cut_list
        .iter()
        .map(|r| {
            let pair = if r.mirrored { ", left and right" } else { "" };
            vec![
                r.letter.to_string(),
                r.piece.clone(),
                format!("{}{pair}", r.count),
                format!("{}, {}", r.cloth, r.layer.name()),
                lies(r.orientation).to_owned(),
            ]
        })
        .collect();
    let columns = [
        Column::left("", 0.06),
        Column::left("Piece", 0.27),
        Column::left("Cut", 0.19),
        Column::left("From", 0.28),
        Column::left("Lay", 0.20),
    ];
    flow.table(&columns, &rows);
    let how = match form {
        PieceForm::Whole => {
            "Pieces are printed whole: lay them on one layer of cloth, right side up, the two-headed arrow along the \
             cloth's greater stretch. For a left and a right, turn the paper over once."
        }
        PieceForm::Half => {
            "Symmetric pieces are printed as halves: lay the dash-dot line exactly on a fold of the cloth that runs \
             along the grain arrow, and see that the cloth below does not creep."
        }
    };
    flow.paragraph(Face::Text, NOTE, how);
}

fn finished(flow: &mut Flow<'_>, measures: &[FinishedMeasure], first: LengthUnit) {
    if measures.is_empty() {
        return;
    }
    flow.heading("The sewn suit, flat and unstretched");
    let rows: Vec<Vec<String>> = measures
        .iter()
        .map(|m| {
            let (one, other) = both_units(m.value_mm, first);
            vec![
                sentence(&m.name),
                one,
                other,
                format!("± {}", small(m.tolerance_mm)),
                String::new(),
            ]
        })
        .collect();
    let columns = [
        Column::left("Measure", 0.46),
        Column::right("should be", 0.15),
        Column::right("", 0.13),
        Column::right("give or take", 0.15),
        Column::right("yours", 0.11),
    ];
    flow.table(&columns, &rows);
}

fn elastic(flow: &mut Flow<'_>, plans: &[ElasticPlan], first: LengthUnit) {
    if plans.is_empty() {
        return;
    }
    flow.heading("Elastic");
    for plan in plans {
        // Sentence, head and rows stay together; a leg has five arcs at most.
        flow.need(16.0 + ROW_MM * plan.arcs.len().min(MOST_ROWS_KEPT) as f64);
        let (one, other) = both_units(plan.cut_length.get(), first);
        let overlap = if plan.overlap.get() > 0.0 {
            format!(", {} of it overlap", small(plan.overlap.get()))
        } else {
            String::new()
        };
        let head = format!(
            "{}: cut {} of {one} ({other}){overlap}. {}, {} wide.",
            sentence(plan.edge),
            plan.count,
            sentence(&plan.kind),
            small(plan.width.get()),
        );
        flow.paragraph(Face::Strong, BODY, &head);
        let rows: Vec<Vec<String>> = plan
            .arcs
            .iter()
            .enumerate()
            .map(|(i, a)| {
                let (edge, _) = both_units(a.edge.get(), first);
                let (length, length_other) = both_units(a.elastic.get(), first);
                let (mark, _) = both_units(a.elastic_mark.get(), first);
                let ratio = if (a.ratio - 1.0).abs() < 0.005 {
                    "flat".to_owned()
                } else {
                    format!("× {:.2}", a.ratio)
                };
                vec![
                    plan.mark(i),
                    sentence(a.name),
                    edge,
                    ratio,
                    length,
                    length_other,
                    mark,
                ]
            })
            .collect();
        let columns = [
            Column::left("", 0.06),
            Column::left("Arc", 0.19),
            Column::right("on the edge", 0.15),
            Column::right("ratio", 0.12),
            Column::right("elastic", 0.15),
            Column::right("", 0.13),
            Column::right("mark at", 0.20),
        ];
        flow.table(&columns, &rows);
    }
    flow.paragraph(
        Face::Text,
        NOTE,
        "Mark the elastic from one end, the overlap left over at the other. Letters are those in the rings on the pieces; with ′, on \
         the other side of the body.",
    );
}

fn cautions(flow: &mut Flow<'_>) {
    flow.heading("Take care");
    flow.paragraph(
        Face::Text,
        BODY,
        "Rotary cutter: close the blade when you put it down, cut away from the hand, keep children away. Count your pins.",
    );
    flow.paragraph(
        Face::Text,
        BODY,
        "Swim elastic is often natural rubber; about 4 in 100 people react to latex. Ask the wearer, and use latex-free \
         elastic if unsure. Hives, swelling or trouble breathing: take it off and get medical help.",
    );
}

/// Samples of every line and mark, in two columns; the drawing and its height.
pub(crate) fn legend(letters: &Lettering, width: f64) -> (Drawing, f64) {
    type Sample = (&'static str, fn(&mut Drawing, &Lettering, Point));
    const SAMPLES: [Sample; 11] = [
        ("cut here", |d, _, p| stroke(d, pens::CUT, p)),
        ("sew here (seam line)", |d, _, p| stroke(d, pens::SEAM, p)),
        ("fold, or middle of a whole piece", |d, _, p| {
            stroke(d, pens::FOLD, p)
        }),
        ("level of the body", |d, _, p| stroke(d, pens::LEVEL, p)),
        ("placement", |d, _, p| stroke(d, pens::PLACEMENT, p)),
        ("under the next page", |d, _, p| stroke(d, pens::OVERLAP, p)),
        ("grain: along the selvedge", |d, _, p| grain(d, p)),
        ("greater stretch: goes round the body", |d, _, p| stretch(d, p)),
        ("notch, meets its partner; double: back", |d, _, p| notch(d, p)),
        ("elastic arc begins; letter as in the table", arc),
        ("point to mark", |d, _, p| cross(d, p)),
    ];
    const ROW: f64 = 8.0;
    let mut drawing = Drawing::default();
    let half = SAMPLES.len().div_ceil(2);
    for (i, (text, draw)) in SAMPLES.iter().enumerate() {
        let (column, row) = (i / half, i % half);
        let left = column as f64 * 0.5 * width;
        let y = 3.5 + ROW * row as f64;
        draw(&mut drawing, letters, Point::new(left, y));
        let role = Role::Paragraph(drawing.next_number());
        let line = letters.fit(Face::Text, NOTE, text, 0.5 * width - 24.0);
        drawing.words(PAPER, line, Point::new(left + 22.0, y + 1.1), role);
    }
    (drawing, 2.0 + ROW * half as f64)
}

fn stroke(d: &mut Drawing, pen: Pen, p: Point) {
    d.line(PAPER, pen, p, p + Vec2::new(18.0, 0.0));
}

fn grain(d: &mut Drawing, p: Point) {
    let (foot, head) = (p, p + Vec2::new(18.0, 0.0));
    d.line(PAPER, pens::GRAIN, foot, head);
    d.line(
        PAPER,
        pens::GRAIN,
        foot - Vec2::new(0.0, 2.0),
        foot + Vec2::new(0.0, 2.0),
    );
    d.path(
        PAPER,
        pens::GRAIN,
        open(&[head + Vec2::new(-4.0, -1.3), head, head + Vec2::new(-4.0, 1.3)]),
    );
}

fn stretch(d: &mut Drawing, p: Point) {
    let (from, to) = (p, p + Vec2::new(18.0, 0.0));
    d.line(PAPER, pens::STRETCH, from, to);
    d.path(
        PAPER,
        pens::STRETCH,
        open(&[to + Vec2::new(-4.0, -1.3), to, to + Vec2::new(-4.0, 1.3)]),
    );
    d.path(
        PAPER,
        pens::STRETCH,
        open(&[from + Vec2::new(4.0, -1.3), from, from + Vec2::new(4.0, 1.3)]),
    );
    for x in [7.2, 9.0, 10.8] {
        d.line(
            PAPER,
            pens::STRETCH,
            p + Vec2::new(x, -2.0),
            p + Vec2::new(x, 2.0),
        );
    }
}

fn notch(d: &mut Drawing, p: Point) {
    d.line(
        PAPER,
        pens::CUT,
        p + Vec2::new(0.0, -1.6),
        p + Vec2::new(18.0, -1.6),
    );
    let at = |x: f64, y: f64| p + Vec2::new(x, y);
    d.fill(
        PAPER,
        Tone::Black,
        closed(&[at(6.5, -1.6), at(11.5, -1.6), at(9.0, 1.9)]),
    );
}

fn arc(d: &mut Drawing, letters: &Lettering, p: Point) {
    for y in [-0.9, 0.9] {
        d.line(PAPER, pens::ARC, p + Vec2::new(2.0, y), p + Vec2::new(11.5, y));
    }
    let middle = p + Vec2::new(14.0, 0.0);
    d.ring(PAPER, pens::ARC, middle, 2.5);
    let line = letters.line(Face::Strong, LEAST, "a");
    let at = middle + Vec2::new(-0.5 * line.width, 0.36 * line.size);
    d.words(PAPER, line, at, Role::Aside);
}

fn cross(d: &mut Drawing, p: Point) {
    let middle = p + Vec2::new(9.0, 0.0);
    for arm in [Vec2::new(3.0, 0.0), Vec2::new(0.0, 3.0)] {
        d.line(PAPER, pens::CROSS, middle - arm, middle + arm);
    }
}
