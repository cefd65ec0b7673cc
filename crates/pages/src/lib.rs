//! The studio's pages as values: every file the browser asks for, its type and its entity tag.
//!
//! `build.rs` compiles `web/` and writes the table; this crate only looks things up in it. It knows no socket and no
//! server, so the studio decides about headers and caching, and a test can ask for any file without one.
//!
//! **Shapes and units.** Paths are relative with forward slashes, as in [`Asset::path`]; the server answers
//! [`MOUNT`] + path with the asset and every page address with [`index_html`].
//! **Limits.** Files are not compressed here; the server does that.

/// Where the page expects its files: `/pages/main.js` is `asset("main.js")`. Written into `web/index.html`.
pub const MOUNT: &str = "/pages/";

/// One file of the pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asset {
    /// Its path below [`MOUNT`].
    pub path: &'static str,
    /// The whole content.
    pub bytes: &'static [u8],
    /// Value for `Content-Type`.
    pub mime: &'static str,
    /// Value for `ETag`, quotes included; changes exactly when the bytes do.
    pub etag: &'static str,
}

include!(concat!(env!("OUT_DIR"), "/table.rs"));

/// The file at `path`, or `None` when there is none.
///
/// Only names of the table are found: no path is ever read from disk, so `..` has no meaning here.
///
/// ```
/// let styles = pages::asset("style/tokens.css").expect("shipped");
/// assert_eq!(styles.mime, "text/css; charset=utf-8");
/// assert!(pages::asset("../Cargo.toml").is_none());
/// ```
#[must_use]
pub fn asset(path: &str) -> Option<Asset> {
    let place = ASSETS.binary_search_by(|asset| asset.path.cmp(path)).ok()?;
    ASSETS.get(place).copied()
}

/// All files, by path in ascending order.
pub fn assets() -> impl Iterator<Item = Asset> {
    ASSETS.iter().copied()
}

/// The one HTML document; every address of a page gets it, and `web/main.tsx` decides what stands there.
#[must_use]
pub fn index_html() -> &'static str {
    INDEX_HTML
}

/// The sum of the page's only inline script, as a policy names it: `sha256-` and base64.
#[must_use]
pub fn import_map_sha256() -> &'static str {
    IMPORT_MAP_SHA256
}

/// Value for `Content-Security-Policy`: everything from this origin alone, no inline script but the import map, no
/// inline style, no frames, no forms to elsewhere.
///
/// `blob:` and `data:` are allowed for images only: drawings made in the page and photos just chosen.
#[must_use]
pub fn content_security_policy() -> String {
    format!(
        "default-src 'self'; script-src 'self' '{IMPORT_MAP_SHA256}'; img-src 'self' blob: data:; object-src 'none'; \
         base-uri 'none'; form-action 'self'; frame-ancestors 'none'"
    )
}
