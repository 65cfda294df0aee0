"""What the explanation says of the whole: coverage, the shape and the end."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.coverage import Coverage
from shedbook.analysis.notes import NoteAccount
from shedbook.analysis.remark import SUMMARY, Build, Remark
from shedbook.analysis.remarks import short_name
from shedbook.analysis.speaker import Speaker, capital, count
from shedbook.analysis.words import bare_degree, interval_words, joined, number_words


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
    size = len(entry.used) + len(entry.missing)
    name, chord = short_name(span.scale), say.chord(span)
    first, last = entry.spans[0], entry.spans[-1]
    builds: tuple[Build, ...]
    if entry.complete:
        builds = (
            Build("count", f"All {count(size, 'note')} of {name} are used over {chord}."),
            Build("chord", f"Over {chord} the line uses every note of the scale, {name}."),
            Build("scale", f"{capital(name)} is heard whole over {chord}, every note of the scale."),
        )
        spans = frozenset(entry.spans)
        return Remark("coverage", 98, first, last, builds, spans=spans, part=SUMMARY)
    missing = [f"the {bare_degree(degree, span.chord)}" for degree in entry.missing]
    left = joined(missing) if len(missing) <= 3 else ""
    if not left:
        used = joined([f"the {bare_degree(degree, span.chord)}" for degree in entry.used[:4]])
        more = "" if len(entry.used) <= 4 else f" and {number_words(len(entry.used) - 4)} more"
        builds = (
            Build("chord", f"Over {chord} the line needs only {used}{more}."),
            Build("count", f"{capital(count(len(entry.used), 'degree'))} of {name} "
                           f"{'is' if len(entry.used) == 1 else 'are'} enough over {chord}: {used}{more}."),
        )  # fmt: skip
        return Remark("coverage", 30, first, last, builds, part=SUMMARY)
    builds = (
        Build(
            "scale", f"Of {name} over {chord} only {left} {'is' if len(missing) == 1 else 'are'} left out."
        ),
        Build("chord", f"Over {chord} the line goes without {left}."),
    )
    return Remark("coverage", 46 - 4 * len(missing), first, last, builds, part=SUMMARY)


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
        builds = (
            Build("place", f"At the top stands {say.name(high)}, {say.place(high)}; at the bottom "
                           f"{say.name(low)}, {interval_words(outline.range)} below."),
            Build("line", f"The line moves between {say.name(low)} and {say.name(high)}, its highest note, "
                          f"{say.on_beat(high)} of bar {say.bar(high)}."),
        )  # fmt: skip
        yield Remark("shape", 34, high.index, high.index, builds, part=SUMMARY)
    last = notes[-1]
    builds = (
        Build("line", f"The line comes to rest on {say.full(last)}."),
        Build("note", f"{say.full(last)}, is where it ends."),
    )
    covers = frozenset((last.index,))
    yield Remark("ending", 52, last.index, last.index, builds, covers, part=SUMMARY)


def _leap(
    say: Speaker, notes: tuple[NoteAccount, ...], first: int, semitones: int, *, recovered: bool
) -> Remark:
    before, after = notes[first], notes[first + 1]
    way, size = ("up" if semitones > 0 else "down"), interval_words(semitones)
    answer = "a step back follows" if recovered else "no step back follows"
    builds = (
        Build("place", f"From {say.name(before)} the line leaps {way} {size} to {say.name(after)}; "
                       f"{answer}."),
        Build("count", f"{capital(size)} {way}, {say.name(before)} to {say.name(after)}, is the leap to "
                       f"hear; {answer}."),
    )  # fmt: skip
    return Remark("leap", 44, first, first + 1, builds, frozenset((first, first + 1)))
