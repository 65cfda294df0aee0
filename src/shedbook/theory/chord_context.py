"""The contexts in which a chord takes one scale and not another: what leads to it, and what it leads to.

The names of the contexts are those of `tables.chord_scales`, of whose rows the first is used
whose context holds.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.theory.chord import Chord
from shedbook.theory.interval import LETTER_SEMITONES
from shedbook.theory.key import Key

_NUMERALS = ("I", "II", "III", "IV", "V", "VI", "VII")
_NUMERAL = re.compile(r"([b#]?)(VII|VI|V|IV|III|II|I)(?![A-Z])", re.IGNORECASE)
FOURTH_UP, HALF_STEP_UP, WHOLE_STEP_UP, HALF_STEP_DOWN = 5, 1, 2, 11
"""Half steps from the root of a chord up to the root of the next."""


@dataclass(frozen=True, slots=True)
class Context:
    """What stands round a chord; everything may be missing.

    Attributes:
        previous: the chord before it that has another function.
        following: the chord after it that has another function.
        function: its Roman numeral in the key, such as "ii", "V" or "bVII"; "" where it is not known.
        key: the key.
    """

    previous: Chord | None = None
    following: Chord | None = None
    function: str = ""
    key: Key | None = None


NO_CONTEXT = Context()


def leads(chord: Chord, context: Context, semitones: int) -> bool:
    """Say whether the root of the following chord lies this many half steps above the root of the chord."""
    after = context.following
    if chord.root is None or after is None or after.root is None:
        return False
    return (after.root.pitch_class - chord.root.pitch_class) % 12 == semitones


def _following_third(context: Context) -> str:
    return "" if context.following is None else context.following.third


def _degree(chord: Chord, context: Context) -> int | None:
    """Return the half steps from tonic up to root, by the numeral or else by the key; None if unknown."""
    found = _NUMERAL.match(context.function)
    if found is not None:
        natural = LETTER_SEMITONES[_NUMERALS.index(found[2].upper())]
        return (natural + {"": 0, "b": -1, "#": 1}[found[1]]) % 12
    if context.key is None or chord.root is None:
        return None
    return (chord.root.pitch_class - context.key.tonic.pitch_class) % 12


def _in_minor(context: Context) -> bool:
    return context.key is not None and context.key.mode == "minor"


def _to_minor(chord: Chord, context: Context) -> bool:
    """Say whether a dominant leads to a minor chord.

    The next chord decides where it lies a fourth higher, and otherwise the place of the dominant in the key.
    """
    if leads(chord, context, FOURTH_UP):
        return _following_third(context) == "b3"
    degree = _degree(chord, context)
    return degree == 7 if _in_minor(context) else degree in (4, 9, 11)


def _tritone_substitute(chord: Chord, context: Context) -> bool:
    ends = context.following is None
    return leads(chord, context, HALF_STEP_DOWN) or (ends and _degree(chord, context) == 1)


def _flat_seventh(chord: Chord, context: Context) -> bool:
    """Say whether a dominant is bVII7 on its way to the tonic, and not the V of a chord a fourth higher."""
    if leads(chord, context, FOURTH_UP):
        return False
    degree = _degree(chord, context)
    if degree is None:
        after = context.following
        home = after is not None and after.third in ("3", "b3") and after.seventh != "b7"
        return home and leads(chord, context, WHOLE_STEP_UP)
    return degree == 10


def _second_degree(chord: Chord, context: Context) -> bool:
    """Say whether a dominant is II7: on the second degree, and not the V of a major chord that is at rest."""
    after = context.following
    at_rest = after is not None and after.third == "3" and after.seventh != "b7"
    return _degree(chord, context) == 2 and not (at_rest and leads(chord, context, FOURTH_UP))


def _flat_sixth(chord: Chord, context: Context) -> bool:
    return _degree(chord, context) == 8 and not leads(chord, context, FOURTH_UP)


def _tonic(chord: Chord, context: Context) -> bool:
    """Say whether a chord is the tonic at rest; a dominant that goes on to a plain IV is that chord's V."""
    after = context.following
    moves_on = leads(chord, context, FOURTH_UP) and after is not None and after.seventh != "b7"
    return _degree(chord, context) == 0 and not (chord.seventh == "b7" and moves_on)


def _off_the_tonic(chord: Chord, context: Context) -> bool:
    """Say whether a major chord stands on a degree where #11 belongs to the key or to its parallel minor."""
    return _degree(chord, context) in ((1, 8) if _in_minor(context) else (1, 3, 5, 8, 10))


def _on(*degrees: int) -> Callable[[Chord, Context], bool]:
    def holds(chord: Chord, context: Context) -> bool:
        return not _in_minor(context) and _degree(chord, context) in degrees

    return holds


def _rising(third: str) -> Callable[[Chord, Context], bool]:
    def holds(chord: Chord, context: Context) -> bool:
        return leads(chord, context, HALF_STEP_UP) and _following_third(context) == third

    return holds


_IS_THIRD_DEGREE = _on(4)

CONTEXTS: MappingProxyType[str, Callable[[Chord, Context], bool]] = MappingProxyType({
    "any": lambda chord, context: True,
    "to minor": _to_minor,
    "tritone substitute": _tritone_substitute,
    "bVII7": _flat_seventh,
    "II7": _second_degree,
    "bVI7": _flat_sixth,
    "off the dominant": lambda chord, context: (
        _flat_seventh(chord, context) or _second_degree(chord, context) or _flat_sixth(chord, context)
    ),
    "tonic": _tonic,
    "minor tonic": lambda chord, context: _in_minor(context) and _degree(chord, context) == 0,
    "dominant": lambda chord, context: _degree(chord, context) == 7,
    "off the tonic": _off_the_tonic,
    "ii": _on(2),
    "iii": _IS_THIRD_DEGREE,
    "iii before VI": lambda chord, context: (
        _IS_THIRD_DEGREE(chord, context) and leads(chord, context, FOURTH_UP)
    ),
    "vi": _on(9),
    "leading note": lambda chord, context: _degree(chord, context) == 11,
    "rising to minor": _rising("b3"),
    "rising to major": _rising("3"),
    "not rising": lambda chord, context: (
        context.following is not None and not leads(chord, context, HALF_STEP_UP)
    ),
})  # fmt: skip
"""The contexts by the names that the table uses."""
