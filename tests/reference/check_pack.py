#!/usr/bin/env python3
"""Reads packed suits back with readers that are not our writers, and holds every file against pattern.json.

    check_pack.py [--no-raster] FOLDER...

Says what failed and where, the greatest deviation of each kind, and `N passed, M failed`; exits with 1 if anything failed.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
import traceback
from concurrent.futures import ProcessPoolExecutor
from functools import partial

import check_booklet
import check_drawings
import check_geometry
import check_lay
import check_pdf
import pattern_file
import raster
from tally import Tally

PDFS = {"a4": "pattern-a4.pdf", "letter": "pattern-letter.pdf", "a0": "pattern-a0.pdf", "roll": "pattern-roll.pdf"}
DRAWINGS = {
    "pattern.svg": check_drawings.check_svg,
    "pattern-exchange.dxf": check_drawings.check_exchange,
    "pattern-cutter.dxf": check_drawings.check_cutter,
}


def check_folder(tally: Tally, folder: str, with_raster: bool) -> None:
    """All files of one pack."""

    def at(name: str) -> str:
        tally.where = os.path.join(folder, name)
        return tally.where

    def guarded(check, *arguments) -> None:
        """A file that cannot be read at all is a failure like any other, not the end of the run."""
        try:
            check(*arguments)
        except Exception:  # noqa: BLE001: whatever a damaged file throws
            tally.check(False, traceback.format_exc(limit=-3))

    try:
        pattern = pattern_file.read(at("pattern.json"))
    except Exception:  # noqa: BLE001
        tally.check(False, traceback.format_exc(limit=-2))
        return
    tally.check(True, "pattern.json reads")
    guarded(check_geometry.check, tally, pattern)
    for name, check in DRAWINGS.items():
        guarded(check, tally, at(name), pattern)
    tally.where = folder
    tiled = [kind for kind in ("a4", "letter") if os.path.exists(os.path.join(folder, PDFS[kind]))]
    tally.check(len(tiled) > 0, "neither A4 nor Letter tiles were made")
    for kind in (*tiled, "a0", "roll"):
        guarded(check_pdf.check, tally, at(PDFS[kind]), kind, pattern, with_raster)
    # A program built without its typesetter packs no booklets.
    for booklet in (at(f"booklet-{kind}.pdf") for kind in tiled):
        if os.path.exists(booklet):
            guarded(check_booklet.check, tally, booklet)
    guarded(check_pdf.check_projector, tally, at("pattern-projector.pdf"), pattern)
    with open(at("report.json"), encoding="utf-8") as file:
        report = json.load(file)
    guarded(_report, tally, report, pattern)
    guarded(_lays, tally, report, folder)


def _report(tally: Tally, report: dict, pattern: pattern_file.Pattern) -> None:
    tally.check(report.get("version") == pattern.version, "report and pattern are not of one version")


def _counted(with_raster: bool, folder: str) -> Tally:
    """The checks of one folder, counted by themselves."""
    tally = Tally()
    try:
        check_folder(tally, folder, with_raster)
    except raster.NoRenderer as missing:
        tally.check(False, str(missing))
    return tally


def _lays(tally: Tally, report: dict, folder: str) -> None:
    """Every cloth has its lay by the rules, judged by shapely on the outlines in the report, and its plan; or the reason why not."""
    laid = {lay["layer"] for lay in report["lays"]} | {lay["layer"] for lay in report["not_laid"]}
    cut = {row["layer"] for row in report["cut_list"]}
    tally.check(laid == cut, f"cut from {sorted(cut)}, laid {sorted(laid)}")
    for lay in report["lays"]:
        wrong = check_lay.faults(lay)
        tally.check(not wrong, f"{lay['title']}: {'; '.join(wrong)}")
        plan = os.path.join(folder, f"lay-{lay['layer']}.pdf")
        tally.check(os.path.exists(plan), f"{plan} was not made")
        counted = sum(row["count"] for row in report["cut_list"] if row["layer"] == lay["layer"])
        tally.check(counted == lay["pieces"], f"{lay['title']}: {lay['pieces']} laid of {counted}")
        buying = lay["buying"]
        enough = lay["lay"]["cloth_mm"] <= buying["need_mm"] + 0.01 and buying["need_mm"] <= buying["buy_mm"] + 0.06
        tally.check(enough, f"{lay['title']}: buys {buying['buy_mm']} for {lay['lay']['cloth_mm']}")
    for lay in report["not_laid"]:
        tally.check(bool(lay["why"]), f"{lay['layer']} is not laid and no reason is given")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("folders", nargs="+", metavar="FOLDER")
    parser.add_argument("--no-raster", action="store_true", help="don't render pages (poppler is missing)")
    arguments = parser.parse_args()
    tally = Tally()
    if arguments.no_raster:
        tally.skip("pages were not rendered")
    # A process a core; what is said comes in the order of the folders.
    with ProcessPoolExecutor() as pool:
        for folder, counted in zip(arguments.folders, pool.map(partial(_counted, not arguments.no_raster), arguments.folders)):
            tally.add(counted)
            print(f"{folder}: {'FAILED' if counted.failed else 'good'}", flush=True)
    for kind, (deviation, limit, unit) in sorted(tally.greatest.items()):
        print(f"  {kind}: at most {deviation:.4f} of {limit} {unit}")
    print(tally.closing())
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
