"""What the explanation says of the whole: coverage, the shape, the end, and what to practise."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.coverage import Coverage
from shedbook.analysis.figures import ARPEGGIO, RUN, SEQUENCE
from shedbook.analysis.links import Link
from shedbook.analysis.notes import NoteAccount
from shedbook.analysis.reasons import ANTICIPATION, APPROACH, ENCLOSURE, PASSING
from shedbook.analysis.remark import LAST, SUMMARY, Build, Remark
from shedbook.analysis.remarks import short_name
from shedbook.analysis.speaker import Speaker, capital, count
from shedbook.analysis.words import bare_degree, interval_words, joined


def coverage(account: Account, say: Speaker) -> Iterator[Remark]:
    """Whether a whole scale is used, or what is left out of it."""
    entries = [entry for entry in account.whole_coverage if entry.used]
    for entry in entries:
        remark = _covered(account, say, entry)
        if remark is not None:
            yield remark


def _covered(account: Account, say: Speaker, entry: Coverage) -> Remark | None:
    span = account.spans[entry.spans[0]]
    if span.scale is None:
        return None
    size = len(entry.used) + len(entry.missing)
    name, chord = short_name(span.scale), say.chord(span)
    places = [note.index for note in account.notes if note.span.index in entry.spans]
    if entry.complete:
        builds = (
            Build("count", f"All {count(size, 'note')} of {name} are used over {chord}."),
            Build("chord", f"Over {chord} the line uses every note of the scale, {name}."),
        )
        return Remark("coverage", 72, places[0], places[-1], builds, part=SUMMARY)
    missing = [f"the {bare_degree(degree, span.chord)}" for degree in entry.missing]
    left = joined(missing) if len(missing) <= 3 else ""
    if not left:
        used = joined([f"the {bare_degree(degree, span.chord)}" for degree in entry.used[:4]])
        more = "" if len(entry.used) <= 4 else " and one or two more"
        builds = (
            Build("chord", f"Over {chord} the line needs only {used}{more}."),
            Build("count", f"{capital(count(len(entry.used), 'degree'))} of {name} "
                           f"{'is' if len(entry.used) == 1 else 'are'} enough over {chord}: {used}{more}."),
        )  # fmt: skip
        return Remark("coverage", 30, places[0], places[-1], builds, part=SUMMARY)
    builds = (
        Build(
            "scale", f"Of {name} over {chord} only {left} {'is' if len(missing) == 1 else 'are'} left out."
        ),
        Build("chord", f"Over {chord} the line goes without {left}."),
    )
    return Remark("coverage", 46 - 4 * len(missing), places[0], places[-1], builds, part=SUMMARY)


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
        Build("place", f"From {say.name(before)} the line leaps {way} {size} to {say.name(after)}; {answer}."),
        Build("count", f"{capital(size)} {way}, {say.name(before)} to {say.name(after)}, is the leap to hear; "
                       f"{answer}."),
    )  # fmt: skip
    return Remark("leap", 44, first, first + 1, builds, frozenset((first, first + 1)))


def practice(account: Account, say: Speaker) -> Remark:
    """The one thing to practise: the hardest or most telling place."""
    for attempt in (_a_lost_note, _a_wrapped_bar_line, _an_enclosure, _a_push, _a_leap, _a_sequence,
                    _an_outside_note, _a_run, _an_arpeggio):  # fmt: skip
        text = attempt(account, say)
        if text:
            return Remark("practice", 100, 0, 0, (Build("order", text),), part=LAST)
    first, last = account.notes[0], account.notes[-1]
    text = f"Practise it slowly from {say.name(first)} to {say.name(last)}, singing each note before you play it."
    if first.index == last.index:
        text = f"Practise hearing {say.name(first)} against {say.chord(first.span)} before you play it."
    return Remark("practice", 100, 0, 0, (Build("order", text),), part=LAST)


def _a_lost_note(account: Account, say: Speaker) -> str:
    lost = next((note for note in account.notes if note.role == "unaccounted"), None)
    if lost is None:
        return ""
    return f"Play {say.place(lost)} once as written and once with a note of the scale for {say.name(lost)}, and keep what you mean."


def _wrapped_links(account: Account) -> list[Link]:
    return [link for link in account.links if link.wrapped and link.beat == 1]


def _a_wrapped_bar_line(account: Account, say: Speaker) -> str:
    crossing = next(iter(_wrapped_links(account)), None)
    if crossing is None or crossing.before is None or crossing.after is None:
        return ""
    goal = account.notes[crossing.after]
    members = [one for one in account.notes if one.group == account.notes[crossing.before].group]
    steps = {abs(one.midi - goal.midi) for one in members}
    if len(members) == 2 and steps == {1}:
        what = "both half steps sound even"
    else:
        what = f"{say.names(members)} and {say.name(goal)} sound even"
    return f"Practise the bar line into bar {crossing.bar} until {what}."


def _an_enclosure(account: Account, say: Speaker) -> str:
    found = [figure for figure in account.figures if figure.kind == ENCLOSURE and figure.target is not None]
    outside = [
        figure
        for figure in found
        if any(not note.inside for note in account.notes[figure.first : figure.last + 1])
    ]
    for figure in outside or found:
        goal = account.notes[figure.target or 0]
        names = joined([say.name(note) for note in account.notes[figure.first : figure.target]])
        return f"Practise {names} round {say.name(goal)} by themselves, then put them back so that {say.name(goal)} falls {say.on_beat(goal)}."
    return ""


def _a_push(account: Account, say: Speaker) -> str:
    early = next((note for note in account.notes if note.early or note.role == ANTICIPATION), None)
    if early is None:
        return ""
    return f"Practise the push into {say.place(early)} against a steady foot, so that {say.name(early)} is early on purpose."


def _a_leap(account: Account, say: Speaker) -> str:
    widest = max(account.contour.leaps, key=lambda leap: abs(leap.semitones), default=None)
    if widest is None or abs(widest.semitones) < 8:
        return ""
    before, after = account.notes[widest.first], account.notes[widest.first + 1]
    return f"Practise the leap from {say.name(before)} to {say.name(after)} by itself until you hear {say.name(after)} before you play it."


def _a_sequence(account: Account, say: Speaker) -> str:
    figure = next((one for one in account.figures if one.kind == SEQUENCE), None)
    if figure is None:
        return ""
    first = account.notes[figure.first]
    return f"Practise the cell of {count(figure.cell, 'note')} that begins on {say.name(first)} from every note of the scale."


def _an_outside_note(account: Account, say: Speaker) -> str:
    note = next(
        (one for one in account.notes if one.role in (PASSING, APPROACH) and not one.inside and one.target),
        None,
    )
    if note is None or note.target is None:
        return ""
    goal = account.notes[note.target]
    return f"Practise the line once without {say.name(note)}, then with it, so that {say.name(goal)} still falls {say.on_beat(goal)}."


def _a_run(account: Account, say: Speaker) -> str:
    figure = max(
        (one for one in account.figures if one.kind == RUN),
        key=lambda one: one.last - one.first,
        default=None,
    )
    if figure is None:
        return ""
    first, last = account.notes[figure.first], account.notes[figure.last]
    return f"Practise the walk from {say.name(first)} to {say.name(last)} until {say.name(last)} falls {say.on_beat(last)} without counting."


def _an_arpeggio(account: Account, say: Speaker) -> str:
    figure = next((one for one in account.figures if one.kind == ARPEGGIO), None)
    if figure is None:
        return ""
    first = account.notes[figure.first]
    return f"Practise the chord of {say.chord(first.span)} from {say.name(first)}, {say.degree(first)}, in both directions."
