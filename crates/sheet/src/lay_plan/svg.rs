//! The lay plan as one picture, in millimetres of paper.

use std::fmt::Write as _;

use super::scene::Scene;
use super::{LayPlan, MARGIN, PAGE};
use crate::nest::svg::inks;
use crate::xml::{escape, number};

pub(super) fn write(plan: &LayPlan<'_>, scene: &Scene) -> String {
    let table_height = PAGE.1 - 2.0 * MARGIN;
    let mut height = 2.0 * MARGIN + scene.head_height + scene.size.1 + 8.0;
    let tables: Vec<f64> = scene
        .tables
        .iter()
        .enumerate()
        .map(|(k, _)| {
            let at = height - MARGIN;
            let is_last = k + 1 == scene.tables.len();
            height += if is_last {
                scene.last_table_height
            } else {
                table_height
            };
            at
        })
        .collect();
    let (w, h) = (number(PAGE.0), number(height));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\">\n<title>{}</title>\n\
         <rect width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>\n<g fill=\"none\" stroke=\"#000\" \
         font-family=\"'Libre Franklin', 'Noto Sans', sans-serif\">\n",
        escape(plan.title)
    );
    let mut part = |class: &str, y: f64, drawing: &crate::ink::Drawing| {
        let _ = writeln!(
            out,
            "<g class=\"{class}\" transform=\"translate({} {})\">",
            number(MARGIN),
            number(y)
        );
        inks(&mut out, &drawing.inks);
        out.push_str("</g>\n");
    };
    part("heading", MARGIN, &scene.head);
    part("cloth", MARGIN + scene.head_height, &scene.cloth);
    for (table, y) in scene.tables.iter().zip(tables) {
        part("chalk-marks", y, table);
    }
    out.push_str("</g>\n</svg>\n");
    out
}
