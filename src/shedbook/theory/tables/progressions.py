"""The progressions, one row each, and what may stand for each of their functions.

Conventions: a step is a function with its role. `kinds` of a role says which chords may play it and at
what cost; 0 is the usual chord. Costs are small whole numbers, compared with one another only: the cover
of some changes by progressions is the cheapest one, where a function that no progression explains costs
`UNEXPLAINED`, a progression its row's cost and a variant its role's. Longer rows cost less, so that
ii–V–I is heard before ii–V with a lone I.
All rows and costs are common practice unless they name a source.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple

PRACTICE = "common practice"

UNEXPLAINED = 10
"""The cost of a function that stands in no progression."""

SHARED = 1
"""The cost of functions that belong to two neighbouring progressions."""

LEADS_AWAY = 10
"""Added to a turnaround whose dominant goes neither to its tonic nor to the iii in the tonic's place."""


class RoleRow(NamedTuple):
    """Who may play a role: how it is written out, and the kinds that may stand there with their cost."""

    written: str
    kinds: tuple[tuple[str, int], ...]
    source: str


_V = (("dominant", 0), ("suspended", 0), ("augmented", 1))
_I = (("major seventh", 0), ("major triad", 0), ("suspended triad", 2))
_MINOR_I = (("minor sixth", 0), ("minor triad", 0), ("minor seventh", 1))
_MINOR_7 = (("minor seventh", 0), ("minor triad", 1))

ROLES = MappingProxyType({
    "tonic": RoleRow("maj7", _I, PRACTICE),
    "tonic, also blue": RoleRow("maj7", (*_I, ("dominant", 3)), PRACTICE),
    "minor tonic": RoleRow("m6", _MINOR_I, PRACTICE),
    "dominant": RoleRow("7", _V, PRACTICE),
    "dominant, also a triad": RoleRow("7", (*_V, ("major triad", 2), ("suspended triad", 2)), PRACTICE),
    "dominant to minor": RoleRow("7b9", _V, PRACTICE),
    "supertonic": RoleRow("m7", (*_MINOR_7, ("minor sixth", 1), ("half-diminished", 2)), PRACTICE),
    "minor seventh": RoleRow("m7", _MINOR_7, PRACTICE),
    "mediant": RoleRow("m7", (*_MINOR_7, ("half-diminished", 1)), PRACTICE),
    "half-diminished": RoleRow("m7b5", (("half-diminished", 0), ("minor seventh", 2), ("minor triad", 2)),
                               PRACTICE),
    "half-diminished only": RoleRow("m7b5", (("half-diminished", 0),), PRACTICE),
    "minor subdominant": RoleRow("m7", (("minor seventh", 0), ("minor sixth", 0), ("minor triad", 0)),
                                 PRACTICE),
    "diminished": RoleRow("dim7", (("diminished", 0),), PRACTICE),
    "chromatic dominant": RoleRow("7", (*_V, ("major seventh", 0), ("major triad", 1)), PRACTICE),
    "chromatic major": RoleRow("maj7", (("major seventh", 0), ("major triad", 0), ("dominant", 1)),
                               PRACTICE),
    "blues home": RoleRow("7", (("dominant", 0),), PRACTICE),
    "distant tonic": RoleRow("maj7", (("major seventh", 0), ("major triad", 0)), PRACTICE),
    "blues tonic": RoleRow("7", (("dominant", 0), ("major seventh", 1), ("major triad", 1)), PRACTICE),
    "blues subdominant": RoleRow("7", (("dominant", 0), ("major triad", 1)), PRACTICE),
})  # fmt: skip


class StepRow(NamedTuple):
    """A function as the rows below name it: the degree of its root, its numeral and its role."""

    degree: str
    numeral: str
    role: str


STEPS = MappingProxyType({
    "I": StepRow("1", "I", "tonic"),
    "I*": StepRow("1", "I", "tonic, also blue"),
    "I7": StepRow("1", "I", "blues tonic"),
    "Ih": StepRow("1", "I", "blues home"),
    "IVh": StepRow("4", "IV", "blues home"),
    "Vh": StepRow("5", "V", "blues home"),
    "bIIImaj": StepRow("b3", "bIII", "distant tonic"),
    "IIImaj": StepRow("3", "III", "distant tonic"),
    "bVmaj": StepRow("b5", "bV", "distant tonic"),
    "bVImaj": StepRow("b6", "bVI", "distant tonic"),
    "VImaj": StepRow("6", "VI", "distant tonic"),
    "bV7": StepRow("b5", "bV", "dominant"),
    "VII": StepRow("7", "VII", "dominant"),
    "biii": StepRow("b3", "biii", "minor seventh"),
    "i": StepRow("1", "i", "minor tonic"),
    "i7": StepRow("1", "I", "dominant to minor"),
    "#i°": StepRow("#1", "#i°", "diminished"),
    "bII": StepRow("b2", "bII", "dominant"),
    "bII*": StepRow("b2", "bII", "chromatic dominant"),
    "ii": StepRow("2", "ii", "supertonic"),
    "ii7": StepRow("2", "ii", "minor seventh"),
    "iiø": StepRow("2", "iiø", "half-diminished"),
    "iiø7": StepRow("2", "iiø", "half-diminished only"),
    "II": StepRow("2", "II", "dominant"),
    "#ii°": StepRow("#2", "#ii°", "diminished"),
    "biii°": StepRow("b3", "biii°", "diminished"),
    "bIII": StepRow("b3", "bIII", "chromatic major"),
    "bIII7": StepRow("b3", "bIII", "dominant"),
    "iii": StepRow("3", "iii", "mediant"),
    "iii7": StepRow("3", "iii", "minor seventh"),
    "iiiø": StepRow("3", "iiiø", "half-diminished only"),
    "III": StepRow("3", "III", "dominant"),
    "iv": StepRow("4", "iv", "minor subdominant"),
    "IV7": StepRow("4", "IV", "blues subdominant"),
    "#iv°": StepRow("#4", "#iv°", "diminished"),
    "v": StepRow("5", "v", "minor seventh"),
    "vø": StepRow("5", "vø", "half-diminished only"),
    "V": StepRow("5", "V", "dominant"),
    "V*": StepRow("5", "V", "dominant, also a triad"),
    "V9": StepRow("5", "V", "dominant to minor"),
    "bVI": StepRow("b6", "bVI", "chromatic major"),
    "bVI7": StepRow("b6", "bVI", "dominant"),
    "bvi": StepRow("b6", "bvi", "minor seventh"),
    "vi": StepRow("6", "vi", "minor seventh"),
    "viø": StepRow("6", "viø", "half-diminished only"),
    "VI": StepRow("6", "VI", "dominant"),
    "bVII": StepRow("b7", "bVII", "dominant"),
})  # fmt: skip
"""Step names of the rows below; a step is named by its numeral, with a mark where roles differ."""


class ProgressionRow(NamedTuple):
    """One progression.

    `steps` are names in `STEPS`; `goals` those that may follow and then belong to it; `cost` as above.
    `shares` is how many of its last functions may open the next progression too: the tonic that is
    reached, or the ii–V of a turnaround that goes on to its I in the same key.
    """

    name: str
    aliases: tuple[str, ...]
    mode: str
    steps: tuple[str, ...]
    goals: tuple[str, ...]
    shares: int
    cost: int
    source: str


def _row(
    name: str, mode: str, steps: str, *, shares: int, cost: int,
    aliases: str = "", goals: str = "", source: str = PRACTICE,
) -> ProgressionRow:  # fmt: skip
    return ProgressionRow(
        name, tuple(aliases.split(", ")) if aliases else (), mode,
        tuple(steps.split()), tuple(goals.split()), shares, cost, source,
    )  # fmt: skip


PROGRESSIONS: tuple[ProgressionRow, ...] = (
    _row("ii–V–I", "major", "ii V* I*", shares=1, cost=5, aliases="major ii–V–I"),
    _row("minor ii–V–i", "minor", "iiø V9 i", shares=1, cost=5, aliases="iiø–V–i"),
    _row("ii–V", "major", "ii7 V", shares=0, cost=7),
    _row("minor ii–V", "minor", "iiø7 V9", shares=0, cost=7, aliases="iiø–V"),
    _row("V–I", "major", "V I", shares=1, cost=8),
    _row("minor V–i", "minor", "V9 i", shares=1, cost=8),
    # Four functions, the wheels that turn back to I.
    _row("iii–VI–ii–V", "major", "iii VI ii V", shares=2, cost=4),
    _row("iii–vi–ii–V", "major", "iii7 vi ii V", shares=2, cost=4),
    _row("I–VI–ii–V", "major", "I* VI ii V", shares=2, cost=4, aliases="turnaround"),
    _row("I–vi–ii–V", "major", "I vi ii V", shares=2, cost=4, aliases="diatonic turnaround"),
    _row("I–#i°–ii–#ii°", "major", "I #i° ii #ii°", shares=0, cost=4, goals="iii7",
         aliases="rising diminished, I–#i°7–ii–#ii°7"),
    _row("I–#i°–ii–V", "major", "I #i° ii V", shares=2, cost=4, aliases="I–#i°7–ii–V"),
    _row("I–biii°–ii–V", "major", "I biii° ii V", shares=2, cost=4),
    _row("iii–biii°–ii–V", "major", "iii7 biii° ii V", shares=2, cost=4, aliases="falling diminished"),
    _row("iii–bIII–ii–bII", "major", "iii7 bIII7 ii bII", shares=2, cost=4,
         aliases="chromatic turnaround"),
    _row("iii–VI–ii–bII", "major", "iii VI ii bII", shares=2, cost=4),
    _row("I–VI–ii–bII", "major", "I* VI ii bII", shares=2, cost=4),
    _row("I–bIII–ii–bII", "major", "I bIII7 ii bII", shares=2, cost=4),
    _row("I–bIII–bVI–bII", "major", "I bIII bVI bII*", shares=0, cost=4, goals="I",
         aliases="tritone turnaround"),
    _row("minor i–viø–iiø–V", "minor", "i viø iiø V9", shares=2, cost=4, aliases="minor turnaround"),
    _row("minor i–bVI–iiø–V", "minor", "i bVI iiø V9", shares=2, cost=4),
    _row("minor iiiø–VI–iiø–V", "minor", "iiiø VI iiø7 V9", shares=2, cost=4),
    # The dominant a tritone away: it comes down a half step to the tonic.
    _row("tritone substitute ii–bII–I", "major", "ii bII I*", shares=1, cost=5, aliases="ii–bII–I"),
    _row("minor tritone substitute iiø–bII–i", "minor", "iiø bII i", shares=1, cost=5,
         aliases="iiø–bII–i"),
    _row("tritone substitute ii–bII", "major", "ii7 bII", shares=0, cost=7, aliases="ii–bII"),
    _row("minor tritone substitute iiø–bII", "minor", "iiø7 bII", shares=0, cost=7, aliases="iiø–bII"),
    _row("tritone substitute bII–I", "major", "bII I", shares=1, cost=8, aliases="bII–I"),
    _row("tritone substitute bvi–bII–I", "major", "bvi bII I*", shares=1, cost=5, aliases="bvi–bII–I"),
    _row("minor tritone substitute bII–i", "minor", "bII i", shares=1, cost=8, aliases="bII–i"),
    _row("backdoor ii–V", "major", "iv bVII I", shares=1, cost=5, aliases="iv–bVII–I"),
    _row("backdoor bVII–I", "major", "bVII I", shares=1, cost=8, aliases="bVII–I"),
    _row("cycle of dominants", "major", "III VI II V", shares=1, cost=4,
         aliases="III–VI–II–V, bridge of dominants"),
    _row("cycle of three dominants", "major", "VI II V", shares=1, cost=8, aliases="VI–II–V"),
    _row("secondary dominant II–V–I", "major", "II V I", shares=1, cost=5, aliases="II–V–I"),
    _row("iiø–V–I borrowed from minor", "major", "iiø7 V* I", shares=1, cost=5, aliases="borrowed ii–V–I"),
    # A blues is at home on three dominants.
    _row("blues I–IV–I", "major", "Ih IVh Ih", shares=1, cost=5, aliases="I7–IV7–I7"),
    _row("blues IV–I–IV", "major", "IVh Ih IVh", shares=1, cost=6, aliases="IV7–I7–IV7"),
    _row("blues V–IV–I", "major", "Vh IVh Ih", shares=1, cost=5, aliases="V7–IV7–I7"),
    _row("blues V–I", "major", "Vh Ih", shares=1, cost=9, aliases="V7–I7"),
    # Cycles of thirds, each tonic with its own dominant before it, or the tonics alone.
    _row("cycle of major thirds", "major", "I bIII7 bVImaj VII IIImaj V I", shares=1, cost=2),
    _row("half a cycle of major thirds", "major", "I bIII7 bVImaj VII IIImaj", shares=1, cost=4),
    _row("major chords in falling major thirds", "major", "I bVImaj IIImaj", shares=1, cost=8),
    _row("major chords in rising minor thirds", "major", "I bIIImaj bVmaj VImaj", shares=1, cost=6),
    _row("dominants in rising minor thirds", "major", "Ih bIII7 bV7 VI", shares=0, cost=6),
    # A ii–V beside the ii–V of the key: a half step above it, before it or after.
    _row("side-slip into ii–V", "major", "biii bVI7 ii7 V", shares=2, cost=5, aliases="chromatic ii–V"),
    _row("side-slip out of ii–V", "major", "ii7 V biii bVI7", shares=0, cost=6),
)  # fmt: skip


class LineRow(NamedTuple):
    """A line inside one chord: its root stays, and one voice moves.

    `qualities` are written after the root; the chords of a line have their thirds, fifths and sevenths, and a
    line of which the first or the last chord is missing is known too.
    """

    name: str
    aliases: tuple[str, ...]
    mode: str
    qualities: tuple[str, ...]
    source: str


LINES: tuple[LineRow, ...] = (
    LineRow(
        "descending line in minor", ("i–i(maj7)–i7–i6",), "minor", ("m", "m(maj7)", "m7", "m6"), PRACTICE
    ),
    LineRow("rising line in minor", ("i–i#5–i6",), "minor", ("m", "m#5", "m6"), PRACTICE),
)
"""Lines inside one chord; all their chords together are one function."""


class BluesRow(NamedTuple):
    """A twelve-bar form.

    `anchors` says with which functions the bars may open that must be right, by bar; the other bars are
    free. `one` and `two` are how it is written out: with one chord in each bar, and in the jazz form with
    two chords in some bars. `most_variants` is the greatest cost of variants over all anchors.
    """

    name: str
    aliases: tuple[str, ...]
    mode: str
    anchors: tuple[tuple[int, tuple[str, ...]], ...]
    one: tuple[str, ...]
    two: tuple[str, ...]
    most_variants: int
    source: str


def _bars(text: str) -> tuple[str, ...]:
    return tuple(bar.strip() for bar in text.split("|"))


BLUES: tuple[BluesRow, ...] = (
    BluesRow(
        "major blues", ("blues", "jazz blues", "quick-change blues"), "major",
        ((1, ("I7",)), (5, ("IV7",)), (7, ("I7", "iii")), (9, ("ii", "V", "II", "bVI7")),
         (10, ("V", "IV7", "bII", "ii", "bVII")), (11, ("I7", "iii"))),
        _bars("I7 | IV7 | I7 | I7 | IV7 | IV7 | I7 | VI | ii | V | I7 | V"),
        _bars("I7 | IV7 | I7 | v I7 | IV7 | IV7 #iv° | I7 | iii VI | ii | V | I7 VI | ii V"),
        3, PRACTICE,
    ),
    BluesRow(
        "minor blues", (), "minor",
        ((1, ("i",)), (5, ("iv",)), (7, ("i",)), (9, ("bVI", "iiø7", "V", "bVI7")),
         (10, ("V", "iv")), (11, ("i",))),
        _bars("i | i | i | i | iv | iv | i | i | bVI7 | V | i | V"),
        _bars("i | iiø V9 | i | vø i7 | iv | iv | i | i | bVI7 | V9 | i viø | iiø V9"),
        3, PRACTICE,
    ),
)  # fmt: skip
