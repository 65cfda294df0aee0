"""The topics of an explanation: how often each is told, and in which order what looks back is told.

A topic is a value and every remark names one of them, so a topic that does not exist cannot be named.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Topic:
    """What a remark is about.

    It is told `most` times at the most; `always` means whenever there is something to say, and `filler` only
    where there is little else. A remark on a topic that `explains` says what each note that it covers does.
    `summary_place` orders the topics that look back over the line, from 1; it is 0 for the others.
    """

    name: str
    most: int = 1
    always: bool = False
    filler: bool = False
    explains: bool = False
    summary_place: int = 0


OPENING = Topic("opening", always=True, explains=True)
CROSSING = Topic("crossing", most=5, explains=True)
COLOUR = Topic("colour", most=4)
CHORD_TONES_ONLY = Topic("chord tones")
ENCLOSURE = Topic("enclosure", most=3, explains=True)
SEQUENCE = Topic("sequence", most=2)
LEAP = Topic("leap")
OUTSIDE = Topic("outside", always=True, summary_place=1)
INSIDE = Topic("inside", filler=True, summary_place=2)
STRONG_BEATS = Topic("strong beats", always=True, summary_place=4)
COVERAGE = Topic("coverage", most=2, summary_place=5)
SCALES = Topic("scales", always=True, summary_place=6)
SHAPE = Topic("shape", summary_place=7)
ENDING = Topic("ending", summary_place=8)
PRACTICE = Topic("practice", always=True)
