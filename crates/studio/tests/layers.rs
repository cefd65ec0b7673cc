//! The layer rule, held by machine: which crate of ours may know which, one version of each engine, licences we can carry.
//!
//! `units <- body, cloth <- draft <- { fit, solve, lay, make, drawer, range } <- sheet <- booklet <- studio`, `words <- booklet`, and `store, pages <- studio`; fit and make do not know
//! each other. Read from
//! `cargo metadata` of the workspace, so a new dependency line is judged the moment it is written.

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

use serde_json::Value;

/// Ours, each with those it may use directly. Development dependencies are free: a test may look at anything.
const MAY_USE: [(&str, &[&str]); 18] = [
    ("units", &[]),
    ("body", &["units"]),
    ("cloth", &["units"]),
    ("draft", &["units", "body", "cloth"]),
    ("fit", &["units", "body", "cloth", "draft"]),
    ("solve", &["units", "body", "cloth", "draft"]),
    ("make", &["units", "body", "cloth", "draft"]),
    ("drawer", &["units", "body", "cloth", "draft"]),
    ("range", &["units", "body", "cloth", "draft"]),
    ("lay", &["units", "cloth", "draft"]),
    (
        "sheet",
        &["units", "body", "cloth", "draft", "fit", "lay", "make", "range"],
    ),
    // The words know how a length is written, and nothing of what is said with them.
    ("words", &["units"]),
    (
        "booklet",
        &["units", "body", "cloth", "draft", "fit", "make", "sheet", "words"],
    ),
    // The store knows documents, the pages know files: neither knows a suit.
    ("store", &[]),
    ("pages", &[]),
    (
        "studio",
        &[
            "units", "body", "cloth", "draft", "fit", "solve", "lay", "make", "drawer", "range", "sheet",
            "store", "pages", "booklet", "words",
        ],
    ),
    // What tests are made on. Nobody's normal dependency: it stands in no list here.
    ("fixtures", &["units", "body", "cloth", "draft"]),
    (
        "tests",
        &[
            "units", "body", "cloth", "draft", "fit", "lay", "make", "range", "sheet", "studio",
        ],
    ),
];

/// Licences that go with Apache-2.0 OR MIT. An `OR` needs one of them, an `AND` all.
const LICENCES: [&str; 14] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-1-Clause",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "0BSD",
    "Unlicense",
    "CC0-1.0",
    "Unicode-3.0",
    // By the file: a library used unchanged keeps it to itself. NOTICE.md says where its source is.
    "MPL-2.0",
];

// The collision library brings an older polygon engine of its own, behind its own doors.
const ONE_VERSION: [&str; 2] = ["krilla", "kurbo"];

fn metadata() -> Value {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".into());
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../Cargo.toml");
    let output = Command::new(cargo)
        .args([
            "metadata",
            "--offline",
            "--locked",
            "--format-version",
            "1",
            "--manifest-path",
            root,
        ])
        .output()
        .expect("cargo runs");
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    serde_json::from_slice(&output.stdout).expect("cargo writes JSON")
}

fn text<'a>(value: &'a Value, key: &str) -> &'a str {
    value[key].as_str().unwrap_or_default()
}

/// `slackwater-draft` -> `draft`.
fn short(name: &str) -> Option<&str> {
    name.strip_prefix("slackwater-")
}

fn packages(metadata: &Value) -> &Vec<Value> {
    metadata["packages"].as_array().expect("packages")
}

#[test]
fn no_crate_of_ours_knows_one_above_it() {
    let metadata = metadata();
    let allowed: BTreeMap<&str, &[&str]> = MAY_USE.into_iter().collect();
    let mut seen = BTreeSet::new();
    for package in packages(&metadata) {
        let Some(name) = short(text(package, "name")) else {
            continue;
        };
        seen.insert(name.to_owned());
        let may = allowed
            .get(name)
            .unwrap_or_else(|| panic!("{name} has no place in the layers: give it one here"));
        for dependency in package["dependencies"].as_array().expect("dependencies") {
            let is_normal = dependency["kind"].is_null() || text(dependency, "kind") == "build";
            if let Some(used) = short(text(dependency, "name"))
                && is_normal
            {
                assert!(may.contains(&used), "{name} uses {used}, against the layer rule");
            }
        }
    }
    for (name, _) in MAY_USE.iter().filter(|(name, _)| *name != "tests") {
        assert!(seen.contains(*name), "{name} is not in the workspace");
    }
}

/// Domain crates reach no file, clock, network or thread library, not even through somebody else. All but the lay: it searches on
/// every core, in the pool its caller gives it.
#[test]
fn domain_crates_carry_no_io_library() {
    const IO: [&str; 9] = [
        "tokio",
        "rayon",
        "tempfile",
        "indicatif",
        "clap",
        "reqwest",
        "chrono",
        "time",
        "walkdir",
    ];
    let metadata = metadata();
    let names: BTreeMap<&str, &str> = packages(&metadata)
        .iter()
        .map(|p| (text(p, "id"), text(p, "name")))
        .collect();
    let nodes: BTreeMap<&str, Vec<&str>> = metadata["resolve"]["nodes"]
        .as_array()
        .expect("resolve")
        .iter()
        .map(|node| (text(node, "id"), normal_dependencies(node)))
        .collect();
    for domain in [
        "units", "body", "cloth", "draft", "fit", "solve", "make", "drawer", "range",
    ] {
        let root = names
            .iter()
            .find(|(_, n)| short(n) == Some(domain))
            .map(|(id, _)| *id)
            .expect("in the workspace");
        let (mut todo, mut reached) = (vec![root], BTreeSet::new());
        while let Some(id) = todo.pop() {
            if reached.insert(id) {
                todo.extend(nodes.get(id).into_iter().flatten());
            }
        }
        for id in reached {
            let name = names.get(id).copied().unwrap_or_default();
            // The solver's one file with threads, whose sums have a fixed order: the same bytes on any number of cores.
            let is_threads_of_solver = domain == "solve" && name == "rayon";
            assert!(
                is_threads_of_solver || !IO.contains(&name),
                "{domain} reaches {name}"
            );
        }
    }
}

/// The sparse solver's kernels ask that system for its cache sizes, through a library that walks folders elsewhere.
fn is_apple_only(kind: &Value) -> bool {
    text(kind, "target").contains("apple")
}

fn normal_dependencies(node: &Value) -> Vec<&str> {
    let is_normal = |dep: &&Value| {
        dep["dep_kinds"]
            .as_array()
            .is_some_and(|kinds| kinds.iter().any(|k| k["kind"].is_null() && !is_apple_only(k)))
    };
    node["deps"]
        .as_array()
        .into_iter()
        .flatten()
        .filter(is_normal)
        .map(|dep| text(dep, "pkg"))
        .collect()
}

#[test]
fn one_version_of_each_engine() {
    let metadata = metadata();
    for engine in ONE_VERSION {
        let versions: Vec<&str> = packages(&metadata)
            .iter()
            .filter(|p| text(p, "name") == engine)
            .map(|p| text(p, "version"))
            .collect();
        assert_eq!(versions.len(), 1, "{engine}: {versions:?}");
    }
}

#[test]
fn every_licence_goes_with_ours() {
    let metadata = metadata();
    let mut refused = Vec::new();
    for package in packages(&metadata) {
        let (name, licence) = (text(package, "name"), text(package, "license"));
        if !goes_with_ours(licence) {
            refused.push(format!("{name}: \"{licence}\""));
        }
    }
    assert!(refused.is_empty(), "licences to look at:\n{}", refused.join("\n"));
}

fn goes_with_ours(expression: &str) -> bool {
    let is_fine = |one: &str| {
        let one = one.trim().trim_matches(['(', ')']).trim();
        LICENCES.contains(&one)
    };
    // Old crates write a slash for OR. No expression here nests deeper than "(A OR B) AND C".
    let expression = expression.replace('/', " OR ");
    !expression.is_empty()
        && expression
            .split(" AND ")
            .all(|part| part.split(" OR ").any(is_fine))
}

#[test]
fn the_licence_rule_itself() {
    assert!(goes_with_ours("MIT OR Apache-2.0"));
    assert!(goes_with_ours("MIT/Apache-2.0"));
    assert!(goes_with_ours("(MIT OR Apache-2.0) AND Unicode-3.0"));
    assert!(goes_with_ours("GPL-3.0 OR MIT"));
    assert!(!goes_with_ours("GPL-3.0"));
    assert!(!goes_with_ours("MIT AND GPL-3.0"));
    assert!(!goes_with_ours(""));
}
