//! A pattern as JSON, for readers that check the drawings against the draft: every number the paper is drawn from.
//!
//! ```text
//! format            "slackwater-pattern/1"; fields are only added, never renamed
//! suit, wearer, version, fit, form          form: "whole" or "half", the shape of every piece below
//! cloth             around, lengthwise (ratios of the layers together), load, layers [{layer, cloth, orientation, ...}]
//! pieces[]          key, name, letter, on_fold
//!   cuts[]          layer, count, mirrored, orientation
//!   cut_line        [[x, y], ...] closed, counter-clockwise, first point not repeated
//!   edges[]         name, role, allowance_mm, length_mm, cubics [[[x, y] x 4], ...]; role: seam, hem, dart, raw, fold,
//!                   or open:leg, open:waist, open:neckline, open:armhole
//!   fold_line       [[x, y], [x, y]] foot and head, or null; fold_is_edge
//!   notches[]       at, seam_at, inward, depth_mm, double, key, edge
//!   marks[]         kind: cross, level, placement, arc_end; with at, from, to, cubics, inward, text, letter as they apply
//!   grain, stretch  {from, to}
//!   label_at        [x, y]
//! seams[]           name, first {piece, edges, length_mm}, second {...}, sewn_ease_mm, error_mm (null where an edge meets its own mirror image)
//! open_edges[]      edge, count, is_ring, length_mm, arcs [{name, letter, length_mm}]
//! levels[]          level, y_mm, body_mm, pattern_mm, meant
//! finished[]        name, value_mm, tolerance_mm
//! elastic[]         as planned: edge, count, kind, width, arcs, overlap, cut_length, ...
//! cut_list[]        layer, cloth, letter, piece, count, mirrored, orientation
//! trunk             the torso loop, or null
//! ```
//!
//! **Shapes and units.** mm in the piece frame, y up; coordinates rounded to 0.001 mm.

use draft::geometry::Curve;
use draft::{Arrow, EdgeUse, Mark, Shape};
use kurbo::{Point, Vec2};
use serde_json::{Value, json};

use crate::pattern::{Fault, Options, Pattern, PieceForm, Refusal};
use crate::pdf::check;
use crate::spread::shape_of;

/// The pattern as JSON text, indented.
///
/// # Errors
/// [`Refusal`] with [`Fault::NoPieces`] and [`Fault::BrokenPiece`], or [`Fault::Writer`].
pub fn pattern(pattern: &Pattern<'_>, form: PieceForm) -> Result<String, Refusal> {
    check(
        pattern,
        &Options {
            form,
            ..Options::default()
        },
    )?;
    let fault = |e: serde_json::Error| Refusal::of(Fault::Writer(e.to_string()));
    let draft = pattern.draft;
    let pieces: Vec<Value> = draft
        .pieces
        .iter()
        .map(|p| {
            let cuts: Vec<Value> = p
                .cuts
                .iter()
                .map(|c| {
                    json!({"layer": c.layer, "count": c.count, "mirrored": c.mirrored, "orientation": c.orientation})
                })
                .collect();
            let mut value = shape(&shape_of(p, form));
            if let Value::Object(map) = &mut value {
                map.insert("key".into(), json!(p.key));
                map.insert("name".into(), json!(p.name));
                map.insert("letter".into(), json!(p.letter));
                map.insert("on_fold".into(), json!(p.on_fold));
                map.insert("cuts".into(), json!(cuts));
            }
            value
        })
        .collect();
    let cloth = pattern.cloth;
    let layers: Vec<_> = [
        Some(&cloth.shell),
        cloth.lining.as_ref(),
        cloth.mesh.as_ref(),
        cloth.contrast.as_ref(),
    ]
    .into_iter()
    .flatten()
    .collect();
    let seams: Vec<Value> = draft
        .seams
        .iter()
        .map(|s| {
            json!({
                "name": s.name,
                "first": {"piece": s.first.0, "edges": s.first.1, "length_mm": round(s.first_mm)},
                "second": {"piece": s.second.0, "edges": s.second.1, "length_mm": round(s.second_mm)},
                "sewn_ease_mm": round(s.sewn_ease_mm),
                "error_mm": (!s.is_with_itself()).then(|| round(s.error_mm())),
            })
        })
        .collect();
    let open_edges: Vec<Value> = draft
        .open_edges
        .iter()
        .map(|e| {
            let arcs: Vec<Value> = e
                .arcs
                .iter()
                .map(|a| json!({"name": a.name, "letter": a.letter, "length_mm": round(a.length_mm)}))
                .collect();
            json!({
                "edge": e.kind.name(),
                "count": e.count,
                "is_ring": e.is_ring,
                "length_mm": round(e.length_mm()),
                "arcs": arcs,
            })
        })
        .collect();
    let levels: Vec<Value> = draft
        .levels
        .iter()
        .map(|l| {
            json!({
                "level": l.level,
                "y_mm": round(l.y_mm),
                "body_mm": round(l.body_mm),
                "pattern_mm": round(l.pattern_mm),
                "meant": l.meant,
            })
        })
        .collect();
    let finished: Vec<Value> = draft
        .finished
        .iter()
        .map(
            |f| json!({"name": f.name, "value_mm": round(f.value_mm), "tolerance_mm": round(f.tolerance_mm)}),
        )
        .collect();
    let trunk = draft.trunk.map(|t| {
        json!({
            "measured_mm": t.measured_mm.map(round),
            "parts_mm": round(t.parts_mm),
            "bias_mm": round(t.bias_mm),
            "residual_mm": round(t.residual_mm),
            "solved_mm": round(t.solved_mm),
            "front_waist_mm": round(t.front_waist_mm),
            "q": t.q,
            "is_capped": t.is_capped,
            "drafted_mm": t.drafted_mm.map(round),
        })
    });
    let value = json!({
        "format": "slackwater-pattern/1",
        "suit": pattern.suit,
        "wearer": pattern.wearer,
        "version": pattern.version,
        "fit": pattern.fit_key,
        "form": match form { PieceForm::Whole => "whole", PieceForm::Half => "half" },
        "cloth": {
            "around": cloth.around.ratio(),
            "lengthwise": cloth.lengthwise.ratio(),
            "load": cloth.load,
            "layers": layers,
        },
        "pieces": pieces,
        "seams": seams,
        "open_edges": open_edges,
        "levels": levels,
        "finished": finished,
        "elastic": serde_json::to_value(pattern.elastic).map_err(fault)?,
        "cut_list": serde_json::to_value(pattern.cut_list).map_err(fault)?,
        "trunk": trunk,
    });
    let mut text = serde_json::to_string_pretty(&value).map_err(fault)?;
    text.push('\n');
    Ok(text)
}

fn round(v: f64) -> f64 {
    // Adding zero turns a negative zero into a plain one.
    (v * 1000.0).round() / 1000.0 + 0.0
}

fn point(p: Point) -> Value {
    json!([round(p.x), round(p.y)])
}

fn vector(v: Vec2) -> Value {
    json!([v.x + 0.0, v.y + 0.0])
}

fn cubics(curve: &Curve) -> Value {
    curve
        .cubics()
        .iter()
        .map(|c| [c.p0, c.p1, c.p2, c.p3].map(point).to_vec())
        .collect::<Vec<_>>()
        .into()
}

fn arrow(a: Arrow) -> Value {
    json!({"from": point(a.from), "to": point(a.to)})
}

fn role(role: EdgeUse) -> String {
    match role {
        EdgeUse::Seam => "seam".to_owned(),
        EdgeUse::Fold => "fold".to_owned(),
        EdgeUse::Open(kind) => format!("open:{}", kind.name()),
        EdgeUse::Hem => "hem".to_owned(),
        EdgeUse::Dart => "dart".to_owned(),
        EdgeUse::Raw => "raw".to_owned(),
    }
}

fn shape(s: &Shape) -> Value {
    let edges: Vec<Value> = s
        .seam_line
        .iter()
        .map(|e| {
            json!({
                "name": e.name,
                "role": role(e.role),
                "allowance_mm": round(e.allowance_mm),
                "length_mm": round(e.curve.length()),
                "cubics": cubics(&e.curve),
            })
        })
        .collect();
    let notches: Vec<Value> = s
        .notches
        .iter()
        .map(|n| {
            json!({
                "at": point(n.at),
                "seam_at": point(n.seam_at),
                "inward": vector(n.inward),
                "depth_mm": round(n.depth_mm),
                "double": n.double,
                "key": n.key,
                "edge": n.edge,
            })
        })
        .collect();
    let marks: Vec<Value> = s
        .marks
        .iter()
        .map(|m| match m {
            Mark::Cross { at, text } => json!({"kind": "cross", "at": point(*at), "text": text}),
            Mark::LevelLine { from, to, text } => {
                json!({"kind": "level", "from": point(*from), "to": point(*to), "text": text})
            }
            Mark::Placement { curve, text } => {
                json!({"kind": "placement", "cubics": cubics(curve), "text": text})
            }
            Mark::ArcEnd { at, inward, letter } => {
                json!({"kind": "arc_end", "at": point(*at), "inward": vector(*inward), "letter": letter})
            }
        })
        .collect();
    json!({
        "cut_line": s.cut_line.iter().map(|p| point(*p)).collect::<Vec<_>>(),
        "edges": edges,
        "fold_line": s.fold_line.map(|(a, b)| vec![point(a), point(b)]),
        "fold_is_edge": s.fold_is_edge,
        "notches": notches,
        "marks": marks,
        "grain": arrow(s.grain),
        "stretch": arrow(s.stretch),
        "label_at": point(s.label_at),
    })
}
