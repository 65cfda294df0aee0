"""What the explanation says inside the chords: what a scale gives, what is wrapped, what lies outside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shedbook.analysis.account.figures import SEQUENCE
from shedbook.analysis.account.note_account import NoteAccount, by_span
from shedbook.analysis.account.phrase_account import Account
from shedbook.analysis.hearing.heard_notes import Span
from shedbook.analysis.naming.language import strung
from shedbook.analysis.roles.reasons import ENCLOSURE
from shedbook.analysis.telling.reader_names import Speaker
from shedbook.analysis.telling.remark import SUMMARY, Build, Remark
from shedbook.theory.scale import Scale

_PLAIN_SCALES = frozenset(("ionian", "mixolydian", "dorian", "aeolian"))
"""Scales that a reader expects, so that they are named only where there is room."""


def colours(account: Account, say: Speaker) -> Iterator[Remark]:
    """What each scale gives over its chord, and which note tells it from the scale one might expect."""
    told: set[str] = set()
    heard = by_span(account.notes)
    for span in account.spans:
        notes = heard.get(span.index, [])
        if span.scale is None or not notes:
            continue
        again = span.scale.name in told
        told.add(span.scale.name)
        remark = _tell(account, say, span, notes) or _gives(say, span, notes)
        if remark is not None:
            weight = remark.weight - (25 if again else 0)
            yield replace(remark, weight=weight, spans=frozenset((span.index,)))


def _tell(account: Account, say: Speaker, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """The note that only this scale has, among those that are usual over such a chord."""
    scale = span.scale
    rival = None if scale is None or scale.name in _PLAIN_SCALES else _rival(account, span, notes)
    if scale is None or rival is None:
        return None
    telling = [
        note for note in notes if note.inside and note.midi % 12 in scale.pitch_classes - rival.pitch_classes
    ]
    if not telling:
        return None
    note = max(telling, key=lambda one: (one.strong, one.weight, -one.index))
    builds = say.builds(
        "colour.telling", "note", "chord", "scale",
        name=say.name(note), degree=say.degree(note), chord=say.chord(span), scale=say.scale(scale),
        other=say.scale(rival),
    )  # fmt: skip
    return Remark("colour", 84, note.index, note.index, builds)


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


def _gives(say: Speaker, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """The colours that a scale gives over its chord, as far as the line uses them."""
    if span.scale is None:
        return None
    colour = [
        note for note in notes if note.inside and note.midi % 12 not in span.core and not note.passes_through
    ]
    by_class = list({note.midi % 12: note for note in colour}.values())[:3]
    if not by_class:
        return _only_chord_tones(say, span, notes)
    builds = say.builds(
        "colour.given", "scale", "chord", "note many" if len(by_class) > 1 else "note one",
        scale=say.scale(span.scale), chord=say.chord(span),
        names=say.joined([say.name(note) for note in by_class]),
        degrees=say.joined([say.degree(note) for note in by_class]),
    )  # fmt: skip
    weight = 40 if span.scale.name in _PLAIN_SCALES else 62
    return Remark("colour", weight, by_class[0].index, by_class[-1].index, builds)


def _only_chord_tones(say: Speaker, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """A chord over which the line needs nothing but its tones."""
    if span.scale is None or not all(note.in_chord for note in notes):
        return None
    builds = say.builds(
        "colour.chord tones", "chord", "count", chord=say.chord(span), scale=say.scale(span.scale)
    )
    return Remark("chord tones", 38, notes[0].index, notes[-1].index, builds)


def enclosures(account: Account, say: Speaker) -> Iterator[Remark]:
    """Enclosures inside a chord or across a plain bar line."""
    for figure in account.figures:
        if figure.kind != ENCLOSURE or figure.target is None:
            continue
        members = account.notes[figure.first : figure.last + 1]
        goal = account.notes[figure.target]
        builds = say.builds(
            "enclosure", "note", "goal", "place",
            names=say.names(members), goal=say.name(goal), degree=say.degree(goal), when=say.on_beat(goal),
        )  # fmt: skip
        weight = 54 + (10 if any(not note.inside for note in members) else 0) + (6 if goal.strong else 0)
        covers = frozenset(range(figure.first, figure.target + 1))
        yield Remark("enclosure", weight, figure.first, figure.target, builds, covers)


def sequences(account: Account, say: Speaker) -> Iterator[Remark]:
    """Cells that come back at another pitch."""
    for figure in account.figures:
        if figure.kind != SEQUENCE:
            continue
        first, second = account.notes[figure.first], account.notes[figure.first + figure.cell]
        shift = second.midi - first.midi
        times = (figure.last - figure.first + 1) // figure.cell - 1
        again = "" if times == 1 else " again"
        builds = say.builds(
            "sequence", f"place{again}", f"count{again}",
            first=say.name(first), second=say.name(second), cell=say.notes(figure.cell),
            size=say.size(shift), way=say.words("way.higher" if shift > 0 else "way.lower"),
            times=say.number(times),
        )  # fmt: skip
        yield Remark("sequence", 70, figure.first, figure.last, builds)


def other_scales(account: Account, say: Speaker, named: frozenset[int]) -> Remark | None:
    """Name the scales of the chords that no other remark has named."""
    left = [span for span in account.spans if span.index not in named and span.scale is not None]
    sounding = {note.span.index for note in account.notes}
    known = {(span.scale_name, say.chord(span)) for span in account.spans if span.index in named}
    over: dict[str, list[str]] = {}
    for span in left:
        if span.scale is None or span.index not in sounding or (span.scale_name, say.chord(span)) in known:
            continue
        chords = over.setdefault(say.scale(span.scale), [])
        if say.chord(span) not in chords:
            chords.append(say.chord(span))
    if not over:
        return None
    builds = _one_scale(say, *next(iter(over.items()))) if len(over) == 1 else _some_scales(say, over, named)
    indices = frozenset(span.index for span in left)
    return Remark("scales", 86, 0, 0, builds, spans=indices, part=SUMMARY)


def _one_scale(say: Speaker, scale: str, chords: list[str]) -> tuple[Build, ...]:
    """Name one scale over its chords."""
    take = "note many" if len(chords) > 1 else "note one"
    return say.builds(
        "scales.one", "chord", take, "scale", "order", "place", "count",
        scale=scale, chords=say.joined(chords[:3]),
    )  # fmt: skip


def _some_scales(say: Speaker, over: dict[str, list[str]], named: frozenset[int]) -> tuple[Build, ...]:
    """Name several scales, each over its chords; `named` are the spans whose scale has been named before."""
    some = [(scale, say.joined(chords[:3])) for scale, chords in list(over.items())[:4]]
    cut = len(over) > len(some)

    def listed(row: str, start: int = 0) -> str:
        parts = [say.words(row, scale=scale, chords=chords) for scale, chords in some[start:]]
        if not cut:
            return say.joined(parts)
        return say.words("list.cut", first=strung(parts, "list.more", say.words))

    scale, chords = some[0]
    take = "note many" if len(over[scale]) > 1 else "note one"
    return say.builds(
        "scales.some", "order", "scale", take, "place", "count left" if named else "count",
        scale=scale, chords=chords, over=listed("scales.over"), under=listed("scales.under"),
        rest_over=listed("scales.over", 1), rest=listed("scales.takes", 1),
    )  # fmt: skip
