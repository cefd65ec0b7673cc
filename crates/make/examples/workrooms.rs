//! Prints `docs/workrooms.md`, the same lined one-piece in four workrooms: `cargo run -p slackwater-make --example workrooms > docs/workrooms.md`.
#![allow(clippy::print_stdout, reason = "an example prints")]

#[path = "../tests/suit/bodies.rs"]
mod bodies;
#[path = "../tests/suit/suits.rs"]
mod suits;
#[path = "../tests/suit/workrooms.rs"]
mod workrooms;

fn main() {
    print!("{}", workrooms::page());
}
