"""Tension: the dominant with the sharpest colours, and the note on which it lets go."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount, notes_by_span

SHARP_COLOURS = frozenset(("b9", "#9", "#11", "b13", "#5", "b5"))
"""The degrees that pull over a dominant [common practice]."""

_FEWEST, _LEAST_SHARE = 2, 3


@dataclass(frozen=True, slots=True)
class Tension:
    """Where tension is highest: over a dominant, in `notes`, and `release` is the note that lets it go.

    `notes` are one of each sharp colour, in order; the release follows the last note over the dominant by a
    step and is a tone of the next chord.
    """

    span: int
    notes: tuple[int, ...]
    release: int


def tension(account: Account) -> Tension | None:
    """Return where tension is highest, or None.

    It is over the dominant with the most different sharp colours, the earliest of equals, which are two and
    a third of the notes over it at least, and steps into a tone of the next chord.
    """
    heard = notes_by_span(account.notes)
    best: Tension | None = None
    for span in account.spans:
        notes = heard.get(span.index, [])
        release = _release(account, notes)
        if span.heard.family != "dominant" or release is None:
            continue
        sharp = [note for note in notes if note.inside and note.degree in SHARP_COLOURS]
        firsts = tuple({note.degree: note.index for note in reversed(sharp)}.values())[::-1]
        enough = len(firsts) >= _FEWEST and _LEAST_SHARE * len(sharp) >= len(notes)
        if enough and (best is None or len(firsts) > len(best.notes)):
            best = Tension(span.index, tuple(sorted(firsts)), release.index)
    return best


def _release(account: Account, notes: list[NoteAccount]) -> NoteAccount | None:
    """Return the first note over the next chord if it is its tone and a step from the last one of these."""
    if not notes or notes[-1].index + 1 >= len(account.notes):
        return None
    last, after = notes[-1], account.notes[notes[-1].index + 1]
    by_step = 1 <= abs(after.midi - last.midi) <= 2
    firm = after.midi % 12 in after.span.core and after.span.chord.root is not None
    return after if by_step and firm and after.span.index == last.span.index + 1 else None
