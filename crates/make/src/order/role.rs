//! The role of a seam in the suit, from its name in the draft or the name of its edge: what it is called and when it is sewn.

use crate::job::Job;

/// What a seam is for. The order of the ranks is the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) enum Role {
    Dart,
    Princess,
    Panel,
    Diagonal,
    Across,
    CentreFront,
    CentreBack,
    Crotch,
    Inseam,
    Side,
    Shoulder,
    SleeveCap,
    Collar,
    BandRing,
    Band,
    Attach,
    Tube,
    SkirtSide,
    SkirtJoin,
    LiningEdge,
    Other,
}

impl Role {
    /// The role of a draft's seam.
    pub(crate) fn of_seam(name: &str) -> Role {
        match name {
            "side panel" => Role::Panel,
            "skirt side" => Role::SkirtSide,
            "skirt join" => Role::SkirtJoin,
            "sleeve seam" | "brief side" | "shelf bra side" | "mesh side" => Role::Side,
            "inseam" | "mesh inseam" => Role::Inseam,
            "collar" => Role::Collar,
            "band" | "waistband" => Role::Band,
            "neck piece" | "neck strap" | "front tie" | "back tie" => Role::Attach,
            "diagonal" => Role::Diagonal,
            "underbust seam" | "waist seam" | "block seam" | "lower band seam" | "upper band seam" => {
                Role::Across
            }
            "centre front" => Role::CentreFront,
            "centre back" => Role::CentreBack,
            n if n.starts_with("side") => Role::Side,
            n if n.starts_with("shoulder") => Role::Shoulder,
            n if n.starts_with("crotch") => Role::Crotch,
            n if n.starts_with("princess") => Role::Princess,
            n if n.starts_with("sleeve") => Role::SleeveCap,
            n if n.starts_with("tie, ") => Role::Attach,
            n if n.starts_with("lining, ") => Role::LiningEdge,
            _ => Role::Other,
        }
    }

    /// The role of a seam edge no walk of the draft names: of a lining, a strap, a band, a pocket.
    pub(crate) fn of_edge(piece: &str, edge: &str) -> Role {
        let is_tube = ["strap", "tie", "neck_piece", "zip_shield"]
            .iter()
            .any(|p| piece.contains(p));
        match edge {
            "long_left" | "long_right" | "edge" | "other_edge" | "free_end" | "end_free" => Role::Tube,
            "top" if is_tube => Role::Tube,
            "end" | "end_suit" | "tie_end" | "strap_end" if is_tube => Role::Attach,
            "tie_end" | "strap_end" => Role::Attach,
            "dart_low" | "dart_up" => Role::Dart,
            "princess_low" | "princess_up" => Role::Princess,
            "panel_seam" => Role::Panel,
            "diagonal_seam" => Role::Diagonal,
            "underbust_seam" | "waist_seam" | "block_seam" | "band_low" | "band_up" => Role::Across,
            "centre_front" => Role::CentreFront,
            "centre_back" => Role::CentreBack,
            "centre" if piece.starts_with("front") => Role::CentreFront,
            "centre" => Role::CentreBack,
            "crotch" | "crotch_left" => Role::Crotch,
            "inseam" => Role::Inseam,
            "side_front" | "side_back" | "liner_side" => Role::Side,
            e if e.starts_with("side") => Role::Side,
            e if e.starts_with("shoulder") => Role::Shoulder,
            "cap_front" | "cap_back" | "armhole" => Role::SleeveCap,
            "neck" | "neck_inside" => Role::Collar,
            "end" | "join" => Role::BandRing,
            "bottom" | "top" | "lower" | "upper" => Role::Band,
            _ => Role::Other,
        }
    }

    /// Its name in ids and keys.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Role::Dart => "dart",
            Role::Princess => "princess",
            Role::Panel => "panel",
            Role::Diagonal => "diagonal",
            Role::Across => "across",
            Role::CentreFront => "centre_front",
            Role::CentreBack => "centre_back",
            Role::Crotch => "crotch",
            Role::Inseam => "inseam",
            Role::Side => "side",
            Role::Shoulder => "shoulder",
            Role::SleeveCap => "sleeve",
            Role::Collar => "collar",
            Role::BandRing => "band_ring",
            Role::Band => "band",
            Role::Attach => "attach",
            Role::Tube => "strap",
            Role::SkirtSide => "skirt_side",
            Role::SkirtJoin => "skirt",
            Role::LiningEdge => "lining_edge",
            Role::Other => "other",
        }
    }

    /// Key of the step in shell, and in lining.
    pub(crate) const fn keys(self) -> (&'static str, &'static str) {
        match self {
            Role::Dart => ("step.dart", "step.lining_dart"),
            Role::Princess => ("step.princess", "step.lining_princess"),
            Role::Panel => ("step.panel", "step.lining_panel"),
            Role::Diagonal => ("step.diagonal", "step.lining_panel"),
            Role::Across => ("step.across", "step.lining_panel"),
            Role::CentreFront => ("step.centre_front", "step.lining_centre_front"),
            Role::CentreBack => ("step.centre_back", "step.lining_centre_back"),
            Role::Crotch => ("step.crotch", "step.lining_crotch"),
            Role::Inseam => ("step.inseam", "step.lining_inseam"),
            Role::Side => ("step.side", "step.lining_side"),
            Role::Shoulder => ("step.shoulder", "step.lining_shoulder"),
            Role::SleeveCap => ("step.sleeve", "step.lining_other"),
            Role::Collar => ("step.collar", "step.lining_other"),
            Role::BandRing => ("step.band_ring", "step.lining_other"),
            Role::Band => ("step.band", "step.lining_other"),
            Role::Attach => ("step.attach", "step.lining_other"),
            Role::Tube => ("step.strap", "step.lining_other"),
            Role::SkirtSide => ("step.skirt_side", "step.lining_other"),
            Role::SkirtJoin => ("step.skirt", "step.lining_other"),
            Role::LiningEdge => ("step.lining_edge", "step.lining_edge"),
            Role::Other => ("step.other", "step.lining_other"),
        }
    }

    /// When it is sewn. A sleeve is set flat: then shoulders and caps come before the sides.
    pub(crate) const fn rank(self, has_sleeves: bool) -> u16 {
        match self {
            Role::Dart => 110,
            Role::Princess | Role::Panel | Role::Diagonal => 120,
            Role::Across => 130,
            Role::CentreFront => 140,
            Role::CentreBack => 145,
            Role::LiningEdge => 148,
            Role::Crotch => 150,
            Role::Shoulder if has_sleeves => 170,
            Role::SleeveCap => 175,
            Role::Side => 180,
            // Both legs in one run, when the sides are closed.
            Role::Inseam => 185,
            Role::Shoulder => 190,
            Role::Tube | Role::BandRing | Role::SkirtSide => 100,
            Role::Other => 200,
            Role::Attach => 210,
            Role::Band => 230,
            Role::Collar => 240,
            Role::SkirtJoin => 250,
        }
    }

    /// What the needle does there.
    pub(crate) const fn job(self) -> Job {
        match self {
            Role::Crotch => Job::Crotch,
            Role::Tube => Job::Tube,
            Role::SkirtJoin => Job::SkirtJoin,
            _ => Job::Join,
        }
    }
}
