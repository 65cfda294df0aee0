"""What the explanation says of the rhythm: where the line breathes, misses the beat, or comes in late."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.devices.rhythm import breaths, late_start, off_beats
from shedbook.analysis.telling.remark import Remark
from shedbook.analysis.telling.slots import Bar, Note, Slot, When

_LATE, _TOO_LATE = 1, 3
"""From how many beats on a line comes in late, and from how many on that is a pick-up to the next bar."""


def about_rhythm(account: Account) -> Iterator[Remark]:
    """Yield the remarks on the rhythm."""
    first = account.notes[0]
    late = late_start(account)
    if _LATE <= late < _TOO_LATE and not 2 * late % 1:
        slots: dict[str, Slot] = {"note": Note(0), "when": When(0)}
        yield Remark("late", 30, first.index, slots, frozenset(), "rhythm")
    for off in off_beats(account):
        count = off.last - off.first + 1
        whole = count == len(account.notes)
        slots = {"first": Note(off.first), "last": Note(off.last)}
        about = frozenset(range(off.first, off.last + 1))
        worth = min(74, 44 + 4 * count)
        yield Remark(
            "off beats.all" if whole else "off beats.some",
            worth,
            off.first,
            slots,
            about,
            "off",
            placed=False,
        )
    found = breaths(account)
    if found:
        longest = max(found, key=lambda breath: (breath.quarters, -breath.before))
        slots = {"note": Note(longest.before), "bar": Bar(longest.before), "next": Note(longest.before + 1)}
        kind = "breath.one" if len(found) == 1 else "breath.many"
        yield Remark(kind, 44, longest.before, slots, frozenset(), "rhythm")
