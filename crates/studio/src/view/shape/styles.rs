//! All styles this wearer can have, each drawn as her own draft in the suit's cloths.
//!
//! What she has set of the shape is kept where the style hears it; where the draft refuses that, the style stands as a beginner
//! would have it, and where it refuses even so it says why.

use body::BodyForm;
use draft::{Design, Style, draft};
use serde::Serialize;
use ts_rs::TS;
use utoipa::ToSchema;

use crate::document::Worked;
use crate::view::home::{Silhouette, silhouette_of};
use crate::view::told::sentence;

/// The styles, in families.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct StylesView {
    /// What is missing before anything can be drawn; empty when it can.
    pub waits: String,
    /// Families in the order in which makers choose.
    pub families: Vec<StyleFamily>,
}

/// Styles of one kind.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct StyleFamily {
    /// `One-pieces`.
    pub name: String,
    /// Its styles.
    pub styles: Vec<StyleCard>,
}

/// One style on this wearer.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct StyleCard {
    /// Value of `design.style`.
    pub key: String,
    /// Name.
    pub name: String,
    /// What it is, in a sentence.
    pub says: String,
    /// Whether it is the suit's.
    pub is_chosen: bool,
    /// Her own draft as it hangs; none where it cannot be drawn.
    pub silhouette: Option<Silhouette>,
    /// Why it cannot be had; empty where it can.
    pub refused: String,
}

/// The styles for the wearer of these papers.
pub fn styles_view(worked: &Worked) -> StylesView {
    let (form, age) = worked
        .body
        .as_ref()
        .map_or((BodyForm::Woman, None), |(body, _)| (body.form, body.age_years));
    let waits = match (&worked.body, &worked.cloth) {
        (None, _) => "The drawings wait for the wearer's dimensions.",
        (_, None) => "The drawings wait for the cloth.",
        _ => "",
    };
    let mut families: Vec<StyleFamily> = Vec::new();
    for &style in Style::all().iter().filter(|s| s.is_offered(form, age)) {
        let name = style.spec().family.name();
        let card = card(worked, style);
        match families.iter_mut().find(|f| f.name == name) {
            Some(family) => family.styles.push(card),
            None => families.push(StyleFamily {
                name: name.to_owned(),
                styles: vec![card],
            }),
        }
    }
    StylesView {
        waits: waits.to_owned(),
        families,
    }
}

fn card(worked: &Worked, style: Style) -> StyleCard {
    let now = worked.parts.as_ref().map(|p| &p.design);
    let (silhouette, refused) = match (&worked.body, &worked.cloth) {
        (Some((body, _)), Some(cloth)) => {
            let hers = now.map(|design| Design {
                style,
                own: if design.style == style {
                    design.own.clone()
                } else {
                    Default::default()
                },
                ..design.clone()
            });
            let drafted = hers
                .and_then(|design| draft(body, cloth, &design).ok())
                .map_or_else(|| draft(body, cloth, &Design::of(style)), Ok);
            match drafted {
                Ok(drafted) => (silhouette_of(worked, &drafted), String::new()),
                Err(refusal) => (None, sentence(&refusal.to_string())),
            }
        }
        _ => (None, String::new()),
    };
    StyleCard {
        key: style.key().to_owned(),
        name: style.spec().name.to_owned(),
        says: sentence(style.spec().says),
        is_chosen: now.is_some_and(|d| d.style == style),
        silhouette,
        refused,
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::view::examples::{example, names};
    use crate::view::{Around, order_view};

    #[test]
    fn every_style_is_drawn_or_says_why_not() {
        for name in names() {
            let view = styles_view(&example(&name));
            let cards: Vec<_> = view.families.iter().flat_map(|f| &f.styles).collect();
            assert!(cards.len() >= 2, "{name}");
            assert_eq!(cards.iter().filter(|c| c.is_chosen).count(), 1, "{name}");
            for card in cards {
                assert!(
                    card.silhouette.is_some() || !card.refused.is_empty(),
                    "{name}: {} is neither drawn nor refused",
                    card.key
                );
            }
        }
    }

    /// What a press on a drawing gives: the whole order, every section, or a fault the page can show.
    #[test]
    fn a_press_on_a_style_gives_a_whole_order() {
        let mut drafted = 0;
        for name in names() {
            let worked = example(&name);
            let form = worked.body.as_ref().unwrap().0.form;
            for style in Style::all().iter().filter(|s| s.is_for(form)) {
                let pressed = worked.with(|papers| papers[0].body["design"]["style"] = json!(style.key()));
                let view = order_view(&pressed, &Around::default());
                if pressed.order.is_some() {
                    drafted += 1;
                    assert!(!view.shape.pieces.is_empty(), "{name} {style:?}");
                    assert!(!view.sew.steps.is_empty(), "{name} {style:?}");
                } else {
                    assert!(!pressed.faults.is_empty(), "{name} {style:?}");
                    assert!(
                        !view.shape.head.notes.is_empty(),
                        "{name} {style:?}: {:?}",
                        pressed.faults
                    );
                }
            }
        }
        assert!(drafted > 40, "{drafted}");
    }
}
