//! Kinds, limits, lap and buying rules held against the tables they were taken from.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use fixtures::rows;
use make::{
    Chlorine, EDGE_PRESSURE_STOP_KPA, EDGE_PRESSURE_WATCH_KPA, ElasticChoice, ElasticKind, LAP_JOIN, Latex,
    Narrowing, latex_caution,
};

/// Source: `data/trade/elastics.csv`.
#[test]
fn every_kind_is_the_tables() {
    let rows = rows(include_str!("../../../data/trade/elastics.csv"));
    assert_eq!(rows.len(), ElasticKind::ALL.len());
    for (kind, row) in ElasticKind::ALL.into_iter().zip(rows) {
        let facts = kind.facts();
        assert_eq!(facts.name, row[0]);
        let widths: Vec<f64> = row[2].split([',', '-']).map(|w| w.parse().unwrap()).collect();
        assert_eq!(
            facts.widths_mm,
            (widths[0], *widths.last().unwrap()),
            "{}",
            facts.name
        );
        let narrows = match facts.narrows {
            Narrowing::No => "no",
            Narrowing::Slightly => "slightly",
            Narrowing::Yes => "yes",
        };
        assert_eq!(narrows, row[3], "{}", facts.name);
        let chlorine = match kind.chlorine() {
            Chlorine::Good => "good",
            Chlorine::Fair => "fair",
            Chlorine::Poor => "poor",
        };
        assert!(row[4].starts_with(chlorine), "{}: {}", facts.name, row[4]);
        let (least, most) = facts.working_extension;
        assert_eq!(
            format!("{:.0}-{:.0}", least.percent(), most.percent()),
            row[6],
            "{}",
            facts.name
        );
        let latex = match row[8].as_str() {
            "yes" => Latex::Yes,
            "no" => Latex::No,
            "maybe" | "often: ask" => Latex::Ask,
            other => panic!("latex {other}"),
        };
        assert_eq!(facts.latex, latex, "{}", facts.name);
        assert_eq!(ElasticKind::from_key(kind.key()), Some(kind));
    }
    assert_eq!(ElasticKind::from_key("string"), None);
}

/// Source: `data/trade/pressure_model.toml`, table `findings`.
#[test]
fn pressure_limits_are_the_tables() {
    let table: toml::Table = include_str!("../../../data/trade/pressure_model.toml")
        .parse()
        .unwrap();
    let edge = &table["findings"]["edge_kpa"];
    assert_eq!(edge["watch_above"].as_float(), Some(EDGE_PRESSURE_WATCH_KPA));
    assert_eq!(edge["stop_above"].as_float(), Some(EDGE_PRESSURE_STOP_KPA));
}

/// Source: `data/trade/allowances.csv`.
#[test]
fn the_lap_is_the_tables() {
    let rows = rows(include_str!("../../../data/trade/allowances.csv"));
    let lap = rows.iter().find(|r| r[0] == "elastic lap join").unwrap();
    assert_eq!(lap[2].parse::<f64>().unwrap(), LAP_JOIN.get());
}

/// Source: `data/trade/notions.toml`: what `elastic_to_buy` does, in the table's words.
#[test]
fn the_buying_rule_is_the_tables() {
    let table: toml::Table = include_str!("../../../data/trade/notions.toml").parse().unwrap();
    let elastic = &table["elastic"];
    assert_eq!(
        elastic["length"].as_str(),
        Some("sum of cut lengths per width and kind, + 10 %, rounded up to 0.25 m")
    );
    assert_eq!(
        elastic["spare"].as_str(),
        Some("0.2 m per width for the stretch test")
    );
}

/// Source: `data/trade/cautions.csv`, row `latex`: every sentence of what we say is the table's, but the one on this elastic.
#[test]
fn the_latex_caution_is_the_tables() {
    let rows = rows(include_str!("../../../data/trade/cautions.csv"));
    let say = &rows.iter().find(|r| r[0] == "latex").unwrap()[2];
    let caution = latex_caution(&ElasticChoice::default()).unwrap();
    let said = format!("{} {}", caution.message, caution.remedy);
    let (_, shared) = said.split_once(". ").unwrap();
    assert!(say.ends_with(shared), "{shared}\nis not in\n{say}");
}
