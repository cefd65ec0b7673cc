//! The documents of one thing of the drawer, and what can be read of them: body, cloths, shapes.
//!
//! Read by the suit file's own reader, so that a typed stretch or a shape means the same here as in a suit.

use body::Body;
use cloth::ClothPlan;
use draft::Design;
use serde_json::{Map, Value as Json, json};
use units::LengthUnit;

use crate::document::{Linked, Paper, Worked, work};
use crate::view::told::{self, text_at};
use crate::view::{Note, State};

/// Keys of a document of the drawer that name another one, in the order of [`DrawerPapers`].
pub const LINKS: [&str; 3] = ["wearer", "old.swatch", "new.swatch"];

/// One thing of the drawer with the documents it names.
#[derive(Clone, Debug)]
pub struct DrawerPapers {
    /// Itself.
    pub item: Paper,
    /// Whom it fits.
    pub wearer: Option<Paper>,
    /// Swatch of the cloth it is made of.
    pub old: Option<Paper>,
    /// Swatch of the cloth to sew.
    pub new: Option<Paper>,
    /// Her unit: `cm`, `in`.
    pub units: String,
}

/// Where the seat is judged from the measures.
pub(super) const JUDGE: &str = "judge";

impl DrawerPapers {
    /// Whether it is a bought pattern.
    pub(super) fn is_pattern(&self) -> bool {
        text_at(&self.item.body, "of").as_deref() == Some("pattern")
    }

    pub(super) fn unit(&self) -> LengthUnit {
        match self.units.as_str() {
            "in" => LengthUnit::In,
            "mm" => LengthUnit::Mm,
            _ => LengthUnit::Cm,
        }
    }

    pub(super) fn text(&self, path: &str) -> String {
        text_at(&self.item.body, path).unwrap_or_default()
    }

    /// A suit of these papers, as far as one document of another kind can stand for it.
    fn work(&self, design: Json, wearer: Option<&Paper>, shell: Option<Paper>) -> Worked {
        let suit = Paper {
            id: self.item.id.clone(),
            kind: "suit",
            revision: self.item.revision,
            body: json!({"name": "-", "units": self.units, "design": design}),
        };
        work(
            suit,
            Linked {
                wearer: wearer.cloned(),
                shell,
                ..Linked::default()
            },
        )
    }

    /// The shapes as keys of a design; a seat to be judged is none.
    pub(super) fn shapes(&self) -> Map<String, Json> {
        let shapes = self.item.body.get("shapes").and_then(Json::as_object);
        let mut shapes = shapes.cloned().unwrap_or_default();
        if self.judges_seat() {
            shapes.remove("seat");
        }
        shapes
    }

    /// Whether the seat is to be judged from the measures: so while nothing is said.
    pub(super) fn judges_seat(&self) -> bool {
        let seat = self.text("shapes.seat");
        seat.is_empty() || seat == JUDGE
    }

    /// The shapes as a design.
    pub(super) fn design(&self) -> Design {
        let worked = self.work(Json::Object(self.shapes()), self.wearer.as_ref(), None);
        worked.parts.map(|p| p.design).unwrap_or_default()
    }

    /// The wearer's body, or what is missing for one.
    ///
    /// # Errors
    /// Notes to the maker, at least one.
    pub(super) fn body(&self) -> Result<Body, Vec<Note>> {
        let Some(wearer) = &self.wearer else {
            let (says, next) = if self.is_pattern() {
                ("Nobody is chosen to sew it for.", "Choose the wearer.")
            } else {
                ("Nobody is chosen whom it fits.", "Choose the wearer.")
            };
            return Err(vec![
                told::note(State::Missing, "wearer", says, next).at("wearer"),
            ]);
        };
        let worked = self.work(json!({}), Some(wearer), None);
        if let Some((body, _)) = worked.body {
            return Ok(body);
        }
        let form = worked
            .parts
            .as_ref()
            .and_then(|p| p.wearer.as_ref())
            .map(|(w, _)| w.form);
        let mut notes: Vec<Note> = told::faults_of(&worked, "wearer")
            .into_iter()
            .map(|(fault, path)| told::fault(fault, &path, form))
            .collect();
        if notes.is_empty() {
            notes.push(told::note(
                State::Missing,
                "wearer",
                "Her dimensions are not complete enough for a body.",
                "Take those her page marks as needed.",
            ));
        }
        for note in &mut notes {
            note.field = Some("wearer".into());
        }
        Err(notes)
    }

    /// How a cloth is given: `swatch` or `typed`.
    pub(super) fn cloth_from(&self, which: &str) -> &'static str {
        if self.text(&format!("{which}.from")) == "typed" {
            "typed"
        } else {
            "swatch"
        }
    }

    /// The cloth under `old` or `new`, or what is missing of it.
    ///
    /// # Errors
    /// Notes to the maker, at least one.
    pub(super) fn cloth(&self, which: &'static str) -> Result<ClothPlan, Vec<Note>> {
        let place = if which == "old" { "old cloth" } else { "cloth" };
        let missing =
            |says: &str, next: &str| Err(vec![told::note(State::Missing, place, says, next).at(which)]);
        let shell = if self.cloth_from(which) == "typed" {
            let (around, lengthwise) = (
                self.text(&format!("{which}.around")),
                self.text(&format!("{which}.lengthwise")),
            );
            if around.is_empty() || lengthwise.is_empty() {
                return missing(
                    "Its stretch is not typed yet.",
                    "Pull it both ways and type both, in per cent.",
                );
            }
            let name = if which == "old" {
                "the suit’s own cloth"
            } else {
                "the cloth"
            };
            Paper {
                id: String::new(),
                kind: "cloth",
                revision: 0,
                body: json!({"name": name, "role": "shell", "lay": "upright",
                    "across": {"stretch": around}, "along": {"stretch": lengthwise}}),
            }
        } else {
            let swatch = if which == "old" { &self.old } else { &self.new };
            match swatch {
                Some(swatch) => swatch.clone(),
                None => return missing("No cloth is chosen.", "Choose a swatch, or type its stretch."),
            }
        };
        let worked = self.work(json!({"lining": "none"}), None, Some(shell));
        if let Some(cloth) = worked.cloth {
            return Ok(cloth);
        }
        let mut notes: Vec<Note> = told::faults_of(&worked, "shell")
            .into_iter()
            .map(|(fault, path)| told::fault(fault, &path, None))
            .collect();
        if notes.is_empty() {
            notes.push(told::note(
                State::Stop,
                place,
                "This cloth cannot be used for a suit.",
                "Look at its swatch.",
            ));
        }
        for note in &mut notes {
            note.field = Some(which.into());
        }
        Err(notes)
    }
}
