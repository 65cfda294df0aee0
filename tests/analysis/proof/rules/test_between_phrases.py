"""Rules between the phrases of a book."""

from __future__ import annotations

from analysis.helpers import read
from shedbook.analysis.proof import proof_book


def test_book_rules_name_both_phrases() -> None:
    one = read("Dm7 | G7", "1/4 d4 f a c5 | b4 d5 c5 b4")
    other = read("Em7 | A7", "1/4 e4 g b d5 | c#5 e5 d5 c#5")
    (finding,) = proof_book([one, other])
    assert (finding.rule, finding.phrase, finding.other) == ("duplicate-phrase", 1, 0)
    assert proof_book([one, other], silenced=("duplicate-phrase",)) == ()
