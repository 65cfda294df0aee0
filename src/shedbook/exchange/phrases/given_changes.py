"""What holds throughout a phrase: its changes where the author gives them, and one tempo, feel and key."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from shedbook.exchange.ground.long_line import LineBar, Setting
from shedbook.exchange.ground.report import Reporter
from shedbook.phrase.changes_text import parse_changes
from shedbook.theory.chord import Chord


def repeated(bars: int, changes: int, first_bar: str, reporter: Reporter) -> None:
    """Report changes that are repeated under a longer line, or reach beyond a shorter one."""
    if bars > changes:
        reporter.note(f"the line goes over {bars} bars: the {changes} of the changes are repeated", first_bar)
    elif bars < changes:
        reporter.note(
            f"the changes are {changes} bars long, the line {bars}: the rest of them is cut off", first_bar
        )


def with_changes(bars: Sequence[LineBar], text: str, reporter: Reporter) -> list[LineBar]:
    """Return the bars of a phrase with the author's changes; a pick-up has none.

    Raises:
        ReadError: if the changes cannot be read.
    """
    metre = bars[0].setting.metre
    said = parse_changes(text, metre)
    chords: list[list[tuple[Fraction, Chord]]] = [[] for _ in range(said.bars)]
    for change in said.changes:
        chords[change.bar - 1].append(((change.beat - 1) * metre.beat_quarters, change.chord))
    first = 1 if len(bars) > 1 and bars[0].quarters < metre.bar_quarters else 0
    repeated(len(bars) - first, said.bars, bars[0].label, reporter)
    return [
        replace(bar, chords=tuple(chords[(index - first) % said.bars]) if index >= first else ())
        for index, bar in enumerate(bars)
    ]


def held_throughout(bars: Sequence[LineBar], reporter: Reporter) -> None:
    """Report what changes inside a phrase, which has one tempo, one feel and one key signature.

    A metre is not among it: where it changes a line is divided.
    """
    kept = bars[0].setting
    for before, bar in pairwise(bars):
        if bar.setting is not before.setting:
            for lost in _differing(kept, before.setting, bar.setting):
                reporter.note(lost, bar.label)


def _differing(kept: Setting, before: Setting, now: Setting) -> list[str]:
    """Return in words what holds from a bar on, but neither before it nor at the beginning."""
    found = []
    if now.tempo_qpm not in (before.tempo_qpm, kept.tempo_qpm) and now.tempo_qpm is not None:
        found.append(f"a change of tempo, to {float(now.tempo_qpm):g} quarter notes a minute, is left out")
    if now.feel not in (before.feel, kept.feel, ""):
        found.append(f'a change of feel, to "{now.feel}", is left out')
    if now.fifths not in (before.fifths, kept.fifths) and now.fifths is not None:
        found.append(f"a change of key signature, to {_signs(now.fifths)}, is left out")
    return found


def _signs(fifths: int) -> str:
    sign = "sharp" if fifths > 0 else "flat"
    many = "no" if not fifths else str(abs(fifths))
    return f"{many} {'sharps or flats' if not fifths else sign if abs(fifths) == 1 else f'{sign}s'}"
