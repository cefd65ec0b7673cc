//! The example suits as documents, for tests.

use serde_json::Value as Json;

use crate::document::{Linked, Paper, Worked, import, work};

/// A document of this id.
pub(crate) fn paper(id: &str, kind: &'static str, body: Json) -> Paper {
    Paper {
        id: id.to_owned(),
        kind,
        revision: 1,
        body,
    }
}

/// The papers of one example, worked out: `maren-one-piece`.
pub(crate) fn example(name: &str) -> Worked {
    let file = format!("{}/../../examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&file).unwrap();
    let parts = import(&file, &text).unwrap();
    let cloth = |role: &str, body: Option<Json>| body.map(|body| paper(role, "cloth", body));
    work(
        paper("suit", "suit", parts.suit),
        Linked {
            wearer: Some(paper("wearer", "wearer", parts.wearer)),
            shell: cloth("shell", Some(parts.shell)),
            lining: cloth("lining", parts.lining),
            mesh: cloth("mesh", parts.mesh),
            contrast: cloth("contrast", parts.contrast),
            elastic: None,
            workroom: parts.printer.map(|body| paper("workroom", "workroom", body)),
            samples: Vec::new(),
            elastics: Vec::new(),
        },
    )
}

/// Names of all examples, sorted.
pub(crate) fn names() -> Vec<String> {
    let folder = format!("{}/../../examples", env!("CARGO_MANIFEST_DIR"));
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == "toml"))
        .map(|path| path.file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// The papers with the wearer's document changed.
pub(crate) fn with_wearer(worked: &Worked, change: impl FnOnce(&mut Json)) -> Worked {
    with(worked, "wearer", change)
}

/// The papers with the document of this id changed.
pub(crate) fn with(worked: &Worked, id: &str, change: impl FnOnce(&mut Json)) -> Worked {
    worked.with(|papers| {
        let paper = papers.iter_mut().find(|p| p.id == id).unwrap();
        change(&mut paper.body);
    })
}
