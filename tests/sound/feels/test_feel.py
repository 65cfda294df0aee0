"""A feel is one value, and is refused when a part of it is missing. Source of every check: our own design."""

from dataclasses import FrozenInstanceError, fields, replace
from fractions import Fraction

import pytest

from shedbook.errors import TableError
from shedbook.sound.feels.feel import Feel, row_file
from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.feels.patterns import CELL_LENGTHS
from shedbook.sound.players.band_chart import cell_lengths
from shedbook.theory.metre import Metre

PARTS = tuple(field.name for field in fields(Feel) if field.name != "name")


@pytest.mark.parametrize("part", PARTS)
def test_a_feel_without_a_part_is_refused(part: str) -> None:
    """The message names the part, the hint what to write in which file."""
    given = {name: getattr(FEELS["swing"], name) for name in PARTS if name != part}
    with pytest.raises(TableError) as caught:
        Feel("quick step", **given)
    assert caught.value.message == f'The feel "quick step" has no {part}.'
    assert f"{part}=Feel{part.capitalize()}(" in caught.value.hint
    assert "src/shedbook/sound/feels/rows/quick_step.py" in caught.value.hint


@pytest.mark.parametrize("part", PARTS)
def test_a_part_without_a_source_is_refused(part: str) -> None:
    bare = replace(getattr(FEELS["bossa"], part), source="")
    with pytest.raises(TableError, match=f'The {part} of the feel "bossa" has no source'):
        replace(FEELS["bossa"], **{part: bare})


@pytest.mark.parametrize("part", ["bass", "comping", "drums"])
@pytest.mark.parametrize("length", CELL_LENGTHS, ids=str)
def test_a_pattern_without_a_length_is_refused(part: str, length: Fraction) -> None:
    own = getattr(FEELS["latin"], part)
    if part == "drums":
        voice = own.voices[0]
        cells = {key: ways for key, ways in voice.cells.items() if key != length}
        poorer = replace(own, voices=(voice._replace(cells=cells), *own.voices[1:]))
    else:
        poorer = replace(own, ways={key: ways for key, ways in own.ways.items() if key != length})
    with pytest.raises(TableError) as caught:
        replace(FEELS["latin"], **{part: poorer})
    assert f"no way to play {length} quarters" in caught.value.message
    assert "latin.py" in caught.value.hint


def test_the_lengths_fill_every_bar_of_every_metre() -> None:
    """Every metre that a phrase can have: 1 to 24 beats over 1, 2, 4, 8 or 16."""
    known = frozenset(CELL_LENGTHS)
    used: set[Fraction] = set()
    for beats in range(1, 25):
        for unit in (1, 2, 4, 8, 16):
            metre = Metre(beats, unit)
            lengths = cell_lengths(metre, known)
            assert sum(lengths) == metre.bar_quarters
            used.update(lengths)
    assert used == known


@pytest.mark.parametrize("feel", FEELS.values(), ids=FEELS)
def test_every_part_of_a_feel_says_where_it_comes_from(feel: Feel) -> None:
    assert tuple(feel.sources) == PARTS
    assert all(feel.sources.values())


@pytest.mark.parametrize("feel", FEELS.values(), ids=FEELS)
def test_strokes_notes_and_chords_lie_inside_their_cells(feel: Feel) -> None:
    for length in CELL_LENGTHS:
        for bass in feel.bass.ways[length]:
            assert all(0 <= at < length for at, _, _ in bass.notes)
            assert all(at + quarters <= length for at, quarters, wish in bass.notes if wish != "ahead")
        for voice in (*feel.drums.voices, *feel.drums.without_brushes):
            assert all(0 <= at < length for way in voice.cells[length] for at, _ in way.hits)
        for comping in feel.comping.ways[length]:
            assert all(0 <= hit.at < length for hit in comping.hits)


def test_a_feel_cannot_be_changed() -> None:
    with pytest.raises(FrozenInstanceError):
        FEELS["swing"].name = "swung"  # type: ignore[misc]


def test_a_feel_is_called_as_its_file() -> None:
    assert row_file("fast swing") == "src/shedbook/sound/feels/rows/fast_swing.py"
