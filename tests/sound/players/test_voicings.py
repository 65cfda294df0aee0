"""What the band reads from a chord, and the voicings of it with their costs: tests/sound/golden/voicings.txt.

One chord of each kind with the scale that goes with it, and some whose scale is none of a chord. Each says
what its pair is, what the symbol insists on, which colours may be added, where the bass may walk, what would
contradict it, and every voicing that is kept with what it costs, the cheapest first. UPDATE_GOLDEN=1 writes
the text anew; read it before it is kept. Source: common practice of jazz piano (Levine 1989, from memory);
the figures are our own.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from itertools import groupby
from pathlib import Path

from shedbook.sound.players.usable_notes import usable_notes
from shedbook.sound.players.voicings import Voicing, shells, voicings
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.scale import parse_scale

GOLDEN = Path(__file__).parents[1] / "golden" / "voicings.txt"
NOTES = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
CHORDS = (
    ("G7", "mixolydian"), ("Ab7", "lydian dominant"), ("E7", "altered"), ("G7alt", "altered"), ("C7alt", ""),
    ("F7b9", "half-whole diminished"), ("Bb7#5", "whole tone"), ("Db9#11", "lydian dominant"),
    ("A13b9", "half-whole diminished"), ("D7#9b13", "altered"), ("Eb7", "bebop dominant"), ("B7", "blues"),
    ("Gb7", "mixolydian b6"), ("D7#5", "mixolydian"), ("G7sus4", "mixolydian"), ("E7sus4(b9)", "phrygian"),
    ("Cmaj7", "ionian"), ("Abmaj7#11", "lydian"), ("Fmaj7#5", "lydian augmented"), ("Bb6", "bebop major"),
    ("Dm7", "dorian"), ("Em7", "phrygian"), ("Bbm7", "bebop dorian"), ("Am(maj7)", "melodic minor"),
    ("Ebm6", "melodic minor"), ("Gm", "aeolian"), ("Bm7b5", "locrian"), ("F#m7b5", "locrian #2"),
    ("C#dim7", "whole-half diminished"), ("C", "major pentatonic"), ("F", ""), ("C/E", "ionian"),
    ("G5", "minor pentatonic"), ("D+", "whole tone"), ("D+", ""), ("D7b5", ""), ("N.C.", ""),
)  # fmt: skip


def named(classes: object) -> str:
    return " ".join(NOTES[one] for one in sorted(classes)) or "none"  # type: ignore[call-overload]


def chord_text(voicing: Voicing) -> str:
    return ".".join(f"{NOTES[midi % 12]}{midi // 12 - 1}" for midi in voicing)


def read(symbol: str, scale: str) -> Iterator[str]:
    chord = parse_chord(symbol)
    over = usable_notes(chord, parse_scale(scale, root=chord.root) if scale else None)
    yield f"# {symbol}" + f", {scale}" * bool(scale)
    if over.root is None:
        yield f"  silent: {over.ground} {over.pair} {over.colours} {voicings(over)} {shells(over)}"
        return
    yield f"  stands on {NOTES[over.ground or 0]}, pair {' '.join(NOTES[one] for one in over.pair)}"
    yield f"  needs {named(over.needed)}; may add " + " ".join(
        f"{degree} ({NOTES[pitch_class]})" for pitch_class, degree in over.colours
    )
    fifth = "none" if over.fifth is None else NOTES[over.fifth]
    yield f"  tones {named(over.tones)}; sevenths {named(over.sevenths)}; fifth {fifth}"
    yield f"  walks {named(over.walk)}; shuns {named(over.shunned)}"
    for cost, rows in groupby(voicings(over), key=lambda row: row[1]):
        yield f"  {cost:3} " + " ".join(chord_text(voicing) for voicing, _ in rows)
    yield "  pair alone: " + " ".join(chord_text(pair) for pair in shells(over))


def test_the_voicings_of_every_kind_of_chord() -> None:
    found = "\n".join(row for symbol, scale in CHORDS for row in (*read(symbol, scale), ""))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")
