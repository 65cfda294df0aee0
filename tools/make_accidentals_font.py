"""Write `src/shedbook/book/pages/fonts/shedbook-signs.ttf`: the five accidentals of the music font, for running text.

Run by hand when Verovio's music font changes: `python tools/make_accidentals_font.py`. The text faces have no
accidentals, and those of other text fonts are too small or leave a hole behind them. These are the outlines of
Leipzig, as high as a capital letter, in a font of another name, as its licence asks (SIL OFL 1.1, which goes on to
hold for it; its text stands in `licences/`).
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import verovio
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.recordingPen import RecordingPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.svgLib.path import parse_path

TARGET = Path(__file__).parent.parent / "src/shedbook/book/pages/fonts/shedbook-signs.ttf"
FAMILY = "Shedbook Signs"
UNITS, BEARING = 1000, 35
SIGNS = {
    # character: glyph name, SMuFL code point, size, how far it is lifted so that it stands on the base line
    "♭": ("flat", "E260", 1.12, 215),
    "♮": ("natural", "E261", 0.98, 345),
    "♯": ("sharp", "E262", 0.98, 350),
    "\U0001d12a": ("doublesharp", "E263", 1.12, 300),
    "\U0001d12b": ("doubleflat", "E264", 1.12, 215),
}
LICENCE = "SIL Open Font License 1.1: https://openfontlicense.org"
COPYRIGHT = (
    "Outlines from Leipzig, Copyright Etienne Darbellay, Jean-Francois Marti, Laurent Pugin, Klaus Rettinghaus "
    "and others. This font Copyright the shedbook authors."
)


def outline(code: str) -> RecordingPen:
    """Return the outline of a glyph of the music font, y growing upwards."""
    text = (Path(verovio.__file__).parent / "data/Leipzig" / f"{code}.xml").read_text("utf-8")
    ET.fromstring(text)
    found = re.search(r' d="([^"]*)"', text)
    if found is None:
        raise ValueError(f"no outline for {code}")
    pen = RecordingPen()
    parse_path(found[1], pen)
    return pen


def main() -> None:
    """Write the font."""
    names, widths, glyphs = {}, {".notdef": (500, 0)}, {".notdef": TTGlyphPen(None).glyph()}
    for character, (name, code, size, lift) in SIGNS.items():
        drawn, bounds = outline(code), BoundsPen(None)
        drawn.replay(bounds)
        left, _, right, _ = bounds.bounds
        pen = TTGlyphPen(None)
        move = (size, 0, 0, size, BEARING - left * size, lift)
        drawn.replay(TransformPen(Cu2QuPen(pen, 1.0, reverse_direction=True), move))
        glyphs[name] = pen.glyph()
        widths[name] = (round((right - left) * size) + 2 * BEARING, BEARING)
        names[ord(character)] = name
    builder = FontBuilder(UNITS, isTTF=True)
    builder.setupGlyphOrder(list(glyphs))
    builder.setupCharacterMap(names)
    builder.setupGlyf(glyphs)
    builder.setupHorizontalMetrics(widths)
    builder.setupHorizontalHeader(ascent=918, descent=-335)
    builder.setupNameTable(
        {
            "copyright": COPYRIGHT, "familyName": FAMILY, "styleName": "Regular",
            "uniqueFontIdentifier": "shedbook-signs-1", "fullName": FAMILY, "version": "Version 1.0",
            "psName": "ShedbookSigns", "licenseDescription": LICENCE,
            "licenseInfoURL": "https://openfontlicense.org",
        }
    )  # fmt: skip
    builder.setupOS2(sTypoAscender=918, sTypoDescender=-335, sCapHeight=670, sxHeight=475, usWinAscent=918,
                     usWinDescent=335)  # fmt: skip
    builder.setupPost()
    builder.font.recalcTimestamp = False
    builder.font["head"].created = builder.font["head"].modified = 0
    builder.save(TARGET)


if __name__ == "__main__":
    main()
