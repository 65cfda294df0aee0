"""Write `src/shedbook/book/pages/tables/letter_widths.py`: how wide letters are, to plan pages without setting them.

Run by hand when a font changes: `python tools/make_letter_widths.py`.
"""

from __future__ import annotations

from pathlib import Path

import font_source_sans_pro
import font_source_serif_pro
from fontTools.ttLib import TTFont

TARGET = Path(__file__).parent.parent / "src/shedbook/book/pages/tables/letter_widths.py"
CHARACTERS = "".join(
    chr(code) for code in (*range(0x20, 0x7F), *range(0xA0, 0x180), 0x2013, 0x2014, *range(0x2018, 0x201F),
                           0x2026, 0x2039, 0x203A)
)  # fmt: skip
FONTS = {
    "serif": Path(font_source_serif_pro.__file__).parent / "files/SourceSerifPro-Regular.otf",
    "sans": Path(font_source_sans_pro.__file__).parent / "files/SourceSansPro-Regular.otf",
}
HEAD = '''# ruff: noqa: E501
# fmt: off
"""The advance widths of letters by face, in thousandths of an em: pairs of a width and the letters that have it.

Written by tools/make_letter_widths.py; not to be edited by hand. The source are the fonts Source Serif Pro and
Source Sans Pro, in the cut Regular.
"""

from collections.abc import Mapping

LETTER_WIDTHS: Mapping[str, tuple[tuple[int, str], ...]] = {
'''


def main() -> None:
    """Write the table."""
    lines = [HEAD]
    for face, path in FONTS.items():
        font = TTFont(path)
        names, widths = font.getBestCmap(), font["hmtx"]
        by_width: dict[int, str] = {}
        for character in CHARACTERS:
            if ord(character) in names:
                width = widths[names[ord(character)]][0]
                by_width[width] = by_width.get(width, "") + character
        lines.append(f'    "{face}": (\n')
        lines += [f"        ({width}, {letters!r}),\n" for width, letters in sorted(by_width.items())]
        lines.append("    ),\n")
    lines.append("}\n")
    TARGET.write_text("".join(lines), "utf-8")


if __name__ == "__main__":
    main()
