"""What the explanation says of the harmony: what makes this scale, its colours, where tension lets go."""

from __future__ import annotations

from collections.abc import Iterator

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount, notes_by_span
from shedbook.analysis.devices.tension import SHARP_COLOURS, tension
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.telling.remark import Remark
from shedbook.analysis.telling.slots import (
    Bar,
    Degree,
    Degrees,
    Note,
    Notes,
    Of,
    Over,
    ScaleName,
    Slot,
    Tone,
)
from shedbook.theory.chord_scales import lacks
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale, scale_row

_PLAIN_SCALES = frozenset(("ionian", "mixolydian", "dorian", "aeolian", "locrian"))
"""Scales that a reader expects, so that a remark on them weighs less [common practice]."""

_RIVALS = {"half-whole diminished": "altered", "altered": "half-whole diminished"}
"""Two scales for a dominant that are taken for one another before any other [common practice]."""

_EVERYWHERE = frozenset(("1", "3", "b3", "5", "b5", "b7", "bb7"))
"""Degrees that a reader expects over a chord, so that they tell little of its scale [common practice]."""

_FEWEST_OF_A_SCALE = 6
"""How many notes a scale has at least for it to be worth telling that a line uses all of them."""

for _name in (*_PLAIN_SCALES, *_RIVALS):
    scale_row(_name)  # an UnknownNameError here names a scale that has no row


def about_harmony(account: Account) -> Iterator[Remark]:
    """Yield the remarks on scales, colours and tension."""
    heard = notes_by_span(account.notes)
    yield from _whole_scales(account, heard)
    yield from _tension(account)
    for span in account.spans:
        notes = heard.get(span.index, [])
        if span.scale is None or not notes or lacks(span.chord, span.scale):
            continue  # of a scale that denies the chord nothing is true; the proof-reader has said so
        yield from _telling_note(account, span, notes)
        yield from _colours(span, notes)
        yield from _only_the_chord(span, notes)


def _whole_scales(account: Account, heard: dict[int, list[NoteAccount]]) -> Iterator[Remark]:
    """Tell the scales of which every note is used, the more readily the fewer notes it takes."""
    for entry in account.whole_coverage:
        span = account.spans[entry.spans[0]]
        size = len(span.scale_classes)
        if span.scale is None or not entry.complete or size < _FEWEST_OF_A_SCALE:
            continue
        if lacks(span.chord, span.scale):
            continue
        notes = [note for one in entry.spans for note in heard.get(one, [])]
        at = _shortest_cover(notes, span)
        stretch = notes[at[0] : at[1]]
        slots: dict[str, Slot] = {
            "scale": ScaleName(span.scale, rooted=True), "chord": Over(span.index),
            "bar": Bar(stretch[0].index),
        }  # fmt: skip
        bar = account.phrase.metre.bar_quarters
        tight = len(stretch) <= size + 2 and len({note.start // bar for note in stretch}) == 1
        plain = span.scale.name in _PLAIN_SCALES
        worth = (84 if tight else 60 if len(notes) <= 2 * size else 46) - (20 if plain else 0)
        kind = "whole.bar" if tight else "whole.chord"
        yield Remark(kind, worth, stretch[0].index, slots, topic="colour", leads=tight)


def _shortest_cover(notes: list[NoteAccount], span: Span) -> tuple[int, int]:
    """Return where the shortest stretch of notes begins and ends that has every note of the scale."""
    best, left = (0, len(notes)), 0
    inside: dict[int, int] = {}
    for right, note in enumerate(notes):
        if note.midi % 12 in span.scale_classes:
            inside[note.midi % 12] = right
        if len(inside) == len(span.scale_classes):
            left = min(inside.values())
            if right + 1 - left < best[1] - best[0]:
                best = (left, right + 1)
    return best


def _tension(account: Account) -> Iterator[Remark]:
    found = tension(account)
    if found is None:
        return
    slots: dict[str, Slot] = {
        "notes": Notes(found.notes), "degrees": Degrees(found.notes), "chord": Over(found.span),
        "goal": Note(found.release), "of": Of(found.release),
    }  # fmt: skip
    about = frozenset((*found.notes, found.release))
    if account.notes[found.release].midi % 12 in {account.notes[one].midi % 12 for one in found.notes}:
        return  # a note that pulls and lets go in one sentence is no help
    worth = 62 + 4 * min(4, len(found.notes))
    yield Remark("tension", worth, found.notes[0], slots, about, "colour", leads=len(found.notes) > 2)


def _telling_note(account: Account, span: Span, notes: list[NoteAccount]) -> Iterator[Remark]:
    """Tell a note that only this scale has among those usual over such a chord, and what others have."""
    scale = span.scale
    if scale is None or scale.name in _PLAIN_SCALES:
        return
    rival = _rival(account, span, notes)
    if rival is None:
        return
    ours = scale.pitch_classes - rival.pitch_classes
    telling = [note for note in notes if note.inside and not note.passes_through and note.midi % 12 in ours]
    if not telling:
        return
    note = max(telling, key=lambda one: (one.strong, one.accent, -one.index))
    other = _in_its_place(note, scale, rival)
    slots: dict[str, Slot] = {
        "note": Note(note.index), "degree": Degree(note.index), "chord": Over(span.index),
        "scale": ScaleName(scale),
        "other": ScaleName(rival, rooted=rival.root.pitch_class != scale.root.pitch_class),
    }  # fmt: skip
    worth = 56 if note.midi % 12 in span.core and note.degree in _EVERYWHERE else 78
    about = frozenset((note.index,))
    if other is None:
        yield Remark("telling.only", worth - 8, note.index, slots, about, "colour")
    else:
        there: dict[str, Slot] = {**slots, "tone": Tone(other)}
        yield Remark("telling.place", worth, note.index, there, about, "colour")


def _in_its_place(note: NoteAccount, scale: Scale, rival: Scale) -> NoteName | None:
    """Return the one tone of the other scale a half step from a note of this one that this one lacks."""
    near = [
        tone
        for tone in rival.notes
        if (tone.pitch_class - note.midi) % 12 in (1, 11) and tone.pitch_class not in scale.pitch_classes
    ]
    return near[0] if len(near) == 1 else None


def _rival(account: Account, span: Span, notes: list[NoteAccount]) -> Scale | None:
    """Return the scale that one might take for this one, and from which a note of the line tells it.

    It is the usual rival if there is one, else the first choice over the chord that differs.
    """
    if span.scale is None or span.first_change < 0:
        return None
    sounding = {note.midi % 12 for note in notes}
    ours = span.scale.pitch_classes
    others = [
        choice.scale
        for choice in account.harmony.scales[span.first_change].choices
        if choice.scale.pitch_classes != ours and not ours < choice.scale.pitch_classes
    ]
    usual = _RIVALS.get(span.scale.name)
    others.sort(key=lambda scale: scale.name != usual)
    return next((scale for scale in others if sounding & (ours - scale.pitch_classes)), None)


def _colours(span: Span, notes: list[NoteAccount]) -> Iterator[Remark]:
    """Tell the colours over a chord: those of a dominant that pull, or those that hold a strong beat."""
    colour = [
        note for note in notes if note.inside and note.midi % 12 not in span.core and not note.passes_through
    ]
    sharp = [note for note in colour if note.degree in SHARP_COLOURS]
    accented = [note for note in colour if note.strong]
    told = sharp if len(sharp) > 1 else accented
    by_class = sorted({note.midi % 12: note.index for note in reversed(told)}.values())[:3]
    if not by_class:
        return
    chosen = tuple(by_class)
    slots: dict[str, Slot] = {
        "notes": Notes(chosen), "degrees": Degrees(chosen), "chord": Over(span.index),
    }  # fmt: skip
    about = frozenset(note.index for note in told)
    if len(chosen) > 1:
        worth = 50 + (10 if sharp else 0)
        yield Remark("colours", worth, chosen[0], slots, about, "colour")
    else:
        note = notes[chosen[0] - notes[0].index]
        one: dict[str, Slot] = {"note": Note(chosen[0]), "of": Of(chosen[0]), "degree": Degree(chosen[0])}
        if note.quarters < 1:
            return
        worth = 52 if note.quarters > 1 else 44
        yield Remark("colour", worth, chosen[0], one, about, "colour")


def _only_the_chord(span: Span, notes: list[NoteAccount]) -> Iterator[Remark]:
    """Tell that five notes or more over a chord are all its tones."""
    if len(notes) >= 5 and span.chord.root is not None and all(note.midi % 12 in span.core for note in notes):
        slots: dict[str, Slot] = {"chord": Over(span.index)}
        about = frozenset(note.index for note in notes)
        yield Remark("only the chord", 46, notes[0].index, slots, about, "colour")
