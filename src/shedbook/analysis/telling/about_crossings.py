"""What the explanation says of the beginning of the line and of every crossing into another chord."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.account.figures import ARPEGGIO, RUN, Figure
from shedbook.analysis.account.melodic_links import CHANGE, Link
from shedbook.analysis.account.note_account import NoteAccount, explained_together
from shedbook.analysis.roles.role_names import ANTICIPATION, APPROACH, ENCLOSURE, PASSING, SUSPENSION
from shedbook.analysis.telling import topics
from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.analysis.telling.remark import Build, Remark

_FIRM = frozenset(("1", "3", "b3", "5", "b7", "7", "6", "bb7", "b5", "4"))
"""Degrees on which a crossing lands firmly, so that it is worth more to say [common practice]."""


def opening(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield the remark on how the line begins: by leading in, with an arpeggio, with a run, or plainly."""
    notes = account.notes
    first = notes[0]
    starting = [figure for figure in account.figures if figure.first == 0]
    climb = next((one for one in starting if one.kind == ARPEGGIO and first.span.chord.root), None)
    walk = next((figure for figure in starting if figure.kind == RUN), None)
    if first.role in (ENCLOSURE, APPROACH) and first.target is not None:
        yield _opens_by_leading(account, say)
    elif climb is not None:
        yield _opens_with_arpeggio(account, say, climb)
    elif walk is not None:
        yield _opens_with_run(account, say, walk)
    else:
        yield _opens_plainly(account, say)


def _opens_by_leading(account: Account, say: ReaderNames) -> Remark:
    notes = account.notes
    goal = notes[notes[0].target or 0]
    members = explained_together(notes, notes[0])
    several = len({note.midi for note in members}) > 1
    lead = "leads" if not several else "close" if notes[0].role == ENCLOSURE else "lead"
    builds = say.builds(
        f"opening.{lead}", "note", "line",
        names=say.names(members), goal=say.name(goal), of=say.of_chord(goal),
    )  # fmt: skip
    covers = frozenset(note.index for note in [*members, goal])
    return Remark(topics.OPENING, 100, 0, goal.index, builds, covers)


def _opens_with_arpeggio(account: Account, say: ReaderNames, figure: Figure) -> Remark:
    first, last = account.notes[0], account.notes[figure.last]
    builds = say.builds(
        "opening.climb" if figure.direction > 0 else "opening.fall", "chord", "line",
        chord=say.chord(first.span), first=say.name(first), bare=say.bare(first), last=say.name(last),
    )  # fmt: skip
    return Remark(topics.OPENING, 100, 0, figure.last, builds, frozenset((0,)))


def _opens_with_run(account: Account, say: ReaderNames, figure: Figure) -> Remark:
    first, last = account.notes[0], account.notes[figure.last]
    builds = say.builds(
        "opening.walk", "line", "note",
        first=say.name(first), of=say.of_chord(first), way=say.way(figure.direction), last=say.name(last),
    )  # fmt: skip
    return Remark(topics.OPENING, 100, 0, figure.last, builds, frozenset((0,)))


def _opens_plainly(account: Account, say: ReaderNames) -> Remark:
    first = account.notes[0]
    name, of = say.name(first), say.of_chord(first)
    if first.start > 0:
        builds = say.builds(
            "opening.late", "line", "note", "place", first=name, of=of, when=say.on_beat(first)
        )
    elif first.start < 0:
        builds = say.builds("opening.pick-up", "line", "note", first=name, of=of)
    elif first.span.chord.root is None:
        builds = say.builds("opening.plain", "line", "note", first=name, of=of)
    else:
        builds = say.builds(
            "opening.plain", "line", "note", "chord",
            first=name, of=of, chord=say.chord(first.span), bare=say.bare(first),
        )  # fmt: skip
    return Remark(topics.OPENING, 100, 0, 0, builds, frozenset((0,)))


def crossings(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield a remark on each crossing into a new chord that has a note on either side."""
    for link in account.links:
        if link.kind == CHANGE and link.before is not None and link.after is not None:
            yield _crossing(account, say, link)


def _crossing(account: Account, say: ReaderNames, link: Link) -> Remark:
    """Tell a crossing by the first of the ways below that applies, else as a jump."""
    before, after = account.notes[link.before or 0], account.notes[link.after or 0]
    tries = (_into_silence, _wrapped, _suspended, _anticipated, _led, _guided, _walked, _kept, _stepped)
    weight, builds, first = next(
        (
            found
            for found in (attempt(account, say, link, before, after) for attempt in tries)
            if found is not None
        ),
        _jumped(say, before, after),
    )
    weight += 6 if after.degree in _FIRM and after.in_chord else 0
    weight += 3 if after.strong else 0
    covers = frozenset(range(first, after.index + 1))
    return Remark(topics.CROSSING, weight, first, after.index, builds, covers)


_Told = tuple[int, tuple[Build, ...], int]
"""The weight of a remark, its builds, and the index of the first note that it is about."""


def _opens(say: ReaderNames, after: NoteAccount) -> str:
    """Return "bar 2 opens on the third of F7b9", for the first note over a chord."""
    opens = say.opens_bar(after.span) and after.arrival == after.span.start
    row = "crossing.opens" if opens else "crossing.brings"
    return say.words(row, place=say.span_place(after.span), of=say.of_chord(after))


def _wrapped(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    if not link.wrapped:
        return None
    members = explained_together(account.notes, before)
    builds = say.builds(
        "crossing.wrapped", "note", "place", "goal",
        names=say.names(members), place=say.span_place(after.span), opens=_opens(say, after),
        goal=say.name(after), of=say.of_chord(after),
    )  # fmt: skip
    return 88, builds, members[0].index


def _into_silence(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    if after.span.chord.root is not None:
        return None
    place, name = say.span_place(after.span), say.name(after)
    return 50, say.builds("crossing.silence", "place", "note", place=place, name=name), after.index


def _suspended(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    note = before if before.role == SUSPENSION and before.target == after.index else after
    if note.role != SUSPENSION or note.target is None:
        return None
    goal = account.notes[note.target]
    builds = say.builds(
        "crossing.suspended", "note", "place",
        name=say.name(note), chord=say.chord(goal.span), goal=say.name(goal), degree=say.degree(goal),
    )  # fmt: skip
    return 82, builds, note.index


def _anticipated(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    if not after.early:
        return None
    name, place = say.name(after), say.span_place(after.span)
    if after.role == ANTICIPATION:
        builds = say.builds(
            "crossing.early", "note", "chord",
            name=name, place=place, chord=say.chord(after.span), degree=say.degree(after),
        )  # fmt: skip
        return 80, builds, after.index
    of = say.of_chord(after)
    return 66, say.builds("crossing.pushed", "note", "place", name=name, place=place, of=of), after.index


def _led(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    if before.role not in (APPROACH, PASSING) or before.target != after.index or before.inside:
        return None
    members = explained_together(account.notes, before)
    several = len({note.midi for note in members}) > 1
    builds = say.builds(
        "crossing.led", "note many" if several else "note one", "goal",
        names=say.names(members), home=say.home(before.span),
        how=say.words("how.half step" if abs(after.midi - before.midi) == 1 else "how.step"),
        goal=say.name(after), of=say.of_chord(after),
    )  # fmt: skip
    return 78, builds, members[0].index


def _guided(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    if link.guide is None or link.guide_note is None:
        return None
    guide = account.notes[link.guide_note]
    move = after.midi - guide.midi
    if move == 0:
        return None
    said = {
        "guide": say.name(guide), "guide_of": say.of_chord(guide), "guide_bare": say.bare(guide),
        "goal": say.name(after), "of": say.of_chord(after), "bare": say.bare(after),
        "chord": say.chord(after.span),
    }  # fmt: skip
    if link.guide_note != before.index:
        return 72, say.builds("crossing.guided late", "note", "place", **said), guide.index
    builds = say.builds(
        "crossing.guided", "note", "place", "count", "goal",
        **said, size=say.size(move), guide_degree=say.degree(guide),
    )  # fmt: skip
    return 76, builds, guide.index


def _walked(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    run = next(
        (
            figure
            for figure in account.figures
            if figure.kind == RUN and figure.first <= before.index - 1 and figure.last >= after.index
        ),
        None,
    )
    if run is None:
        return None
    builds = say.builds(
        "crossing.walked", "flow", "note", "line", goes_on="flow",
        start=say.name(account.notes[run.first]), way=say.way(run.direction),
        goal=say.name(after), of=say.of_chord(after), when=say.on_beat(after),
    )  # fmt: skip
    return 74, builds, max(run.first, before.index - 2)


def _kept(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    if before.midi != after.midi:
        return None
    name, of = say.name(before), say.of_chord(after)
    if before.span.chord.root is None:
        return 64, say.builds("crossing.back", "note", before=name, of=of), before.index
    builds = say.builds(
        "crossing.kept", "note", "place",
        before=name, before_of=say.of_chord(before), of=of, chord=say.chord(after.span),
        degree=say.degree(after),
    )  # fmt: skip
    return 64, builds, before.index


def _stepped(
    account: Account, say: ReaderNames, link: Link, before: NoteAccount, after: NoteAccount
) -> _Told | None:
    if not link.by_step or not before.joined:
        return None
    move = link.semitones or 0
    builds = say.builds(
        "crossing.stepped", "note", "count", "place",
        before=say.name(before), way=say.way(move), size=say.size(move), goal=say.name(after),
        of=say.of_chord(after), when=say.on_beat(after), place=say.span_place(after.span),
    )  # fmt: skip
    return 62, builds, before.index


def _jumped(say: ReaderNames, before: NoteAccount, after: NoteAccount) -> _Told:
    goal, of = say.name(after), say.of_chord(after)
    if not before.joined:
        builds = say.builds("crossing.rest", "line", "place", goal=goal, of=of, opens=_opens(say, after))
        return 40, builds, after.index
    move = after.midi - before.midi
    if abs(move) == 12:
        builds = say.builds(
            "crossing.octave", "note", "place",
            before=say.name(before), way=say.way(move), of=of, place=say.span_place(after.span),
        )  # fmt: skip
        return 56, builds, before.index
    skips = abs(move) <= 4
    builds = say.builds(
        "crossing.jumped", "line skip" if skips else "line leap", "place",
        before=say.name(before), way=say.way(move), size=say.size(move), goal=goal, of=of,
        chord=say.chord(after.span), degree=say.degree(after),
        side=say.words("side.above" if move > 0 else "side.below"),
    )  # fmt: skip
    return 50 if skips else 56, builds, before.index
