#!/usr/bin/env python3
"""Measures lays of real suits and writes the second half of docs/benchmarks.md: every example beside plain rows, and how cost grows.

    tools/benchmarks --suits

Every lay is also held against shapely (check_lay.py).
"""

import argparse
import json
import os
import pty
import resource
import subprocess
import time
from pathlib import Path

from check_lay import faults

ROOT = Path(__file__).resolve().parents[2]
PAGE = ROOT / "docs/benchmarks.md"
MARK = "\n<!-- suits -->"


def run(program, files, *options):
    """The report, wall seconds, and the greatest memory of any child so far in MB."""
    start = time.monotonic()
    command = [program, "--json", "lay", *map(str, files), *options]
    said = subprocess.run(command, capture_output=True, text=True)
    if said.returncode not in (0, 1):
        raise SystemExit(f"{' '.join(command)}\n{said.stderr}")
    memory = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    return json.loads(said.stdout), time.monotonic() - start, memory


def on_screen(program, files, *options):
    """Seconds from the start of the program until it tells of its first lay on a terminal."""
    ours, its = pty.openpty()
    start = time.monotonic()
    process = subprocess.Popen([program, "lay", *map(str, files), *options, "--seconds", "5"],
                               stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=its)
    os.close(its)
    said = b""
    while b"% used" not in said:
        # Reading a terminal nobody writes to any more is an error: the program ended without a lay.
        said += os.read(ours, 65536)
    gone = time.monotonic() - start
    process.terminate()
    process.wait()
    os.close(ours)
    return gone


def judged(lays, wrong):
    for lay in lays:
        wrong += [f"{lay['title']}: {w}" for w in faults(lay)]
    return lays


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", required=True)
    parser.add_argument("--seconds", type=float, default=10)
    parser.add_argument("--scale-seconds", type=float, default=60)
    parser.add_argument("--counts", type=int, nargs="+", default=[1, 5, 20, 100])
    args = parser.parse_args()
    examples = sorted((ROOT / "examples").glob("*.toml"))
    wrong = []
    lines = ["", "# Suits", "",
             "Made by `tools/benchmarks --suits`. Examples on their cloths, one-way, 3 mm gap, 1 cm selvedge margin, 2 cm at each end;",
             f"{args.seconds:g} s a suit, 2 threads. *Rows*: the same pieces in plain rows across the cloth, as laid by hand. Each lay passed",
             "the check by shapely (tests/reference/check_lay.py).", "",
             "| lay | cloth width cm | pieces | rows cm | lay cm | saved % | usage % | bound cm | buy cm |",
             "| --- | --- | --- | --- | --- | --- | --- | --- | --- |"]
    for path in examples:
        said, _, _ = run(args.program, [path], "--seconds", str(args.seconds), "--threads", "2")
        for lay in judged(said["lays"], wrong):
            ends = lay["lay"]["cloth_mm"] - lay["lay"]["length_mm"]
            lines.append(
                f"| {lay['title']} | {lay['width_mm'] / 10:.0f} | {lay['pieces']} | {lay['row_by_row_mm'] / 10:.1f} "
                f"| {lay['lay']['cloth_mm'] / 10:.1f} | {round(lay['saved_percent'])} | {100 * lay['lay']['usage']:.1f} "
                f"| {(lay['lay']['bound']['length_mm'] + ends) / 10:.1f} | {lay['buying']['buy_mm'] / 10:.0f} |")
            print(lines[-1], flush=True)
    lines += ["", "## Many suits in one lay", "",
              "The examples' shells over and over on one cloth 150 cm wide. *First*: seconds from the start of the program",
              "until its first valid lay is on the screen, reading and drafting included; *rows*: the same in plain rows.", "",
              "| suits | pieces | first lay s | usage of the first % | usage after "
              f"{args.scale_seconds:g} s % | rows would use % | lay m | processor s | memory MB |",
              "| --- | --- | --- | --- | --- | --- | --- | --- | --- |"]
    for count in args.counts:
        files = [examples[k % len(examples)] for k in range(count)]
        common = ["--layer", "shell", "--threads", "2", "--one-cloth", "--print-on-its-side"]
        wall = on_screen(args.program, files, *common)
        first, _, _ = run(args.program, files, *common, "--passes", "0")
        said, _, memory = run(args.program, files, *common, "--seconds", str(args.scale_seconds))
        judged(first["lays"] + said["lays"], wrong)
        lay, plain = said["lays"][0], first["lays"][0]
        by_rows = lay["lay"]["usage"] * lay["lay"]["cloth_mm"] / lay["row_by_row_mm"]
        lines.append(
            f"| {count} | {lay['pieces']} | {wall:.2f} | {100 * plain['lay']['usage']:.1f} | {100 * lay['lay']['usage']:.1f} "
            f"| {100 * by_rows:.1f} | {lay['lay']['cloth_mm'] / 1000:.2f} | {said['cpu_seconds']:.0f} | {memory:.0f} |")
        print(lines[-1], flush=True)
    for sentence in wrong:
        print("FAILED", sentence)
    before = PAGE.read_text().split(MARK, 1)[0] if PAGE.exists() else ""
    PAGE.write_text(before.rstrip("\n") + "\n" + MARK + "\n".join(lines) + "\n")
    if wrong:
        raise SystemExit(1)


if __name__ == "__main__":
    main()
