"""What a chord does in a key: kinds of chords, numerals, and what speaks for a key.

A Roman numeral is the place of the root above the tonic, counted against the major scale
in either mode (E flat in C minor is bIII), in upper case over a major third and in lower case over a
minor third. ° marks a diminished chord, ø a half-diminished one, + an augmented triad or a major
seventh with a raised fifth. Sevenths and tensions stay in the chord symbol: Dm7 G13 Cmaj7 is ii V I.
A secondary dominant is named by its degree (A7 in C is VI), a tritone substitute is bII.

The weights are the project's own choice, tuned on common practice; they only have to put the keys of
a lesson's changes in the right order. Semitones count from the tonic up to the root.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple

PRACTICE = "common practice"

KIND_CLASSES = MappingProxyType({
    "major seventh": "major", "major triad": "major",
    "dominant": "dominant", "suspended": "dominant", "augmented": "dominant",
    "minor seventh": "minor", "minor triad": "minor", "minor sixth": "minor",
    "half-diminished": "half-diminished", "diminished": "diminished",
    "suspended triad": "suspended triad",
})  # fmt: skip
"""Kind of chord to its class. Neighbouring chords of one root and one class are one function (G9sus G7b9);
a suspended triad joins whatever stands beside it. "minor sixth" holds m6, m6/9 and m(maj7), the chords
that only a tonic minor or a iv bears; "major seventh" holds the sixth chords too."""


class DegreeRow(NamedTuple):
    """How the chromatic degree above the tonic is called; `rising` where the root leads up."""

    plain: str
    rising: str
    source: str


DEGREES: tuple[DegreeRow, ...] = (
    DegreeRow("I", "I", PRACTICE),
    DegreeRow("bII", "#I", PRACTICE),
    DegreeRow("II", "II", PRACTICE),
    DegreeRow("bIII", "#II", PRACTICE),
    DegreeRow("III", "III", PRACTICE),
    DegreeRow("IV", "IV", PRACTICE),
    DegreeRow("bV", "#IV", PRACTICE),
    DegreeRow("V", "V", PRACTICE),
    DegreeRow("bVI", "#V", PRACTICE),
    DegreeRow("VI", "VI", PRACTICE),
    DegreeRow("bVII", "#VI", PRACTICE),
    DegreeRow("VII", "VII", PRACTICE),
)
"""Semitones above the tonic to the numeral. The rising name serves diminished chords unless they step
down a half step, half-diminished chords on #I and #IV, and on #IV minor chords and what goes to VII."""


class FitRow(NamedTuple):
    """A chord that speaks for a key by being there."""

    mode: str
    semitones: int
    kinds: tuple[str, ...]
    weight: int
    source: str


_MAJOR = ("major seventh", "major triad")
_MINOR = ("minor seventh", "minor triad")
_DOMINANT = ("dominant", "suspended")

FITS: tuple[FitRow, ...] = (
    FitRow("major", 0, _MAJOR, 2, "I"),
    FitRow("major", 0, ("dominant",), 1, "I of a blues"),
    FitRow("major", 1, ("dominant", "diminished"), 1, "tritone substitute; #i° rising to ii"),
    FitRow("major", 2, _MINOR, 2, "ii"),
    FitRow("major", 2, ("dominant",), 1, "II, the dominant of V"),
    FitRow("major", 3, ("diminished",), 1, "#ii° rising to iii, biii° falling to ii"),
    FitRow("major", 4, (*_MINOR, "half-diminished"), 1, "iii, also borrowed"),
    FitRow("major", 0, ("diminished",), 1, "i°, which turns round I on a common tone"),
    FitRow("major", 4, ("dominant",), 1, "III, the dominant of vi"),
    FitRow("major", 5, (*_MAJOR, "dominant"), 3, "IV, also of a blues"),
    FitRow("major", 5, (*_MINOR, "minor sixth"), 1, "iv, borrowed"),
    FitRow("major", 6, ("diminished", "half-diminished"), 1, "#iv° and #ivø"),
    FitRow("major", 7, _DOMINANT, 3, "V"),
    FitRow("major", 7, ("major triad", "augmented"), 2, "V as a triad"),
    FitRow("major", 8, ("diminished",), 1, "#v° rising to vi"),
    FitRow("major", 9, (*_MINOR, "dominant"), 1, "vi, and VI the dominant of ii"),
    FitRow("major", 10, ("dominant",), 2, "bVII, the back door"),
    FitRow("major", 10, _MAJOR, 1, "bVII as a triad, borrowed"),
    FitRow("major", 11, ("dominant",), 2, "VII, the dominant of iii"),
    FitRow("major", 11, ("half-diminished",), 1, "viiø"),
    FitRow("minor", 0, (*_MINOR,), 2, "i"),
    FitRow("minor", 0, ("minor sixth",), 3, "i with the major sixth or seventh"),
    FitRow("minor", 1, ("dominant",), 1, "tritone substitute"),
    FitRow("minor", 2, ("half-diminished",), 4, "iiø"),
    FitRow("minor", 3, _MAJOR, 1, "bIII"),
    FitRow("minor", 5, (*_MINOR, "minor sixth"), 2, "iv"),
    FitRow("minor", 7, _DOMINANT, 3, "V"),
    FitRow("minor", 7, ("major triad", "augmented"), 2, "V as a triad"),
    FitRow("minor", 7, _MINOR, 1, "v"),
    FitRow("minor", 8, (*_MAJOR, "dominant"), 2, "bVI"),
    FitRow("minor", 9, ("half-diminished",), 1, "viø"),
    FitRow("minor", 10, ("dominant",), 1, "bVII"),
    FitRow("minor", 11, ("diminished",), 3, "vii°"),
)
"""`source` names the function; all rows are common practice."""


class MoveRow(NamedTuple):
    """Two neighbouring functions that speak for a key by their order."""

    mode: str
    first: int
    first_kinds: tuple[str, ...]
    second: int
    second_kinds: tuple[str, ...]
    weight: int
    source: str


_V = (*_DOMINANT, "major triad", "augmented")
_TONIC_MINOR = (*_MINOR, "minor sixth")

MOVES: tuple[MoveRow, ...] = (
    MoveRow("major", 7, _V, 0, _MAJOR, 4, "V–I"),
    MoveRow("major", 2, _MINOR, 7, _V, 3, "ii–V"),
    MoveRow("major", 2, ("half-diminished",), 7, _V, 1, "iiø–V borrowed from minor"),
    MoveRow("major", 2, ("dominant",), 7, _DOMINANT, 2, "II–V"),
    MoveRow("major", 4, ("half-diminished",), 9, ("dominant",), 2, "iiiø–VI before ii"),
    MoveRow("major", 1, ("diminished",), 2, _MINOR, 2, "#i° rising to ii"),
    MoveRow("major", 3, ("diminished",), 4, _MINOR, 2, "#ii° rising to iii"),
    MoveRow("major", 9, ("dominant",), 2, ("dominant",), 2, "VI–II"),
    MoveRow("major", 4, ("dominant",), 9, ("dominant",), 5, "III–VI"),
    MoveRow("major", 2, _MINOR, 1, ("dominant",), 4, "ii to the tritone substitute"),
    MoveRow("minor", 2, ("half-diminished",), 1, ("dominant",), 4, "iiø to the tritone substitute"),
    MoveRow("major", 1, ("dominant",), 0, _MAJOR, 3, "tritone substitute to I"),
    MoveRow("major", 10, ("dominant",), 0, _MAJOR, 2, "back door to I"),
    MoveRow("major", 9, (*_MINOR, "dominant"), 2, _MINOR, 1, "vi–ii, VI–ii"),
    MoveRow("major", 5, _MAJOR, 0, _MAJOR, 1, "IV–I"),
    MoveRow("major", 5, ("dominant",), 0, ("dominant",), 3, "IV–I of a blues"),
    MoveRow("major", 0, ("dominant",), 5, ("dominant",), 3, "I–IV of a blues"),
    MoveRow("major", 0, _MAJOR, 3, (*_MAJOR, "dominant"), 2, "I–bIII of the tritone turnaround"),
    MoveRow("major", 8, (*_MAJOR, "dominant"), 1, (*_MAJOR, "dominant"), 2, "bVI–bII of the same"),
    MoveRow("major", 0, ("dominant",), 7, ("dominant",), 1, "I–V of a blues"),
    MoveRow("major", 7, ("dominant",), 0, ("dominant",), 2, "V–I of a blues"),
    MoveRow("major", 5, ("dominant",), 10, ("dominant",), 2, "IV–bVII of a blues"),
    MoveRow("major", 10, ("dominant",), 0, ("dominant",), 5, "bVII–I of a blues"),
    MoveRow("major", 0, ("dominant",), 10, ("dominant",), 2, "I–bVII of a blues"),
    MoveRow("major", 10, ("dominant",), 5, ("dominant",), 2, "bVII–IV of a blues"),
    MoveRow("major", 4, _MINOR, 9, _MINOR, 1, "iii–vi"),
    MoveRow("major", 4, _MINOR, 2, _MINOR, 2, "iii–ii"),
    MoveRow("major", 5, _MAJOR, 4, _MINOR, 2, "IV–iii"),
    MoveRow("major", 4, _MINOR, 5, _MAJOR, 1, "iii–IV"),
    MoveRow("major", 11, ("dominant",), 4, _MINOR, 1, "VII–iii"),
    MoveRow("major", 7, _V, 4, _MINOR, 1, "V–iii, I's place taken by iii"),
    MoveRow("major", 7, _V, 9, _MINOR, 3, "V–vi, the deceptive close"),
    MoveRow("major", 0, _MAJOR, 5, _MAJOR, 1, "I–IV"),
    MoveRow("major", 0, _MAJOR, 11, ("dominant",), 2, "I–VII7, a half step down"),
    MoveRow("major", 11, ("dominant",), 0, _MAJOR, 2, "VII7–I, a side-slip back"),
    MoveRow("major", 0, _MAJOR, 1, ("dominant",), 2, "I–bII7, a side-slip"),
    MoveRow("major", 0, ("diminished",), 0, _MAJOR, 3, "i°–I on a common tone"),
    MoveRow("major", 2, _MINOR, 0, _MAJOR, 1, "ii–I"),
    MoveRow("minor", 0, _TONIC_MINOR, 1, ("dominant",), 2, "i–bII7"),
    MoveRow("minor", 0, _TONIC_MINOR, 8, (*_MAJOR, "dominant"), 2, "i–bVI"),
    MoveRow("minor", 2, ("half-diminished",), 0, _TONIC_MINOR, 2, "iiø–i"),
    MoveRow("minor", 7, _V, 0, _TONIC_MINOR, 4, "V–i"),
    MoveRow("minor", 2, ("half-diminished",), 7, _V, 4, "iiø–V"),
    MoveRow("minor", 2, _MINOR, 7, _V, 1, "ii–V before a minor tonic"),
    MoveRow("minor", 1, ("dominant",), 0, _TONIC_MINOR, 3, "tritone substitute to i"),
    MoveRow("minor", 5, _TONIC_MINOR, 7, _V, 2, "iv–V"),
    MoveRow("minor", 8, (*_MAJOR, "dominant"), 7, _V, 2, "bVI–V"),
    MoveRow("minor", 5, _TONIC_MINOR, 0, _TONIC_MINOR, 1, "iv–i"),
    MoveRow("minor", 11, ("diminished",), 0, _TONIC_MINOR, 2, "vii°–i"),
)
"""`source` names the move; all rows are common practice."""


class EndRow(NamedTuple):
    """A function that speaks for a key by opening or closing the changes."""

    mode: str
    semitones: int
    kinds: tuple[str, ...]
    opening: int
    closing: int
    source: str


ENDS: tuple[EndRow, ...] = (
    EndRow("major", 0, _MAJOR, 4, 4, "I"),
    EndRow("major", 0, ("dominant",), 2, 2, "I of a blues"),
    EndRow("major", 7, _DOMINANT, 0, 3, "V, a half close; a lone dominant is heard as V of its major key"),
    EndRow("minor", 0, ("minor sixth", "minor triad"), 3, 4, "i"),
    EndRow("minor", 0, ("minor seventh",), 3, 1, "i, or somebody's ii"),
    EndRow("minor", 7, _DOMINANT, 0, 3, "V, a half close"),
)
"""`source` names the function; all rows are common practice."""

MAJOR_HEAD_START = 1
"""Added for major, so that what speaks equally for C major and C minor is heard in C major."""

MOST_SIGNATURE = 7
"""A key with more sharps or flats than this is named by its enharmonic neighbour."""
