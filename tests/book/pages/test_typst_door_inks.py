"""The inks of the pages, by the formula of contrast of WCAG 2.2 (relative luminance, 1.4.3); their bleed."""

import re
from types import SimpleNamespace
from typing import Any

import pytest

from shedbook.book.pages.typst_door import TEMPLATES, bleed_pt
from shedbook.engrave.drawing.empty_staves import QUIET

INKS = sorted(
    {
        ink
        for path in TEMPLATES.glob("*.typ")
        for ink in re.findall(r'rgb\("(#[0-9a-f]{6})"\)', path.read_text(encoding="utf-8"))
    }
    | {QUIET}
)


def luminance(ink: str) -> float:
    channels = [int(ink[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_on_known_pairs() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)  # WCAG 2.2, definition of contrast ratio
    assert contrast("#767676", "#ffffff") == pytest.approx(
        4.54, abs=0.01
    )  # the grey that just passes: from memory


def test_there_are_inks_and_one_accent() -> None:
    assert len(INKS) >= 4
    coloured = [ink for ink in INKS if max(bytes.fromhex(ink[1:])) - min(bytes.fromhex(ink[1:])) > 32]
    assert len(coloured) == 1


@pytest.mark.parametrize("ink", INKS)
def test_every_ink_stands_out_from_white(ink: str) -> None:
    assert contrast(ink, "#ffffff") >= 4.5


def test_no_other_way_of_naming_a_colour_is_used() -> None:
    named = re.compile(r"(?:fill|stroke): *[^,\n]*\b(luma|gray|grey|red|blue|green|silver|cmyk|oklch)\b")
    for path in TEMPLATES.glob("*.typ"):
        assert named.search(path.read_text(encoding="utf-8")) is None, path.name


def test_a_bleed_is_given_in_points() -> None:
    """An inch has 72 points, and 25.4 mm."""
    about: Any = SimpleNamespace(press=SimpleNamespace(bleed_mm=25.4))
    assert bleed_pt(about) == pytest.approx(72)
