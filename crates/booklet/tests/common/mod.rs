//! Suits to make booklets of: invented bodies, two cloths, every style.
#![allow(
    clippy::unwrap_used,
    dead_code,
    unreachable_pub,
    reason = "shared by tests, each of which uses some of it"
)]

use body::{Body, BodyForm, Dimension};
use booklet::{Booklet, Choice, Plan, Suit, compose};
use cloth::ClothPlan;
use draft::{Design, Draft, Style, draft};
use fit::{ElasticAssumption, FitReport, judge};
use make::{
    CutRow, ElasticBuy, ElasticChoice, ElasticPlan, Making, MakingInput, SampleBook, Shopping, ShoppingInput,
    Workroom, WornStretch, cut_list, elastic, elastic_to_buy, making, shopping,
};
use units::LengthUnit;

/// A wearer of that form with a name nobody else has.
pub fn body(form: BodyForm) -> Body {
    body_with(form, &[])
}

/// The same with some dimensions so many mm greater.
pub fn body_with(form: BodyForm, more: &[(Dimension, f64)]) -> Body {
    let mut wearer = match form {
        BodyForm::Woman => fixtures::woman(fixtures::AVERAGE),
        BodyForm::Man => fixtures::somebody(
            form,
            &[
                (Dimension::Stature, 1780.0),
                (Dimension::BustGirth, 1000.0),
                (Dimension::WaistGirth, 860.0),
                (Dimension::HipGirth, 1000.0),
                (Dimension::CrotchLength, 740.0),
                (Dimension::BackWaistLength, 440.0),
            ],
        ),
        BodyForm::Child => fixtures::somebody(
            form,
            &[
                (Dimension::Stature, 1280.0),
                (Dimension::BustGirth, 640.0),
                (Dimension::WaistGirth, 580.0),
                (Dimension::HipGirth, 670.0),
                (Dimension::CrotchLength, 540.0),
                (Dimension::BackWaistLength, 290.0),
                (Dimension::TrunkCircumference, 1220.0),
            ],
        ),
    };
    "Zephyrine".clone_into(&mut wearer.name);
    wearer.age_years = (form == BodyForm::Child).then_some(8.0);
    for (dimension, more) in more {
        let mm = wearer.taken.get(*dimension).unwrap() + units::Mm::new(*more);
        wearer.taken.set(*dimension, mm);
    }
    fixtures::completed(&wearer)
}

/// Everything worked out of one suit.
pub struct Worked {
    pub body: Body,
    pub cloth: ClothPlan,
    pub draft: Draft,
    pub fit: FitReport,
    pub elastic: Vec<ElasticPlan>,
    pub buy: Vec<ElasticBuy>,
    pub cut: Vec<CutRow>,
    pub making: Making,
    pub shopping: Shopping,
    pub workroom: Workroom,
}

/// A style on that form; `None` when it is refused.
pub fn worked(style: Style, form: BodyForm, workroom: Workroom) -> Option<Worked> {
    worked_on(body(form), style, workroom)
}

/// A style on a body; `None` when it is refused.
pub fn worked_on(body: Body, style: Style, workroom: Workroom) -> Option<Worked> {
    let form = body.form;
    let cloth = fixtures::slate();
    let design = Design::of(style);
    let draft = draft(&body, &cloth, &design).ok()?;
    let choice = ElasticChoice::default();
    let plans = elastic(&draft, &choice);
    let fit = judge(&body, &cloth, &draft, &ElasticAssumption::default());
    let (samples, worn) = (SampleBook::default(), WornStretch::of_draft(&draft));
    let input = MakingInput {
        draft: &draft,
        design: &design,
        cloth: &cloth,
        elastic: &choice,
        workroom: &workroom,
        samples: &samples,
        worn: &worn,
        masses: &[],
        is_child: form == BodyForm::Child,
    };
    let making = making(&input);
    let shopping = shopping(&input, &making, &ShoppingInput::default());
    Some(Worked {
        buy: elastic_to_buy(&plans),
        cut: cut_list(&draft, &cloth),
        body,
        cloth,
        fit,
        elastic: plans,
        making,
        shopping,
        workroom,
        draft,
    })
}

impl Worked {
    pub fn booklet(&self, choice: Choice) -> Booklet {
        self.booklet_in(choice, LengthUnit::Cm)
    }

    /// The booklet of a maker who measures in that unit.
    pub fn booklet_in(&self, choice: Choice, first_unit: LengthUnit) -> Booklet {
        let suit = Suit {
            name: "Zephyrine, try-out <&>",
            wearer: "Zephyrine",
            version: "1a2b3c4d",
            body: &self.body,
            cloth: &self.cloth,
            draft: &self.draft,
            fit_key: "regular",
            fit: &self.fit,
            elastic: &self.elastic,
            elastic_to_buy: &self.buy,
            cut_list: &self.cut,
            plan: Some(Plan {
                making: &self.making,
                workroom: &self.workroom,
                shopping: Some(&self.shopping),
            }),
            cautions: &["pressure", "float", "latex"],
            notes: "",
            first_unit,
        };
        compose(&suit, choice)
    }
}
