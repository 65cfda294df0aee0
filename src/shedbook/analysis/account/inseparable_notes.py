"""What is heard as one and shall not be torn apart, when part of a line is moved by an octave."""

from __future__ import annotations

from shedbook.analysis.account.figures import ARPEGGIO, DELAYED
from shedbook.analysis.account.phrase_account import Account
from shedbook.analysis.roles.role_names import CHORD_TONE, ENCLOSURE, PEDAL, SCALE_TONE, UNACCOUNTED

_FREE = frozenset((CHORD_TONE, SCALE_TONE, PEDAL, UNACCOUNTED))
"""Roles of notes that lean on no other note."""


def inseparable_notes(account: Account) -> tuple[tuple[int, int], ...]:
    """Return pairs of notes, first and last, each with what lies between them heard as one.

    An enclosure goes up to its target; so does every approach, passing and leaning note, and a note that
    resolves late. An arpeggio is one gesture of the hand.
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
