"""Names of chords: the optimiser against brute force, every row of names tried."""

from __future__ import annotations

from itertools import pairwise, product

from hypothesis import given
from hypothesis import strategies as st

from shedbook.editions.spelling.chord_names import _alone, _best_row, _named, _together
from shedbook.editions.tables.spelling_costs import CHORD_COSTS
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import degree_interval
from shedbook.theory.key import Key

SYMBOLS = ("C", "Dm7", "G7b9", "Ebmaj7", "F#m7b5", "B7", "Db7", "Abm6", "A#dim7", "Fb7", "E#m7", "N.C.")


RENAMED = next(row.cost for row in CHORD_COSTS if row.name == "renamed root")


def cost(chords: tuple[Chord, ...], row: tuple[Chord, ...], key: Key) -> int:
    renamed = sum(one != chord for one, chord in zip(row, chords, strict=True))
    own = sum(_alone(one, key) for one in row)
    return own + RENAMED * renamed + sum(_together(one.root, two.root) for one, two in pairwise(row))


@given(
    st.lists(st.sampled_from(SYMBOLS), max_size=6),
    st.sampled_from(["C", "Gb", "F#", "B", "Db", "G# minor", "Eb minor"]),
    st.sampled_from(["1", "b2", "#4", "b6"]),
)
def test_no_row_of_names_is_cheaper(symbols: list[str], key: str, moved: str) -> None:
    chords = tuple(parse_chord(symbol).transposed(degree_interval(moved)) for symbol in symbols)
    tonic = Key.parse(key)
    least, row = _best_row(chords, tonic)
    ways = [_named(chord) for chord in chords]
    assert all(one in names for one, names in zip(row, ways, strict=True))
    assert least == cost(chords, row, tonic) == min(cost(chords, names, tonic) for names in product(*ways))
