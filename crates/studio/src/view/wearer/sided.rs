//! What was taken on the right of a body that is not alike left and right. The dimensions themselves are then her left side's.

use body::Dimension;
use units::Mm;

use super::dimensions::NOT_USED;
use super::{DimensionView, Facts, SidedView};
use crate::suit_file::show_length;
use crate::view::told::{faults_of, text_at, typed};
use crate::view::{Field, State};

/// The dimensions in use that may be taken on both sides.
pub(super) fn lines(facts: &Facts<'_>, dimensions: &[DimensionView]) -> Vec<SidedView> {
    let faults = faults_of(facts.worked, "wearer");
    Dimension::SIDED
        .into_iter()
        .filter_map(|dimension| {
            let left = dimensions
                .iter()
                .find(|line| line.key == dimension.key() && line.need != NOT_USED)?;
            let path = format!("right.{}", dimension.key());
            let written = text_at(facts.body, &path);
            let quantity = written
                .as_deref()
                .and_then(|text| typed(text, facts.unit))
                .map(|(_, quantity)| quantity);
            let (low, high) = dimension.plausible_range(facts.form);
            let limit = |mm: Mm| show_length(mm, facts.unit);
            let is_wrong = faults.iter().any(|(_, at)| *at == path);
            Some(SidedView {
                name: left.name.clone(),
                left: left.value.clone(),
                right: Field {
                    document: facts.id.to_owned(),
                    label: format!("Right {}", left.name),
                    says: "Only where it differs. The line above is then her left.".to_owned(),
                    state: if is_wrong || (written.is_some() && quantity.is_none()) {
                        State::Stop
                    } else {
                        State::Good
                    },
                    quantity,
                    typed: written,
                    unit: facts.unit.symbol().to_owned(),
                    allowed: format!("{} to {}", limit(low), limit(high)),
                    path,
                },
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::view::examples::{example, with, with_wearer};
    use crate::view::{Around, State, order_view};

    #[test]
    fn a_right_side_is_taken_drafted_and_doubted() {
        // A racer back draws its centre from the sides: it cannot be uneven.
        let maren = with(&example("maren-one-piece"), "suit", |s| {
            s["design"]["back"] = "scoop".into()
        });
        let seen = order_view(&maren, &Around::default());
        let thigh = seen
            .wearer
            .sided
            .iter()
            .find(|s| s.right.path == "right.thigh_girth")
            .unwrap();
        assert!(thigh.left.is_some() && thigh.right.quantity.is_none());
        // No sleeves, no wrists.
        assert!(
            !seen
                .wearer
                .sided
                .iter()
                .any(|s| s.right.path == "right.wrist_girth")
        );

        let uneven = with_wearer(&maren, |w| w["right"] = json!({"side_length": "22.4 cm"}));
        let after = order_view(&uneven, &Around::default());
        assert!(uneven.order.is_some(), "{:?}", uneven.faults);
        let front = |view: &crate::view::OrderView| {
            view.shape
                .pieces
                .iter()
                .find(|p| p.key == "front")
                .cloned()
                .unwrap()
        };
        assert!(front(&seen).fold_line.is_some());
        assert!(front(&after).fold_line.is_none(), "an uneven front is cut whole");
        assert_ne!(front(&after).cut_line, front(&seen).cut_line);

        let wrong = with_wearer(&maren, |w| w["right"] = json!({"thigh_girth": "wide"}));
        let wrong = order_view(&wrong, &Around::default());
        let thigh = wrong
            .wearer
            .sided
            .iter()
            .find(|s| s.right.path == "right.thigh_girth")
            .unwrap();
        assert_eq!(thigh.right.state, State::Stop);
        assert!(
            wrong
                .wearer
                .head
                .notes
                .iter()
                .any(|n| n.field.as_deref() == Some("right.thigh_girth"))
        );
    }
}
