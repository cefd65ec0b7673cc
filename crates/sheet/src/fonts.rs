//! The embedded fonts as bytes, for every writer that sets type: TrueType, static weights.
//!
//! Besley for headings and names, Libre Franklin for reading, Noto Sans for letters those lack.
//!
//! **Source.** SIL Open Font License 1.1; origin and licence texts in `crates/sheet/fonts`.

/// Besley, weight 500: headings and values.
pub const BESLEY_500: &[u8] = include_bytes!("../fonts/Besley_500Medium.ttf");
/// Besley, weight 600: titles and piece names.
pub const BESLEY_600: &[u8] = include_bytes!("../fonts/Besley_600SemiBold.ttf");
/// Libre Franklin, weight 400: reading.
pub const LIBRE_FRANKLIN_400: &[u8] = include_bytes!("../fonts/LibreFranklin_400Regular.ttf");
/// Libre Franklin, weight 600: heads of tables, codes.
pub const LIBRE_FRANKLIN_600: &[u8] = include_bytes!("../fonts/LibreFranklin_600SemiBold.ttf");
/// Noto Sans, weight 400: Greek and Cyrillic for reading.
pub const NOTO_SANS_400: &[u8] = include_bytes!("../fonts/NotoSans_400Regular.ttf");
/// Noto Sans, weight 600: Greek and Cyrillic for headings.
pub const NOTO_SANS_600: &[u8] = include_bytes!("../fonts/NotoSans_600SemiBold.ttf");
