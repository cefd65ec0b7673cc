//! The one shopping list of a class on paper.

use make::ClassLine;
use sheet::listing::{ListColumn, ListRow, ListTable, Listing, Part};

use super::voice::Voice;
use super::work::WorkedClass;

/// What each person's share of a line is: `Maren 1.30 m, Tove 1.20 m`.
pub(crate) fn shares(class: &WorkedClass, line: &ClassLine, voice: &Voice) -> String {
    let of: Vec<String> = line
        .shares
        .iter()
        .filter_map(|(at, amount)| {
            let (person, _) = class.sewn(*at)?;
            let amount = voice.amount_short(&line.item, *amount);
            Some(voice.say(
                "class-share-of",
                &[("name", (&person.name).into()), ("amount", amount.into())],
            ))
        })
        .collect();
    of.join(", ")
}

/// The shopping list.
pub(super) fn shopping_list(class: &WorkedClass, voice: &Voice) -> Listing {
    let setting = &class.setting;
    let mut parts = vec![Part::Text(
        voice.say("class-shopping-lead", &[("people", class.sewing.len().into())]),
    )];
    let lacking: Vec<&str> = class.refused().map(|(person, _)| person.name.as_str()).collect();
    if !lacking.is_empty() {
        let names = voice.words.list(&lacking);
        parts.push(Part::Text(
            voice.say("class-shopping-lacks", &[("names", names.into())]),
        ));
    }
    let has_cost = class.shopping.lines.iter().any(|l| l.cost.is_some());
    let rows = class.shopping.lines.iter().map(|line| {
        let mut cells = vec![
            voice.plan(&line.say),
            voice.amount(&line.item, line.needed),
            if line.in_stock > 0.0 {
                voice.amount(&line.item, line.in_stock)
            } else {
                String::new()
            },
            voice.amount(&line.item, line.to_buy),
        ];
        if has_cost {
            cells.push(line.cost.map_or(String::new(), |c| voice.words.number(c, 2)));
        }
        let mut notes: Vec<String> = line.notes.iter().map(|n| voice.plan(n)).collect();
        // What everyone has alike needs no list of names.
        let is_alike = line
            .shares
            .iter()
            .all(|(_, a)| line.shares.first().is_some_and(|f| f.1 == *a));
        if !is_alike {
            notes.push(format!(
                "{}: {}.",
                voice.word("class-shares"),
                shares(class, line, voice)
            ));
        }
        ListRow::of(cells).with(notes.join(" "))
    });
    let mut columns = vec![
        ListColumn::words(voice.word("class-col-what"), 3.2),
        ListColumn::figures(voice.word("class-col-needed"), 1.7),
        ListColumn::figures(voice.word("class-col-stock"), 1.3),
        ListColumn::figures(voice.word("class-col-buy"), 1.7),
    ];
    if has_cost {
        columns.push(ListColumn::figures(voice.word("class-col-cost"), 1.0));
    }
    parts.push(Part::Table(ListTable {
        columns,
        rows: rows.collect(),
        is_ticked: true,
    }));
    if has_cost {
        parts.push(Part::Text(match class.shopping.cost {
            Some(cost) => voice.say("class-cost", &[("cost", voice.words.number(cost, 2).into())]),
            None => voice.word("class-no-cost"),
        }));
    }
    Listing {
        language: setting.language.tag().to_owned(),
        title: voice.word("class-shopping"),
        subtitle: [setting.name.as_str(), setting.when.as_str()]
            .into_iter()
            .filter(|t| !t.is_empty())
            .collect::<Vec<_>>()
            .join(", "),
        running: format!("{}, {}", setting.name, voice.word("class-shopping")),
        page_word: voice.word("class-page"),
        is_landscape: false,
        parts,
    }
}
