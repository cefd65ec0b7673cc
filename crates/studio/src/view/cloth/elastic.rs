//! The elastic of a suit's edges: one from stock, or a kind.

use make::{ElasticChoice, ElasticKind, Latex, latex_caution};
use serde_json::Value as Json;

use super::ElasticView;
use super::field::{Kind, Sheet, wrong_in};
use crate::document::Worked;
use crate::view::told::{self, faults_of, text_at};
use crate::view::{Around, Note, State, percent, small_length};

/// The elastic's block.
pub(super) fn of(worked: &Worked, around: &Around) -> ElasticView {
    // From stock its lines are its own document's; else they are the suit's.
    let (role, prefix) = match &worked.elastic {
        Some(_) => ("elastic", ""),
        None => ("suit", "elastic_choice."),
    };
    let (id, body): (&str, &Json) = match &worked.elastic {
        Some(paper) => (&paper.id, &paper.body),
        None => (&worked.suit.id, &worked.suit.body),
    };
    let faults: Vec<_> = faults_of(worked, role)
        .into_iter()
        .filter(|(_, path)| role == "elastic" || path.starts_with("elastic_choice"))
        .collect();
    let sheet = Sheet {
        id,
        body,
        unit: worked.unit(),
        wrong: wrong_in(worked, role),
    };
    let choice = worked.parts.as_ref().and_then(|p| p.elastic);
    let at = |key: &str| format!("{prefix}{key}");
    let mut notes: Vec<Note> = faults
        .iter()
        .map(|(fault, path)| told::fault(fault, path, None))
        .collect();
    notes.extend(choice.as_ref().and_then(latex));
    let plans = worked.order.iter().flat_map(|o| &o.elastic);
    let width = plans
        .flat_map(|p| &p.findings)
        .find(|f| f.code == "elastic.width");
    notes.extend(width.map(|f| told::finding(f).at(at("width"))));
    let kinds: Vec<(&str, &str)> = ElasticKind::ALL
        .iter()
        .map(|k| (k.key(), k.facts().name))
        .collect();
    let usual = ElasticChoice::default();
    let in_force = choice.unwrap_or(usual);
    ElasticView {
        id: worked.elastic.as_ref().map(|p| p.id.clone()),
        choose: around.elastics.clone(),
        choices: vec![
            sheet.choice(
                &at("kind"),
                (
                    "Kind",
                    "Sets how far it works, whether it narrows, whether it may hold latex.",
                ),
                usual.kind().key(),
                &kinds,
            ),
            sheet.choice(
                &at("latex"),
                (
                    "Latex",
                    "What the label says; about 4 in 100 people react to latex.",
                ),
                latex_key(in_force.latex()),
                &[("no", "no latex"), ("yes", "holds latex"), ("ask", "not known")],
            ),
        ],
        fields: fields(&sheet, &at, in_force),
        about: about(body, prefix, in_force),
        notes,
    }
}

const fn latex_key(latex: Latex) -> &'static str {
    match latex {
        Latex::No => "no",
        Latex::Yes => "yes",
        Latex::Ask => "ask",
    }
}

fn fields(
    sheet: &Sheet<'_>,
    at: &dyn Fn(&str) -> String,
    in_force: ElasticChoice,
) -> Vec<crate::view::Field> {
    let mut width = sheet.field(
        &at("width"),
        "Width",
        "The allowance of every open edge follows from it.",
        Kind::Small,
        "elastic.width",
    );
    if width.typed.is_none() {
        width.quantity = Some(small_length(in_force.width(), sheet.unit).why("elastic.width"));
    }
    let force = sheet.field(
        &at("force"),
        "Force at double length",
        "Pull 10 cm to 20 with a luggage scale; a kilogram is 9.8 N. Without it pressures are compared, not believed.",
        Kind::Number("N", "newtons"),
        "elastic.force",
    );
    let mut extension = sheet.field(
        &at("working_extension"),
        "Works to",
        "How far it may be stretched in wear without tiring.",
        Kind::Number("%", "per cent"),
        "elastic.working_extension",
    );
    if extension.typed.is_none() {
        let ratio = in_force.working_extension().ratio();
        extension.quantity = Some(percent(ratio).why("elastic.working_extension"));
    }
    vec![width, force, extension]
}

/// `Cotton-covered braided rubber, 8 mm. Narrows when stretched. Sold 6 to 12 mm wide. 1.4 m left.`
fn about(body: &Json, prefix: &str, choice: ElasticChoice) -> String {
    let facts = choice.kind().facts();
    let (low, high) = facts.widths_mm;
    let mut about = format!(
        "{}, {} mm. {}. Sold {low:.0} to {high:.0} mm wide.",
        told::capital(facts.name),
        crate::suit_file::trimmed(choice.width().get(), 1),
        told::capital(facts.narrows.words()),
    );
    if let Some(stock) = text_at(body, &format!("{prefix}stock")) {
        about += &format!(" {stock} left.");
    }
    about
}

/// The caution on latex: doubtful while nobody has read the label, else to be known.
fn latex(choice: &ElasticChoice) -> Option<Note> {
    let caution = latex_caution(choice)?;
    let mut note = told::finding(&caution).asked("elastic.latex");
    note.state = match choice.latex() {
        Latex::Ask => State::Doubtful,
        Latex::Yes | Latex::No => State::How,
    };
    Some(note)
}
