//! How long a making plan takes: the whole plan, its shopping list, and the plan of every style.

#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::missing_panics_doc,
    reason = "a bench"
)]

#[path = "../tests/suit/bodies.rs"]
mod bodies;
#[path = "../tests/suit/suits.rs"]
mod suits;

use draft::{LiningCover, Style};
use make::{ElasticChoice, MakingInput, Preset, SampleBook, ShoppingInput, WornStretch, making, shopping};
use suits::{SUITS, Suit, lined};

fn main() {
    divan::main();
}

#[divan::bench(args = [Preset::StraightOnly, Preset::Zigzag, Preset::Coverstitch])]
fn lined_one_piece(bencher: divan::Bencher<'_, '_>, preset: Preset) {
    let suit = Suit::of("lined", lined(Style::ONE_PIECE, LiningCover::Full));
    let workroom = preset.workroom();
    bencher.bench(|| suit.plan(&workroom));
}

#[divan::bench]
fn plan_and_shopping_list(bencher: divan::Bencher<'_, '_>) {
    let suit = Suit::of("lined", lined(Style::TWO_PIECE, LiningCover::Full));
    let (workroom, worn) = (Preset::Coverstitch.workroom(), WornStretch::of_draft(&suit.draft));
    let (elastic, samples) = (ElasticChoice::default(), SampleBook::default());
    bencher.bench(|| {
        let input = MakingInput {
            draft: &suit.draft,
            design: &suit.design,
            cloth: &suit.cloth,
            elastic: &elastic,
            workroom: &workroom,
            samples: &samples,
            worn: &worn,
            masses: &[],
            is_child: false,
        };
        let plan = making(&input);
        shopping(&input, &plan, &ShoppingInput::default())
    });
}

#[divan::bench]
fn slowest_of_all(bencher: divan::Bencher<'_, '_>) {
    let workroom = Preset::StraightOnly.workroom();
    let suit = SUITS.iter().max_by_key(|s| s.draft.pieces.len()).unwrap();
    bencher.bench(|| suit.plan(&workroom));
}
