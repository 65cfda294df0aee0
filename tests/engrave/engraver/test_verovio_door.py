"""The door to Verovio: what it refuses, and that it works in any thread."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

import pytest

from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.engraver import verovio_door
from shedbook.engrave.notation.mei_score import mei
from shedbook.errors import RenderError
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]


@pytest.mark.parametrize(
    "broken", ["", "no music", "<mei/>", "<mei xmlns='http://www.music-encoding.org/ns/mei'/>"]
)
def test_what_verovio_cannot_read_is_an_error_and_never_the_score_before(make: Make, broken: str) -> None:
    verovio_door.svg(mei(make("1/1 c4", "C")), width=6000)
    with pytest.raises(RenderError):
        verovio_door.svg(broken, width=6000)


def test_drawing_works_outside_the_main_thread(make: Make) -> None:
    from concurrent.futures import ThreadPoolExecutor  # noqa: PLC0415

    phrases: Iterable[Phrase] = [make("1/4 c4 d e f", "C"), make("1/2 c4 d", "F")] * 3
    with ThreadPoolExecutor(3) as pool:
        threaded = [made.svg for made in pool.map(draw, phrases)]
    assert threaded == [draw(phrase).svg for phrase in phrases]


def test_the_version_is_known_for_the_names_of_artefacts() -> None:
    assert re.fullmatch(r"6\.\d+\.\d+.*", verovio_door.version())
