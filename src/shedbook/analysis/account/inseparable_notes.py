"""Notes that must stay together when part of a line is moved by an octave, because they are heard as one."""

from __future__ import annotations

from shedbook.analysis.account.figures import ARPEGGIO, DELAYED
from shedbook.analysis.account.phrase_account import Account
from shedbook.analysis.roles.role_names import CHORD_TONE, ENCLOSURE, PEDAL, SCALE_TONE, UNACCOUNTED

_FREE = frozenset((CHORD_TONE, SCALE_TONE, PEDAL, UNACCOUNTED))
"""The roles of notes that lean on no other note."""


def inseparable_notes(account: Account) -> tuple[tuple[int, int], ...]:
    """Return pairs of indices, of the first and the last of some notes that are heard as one.

    An enclosure is one with its target, and so is every approach, passing and leaning note, and a note that
    resolves late. An arpeggio is one gesture of the hand. The pairs are in order and may overlap.
    """
    found = {
        (min(note.index, note.target), max(note.index, note.target))
        for note in account.notes
        if note.target is not None and note.role not in _FREE
    }
    for figure in account.figures:
        if figure.kind in (ARPEGGIO, ENCLOSURE, DELAYED):
            found.add((figure.first, figure.last if figure.target is None else figure.target))
    return tuple(sorted(found))
