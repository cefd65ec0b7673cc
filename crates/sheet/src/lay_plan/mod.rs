//! The lay plan: how the pieces lie on the cloth, drawn to scale, with the measures to chalk them by when there is no plotter.
//!
//! The cloth runs down the page from its cut end. Each piece shows its place in the cutting order, its letter and its grain arrow; a
//! table gives both ends of that arrow from the cut end and from the selvedge: two chalk marks, and the paper piece is laid on them.
//!
//! **Shapes and units.** In: a [`lay::Lay`] in `table` mm. Out: PDF on A4, or SVG; y down.
//! **Limits.** Cloth longer than fits one page goes on over several.

mod scene;
mod svg;

use kurbo::{Point, Rect};
use lay::{Buying, Lay, LayRequest, Remnant};
use thiserror::Error;

use crate::book::{Book, View};
use crate::ink::Ink;
use crate::pattern::Printed;

/// A lay and what is said of it.
#[derive(Clone, Debug)]
pub struct LayPlan<'a> {
    /// `Maren, lap suit: shell`.
    pub title: &'a str,
    /// What was laid.
    pub request: &'a LayRequest,
    /// How.
    pub lay: &'a Lay,
    /// What to buy, if it is bought.
    pub buying: Option<&'a Buying>,
    /// What is left over.
    pub remnants: &'a [Remnant],
}

/// Why a plan could not be drawn.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum LayPlanRefusal {
    /// Nothing was laid.
    #[error("there is nothing on this cloth to draw; lay the pieces first")]
    Empty,
    /// The writer failed; a fault of this program.
    #[error("the file could not be written: {0}; please report it")]
    Writer(String),
}

/// A4, mm.
const PAGE: (f64, f64) = (210.0, 297.0);
/// Free margin on all sides, mm.
const MARGIN: f64 = 14.0;

/// The plan as PDF on A4: the drawing to scale, then the table of chalk marks. The same lay gives the same bytes.
///
/// # Errors
/// [`LayPlanRefusal`] for a lay without pieces, or a fault of the writer.
pub fn pdf(plan: &LayPlan<'_>) -> Result<Printed, LayPlanRefusal> {
    let scene = scene::scene(plan)?;
    let mut book =
        Book::new(plan.title, "Lay plan with the measures to chalk it by").map_err(LayPlanRefusal::Writer)?;
    let room = PAGE.1 - 2.0 * MARGIN;
    let mut pages = 0;
    // The heading stands above the first stretch of cloth.
    let mut from = 0.0;
    while pages == 0 || from < scene.size.1 - 1e-6 {
        let head = if pages == 0 { scene.head_height } else { 0.0 };
        let to = (from + room - head).min(scene.size.1);
        let clip = Rect::new(
            -MARGIN,
            from - if pages == 0 { 4.0 } else { 0.0 },
            PAGE.0 - MARGIN,
            to,
        );
        let cloth = View {
            sheet: Point::new(0.0, from),
            page: Point::new(MARGIN, MARGIN + head),
            clip: Some(clip),
            ..View::page((1.0, 1.0))
        };
        let heading = View {
            page: Point::new(MARGIN, MARGIN),
            ..View::page((1.0, 1.0))
        };
        let mut views: Vec<(View, &[Ink])> = vec![(cloth, &scene.cloth.inks)];
        if pages == 0 {
            views.push((heading, &scene.head.inks));
        }
        book.page(PAGE, &format!("Cloth {}", pages + 1), &views)
            .map_err(LayPlanRefusal::Writer)?;
        from = to;
        pages += 1;
    }
    for (k, table) in scene.tables.iter().enumerate() {
        let view = View {
            page: Point::new(MARGIN, MARGIN),
            ..View::page((1.0, 1.0))
        };
        book.page(PAGE, &format!("Chalk marks {}", k + 1), &[(view, &table.inks)])
            .map_err(LayPlanRefusal::Writer)?;
        pages += 1;
    }
    let (bytes, undrawn) = book.finish().map_err(LayPlanRefusal::Writer)?;
    Ok(Printed {
        bytes,
        pages,
        tiles: None,
        undrawn,
    })
}

/// The plan as one SVG: heading, the whole cloth, and the table of chalk marks below.
///
/// # Errors
/// [`LayPlanRefusal`] for a lay without pieces.
pub fn svg(plan: &LayPlan<'_>) -> Result<String, LayPlanRefusal> {
    let scene = scene::scene(plan)?;
    Ok(svg::write(plan, &scene))
}
