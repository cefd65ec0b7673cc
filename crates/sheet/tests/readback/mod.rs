//! A reader of our PDFs that shares nothing with the writer but the PDF standard: paths and letter sizes in millimetres.

#![allow(dead_code, reason = "each test uses its part")]
#![allow(unreachable_pub, reason = "shared by tests, which are crates of their own")]
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

use std::collections::BTreeMap;

use lopdf::content::Content;
use lopdf::{Document, Object, ObjectId};

const MM_PER_PT: f64 = 25.4 / 72.0;

type Matrix = [f64; 6];

/// `b` first, then `a`.
fn times(a: Matrix, b: Matrix) -> Matrix {
    [
        b[0] * a[0] + b[1] * a[2],
        b[0] * a[1] + b[1] * a[3],
        b[2] * a[0] + b[3] * a[2],
        b[2] * a[1] + b[3] * a[3],
        b[4] * a[0] + b[5] * a[2] + a[4],
        b[4] * a[1] + b[5] * a[3] + a[5],
    ]
}

/// A painted path.
#[derive(Clone, Debug)]
pub struct Painted {
    /// Points in mm from the upper left corner of the page, y down; end points of curves only.
    pub points: Vec<(f64, f64)>,
    pub is_closed: bool,
    pub is_stroked: bool,
    /// Line width, mm.
    pub width: f64,
    /// Names of the layers it is in, outermost first.
    pub layers: Vec<String>,
}

impl Painted {
    pub fn bounds(&self) -> (f64, f64, f64, f64) {
        self.points
            .iter()
            .fold((f64::MAX, f64::MAX, f64::MIN, f64::MIN), |b, p| {
                (b.0.min(p.0), b.1.min(p.1), b.2.max(p.0), b.3.max(p.1))
            })
    }
}

/// A page read back.
#[derive(Clone, Debug)]
pub struct Page {
    /// Width and height, mm.
    pub size: (f64, f64),
    pub paths: Vec<Painted>,
    /// Height of every run of letters, mm.
    pub letter_sizes: Vec<f64>,
    /// Painting operators outside every layer.
    pub outside_layers: usize,
    /// Its name in the outline.
    pub name: String,
}

pub fn number(o: &Object) -> f64 {
    match o {
        Object::Integer(i) => *i as f64,
        Object::Real(r) => f64::from(*r),
        other => panic!("not a number: {other:?}"),
    }
}

/// All pages of a document.
pub fn pages(bytes: &[u8]) -> Vec<Page> {
    let pdf = Document::load_mem(bytes).expect("a PDF");
    let names = outline(&pdf);
    pdf.get_pages()
        .into_values()
        .map(|id| {
            let mut page = read(&pdf, id);
            page.name = names.get(&id).cloned().unwrap_or_default();
            page
        })
        .collect()
}

/// Name of each page in the outline.
fn outline(pdf: &Document) -> BTreeMap<ObjectId, String> {
    let mut names = BTreeMap::new();
    let root = pdf
        .catalog()
        .unwrap()
        .get(b"Outlines")
        .unwrap()
        .as_reference()
        .unwrap();
    let mut next = pdf
        .get_dictionary(root)
        .unwrap()
        .get(b"First")
        .and_then(Object::as_reference)
        .ok();
    while let Some(id) = next {
        let item = pdf.get_dictionary(id).unwrap();
        let title = lopdf::decode_text_string(item.get(b"Title").unwrap()).unwrap();
        let mut target = item.get(b"Dest").unwrap();
        while let Object::Reference(id) = target {
            target = pdf.get_object(*id).unwrap();
        }
        names.insert(target.as_array().unwrap()[0].as_reference().unwrap(), title);
        next = item.get(b"Next").and_then(Object::as_reference).ok();
    }
    names
}

/// Names of the layers behind the names a page uses.
fn layer_names(pdf: &Document, page: ObjectId) -> BTreeMap<String, String> {
    let mut names = BTreeMap::new();
    let resources = pdf.get_dictionary(page).unwrap().get(b"Resources").unwrap();
    let resources = pdf.dereference(resources).unwrap().1.as_dict().unwrap();
    let Ok(properties) = resources.get(b"Properties") else {
        return names;
    };
    let properties = pdf.dereference(properties).unwrap().1.as_dict().unwrap();
    for (name, id) in properties {
        let dict = pdf.dereference(id).unwrap().1.as_dict().unwrap();
        let text = match dict.get(b"Name") {
            Ok(n) => String::from_utf8_lossy(n.as_str().unwrap()).into_owned(),
            Err(_) => dict
                .get(b"OCGs")
                .unwrap()
                .as_array()
                .unwrap()
                .iter()
                .map(|g| {
                    let g = pdf.dereference(g).unwrap().1.as_dict().unwrap();
                    String::from_utf8_lossy(g.get(b"Name").unwrap().as_str().unwrap()).into_owned()
                })
                .collect::<Vec<_>>()
                .join("+"),
        };
        names.insert(String::from_utf8_lossy(name).into_owned(), text);
    }
    names
}

fn read(pdf: &Document, id: ObjectId) -> Page {
    let dict = pdf.get_dictionary(id).unwrap();
    let media: Vec<f64> = dict
        .get(b"MediaBox")
        .unwrap()
        .as_array()
        .unwrap()
        .iter()
        .map(number)
        .collect();
    let size = (
        (media[2] - media[0]) * MM_PER_PT,
        (media[3] - media[1]) * MM_PER_PT,
    );
    let names = layer_names(pdf, id);
    let content = Content::decode(&pdf.get_page_content(id)).unwrap();
    let mut page = Page {
        size,
        paths: Vec::new(),
        letter_sizes: Vec::new(),
        outside_layers: 0,
        name: String::new(),
    };
    let mut state = (([1.0, 0.0, 0.0, 1.0, 0.0, 0.0]), 1.0_f64);
    let mut stack = Vec::new();
    let mut path: Vec<(Vec<(f64, f64)>, bool)> = Vec::new();
    let mut sections: Vec<Option<String>> = Vec::new();
    let mut font_size = 0.0;
    for op in &content.operations {
        let v: Vec<f64> = op
            .operands
            .iter()
            .filter(|o| matches!(o, Object::Integer(_) | Object::Real(_)))
            .map(number)
            .collect();
        let at = |m: &Matrix, x: f64, y: f64| {
            let p = (m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]);
            ((p.0 - media[0]) * MM_PER_PT, (media[3] - p.1) * MM_PER_PT)
        };
        match op.operator.as_str() {
            "q" => stack.push(state),
            "Q" => state = stack.pop().expect("Q without q"),
            "cm" => state.0 = times(state.0, [v[0], v[1], v[2], v[3], v[4], v[5]]),
            "w" => state.1 = v[0],
            "m" => path.push((vec![at(&state.0, v[0], v[1])], false)),
            "l" => path.last_mut().unwrap().0.push(at(&state.0, v[0], v[1])),
            "c" => path.last_mut().unwrap().0.push(at(&state.0, v[4], v[5])),
            "v" | "y" => path.last_mut().unwrap().0.push(at(&state.0, v[2], v[3])),
            "h" => path.last_mut().unwrap().1 = true,
            "re" => {
                let corners = [(0.0, 0.0), (v[2], 0.0), (v[2], v[3]), (0.0, v[3])];
                path.push((
                    corners.map(|c| at(&state.0, v[0] + c.0, v[1] + c.1)).to_vec(),
                    true,
                ));
            }
            "n" => path.clear(),
            "S" | "s" | "f" | "f*" | "F" | "B" | "B*" | "b" | "b*" => {
                let layers: Vec<String> = sections.iter().flatten().cloned().collect();
                page.outside_layers += usize::from(layers.is_empty());
                let scale = (state.0[0] * state.0[3] - state.0[1] * state.0[2]).abs().sqrt();
                for (points, is_closed) in path.drain(..) {
                    page.paths.push(Painted {
                        points,
                        is_closed: is_closed || op.operator == "s",
                        is_stroked: matches!(op.operator.as_str(), "S" | "s" | "B" | "B*" | "b" | "b*"),
                        width: state.1 * scale * MM_PER_PT,
                        layers: layers.clone(),
                    });
                }
            }
            "BDC" | "BMC" => {
                let is_layer = op
                    .operands
                    .first()
                    .is_some_and(|o| o.as_name().is_ok_and(|n| n == b"OC"));
                sections.push(is_layer.then(|| {
                    let name = String::from_utf8_lossy(op.operands[1].as_name().unwrap()).into_owned();
                    names
                        .get(&name)
                        .unwrap_or_else(|| panic!("no layer {name}"))
                        .clone()
                }));
            }
            "EMC" => {
                sections.pop().expect("EMC without BDC");
            }
            "Tf" => font_size = v[0],
            "Tj" | "TJ" => {
                let scale = (state.0[0] * state.0[3] - state.0[1] * state.0[2]).abs().sqrt();
                page.letter_sizes.push(font_size * scale * MM_PER_PT);
                page.outside_layers += usize::from(sections.iter().flatten().next().is_none());
            }
            _ => {}
        }
    }
    assert!(
        sections.is_empty() && stack.is_empty(),
        "sections or states are left open"
    );
    page
}
