"""Booklets read back by another reader: paper size, nothing outside the margins, outline, language, tags, order of the text.

    python tests/reference/check_booklet.py out/test/*-a4/booklet-a4.pdf

Nothing of the writer is used: pypdf reads the structure, poppler the place of every word. What is set lies between the margins but for the tape down the left edge, which holds figures only.
"""

from __future__ import annotations

import argparse
import html
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass

from pypdf import PdfReader

from tally import Tally

MM_PER_PT = 25.4 / 72
PAPER_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
# The template's margins, mm; a number of a step hangs 13 mm out of the column on purpose.
LEFT_MM, RIGHT_MM, TOP_MM, BOTTOM_MM = 33.0, 17.0, 12.0, 13.0
HANGS_MM = 13.0
TAPE_MM = 17.0
# Chapters every booklet has, by the start of their title, in reading order.
CHAPTERS = {
    "en": ["The wearer", "The cloths", "How it will sit", "The pieces", "Order of work", "Try-on sheet", "Care", "Cautions", "Words"],
    "de": ["Die Maße", "Die Stoffe", "Wie das Modell", "Die Schnittteile", "Arbeitsfolge", "Anprobe", "Pflege", "Warnhinweise", "Wörter"],
}


def outline_titles(reader: PdfReader) -> list[str]:
    titles: list[str] = []

    def walk(entries) -> None:
        for entry in entries:
            if isinstance(entry, list):
                walk(entry)
            else:
                titles.append(str(entry.title))

    walk(reader.outline)
    return titles


def check(tally: Tally, path: str) -> None:
    reader = PdfReader(path)
    root = reader.trailer["/Root"]
    paper = "letter" if path.endswith("letter.pdf") else "a4"
    language = str(root.get("/Lang", ""))
    tally.check(language in CHAPTERS, f"{path}: language {language!r}")
    tally.check(bool(root.get("/MarkInfo", {}).get("/Marked")), f"{path}: not tagged")
    tally.check("/StructTreeRoot" in root, f"{path}: no structure tree")
    tally.check(bool(reader.metadata and reader.metadata.title), f"{path}: no title")
    tally.check(b"pdfuaid" in root["/Metadata"].get_data(), f"{path}: does not claim PDF/UA")
    titles = outline_titles(reader)
    _in_order(tally, path, "outline", titles, CHAPTERS.get(language, []))
    wide, high = PAPER_MM[paper]
    lines: list[str] = []
    for number, page in enumerate(reader.pages, 1):
        box = page.mediabox
        size = (float(box.width) * MM_PER_PT, float(box.height) * MM_PER_PT)
        near = abs(size[0] - wide) < 0.1 and abs(size[1] - high) < 0.1
        tally.check(near, f"{path} page {number}: {size[0]:.1f} x {size[1]:.1f} mm")
        text = page.extract_text()
        tally.check(len(text.strip()) > 20, f"{path} page {number}: empty")
        lines += [line.strip() for line in text.splitlines()]
    if shutil.which("pdftotext"):
        _places(tally, path, wide, high)
    else:
        tally.skip("places of words: pdftotext is missing (install poppler-utils)")
    after_contents = lines[len(reader.pages[0].extract_text().splitlines()) + len(reader.pages[1].extract_text().splitlines()):]
    _in_order(tally, path, "text", after_contents, CHAPTERS.get(language, []))
    for line in lines:
        tally.check("‹" not in line and "{$" not in line, f"{path}: unsaid {line!r}")


def _in_order(tally: Tally, path: str, where: str, lines: list[str], wanted: list[str]) -> None:
    at = 0
    for title in wanted:
        found = next((i for i in range(at, len(lines)) if lines[i].startswith(title)), None)
        if tally.check(found is not None, f"{path}: {title!r} is not in the {where}, or not in its place"):
            at = found


@dataclass
class Word:
    """A word as rendered, mm from the upper left corner."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    def overlap(self, other: "Word") -> float:
        """Shared area over the smaller one's."""
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.bottom, other.bottom) - max(self.top, other.top)
        if wide <= 0 or high <= 0:
            return 0.0
        area = min((w.right - w.left) * (w.bottom - w.top) for w in (self, other))
        return wide * high / area if area > 0 else 0.0


def read_words(path: str) -> list[list[Word]]:
    """Every word of every page with its box, by poppler."""
    told = subprocess.run(["pdftotext", "-bbox", path, "-"], check=True, capture_output=True, text=True).stdout
    pages = []
    for page in told.split("<page ")[1:]:
        boxes = re.findall(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>', page)
        pages.append([Word(html.unescape(t), *(float(v) * MM_PER_PT for v in box)) for *box, t in boxes])
    return pages


def _places(tally: Tally, path: str, wide: float, high: float) -> None:
    """Nothing outside the margins, no word on another."""
    for number, words in enumerate(read_words(path), 1):
        set_words = [w for w in words if not (w.right < TAPE_MM and w.text.isdigit())]
        for word in set_words:
            is_inside = (
                LEFT_MM - HANGS_MM - 0.5 <= word.left
                and word.right <= wide - RIGHT_MM + 0.5
                and TOP_MM <= word.top
                and word.bottom <= high - BOTTOM_MM
            )
            tally.check(is_inside, f"{path} page {number}: {word} is outside the margins")
        set_words.sort(key=lambda w: w.top)
        for i, one in enumerate(set_words):
            for other in set_words[i + 1 :]:
                if other.top > one.bottom:
                    break
                # Boxes hold the whole line's height: descenders above ascenders share a little.
                tally.check(one.overlap(other) < 0.3, f"{path} page {number}: {one.text!r} and {other.text!r} collide")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("files", nargs="+")
    tally = Tally()
    for path in parser.parse_args().files:
        check(tally, path)
    print(tally.closing())
    return int(tally.failed > 0)


if __name__ == "__main__":
    sys.exit(main())
