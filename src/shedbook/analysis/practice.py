"""What the explanation says at the end: the one thing to practise, the hardest or most telling place."""

from __future__ import annotations

from shedbook.analysis.account import Account
from shedbook.analysis.figures import ARPEGGIO, RUN, SEQUENCE, Figure
from shedbook.analysis.notes import NoteAccount, together
from shedbook.analysis.reasons import APPROACH, ENCLOSURE, PASSING, UNACCOUNTED
from shedbook.analysis.remark import LAST, Build, Remark
from shedbook.analysis.speaker import Speaker, count
from shedbook.analysis.words import joined

_WIDE = 8
"""From a minor sixth on a leap is worth practising by itself."""


def practice(account: Account, say: Speaker) -> Remark:
    """Return the one thing to practise."""
    texts = next(
        texts
        for texts in (
            attempt(account, say)
            for attempt in (
                _a_lost_note,
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
        if texts
    )
    return Remark("practice", 100, 0, 0, tuple(Build("order", text) for text in texts), part=LAST)


def _a_lost_note(account: Account, say: Speaker) -> tuple[str, ...]:
    lost = next((note for note in account.notes if note.role == UNACCOUNTED), None)
    if lost is None:
        return ()
    name, place = say.name(lost), say.place(lost)
    return (
        f"Play {place} once as written and once with a note of the scale for {name}, and keep what you mean.",
        f"Try {place} with and without {name} before you decide whether it stays.",
    )


def _a_wrapped_bar_line(account: Account, say: Speaker) -> tuple[str, ...]:
    for link in account.links:
        if not (link.wrapped and link.beat == 1) or link.before is None or link.after is None:
            continue
        goal = account.notes[link.after]
        members = together(account.notes, account.notes[link.before])
        every = joined([say.name(note) for note in [*members, goal]])
        if len(members) == 2 and {abs(one.midi - goal.midi) for one in members} == {1}:
            name = say.name(goal)
            return (
                f"Practise the bar line into bar {link.bar} until both half steps sound even.",
                f"Play {every} across the bar line, slowly, until the two half steps match.",
                f"Sing {name} first, then play into bar {link.bar} so that both half steps find it.",
            )
        return (
            f"Practise the bar line into bar {link.bar} until {every} sound even.",
            f"Loop {every} across the bar line until {say.name(goal)} comes without hurry.",
            f"Start on the last beat before bar {link.bar} and stop on {say.name(goal)}, until it falls in "
            f"time by itself.",
        )
    return ()


def _an_enclosure(account: Account, say: Speaker) -> tuple[str, ...]:
    found = [one for one in account.figures if one.kind == ENCLOSURE and one.target is not None]
    with_outside = [one for one in found if any(not note.inside for note in _inside_of(account, one))]
    for figure in with_outside or found:
        goal = account.notes[figure.target or 0]
        names = joined([say.name(note) for note in _inside_of(account, figure)])
        name, beat = say.name(goal), say.on_beat(goal)
        return (
            f"Practise {names} round {name} by themselves, then put them back so that {name} falls {beat}.",
            f"Practise {name} alone {beat}, then add {names} before it without moving it.",
        )
    return ()


def _inside_of(account: Account, figure: Figure) -> tuple[NoteAccount, ...]:
    return account.notes[figure.first : figure.last + 1]


def _a_push(account: Account, say: Speaker) -> tuple[str, ...]:
    early = next((note for note in account.notes if note.early), None)
    if early is None:
        return ()
    name, place = say.name(early), say.place(early)
    return (
        f"Practise the push into {place} against a steady foot, so that {name} is early on purpose.",
        f"Practise it once with {name} squarely on {place}, then an eighth early as written.",
    )


def _a_leap(account: Account, say: Speaker) -> tuple[str, ...]:
    widest = max(account.contour.leaps, key=lambda leap: abs(leap.semitones), default=None)
    if widest is None or abs(widest.semitones) < _WIDE or not account.notes[widest.first].joined:
        return ()
    before, after = say.name(account.notes[widest.first]), say.name(account.notes[widest.first + 1])
    if before == after:
        return (f"Practise the octave on {before} by itself until the second {before} needs no thought.",)
    return (
        f"Practise the leap from {before} to {after} by itself until you hear {after} before you play it.",
        f"Sing {before} and {after} before you play them: the leap between them is what can fail.",
    )


def _a_sequence(account: Account, say: Speaker) -> tuple[str, ...]:
    figure = next((one for one in account.figures if one.kind == SEQUENCE), None)
    if figure is None:
        return ()
    cell, name = count(figure.cell, "note"), say.name(account.notes[figure.first])
    return (
        f"Practise the cell of {cell} that begins on {name} from every note of the scale.",
        f"Take the {cell} from {name} as a pattern, and carry it up and down the scale.",
    )


def _an_outside_note(account: Account, say: Speaker) -> tuple[str, ...]:
    for note in account.notes:
        if note.inside or note.role not in (PASSING, APPROACH) or note.target is None:
            continue
        goal, name = account.notes[note.target], say.name(note)
        goal_name, beat = say.name(goal), say.on_beat(goal)
        return (
            f"Practise the line once without {name}, then with it, so that {goal_name} still falls {beat}.",
            f"Practise {name} to {goal_name} slowly, and let {name} be the lighter of the two.",
        )
    return ()


def _a_run(account: Account, say: Speaker) -> tuple[str, ...]:
    runs = [one for one in account.figures if one.kind == RUN and one.target is not None]
    figure = max(runs, key=lambda one: one.last - one.first, default=None)
    if figure is None:
        return ()
    first, last = account.notes[figure.first], account.notes[figure.last]
    name, beat = say.name(last), say.on_beat(last)
    return (
        f"Practise the walk from {say.name(first)} to {name} until {name} falls {beat} without counting.",
        f"Practise backwards from {name}: add one note of the walk before it at a time, as far as "
        f"{say.name(first)}.",
    )


def _an_arpeggio(account: Account, say: Speaker) -> tuple[str, ...]:
    figure = next(
        (one for one in account.figures if one.kind == ARPEGGIO and _on_a_chord(account, one)), None
    )
    if figure is None:
        return ()
    first = account.notes[figure.first]
    name, chord = say.name(first), say.chord(first.span)
    return (
        f"Practise {chord} as an arpeggio from {name}, its {say.bare(first)}, up and down, before the line.",
        f"Play {chord} from {name} in both directions until the line feels like a part of it.",
    )


def _on_a_chord(account: Account, figure: Figure) -> bool:
    return account.notes[figure.first].span.chord.root is not None


def _the_line(account: Account, say: Speaker) -> tuple[str, ...]:
    first, last = account.notes[0], account.notes[-1]
    if first.index == last.index:
        return (f"Practise hearing {say.name(first)} against {say.chord(first.span)} before you play it.",)
    return (f"Practise it slowly from {say.name(first)} to {say.name(last)}, singing before you play.",)
