//! The build script on small trees: what it makes of types and JSX, what it leaves out, and the words it finds for faults.
//!
//! The script itself is run, as cargo runs it, so a fault is tested as a maker of changes sees it: `cargo::error=` with
//! file, line and column.

#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "a test writes the tree it looks at, and fails where it cannot"
)]

use std::fs;
use std::path::Path;
use std::process::Command;

use tempfile::TempDir;

const INDEX: &str = "<!doctype html>\n<!-- styles -->\n<script type=\"importmap\">{}</script>\n";

/// A tree with its outcome: what the script said and the folder it wrote.
struct Built {
    said: String,
    folder: TempDir,
}

impl Built {
    fn file(&self, path: &str) -> Option<String> {
        fs::read_to_string(self.folder.path().join("out").join(path)).ok()
    }

    fn module(&self, path: &str) -> String {
        self.file(&format!("web/{path}"))
            .unwrap_or_else(|| panic!("{path} was not made: {}", self.said))
    }

    fn errors(&self) -> Vec<&str> {
        self.said
            .lines()
            .filter_map(|line| line.strip_prefix("cargo::error="))
            .collect()
    }
}

fn build(files: &[(&str, &str)], profile: &str) -> Built {
    let folder = tempfile::tempdir().unwrap();
    let root = folder.path();
    for folder in ["crates/pages", "out", "web/test"] {
        fs::create_dir_all(root.join(folder)).unwrap();
    }
    write(root, "index.html", INDEX);
    for (path, text) in files {
        write(root, path, text);
    }
    let output = Command::new(env!("PAGES_BUILD_SCRIPT"))
        .env("CARGO_MANIFEST_DIR", root.join("crates/pages"))
        .env("OUT_DIR", root.join("out"))
        .env("PROFILE", profile)
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let said = String::from_utf8(output.stdout).unwrap();
    Built { said, folder }
}

fn write(root: &Path, path: &str, text: &str) {
    let file = root.join("web").join(path);
    fs::create_dir_all(file.parent().unwrap()).unwrap();
    fs::write(file, text).unwrap();
}

#[test]
fn types_go_and_jsx_becomes_preact() {
    let built = build(
        &[(
            "lib/c.tsx",
            "import type { A } from './a.js';\nimport { b } from './b.js';\nexport const c = (x: A) => <p class=\"k\">{b(x)}</p>;\n",
        )],
        "debug",
    );
    let code = built.module("lib/c.js");
    assert!(built.errors().is_empty(), "{}", built.said);
    assert!(code.contains("from \"preact/jsx-runtime\""), "{code}");
    assert!(code.contains("\"./b.js\""), "{code}");
    assert!(!code.contains("a.js") && !code.contains(": A"), "{code}");
}

/// `verbatimModuleSyntax`: an import that is not marked as a type stays, even when nothing uses it.
#[test]
fn imports_stay_unless_marked_as_types() {
    let built = build(&[("x.ts", "import { a } from './a.js';\n")], "debug");
    assert!(built.module("x.js").contains("./a.js"));
}

#[test]
fn released_pages_are_minified() {
    let text = "export function area(widthOfIt: number, heightOfIt: number): number { return widthOfIt * heightOfIt; }\n";
    let plain = build(&[("x.ts", text)], "debug").module("x.js");
    let short = build(&[("x.ts", text)], "release").module("x.js");
    assert!(short.len() < plain.len());
    assert!(!short.contains("widthOfIt") && short.contains("area"), "{short}");
}

#[test]
fn every_fault_names_file_line_and_column() {
    let built = build(
        &[
            ("lib/x.ts", "const a = 1;\nconst b = ;\n"),
            ("y.tsx", "export const p = <p>hello</q>;\n"),
        ],
        "debug",
    );
    let mut errors = built.errors();
    errors.sort_unstable();
    assert!(errors.len() >= 2, "{errors:?}");
    assert!(errors[0].starts_with("web/lib/x.ts:2:11: "), "{errors:?}");
    assert!(errors[1].starts_with("web/y.tsx:1:"), "{errors:?}");
}

#[test]
fn columns_count_letters_not_bytes() {
    let built = build(&[("x.ts", "const ä = 'ööö'; const = 2;\n")], "debug");
    assert!(built.errors()[0].starts_with("web/x.ts:1:24: "), "{}", built.said);
}

/// A name declared twice passes the parser and not the scope check.
#[test]
fn scope_faults_count_too() {
    let built = build(&[("x.ts", "let a = 1;\nlet a = 2;\n")], "debug");
    assert!(built.errors()[0].starts_with("web/x.ts:"), "{}", built.said);
}

#[test]
fn jsx_needs_tsx() {
    let built = build(&[("x.ts", "export const p = <p>hello</p>;\n")], "debug");
    assert!(!built.errors().is_empty(), "{}", built.said);
}

#[test]
fn what_belongs_to_development_stays_out() {
    let built = build(
        &[
            ("x.ts", "export {};\n"),
            ("node_modules/y/z.js", "1\n"),
            ("package.json", "{}"),
            ("test/gallery.tsx", "export const g = <p />;\n"),
            ("lib/types.d.ts", "export declare const a: 1;\n"),
            ("vendor/refresh.sh", "exit\n"),
        ],
        "debug",
    );
    let table = built.file("table.rs").unwrap();
    assert!(table.contains("\"x.js\""), "{table}");
    for bad in ["node_modules", "package.json", "gallery", "types", "refresh"] {
        assert!(!table.contains(bad), "{bad} is in the table: {table}");
    }
    assert!(built.file("gallery.rs").unwrap().contains("test/gallery.js"));
}

#[test]
fn a_release_holds_no_gallery() {
    let built = build(&[("test/gallery.tsx", "export const g = <p />;\n")], "release");
    assert!(!built.file("gallery.rs").unwrap().contains("gallery.js"));
}

#[test]
fn two_files_of_one_address_are_refused() {
    let built = build(&[("x.ts", "export {};\n"), ("x.js", "export {};\n")], "debug");
    assert!(built.errors()[0].contains("x.js"), "{}", built.said);
}

#[test]
fn a_page_with_inline_style_or_no_map_is_refused() {
    let inline = build(
        &[(
            "index.html",
            &INDEX.replace("<script", "<p style=\"color:red\"><script"),
        )],
        "debug",
    );
    assert!(inline.errors()[0].contains("inline style"), "{}", inline.said);
    let bare = build(&[("index.html", "<!doctype html>\n<!-- styles -->\n")], "debug");
    assert!(bare.errors()[0].contains("import map"), "{}", bare.said);
}

#[test]
fn style_sheets_are_linked_print_last() {
    let built = build(
        &[
            ("style/print.css", "a{}"),
            ("style/sew.css", "a{}"),
            ("style/parts.css", "a{}"),
            ("style/tokens.css", "a{}"),
            ("style/bench.css", "a{}"),
        ],
        "debug",
    );
    let table = built.file("table.rs").unwrap();
    let html = table.split("INDEX_HTML").nth(1).unwrap();
    let order =
        ["tokens", "parts", "bench", "sew", "print"].map(|name| html.find(&format!("/{name}.css")).unwrap());
    assert!(order.is_sorted(), "{order:?}");
}
