"""Rules on how a phrase is written."""

from __future__ import annotations

from dataclasses import replace

from analysis.helpers import phrase
from shedbook.analysis.account import account
from shedbook.analysis.proof import proof
from shedbook.phrase.model import Bar
from shedbook.theory.pitch import Pitch

TIE = "tie-to-another-pitch"


def test_a_tie_names_both_its_ends() -> None:
    written = phrase("Dm7 | G7", "1/4 d4 f a c5 | + 1/4 g4 d g")
    first, second = written.bars
    lower = replace(second.events[0], pitch=Pitch.parse("B4"))
    astray = replace(written, bars=(first, Bar(2, (lower, *second.events[1:]))))
    rest = replace(written, bars=(Bar(1, (*first.events[:3], replace(first.events[3], pitch=None))), second))
    told = [one.message for case in (astray, rest) for one in proof(account(case)) if one.rule == TIE]
    assert told == ["A tie goes from C to B.", "A tie goes from a rest to C."]


def test_misread_names_the_plain_note() -> None:
    written = phrase("G7", "1/4 g4 b4 d5 f5", "mixolydian")
    events = written.bars[0].events
    odd = replace(events[1], pitch=Pitch.parse("Cb5"))
    odder = replace(written, bars=(Bar(1, (events[0], odd, *events[2:])),))
    (finding,) = [one for one in proof(account(odder)) if one.rule == "misread-accidental"]
    assert finding.mend == "Write B."
