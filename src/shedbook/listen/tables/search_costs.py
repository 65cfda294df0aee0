"""Costs of the search for notes, in natural logarithms. Chosen by trials on the takes of the weights.

`new_note` is the cost of a beginning, `rest` of an ending; `extra`, `wrong` and `skipped` of a note that the
phrase does not have, of another pitch, and of a note that is left out. The evidence of frames that lie near
one another is nearly the same evidence, so that only a share of each counts.
"""

from __future__ import annotations

from typing import NamedTuple


class SearchCosts(NamedTuple):
    """The costs of one search."""

    new_note: float
    rest: float
    extra: float
    wrong: float = 0.0
    skipped: float = 0.0


FREE = SearchCosts(new_note=3.5, rest=1.0, extra=0.0)
"""Where the line is not known, every note is an extra one; one begins at about one frame in 33 (e^3.5),
which is how often eighths come."""
KNOWN = SearchCosts(new_note=4.0, rest=1.0, extra=3.0, wrong=4.0, skipped=5.0)
"""Where it is known; an extra or a wrong note costs more, the farther it lies from the notes around it."""

SHARE_OF_A_FRAME_FREE, SHARE_OF_A_FRAME_KNOWN = 0.15, 0.18
LEAST_PITCH, LEAST_ONSET, MOST_ONSET = -8.0, -6.0, 10.0
"""What one frame can say at most against a pitch, against a beginning and for one."""
SHORTEST_FRAMES = 8
"""The shortest note: 43 ms, shorter than a grace note (common practice)."""
OCTAVE_FOLD = 0.02
"""A note that is expected may be heard an octave away, at this cost a frame."""
OCTAVE_DOUBT = 1.0
"""So much, at most, one frame speaks for a pitch against its octave: a tone that begins an octave away, or
whose partials hide its pitch, does so for all of a short note, and more frames of it say nothing new."""
NEAR_FRAMES = 6
"""What speaks for a beginning is smeared over so many frames before and after it."""
MOST_SKIPPED = 3
"""So many notes can be left out in a row."""
TIME_SPREAD_FRAMES, MOST_TIME_COST = 10.0, 6.0
"""A note stands where it is expected, give or take 53 ms; at most so much speaks against another place."""

INTERVAL_SHARE = (
    0.0429, 0.2826, 0.2849, 0.1748, 0.0928, 0.0609, 0.0144, 0.0197, 0.0088, 0.0078, 0.0038, 0.0018, 0.0027,
)  # fmt: skip
"""How often each interval, from 0 to 12 half steps, up and down, is played in improvised lines: 347 solos of
the Weimar Jazz Database (Pfleiderer, Frieler, Abesser, Zaddach & Burkhart 2017, Inside the Jazzomat)."""
WIDER_SHARE = 0.0005
"""How often one that is wider, of one size and direction: what is left of them, over the next octave."""
