"""Which scales go with a chord in its context, best first, each with its reason in words.

The choices stand in `tables.chord_scales`. This module says what the contexts of the table mean, and fills in
the reasons. A scale that lacks a tone that the chord names is never offered first. A natural fifth does not
count as named, so that an altered scale serves C7(#9,b13).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from shedbook.table_index import need
from shedbook.theory.chord import Chord, easy_name, name_over, plain_name
from shedbook.theory.chord_context import (
    CONTEXTS,
    FOURTH_UP,
    HALF_STEP_DOWN,
    HALF_STEP_UP,
    NO_CONTEXT,
    Context,
    leads,
)
from shedbook.theory.interval import degree_interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import FILE as SCALES_FILE
from shedbook.theory.scale import Scale, passing_classes, scale_row
from shedbook.theory.slash_chords import over_bass
from shedbook.theory.tables.chord_scales import (
    BY_NOTES,
    FALLBACK_REASON,
    FALLBACKS,
    KINDS,
    MUST_SOUND,
    ONLY_WHEN_NAMED,
    ROWS,
    ChordScaleRow,
    KindRow,
    ScaleFit,
)
from shedbook.theory.tables.scales import SCALES, ScaleRow

_WHOLE_SCALE = 7
"""A scale with as many notes has room for everything that a chord names."""

_BLANK = re.compile(r"\{(=?)([^{}]+)\}")
_ACCIDENTAL_SIGNS = MappingProxyType({0: "", 1: "♯", -1: "♭"})


@dataclass(frozen=True, slots=True)
class ScaleChoice:
    """A scale that goes with a chord, and the reason as a sentence."""

    scale: Scale
    reason: str


@dataclass(frozen=True, slots=True)
class Service:
    """A kind of chord that a scale goes with.

    `kind` is a name of `tables.chord_scales.KINDS`, `chord` an example on C, `context` that of the table's
    row, "any" where it does not matter, and `place` the place of the scale in the ranking, from 1.
    """

    kind: str
    chord: str
    context: str
    place: int


def kind_of(chord: Chord) -> KindRow | None:
    """Return the row of the table for the kind of a chord, or None for N.C."""
    if chord.root is None:
        return None
    return _kind_with(frozenset((*chord.degrees, "alt") if chord.altered else chord.degrees))


@lru_cache(maxsize=512)
def _kind_with(named: frozenset[str]) -> KindRow:
    return next(row for row in KINDS if _fits(row, named))  # the last row fits every chord with a root


def _fits(row: KindRow, named: frozenset[str]) -> bool:
    return named.isdisjoint(row.lacks) and all(named.intersection(one.split("|")) for one in row.has)


@lru_cache(maxsize=2048)
def ranked(chord: Chord, context: Context = NO_CONTEXT) -> tuple[ScaleChoice, ...]:
    """Return the scales that go with a chord in its context, best first; () for N.C.

    A chord over a bass that is none of its tones takes the scales of the chord that sounds:
    F/G takes those of G9sus.
    Source: `tables.chord_scales`.
    """
    chord = over_bass(chord)
    kind = kind_of(chord)
    if kind is None or chord.root is None:
        return ()
    row = _row(kind.name, chord, context)
    named = _named_tones(chord)
    found = [(fit, _scale(fit, chord, context)) for fit in row.fits]
    holding = [one for one in found if named <= one[1].pitch_classes]
    kept = [one for one in found if one in holding or (one[0].colour and holding)]
    if not holding:
        kept = [_fallback(chord)]
    return tuple(ScaleChoice(scale, _reason(fit.reason, chord, context, scale)) for fit, scale in kept)


@lru_cache(maxsize=2048)
def by_notes(chord: Chord, context: Context = NO_CONTEXT) -> tuple[ScaleChoice, ...]:
    """Return the scales that only the notes of a line may ask for over a chord, the commonest first.

    Those that go with the chord in its context anyway are left out.
    """
    chord = over_bass(chord)
    kind = kind_of(chord)
    if kind is None:
        return ()
    known = {choice.scale.pitch_classes for choice in ranked(chord, context)}
    found = [
        ScaleChoice(scale, _reason(fit.reason, chord, context, scale))
        for row in BY_NOTES
        if kind.name in row.kinds
        for fit in row.fits
        if (scale := _scale(fit, chord, context)).pitch_classes not in known
        and (fit.colour or _named_tones(chord) <= scale.pitch_classes)
    ]
    return tuple(found)


@lru_cache(maxsize=1024)
def must_sound(chord: Chord, scale: Scale) -> frozenset[int]:
    """Return the pitch classes one of which a line must have, or a plain dominant is not heard in a scale.

    The answer is empty where nothing is asked: over other chords, and for the plain scales.
    """
    chord = over_bass(chord)
    kind = kind_of(chord)
    if kind is None or kind.name not in ("dominant", "dominant 9 or 13"):
        return frozenset()
    root = scale.root.pitch_class
    asked = _MUST_SOUND.get(scale.name, ())
    return frozenset((root + degree_interval(degree).semitones) % 12 for degree in asked)


@lru_cache(maxsize=1024)
def lacks(chord: Chord, scale: Scale) -> tuple[str, ...]:
    """Return the degrees of a chord that a scale contradicts, in the order in which the chord names them.

    These are its third (or what stands for it), an altered fifth, its seventh or sixth and named tensions.
    A scale of fewer than seven notes may leave out what it likes, as pentatonic and blues scales do. A chord
    marked alt asks for its third, its seventh and its flat 9 alone. A scale that the table offers over the
    chord as a colour contradicts nothing.
    """
    sounding = over_bass(chord)
    if sounding.root is None or len(scale.pitch_classes) < _WHOLE_SCALE:
        return ()
    if any(one.scale.pitch_classes == scale.pitch_classes for one in ranked(chord)):
        return ()
    written = chord.pitch_classes | ({chord.bass.pitch_class} if chord.bass is not None else set())
    asked = ("b9",) if sounding.altered else sounding.tensions
    fifth = sounding.fifth if sounding.fifth in ("b5", "#5") else ""
    named = [degree for degree in (sounding.third, fifth, sounding.seventh, *asked) if degree]
    classes = {degree: name_over(sounding.root, degree).pitch_class for degree in named}
    real = [degree for degree in named if sounding is chord or classes[degree] in written]
    return tuple([degree for degree in real if classes[degree] not in scale.pitch_classes])


def nearest_fits(chord: Chord, scale: Scale, most: int) -> tuple[Scale, ...]:
    """Return the scales on the same root that contradict nothing in a chord, those usual over it first.

    Of these, and of the others, the nearest to `scale` come first: they have most notes in common with it.
    Scales with a passing note are left out.
    """
    rows = [scale_row(name) for name in FALLBACKS if name != "chromatic"]
    known = {row.name: place for place, row in enumerate(rows)}
    usual = {choice.scale.name for choice in ranked(chord)}
    whole = [Scale(scale.root, row) for row in rows if len(row.degrees) >= _WHOLE_SCALE]
    whole = [one for one in whole if not passing_classes(one)]
    fitting = [one for one in whole if not lacks(chord, one)]
    fitting.sort(
        key=lambda one: (
            one.name not in usual, len(one.pitch_classes ^ scale.pitch_classes), known[one.name]
        )
    )  # fmt: skip
    return tuple(fitting[:most])


def _row(kind: str, chord: Chord, context: Context) -> ChordScaleRow:
    return next(row for row in _ROWS[kind] if CONTEXTS[row.context](chord, context))


def _named_tones(chord: Chord) -> frozenset[int]:
    """Return the pitch classes that the symbol names, without a natural fifth."""
    root = chord.root or NoteName(0)
    return frozenset(name_over(root, degree).pitch_class for degree in chord.degrees if degree != "5")


def _scale(fit: ScaleFit, chord: Chord, context: Context) -> Scale:
    root = chord.root or NoteName(0)
    start = _coming(chord, context) if fit.start == "coming" else name_over(root, fit.start)
    return Scale(start, scale_row(fit.scale))


def _fallback(chord: Chord) -> tuple[ScaleFit, Scale]:
    """Return the first scale of `FALLBACKS` on the root that holds every tone that the chord names."""
    named, root = _named_tones(chord), chord.root or NoteName(0)
    scales = (Scale(root, scale_row(name)) for name in FALLBACKS)
    scale = next(scale for scale in scales if named <= scale.pitch_classes)  # the last one holds every tone
    return ScaleFit(scale.name, FALLBACK_REASON), scale


FILE = "src/shedbook/theory/tables/chord_scales.py"
"""Where the kinds of chords and their scales stand."""


def index(
    kinds: tuple[KindRow, ...], table: tuple[ChordScaleRow, ...]
) -> MappingProxyType[str, tuple[ChordScaleRow, ...]]:
    """Map every kind of chord to its rows in order.

    Raises:
        TableError: if a row names a kind or a context that is not known, or has no scale or no source; or
            if a kind has no last row for any context.
    """
    found: dict[str, list[ChordScaleRow]] = {row.name: [] for row in kinds}
    for row in table:
        said = f"The row of ROWS for {' and '.join(row.kinds)} ({row.context})"
        need(row.context in CONTEXTS, f"{said} names a context that is not known.", _CONTEXT_HINT)
        need(bool(row.fits), f"{said} names no scale.", f"Write a ScaleFit in {FILE}.")
        need(bool(row.source), f"{said} has no source.", f"Write one in {FILE}.")
        for kind in row.kinds:
            hint = f"Write it into KINDS in {FILE}."
            need(kind in found, f'{said}: there is no kind of chord "{kind}".', hint)
            found[kind].append(row)
    for kind, rows in found.items():
        need(
            bool(rows) and rows[-1].context == "any",
            f'The kind of chord "{kind}" has no scales for any context.',
            f'Write a last row for it into ROWS in {FILE}: _row("{kind}", "any", ScaleFit(…)).',
        )
    return MappingProxyType({kind: tuple(rows) for kind, rows in found.items()})


_CONTEXT_HINT = "Write what it means into CONTEXTS in src/shedbook/theory/chord_context.py."


def check_scales(
    scales: tuple[ScaleRow, ...],
    table: tuple[ChordScaleRow, ...],
    fallbacks: tuple[str, ...],
    only_when_named: tuple[str, ...],
) -> None:
    """See that the scales of the table and the scales that chords take are the same.

    Raises:
        TableError: if a chord takes a scale that is in no row, or a scale goes with no chord.
    """
    known = {row.name for row in scales}
    offered = {fit.scale for row in table for fit in row.fits} | set(fallbacks)
    for name in sorted((offered | set(only_when_named)) - known):
        need(
            False,
            f'The scale "{name}" stands in {FILE}, but nobody knows its notes.',
            f"Write its row in {SCALES_FILE}, or mend its name.",
        )
    for name in sorted(known - offered - set(only_when_named)):
        need(
            False,
            f'The scale "{name}" goes with no chord.',
            f"Write a ScaleFit for it into a row of ROWS in {FILE}, or its name into ONLY_WHEN_NAMED there.",
        )
    for name in sorted(offered & set(only_when_named)):
        need(
            False,
            f'The scale "{name}" is offered, and not only when named.',
            f"Take it out of ONLY_WHEN_NAMED in {FILE}.",
        )


_MUST_SOUND = MappingProxyType({scale_row(name).name: degrees for name, degrees in MUST_SOUND})
_ROWS = index(KINDS, ROWS)
check_scales(SCALES, ROWS, FALLBACKS, ONLY_WHEN_NAMED)


# The reasons, filled in for a chord.


def _coming(chord: Chord, context: Context) -> NoteName:
    """Return the root of the chord that is to come: of the following one, or of the one expected."""
    root = chord.root or NoteName(0)
    diminished = chord.family == "diminished"
    for semitones in (HALF_STEP_UP,) if diminished else (FOURTH_UP, HALF_STEP_DOWN):
        if leads(chord, context, semitones) and context.following and context.following.root:
            return context.following.root
    return easy_name(name_over(root, "b2" if diminished else "4"))


def spoken_name(name: NoteName) -> str:
    """Return a note name as it stands in a text, such as "E♭" or "F♯"; F double sharp is called "G"."""
    plain = plain_name(name)
    return f"{plain.letter}{_ACCIDENTAL_SIGNS[plain.alteration]}"


def _reason(reason: str, chord: Chord, context: Context, scale: Scale) -> str:
    """Return a reason with its blanks filled for a chord, the notes of the scale called as the scale does."""
    root = chord.root or NoteName(0)
    in_scale = {note.pitch_class: note for note in scale.notes}

    def filled(found: re.Match[str]) -> str:
        written, blank = found.groups()
        if blank == "symbol":
            return chord.text
        if blank == "next":
            return "" if context.following is None else context.following.text
        if blank == "root":
            name = root
        elif blank == "coming":
            name = _coming(chord, context)
        else:
            name = plain_name(root + degree_interval("b3" if blank == "#9" else blank))
            name = in_scale.get(name.pitch_class, name)
        return str(name) if written else spoken_name(name)

    text = _BLANK.sub(filled, reason)
    return text[0].upper() + text[1:]


# From a scale to the chords that it goes with.


@lru_cache(maxsize=64)
def serves(row: ScaleRow) -> tuple[Service, ...]:
    """Return the kinds of chords that a scale on their root goes with, those first for which it is best."""
    found: list[Service] = []
    examples: dict[str, str] = {}
    for kind in KINDS:
        examples.setdefault(kind.name, kind.example)
    for table_row in ROWS:
        for place, fit in enumerate(table_row.fits, start=1):
            if fit.scale == row.name and fit.start == "1":
                found += [Service(kind, examples[kind], table_row.context, place) for kind in table_row.kinds]
    return tuple(sorted(found, key=lambda service: service.place))
