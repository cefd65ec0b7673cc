//! Every style in every way its words and switches allow, drafted once.

#![allow(
    dead_code,
    clippy::unwrap_used,
    reason = "a test helper; each test binary uses a part of it"
)]

use std::sync::LazyLock;

use cloth::ClothPlan;
use draft::{
    BackShape, BustShaping, Closure, ClosureKind, ClosurePlace, Cups, Design, Draft, LiningCover,
    ParameterKind, Setting, Shared, Skirt, SkirtJoin, SkirtKind, Style, draft,
};
use make::{ElasticChoice, Making, MakingInput, SampleBook, Workroom, WornStretch, making};
use units::Mm;

use super::bodies::{body_for, layered};

/// A drafted suit with what it was drafted from.
pub(crate) struct Suit {
    pub(crate) name: String,
    pub(crate) design: Design,
    pub(crate) draft: Draft,
    pub(crate) cloth: ClothPlan,
}

impl Suit {
    /// A suit of a design.
    pub(crate) fn of(name: &str, design: Design) -> Suit {
        Suit::try_of(name, design).unwrap()
    }

    fn try_of(name: &str, design: Design) -> Result<Suit, draft::Refusal> {
        let body = body_for(design.style);
        Suit::on(&body, name, design)
    }

    /// A suit of a design on a body.
    pub(crate) fn on(body: &body::Body, name: &str, design: Design) -> Result<Suit, draft::Refusal> {
        let cloth = layered();
        let draft = draft(body, &cloth, &design)?;
        Ok(Suit {
            name: name.to_owned(),
            design,
            draft,
            cloth,
        })
    }

    /// Its plan in a workroom, nothing tried before.
    pub(crate) fn plan(&self, workroom: &Workroom) -> Making {
        self.plan_with(workroom, &SampleBook::default())
    }

    /// Its plan with a sample book.
    pub(crate) fn plan_with(&self, workroom: &Workroom, samples: &SampleBook) -> Making {
        making(&MakingInput {
            draft: &self.draft,
            design: &self.design,
            cloth: &self.cloth,
            elastic: &ElasticChoice::default(),
            workroom,
            samples,
            worn: &WornStretch::of_draft(&self.draft),
            masses: &[],
            is_child: false,
        })
    }
}

/// A design of a style with a lining.
pub(crate) fn lined(style: Style, lining: LiningCover) -> Design {
    Design {
        lining,
        ..Design::of(style)
    }
}

fn variants() -> Vec<(String, Design)> {
    let mut all = Vec::new();
    for style in Style::all() {
        let key = style.key();
        for lining in [
            LiningCover::Crotch,
            LiningCover::Full,
            LiningCover::Front,
            LiningCover::None,
        ] {
            all.push((format!("{key} {lining:?}"), lined(*style, lining)));
        }
        for parameter in style.spec().own {
            let settings: Vec<Setting> = match parameter.kind {
                ParameterKind::Choice { options } => {
                    options.iter().skip(1).map(|o| Setting::Word(o.key)).collect()
                }
                ParameterKind::Switch { usual } => vec![Setting::Yes(!usual)],
                // What a beginner does without: slits, drops.
                ParameterKind::Length { high, usual: 0.0, .. } => vec![Setting::Length(Mm::new(0.6 * high))],
                _ => Vec::new(),
            };
            for setting in settings {
                for lining in [LiningCover::Crotch, LiningCover::Full] {
                    let mut design = lined(*style, lining);
                    design.own.set(parameter, setting);
                    all.push((format!("{key} {}={setting:?} {lining:?}", parameter.key), design));
                }
            }
        }
        let mut with = |name: &str, design: Design| all.push((format!("{key} {name}"), design));
        if style.has(Shared::Cups) {
            for cups in [Cups::Marks, Cups::Pocket] {
                with(
                    &format!("{cups:?}"),
                    Design {
                        cups,
                        ..lined(*style, LiningCover::Full)
                    },
                );
                with(
                    &format!("{cups:?} front"),
                    Design {
                        cups,
                        ..lined(*style, LiningCover::Front)
                    },
                );
            }
        }
        if style.has(Shared::BustShaping) {
            for bust_shaping in [BustShaping::Princess, BustShaping::SideDart] {
                for lining in [LiningCover::Full, LiningCover::Front, LiningCover::Crotch] {
                    with(
                        &format!("{bust_shaping:?} {lining:?}"),
                        Design {
                            bust_shaping,
                            ..lined(*style, lining)
                        },
                    );
                }
            }
        }
        if style.has(Shared::Skirt) {
            for join in [SkirtJoin::Underbust, SkirtJoin::Waist, SkirtJoin::Hip] {
                let skirt = Some(Skirt {
                    kind: SkirtKind::HalfCircle,
                    join,
                    cover: Mm::new(40.0),
                });
                with(
                    &format!("skirt {join:?}"),
                    Design {
                        skirt,
                        ..lined(*style, LiningCover::Full)
                    },
                );
            }
        }
        if style.has(Shared::Back) {
            with(
                "crossed",
                Design {
                    back_shape: BackShape::CrossedStraps,
                    ..Design::of(*style)
                },
            );
        }
        if style.has(Shared::Closure) {
            for kind in [
                ClosureKind::Zip,
                ClosureKind::Clasp,
                ClosureKind::Hook,
                ClosureKind::Ring,
            ] {
                for place in [ClosurePlace::Back, ClosurePlace::Front, ClosurePlace::Neck] {
                    let closure = Some(Closure {
                        kind,
                        place,
                        length: Mm::new(140.0),
                    });
                    with(
                        &format!("{kind:?} {place:?}"),
                        Design {
                            closure,
                            ..lined(*style, LiningCover::Full)
                        },
                    );
                }
            }
        }
    }
    all
}

/// Every variant the draft does not refuse.
pub(crate) static SUITS: LazyLock<Vec<Suit>> = LazyLock::new(|| {
    variants()
        .into_iter()
        .filter_map(|(name, design)| Suit::try_of(&name, design).ok())
        .collect()
});
