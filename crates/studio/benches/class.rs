//! How long the kits of a class take, and how much memory: a table, measured on this machine.
//!
//! `cargo bench -p slackwater-studio --bench class`, or with `--profile dev` for the build of every day.
//!
//! People are those of the example class, again and again with each girth a little larger, so that no suit is another's. Peak memory is
//! `VmHWM` of `/proc/self/status`, processor time is that of `/proc/self/stat`; both Linux only. On a busy machine the wall says less than the
//! processor.

mod memory;

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Instant;

use memory::peak_mb;
use studio::class::{Person, folders, gather, make_kits, read_class, work};
use studio::suit_file::read_text;
use units::{Mm, Progress};

/// Sizes of class that are measured.
const CLASSES: [usize; 3] = [1, 6, 20];

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/classes")
}

/// Counts how often somebody is told how far it is.
#[derive(Default)]
struct Told(AtomicU64);

impl Progress for Told {
    fn at(&self, _: u64, _: u64, _: &str) {
        self.0.fetch_add(1, Ordering::Relaxed);
    }
}

/// Processor seconds of this process so far; a tick is a hundredth on Linux.
fn cpu_seconds() -> Option<f64> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    let (_, rest) = stat.rsplit_once(") ")?;
    let ticks = |at: usize| rest.split(' ').nth(at)?.parse::<f64>().ok();
    Some((ticks(11)? + ticks(12)?) / 100.0)
}

/// So many people, none like another.
fn people(of: &[Person], count: usize) -> Vec<Person> {
    let names: Vec<String> = (0..count)
        .map(|k| format!("{} {}", of[k % of.len()].name, k / of.len() + 1))
        .collect();
    let plain: Vec<&str> = names.iter().map(String::as_str).collect();
    let folders = folders(&plain);
    (0..count)
        .map(|k| {
            let like = &of[k % of.len()];
            let mut suit = read_text("suit.toml", &like.text).expect("the example reads");
            let round = (k / of.len()) as f64;
            for dimension in [
                body::Dimension::WaistGirth,
                body::Dimension::HighHipGirth,
                body::Dimension::HipGirth,
            ] {
                if let Some(girth) = suit.wearer.taken.get(dimension) {
                    suit.wearer
                        .taken
                        .set(dimension, Mm::new(girth.get() * (1.0 + 0.004 * round)));
                }
            }
            suit.wearer.name.clone_from(&names[k]);
            Person {
                name: names[k].clone(),
                folder: folders[k].clone(),
                carer: like.carer.clone(),
                text: like.text.clone(),
                suit: Ok(suit),
            }
        })
        .collect()
}

fn main() {
    let file = examples().join("harbour-club.toml");
    let class = read_class(
        "harbour-club.toml",
        &std::fs::read(file).expect("the example is there"),
    )
    .expect("it reads");
    let load = |path: &str| std::fs::read(examples().join(path)).map_err(|e| e.to_string());
    let (setting, of) = gather(&class, &load).expect("its files read");
    let mut out = std::io::stdout().lock();
    let build = if cfg!(debug_assertions) { "dev" } else { "release" };
    let _ = writeln!(out, "build {build}, {} threads\n", rayon_threads());
    let _ = writeln!(
        out,
        "| people | drafted, s | all kits, s | processor, s | files | MB made | told how far | timetable over its bound | peak memory, MB |\n\
         | --- | --- | --- | --- | --- | --- | --- | --- | --- |"
    );
    for count in CLASSES {
        let told = Told::default();
        let (cpu, start) = (cpu_seconds(), Instant::now());
        let worked = work(setting.clone(), people(&of, count), &told).expect("nobody stops it");
        let drafted = start.elapsed().as_secs_f64();
        let kits = make_kits(&worked, &told).expect("everything prints");
        let all = start.elapsed().as_secs_f64();
        let cpu = cpu
            .zip(cpu_seconds())
            .map_or("?".to_owned(), |(a, b)| format!("{:.1}", b - a));
        let bytes: usize = kits.sheets.iter().map(|s| s.bytes.len()).sum();
        let over = worked
            .timetable
            .as_ref()
            .map_or(f64::NAN, |t| 100.0 * t.over_bound());
        let _ = writeln!(
            out,
            "| {count} | {drafted:.1} | {all:.1} | {cpu} | {} | {:.1} | {} | {over:.1} % | {} |",
            kits.sheets.len(),
            bytes as f64 / 1e6,
            told.0.load(Ordering::Relaxed),
            peak_mb().map_or("?".to_owned(), |mb| format!("{mb:.0}")),
        );
    }
}

fn rayon_threads() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}
