"""Every sentence told is true: each claim is computed anew from the notes and chord symbols alone.

The checks share no code with the analysis (`claims`, `plain_facts`): a remark gives the notes that its
sentence speaks of, and what the sentence says of them is recomputed. Held over the demo book and 300 made
phrases, every remark that is offered is checked, not only those that are chosen.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import pytest

from analysis.helpers import phrase
from analysis.telling.claims import CHECKS, Claim
from analysis.telling.made_lines import made_phrases
from analysis.telling.plain_facts import Facts, claim_holds, degree_claims
from shedbook.analysis.account import Account, account
from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.analysis.telling.explanation import offers
from shedbook.analysis.telling.reader_names import reader_names
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase

DEMO = Path(__file__).parents[3] / "examples/tidewater"

BAR = "1/8 c5 d eb d c4 eb g c5"
RARE = (
    ("Dm7 | G7", "1/4 d4 f a c5 | + 1/4 1/4 b4 g f"),
    ("G7 | %", "1/8 g4 a 1/4 g 1/8 b4 c5 1/4 b4 | 1/8 d5 e 1/4 d 1/8 f g 1/4 f"),
    ("Cm7 | % | Cm7 | %", f"{BAR} | 1/2 g4 c5 | {BAR} | 1/1 g4"),
    ("Cm7 | % | Cm7 | %", f"{BAR} | 1/2 g4 c5 | {BAR} | 1/2 g4 c5"),
    ("Cm7 | % | Dm7 | %", f"{BAR} | 1/2 g4 c5 | 1/8 d5 e f e d4 f a d5 | 1/2 a4 d5"),
    ("C6 | Dm7 | G7 | Cmaj7", "1/2 c5 d | c5 a4 | b4 d5 | 1/1 b4"),
    ("C", "1/8 c5 e g c6 1/2 g5"), ("C", "1/8 c6 g5 e c 1/2 d5"), ("C", "1/4 d5 1/8 c6 g5 e c 1/4 d5"),
    ("G7 | C", "1/2 b4 1/8 ab5 g f# f | 1/1 e5"), ("G7 | C", "1/2 g4 1/8 c5 c# d d# | 1/1 e5"),
    ("Dm7 | G7 | Cm7 | F7 | Bbm7 | Eb7", "1/1 c5 | 1/2 b4 f | eb4 bb4 | a4 eb4 | db4 ab4 | 1/1 g4"),
    ("A7b9 | % | Dm6", "1/4 g5 1/8 f d# 1/4 e 1/8 d c | 1/4 c#5 1/8 b4 a bb g e f# | f4 a d5 1/4. e 1/4 -"),
    ("F#m7 B7b9 | Em7 A7b9 | Dmaj7",
     "1/8 e5 f# e c# d# c b4 a | d5 e 1/4 d 1/8 c# bb4 a g | f#4 g# a b 1/2 c#5"),
    ("C", "1/1 c5"), ("N.C.", "1/1 c5"), ("N.C.", "1/2 c5 d"), ("C6", "1/8 c6 g5 e a4 1/2 b4"),
)  # fmt: skip
"""Changes and lines for kinds of remarks that the others do not call for."""


@lru_cache(maxsize=1)
def accounts() -> tuple[Account, ...]:
    demo = [read_phrase(source) for source in open_manuscript(DEMO).phrases]
    rare = [phrase(changes, line, title=line) for changes, line in RARE]
    return tuple(account(one) for one in (*demo, *made_phrases(300), *rare))


@lru_cache(maxsize=1)
def claims() -> tuple[tuple[Claim, str], ...]:
    """Return every remark that is offered on any of the phrases, and its sentence."""
    found = []
    for whole in accounts():
        if not whole.notes:
            continue
        facts, say = Facts(whole.phrase), reader_names(whole)
        found += [(Claim(remark, facts, whole), remark.said(say)) for remark in offers(whole)]
    return tuple(found)


KINDS = sorted(row.removeprefix("tell.").removesuffix(" told") for row in WORDING if row.startswith("tell."))


def test_every_kind_of_remark_has_a_check() -> None:
    assert set(KINDS) == set(CHECKS)


@pytest.mark.parametrize("kind", sorted(set(KINDS)))
def test_what_a_kind_of_remark_says_is_so(kind: str) -> None:
    wrong = [
        (claim.whole.phrase.title, sentence)
        for claim, sentence in claims()
        if claim.remark.kind == kind and not CHECKS[kind](claim)
    ]
    assert wrong == []


def test_every_degree_that_is_named_is_so() -> None:
    """Whatever the remark: "A, the third of F7" is true of some A over F7."""
    seen, wrong = 0, []
    for claim, sentence in claims():
        for one in degree_claims(sentence):
            seen += 1
            if not claim_holds(claim.facts, one):
                wrong.append((claim.whole.phrase.title, sentence, one))
    assert seen > 1000
    assert wrong == []


def test_every_kind_is_offered_somewhere() -> None:
    """So that the checks above check something."""
    assert {claim.remark.kind for claim, _ in claims()} == set(KINDS)
