"""The tokens of which a chord symbol's quality is written, and what a stack of thirds names.

Row format of `TOKENS`: kind; value; the ways to write it; source. A spelling of three or more letters
is read in any case ("Maj", "MAJ"); shorter ones exactly as they stand, since M is major and m is minor.
Signs that look alike are made one before reading: ♭ is b, ♯ is #, − and – are -, △ and ∆ are Δ, º and ˚
are °, Ø and ∅ are ø.

Kinds: `quality` opens a symbol, `number` says how far thirds are stacked, `major seventh` is both at
once, `suspension` replaces the third, `altered` is alt, `alteration` changes the fifth or a tension,
`signed` is an alteration written + or - (read as one only where it cannot be a quality), `add` names
one tone more, `omit` takes one away.
"""

from __future__ import annotations

from typing import NamedTuple


class TokenRow(NamedTuple):
    """One meaning and every way to write it."""

    kind: str
    value: str
    spellings: tuple[str, ...]
    source: str


def _row(kind: str, value: str, spellings: str, source: str = "common practice") -> TokenRow:
    return TokenRow(kind, value, tuple(spellings.split()), source)


_BRANDT = "Brandt & Roemer 1976; common practice"

TOKENS: tuple[TokenRow, ...] = (
    # A plain letter is the major triad, "maj" before a number the major seventh.
    _row("quality", "major", "major maj ma Ma MA Mj M j", _BRANDT),
    _row("quality", "delta", "Δ"),  # the triangle alone already means the major seventh
    _row("quality", "minor", "minor min mi Mi MI m -", _BRANDT),
    # Plain ° or dim is the triad, with 7 the diminished seventh chord.
    _row("quality", "diminished", "diminished dim ° o", _BRANDT),
    # The struck circle alone already means the seventh chord.
    _row("quality", "half-diminished", "ø"),
    _row("quality", "augmented", "augmented aug +", _BRANDT),
    _row("quality", "dominant", "dom"),
    _row("number", "5", "5"),
    _row("number", "6", "6", _BRANDT),
    _row("number", "6/9", "6/9 69", _BRANDT),
    _row("number", "7", "7", _BRANDT),
    _row("number", "9", "9", _BRANDT),
    _row("number", "11", "11", _BRANDT),
    _row("number", "13", "13", _BRANDT),
    _row("major seventh", "7", "7M #7"),
    _row("suspension", "4", "sus4 sus", _BRANDT),
    _row("suspension", "2", "sus2"),
    _row("suspension", "2 4", "sus24 sus2sus4 sus42 sus4sus2"),
    _row("altered", "alt", "altered alt", "Levine 1995, ch. 3"),
    _row("alteration", "b5", "b5", _BRANDT),
    _row("alteration", "#5", "#5", _BRANDT),
    _row("alteration", "b9", "b9 b2", _BRANDT),
    _row("alteration", "#9", "#9 #2", _BRANDT),
    _row("alteration", "#11", "#11 #4", _BRANDT),
    _row("alteration", "b13", "b13 b6", _BRANDT),
    _row("signed", "b5", "-5"),
    _row("signed", "#5", "+5"),
    _row("signed", "b9", "-9"),
    _row("signed", "#9", "+9"),
    _row("signed", "#11", "+11"),
    _row("signed", "b13", "-13"),
    _row("signed", "7", "+7"),  # only in brackets: m(+7) is the minor chord with a major seventh
    _row("add", "9", "add9 add2", _BRANDT),
    _row("add", "11", "add11 add4", _BRANDT),
    _row("add", "13", "add13", _BRANDT),
    _row("add", "6", "add6", _BRANDT),
    _row("add", "b9", "addb9 addb2"),
    _row("add", "#9", "add#9 add#2"),
    _row("add", "#11", "add#11 add#4"),
    _row("add", "b13", "addb13 addb6"),
    _row("omit", "3", "no3 omit3 no3rd", _BRANDT),
    _row("omit", "5", "no5 omit5 no5th", _BRANDT),
    _row("omit", "9", "no9 omit9"),
    _row("omit", "11", "no11 omit11"),
)


class StackRow(NamedTuple):
    """What a number names above the seventh: `over` says on which chords; the third may give way."""

    number: str
    over: str
    tensions: tuple[str, ...]
    keeps_third: bool
    source: str


STACKS: tuple[StackRow, ...] = (
    StackRow("9", "any", ("9",), True, "common practice"),
    # The natural 11 a half step above a major third is left out of a thirteenth chord, and in an
    # eleventh chord it is the third that goes: C11 is played as Bb over C, a suspended sound.
    StackRow("11", "dominant", ("9", "11"), False, "common practice; Levine 1995, on sus, from memory"),
    StackRow("11", "major", ("9", "11"), True, "common practice: rare, the symbol taken at its word"),
    StackRow("11", "minor", ("9", "11"), True, "common practice"),
    StackRow("11", "suspended", ("9",), True, "common practice: the 11 is the suspended fourth itself"),
    StackRow("13", "dominant", ("9", "13"), True, "common practice: no 11 against the major third"),
    StackRow("13", "major", ("9", "13"), True, "common practice: no 11 against the major third"),
    StackRow("13", "minor", ("9", "11", "13"), True, "common practice: over a minor third the 11 stays"),
    StackRow("13", "suspended", ("9", "13"), True, "common practice"),
)  # fmt: skip

ALTERED_TENSIONS = ("b9", "#9", "#11", "b13")
"""What alt names beside root, third and seventh; no fifth. Source: Levine 1995, ch. 3."""

TENSION_ORDER = ("b9", "9", "#9", "11", "#11", "b13", "13")
"""The order in which tensions stand in a chord."""

NO_CHORD = ("N.C.", "NC", "N.C", "n.c.", "n.c", "nc")
"""The ways to write that no chord sounds. Source: common practice."""
