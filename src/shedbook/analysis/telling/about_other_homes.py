"""What the explanation says of the other chords over which the notes of one chord fit as well."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.devices.other_homes import DIMINISHED, TRITONE, other_homes
from shedbook.analysis.telling.remark import ELSEWHERE, Remark
from shedbook.analysis.telling.slots import Chords, Note, Over, Slot

_WORTH = {TRITONE: 56, DIMINISHED: 58}


def about_other_homes(account: Account) -> Iterator[Remark]:
    """Yield the remarks on where else the notes over a chord fit."""
    for home in other_homes(account):
        if home.third is None:
            continue
        slots: dict[str, Slot] = {
            "chord": Over(home.span), "other": Chords(home.chords[:1]), "others": Chords(home.chords),
            "third": Note(home.third),
        }  # fmt: skip
        kind = f"home.{home.kind}"
        if home.seventh is not None and home.kind != DIMINISHED:
            slots["seventh"] = Note(home.seventh)
            kind += " with seventh"
        first = next(note.index for note in account.notes if note.span.index == home.span)
        yield Remark(kind, _WORTH.get(home.kind, 48), first, slots, part=ELSEWHERE)
