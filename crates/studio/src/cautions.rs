//! The cautions that go with a suit, in the words of `data/trade/cautions.csv`.
//!
//! Short, and only those that apply to this suit: a page of warnings is a page nobody reads.
//!
//! **Source.** Each row of the table names its own.

use body::BodyForm;
use draft::LiningCover;
use make::latex_caution;
use serde::Serialize;

use crate::suit_file::SuitFile;

const TABLE: &str = include_str!("../../../data/trade/cautions.csv");

/// One caution.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// Row of the table: `float`.
    pub id: &'static str,
    /// What it is about: `not a flotation aid`.
    pub topic: String,
    /// What to know and do.
    pub say: String,
}

/// The cautions that apply to this suit, in a fixed order.
pub fn cautions(suit: &SuitFile) -> Vec<Caution> {
    let mut ids = vec!["pressure", "float"];
    if latex_caution(&suit.elastic).is_some() {
        ids.push("latex");
    }
    if suit.design.lining == LiningCover::None {
        ids.push("sheer");
    }
    if suit.wearer.form == BodyForm::Child {
        ids.extend(["kids_cord", "kids_cord_back", "kids_fit"]);
        if suit.wearer.age_years.is_some_and(|age| age < SMALL_PARTS_AGE) {
            ids.push("kids_parts");
        }
    }
    ids.into_iter().filter_map(|id| of_table(TABLE, id)).collect()
}

/// Under this age loose small parts are a choking hazard. Source: row `kids_parts` of the table.
const SMALL_PARTS_AGE: f64 = 3.0;

/// The caution of that row, whether or not it applies to a suit: `heat`.
pub fn caution_of(id: &'static str) -> Option<Caution> {
    of_table(TABLE, id)
}

fn of_table(table: &str, id: &'static str) -> Option<Caution> {
    table
        .lines()
        .skip(1)
        .map(cells)
        .find(|row| row.first().is_some_and(|c| c == id))
        .and_then(|row| {
            Some(Caution {
                id,
                topic: row.get(1)?.clone(),
                say: row.get(2)?.clone(),
            })
        })
}

/// The cells of one line of comma-separated values; quotes keep commas in.
fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            c => {
                if let Some(cell) = cells.last_mut() {
                    cell.push(c);
                }
            }
        }
    }
    cells
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_that_can_be_asked_for_is_in_the_table() {
        for id in [
            "pressure",
            "float",
            "latex",
            "sheer",
            "kids_cord",
            "kids_cord_back",
            "kids_fit",
            "kids_parts",
            "heat",
            "blade",
        ] {
            let caution = of_table(TABLE, id).unwrap_or_else(|| panic!("{id} is not in the table"));
            assert!(
                caution.say.len() > 20 && !caution.say.contains('"'),
                "{caution:?}"
            );
        }
    }
}
