//! A worn suit in lines of text, as the examples print it.

#![allow(clippy::print_stdout, reason = "an example prints")]

use solve::{Solved, WornSuit};

/// Steps of every pass.
pub(crate) fn passes(solved: &Solved) -> String {
    let steps: Vec<String> = solved.passes.iter().map(|p| p.steps.len().to_string()).collect();
    steps.join("+")
}

/// How the solve ended.
pub(crate) fn ending(solved: &Solved) -> String {
    format!(
        "steps {}, {:.1e} N, {}/{}/{}, {:.2} mm deep, {}",
        passes(solved),
        solved.residual_n(),
        solved.states.slack,
        solved.states.wrinkled,
        solved.states.taut,
        solved.penetration_mm(),
        solved.stop.words()
    )
}

/// Levels, edges, straps and ties, what stands off and what rode up.
pub(crate) fn tell(worn: &WornSuit) {
    for l in &worn.levels {
        println!(
            "    {:?} at {:.0}{}: around {:.3} ({:.3}-{:.3}), lengthwise {:.3}, {:.2} kPa",
            l.level,
            l.height_mm,
            if l.closes { "" } else { " (open)" },
            l.around,
            l.around_spread[0],
            l.around_spread[1],
            l.lengthwise,
            l.pressure_kpa
        );
    }
    for e in &worn.edges {
        println!(
            "    {} of the {}: {:.3}, elastic {:.2} N, {:.1} N/m, off {:.1} mm",
            e.kind.name(),
            e.piece,
            e.stretch,
            e.elastic_n,
            e.line_load_n_per_m,
            e.gape_mm
        );
    }
    if let Some(s) = worn.strap {
        println!(
            "    strap {:.3}, rail {:.2} N, needs mu {:.2}",
            s.stretch, s.rail_n, s.needed_friction
        );
    }
    for r in &worn.rails {
        println!(
            "    {}: slides {:.2} N, carried {:.2} N, needs mu {:.2}",
            r.name, r.slides_n, r.contact_n, r.needed_friction
        );
    }
    if let Some(r) = worn.rode_up {
        println!(
            "    rode up {:.0} mm in front, {:.0} behind",
            r.front_mm, r.back_mm
        );
    }
    for l in &worn.lines {
        println!(
            "    {}: {:.0} mm, stretch {:.3}, {:.2} N, {:.2} kPa, off {:.1} mm",
            l.name, l.length_mm, l.stretch, l.pull_n, l.pressure_kpa, l.gape_mm
        );
    }
    for g in worn.gapes.iter().take(5) {
        println!(
            "    off {:.1} mm over {:.0} cm2 at {:.0?}",
            g.depth_mm,
            g.area_mm2 / 100.0,
            g.at
        );
    }
}
