//! From a maker's swatches to what the draft works with: which way each lies, how far they stretch together, what is wrong.
//!
//! The draft never sees along and across, nor two layers: only one stretch around and one lengthwise, at one load.
//!
//! **Shapes and units.** Swatches by their own directions in; around and lengthwise out. Ratios.
//! **Limits.** Mesh is an inset or a trunks lining and is not joined to the pair; where it backs the whole suit, test all
//! layers together.

use units::{Finding, Limit, Severity, Stretch};

use crate::ease::NO_LENGTH_STRETCH;
use crate::error::ClothError;
use crate::law::{Axis, ForcePoint, LEAST_STRETCH, Law};
use crate::orientation::{SuitCloth, orient};
use crate::pair::{BLIND_SHARE, at_load, load_ratio, together_at};
use crate::plan::{ClothPlan, Layer, LayerPlan, Load, Orientation, PairSource};
use crate::reach::LiningReach;
use crate::stretch_test::{Checker, DirectionTest, LoadTaken, Tested};
use crate::swatch::Swatch;
use crate::verdict;

/// Below this stretch around nothing is drafted: the cloth of a suit must be stretched to be put on (own).
pub const LEAST_STRETCH_AROUND: f64 = 0.10;
/// A pair that reads further than its weaker layer by this was misread: two layers share the pull (own).
const PAIR_READING_ERROR: f64 = 0.05;

/// A test of shell and lining together, as they are sewn, by directions on the body; as written down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TogetherTest {
    /// Around the body.
    pub around: DirectionTest,
    /// Up and down.
    pub lengthwise: DirectionTest,
    /// How both were loaded.
    pub load: LoadTaken,
}

/// The cloths chosen for one suit.
#[derive(Clone, Debug, PartialEq)]
pub struct SuitCloths {
    /// The outer cloth.
    pub shell: SuitCloth,
    /// The lining, if there is a cloth for it.
    pub lining: Option<SuitCloth>,
    /// Power mesh, if there is any.
    pub mesh: Option<SuitCloth>,
    /// A second outer cloth for blocks, if there is one.
    pub contrast: Option<SuitCloth>,
    /// Shell and lining tested together; overrides any estimate.
    pub tested_together: Option<TogetherTest>,
}

impl SuitCloths {
    /// A suit of one cloth, its greatest stretch around.
    pub fn of_shell(shell: Swatch) -> SuitCloths {
        SuitCloths {
            shell: shell.into(),
            lining: None,
            mesh: None,
            contrast: None,
            tested_together: None,
        }
    }
}

/// What the draft works with, and what was judged of the cloths.
///
/// The pair of shell and lining sets the draft when the lining reaches front and back, or the front only: the draft takes
/// one stretch, so it takes that of the stiffer front and says so. With the crotch lined only, the shell alone sets it.
///
/// # Errors
/// All of: the faults of the test of both together (as [`Swatch::new`]); [`ClothError::NoLining`] when a lining that reaches
/// further than the crotch has no cloth; [`ClothError::NoStretch`] when the layers together stretch less than 10 % around.
///
/// # Example
/// ```
/// use cloth::{Layer, LiningReach, Orientation, SuitCloths, Swatch, SwatchRecord, plan};
/// let slate = Swatch::new(SwatchRecord::of_hand_test("Slate tricot", Layer::Shell, 85.0, 60.0)).unwrap();
/// let oat = Swatch::new(SwatchRecord::of_hand_test("Oat lining", Layer::Lining, 90.0, 90.0)).unwrap();
/// let mut cloths = SuitCloths::of_shell(slate);
/// cloths.lining = Some(oat.into());
/// let plan = plan(&cloths, LiningReach::CrotchOnly).unwrap();
/// assert_eq!(plan.shell.orientation, Orientation::Turned);
/// assert_eq!(plan.around.percent(), 85.0);
/// ```
pub fn plan(cloths: &SuitCloths, covers_body: LiningReach) -> Result<ClothPlan, Vec<ClothError>> {
    let mut errors = Vec::new();
    let mut findings = Vec::new();
    let together = checked_together(cloths, &mut errors);
    if covers_body.is_layered() && cloths.lining.is_none() {
        errors.push(ClothError::NoLining { reach: covers_body });
    }

    let shell = lay(&cloths.shell, Layer::Shell, &mut findings);
    let lining = cloths
        .lining
        .as_ref()
        .filter(|_| covers_body != LiningReach::None)
        .map(|l| (&l.swatch, lay(l, Layer::Lining, &mut findings)));
    let mesh = cloths
        .mesh
        .as_ref()
        .map(|m| (&m.swatch, lay(m, Layer::Mesh, &mut findings)));
    let contrast = cloths
        .contrast
        .as_ref()
        .map(|c| (&c.swatch, lay(c, Layer::Contrast, &mut findings)));

    let shell_swatch = &cloths.shell.swatch;
    let layers = Layers {
        reach: covers_body,
        shell: &shell,
        lining: lining.as_ref().map(|(_, plan)| plan),
        together,
    };
    let joined = layers.join(&mut findings);
    if joined.around.ratio() < LEAST_STRETCH_AROUND {
        errors.push(ClothError::NoStretch {
            cloth: layers.names(),
            around_percent: joined.around.percent(),
        });
    }
    if !errors.is_empty() {
        return Err(errors);
    }

    verdict::stretch(&joined, &mut findings);
    let mut swatches = vec![(shell_swatch, &shell)];
    swatches.extend(
        lining
            .iter()
            .chain(&mesh)
            .chain(&contrast)
            .map(|(swatch, plan)| (*swatch, plan)),
    );
    for (swatch, plan) in &swatches {
        verdict::recovery(swatch, plan, &mut findings);
    }
    if let Some((_, lining)) = &lining {
        verdict::lining(&joined, &shell, lining, covers_body, &mut findings);
    }
    verdict::shrinkage(&swatches, &mut findings);
    if covers_body.is_layered() && mesh.is_some() {
        findings.push(mesh_not_counted());
    }

    let to_come = shell_swatch.shrinkage_to_come(shell.orientation);
    let (measured_law, measured_tension) =
        measured_law(&joined, &layers, shell_swatch, lining.as_ref().map(|(s, _)| *s));
    Ok(ClothPlan {
        around: joined.around,
        lengthwise: joined.lengthwise,
        load: joined.load,
        pair: joined.source,
        shrinkage_factor_around: 1.0 / (1.0 - to_come.0),
        shrinkage_factor_lengthwise: 1.0 / (1.0 - to_come.1),
        measured_tension,
        measured_law,
        findings,
        lining: lining.map(|(_, plan)| plan),
        mesh: mesh.map(|(_, plan)| plan),
        contrast: contrast.map(|(_, plan)| plan),
        shell,
    })
}

/// The layers together as the draft sees them.
pub(crate) struct Joined {
    pub(crate) around: Stretch,
    pub(crate) lengthwise: Stretch,
    pub(crate) load: Load,
    pub(crate) source: PairSource,
}

fn lay(cloth: &SuitCloth, layer: Layer, findings: &mut Vec<Finding>) -> LayerPlan {
    let orientation = orient(cloth, layer, findings);
    LayerPlan {
        layer,
        cloth: cloth.swatch.name().to_owned(),
        orientation,
        around: cloth.swatch.around(orientation),
        lengthwise: cloth.swatch.lengthwise(orientation),
        load: cloth.swatch.load(),
        width: cloth.swatch.width(),
    }
}

/// The checked test of both layers, around and lengthwise.
fn checked_together(cloths: &SuitCloths, errors: &mut Vec<ClothError>) -> Option<(Tested, Tested, Load)> {
    let test = cloths.tested_together.as_ref()?;
    let mut check = Checker {
        cloth: "shell and lining together",
        errors,
    };
    let around = check.test("stretch_around", &test.around);
    let lengthwise = check.test("stretch_lengthwise", &test.lengthwise);
    let load = check.load("load", &test.load);
    Some((around?, lengthwise?, load?))
}

struct Layers<'a> {
    reach: LiningReach,
    shell: &'a LayerPlan,
    lining: Option<&'a LayerPlan>,
    together: Option<(Tested, Tested, Load)>,
}

impl Layers<'_> {
    fn names(&self) -> String {
        match self.lining {
            Some(lining) if self.reach.is_layered() => {
                format!("{} with {}", self.shell.cloth, lining.cloth)
            }
            _ => self.shell.cloth.clone(),
        }
    }

    /// The stretch the draft works with, with what there is to say about how it was found.
    fn join(&self, findings: &mut Vec<Finding>) -> Joined {
        let Some(lining) = self.lining.filter(|_| self.reach.is_layered()) else {
            return Joined {
                around: self.shell.around,
                lengthwise: self.shell.lengthwise,
                load: self.shell.load,
                source: PairSource::Single,
            };
        };
        let joined = match self.together {
            Some(together) => self.tested(together, lining, findings),
            None => self.estimated(lining, findings),
        };
        if self.reach == LiningReach::FrontOnly {
            findings.push(Finding {
                code: "cloth.front_lining",
                severity: Severity::Watch,
                place: "front lining".to_owned(),
                message: format!(
                    "the front stretches {} around with its lining, the back {} without: the draft takes the front's",
                    joined.around, self.shell.around
                ),
                value: Some(self.shell.around.percent() - joined.around.percent()),
                limit: None,
                remedy: "expect the back to feel easier than the front, or line front and back".to_owned(),
            });
        }
        joined
    }

    fn tested(
        &self,
        (around, lengthwise, load): (Tested, Tested, Load),
        lining: &LayerPlan,
        findings: &mut Vec<Finding>,
    ) -> Joined {
        let place = self.names();
        for (direction, both, shell, lining_stretch) in [
            ("around", around, self.shell.around, lining.around),
            ("lengthwise", lengthwise, self.shell.lengthwise, lining.lengthwise),
        ] {
            let is_same_load =
                load_ratio(load, self.shell.load) == Some(1.0) && load_ratio(load, lining.load) == Some(1.0);
            let weaker = shell.ratio().min(lining_stretch.ratio());
            if is_same_load && both.stretch.ratio() > weaker + PAIR_READING_ERROR {
                findings.push(Finding {
                    code: "cloth.pair_test",
                    severity: Severity::Watch,
                    place: place.clone(),
                    message: format!(
                        "tested together they stretch {} {direction}, further than the weaker alone at {:.0} %: one of the tests is off",
                        both.stretch,
                        weaker * 100.0
                    ),
                    value: Some(both.stretch.percent()),
                    limit: Some(Limit {
                        text: format!("{:.0} %", (weaker + PAIR_READING_ERROR) * 100.0),
                        source: "own: layers that move as one share the pull",
                    }),
                    remedy: "pull all three again with the same force".to_owned(),
                });
            }
        }
        findings.push(Finding {
            code: "cloth.pair",
            severity: Severity::Good,
            place,
            message: format!(
                "tested together, {load}: stretch {} around, {} lengthwise",
                around.stretch, lengthwise.stretch
            ),
            value: Some(around.stretch.percent()),
            limit: None,
            remedy: String::new(),
        });
        Joined {
            around: around.stretch,
            lengthwise: lengthwise.stretch,
            load,
            source: PairSource::TestedTogether,
        }
    }

    fn estimated(&self, lining: &LayerPlan, findings: &mut Vec<Finding>) -> Joined {
        let ratio = load_ratio(self.shell.load, lining.load);
        let both = |a: Stretch, b: Stretch| match ratio {
            Some(ratio) => together_at(a, b, ratio),
            None => Stretch::from_ratio(BLIND_SHARE * a.ratio().min(b.ratio())),
        };
        let joined = Joined {
            around: both(self.shell.around, lining.around),
            lengthwise: both(self.shell.lengthwise, lining.lengthwise),
            load: self.shell.load,
            source: PairSource::Estimated,
        };
        let stretches = format!(
            "stretch {} around, {} lengthwise together",
            joined.around, joined.lengthwise
        );
        findings.push(if ratio.is_some() {
            Finding {
                code: "cloth.pair",
                severity: Severity::Good,
                place: self.names(),
                message: format!(
                    "{stretches}, estimated from the two single tests: a test of both together is better"
                ),
                value: Some(joined.around.percent()),
                limit: None,
                remedy: String::new(),
            }
        } else {
            Finding {
                code: "cloth.pair",
                severity: Severity::Watch,
                place: self.names(),
                message: format!(
                    "{stretches}, a guess: one was pulled by hand, the other weighed, which can't be compared"
                ),
                value: Some(joined.around.percent()),
                limit: Some(Limit {
                    text: "0.7 of the lesser stretch".to_owned(),
                    source: "own; two like layers come out at 0.63 to 0.77",
                }),
                remedy: "test shell and lining together, laid on each other as they are sewn".to_owned(),
            }
        });
        joined
    }
}

fn mesh_not_counted() -> Finding {
    Finding {
        code: "cloth.mesh",
        severity: Severity::Watch,
        place: "mesh".to_owned(),
        message: "the mesh is not part of the stretch the draft works with".to_owned(),
        value: None,
        limit: None,
        remedy: "where mesh backs shell and lining, test all layers together and enter that test".to_owned(),
    }
}

/// Law of one cloth from its weighed test and its force readings; `None` unless both directions have a point.
fn swatch_law(swatch: &Swatch, lies: Orientation) -> Option<Law> {
    let mut points = swatch.force_points(lies);
    if let Some(tension_n_per_m) = swatch.load().newton_per_metre() {
        points.extend(test_points(
            swatch.around(lies),
            swatch.lengthwise(lies),
            tension_n_per_m,
        ));
    }
    // The only possible fault here is a direction without a point: the swatch is checked.
    Law::from_points(&points).ok()
}

fn test_points(around: Stretch, lengthwise: Stretch, tension_n_per_m: f64) -> [ForcePoint; 2] {
    [(Axis::Around, around), (Axis::Lengthwise, lengthwise)].map(|(axis, stretch)| ForcePoint {
        axis,
        stretch: stretch.ratio().max(LEAST_STRETCH),
        tension_n_per_m,
    })
}

/// The law of the layers together if their forces were weighed, and their tension around at the stretch of the plan.
fn measured_law(
    joined: &Joined,
    layers: &Layers<'_>,
    shell: &Swatch,
    lining: Option<&Swatch>,
) -> (Option<Law>, Option<f64>) {
    let law = match (joined.source, layers.lining, lining) {
        (PairSource::TestedTogether, ..) => joined
            .load
            .newton_per_metre()
            .and_then(|pull| Law::from_points(&test_points(joined.around, joined.lengthwise, pull)).ok()),
        (PairSource::Estimated, Some(lining_plan), Some(lining)) => {
            let both =
                swatch_law(shell, layers.shell.orientation).zip(swatch_law(lining, lining_plan.orientation));
            both.and_then(|(a, b)| sum_of_laws(&a, &b, joined))
        }
        _ => swatch_law(shell, layers.shell.orientation),
    };
    let tension = joined
        .load
        .newton_per_metre()
        .or_else(|| law.map(|law| law.strip_tension(Axis::Around, 1.0 + joined.around.ratio())));
    (law, law.and(tension))
}

/// One law for two layers that move as one: fitted to the sum of their tensions over the working range.
fn sum_of_laws(a: &Law, b: &Law, joined: &Joined) -> Option<Law> {
    let points: Vec<ForcePoint> = [
        (Axis::Around, joined.around),
        (Axis::Lengthwise, joined.lengthwise),
    ]
    .into_iter()
    .flat_map(|(axis, stretch)| {
        [0.25, 0.5, 1.0].map(|share| {
            let stretch = (share * stretch.ratio()).max(LEAST_STRETCH);
            ForcePoint {
                axis,
                stretch,
                tension_n_per_m: a.strip_tension(axis, 1.0 + stretch) + b.strip_tension(axis, 1.0 + stretch),
            }
        })
    })
    .collect();
    Law::from_points(&points).ok()
}

/// The lining's stretch at the shell's load, if the loads can be compared.
pub(crate) fn lining_at_shell_load(shell: &LayerPlan, lining: &LayerPlan) -> Option<(Stretch, Stretch)> {
    let ratio = load_ratio(shell.load, lining.load)?;
    Some((at_load(lining.around, ratio), at_load(lining.lengthwise, ratio)))
}

/// Whether the cloths count as having no stretch lengthwise.
pub(crate) fn is_one_way_stretch(joined: &Joined) -> bool {
    joined.lengthwise.ratio() < NO_LENGTH_STRETCH
}
