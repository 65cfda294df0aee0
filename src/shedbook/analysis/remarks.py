"""What the explanation says inside the chords: what a scale gives, what is wrapped, what lies outside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shedbook.analysis.account import Account
from shedbook.analysis.figures import SEQUENCE
from shedbook.analysis.heard import Span
from shedbook.analysis.notes import NoteAccount, by_span
from shedbook.analysis.reasons import (
    ENCLOSURE,
)  # fmt: skip
from shedbook.analysis.remark import SUMMARY, Build, Remark
from shedbook.analysis.speaker import Speaker, capital
from shedbook.analysis.words import interval_words, joined, number_words
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
    ours, theirs = short_name(scale), short_name(rival)
    degree = f"{say.name(note)}, {say.degree(note)},"
    builds = (
        Build("note", f"{degree} is what says {ours} rather than {theirs}."),
        Build("chord", f"Over {say.chord(span)} it is {say.name(note)}, {say.degree(note)}, that tells "
                       f"{ours} from {theirs}."),
        Build("scale", f"{capital(ours)}, not {theirs}, is the sound over {say.chord(span)}: "
                       f"{say.name(note)} is {say.degree(note)}."),
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


def short_name(scale: Scale) -> str:
    """Return a scale's name as it is said: "half-whole" for half-whole diminished."""
    return scale.name.removesuffix(" diminished")


def _gives(say: Speaker, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """The colours that a scale gives over its chord, as far as the line uses them."""
    if span.scale is None:
        return None
    colour = [
        note for note in notes if note.inside and note.midi % 12 not in span.core and not note.passes_through
    ]
    by_class = list({note.midi % 12: note for note in colour}.values())[:3]
    name, chord = short_name(span.scale), say.chord(span)
    if not by_class:
        return _only_chord_tones(say, span, notes)
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


def _only_chord_tones(say: Speaker, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """A chord over which the line needs nothing but its tones."""
    if span.scale is None or not all(note.in_chord for note in notes):
        return None
    chord, name = say.chord(span), short_name(span.scale)
    builds = (
        Build("chord", f"Over {chord} the line takes only the notes of the chord from {name}."),
        Build("count", f"Nothing of {name} but the chord tones is needed over {chord}."),
    )
    return Remark("chord tones", 38, notes[0].index, notes[-1].index, builds)


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
            Build("count", f"A cell of {size}, begun on {say.name(first)}, is answered "
                           f"{interval_words(shift)} {way} on {say.name(second)}{again}."),
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
        chords = over.setdefault(short_name(span.scale), [])
        if say.chord(span) not in chords:
            chords.append(say.chord(span))
    if not over:
        return None
    builds = _one_scale(*next(iter(over.items()))) if len(over) == 1 else _some_scales(over, first=not named)
    indices = frozenset(span.index for span in left)
    return Remark("scales", 86, 0, 0, builds, spans=indices, part=SUMMARY)


def _one_scale(scale: str, chords: list[str]) -> tuple[Build, ...]:
    """Name one scale over its chords."""
    over = joined(chords[:3])
    return (
        Build("chord", f"Over {over} think {scale}."),
        Build("note", f"{over} {'take' if len(chords) > 1 else 'takes'} {scale}."),
        Build("scale", f"{capital(scale)} serves over {over}."),
        Build("order", f"Hear {scale} under {over}."),
        Build("place", f"For {over} nothing is needed beyond {scale}."),
        Build("count", f"The scale for {over} is {scale}."),
    )


def _some_scales(over: dict[str, list[str]], *, first: bool) -> tuple[Build, ...]:
    """Name several scales, each over its chords; `first` when no scale has been named before."""
    some = [(scale, joined(chords[:3])) for scale, chords in list(over.items())[:4]]
    more = " and so on" if len(over) > len(some) else ""
    text = _listed([f"{scale} over {on}" for scale, on in some], more)
    under = _listed([f"{scale} under {on}" for scale, on in some], more)
    opening, on_first = some[0]
    takes = "take" if len(over[opening]) > 1 else "takes"
    serves = _listed([f"{scale} over {on}" for scale, on in some[1:]], more)
    others = _listed([f"{on} {scale}" for scale, on in some[1:]], more)
    rest = "The scales are" if first else "That leaves"
    return (
        Build("order", f"Think {text}."),
        Build("scale", f"{capital(opening)} serves over {on_first}, {serves}."),
        Build("note", f"{on_first} {takes} {opening}, {others}."),
        Build("place", f"Behind the line lie {under}."),
        Build("count", f"{rest} {text}."),
    )


def _listed(words: list[str], more: str) -> str:
    """Join words; `more` stands after a list that is cut off."""
    return f"{', '.join(words)}{more}" if more else joined(words)
