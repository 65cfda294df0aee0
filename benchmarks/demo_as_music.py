"""The demo book beside real lines: how it starts, ends, crosses the changes, moves and breathes, in figures.

    python -m benchmarks.demo_as_music [MANUSCRIPT] [--real PATH/real-lines.json.gz] [--each]

Every figure is one function below, and its docstring is its definition. All of them look at the places where
notes are struck and at nothing else, because the open database says little of how long a note is held.
Counted are the phrases in 4/4 with six notes or more.

The real range: phrases of the Weimar Jazz Database (Pfleiderer et al., Inside the Jazzomat, 2017; Open
Database Licence; half of its solos, as `benchmarks.real_lines` reads them) that lie on the eighth grid, have
7 to 25 notes and hold at least one change of chord, 80 in all. Of these 36 are drawn at random, each time
from all of them, 2,000 times; the range is the middle 95 % of the figure of the draws: what a book of three
dozen real lines might show. `REAL` keeps the ranges, rounded to whole per cents; `--real` draws them anew.
`--each` names the phrases in which what a figure counts is so.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from benchmarks.real_lines import split_lines

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.chord import Chord

DEMO = Path(__file__).parents[1] / "examples" / "tidewater"
DRAWN, DRAWS, MIDDLE = 36, 2_000, 0.95
EIGHTH, BAR = Fraction(1, 2), 4
SHORTEST, LONGEST, FEWEST = 7, 25, 6


class Struck(NamedTuple):
    """A note: where it is struck, in quarters from bar 1, its MIDI number and the chord that sounds there."""

    at: Fraction
    midi: int
    chord: Chord


@dataclass(frozen=True)
class Line:
    """The notes of a phrase in 4/4, in order."""

    title: str
    notes: tuple[Struck, ...]


class Share(NamedTuple):
    """How often something is so, of how often it might be."""

    so: int
    of: int


def line_of(phrase: Phrase) -> Line:
    """Return the notes of a phrase."""
    notes = tuple(
        Struck(note.start, note.pitch.midi, phrase.changes[phrase.change_index_at(note.start)].chord)
        for note in sounding_notes(phrase)
    )
    return Line(phrase.title, notes)


# The figures.


def starts_on_beat_1(line: Line) -> Share:
    """Of all phrases, those whose first note is struck on beat 1 of a bar."""
    return Share(int(line.notes[0].at % BAR == 0), 1)


def ends_off_the_beat(line: Line) -> Share:
    """Of all phrases, those whose last note is struck between two beats."""
    return Share(int(line.notes[-1].at % 1 != 0), 1)


def chord_tone_on_beat_1(line: Line) -> Share:
    """Of the notes struck on beat 1, those that are root, third, fifth, sixth or seventh of their chord.

    A sixth counts in a sixth chord, a suspended fourth in place of the third; a tension does not count.
    """
    strong = [note for note in line.notes if note.at % BAR == 0]
    return Share(sum(_degree(note) is not None for note in strong), len(strong))


def enters_by_half_step(line: Line) -> Share:
    """Of the changes of chord inside a phrase, those that the line crosses by a half step, up or down.

    The crossing is from the last note struck before the change to the first one struck with it or after.
    """
    crossings = _crossings(line)
    return Share(sum(abs(after.midi - before.midi) == 1 for before, after in crossings), len(crossings))


def enters_on_the_third(line: Line) -> Share:
    """Of the changes of chord inside a phrase, those after which the first note struck is the new third."""
    crossings = _crossings(line)
    return Share(sum(_degree(after) in ("3", "b3") for _, after in crossings), len(crossings))


def thirds(line: Line) -> Share:
    """Of the intervals from note to note, rests not regarded, those of three or four half steps."""
    sizes = _sizes(line)
    return Share(sum(3 <= size <= 4 for size in sizes), len(sizes))


def fourths_and_wider(line: Line) -> Share:
    """Of the intervals from note to note, those of five half steps or more."""
    sizes = _sizes(line)
    return Share(sum(size >= 5 for size in sizes), len(sizes))


def repeated_notes(line: Line) -> Share:
    """Of the intervals from note to note, those that stay on the same pitch."""
    sizes = _sizes(line)
    return Share(sizes.count(0), len(sizes))


def syncopated_notes(line: Line) -> Share:
    """Of all notes but the last, those struck between two beats while nothing is struck on the next beat."""
    found = sum(a.at % 1 != 0 and b.at > a.at - a.at % 1 + 1 for a, b in pairwise(line.notes))
    return Share(found, len(line.notes) - 1)


def bar_lines_anticipated(line: Line) -> Share:
    """Of the bar lines inside a phrase, those with a note in the half beat before and none on beat 1."""
    struck = {note.at for note in line.notes}
    first, last = line.notes[0].at, line.notes[-1].at
    bars = [Fraction(at) for at in range(int(first // BAR) * BAR, int(last) + 1, BAR) if first < at <= last]
    early = sum(bar not in struck and any(bar - EIGHTH <= at < bar for at in struck) for bar in bars)
    return Share(early, len(bars))


def bars_of_eight_eighths(line: Line) -> Share:
    """Of the bars in which a note is struck, those with one on each of the eight eighths and no other."""
    by_bar: dict[int, list[Fraction]] = {}
    for note in line.notes:
        by_bar.setdefault(int(note.at // BAR), []).append(note.at % BAR)
    full = [EIGHTH * step for step in range(8)]
    return Share(sum(places == full for places in by_bar.values()), len(by_bar))


def _degree(note: Struck) -> str | None:
    """Return which of root, third, fifth, sixth and seventh of its chord a note is, or None."""
    chord = note.chord
    if chord.root is None:
        return None
    core = len(chord.degrees) - len(chord.tensions)
    tones = zip(chord.degrees[:core], chord.tones, strict=False)
    return next((degree for degree, tone in tones if tone.pitch_class == note.midi % 12), None)


def _crossings(line: Line) -> list[tuple[Struck, Struck]]:
    return [(a, b) for a, b in pairwise(line.notes) if a.chord != b.chord]


def _sizes(line: Line) -> list[int]:
    return [abs(b.midi - a.midi) for a, b in pairwise(line.notes)]


class Row(NamedTuple):
    """A row of the table: its name, its figure, and the real range in per cent."""

    name: str
    figure: Callable[[Line], Share]
    low: int
    high: int


REAL: tuple[Row, ...] = (
    Row("starts on beat 1", starts_on_beat_1, 6, 33),
    Row("ends off the beat", ends_off_the_beat, 25, 56),
    Row("chord tone on beat 1", chord_tone_on_beat_1, 43, 70),
    Row("enters a chord by half step", enters_by_half_step, 18, 42),
    Row("enters a chord on its third", enters_on_the_third, 8, 26),
    Row("thirds among the intervals", thirds, 19, 29),
    Row("fourths and wider", fourths_and_wider, 9, 18),
    Row("repeated notes", repeated_notes, 4, 16),
    Row("syncopated notes", syncopated_notes, 4, 11),
    Row("bar lines anticipated", bar_lines_anticipated, 4, 21),
    Row("bars of eight eighths", bars_of_eight_eighths, 3, 16),
)


def per_cent(lines: Sequence[Line], figure: Callable[[Line], Share]) -> float:
    """Return a figure of all lines together, in per cent."""
    shares = [figure(line) for line in lines]
    return 100 * sum(share.so for share in shares) / max(1, sum(share.of for share in shares))


def real_lines(path: Path) -> list[Line]:
    """Return the real lines that the demo is compared with."""
    found = []
    for phrase in (phrase for phrases in split_lines(path) for phrase in phrases):
        line = line_of(phrase)
        on_grid = all(note.at % EIGHTH == 0 for note in line.notes)
        if on_grid and SHORTEST <= len(line.notes) <= LONGEST and _crossings(line):
            found.append(line)
    return found


def drawn_range(lines: Sequence[Line], figure: Callable[[Line], Share]) -> tuple[float, float, float]:
    """Return the figure of all lines, and the middle 95 % of it in draws of 36 lines, in per cent."""
    dice = random.Random(1)
    shares = [figure(line) for line in lines]
    drawn = []
    for _ in range(DRAWS):
        taken = dice.choices(shares, k=DRAWN)
        drawn.append(100 * sum(share.so for share in taken) / max(1, sum(share.of for share in taken)))
    drawn.sort()
    tail = round(DRAWS * (1 - MIDDLE) / 2)
    whole = 100 * sum(share.so for share in shares) / sum(share.of for share in shares)
    return whole, drawn[tail], drawn[-1 - tail]


def demo_lines(manuscript: Path = DEMO) -> list[Line]:
    """Return the lines of a manuscript that are counted: those in 4/4 with six notes or more."""
    phrases = [read_phrase(source) for source in open_manuscript(manuscript).phrases]
    lines = [line_of(phrase) for phrase in phrases if phrase.metre.beats == phrase.metre.unit == 4]
    return [line for line in lines if len(line.notes) >= FEWEST]


def main() -> None:
    plain = argparse.RawDescriptionHelpFormatter
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=plain)
    parser.add_argument("manuscript", type=Path, nargs="?", default=DEMO)
    parser.add_argument("--real", type=Path, help="the file of real lines, to draw the range anew")
    parser.add_argument("--each", action="store_true", help="name the phrases of which each figure speaks")
    asked = parser.parse_args()
    lines = demo_lines(asked.manuscript)
    real = real_lines(asked.real) if asked.real else []
    print(f"{len(lines)} phrases of the book" + (f", {len(real)} real ones" if real else ""))
    print(f"{'':30}{'book':>8}{'real range':>14}")
    for row in REAL:
        value = per_cent(lines, row.figure)
        low, high, whole = float(row.low), float(row.high), ""
        if real:
            all_of_them, low, high = drawn_range(real, row.figure)
            whole = f"   all real ones {all_of_them:.1f} %"
        outside = "" if low <= value <= high else "   outside"
        print(f"{row.name:30}{value:6.1f} %{low:8.0f} to {high:.0f}{whole}{outside}")
        if asked.each:
            print("   ", ", ".join(f"{ln.title} {s.so}/{s.of}" for ln in lines if (s := row.figure(ln)).so))


if __name__ == "__main__":
    main()
