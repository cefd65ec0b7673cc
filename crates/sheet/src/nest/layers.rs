//! A layer a size, added to a finished file beside its layers by kind of line.
//!
//! Every run of lines and every line of words is a marked section of the page's content, in drawing order; each size was
//! drawn by itself, so a section belongs to one size or to all. Each gets the size's optional content around it, inside the
//! wrapper of its kind: it shows when both are on.
//!
//! **Source.** ISO 32000-1, 8.11 (optional content).
//! **Limits.** A page whose sections do not match what was drawn is a fault of ours and no file is made.

use std::collections::BTreeSet;

use lopdf::content::{Content, Operation};
use lopdf::{Dictionary, Document, Object, ObjectId, StringFormat, dictionary};

use crate::ink::{Ink, Plane, What};

/// How many marked sections a drawing makes: by plane, one for every run of lines and one for every line of words.
pub(super) fn sections(inks: &[Ink]) -> usize {
    let planes: BTreeSet<Plane> = inks.iter().map(|i| i.plane).collect();
    planes
        .into_iter()
        .map(|plane| {
            let (mut count, mut is_open) = (0, false);
            for ink in inks.iter().filter(|i| i.plane == plane) {
                match ink.what {
                    What::Words(_) => {
                        count += 1;
                        is_open = false;
                    }
                    What::Line { .. } | What::Fill { .. } => {
                        count += usize::from(!is_open);
                        is_open = true;
                    }
                }
            }
            count
        })
        .sum()
}

/// Adds the layers. `owners`: for every page the size of each of its sections in drawing order, `None` for all sizes.
pub(super) fn add(plain: &[u8], owners: &[Vec<Option<usize>>], names: &[String]) -> Result<Vec<u8>, String> {
    let fault = |e: lopdf::Error| e.to_string();
    let mut pdf = Document::load_mem(plain).map_err(fault)?;
    let groups: Vec<ObjectId> = names
        .iter()
        .map(|name| {
            pdf.add_object(dictionary! {
                "Type" => "OCG",
                "Name" => text_string(name),
            })
        })
        .collect();
    let pages: Vec<ObjectId> = pdf.get_pages().into_values().collect();
    if pages.len() != owners.len() {
        return Err(format!(
            "{} pages were drawn, {} written",
            owners.len(),
            pages.len()
        ));
    }
    for (page, owners) in pages.iter().zip(owners) {
        let content = Content::decode(&pdf.get_page_content(*page)).map_err(fault)?;
        let operations = wrap(content.operations, owners)?;
        let bytes = Content { operations }.encode().map_err(fault)?;
        pdf.change_page_content(*page, bytes).map_err(fault)?;
        name_in_resources(&mut pdf, *page, &groups)?;
    }
    list(&mut pdf, &groups)?;
    let mut bytes = Vec::new();
    pdf.save_to(&mut bytes).map_err(|e| e.to_string())?;
    Ok(bytes)
}

fn name_of(size: usize) -> String {
    format!("Z{size}")
}

/// ASCII as it is, anything else as UTF-16 with its mark.
fn text_string(text: &str) -> Object {
    let bytes = if text.is_ascii() {
        text.as_bytes().to_vec()
    } else {
        let units = std::iter::once(0xFEFF).chain(text.encode_utf16());
        units.flat_map(u16::to_be_bytes).collect()
    };
    Object::String(bytes, StringFormat::Literal)
}

fn is_layer(operation: &Operation) -> bool {
    operation.operator == "BDC" && matches!(operation.operands.first(), Some(Object::Name(n)) if n == b"OC")
}

fn wrap(operations: Vec<Operation>, owners: &[Option<usize>]) -> Result<Vec<Operation>, String> {
    let mut out = Vec::with_capacity(operations.len() + 2 * owners.len());
    let mut next = owners.iter();
    // What each open section was: a wrapper of a layer, or a section with or without an owner.
    let mut open: Vec<Option<Option<usize>>> = Vec::new();
    for operation in operations {
        let is_end = operation.operator == "EMC";
        if matches!(operation.operator.as_str(), "BDC" | "BMC") {
            let is_inside = open.iter().any(Option::is_some);
            if is_layer(&operation) {
                open.push(None);
            } else if is_inside {
                open.push(Some(None));
            } else {
                let owner = *next.next().ok_or("a page has more sections than were drawn")?;
                if let Some(size) = owner {
                    out.push(Operation::new(
                        "BDC",
                        vec![
                            Object::Name(b"OC".to_vec()),
                            Object::Name(name_of(size).into_bytes()),
                        ],
                    ));
                }
                open.push(Some(owner));
            }
        }
        out.push(operation);
        if is_end && let Some(Some(_)) = open.pop().ok_or("a section ends that never began")? {
            out.push(Operation::new("EMC", vec![]));
        }
    }
    if next.next().is_some() || !open.is_empty() {
        return Err("a page has fewer sections than were drawn".to_owned());
    }
    Ok(out)
}

fn name_in_resources(pdf: &mut Document, page: ObjectId, groups: &[ObjectId]) -> Result<(), String> {
    let fault = |e: lopdf::Error| e.to_string();
    let dictionary_of = |pdf: &Document, object: Option<&Object>| -> Result<Dictionary, String> {
        match object {
            Some(Object::Dictionary(d)) => Ok(d.clone()),
            Some(Object::Reference(id)) => Ok(pdf.get_dictionary(*id).map_err(fault)?.clone()),
            _ => Ok(Dictionary::new()),
        }
    };
    let page_dictionary = pdf.get_dictionary(page).map_err(fault)?;
    let mut resources = dictionary_of(pdf, page_dictionary.get(b"Resources").ok())?;
    let mut properties = dictionary_of(pdf, resources.get(b"Properties").ok())?;
    for (size, id) in groups.iter().enumerate() {
        properties.set(name_of(size), Object::Reference(*id));
    }
    resources.set("Properties", properties);
    pdf.get_object_mut(page)
        .and_then(Object::as_dict_mut)
        .map_err(fault)?
        .set("Resources", resources);
    Ok(())
}

/// Puts the sizes into the catalogue's list of layers, before those by kind.
fn list(pdf: &mut Document, groups: &[ObjectId]) -> Result<(), String> {
    let fault = |e: lopdf::Error| e.to_string();
    let refs = || groups.iter().map(|id| Object::Reference(*id));
    let catalog = pdf.catalog_mut().map_err(fault)?;
    let layers = catalog
        .get_mut(b"OCProperties")
        .and_then(Object::as_dict_mut)
        .map_err(fault)?;
    layers
        .get_mut(b"OCGs")
        .and_then(Object::as_array_mut)
        .map_err(fault)?
        .extend(refs());
    let shown = layers
        .get_mut(b"D")
        .and_then(Object::as_dict_mut)
        .map_err(fault)?;
    shown
        .get_mut(b"ON")
        .and_then(Object::as_array_mut)
        .map_err(fault)?
        .extend(refs());
    let mut titled = vec![Object::string_literal("Sizes")];
    titled.extend(refs());
    shown
        .get_mut(b"Order")
        .and_then(Object::as_array_mut)
        .map_err(fault)?
        .insert(0, Object::Array(titled));
    Ok(())
}
