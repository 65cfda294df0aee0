"""What the explanation says of the scales: what each gives over its chord, and how much of it is used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from shedbook.analysis.account import Account
from shedbook.analysis.account.coverage import Coverage
from shedbook.analysis.account.note_account import NoteAccount, notes_by_span
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.naming.language import count, strung
from shedbook.analysis.naming.spoken_names import degree_words
from shedbook.analysis.telling import topics
from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.analysis.telling.remark import SUMMARY, Build, Remark
from shedbook.theory.chord_scales import lacks
from shedbook.theory.scale import Scale, scale_row

_PLAIN_SCALES = frozenset(("ionian", "mixolydian", "dorian", "aeolian"))
"""Scales that a reader expects, so that a remark on them weighs less [common practice]."""

_RIVALS = {"half-whole diminished": "altered", "altered": "half-whole diminished"}
"""Two scales for a dominant that are taken for one another before any other [common practice]."""

for _name in (*_PLAIN_SCALES, *_RIVALS):
    scale_row(_name)  # an UnknownNameError here names a scale that has no row


def colours(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield for each span what its scale gives over the chord.

    Best is the note that tells the scale from the one that might be expected; else its colours are named. A
    scale that comes back weighs less.
    """
    told: set[str] = set()
    heard = notes_by_span(account.notes)
    for span in account.spans:
        notes = heard.get(span.index, [])
        if span.scale is None or not notes or lacks(span.chord, span.scale):
            continue  # of a scale that denies the chord nothing is true; the proof-reader has said so
        again = span.scale.name in told
        told.add(span.scale.name)
        remark = _tell(account, say, span, notes) or _gives(say, span, notes)
        if remark is not None:
            weight = remark.weight - (25 if again else 0)
            yield replace(remark, weight=weight, spans=frozenset((span.index,)))


def _tell(account: Account, say: ReaderNames, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """Tell the note that only this scale has among those usual over such a chord, if there is one."""
    scale = span.scale
    rival = None if scale is None or scale.name in _PLAIN_SCALES else _rival(account, span, notes)
    if scale is None or rival is None:
        return None
    telling = [
        note for note in notes if note.inside and note.midi % 12 in scale.pitch_classes - rival.pitch_classes
    ]
    if not telling:
        return None
    note = max(telling, key=lambda one: (one.strong, one.accent, -one.index))
    builds = say.builds(
        "colour.telling", "note", "chord", "scale",
        name=say.name(note), degree=say.degree(note), chord=say.chord(span), scale=say.scale(scale),
        other=say.scale(rival),
    )  # fmt: skip
    return Remark(topics.COLOUR, 84, note.index, note.index, builds)


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


def _gives(say: ReaderNames, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """Tell the colours that a scale gives over its chord, as far as the line uses them."""
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
    return Remark(topics.COLOUR, weight, by_class[0].index, by_class[-1].index, builds)


def _only_chord_tones(say: ReaderNames, span: Span, notes: list[NoteAccount]) -> Remark | None:
    """Tell that over a chord the line needs nothing but its tones, if that is so."""
    if span.scale is None or not all(note.in_chord for note in notes):
        return None
    builds = say.builds(
        "colour.chord tones", "chord", "count", chord=say.chord(span), scale=say.scale(span.scale)
    )
    return Remark(topics.CHORD_TONES_ONLY, 38, notes[0].index, notes[-1].index, builds)


def other_scales(account: Account, say: ReaderNames, named: frozenset[int]) -> Remark | None:
    """Name the scales that no other remark has named; `named` are the indices of the spans that have been."""
    left = [span for span in account.spans if span.index not in named and span.scale is not None]
    sounding = {note.span.index for note in account.notes}
    known = {(span.scale_name, say.chord(span)) for span in account.spans if span.index in named}
    over: dict[str, list[str]] = {}
    for span in left:
        if span.scale is None or lacks(span.chord, span.scale):
            continue
        if span.index not in sounding or (span.scale_name, say.chord(span)) in known:
            continue
        chords = over.setdefault(say.scale(span.scale), [])
        if say.chord(span) not in chords:
            chords.append(say.chord(span))
    if not over:
        return None
    builds = _one_scale(say, *next(iter(over.items()))) if len(over) == 1 else _some_scales(say, over, named)
    indices = frozenset(span.index for span in left)
    return Remark(topics.SCALES, 86, 0, 0, builds, spans=indices, part=SUMMARY)


def _one_scale(say: ReaderNames, scale: str, chords: list[str]) -> tuple[Build, ...]:
    """Name one scale over its chords."""
    take = "note many" if len(chords) > 1 else "note one"
    return say.builds(
        "scales.one", "chord", take, "scale", "order", "place", "count",
        scale=scale, chords=say.joined(chords[:3]),
    )  # fmt: skip


def _some_scales(say: ReaderNames, over: dict[str, list[str]], named: frozenset[int]) -> tuple[Build, ...]:
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


def scale_coverage(account: Account, say: ReaderNames) -> Iterator[Remark]:
    """Yield for each chord with its scale whether all of the scale is used, or what is left out."""
    entries = [entry for entry in account.whole_coverage if entry.used]
    for entry in entries:
        remark = _covered(account, say, entry)
        if remark is not None:
            yield remark


def _covered(account: Account, say: ReaderNames, entry: Coverage) -> Remark | None:
    """Tell how much of a scale is used; the remark's places are the indices of spans."""
    span = account.spans[entry.spans[0]]
    if span.scale is None or lacks(span.chord, span.scale):
        return None
    scale, chord = say.scale(span.scale), say.chord(span)
    first, last = entry.spans[0], entry.spans[-1]
    if entry.complete:
        notes = say.notes(len(entry.used) + len(entry.missing))
        builds = say.builds(
            "coverage.whole", "count", "chord", "scale", notes=notes, scale=scale, chord=chord
        )
        spans = frozenset(entry.spans)
        return Remark(topics.COVERAGE, 98, first, last, builds, spans=spans, part=SUMMARY)
    if len(entry.missing) > 3:
        used = say.joined(_degrees(say, entry.used[:4], span))
        if len(entry.used) > 4:
            used = say.words("coverage.more", used=used, n=say.number(len(entry.used) - 4))
        builds = say.builds(
            "coverage.little", "chord", "count one" if len(entry.used) == 1 else "count many",
            chord=chord, scale=scale, used=used, degrees=count(len(entry.used), "degrees", say.words),
        )  # fmt: skip
        return Remark(topics.COVERAGE, 30, first, last, builds, part=SUMMARY)
    builds = say.builds(
        "coverage.most", "scale one" if len(entry.missing) == 1 else "scale many", "chord",
        scale=scale, chord=chord, left=say.joined(_degrees(say, entry.missing, span)),
    )  # fmt: skip
    return Remark(topics.COVERAGE, 46 - 4 * len(entry.missing), first, last, builds, part=SUMMARY)


def _degrees(say: ReaderNames, degrees: Sequence[str], span: Span) -> list[str]:
    return [degree_words(degree, span.chord, say.words) for degree in degrees]
