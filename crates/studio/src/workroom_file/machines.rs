//! Machines, needles and threads.
//!
//! **Shapes and units.** Needle sizes NM; thread in Tex and metres; widths with their unit, as `"6 mm"`.

use make::{
    Foot, Machine, MachineKind, Needle, NeedlePoint, NeedleStock, OverlockThreads, Stitch, Thread,
    ThreadStock,
};
use toml::de::DeValue;
use units::Mm;

use super::{each, needed, whole};
use crate::suit_file::reader::{LengthRange, NumberRange, Reader, Section};
use crate::suit_file::{Fault, FaultKind};

pub(crate) const MACHINE_KEYS: [&str; 13] = [
    "name",
    "kind",
    "most_width",
    "utility",
    "twin_needle",
    "threads",
    "needles",
    "top_cover",
    "chain",
    "feet",
    "foot_width",
    "differential_feed",
    "foot_pressure",
];
pub(crate) const NEEDLE_KEYS: [&str; 4] = ["point", "size", "twin", "count"];
pub(crate) const THREAD_KEYS: [&str; 5] = ["fibre", "tex", "colour", "packages", "metres"];

#[derive(Clone, Copy)]
enum Kind {
    Lockstitch,
    Overlocker,
    Coverstitch,
}
const KINDS: [(&str, Kind); 3] = [
    ("lockstitch", Kind::Lockstitch),
    ("overlocker", Kind::Overlocker),
    ("coverstitch", Kind::Coverstitch),
];
/// Which keys only one kind of machine has.
const OF_LOCKSTITCH: [&str; 3] = ["most_width", "utility", "twin_needle"];
const OF_OVERLOCKER: [&str; 1] = ["threads"];
const OF_COVERSTITCH: [&str; 3] = ["needles", "top_cover", "chain"];

/// Stitches of a lockstitch machine beside the straight and the plain zigzag.
pub(crate) const UTILITY: [(&str, Stitch); 4] = [
    ("three-step", Stitch::ThreeStep),
    ("triple-straight", Stitch::TripleStraight),
    ("slanted", Stitch::Slanted),
    ("household-overlock", Stitch::HouseholdOverlock),
];
pub(crate) const FEET: [(&str, Foot); 4] = [
    ("walking", Foot::Walking),
    ("roller", Foot::Roller),
    ("zip", Foot::Zip),
    ("elastic", Foot::Elastic),
];
pub(crate) const OVERLOCK_THREADS: [(&str, OverlockThreads); 2] = [
    ("three", OverlockThreads::Three),
    ("three-or-four", OverlockThreads::ThreeOrFour),
];
pub(crate) const POINTS: [(&str, NeedlePoint); 3] = [
    ("stretch", NeedlePoint::Stretch),
    ("ball", NeedlePoint::Ball),
    ("light-ball", NeedlePoint::LightBall),
];
pub(crate) const FIBRES: [(&str, Thread); 6] = [
    ("spun-polyester", Thread::SpunPolyester),
    ("textured-polyester", Thread::TexturedPolyester),
    ("textured-polyamide", Thread::TexturedPolyamide),
    ("polyamide-filament", Thread::PolyamideFilament),
    ("elastic", Thread::Elastic),
    ("cotton", Thread::Cotton),
];

const MOST_WIDTH: LengthRange = LengthRange {
    low: Mm::ZERO,
    high: Mm::new(15.0),
    help: "the widest zigzag it sews: 5 to 9 mm as a rule, 0 for a machine that sews straight only",
};
const FOOT_WIDTH: LengthRange = LengthRange {
    low: Mm::new(2.0),
    high: Mm::new(60.0),
    help: "the width of its usual presser foot, 5 to 10 mm as a rule",
};
pub(super) const TWIN: LengthRange = LengthRange {
    low: Mm::new(1.0),
    high: Mm::new(9.0),
    help: "the spacing of a twin needle: 2.5 or 4 mm as a rule",
};
pub(super) const SIZE: NumberRange = NumberRange {
    low: 50.0,
    high: 130.0,
    unit: "NM",
    help: "the metric size on the packet: 65, 70, 75, 80 or 90",
};
const COUNT: NumberRange = NumberRange {
    low: 0.0,
    high: 10_000.0,
    unit: "",
    help: "how many there are",
};
const COVER_NEEDLES: NumberRange = NumberRange {
    low: 2.0,
    high: 3.0,
    unit: "needles",
    help: "2 or 3",
};
const TEX: NumberRange = NumberRange {
    low: 5.0,
    high: 200.0,
    unit: "Tex",
    help: "grams of a kilometre: 18 to 40 as a rule",
};
const METRES: NumberRange = NumberRange {
    low: 0.0,
    high: 1_000_000.0,
    unit: "m",
    help: "metres on all of its spools or cones together",
};

/// The machines that read well.
pub(super) fn read(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<Machine> {
    each(reader, top, "machines", &MACHINE_KEYS, |reader, section| {
        let name = reader.text(section, "name");
        needed(
            reader,
            section,
            &[
                ("name", "what you call it: name = \"Zigzag machine\""),
                (
                    "kind",
                    "write kind = \"lockstitch\", \"overlocker\" or \"coverstitch\"",
                ),
            ],
        );
        let kind = reader.choice(section, "kind", &KINDS)?.value;
        for (owner, keys) in [
            (Kind::Lockstitch, OF_LOCKSTITCH.as_slice()),
            (Kind::Overlocker, &OF_OVERLOCKER),
            (Kind::Coverstitch, &OF_COVERSTITCH),
        ] {
            if std::mem::discriminant(&owner) == std::mem::discriminant(&kind) {
                continue;
            }
            for key in keys.iter().filter(|k| section.has(k)) {
                // Its place is wanted, not its value.
                let _ = reader.value(section, key);
                reader.conflict(
                    &section.path_of(key),
                    format!("a machine of this kind has no {key}"),
                    "leave the key out, or change the kind",
                );
            }
        }
        let kind = match kind {
            Kind::Lockstitch => MachineKind::Lockstitch {
                most_width: reader
                    .length(section, "most_width", MOST_WIDTH)
                    .map_or(Mm::ZERO, |w| w.value),
                utility: words(reader, section, "utility", &UTILITY),
                twin_needle: reader.length(section, "twin_needle", TWIN).map(|t| t.value),
            },
            Kind::Overlocker => MachineKind::Overlocker {
                threads: reader
                    .choice(section, "threads", &OVERLOCK_THREADS)
                    .map_or(OverlockThreads::ThreeOrFour, |t| t.value),
            },
            Kind::Coverstitch => MachineKind::Coverstitch {
                needles: whole(reader, section, "needles", COVER_NEEDLES).map_or(2, |n| n as u8),
                has_top_cover: flag(reader, section, "top_cover"),
                has_chain: flag(reader, section, "chain"),
            },
        };
        Some(Machine {
            name: name?.value,
            kind,
            feet: words(reader, section, "feet", &FEET),
            foot_width: reader
                .length(section, "foot_width", FOOT_WIDTH)
                .map_or(Mm::new(7.0), |w| w.value),
            has_differential_feed: flag(reader, section, "differential_feed"),
            has_foot_pressure: flag(reader, section, "foot_pressure"),
        })
    })
}

/// The needles that read well.
pub(super) fn read_needles(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<NeedleStock> {
    each(reader, top, "needles", &NEEDLE_KEYS, |reader, section| {
        let needle = needle(reader, section);
        let count = whole(reader, section, "count", COUNT);
        needed(reader, section, &[("count", "how many there are: count = 5")]);
        Some(NeedleStock {
            needle: needle?,
            count: count?,
        })
    })
}

/// Point, size and spacing of a needle.
pub(super) fn needle(reader: &mut Reader<'_>, section: &Section<'_, '_>) -> Option<Needle> {
    let point = reader.choice(section, "point", &POINTS);
    let size = whole(reader, section, "size", SIZE);
    let twin = reader.length(section, "twin", TWIN).map(|t| t.value);
    needed(
        reader,
        section,
        &[
            ("point", "write point = \"stretch\", \"ball\" or \"light-ball\""),
            ("size", "the metric size on the packet: size = 75"),
        ],
    );
    Some(Needle {
        size_nm: size? as u16,
        point: point?.value,
        twin,
    })
}

/// The threads that read well.
pub(super) fn read_threads(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<ThreadStock> {
    each(reader, top, "threads", &THREAD_KEYS, |reader, section| {
        let fibre = reader.choice(section, "fibre", &FIBRES);
        let tex = reader.number(section, "tex", TEX);
        let colour = reader.text(section, "colour");
        let packages = whole(reader, section, "packages", COUNT);
        let metres = reader.number(section, "metres", METRES);
        needed(
            reader,
            section,
            &[
                (
                    "fibre",
                    "write fibre = \"spun-polyester\", or what the label says",
                ),
                ("metres", "metres on all of its spools together: metres = 400"),
            ],
        );
        let thread = fibre?.value;
        Some(ThreadStock {
            thread,
            tex: tex.map_or(thread.facts().tex, |t| t.value),
            colour: colour.map(|c| c.value).unwrap_or_default(),
            packages: packages.unwrap_or(1),
            metres: metres?.value,
        })
    })
}

pub(super) fn flag(reader: &mut Reader<'_>, section: &Section<'_, '_>, key: &str) -> bool {
    reader.flag(section, key).is_some_and(|f| f.value)
}

/// A list of words, each one of those allowed; each once.
fn words<T: Copy + PartialEq>(
    reader: &mut Reader<'_>,
    section: &Section<'_, '_>,
    key: &str,
    known: &[(&str, T)],
) -> Vec<T> {
    let allowed = || known.iter().map(|(w, _)| format!("\"{w}\"")).collect::<Vec<_>>();
    let Some((path, value)) = reader.value(section, key) else {
        return Vec::new();
    };
    let help = format!(
        "write {key} = [{}], or those of them it has",
        allowed().join(", ")
    );
    let DeValue::Array(list) = value.get_ref() else {
        reader.wrong_type(&path, value, "a list of words", &help);
        return Vec::new();
    };
    let mut found = Vec::new();
    for item in list {
        let word = item.get_ref().as_str();
        match word.and_then(|word| known.iter().find(|(w, _)| *w == word)) {
            Some((_, value)) if found.contains(value) => {}
            Some((_, value)) => found.push(*value),
            None => reader.fault(Fault {
                kind: FaultKind::NotAllowed,
                message: format!("{path} does not know this"),
                label: "not a choice here".into(),
                allowed: allowed(),
                help: help.clone(),
                field: path.clone(),
                at: Some(item.span()),
            }),
        }
    }
    found
}
