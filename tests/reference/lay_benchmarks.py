#!/usr/bin/env python3
"""Measures the lay on public strip packing instances beside another open-source search, and writes docs/benchmarks.md.

    tools/benchmarks            builds, measures, writes; what was measured before with the same program is kept

Both programs get the same wall time and number of threads and run in turn, so that a busy machine hurts both alike; the processor
seconds each really got stand beside. Every lay is judged by shapely.
"""

import argparse
import csv
import json
import resource
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from lay_strip import Instance, faults

ROOT = Path(__file__).resolve().parents[2]
ROWS = ROOT / "docs/benchmarks.csv"
PAGE = ROOT / "docs/benchmarks.md"
NAMES = ["albano", "shapes1", "marques", "shirts", "trousers"]
# Mean and best of 2 x 50 runs of 1200 s; Gardeyn, Vanden Berghe & Wauters 2025, arXiv 2509.13329, from the run logs published with it.
# Third: best published by Elkeran 2013, EJOR 231, 757-769, from memory.
PUBLISHED = {
    "shirts": (89.66, 90.86, 88.96),
    "trousers": (91.74, 92.29, 91.00),
    "albano": (89.47, 89.67, 89.58),
    "shapes1": (75.68, 76.72, 76.73),
    "marques": (90.92, 91.42, 90.59),
}
FIELDS = ["instance", "program", "seconds", "threads", "seed", "usage", "length", "valid", "wall", "cpu", "first_s"]


def children_cpu():
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def run_ours(program, instance, seconds, seed, threads):
    with tempfile.NamedTemporaryFile(suffix=".json") as out:
        command = [program, str(instance.path), "--seconds", str(seconds), "--seed", str(seed), "--threads", str(threads),
                   "--out", out.name]
        said = json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)
        return json.loads(Path(out.name).read_text()), said["wall"], said.get("first_s", "")


def run_other(instance, seconds, seed, threads):
    command = [sys.executable, __file__, "--other", str(instance.path), str(seconds), str(seed), str(threads)]
    said = json.loads(subprocess.run(command, check=True, capture_output=True, text=True).stdout)
    return said["placed"], said["wall"], ""


def other(path, seconds, seed, threads):
    """The other search, in a process of its own."""
    import time

    import spyrrow

    instance = Instance(path)
    items = [
        spyrrow.Item(str(key), [tuple(p) for p in item["shape"]["data"]], demand=item["demand"],
                     allowed_orientations=item.get("allowed_orientations"))
        for key, item in instance.items.items()
    ]
    start = time.monotonic()
    config = spyrrow.StripPackingConfig(early_termination=False, total_computation_time=int(seconds), num_workers=int(threads),
                                        seed=int(seed))
    solution = spyrrow.StripPackingInstance(instance.name, instance.height, items).solve(config)
    placed = [
        {"id": int(p.id), "rotation_deg": p.rotation, "x": p.translation[0], "y": p.translation[1]}
        for p in solution.placed_items
    ]
    print(json.dumps({"placed": placed, "wall": time.monotonic() - start}))


def measure(args):
    rows = list(csv.DictReader(ROWS.open())) if ROWS.exists() and not args.afresh else []
    known = {(r["instance"], r["program"], r["seconds"], r["threads"], r["seed"]) for r in rows}
    for seconds in args.seconds:
        for seed in args.seeds:
            for name in NAMES:
                instance = Instance(ROOT / f"data/lay/{name}.json")
                for program in ("slackwater", "spyrrow"):
                    if (name, program, str(seconds), str(args.threads), str(seed)) in known:
                        continue
                    before = children_cpu()
                    if program == "slackwater":
                        placed, wall, first = run_ours(args.program, instance, seconds, seed, args.threads)
                    else:
                        placed, wall, first = run_other(instance, seconds, seed, args.threads)
                    wrong, length = faults(instance, placed)
                    row = {
                        "instance": name, "program": program, "seconds": seconds, "threads": args.threads, "seed": seed,
                        "usage": f"{instance.usage(length):.3f}", "length": f"{length:.4f}",
                        "valid": "yes" if not wrong else "NO", "wall": f"{wall:.1f}",
                        "cpu": f"{children_cpu() - before:.1f}", "first_s": first,
                    }
                    print(*row.values(), *wrong[:3], flush=True)
                    rows.append({k: str(v) for k, v in row.items()})
                    with ROWS.open("w", newline="") as out:
                        writer = csv.DictWriter(out, FIELDS)
                        writer.writeheader()
                        writer.writerows(rows)
    return rows


def mean(rows, field):
    return statistics.mean(float(r[field]) for r in rows)


def page(rows):
    seconds = sorted({int(r["seconds"]) for r in rows})
    lines = ["# Benchmarks of the lay", "",
             "Made by `tools/benchmarks`; every run is a row of [benchmarks.csv](benchmarks.csv).", "",
             "Usage is the area of the pieces as a share of strip height x length, in per cent. *spyrrow* is the search of Gardeyn,",
             "Vanden Berghe & Wauters 2025 as a Python package. Both get the same wall time and 2 threads and run in turn on the same",
             "machine; *cpu* is the processor time each run got, in seconds, so that a busy machine can be seen. The published columns",
             "are runs of 1200 s on a 16-core machine (mean and best of 100; arXiv 2509.13329) and Elkeran 2013 (EJOR 231, from memory)."]
    for s in seconds:
        lines += ["", f"## {s} seconds", "",
                  "| instance | runs | slackwater mean (each) | cpu | spyrrow mean (each) | cpu | difference | all valid | published mean, best | Elkeran |",
                  "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |"]
        for name in NAMES:
            ours = [r for r in rows if r["instance"] == name and r["program"] == "slackwater" and int(r["seconds"]) == s]
            theirs = [r for r in rows if r["instance"] == name and r["program"] == "spyrrow" and int(r["seconds"]) == s]
            if not ours or not theirs:
                continue
            each = [" / ".join(f"{float(r['usage']):.2f}" for r in some) for some in (ours, theirs)]
            valid = [sum(r["valid"] == "yes" for r in some) for some in (ours, theirs)]
            published = PUBLISHED[name]
            lines.append(
                f"| {name} | {len(ours)} | **{mean(ours, 'usage'):.2f}** ({each[0]}) | {mean(ours, 'cpu'):.0f} "
                f"| {mean(theirs, 'usage'):.2f} ({each[1]}) | {mean(theirs, 'cpu'):.0f} "
                f"| {mean(ours, 'usage') - mean(theirs, 'usage'):+.2f} "
                f"| {valid[0]}/{len(ours)}, {valid[1]}/{len(theirs)} "
                f"| {published[0]:.2f}, {published[1]:.2f} | {published[2]:.2f} |")
    return "\n".join(lines) + "\n"


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", default=str(ROOT / "target/release/examples/strip"))
    parser.add_argument("--seconds", type=int, nargs="+", default=[10, 60])
    parser.add_argument("--seeds", type=int, nargs="+", default=[1, 2, 3])
    parser.add_argument("--threads", type=int, default=2)
    parser.add_argument("--afresh", action="store_true", help="forget earlier rows")
    parser.add_argument("--page-only", action="store_true", help="write the page from the rows that are there")
    parser.add_argument("--other", nargs=4, help=argparse.SUPPRESS)
    args = parser.parse_args()
    if args.other:
        other(*args.other)
        return
    rows = list(csv.DictReader(ROWS.open())) if args.page_only else measure(args)
    own = PAGE.read_text().split("\n<!-- suits -->", 1) if PAGE.exists() else [""]
    tail = "\n<!-- suits -->" + own[1] if len(own) > 1 else ""
    PAGE.write_text(page(rows) + tail)


if __name__ == "__main__":
    main()
