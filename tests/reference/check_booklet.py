"""Booklets read back by other readers: paper, margins, collisions, headings, sizes of letters, fonts, tags, reading order.

    python tests/reference/check_booklet.py out/test/*-a4 out/booklets/maren-class-de

A folder stands for every `booklet*.pdf` in it; where `booklet.json` (from `slackwater booklet --data`) lies beside them, the
text must come in the order of that document. Nothing of the writer is used: pypdf reads the structure, poppler the place of
every word. What is set lies between the margins but for the tape down the left edge, which holds figures only.
"""

from __future__ import annotations

import argparse
import html
import json
import os
import re
import shutil
import subprocess
import sys
import unicodedata
from dataclasses import dataclass
from typing import Any, Iterator

from pypdf import PdfReader

from tally import Tally

MM_PER_PT = 25.4 / 72
PAPER_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
# The template's margins, mm; a number of a step hangs 13 mm out of the column on purpose.
LEFT_MM, RIGHT_MM, TOP_MM, BOTTOM_MM = 33.0, 17.0, 12.0, 13.0
HANGS_MM = 13.0
TAPE_MM = 17.0
# The running head ends here.
HEAD_MM = 22.0
# Nothing on paper is smaller (the look); what is set is rounded in the file.
SMALLEST_PT = 7.95
# A page but the last whose lowest word stands higher than this is as good as empty.
NEARLY_EMPTY_MM = 75.0
# Chapters every booklet has, by the start of their title, in reading order.
CHAPTERS = {
    "en": ["How to read it", "The wearer", "The cloths", "How it will sit", "The pieces", "Order of work", "Try-on sheet", "Care", "Cautions", "Words"],
    "de": ["So liest sich", "Die Maße", "Die Stoffe", "Wie das Modell", "Die Schnittteile", "Arbeitsfolge", "Anprobe", "Pflege", "Warnhinweise", "Wörter"],
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
    """Everything that must hold of one booklet."""
    reader = PdfReader(path)
    root = reader.trailer["/Root"]
    paper = "letter" if path.endswith("letter.pdf") else "a4"
    language = str(root.get("/Lang", ""))
    tally.check(language in CHAPTERS, f"{path}: language {language!r}")
    _claims(tally, path, reader)
    _tags(tally, path, root)
    _fonts(tally, path, reader)
    titles = outline_titles(reader)
    _in_order(tally, path, "outline", titles, CHAPTERS.get(language, []))
    wide, high = PAPER_MM[paper]
    lines: list[str] = []
    for number, page in enumerate(reader.pages, 1):
        box = page.mediabox
        size = (float(box.width) * MM_PER_PT, float(box.height) * MM_PER_PT)
        near = abs(size[0] - wide) < 0.1 and abs(size[1] - high) < 0.1
        tally.check(near, f"{path} page {number}: {size[0]:.1f} x {size[1]:.1f} mm")
        text, smallest = _letters(page)
        tally.check(len(text.strip()) > 20, f"{path} page {number}: empty")
        tally.check(smallest[0] >= SMALLEST_PT, f"{path} page {number}: {smallest[1]!r} is set in {smallest[0]:.2f} pt")
        lines += [line.strip() for line in text.splitlines()]
    after_contents = lines[sum(len(reader.pages[i].extract_text().splitlines()) for i in (0,)) :]
    _in_order(tally, path, "text", after_contents, CHAPTERS.get(language, []))
    for line in lines:
        tally.check("‹" not in line and "{$" not in line, f"{path}: unsaid {line!r}")
    if not shutil.which("pdftotext"):
        tally.skip("places of words: pdftotext is missing (install poppler-utils)")
        return
    pages = read_words(path)
    _places(tally, path, pages, wide, high)
    _foot(tally, path, pages, titles)
    data = os.path.join(os.path.dirname(path), "booklet.json")
    if os.path.exists(data):
        with open(data, encoding="utf-8") as file:
            _reading_order(tally, path, pages, json.load(file))


def _claims(tally: Tally, path: str, reader: PdfReader) -> None:
    """What a PDF/UA-1 file says of itself (ISO 14289-1, from memory): tagged, titled, named by its title, part 1 claimed."""
    root = reader.trailer["/Root"]
    tally.check(bool(root.get("/MarkInfo", {}).get("/Marked")), f"{path}: not tagged")
    tally.check(bool(reader.metadata and reader.metadata.title), f"{path}: no title")
    told = root["/Metadata"].get_data().decode("utf-8", "replace")
    tally.check(re.search(r"pdfuaid:part(>|=\")1", told) is not None, f"{path}: does not claim PDF/UA-1")
    shows = root.get("/ViewerPreferences", {}).get("/DisplayDocTitle")
    tally.check(shows is not None and bool(shows.value if hasattr(shows, "value") else shows), f"{path}: title not shown")


def _tags(tally: Tally, path: str, root: Any) -> None:
    """Drawings say what they show, headings skip no level, tables have heads."""
    if not tally.check("/StructTreeRoot" in root, f"{path}: no structure tree"):
        return
    levels: list[int] = []
    counted: dict[str, int] = {}

    def walk(node: Any) -> None:
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, list):
            for one in node:
                walk(one)
            return
        if not hasattr(node, "get"):
            return
        kind = str(node.get("/S", ""))
        counted[kind] = counted.get(kind, 0) + 1
        if kind == "/Figure":
            tally.check(len(str(node.get("/Alt", ""))) > 10, f"{path}: a drawing without words")
        if re.fullmatch(r"/H[1-6]", kind):
            levels.append(int(kind[2]))
        if "/K" in node:
            walk(node["/K"])

    walk(root["/StructTreeRoot"].get("/K", []))
    tally.check(counted.get("/Figure", 0) > 3 and counted.get("/Table", 0) > 3, f"{path}: few drawings or tables are tagged")
    tally.check(counted.get("/TH", 0) >= 2 * counted.get("/Table", 0), f"{path}: tables without heads")
    skipped = [pair for pair in zip([0, *levels], levels) if pair[1] > pair[0] + 1]
    tally.check(not skipped, f"{path}: headings skip a level: {skipped[:3]}")


def _fonts(tally: Tally, path: str, reader: PdfReader) -> None:
    """Every font is in the file."""
    seen: dict[int, str] = {}

    def walk(resources: Any) -> None:
        resources = resources.get_object()
        for font in resources.get("/Font", {}).values():
            font = font.get_object()
            for one in font.get("/DescendantFonts", [font]):
                one = one.get_object()
                described = one.get("/FontDescriptor", {})
                name = str(one.get("/BaseFont", "?"))
                is_in = any(key in described for key in ("/FontFile", "/FontFile2", "/FontFile3"))
                is_drawn = font.get("/Subtype") == "/Type3"
                if id(one) not in seen:
                    seen[id(one)] = name
                    tally.check(is_in or is_drawn, f"{path}: {name} is not embedded")
        for form in resources.get("/XObject", {}).values():
            form = form.get_object()
            if "/Resources" in form:
                walk(form["/Resources"])

    for page in reader.pages:
        walk(page["/Resources"])
    families = {name.split("+")[-1] for name in seen.values()}
    tally.check(any("Besley" in name for name in families), f"{path}: fonts {sorted(families)}")


def _letters(page: Any) -> tuple[str, tuple[float, str]]:
    """The text of a page, and its smallest letters with what they say."""
    smallest = (float("inf"), "")

    def scale(matrix: list[float]) -> float:
        return abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]) ** 0.5

    def see(text: str, cm: list[float], tm: list[float], _font: Any, size: float) -> None:
        nonlocal smallest
        if text.strip():
            set_in = abs(size) * scale(tm) * scale(cm)
            if set_in < smallest[0]:
                smallest = (set_in, text.strip())

    return page.extract_text(visitor_text=see), smallest


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

    def is_tape(self) -> bool:
        """A figure of the tape down the left edge."""
        return self.right < TAPE_MM and self.text.isdigit()


def read_words(path: str) -> list[list[Word]]:
    """Every word of every page with its box, in the order they are written in the file, without the tape's; by poppler."""
    told = subprocess.run(["pdftotext", "-raw", "-bbox", path, "-"], check=True, capture_output=True, text=True).stdout
    pages = []
    for page in told.split("<page ")[1:]:
        boxes = re.findall(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>', page)
        words = [Word(html.unescape(t), *(float(v) * MM_PER_PT for v in box)) for *box, t in boxes]
        pages.append([w for w in words if not w.is_tape()])
    return pages


def _places(tally: Tally, path: str, pages: list[list[Word]], wide: float, high: float) -> None:
    """Nothing outside the margins, no word on another, no page as good as empty."""
    for number, words in enumerate(pages, 1):
        for word in words:
            is_inside = (
                LEFT_MM - HANGS_MM - 0.5 <= word.left
                and word.right <= wide - RIGHT_MM + 0.5
                and TOP_MM <= word.top
                and word.bottom <= high - BOTTOM_MM
            )
            tally.check(is_inside, f"{path} page {number}: {word} is outside the margins")
        down = sorted(words, key=lambda w: w.top)
        for i, one in enumerate(down):
            for other in down[i + 1 :]:
                if other.top > one.bottom:
                    break
                # Boxes hold the whole line's height: descenders above ascenders share a little.
                tally.check(one.overlap(other) < 0.3, f"{path} page {number}: {one.text!r} and {other.text!r} collide")
        if number < len(pages):
            lowest = max((w.bottom for w in words), default=0.0)
            tally.check(lowest > NEARLY_EMPTY_MM, f"{path} page {number}: nothing below {lowest:.0f} mm")


def _foot(tally: Tally, path: str, pages: list[list[Word]], titles: list[str]) -> None:
    """A heading is never the last line of a page."""
    heads = [_plain(title) for title in titles]
    for number, words in enumerate(pages, 1):
        lowest = max((w.bottom for w in words), default=0.0)
        last = _plain("".join(w.text for w in sorted(words, key=lambda w: w.left) if w.bottom > lowest - 2.0))
        tally.check(not last or last not in heads, f"{path} page {number}: the heading {last!r} stands alone at the foot")


def _plain(text: str) -> str:
    """Without spaces and hyphens, which lines are broken at, and without dots, which lead to page numbers."""
    return re.sub(r"[\s\-\u00ad\u2010\u2011.…]", "", unicodedata.normalize("NFKC", text))


def _said(block: dict[str, Any]) -> Iterator[str]:
    """The words of a block of the document, in its order."""
    kind = block["is"]
    if kind in ("heading", "paragraph"):
        yield block["text"]
    elif kind == "list":
        yield from block["items"]
    elif kind == "table":
        for row in block["rows"]:
            for cell in row:
                yield from _cell(cell)
    elif kind == "figures":
        yield from (figure["caption"] for figure in block["figures"])
    elif kind == "facts":
        yield from _facts(block["facts"])
    elif kind == "callout":
        yield block["word"]
        yield block["text"]
    elif kind == "blank":
        yield block["label"]
    elif kind == "keep":
        for one in block["blocks"]:
            yield from _said(one)
    elif kind == "terms":
        for word, means in block["terms"]:
            yield word
            yield means
    elif kind == "step":
        yield str(block["number"])
        yield block["title"]
        yield block["lead"]
        yield from _facts(block["facts"])
        yield from block["how"]
        yield block["why"]
        if block["callout"]:
            yield block["callout"]["text"]
        yield block["note"]


def _cell(cell: dict[str, Any]) -> Iterator[str]:
    if cell["is"] == "text":
        yield cell["main"]
        yield cell["other"]
    elif cell["is"] == "sign":
        yield cell["word"]


def _facts(facts: list[dict[str, Any]]) -> Iterator[str]:
    for fact in facts:
        yield fact["name"]
        yield from _cell(fact["value"])
        yield fact["note"]


def _reading_order(tally: Tally, path: str, pages: list[list[Word]], document: dict[str, Any]) -> None:
    """Everything the document says is in the file, in the document's order."""
    set_words = [w.text for page, words in enumerate(pages) for w in words if page == 0 or w.bottom > HEAD_MM]
    text = _plain("".join(set_words))
    cover = document["cover"]
    said = [document["title"], cover["made_for"], *cover["lines"], document["contents_title"]]
    for chapter in document["chapters"]:
        said += [chapter["title"], chapter["lead"]]
        for block in chapter["blocks"]:
            said += _said(block)
    at = 0
    # The contents name every title before it comes.
    contents = text.find(_plain(document["contents_title"]))
    last = _plain(document["chapters"][-1]["title"])
    for words in filter(None, map(_plain, said)):
        found = text.find(words, at)
        if tally.check(found >= 0, f"{path}: {words[:60]!r} does not come in the order of the document"):
            at = found + len(words)
        if words == _plain(document["contents_title"]):
            at = text.find(last, contents) + len(last)


def booklets(places: list[str]) -> list[str]:
    """The files, and every booklet in the folders."""
    found: list[str] = []
    for place in places:
        if os.path.isdir(place):
            inside = sorted(os.listdir(place))
            found += [os.path.join(place, name) for name in inside if re.fullmatch(r"booklet.*\.pdf", name)]
        else:
            found.append(place)
    return found


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("places", nargs="+", help="booklets, or folders with booklets in them")
    tally = Tally()
    found = booklets(parser.parse_args().places)
    tally.check(bool(found), "no booklet in any of the folders")
    for path in found:
        check(tally, path)
    print(tally.closing())
    return int(tally.failed > 0)


if __name__ == "__main__":
    sys.exit(main())
