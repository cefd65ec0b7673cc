//! Thread: kinds, how far each stretches before it breaks, and what is in stock.
//!
//! Tex is the honest size: ticket numbers for one Tex differ between makers. Polyester for everything; textured (bulked) thread in
//! bobbin and loopers, where it covers the edge softly and gives; cotton never, it rots and does not stretch.
//!
//! **Shapes and units.** Tex: grams of a kilometre. Extensions are ratios.
//! **Source.** `data/trade/threads.csv`, all from memory of makers' sheets; a test holds this table against it.

use serde::Serialize;

/// A kind of sewing thread.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Thread {
    /// Core-spun or spun polyester: needle and bobbin, the default.
    #[default]
    SpunPolyester,
    /// Textured (bulked) polyester: loopers, bobbin.
    TexturedPolyester,
    /// Textured (bulked) polyamide: loopers, bobbin.
    TexturedPolyamide,
    /// Continuous polyamide filament: strap ends.
    PolyamideFilament,
    /// Elastic sewing thread (PBT and the like).
    Elastic,
    /// Cotton: not for swimwear.
    Cotton,
}

/// What the table says of a thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThreadFacts {
    /// Key of its name: `thread.spun_polyester`.
    pub key: &'static str,
    /// Usual size, Tex.
    pub tex: f64,
    /// Breaking extension, least and greatest, ratios.
    pub extension: (f64, f64),
    /// Whether it holds in pool water.
    pub is_chlorine_fast: bool,
}

/// Thread in stock.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThreadStock {
    /// What it is.
    pub thread: Thread,
    /// Size, Tex.
    pub tex: f64,
    /// Colour, as the maker writes it; empty if she did not.
    pub colour: String,
    /// Spools or cones.
    pub packages: u32,
    /// Metres on all of them together.
    pub metres: f64,
}

impl Thread {
    /// Every kind, the default first.
    pub const ALL: [Thread; 6] = [
        Thread::SpunPolyester,
        Thread::TexturedPolyester,
        Thread::TexturedPolyamide,
        Thread::PolyamideFilament,
        Thread::Elastic,
        Thread::Cotton,
    ];

    /// What is known of it.
    pub const fn facts(self) -> ThreadFacts {
        let (key, tex, percent, is_chlorine_fast) = match self {
            Thread::SpunPolyester => ("thread.spun_polyester", 27.0, (15.0, 22.0), true),
            Thread::TexturedPolyester => ("thread.textured_polyester", 24.0, (25.0, 40.0), true),
            Thread::TexturedPolyamide => ("thread.textured_polyamide", 18.0, (30.0, 50.0), false),
            Thread::PolyamideFilament => ("thread.polyamide_filament", 35.0, (20.0, 30.0), false),
            Thread::Elastic => ("thread.elastic", 24.0, (40.0, 70.0), true),
            Thread::Cotton => ("thread.cotton", 30.0, (4.0, 8.0), false),
        };
        ThreadFacts {
            key,
            tex,
            extension: (percent.0 / 100.0, percent.1 / 100.0),
            is_chlorine_fast,
        }
    }

    /// Key of its name.
    pub const fn key(self) -> &'static str {
        self.facts().key
    }

    /// The breaking extension the forecast uses, a ratio: 0.18, 0.30 and 0.50, as in the worked examples of
    /// `data/trade/thread_model.toml`; for the others the low end of their band.
    pub const fn breaks_at(self) -> f64 {
        match self {
            Thread::SpunPolyester => 0.18,
            Thread::TexturedPolyester | Thread::TexturedPolyamide => 0.30,
            Thread::Elastic => 0.50,
            Thread::PolyamideFilament => 0.20,
            Thread::Cotton => 0.04,
        }
    }
}
