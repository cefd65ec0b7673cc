//! What the draft needs to know of the cloths of a suit: stretch on the body, which way each lies, what is judged of it.

use std::fmt;

use serde::Serialize;
use units::{Finding, Mm, Stretch};

use crate::law::{ASSUMED_HAND_PULL, ASSUMED_STIFFENING, Law, LawError};

/// A layer of cloth in a suit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Layer {
    /// The outer cloth.
    Shell,
    /// The lining.
    Lining,
    /// Power mesh.
    Mesh,
    /// A second outer cloth, for blocks of another colour.
    Contrast,
}

impl Layer {
    /// The name on paper and in files.
    pub const fn name(self) -> &'static str {
        match self {
            Layer::Shell => "shell",
            Layer::Lining => "lining",
            Layer::Mesh => "mesh",
            Layer::Contrast => "contrast",
        }
    }
}

/// Which of a cloth's directions lies around the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Orientation {
    /// Across (selvedge to selvedge) lies around; the grain arrow stands upright on the piece.
    Upright,
    /// Along (parallel to the selvedge) lies around; the grain arrow lies around.
    Turned,
}

impl Orientation {
    /// The word on paper and in files.
    pub const fn name(self) -> &'static str {
        match self {
            Orientation::Upright => "upright",
            Orientation::Turned => "turned",
        }
    }
}

/// The load at which a stretch was read. Two stretches at different loads are never compared.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Load {
    /// Pulled by hand until it resists sharply.
    Hand,
    /// Weighed, in newtons per centimetre of width.
    NewtonPerCm(f64),
}

impl Load {
    /// The load in N/m, if it was weighed.
    pub fn newton_per_metre(self) -> Option<f64> {
        match self {
            Load::Hand => None,
            Load::NewtonPerCm(n_per_cm) => Some(n_per_cm * 100.0),
        }
    }
}

/// `hand`, or `3.0 N/cm`: printed beside every stretch.
impl fmt::Display for Load {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Load::Hand => f.write_str("hand"),
            Load::NewtonPerCm(n_per_cm) => write!(f, "{n_per_cm:.1} N/cm"),
        }
    }
}

/// One layer as it lies on the body.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LayerPlan {
    /// Which layer.
    pub layer: Layer,
    /// The cloth's name.
    pub cloth: String,
    /// Which way it lies.
    pub orientation: Orientation,
    /// Its stretch around the body.
    pub around: Stretch,
    /// Its stretch up and down the body.
    pub lengthwise: Stretch,
    /// The load both were read at.
    pub load: Load,
    /// Usable width between the selvedges, if known.
    pub width: Option<Mm>,
}

/// How the stretch of shell and lining together was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PairSource {
    /// One layer only.
    Single,
    /// Shell and lining were tested together, as they are sewn.
    TestedTogether,
    /// Computed from the two single tests.
    Estimated,
}

/// The cloths of a suit, oriented and joined: what the draft works with.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClothPlan {
    /// Stretch around the body of the layers together: the S_x of every formula.
    pub around: Stretch,
    /// Stretch lengthwise of the layers together: S_y.
    pub lengthwise: Stretch,
    /// Load of both.
    pub load: Load,
    /// Where they come from.
    pub pair: PairSource,
    /// Pattern lengths around are multiplied by this for shrinkage still to come: 1 when the cloth is washed before
    /// cutting. Applied by the draft once, nowhere else.
    pub shrinkage_factor_around: f64,
    /// The same lengthwise.
    pub shrinkage_factor_lengthwise: f64,
    /// The shell.
    pub shell: LayerPlan,
    /// The lining, if there is one.
    pub lining: Option<LayerPlan>,
    /// The mesh, if there is one.
    pub mesh: Option<LayerPlan>,
    /// The second outer cloth, if there is one; without it blocks are taken to be cut from a cloth that stretches as the shell does.
    pub contrast: Option<LayerPlan>,
    /// Force per width at the load in N/m for the layers together around and lengthwise, if it was weighed; otherwise
    /// `None`, and pressures are relative.
    pub measured_tension: Option<f64>,
    /// The law of the layers together, if it rests on weighed forces; see [`ClothPlan::law`].
    pub measured_law: Option<Law>,
    /// What was judged of the cloths.
    pub findings: Vec<Finding>,
}

impl ClothPlan {
    /// The plan of a suit of one unlined, washed cloth whose stretch on the body is already known, without findings: for
    /// worked examples and tests. Use `plan` for a maker's swatches, which are judged.
    pub fn of_one_cloth(name: &str, around: Stretch, lengthwise: Stretch, load: Load) -> ClothPlan {
        ClothPlan {
            around,
            lengthwise,
            load,
            pair: PairSource::Single,
            shrinkage_factor_around: 1.0,
            shrinkage_factor_lengthwise: 1.0,
            shell: LayerPlan {
                layer: Layer::Shell,
                cloth: name.to_owned(),
                orientation: Orientation::Upright,
                around,
                lengthwise,
                load,
                width: None,
            },
            lining: None,
            mesh: None,
            contrast: None,
            measured_tension: load.newton_per_metre(),
            measured_law: None,
            findings: Vec::new(),
        }
    }

    /// The law of the layers together: the measured one, or the one that stretches as far as these cloths do under their
    /// load, a hand pull being taken for [`ASSUMED_HAND_PULL`]. Second: whether its forces are only assumed, so that
    /// pressures may be compared but not believed.
    ///
    /// # Errors
    /// [`LawError`] if the stretches or the load are no numbers of a cloth.
    pub fn law(&self) -> Result<(Law, bool), LawError> {
        if let Some(law) = self.measured_law {
            return Ok((law, false));
        }
        let pull = self.load.newton_per_metre();
        let law = Law::from_stretch(
            self.lengthwise.ratio(),
            self.around.ratio(),
            pull.unwrap_or(ASSUMED_HAND_PULL),
            ASSUMED_STIFFENING,
        )?;
        Ok((law, pull.is_none()))
    }
}
