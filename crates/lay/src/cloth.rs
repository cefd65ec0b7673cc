//! The cloth on the table: its width and length, which way tops may point, how it is folded, flaws, repeat, and what may not be used.
//!
//! **Shapes and units.** `table` frame: x along the cloth from the cut end, y across from one selvedge (from the fold, when
//! folded), mm. Angles in radians.
//! **Source.** Defaults are common practice, no single source, unless they say otherwise.

use kurbo::Point;

/// Which way the tops of pieces may point.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Direction {
    /// Either way along the cloth.
    Free,
    /// All the same way: nap, shading, a print with an up. The default for knits, whose light falls differently from below
    /// (Textile School, "Garment layout procedure").
    #[default]
    OneWay,
    /// All pieces of one garment the same way; another garment may point the other way.
    PerGarment,
}

impl Direction {
    /// The words on paper and in files.
    pub const fn name(self) -> &'static str {
        match self {
            Direction::Free => "free",
            Direction::OneWay => "one-way",
            Direction::PerGarment => "per-garment",
        }
    }
}

/// How many layers lie on the table.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Fold {
    /// One, face up.
    #[default]
    Single,
    /// Folded lengthwise down the middle, faces together: pairs are cut at once, halves on the fold.
    Half,
    /// Folded over by so much: a double lane of that depth along the fold, a single lane beside it.
    Partial {
        /// Depth of the double lane, mm.
        depth_mm: f64,
    },
}

/// A place that pieces keep clear of, or only pieces of low demand may lie on.
#[derive(Clone, Debug, PartialEq)]
pub struct Flaw {
    /// Its outline, `table`.
    pub outline: Vec<Point>,
    /// 0: nothing may touch it. Else pieces that bear this grade or a higher one may lie on it.
    pub grade: u32,
}

/// One cloth and the rules for cutting it.
#[derive(Clone, Debug, PartialEq)]
pub struct LayCloth {
    /// What it is called.
    pub name: String,
    /// Selvedge to selvedge, unfolded, mm.
    pub width_mm: f64,
    /// What there is of it, mm; `None` when it is bought by the length.
    pub length_mm: Option<f64>,
    /// The outline of an odd remnant, `table`; its width and length stand above all the same, as those of its box.
    pub remnant: Option<Vec<Point>>,
    /// Kept free along each selvedge.
    pub selvedge_margin_mm: f64,
    /// Kept free at each cut end. Safety at ply ends is 1 to 2 cm (Woodhead, Industrial Cutting of Textile Materials, p. 41).
    pub end_allowance_mm: f64,
    /// Least distance between outlines: 0 for shears along a shared line, 2 to 3 for a rotary cutter.
    pub gap_mm: f64,
    /// Which way tops may point.
    pub direction: Direction,
    /// Layers on the table.
    pub fold: Fold,
    /// What must be kept clear.
    pub flaws: Vec<Flaw>,
    /// Repeat of a print that must match, along and across, mm.
    pub repeat_mm: (Option<f64>, Option<f64>),
    /// Grain may be tilted by this much, radians; 0 unless the maker asks.
    pub tilt: f64,
    /// A print or pile that runs one way along the cloth, and shows when it lies on its side. A plain knit has none, even if its tops
    /// all point one way.
    pub has_one_way_print: bool,
    /// A one-way print may lie on its side where a piece must be turned for its stretch. Without it such a piece is refused, with
    /// the question that the maker must answer.
    pub print_on_its_side: bool,
}

impl LayCloth {
    /// A plain cloth of that width with the common margins: 10 mm along the selvedges, 20 mm at the ends, 3 mm between pieces.
    pub fn of_width(name: &str, width_mm: f64) -> LayCloth {
        LayCloth {
            name: name.to_owned(),
            width_mm,
            length_mm: None,
            remnant: None,
            selvedge_margin_mm: 10.0,
            end_allowance_mm: 20.0,
            gap_mm: 3.0,
            direction: Direction::OneWay,
            fold: Fold::Single,
            flaws: Vec::new(),
            repeat_mm: (None, None),
            tilt: 0.0,
            has_one_way_print: false,
            print_on_its_side: false,
        }
    }

    /// Width of the cloth as it lies on the table, folded or not.
    pub fn table_width_mm(&self) -> f64 {
        match self.fold {
            Fold::Single => self.width_mm,
            Fold::Half => 0.5 * self.width_mm,
            Fold::Partial { depth_mm } => self.width_mm - depth_mm,
        }
    }

    /// Where the fold is on the flat cloth, from the selvedge that is folded over; 0 without a fold.
    pub fn fold_at_mm(&self) -> f64 {
        match self.fold {
            Fold::Single => 0.0,
            Fold::Half => 0.5 * self.width_mm,
            Fold::Partial { depth_mm } => depth_mm,
        }
    }

    /// A flaw measured on the flat cloth, as it lies on the table: across counts from the fold there, and a flaw of either layer is
    /// kept clear. One that the fold runs through lies on both.
    pub fn flaws_on_table(&self, flat: &Flaw) -> Vec<Flaw> {
        let fold = self.fold_at_mm();
        let sides: &[f64] = if self.fold == Fold::Single {
            &[1.0]
        } else {
            &[1.0, -1.0]
        };
        sides
            .iter()
            .map(|side| {
                let table = flat.outline.iter().map(|p| Point::new(p.x, side * (p.y - fold)));
                Flaw {
                    outline: above_zero(&table.collect::<Vec<_>>()),
                    grade: flat.grade,
                }
            })
            .filter(|f| f.outline.len() > 2)
            .collect()
    }

    /// What pieces may lie on, across the table: one span for each lane, and whether cloth lies double there.
    pub(crate) fn lanes(&self) -> Vec<(f64, f64, bool)> {
        let margin = self.selvedge_margin_mm;
        match self.fold {
            Fold::Single => vec![(margin, self.width_mm - margin, false)],
            Fold::Half => vec![(0.0, 0.5 * self.width_mm - margin, true)],
            Fold::Partial { depth_mm } => vec![
                (0.0, depth_mm - margin, true),
                // Folded nearly down the middle nothing is left single.
                (depth_mm, (self.width_mm - depth_mm - margin).max(depth_mm), false),
            ],
        }
    }

    /// Width on which pieces may lie, layers counted: what usage is measured by.
    pub fn usable_width_mm(&self) -> f64 {
        self.lanes()
            .iter()
            .map(|&(from, to, is_double)| (to - from) * if is_double { 2.0 } else { 1.0 })
            .sum()
    }

    /// What of the length there is can be used.
    pub(crate) fn usable_length_mm(&self) -> Option<f64> {
        self.length_mm.map(|l| l - 2.0 * self.end_allowance_mm)
    }
}

/// The part of an outline with y of 0 and more.
fn above_zero(ring: &[Point]) -> Vec<Point> {
    let mut kept = Vec::with_capacity(ring.len() + 2);
    for (i, &p) in ring.iter().enumerate() {
        let q = ring[(i + 1) % ring.len()];
        if p.y >= 0.0 {
            kept.push(p);
        }
        if (p.y > 0.0 && q.y < 0.0) || (p.y < 0.0 && q.y > 0.0) {
            kept.push(p.lerp(q, p.y / (p.y - q.y)));
        }
    }
    let is_flat = kept.iter().all(|p| p.y <= 0.0);
    if is_flat { Vec::new() } else { kept }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ten wide from 60 to 70 cm off the selvedge of a cloth of 150 cm, then from 70 to 80 over the middle.
    #[test]
    fn a_flaw_of_either_layer_is_kept_clear() {
        let flaw = |from: f64, to: f64| Flaw {
            outline: [(10.0, from), (20.0, from), (20.0, to), (10.0, to)]
                .map(Point::from)
                .to_vec(),
            grade: 0,
        };
        let spans = |fold: Fold, from: f64, to: f64| -> Vec<(f64, f64)> {
            let cloth = LayCloth {
                fold,
                ..LayCloth::of_width("tricot", 1500.0)
            };
            let across = |f: &Flaw| {
                let ys = f.outline.iter().map(|p| p.y);
                (ys.clone().fold(f64::INFINITY, f64::min), ys.fold(0.0, f64::max))
            };
            cloth.flaws_on_table(&flaw(from, to)).iter().map(across).collect()
        };
        assert_eq!(spans(Fold::Single, 600.0, 700.0), [(600.0, 700.0)]);
        assert_eq!(spans(Fold::Half, 600.0, 700.0), [(50.0, 150.0)]);
        assert_eq!(spans(Fold::Half, 900.0, 1000.0), [(150.0, 250.0)]);
        assert_eq!(spans(Fold::Half, 700.0, 830.0), [(0.0, 80.0), (0.0, 50.0)]);
        let partial = Fold::Partial { depth_mm: 400.0 };
        assert_eq!(spans(partial, 350.0, 360.0), [(40.0, 50.0)]);
        assert_eq!(spans(partial, 1200.0, 1300.0), [(800.0, 900.0)]);
    }
}
