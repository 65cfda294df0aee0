"""How awkward two notes in a row are, in one text that a person can read: tests/editions/golden/awkward.txt.

A line for each written note of each instrument: the points to the notes 0 to 12 half steps above, then how it
is played where that is no string: fingers, or partial and half steps by which the tube is lowered.
The notes go one beyond the extreme range, where nothing is known. UPDATE_GOLDEN=1 writes the text anew; read
it before it is kept. Source: common practice, as the tables; what beginners are taught stands in
test_awkward.py.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from shedbook.editions.fingering.air_columns import columns, tubes
from shedbook.editions.fingering.finger_charts import charts
from shedbook.editions.instruments.awkward import awkward
from shedbook.editions.instruments.instrument import Instrument, instrument_named
from shedbook.theory.pitch import spellings

GOLDEN = Path(__file__).parents[1] / "golden" / "awkward.txt"
SHOWN = (
    "tenor saxophone", "clarinet", "flute", "trumpet", "trombone", "horn in F", "violin", "viola", "cello",
    "double bass", "guitar", "electric bass", "piano", "vibraphone", "alto voice",
)  # fmt: skip
ALIKE = {
    "tenor saxophone": ("soprano saxophone", "alto saxophone", "baritone saxophone"),
    "clarinet": ("bass clarinet",), "trumpet": ("flugelhorn",),
    "alto voice": ("soprano voice", "mezzo-soprano voice", "tenor voice", "baritone voice", "bass voice"),
}  # fmt: skip


def played(instrument: Instrument, written: int) -> str:
    name = instrument.name
    if name in charts():
        return " or ".join(charts()[name].get(written, ()))
    if name in columns():
        return " ".join(f"{one.partial}-{one.down}" for one in tubes(columns()[name], written))
    return ""


def points(name: str, written: int) -> str:
    instrument = instrument_named(name)
    up = instrument.transposition.semitones
    return "".join(str(awkward(instrument, written - up, written - up + more)) for more in range(13))


def awkward_notes() -> Iterator[str]:
    for name in SHOWN:
        instrument = instrument_named(name)
        low, high = instrument.bands.extreme.low.midi, instrument.bands.extreme.high.midi
        yield f"# {name}"
        for written in range(low - 1, high + 2):
            yield f"{spellings(written)[0]!s:4}{points(name, written)} {played(instrument, written)}".rstrip()
        yield ""


def test_how_awkward_notes_are() -> None:
    found = "\n".join(awkward_notes())
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")


@pytest.mark.parametrize(("name", "others"), ALIKE.items(), ids=lambda one: str(one)[:16])
def test_a_family_is_played_alike(name: str, others: tuple[str, ...]) -> None:
    """Common practice: who plays the one can play the other, by written notes; all voices leap alike."""
    for written in range(60, 73):
        assert {points(other, written) for other in others} == {points(name, written)}
