//! The registers of the first page: wearers, cloths, elastics, and the shelves.

use make::ElasticKind;
use serde_json::Value as Json;
use units::LengthUnit;

use super::{ClothCard, ShelfLine, Shelves};
use crate::document::Paper;
use crate::view::cloth::{look_view, test_of, tested};
use crate::view::told::{self, capital, count, list, text_at};
use crate::view::{State, percent, wearer_view};

/// A wearer's line.
pub(super) fn wearer(paper: &Paper, today: &str) -> ShelfLine {
    let view = wearer_view(paper.clone(), LengthUnit::Cm.symbol(), today);
    let used = || view.dimensions.iter().filter(|l| l.need != "not used");
    let wanted = used().filter(|l| l.need == "needed" || l.need == "asked" || !l.readings.is_empty());
    let taken = used().filter(|l| !l.readings.is_empty()).count();
    let worst = view
        .head
        .notes
        .first()
        .filter(|n| matches!(n.state, State::Stop | State::Doubtful | State::Missing));
    let says = match worst {
        Some(note) if !note.place.is_empty() => format!("{}: {}", state_word(note.state), note.place),
        Some(note) => state_word(note.state).to_owned(),
        None => format!("{taken} of {}", wanted.count()),
    };
    let about = about_wearer(&paper.body);
    ShelfLine {
        id: paper.id.clone(),
        words: format!("{} {about}", view.name).to_lowercase(),
        name: view.name,
        about,
        state: view.head.state,
        says,
    }
}

const fn state_word(state: State) -> &'static str {
    match state {
        State::Stop => "stop",
        State::Doubtful => "doubtful",
        State::Missing => "missing",
        State::Estimate => "estimated",
        State::How | State::Good => "good",
    }
}

/// Her own note, or who she is; then when and by whom she was taken.
fn about_wearer(body: &Json) -> String {
    let note = text_at(body, "notes").and_then(|n| n.lines().next().map(str::to_owned));
    let age = text_at(body, "age")
        .map(|age| format!(", {age} years"))
        .unwrap_or_default();
    let form = text_at(body, "form").unwrap_or_else(|| "no form chosen yet".to_owned());
    let mut about = told::sentence(&note.unwrap_or_else(|| format!("{form}{age}")));
    if let Some(on) = text_at(body, "protocol.taken_on") {
        let by = text_at(body, "protocol.taken_by")
            .map(|by| format!(" by {by}"))
            .unwrap_or_default();
        about += &format!(" Taken on {}{by}.", told::day(&on));
    }
    about
}

/// A cloth's card.
pub(super) fn cloth(paper: &Paper, unit: LengthUnit) -> ClothCard {
    let body = &paper.body;
    let name = text_at(body, "name").unwrap_or_default();
    let role = text_at(body, "role").unwrap_or_else(|| "shell".to_owned());
    let pull = |direction: &str| test_of(body, direction, unit).and_then(tested);
    let cross = pull("across").zip(pull("along"));
    let facts = crate::view::cloth::about(body, &role, unit);
    let about = match cross {
        Some((across, along)) => {
            let (head, rest) = facts
                .split_once(". ")
                .unwrap_or((facts.trim_end_matches('.'), ""));
            let stretch = format!(
                "{head}. {} across, {} along. {rest}",
                across.stretch, along.stretch
            );
            stretch.trim_end().to_owned()
        }
        None => format!("{facts} Not tested yet."),
    };
    let is_poor = |t: &cloth::Tested| {
        t.recovery.is_none_or(|r| r < cloth::LEAST_RECOVERY)
            || t.growth().is_some_and(|g| g > cloth::MOST_GROWTH)
    };
    ClothCard {
        id: paper.id.clone(),
        words: format!("{name} {about}").to_lowercase(),
        name,
        about,
        look: look_view(Some(body)),
        cross: cross.map(|(across, along)| [across.stretch.ratio(), along.stretch.ratio()]),
        state: match cross {
            None => State::Missing,
            Some((across, along)) if is_poor(&across) || is_poor(&along) => State::Doubtful,
            Some(_) => State::Good,
        },
    }
}

/// An elastic's line.
pub(super) fn elastic(paper: &Paper) -> ShelfLine {
    let body = &paper.body;
    let key = text_at(body, "kind");
    let kind = ElasticKind::ALL
        .into_iter()
        .find(|k| Some(k.key()) == key.as_deref());
    let kind = kind.unwrap_or_default();
    let width = text_at(body, "width")
        .map(|w| format!(", {w}"))
        .unwrap_or_default();
    let works = percent(kind.facts().working_extension.0.ratio()).text();
    let works =
        text_at(body, "working_extension").map_or(works, |w| format!("{} %", w.trim_end_matches('%').trim()));
    let about = format!("{}{width}. Works to {works}.", capital(kind.facts().name));
    let name = text_at(body, "name").unwrap_or_else(|| capital(kind.facts().name));
    ShelfLine {
        id: paper.id.clone(),
        words: format!("{name} {about} elastic").to_lowercase(),
        name,
        about,
        state: State::Good,
        says: text_at(body, "stock").map_or_else(String::new, |stock| format!("{stock} left")),
    }
}

/// Sample book, drawer, workroom, classes, ranges.
pub(super) fn shelves(shelves: &Shelves) -> Vec<ShelfLine> {
    vec![
        samples(&shelves.samples),
        drawer(&shelves.drawer),
        workroom(shelves.workroom.as_ref()),
        classes(&shelves.classes),
        line(
            "ranges",
            "Ranges",
            "A suit in the sizes of a table, nested.".to_owned(),
            State::Good,
            String::new(),
            &[],
        ),
    ]
}

fn line(id: &str, name: &str, about: String, state: State, says: String, papers: &[Paper]) -> ShelfLine {
    let names: Vec<String> = papers.iter().filter_map(|p| text_at(&p.body, "name")).collect();
    ShelfLine {
        id: id.to_owned(),
        name: name.to_owned(),
        words: format!("{name} {about} {}", names.join(" ")).to_lowercase(),
        about,
        state,
        says,
    }
}

/// `two stitches`, `one stitch`; `None` for none.
fn some(n: usize, one: &str, many: &str) -> Option<String> {
    (n > 0).then(|| format!("{} {}", count(n), if n == 1 { one } else { many }))
}

/// The two counts as a sentence, or what to say of none.
fn both(first: Option<String>, second: Option<String>, none: &str) -> String {
    let found: Vec<String> = first.into_iter().chain(second).collect();
    if found.is_empty() {
        none.to_owned()
    } else {
        format!("{}.", capital(&list(&found)))
    }
}

fn of_kind(papers: &[Paper], kind: &str) -> usize {
    papers
        .iter()
        .filter(|p| text_at(&p.body, "of").as_deref() == Some(kind))
        .count()
}

fn samples(papers: &[Paper]) -> ShelfLine {
    let about = both(
        some(of_kind(papers, "stitch"), "stitch test", "stitch tests"),
        some(of_kind(papers, "iron"), "iron test", "iron tests"),
        "No stitch and no iron tested yet.",
    );
    let good = papers
        .iter()
        .filter(|p| text_at(&p.body, "verdict").as_deref() == Some("good"));
    let says = match (papers.len(), good.count()) {
        (0, _) => "sew a scrap".to_owned(),
        (_, n) => format!("{n} good"),
    };
    let state = if papers.is_empty() {
        State::Missing
    } else {
        State::Good
    };
    line("samples", "Sample book", about, state, says, papers)
}

fn drawer(papers: &[Paper]) -> ShelfLine {
    let about = both(
        some(of_kind(papers, "pattern"), "bought pattern", "bought patterns"),
        some(
            of_kind(papers, "suit"),
            "suit copied off the table",
            "suits copied off the table",
        ),
        "No bought pattern and no copied suit yet.",
    );
    let says = if papers.is_empty() {
        String::new()
    } else {
        format!("{} kept", papers.len())
    };
    line("drawer", "Drawer", about, State::Good, says, papers)
}

fn workroom(paper: Option<&Paper>) -> ShelfLine {
    let body = paper.map(|p| &p.body);
    let machines: Vec<String> = body
        .and_then(|b| b.get("machines"))
        .and_then(Json::as_array)
        .into_iter()
        .flatten()
        .filter_map(|machine| text_at(machine, "name"))
        .collect();
    let paper_size = body.and_then(|b| text_at(b, "paper"));
    let mut known = machines.clone();
    known.extend(paper_size.map(|size| format!("paper {size}")));
    let about = if known.is_empty() {
        "No machine and no printer written down yet.".to_owned()
    } else {
        format!("{}.", capital(&known.join(", ")))
    };
    // Written side by side; workrooms of old have both in one list.
    let is_measured = body.is_some_and(|b| {
        let sides = ["square.across", "square.down"].map(|side| text_at(b, side));
        let list = b.get("measured_square").and_then(Json::as_array);
        match b.get("square").is_some_and(Json::is_object) {
            true => sides.iter().all(Option::is_some),
            false => list.is_some_and(|s| s.len() == 2),
        }
    });
    let (state, says) = match (machines.is_empty(), is_measured) {
        (true, _) => (State::Missing, "missing: machines"),
        (false, false) => (State::Missing, "missing: printer’s test square"),
        (false, true) => (State::Good, "printer measured"),
    };
    line("workroom", "Workroom", about, state, says.to_owned(), &[])
}

fn classes(papers: &[Paper]) -> ShelfLine {
    let names: Vec<String> = papers.iter().filter_map(|p| text_at(&p.body, "name")).collect();
    let about = if names.is_empty() {
        "No class yet.".to_owned()
    } else {
        format!("{}.", capital(&list(&names)))
    };
    let learners: usize = papers
        .iter()
        .filter_map(|p| p.body.get("wearers").and_then(Json::as_array))
        .map(Vec::len)
        .sum();
    let says = some(learners, "kit", "kits").unwrap_or_default();
    line("classes", "Classes", about, State::Good, says, papers)
}
