//! The shopping list of a class for a spreadsheet: a row a line, a column a person.
//!
//! **Shapes and units.** Lengths in metres, the rest counted; a point for decimals, so that any program reads it.
//! **Source.** RFC 4180: commas, quotes doubled, lines ending in CR LF.

use super::voice::Voice;
use super::work::WorkedClass;

fn quoted(text: &str) -> String {
    // A text that begins as a formula would be run by a spreadsheet.
    let text = match text.chars().next() {
        Some('=' | '+' | '-' | '@' | '\t' | '\r') => format!("'{text}"),
        _ => text.to_owned(),
    };
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text
    }
}

/// The file.
pub(super) fn shopping_csv(class: &WorkedClass, voice: &Voice) -> String {
    let people = (0..class.sewing.len())
        .filter_map(|at| class.sewn(at))
        .map(|(person, _)| person.name.as_str());
    let heads = [
        "item", "what", "unit", "needed", "in_stock", "to_buy", "packs", "cost",
    ];
    let head: Vec<String> = heads.into_iter().chain(people).map(quoted).collect();
    let mut out = head.join(",") + "\r\n";
    for line in &class.shopping.lines {
        let (unit, by, digits) = if line.item.is_length() {
            ("m", 1000.0, 3)
        } else {
            ("", 1.0, 0)
        };
        let number = |of: f64| format!("{:.digits$}", of / by);
        let mut cells = vec![
            quoted(line.item.key().trim_start_matches("buy.")),
            quoted(&voice.plan(&line.say)),
            unit.to_owned(),
            number(line.needed),
            number(line.in_stock),
            number(line.to_buy),
            line.packs.map_or(String::new(), |p| p.to_string()),
            line.cost.map_or(String::new(), |c| format!("{c:.2}")),
        ];
        for at in 0..class.sewing.len() {
            let share = line.shares.iter().find(|(person, _)| *person == at);
            cells.push(share.map_or(String::new(), |(_, of)| number(*of)));
        }
        out += &(cells.join(",") + "\r\n");
    }
    out
}

#[cfg(test)]
mod tests {
    use super::quoted;

    #[test]
    fn texts_cannot_break_out_of_their_cell() {
        assert_eq!(quoted("Kelp print, 1.48 m"), "\"Kelp print, 1.48 m\"");
        assert_eq!(quoted("4\" wide"), "\"4\"\" wide\"");
        assert_eq!(quoted("=HYPERLINK(1)"), "'=HYPERLINK(1)");
        assert_eq!(quoted("Tove"), "Tove");
    }
}
