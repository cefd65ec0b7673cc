//! Packs a strip instance and prints what came of it: `strip INSTANCE.json --seconds 10 --seed 1 --threads 2 [--cpu] [--rounds N] [--loud] [--out FILE]`.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a measuring program, not part of the library"
)]

use std::time::Instant;

struct Clock {
    start: Instant,
    seconds: f64,
    /// Counts processor time instead of the time on the wall: fair on a busy machine.
    is_cpu: bool,
}

impl Clock {
    fn gone(&self) -> f64 {
        if self.is_cpu {
            cpu_seconds()
        } else {
            self.start.elapsed().as_secs_f64()
        }
    }
}

impl units::Progress for Clock {
    fn at(&self, _: u64, _: u64, _: &str) {}
    fn should_stop(&self) -> bool {
        self.gone() >= self.seconds
    }
    fn share_of_time(&self) -> Option<f64> {
        Some(self.gone() / self.seconds)
    }
}

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

/// User and system time of this process, Linux only.
fn cpu_seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after = stat.rsplit(')').next().unwrap_or_default();
    let fields: Vec<&str> = after.split_whitespace().collect();
    let ticks: f64 = [11, 12]
        .iter()
        .filter_map(|&i| fields.get(i).and_then(|f| f.parse::<f64>().ok()))
        .sum();
    ticks / 100.0
}
