//! Facts of the trade, each with its source or marked "common practice, no source".

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "suit/bodies.rs"]
mod bodies;
#[path = "suit/suits.rs"]
mod suits;

use draft::{BackShape, Design, LiningCover, Skirt, SkirtJoin, SkirtKind, Style};
use make::{
    ElasticChoice, ElasticKind, ElasticTest, Evidence, Job, Machine, Making, NeedlePoint, Preset, SampleBook,
    ScrapKind, SeamSample, Stitch, Thread, ThreadStock, Verdict, Workroom, edge_elastics,
};
use suits::{SUITS, Suit, lined};
use units::Mm;

fn one_piece(lining: LiningCover) -> Suit {
    Suit::of("one-piece", lined(Style::ONE_PIECE, lining))
}

fn at(plan: &Making, id: &str) -> usize {
    plan.steps.iter().position(|s| s.id == id).unwrap_or_else(|| {
        panic!(
            "no {id} in {:?}",
            plan.steps.iter().map(|s| &s.id).collect::<Vec<_>>()
        )
    })
}

fn stitch(plan: &Making, job: Job) -> Stitch {
    plan.stitches
        .iter()
        .find(|s| s.job == job)
        .unwrap_or_else(|| panic!("no {job:?}"))
        .setting
        .stitch
}

/// Source: LEGTUT in `data/trade/sources.csv` (published lesson on leg elastic): front 1:1; all the ease in the back curve is common practice.
#[test]
fn leg_elastic_lies_flat_in_front_and_is_eased_in_the_back() {
    let suit = one_piece(LiningCover::Crotch);
    let edges = edge_elastics(&suit.draft, &ElasticChoice::default(), &SampleBook::default());
    let leg = &edges.iter().find(|e| e.plan.edge == "leg").unwrap().plan;
    let ratio = |name: &str| leg.arcs.iter().find(|a| a.name == name).unwrap().ratio;
    assert_eq!((ratio("front"), ratio("crotch")), (1.0, 1.0));
    assert!(
        ratio("back") < ratio("side") && ratio("back") < 0.93,
        "{}",
        ratio("back")
    );
    let ease = |name: &str| {
        leg.arcs
            .iter()
            .filter(|a| a.name == name)
            .map(|a| (a.edge - a.elastic).get())
            .sum::<f64>()
    };
    let all: f64 = leg.arcs.iter().map(|a| (a.edge - a.elastic).get()).sum();
    assert!(ease("back") / all > 0.8);
}

/// Common practice, no source: greatest stretch around the body, for shell and lining: every piece's stretch arrow lies around, and laying out
/// comes before any cut.
#[test]
fn the_greatest_stretch_goes_around_for_shell_and_lining() {
    let suit = one_piece(LiningCover::Full);
    let trunk = suit
        .draft
        .pieces
        .iter()
        .filter(|p| p.key.contains("front") || p.key.contains("back"));
    for piece in trunk {
        let along = piece.stretch.to - piece.stretch.from;
        assert!(along.x.abs() > 10.0 * along.y.abs(), "{}", piece.key);
    }
    let plan = suit.plan(&Preset::Zigzag.workroom());
    for key in ["front", "back", "front_lining", "back_lining"] {
        assert!(at(&plan, "lay_out") < at(&plan, &format!("cut.{key}")));
    }
}

/// Source: ASTM D6193 4.2.2 as in `data/trade/thread_model.toml`: the seam stretches more than the cloth it joins is stretched: at least 1.2 times.
#[test]
fn a_seam_stretches_more_than_the_cloth_is_stretched() {
    for suit in SUITS.iter().step_by(3) {
        let plan = suit.plan(&Preset::Zigzag.workroom());
        for choice in plan.stitches.iter().filter(|s| s.asked > 0.0 && s.is_safe) {
            let taken = (choice.need.worn + choice.need.movement).max(choice.need.way_in);
            assert!(
                choice.extension >= 1.2 * taken - 1e-9,
                "{} {:?}",
                suit.name,
                choice.job
            );
        }
    }
}

/// Source: NEEDLESHEET (ball points for swimwear, a needle maker's sheet); stretch needles cure skips, common practice. 75 for the usual swim knit.
#[test]
fn a_stretch_or_ball_point_needle_and_75_for_a_usual_swim_knit() {
    let plan = one_piece(LiningCover::Crotch).plan(&Preset::ZigzagOverlocker.workroom());
    for choice in &plan.stitches {
        let point = choice.setting.needle.point;
        assert!(matches!(
            point,
            NeedlePoint::Stretch | NeedlePoint::Ball | NeedlePoint::LightBall
        ));
        assert_eq!(choice.setting.needle.size_nm, 75, "{:?}", choice.job);
    }
}

/// Common practice, no source: polyester thread; textured thread in the loopers; never cotton (it rots and does not stretch).
#[test]
fn polyester_thread_and_textured_thread_in_loopers() {
    let plan = one_piece(LiningCover::Crotch).plan(&Preset::Coverstitch.workroom());
    for choice in &plan.stitches {
        assert_eq!(
            choice.setting.needle_thread,
            Thread::SpunPolyester,
            "{:?}",
            choice.job
        );
        if matches!(
            choice.setting.stitch,
            Stitch::FourThreadOverlock | Stitch::ThreeThreadOveredge | Stitch::TwoNeedleCover
        ) {
            assert_eq!(
                choice.setting.under_thread,
                Thread::TexturedPolyester,
                "{:?}",
                choice.job
            );
        }
        assert!(choice.setting.needle_thread.facts().is_chlorine_fast);
    }
}

/// Common practice, no source (`data/trade/elastics.csv`, column `chlorine`): the elastic taken when none is named holds in pool water, and the map says
/// of every elastic how it takes it and whether it holds latex.
#[test]
fn elastic_that_holds_in_chlorine() {
    let edges = |kind: ElasticKind| {
        let choice = ElasticChoice::new(kind, Mm::new(10.0), None, None, None).unwrap();
        edge_elastics(
            &one_piece(LiningCover::Crotch).draft,
            &choice,
            &SampleBook::default(),
        )
    };
    let says = |kind, key: &str| edges(kind).iter().all(|e| e.about.iter().any(|a| a.key == key));
    assert!(says(ElasticChoice::default().kind(), "elastic.chlorine_good"));
    assert!(says(ElasticKind::BraidedRubber, "elastic.latex"));
    assert!(
        says(ElasticKind::Plush, "elastic.chlorine_poor") && says(ElasticKind::Plush, "elastic.latex_free")
    );
    assert!(
        says(ElasticKind::Knitted, "elastic.latex_ask") && says(ElasticKind::Knitted, "elastic.keeps_width")
    );
}

/// Common practice, no source: three-step zigzag to anchor elastic, triple straight to topstitch, twin needle or cover stitch for hems.
#[test]
fn stitches_by_job_as_the_trade_has_them() {
    let skirted = Suit::of(
        "skirted",
        Design {
            skirt: Some(Skirt {
                kind: SkirtKind::HalfCircle,
                join: SkirtJoin::Hip,
                cover: Mm::new(40.0),
            }),
            ..Design::of(Style::ONE_PIECE)
        },
    );
    let zigzag = skirted.plan(&Preset::Zigzag.workroom());
    assert_eq!(stitch(&zigzag, Job::Anchor), Stitch::ThreeStep);
    assert_eq!(stitch(&zigzag, Job::Hem), Stitch::TwinNeedle);
    let cover = skirted.plan(&Preset::Coverstitch.workroom());
    assert_eq!(stitch(&cover, Job::Hem), Stitch::TwoNeedleCover);
    assert_eq!(stitch(&cover, Job::EdgeTopstitch), Stitch::TwoNeedleCover);
    assert_eq!(stitch(&cover, Job::Join), Stitch::FourThreadOverlock);
    // A row through a facing is topstitched: no cover stitch turns a slit's corner, nothing opens there.
    let slit = SUITS.iter().find(|s| s.name.contains("Clasp Back")).unwrap();
    assert_eq!(
        stitch(&slit.plan(&Preset::Zigzag.workroom()), Job::Topstitch),
        Stitch::TripleStraight
    );
}

/// Common practice, no source: the iron is tried on a scrap before anything is pressed, stitches are proved and cloth washed before any is cut.
#[test]
fn tests_come_first() {
    for suit in SUITS.iter().step_by(4) {
        let plan = suit.plan(&Preset::ZigzagOverlocker.workroom());
        let first_cut = plan.steps.iter().position(|s| s.id.starts_with("cut.")).unwrap();
        for id in ["prove", "prove_iron", "wash"] {
            assert!(at(&plan, id) < first_cut, "{}: {id}", suit.name);
        }
        assert_eq!(plan.scraps[0].kind, ScrapKind::Iron);
        for (i, choice) in plan.stitches.iter().enumerate().filter(|(_, s)| s.asked > 0.0) {
            let scrap = plan.scraps.iter().find(|s| s.stitch == Some(i)).unwrap();
            let pull = scrap.pull_to.unwrap().get() / scrap.marks.get() - 1.0;
            assert!((pull - choice.asked).abs() < 1e-9);
        }
    }
}

/// Source: `data/trade/operations.csv` (common practice, no source): crotch lining before sides, sides before the legs' elastic, legs before the waist,
/// rings joined before they are sewn on, topstitching after all elastic, cups to the lining before the layers meet.
#[test]
fn the_order_of_the_operation_table() {
    let plan = one_piece(LiningCover::Crotch).plan(&Preset::Zigzag.workroom());
    for pair in [
        ("join.crotch", "join.crotch_lining"),
        ("join.crotch_lining", "join.side"),
        ("join.side", "try_on.basted"),
        ("try_on.basted", "elastic.leg"),
        ("ring", "elastic.leg"),
        ("elastic.leg", "elastic.neckline"),
        ("elastic.neckline", "turn.leg"),
        ("turn.neckline", "rinse"),
    ] {
        assert!(at(&plan, pair.0) < at(&plan, pair.1), "{pair:?}");
    }
    let brief = Suit::of("brief", lined(Style::BRIEF, LiningCover::Full)).plan(&Preset::Zigzag.workroom());
    assert!(at(&brief, "elastic.leg") < at(&brief, "elastic.waist"));
    let cups = SUITS
        .iter()
        .find(|s| s.name == "one-piece Pocket")
        .unwrap()
        .plan(&Preset::Zigzag.workroom());
    assert!(at(&cups, "join.cups") < at(&cups, "join.together"));
}

/// By role: a lined suit has its outer crotch seam too; its lining is a suit of its own; a skirt joins after the sides it crosses and before the
/// lining covers the join; a skirted brief likewise, though its sides are its own.
#[test]
fn operations_are_resolved_by_role() {
    let plan = one_piece(LiningCover::Full).plan(&Preset::Zigzag.workroom());
    for id in [
        "join.crotch",
        "join.lining_crotch",
        "join.side",
        "join.lining_side",
        "join.together",
    ] {
        at(&plan, id);
    }
    assert!(plan.steps.iter().all(|s| s.id != "join.crotch_lining"));
    let skirt = Some(Skirt {
        kind: SkirtKind::FullCircle,
        join: SkirtJoin::Waist,
        cover: Mm::new(40.0),
    });
    for style in [Style::ONE_PIECE, Style::BRIEF] {
        let design = Design {
            skirt,
            ..lined(style, LiningCover::Full)
        };
        let plan = Suit::of("skirted", design).plan(&Preset::Coverstitch.workroom());
        assert!(at(&plan, "join.side") < at(&plan, "join.skirt"), "{style:?}");
        assert!(
            at(&plan, "join.skirt_side") < at(&plan, "join.skirt"),
            "{style:?}"
        );
        assert!(at(&plan, "join.skirt_hem") < at(&plan, "join.skirt"), "{style:?}");
        assert!(at(&plan, "join.skirt") < at(&plan, "join.together"), "{style:?}");
    }
}

/// Own: what lies under or over something else is sewn first: the free edge of a front lining before the lining is laid on, a boning channel after
/// the side it covers, a liner of mesh as a brief of its own that meets the trunks at the waist.
#[test]
fn what_lies_below_is_sewn_first() {
    let workroom = Preset::ZigzagOverlocker.workroom();
    let of = |name: &str| {
        SUITS
            .iter()
            .find(|s| s.name == name)
            .unwrap_or_else(|| panic!("{name}"))
            .plan(&workroom)
    };
    let tankini = of("tankini Crotch");
    assert!(at(&tankini, "elastic.lining_underbust") < at(&tankini, "join.together"));
    let boned = of("bandeau boning=Word(\"sides\") Crotch");
    assert!(at(&boned, "join.side") < at(&boned, "join.boning"));
    let trunks = of("trunks liner=Word(\"mesh\") Crotch");
    assert!(at(&trunks, "join.lining_side") < at(&trunks, "elastic.lining_leg"));
    assert!(at(&trunks, "elastic.lining_leg") < at(&trunks, "join.together"));
    assert_eq!(
        trunks.steps[at(&trunks, "join.together")].say.key,
        "step.together_waist"
    );
}

/// Change one choice and the order follows.
#[test]
fn a_choice_changes_the_order() {
    let ids = |design: Design| -> Vec<String> {
        let plan = Suit::of("one", design).plan(&Preset::Zigzag.workroom());
        plan.steps.into_iter().map(|s| s.id).collect()
    };
    let plain = ids(Design::of(Style::ONE_PIECE));
    let crossed = ids(Design {
        back_shape: BackShape::CrossedStraps,
        ..Design::of(Style::ONE_PIECE)
    });
    assert!(plain.contains(&"join.shoulder".to_owned()) && !crossed.contains(&"join.shoulder".to_owned()));
    assert!(crossed.contains(&"join.strap".to_owned()) && crossed.contains(&"straps".to_owned()));
    let unlined = ids(lined(Style::ONE_PIECE, LiningCover::None));
    assert!(!unlined.contains(&"join.crotch_lining".to_owned()));
}

/// Own: a straight-stitch machine gets a whole plan that says plainly what is not safe and what would be.
#[test]
fn a_straight_stitch_alone_is_told_what_it_cannot_sew() {
    let suit = one_piece(LiningCover::Crotch);
    let plan = suit.plan(&Preset::StraightOnly.workroom());
    assert_eq!(
        plan.unsafe_jobs(),
        [Job::Join, Job::Crotch, Job::Anchor, Job::EdgeTopstitch]
    );
    for choice in plan.stitches.iter().filter(|s| !s.is_safe) {
        assert!(
            choice.could.iter().any(|c| c.key == "could.machine"),
            "{:?}",
            choice.job
        );
        assert!(
            choice
                .could
                .iter()
                .any(|c| c.key.starts_with("could.elastic_thread")),
            "{:?}",
            choice.job
        );
    }
    // What it can: basting, joining elastic to rings.
    assert!(
        plan.stitches
            .iter()
            .any(|s| s.is_safe && s.job == Job::ElasticRing)
    );
    let zigzag = plan
        .would_add
        .iter()
        .find(|w| w.machine == "machine.zigzag")
        .unwrap();
    assert_eq!(
        zigzag.made_safe,
        [Job::Join, Job::Crotch, Job::Anchor, Job::EdgeTopstitch]
    );
}

/// Three workrooms, three plans.
#[test]
fn three_workrooms_sew_the_same_suit_three_ways() {
    let suit = one_piece(LiningCover::Full);
    let jobs = |preset: Preset| {
        let plan = suit.plan(&preset.workroom());
        assert!(plan.unsafe_jobs().is_empty(), "{preset:?}");
        [Job::Join, Job::Anchor, Job::EdgeTopstitch].map(|job| stitch(&plan, job))
    };
    use Stitch::{FourThreadOverlock, ThreeStep, ThreeThreadOveredge, TwoNeedleCover, Zigzag};
    assert_eq!(jobs(Preset::Zigzag), [Zigzag, ThreeStep, ThreeStep]);
    assert_eq!(
        jobs(Preset::ZigzagOverlocker),
        [FourThreadOverlock, ThreeThreadOveredge, ThreeStep]
    );
    assert_eq!(
        jobs(Preset::Coverstitch),
        [FourThreadOverlock, ThreeThreadOveredge, TwoNeedleCover]
    );
}

fn sample(stretched: f64, first_pop: Option<f64>, verdict: Verdict) -> SeamSample {
    SeamSample {
        name: "three-step on slate".into(),
        cloth: "Slate tricot".into(),
        thread: Thread::SpunPolyester,
        stitch: Stitch::ThreeStep,
        width: Mm::new(5.0),
        length: Mm::new(1.3),
        relaxed: Mm::new(100.0),
        stretched: Mm::new(stretched),
        first_pop: first_pop.map(Mm::new),
        after: Some(Mm::new(102.0)),
        verdict,
        note: String::new(),
    }
}

/// A measured sample outranks the forecast for the same cloth, thread, stitch and settings, whichever way it differs, and the plan says so.
#[test]
fn a_sample_outranks_the_forecast() {
    let suit = one_piece(LiningCover::Crotch);
    let workroom = Preset::Zigzag.workroom();
    let with = |sample: SeamSample| {
        let book = SampleBook {
            seams: vec![sample],
            ..SampleBook::default()
        };
        let plan = suit.plan_with(&workroom, &book);
        let choice = plan
            .stitches
            .iter()
            .find(|s| s.job == Job::EdgeTopstitch)
            .unwrap()
            .clone();
        (choice, plan)
    };
    let (choice, plan) = with(sample(190.0, None, Verdict::Good));
    assert_eq!(choice.evidence, Evidence::Sample("three-step on slate".into()));
    assert!((choice.extension - 0.90).abs() < 1e-12);
    assert!(choice.why.iter().any(|w| w.key == "why.by_sample"));
    assert!(plan.scraps.iter().any(|s| s.is_done && s.stitch.is_some()));
    // It popped early: the next stitch is taken.
    let (choice, _) = with(sample(130.0, Some(115.0), Verdict::NotYet));
    assert_ne!(choice.setting.stitch, Stitch::ThreeStep);
    assert_eq!(choice.evidence, Evidence::Forecast);
    // Reaches, but the maker rejected it.
    let (choice, _) = with(sample(190.0, None, Verdict::No));
    assert_ne!(
        (choice.setting.stitch, choice.setting.width.get()),
        (Stitch::ThreeStep, 5.0)
    );
    // Of another cloth: it says nothing of this one.
    let (choice, _) = with(SeamSample {
        cloth: "Kelp print".into(),
        ..sample(115.0, None, Verdict::No)
    });
    assert_eq!(
        (choice.setting.stitch, choice.evidence),
        (Stitch::ThreeStep, Evidence::Forecast)
    );
    // What cannot be is not used.
    let (choice, _) = with(sample(f64::NAN, None, Verdict::Good));
    assert_eq!(choice.evidence, Evidence::Forecast);
    assert!(!sample(90.0, None, Verdict::Good).faults().is_empty());
    assert!(!sample(150.0, Some(160.0), Verdict::Good).faults().is_empty());
    assert_eq!(sample(150.0, Some(140.0), Verdict::Good).faults(), []);
}

/// A tested elastic gives its own force and reach; an iron that was tried stands in the pressing.
#[test]
fn tests_of_elastic_and_iron_are_used() {
    let suit = Suit::of("tankini", Design::of(Style::TANKINI));
    let book = SampleBook {
        elastics: vec![ElasticTest {
            name: "swim rubber".into(),
            kind: ElasticKind::BraidedRubber,
            width: Mm::new(8.0),
            latex: None,
            relaxed: Mm::new(100.0),
            stretched: Mm::new(190.0),
            after: Some(Mm::new(101.0)),
            newton_at_double: Some(3.0),
            is_prewashed: true,
        }],
        irons: vec![make::IronTest {
            name: "one dot".into(),
            cloth: "Slate tricot".into(),
            celsius: 105.0,
            has_press_cloth: true,
            has_steam: false,
            verdict: Verdict::Good,
            note: String::new(),
        }],
        ..SampleBook::default()
    };
    let plan = suit.plan_with(&Preset::Coverstitch.workroom(), &book);
    assert!(plan.edges.iter().all(|e| e.is_force_measured));
    let hem = &plan.steps[at(&plan, "hem.body")];
    assert_eq!(hem.press.as_ref().unwrap().key, "press.iron_tried");
    let untried = suit.plan(&Preset::Coverstitch.workroom());
    assert!(untried.edges.iter().all(|e| !e.is_force_measured));
    assert_eq!(
        untried.steps[at(&untried, "hem.body")]
            .press
            .as_ref()
            .unwrap()
            .key,
        "press.iron"
    );
    let faulty = ElasticTest {
        stretched: Mm::new(90.0),
        ..book.elastics[0].clone()
    };
    assert!(faulty.choice().is_err());
}

/// An elastic thread in stock is used where a spun one does not reach, on the machine that is there.
#[test]
fn an_elastic_thread_in_stock_helps_a_narrow_zigzag() {
    let mut machine = Machine::zigzag();
    machine.kind = make::MachineKind::Lockstitch {
        most_width: Mm::new(1.0),
        utility: Vec::new(),
        twin_needle: None,
    };
    let mut workroom = Workroom::of(vec![machine]);
    let suit = Suit::of("waist seam", {
        let mut design = Design::of(Style::ONE_PIECE);
        design.own.set(
            Style::ONE_PIECE.own("seam_at").unwrap(),
            draft::Setting::Word("waist"),
        );
        design
    });
    let short = |plan: &Making| {
        plan.stitches
            .iter()
            .filter(|s| s.job == Job::Join && !s.is_safe)
            .count()
    };
    assert!(short(&suit.plan(&workroom)) > 0);
    workroom.threads.push(ThreadStock {
        thread: Thread::Elastic,
        tex: 24.0,
        colour: String::new(),
        packages: 2,
        metres: 200.0,
    });
    let plan = suit.plan(&workroom);
    assert_eq!(short(&plan), 0);
    let threads = plan
        .stitches
        .iter()
        .filter(|s| s.job == Job::Join)
        .map(|s| s.setting.needle_thread);
    assert!(threads.into_iter().any(|t| t == Thread::Elastic));
}

/// Source: `data/trade/pressure_model.toml`, examples: 10 mm at a leg of 0.55 m with 1.5 N presses 1.7 kPa; 20 mm at a waist of 0.80 m
/// with 2.0 kPa pulls 5.1 N. Laplace for a band, p = F / (w R).
#[test]
fn edge_pressure_is_laplace() {
    let kpa = |newton: f64, width_mm: f64, girth_mm: f64| {
        newton / (width_mm * girth_mm / std::f64::consts::TAU) * 1e3
    };
    assert!((kpa(1.5, 10.0, 550.0) - 1.7).abs() < 0.05);
    assert!((kpa(5.1, 20.0, 800.0) - 2.0).abs() < 0.05);
    // Every edge of the map that runs round the body obeys it.
    let mut checked = 0;
    for suit in SUITS.iter().step_by(3) {
        for (edge, drafted) in edge_elastics(&suit.draft, &ElasticChoice::default(), &SampleBook::default())
            .iter()
            .zip(&suit.draft.open_edges)
        {
            let Some(pressure) = edge.pressure_kpa else {
                continue;
            };
            let girth = std::f64::consts::TAU * drafted.worn_radius_mm;
            assert!(
                (pressure - kpa(edge.pull_newton, edge.plan.width.get(), girth)).abs() < 1e-9,
                "{}",
                suit.name
            );
            checked += 1;
        }
    }
    assert!(checked > 50, "{checked}");
}
