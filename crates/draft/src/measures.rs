//! The body's dimensions as the plain millimetres the formulas use, under the draft's own short names.
//!
//! A formula reads better with `bust` than with a lookup; this is the one place where a dimension can be missing.

use body::{Body, BodyForm, Dimension, FrontTaken, Origin, Trust, WaistLevel};

use crate::design::Figure;
use crate::refusal::Refusal;

/// Dimensions in mm. Lengths along the body, girths once round.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Measures {
    pub(crate) form: BodyForm,
    pub(crate) age_years: Option<f64>,
    pub(crate) is_navel: bool,
    pub(crate) stature: f64,
    pub(crate) bust: f64,
    pub(crate) underbust: Option<f64>,
    pub(crate) waist: f64,
    pub(crate) high_hip: f64,
    pub(crate) hip: f64,
    pub(crate) neck_base: f64,
    pub(crate) thigh: f64,
    pub(crate) back_waist: f64,
    pub(crate) front_waist: f64,
    pub(crate) front_taken: Option<FrontTaken>,
    pub(crate) side_neck_to_bust_point: f64,
    pub(crate) is_bust_point_taken: bool,
    pub(crate) bust_point_distance: f64,
    pub(crate) shoulder: f64,
    /// Round both shoulders over the arms: what a top that is pulled on must pass.
    pub(crate) shoulder_girth: f64,
    pub(crate) side_length: f64,
    pub(crate) waist_to_hip: f64,
    pub(crate) rise_height: f64,
    pub(crate) crotch_length: f64,
    /// Front part of the total crotch length, as a share.
    pub(crate) front_share: f64,
    pub(crate) trunk: Option<f64>,
    pub(crate) trust: Option<Trust>,
    pub(crate) arm: Arm,
    /// What is drawn at the centre follows one side of a body that is not alike left and right: its shoulder, for the trunk loop, and
    /// its side neck to bust point, for the neckline.
    pub(crate) centre: Centre,
    /// Corrections the levels are drawn with.
    pub(crate) figure: Figure,
}

/// See [`Measures::centre`].
#[derive(Clone, Copy, Debug)]
pub(crate) struct Centre {
    pub(crate) shoulder: f64,
    pub(crate) side_neck_to_bust_point: f64,
}

/// What a sleeve is drawn from, mm.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Arm {
    pub(crate) upper_girth: f64,
    pub(crate) wrist_girth: f64,
    /// Shoulder point over the bent elbow to the wrist.
    pub(crate) length: f64,
    pub(crate) across_back: f64,
    pub(crate) across_front: f64,
}

impl Measures {
    pub(crate) fn of(body: &Body) -> Result<Measures, Refusal> {
        let need = |dimension: Dimension| body.mm(dimension).ok_or(Refusal::Missing { dimension });
        let crotch_length = need(Dimension::CrotchLength)?;
        let usual_share = if body.form == BodyForm::Man { 0.43 } else { 0.45 };
        let front_share = match body.mm(Dimension::CrotchLengthFront) {
            Some(front) if body.is_taken(Dimension::CrotchLengthFront) => front / crotch_length,
            _ => usual_share,
        };
        if !(0.35..=0.55).contains(&front_share) {
            return Err(Refusal::Dimensions {
                dimension: Dimension::CrotchLengthFront,
                why: "the front part is not between 35 and 55 % of the total crotch length; mark the crotch point and take both again",
            });
        }
        let front_known = body.get(Dimension::FrontWaistLength).ok_or(Refusal::Missing {
            dimension: Dimension::FrontWaistLength,
        })?;
        let has_bust = body.form == BodyForm::Woman;
        let side_neck_to_bust_point = match body.mm(Dimension::SideNeckToBustPoint) {
            Some(mm) => mm,
            None if has_bust => {
                return Err(Refusal::Missing {
                    dimension: Dimension::SideNeckToBustPoint,
                });
            }
            None => 0.6 * front_known.value.get(),
        };
        Ok(Measures {
            form: body.form,
            age_years: body.age_years,
            is_navel: body.waist_level == WaistLevel::Navel,
            stature: need(Dimension::Stature)?,
            bust: need(Dimension::BustGirth)?,
            underbust: body.mm(Dimension::UnderbustGirth),
            waist: need(Dimension::WaistGirth)?,
            high_hip: need(Dimension::HighHipGirth)?,
            hip: need(Dimension::HipGirth)?,
            neck_base: need(Dimension::NeckBaseGirth)?,
            thigh: need(Dimension::ThighGirth)?,
            back_waist: need(Dimension::BackWaistLength)?,
            front_waist: front_known.value.get(),
            front_taken: matches!(front_known.origin, Origin::Taken).then_some(body.front_taken),
            side_neck_to_bust_point,
            is_bust_point_taken: body.is_taken(Dimension::SideNeckToBustPoint),
            bust_point_distance: match body.mm(Dimension::BustPointDistance) {
                Some(mm) => mm,
                None if has_bust => {
                    return Err(Refusal::Missing {
                        dimension: Dimension::BustPointDistance,
                    });
                }
                None => 0.2 * need(Dimension::BustGirth)?,
            },
            shoulder: need(Dimension::ShoulderLength)?,
            shoulder_girth: need(Dimension::ShoulderGirth)?,
            side_length: need(Dimension::SideLength)?,
            waist_to_hip: need(Dimension::WaistToHip)?,
            rise_height: need(Dimension::RiseHeight)?,
            crotch_length,
            front_share,
            trunk: body.mm(Dimension::TrunkCircumference),
            trust: body.trust,
            centre: Centre {
                shoulder: need(Dimension::ShoulderLength)?,
                side_neck_to_bust_point,
            },
            figure: Figure::NONE,
            arm: Arm {
                upper_girth: need(Dimension::UpperArmGirth)?,
                wrist_girth: need(Dimension::WristGirth)?,
                length: need(Dimension::ArmLength)?,
                across_back: need(Dimension::AcrossBack)?,
                across_front: need(Dimension::AcrossFront)?,
            },
        })
    }

    pub(crate) fn is_woman(&self) -> bool {
        self.form == BodyForm::Woman
    }

    /// What a top that is pulled on must pass: the bust, or both shoulders and arms.
    pub(crate) fn over_the_shoulders(&self) -> f64 {
        self.bust.max(self.shoulder_girth)
    }

    /// Bust less under-bust, mm; 0 where there is no under-bust.
    pub(crate) fn cup_difference(&self) -> f64 {
        self.underbust.map_or(0.0, |u| self.bust - u)
    }
}
