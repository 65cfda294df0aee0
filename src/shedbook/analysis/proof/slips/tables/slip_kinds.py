"""How often each kind of slip is made, from which odds on it is told, and how grave it then is.

Odds are natural logarithms in hundredths: 0 is even, 110 three to one, -110 one chance in four.
"""

from __future__ import annotations

from typing import NamedTuple


class SlipKindRow(NamedTuple):
    """A kind of slip: its name, how many a hundred newly typed phrases have, and from when it is told.

    `told_from` are the odds below which nothing is said: they were chosen on phrases that no figure was
    fitted on, so that the kinds together keep to half a false finding a phrase.
    """

    name: str
    per_hundred_phrases: int
    told_from: int
    source: str


ROWS = (
    SlipKindRow("octave", 50, -100, "the project's design"),
    SlipKindRow("accidental", 33, -145, "the project's design"),
    SlipKindRow("stray", 33, -30, "the project's design"),
    SlipKindRow("letter", 10, -30, "the project's design"),
    SlipKindRow("doubled", 5, -50, "the project's design"),
    SlipKindRow("quality", 33, -260, "the project's design"),
    SlipKindRow("place", 5, -100, "the project's design"),
)

GRAVE_FROM = (("error", 110), ("warning", -40))
"""From which odds on a slip is an error, or a warning; what is less likely, advice [the project's design]."""

NAMED_SCALE = {(1, 0): -300, (0, 1): 100, (1, 1): -60, (0, 0): -60}
"""What a scale that the author names adds, by whether it holds the written and the other note.

The open data name no scales, so that this is not fitted [the project's design].
"""
