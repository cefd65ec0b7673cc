//! The remedies of each complaint, the likeliest and least costly first.

use cloth::Fit;
use draft::{BackShape, BustShaping, Cups, Design, Draft, LiningCover, OpeningKind, Seat, Shared};
use units::{Level, Severity};

use super::{Change, Complaint, Remedy, fit_as_pinned};
use crate::FitReport;

/// The remedies that this design, draft and judgement leave.
pub(super) fn remedies(complaint: Complaint, design: &Design, draft: &Draft, fit: &FitReport) -> Vec<Remedy> {
    let suit = Suit { design, draft, fit };
    let mut list = List {
        suit: &suit,
        all: Vec::new(),
    };
    match complaint {
        Complaint::StrapsSlip => straps_slip(&mut list),
        Complaint::StrapsDig => straps_dig(&mut list),
        Complaint::NecklineGapes => neckline_gapes(&mut list),
        Complaint::ArmholeGapes => armhole_gapes(&mut list),
        Complaint::BackGapes => back_gapes(&mut list),
        Complaint::SquashesBust => squashes_bust(&mut list),
        Complaint::BustNotHeld => bust_not_held(&mut list),
        Complaint::TooTight => too_tight(&mut list),
        Complaint::TooLoose => too_loose(&mut list),
        Complaint::TooLong => too_long(&mut list),
        Complaint::TooShort => too_short(&mut list),
        Complaint::BackWaistFolds => back_waist_folds(&mut list),
        Complaint::WaistSlides => waist_slides(&mut list),
        Complaint::RidesUpBehind => rides_up_behind(&mut list),
        Complaint::RidesUpInFront => rides_up_in_front(&mut list),
        Complaint::LegCutsIn => leg_cuts_in(&mut list),
        Complaint::LegGapes => leg_gapes(&mut list),
        Complaint::HardToGetInto => hard_to_get_into(&mut list),
        Complaint::SkirtShort => list.change(
            "Skirt 2 cm longer",
            "the hem is measured from the crotch down; measure on a skirt she likes",
            Change::SkirtCover(20.0),
        ),
        Complaint::SkirtLong => list.change(
            "Skirt 2 cm shorter",
            "a long skirt climbs and drags in the water",
            Change::SkirtCover(-20.0),
        ),
    }
    list.all
}

struct Suit<'a> {
    design: &'a Design,
    draft: &'a Draft,
    fit: &'a FitReport,
}

impl Suit<'_> {
    fn has(&self, shared: Shared) -> bool {
        self.design.style.has(shared)
    }

    /// Worn length of the straps over their length at rest.
    fn strap_stretch(&self) -> Option<f64> {
        let series = self.fit.loop_with_elastic.or(self.fit.loop_bare)?;
        Some(series.strap)
    }

    fn torso_stretch(&self) -> Option<f64> {
        let series = self.fit.loop_with_elastic.or(self.fit.loop_bare)?;
        Some(series.torso)
    }

    /// Worn stretch at a level.
    fn worn(&self, level: Level) -> Option<f64> {
        self.fit.ladder.iter().find(|r| r.level == level).map(|r| r.worn)
    }

    fn is_tightest_at(&self) -> Option<(Level, f64)> {
        self.fit
            .ladder
            .iter()
            .max_by(|a, b| a.worn.total_cmp(&b.worn))
            .map(|r| (r.level, r.worn))
    }
}

struct List<'a> {
    suit: &'a Suit<'a>,
    all: Vec<Remedy>,
}

impl List<'_> {
    fn change(&mut self, says: impl Into<String>, why: impl Into<String>, change: Change) {
        self.all.push(Remedy {
            says: says.into(),
            why: why.into(),
            change: Some(change),
        });
    }

    fn by_hand(&mut self, says: impl Into<String>, why: impl Into<String>) {
        self.all.push(Remedy {
            says: says.into(),
            why: why.into(),
            change: None,
        });
    }

    fn looser(&mut self, why: impl Into<String>) {
        if let Some(fit) = self.suit.design.fit.looser() {
            self.change(
                format!("Fit {} instead of {}", fit.key(), self.suit.design.fit.key()),
                why,
                Change::Fit(fit),
            );
        }
    }

    fn firmer(&mut self, why: impl Into<String>) {
        if let Some(fit) = self.suit.design.fit.firmer() {
            self.change(
                format!("Fit {} instead of {}", fit.key(), self.suit.design.fit.key()),
                why,
                Change::Fit(fit),
            );
        }
    }

    /// The fit of a suit whose side seams were pinned so.
    fn pinned(&mut self, mm: f64, says: String, why: &str) {
        if let Some(fit) = fit_as_pinned(self.suit.design.fit, self.suit.draft, mm) {
            self.change(says, why, Change::Fit(fit));
        }
    }

    /// The same fit around, this much more or less of the stretch used lengthwise.
    fn lengthwise(&mut self, by: f64, says: &str, why: impl Into<String>) {
        let fit = self.suit.design.fit;
        if let Ok(own) = cloth::OwnFit::new(fit.around(), (fit.lengthwise() + by).max(0.0)) {
            self.change(says, why, Change::Fit(Fit::Own(own)));
        }
    }
}

fn straps_slip(list: &mut List<'_>) {
    list.change(
        "Straps nearer the neck, by a tenth of the shoulder",
        "a strap far out runs down the slope of the shoulder",
        Change::StrapPosition(-0.10),
    );
    if list.suit.has(Shared::Back) {
        match list.suit.design.back_shape {
            BackShape::Scoop | BackShape::V => {
                list.change(
                    "A racer back",
                    "it draws both straps together between the shoulder blades, where they cannot slip",
                    Change::Back(BackShape::Racer),
                );
                list.change(
                    "Back 3 cm higher",
                    "a low back lets the straps spread",
                    Change::BackDepth(-30.0),
                );
            }
            BackShape::CrossedStraps | BackShape::Racer => {}
        }
    }
    list.change(
        "Shoulder seam 1 cm further forward",
        "on a forward shoulder the strap lies behind its slope",
        Change::ShoulderForward(10.0),
    );
    list.by_hand(
        "Baste the straps shorter, an equal bit on both sides, and mark it; left and right apart if one shoulder is lower",
        "the length of a strap is settled by trial",
    );
}

fn straps_dig(list: &mut List<'_>) {
    let why = match list.suit.strap_stretch() {
        Some(s) if s > 1.10 => format!(
            "they are worn {:.0} % longer than cut; twice the width halves the pull on each finger's breadth",
            (s - 1.0) * 100.0
        ),
        _ => "the same pull on a wider strap presses less".to_owned(),
    };
    list.change("Straps 8 mm wider", why, Change::StrapWidth(8.0));
    // A top has its body's lengths already.
    if list.suit.design.style.spec().has_trunk_loop {
        list.lengthwise(
            -0.03,
            "Body a little longer: less of the stretch used lengthwise",
            "straps carry what the body is too short",
        );
    }
    list.by_hand(
        "Let the straps out at the shoulder seam or the ring, and mark how much",
        "if only the straps are short the body stays as it is",
    );
    if list.suit.has(Shared::Cups) && list.suit.design.cups == Cups::None {
        list.by_hand(
            "Let the under-bust carry: an elastic band inside, or a top with a band",
            "straps that hold the bust alone dig in whatever their length",
        );
    }
}

fn neckline_gapes(list: &mut List<'_>) {
    list.by_hand(
        "Cut the neckline's elastic 3 to 5 % shorter, its ease in the lowest third of the curve",
        "the edge is longer than the body under it; elastic is the cheapest way to take that up",
    );
    list.change(
        "Neckline 1.5 cm shallower",
        "a deep edge lies on the hollow between the breasts, where nothing holds it",
        Change::NeckDepth(-15.0),
    );
    if list.suit.has(Shared::BustShaping) && list.suit.design.bust_shaping == BustShaping::Auto {
        list.change(
            "Princess seams",
            "length that is wanted over the bust point stands off at the neckline when nothing shapes it",
            Change::Bust(BustShaping::Princess),
        );
    }
    list.change(
        "Straps a little nearer the neck",
        "straps set wide pull the neckline open",
        Change::StrapPosition(-0.06),
    );
}

fn armhole_gapes(list: &mut List<'_>) {
    list.by_hand(
        "Cut the armhole's elastic 3 to 5 % shorter, its ease in the lower curve",
        "the edge is longer than the body under it",
    );
    if list.suit.has(Shared::BustShaping) && list.suit.design.bust_shaping == BustShaping::Auto {
        list.change(
            "A side dart",
            "a full bust lifts the armhole off beside it; a dart takes that up",
            Change::Bust(BustShaping::SideDart),
        );
    }
    list.change(
        "Straps further out, by a tenth of the shoulder",
        "a strap near the neck leaves the armhole long",
        Change::StrapPosition(0.10),
    );
}

fn back_gapes(list: &mut List<'_>) {
    list.by_hand(
        "Cut the back edge's elastic at 0.87 of it, most of the ease at the lowest place",
        "a low back is held by its elastic alone",
    );
    list.change(
        "Back 2 cm higher",
        "the lower the back, the longer the edge that nothing holds",
        Change::BackDepth(-20.0),
    );
    list.change(
        "Sway back: 1 cm taken out at the waist",
        "a hollow back stands off above the waist; pin it out on the toile first",
        Change::SwayBack(10.0),
    );
}

fn squashes_bust(list: &mut List<'_>) {
    if list.suit.has(Shared::BustShaping) && list.suit.design.bust_shaping != BustShaping::Princess {
        list.change(
            "Princess seams",
            "a flat front presses a full bust; seams over the bust point give it room",
            Change::Bust(BustShaping::Princess),
        );
    }
    let why = match list.suit.worn(Level::Bust) {
        Some(worn) => format!(
            "at the bust the suit is worn {:.0} % wider than cut",
            worn * 100.0
        ),
        None => "less of the cloth's stretch is used".to_owned(),
    };
    list.looser(why);
    list.change(
        "Bust point 1 cm higher",
        "seam, dart or cup set too low presses the bust down",
        Change::BustHeight(10.0),
    );
    list.by_hand(
        "Try another cup, or leave it out",
        "a cup smaller than the bust flattens it",
    );
}

fn bust_not_held(list: &mut List<'_>) {
    if list.suit.has(Shared::Lining)
        && matches!(list.suit.design.lining, LiningCover::None | LiningCover::Crotch)
    {
        list.change(
            "Front lined",
            "two layers hold what one does not, and cups need a lining to be sewn to",
            Change::Lining(LiningCover::Front),
        );
    }
    if list.suit.has(Shared::Cups) && list.suit.design.cups == Cups::None {
        list.change(
            "Cups marked on the front",
            "a cup spreads the pull; which one, she tries",
            Change::Cups(Cups::Marks),
        );
    }
    list.firmer("a firmer fit holds closer");
    list.change(
        "Neckline 1.5 cm shallower",
        "a deep neckline lets the bust out above",
        Change::NeckDepth(-15.0),
    );
    list.by_hand(
        "A band of elastic under the bust, inside; power mesh between the layers",
        "support comes from below, not from the straps",
    );
}

fn too_tight(list: &mut List<'_>) {
    let why = match list.suit.is_tightest_at() {
        Some((level, worn)) => format!(
            "it is tightest at the {}: worn {:.0} % wider than cut",
            level.name(),
            worn * 100.0
        ),
        None => "less of the cloth's stretch is used".to_owned(),
    };
    list.looser(why);
    for mm in [5.0, 10.0] {
        list.pinned(
            -mm,
            format!("Side seams let out {mm:.0} mm each at the fitting"),
            "the next draft is as wide as the suit that was let out",
        );
    }
    list.by_hand(
        "Test the cloth again, both ways, the layers together",
        "a lining that was not tested with the shell is the usual cause",
    );
}

fn too_loose(list: &mut List<'_>) {
    list.firmer("more of the cloth's stretch is used");
    for mm in [5.0, 10.0] {
        list.pinned(
            mm,
            format!("Side seams pinned in {mm:.0} mm each at the fitting"),
            "the next draft is as wide as the pinned suit",
        );
    }
    list.change(
        "Wide side seams once more",
        "so that the next fitting can go both ways",
        Change::FirstFitting,
    );
}

fn too_long(list: &mut List<'_>) {
    list.lengthwise(
        0.03,
        "Body shorter: more of the stretch used lengthwise",
        match list.suit.torso_stretch() {
            Some(t) => format!("between bust and crotch it is worn at {:.2} of its length", t),
            None => "folds across mean length to spare".to_owned(),
        },
    );
    list.by_hand(
        "Take the trunk circumference again, twice, without holding the breath",
        "the body's length rests on that one tape",
    );
    list.change(
        "Sway back: 1 cm taken out at the waist",
        "if it folds at the back only, the back alone is long",
        Change::SwayBack(10.0),
    );
}

fn too_short(list: &mut List<'_>) {
    list.lengthwise(
        -0.04,
        "Body longer: less of the stretch used lengthwise",
        match list.suit.strap_stretch() {
            Some(s) => format!("the straps are worn {:.0} % longer than cut", (s - 1.0) * 100.0),
            None => "what pulls at both ends is short between them".to_owned(),
        },
    );
    list.by_hand(
        "Take the trunk circumference again, twice, without holding the breath",
        "the body's length rests on that one tape",
    );
    list.change(
        "Long rise: 1 cm between waist and crotch",
        "if it pulls at the crotch alone, the lower part is short",
        Change::RiseLength(10.0),
    );
}

fn back_waist_folds(list: &mut List<'_>) {
    list.change(
        "Sway back: 1 cm taken out at the waist",
        "a hollow back is shorter than the tape says; pin it out on the toile first",
        Change::SwayBack(10.0),
    );
    list.lengthwise(
        0.02,
        "Body a little shorter: more of the stretch used lengthwise",
        "if the front has a fold too, the whole is long",
    );
}

fn waist_slides(list: &mut List<'_>) {
    list.by_hand(
        "Cut the waist's elastic 3 to 5 % shorter, or a wider one",
        "the edge holds by its elastic",
    );
    list.firmer("a brief that is wide at the hip has nothing to stay on");
    list.change(
        "Side seam 1 cm longer",
        "more cloth between leg and waist turns over less",
        Change::SideSeam(10.0),
    );
}

fn rides_up_behind(list: &mut List<'_>) {
    match list.suit.design.seat {
        Seat::Full => {}
        Seat::Moderate => list.change(
            "Full seat",
            "an edge that ends on the roundest place climbs to the middle",
            Change::Seat(Seat::Full),
        ),
        Seat::Cheeky => list.change(
            "Moderate seat",
            "an edge that ends on the roundest place climbs to the middle",
            Change::Seat(Seat::Moderate),
        ),
    }
    list.change(
        "Fuller seat: 1 cm of the hip to the back",
        "a full seat needs the width behind; the edge then lies under it",
        Change::FigureSeat(10.0),
    );
    list.by_hand(
        "All the ease of the leg's elastic under the seat, none in front",
        "elastic that pulls at the side draws the back up",
    );
    if list.suit.design.style.spec().has_trunk_loop {
        list.lengthwise(
            -0.03,
            "Body a little longer: less of the stretch used lengthwise",
            "a short body is drawn up where it gives, at the seat",
        );
    }
    list.change(
        "Leg 1 cm lower",
        "a high leg leaves the seat less to hold on to",
        Change::SideSeam(10.0),
    );
}

fn rides_up_in_front(list: &mut List<'_>) {
    list.change(
        "Crotch 6 mm wider",
        "the front leg starts from the crotch's edge",
        Change::CrotchWidth(6.0),
    );
    list.change(
        "Leg 1 cm lower",
        "the front leg runs straight from crotch to side: lower there is lower everywhere",
        Change::SideSeam(10.0),
    );
}

fn leg_cuts_in(list: &mut List<'_>) {
    list.by_hand(
        "Cut the leg's elastic longer: 1:1 in front and at the crotch, 0.92 behind",
        "elastic that is short in front cuts into the groin",
    );
    list.change(
        "Leg 1 cm higher",
        "an edge on the crease of the groin cuts when she sits; above it, it lies flat",
        Change::SideSeam(-10.0),
    );
    list.looser("a tight hip pulls the leg's edge in with it");
}

fn leg_gapes(list: &mut List<'_>) {
    list.by_hand(
        "All the ease of the leg's elastic in the back curve, 0.83 there",
        "a leg gapes under the seat, where its edge is longest",
    );
    list.change(
        "Flatter seat: 1 cm of the hip to the front",
        "a flat seat does not fill the back",
        Change::FigureSeat(-10.0),
    );
    list.firmer("a loose hip leaves the leg's edge long");
}

fn hard_to_get_into(list: &mut List<'_>) {
    let worst = list
        .suit
        .fit
        .way_in
        .iter()
        .filter(|w| w.severity > Severity::Good)
        .max_by(|a, b| a.cloth_share.total_cmp(&b.cloth_share));
    if let Some(w) = worst {
        list.by_hand(
            format!(
                "Look at the way in: the {} needs {:.0} % stretch",
                w.opening,
                w.needed * 100.0
            ),
            "the draft found it narrow too",
        );
    }
    let has_ring = list
        .suit
        .draft
        .openings
        .iter()
        .any(|o| o.kind == OpeningKind::NecklineRing);
    if has_ring {
        list.change(
            "Neckline 2 cm deeper",
            "she steps in through neckline and back, one ring over the hips",
            Change::NeckDepth(20.0),
        );
        if list.suit.has(Shared::Back) && list.suit.design.back_shape != BackShape::Racer {
            list.change("Back 3 cm lower", "the same ring", Change::BackDepth(30.0));
        }
    }
    list.looser("every opening grows with it");
    list.by_hand(
        "Put in an opening: a clasp, a zip or a hook at the back",
        "what opens need not stretch",
    );
}
