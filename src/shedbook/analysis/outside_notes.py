"""What the explanation says of the notes outside the scales: each is told by where it goes."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.notes import NoteAccount, together
from shedbook.analysis.reasons import (
    ANTICIPATION,
    APPROACH,
    BLUE,
    ENCLOSURE,
    ESCAPE,
    LEANING,
    NEIGHBOUR,
    PASSING,
    PEDAL,
    SUSPENSION,
    UNACCOUNTED,
)
from shedbook.analysis.remark import NARRATIVE, SUMMARY, Build, Remark
from shedbook.analysis.speaker import Speaker, capital, count
from shedbook.analysis.words import interval_words, joined, number_words


def outside(account: Account, say: Speaker) -> Iterator[Remark]:
    """Which notes are outside, and what each does."""
    notes = [note for note in account.notes if not note.inside]
    lost = [note for note in notes if note.role == UNACCOUNTED]
    explained = [note for note in notes if note.role != UNACCOUNTED]
    if not notes:
        yield _nothing_outside(account, say)
    elif len(notes) == 1 and explained:
        yield _one_outside(account, say, notes[0])
    elif explained:
        yield _several_outside(account, say, explained, alone=not lost)
    if lost:
        yield _lost(account, say, lost)


def still_outside(account: Account, say: Speaker, told: frozenset[int]) -> Remark | None:
    """What is left to say of the notes outside when the notes `told` have been explained; None for all."""
    notes = [note for note in account.notes if not note.inside and note.role != UNACCOUNTED]
    known = [note for note in notes if note.index in told]
    same = {(note.midi, note.role) for note in known}
    left = [note for note in notes if note.index not in told and (note.midi, note.role) not in same]
    if not known:
        return None
    names = list(dict.fromkeys(say.name(note) for note in known))
    who = joined(names) if len(names) <= _MOST_NAMED else "these"
    builds: tuple[Build, ...]
    if not left:
        one = len(names) == 1
        builds = (
            Build("only", f"Only {who} {'lies' if one else 'lie'} outside."),
            Build("count", f"No {'note' if one else 'notes'} but {who} {'is' if one else 'are'} outside."),
            Build("flow", f"Apart from {who} the line stays inside."),
        )
    else:
        deeds = _deeds(account, say, left)
        is_too = "is" if len(names) == 1 and who != "these" else "are"
        rest = f"{count(len(left), 'note')} {'lies' if len(left) == 1 else 'lie'} outside"
        builds = (
            Build("count", f"Apart from {who}, {rest}: {deeds}."),
            Build("note", f"{capital(deeds)}; {who} {is_too} outside too."),
        )
    last = left or known
    return Remark("outside", 92, last[0].index, last[-1].index, builds, part=SUMMARY)


def _nothing_outside(account: Account, say: Speaker) -> Remark:
    scales = list(dict.fromkeys(span.scale_name for span in account.spans if span.scale is not None))
    what = f"the {scales[0]} scale" if len(scales) == 1 else "the scale of its chord"
    builds = (
        Build("count", f"No note lies outside {what}."),
        Build("line", f"The line stays inside {what} from end to end."),
        Build("every", f"Every note belongs to {what}."),
    )
    spans = frozenset(span.index for span in account.spans) if len(scales) == 1 else frozenset()
    return Remark("inside", 20, 0, len(account.notes) - 1, builds, spans=spans, part=SUMMARY)


def _one_outside(account: Account, say: Speaker, note: NoteAccount) -> Remark:
    name, deed = say.name(note), _deed(account, say, note)
    builds = (
        Build("note", f"{name} is the one note outside: it {deed}."),
        Build("count", f"One note lies outside its scale, {name}, and it {deed}."),
    )
    return Remark("outside", 96, note.index, note.index, builds)


_MOST_NAMED = 3


def _several_outside(account: Account, say: Speaker, notes: list[NoteAccount], *, alone: bool) -> Remark:
    """Group the outside notes by what they do; name each only where they are few."""
    how_many = count(len(notes), "note")
    deeds = _deeds(account, say, notes)
    of_them = "lies outside" if len(notes) == 1 else "lie outside"
    told = (
        f"{how_many} {of_them}"
        if alone
        else f"{how_many} outside {'has a reason' if len(notes) == 1 else 'have a reason'}"
    )
    builds = (
        Build("count", f"{capital(told)}: {deeds}."),
        Build("place", f"As for what lies outside, {deeds}."),
    )
    within = notes[-1].index - notes[0].index <= 8
    part = NARRATIVE if within else SUMMARY
    return Remark("outside", 92, notes[0].index, notes[-1].index, builds, part=part)


def _deeds(account: Account, say: Speaker, notes: list[NoteAccount]) -> str:
    """Say what several notes do, those of one role together."""
    groups: dict[str, list[NoteAccount]] = {}
    for note in notes:
        groups.setdefault(note.role, []).append(note)
    if len(notes) <= _MOST_NAMED and len(groups) == len(notes):
        each = [f"{say.name(note)} {_deed(account, say, note)}" for note in notes]
        return "; ".join(each) if any(" and " in part for part in each) else joined(each)
    if len(groups) == 1:
        return _together(account, say, notes, every=True)
    parts = [_together(account, say, group, every=False) for group in groups.values()]
    return "; ".join(parts) if any(" and " in part for part in parts) else joined(parts)


_DEEDS = {
    # Role: what one note does, what several do.
    PASSING: ("passes", "pass"), NEIGHBOUR: ("turns round a note", "turn round a note"),
    APPROACH: ("leads by step", "lead by step"),
    ENCLOSURE: ("belongs to an enclosure", "belong to enclosures"),
    ANTICIPATION: ("comes early", "come early"), SUSPENSION: ("hangs over", "hang over"),
    LEANING: ("leans", "lean"), ESCAPE: ("escapes", "escape"), BLUE: ("is a blue note", "are blue notes"),
    PEDAL: ("is a pedal", "are a pedal"),
}  # fmt: skip


def _together(account: Account, say: Speaker, notes: list[NoteAccount], *, every: bool) -> str:
    """Say what notes of one role do, by name where they are few."""
    if len(notes) > 1 and len({note.group for note in notes}) == 1 and notes[0].role in (APPROACH, PASSING):
        return _by_half_steps(account, say, notes)
    one, many = _DEEDS.get(notes[0].role, ("belongs to the next chord", "belong to the next chord"))
    names = list(dict.fromkeys(say.name(note) for note in notes))
    if len(notes) <= _MOST_NAMED and notes[0].role in _TOWARDS:
        return _one_by_one(account, say, notes)
    if len(names) == 1:
        return f"{names[0]} {one}{_times(len(notes))}"
    if len(names) > _MOST_NAMED:
        return f"{number_words(len(notes))}, {names[0]} first, {many}"
    both = (" both" if len(names) == 2 else " all") if every else ""
    return f"{joined(names)}{both} {many}"


def _by_half_steps(account: Account, say: Speaker, notes: list[NoteAccount]) -> str:
    """Return "B and C natural lead up by half steps into C sharp", for the notes of one explanation."""
    goal = account.notes[notes[0].target or 0]
    way = "up" if goal.midi > notes[0].midi else "down"
    names = list(dict.fromkeys(say.name(note) for note in notes))
    verb, word = ("pass", "to") if notes[0].role == PASSING else ("lead", "into")
    if len(names) == 1:
        return f"{names[0]} {verb}{'es' if verb == 'pass' else 's'} {way} {word} {say.name(goal)}"
    return f"{joined(names)} {verb} {way} by half steps {word} {say.name(goal)}"


_TOWARDS = {
    # Role: the verb, said once, and the word before each goal.
    PASSING: ("passes", "to"), ENCLOSURE: ("closes in", "on"), APPROACH: ("leads", "into"),
    LEANING: ("leans", "on"), NEIGHBOUR: ("turns", "round"),
}  # fmt: skip


def _one_by_one(account: Account, say: Speaker, notes: list[NoteAccount]) -> str:
    """Return "E passes up to F, D flat down to C", the verb said once."""
    verb, word = _TOWARDS[notes[0].role]
    moves: dict[tuple[str, str], int] = {}
    for note in notes:
        goal = account.notes[note.target or 0]
        way = ("up " if goal.midi > note.midi else "down ") if note.role in (PASSING, APPROACH) else ""
        move = (say.name(note), f"{way}{word} {say.name(goal)}")
        moves[move] = moves.get(move, 0) + 1
    parts = [f"{name} {{}}{where}{_times(times)}" for (name, where), times in moves.items()]
    return joined([part.format("" if place else f"{verb} ") for place, part in enumerate(parts)])


def _times(number: int) -> str:
    """Return " twice", " three times", "" for once."""
    return {1: "", 2: " twice"}.get(number, f" {number_words(number)} times")


def _deed(account: Account, say: Speaker, note: NoteAccount) -> str:
    """Say what one outside note does, with the note that it goes to."""
    goal = "" if note.target is None else say.name(account.notes[note.target])
    way = "down" if note.target is not None and account.notes[note.target].midi < note.midi else "up"
    if note.role == PASSING:
        before = account.notes[note.index - 1]
        return f"passes from {say.name(before)} {way} to {goal}"
    if note.role == ENCLOSURE:
        others = [one for one in together(account.notes, note) if one.index != note.index]
        return f"closes in on {goal} together with {say.names(others)}"
    if note.role == BLUE:
        return f"is a blue note, {say.degree(note)} over {say.chord(note.span)}"
    if note.role == APPROACH and note.detail.endswith("delayed"):
        return f"reaches {goal} only after another note"
    if note.role == APPROACH and note.detail.endswith("double"):
        return f"leads {way} by half steps into {goal}"
    return {
        NEIGHBOUR: f"leaves {goal} by step and comes back",
        APPROACH: f"leads {way} {interval_of(account, note)} into {goal}",
        LEANING: f"leans on {goal}",
        SUSPENSION: f"hangs over and falls to {goal}",
        ANTICIPATION: f"belongs to {_what_follows(say, note)} and comes early",
        ESCAPE: f"steps off before the leap to {goal}",
        PEDAL: "is kept on as a pedal",
    }.get(note.role, f"belongs to {_what_follows(say, note)}, which is to come")


def _what_follows(say: Speaker, note: NoteAccount) -> str:
    """Name the chord that a note is heard against, or the key where none sounds."""
    return "the key" if note.span.chord.root is None else say.chord(note.span)


def interval_of(account: Account, note: NoteAccount) -> str:
    """Return the step from a note to its target: "a half step"."""
    return interval_words(account.notes[note.target or 0].midi - note.midi)


def _lost(account: Account, say: Speaker, notes: list[NoteAccount]) -> Remark:
    first = notes[0]
    if len(notes) == 1:
        builds = (
            Build("note", f"{say.name(first)}, at {say.place(first)}, lies outside "
                          f"{say.home(first.span)} and nothing near it takes it up."),
            Build("count", f"One note has no reason yet: {say.name(first)}, at {say.place(first)}, "
                           f"outside {say.home(first.span)}."),
        )  # fmt: skip
    else:
        names = list(dict.fromkeys(say.name(note) for note in notes))
        shown = joined(names) if len(names) <= 4 else f"{names[0]} at {say.place(first)} is the first"
        builds = (
            Build("count", f"{capital(count(len(notes), 'note'))} lie outside without a reason: {shown}."),
            Build("line", f"The line leaves {count(len(notes), 'note')} unresolved: {shown}."),
        )
    return Remark("lost", 98, first.index, notes[-1].index, builds, part=SUMMARY)
