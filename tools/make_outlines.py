"""Write `src/shedbook/engrave/tables/outlines.py`: the letters that scores are lettered with, as path data.

Run by hand when a font or the character set changes: `python tools/make_outlines.py`. Reading the fonts
takes fontTools a tenth of a second; the table takes about a millisecond, and scores need no font at all.
"""

from __future__ import annotations

import hashlib
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import font_source_sans_pro
import font_source_serif_pro
import verovio
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

TARGET = Path(__file__).parent.parent / "src/shedbook/engrave/tables/outlines.py"
ASCII = "".join(chr(code) for code in range(0x20, 0x7F))
TEXT = ASCII + "".join(
    chr(code) for code in (*range(0xA1, 0xAD), *range(0xAE, 0x180), 0x2013, 0x2014, *range(0x2018, 0x201F),
                           0x2026, 0x2039, 0x203A)
)  # fmt: skip
GREEK_CYRILLIC = "".join(chr(code) for code in (*range(0x386, 0x3CF), *range(0x401, 0x460), 0x490, 0x491))
"""What the letters of the plain face stand in for in the others too."""
SANS, SERIF = Path(font_source_sans_pro.__file__), Path(font_source_serif_pro.__file__)
FONTS = {
    "sans": (SANS, "SourceSansPro-Regular.otf", TEXT + GREEK_CYRILLIC),
    "sans-semibold": (SANS, "SourceSansPro-Semibold.otf", ASCII + "–"),
    "serif-italic": (SERIF, "SourceSerifPro-It.otf", TEXT),
    "serif-semibold": (SERIF, "SourceSerifPro-Semibold.otf", TEXT),
}
MUSIC = {
    "♭": "E260", "♮": "E261", "♯": "E262", "𝄪": "E263", "𝄫": "E264",
    "gclef": "E050", "gclef8": "E052", "cclef": "E05C", "fclef": "E062", "fclef8": "E064",
    "half": "ECA3", "quarter": "ECA5", "eighth": "ECA7", "dot": "ECB7", "(": "E0F5", ")": "E0F6",
}  # fmt: skip
"""Accidentals, clefs, tempo notes and notehead brackets of the music font (SMuFL code points)."""

HEAD = '''# ruff: noqa: E501
# fmt: off
"""Letter outlines by font and character: (advance, left, right, path data).

Written by tools/make_outlines.py; not to be edited by hand.

Units are 1/1000 em, y grows downwards, the origin lies on the baseline. `left` and `right` bound the ink.
The outlines are data taken from the fonts Source Sans Pro and Source Serif Pro (Copyright 2010, 2012, 2014
Adobe Systems Incorporated, with Reserved Font Name "Source") and, under "music", Leipzig (Copyright Etienne
Darbellay, Jean-François Marti, Laurent Pugin, Klaus Rettinghaus and others), all under the SIL Open Font
License 1.1, which goes on to hold for this table. Source digest: {digest}.
"""

from collections.abc import Mapping

Glyph = tuple[int, int, int, str]

OUTLINES: Mapping[str, Mapping[str, Glyph]] = {{
'''


def relative(value: list[tuple[str, tuple[tuple[float, float], ...]]]) -> tuple[str, list[float]]:
    """Return compact path data with relative commands, y turned downwards, and every x that occurs."""
    out: list[str] = []
    xs: list[float] = []
    here = start = (0, 0)
    for command, points in value:
        turned = [(round(x), round(-y)) for x, y in points]
        xs += [x for x, _ in turned]
        if command in ("closePath", "endPath"):
            out.append("z")
            here = start
            continue
        if command == "moveTo":
            start = turned[0]
        letter = {"moveTo": "m", "lineTo": "l", "curveTo": "c"}[command]
        numbers = [part for x, y in turned for part in (x - here[0], y - here[1])]
        out.append(letter + " ".join(str(number) for number in numbers).replace(" -", "-"))
        here = turned[-1]
    return "".join(out), xs


def font_glyphs(path: Path, characters: str) -> dict[str, tuple[int, int, int, str]]:
    """Read the outlines of some characters of an OpenType font with cubic curves."""
    font = TTFont(path)
    names, glyphs = font.getBestCmap(), font.getGlyphSet()
    found = {}
    for character in characters:
        if ord(character) not in names:
            continue
        pen = DecomposingRecordingPen(glyphs)
        glyph = glyphs[names[ord(character)]]
        glyph.draw(pen)
        data, xs = relative(pen.value)
        found[character] = (round(glyph.width), round(min(xs, default=0)), round(max(xs, default=0)), data)
    return found


def music_glyphs() -> dict[str, tuple[int, int, int, str]]:
    """Read accidentals and tempo notes of the music font from Verovio's own data."""
    data = Path(verovio.__file__).parent / "data"
    boxes = {str(row.get("c")): row for row in ET.parse(data / "Leipzig.xml").getroot()}
    found = {}
    for character, code in MUSIC.items():
        box = boxes[code]
        left, width = float(box.get("x", "0")), float(box.get("w", "0"))
        text = (data / "Leipzig" / f"{code}.xml").read_text("utf-8")
        path = re.search(r' d="([^"]*)"', text)
        if path is None:
            raise ValueError(f"no outline for {code}")
        advance = round(float(box.get("h-a-x") or width))
        found[character] = (advance, round(left), round(left + width), flipped(path[1]))
    return found


def flipped(data: str) -> str:
    """Turn absolute and relative path data upside down (only the commands that the music font uses)."""
    out = []
    for command, numbers in re.findall(r"([a-zA-Z])([^a-zA-Z]*)", data):
        values = re.findall(r"-?[\d.]+", numbers)
        if command in "vV":
            values = [negated(value) for value in values]
        elif command not in "hHzZ":
            if command in "aA":
                raise ValueError("an arc in the music font")
            values = [negated(value) if index % 2 else value for index, value in enumerate(values)]
        out.append(command + " ".join(values).replace(" -", "-"))
    return "".join(out)


def negated(number: str) -> str:
    """Return the text of the negative number."""
    if number.strip("-0.") == "":
        return number
    return number[1:] if number.startswith("-") else f"-{number}"


def main() -> None:
    """Write the table."""
    rows, digest = [], hashlib.sha256()
    for name, (package, file, characters) in FONTS.items():
        path = package.parent / "files" / file
        digest.update(path.read_bytes())
        rows.append((name, font_glyphs(path, characters)))
    rows.append(("music", music_glyphs()))
    lines = [HEAD.format(digest=digest.hexdigest()[:16])]
    for name, glyphs in rows:
        lines.append(f'    "{name}": {{\n')
        lines += [f"        {character!r}: {glyph!r},\n" for character, glyph in glyphs.items()]
        lines.append("    },\n")
    lines.append("}\n")
    TARGET.write_text("".join(lines), "utf-8")


if __name__ == "__main__":
    main()
