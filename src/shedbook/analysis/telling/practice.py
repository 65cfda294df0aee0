"""What the explanation says last: the one thing to practise, at the hardest or most telling place."""

from __future__ import annotations

from shedbook.analysis.account import Account
from shedbook.analysis.account.figures import ARPEGGIO, RUN, SEQUENCE, Figure
from shedbook.analysis.account.note_account import NoteAccount, explained_together
from shedbook.analysis.roles.role_names import APPROACH, ENCLOSURE, PASSING
from shedbook.analysis.telling import topics
from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.analysis.telling.remark import LAST, Build, Remark

_WIDE = 8
"""The smallest leap that is worth practising by itself, in semitones: a minor sixth [common practice]."""


def practice(account: Account, say: ReaderNames) -> Remark:
    """Return the remark on the one thing to practise.

    What is asked first is what is most worth practising: an enclosure over a bar line,
    any enclosure, a note struck early, a wide leap, a sequence, an outside note, a run, an arpeggio; else it
    is the line as a whole.
    """
    builds = next(
        builds
        for builds in (
            attempt(account, say)
            for attempt in (
                _a_wrapped_bar_line,
                _an_enclosure,
                _a_push,
                _a_leap,
                _a_sequence,
                _an_outside_note,
                _a_run,
                _an_arpeggio,
                _the_line,
            )
        )
        if builds
    )
    return Remark(topics.PRACTICE, 100, 0, 0, builds, part=LAST)


def _orders(say: ReaderNames, row: str, number: int, **filled: str) -> tuple[Build, ...]:
    """Return the first `number` builds of a row, each of which tells what to do."""
    return say.builds(f"practice.{row}", *(f"order {nth}" for nth in range(1, number + 1)), **filled)


def _a_wrapped_bar_line(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    for link in account.links:
        if not (link.wrapped and link.beat == 1) or link.before is None or link.after is None:
            continue
        goal = account.notes[link.after]
        members = explained_together(account.notes, account.notes[link.before])
        filled = {
            "names": say.joined([say.name(note) for note in [*members, goal]]),
            "goal": say.name(goal), "bar": say.words("bar", n=link.bar),
        }  # fmt: skip
        if len(members) == 2 and {abs(one.midi - goal.midi) for one in members} == {1}:
            return _orders(say, "half steps", 3, **filled)
        return _orders(say, "bar line", 3, **filled)
    return ()


def _an_enclosure(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    found = [one for one in account.figures if one.kind == ENCLOSURE and one.target is not None]
    with_outside = [one for one in found if any(not note.inside for note in _inside_of(account, one))]
    for figure in with_outside or found:
        goal = account.notes[figure.target or 0]
        names = say.joined([say.name(note) for note in _inside_of(account, figure)])
        return _orders(say, "enclosure", 2, names=names, goal=say.name(goal), when=say.on_beat(goal))
    return ()


def _inside_of(account: Account, figure: Figure) -> tuple[NoteAccount, ...]:
    return account.notes[figure.first : figure.last + 1]


def _a_push(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    early = next((note for note in account.notes if note.early), None)
    if early is None:
        return ()
    return _orders(say, "push", 2, name=say.name(early), place=say.place(early))


def _a_leap(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    widest = max(account.contour.leaps, key=lambda leap: abs(leap.semitones), default=None)
    if widest is None or abs(widest.semitones) < _WIDE or not account.notes[widest.first].joined:
        return ()
    before, after = say.name(account.notes[widest.first]), say.name(account.notes[widest.first + 1])
    if before == after:
        return _orders(say, "octave", 1, name=before)
    return _orders(say, "leap", 2, before=before, after=after)


def _a_sequence(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    figure = next((one for one in account.figures if one.kind == SEQUENCE), None)
    if figure is None:
        return ()
    cell, first = say.notes(figure.cell), say.name(account.notes[figure.first])
    return _orders(say, "sequence", 2, cell=cell, first=first)


def _an_outside_note(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    for note in account.notes:
        if note.inside or note.role not in (PASSING, APPROACH) or note.target is None:
            continue
        goal = account.notes[note.target]
        return _orders(say, "outside", 2, name=say.name(note), goal=say.name(goal), when=say.on_beat(goal))
    return ()


def _a_run(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    runs = [one for one in account.figures if one.kind == RUN and one.target is not None]
    figure = max(runs, key=lambda one: one.last - one.first, default=None)
    if figure is None:
        return ()
    first, last = account.notes[figure.first], account.notes[figure.last]
    return _orders(say, "walk", 2, first=say.name(first), last=say.name(last), when=say.on_beat(last))


def _an_arpeggio(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    figure = next(
        (one for one in account.figures if one.kind == ARPEGGIO and _on_a_chord(account, one)), None
    )
    if figure is None:
        return ()
    first = account.notes[figure.first]
    return _orders(
        say, "arpeggio", 2, chord=say.chord(first.span), first=say.name(first), bare=say.bare(first)
    )


def _on_a_chord(account: Account, figure: Figure) -> bool:
    return account.notes[figure.first].span.chord.root is not None


def _the_line(account: Account, say: ReaderNames) -> tuple[Build, ...]:
    first, last = account.notes[0], account.notes[-1]
    if first.index == last.index:
        return _orders(say, "one note", 1, first=say.name(first), chord=say.chord(first.span))
    return _orders(say, "line", 1, first=say.name(first), last=say.name(last))
