//! Builds the crate anew when a migration is added: the migrations are read while compiling.

fn main() {
    println!("cargo:rerun-if-changed=migrations");
}
