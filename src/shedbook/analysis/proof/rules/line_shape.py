"""The rule on the shape of the line: how low, how high and how wide it goes."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.naming.sayings import HighNote, saying
from shedbook.analysis.proof.finding import Found, found_at
from shedbook.analysis.proof.rule import Example, RuleRow, phrase_rule

_LOWEST_MIDI, _HIGHEST_MIDI = 36, 96
"""C2 and C7: beyond them a line lies in an extreme register [the project's design]."""

_WIDEST = 31
"""Two octaves and a fifth, in half steps: most instruments play no more with ease [common practice]."""


@phrase_rule(
    RuleRow(
        "range",
        "warning",
        "The line lies in an extreme register, or spans more than most instruments play with ease.",
        fires=Example("Dm7", "1/4 d1 f4 a4 c5", "dorian"),
        silent=Example("Dm7", "1/4 d4 f4 a4 c5", "dorian"),
        source="common practice",
    )
)
def range(account: Account) -> Iterator[Found]:
    """Find the lowest and the highest note where they are extreme, and a line that spans too much."""
    shape = account.contour
    if shape.highest is None or shape.lowest is None:
        return
    low, high = account.notes[shape.lowest], account.notes[shape.highest]
    for note, extreme in ((low, low.midi < _LOWEST_MIDI), (high, high.midi > _HIGHEST_MIDI)):
        if extreme:
            yield found_at(note, saying("finding.range.extreme", note=HighNote(note.pitch)))
    if shape.range > _WIDEST:
        message = saying(
            "finding.range.wide", n=shape.range, low=HighNote(low.pitch), high=HighNote(high.pitch)
        )
        yield found_at(high, message)
