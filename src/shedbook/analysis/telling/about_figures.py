"""What the explanation says of figures: enclosures, and cells that come back at another pitch."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.account.figures import SEQUENCE
from shedbook.analysis.roles.role_names import ENCLOSURE
from shedbook.analysis.telling import topics
from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.analysis.telling.remark import Remark


def enclosures(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield a remark on each enclosure: its notes, its target and where that stands."""
    for figure in account.figures:
        if figure.kind != ENCLOSURE or figure.target is None:
            continue
        members = account.notes[figure.first : figure.last + 1]
        goal = account.notes[figure.target]
        builds = say.builds(
            "enclosure", "note", "goal", "place",
            names=say.names(members), goal=say.name(goal), degree=say.degree(goal), when=say.on_beat(goal),
        )  # fmt: skip
        weight = 54 + (10 if any(not note.inside for note in members) else 0) + (6 if goal.strong else 0)
        covers = frozenset(range(figure.first, figure.target + 1))
        yield Remark(topics.ENCLOSURE, weight, figure.first, figure.target, builds, covers)


def sequences(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield a remark on each cell that comes back at another pitch, and how often it does."""
    for figure in account.figures:
        if figure.kind != SEQUENCE:
            continue
        first, second = account.notes[figure.first], account.notes[figure.first + figure.cell]
        shift = second.midi - first.midi
        times = (figure.last - figure.first + 1) // figure.cell - 1
        again = "" if times == 1 else " again"
        builds = say.builds(
            "sequence", f"place{again}", f"count{again}",
            first=say.name(first), second=say.name(second), cell=say.notes(figure.cell),
            size=say.size(shift), way=say.words("way.higher" if shift > 0 else "way.lower"),
            times=say.number(times),
        )  # fmt: skip
        yield Remark(topics.SEQUENCE, 70, figure.first, figure.last, builds)
