"""Chords that nobody wrote: those that lead back to a beginning, into another key, and the last one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from shedbook.analysis.hearing.harmony import harmony_of
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.tables.arrangements import ENDING_KINDS, SET_UPS
from shedbook.sound.players.band_chart import Stretch
from shedbook.table_index import need
from shedbook.theory.chord import Chord, name_over, plain_name
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.tables.degrees import FAMILY_DEGREES

_FILE = "src/shedbook/sound/arranging/tables/arrangements.py"


def check_families(set_ups: Mapping[str, Sequence[tuple[str, str]]], ending_kinds: Mapping[str, str]) -> None:
    """See that a chord of every family can be led to, and that a track can end in either mode.

    Raises:
        TableError: if a family or a mode has no row.
    """
    for family in (*FAMILY_DEGREES, "altered"):
        need(
            bool(set_ups.get(family)),
            f'No chord leads to one of the family "{family}".',
            f'Write "{family}": ((degree, kind), …) into SET_UPS in {_FILE}.',
        )
    for mode in ("major", "minor"):
        need(
            mode in ending_kinds,
            f"A track in {mode} has no last chord.",
            f'Write "{mode}": kind into ENDING_KINDS in {_FILE}.',
        )


check_families(SET_UPS, ENDING_KINDS)


def leading_chords(target: Chord, most: int) -> tuple[Chord, ...]:
    """Return the chords that lead to a chord, in order.

    Args:
        target: the chord to come; nothing leads to N.C.
        most: how many chords there is room for; the last ones of the table's row are kept.

    The rows stand in `tables.arrangements` (common practice).
    """
    root = target.root
    if root is None:
        return ()
    dark = target.altered or any(tension in ("b9", "#9", "b13") for tension in target.tensions)
    family = "altered" if target.family == "dominant" and dark else target.family
    rows = SET_UPS[family][-most:]
    return tuple(parse_chord(f"{plain_name(name_over(root, degree))}{kind}") for degree, kind in rows)


def set_up(start: Fraction, metre: Metre, target: Chord, key: Key, staying: Stretch) -> tuple[Stretch, ...]:
    """Return one bar of chords that lead to another chord, one for each half of the bar.

    Args:
        start: where the bar begins, in quarters from the first beat of the track.
        metre: the metre of the bar; a bar that has no second strong beat gets one chord.
        target: the chord to come.
        key: the key in which the chords are read, for their scales.
        staying: the chord that goes on through the bar where nothing leads to the target.
    """
    end = start + metre.bar_quarters
    chords = leading_chords(target, min(2, len(metre.groups)))
    if not chords:
        return (Stretch(start, end, staying.chord, staying.scale),)
    half = metre.groups[: (len(metre.groups) + 1) // 2]
    middle = start + sum(half) * metre.beat_quarters
    places = [start, end] if len(chords) == 1 else [start, middle, end]
    read = harmony_of([*chords, target], [1] * len(chords) + [2], key=key)
    return tuple(
        Stretch(places[at], places[at + 1], chord, read.scales[at].scale) for at, chord in enumerate(chords)
    )


def last_chord(phrase: Phrase, stretches: Sequence[Stretch]) -> Stretch:
    """Return the chord on which a track ends, over no time yet: the last one, or the tonic after a dominant.

    A phrase over a single chord stays on it.
    """
    last = stretches[-1]
    several = len({stretch.chord.root for stretch in stretches}) > 1
    root = last.chord.root
    if not several or root is None or last.chord.family not in ("dominant", "suspended", "diminished"):
        return last
    tonic = phrase.key.tonic
    if root.pitch_class == tonic.pitch_class:
        return last
    first = stretches[0].chord
    at_home = (
        first.root is not None
        and first.root.pitch_class == tonic.pitch_class
        and first.family in ("major", "minor")
    )
    chord = first if at_home else parse_chord(f"{tonic}{ENDING_KINDS[phrase.key.mode]}")
    read = harmony_of([last.chord, chord], [1, 2], key=phrase.key)
    return Stretch(last.start, last.end, chord, read.scales[1].scale)
