"""Rules between the phrases of a book."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.proof import proof_book


def test_book_rules_name_both_phrases() -> None:
    one = read("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4")
    other = read("Em7 | A7", "1/4 e4 g b d5 | c#5 e5 d5 c#5")
    (finding,) = proof_book([one, other])
    assert (finding.rule, finding.phrase, finding.other) == ("duplicate-phrase", 1, 0)
    assert proof_book([one, other], silenced=("duplicate-phrase",)) == ()


@pytest.mark.parametrize(
    ("changes", "line", "other_key"),
    [
        ("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4", False),
        ("Dm7 | G7", "1/4 d5 f a c6 | b5 d6 c6 b5", False),  # an octave higher it is the same key
        ("Bm7 | E7", "1/4 b3 d4 f# a | g#4 b4 a4 g#4", True),  # its second note is the first of the other
    ],
)
def test_the_same_phrase_in_its_key_and_in_another(changes: str, line: str, other_key: bool) -> None:
    (finding,) = proof_book([read("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4"), read(changes, line)])
    assert ("another key" in finding.message) == other_key
