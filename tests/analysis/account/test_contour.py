"""The contour reduced, against the examples of Morris 1993."""

from __future__ import annotations

import pytest

from shedbook.analysis.account.contour import morris_reduction

# Morris 1993, New Directions in the Theory and Analysis of Musical Contour, Music Theory Spectrum 15/2:
# contours, primes and depths, all from memory.
MORRIS = [
    ((0, 4, 3, 2, 5, 5, 1), (0, 2, 1), 2),
    ((0, 1), (0, 1), 0),
    ((0, 2, 1), (0, 2, 1), 0),
    ((0, 1, 2, 3), (0, 1), 1),
    ((1, 0, 2, 1), (1, 0, 2, 1), 0),
]


@pytest.mark.parametrize(("pitches", "prime", "depth"), MORRIS)
def test_contour_reduction(pitches: tuple[int, ...], prime: tuple[int, ...], depth: int) -> None:
    assert morris_reduction(list(pitches)) == (prime, depth)


@pytest.mark.parametrize("seed", range(40))
def test_a_prime_reduces_to_itself(seed: int) -> None:
    pitches = [(seed * 7919 + place * place * 31) % 17 for place in range(3 + seed % 20)]
    prime, _ = morris_reduction(pitches)
    assert morris_reduction(list(prime)) == (prime, 0)
    assert (prime[0] < prime[-1]) == (pitches[0] < pitches[-1])
    assert max(prime) == len(set(prime)) - 1
