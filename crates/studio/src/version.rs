//! The version id of a suit: a short number that is the same for the same suit and no other, printed on its paper.
//!
//! Taken over what the file means, not how it is written: comments, order of keys and the unit of a length don't change
//! it, a millimetre does. No date goes in, so the same suit prints the same bytes.
//!
//! **Source.** FNV-1a, 64 bit: a published hash, chosen because it is ten lines, fixed for ever and the same on every
//! machine. It guards against mixing up paper, not against forgery.

use std::fmt::Write;

use crate::suit_file::{ClothEntry, SuitFile};

/// Changes when what is hashed changes its meaning, so that old paper is not taken for new.
const NORMAL_FORM: u32 = 1;

/// The 64-bit FNV-1a hash of the bytes.
pub(crate) fn fingerprint(bytes: &[u8]) -> u64 {
    bytes.iter().fold(0xcbf2_9ce4_8422_2325, |hash, b| {
        (hash ^ u64::from(*b)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// Eight hexadecimal digits that stand for this suit: name, wearer, cloths, design, elastic. Printer,
/// prices, notes and second readings are left out: they don't change the pattern.
pub fn version_id(suit: &SuitFile) -> String {
    let mut normal = String::new();
    // Debug of plain data is a full and deterministic spelling of it; f64 prints its shortest exact form.
    let _ = write!(
        normal,
        "{NORMAL_FORM}|{}|{:?}|{:?}|",
        suit.name, suit.wearer, suit.design
    );
    let plain = |cloth: Option<&ClothEntry>| {
        let mut cloth = cloth.cloned();
        if let Some(cloth) = &mut cloth {
            cloth.record.price_per_metre = None;
            cloth.record.notes.clear();
        }
        cloth
    };
    for cloth in [Some(&suit.shell), suit.lining.as_ref(), suit.mesh.as_ref()] {
        let _ = write!(normal, "{:?}|", plain(cloth));
    }
    let _ = write!(normal, "{:?}|{:?}", suit.tested_together, suit.elastic);
    // Blocks are drawn for the stretch of their own cloth. A suit without one keeps the id it always had.
    if let Some(contrast) = plain(suit.contrast.as_ref()) {
        let _ = write!(normal, "|contrast {contrast:?}");
    }
    let hash = fingerprint(normal.as_bytes());
    format!("{:08x}", (hash >> 32) ^ (hash & 0xffff_ffff))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The second outer cloth makes other blocks: paper of one stretch must not pass for that of another.
    #[test]
    fn a_second_outer_cloth_is_part_of_the_version() {
        let plain = include_str!("../../../examples/maren-one-piece.toml");
        let id = |text: &str| version_id(&crate::suit_file::read_text("maren.toml", text).unwrap());
        let with = |across: &str| {
            format!(
                "{plain}\n[contrast]\nname = \"Kelp print\"\nalong = {{ stretch = 60, recovery = 95 }}\nacross = {{ stretch = {across}, recovery = 95 }}\n"
            )
        };
        assert_ne!(id(plain), id(&with("70")));
        assert_ne!(id(&with("70")), id(&with("80")));
        assert_eq!(id(&with("70")), id(&with("70")));
    }

    /// Source: the published FNV-1a test vectors for "" , "a" and "foobar".
    #[test]
    fn fingerprints_are_the_published_ones() {
        assert_eq!(fingerprint(b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fingerprint(b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fingerprint(b"foobar"), 0x8594_4171_f739_67e8);
    }
}
