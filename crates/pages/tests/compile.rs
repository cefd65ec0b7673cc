//! The compiler step of the build script: what it makes of types and JSX, and the words it finds for faults.

#[path = "../build/compile.rs"]
mod compile;

use compile::module;

fn made(text: &str, name: &str, minify: bool) -> String {
    module(text, name, minify).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn faults(text: &str, name: &str) -> Vec<String> {
    module(text, name, false)
        .expect_err("refused")
        .iter()
        .map(ToString::to_string)
        .collect()
}

#[test]
fn types_go_and_jsx_becomes_preact() {
    let code = made(
        "import type { A } from './a.js';\nimport { b } from './b.js';\nexport const c = (x: A) => <p class=\"k\">{b(x)}</p>;\n",
        "web/c.tsx",
        false,
    );
    assert!(code.contains("from \"preact/jsx-runtime\""), "{code}");
    assert!(code.contains("\"./b.js\""), "{code}");
    assert!(!code.contains("a.js") && !code.contains(": A"), "{code}");
}

/// `verbatimModuleSyntax`: an import that is not marked as a type stays, even when nothing uses it.
#[test]
fn imports_stay_unless_marked_as_types() {
    assert!(made("import { a } from './a.js';\n", "web/x.ts", false).contains("./a.js"));
}

#[test]
fn minified_code_is_shorter_and_names_are_shortened() {
    let text = "export function area(widthOfIt: number, heightOfIt: number): number { return widthOfIt * heightOfIt; }\n";
    let (plain, short) = (made(text, "web/x.ts", false), made(text, "web/x.ts", true));
    assert!(short.len() < plain.len());
    assert!(!short.contains("widthOfIt") && short.contains("area"), "{short}");
}

#[test]
fn a_fault_names_file_line_and_column() {
    let found = faults("const a = 1;\nconst b = ;\n", "web/lib/x.ts");
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].starts_with("web/lib/x.ts:2:11: "), "{found:?}");
}

#[test]
fn columns_count_letters_not_bytes() {
    let found = faults("const ä = 'ööö'; const = 2;\n", "web/x.ts");
    assert!(found[0].starts_with("web/x.ts:1:24: "), "{found:?}");
}

/// A name declared twice passes the parser and not the scope check.
#[test]
fn scope_faults_count_too() {
    let found = faults("let a = 1;\nlet a = 2;\n", "web/x.ts");
    assert!(found[0].starts_with("web/x.ts:"), "{found:?}");
    assert!(found[0].contains('a'), "{found:?}");
}

#[test]
fn jsx_needs_tsx() {
    assert!(!faults("export const p = <p>hello</p>;\n", "web/x.ts").is_empty());
}
