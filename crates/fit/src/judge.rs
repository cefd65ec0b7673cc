//! The quick judgement of a drafted suit, by formulas alone: before anything is cut or solved.
//!
//! Order: the loop in series with and without the planned elastic, the ladder with what each level presses, the way in.
//! Nothing here refuses: a place that is too tight, too slack or too small is a finding, and good ones are said too.

use std::cmp::Reverse;

use body::{Body, Trust};
use cloth::ClothPlan;
use draft::{Draft, TrunkLoop};
use units::{Finding, Limit, Severity};

use crate::elastic::ElasticAssumption;
use crate::ladder::{self, Wear};
use crate::report::{FitReport, SeriesLoop};
use crate::{series, way_in};

/// Straps stretched further drag at the shoulder (own).
pub const STRAP_WATCH: f64 = 1.15;
/// A torso shorter than this bags: the straps took all the ease (own).
pub const TORSO_WATCH: f64 = 1.00;

/// Judges a suit by quick formulas.
///
/// `body`, `cloth` and `draft` must belong together; `elastic`: the elastic planned for it. Ladder top to bottom, way in in
/// the draft's order, findings worst first (in the order of judging within one severity). Deterministic.
///
/// # Example
/// ```
/// # use body::{BodyForm, Dimension, Dimensions, FrontTaken, WaistLevel, Wearer, complete};
/// # use cloth::{ClothPlan, Load};
/// # use draft::{Design, draft};
/// # use units::{Mm, Stretch};
/// # let mut taken = Dimensions::default();
/// # for (dimension, mm) in [
/// #     (Dimension::Stature, 1650.0), (Dimension::BustGirth, 920.0), (Dimension::UnderbustGirth, 780.0),
/// #     (Dimension::WaistGirth, 760.0), (Dimension::HipGirth, 1000.0), (Dimension::CrotchLength, 720.0),
/// #     (Dimension::BackWaistLength, 408.0), (Dimension::TrunkCircumference, 1620.0),
/// # ] { taken.set(dimension, Mm::new(mm)); }
/// # let wearer = Wearer {
/// #     name: "Maren".into(), form: BodyForm::Woman, age_years: None, mass_kg: None,
/// #     waist_level: WaistLevel::Natural, front_taken: FrontTaken::OverBustPoint, trust: None, taken,
/// # };
/// # let (body, _) = complete(&wearer).unwrap();
/// # let (around, lengthwise) = (Stretch::from_percent(85.0), Stretch::from_percent(60.0));
/// # let cloth = ClothPlan::of_one_cloth("Slate tricot", around, lengthwise, Load::Hand);
/// # let suit = draft(&body, &cloth, &Design::default()).unwrap();
/// let report = fit::judge(&body, &cloth, &suit, &fit::ElasticAssumption::default());
/// assert_eq!(report.way_in[0].opening, "waist");
/// ```
pub fn judge(body: &Body, cloth: &ClothPlan, draft: &Draft, elastic: &ElasticAssumption) -> FitReport {
    let mut findings = Vec::new();
    let law = match cloth.law() {
        Ok(law) => Some(law),
        Err(error) => {
            findings.push(Finding {
                code: "pressure.no_law",
                severity: Severity::Watch,
                place: cloth.shell.cloth.clone(),
                message: format!("neither pressure nor the torso loop can be judged: {error}"),
                value: None,
                limit: None,
                remedy: "test the cloth's stretch again".to_owned(),
            });
            None
        }
    };
    let target = draft.trunk.as_ref().map(|trunk| loop_on_the_body(body, trunk));
    let solve = |with: Option<&ElasticAssumption>| {
        let (law, _) = law.as_ref()?;
        series::solve(&draft.loop_rungs, &draft.open_edges, target?, law, with)
    };
    let (held, bare) = (solve(Some(elastic)), solve(None));
    let by_part = |solved: &Option<series::SolvedLoop>| solved.as_ref().map(|s| s.by_part(&draft.loop_rungs));
    let (loop_with_elastic, loop_bare) = (by_part(&held), by_part(&bare));
    if let (Some(held), Some(bare)) = (&loop_with_elastic, &loop_bare) {
        judge_loop(held, bare, &mut findings);
    }
    let wear = Wear {
        body,
        cloth,
        draft,
        law,
        torso_loop: held.as_ref(),
    };
    let ladder = ladder::judge(&wear, &mut findings);
    let way_in = way_in::judge(cloth, draft, elastic, &mut findings);
    findings.sort_by_key(|f| Reverse(f.severity));
    FitReport {
        ladder,
        way_in,
        loop_with_elastic,
        loop_bare,
        findings,
    }
}

/// How long the loop is on the body, down the midline: the trunk circumference less its bias, or the sum of the parts where
/// it was not taken or is not believed.
fn loop_on_the_body(body: &Body, trunk: &TrunkLoop) -> f64 {
    match trunk.measured_mm {
        Some(measured) if body.trust != Some(Trust::Parts) => measured - trunk.bias_mm,
        _ => trunk.parts_mm,
    }
}

fn judge_loop(held: &SeriesLoop, bare: &SeriesLoop, findings: &mut Vec<Finding>) {
    let percent = |ratio: f64| (ratio - 1.0) * 100.0;
    let is_drag = held.strap > STRAP_WATCH;
    findings.push(Finding {
        code: "loop.strap",
        severity: if is_drag { Severity::Watch } else { Severity::Good },
        place: "straps".to_owned(),
        message: format!(
            "worn {:.0} % longer with the elastic, {:.0} % without",
            percent(held.strap),
            percent(bare.strap)
        ),
        value: Some(held.strap),
        limit: Some(Limit {
            text: format!("{STRAP_WATCH:.2}"),
            source: "own",
        }),
        remedy: if is_drag {
            "choose a looser fit or wider straps, or leave the straps long and set them at the try-on"
                .to_owned()
        } else {
            String::new()
        },
    });
    let is_slack = held.torso < TORSO_WATCH;
    findings.push(Finding {
        code: "loop.torso",
        severity: if is_slack { Severity::Watch } else { Severity::Good },
        place: "torso, waist to bust".to_owned(),
        message: format!(
            "worn {:+.1} % in length with the elastic, {:+.1} % without",
            percent(held.torso),
            percent(bare.torso)
        ),
        value: Some(held.torso),
        limit: Some(Limit {
            text: format!("{TORSO_WATCH:.2}"),
            source: "own",
        }),
        remedy: if is_slack {
            "the straps take all the stretch: choose wider straps or a firmer edge elastic, and look for folds at the back waist on a toile"
                .to_owned()
        } else {
            String::new()
        },
    });
}
