//! The TypeScript types of the pages are those of the Rust types.

use std::path::Path;

#[test]
fn the_pages_types_are_the_studios() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/api/types.ts");
    let made = studio::view::typescript();
    if std::env::var_os("UPDATE_TYPES").is_some() {
        std::fs::write(&file, &made).unwrap();
    }
    let kept = std::fs::read_to_string(&file).unwrap();
    assert!(
        kept == made,
        "{} is not what the Rust types say; write it anew with UPDATE_TYPES=1",
        file.display()
    );
}
