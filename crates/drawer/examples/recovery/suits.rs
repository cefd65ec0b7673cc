//! Random suits to be found again: body, cloth and design drawn from a seeded generator, measured with noise.
//!
//! **Source.** Bodies and cloths: `data/draft/check-values.json`, invented. The generator is splitmix64 (G. L. Steele, D. Lea,
//! C. H. Flood, OOPSLA 2014, from memory), normal deviates by Box and Muller.

#![allow(
    clippy::unwrap_used,
    reason = "for tests and the desk, not part of the library"
)]

use body::Body;
use cloth::{ClothPlan, Fit, OwnFit};
use draft::{BackDepth, BackShape, Design, Draft, LegHeight, NeckDepth, NeckShape, draft};
use drawer::{
    CopyError, CopyRequest, Favourite, FavouriteCopy, FlatMeasure, SeatOnSuit, SuitParameter, TakenMeasure,
    copy_favourite,
};
pub(crate) use fixtures::body;
use units::Mm;

/// What a maker measures of a suit without a skirt, the crotch apart, in the order of [`FlatMeasure::ALL`]: the ten she takes first; two
/// depths that tell centre front, centre back and neckline apart; five that check the neckline, whose ring is long and read less
/// surely than all else, and the leg.
pub(crate) fn asked() -> impl Iterator<Item = FlatMeasure> {
    FlatMeasure::ALL
        .into_iter()
        .filter(|m| !matches!(m, FlatMeasure::CrotchWidth | FlatMeasure::SkirtLength))
}

/// What a slip is planted on.
pub(crate) const SLIPPED: [FlatMeasure; 8] = [
    FlatMeasure::AcrossBust,
    FlatMeasure::AcrossWaist,
    FlatMeasure::AcrossAboveLeg,
    FlatMeasure::SideSeam,
    FlatMeasure::CentreFront,
    FlatMeasure::CentreBack,
    FlatMeasure::Armhole,
    FlatMeasure::Neckline,
];

/// A seeded generator.
pub(crate) struct Chance(u64);

impl Chance {
    /// The same seed gives the same suits.
    pub(crate) fn new(seed: u64) -> Chance {
        Chance(seed)
    }

    /// Uniform, 0 to 1.
    pub(crate) fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Uniform, low to high.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Normal with mean 0 and deviation 1.
    pub(crate) fn normal(&mut self) -> f64 {
        let (u, v) = (1.0 - self.share(), self.share());
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
    }

    fn one_of<T: Copy>(&mut self, of: &[T]) -> T {
        of[((self.share() * of.len() as f64) as usize).min(of.len() - 1)]
    }
}

/// A suit that was made up, and what it is.
pub(crate) struct Suit {
    /// Who it fits.
    pub(crate) body: Body,
    /// What it is made of.
    pub(crate) cloth: ClothPlan,
    /// Its shapes, with the usual numbers.
    pub(crate) shapes: Design,
    /// What is to be found.
    pub(crate) truth: Vec<(SuitParameter, f64)>,
    /// The suit itself.
    pub(crate) suit: Draft,
}

const BODIES: [&str; 6] = ["petite", "average", "tall", "plus", "large_cup", "child8"];

/// `soft` 85/60 % or `firm` 50/32 %.
pub(crate) fn cloth(name: &str) -> ClothPlan {
    if name == "soft" {
        fixtures::cloth(85.0, 60.0)
    } else {
        fixtures::cloth(50.0, 32.0)
    }
}

/// The next suit that can be drafted.
pub(crate) fn next_suit(chance: &mut Chance) -> Suit {
    loop {
        let (body_name, cloth_name) = (chance.one_of(&BODIES), chance.one_of(&["soft", "firm"]));
        let shapes = Design {
            neck_shape: chance.one_of(&[NeckShape::Scoop, NeckShape::V, NeckShape::Square]),
            back_shape: chance.one_of(&[BackShape::Scoop, BackShape::V]),
            ..Design::default()
        };
        let truth = [
            (SuitParameter::AroundShare, chance.between(0.10, 0.36)),
            (SuitParameter::LengthwiseShare, chance.between(0.05, 0.20)),
            (SuitParameter::LegShare, chance.between(0.15, 0.95)),
            (SuitParameter::StrapWidth, chance.between(20.0, 55.0)),
            (SuitParameter::NeckDepth, chance.between(0.12, 0.50)),
            (SuitParameter::BackDepth, chance.between(0.25, 0.80)),
        ];
        let design = Design {
            fit: Fit::Own(OwnFit::new(truth[0].1, truth[1].1).unwrap()),
            leg: LegHeight::Share(truth[2].1),
            strap_width: Mm::new(truth[3].1),
            neck_depth: Some(NeckDepth::Share(truth[4].1)),
            back_depth: Some(BackDepth::Share(truth[5].1)),
            ..shapes.clone()
        };
        let (body, cloth) = (body(body_name), cloth(cloth_name));
        if let Ok(suit) = draft(&body, &cloth, &design) {
            return Suit {
                body,
                cloth,
                shapes,
                truth: truth.to_vec(),
                suit,
            };
        }
    }
}

/// The first measures of a suit, so many, each off by its usual deviation times a normal deviate.
pub(crate) fn measured(suit: &Suit, measures: usize, chance: &mut Chance) -> Favourite {
    let measures = asked()
        .take(measures)
        .map(|measure| {
            let true_mm = drawer::finished_measure(&suit.suit, measure).unwrap();
            let off = measure.usual_deviation().get() * chance.normal();
            TakenMeasure::new(measure, Mm::new(true_mm + off))
        })
        .collect();
    Favourite {
        name: "made up".into(),
        measures,
    }
}

/// Copies a suit in its own cloth.
pub(crate) fn copied(suit: &Suit, favourite: &Favourite) -> Result<FavouriteCopy, Vec<CopyError>> {
    copy_favourite(&CopyRequest {
        favourite,
        body: &suit.body,
        old: &suit.cloth,
        new: &suit.cloth,
        shapes: &suit.shapes,
        seat: SeatOnSuit::Seen,
    })
}

/// The same with one measure off by more.
pub(crate) fn with_slip(favourite: &Favourite, measure: FlatMeasure, slip_mm: f64) -> Favourite {
    let mut slipped = favourite.clone();
    for taken in slipped.measures.iter_mut().filter(|t| t.measure == measure) {
        taken.length += Mm::new(slip_mm);
    }
    slipped
}
