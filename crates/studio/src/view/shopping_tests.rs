//! The shopping list in words and in money.

use serde_json::{Value as Json, json};

use super::*;
use crate::document::work;
use crate::view::examples::{example, paper};

fn maren(workroom: Json) -> ShoppingView {
    let worked = example("maren-one-piece");
    let mut linked = worked.linked();
    linked.workroom = Some(paper("workroom", "workroom", workroom));
    shopping_view(&work(worked.suit.clone(), linked))
}

#[test]
fn a_workroom_nobody_wrote_down_is_said() {
    let view = maren(json!({}));
    assert_eq!(view.list.assumed, ASSUMED);
    assert_eq!(view.head.state, State::Missing);
    assert!(view.list.total.is_none() && view.list.quote.is_none());
    assert!(!view.list.unpriced.is_empty());
    for line in &view.list.lines {
        assert!(!line.what.contains(['‹', '{']), "{}", line.what);
        assert!(
            line.notes.iter().all(|n| !n.contains(['‹', '{'])),
            "{:?}",
            line.notes
        );
    }
}

/// Every line priced in packs of one: the total is the sum of the lines, and the quote adds work and margin to the shares.
#[test]
fn prices_make_a_total_and_a_quote() {
    let bare = maren(json!({}));
    let named = |start: &str| bare.list.lines.iter().any(|l| l.what.starts_with(start));
    let mut prices = vec![
        json!({"item": "thread", "fibre": "spun-polyester", "pack": "500 m", "price": 3.4}),
        json!({"item": "thread", "fibre": "textured-polyester", "pack": "1000 m", "price": 5.2}),
        json!({"item": "pins", "pack": 50, "price": 3}),
        json!({"item": "cups", "pack": 1, "price": 4.8}),
    ];
    for size in [65, 70, 75, 80, 90] {
        prices.push(json!({"item": "needle", "point": "stretch", "size": size, "pack": 5, "price": 6.5}));
        prices.push(json!({"item": "needle", "point": "stretch", "size": size, "twin": "4 mm", "pack": 1, "price": 7}));
    }
    for kind in make::ElasticKind::ALL {
        for width in ["6 mm", "8 mm", "10 mm"] {
            prices.push(
                json!({"item": "elastic", "kind": kind.key(), "width": width, "pack": "1 m", "price": 0.6}),
            );
        }
    }
    assert!(named("Needles") && named("Elastic"));
    let view = maren(
        json!({"machines": [{"name": "Z", "kind": "zigzag"}], "prices": prices,
        "stock": [{"item": "pins", "amount": 200}], "terms": {"hour_rate": 20, "margin": 10, "currency": "EUR"}}),
    );
    let pins = view
        .list
        .lines
        .iter()
        .find(|l| l.what.starts_with("Ball-point pins"))
        .unwrap();
    assert_eq!(
        (&pins.to_buy, pins.cost.as_deref()),
        (&None, None),
        "in stock: nothing to buy, nothing to pay"
    );
    // The cloths of the example have no price in its file.
    let open: Vec<&str> = view.list.unpriced.iter().map(String::as_str).collect();
    assert!(open.iter().all(|l| l.contains("wide")), "{open:?}");
    let quote = view.list.quote.unwrap();
    assert_eq!(quote.missing.is_empty(), open.is_empty());
    let value = |name: &str| {
        &quote
            .rows
            .iter()
            .find(|r| r.name.starts_with(name))
            .unwrap()
            .value
    };
    let number = |text: &str| text.split(' ').next().unwrap().parse::<f64>().unwrap();
    let (hours, work) = (number(value("Hours")), number(value("Work")));
    // The hours are shown to a tenth: half a tenth of 20 an hour, and a cent of rounding.
    assert!((work - 20.0 * hours).abs() <= 1.01, "{work} {hours}");
    let sum = number(value("Cloth")) + number(value("Elastic")) + work + number(value("Margin"));
    assert!((number(&quote.total) - sum).abs() < 0.03, "{} {sum}", quote.total);
}

#[test]
fn the_printed_sheets_are_the_same_every_time() {
    let list = maren(json!({"terms": {"hour_rate": 20}})).list;
    let of = |list: &Listing| sheet::listing::pdf(list, sheet::Paper::A4).unwrap();
    let shopping = shopping_list(&list, vec!["Suit".into()]);
    assert_eq!(of(&shopping).bytes, of(&shopping).bytes);
    assert_eq!(of(&shopping).undrawn, [] as [char; 0]);
    assert_eq!(of(&quote_list(&list, vec![]).unwrap()).pages, 1);
    assert!(quote_list(&maren(json!({})).list, vec![]).is_none());
}
