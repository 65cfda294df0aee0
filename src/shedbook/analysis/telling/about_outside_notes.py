"""What the explanation says of the notes outside the scales: each is told by where it goes."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount, explained_together
from shedbook.analysis.naming.language import ENGLISH, joining_word, strung
from shedbook.analysis.roles.role_names import (
    APPROACH,
    BLUE,
    CHORD_TONE,
    ENCLOSURE,
    LEANING,
    MAJOR_SEVENTH_OF_MINOR,
    NEIGHBOUR,
    PASSING,
    ROLES,
    SCALE_TONE,
    SUPERIMPOSED,
    UNACCOUNTED,
)
from shedbook.analysis.telling import topics
from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.analysis.telling.remark import NARRATIVE, SUMMARY, Remark

_NEXT_CHORD = "next chord"
"""The row for an outside note with the role of an inside one: it belongs to the chord that follows."""


_ROWS_OF_DETAILS = {MAJOR_SEVENTH_OF_MINOR: "seventh of the minor", SUPERIMPOSED: "triad laid over"}
"""Rows by the detail of a note, for notes whose role alone would say too little."""


def _row_of(role: str, detail: str = "") -> str:
    if detail in _ROWS_OF_DETAILS:
        return _ROWS_OF_DETAILS[detail]
    return _NEXT_CHORD if role in (CHORD_TONE, SCALE_TONE) else role


_LATE_OR_DOUBLE = ("delayed", "double")
"""The kinds of approach that are told in their own way; the detail of such a note ends with the word."""

_TOWARDS = (PASSING, ENCLOSURE, APPROACH, LEANING, NEIGHBOUR)
"""Roles whose notes are told with the goal of each."""

_EXPLAINED = tuple(role for role in ROLES if role != UNACCOUNTED)

ENGLISH.must_have(
    [
        *(f"deed.{_row_of(role)}" for role in _EXPLAINED),
        *(f"deed.{row}" for row in _ROWS_OF_DETAILS.values()),
        *(f"deeds.{row}.{form}" for row in _ROWS_OF_DETAILS.values() for form in ("one", "many")),
        *(f"deeds.{_row_of(role)}.{form}" for role in _EXPLAINED for form in ("one", "many")),
        *(f"deed.{APPROACH} {kind}" for kind in _LATE_OR_DOUBLE),
        *(f"together.{role}.{form}" for role in (APPROACH, PASSING) for form in ("one", "many")),
        *(f"towards.{role}.{form}" for role in _TOWARDS for form in ("first", "next")),
    ],
    "an outside note can have this role",
)


def outside(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield the remarks on the outside notes: what each does, or that there is none.

    A note that nothing accounts for is the author's business (`proof`), and no word of it goes to a reader.
    """
    notes = [note for note in account.notes if not note.inside]
    lost = [note for note in notes if note.role == UNACCOUNTED]
    explained = [note for note in notes if note.role != UNACCOUNTED]
    if not notes:
        yield _nothing_outside(account, say)
    elif len(notes) == 1 and explained:
        yield _one_outside(account, say, notes[0])
    elif explained:
        yield _several_outside(account, say, explained, alone=not lost)


def still_outside(account: Account, say: ReaderNames, told: frozenset[int]) -> Remark | None:
    """Return what is left to say of the outside notes when other remarks have explained some of them.

    `told` are the indices of the notes that have been explained. The answer is None if none of them is an
    outside note, so that the remark on the outside notes stands as it is.
    """
    notes = [note for note in account.notes if not note.inside and note.role != UNACCOUNTED]
    known = [note for note in notes if note.index in told]
    same = {(note.midi, note.role) for note in known}
    left = [note for note in notes if note.index not in told and (note.midi, note.role) not in same]
    if not known:
        return None
    names = list(dict.fromkeys(say.name(note) for note in known))
    few = len(names) <= _MOST_NAMED
    who = say.joined(names) if few else say.words("outside.these")
    one = "one" if len(names) == 1 else "many"
    if not left:
        builds = say.builds("outside.only", f"only {one}", f"count {one}", "flow", who=who)
    else:
        builds = say.builds(
            "outside.besides", "count one" if len(left) == 1 else "count many", f"note {one}",
            who=who, notes=say.notes(len(left)), deeds=_deeds(account, say, left),
        )  # fmt: skip
    last = left or known
    return Remark(topics.OUTSIDE, 92, last[0].index, last[-1].index, builds, part=SUMMARY)


def _nothing_outside(account: Account, say: ReaderNames) -> Remark:
    scales = list(dict.fromkeys(say.whole_scale(span) for span in account.spans if span.scale is not None))
    one = len(scales) == 1
    scale = say.words("inside.scale", scale=scales[0]) if one else say.words("inside.scales")
    builds = say.builds("inside", "count", "line", "every", scale=scale)
    spans = frozenset(span.index for span in account.spans) if one else frozenset()
    return Remark(topics.INSIDE, 20, 0, len(account.notes) - 1, builds, spans=spans, part=SUMMARY)


def _one_outside(account: Account, say: ReaderNames, note: NoteAccount) -> Remark:
    builds = say.builds("outside.one", "note", "count", name=say.name(note), deed=_deed(account, say, note))
    return Remark(topics.OUTSIDE, 96, note.index, note.index, builds)


_MOST_NAMED = 3
"""More outside notes than these are counted and not named one by one."""


def _several_outside(account: Account, say: ReaderNames, notes: list[NoteAccount], *, alone: bool) -> Remark:
    """Group the outside notes by what they do; name each only where they are few."""
    told = f"count {'one' if len(notes) == 1 else 'many'}{'' if alone else ' known'}"
    builds = say.builds(
        "outside.several", told, "place", notes=say.notes(len(notes)), deeds=_deeds(account, say, notes)
    )
    within = notes[-1].index - notes[0].index <= 8
    part = NARRATIVE if within else SUMMARY
    return Remark(topics.OUTSIDE, 92, notes[0].index, notes[-1].index, builds, part=part)


def _deeds(account: Account, say: ReaderNames, notes: list[NoteAccount]) -> str:
    """Say what several notes do, those of one role together."""
    groups: dict[str, list[NoteAccount]] = {}
    for note in notes:
        groups.setdefault(_row_of(note.role, note.detail), []).append(note)
    if len(notes) <= _MOST_NAMED and len(groups) == len(notes):
        return _listed(
            say,
            [say.words("deed.each", name=say.name(note), deed=_deed(account, say, note)) for note in notes],
        )
    if len(groups) == 1:
        return _together(account, say, notes, every=True)
    return _listed(say, [_together(account, say, group, every=False) for group in groups.values()])


def _listed(say: ReaderNames, parts: list[str]) -> str:
    """Join parts by the word for "and", or by a stronger mark where one of them is a list itself."""
    if any(joining_word(say.words) in part for part in parts):
        return strung(parts, "list.parts", say.words)
    return say.joined(parts)


def _together(account: Account, say: ReaderNames, notes: list[NoteAccount], *, every: bool) -> str:
    """Say what notes of one role do, by name where they are few."""
    role = notes[0].role
    if len(notes) > 1 and len({note.group for note in notes}) == 1 and role in (APPROACH, PASSING):
        return _by_half_steps(account, say, notes)
    if len(notes) <= _MOST_NAMED and role in _TOWARDS:
        return _one_by_one(account, say, notes)
    names = list(dict.fromkeys(say.name(note) for note in notes))
    row = f"deeds.{_row_of(role, notes[0].detail)}"
    if len(names) == 1:
        deed = say.words(f"{row}.one")
        return _times(say, say.words("deeds.one", name=names[0], deed=deed), len(notes))
    deed = say.words(f"{row}.many")
    if len(names) > _MOST_NAMED:
        return say.words("deeds.first", n=say.number(len(notes)), name=names[0], deed=deed)
    form = "names" if not every else "both" if len(names) == 2 else "all"
    return say.words(f"deeds.{form}", names=say.joined(names), deed=deed)


def _by_half_steps(account: Account, say: ReaderNames, notes: list[NoteAccount]) -> str:
    """Return "B and C natural lead up by half steps into C sharp", for the notes of one explanation."""
    goal = account.notes[notes[0].target or 0]
    names = list(dict.fromkeys(say.name(note) for note in notes))
    return say.words(
        f"together.{notes[0].role}.{'one' if len(names) == 1 else 'many'}",
        names=say.joined(names), way=say.way(goal.midi - notes[0].midi), goal=say.name(goal),
    )  # fmt: skip


def _one_by_one(account: Account, say: ReaderNames, notes: list[NoteAccount]) -> str:
    """Return "E passes up to F, D flat down to C", the verb said once."""
    row = f"towards.{notes[0].role}"
    moves: dict[tuple[str, str, str], int] = {}
    for note in notes:
        goal = account.notes[note.target or 0]
        way = say.way(goal.midi - note.midi) if note.role in (PASSING, APPROACH) else ""
        move = say.name(note), way, say.name(goal)
        moves[move] = moves.get(move, 0) + 1
    parts = [
        _times(
            say, say.words(f"{row}.next" if place else f"{row}.first", name=name, way=way, goal=goal), times
        )
        for place, ((name, way, goal), times) in enumerate(moves.items())
    ]
    return say.joined(parts)


def _times(say: ReaderNames, said: str, number: int) -> str:
    """Return what is said with " twice", " three times", or as it is for once."""
    if number == 1:
        return said
    return say.words("twice" if number == 2 else "times", said=said, n=say.number(number))


def _deed(account: Account, say: ReaderNames, note: NoteAccount) -> str:
    """Say what one outside note does, with the note that it goes to."""
    goal = None if note.target is None else account.notes[note.target]
    filled = {"goal": "", "way": say.way(1), "size": say.size(0), "chord": say.home(note.span)}
    if goal is not None:
        move = goal.midi - note.midi
        filled |= {"goal": say.name(goal), "way": say.way(move or 1), "size": say.size(move)}
    role = note.role
    if role == PASSING:
        filled["before"] = say.name(account.notes[note.index - 1])
    elif role == ENCLOSURE:
        others = [one for one in explained_together(account.notes, note) if one.index != note.index]
        filled["others"] = say.names(others)
    elif role == BLUE:
        filled |= {"degree": say.degree(note), "chord": say.chord(note.span)}
    elif role == APPROACH and note.detail.endswith(_LATE_OR_DOUBLE):
        role = f"{APPROACH} {note.detail.rpartition(' ')[2]}"
    return say.words(f"deed.{_row_of(role, note.detail)}", **filled)
