//! Packs a strip instance and prints what came of it: `strip INSTANCE.json --seconds 10 --seed 1 --threads 2 [--cpu] [--rounds N] [--loud] [--out FILE]`.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a measuring program, not part of the library"
)]

mod clock;

use std::time::Instant;

use clock::{Clock, cpu_seconds};

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let value = |name: &str| args.iter().position(|a| a == name).map(|i| args[i + 1].clone());
    let number = |name: &str, or: f64| value(name).map_or(or, |v| v.parse().unwrap());
    let strip = lay::Strip::from_json(&std::fs::read_to_string(&args[0]).unwrap()).unwrap();
    let threads = number("--threads", 1.0) as usize;
    let clock = Clock {
        start: Instant::now(),
        seconds: number("--seconds", 10.0),
        is_cpu: args.iter().any(|a| a == "--cpu"),
    };
    let rounds = value("--rounds").map(|v| v.parse().unwrap());
    let pool = rayon::ThreadPoolBuilder::new()
        .num_threads(threads)
        .build()
        .unwrap();
    let is_loud = args.iter().any(|a| a == "--loud");
    let mut first = None;
    let lay = pool.install(|| {
        strip.solve(
            number("--seed", 1.0) as u64,
            threads,
            rounds,
            &clock,
            &mut |_, usage| {
                let at = clock.start.elapsed().as_secs_f64();
                first.get_or_insert((at, usage));
                if is_loud {
                    eprintln!("{at:7.2} s {:.3} %", 100.0 * usage);
                }
            },
        )
    });
    let lay = lay.unwrap();
    let (at, usage) = first.unwrap();
    println!(
        "{{\"name\": \"{}\", \"usage\": {:.3}, \"length\": {}, \"rounds\": {}, \"wall\": {:.2}, \"cpu\": {:.2}, \"first_s\": {at:.3}, \"first_usage\": {:.2}}}",
        strip.name,
        100.0 * lay.usage,
        lay.length,
        lay.rounds,
        clock.start.elapsed().as_secs_f64(),
        cpu_seconds(),
        100.0 * usage,
    );
    if let Some(path) = value("--out") {
        std::fs::write(path, serde_json::to_string(&lay.placed).unwrap()).unwrap();
    }
}
