"""How many onsets of real solos come back, by what is given of their beats, and how sure the answers are.

    python benchmarks/played_in_solos.py FILE [--bars 16] [--count 40] [--held] [--given bars tempo nothing]

FILE is the data that `real_lines` reads, whose notes have times as they were played and places as analysts
wrote them. Of each solo in 4/4 the first bars are taken, so many as --bars says, with their changes; with
--phrases the phrases of `real_lines`. Beats are not in the data: they are a smooth curve through the times of
the notes that are written on beats.

With `bars` given the notes stand on those beats and bar lines, and only the rhythm inside them is searched:
that is the most that finding beats can reach. With `tempo` the middle tempo is given, with `nothing` only
the changes. An onset is right on the written place of the written bar; a third counts as the swung eighth
that sounds the same (`exactly` counts without that). With `nothing` a table follows of how often beats and
bar lines were right (eight notes in ten within a quarter of a beat of their written places), by how far the
reading that was taken led before the next best.
"""

from __future__ import annotations

import argparse
import gzip
import json
import random
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import islice, pairwise
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_matrix, diags_array
from scipy.sparse.linalg import spsolve

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]

from benchmarks.real_lines import BAR, BEAT, held_solos, split_lines  # noqa: E402

from exchange.playing import midi_file, track  # noqa: E402 - the tests' folder must be first
from shedbook.errors import ShedbookError  # noqa: E402
from shedbook.exchange.midi.reader import read_midi  # noqa: E402
from shedbook.exchange.rhythm.beat_finding import find_bars  # noqa: E402
from shedbook.exchange.rhythm.beat_grids import GRAINS  # noqa: E402
from shedbook.exchange.rhythm.landings import Chart  # noqa: E402
from shedbook.exchange.rhythm.onsets import RecordedNote  # noqa: E402
from shedbook.exchange.rhythm.quantise import quantise  # noqa: E402
from shedbook.phrase.changes_text import parse_changes, print_changes  # noqa: E402
from shedbook.phrase.model import sounding_notes  # noqa: E402
from shedbook.theory.metre import Metre  # noqa: E402

_STEADY = 30.0
"""How much a bend of the curve of beats costs."""
_TICKS_A_US = 960 / 1e6
_NEAR = Fraction(1, 4)
_LEADS = (0, 5, 10, 20, 30, 40, 60, 80, 101)
_GIVEN = ("bars", "tempo", "nothing")

Places = list[tuple[Fraction, int]]


class Stretch(NamedTuple):
    """Notes of a solo: their places from the first bar on, times in microseconds, changes, times of beats."""

    places: Places
    timed: list[tuple[int, int, int]]
    changes: str
    beats: NDArray[np.float64]
    """The times of the beats in microseconds; those of one bar before the first one come first."""


def beats_of(notes: Sequence[Any], first: int, count: int) -> NDArray[np.float64]:
    """Return the times of the beats of a solo from the bar before a bar on, in microseconds."""
    places = np.array([(note[0] * BAR + note[1]) / BEAT for note in notes])
    times = np.array([float(note[5]) for note in notes])
    inside = np.array([note[1] % BEAT for note in notes])
    weight = np.where(inside == 0, 1.0, np.where(np.isin(inside, (6, 7, 8)), 0.05, 0.2))
    begin = int(np.floor(places.min())) - 1
    size = int(np.ceil(places.max())) + 3 - begin
    lower = np.floor(places).astype(int)
    share, lower = places - lower, lower - begin
    rows = np.arange(len(places))
    where = (np.concatenate((rows, rows)), np.concatenate((lower, lower + 1)))
    near = csr_matrix((np.concatenate((1 - share, share)), where), shape=(len(places), size))
    bend = diags_array([1.0, -2.0, 1.0], offsets=[0, 1, 2], shape=(size - 2, size))
    curve = np.zeros(size)
    loss = weight
    for _ in range(3):
        both = near.T @ diags_array(loss) @ near + _STEADY * bend.T @ bend
        curve = spsolve(both.tocsc(), near.T @ (loss * times))
        loss = weight / (1 + ((times - near @ curve) / 25) ** 2 / 2)
    wanted = np.arange(first * 4 - 4, first * 4 + count) - begin
    inner = np.interp(wanted, np.arange(size), curve)
    inner += np.minimum(wanted, 0) * (curve[1] - curve[0])
    inner += np.maximum(wanted - size + 1, 0) * (curve[-1] - curve[-2])
    return np.asarray(1000 * inner)


def stretches(path: Path, bars: int, *, held: bool) -> Iterator[Stretch]:
    """Yield the first bars of each solo in 4/4 that has at least two notes a bar there and chords."""
    with gzip.open(path, "rt") as file:
        solos = json.load(file)["solos"]
    kept = held_solos(path)
    for solo in solos:
        notes = solo["notes"]
        if solo["signature"] != "4/4" or (solo["n"] in kept) != held:
            continue
        first = max(1, notes[0][0])
        some = [at for at, note in enumerate(notes) if first <= note[0] < first + bars]
        changes = _changes([notes[at] for at in some], first, bars)
        if len(some) >= 2 * bars and "N.C." not in changes:
            yield _stretch(notes, some, first, bars, changes)


def phrases(path: Path, *, held: bool) -> Iterator[Stretch]:
    """Yield the phrases that `real_lines` takes, as they were played, in a drawn order."""
    with gzip.open(path, "rt") as file:
        solos = {solo["n"]: solo["notes"] for solo in json.load(file)["solos"]}
    split = split_lines(path)
    lines = split.held if held else split.tuned
    for phrase in random.Random(3).sample(lines, len(lines)):
        number, group = map(int, phrase.title.split("."))
        some = [at for at, note in enumerate(solos[number]) if note[4] == group]
        changes = print_changes(phrase.changes, phrase.full_bars, phrase.metre)
        yield _stretch(solos[number], some, solos[number][some[0]][0], phrase.full_bars, changes)


def _stretch(notes: Sequence[Any], some: Sequence[int], first: int, bars: int, changes: str) -> Stretch:
    places, timed = [], []
    for at in some:
        bar, place, midi, _, _, start, share, _ = notes[at]
        after = notes[at + 1][5] if at + 1 < len(notes) else start + 400
        end = start + max(20, (after - start) * (share if share > 0 else 90) / 100)
        places.append((Fraction((bar - first) * BAR + place, BEAT), midi))
        timed.append((int(start * 1000), int(end * 1000), midi))
    return Stretch(places, timed, changes, beats_of(notes, first, 4 * bars + 8))


def _changes(notes: Sequence[Any], first: int, bars: int) -> str:
    """Return the chords under notes, by half bars; a chord goes on until another one is heard."""
    found, now = [], notes[0][3] if notes else "N.C."
    for bar in range(first, first + bars):
        halves = []
        for half in (0, 1):
            now = next((one[3] for one in notes if one[0] == bar and one[1] // 24 == half), now)
            halves.append(now)
        found.append(halves[0] if halves[0] == halves[1] else " ".join(halves))
    return " | ".join(found)


def read(stretch: Stretch, given: str) -> Places:
    """Return the places at which the notes of a stretch are read."""
    tempo = Fraction(round(60e6 / float(np.median(np.diff(stretch.beats)))))
    if given == "bars":
        numbers = np.arange(len(stretch.beats)) * GRAINS
        notes = []
        for start, end, midi in stretch.timed:
            begin, stop = (int(np.interp(time, stretch.beats, numbers)) for time in (start, end))
            notes.append(RecordedNote(begin, max(begin + 1, stop), midi))
        return [(note.start - 4, note.midi) for note in quantise(notes, Metre(), tempo).notes]
    begin = stretch.timed[0][0]
    events = []
    for start, end, midi in stretch.timed:
        tick = round((start - begin) * _TICKS_A_US)
        events.append((tick, bytes((0x90, midi, 80))))
        events.append((max(tick + 1, round((end - begin) * _TICKS_A_US)), bytes((0x80, midi, 0))))
    events.sort(key=lambda one: (one[0], one[1][0]))
    data = midi_file([track(events)], form=0)
    known = tempo if given == "tempo" else None
    found = read_midi(data, "x", changes=stretch.changes, metre=Metre(), tempo_qpm=known, split=())
    return [(note.start, note.pitch.midi) for one in found.phrases[:1] for note in sounding_notes(one)]


def right(want: Places, have: Places, *, exactly: bool) -> int:
    """Return how many notes are read where they were written."""

    def heard(places: Places) -> Counter[tuple[Fraction, int]]:
        third = Fraction(2, 3)
        return Counter(
            (at - third + Fraction(1, 2) if at % 1 == third and not exactly else at, midi)
            for at, midi in places
        )

    return (heard(want) & heard(have)).total()


def lead(stretch: Stretch) -> tuple[int, bool]:
    """Return how far the reading that is taken leads, and whether its beats and bar lines are right."""
    changes = parse_changes(stretch.changes, Metre())
    starts = tuple(4 * (one.bar - 1) + (one.beat - 1) for one in changes.changes)
    chart = Chart(changes.bars, tuple(map(Fraction, starts)), tuple(one.chord for one in changes.changes))
    found = find_bars(stretch.timed, Metre(), chart=chart)
    if found is None:
        return 0, False
    begin = 4 * (found.notes[0].start // (4 * GRAINS) + found.begins_early)
    away = [
        abs(Fraction(note.start, GRAINS) - begin - place)
        for note, (place, _) in zip(found.notes, stretch.places, strict=True)
    ]
    return found.sure, 10 * sum(one < _NEAR for one in away) >= 8 * len(away)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("file", type=Path)
    parser.add_argument("--bars", type=int, default=16)
    parser.add_argument("--phrases", action="store_true")
    parser.add_argument("--count", type=int, default=40)
    parser.add_argument("--held", action="store_true")
    parser.add_argument("--given", nargs="+", choices=_GIVEN, default=_GIVEN)
    options = parser.parse_args()
    if options.phrases:
        lines = list(islice(phrases(options.file, held=options.held), options.count))
    else:
        lines = list(stretches(options.file, options.bars, held=options.held))
        random.Random(3).shuffle(lines)
    told: Counter[str] = Counter()
    leads: Counter[tuple[int, bool]] = Counter()
    for stretch in lines[: options.count]:
        for given in options.given:
            try:
                have = read(stretch, given)
            except ShedbookError as error:
                print(f"not read: {error.message}")
                continue
            alike = right(stretch.places, have, exactly=False)
            told[given] += alike
            told[f"{given} exactly"] += right(stretch.places, have, exactly=True)
            told[f"{given} of"] += len(stretch.places)
            if given == "nothing":
                sure, found_well = lead(stretch)
                leads[max(one for one in _LEADS if one <= sure), found_well] += 1
    for given in options.given:
        of = told[f"{given} of"]
        print(f"{given} given: {told[given] / of:.1%} of {of} onsets right")
        print(f"  exactly {told[f'{given} exactly'] / of:.1%}")
    for step, after in pairwise(_LEADS):
        good, bad = leads[step, True], leads[step, False]
        if good + bad:
            print(f"lead {step} to {after - 1}: {good} of {good + bad} lines right")


if __name__ == "__main__":
    main()
