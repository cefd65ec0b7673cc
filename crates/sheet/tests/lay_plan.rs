//! Lay plans of drafted suits read back: every piece where the lay puts it, at the scale the plan says, and the same bytes each time.

#![allow(clippy::unwrap_used, reason = "a test that cannot draw its plan must stop")]

mod readback;
mod suits;

use cloth::Layer;
use draft::Design;
use lay::{
    BuyRules, Direction, Effort, Fold, Lay, LayCloth, LayRequest, buying, check, cutting_order,
    lay as lay_pieces, pieces_of, remnants, row_by_row,
};
use readback::pages;
use sheet::lay_plan::{LayPlan, LayPlanRefusal, pdf, svg};
use units::Silent;

fn request(names: &[&str], cloth: LayCloth) -> LayRequest {
    let mut request = LayRequest {
        garments: Vec::new(),
        pieces: Vec::new(),
        cloth,
    };
    for name in names {
        let suit = suits::suit(name, name, name, &Design::default());
        let garment = request.garments.len();
        request
            .pieces
            .extend(pieces_of(&suit.draft, Layer::Shell, garment, false));
        request.garments.push((*name).to_owned());
    }
    request
}

fn laid(request: &LayRequest, passes: u64) -> Lay {
    let effort = Effort {
        seed: 1,
        workers: 2,
        passes: Some(passes),
    };
    lay_pieces(request, &effort, None, &Silent, &mut |_| {}).unwrap()
}

fn plan<'a>(request: &'a LayRequest, lay: &'a Lay) -> LayPlan<'a> {
    LayPlan {
        title: "Harbour one-piece: shell",
        request,
        lay,
        buying: None,
        remnants: &[],
    }
}

/// Tolerance 0.01 mm of paper: four decimals in the file, an `f32` of points in the PDF.
#[test]
fn pieces_are_drawn_where_they_lie() {
    let request = request(&["average", "petite"], LayCloth::of_width("Slate tricot", 1500.0));
    let lay = laid(&request, 3);
    assert_eq!(check(&request, &lay.placed), vec![]);
    let picture = svg(&plan(&request, &lay)).unwrap();
    let document = roxmltree::Document::parse(&picture).unwrap();
    let cloth = document
        .descendants()
        .find(|n| n.attribute("class") == Some("cloth"))
        .unwrap();
    // The first closed path is the cloth itself: its width gives the scale.
    let boxes: Vec<(f64, f64, f64, f64)> = cloth
        .children()
        .filter(|n| n.has_tag_name("path") && n.attribute("fill").is_none())
        .filter_map(|n| n.attribute("d").filter(|d| d.ends_with('Z')))
        .map(|d| {
            d.trim_end_matches('Z')
                .split(['M', 'L'])
                .filter(|t| !t.is_empty())
                .map(|t| {
                    let (x, y) = t.split_once(' ').unwrap();
                    (x.parse::<f64>().unwrap(), y.parse::<f64>().unwrap())
                })
                .fold((f64::MAX, f64::MAX, f64::MIN, f64::MIN), |b, p| {
                    (b.0.min(p.0), b.1.min(p.1), b.2.max(p.0), b.3.max(p.1))
                })
        })
        .collect();
    let (left, top, right, _) = boxes[0];
    let scale = (right - left) / 1500.0;
    assert!(scale > 0.05 && scale < 0.25);
    // Pieces are drawn in the order of cutting; along runs down, across to the right.
    let order = cutting_order(&request, &lay);
    assert_eq!(boxes.len() - 1, order.len());
    for (drawn, &index) in boxes[1..].iter().zip(&order) {
        let placed = &lay.placed[index];
        let outline = placed.outline(&request.pieces[placed.piece]);
        let (x0, x1) = outline
            .iter()
            .fold((f64::MAX, f64::MIN), |b, p| (b.0.min(p.x), b.1.max(p.x)));
        let (y0, y1) = outline
            .iter()
            .fold((f64::MAX, f64::MIN), |b, p| (b.0.min(p.y), b.1.max(p.y)));
        for (found, wanted) in [
            (drawn.0, left + y0 * scale),
            (drawn.2, left + y1 * scale),
            (drawn.1, top + x0 * scale),
            (drawn.3, top + x1 * scale),
        ] {
            assert!((found - wanted).abs() < 0.01, "{found} {wanted}");
        }
    }
    assert_eq!(picture, svg(&plan(&request, &lay)).unwrap());
}

#[test]
fn a_long_cloth_goes_on_over_pages() {
    let names = ["average", "petite", "average", "petite", "average", "petite"];
    let request = request(&names, LayCloth::of_width("Slate tricot", 1000.0));
    let lay = laid(&request, 1);
    let bought = buying(&request, &lay, &BuyRules::default());
    assert!(bought.buy_mm >= bought.need_mm - 0.05 && bought.buy_mm < bought.need_mm + 100.0);
    let left = remnants(&request, &lay, bought.buy_mm);
    let plan = LayPlan {
        buying: Some(&bought),
        remnants: &left,
        ..plan(&request, &lay)
    };
    let printed = pdf(&plan).unwrap();
    let all = pages(&printed.bytes);
    assert_eq!(all.len(), printed.pages);
    assert!(all.len() >= 3, "{} pages for {} mm", all.len(), lay.cloth_mm);
    assert!(all.iter().all(|p| (p.size.0 - 210.0).abs() < 0.01));
    assert_eq!(pdf(&plan).unwrap().bytes, printed.bytes);
}

/// What a maker does by hand takes more cloth, and a fold lays the symmetric pieces as halves.
#[test]
fn suits_on_single_and_folded_cloth() {
    let single = request(&["average", "petite"], LayCloth::of_width("Slate tricot", 1500.0));
    let lay = laid(&single, 4);
    let rows = row_by_row(&single).unwrap();
    assert!(lay.cloth_mm < rows.cloth_mm, "{} {}", lay.cloth_mm, rows.cloth_mm);
    for fold in [Fold::Half, Fold::Partial { depth_mm: 500.0 }] {
        let folded = LayRequest {
            cloth: LayCloth {
                fold,
                direction: Direction::Free,
                ..single.cloth.clone()
            },
            ..single.clone()
        };
        let lay = laid(&folded, 2);
        assert_eq!(check(&folded, &lay.placed), vec![]);
        assert!(svg(&plan(&folded, &lay)).unwrap().contains("fold"));
    }
}

/// The words of a drawing in their order; a line that is wrapped is one sentence again.
fn words(picture: &str) -> String {
    let document = roxmltree::Document::parse(picture).unwrap();
    let texts = document.descendants().filter(|n| n.has_tag_name("text"));
    let lines: Vec<String> = texts
        .map(|n| n.descendants().filter_map(|d| d.text()).collect::<String>())
        .collect();
    lines.join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Both ends of every grain arrow stand in the table, and what to buy with its price in the heading.
#[test]
fn price_and_chalk_marks_are_told() {
    let request = request(&["average"], LayCloth::of_width("Slate tricot", 1500.0));
    let lay = laid(&request, 1);
    let rules = BuyRules {
        price_per_metre: Some(19.5),
        test_strip_mm: 200.0,
        ..BuyRules::default()
    };
    let bought = buying(&request, &lay, &rules);
    let plan = LayPlan {
        buying: Some(&bought),
        ..plan(&request, &lay)
    };
    let said = words(&svg(&plan).unwrap());
    let price = format!("{:.2} in all", 19.5 * bought.buy_mm / 1000.0);
    assert!(said.contains(&price), "{price} in {said}");
    assert!(
        said.contains(&format!("Buy {:.1} cm", bought.buy_mm / 10.0)),
        "{said}"
    );
    for placed in &lay.placed {
        let piece = &request.pieces[placed.piece];
        let table = placed.table_from_piece();
        for end in [table * piece.grain.0, table * piece.grain.1] {
            for mm in [end.x, end.y] {
                let cm = format!("{:.1} ", mm / 10.0);
                assert!(said.contains(&cm), "{}: {cm} in {said}", piece.name);
            }
        }
    }
}

#[test]
fn an_empty_lay_is_refused() {
    let request = request(&["average"], LayCloth::of_width("Slate tricot", 1500.0));
    let lay = Lay {
        placed: Vec::new(),
        ..laid(&request, 0)
    };
    assert_eq!(svg(&plan(&request, &lay)), Err(LayPlanRefusal::Empty));
}
