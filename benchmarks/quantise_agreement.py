"""How often uneven playing comes back as the rhythm that was written.

    python benchmarks/quantise_agreement.py

Three sets of lines are played by a program with notes up to 20 ms early or late and held for 0.8 to 1 of
their length, at five swing ratios and five tempos, with other dice for each line, ratio and tempo:

- the demo phrases, and lines of music21's corpus, by which the costs of the quantiser were chosen, so that
  their shares flatter it;
- other lines of that corpus, drawn first by a fixed seed, which nobody looked at while choosing.
"""

from __future__ import annotations

import random
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import islice
from pathlib import Path

import music21

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests"))

from exchange.playing import played  # noqa: E402 - the tests' folder must be on the path first
from shedbook.errors import ShedbookError  # noqa: E402
from shedbook.exchange.musicxml.reader import read_musicxml  # noqa: E402
from shedbook.exchange.rhythm.beat_grids import GRAINS  # noqa: E402
from shedbook.exchange.rhythm.quantise import quantise  # noqa: E402
from shedbook.phrase.fields import phrase_from_fields  # noqa: E402
from shedbook.phrase.model import Phrase, sounding_notes  # noqa: E402

RATIOS = tuple(Fraction(text) for text in ("1", "1.3", "1.7", "2.1", "2.5"))
TEMPOS = (80, 120, 160, 200, 240)
_HELD_OUT, _TRAINING, _BARS = 60, 80, 8


def demo() -> Iterator[Phrase]:
    for path in sorted((ROOT / "examples" / "tidewater" / "phrases").glob("*.toml")):
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        for fields in table.get("phrase", [table]):
            yield phrase_from_fields(fields)


def corpus_lines() -> Iterator[Phrase]:
    """Yield the first bars of lines of the corpus, in a metre over 4, of 12 to 80 notes, one of a file."""
    root = Path(music21.__file__).parent / "corpus"
    files = sorted(path for path in root.rglob("*") if path.suffix in (".xml", ".mxl", ".musicxml"))
    random.Random(11).shuffle(files)
    for path in files:
        try:
            phrases = read_musicxml(path.read_bytes(), path.name, split=()).phrases
        except ShedbookError:
            continue
        if not phrases or phrases[0].metre.unit != 4 or phrases[0].full_bars < 4:
            continue
        line = replace(
            phrases[0], title=path.name, bars=tuple(bar for bar in phrases[0].bars if bar.number <= _BARS)
        )
        if 12 <= len(sounding_notes(line)) <= 80:
            yield line


def agreement(name: str, lines: Sequence[Phrase]) -> None:
    onsets = notes = whole = total = 0
    for ratio in RATIOS:
        alike = 0
        for place, line in enumerate(lines):
            shift = line.metre.bar_quarters
            want = [(note.start + shift, note.end + shift, note.pitch.midi) for note in sounding_notes(line)]
            for tempo in TEMPOS:
                dice = random.Random(f"{place} {line.title} {ratio} {tempo}")
                uneven = played(
                    line, ratio=ratio, jitter_ms=20, shortest_share=0.8, tempo_qpm=tempo, dice=dice
                )
                rhythm = quantise(uneven, line.metre, Fraction(tempo), ticks_per_quarter=GRAINS)
                have = [(note.start, note.end, note.midi) for note in rhythm.notes]
                both = Counter((start, midi) for start, _, midi in want)
                both &= Counter((start, midi) for start, _, midi in have)
                onsets += both.total()
                notes += len(want)
                alike += want == have
        whole += alike
        total += len(lines) * len(TEMPOS)
        print(f"  {name}, {float(ratio):.1f} to 1: {alike} of {len(lines) * len(TEMPOS)} whole lines")
    print(f"{name}: {onsets} of {notes} onsets ({onsets / notes:.1%}), "
          f"{whole} of {total} whole lines ({whole / total:.1%})")  # fmt: skip


def main() -> None:
    lines = tuple(islice(corpus_lines(), _HELD_OUT + _TRAINING))
    agreement("demo phrases", tuple(demo()))
    agreement("corpus lines for choosing costs", lines[_HELD_OUT:])
    agreement("held-out lines", lines[:_HELD_OUT])


if __name__ == "__main__":
    main()
