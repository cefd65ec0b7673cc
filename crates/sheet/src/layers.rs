//! Layers a viewer can switch off, and "do not scale": what the PDF writer cannot say, added to its finished file.
//!
//! Every run of lines and every line of words is a marked section in the page's content. The n-th section of a page
//! gets its layer by being wrapped in optional content; a run of sections of one layer shares a wrapper. A piece cut
//! from shell and lining belongs to both, so it shows while either is on (a membership with "any on").
//!
//! **Source.** ISO 32000-1, 8.11 (optional content), 12.2 (viewer preferences, PrintScaling).
//! **Limits.** A page whose sections do not match what was drawn is a fault of ours and no file is made.

use std::collections::{BTreeMap, BTreeSet};

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId, StringFormat, dictionary};

use crate::ink::{Cloths, Kind, Plane};

/// Names of the cloth layers in bit order.
const CLOTHS: [(u8, &str); 4] = [(1, "shell"), (2, "lining"), (4, "mesh"), (8, "contrast")];

/// Adds layers and print scaling to a PDF whose pages have the given sections.
pub(crate) fn add(plain: &[u8], sections: &[Vec<Plane>]) -> Result<Vec<u8>, String> {
    let fault = |e: lopdf::Error| e.to_string();
    let mut pdf = Document::load_mem(plain).map_err(fault)?;
    let used: BTreeSet<Plane> = sections.iter().flatten().copied().collect();
    let groups = Groups::new(&mut pdf, &used);
    let pages: Vec<ObjectId> = pdf.get_pages().into_values().collect();
    if pages.len() != sections.len() {
        return Err(format!(
            "{} pages were drawn, {} written",
            sections.len(),
            pages.len()
        ));
    }
    for (page, planes) in pages.iter().zip(sections) {
        let content = Content::decode(&pdf.get_page_content(*page)).map_err(fault)?;
        let operations = wrap(content.operations, planes)?;
        let bytes = Content { operations }.encode().map_err(fault)?;
        pdf.change_page_content(*page, bytes).map_err(fault)?;
        let on_page: BTreeSet<Plane> = planes.iter().copied().collect();
        add_properties(&mut pdf, *page, &groups, &on_page)?;
    }
    groups.catalogue(&mut pdf)?;
    let mut bytes = Vec::new();
    pdf.save_to(&mut bytes).map_err(|e| e.to_string())?;
    Ok(bytes)
}

fn kind_name(kind: Kind) -> String {
    format!("K{}", kind as u8)
}

fn cloths_name(cloths: Cloths) -> String {
    format!("C{}", cloths.0)
}

/// The optional content groups of a document.
struct Groups {
    kinds: BTreeMap<Kind, ObjectId>,
    cloths: Vec<ObjectId>,
    /// By set of cloths: a group, or a membership of several.
    sets: BTreeMap<Cloths, ObjectId>,
}

impl Groups {
    fn new(pdf: &mut Document, used: &BTreeSet<Plane>) -> Groups {
        let group = |pdf: &mut Document, name: &str| {
            pdf.add_object(dictionary! {
                "Type" => "OCG",
                "Name" => Object::String(name.as_bytes().to_vec(), StringFormat::Literal),
            })
        };
        let kinds = Kind::ALL
            .into_iter()
            .filter(|k| used.iter().any(|p| p.kind == *k))
            .map(|k| (k, group(pdf, k.name())))
            .collect();
        let single: BTreeMap<u8, ObjectId> = CLOTHS
            .into_iter()
            .filter(|(bit, _)| used.iter().any(|p| p.cloths.0 & bit != 0))
            .map(|(bit, name)| (bit, group(pdf, name)))
            .collect();
        let mut sets = BTreeMap::new();
        for cloths in used.iter().map(|p| p.cloths).filter(|c| c.0 != 0) {
            let members: Vec<ObjectId> = single
                .iter()
                .filter(|(bit, _)| cloths.0 & **bit != 0)
                .map(|(_, id)| *id)
                .collect();
            sets.entry(cloths).or_insert_with(|| match members.as_slice() {
                [one] => *one,
                many => pdf.add_object(dictionary! {
                    "Type" => "OCMD",
                    "OCGs" => many.iter().map(|id| Object::Reference(*id)).collect::<Vec<_>>(),
                    "P" => "AnyOn",
                }),
            });
        }
        Groups {
            kinds,
            cloths: single.into_values().collect(),
            sets,
        }
    }

    fn catalogue(&self, pdf: &mut Document) -> Result<(), String> {
        let refs = |ids: &[ObjectId]| ids.iter().map(|id| Object::Reference(*id)).collect::<Vec<_>>();
        let kinds: Vec<ObjectId> = self.kinds.values().copied().collect();
        let all: Vec<ObjectId> = kinds.iter().chain(&self.cloths).copied().collect();
        let titled = |title: &str, ids: &[ObjectId]| {
            let mut list = vec![Object::string_literal(title)];
            list.extend(refs(ids));
            Object::Array(list)
        };
        let mut order = vec![titled("Lines and words", &kinds)];
        if !self.cloths.is_empty() {
            order.push(titled("Pieces cut from", &self.cloths));
        }
        let properties = dictionary! {
            "OCGs" => refs(&all),
            "D" => dictionary! {
                "Name" => Object::string_literal("Layers"),
                "BaseState" => "ON",
                "ON" => refs(&all),
                "Order" => order,
                "ListMode" => "AllPages",
            },
        };
        let fault = |e: lopdf::Error| e.to_string();
        let mut preferences = match pdf.catalog().map_err(fault)?.get(b"ViewerPreferences") {
            Ok(Object::Dictionary(d)) => d.clone(),
            Ok(Object::Reference(id)) => pdf.get_dictionary(*id).map_err(fault)?.clone(),
            _ => Dictionary::new(),
        };
        preferences.set("PrintScaling", "None");
        let catalog = pdf.catalog_mut().map_err(fault)?;
        catalog.set("OCProperties", properties);
        catalog.set("ViewerPreferences", preferences);
        Ok(())
    }
}

/// Wraps each run of sections of one layer.
fn wrap(operations: Vec<Operation>, planes: &[Plane]) -> Result<Vec<Operation>, String> {
    let end = || Operation::new("EMC", vec![]);
    let begin = |name: String| {
        Operation::new(
            "BDC",
            vec![Object::Name(b"OC".to_vec()), Object::Name(name.into_bytes())],
        )
    };
    let close = |out: &mut Vec<Operation>, now: &mut Option<Plane>| {
        if let Some(plane) = now.take() {
            out.push(end());
            if plane.cloths.0 != 0 {
                out.push(end());
            }
        }
    };
    let mut out = Vec::with_capacity(operations.len() + 2 * planes.len());
    let mut next = planes.iter();
    let (mut depth, mut now) = (0_usize, None::<Plane>);
    for operation in operations {
        match operation.operator.as_str() {
            "BDC" | "BMC" => {
                if depth == 0 {
                    let plane = *next.next().ok_or("a page has more sections than were drawn")?;
                    if now != Some(plane) {
                        close(&mut out, &mut now);
                        if plane.cloths.0 != 0 {
                            out.push(begin(cloths_name(plane.cloths)));
                        }
                        out.push(begin(kind_name(plane.kind)));
                        now = Some(plane);
                    }
                }
                depth += 1;
            }
            "EMC" => depth = depth.checked_sub(1).ok_or("a section ends that never began")?,
            // A graphics state that opens or closes between sections must not straddle a wrapper.
            "q" | "Q" if depth == 0 => close(&mut out, &mut now),
            _ => {}
        }
        out.push(operation);
    }
    close(&mut out, &mut now);
    if next.next().is_some() || depth != 0 {
        return Err("a page has fewer sections than were drawn".to_owned());
    }
    Ok(out)
}

/// Names the layers in the page's resources.
fn add_properties(
    pdf: &mut Document,
    page: ObjectId,
    groups: &Groups,
    used: &BTreeSet<Plane>,
) -> Result<(), String> {
    let fault = |e: lopdf::Error| e.to_string();
    let mut resources = match pdf.get_dictionary(page).map_err(fault)?.get(b"Resources") {
        Ok(Object::Dictionary(d)) => d.clone(),
        Ok(Object::Reference(id)) => pdf.get_dictionary(*id).map_err(fault)?.clone(),
        _ => Dictionary::new(),
    };
    let mut properties = match resources.get(b"Properties") {
        Ok(Object::Dictionary(d)) => d.clone(),
        Ok(Object::Reference(id)) => pdf.get_dictionary(*id).map_err(fault)?.clone(),
        _ => Dictionary::new(),
    };
    for plane in used {
        if let Some(id) = groups.kinds.get(&plane.kind) {
            properties.set(kind_name(plane.kind), Object::Reference(*id));
        }
        if let Some(id) = groups.sets.get(&plane.cloths) {
            properties.set(cloths_name(plane.cloths), Object::Reference(*id));
        }
    }
    resources.set("Properties", properties);
    let page = pdf
        .get_object_mut(page)
        .and_then(Object::as_dict_mut)
        .map_err(fault)?;
    page.set("Resources", resources);
    Ok(())
}
