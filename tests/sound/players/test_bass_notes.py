"""What the bass pays for notes, moves and turns, in a text that a person can read: golden/bass_costs.txt.

The costs as the optimiser is given them, over a chord with its root in the bass, over one with another note
there, and over one whose fifth is not the plain one of its scale: of each note at each place of a bar, with
what the pattern wishes; of each move from the middle of the range; of each two moves in a row.
UPDATE_GOLDEN=1 writes the text anew; read it before it is kept.

Source: common practice of bass teaching; the figures are our own.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from shedbook.sound.players.bass_notes import Problem, Slot, Task, problem_of
from shedbook.sound.players.tables.bass import HIGHEST, LOWEST
from shedbook.sound.players.usable_notes import UsableNotes, usable_notes
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.scale import parse_scale

GOLDEN = Path(__file__).parents[1] / "golden" / "bass_costs.txt"
NOTES = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
PLACES = ("arrive", "bar", "strong", "weak", "lead")
FROM = 40
"""E2, in the middle of the range."""


def over(symbol: str, scale: str) -> UsableNotes:
    chord = parse_chord(symbol)
    return usable_notes(chord, parse_scale(scale, root=chord.root))


MINOR, SLASH, SHARP = over("Em7", "dorian"), over("D13/C", "mixolydian"), over("D7#5", "mixolydian")


def slot(place: str = "weak", wish: str = "", notes: UsableNotes = MINOR, at: int = 0) -> Slot:
    return Slot(Fraction(at), Fraction(1), notes, place, wish)


def name(midi: int) -> str:
    return f"{NOTES[midi % 12]}{midi // 12 - 1}"


def single(problem: Problem, at: int) -> str:
    pairs = zip(problem.pitches[at], problem.single[at], strict=True)
    return " ".join(f"{name(int(midi))} {cost}" for midi, cost in pairs)


def notes_text() -> Iterator[str]:
    for chord, notes in (("Em7", MINOR), ("D13/C", SLASH), ("D7#5", SHARP)):
        for place in PLACES:
            yield f"{chord}, {place}: {single(problem_of(Task((slot(place, notes=notes),))), 0)}"
        for wish in ("root", "fifth", "again"):
            row = problem_of(Task((slot("strong", wish, notes),)))
            yield f"{chord}, strong, a {wish} is wished: {single(row, 0)}"


MOVES = (
    ("weak", "weak", "", MINOR), ("strong", "weak", "", SLASH), ("lead", "arrive", "", SLASH),
    ("lead", "bar", "", MINOR), ("lead", "strong", "", MINOR), ("weak", "weak", "again", MINOR),
    ("weak", "weak", "ghost", MINOR), ("weak", "weak", "drop", MINOR), ("strong", "weak", "octave", MINOR),
)  # fmt: skip


def moves_text() -> Iterator[str]:
    """From E2 over Em7, and from F2 and Eb2, which are no notes of it."""
    for left, right, wish, notes in MOVES:
        for start in (FROM, FROM + 1) if (left, right) == ("weak", "weak") and not wish else (FROM,):
            found = problem_of(Task((slot(left), slot(right, wish, notes, 1))))
            row = list(found.pitches[0]).index(start)
            pairs = zip(found.pitches[1], found.pair[0][row], strict=True)
            said = " ".join(f"{name(int(midi))} {cost}" for midi, cost in pairs)
            into = f"{right}, {wish}" if wish else right
            yield f"{name(start)} {left} to {into} over {'Em7' if notes is MINOR else 'D13/C'}: {said}"


def turns_text() -> Iterator[str]:
    """From the lowest note and from the highest: a row for the second note, a column for the third."""
    for start in (LOWEST, HIGHEST):
        found = problem_of(Task((slot(), slot(at=1), slot(at=2)), first=start))
        yield f"from {name(start)}, the third note from {name(LOWEST)} to {name(HIGHEST)}"
        for middle, row in zip(found.pitches[1], found.triple[0][0], strict=True):
            yield f"  {name(int(middle)):4}" + "".join(f"{cost:3}" for cost in row)


def test_what_the_bass_pays() -> None:
    parts = ("# notes", *notes_text(), "", "# moves", *moves_text(), "", "# turns", *turns_text(), "")
    found = "\n".join(parts)
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")
