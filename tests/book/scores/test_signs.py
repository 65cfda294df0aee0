"""Which signs of a phrase a book explains."""

from __future__ import annotations

import pytest

from shedbook.book.ground.words import EN
from shedbook.book.scores.signs import CHORD_SIGNS, NOTE_SIGNS, signs_of
from shedbook.phrase.fields import phrase_from_fields


@pytest.mark.parametrize(
    ("changes", "line", "found"),
    [
        ("C7", "1/1 c4", ()),
        ("Cm7", "1/1 c4", ("chord.m",)),
        ("C-7", "1/1 c4", ("chord.dash",)),
        ("Cmaj7", "1/1 c4", ("chord.maj",)),
        ("CΔ7", "1/1 c4", ("chord.triangle",)),
        ("Cm(maj7)", "1/1 c4", ("chord.m", "chord.maj", "chord.raised")),
        ("Co7", "1/1 c4", ("chord.ring",)),
        ("Cø7", "1/1 c4", ("chord.struck ring",)),
        ("G7alt", "1/1 g4", ("chord.alt",)),
        ("G7sus4", "1/1 g4", ("chord.sus",)),
        ("G7b9/B", "1/1 g4", ("chord.raised", "chord.bass")),
        ("C7", "1/4 c4.ghost (d e) grace:f# g.accent", ("ghost", "grace", "accent", "slur")),
        ("C7", "1/4 - c4.fall - d.tenuto", ("tenuto", "fall")),
    ],
)
def test_signs(changes: str, line: str, found: tuple[str, ...]) -> None:
    assert signs_of(phrase_from_fields({"changes": changes, "line": line, "key": "C major"})) == found


def test_every_sign_has_its_words() -> None:
    for sign in (*CHORD_SIGNS, *NOTE_SIGNS):
        assert EN.has(f"signs.{sign}")
