//! Answers about a range: which size a wearer takes, and which few sizes cover a group.

use body::Wearer;
use range::{Advice, Choice, Cover, CoverMethod};
use serde::Serialize;
use ts_rs::TS;
use units::{LengthUnit, Mm};
use utoipa::ToSchema;

use super::made::MadeRange;
use crate::view::{Quantity, length, sentence, told_list};

/// The size of a range for one wearer.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct SizeChoiceView {
    /// Her name.
    pub wearer: String,
    /// The nearest size.
    pub size: String,
    /// `take`, `look`, `own`: take it, take it and look at the places named, draft a suit of her own.
    pub advice: String,
    /// The advice in a sentence.
    pub says: String,
    /// Why, a sentence each; empty when the size simply fits.
    pub reasons: Vec<String>,
    /// The nearest size at each level.
    pub levels: Vec<LevelChoiceView>,
    /// What could not be judged.
    pub not_judged: Vec<String>,
}

/// The nearest size at one level.
#[derive(Clone, Debug, PartialEq, Serialize, TS, ToSchema)]
pub struct LevelChoiceView {
    /// The level's dimension.
    pub name: String,
    /// Hers.
    pub hers: Quantity,
    /// The size nearest to her there.
    pub size: String,
    /// How far off that one is: hers less the size's.
    pub off: Quantity,
    /// How far off the size to take is there.
    pub off_taken: Option<Quantity>,
}

/// The fewest sizes that cover some people.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct CoverView {
    /// How many sizes, for how many people, and whether fewer would do.
    pub says: String,
    /// The sizes with who takes each.
    pub sizes: Vec<CoverSizeView>,
    /// Who is left out, with the reason.
    pub left_out: Vec<LeftOutView>,
}

/// One size of a set.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct CoverSizeView {
    /// Its name.
    pub size: String,
    /// Who takes it.
    pub people: Vec<String>,
}

/// Somebody no size covers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, TS, ToSchema)]
pub struct LeftOutView {
    /// Her name.
    pub name: String,
    /// Why, and what to do.
    pub says: String,
}

/// With its sign: `+1.2`.
fn signed(mm: f64, unit: LengthUnit) -> Quantity {
    let mut quantity = length(Mm::new(mm), unit);
    for text in [&mut quantity.main, &mut quantity.second] {
        let is_some = text
            .chars()
            .any(|c| c.is_ascii_digit() && c != '0' || "⅛¼⅜½⅝¾⅞".contains(c));
        if mm > 0.0 && is_some {
            text.insert(0, '+');
        }
    }
    if mm > 0.0 {
        quantity.spoken = format!("plus {}", quantity.spoken);
    }
    quantity
}

/// A choice of size in words.
pub fn size_choice_view(choice: &Choice, wearer: &Wearer, made: &MadeRange) -> SizeChoiceView {
    let unit = made.of.unit;
    let (advice, says) = match choice.advice {
        Advice::Take => ("take", format!("{} takes size {}.", wearer.name, choice.size)),
        Advice::TakeAndLook => (
            "look",
            format!(
                "{} takes size {}; look at the places below.",
                wearer.name, choice.size
            ),
        ),
        Advice::MadeToMeasure => (
            "own",
            format!(
                "A draft of her own is wiser for {}; the nearest size is {}.",
                wearer.name, choice.size
            ),
        ),
    };
    let taken = choice.all.iter().find(|s| s.size == choice.size);
    SizeChoiceView {
        wearer: wearer.name.clone(),
        size: choice.size.clone(),
        advice: advice.to_owned(),
        says,
        reasons: choice.reasons.iter().map(|r| sentence(r)).collect(),
        levels: choice
            .levels
            .iter()
            .map(|level| {
                let here = taken.and_then(|s| s.misses.iter().find(|m| m.gauge == level.gauge));
                LevelChoiceView {
                    name: level.gauge.dimension().iso_name(wearer.form).to_owned(),
                    hers: length(Mm::new(level.miss.wearer_mm), unit),
                    size: level.size.clone(),
                    off: signed(level.miss.off_mm(), unit),
                    off_taken: here.map(|m| signed(m.off_mm(), unit)),
                }
            })
            .collect(),
        not_judged: choice
            .not_judged
            .iter()
            .map(|g| g.dimension().iso_name(wearer.form).to_owned())
            .collect(),
    }
}

/// A set of sizes in words.
pub fn cover_view(cover: &Cover, people: &[Wearer]) -> CoverView {
    let name = |i: usize| people.get(i).map_or(String::new(), |p| p.name.clone());
    let covered: usize = cover.sizes.iter().map(|s| s.people.len()).sum();
    let sizes = match cover.sizes.len() {
        0 => "No size covers".to_owned(),
        1 => "One size covers".to_owned(),
        n => format!("{n} sizes cover"),
    };
    let method = match cover.method {
        CoverMethod::Exact => "No smaller set covers as many.".to_owned(),
        CoverMethod::Greedy { at_least } => {
            format!("A set as small as {at_least} was not ruled out in the time given.")
        }
    };
    let names: Vec<String> = cover.sizes.iter().map(|s| s.name.clone()).collect();
    let which = if names.is_empty() {
        String::new()
    } else {
        format!(": {}", told_list(&names))
    };
    let says = if covered == 0 {
        format!(
            "No size covers any of these {} within the tolerance.",
            people.len()
        )
    } else {
        format!("{sizes} {covered} of {}{which}. {method}", people.len())
    };
    CoverView {
        says,
        sizes: cover
            .sizes
            .iter()
            .map(|size| CoverSizeView {
                size: size.name.clone(),
                people: size.people.iter().map(|p| name(p.person)).collect(),
            })
            .collect(),
        left_out: cover
            .not_covered
            .iter()
            .map(|n| LeftOutView {
                name: name(n.person),
                says: sentence(&n.reason),
            })
            .collect(),
    }
}
