"""What the explanation says inside the chords: what a scale gives, what wraps round what, what lies outside."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.figures import SEQUENCE
from shedbook.analysis.heard import Span
from shedbook.analysis.landings import Landing
from shedbook.analysis.notes import NoteAccount
from shedbook.analysis.reasons import (
    ANTICIPATION, APPROACH, BLUE, ENCLOSURE, ESCAPE, LEANING, NEIGHBOUR, PASSING, PEDAL, SUSPENSION,
    UNACCOUNTED,
)  # fmt: skip
from shedbook.analysis.remark import SUMMARY, Build, Remark
from shedbook.analysis.speaker import Speaker, capital, count
from shedbook.analysis.words import interval_words, joined, number_words
from shedbook.theory.scale import Scale

_PLAIN_SCALES = frozenset(("ionian", "mixolydian", "dorian", "aeolian"))
"""Scales that a reader expects, so that they are named only where there is room."""


def colours(account: Account, say: Speaker) -> Iterator[Remark]:
    """What each scale gives over its chord, and which note tells it from the scale one might expect."""
    told: set[str] = set()
    for span in account.spans:
        notes = [note for note in account.notes if note.span.index == span.index]
        if span.scale is None or not notes:
            continue
        again = span.scale.name in told
        told.add(span.scale.name)
        remark = _tell(account, say, span, notes) or _gives(say, span, notes)
        if remark is not None:
            weight = remark.weight - (25 if again else 0)
            yield Remark(remark.topic, weight, remark.first, remark.last, remark.builds, remark.covers)


def _tell(account: Account, say: Speaker, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """The note that only this scale has, among those that are usual over such a chord."""
    scale = span.scale
    rival = None if scale is None else _rival(account, span, notes)
    if scale is None or rival is None:
        return None
    telling = [
        note for note in notes if note.inside and note.midi % 12 in scale.pitch_classes - rival.pitch_classes
    ]
    if not telling:
        return None
    note = max(telling, key=lambda one: (one.strong, one.weight, -one.index))
    ours, theirs = short_name(scale), short_name(rival)
    degree = f"{say.name(note)}, {say.degree(note)},"
    builds = (
        Build("note", f"{degree} is what says {ours} rather than {theirs}."),
        Build("chord", f"Over {say.chord(span)} it is {say.name(note)}, {say.degree(note)}, that tells "
                       f"{ours} from {theirs}."),
        Build("scale", f"{capital(ours)}, not {theirs}, is the sound over {say.chord(span)}: {say.name(note)} "
                       f"is {say.degree(note)}."),
    )  # fmt: skip
    weight = 84 if scale.name not in _PLAIN_SCALES else 48
    return Remark("colour", weight, note.index, note.index, builds)


def _rival(account: Account, span: Span, notes: list[NoteAccount]) -> Scale | None:
    """The scale that one might take for this one: the first choice, else the next that differs."""
    if span.scale is None or span.first_change < 0:
        return None
    sounding = {note.midi % 12 for note in notes}
    ours = span.scale.pitch_classes
    others = [
        choice.scale
        for choice in account.harmony.scales[span.first_change].choices
        if choice.scale.pitch_classes != ours and not ours < choice.scale.pitch_classes
    ]
    usual = {"half-whole diminished": "altered", "altered": "half-whole diminished"}.get(span.scale.name)
    others.sort(key=lambda scale: scale.name != usual)
    return next((scale for scale in others if sounding & (ours - scale.pitch_classes)), None)


def short_name(scale: Scale) -> str:
    """Return a scale's name as it is said: "half-whole" for half-whole diminished."""
    return scale.name.removesuffix(" diminished")


def _gives(say: Speaker, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """The colours that a scale gives over its chord, as far as the line uses them."""
    if span.scale is None:
        return None
    colour = [note for note in notes if note.inside and note.midi % 12 not in span.core]
    by_class = list({note.midi % 12: note for note in colour}.values())[:3]
    name, chord = short_name(span.scale), say.chord(span)
    if not by_class:
        builds = (
            Build("chord", f"Over {chord} the line keeps to the notes of the chord."),
            Build("count", f"Nothing but chord tones is needed over {chord}."),
        )
        return Remark("colour", 38, notes[0].index, notes[-1].index, builds)
    names = joined([say.name(note) for note in by_class])
    degrees = joined([say.degree(note) for note in by_class])
    many = len(by_class) > 1
    builds = (
        Build("scale", f"{capital(name)} over {chord} gives {names}, {degrees}."),
        Build("chord", f"Over {chord} the colour is {name}: {names}, {degrees}."),
        Build("note", f"{names}, {degrees} of {chord}, {'come' if many else 'comes'} from {name}."),
    )
    weight = 40 if span.scale.name in _PLAIN_SCALES else 62
    return Remark("colour", weight, by_class[0].index, by_class[-1].index, builds)


def enclosures(account: Account, say: Speaker) -> Iterator[Remark]:
    """Enclosures inside a chord or across a plain bar line."""
    for figure in account.figures:
        if figure.kind != ENCLOSURE or figure.target is None:
            continue
        members = account.notes[figure.first : figure.last + 1]
        goal = account.notes[figure.target]
        names = say.names(members)
        builds = (
            Build("note", f"{names} close in on {say.name(goal)}, {say.degree(goal)}, {say.on_beat(goal)}."),
            Build("goal", f"{say.name(goal)}, {say.degree(goal)}, is wrapped by {names}."),
            Build("place", f"{capital(say.on_beat(goal))} {say.name(goal)}, {say.degree(goal)}, arrives "
                           f"from both sides, by way of {names}."),
        )  # fmt: skip
        weight = 54 + (10 if any(not note.inside for note in members) else 0) + (6 if goal.strong else 0)
        covers = frozenset(range(figure.first, figure.target + 1))
        yield Remark("enclosure", weight, figure.first, figure.target, builds, covers)


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


def _nothing_outside(account: Account, say: Speaker) -> Remark:
    scales = list(dict.fromkeys(span.scale_name for span in account.spans if span.scale is not None))
    what = f"the {scales[0]} scale" if len(scales) == 1 else "the scale of its chord"
    builds = (
        Build("count", f"No note lies outside {what}."),
        Build("line", f"The line stays inside {what} from end to end."),
    )
    return Remark("outside", 90, 0, len(account.notes) - 1, builds, part=SUMMARY)


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
    groups: dict[str, list[NoteAccount]] = {}
    for note in notes:
        groups.setdefault(note.role, []).append(note)
    if len(notes) <= _MOST_NAMED and len(groups) == len(notes):
        deeds = joined([f"{say.name(note)} {_deed(account, say, note)}" for note in notes])
    elif len(groups) == 1:
        deeds = _together(say, notes, every=True)
    else:
        deeds = joined([_together(say, group, every=False) for group in groups.values()])
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
    part = 0 if within else SUMMARY
    return Remark("outside", 92, notes[0].index, notes[-1].index, builds, part=part)


_DEEDS = {
    # Role: what one note does, what several do.
    PASSING: ("passes", "pass"), NEIGHBOUR: ("is a neighbour", "are neighbours"),
    APPROACH: ("leads into the next note", "lead by step into what follows"),
    ENCLOSURE: ("belongs to an enclosure", "belong to enclosures"),
    ANTICIPATION: ("comes early", "come early"), SUSPENSION: ("hangs over", "hang over"),
    LEANING: ("leans", "lean"), ESCAPE: ("escapes", "escape"), BLUE: ("is a blue note", "are blue notes"),
    PEDAL: ("is a pedal", "are a pedal"),
}  # fmt: skip


def _together(say: Speaker, notes: list[NoteAccount], *, every: bool) -> str:
    """Say what notes of one role do, by name where they are few."""
    one, many = _DEEDS.get(notes[0].role, ("belongs to the next chord", "belong to the next chord"))
    names = list(dict.fromkeys(say.name(note) for note in notes))
    shown = joined(names) if len(names) <= 3 else f"{number_words(len(notes))}, {names[0]} first,"
    if every and len(notes) > 1:
        both = "both" if len(notes) == 2 else "all"
        return f"{shown} {both} {many}" if len(names) > 1 else f"{shown} {many} each time"
    return f"{shown} {one if len(names) == 1 else many}"


def _deed(account: Account, say: Speaker, note: NoteAccount) -> str:
    """Say what one outside note does, with the note that it goes to."""
    goal = "" if note.target is None else say.name(account.notes[note.target])
    way = "down" if note.target is not None and account.notes[note.target].midi < note.midi else "up"
    if note.role == PASSING:
        before = account.notes[note.index - 1]
        return f"passes from {say.name(before)} {way} to {goal}"
    if note.role == ENCLOSURE:
        others = [one for one in account.notes if one.group == note.group and one.index != note.index]
        return f"closes in on {goal} together with {say.names(others)}"
    if note.role == BLUE:
        return f"is a blue note, {say.degree(note)} over {say.chord(note.span)}"
    if note.role == APPROACH and note.detail.endswith("delayed"):
        return f"reaches {goal} only after another note"
    return {
        NEIGHBOUR: f"leaves {goal} by step and comes back",
        APPROACH: f"leads {way} {interval_of(account, note)} into {goal}",
        LEANING: f"leans on {goal}",
        SUSPENSION: f"hangs over and falls to {goal}",
        ANTICIPATION: f"belongs to {say.chord(note.span)} and comes early",
        ESCAPE: f"steps off before the leap to {goal}",
        PEDAL: "is kept on as a pedal",
    }.get(note.role, f"belongs to {say.chord(note.span)}, which follows")


def interval_of(account: Account, note: NoteAccount) -> str:
    """Return the step from a note to its target: "a half step"."""
    return interval_words(account.notes[note.target or 0].midi - note.midi)


def _lost(account: Account, say: Speaker, notes: list[NoteAccount]) -> Remark:
    first = notes[0]
    if len(notes) == 1:
        builds = (
            Build("note", f"{say.name(first)}, at {say.place(first)}, lies outside {say.chord(first.span)} and "
                          f"nothing near it takes it up."),
            Build("count", f"One note has no reason yet: {say.name(first)}, at {say.place(first)}, over "
                           f"{say.chord(first.span)}."),
        )  # fmt: skip
    else:
        names = list(dict.fromkeys(say.name(note) for note in notes))
        shown = joined(names) if len(names) <= 4 else f"{names[0]} at {say.place(first)} is the first"
        builds = (
            Build("count", f"{capital(count(len(notes), 'note'))} lie outside without a reason: {shown}."),
            Build("line", f"The line leaves {count(len(notes), 'note')} unresolved: {shown}."),
        )
    return Remark("lost", 98, first.index, notes[-1].index, builds, part=SUMMARY)


def sequences(account: Account, say: Speaker) -> Iterator[Remark]:
    """Cells that come back at another pitch."""
    for figure in account.figures:
        if figure.kind != SEQUENCE:
            continue
        first, second = account.notes[figure.first], account.notes[figure.first + figure.cell]
        shift = second.midi - first.midi
        way = "higher" if shift > 0 else "lower"
        times = (figure.last - figure.first + 1) // figure.cell - 1
        size = f"{number_words(figure.cell)} notes"
        again = "" if times == 1 else f", {number_words(times)} times over"
        builds = (
            Build("place", f"From {say.name(second)} the shape of the {size} before comes back "
                           f"{interval_words(shift)} {way}{again}."),
            Build("count", f"A cell of {size}, begun on {say.name(first)}, is answered {interval_words(shift)} "
                           f"{way} on {say.name(second)}{again}."),
        )  # fmt: skip
        yield Remark("sequence", 70, figure.first, figure.last, builds)


def strong_beats(account: Account, say: Speaker) -> Iterator[Remark]:
    """What stands on the strong beats."""
    strong = [landing for landing in account.landings if landing.on_strong_beat]
    if not strong:
        first = account.notes[0]
        builds = (
            Build("line", f"The line stays off the strong beats; {say.name(first)} is "
                          f"{say.on_beat(first)}."),
        )  # fmt: skip
        yield Remark("strong beats", 94, 0, 0, builds, part=SUMMARY)
        return
    notes = [account.notes[landing.note] for landing in strong]
    others = [landing for landing in strong if not account.notes[landing.note].in_chord]
    builds = _all_home(say, notes) if not others else _some_away(account, say, strong, others)
    yield Remark("strong beats", 94, notes[0].index, notes[-1].index, builds, part=SUMMARY)


_MOST_LISTED = 4


def _all_home(say: Speaker, notes: list[NoteAccount]) -> tuple[Build, ...]:
    if len(notes) == 1:
        only = notes[0]
        return (
            Build(
                "count", f"One strong beat is struck, and it holds {say.name(only)}, {say.of_chord(only)}."
            ),
            Build("place", f"On the strong beat stands {say.full(only)}."),
        )
    names = joined([say.name(note) for note in notes[:_MOST_LISTED]])
    more = "" if len(notes) <= _MOST_LISTED else ", and chord tones to the end"
    thirds = [note for note in notes if note.degree in ("3", "b3")]
    which = "chord tones all" if not thirds else f"{count(len(thirds), 'third')} among them"
    return (
        Build("place", f"On the strong beats stand {names}{more or ', ' + which}."),
        Build("count", f"Every strong beat holds a chord tone: {names}{' and so on' if more else ''}."),
    )


def _some_away(
    account: Account, say: Speaker, strong: list[Landing], others: list[Landing]
) -> tuple[Build, ...]:
    parts = []
    for landing in others[:2]:
        note = account.notes[landing.note]
        what = say.degree(note) if note.inside else f"outside {say.chord(note.span)}"
        if landing.excuse and landing.excuse != UNACCOUNTED:
            what += f", {_excuse_words(landing.excuse)}"
        parts.append(f"{say.name(note)} at {say.place(note)} ({what})")
    if len(others) > 2:
        parts.append(f"{number_words(len(others) - 2)} more")
    home = [account.notes[landing.note] for landing in strong if landing not in others]
    if not home:
        return (Build("place", f"No strong beat holds a chord tone: {joined(parts)}."),)
    kept = say.names(home[:3]) + (" and others" if len(home) > 3 else "")
    return (
        Build("place", f"On the strong beats stand chord tones, {kept}, but for {joined(parts)}."),
        Build("count", f"{capital(number_words(len(home)))} of the {number_words(len(strong))} strong beats "
                       f"{'holds a chord tone' if len(home) == 1 else 'hold chord tones'}, {kept}; "
                       f"apart from them there is {joined(parts)}."),
    )  # fmt: skip


def _excuse_words(excuse: str) -> str:
    return excuse if excuse.startswith("start") else f"{'an' if excuse[0] in 'aeiou' else 'a'} {excuse}"
