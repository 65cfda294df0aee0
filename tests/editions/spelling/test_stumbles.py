"""Names at which a reader stumbles; which name is expected is common practice."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shedbook.editions.spelling.stumbles import stumbles
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]


@pytest.mark.parametrize(
    ("key", "changes", "line", "found"),
    [
        pytest.param("C", "G7", "1/4 g4 cb5 d f", [("Cb", "B")], id="a third by another letter"),
        pytest.param("D", "D6", "1/4 d4 gb a b", [("Gb", "F#")], id="a third in a plain chord"),
        pytest.param("C", "C6", "1/4 c4 d# e g", [], id="rising to the third"),
        pytest.param("F", "F7", "1/4 f4 ab a c5", [], id="a blue note under the third"),
        pytest.param("Bb", "F7", "1/4 f4 cb5 bb a", [], id="a flat fifth that falls"),
        pytest.param("Gb", "Cbmaj7", "1/4 cb5 eb gb bb", [], id="C flat belongs to the chord"),
    ],
)
def test_stumbles(make: Make, key: str, changes: str, line: str, found: list[tuple[str, str]]) -> None:
    phrase = make(key, changes, line, "")
    assert [(str(one.written), str(one.better)) for one in stumbles(phrase)] == found


def test_a_tied_note_is_named_once(make: Make) -> None:
    phrase = make("C", "G7 | %", "1/1 cb5 | + 1/1", "")
    assert [one.event for one in stumbles(phrase)] == [(0, 0)]
