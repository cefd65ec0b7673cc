//! The program as a maker or a script runs it: what it is given, its exit code, what came out on which stream, what a folder holds
//! afterwards.

#![allow(dead_code, reason = "each test file uses a part of it")]

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use serde_json::Value;

/// A file of the examples; with an empty name their folder.
pub(crate) fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../examples")
        .join(name)
}

/// The program, to be given its arguments.
pub(crate) fn command() -> Command {
    Command::new(env!("CARGO_BIN_EXE_slackwater"))
}

/// Run to its end.
pub(crate) fn slackwater(args: &[&str]) -> Output {
    command().args(args).output().expect("the program runs")
}

/// Run to its end with something on its standard input.
pub(crate) fn fed(args: &[&str], input: &str) -> Output {
    let mut child = command()
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    let mut stdin = child.stdin.take().expect("a pipe");
    // It may refuse before it has read everything.
    let _ = stdin.write_all(input.as_bytes());
    drop(stdin);
    child.wait_with_output().expect("it ends")
}

/// How it ended.
pub(crate) fn code(output: &Output) -> i32 {
    output.status.code().expect("not killed")
}

/// What it printed.
pub(crate) fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8")
}

/// What it complained of.
pub(crate) fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("UTF-8")
}

/// What it printed, as data.
pub(crate) fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e}: {}", out(output)))
}

/// Everything under a folder, hidden files too, sorted.
pub(crate) fn listing(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    names
}
