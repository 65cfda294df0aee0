"""What the band plays in every feel, in one table that a person can read: tests/sound/golden/band.txt.

Two bars of Dm7 and G7 in sixteenths, then figures of twenty-four bars. UPDATE_GOLDEN=1 writes the table anew;
read it before it is kept. Source: our own band; what is expected of a style stands in feels/test_styles.py.
"""

from __future__ import annotations

import os
import statistics
from collections.abc import Iterable
from fractions import Fraction
from pathlib import Path

from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.players.bass import bass
from shedbook.sound.players.comping import comping
from shedbook.sound.players.drums import accents_of, drums
from shedbook.sound.score.written_score import PartNote
from sound.demo_scores import chart

GOLDEN = Path(__file__).parent / "golden" / "band.txt"
CHANGES = "Dm7 | G7 | Cmaj7 | A7"
DRUMS = {
    51: "ride", 53: "bell", 42: "closed hat", 46: "open hat", 44: "foot hat", 70: "shaker", 38: "snare/tap",
    40: "brush", 37: "rim", 36: "kick", 41: "low surdo", 43: "high surdo", 47: "mid tom", 48: "high tom",
    49: "crash", 62: "conga slap", 63: "conga",
}  # fmt: skip
NOTES = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"]


def grid(notes: Iterable[PartNote], steps: int) -> str:
    """Return strokes in sixteenths: x loud, o middling, . soft, - none; triplets fall on the one before."""
    cells = ["-"] * steps
    for note in notes:
        at = int(note.start * 4)
        if at < steps:
            cells[at] = "x" if note.velocity >= 60 else "o" if note.velocity >= 40 else "."
    bar = steps // 2
    return "".join(cells[:bar]) + " | " + "".join(cells[bar:])


def of_feel(feel: str) -> list[str]:
    metre = "3/4" if feel == "waltz" else "4/4"
    over = chart(CHANGES, feel=feel, metre=metre, rounds=6)
    bar = over.metre.bar_quarters
    low, chords = bass(over, seed=1), comping(over, seed=1)
    struck = drums(over, seed=1, accents=accents_of(over, chords))
    steps = int(bar * 8)
    rows = [feel]
    for key, name in DRUMS.items():
        own = [note for note in struck if note.midi == key]
        if any(note.start < 2 * bar for note in own):
            rows.append(f"  {name:11} {grid(own, steps)}")
    rows.append(f"  {'piano':11} {grid(chords, steps)}")
    rows.append(f"  {'bass':11} {grid(low, steps)}")
    named = " ".join(f"{NOTES[note.midi % 12]}{note.midi // 12 - 1}" for note in low if note.start < 2 * bar)
    rows.append(f"  {'':11} {named}")
    return [*rows, *figures(low, chords, struck, bar)]


def figures(
    low: tuple[PartNote, ...], chords: tuple[PartNote, ...], struck: tuple[PartNote, ...], bar: Fraction
) -> list[str]:
    ones = [note.midi % 12 for note in low if note.start % bar == 0]
    roots = [(2, 7, 0, 9)[int(note.start // bar) % 4] for note in low if note.start % bar == 0]
    on_root = sum(one == root for one, root in zip(ones, roots, strict=True))
    first, last = (
        statistics.mean(
            note.velocity for note in (*low, *chords, *struck) if start <= note.start < start + 4 * bar
        )
        for start in (Fraction(0), 20 * bar)
    )
    return [
        f"  a bar       bass {len(low) / 24:.2f}, piano {len({note.start for note in chords}) / 24:.2f}, "
        f"drums {len(struck) / 24:.2f}",
        f"  bass        {on_root} of {len(ones)} bars begin with the root; MIDI {min(n.midi for n in low)} "
        f"to {max(n.midi for n in low)}, median {statistics.median(n.midi for n in low):g}",
        f"  velocity    {first:.0f} in the first round, {last:.0f} in the last",
        "",
    ]


def test_the_band_of_every_feel() -> None:
    found = "\n".join(row for feel in FEELS for row in of_feel(feel))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.parent.mkdir(exist_ok=True)
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")
