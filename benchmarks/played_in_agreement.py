"""How often a line that was played in without a click comes back with its bar lines, given its changes alone.

    python benchmarks/played_in_agreement.py [FOLDER]

The demo phrases, or those of the manuscript in FOLDER, are played by a program at a tempo drawn between 60
and 300 (evenly by octaves), swung at a ratio that suits it, with notes up to 8, 15 or 20 ms early or late
and held for at least 0.5, 0.7 or 0.85 of their length, into a file that says nothing of its tempo and
begins up to four seconds before the first note. A note is right where it begins on the written beat of the
written bar. The answers that are called fairly sure are counted by themselves: right is a line of which
nine notes in ten are.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from exchange.playing import midi_file, played, track  # noqa: E402 - the tests' folder must be first
from shedbook.book.manuscript.opening import open_manuscript  # noqa: E402
from shedbook.book.manuscript.source import read_phrase  # noqa: E402
from shedbook.exchange.midi.reader import read_midi  # noqa: E402
from shedbook.exchange.rhythm.beat_grids import GRAINS  # noqa: E402
from shedbook.exchange.rhythm.onsets import RecordedNote  # noqa: E402
from shedbook.phrase.changes_text import print_changes  # noqa: E402
from shedbook.phrase.model import Phrase, sounding_notes  # noqa: E402

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


def main() -> None:
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "examples" / "tidewater"
    right = notes = 0
    answers: Counter[tuple[str, bool]] = Counter()
    phrases = [read_phrase(source) for source in open_manuscript(folder).phrases]
    for phrase in phrases:
        if phrase.metre.unit != 4:
            continue
        dice = random.Random(phrase.title)
        tempo = round(60 * 5 ** dice.random())
        changes = print_changes(phrase.changes, phrase.full_bars, phrase.metre)
        found = read_midi(recorded(phrase, tempo, dice), "x", changes=changes, metre=phrase.metre)
        want = Counter((note.start, note.pitch.midi) for note in sounding_notes(phrase))
        lines = found.phrases[:1]
        have = Counter((note.start, note.pitch.midi) for one in lines for note in sounding_notes(one))
        alike = (want & have).total()
        right, notes = right + alike, notes + want.total()
        said = " ".join(map(str, found.report.remarks))
        answers["fairly sure" if "fairly sure" in said else "a guess", 10 * alike >= 9 * want.total()] += 1
    print(f"{right} of {notes} onsets ({right / notes:.1%})")
    for called in ("fairly sure", "a guess"):
        good, bad = answers[called, True], answers[called, False]
        print(f"called {called}: {good} of {good + bad} lines right")


if __name__ == "__main__":
    main()
