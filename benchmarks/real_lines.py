"""Phrases of real solos from an open database, as phrases of ours: to measure and to tune on, never to print.

The file holds half of the solos of the Weimar Jazz Database (Pfleiderer et al., Inside the Jazzomat, 2017;
Open Database Licence), as JSON: solos with notes (bar, place in 48ths of a bar, MIDI number, chord, number of
the analyst's phrase, ...). A phrase is taken when every note falls on eighths, eighth triplets or sixteenths
of its beat, no half bar has two chords, and it has 6 to 64 notes in at most eight bars. Only aggregate
figures of it may be kept.
"""

from __future__ import annotations

import gzip
import itertools
import json
import random
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase

BAR, BEAT = 48, 12
GRIDS = (2, 3, 4)
VALUES = {2: {1: "1/8"}, 3: {1: "1/8t", 2: "1/4t"}, 4: {1: "1/16", 2: "1/8", 3: "1/8."}}
NAMES = ("c", "db", "d", "eb", "e", "f", "gb", "g", "ab", "a", "bb", "b")
"""Names of notes by a fixed table: no spelling is judged by them."""


class Split(NamedTuple):
    """The phrases to tune on, those of two thirds of the solos, and the others, to report on."""

    tuned: list[Phrase]
    held: list[Phrase]


def split_lines(path: Path, seed: int = 11) -> Split:
    """Return the phrases of a file, divided by solos with a seed."""
    by_solo: dict[int, list[Phrase]] = {}
    for solo, phrase in _phrases(path):
        by_solo.setdefault(solo, []).append(phrase)
    held = held_among(by_solo, seed)
    found = Split([], [])
    for solo, phrases in by_solo.items():
        (found.held if solo in held else found.tuned).extend(phrases)
    return found


def held_solos(path: Path, seed: int = 11) -> set[int]:
    """Return the numbers of the solos that `split_lines` keeps to report on."""
    return held_among({solo for solo, _ in _phrases(path)}, seed)


def held_among(solos: Iterable[int], seed: int = 11) -> set[int]:
    """Return a third of the numbers of solos, drawn with a seed."""
    numbers = sorted(solos)
    random.Random(seed).shuffle(numbers)
    return set(numbers[: len(numbers) // 3])


def _phrases(path: Path) -> Iterator[tuple[int, Phrase]]:
    """Yield every usable phrase with the number of its solo."""
    with gzip.open(path, "rt") as file:
        solos = json.load(file)["solos"]
    for solo in solos:
        if solo["signature"] != "4/4":
            continue
        groups: dict[int, list[Any]] = {}
        for note in solo["notes"]:
            groups.setdefault(note[4], []).append(note)
        for number, notes in groups.items():
            usable = 6 <= len(notes) <= 64 and notes[-1][0] - notes[0][0] < 8
            if not usable or any(note[3] == "N.C." or note[1] < 0 for note in notes):
                continue
            fields = _fields(notes)
            if fields is not None:
                tempo = max(40, min(320, round(solo["tempo"])))
                fields |= {"title": f"{solo['n']}.{number}", "tempo": tempo, "feel": "swing"}
                yield solo["n"], phrase_from_fields(fields)


def _fields(notes: Sequence[Any]) -> dict[str, object] | None:
    """Return changes and line of a phrase, or None where they cannot be written plainly."""
    onsets = [(note[0] - notes[0][0]) * BAR + note[1] for note in notes]
    if any(after <= before for before, after in itertools.pairwise(onsets)):
        return None
    bars = onsets[-1] // BAR + 1
    grids = []
    for beat in range(bars * 4):
        inside = [onset % BEAT for onset in onsets if onset // BEAT == beat]
        grid = next((one for one in GRIDS if all(place % (BEAT // one) == 0 for place in inside)), None)
        if grid is None:
            return None
        grids.append(grid)
    changes = _changes([note[3] for note in notes], onsets, bars)
    return None if changes is None else {"changes": changes, "line": _line(notes, onsets, bars, grids)}


def _changes(chords: Sequence[str], onsets: Sequence[int], bars: int) -> str | None:
    found: list[str] = []
    for bar in range(bars):
        halves = [
            list(dict.fromkeys(c for c, o in zip(chords, onsets, strict=True) if o // 24 == 2 * bar + half))
            for half in (0, 1)
        ]
        if any(len(half) > 1 for half in halves):
            return None
        first = halves[0] or halves[1]
        second = halves[1] or first
        if not first:
            found.append("%")
        else:
            found.append(first[0] if first == second else f"{first[0]} {second[0]}")
    after_two = any(one == "%" and " " in before for before, one in itertools.pairwise(found))
    return None if found[0] == "%" or after_two else " | ".join(found)


def _line(notes: Sequence[Any], onsets: Sequence[int], bars: int, grids: Sequence[int]) -> str:
    """Write the line; each note lasts to the next one, the last one to the end of its beat."""
    line: list[list[str]] = [[] for _ in range(bars)]
    for bar, value in _pieces(0, onsets[0], grids):
        line[bar].append(f"{value} -")
    for at, (onset, note) in enumerate(zip(onsets, notes, strict=True)):
        end = onsets[at + 1] if at + 1 < len(onsets) else (onset // BEAT + 1) * BEAT
        by_bar: dict[int, list[str]] = {}
        for bar, value in _pieces(onset, end, grids):
            by_bar.setdefault(bar, []).append(value)
        name = f"{NAMES[note[2] % 12]}{note[2] // 12 - 1}"
        for bar, values in by_bar.items():
            tied = "+".join(values)
            line[bar].append(f"{tied} {name}" if bar == onset // BAR else f"+ {tied}")
    for bar, value in _pieces((onsets[-1] // BEAT + 1) * BEAT, bars * BAR, grids):
        line[bar].append(f"{value} -")
    return " | ".join(" ".join(bar) for bar in line)


def _pieces(start: int, end: int, grids: Sequence[int]) -> Iterator[tuple[int, str]]:
    """Yield the bar and the value of each beat's part of a stretch, in twelfths of a beat."""
    while start < end:
        beat = start // BEAT
        stop = min(end, (beat + 1) * BEAT)
        slots = (stop - start) * grids[beat] // BEAT
        yield beat // 4, "1/4" if slots == grids[beat] else VALUES[grids[beat]][slots]
        start = stop
