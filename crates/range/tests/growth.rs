//! Ranges grow: every size redrafted, strictly larger, in even steps where its table is even.

#![allow(clippy::unwrap_used, reason = "a test that cannot draft its range must stop")]

use body::{BodyForm, Dimension, WaistLevel};
use cloth::ClothPlan;
use draft::{Design, Style};
use range::{
    Branch, BuiltIn, GrowthKind, Key, Range, SizeRefusal, SizeTable, Stacked, TableNotes, read_table,
};
use units::{Mm, Silent};

fn soft() -> ClothPlan {
    fixtures::slate()
}

fn drafted(table: &SizeTable) -> Range {
    Range::draft(table, &soft(), &Design::default(), &Silent)
}

fn own(text: &str) -> SizeTable {
    let notes = TableNotes {
        name: "own".into(),
        form: BodyForm::Woman,
        waist_level: WaistLevel::Natural,
        unit: None,
        provenance: String::new(),
    };
    read_table(text.as_bytes(), &notes).unwrap()
}

/// The "average" body of `data/draft/check-values.json` in steps of 40 mm of girth, six sizes, lengths as they are but for the
/// crotch (18 mm a step, as the survey's regression on hip girth has it), neck base and thigh (survey regressions of the body
/// crate) and the shoulder (3 mm a step, value from memory).
fn six_sizes() -> SizeTable {
    let mut text = String::from(
        "size,stature_mm,bust_mm,underbust_mm,waist_mm,high_hip_mm,hip_mm,thigh_mm,neck_base_mm,crotch_length_mm,\
         back_waist_length_mm,front_waist_length_mm,side_neck_to_bust_point_mm,bust_point_distance_mm,shoulder_length_mm,\
         side_length_mm,waist_to_hip_mm\n",
    );
    for i in 0..6 {
        let n = f64::from(i) - 1.0;
        let girth = |at: f64| at + 40.0 * n;
        text.push_str(&format!(
            "{},1650,{},{},{},{},{},{},{},{},408,438,264,{},{},214,204\n",
            38 + 2 * i,
            girth(920.0),
            girth(780.0),
            girth(760.0),
            girth(920.0),
            girth(1000.0),
            600.0 + 27.6 * n,
            368.0 + 5.6 * n,
            720.0 + 18.0 * n,
            184.0 + 8.0 * n,
            123.0 + 3.0 * n,
        ));
    }
    own(&text)
}

/// Source: own regression values, not measured garments: over six sizes in 40 mm girth steps second differences of leg 0.1,
/// armhole 0.2 and loop 0.01 mm. Which lengths grew there isn't recorded; ours are said above, and the armhole hangs on
/// the shoulder: 0.23 as here, 0.30 with the same shoulder in every size. Tolerance: half of the last digit given.
#[test]
fn even_steps_of_girth_give_even_steps_of_pattern() {
    let growth = drafted(&six_sizes()).growth();
    assert_eq!(growth.sizes.len(), 6);
    assert!(
        growth.is_growing()
            || growth
                .faults
                .iter()
                .all(|f| f.key == Key::Area("crotch_lining".into()))
    );
    let most = |key: Key| {
        growth
            .keys
            .iter()
            .find(|k| k.key == key)
            .unwrap()
            .most_uneven
            .unwrap()
    };
    assert!(most(Key::Edge("leg")) <= 0.15, "{}", most(Key::Edge("leg")));
    assert!(
        most(Key::Edge("armhole")) <= 0.25,
        "{}",
        most(Key::Edge("armhole"))
    );
    assert!(most(Key::Loop) <= 0.015, "{}", most(Key::Loop));
    assert!(
        !growth
            .faults
            .iter()
            .any(|f| matches!(f.what, GrowthKind::Uneven { .. }))
    );
}

/// Leg, loop, armhole, neckline and the area of front and back strictly grow over the whole of each built-in table that a
/// one-piece can be drafted for.
#[test]
fn built_in_tables_grow_from_size_to_size() {
    for (which, least) in [(BuiltIn::Women, 12), (BuiltIn::Children, 14)] {
        let mut table = which.table().unwrap();
        if which == BuiltIn::Women {
            table = table.with_same(Dimension::Stature, Mm::from_cm(168.0));
        }
        let range = drafted(&table);
        assert_eq!(
            range.refused().count(),
            0,
            "{:?}",
            range.refused().collect::<Vec<_>>()
        );
        assert_eq!(range.drafted().count(), least);
        let growth = range.growth();
        for key in [
            Key::Edge("leg"),
            Key::Edge("armhole"),
            Key::Edge("neckline"),
            Key::Loop,
            Key::Area("front".into()),
            Key::Area("back".into()),
        ] {
            let found = growth.keys.iter().find(|k| k.key == key).unwrap();
            for pair in found.values.windows(2) {
                assert!(
                    pair[1].unwrap() > pair[0].unwrap(),
                    "{which:?} {key:?}: {:?}",
                    found.values
                );
            }
        }
    }
}

/// Men's one-pieces are not drafted, and every size says so; briefs are, and leg and waist grow.
#[test]
fn men_get_briefs_and_a_reason_for_no_one_piece() {
    let table = BuiltIn::Men
        .table()
        .unwrap()
        .with_same(Dimension::Stature, Mm::from_cm(178.0));
    let none = drafted(&table);
    assert_eq!(none.refused().count(), 14);
    assert!(
        none.refused()
            .all(|(_, why)| why.to_string().contains("choose a brief"))
    );
    assert!(none.nest().pieces.is_empty());
    let briefs = Range::draft(&table, &soft(), &Design::of(Style::BRIEF), &Silent);
    assert_eq!(
        briefs.refused().count(),
        0,
        "{:?}",
        briefs.refused().collect::<Vec<_>>()
    );
    let growth = briefs.growth();
    for key in [Key::Edge("leg"), Key::Edge("waist"), Key::Area("front".into())] {
        let found = growth.keys.iter().find(|k| k.key == key).unwrap();
        assert!(
            found.values.windows(2).all(|w| w[1] > w[0]),
            "{key:?}: {:?}",
            found.values
        );
    }
}

struct StopAt(u64, std::cell::Cell<u64>);

impl units::Progress for StopAt {
    fn at(&self, done: u64, _of: u64, _words: &str) {
        self.1.set(done);
    }

    fn should_stop(&self) -> bool {
        self.1.get() >= self.0
    }
}

#[test]
fn a_range_that_is_stopped_keeps_what_is_done() {
    let progress = StopAt(2, std::cell::Cell::new(0));
    let range = Range::draft(&six_sizes(), &soft(), &Design::default(), &progress);
    assert_eq!(range.drafted().count(), 2);
    assert!(range.refused().all(|(_, why)| *why == SizeRefusal::Stopped));
}

/// What does not grow is named with the sizes it fails between, once for each reason it may have: the crotch lining has set reaches and a
/// set width, and the leg line opens out less steeply on a larger body.
#[test]
fn what_does_not_grow_is_named_once_for_each_reason() {
    let growth = drafted(&six_sizes()).growth();
    let faults: Vec<_> = growth
        .faults
        .iter()
        .filter(|f| f.key == Key::Area("crotch_lining".into()))
        .collect();
    // One fault goes on where the last ended, and for another reason.
    for pair in faults.windows(2) {
        assert_eq!(pair[0].sizes.last(), pair[1].sizes.first(), "{pair:?}");
        assert_ne!(pair[0].because, pair[1].because, "{pair:?}");
    }
    let (first, last) = (faults.first().unwrap(), faults.last().unwrap());
    assert_eq!(first.sizes.first(), growth.sizes.first());
    assert_eq!(last.sizes.last(), growth.sizes.last());
    assert!(
        faults
            .iter()
            .all(|f| f.words().contains("area of crotch lining does not grow"))
    );
}

/// The table's own step change (EN 13402-3: hip 4 cm, in larger sizes 5) is given as the reason of an uneven step.
#[test]
fn an_uneven_table_is_given_as_the_reason() {
    let table = BuiltIn::Women
        .table()
        .unwrap()
        .with_same(Dimension::Stature, Mm::from_cm(168.0));
    let growth = drafted(&table).growth();
    let leg = growth
        .faults
        .iter()
        .find(|f| f.key == Key::Edge("leg") && matches!(f.what, GrowthKind::Uneven { .. }))
        .unwrap();
    assert_eq!(leg.sizes, ["100", "104", "110"]);
    assert!(
        leg.because
            .iter()
            .any(|b| b.contains("hip girth change from 40 to 50 mm")),
        "{:?}",
        leg.because
    );
}

/// D = front waist length - (back waist length + 0.055 neck base): 15, 30, 60 mm take nothing, ease and a dart (draft.md
/// 3.5). The report must say so, and the growth check must blame it.
#[test]
fn a_dart_that_appears_is_reported() {
    let head = "size,stature_mm,bust_mm,underbust_mm,waist_mm,hip_mm,neck_base_mm,crotch_length_mm,back_waist_length_mm,\
                front_waist_length_mm,side_neck_to_bust_point_mm\n";
    let mut text = head.to_owned();
    for (i, front) in [443.0, 458.0, 488.0].into_iter().enumerate() {
        let g = 40.0 * i as f64;
        text.push_str(&format!(
            "{},1650,{},{},{},{},364,{},408,{front},{}\n",
            ["S", "M", "L"][i],
            900.0 + g,
            760.0 + g,
            740.0 + g,
            980.0 + g,
            720.0 + 18.0 * i as f64,
            front - 175.0,
        ));
    }
    let range = drafted(&own(&text));
    assert_eq!(
        range.refused().count(),
        0,
        "{:?}",
        range.refused().collect::<Vec<_>>()
    );
    let report = range.branches();
    let change = |to: &str| report.changes.iter().find(|c| c.to == to).unwrap();
    assert!(change("M").begins.contains(&Branch::SideEase));
    assert!(change("L").begins.contains(&Branch::Dart));
    assert!(change("L").ends.contains(&Branch::SideEase));
    assert!(change("L").words().contains("L has a dart"));
}

/// Two sizes of the same body: the one with a trunk 20 cm too long is refused with the draft's reason; the others stand.
#[test]
fn a_refused_size_keeps_its_reason_and_the_rest_stands() {
    let text = "size,stature_cm,bust_cm,underbust_cm,waist_cm,hip_cm,crotch_length_cm,back_waist_length_cm,\
                front_waist_length_cm,trunk_circumference_cm\n\
                A,165,92,78,76,100,72,40.8,43.8,154.5\nB,165,96,82,80,104,73.8,40.8,43.8,176\n";
    let range = drafted(&own(text));
    let refused: Vec<_> = range.refused().map(|(n, why)| (n, why.to_string())).collect();
    assert_eq!(refused.len(), 1);
    assert_eq!(refused[0].0, "B");
    assert!(refused[0].1.contains("trunk_circumference"), "{}", refused[0].1);
    let nest = range.nest();
    assert_eq!(nest.sizes, ["A"]);
    assert_eq!(nest.refused.len(), 1);
}

/// At the fold and the waist every size has its own half waist width, and it grows: a nest in the body's frame.
#[test]
fn the_nest_is_stacked_at_fold_and_waist() {
    let nest = drafted(&six_sizes()).nest();
    let front = nest.pieces.iter().find(|p| p.key == "front").unwrap();
    assert_eq!(front.stacked, Stacked::FoldAndWaist);
    assert_eq!(front.layers.len(), 6);
    let widths: Vec<f64> = front
        .layers
        .iter()
        .map(|layer| {
            let shape = layer.shape(false);
            let points: Vec<kurbo::Point> = shape
                .seam_line
                .iter()
                .flat_map(|e| e.curve.flatten(0.05))
                .collect();
            points
                .windows(2)
                .filter(|w| w[0].y <= 0.0 && w[1].y > 0.0)
                .map(|w| w[0].x + (w[1].x - w[0].x) * (0.0 - w[0].y) / (w[1].y - w[0].y))
                .fold(0.0, f64::max)
        })
        .collect();
    assert!(widths.windows(2).all(|w| w[1] > w[0]), "{widths:?}");
    let lining = nest.pieces.iter().find(|p| p.key == "crotch_lining").unwrap();
    assert_eq!(lining.stacked, Stacked::FoldAndCrotch);
}

/// A size is redrafted, not scaled: the strap keeps its set width while the leg grows.
#[test]
fn a_larger_size_is_not_a_scaled_smaller_one() {
    let range = drafted(&six_sizes());
    let edge = |i: usize, name: &str| -> f64 {
        let (_, size) = range.drafted().nth(i).unwrap();
        let front = size.draft.pieces.iter().find(|p| p.key == "front").unwrap();
        front.edge(name).unwrap().curve.length()
    };
    let grown = |name: &str| edge(5, name) / edge(0, name);
    assert!(
        grown("leg") > 1.1 && (grown("shoulder") - 1.0).abs() < 1e-9,
        "{} {}",
        grown("leg"),
        grown("shoulder")
    );
}

#[test]
fn the_same_table_gives_the_same_range() {
    assert!(drafted(&six_sizes()) == drafted(&six_sizes()));
}
