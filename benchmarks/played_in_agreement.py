"""How often a line that was played in without a click comes back with its bar lines, given its changes alone.

    python benchmarks/played_in_agreement.py [FOLDER] [--rounds 3]
    python benchmarks/played_in_agreement.py --solos FILE --count 200 [--held]

The demo phrases, or those of the manuscript in FOLDER, are played by a program at a tempo drawn between 60
and 300 (evenly by octaves), swung at a ratio that suits it, with notes up to 8, 15 or 20 ms early or late
and held for at least 0.5, 0.7 or 0.85 of their length, into a file that says nothing of its tempo and
begins up to four seconds before the first note. A note is right where it begins on the written beat of the
written bar. The answers that are called fairly sure are counted by themselves: right is a line of which
nine notes in ten are. Lines that are not right are told apart by what is wrong: the tempo, the place of the
beat, the bar line, or single notes. With --solos the phrases are those of the data that `real_lines` reads,
two thirds of its solos or, with --held, the others.
"""

from __future__ import annotations

import argparse
import random
import re
import sys
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT)]

from benchmarks.real_lines import split_lines  # noqa: E402

from exchange.playing import midi_file, played, track  # noqa: E402 - the tests' folder must be first
from shedbook.book.manuscript.opening import open_manuscript  # noqa: E402
from shedbook.book.manuscript.source import read_phrase  # noqa: E402
from shedbook.exchange.midi.reader import read_midi  # noqa: E402
from shedbook.exchange.rhythm.beat_grids import GRAINS  # noqa: E402
from shedbook.exchange.rhythm.onsets import RecordedNote  # noqa: E402
from shedbook.phrase.changes_text import print_changes  # noqa: E402
from shedbook.phrase.model import Phrase, sounding_notes  # noqa: E402

_FOUND = re.compile(r"found were about (\d+) beats a minute")
_TICKS = 480
_DEFAULT_QPM = 120


def recorded(phrase: Phrase, tempo: int, dice: random.Random) -> bytes:
    """Return a MIDI file of a phrase played at a tempo of which the file says nothing."""
    ratios = ("1", "1.3", "1.6", "2", "2.5") if tempo < 220 else ("1", "1.2", "1.4")
    notes = played(
        phrase, ratio=Fraction(dice.choice(ratios)), jitter_ms=dice.choice((8, 15, 20)),
        shortest_share=dice.choice((0.5, 0.7, 0.85)), tempo_qpm=tempo, dice=dice,
    )  # fmt: skip
    begin = Fraction(dice.randint(0, 4000), 1000) * _DEFAULT_QPM / 60
    return midi_file([track(list(_events(notes, begin, tempo)))], form=0, division=_TICKS)


def _events(notes: list[RecordedNote], begin: Fraction, tempo: int) -> Iterator[tuple[int, bytes]]:
    first = notes[0].start
    for note in notes:
        for time, status in ((note.start, 0x90), (note.end, 0x80)):
            quarters = begin + Fraction((time - first) * _DEFAULT_QPM, GRAINS * tempo)
            yield round(quarters * _TICKS), bytes((status, note.midi, 80))


class Answer(NamedTuple):
    """How many of the notes of a line are right, what is wrong with it, and what it is called."""

    right: int
    notes: int
    wrong: str
    called: str


def answer(phrase: Phrase, seed: str) -> Answer:
    """Play a phrase, read it, and compare."""
    dice = random.Random(phrase.title + seed)
    tempo = round(60 * 5 ** dice.random())
    changes = print_changes(phrase.changes, phrase.full_bars, phrase.metre)
    found = read_midi(recorded(phrase, tempo, dice), "x", changes=changes, metre=phrase.metre)
    want = [(note.start, note.pitch.midi) for note in sounding_notes(phrase)]
    have = [(note.start, note.pitch.midi) for one in found.phrases[:1] for note in sounding_notes(one)]
    alike = (Counter(want) & Counter(have)).total()
    said = " ".join(map(str, found.report.remarks))
    called = "fairly sure" if "fairly sure" in said else "a guess"
    wrong = "" if 10 * alike >= 9 * len(want) else _wrong(want, have, said, tempo)
    return Answer(alike, len(want), wrong, called)


def _wrong(want: list[tuple[Fraction, int]], have: list[tuple[Fraction, int]], said: str, tempo: int) -> str:
    """Return what is wrong with a line."""
    told = _FOUND.search(said)
    if told is None:
        return "the file's beats were kept"
    ratio = int(told[1]) / tempo
    if abs(ratio - 1) >= 0.06:
        octave = any(abs(ratio / one - 1) < 0.06 for one in (0.5, 2))
        return "half or double tempo" if octave else "another tempo"
    away = Counter(at - place for place, midi in want for at, other in have if other == midi)
    shift, many = away.most_common(1)[0] if away else (Fraction(0), 0)
    if many < 0.8 * len(want) or not shift:
        return "single notes"
    return "the bar line" if shift.denominator == 1 else "the place of the beat"


def phrases_of(options: argparse.Namespace) -> list[Phrase]:
    """Return the phrases that are asked for."""
    if options.solos is None:
        found = [read_phrase(source) for source in open_manuscript(options.folder).phrases]
        return [phrase for phrase in found if phrase.metre.unit == 4]
    split = split_lines(options.solos)
    lines = split.held if options.held else split.tuned
    return random.Random(5).sample(lines, min(options.count, len(lines)))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("folder", nargs="?", type=Path, default=ROOT / "examples" / "tidewater")
    parser.add_argument("--rounds", type=int, default=1, help="how often each phrase is played")
    parser.add_argument("--solos", type=Path, default=None)
    parser.add_argument("--held", action="store_true")
    parser.add_argument("--count", type=int, default=200)
    options = parser.parse_args()
    seeds = ["", *(str(10 + turn) for turn in range(1, options.rounds))]
    answers = [answer(phrase, seed) for phrase in phrases_of(options) for seed in seeds]
    right, notes = sum(one.right for one in answers), sum(one.notes for one in answers)
    print(f"{right} of {notes} onsets ({right / notes:.1%})")
    for called in ("fairly sure", "a guess"):
        some = [one for one in answers if one.called == called]
        print(f"called {called}: {sum(not one.wrong for one in some)} of {len(some)} lines right")
    for wrong, lines in Counter(one.wrong for one in answers if one.wrong).most_common():
        print(f"wrong is {wrong}: {lines} lines")


if __name__ == "__main__":
    main()
