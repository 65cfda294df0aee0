"""What the explanation says of the whole: coverage, the shape and the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shedbook.analysis.account.coverage import Coverage
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.account.phrase_account import Account
from shedbook.analysis.hearing.heard_notes import Span
from shedbook.analysis.naming.language import count, degree_words
from shedbook.analysis.telling.reader_names import Speaker
from shedbook.analysis.telling.remark import SUMMARY, Remark


def coverage(account: Account, say: Speaker) -> Iterator[Remark]:
    """Whether a whole scale is used, or what is left out of it."""
    entries = [entry for entry in account.whole_coverage if entry.used]
    for entry in entries:
        remark = _covered(account, say, entry)
        if remark is not None:
            yield remark


def _covered(account: Account, say: Speaker, entry: Coverage) -> Remark | None:
    """Say how much of a scale is used; the places are those of the chords."""
    span = account.spans[entry.spans[0]]
    if span.scale is None:
        return None
    scale, chord = say.scale(span.scale), say.chord(span)
    first, last = entry.spans[0], entry.spans[-1]
    if entry.complete:
        notes = say.notes(len(entry.used) + len(entry.missing))
        builds = say.builds(
            "coverage.whole", "count", "chord", "scale", notes=notes, scale=scale, chord=chord
        )
        spans = frozenset(entry.spans)
        return Remark("coverage", 98, first, last, builds, spans=spans, part=SUMMARY)
    if len(entry.missing) > 3:
        used = say.joined(_degrees(say, entry.used[:4], span))
        if len(entry.used) > 4:
            used = say.words("coverage.more", used=used, n=say.number(len(entry.used) - 4))
        builds = say.builds(
            "coverage.little", "chord", "count one" if len(entry.used) == 1 else "count many",
            chord=chord, scale=scale, used=used, degrees=count(len(entry.used), "degrees", say.words),
        )  # fmt: skip
        return Remark("coverage", 30, first, last, builds, part=SUMMARY)
    builds = say.builds(
        "coverage.most", "scale one" if len(entry.missing) == 1 else "scale many", "chord",
        scale=scale, chord=chord, left=say.joined(_degrees(say, entry.missing, span)),
    )  # fmt: skip
    return Remark("coverage", 46 - 4 * len(entry.missing), first, last, builds, part=SUMMARY)


def _degrees(say: Speaker, degrees: Sequence[str], span: Span) -> list[str]:
    return [degree_words(degree, span.chord, say.words) for degree in degrees]


def shape(account: Account, say: Speaker) -> Iterator[Remark]:
    """The leaps, the top and the bottom of the line, and where it comes to rest."""
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
        yield Remark("shape", 34, high.index, high.index, builds, part=SUMMARY)
    last = notes[-1]
    builds = say.builds("ending", "line", "note", last=say.name(last), of=say.of_chord(last))
    covers = frozenset((last.index,))
    yield Remark("ending", 52, last.index, last.index, builds, covers, part=SUMMARY)


def _leap(
    say: Speaker, notes: tuple[NoteAccount, ...], first: int, semitones: int, *, recovered: bool
) -> Remark:
    before, after = notes[first], notes[first + 1]
    builds = say.builds(
        "leap", "place", "count",
        before=say.name(before), after=say.name(after), way=say.way(semitones), size=say.size(semitones),
        answer=say.words("leap.answered" if recovered else "leap.not answered"),
    )  # fmt: skip
    return Remark("leap", 44, first, first + 1, builds, frozenset((first, first + 1)))
