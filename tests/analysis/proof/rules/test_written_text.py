"""Rules on how a phrase is written."""

from __future__ import annotations

from dataclasses import replace

from analysis.helpers import phrase
from shedbook.analysis.account import account
from shedbook.analysis.proof import proof
from shedbook.phrase.model import Bar
from shedbook.theory.pitch import Pitch


def test_misread_names_the_plain_note() -> None:
    written = phrase("G7", "1/4 g4 b4 d5 f5", "mixolydian")
    events = written.bars[0].events
    odd = replace(events[1], pitch=Pitch.parse("Cb5"))
    odder = replace(written, bars=(Bar(1, (events[0], odd, *events[2:])),))
    (finding,) = [one for one in proof(account(odder)) if one.rule == "misread-accidental"]
    assert finding.mend == "Write B."
