"""The metre of a part whose file gives none: that of its bars, where most of them are equally long."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from shedbook.exchange.ground.long_line import LineBar
from shedbook.exchange.ground.report import Reporter
from shedbook.theory.metre import Metre

_STEADY = Fraction(3, 5)
"""Bars are steady where at least this share of them is equally long (common practice)."""
_USUAL: Mapping[Fraction, str] = MappingProxyType(
    {
        Fraction(text): metre
        for text, metre in (
            ("1", "1/4"), ("3/2", "3/8"), ("2", "2/4"), ("5/2", "5/8"), ("3", "3/4"), ("7/2", "7/8"),
            ("4", "4/4"), ("9/2", "9/8"), ("5", "5/4"), ("6", "6/4"), ("7", "7/4"), ("8", "4/2"),
        )
    }
)  # fmt: skip
"""The metre that is most usual for each length of a bar in quarters (common practice)."""


def with_steady_metre(bars: Sequence[LineBar], reporter: Reporter, given: Metre | None) -> list[LineBar]:
    """Return the bars of a part without a time signature in the metre that they keep.

    Args:
        bars: the bars of the part.
        reporter: told which metre was taken, and from what.
        given: the metre that the author says the part has; None to find it.
    """
    metre = given or steady_metre(bars)
    if metre is None:
        reporter.note("the file gives no metre and its bars keep none: 4/4 is assumed")
        return list(bars)
    if given is None:
        reporter.note(f"the file gives no metre: {metre} is taken from the lengths of its bars")
    return [replace(bar, context=replace(bar.context, metre=metre)) for bar in bars]


def steady_metre(bars: Sequence[LineBar]) -> Metre | None:
    """Return the metre in which most bars are full; None where no length is that frequent."""
    lengths = Counter(bar.quarters for bar in bars if bar.events)
    if not lengths:
        return None
    length, many = lengths.most_common(1)[0]
    if many < _STEADY * lengths.total() or length not in _USUAL:
        return None
    if length == 3 and _in_two(bars):
        return Metre(6, 8)
    return Metre.parse(_USUAL[length])


def _in_two(bars: Sequence[LineBar]) -> bool:
    """Tell whether more notes begin in the middle of the bars than on their second and third quarters."""
    begun: Counter[Fraction] = Counter()
    for bar in bars:
        place = Fraction(0)
        for event in bar.events:
            begun[place] += event.pitch is not None
            place += event.quarters
    return begun[Fraction(3, 2)] > begun[Fraction(1)] + begun[Fraction(2)]
