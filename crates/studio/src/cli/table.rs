//! Aligned tables for people: columns as wide as their widest cell, numbers to the right.

/// Which side a column is aligned to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Align {
    Left,
    Right,
}

/// A table being filled, row by row.
pub(crate) struct Table {
    align: Vec<Align>,
    rows: Vec<Vec<String>>,
}

/// Spaces between two columns.
const GAP: &str = "  ";

impl Table {
    /// A table with these column heads.
    pub(crate) fn new(heads: &[(&str, Align)]) -> Table {
        Table {
            align: heads.iter().map(|(_, a)| *a).collect(),
            rows: vec![heads.iter().map(|(h, _)| (*h).to_owned()).collect()],
        }
    }

    /// Adds a row; missing cells are empty, surplus ones are left out.
    pub(crate) fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells);
    }

    /// Whether it has no rows under its head.
    pub(crate) fn is_empty(&self) -> bool {
        self.rows.len() < 2
    }

    /// The same, and nothing of a table that has no rows.
    pub(crate) fn to_text_or_nothing(&self, indent: usize) -> String {
        if self.is_empty() {
            String::new()
        } else {
            self.to_text(indent)
        }
    }

    /// The table as lines, each indented by `indent` spaces, no spaces at line ends.
    pub(crate) fn to_text(&self, indent: usize) -> String {
        let widths: Vec<usize> = (0..self.align.len())
            .map(|i| {
                self.rows
                    .iter()
                    .map(|r| r.get(i).map_or(0, |c| width(c)))
                    .max()
                    .unwrap_or(0)
            })
            .collect();
        let mut out = String::new();
        for row in &self.rows {
            let mut line = " ".repeat(indent);
            for (i, (align, full)) in self.align.iter().zip(&widths).enumerate() {
                let cell = row.get(i).map_or("", String::as_str);
                let pad = " ".repeat(full - width(cell));
                if i > 0 {
                    line += GAP;
                }
                match align {
                    Align::Left => line = line + cell + &pad,
                    Align::Right => line = line + &pad + cell,
                }
            }
            out += line.trim_end();
            out.push('\n');
        }
        out
    }
}

/// Characters a cell takes on the screen: colour codes take none.
fn width(cell: &str) -> usize {
    let mut count = 0;
    let mut in_code = false;
    for c in cell.chars() {
        match (in_code, c) {
            (false, '\x1b') => in_code = true,
            (true, 'm') => in_code = false,
            (true, _) => {}
            (false, _) => count += 1,
        }
    }
    count
}

/// Breaks a text at spaces into lines of at most `width` characters, the later ones indented by `indent`.
pub(crate) fn wrap(text: &str, columns: usize, indent: usize) -> String {
    let mut out = String::new();
    let mut used = 0;
    for word in text.split_whitespace() {
        let len = width(word);
        if used > 0 && used + 1 + len > columns.saturating_sub(indent) {
            out.push('\n');
            out += &" ".repeat(indent);
            used = 0;
        } else if used > 0 {
            out.push(' ');
            used += 1;
        }
        out += word;
        used += len;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up_and_numbers_stand_to_the_right() {
        let mut table = Table::new(&[("level", Align::Left), ("body", Align::Right)]);
        table.row(vec!["bust".into(), "90.0".into()]);
        table.row(vec!["high hip".into(), "109.0".into()]);
        assert_eq!(
            table.to_text(2),
            "  level      body\n  bust       90.0\n  high hip  109.0\n"
        );
    }

    #[test]
    fn colour_takes_no_room() {
        let mut table = Table::new(&[("", Align::Left), ("x", Align::Left)]);
        table.row(vec!["\x1b[32mgood\x1b[0m".into(), "1".into()]);
        table.row(vec!["watch".into(), "2".into()]);
        assert_eq!(table.to_text(0), "       x\n\x1b[32mgood\x1b[0m   1\nwatch  2\n");
    }

    #[test]
    fn long_sentences_wrap_under_their_start() {
        assert_eq!(
            wrap("take both again at once", 14, 4),
            "take both\n    again at\n    once"
        );
    }
}
