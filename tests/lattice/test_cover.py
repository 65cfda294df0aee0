"""Covers against brute force: every set of pieces that takes each place once."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.lattice.cover import Piece, least_cover

PLACES = 5
pieces = st.builds(
    lambda first, length, cost: Piece(first, min(PLACES, first + length), cost),
    st.integers(0, PLACES - 1),
    st.integers(1, 3),
    st.integers(0, 3),
)


def covers(offered: list[Piece], end: int) -> Iterator[tuple[int, ...]]:
    """Yield every cover of the places up to `end`, as places of its pieces, by the rule for ties."""
    if end == 0:
        yield ()
    for at, piece in enumerate(offered):
        if piece.end == end:
            for before in covers(offered, piece.first):
                yield (*before, at)


@given(st.lists(pieces, max_size=12))
def test_the_least_cover_is_the_first_of_the_cheapest(offered: list[Piece]) -> None:
    every = [tuple(offered[at] for at in one) for one in covers(offered, PLACES)]
    found = least_cover(PLACES, offered)
    if not every:
        assert found is None
    else:
        assert found == min(every, key=lambda cover: sum(piece.cost for piece in cover))


def test_nothing_to_cover_and_pieces_that_take_nothing() -> None:
    assert least_cover(0, ()) == ()
    assert least_cover(1, ()) is None
    with pytest.raises(ValueError, match="later ones"):
        least_cover(2, [Piece(1, 1, 0)])
    with pytest.raises(ValueError, match="later ones"):
        least_cover(2, [Piece(1, 3, 0)])
