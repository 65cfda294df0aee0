"""Lines counted before they are set, held against the typesetter's own measuring."""

from __future__ import annotations

import json
import shutil
import tempfile
from pathlib import Path

import pytest
import typst

from shedbook.book.pages.text_room import POINT_MM, lines_of, width_mm
from shedbook.book.pages.typst_door import font_files

TEXTS = (
    "Over D7 the line begins on A, its fifth. One note lies outside its scale, C sharp, and it passes "
    "from D down to C. B and E, the 13 and the 9 of D7, come from bebop dominant.",
    "At this tempo count in two. F sharp is only a push into G, and A flat slides into bar 2 in the same "
    "way. From D the line falls by half steps to A, the third of F, which arrives an eighth early. "
    "The line begins by way of F sharp, which leads into G, the root of Gm7.",
    "Wer das Stück spielt, höre zuerst den Bass; dann die Terzen und Septimen, die „Leittöne“ jedes Akkords.",
)


def measured(text: str, line_mm: float, size_pt: float) -> float:
    """Return how high the typesetter sets a text, in em."""
    source = (
        '#set page(width: 300mm, height: 200mm, margin: 0mm)\n#set text(font: "Source Serif Pro", '
        f"size: {size_pt}pt, hyphenate: false)\n#set par(leading: 0.68em)\n"
        f"#context [#metadata(measure(block(width: {line_mm}mm, par({json.dumps(text, ensure_ascii=False)})))"
        ".height.mm()) <high>]"
    )
    with tempfile.TemporaryDirectory() as folder:
        for file in font_files():
            shutil.copyfile(file, Path(folder) / file.name)
        compiler = typst.Compiler(
            source.encode(),
            font_paths=typst.Fonts(include_system_fonts=False, font_paths=[folder]),
        )
        return float(json.loads(compiler.query("<high>", field="value"))[0]) / (size_pt * POINT_MM)


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize(("line_mm", "size_pt"), [(111.0, 10.5), (129.0, 10.5), (78.0, 10.0), (163.0, 15.75)])
def test_lines_are_those_of_the_typesetter(text: str, line_mm: float, size_pt: float) -> None:
    """The first line is 0.67 em high, each further one 1.35 em lower (capitals, leading)."""
    high = measured(text, line_mm, size_pt)
    lines = lines_of(text, line_mm, size_pt)
    assert high == pytest.approx(0.67 + 1.35 * (lines - 1), abs=0.03)


def test_widths() -> None:
    assert width_mm("", 10) == 0
    assert lines_of("", 100, 10) == 0
    assert lines_of("word", 1, 10) == 1  # a word alone is not divided
    assert width_mm("mm", 10) == 2 * width_mm("m", 10)
    assert width_mm("m", 20) == 2 * width_mm("m", 10)
