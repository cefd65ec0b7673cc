//! What elastic to buy, and what to know about it before it touches skin.
//!
//! **Source.** Common practice, no single source: `data/trade/notions.toml`; the caution: `data/trade/cautions.csv`.

use serde::Serialize;
use units::{Finding, Mm, Severity};

use crate::kind::{ElasticChoice, Latex};
use crate::plan::ElasticPlan;

/// Bought on top of the net length, for trimming. `data/trade/notions.toml`.
const BUY_EXTRA: f64 = 0.10;
/// Bought on top for the stretch test, once per width. `data/trade/notions.toml`.
const BUY_TEST: Mm = Mm::new(200.0);
/// Elastic is sold by the quarter metre. `data/trade/notions.toml`.
const BUY_STEP_MM: f64 = 250.0;

/// Elastic of one kind and width to buy.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ElasticBuy {
    /// Kind, in the trade's words.
    pub kind: String,
    /// Width.
    pub width: Mm,
    /// What the suit takes, laps included.
    pub net: Mm,
    /// What to buy: net + 10 % + 0.2 m for the stretch test, rounded up to a quarter metre.
    pub to_buy: Mm,
}

/// What elastic to buy, one entry per kind and width, in the order the plans first name them.
///
/// # Source
/// Common practice, no single source; `data/trade/notions.toml`.
pub fn elastic_to_buy(plans: &[ElasticPlan]) -> Vec<ElasticBuy> {
    let mut buys: Vec<ElasticBuy> = Vec::new();
    for plan in plans {
        let net = plan.cut_length * f64::from(plan.count);
        match buys
            .iter_mut()
            .find(|b| b.kind == plan.kind && b.width == plan.width)
        {
            Some(buy) => buy.net += net,
            None => {
                buys.push(ElasticBuy {
                    kind: plan.kind.clone(),
                    width: plan.width,
                    net,
                    to_buy: Mm::ZERO,
                });
            }
        }
    }
    for buy in &mut buys {
        let wanted = buy.net.get() * (1.0 + BUY_EXTRA) + BUY_TEST.get();
        // A millionth of a step is rounding, not cloth.
        buy.to_buy = Mm::new((wanted / BUY_STEP_MM - 1e-6).ceil() * BUY_STEP_MM);
    }
    buys
}

/// The caution about natural rubber, unless the elastic is free of latex.
///
/// # Source
/// `data/trade/cautions.csv`, row `latex`: a published review (4.3 % of the general population react).
pub fn latex_caution(choice: &ElasticChoice) -> Option<Finding> {
    let (message, remedy) = match choice.latex() {
        Latex::No => return None,
        Latex::Yes => (
            "This elastic holds natural rubber latex. About 4 in 100 people in reviewed surveys react to latex.",
            "Ask the wearer; use latex-free elastic or polyurethane if unsure.",
        ),
        Latex::Ask => (
            "This elastic may hold natural rubber latex. About 4 in 100 people in reviewed surveys react to latex.",
            "Read the label or ask the seller, and ask the wearer; use latex-free elastic or polyurethane if unsure.",
        ),
    };
    let help = "Hives, swelling or trouble breathing: take it off and get medical help.";
    Some(Finding {
        code: "elastic.latex",
        severity: Severity::Watch,
        place: "elastic".to_owned(),
        message: message.to_owned(),
        value: None,
        limit: None,
        remedy: format!("{remedy} {help}"),
    })
}
