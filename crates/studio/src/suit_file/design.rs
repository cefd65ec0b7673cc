//! The `[design]`, `[design.skirt]`, `[design.closure]`, `[design.figure]` and `[allowances]` sections: the shape of the suit.
//!
//! Only what can be said without the body is checked here: words, types, and the widest range of each number. What the body
//! forbids (a strap wider than her shoulder) the draft refuses later, and the place kept for each key underlines it then.
//!
//! **Shapes and units.** Lengths in the file's unit or with their own; shares 0 to 1; the flare in degrees, as on paper.

use std::sync::LazyLock;

use cloth::{Fit, OWN_AROUND, OWN_LENGTHWISE, OwnFit};
use draft::{
    Allowances, BackDepth, BackShape, BustShaping, Closure, ClosureKind, ClosurePlace, Cups, Design, Figure,
    LegHeight, LiningCover, NeckDepth, NeckShape, ParameterKind, Rise, Seat, Setting, Shared, Skirt,
    SkirtJoin, SkirtKind, Style,
};
use units::Mm;

use super::reader::{LengthRange, NumberRange, Reader, Section, Spot};

pub(crate) const KEYS: [&str; 25] = [
    "style",
    "fit",
    "fit_around",
    "fit_lengthwise",
    "neckline",
    "neck_depth",
    "neck_depth_below_pit",
    "back",
    "back_depth",
    "back_depth_below_nape",
    "strap_width",
    "strap_position",
    "leg",
    "leg_share",
    "side_seam_length",
    "seat",
    "rise",
    "crotch_width",
    "bust_shaping",
    "lining",
    "cups",
    "skirt",
    "growth",
    "figure",
    "closure",
];
pub(crate) const SKIRT_KEYS: [&str; 4] = ["kind", "join", "cover", "flare"];
pub(crate) const FIGURE_KEYS: [&str; 7] = [
    "sway_back",
    "seat",
    "abdomen",
    "belly",
    "shoulder_forward",
    "bust_height",
    "rise_length",
];
pub(crate) const CLOSURE_KEYS: [&str; 3] = ["kind", "place", "length"];
pub(crate) const ALLOWANCE_KEYS: [&str; 5] = ["seam", "side_seam", "crotch", "hem", "first_fitting"];

/// Every key the section may have: those all styles share and those of each style.
pub(crate) fn keys() -> &'static [&'static str] {
    static ALL: LazyLock<Vec<&str>> = LazyLock::new(|| {
        let own = Style::all()
            .iter()
            .flat_map(|s| s.spec().own.iter().map(|p| p.key));
        let mut keys = KEYS.to_vec();
        for key in own {
            if !keys.contains(&key) {
                keys.push(key);
            }
        }
        keys
    });
    &ALL
}

pub(crate) fn styles() -> Vec<(&'static str, Style)> {
    Style::all().iter().map(|s| (s.key(), *s)).collect()
}
pub(crate) const FITS: [(&str, Fit); 4] = [
    ("relaxed", Fit::Relaxed),
    ("regular", Fit::Regular),
    ("firm", Fit::Firm),
    ("race", Fit::Race),
];
pub(crate) const NECKLINES: [(&str, NeckShape); 4] = [
    ("scoop", NeckShape::Scoop),
    ("square", NeckShape::Square),
    ("v", NeckShape::V),
    ("high", NeckShape::High),
];
pub(crate) const BACKS: [(&str, BackShape); 4] = [
    ("scoop", BackShape::Scoop),
    ("v", BackShape::V),
    ("racer", BackShape::Racer),
    ("crossed-straps", BackShape::CrossedStraps),
];
pub(crate) const LEGS: [(&str, LegHeight); 4] = [
    ("low", LegHeight::Low),
    ("mid", LegHeight::Mid),
    ("high", LegHeight::High),
    ("extra-high", LegHeight::ExtraHigh),
];
pub(crate) const SEATS: [(&str, Seat); 3] = [
    ("full", Seat::Full),
    ("moderate", Seat::Moderate),
    ("cheeky", Seat::Cheeky),
];
pub(crate) const RISES: [(&str, Rise); 3] = [("low", Rise::Low), ("mid", Rise::Mid), ("high", Rise::High)];
pub(crate) const BUST_SHAPINGS: [(&str, BustShaping); 3] = [
    ("auto", BustShaping::Auto),
    ("side-dart", BustShaping::SideDart),
    ("princess", BustShaping::Princess),
];
pub(crate) const LININGS: [(&str, LiningCover); 4] = [
    ("none", LiningCover::None),
    ("full", LiningCover::Full),
    ("front", LiningCover::Front),
    ("crotch", LiningCover::Crotch),
];
pub(crate) const CUPS: [(&str, Cups); 3] = [
    ("none", Cups::None),
    ("marks", Cups::Marks),
    ("pocket", Cups::Pocket),
];
pub(crate) const SKIRT_KINDS: [(&str, SkirtKind); 4] = [
    ("full-circle", SkirtKind::FullCircle),
    ("half-circle", SkirtKind::HalfCircle),
    ("quarter-circle", SkirtKind::QuarterCircle),
    (
        "flared-panel",
        SkirtKind::FlaredPanel {
            flare: DEFAULT_FLARE_DEGREES * DEGREE,
        },
    ),
];
pub(crate) const SKIRT_JOINS: [(&str, SkirtJoin); 3] = [
    ("waist", SkirtJoin::Waist),
    ("hip", SkirtJoin::Hip),
    ("underbust", SkirtJoin::Underbust),
];
pub(crate) const CLOSURE_KINDS: [(&str, ClosureKind); 4] = [
    ("zip", ClosureKind::Zip),
    ("clasp", ClosureKind::Clasp),
    ("hook", ClosureKind::Hook),
    ("ring", ClosureKind::Ring),
];
pub(crate) const CLOSURE_PLACES: [(&str, ClosurePlace); 3] = [
    ("back", ClosurePlace::Back),
    ("front", ClosurePlace::Front),
    ("neck", ClosurePlace::Neck),
];

const DEGREE: f64 = std::f64::consts::PI / 180.0;
/// Middle of the range: a flare that shows and still hangs (own).
const DEFAULT_FLARE_DEGREES: f64 = 12.0;
/// How long a skirt hangs below the crotch level when nothing is said (own): it covers the seat when she bends.
const DEFAULT_COVER: Mm = Mm::new(60.0);

/// How long a zip or a slit is when nothing is said (own): it lets most hips through a high back.
const DEFAULT_CLOSURE: Mm = Mm::new(180.0);

const CLOSURE_LENGTH: LengthRange = LengthRange {
    low: Mm::new(40.0),
    high: Mm::new(700.0),
    help: "from the neckline down, as sewn; a zip longer than to the waist opens the waist too",
};
const NECK_SHARE: NumberRange = NumberRange {
    low: 0.05,
    high: 0.60,
    unit: "",
    help: "a share: 0.05 close under the neck, 0.5 at the bust, 0.6 plunging",
};
const NECK_BELOW_PIT: LengthRange = LengthRange {
    low: Mm::new(5.0),
    high: Mm::new(400.0),
    help: "measured on the body straight down from the neck pit",
};
const BACK_SHARE: NumberRange = NumberRange {
    low: 0.05,
    high: 0.95,
    unit: "",
    help: "a share of the back waist length: 0.05 high, 0.95 nearly the waist",
};
const BACK_BELOW_NAPE: LengthRange = LengthRange {
    low: Mm::new(10.0),
    high: Mm::new(600.0),
    help: "measured on the body down the spine from the nape",
};
const FIT_AROUND: NumberRange = NumberRange {
    low: OWN_AROUND.0,
    high: OWN_AROUND.1,
    unit: "",
    help: "a share of the cloth's stretch: 0.12 relaxed, 0.18 regular, 0.34 a race suit",
};
const FIT_LENGTHWISE: NumberRange = NumberRange {
    low: OWN_LENGTHWISE.0,
    high: OWN_LENGTHWISE.1,
    unit: "",
    help: "a share of the cloth's stretch: 0.1 regular; 0 leaves the length as the body's",
};
const STRAP_WIDTH: LengthRange = LengthRange {
    low: Mm::new(12.0),
    high: Mm::new(90.0),
    help: "narrower straps cut in, wider ones are no straps: choose a width in that range",
};
const STRAP_POSITION: NumberRange = NumberRange {
    low: 0.25,
    high: 0.7,
    unit: "",
    help: "a share of the shoulder: 0.25 at the neck, 0.7 far out",
};
const LEG_SHARE: NumberRange = NumberRange {
    low: 0.05,
    high: 1.0,
    unit: "",
    help: "a share of waist to hip, down from the waist: 0.05 very high, 1 at the hip",
};
const SIDE_SEAM: LengthRange = LengthRange {
    low: Mm::new(20.0),
    high: Mm::new(700.0),
    help: "the finished side seam, measured on a suit she likes",
};
const CROTCH_WIDTH: LengthRange = LengthRange {
    low: Mm::new(40.0),
    high: Mm::new(110.0),
    help: "finished, at the narrowest place: women 60 to 75 mm, children 45 to 60 as a rule",
};
const COVER: LengthRange = LengthRange {
    low: Mm::ZERO,
    high: Mm::new(120.0),
    help: "how far the hem hangs below the crotch level; a longer skirt climbs and drags in the water",
};
const FLARE: NumberRange = NumberRange {
    low: 6.0,
    high: 20.0,
    unit: "degrees",
    help: "the slant of each half panel's side",
};
const GROWTH: LengthRange = LengthRange {
    low: Mm::ZERO,
    high: Mm::new(25.0),
    help: "room for a child to grow, round the trunk: 10 to 20 mm as a rule",
};
const SWAY_BACK: LengthRange = LengthRange {
    low: Mm::ZERO,
    high: Mm::new(15.0),
    help: "taken out of the centre back at the waist, after a toile has shown folds there",
};
const SEAT: LengthRange = LengthRange {
    low: Mm::new(-20.0),
    high: Mm::new(20.0),
    help: "hip girth moved to the back for a full seat, or less than nothing for a flat one",
};
const ABDOMEN: LengthRange = LengthRange {
    low: Mm::ZERO,
    high: Mm::new(40.0),
    help: "high hip girth moved to the front",
};
const BELLY: LengthRange = LengthRange {
    low: Mm::ZERO,
    high: Mm::new(60.0),
    help: "how much longer the front is over a belly in pregnancy: some 15, 35, 60 mm by trimester",
};
const SHOULDER_FORWARD: LengthRange = LengthRange {
    low: Mm::ZERO,
    high: Mm::new(20.0),
    help: "how much further forward the shoulder seam lies",
};
const MOVED: LengthRange = LengthRange {
    low: Mm::new(-25.0),
    high: Mm::new(25.0),
    help: "higher than it was taken, or lower with a minus; for more take it again",
};
const SEAM: LengthRange = LengthRange {
    low: Mm::new(3.0),
    high: Mm::new(30.0),
    help: "6 to 10 mm as a rule, 15 mm at the sides for a first fitting",
};
const HEM: LengthRange = LengthRange {
    low: Mm::new(5.0),
    high: Mm::new(40.0),
    help: "20 mm as a rule",
};

pub(crate) fn read(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Design {
    let allowances = allowances(reader, top);
    let mut design = Design {
        allowances,
        ..Design::default()
    };
    let Some(section) = reader.table(top, "design", &keys_of(top)) else {
        return design;
    };
    set(&mut design.style, reader.choice(&section, "style", &styles()));
    design.fit = design.style.spec().usual_fit;
    set(&mut design.fit, reader.choice(&section, "fit", &FITS));
    if let Some(own) = own_fit(reader, &section) {
        design.fit = Fit::Own(own);
    }
    set(
        &mut design.neck_shape,
        reader.choice(&section, "neckline", &NECKLINES),
    );
    let share = reader.number(&section, "neck_depth", NECK_SHARE);
    let below = reader.length(&section, "neck_depth_below_pit", NECK_BELOW_PIT);
    one_of(
        reader,
        &section,
        "the depth of the neckline",
        &["neck_depth", "neck_depth_below_pit"],
    );
    design.neck_depth = share
        .map(|s| NeckDepth::Share(s.value))
        .or(below.map(|b| NeckDepth::BelowNeckPit(b.value)));
    set(&mut design.back_shape, reader.choice(&section, "back", &BACKS));
    let share = reader.number(&section, "back_depth", BACK_SHARE);
    let below = reader.length(&section, "back_depth_below_nape", BACK_BELOW_NAPE);
    one_of(
        reader,
        &section,
        "the depth of the back",
        &["back_depth", "back_depth_below_nape"],
    );
    design.back_depth = share
        .map(|s| BackDepth::Share(s.value))
        .or(below.map(|b| BackDepth::BelowNape(b.value)));
    set(
        &mut design.strap_width,
        reader.length(&section, "strap_width", STRAP_WIDTH),
    );
    design.strap_position = reader
        .number(&section, "strap_position", STRAP_POSITION)
        .map(|p| p.value);
    let word = reader.choice(&section, "leg", &LEGS);
    let share = reader.number(&section, "leg_share", LEG_SHARE);
    let seam = reader.length(&section, "side_seam_length", SIDE_SEAM);
    one_of(
        reader,
        &section,
        "the height of the leg",
        &["leg", "leg_share", "side_seam_length"],
    );
    let leg = word
        .map(|w| w.value)
        .or(share.map(|s| LegHeight::Share(s.value)))
        .or(seam.map(|s| LegHeight::SideSeam(s.value)));
    design.leg = leg.unwrap_or_default();
    set(&mut design.seat, reader.choice(&section, "seat", &SEATS));
    set(&mut design.rise, reader.choice(&section, "rise", &RISES));
    design.crotch_width = reader
        .length(&section, "crotch_width", CROTCH_WIDTH)
        .map(|w| w.value);
    set(
        &mut design.bust_shaping,
        reader.choice(&section, "bust_shaping", &BUST_SHAPINGS),
    );
    set(&mut design.lining, reader.choice(&section, "lining", &LININGS));
    set(&mut design.cups, reader.choice(&section, "cups", &CUPS));
    design.skirt = skirt(reader, &section);
    set(&mut design.growth, reader.length(&section, "growth", GROWTH));
    design.figure = figure(reader, &section);
    design.closure = closure(reader, &section);
    own(reader, &section, &mut design);
    style_keys(reader, &section, design.style);
    design
}

/// The two shares of a fit of its own; both or neither, and no named fit beside them.
fn own_fit(reader: &mut Reader<'_>, section: &Section<'_, '_>) -> Option<OwnFit> {
    let around = reader.number(section, "fit_around", FIT_AROUND);
    let lengthwise = reader.number(section, "fit_lengthwise", FIT_LENGTHWISE);
    one_of(reader, section, "how tight it is", &["fit", "fit_around"]);
    one_of(reader, section, "how tight it is", &["fit", "fit_lengthwise"]);
    for (here, other) in [("fit_around", "fit_lengthwise"), ("fit_lengthwise", "fit_around")] {
        if section.has(here) && !section.has(other) {
            let path = section.path_of(here);
            reader.conflict(
                &path,
                format!("{here} is given, but not {other}"),
                "give both shares, or fit alone",
            );
        }
    }
    OwnFit::new(around?.value, lengthwise?.value).ok()
}

/// The parameters the style has for itself, as its catalogue entry declares them.
fn own(reader: &mut Reader<'_>, section: &Section<'_, '_>, design: &mut Design) {
    for parameter in design.style.spec().own {
        let key = parameter.key;
        let setting = match parameter.kind {
            ParameterKind::Length { low, high, .. } => {
                let range = LengthRange {
                    low: Mm::new(low),
                    high: Mm::new(high),
                    help: parameter.says,
                };
                reader
                    .length(section, key, range)
                    .map(|s| Setting::Length(s.value))
            }
            ParameterKind::Number { low, high, unit, .. } => {
                let range = NumberRange {
                    low,
                    high,
                    unit,
                    help: parameter.says,
                };
                reader
                    .number(section, key, range)
                    .map(|s| Setting::Number(s.value))
            }
            ParameterKind::Choice { options } => {
                let words: Vec<_> = options.iter().map(|o| (o.key, o.key)).collect();
                reader
                    .choice(section, key, &words)
                    .map(|s| Setting::Word(s.value))
            }
            ParameterKind::Switch { .. } => reader.flag(section, key).map(|s| Setting::Yes(s.value)),
        };
        if let Some(setting) = setting {
            design.own.set(parameter, setting);
        }
    }
}

/// Keys to offer in the design of this file: the shared ones and its style's own. Those of other styles only where they stand
/// there, to be told that they mean nothing.
fn keys_of(top: &Section<'_, '_>) -> Vec<&'static str> {
    let style = top
        .text_below("design", "style")
        .and_then(Style::of_key)
        .unwrap_or_default();
    let offered = |key: &str| KEYS.contains(&key) || style.own(key).is_some() || top.has_below("design", key);
    keys().iter().copied().filter(|k| offered(k)).collect()
}

/// Keys that say nothing about a suit of this style.
pub(crate) fn idle_keys(style: Style) -> Vec<&'static str> {
    let heard = |key: &str| style.spec().shared.iter().any(|s| s.keys().contains(&key));
    let shared = Shared::ALL.iter().flat_map(|s| s.keys());
    let of_others = keys().iter().filter(|k| !KEYS.contains(k));
    shared
        .filter(|k| !heard(k))
        .chain(of_others.filter(|k| style.own(k).is_none()))
        .copied()
        .collect()
}

/// Keys that say nothing about this style are refused: a maker who writes them expects to see them on paper.
fn style_keys(reader: &mut Reader<'_>, section: &Section<'_, '_>, style: Style) {
    let name = style.spec().name.to_lowercase();
    for key in idle_keys(style).iter().filter(|k| section.has(k)) {
        let path = section.path_of(key);
        reader.conflict(
            &path,
            format!("{path} means nothing for a {name}"),
            "remove the line, or choose another style",
        );
    }
}

fn skirt(reader: &mut Reader<'_>, design: &Section<'_, '_>) -> Option<Skirt> {
    let section = reader.table(design, "skirt", &SKIRT_KEYS)?;
    let mut kind = reader
        .choice(&section, "kind", &SKIRT_KINDS)
        .map(|k| k.value)
        .unwrap_or_default();
    let join = reader
        .choice(&section, "join", &SKIRT_JOINS)
        .map(|j| j.value)
        .unwrap_or_default();
    let cover = reader
        .length(&section, "cover", COVER)
        .map_or(DEFAULT_COVER, |c| c.value);
    let degrees = reader.number(&section, "flare", FLARE);
    match (&mut kind, degrees) {
        (SkirtKind::FlaredPanel { flare }, Some(degrees)) => *flare = degrees.value * DEGREE,
        (_, Some(_)) => reader.conflict(
            "design.skirt.flare",
            "design.skirt.flare goes with kind = \"flared-panel\" only".into(),
            "remove flare, or write kind = \"flared-panel\"",
        ),
        (_, None) => {}
    }
    Some(Skirt { kind, join, cover })
}

fn figure(reader: &mut Reader<'_>, design: &Section<'_, '_>) -> Figure {
    let mut figure = Figure::NONE;
    let Some(section) = reader.table(design, "figure", &FIGURE_KEYS) else {
        return figure;
    };
    for (field, key, range) in [
        (&mut figure.sway_back, "sway_back", SWAY_BACK),
        (&mut figure.seat, "seat", SEAT),
        (&mut figure.abdomen, "abdomen", ABDOMEN),
        (&mut figure.belly, "belly", BELLY),
        (&mut figure.shoulder_forward, "shoulder_forward", SHOULDER_FORWARD),
        (&mut figure.bust_height, "bust_height", MOVED),
        (&mut figure.rise_length, "rise_length", MOVED),
    ] {
        set(field, reader.length(&section, key, range));
    }
    figure
}

fn closure(reader: &mut Reader<'_>, design: &Section<'_, '_>) -> Option<Closure> {
    let section = reader.table(design, "closure", &CLOSURE_KEYS)?;
    let kind = reader
        .choice(&section, "kind", &CLOSURE_KINDS)
        .map(|k| k.value)
        .unwrap_or_default();
    let is_at_neck = matches!(kind, ClosureKind::Hook | ClosureKind::Ring);
    let usual = if is_at_neck {
        ClosurePlace::Neck
    } else {
        ClosurePlace::Back
    };
    let place = reader
        .choice(&section, "place", &CLOSURE_PLACES)
        .map_or(usual, |p| p.value);
    let length = reader.length(&section, "length", CLOSURE_LENGTH);
    if is_at_neck && length.is_some() {
        reader.conflict(
            "design.closure.length",
            "a hook or a ring opens the neck piece altogether; it has no length".into(),
            "remove length, or write kind = \"zip\" or \"clasp\"",
        );
    }
    Some(Closure {
        kind,
        place,
        length: length.map_or(DEFAULT_CLOSURE, |l| l.value),
    })
}

fn allowances(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Allowances {
    let mut allowances = Allowances::default();
    let Some(section) = reader.table(top, "allowances", &ALLOWANCE_KEYS) else {
        return allowances;
    };
    let seam = reader.length(&section, "seam", SEAM);
    let side = reader.length(&section, "side_seam", SEAM);
    if let Some(seam) = &seam {
        allowances.seam = seam.value;
        allowances.side_seam = seam.value;
    }
    set(
        &mut allowances.crotch_seam,
        reader.length(&section, "crotch", SEAM),
    );
    set(&mut allowances.hem, reader.length(&section, "hem", HEM));
    let first_fitting = reader.flag(&section, "first_fitting").is_some_and(|f| f.value);
    if first_fitting {
        allowances.side_seam = Allowances::FIRST_FITTING_SIDE;
        if side.is_some() {
            reader.conflict(
                "allowances.first_fitting",
                "first_fitting sets the side seams to 15 mm, but side_seam is given too".into(),
                "keep one of the two",
            );
        }
    }
    set(&mut allowances.side_seam, side);
    allowances
}

fn set<T>(field: &mut T, found: Option<Spot<T>>) {
    if let Some(found) = found {
        *field = found.value;
    }
}

/// Complains when more than one of the keys is there; points at the later ones.
fn one_of(reader: &mut Reader<'_>, section: &Section<'_, '_>, what: &str, keys: &[&str]) {
    let mut given = keys.iter().filter(|k| section.has(k));
    let Some(first) = given.next() else { return };
    for other in given {
        let path = section.path_of(other);
        reader.conflict(
            &path,
            format!("{first} and {other} both say {what}"),
            "keep one of them",
        );
    }
}
