"""The changes over the bars of a phrase: those of its file, or those that the author gives instead."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.exchange.ground.long_line import LineBar
from shedbook.exchange.ground.report import Reporter
from shedbook.phrase.changes_text import parse_changes, print_beat
from shedbook.phrase.model import ChangeAt
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.metre import Metre

_FINEST_BEAT = 12
"""Chords between the beats are moved to the nearest twelfth of a beat."""


def report_repeated(bars: int, changes: int, first_bar: str, reporter: Reporter) -> None:
    """Report changes that are repeated under a longer line, or reach beyond a shorter one.

    Args:
        bars: how many full bars the line has.
        changes: how many bars the changes have.
        first_bar: the label of the first bar.
        reporter: told where the two numbers differ.
    """
    if bars > changes:
        reporter.note(f"the line goes over {bars} bars: the {changes} of the changes are repeated", first_bar)
    elif bars < changes:
        reporter.note(
            f"the changes are {changes} bars long, the line {bars}: the rest of them is cut off", first_bar
        )


def with_changes(bars: Sequence[LineBar], text: str, reporter: Reporter) -> list[LineBar]:
    """Return the bars of a phrase with the author's changes in place of their own.

    The changes are repeated under a longer line. A pick-up has none.

    Args:
        bars: the bars of one phrase, at least one.
        text: the changes as a phrase of the manuscript has them.
        reporter: told where the changes and the line have different lengths.

    Raises:
        ReadError: if the changes cannot be read.
    """
    metre = bars[0].context.metre
    said = parse_changes(text, metre)
    chords: list[list[tuple[Fraction, Chord]]] = [[] for _ in range(said.bars)]
    for change in said.changes:
        chords[change.bar - 1].append(((change.beat - 1) * metre.beat_quarters, change.chord))
    first = 1 if len(bars) > 1 and bars[0].quarters < metre.bar_quarters else 0
    report_repeated(len(bars) - first, said.bars, bars[0].label, reporter)
    return [
        replace(bar, chords=tuple(chords[(index - first) % said.bars]) if index >= first else ())
        for index, bar in enumerate(bars)
    ]


def changes_over(
    bars: Sequence[Sequence[tuple[Fraction, Chord]]],
    first: int,
    metre: Metre,
    before: Chord | None,
    reporter: Reporter,
) -> tuple[ChangeAt, ...]:
    """Return the changes of a phrase, at least one in every full bar.

    A bar without chords repeats the chord before it. Where no chord came before, the bar is N.C.

    Args:
        bars: the chords of each bar, with their places in quarter notes from the start of the bar.
        first: the number of the first bar, 0 for a pick-up.
        metre: the metre of the phrase.
        before: the chord that sounds before the phrase, None for none.
        reporter: told what was moved or left out.
    """
    sounding = before
    found: list[ChangeAt] = []
    if before is None and not any(bars):
        reporter.note("there are no chord symbols: every bar is N.C. until you write them")
    for number, chords in enumerate(bars, first):
        if number == 0:
            sounding = chords[-1][1] if chords else sounding
            if chords:
                reporter.note("the chord over the pick-up is heard from bar 1 on")
            continue
        here = _in_bar(chords, number, metre, reporter)
        if not here or (number == 1 and here[0].beat != 1):
            filler = sounding or parse_chord("N.C.")
            same = bool(here) and here[0].chord == filler
            here = [ChangeAt(number, Fraction(1), filler), *(here[1:] if same else here)]
        found += here
        sounding = here[-1].chord
    return tuple(found)


def _in_bar(
    chords: Sequence[tuple[Fraction, Chord]], number: int, metre: Metre, reporter: Reporter
) -> list[ChangeAt]:
    """Return the changes of a bar, each on a beat that the manuscript can write, one on each beat."""
    found: dict[Fraction, ChangeAt] = {}
    for place, chord in chords:
        beat = metre.beat_at(place)
        if beat.denominator > 99 and len(print_beat(beat)) > 7:
            beat = Fraction(round(beat * _FINEST_BEAT), _FINEST_BEAT)
            reporter.note("chords between the beats are moved to the nearest twelfth of one", str(number))
        if beat >= metre.beats + 1:
            reporter.note("chords behind the end of their bar are left out", str(number))
            continue
        if beat in found:
            reporter.note("of chords in one place the last is kept", str(number))
        found[beat] = ChangeAt(number, beat, chord)
    return [found[beat] for beat in sorted(found)]
