//! The table of files: what a browser gets, and what never ships.

use std::collections::BTreeSet;

use sha2::{Digest as _, Sha256};

#[test]
fn the_page_and_all_it_names_are_there() {
    let html = pages::index_html();
    let named: Vec<&str> = html
        .split('"')
        .filter_map(|text| text.strip_prefix(pages::MOUNT))
        .collect();
    assert!(named.len() > 8, "styles, icon, main, modules: {named:?}");
    for path in named {
        assert!(
            pages::asset(path).is_some(),
            "index.html names {path}, which is not shipped"
        );
    }
}

#[test]
fn styles_are_linked_in_their_order() {
    let html = pages::index_html();
    let place = |name: &str| {
        html.find(&format!("style/{name}.css"))
            .unwrap_or_else(|| panic!("{name}.css is not linked"))
    };
    let order = ["tokens", "type", "frame", "parts", "print"].map(place);
    assert!(order.is_sorted(), "{order:?}");
    for sheet in pages::assets().filter(|a| a.mime.starts_with("text/css")) {
        assert!(
            html.contains(sheet.path),
            "{} is shipped and not linked",
            sheet.path
        );
    }
}

#[test]
fn paths_are_sorted_and_typed() {
    let paths: Vec<&str> = pages::assets().map(|asset| asset.path).collect();
    assert!(paths.is_sorted());
    assert_eq!(paths.iter().collect::<BTreeSet<_>>().len(), paths.len());
    for asset in pages::assets() {
        assert_ne!(
            asset.mime, "application/octet-stream",
            "{} has no type",
            asset.path
        );
        assert_eq!(pages::asset(asset.path), Some(asset));
        assert!(
            !asset.path.ends_with(".ts") && !asset.path.ends_with(".tsx"),
            "{} was not compiled",
            asset.path
        );
    }
}

#[test]
fn nothing_of_development_ships() {
    for asset in pages::assets() {
        for bad in ["test/", "node_modules", "package", "tsconfig"] {
            assert!(!asset.path.starts_with(bad), "{} must not ship", asset.path);
        }
        assert!(!asset.path.contains("gallery"), "{} must not ship", asset.path);
    }
    assert!(!pages::index_html().contains("gallery"));
}

#[test]
fn a_tag_is_the_sum_of_the_bytes() {
    let mut tags = BTreeSet::new();
    for asset in pages::assets() {
        let sum: String = Sha256::digest(asset.bytes)
            .iter()
            .take(16)
            .map(|byte| format!("{byte:02x}"))
            .collect();
        assert_eq!(asset.etag, format!("\"{sum}\""), "{}", asset.path);
        tags.insert(asset.etag);
    }
    assert!(tags.len() > 10);
}

#[test]
fn unknown_and_odd_names_find_nothing() {
    for name in [
        "",
        "/",
        "main",
        "main.tsx",
        "../main.js",
        "style",
        "MAIN.JS",
        "main.js\0",
        "index.html",
    ] {
        assert!(pages::asset(name).is_none(), "{name:?}");
    }
}

/// Nothing inline but the import map, so the policy needs no exception.
#[test]
fn the_document_fits_its_policy() {
    let html = pages::index_html();
    let policy = pages::content_security_policy();
    assert!(policy.contains(pages::import_map_sha256()));
    assert!(!policy.contains("unsafe"), "{policy}");
    assert!(!html.contains("style=") && !html.contains("<style") && !html.contains(" on"));
    for script in html.split("<script").skip(1) {
        let head = script.split('>').next().expect("tag");
        assert!(
            head.contains("src=\"/pages/") || head.contains("importmap"),
            "inline script: {head}"
        );
    }
    assert!(!html.contains("http"), "the page asks nobody but this origin");
}

/// Source: RFC 4648, section 10 gives the base64 of "foobar"; the sum of the empty text is FIPS 180-4's well-known value.
#[test]
fn the_import_maps_sum_is_of_the_text_between_its_tags() {
    let html = pages::index_html();
    let map = html
        .split("<script type=\"importmap\">")
        .nth(1)
        .and_then(|rest| rest.split("</script>").next())
        .expect("map");
    let sum = Sha256::digest(map.as_bytes());
    let text = pages::import_map_sha256()
        .strip_prefix("sha256-")
        .expect("prefix");
    assert_eq!(decode(text), sum.as_slice());
    assert_eq!(decode("Zm9vYmFy"), b"foobar");
    assert_eq!(decode("Zm9vYg=="), b"foob");
}

/// The other way round than the build script writes it, and by another method.
fn decode(text: &str) -> Vec<u8> {
    let value = |letter: char| match letter {
        'A'..='Z' => letter as u32 - 'A' as u32,
        'a'..='z' => letter as u32 - 'a' as u32 + 26,
        '0'..='9' => letter as u32 - '0' as u32 + 52,
        '+' => 62,
        '/' => 63,
        _ => panic!("{letter} is not base64"),
    };
    let (mut bits, mut held, mut bytes) = (0_u32, 0, Vec::new());
    for letter in text.chars().filter(|letter| *letter != '=') {
        bits = (bits << 6) | value(letter);
        held += 6;
        if held >= 8 {
            held -= 8;
            bytes.push((bits >> held) as u8);
            bits &= (1 << held) - 1;
        }
    }
    bytes
}
