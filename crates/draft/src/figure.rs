//! Figure corrections and a child's growth: small changes of the block's lengths and widths, each stated by how much.
//!
//! What the tape found stays true: a correction moves length or width between front and back or above and below the waist and
//! keeps girths and the trunk loop, but for four that say so. A sway back's take-out shortens the back, so the drafted loop is
//! shorter by it than the measured one; growth lengthens it, and so does room for a belly; and a bust moved up or down changes no length of the loop at all.
//!
//! | correction | what moves |
//! | --- | --- |
//! | sway back s | the back is s shorter at its centre, half above and half below the waist; the side is not |
//! | seat s | s of the hip girth from front to back, s/2 of the high hip, and s/2 of the crotch length |
//! | abdomen a | a of the high hip girth from back to front, a/2 of waist and hip, and a/4 of the crotch length |
//! | forward shoulder f | the shoulder seam lies f further forward: the front f shorter, the back f longer |
//! | bust height b | the bust point lies b higher, and with it dart, cup and neckline depth |
//! | belly b | the front is b longer between waist and leg, gathered into the side seam, and a little wider there |
//! | rise length r | the waist lies r higher than it was taken: r longer below it, r shorter above, front and back |
//! | growth g | g longer round the trunk: g/2 at the crotch, g/4 each at front and back shoulder; sleeves g longer |
//!
//! **Shapes and units.** mm on the body; reduced with the lengths and widths they change.
//! **Source.** Which lengths change: common practice in fitting books, no single source. The shares: own. Nothing was sewn.
//! **Limits.** Sway back only after a toile has shown the folds. Long legs are not lengthened for growth.

use body::BodyForm;
use cloth::Fit;
use units::{Finding, Limit, Mm, Severity};

use crate::design::Design;
use crate::measures::Measures;
use crate::refusal::{Refusal, within};

const SWAY_BACK: (f64, f64) = (0.0, 15.0);
const SEAT: (f64, f64) = (-20.0, 20.0);
const ABDOMEN: (f64, f64) = (0.0, 40.0);
const SHOULDER: (f64, f64) = (0.0, 20.0);
const BUST_HEIGHT: (f64, f64) = (-25.0, 25.0);
const BELLY: (f64, f64) = (0.0, 60.0);
const RISE_LENGTH: (f64, f64) = (-25.0, 25.0);
/// Styles that make room for a belly.
pub(crate) const HAS_BELLY: [&str; 3] = ["one-piece", "halter-one-piece", "swim-dress"];
/// Share of the stretch around a suit over a belly may take: a regular fit's (own).
const MOST_AROUND_BELLY: f64 = 0.18;
const GROWTH: (f64, f64) = (0.0, 25.0);

/// The dimensions to draft from: with growth and the moved waist in the lengths, and the other corrections at hand for the levels.
///
/// # Errors
/// [`Refusal`] for a correction out of its range, growth for anybody but a child, or a bust correction without a bust.
pub(crate) fn applied(taken: &Measures, design: &Design) -> Result<Measures, Refusal> {
    let f = design.figure;
    for (key, value, range, why) in [
        (
            "sway_back",
            f.sway_back,
            SWAY_BACK,
            "more than 15 mm is no sway back but a back waist length to take again",
        ),
        (
            "seat",
            f.seat,
            SEAT,
            "more than 2 cm wants other dimensions, or a back panel of its own",
        ),
        (
            "abdomen",
            f.abdomen,
            ABDOMEN,
            "more than 4 cm wants the front measured by itself",
        ),
        (
            "shoulder_forward",
            f.shoulder_forward,
            SHOULDER,
            "a shoulder seam further forward shows from the front",
        ),
        (
            "bust_height",
            f.bust_height,
            BUST_HEIGHT,
            "take side neck to bust point again instead",
        ),
        (
            "belly",
            f.belly,
            BELLY,
            "more than 6 cm of belly wants a suit drafted for it, not this one made longer",
        ),
        (
            "rise_length",
            f.rise_length,
            RISE_LENGTH,
            "take the waist again at the level it should lie",
        ),
        (
            "growth",
            design.growth,
            GROWTH,
            "a suit with more room than that does not hold to the body in the water",
        ),
    ] {
        within(key, value.get(), range, "mm", why)?;
    }
    if design.growth != Mm::ZERO && taken.form != BodyForm::Child {
        return Err(Refusal::Combination {
            parameter: "growth",
            why: "growth is for children; leave it out",
        });
    }
    if f.bust_height != Mm::ZERO && !taken.is_woman() {
        return Err(Refusal::Combination {
            parameter: "bust_height",
            why: "the height of the bust is for a woman's suit; leave it out",
        });
    }
    if f.belly != Mm::ZERO {
        let refuse = |parameter, why| Err(Refusal::Combination { parameter, why });
        if !taken.is_woman() {
            return refuse(
                "belly",
                "room for a belly is for a pregnant woman's suit; use abdomen instead",
            );
        }
        if !HAS_BELLY.contains(&design.style.key()) {
            return refuse(
                "belly",
                "room for a belly is drafted for the one-piece, the halter one-piece and the swim dress; leave it out",
            );
        }
        let is_firm = match design.fit {
            Fit::Firm | Fit::Race => true,
            Fit::Own(own) => own.around_share() > MOST_AROUND_BELLY,
            Fit::Relaxed | Fit::Regular => false,
        };
        if is_firm {
            return refuse(
                "fit",
                "no firm fit over a belly; set it to \"relaxed\" or \"regular\", and ask midwife or doctor",
            );
        }
    }
    let mut m = *taken;
    m.figure = f;
    let r = f.rise_length.get();
    if r != 0.0 {
        let front = m.front_share * m.crotch_length + r;
        m.crotch_length += 2.0 * r;
        m.front_share = front / m.crotch_length;
        m.front_waist -= r;
        m.back_waist -= r;
        m.side_length -= r;
        m.waist_to_hip += r;
        m.rise_height += r;
    }
    let g = design.growth.get();
    if g != 0.0 {
        m.crotch_length += 0.5 * g;
        m.front_waist += 0.25 * g;
        m.back_waist += 0.25 * g;
        m.rise_height += 0.25 * g;
        m.trunk = m.trunk.map(|t| t + g);
        m.arm.length += g;
    }
    Ok(m)
}

/// One finding for every correction in force, saying what it changed.
pub(crate) fn findings(design: &Design) -> Vec<Finding> {
    let f = design.figure;
    let mm = |v: f64| Mm::new(v.abs()).to_cm_text();
    let (sway, seat, belly) = (f.sway_back.get(), f.seat.get(), f.abdomen.get());
    let (shoulder, bust, rise, growth) = (
        f.shoulder_forward.get(),
        f.bust_height.get(),
        f.rise_length.get(),
        design.growth.get(),
    );
    let good = |code, message: String, value: f64| Finding {
        code,
        severity: Severity::Good,
        place: "figure".into(),
        message,
        value: Some(value),
        limit: None,
        remedy: String::new(),
    };
    let mut all = Vec::new();
    if sway != 0.0 {
        all.push(Finding {
            code: "figure.sway_back",
            severity: Severity::Watch,
            place: "back waist".into(),
            message: format!(
                "{} taken out of the centre back, half above and half below the waist: a one-piece's trunk loop is that much shorter \
                 than the body's, on purpose",
                mm(sway)
            ),
            value: Some(sway),
            limit: Some(Limit {
                text: "15 mm".into(),
                source: "own; from a worn solve on rigid forms, not sewn",
            }),
            remedy: "only after a toile has shown folds across the back waist; sew another toile with it".into(),
        });
    }
    if seat != 0.0 {
        let (from, to) = if seat > 0.0 {
            ("front", "back")
        } else {
            ("back", "front")
        };
        all.push(good(
            "figure.seat",
            format!(
                "{} of the hip girth, {} of the high hip and {} of the crotch length moved from {from} to {to}; no girth or loop is changed",
                mm(seat),
                mm(0.5 * seat),
                mm(0.5 * seat)
            ),
            seat,
        ));
    }
    if belly != 0.0 {
        all.push(good(
            "figure.abdomen",
            format!(
                "{} of the high hip girth, {} of waist and hip and {} of the crotch length moved from back to front; no girth or loop is \
                 changed",
                mm(belly),
                mm(0.5 * belly),
                mm(0.25 * belly)
            ),
            belly,
        ));
    }
    if shoulder != 0.0 {
        all.push(good(
            "figure.shoulder_forward",
            format!(
                "the shoulder seam lies {} further forward: the front is that much shorter there, the back longer",
                mm(shoulder)
            ),
            shoulder,
        ));
    }
    if bust != 0.0 {
        let way = if bust > 0.0 { "higher" } else { "lower" };
        all.push(good(
            "figure.bust_height",
            format!(
                "the bust point lies {} {way} than it was taken; no length is changed",
                mm(bust)
            ),
            bust,
        ));
    }
    if rise != 0.0 {
        let (way, below, above) = if rise > 0.0 {
            ("higher", "longer", "shorter")
        } else {
            ("lower", "shorter", "longer")
        };
        all.push(good(
            "figure.rise_length",
            format!(
                "the waist lies {0} {way} than it was taken: front and back are {0} {below} below it and {0} {above} above; no loop is changed",
                mm(rise)
            ),
            rise,
        ));
    }
    if growth != 0.0 {
        all.push(good(
            "figure.growth",
            format!(
                "{} to grow round the trunk, half at the crotch, half at the shoulders; sleeves as much longer",
                mm(growth)
            ),
            growth,
        ));
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Figure;
    use crate::check_values::{measures, plan};
    use crate::draft::draft_measures;
    use crate::suit::Draft;

    const WOMEN: [&str; 5] = ["petite", "average", "tall", "plus", "large_cup"];

    fn suit(body: &str, edit: impl Fn(&mut Design)) -> Draft {
        let mut design = Design::default();
        edit(&mut design);
        draft_measures(&measures(body), &plan(0.85, 0.60), &design).unwrap()
    }

    fn loop_mm(suit: &Draft) -> f64 {
        suit.trunk.unwrap().drafted_mm.unwrap()
    }

    fn edge(suit: &Draft, piece: &str, name: &str) -> crate::geometry::Curve {
        let piece = suit.pieces.iter().find(|p| p.key == piece).unwrap();
        piece.edge(name).unwrap().curve.clone()
    }

    /// Lengthwise factor of regular fit: 1 / (1 + 0.10 x 0.60), and the trunk loop's own.
    fn k(suit: &Draft) -> f64 {
        suit.trunk.unwrap().q / 1.06
    }

    type Set = (&'static str, fn(&mut Figure, Mm), f64);

    #[test]
    fn girths_and_loop_stay_what_was_measured() {
        let sets: [Set; 5] = [
            ("seat", |f, v| f.seat = v, 20.0),
            ("flat seat", |f, v| f.seat = v, -20.0),
            ("abdomen", |f, v| f.abdomen = v, 40.0),
            ("forward shoulder", |f, v| f.shoulder_forward = v, 20.0),
            ("bust", |f, v| f.bust_height = v, 15.0),
        ];
        for body in WOMEN {
            let plain = suit(body, |_| {});
            for (name, set, value) in sets {
                let changed = suit(body, |d| set(&mut d.figure, Mm::new(value)));
                assert!(
                    (loop_mm(&changed) - loop_mm(&plain)).abs() < 1e-6,
                    "{body} {name}"
                );
                assert_ne!(changed.pieces, plain.pieces, "{body} {name} changes nothing");
                for level in ["Waist", "HighHip", "Hip"] {
                    let at = |s: &Draft| {
                        let found = s.levels.iter().find(|l| format!("{:?}", l.level) == level);
                        found.unwrap().pattern_mm
                    };
                    assert!((at(&changed) - at(&plain)).abs() < 1e-6, "{body} {name} {level}");
                }
            }
        }
    }

    #[test]
    fn a_take_out_shortens_the_back_by_itself() {
        let plain = suit("average", |_| {});
        let sway = suit("average", |d| d.figure.sway_back = Mm::new(12.0));
        assert!((loop_mm(&plain) - loop_mm(&sway) - 12.0 * k(&plain)).abs() < 1e-6);
        let side = |s: &Draft| s.seams.iter().find(|s| s.name == "side").unwrap().second_mm;
        assert!((side(&plain) - side(&sway)).abs() < 1e-9);
        assert!(
            sway.findings
                .iter()
                .any(|f| f.code == "figure.sway_back" && f.severity == Severity::Watch)
        );
    }

    #[test]
    fn a_seat_moves_width_and_length_to_the_back() {
        let plain = suit("average", |_| {});
        let full = suit("average", |d| d.figure.seat = Mm::new(16.0));
        let crotch_y = |s: &Draft, piece| edge(s, piece, "crotch").start().y;
        assert!((crotch_y(&plain, "back") - crotch_y(&full, "back") - 8.0 * k(&plain)).abs() < 1e-6);
        assert!((crotch_y(&full, "front") - crotch_y(&plain, "front") - 8.0 * k(&plain)).abs() < 1e-6);
        let foot = |s: &Draft, piece| edge(s, piece, "side").start().x;
        assert!(foot(&full, "back") > foot(&plain, "back") + 2.0);
        assert!(foot(&full, "front") < foot(&plain, "front") - 2.0);
    }

    #[test]
    fn a_forward_shoulder_leaves_the_neckline_where_it_is() {
        let plain = suit("average", |_| {});
        let forward = suit("average", |d| d.figure.shoulder_forward = Mm::new(10.0));
        let shoulder = |s: &Draft, piece| edge(s, piece, "shoulder").start().y;
        assert!((shoulder(&plain, "front") - shoulder(&forward, "front") - 10.0 * k(&plain)).abs() < 1e-6);
        assert!((shoulder(&forward, "back") - shoulder(&plain, "back") - 10.0 * k(&plain)).abs() < 1e-6);
        let pit = |s: &Draft| edge(s, "front", "neck").end().y;
        assert!((pit(&plain) - pit(&forward)).abs() < 1e-9);
    }

    #[test]
    fn a_long_rise_moves_the_waist_and_keeps_the_loop() {
        let plain = suit("average", |_| {});
        let long = suit("average", |d| d.figure.rise_length = Mm::new(15.0));
        let crotch_y = |s: &Draft, piece| edge(s, piece, "crotch").start().y;
        for piece in ["front", "back"] {
            assert!((crotch_y(&plain, piece) - crotch_y(&long, piece) - 15.0 * k(&plain)).abs() < 0.05);
        }
        // A woman's front above the waist takes three quarters of the length ease: 15 mm of it are 0.2 mm longer there than below.
        assert!((loop_mm(&plain) - loop_mm(&long)).abs() < 0.3);
        assert_eq!(plain.trunk.unwrap().residual_mm, long.trunk.unwrap().residual_mm);
    }

    #[test]
    fn a_child_gets_room_to_grow() {
        let plain = suit("child8", |_| {});
        let roomy = suit("child8", |d| d.growth = Mm::new(20.0));
        assert!((loop_mm(&roomy) - loop_mm(&plain) - 20.0 * k(&plain)).abs() < 0.1);
        assert_eq!(roomy.trunk.unwrap().measured_mm, plain.trunk.unwrap().measured_mm);
        let half = |s: &Draft| edge(s, "front", "crotch").start().y + edge(s, "back", "crotch").start().y;
        assert!((half(&plain) - half(&roomy) - 10.0 * k(&plain)).abs() < 0.1);
    }

    #[test]
    fn what_cannot_be_is_refused_by_name() {
        let refused = |body: &str, edit: fn(&mut Design)| {
            let mut design = Design::default();
            edit(&mut design);
            draft_measures(&measures(body), &plan(0.85, 0.60), &design).unwrap_err()
        };
        let field = |r: Refusal| r.field().unwrap();
        assert_eq!(field(refused("average", |d| d.growth = Mm::new(10.0))), "growth");
        assert_eq!(field(refused("child8", |d| d.growth = Mm::new(30.0))), "growth");
        assert_eq!(
            field(refused("child8", |d| d.figure.bust_height = Mm::new(5.0))),
            "bust_height"
        );
        assert_eq!(
            field(refused("average", |d| d.figure.sway_back = Mm::new(-1.0))),
            "sway_back"
        );
        assert_eq!(
            field(refused("average", |d| d.figure.seat = Mm::new(f64::NAN))),
            "seat"
        );
    }
}
