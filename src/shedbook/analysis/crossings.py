"""What the explanation says of the way in and of every crossing into another chord."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.figures import ARPEGGIO, RUN, Figure
from shedbook.analysis.links import CHANGE, Link
from shedbook.analysis.notes import NoteAccount, together
from shedbook.analysis.reasons import ANTICIPATION, APPROACH, ENCLOSURE, PASSING, SUSPENSION
from shedbook.analysis.remark import Build, Remark
from shedbook.analysis.speaker import Speaker, capital
from shedbook.analysis.words import interval_words

_FIRM = frozenset(("1", "3", "b3", "5", "b7", "7", "6", "bb7", "b5", "4"))


def opening(account: Account, say: Speaker) -> Iterator[Remark]:
    """How the line sets out."""
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


def _opens_by_leading(account: Account, say: Speaker) -> Remark:
    notes = account.notes
    goal = notes[notes[0].target or 0]
    members = together(notes, notes[0])
    several = len({note.midi for note in members}) > 1
    lead = "leads into" if not several else "close in on" if notes[0].role == ENCLOSURE else "lead into"
    builds = (
        Build("note", f"{say.names(members)} {lead} {say.full(goal)}, to begin with."),
        Build("line", f"The line begins by way of {say.names(members)}, which "
                      f"{lead} {say.full(goal)}."),
    )  # fmt: skip
    covers = frozenset(note.index for note in [*members, goal])
    return Remark("opening", 100, 0, goal.index, builds, covers)


def _opens_with_arpeggio(account: Account, say: Speaker, figure: Figure) -> Remark:
    first, last = account.notes[0], account.notes[figure.last]
    chord = say.chord(first.span)
    if figure.direction > 0:
        builds = (
            Build("chord", f"{chord} is climbed from {say.name(first)}, its {say.bare(first)}, "
                           f"to {say.name(last)}."),
            Build("line", f"The line climbs {chord} from {say.name(first)}, its {say.bare(first)}, "
                          f"to {say.name(last)}."),
        )  # fmt: skip
    else:
        builds = (
            Build("chord", f"{chord} is taken downwards from {say.name(first)}, its {say.bare(first)}, "
                           f"to {say.name(last)}."),
            Build("line", f"The line falls through {chord} from {say.name(first)}, "
                          f"its {say.bare(first)}, to {say.name(last)}."),
        )  # fmt: skip
    return Remark("opening", 100, 0, figure.last, builds, frozenset((0,)))


def _opens_with_run(account: Account, say: Speaker, figure: Figure) -> Remark:
    first, last = account.notes[0], account.notes[figure.last]
    way = "up" if figure.direction > 0 else "down"
    builds = (
        Build("line", f"The line starts on {say.full(first)}, and walks {way} to {say.name(last)}."),
        Build("note", f"{say.full(first)}, starts a walk {way} to {say.name(last)}."),
    )
    return Remark("opening", 100, 0, figure.last, builds, frozenset((0,)))


def _opens_plainly(account: Account, say: Speaker) -> Remark:
    first = account.notes[0]
    builds: tuple[Build, ...]
    if first.start > 0:
        builds = (
            Build("line", f"The line waits and comes in {say.on_beat(first)} with {say.full(first)}."),
            Build("note", f"{say.full(first)}, comes in {say.on_beat(first)}."),
            Build("place", f"{capital(say.on_beat(first))} the line comes in with {say.full(first)}."),
        )
    elif first.start < 0:
        builds = (
            Build("line", f"The line picks up with {say.full(first)}."),
            Build("note", f"{say.full(first)}, is the pick-up."),
        )
    else:
        builds = (
            Build("line", f"The line sets out from {say.full(first)}."),
            Build("note", f"{say.full(first)}, opens the phrase."),
        )
        if first.span.chord.root is not None:
            begins = f"the line begins on {say.name(first)}, its {say.bare(first)}"
            builds += (Build("chord", f"Over {say.chord(first.span)} {begins}."),)
    return Remark("opening", 100, 0, 0, builds, frozenset((0,)))


def crossings(account: Account, say: Speaker) -> Iterator[Remark]:
    """How the line crosses into each new chord."""
    for link in account.links:
        if link.kind == CHANGE and link.before is not None and link.after is not None:
            yield _crossing(account, say, link)


def _crossing(account: Account, say: Speaker, link: Link) -> Remark:
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
    return Remark("crossing", weight, first, after.index, builds, covers)


_Found = tuple[int, tuple[Build, ...], int]


def _opens(say: Speaker, after: NoteAccount) -> str:
    """Return "bar 2 opens on the third of F7b9", for the first note over a chord."""
    place = say.span_place(after.span)
    verb = "opens" if place.startswith("bar") and after.arrival == after.span.start else "brings"
    on = "on " if verb == "opens" else ""
    return f"{place} {verb} {on}{say.of_chord(after)}"


def _wrapped(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
    if not link.wrapped:
        return None
    members = together(account.notes, before)
    names, place = say.names(members), say.span_place(after.span)
    builds = (
        Build("note", f"{names} close in on {say.name(after)}, so {_opens(say, after)}."),
        Build("place", f"Into {place}, {names} wrap round {say.full(after)}."),
        Build("goal", f"{say.full(after)}, is reached from both sides, through {names}."),
    )
    return 88, builds, members[0].index


def _into_silence(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
    if after.span.chord.root is not None:
        return None
    place, name = say.span_place(after.span), say.name(after)
    builds = (
        Build("place", f"From {place} no chord sounds, and the line goes on with {name}."),
        Build("note", f"{name} comes in where the chords stop, at {place}."),
    )
    return 50, builds, after.index


def _suspended(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
    note = before if before.role == SUSPENSION and before.target == after.index else after
    if note.role != SUSPENSION or note.target is None:
        return None
    goal = account.notes[note.target]
    chord = say.chord(goal.span)
    builds = (
        Build("note", f"{say.name(note)} hangs over into {chord} and gives way to {say.name(goal)}, "
                      f"{say.degree(goal)}."),
        Build("place", f"At the change to {chord} the line keeps {say.name(note)} back and lets it fall to "
                       f"{say.name(goal)}, {say.degree(goal)}."),
    )  # fmt: skip
    return 82, builds, note.index


def _anticipated(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
    if not after.early:
        return None
    chord, name = say.chord(after.span), say.name(after)
    if after.role == ANTICIPATION:
        builds = (
            Build("note", f"{name} comes ahead of {say.span_place(after.span)} and belongs to {chord} "
                          f"already, as {say.degree(after)}."),
            Build("chord", f"{chord} is heard early: {name}, {say.degree(after)}, is struck before "
                           f"the change."),
        )  # fmt: skip
        return 80, builds, after.index
    builds = (
        Build("note", f"{name} is struck ahead of {say.span_place(after.span)} and held, where it is "
                      f"{say.of_chord(after)}."),
        Build("place", f"Into {say.span_place(after.span)}, {name} is pushed and held: "
                       f"{say.of_chord(after)}."),
    )  # fmt: skip
    return 66, builds, after.index


def _led(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
    if before.role not in (APPROACH, PASSING) or before.target != after.index or before.inside:
        return None
    members = together(account.notes, before)
    names = say.names(members)
    step = "by a half step" if abs(after.midi - before.midi) == 1 else "by step"
    verb = "lead" if len({note.midi for note in members}) > 1 else "leads"
    builds = (
        Build("note", f"{names}, outside {say.home(before.span)}, {verb} {step} into {say.full(after)}."),
        Build("goal", f"{say.full(after)}, is approached {step} through {names}."),
    )
    return 78, builds, members[0].index


def _guided(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
    if link.guide is None or link.guide_note is None:
        return None
    guide = account.notes[link.guide_note]
    move = after.midi - guide.midi
    if move == 0:
        return None
    size = interval_words(move)
    builds: tuple[Build, ...]
    if link.guide_note != before.index:
        builds = (
            Build("note", f"{say.full(guide)}, resolves one note late, to {say.full(after)}."),
            Build("place", f"At the change to {say.chord(after.span)}, {say.name(guide)} waits for one note "
                           f"and falls to {say.name(after)}, {say.bare(guide)} to {say.bare(after)}."),
        )  # fmt: skip
        return 72, builds, guide.index
    builds = (
        Build("note", f"{say.full(guide)}, falls {size} to {say.full(after)}."),
        Build("place", f"At the change to {say.chord(after.span)}, {say.name(guide)} falls to "
                       f"{say.name(after)}, {say.bare(guide)} to {say.bare(after)}."),
        Build("count", f"{capital(size)} carries the change: {say.name(guide)}, {say.degree(guide)}, "
                       f"falls to {say.name(after)}, {say.of_chord(after)}."),
        Build("goal", f"{say.full(after)}, is where {say.name(guide)}, the {say.bare(guide)}, resolves."),
    )  # fmt: skip
    return 76, builds, guide.index


def _walked(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
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
    way = "up" if run.direction > 0 else "down"
    start = account.notes[run.first]
    builds = (
        Build("flow", f"From there the scale walks {way} into {say.full(after)}, {say.on_beat(after)}.",
              goes_on=True),
        Build("note", f"{say.name(start)} starts a walk {way} into {say.full(after)}, {say.on_beat(after)}."),
        Build("line", f"The scale runs {way} from {say.name(start)} into {say.full(after)}, "
                      f"{say.on_beat(after)}."),
    )  # fmt: skip
    return 74, builds, max(run.first, before.index - 2)


def _kept(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
    if before.midi != after.midi:
        return None
    if before.span.chord.root is None:
        back = Build(
            "note", f"{say.name(before)} stays as the chords come back, and is {say.of_chord(after)}."
        )
        return 64, (back,), before.index
    builds = (
        Build("note", f"{say.name(before)} stays: {say.of_chord(before)} becomes {say.of_chord(after)}."),
        Build("place", f"Across the change to {say.chord(after.span)} the line keeps {say.name(before)}, "
                       f"now {say.degree(after)}."),
    )  # fmt: skip
    return 64, builds, before.index


def _stepped(
    account: Account, say: Speaker, link: Link, before: NoteAccount, after: NoteAccount
) -> _Found | None:
    if not link.by_step or not before.joined:
        return None
    size = interval_words(link.semitones or 0).removeprefix("a ")
    way = "up" if (link.semitones or 0) > 0 else "down"
    builds = (
        Build("note", f"{say.name(before)} steps {way} to {say.full(after)}, {say.on_beat(after)}."),
        Build("count", f"A {size} {way} from {say.name(before)} brings {say.full(after)}."),
        Build("place", f"The way into {say.span_place(after.span)} is a {size}, {say.name(before)} {way} to "
                       f"{say.full(after)}."),
    )  # fmt: skip
    return 62, builds, before.index


def _jumped(say: Speaker, before: NoteAccount, after: NoteAccount) -> _Found:
    if not before.joined:
        builds = (
            Build("line", f"The line breathes and comes back on {say.full(after)}."),
            Build("place", f"After a rest, {_opens(say, after)}, {say.name(after)}."),
        )
        return 40, builds, after.index
    size = interval_words(after.midi - before.midi)
    way = "up" if after.midi > before.midi else "down"
    if abs(after.midi - before.midi) == 12:
        builds = (
            Build("note", f"{say.name(before)} goes {way} an octave and becomes {say.of_chord(after)}."),
            Build("place", f"Into {say.span_place(after.span)}, {say.name(before)} jumps {way} an octave: "
                           f"it is {say.of_chord(after)} now."),
        )  # fmt: skip
        return 56, builds, before.index
    move = "skips" if abs(after.midi - before.midi) <= 4 else "leaps"
    builds = (
        Build("line", f"The line {move} {way} {size} from {say.name(before)} to {say.full(after)}."),
        Build("place", f"Over {say.chord(after.span)} the line comes in with {say.name(after)}, "
                       f"{say.degree(after)}, {size} {'above' if way == 'up' else 'below'} "
                       f"{say.name(before)}."),
    )  # fmt: skip
    return 50 if abs(after.midi - before.midi) <= 4 else 56, builds, before.index
