//! Samples: seams, irons, elastics and wetted cloths.
//!
//! **Shapes and units.** Lengths between the same two marks; heat in degrees C; force in newtons.
//! **Source.** What cannot be is `make`'s judgement ([`make::SeamSample::faults`]); the words and places are given here.

use make::{
    ElasticKind, ElasticTest, IronTest, SampleError, SeamSample, Stitch, Thread, Verdict, Wet, WetTest,
};
use units::Mm;

use super::machines::{FIBRES, flag};
use super::{each, needed};
use crate::suit_file::reader::{LengthRange, NumberRange, Reader, Section};
use crate::suit_file::{FaultKind, LATEX, show_length};

pub(crate) const SEAM_KEYS: [&str; 12] = [
    "name",
    "cloth",
    "thread",
    "stitch",
    "width",
    "length",
    "relaxed",
    "stretched",
    "first_pop",
    "after",
    "verdict",
    "note",
];
pub(crate) const IRON_KEYS: [&str; 7] = ["name", "cloth", "heat", "press_cloth", "steam", "verdict", "note"];
pub(crate) const ELASTIC_KEYS: [&str; 9] = [
    "name",
    "kind",
    "width",
    "latex",
    "relaxed",
    "stretched",
    "after",
    "force",
    "prewashed",
];
const WET_KEYS: [&str; 2] = ["cloth", "wet"];

/// Stitches by their names in the file.
pub(crate) const STITCHES: [(&str, Stitch); 13] = [
    ("straight", Stitch::Straight),
    ("twin-needle", Stitch::TwinNeedle),
    ("zigzag", Stitch::Zigzag),
    ("three-step", Stitch::ThreeStep),
    ("triple-straight", Stitch::TripleStraight),
    ("slanted", Stitch::Slanted),
    ("household-overlock", Stitch::HouseholdOverlock),
    ("chain", Stitch::Chain),
    ("two-needle-cover", Stitch::TwoNeedleCover),
    ("three-needle-cover", Stitch::ThreeNeedleCover),
    ("three-thread-overedge", Stitch::ThreeThreadOveredge),
    ("four-thread-overlock", Stitch::FourThreadOverlock),
    ("top-and-bottom-cover", Stitch::TopAndBottomCover),
];
pub(crate) const VERDICTS: [(&str, Verdict); 3] = [
    ("good", Verdict::Good),
    ("not-yet", Verdict::NotYet),
    ("no", Verdict::No),
];
pub(crate) const WETS: [(&str, Wet); 3] = [
    ("opaque", Wet::Opaque),
    ("shows-stretched", Wet::ShowsStretched),
    ("shows", Wet::Shows),
];

/// As `make` judges: nothing shorter is worth marking, nothing longer lies on a table.
const MARKS: LengthRange = LengthRange {
    low: Mm::new(20.0),
    high: Mm::new(2000.0),
    help: "mark two points on the seam, 10 cm apart as a rule, and measure between them",
};
const STITCH_LENGTH: LengthRange = LengthRange {
    low: Mm::new(0.2),
    high: Mm::new(10.0),
    help: "the stitch length as the dial says: 1.3 to 4 mm as a rule",
};
const STITCH_WIDTH: LengthRange = LengthRange {
    low: Mm::ZERO,
    high: Mm::new(15.0),
    help: "the stitch width as the dial says; leave it out for a straight row",
};
const ELASTIC_WIDTH: LengthRange = LengthRange {
    low: Mm::new(3.0),
    high: Mm::new(50.0),
    help: "6, 8 or 10 mm as a rule",
};
const HEAT: NumberRange = NumberRange {
    low: 40.0,
    high: 230.0,
    unit: "degrees C",
    help: "one dot is at most 110 degrees, two dots 150",
};
const FORCE: NumberRange = NumberRange {
    low: 0.1,
    high: 200.0,
    unit: "N",
    help: "the pull at double length; a luggage scale's kg times 9.8",
};

const CLOTH: (&str, &str) = ("cloth", "the name of the cloth the scrap was of");
const VERDICT: (&str, &str) = ("verdict", "write verdict = \"good\", \"not-yet\" or \"no\"");

/// The seams that can be used.
pub(super) fn read_seams(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<SeamSample> {
    each(reader, top, "seams", &SEAM_KEYS, |reader, section| {
        let name = named(reader, section, "name");
        let cloth = reader.text(section, "cloth");
        let thread = reader.choice(section, "thread", &FIBRES);
        let stitch = reader.choice(section, "stitch", &STITCHES);
        let width = reader.length(section, "width", STITCH_WIDTH);
        let length = reader.length(section, "length", STITCH_LENGTH);
        let relaxed = reader.length(section, "relaxed", MARKS);
        let stretched = reader.length(section, "stretched", MARKS);
        let first_pop = reader.length(section, "first_pop", MARKS);
        let after = reader.length(section, "after", MARKS);
        let verdict = reader.choice(section, "verdict", &VERDICTS);
        let note = named(reader, section, "note");
        needed(
            reader,
            section,
            &[
                CLOTH,
                ("stitch", "which stitch: stitch = \"three-step\""),
                (
                    "length",
                    "the stitch length as the dial says: length = \"1.3 mm\"",
                ),
                (
                    "relaxed",
                    "the length between two marks on the seam, relaxed: relaxed = \"10 cm\"",
                ),
                (
                    "stretched",
                    "the length between them, pulled as far as it goes: stretched = \"17 cm\"",
                ),
                VERDICT,
            ],
        );
        let sample = SeamSample {
            cloth: cloth?.value,
            thread: thread.map_or(Thread::default(), |t| t.value),
            stitch: stitch?.value,
            width: width.map_or(Mm::ZERO, |w| w.value),
            length: length?.value,
            relaxed: relaxed?.value,
            stretched: stretched?.value,
            first_pop: first_pop.map(|p| p.value),
            after: after.map(|a| a.value),
            // Without a verdict it is no sample yet, but what its lengths cannot be is said all the same.
            verdict: verdict.map_or(Verdict::NotYet, |v| v.value),
            name,
            note,
        };
        judged(
            reader,
            section,
            &sample.faults(),
            &[("first_pop", sample.first_pop), ("after", sample.after)],
        );
        Some(sample)
    })
}

/// The irons that can be used.
pub(super) fn read_irons(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<IronTest> {
    each(reader, top, "irons", &IRON_KEYS, |reader, section| {
        let name = named(reader, section, "name");
        let cloth = reader.text(section, "cloth");
        let heat = reader.number(section, "heat", HEAT);
        let has_press_cloth = flag(reader, section, "press_cloth");
        let has_steam = flag(reader, section, "steam");
        let verdict = reader.choice(section, "verdict", &VERDICTS);
        let note = named(reader, section, "note");
        needed(
            reader,
            section,
            &[
                CLOTH,
                ("heat", "the heat of the sole in degrees: heat = 110"),
                VERDICT,
            ],
        );
        let test = IronTest {
            cloth: cloth?.value,
            celsius: heat?.value,
            verdict: verdict?.value,
            name,
            has_press_cloth,
            has_steam,
            note,
        };
        judged(reader, section, &test.faults(), &[]);
        Some(test)
    })
}

/// The elastics that can be used.
pub(super) fn read_elastics(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<ElasticTest> {
    let kinds: Vec<(&str, ElasticKind)> = ElasticKind::ALL.iter().map(|k| (k.key(), *k)).collect();
    each(reader, top, "elastics", &ELASTIC_KEYS, |reader, section| {
        let name = named(reader, section, "name");
        let kind = reader.choice(section, "kind", &kinds);
        let width = reader.length(section, "width", ELASTIC_WIDTH);
        let latex = reader.choice(section, "latex", &LATEX);
        let relaxed = reader.length(section, "relaxed", MARKS);
        let stretched = reader.length(section, "stretched", MARKS);
        let after = reader.length(section, "after", MARKS);
        let force = reader.number(section, "force", FORCE);
        let is_prewashed = flag(reader, section, "prewashed");
        needed(
            reader,
            section,
            &[
                ("kind", "write kind = \"braided-rubber\", or what it is"),
                ("width", "its width at rest: width = \"8 mm\""),
                (
                    "relaxed",
                    "the length between two marks, relaxed: relaxed = \"10 cm\"",
                ),
                (
                    "stretched",
                    "as far as it goes without effort: stretched = \"18 cm\"",
                ),
            ],
        );
        let test = ElasticTest {
            kind: kind?.value,
            width: width?.value,
            latex: latex.map(|l| l.value),
            relaxed: relaxed?.value,
            stretched: stretched?.value,
            after: after.map(|a| a.value),
            newton_at_double: force.map(|f| f.value),
            name,
            is_prewashed,
        };
        if let Err(faults) = test.choice() {
            judged(reader, section, &faults, &[("after", test.after)]);
        }
        Some(test)
    })
}

/// The cloths that were wetted.
pub(super) fn read_wets(reader: &mut Reader<'_>, top: &Section<'_, '_>) -> Vec<WetTest> {
    each(reader, top, super::WETS_KEY, &WET_KEYS, |reader, section| {
        let cloth = reader.text(section, "cloth");
        let wet = reader.choice(section, "wet", &WETS);
        needed(
            reader,
            section,
            &[
                CLOTH,
                ("wet", "write wet = \"opaque\", \"shows-stretched\" or \"shows\""),
            ],
        );
        Some(WetTest {
            cloth: cloth?.value,
            wet: wet?.value,
        })
    })
}

/// A name or note that may be left out.
fn named(reader: &mut Reader<'_>, section: &Section<'_, '_>, key: &str) -> String {
    let text = if key == "note" {
        reader.long_text(section, key)
    } else {
        reader.text(section, key)
    };
    text.map(|t| t.value).unwrap_or_default()
}

/// What `make` finds wrong with a sample, at its field and in the file's unit.
fn judged(
    reader: &mut Reader<'_>,
    section: &Section<'_, '_>,
    faults: &[SampleError],
    marks: &[(&str, Option<Mm>)],
) {
    for fault in faults {
        let (field, message, help) = match fault {
            SampleError::Contradiction { field, mm, other_mm } => {
                let shown = |mm: f64| show_length(Mm::new(mm), reader.unit);
                // Only what it was pulled to is held against more than the relaxed length.
                let is_pull = *field == "stretched";
                let other = marks
                    .iter()
                    .find(|(_, at)| is_pull && at.is_some_and(|at| at.get() == *other_mm))
                    .map_or("relaxed", |(name, _)| *name);
                let other = match other {
                    "first_pop" => "where the first stitch popped",
                    "after" => "what it went back to",
                    _ => "it was relaxed",
                };
                (
                    *field,
                    format!("{} is shorter than {other}, {}", shown(*mm), shown(*other_mm)),
                    "measure again between the same two marks: relaxed, pulled, let go",
                )
            }
            SampleError::Elastic(make::ElasticError::Width { .. }) => ("width", fault.to_string(), ""),
            SampleError::Elastic(make::ElasticError::Force { .. }) => ("force", fault.to_string(), ""),
            SampleError::Elastic(make::ElasticError::Extension { .. }) => (
                "stretched",
                fault.to_string(),
                "pull it as far as it goes without effort: 10 cm to 16 or more",
            ),
            SampleError::NoName { field } | SampleError::Length { field, .. } => {
                (*field, fault.to_string(), "")
            }
            SampleError::Heat { .. } => ("heat", fault.to_string(), ""),
        };
        let path = section.path_of(field);
        let at = reader.places.of(&path);
        reader.fault(crate::suit_file::Fault {
            kind: FaultKind::Refused,
            message: format!("{path}: {message}"),
            label: "cannot be".into(),
            allowed: Vec::new(),
            help: help.into(),
            field: path,
            at,
        });
    }
}
