//! What a style hears does something: changing any parameter that is asked for changes the draft on some body.
#![allow(clippy::unwrap_used, reason = "a test may panic")]

use std::collections::BTreeSet;

use cloth::{ClothPlan, Layer, LayerPlan};
use draft::{
    BackDepth, BackShape, BustShaping, Closure, ClosureKind, ClosurePlace, Cups, Design, Draft, LegHeight,
    LiningCover, NeckDepth, NeckShape, Parameter, ParameterKind, Rise, Seat, Setting, Shared, Skirt,
    SkirtJoin, SkirtKind, Style, draft,
};
use units::Mm;

/// Bodies of each form: what a small bust does not show, a large one may.
const BODIES: [&str; 5] = ["average", "large_cup", "petite", "man", "child8"];

/// Parameters that change what is said and bought but no cloth, with the reason.
const SAID_ONLY: [(&str, &str); 2] = [
    (
        "boys-trunks drawcord",
        "a cord for looks is bought and sewn down on the finished band",
    ),
    ("childs-jammer drawcord", "the same"),
];

fn cloths() -> [ClothPlan; 2] {
    let mut soft = fixtures::cloth(85.0, 60.0);
    soft.contrast = Some(LayerPlan {
        layer: Layer::Contrast,
        cloth: "Kelp print".into(),
        ..soft.shell.clone()
    });
    [soft, fixtures::cloth(50.0, 32.0)]
}

/// Whether the same is cut and sewn, whatever is said of it.
fn are_cut_alike(one: &Draft, other: &Draft) -> bool {
    one.pieces == other.pieces && one.open_edges == other.open_edges && one.seams == other.seams
}

/// The ends of a range, and half way to them from the usual.
fn along(low: f64, usual: f64, high: f64) -> [f64; 4] {
    [low, high, 0.5 * (low + usual), 0.5 * (usual + high)]
}

/// Every setting of a parameter but the usual one.
fn others(parameter: &Parameter) -> Vec<Setting> {
    let all = match parameter.kind {
        ParameterKind::Length { low, high, usual } => along(low, usual, high)
            .map(|mm| Setting::Length(Mm::new(mm)))
            .to_vec(),
        ParameterKind::Number { low, high, usual, .. } => {
            along(low, usual, high).map(Setting::Number).to_vec()
        }
        ParameterKind::Choice { options } => options.iter().map(|o| Setting::Word(o.key)).collect(),
        ParameterKind::Switch { usual } => vec![Setting::Yes(!usual)],
    };
    all.into_iter().filter(|s| *s != parameter.usual()).collect()
}

/// Designs in which a need is met, one for each word of it.
fn meeting(base: &Design, (key, words): (&str, &[&str])) -> Vec<Design> {
    let cups = |cups| Design {
        cups,
        lining: LiningCover::Full,
        ..base.clone()
    };
    match key {
        "skirt" => vec![Design {
            skirt: Some(Skirt {
                kind: SkirtKind::HalfCircle,
                join: SkirtJoin::Waist,
                cover: Mm::new(40.0),
            }),
            ..base.clone()
        }],
        "cups" if words == ["pocket"] => vec![cups(Cups::Pocket)],
        "cups" => vec![cups(Cups::Marks), cups(Cups::Pocket)],
        "lining" => {
            let of = |word: &&str| Design {
                lining: match *word {
                    "none" => LiningCover::None,
                    "full" => LiningCover::Full,
                    "front" => LiningCover::Front,
                    _ => LiningCover::Crotch,
                },
                ..base.clone()
            };
            words.iter().map(of).collect()
        }
        key => {
            let governing = base.style.own(key).unwrap();
            let settings: Vec<Setting> = if words.is_empty() {
                others(governing).pop().into_iter().collect()
            } else {
                words
                    .iter()
                    .map(|w| Setting::Word(word_of(governing, w)))
                    .collect()
            };
            settings
                .into_iter()
                .flat_map(|setting| {
                    let mut bases = bases(base, governing);
                    for design in &mut bases {
                        design.own.set(governing, setting);
                    }
                    bases
                })
                .collect()
        }
    }
}

fn word_of(parameter: &Parameter, word: &str) -> &'static str {
    let ParameterKind::Choice { options } = parameter.kind else {
        panic!("{} has no words", parameter.key);
    };
    options.iter().find(|o| o.key == word).unwrap().key
}

/// Designs in which a parameter is heard, built up from `base`.
fn bases(base: &Design, parameter: &Parameter) -> Vec<Design> {
    let needs: Vec<_> = [parameter.only_with, parameter.or_with]
        .into_iter()
        .flatten()
        .collect();
    if needs.is_empty() {
        return vec![base.clone()];
    }
    needs.into_iter().flat_map(|need| meeting(base, need)).collect()
}

/// The style as usual; a two-piece once with each top.
fn starts(style: Style) -> Vec<Design> {
    let usual = Design::of(style);
    let Some(top) = style.own("top") else {
        return vec![usual];
    };
    let ParameterKind::Choice { options } = top.kind else {
        panic!("a top is a word");
    };
    options
        .iter()
        .map(|option| {
            let mut design = usual.clone();
            design.own.set(top, Setting::Word(option.key));
            design
        })
        .collect()
}

/// Whether one of the changed designs is cut otherwise than the base on some body, in some cloth.
fn changes(base: &Design, changed: &[Design], refusals: &mut BTreeSet<String>) -> bool {
    for name in BODIES {
        let body = fixtures::body(name);
        if !base.style.is_for(body.form) {
            continue;
        }
        for cloth in cloths() {
            let before = match draft(&body, &cloth, base) {
                Ok(suit) => suit,
                Err(refusal) => {
                    refusals.insert(refusal.to_string());
                    continue;
                }
            };
            for design in changed {
                match draft(&body, &cloth, design) {
                    Ok(suit) if !are_cut_alike(&suit, &before) => return true,
                    Ok(_) => {}
                    Err(refusal) => {
                        refusals.insert(refusal.to_string());
                    }
                }
            }
        }
    }
    false
}

#[test]
fn what_a_style_has_for_itself_changes_what_is_cut() {
    let (mut tried, mut idle) = (0, Vec::new());
    for style in Style::all() {
        for start in starts(*style) {
            for parameter in style.spec().own {
                let name = format!("{} {}", style.key(), parameter.key);
                if SAID_ONLY.iter().any(|(said, _)| *said == name) {
                    continue;
                }
                for base in bases(&start, parameter) {
                    if !base.is_heard(parameter) {
                        // A two-piece's other tops' own: nothing may come of it.
                        continue;
                    }
                    tried += 1;
                    let mut refusals = BTreeSet::new();
                    // A pocket in the lining asks for one, and is refused without.
                    let lined = Design {
                        lining: LiningCover::Full,
                        ..base.clone()
                    };
                    let does = [base.clone(), lined].iter().any(|base| {
                        let changed: Vec<Design> = others(parameter)
                            .into_iter()
                            .map(|setting| {
                                let mut design = base.clone();
                                design.own.set(parameter, setting);
                                design
                            })
                            .collect();
                        changes(base, &changed, &mut refusals)
                    });
                    if !does {
                        idle.push(format!(
                            "{name} (with {:?}, cups {:?}): {refusals:?}",
                            base.own, base.cups
                        ));
                    }
                }
            }
        }
    }
    println!("{tried} tried");
    assert!(idle.is_empty(), "asked for, and do nothing:\n{}", idle.join("\n"));
}

#[test]
fn what_is_not_heard_changes_nothing() {
    let mut tried = 0;
    for style in Style::all() {
        for start in starts(*style) {
            for parameter in style.spec().own.iter().filter(|p| !start.is_heard(p)) {
                for setting in others(parameter) {
                    let mut design = start.clone();
                    design.own.set(parameter, setting);
                    if !design.is_heard(parameter) {
                        tried += 1;
                        let mut refusals = BTreeSet::new();
                        assert!(
                            !changes(&start, &[design], &mut refusals),
                            "{style:?}: {} {setting:?} is not heard and does something",
                            parameter.key
                        );
                    }
                }
            }
        }
    }
    assert!(tried > 50, "{tried}");
}

/// Other values of a shared parameter; what stands together must do something between them.
fn shared_others(base: &Design, shared: Shared) -> Vec<Vec<Design>> {
    let with = |change: &dyn Fn(&mut Design)| {
        let mut design = base.clone();
        change(&mut design);
        design
    };
    // A top's least lining is its front, and a triangle is all front.
    if shared == Shared::Lining {
        let of = |lining| with(&|d| d.lining = lining);
        return vec![vec![
            of(LiningCover::Full),
            of(LiningCover::None),
            of(LiningCover::Front),
        ]];
    }
    let one_by_one = match shared {
        Shared::Lining => Vec::new(),
        Shared::Neckline => vec![
            with(&|d| d.neck_shape = NeckShape::V),
            with(&|d| d.neck_depth = Some(NeckDepth::Share(0.4))),
        ],
        Shared::Back => vec![
            with(&|d| d.back_shape = BackShape::Racer),
            with(&|d| d.back_depth = Some(BackDepth::Share(0.4))),
        ],
        Shared::Strap => vec![
            with(&|d| d.strap_width = Mm::new(30.0)),
            with(&|d| d.strap_position = Some(0.5)),
        ],
        Shared::Leg => vec![with(&|d| d.leg = LegHeight::High)],
        Shared::Seat => vec![with(&|d| d.seat = Seat::Moderate)],
        Shared::Rise => vec![with(&|d| d.rise = Rise::High)],
        Shared::Crotch => vec![with(&|d| d.crotch_width = Some(Mm::new(70.0)))],
        Shared::BustShaping => vec![with(&|d| d.bust_shaping = BustShaping::SideDart)],
        Shared::Cups => vec![with(&|d| {
            d.cups = Cups::Marks;
            d.lining = base.lining;
        })],
        Shared::Skirt => vec![with(&|d| {
            d.skirt = Some(Skirt {
                kind: SkirtKind::FullCircle,
                join: SkirtJoin::Hip,
                cover: Mm::new(30.0),
            });
        })],
        Shared::Closure => [
            (ClosureKind::Zip, ClosurePlace::Back),
            (ClosureKind::Hook, ClosurePlace::Neck),
        ]
        .map(|(kind, place)| {
            with(&|d| {
                d.closure = Some(Closure {
                    kind,
                    place,
                    length: Mm::new(150.0),
                });
            })
        })
        .to_vec(),
    };
    one_by_one.into_iter().map(|design| vec![design]).collect()
}

#[test]
fn shared_parameters_change_what_is_cut_one_by_one() {
    let mut wrong = Vec::new();
    for style in Style::all() {
        for start in starts(*style) {
            for shared in Shared::ALL {
                for changed in shared_others(&start, shared) {
                    let mut refusals = BTreeSet::new();
                    let does = changes(&start, &changed, &mut refusals);
                    // A refusal names the key: that, too, is hearing it. Of the two closures here each style has one at most.
                    let is_right = if start.hears(shared) {
                        does || !refusals.is_empty() || shared == Shared::Closure
                    } else {
                        !does
                    };
                    if !is_right {
                        wrong.push(format!(
                            "{} {:?}: {shared:?} is {}heard: {refusals:?}",
                            style.key(),
                            start.own,
                            if does { "not " } else { "" }
                        ));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
