"""Write `src/shedbook/read_back/tables/glyph_shapes.py`: by which outline the page is read back.

Run by hand when a font changes: `python tools/make_glyph_shapes.py`. It reads the fonts themselves, and
nothing of what draws scores: the two must be able to disagree.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import font_source_sans_pro
import font_source_serif_pro
import verovio
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from shedbook.read_back.outlines import Subpath, _runs, shape_digest, svg_subpaths

TARGET = Path(__file__).parent.parent / "src/shedbook/read_back/tables/glyph_shapes.py"
SANS, SERIF = Path(font_source_sans_pro.__file__).parent, Path(font_source_serif_pro.__file__).parent
TEXT = "".join(chr(code) for code in (*range(0x21, 0x7F), *range(0xC0, 0x100), 0x152, 0x153, 0x2013))
FONTS = {
    "sans": (SANS, "SourceSansPro-Regular.otf"),
    "sans-semibold": (SANS, "SourceSansPro-Semibold.otf"),
    "serif-italic": (SERIF, "SourceSerifPro-It.otf"),
    "serif-semibold": (SERIF, "SourceSerifPro-Semibold.otf"),
}
MUSIC = [
    f"E{code:03X}"
    for code in (
        0x050, 0x052, 0x05C, 0x062, 0x064, *range(0x080, 0x08C), 0x0A2, 0x0A3, 0x0A4, 0x0F5, 0x0F6,
        *range(0x240, 0x246), *range(0x260, 0x267), 0x26A, 0x26B, *range(0x4A0, 0x4A6), *range(0x4E3, 0x4E9),
        *range(0x880, 0x88A), 0xCA3, 0xCA5, 0xCA7, 0xCB7,
    )
]  # fmt: skip
"""SMuFL code points; of two that share one outline the first here gives the name."""

HEAD = '''# ruff: noqa: E501
# fmt: off
"""Which glyph an outline is: the font and the name, by the digest of the outline's points.

Written by tools/make_glyph_shapes.py; not to be edited by hand. Names in the music font are SMuFL code
points. The music font's ordinates grow upwards; a glyph of it that is set among letters is turned upside down
and belongs to "music in words".

Sources: Source Sans Pro and Source Serif Pro (Adobe, SIL Open Font License 1.1) and Leipzig of Verovio
{version} (Darbellay, Marti, Pugin, Rettinghaus and others, SIL Open Font License 1.1).
Only digests of their outlines stand here.
"""

from collections.abc import Mapping
from types import MappingProxyType

GLYPH_SHAPES: Mapping[str, tuple[str, str]] = MappingProxyType({{
'''


def letters(path: Path) -> Iterator[tuple[str, list[Subpath]]]:
    """Yield every character of `TEXT` with its outline, y growing downwards."""
    font = TTFont(path)
    names, glyphs = font.getBestCmap(), font.getGlyphSet()
    kinds = {"moveTo": "m", "lineTo": "l", "curveTo": "c", "closePath": "z", "endPath": "z"}
    for character in TEXT:
        pen = DecomposingRecordingPen(glyphs)
        glyphs[names[ord(character)]].draw(pen)
        yield (
            character,
            _runs((kinds[command], tuple((x, -y) for x, y in points)) for command, points in pen.value),
        )


def music() -> Iterator[tuple[str, list[Subpath]]]:
    """Yield the glyphs of `MUSIC` with their outlines."""
    data = Path(verovio.__file__).parent / "data" / "Leipzig"
    for code in MUSIC:
        file = data / f"{code}.xml"
        found = re.search(r' d="([^"]*)"', file.read_text("utf-8")) if file.exists() else None
        if found is None:
            print(f"Leipzig has no {code}")
            continue
        runs = svg_subpaths(found[1])
        yield code, runs


def main() -> None:
    """Write the table."""
    rows: dict[str, tuple[str, str]] = {}
    for font, (folder, name) in FONTS.items():
        for character, runs in letters(next(folder.rglob(name))):
            rows.setdefault(shape_digest(runs), (font, character))
    for code, runs in music():
        rows.setdefault(shape_digest(runs), ("music", code))
        turned = [run._replace(points=tuple((x, -y) for x, y in run.points)) for run in runs]
        rows.setdefault(shape_digest(turned), ("music in words", code))
    body = "".join(f"    {key!r}: {value!r},\n" for key, value in rows.items())
    version = verovio.toolkit(False).getVersion().split("-")[0]
    TARGET.write_text(HEAD.format(version=version) + body + "})\n", encoding="utf-8")
    print(f"{len(rows)} rows in {TARGET}")


if __name__ == "__main__":
    main()
