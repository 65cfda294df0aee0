"""What a drafted rhythm must do and what it had better do, above the counts of real lines.

`LIMITS` are hard: beats, unless they say otherwise. `LEANINGS` are added to the logarithms of the counts, in
hundredths of a natural logarithm: what an author who writes to be read prefers [the project's design; the
shares of rests, pick-ups and syncopations that follow are compared with real lines in docs/drafts.md].
"""

from __future__ import annotations

from typing import NamedTuple


class LimitRow(NamedTuple):
    """One limit of rhythms: its name, its number, what it is for, and where it comes from."""

    name: str
    number: int
    says: str
    source: str


_TASTE = "the project's design"
_TRADE = "common practice"
_READER = "what a reader of a blind sheet held against drafts"
_DEMO = "shares in the demonstration book"
_EDITOR = "a music editor's reading of the demonstration book"

LIMITS: tuple[LimitRow, ...] = (
    LimitRow(
        "longest without breath", 7, "beats in a row without a rest", "common practice: two bars a breath"
    ),
    LimitRow("longest silence", 2, "silent beats in a row inside a phrase", _TASTE),
    LimitRow("latest start", 2, "silent beats before the first note", _TASTE),
    LimitRow("longest held", 3, "beats that the last note sounds", _TASTE),
    LimitRow("last rest", 1, "silent beats at the end, in phrases of two bars and more", _TASTE),
    LimitRow("earliest end", 4, "beats before the end in which the last note may begin", _TASTE),
)


class LeaningRow(NamedTuple):
    """One leaning: the cells that it is for ("*" for any), hundredths of a logarithm, and the source."""

    name: str
    cells: tuple[str, ...]
    weight: int
    source: str


_SIXTEENTHS = ("oooo", "o-oo", "-ooo", ".ooo", "ooo-", "--oo", "..oo")

LEANINGS: tuple[LeaningRow, ...] = (
    LeaningRow("sixteenths are for slow tempos", _SIXTEENTHS, -320,
               _TASTE),
    LeaningRow("triplets are spice", ("ooo", ".oo"), -120, _READER),
    LeaningRow("a tie into a triplet is hard to read", ("-oo",), -300, _TRADE),
    LeaningRow("the bar breathes off the beat", (".o",), 60, _DEMO),
    LeaningRow("a note may wait over the beat", ("-o",), -70, _DEMO),
    LeaningRow("a line is eighths", ("oo",), 20, _DEMO),
    LeaningRow("a phrase is no heap of rests", (".",), -110, _TASTE),
    LeaningRow("and no heap of long notes", ("-",), -60, _TASTE),
)  # fmt: skip


class StatementRow(NamedTuple):
    """What the rhythm of a statement must have: its name, its number, what it says, and the source."""

    name: str
    number: int
    says: str
    source: str


STATEMENT: tuple[StatementRow, ...] = (
    StatementRow("fewest notes", 3, "notes in a bar", _TASTE),
    StatementRow("most notes", 7, "notes in a bar, for it breathes or holds a note", _TASTE),
    StatementRow("sixteenths", 100, "beats a minute up to which there may be any", _TASTE),
    StatementRow("triplets", 1, "beats of triplets", _READER),
)


class RhythmReadingRow(NamedTuple):
    """What a rhythm is worth by: a name, hundredths of a logarithm for each unit, the unit, the source."""

    name: str
    weight: int
    unit: str
    source: str


RHYTHM_READING: tuple[RhythmReadingRow, ...] = (
    RhythmReadingRow("rhyme", 25, "note that answers one of the statement, of eight at most", _TRADE),
    RhythmReadingRow("lonely notes", -120, "note of a quarter at most, or the first, among rests", _READER),
    RhythmReadingRow("triplets", -400, "beat of triplets beyond one and its returns", _READER),
    RhythmReadingRow("a lonely triplet", -150, "triplet that does not return", _READER),
    RhythmReadingRow("sixteenths", -150, "beat of them where a statement may have none", _TASTE),
    RhythmReadingRow("loose syncopations", -60, "note held over a beat beyond one, no answer", _READER),
    RhythmReadingRow("rests", -60, "rest beyond one a bar", _TASTE),
    RhythmReadingRow("thin", -60, "note that is lacking to 3.6 a bar", _TASTE),
    RhythmReadingRow("thick", -40, "note beyond 6.8 a bar", _TASTE),
    RhythmReadingRow("arrival", 210, "last note on beat 1 or 3 of four, or an eighth before 3", _TRADE),
    RhythmReadingRow("an open end", 50, "last note in the last beat that two eighths lead to", _DEMO),
    RhythmReadingRow("a last note on its own", -150, "last note after a beat of silence", _READER),
    RhythmReadingRow("a tail", -350, "last note in the last beat, or two, that stand on their own", _READER),
    RhythmReadingRow("let go at once", -120, "last note under a quarter, then silence for a beat", _READER),
    RhythmReadingRow("off the beat", 120, "first note off the beat", _DEMO),
)  # fmt: skip
"""What makes one rhythm better than another before it has pitches."""

RELEASED = 35
"""How many of a hundred notes on the beat that could sound for a quarter are let go after an eighth, before a
rest [shares in the demonstration book]."""

PICK_UP = -450
"""What a beat before bar 1 weighs, in hundredths of a logarithm [the project's design]."""

FEEL_TABLES = {
    "swing": "swing", "fast swing": "fast", "shuffle": "swing", "straight": "even", "ballad": "slow",
    "bossa": "even", "samba": "even", "latin": "even", "waltz": "swing", "funk": "even", "free": "slow",
}  # fmt: skip
"""By feel, the table of counts; swing goes by its tempo [the project's design]."""
