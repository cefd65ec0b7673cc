//! Turns `web/` into a table of files that the program carries: TypeScript compiled, everything else as it stands.
//!
//! No bundler and no Node: each `.ts`/`.tsx` becomes one ES module of the same name, so a file in the browser is a file on
//! disk. Vendored modules were minified by their makers and are carried byte for byte, so their check sums can be held
//! against the published packages.
//!
//! **Shapes and units.** In: the tree under `web/`. Out, in `OUT_DIR`: `web/**` and `table.rs`, a sorted table of path,
//! bytes, type and entity tag, with the page's head values. `gallery.rs` is the same for `web/test`, which only
//! `examples/serve.rs` includes: it is never part of the library.
//! **Limits.** Types are not checked here, only syntax; `npm run check` in `web/` does that.

#![allow(
    clippy::disallowed_methods,
    reason = "a build script reads files and environment; the library it builds does neither"
)]

#[path = "build/compile.rs"]
mod compile;
#[path = "build/table.rs"]
mod table;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

use compile::Fault;

/// What is under `web/` but belongs to development alone.
const NOT_SHIPPED: [&str; 5] = [
    "node_modules",
    "package.json",
    "package-lock.json",
    "tsconfig.json",
    "test",
];

fn main() {
    let manifest = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default());
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    let web = manifest.join("../../web");
    let minify = env::var("PROFILE").is_ok_and(|profile| profile == "release");

    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-changed=build");
    println!("cargo::rerun-if-changed={}", web.display());

    // The tests run this very program on trees of their own: compiling oxc a second time for them would cost minutes.
    if let Ok(program) = env::current_exe() {
        println!("cargo::rustc-env=PAGES_BUILD_SCRIPT={}", program.display());
    }

    let mut faults = Vec::new();
    if let Err(error) = build(&web, &out, minify, &mut faults) {
        println!("cargo::error=web pages: {error}");
    }
    for fault in faults {
        println!("cargo::error={fault}");
    }
}

fn build(web: &Path, out: &Path, minify: bool, faults: &mut Vec<Fault>) -> io::Result<()> {
    let shipped = carry(web, "", &out.join("web"), minify, faults)?;
    fs::write(
        out.join("table.rs"),
        table::library(&shipped).map_err(io::Error::other)?,
    )?;
    let gallery = if minify {
        BTreeMap::new()
    } else {
        carry(&web.join("test"), "test/", &out.join("gallery"), false, faults)?
    };
    fs::write(out.join("gallery.rs"), table::gallery(&gallery)?)
}

/// Compiles or copies every file under `from` to `to`; returns them by their path in the browser.
fn carry(
    from: &Path,
    prefix: &str,
    to: &Path,
    minify: bool,
    faults: &mut Vec<Fault>,
) -> io::Result<BTreeMap<String, PathBuf>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![PathBuf::new()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(from.join(&folder))? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let relative = folder.join(&name);
            if name.starts_with('.') || (prefix.is_empty() && is_not_shipped(&relative)) {
                continue;
            }
            if entry.file_type()?.is_dir() {
                folders.push(relative);
                continue;
            }
            let Some((browser, target)) = one(&entry.path(), &relative, to, minify, faults)? else {
                continue;
            };
            if let Some(other) = found.insert(format!("{prefix}{browser}"), target) {
                return Err(io::Error::other(format!(
                    "two files become {prefix}{browser}; rename one ({})",
                    other.display()
                )));
            }
        }
    }
    Ok(found)
}

fn is_not_shipped(relative: &Path) -> bool {
    NOT_SHIPPED.iter().any(|name| relative == Path::new(name))
}

/// One file; `None` for those no browser asks for (type declarations, scripts, notes).
fn one(
    source: &Path,
    relative: &Path,
    to: &Path,
    minify: bool,
    faults: &mut Vec<Fault>,
) -> io::Result<Option<(String, PathBuf)>> {
    let browser = relative.to_string_lossy().replace('\\', "/");
    let extension = relative.extension().and_then(|e| e.to_str()).unwrap_or_default();
    if browser.ends_with(".d.ts") {
        return Ok(None);
    }
    match extension {
        "ts" | "tsx" => {
            let stem = browser.trim_end_matches(extension).trim_end_matches('.');
            let module = format!("{stem}.js");
            let text = fs::read_to_string(source)?;
            let code = match compile::module(&text, &format!("web/{browser}"), minify) {
                Ok(code) => code,
                Err(found) => {
                    faults.extend(found);
                    return Ok(None);
                }
            };
            let target = to.join(&module);
            write_if_new(&target, &code)?;
            Ok(Some((module, target)))
        }
        _ if table::mime(&browser).is_some() => Ok(Some((browser, source.canonicalize()?))),
        _ => Ok(None),
    }
}

fn write_if_new(target: &Path, code: &str) -> io::Result<()> {
    if fs::read(target).is_ok_and(|old| old == code.as_bytes()) {
        return Ok(());
    }
    if let Some(folder) = target.parent() {
        fs::create_dir_all(folder)?;
    }
    fs::write(target, code)
}
