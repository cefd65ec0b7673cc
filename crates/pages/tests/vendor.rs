//! The vendored modules are what `SHA256SUMS` says, are all in it, are in the page's import map, and ask for no others.

use std::collections::BTreeMap;
use std::path::Path;

use sha2::{Digest as _, Sha256};

fn folder() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../web/vendor"))
}

#[allow(clippy::disallowed_methods, reason = "a test reads the files it checks")]
fn read(path: &Path) -> Vec<u8> {
    std::fs::read(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn sums() -> BTreeMap<String, String> {
    let list = String::from_utf8(read(&folder().join("SHA256SUMS"))).expect("utf-8");
    list.lines()
        .map(|line| {
            let (sum, name) = line.split_once("  ").expect("sum, two spaces, name");
            (name.to_owned(), sum.to_owned())
        })
        .collect()
}

#[test]
fn every_file_has_its_sum_and_keeps_it() {
    let sums = sums();
    let mut seen = 0;
    for entry in std::fs::read_dir(folder()).expect("web/vendor") {
        let name = entry.expect("entry").file_name().to_string_lossy().into_owned();
        if !(name.ends_with(".mjs") || name.starts_with("LICENSE-")) {
            continue;
        }
        seen += 1;
        let sum: String = Sha256::digest(read(&folder().join(&name)))
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect();
        assert_eq!(
            sums.get(&name),
            Some(&sum),
            "{name} is not what SHA256SUMS says; run web/vendor/refresh.sh"
        );
    }
    assert_eq!(seen, sums.len(), "SHA256SUMS names files that are not there");
    assert!(seen >= 8, "five modules and three licences at least");
}

#[test]
fn the_import_map_names_shipped_modules() {
    let html = pages::index_html();
    let mut named = 0;
    for module in html.split('"').filter(|text| text.starts_with("/pages/vendor/")) {
        let path = module.strip_prefix(pages::MOUNT).expect("below the mount");
        assert!(
            pages::asset(path).is_some(),
            "{module} is in the import map and not shipped"
        );
        named += 1;
    }
    let shipped = pages::assets()
        .filter(|a| a.path.starts_with("vendor/") && a.path.ends_with(".mjs"))
        .count();
    assert_eq!(
        named, shipped,
        "each vendored module stands once in the import map"
    );
}

/// A module that asks for a name the map does not give would leave a blank page.
#[test]
fn every_bare_import_is_in_the_map() {
    let html = pages::index_html();
    for asset in pages::assets().filter(|a| a.mime.starts_with("text/javascript")) {
        let code = std::str::from_utf8(asset.bytes).expect("utf-8");
        for name in imports(code) {
            if name.starts_with('.') {
                let target = resolve(asset.path, &name);
                assert!(
                    pages::asset(&target).is_some(),
                    "{} imports {name}, which is not shipped",
                    asset.path
                );
            } else {
                assert!(
                    html.contains(&format!("\"{name}\":")),
                    "{} imports {name}, which has no address",
                    asset.path
                );
            }
        }
    }
}

/// What stands in quotes after `from` or a bare or dynamic `import`, in code as it is compiled here or was minified.
fn imports(code: &str) -> Vec<String> {
    let mut found = Vec::new();
    for line in code.split([';', '\n']) {
        let line = line.trim_start();
        if !(line.starts_with("import") || line.starts_with("export")) {
            continue;
        }
        let Some(from) = line
            .rfind("from")
            .map(|i| i + 4)
            .or_else(|| line.starts_with("import").then_some(6))
        else {
            continue;
        };
        let rest = line[from..].trim_start().trim_start_matches('(');
        if let Some(quote @ ('"' | '\'')) = rest.chars().next() {
            found.extend(rest[1..].split(quote).next().map(str::to_owned));
        }
    }
    found
}

fn resolve(from: &str, name: &str) -> String {
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in name.split('/') {
        match part {
            "." => {}
            ".." => {
                parts.pop();
            }
            other => parts.push(other),
        }
    }
    parts.join("/")
}

#[test]
fn imports_are_found_at_all() {
    assert_eq!(
        imports("import { a } from \"./b.js\";\nimport\"c\";export*from'd'"),
        ["./b.js", "c", "d"]
    );
    assert_eq!(resolve("frame/tape.js", "../lib/store.js"), "lib/store.js");
}
