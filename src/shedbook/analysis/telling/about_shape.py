"""What the explanation says of the line as a whole: its wide leaps, its top and bottom, and its end."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.telling import topics
from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.analysis.telling.remark import SUMMARY, Remark


def shape(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield the remarks on wide leaps, on the top and bottom of the line, and on where it comes to rest.

    A leap is wide from a minor sixth on; a line on one pitch has no top and bottom to tell.
    """
    notes, outline = account.notes, account.contour
    if outline.highest is None or outline.lowest is None:
        return
    for leap in outline.leaps:
        if abs(leap.semitones) >= 8:
            yield _leap(say, notes, leap.first, leap.semitones, recovered=leap.recovered)
    high, low = notes[outline.highest], notes[outline.lowest]
    if outline.range:
        builds = say.builds(
            "shape", "place", "line",
            high=say.name(high), high_place=say.place(high), low=say.name(low), size=say.size(outline.range),
            when=say.on_beat(high), bar=say.bar(high),
        )  # fmt: skip
        yield Remark(topics.SHAPE, 34, high.index, high.index, builds, part=SUMMARY)
    last = notes[-1]
    builds = say.builds("ending", "line", "note", last=say.name(last), of=say.of_chord(last))
    covers = frozenset((last.index,))
    yield Remark(topics.ENDING, 52, last.index, last.index, builds, covers, part=SUMMARY)


def _leap(
    say: ReaderNames, notes: tuple[NoteAccount, ...], first: int, semitones: int, *, recovered: bool
) -> Remark:
    before, after = notes[first], notes[first + 1]
    builds = say.builds(
        "leap", "place", "count",
        before=say.name(before), after=say.name(after), way=say.way(semitones), size=say.size(semitones),
        answer=say.words("leap.answered" if recovered else "leap.not answered"),
    )  # fmt: skip
    return Remark(topics.LEAP, 44, first, first + 1, builds, frozenset((first, first + 1)))
