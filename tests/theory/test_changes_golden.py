"""How changes are heard, in one text that a person can read: tests/theory/golden/changes.txt.

Every move that speaks for a key, every progression as it is written out, and changes that stand on a border
between two readings: the keys that the chords speak for with their weights, the numerals, every row of the
table that fits with its cost, the cheapest cover, and the scales of each chord. The chords are read as a
worker gets them from another process, where equal words are no longer one object. UPDATE_GOLDEN=1
writes the text anew; read it before it is kept. Source: common practice, as the tables; what is expected of
single changes stands in the tests of each module.
"""

from __future__ import annotations

import os
import pickle
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TypeVar

from shedbook.theory.chord import Chord
from shedbook.theory.chord_context import Context
from shedbook.theory.chord_function import groups, infer_key, key_weight, numerals
from shedbook.theory.chord_scales import by_notes, ranked
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key
from shedbook.theory.progression import _matches_at, progression_names, recognise, write_out
from shedbook.theory.tables.chord_functions import MOVES

GOLDEN = Path(__file__).parent / "golden" / "changes.txt"
TONICS = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
Sent = TypeVar("Sent")
KEYS = tuple(Key.parse(f"{tonic} {mode}") for mode in ("major", "minor") for tonic in TONICS)
BORDERS = (
    "Em7b5 A7b9 Dm7 G7", "Cm7 F7 Bbmaj7 Ebmaj7 Am7b5 D7 Gm6", "Dm7 Em7", "Fm7 Bb7 Cmaj7", "Dm7 Db7 Cmaj7",
    "Cmaj7 Ebmaj7 Abmaj7 Dbmaj7", "C7 Dm Bbmaj7", "Dbdim7 Db6 Dbdim7", "Dm7b5 Cm Fm6", "C F G C",
    "Am Dm E7 Am", "Dm6 G7 C6", "Dm7b5 G7 Cmaj7", "D7 G7 C7", "Dsus4 G7sus C", "G+ C",
    "Gm7 C7 Fmaj7 Fm6 Cmaj7", "C C+ C6 C7", "Am Am(maj7) Am7 Am6", "Ebm7 Ab7 Dbmaj7 Dm7 G7 Cmaj7",
    "Bbm7 Eb7 Am7 D7", "Cmaj7 Bm7b5 E7 Am7", "C/E Ebdim7 Dm7", "F/G C", "Dm7/G C6", "G7alt Cm(maj7)",
    "G13b9 Cmaj9", "G7#11 Gbmaj7", "Gb7 F6", "Cm7 Cm7/Bb Am7b5 Ab7 G7", "Em7 Ebdim7 Dm7 G7",
    "C#m7b5 Cm7 Bm7 Bb7", "Cmaj7 E7 F6 Fm6", "Dm9 G7b9sus Cmaj7#11", "B7 Em7 A7 Dm7", "Abmaj7 Bb7 C",
    "Dm7 G C6", "Dm Gsus4 G7 Cmaj7", "Cmaj7 A+ A7 Dm7 G7", "Dm7b5 G7b9 Cm Cm7", "Dm6 G7sus C6",
    "Dm7 Gsus4 C7", "Cmaj7 Ebdim7 Dm7b5 G7", "Em7b5 A+ Dm7 Db7 Cmaj7", "Dm7 G7 Csus4", "C Eb7 Ab7 Db",
    "C Eb Ab Dbmaj7 C",
)  # fmt: skip


def changes() -> list[str]:
    written = [
        " ".join(symbol for bar in write_out(name, key, 1) for symbol in bar)
        for name in progression_names()
        for key in (Key.parse("C"),)
    ]
    return list(dict.fromkeys([*written, *BORDERS]))


WRITTEN = {
    "major seventh": "maj7", "major triad": "", "dominant": "7", "suspended": "7sus", "augmented": "+",
    "minor seventh": "m7", "minor triad": "m", "minor sixth": "m6", "half-diminished": "m7b5",
    "diminished": "dim7", "suspended triad": "sus4",
}  # fmt: skip


def moves() -> Iterator[str]:
    yield "# Two chords in a row"
    for row in MOVES:
        one = f"{TONICS[row.first]}{WRITTEN[row.first_kinds[-1]]}"
        other = f"{TONICS[row.second]}{WRITTEN[row.second_kinds[-1]]}"
        yield f"  {row.source}, {one} {other}: {weights([parse_chord(one), parse_chord(other)])}"
    yield ""


def weights(chords: Sequence[Chord]) -> str:
    names = {one: f"{one.tonic}{'m' * (one.mode == 'minor')}" for one in KEYS}
    found = sorted(((key_weight(chords, one), names[one]) for one in KEYS), key=lambda one: (-one[0], one[1]))
    return ", ".join(f"{name} {weight}" for weight, name in found if weight)


def elsewhere(value: Sent) -> Sent:
    """Return a value as another process gets it."""
    sent: Sent = pickle.loads(pickle.dumps(value))
    return sent


def heard(text: str) -> Iterator[str]:
    chords = elsewhere([parse_chord(symbol) for symbol in text.split()])
    key = elsewhere(infer_key(chords))
    yield f"# {text}: {key}"
    yield f"  {weights(chords)}"
    degrees = numerals(chords, key)
    yield "  " + " ".join(degrees)
    sounding = groups(chords)
    for first in range(len(sounding)):
        for match in sorted(
            _matches_at(sounding, first), key=lambda one: (one.row.name, one.last, one.tonic)
        ):
            tonic = TONICS[match.tonic]
            where = f"{match.first}-{match.last} in {tonic}"
            yield f"  {match.row.name} {where}, costs {match.cost}, shares {match.shares}"
    for found in recognise(chords, range(1, len(chords) + 1)):
        yield f"  heard: {found.name} {found.first}-{found.last} in {found.key}"
    yield from scales(chords, degrees, key)
    yield ""


def scales(chords: Sequence[Chord], degrees: Sequence[str], key: Key) -> Iterator[str]:
    for index, chord in enumerate(chords):
        before = chords[index - 1] if index else None
        after = chords[index + 1] if index + 1 < len(chords) else None
        context = Context(before, after, degrees[index], key)
        said = ", ".join(str(choice.scale) for choice in ranked(chord, context))
        more = ", ".join(str(choice.scale) for choice in by_notes(chord, context))
        yield f"  {chord.text}: {said}" + (f"; by notes {more}" if more else "")


def test_how_changes_are_heard() -> None:
    found = "\n".join([*moves(), *(row for text in changes() for row in heard(text))])
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.parent.mkdir(exist_ok=True)
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")
