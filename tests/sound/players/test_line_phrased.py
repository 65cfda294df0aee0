"""How long and how loud each note of a line is played. Source: common practice, figures of the table."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.sound.players.line import line
from sound.demo_scores import phrase

TEMPO = Fraction(120)


def shares(text: str) -> list[float]:
    """Return how much of a quarter each note sounds."""
    return [float(note.quarters) for note in line(phrase("Cmaj7", text), TEMPO)]


def velocities(text: str, changes: str = "Cmaj7", **more: object) -> list[int]:
    return [note.velocity for note in line(phrase(changes, text, **more), TEMPO)]


@pytest.mark.parametrize(
    ("text", "lengths"),
    [
        pytest.param(
            "1/8 c5 d - e f g a b", [0.475, 0.3, 0.475, 0.475, 0.475, 0.475, 0.3], id="runs and their ends"
        ),
        pytest.param(
            "1/8 c5 1/16 - d 1/4 e f 1/4 -", [0.475, 0.2375, 0.9, 0.9], id="a sixteenth of rest ends none"
        ),
        pytest.param("1/4 c5 - 1/2 e", [0.8, 1.8], id="a breath after a short rest"),
        pytest.param("1/4 c5 1/2 - 1/4 e", [0.9, 0.9], id="none before a long one"),
        pytest.param("1/4. c5 1/8 d 1/2 e", [1.35, 0.475, 1.8], id="long notes"),
        pytest.param("1/4 (c5 d) e.staccato f.tenuto", [1, 0.9, 0.5, 1], id="slurs and marks"),
        pytest.param(
            "1/8 (c5 d.staccato e) f 1/2 g", [0.5, 0.25, 0.475, 0.475, 1.8], id="a mark inside a slur"
        ),
        pytest.param("1/1 c5", [3.6], id="the last one"),
        pytest.param("1/8 c5 1/2.. -", [0.3], id="a short last one"),
    ],
)
def test_how_long_a_note_sounds(text: str, lengths: list[float]) -> None:
    assert shares(text) == pytest.approx(lengths)


@pytest.mark.parametrize(
    ("text", "loud"),
    [
        pytest.param("1/1 c5", [82 + 9 + 3], id="alone: a landing in the middle of its arch"),
        pytest.param(
            "1/4 c5 c c c", [82 + 9 - 5, 82 + 1, 82 + 9 + 4, 82 - 2], id="level: landings and the arch"
        ),
        pytest.param(
            "1/8 c5 c c c c c c c", [86, 76, 73, 81, 96, 82, 74, 77], id="what passes, what is off the beat"
        ),
        pytest.param("1/4 c5 g d a", [78, 94, 91, 88], id="high and low, and a peak"),
        pytest.param("1/4 c5 e.accent g.ghost e", [78, 102, 42, 81], id="accents and ghosts"),
        pytest.param("1/4 c5 - c -", [94, 94], id="each breath by itself"),
    ],
)
def test_how_loud_a_note_is(text: str, loud: list[int]) -> None:
    """82, and 9 where it lands, -9 where it passes, 6 off the beat, 7 at a peak, 18 with an accent.

    From the lowest to the highest of a breath lie 16; its arch is 5 either way, highest at six tenths.
    """
    assert velocities(text) == loud


def test_a_note_on_a_new_chord_lands() -> None:
    weak, new = velocities("1/4 c5 c c c"), velocities("1/4 c5 c c c", "Cmaj7@1 Am7@2")
    assert [two - one for one, two in zip(weak, new, strict=True)] == [0, 9, 0, 0]


def test_a_leap_does_not_pass() -> None:
    """An eighth passes only between steps on both sides."""
    steps, leap = velocities("1/8 c5 d c d c d c d"), velocities("1/8 c5 d c d c f c d")
    assert leap[5] - steps[5] == 9


@pytest.mark.parametrize(
    ("text", "tempo", "starts"),
    [
        pytest.param("1/4 c5 grace:d# e - -", 120, [0, 0.875, 1], id="one"),
        pytest.param("1/4 c5 grace:d# grace:f e - -", 120, [0, 0.75, 0.875, 1], id="two"),
        pytest.param("1/4 c5 grace:d# e - -", 240, [0, 1 - 13 / 48, 1], id="fast"),
        pytest.param("1/4 c5 grace:d# e - -", 40, [0, 1 - 1 / 16, 1], id="a sixteenth of a quarter at least"),
        pytest.param(
            "1/16 c5 grace:d# grace:f e 1/8 - 1/2. -", 120, [0, 0.125, 0.1875, 0.25], id="in little room"
        ),
        pytest.param("1/4 grace:d#5 e - - -", 240, [-13 / 48, 0], id="before the first note"),
    ],
)
def test_grace_notes_are_about_70_ms(text: str, tempo: int, starts: list[float]) -> None:
    """In whole 48ths of a quarter; the note before keeps half of its room; they are 18 softer."""
    found = line(phrase("Cmaj7", text), Fraction(tempo))
    assert [float(note.start) for note in found] == pytest.approx(starts)
    graces = [note for note in found if note.midi in (75, 77)]
    assert {note.velocity for note in graces} == {found[-1].velocity - 18}
    assert all(one.end == two.start for one, two in zip(graces, found[-len(graces) :], strict=True))
