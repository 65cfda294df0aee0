"""The author's own names at which a reader stumbles: what one other name would save, by the table of costs.

Nothing is changed by it; the proof-reader says it, and the author decides.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from operator import itemgetter
from typing import NamedTuple, TypeAlias

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.note_spelling import Candidates, bar_sides, candidates_of, price
from shedbook.editions.spelling.spelling_plan import BAR_SIDE, SpellingPlan, Struck, Table, plan_spelling
from shedbook.editions.tables.spelling_costs import NOTE_COSTS
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

_COST = costs_by_name(NOTE_COSTS)

_Beside: TypeAlias = Callable[[int], int]


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
    tables = candidates_of(phrase, layout, 0)
    beside, sides = _beside(layout), _sides(layout, phrase.key)
    found = []
    for bar, row in enumerate(layout.events):
        for event, (_, index) in enumerate(row):
            if index < 0 or phrase.bars[bar].events[event].tie_in:
                continue
            note = layout.struck[index]
            now = (note.fifths, price(phrase, note.chord, note.fifths))
            written, _ = _best((now,), note, beside[index], sides[note.bar])
            cost, better = _best(tables[index], note, beside[index], sides[note.bar])
            if better != note.fifths and written - cost >= _COST["stumble"]:
                found.append(Stumble((bar, event), NoteName(note.fifths), NoteName(better), written - cost))
    return tuple(found)


# While all other notes keep their names, what one name costs depends on its own price, the notes with which
# it is compared, and the side of its bar; so no search through the whole phrase is needed for it.


def _best(tried: Candidates, note: Struck, beside: Sequence[_Beside], sides: Candidates) -> tuple[int, int]:
    """Return the least that a note and its bar cost by one of some names, and the first such name."""
    priced = [(name, own + sum(cost(name) for cost in beside)) for name, own in tried]
    return min(
        ((rest - BAR_SIDE[side][note.fifths] + BAR_SIDE[side][name] + own, name)
        for side, rest in sides for name, own in priced),
        key=itemgetter(0),
    )  # fmt: skip


def _beside(layout: SpellingPlan) -> list[list[_Beside]]:
    """Return for each note what a name for it costs beside each of the notes with which it is compared."""
    found: list[list[_Beside]] = [[] for _ in layout.struck]
    for unknown in layout.unknowns:
        for place, table in unknown.joins:
            earlier, later = layout.unknowns[place].struck, unknown.struck
            if earlier >= 0:
                row = table[layout.struck[earlier].fifths]
                found[later].append(row.__getitem__)
                found[earlier].append(partial(_after, table, layout.struck[later].fifths))
    return found


def _after(table: Table, later: int, name: int) -> int:
    return table[name][later]


def _sides(layout: SpellingPlan, key: Key) -> dict[int, Candidates]:
    """Return for each bar that has notes what it costs on either side, with all of its notes as written."""
    by_bar: dict[int, list[int]] = {}
    for note in layout.struck:
        by_bar.setdefault(note.bar, []).append(note.fifths)
    return {
        bar: tuple((side, own + sum(BAR_SIDE[side][name] for name in names)) for side, own in bar_sides(key))
        for bar, names in by_bar.items()
    }
