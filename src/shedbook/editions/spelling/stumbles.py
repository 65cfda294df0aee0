"""The author's own names at which a reader stumbles: what one other name would save, by the table of costs.

Nothing is changed by it; the proof-reader says it, and the author decides.
"""

from __future__ import annotations

from typing import NamedTuple

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.note_spelling import Candidates, candidates_of, cheapest, price
from shedbook.editions.spelling.spelling_plan import plan_spelling
from shedbook.editions.tables.spelling_costs import NOTE_COSTS
from shedbook.phrase.model import Phrase
from shedbook.theory.pitch import NoteName

_COST = costs_by_name(NOTE_COSTS)


class Stumble(NamedTuple):
    """A note that is read more easily by another name.

    `event` is its bar and event as indexes into the phrase, `saved` what the better name costs less.
    """

    event: tuple[int, int]
    written: NoteName
    better: NoteName
    saved: int


def stumbles(phrase: Phrase) -> tuple[Stumble, ...]:
    """Return the notes for which one other name would cost the reader less by `stumble` at least."""
    layout = plan_spelling(phrase)
    fixed: list[Candidates] = [
        ((note.fifths, price(phrase, note.chord, note.fifths)),) for note in layout.struck
    ]
    written, _ = cheapest(layout, fixed, phrase.key)
    tables = candidates_of(phrase, layout, 0)
    found = []
    for bar, row in enumerate(layout.events):
        for event, (_, index) in enumerate(row):
            if index < 0 or phrase.bars[bar].events[event].tie_in:
                continue
            note = layout.struck[index]
            tried = [*fixed[:index], tables[index], *fixed[index + 1 :]]
            cost, names = cheapest(layout, tried, phrase.key)
            if names[index] != note.fifths and written - cost >= _COST["stumble"]:
                better = NoteName(names[index])
                found.append(Stumble((bar, event), NoteName(note.fifths), better, written - cost))
    return tuple(found)
