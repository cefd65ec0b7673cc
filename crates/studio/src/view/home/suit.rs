//! A suit's card: what it is, how it stands, what is next.

use draft::{BackShape, Cups, LegHeight, LiningCover, NeckShape, Shared};

use super::{SuitCard, silhouette};
use crate::document::Worked;
use crate::view::told::{capital, count, text_at};
use crate::view::{Around, Note, State, cloth, wearer};

pub(super) fn card(worked: &Worked, versions: usize) -> SuitCard {
    let name = text_at(&worked.suit.body, "name").unwrap_or_default();
    let wearer = worked
        .wearer
        .as_ref()
        .and_then(|paper| text_at(&paper.body, "name"))
        .unwrap_or_default();
    let about = about(worked);
    let (state, says) = standing(worked, versions);
    let number = number(worked);
    SuitCard {
        id: worked.suit.id.clone(),
        number,
        words: format!("{number} {name} {wearer} {about}").to_lowercase(),
        name,
        wearer,
        about,
        state,
        says,
        silhouette: silhouette::of(worked),
    }
}

/// Number of the order.
pub(super) fn number(worked: &Worked) -> u32 {
    let number = worked.suit.body.get("number").and_then(serde_json::Value::as_u64);
    number.and_then(|n| u32::try_from(n).ok()).unwrap_or(0)
}

/// `One-piece, racer back, lined. Slate tricot.`
fn about(worked: &Worked) -> String {
    let mut words = Vec::new();
    if let Some(design) = worked.parts.as_ref().map(|p| &p.design) {
        let style = design.style;
        let kind = style.spec().name.to_lowercase();
        words.push(if design.skirt.is_some() {
            format!("skirted {kind}")
        } else {
            kind
        });
        if style.has(Shared::Neckline) {
            words.extend(neck(design.neck_shape));
        }
        if style.has(Shared::Back) {
            words.push(back(design.back_shape).to_owned());
        } else if style.has(Shared::Leg) {
            words.push(format!("{} leg", leg(design.leg)));
        }
        if design.cups != Cups::None {
            words.push("cups".to_owned());
        }
        words.push(
            match design.lining {
                LiningCover::None => "unlined",
                LiningCover::Full => "lined",
                LiningCover::Front => "front lined",
                LiningCover::Crotch => "crotch lined",
            }
            .to_owned(),
        );
    }
    let cloth = worked
        .shell
        .as_ref()
        .and_then(|paper| text_at(&paper.body, "name"));
    match cloth {
        Some(cloth) => format!("{}. {cloth}.", capital(&words.join(", "))),
        None => format!("{}. No cloth yet.", capital(&words.join(", "))),
    }
}

/// A neckline worth naming: a scoop is what one thinks of anyway.
fn neck(shape: NeckShape) -> Option<String> {
    Some(
        match shape {
            NeckShape::Scoop => return None,
            NeckShape::Square => "square neck",
            NeckShape::V => "V neck",
            NeckShape::High => "high neck",
        }
        .to_owned(),
    )
}

const fn back(shape: BackShape) -> &'static str {
    match shape {
        BackShape::Scoop => "scoop back",
        BackShape::V => "V back",
        BackShape::Racer => "racer back",
        BackShape::CrossedStraps => "crossed straps",
    }
}

fn leg(leg: LegHeight) -> &'static str {
    match leg {
        LegHeight::Low => "low",
        LegHeight::Mid => "mid",
        LegHeight::High => "high",
        LegHeight::ExtraHigh => "extra-high",
        LegHeight::Share(_) | LegHeight::SideSeam(_) => "own",
    }
}

/// The worst state, and what it is about or what is next.
fn standing(worked: &Worked, versions: usize) -> (State, String) {
    let around = Around::default();
    let mut notes: Vec<Note> = wearer::view(worked, &around).head.notes;
    notes.extend(cloth::view(worked, &around).head.notes);
    notes.extend(others(worked));
    let worst = notes
        .iter()
        .filter(|n| matches!(n.state, State::Stop | State::Doubtful | State::Missing))
        .min_by_key(|n| n.state);
    let Some(worst) = worst else {
        return (State::Good, next(worked, versions));
    };
    let word = match worst.state {
        State::Stop => "stop",
        State::Doubtful => "doubtful",
        _ => "missing",
    };
    let place = if worst.place.is_empty() {
        "wearer"
    } else {
        &worst.place
    };
    (worst.state, format!("{word}: {place}"))
}

/// Faults of the suit's own document, and what the draft and the fit find.
fn others(worked: &Worked) -> Vec<Note> {
    use crate::view::told;
    let faults = told::faults_of(worked, "suit").into_iter();
    let own = faults.map(|(fault, path)| told::fault(fault, &path, None));
    let found = worked.order.iter().flat_map(|o| &o.findings);
    // Those of body and cloths are told by their sections, in which she may have settled them.
    let found = found.filter(|f| !f.code.starts_with("body.") && !f.code.starts_with("cloth."));
    own.chain(found.map(told::finding)).collect()
}

/// What is next of a suit in order.
fn next(worked: &Worked, versions: usize) -> String {
    let of = |key: &str| worked.suit.body.get(key).and_then(serde_json::Value::as_object);
    let sewn = of("sewn").map_or(0, |steps| {
        steps.values().filter(|s| s.as_bool() == Some(true)).count()
    });
    let tried = of("try_ons").map_or(0, serde_json::Map::len);
    match (tried, sewn, versions) {
        (0, 0, 0) => "drawn. Next: lay".to_owned(),
        (0, 0, n) => format!("version {} drawn. Next: lay", n + 1),
        (0, 1, _) => "one step sewn".to_owned(),
        (0, steps, _) => format!("{} steps sewn", count(steps)),
        _ => format!("tried on. Version {}", versions + 1),
    }
}

/// Two sentences on how the work stands.
pub(super) fn lead(suits: &[SuitCard]) -> String {
    let waiting = |state: State| suits.iter().filter(move |s| s.state == state);
    let first = match suits.len() {
        0 => {
            return "Nothing on the line yet. Start a suit: choose who it is for and what it is made of."
                .to_owned();
        }
        1 => "One suit on the line.".to_owned(),
        n => format!("{} suits on the line.", capital(&count(n))),
    };
    let said = |s: &SuitCard, what: &str| {
        let whose = if s.wearer.is_empty() {
            s.name.clone()
        } else {
            format!("{}’s", s.wearer)
        };
        let about = s.says.split_once(": ").map_or("", |(_, about)| about);
        format!("{first} {whose} {what} {about}.")
    };
    if let Some(stopped) = waiting(State::Stop).next() {
        return said(stopped, "must not be cut yet:");
    }
    if let Some(missing) = waiting(State::Missing).next() {
        return said(missing, "waits for:");
    }
    match waiting(State::Doubtful).count() {
        0 => format!("{first} Nothing is in doubt."),
        1 => waiting(State::Doubtful)
            .next()
            .map_or_else(|| first.clone(), |s| said(s, "has something to look at:")),
        n => format!(
            "{first} {} have something to look at before they are cut.",
            capital(&count(n))
        ),
    }
}
