"""What the hands of a player find awkward between two notes: fingering charts, air columns, strings, points.

Notes of woodwinds and brass are written notes, those of strings sound. A chart has a line for each fingering:
the note, then one sign for each finger, in the order of `fingers`; "." is a finger that is up, any other sign
the key that it holds. A note with two lines has two fingerings. `POINTS` says what moves between fingerings
cost, from nothing to `most`. It is a rough measure for two notes alone: what a player prepares or leaves down
over three notes and more is not seen.
"""

from __future__ import annotations

from typing import NamedTuple

_PRACTICE = "common practice"
_CHART = "usual fingerings, common practice, written down from memory"


class PointRow(NamedTuple):
    """What one thing costs: name, points, per what, source."""

    name: str
    cost: int
    per: str
    source: str


POINTS: tuple[PointRow, ...] = (
    PointRow("most", 4, "pair of notes at most, however much comes together", "the project's design"),
    PointRow("key to key", 2, "finger that slides from one key straight to another", _PRACTICE),
    PointRow("crossing", 1, "finger that goes down as another one is lifted", _PRACTICE),
    PointRow("many", 1, "finger beyond four that move at once", _PRACTICE),
    PointRow("third valve", 1, "third valve that moves as another one goes the other way", _PRACTICE),
    PointRow("partials", 1, "partial that the lip passes over", _PRACTICE),
    PointRow("slide", 1, "position beyond two that the slide travels", _PRACTICE),
    PointRow("other position", 1, "note in another position than the usual one", _PRACTICE),
    PointRow("shift", 1, "two half steps, or one, that the hand must move along the strings", _PRACTICE),
    PointRow("skip", 1, "string that the bow or the plucking hand passes over", _PRACTICE),
    PointRow("wide", 1, "step of `LEAPS` that a leap reaches", _PRACTICE),
)  # fmt: skip


class ChartRow(NamedTuple):
    """A fingering chart: name, instruments that have it, fingers, lines, lines that come again, source.

    `again` holds (lowest note, highest note, half steps up, place of the finger, its key): the lines from the
    lowest to the highest are the fingerings so much higher too, with that finger down besides.
    """

    name: str
    instruments: tuple[str, ...]
    fingers: str
    lines: str
    again: tuple[tuple[str, str, int, int, str], ...]
    source: str


CHARTS: tuple[ChartRow, ...] = (
    ChartRow(
        "saxophone",
        ("soprano saxophone", "alto saxophone", "tenor saxophone", "baritone saxophone"),
        "octave thumb; left 1 2 3 little; palm D, E flat, F; right side; right 1 2 3 little",
        """
        Bb3 .xxxb ... . xxxc
        B3  .xxxB ... . xxxc
        C4  .xxx. ... . xxxc
        C#4 .xxx# ... . xxxc
        D4  .xxx. ... . xxx.
        Eb4 .xxx. ... . xxxe
        E4  .xxx. ... . xx..
        F4  .xxx. ... . x...
        F#4 .xxx. ... . .x..
        G4  .xxx. ... . ....
        G4  .bxx. ... . ....
        G#4 .xxxg ... . ....
        A4  .xx.. ... . ....
        A4  .bx.. ... . ....
        Bb4 .xx.. ... b ....
        Bb4 .b... ... . ....
        B4  .x... ... . ....
        C5  ..x.. ... . ....
        C5  .x... ... c ....
        C#5 ..... ... . ....
        D6  o.... x.. . ....
        Eb6 o.... xx. . ....
        E6  o.... xx. e ....
        F6  o.... xxx e ....
        """,
        (("D4", "C#5", 12, 0, "o"),),
        _CHART,
    ),
    ChartRow(
        "clarinet",
        ("clarinet", "bass clarinet"),
        "register, thumb; left 1 2 3 little; right side; right 1 2 3 little",
        """
        E3  .xxxxe . xxx.
        E3  .xxxx. . xxxe
        F3  .xxxx. . xxxf
        F3  .xxxxf . xxx.
        F#3 .xxxxF . xxx.
        F#3 .xxxx. . xxxF
        G3  .xxxx. . xxx.
        G#3 .xxxx. . xxxg
        A3  .xxxx. . xx..
        Bb3 .xxxx. . x...
        B3  .xxxx. . .x..
        C4  .xxxx. . ....
        C#4 .xxxx# . ....
        D4  .xxx.. . ....
        Eb4 .xxx.. e ....
        Eb4 .xx... . x...
        E4  .xx... . ....
        F4  .x.... . ....
        F#4 ..x... . ....
        F#4 .x.... f ....
        G4  ...... . ....
        G#4 ..g... . ....
        A4  ..a... . ....
        Bb4 x.a... . ....
        """,
        (("E3", "F4", 19, 0, "x"),),
        _CHART,
    ),
    ChartRow(
        "flute",
        ("flute",),
        "thumb; left 1 2 3 little; right 1 2 3 little",
        """
        C4  xxxx. xxxc
        C#4 xxxx. xxx#
        D4  xxxx. xxx.
        Eb4 xxxx. xxxe
        E4  xxxx. xx.e
        F4  xxxx. x..e
        F#4 xxxx. ..xe
        G4  xxxx. ...e
        G#4 xxxxg ...e
        A4  xxx.. ...e
        Bb4 xx... x..e
        Bb4 bx... ...e
        B4  xx... ...e
        C5  .x... ...e
        C#5 ..... ...e
        D5  x.xx. xxx.
        Eb5 x.xx. xxxe
        D6  x.xx. ...e
        Eb6 xxxxg xxxe
        E6  xxx.. xx.e
        F6  xx.x. x..e
        F#6 xx.x. ..xe
        G6  .xxx. ...e
        G#6 ..xxg ...e
        A6  x.x.. x..e
        """,
        (("E4", "C#5", 12, 0, ""),),
        _CHART,
    ),
)  # fmt: skip


class ColumnRow(NamedTuple):
    """A brass instrument: name, instruments, open partials, valves by half steps down, source.

    The partials begin with the second; "-" is one that is out of tune and not used. `valves` says which
    valves are down for each half step below a partial, 0 first; () is a slide, a position for each.
    """

    name: str
    instruments: tuple[str, ...]
    partials: str
    valves: tuple[str, ...]
    source: str


_VALVES = ("", "2", "1", "12", "23", "13", "123")
"""A valve lowers by a whole step (the first), a half step (the second) or three (the third)."""

COLUMNS: tuple[ColumnRow, ...] = (
    ColumnRow("trumpet", ("trumpet", "flugelhorn"), "C4 G4 C5 E5 G5 - C6 D6 E6", _VALVES,
              "the harmonic series and what valves lower; common practice"),
    ColumnRow("trombone", ("trombone",), "Bb2 F3 Bb3 D4 F4 - Bb4 C5 D5", (),
              "the harmonic series and seven positions a half step apart; common practice"),
    ColumnRow("horn, F side", ("horn in F",), "C3 G3 C4 E4 G4 - C5 - E5 - G5 - - - C6", _VALVES,
              "the F side of a double horn as beginners are taught it; " + _CHART),
)  # fmt: skip


class StringsRow(NamedTuple):
    """A string instrument: name, open strings from the lowest, half steps under a hand, source.

    Strings that stand among `fingerboards` are "": they are taken from there.
    """

    name: str
    strings: str
    hand: int
    source: str


STRINGS: tuple[StringsRow, ...] = (
    StringsRow("violin", "G3 D4 A4 E5", 5, "four fingers over a fourth, common practice"),
    StringsRow("viola", "C3 G3 D4 A4", 5, "four fingers over a fourth, common practice"),
    StringsRow("cello", "C2 G2 D3 A3", 3, "four fingers over a third, common practice"),
    StringsRow("double bass", "E1 A1 D2 G2", 2, "four fingers over a whole step, common practice"),
    StringsRow("guitar", "", 3, "a finger to a fret, four frets, common practice"),
    StringsRow("electric bass", "", 3, "a finger to a fret, four frets, common practice"),
)  # fmt: skip

REACH = 24
"""How many half steps above its open string a note is stopped [the project's design]."""


class LeapRow(NamedTuple):
    """Where a leap alone is what is hard: instruments, half steps from which each point counts, source."""

    name: str
    instruments: tuple[str, ...]
    steps: tuple[int, ...]
    source: str


LEAPS: tuple[LeapRow, ...] = (
    LeapRow("a hand over keys", ("piano",), (8, 10, 12), "five fingers lie over a fifth, common practice"),
    LeapRow("two mallets", ("vibraphone",), (9, 12), _PRACTICE),
    LeapRow("a voice", ("soprano voice", "mezzo-soprano voice", "alto voice", "tenor voice", "baritone voice",
                        "bass voice"), (6, 8, 10, 11), "leaps of a tritone and of a sixth and more, common "
            "practice of writing for voices"),
)  # fmt: skip
