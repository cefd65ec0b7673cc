//! Every key a plan can hold has its English words, with no argument the plan does not give.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

#[path = "suit/bodies.rs"]
mod bodies;
#[path = "suit/suits.rs"]
mod suits;

use std::collections::{BTreeMap, BTreeSet};

use make::{
    Arg, Evidence, Job, Making, MakingInput, NeedlePoint, Phase, Preset, SampleBook, Say, ShoppingInput,
    Stitch, Thread, ThreadPlace, Workroom, WornStretch, making, shopping,
};
use suits::SUITS;

const ENGLISH: &str = include_str!("../../words/en/make.ftl");

/// Messages with the arguments they name, attributes included.
fn messages() -> BTreeMap<String, (String, BTreeSet<String>)> {
    let mut all: BTreeMap<String, (String, BTreeSet<String>)> = BTreeMap::new();
    let mut current = String::new();
    for line in ENGLISH
        .lines()
        .filter(|l| !l.starts_with('#') && !l.trim().is_empty())
    {
        if !line.starts_with([' ', '}']) {
            let (key, text) = line.split_once('=').unwrap();
            current = key.trim().to_owned();
            assert!(
                all.insert(current.clone(), (text.trim().to_owned(), BTreeSet::new()))
                    .is_none(),
                "{current} twice"
            );
        }
        let entry = all.get_mut(&current).unwrap();
        for part in line.split("{ $").skip(1) {
            let name: String = part
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect();
            entry.1.insert(name);
        }
    }
    all
}

fn says(plan: &Making) -> Vec<Say> {
    let mut all: Vec<Say> = Vec::new();
    for step in &plan.steps {
        all.push(step.say.clone());
        all.extend(step.press.clone());
        all.extend(step.notes.iter().cloned());
        all.push(Say::plain(step.phase.key()));
    }
    for choice in &plan.stitches {
        all.extend(choice.why.iter().chain(&choice.could).cloned());
        all.extend(choice.runner_up.iter().map(|r| r.why.clone()));
        all.push(Say::plain(choice.setting.tension));
        all.extend(choice.setting.also.iter().map(|key| Say::plain(key)));
        all.push(Say::plain(choice.seam_class.key));
    }
    for edge in &plan.edges {
        all.push(edge.join.clone());
        all.extend(edge.about.iter().cloned());
    }
    all.extend(plan.scraps.iter().map(|s| s.say.clone()));
    all.extend(plan.would_add.iter().map(|w| Say::plain(w.machine)));
    all
}

fn check(say: &Say, messages: &BTreeMap<String, (String, BTreeSet<String>)>) -> Result<(), String> {
    let key = say.key.replace('.', "-");
    let Some((_, wanted)) = messages.get(&key) else {
        return Err(format!("no words for {}", say.key));
    };
    for name in wanted {
        if say.arg(name).is_none() {
            return Err(format!("{} wants {name}", say.key));
        }
    }
    for (_, arg) in &say.args {
        if let Arg::Key(key) = arg
            && !messages.contains_key(&key.replace('.', "-"))
        {
            return Err(format!("no words for {key}, in {}", say.key));
        }
    }
    Ok(())
}

#[test]
fn every_key_of_every_plan_has_its_words() {
    let messages = messages();
    let mut missing = BTreeSet::new();
    let mut seen = BTreeSet::new();
    let straight: Workroom = Preset::StraightOnly.workroom();
    for suit in SUITS.iter() {
        for workroom in [
            straight.clone(),
            Preset::Zigzag.workroom(),
            Preset::Coverstitch.workroom(),
        ] {
            let worn = WornStretch::of_draft(&suit.draft);
            let (elastic, samples) = (make::ElasticChoice::default(), SampleBook::default());
            let input = MakingInput {
                draft: &suit.draft,
                design: &suit.design,
                cloth: &suit.cloth,
                elastic: &elastic,
                workroom: &workroom,
                samples: &samples,
                worn: &worn,
                masses: &[],
                is_child: true,
            };
            let plan = making(&input);
            let list = shopping(&input, &plan, &ShoppingInput::default());
            let mut all = says(&plan);
            for line in &list.lines {
                all.push(line.say.clone());
                all.extend(line.notes.iter().cloned());
            }
            for say in all {
                seen.insert(say.key);
                missing.extend(check(&say, &messages).err());
            }
        }
    }
    for key in Job::ALL
        .iter()
        .map(|j| j.key())
        .chain(Stitch::ALL.iter().map(|s| s.key()))
        .chain(Thread::ALL.iter().map(|t| t.key()))
        .chain([NeedlePoint::LightBall, NeedlePoint::Ball, NeedlePoint::Stretch].map(NeedlePoint::key))
        .chain([ThreadPlace::Needle, ThreadPlace::Bobbin, ThreadPlace::Looper].map(ThreadPlace::key))
        .chain([
            Evidence::Forecast.key(),
            Evidence::Practice.key(),
            Evidence::Sample(String::new()).key(),
        ])
        .chain([Phase::Prove, Phase::Fit].map(Phase::key))
    {
        missing.extend(check(&Say::plain(key), &messages).err());
    }
    assert!(
        missing.is_empty(),
        "{}",
        missing.into_iter().collect::<Vec<_>>().join("\n")
    );
    assert!(seen.len() > 90, "{}", seen.len());
}

/// Every step's message says how.
#[test]
fn every_step_says_how() {
    let lines: Vec<&str> = ENGLISH.lines().collect();
    for (i, line) in lines.iter().enumerate().filter(|(_, l)| l.starts_with("step-")) {
        let next = lines[i + 1..].iter().take_while(|l| l.starts_with([' ', '}']));
        assert!(
            next.into_iter().any(|l| l.trim_start().starts_with(".how = ")),
            "{line}"
        );
    }
}
