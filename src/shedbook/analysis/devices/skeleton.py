"""The skeleton: the few accented notes that carry the line, which one may play alone before all others."""

from __future__ import annotations

from shedbook.analysis.account import Account

_FEWEST, _MOST, _LARGEST_SHARE = 3, 6, 2


def skeleton(account: Account) -> tuple[int, ...]:
    """Return the notes on strong beats, if they are three to six, at most half of all, and chord tones all.

    A note that is struck early for its beat counts. Of a pitch that is struck again at once only the
    first is kept; a skeleton on fewer than three pitches, or over no chord, is none. The answer
    is () otherwise.
    """
    strong = [note for note in account.notes if note.strong]
    if not _FEWEST <= len(strong) <= _MOST or _LARGEST_SHARE * len(strong) > len(account.notes):
        return ()
    firm = all(note.midi % 12 in note.span.core and note.span.chord.root is not None for note in strong)
    pitches = {note.midi for note in strong}
    moving = [
        note
        for before, note in zip([None, *strong], strong, strict=False)
        if not before or before.midi != note.midi
    ]
    return tuple(note.index for note in moving) if firm and len(pitches) > 2 else ()
