"""Whole tracks as they are written, note for note, in one text that a person can read: golden/tracks.txt.

Short tracks that stand for what a track can be: each feel once, metres in eighths and odd ones, one round and
several, call and answer, empty bars, two keys, a loop, a ramp, a click, pick-ups and notes that come early,
chords in the middle of a bar, over a bass of their own, and none at all. A note is its place in the bar, its
name, how long it sounds in quarters, and its velocity; of drums the place and the velocity.
UPDATE_GOLDEN=1 writes the text anew; read it before it is kept. Source: our own band, which plays by its
tables (common practice, figures our own); what is expected of it stands in the tests of each player.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from pathlib import Path

import pytest

from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.score.written_score import DRUMS, Part, PartNote, Score
from sound.demo_scores import phrase

GOLDEN = Path(__file__).parents[1] / "golden" / "tracks.txt"
NOTES = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")
PASSAGES = ("count-in", "round", "answer", "space", "set-up", "ending")


MINOR = phrase(
    "Dm7b5 | G7alt | Cm6 Eb7@4.5 | Ab7#11",
    "1/8 c5 d | f4.accent ab c5 (eb d) b4.ghost ab.staccato f | - b eb5 db c bb4 1/4 ab.fall |"
    " 1/8 g a b4 eb5 1/4 f 1/8 - eb | + 1/4 1/8 d c 1/4 grace:b4 c5.scoop 1/4 -",
    pickup="1/4", tempo=144, key="C minor", title="Minor",
)  # fmt: skip
MAJOR = phrase(
    "Dm7 G7 | Cmaj7 | Em7/B A7b9 | N.C.",
    "1/8 d5 f a c6 b5 g f d | e 1/4. g5 1/8 - e 1/4 c | 1/8 e4 g b d5 c# bb4 g e | 1/2 d5 -",
    tempo=132, key="C major", title="Major",
)  # fmt: skip
BLUES = phrase(
    "C7 | F7 | C7/G | G7sus4",
    "1/8 e4 g bb 1/4. a 1/8 g e | a4 c5 eb 1/4. d 1/8 c a | 1/4 g4 e 1/8 g e c4 - | 1/1 f4",
    tempo=120, key="C major", title="Blues",
)  # fmt: skip
SHORT = phrase(
    "Bm7b5 E7b9 | Am(maj7)", "1/4 f4 a d5 1/8 b4 g# | 1/2 a 1/4 c5 -",
    tempo=66, key="A minor", title="Short",
)  # fmt: skip
ONE = phrase("F6", "1/4 f4 a c5 1/8 d c", tempo=176, key="F major", title="One")
SIX = phrase(
    "Gm7 | C7 | Fmaj7 | D7#9", "1/8 d5 f d bb4 a g | 1/4. e 1/4 g 1/8 bb | 1/8 a c5 e 1/4. f | 1/2. f#4",
    metre="6/8", tempo=60, key="F major", title="Six",
)  # fmt: skip
FIVE = phrase(
    "Ebmaj7#5 | Dbdim7", "1/4 g4 bb 1/8 d5 eb 1/4 f g | 1/2. e4 1/2 g", metre="5/4", tempo=120, key="G minor",
    title="Five",
)  # fmt: skip
SEVEN = phrase(
    "Am7 | D13", "1/8 a4 c5 e g f# e c | b4 d5 f# 1/4 a 1/4 f#", metre="7/8", tempo=150, key="G major",
    title="Seven",
)  # fmt: skip
THREE = phrase(
    "Fmaj9 | Bb7", "1/4 a4 c5 1/8 e g | 1/2 f 1/4 d", metre="3/4", tempo=138, key="F major", title="Three"
)
TWO = phrase(
    "Abmaj7 | Db9 | Cm7 | F7#5", "1/8 c5 eb g f | eb cb bb4 ab | 1/4 g4 bb | 1/8 a c#5 1/4 f", metre="2/4",
    tempo=112, key="Ab major", title="Two",
)  # fmt: skip
EIGHT = phrase(
    "Fm7 | % | Bb7 | % | Ebmaj7 | % | Ab6 | %",
    "1/4 ab4 c5 eb - | 1/8 f5 eb d c 1/4 ab4 - | ab4 c5 eb - | 1/8 f5 eb d c 1/4 ab4 - |"
    " 1/1 g4 | 1/2 bb d5 | 1/1 c5 | -",
    tempo=184, key="Eb major", title="Eight",
)  # fmt: skip

TRACKS: dict[str, tuple[Phrase, Order, int]] = {
    "swing, three rounds, a pick-up": (MINOR, Order(rounds=3, seed=1), 1),
    "swing, a loop with a pick-up": (MINOR, Order(rounds=2, loop=True, seed=2), 1),
    "swing in two keys, chords shared by a bar": (MAJOR, Order(rounds=1, seed=3, ending="held"), 2),
    "fast swing, the band alone": (EIGHT, Order("trio", rounds=2, feel="fast swing", tempo_bpm=260), 1),
    "shuffle, call and answer": (BLUES, Order(rounds=2, answers=True, feel="shuffle", seed=4), 1),
    "straight in six-eight": (SIX, Order(rounds=2, feel="straight", seed=5), 1),
    "ballad with brushes, empty bars": (SHORT, Order(rounds=2, feel="ballad", seed=6), 1),
    "ballad with sticks": (SHORT, Order("trio", feel="ballad", brushes=False, count_in=0, seed=7), 1),
    "bossa, left and right": (MAJOR, Order(rounds=2, feel="bossa", wide=True, count_in=1, seed=8), 1),
    "samba in two-four": (TWO, Order("trio", rounds=2, feel="samba", seed=9), 1),
    "latin": (MINOR, Order(rounds=2, feel="latin", count_in=1, seed=10), 1),
    "waltz, empty bars": (THREE, Order(rounds=3, feel="waltz", seed=11), 1),
    "funk": (BLUES, Order("trio", rounds=2, feel="funk", tempo_bpm=96, seed=12), 1),
    "free": (SHORT, Order("trio", rounds=2, feel="free", count_in=0, seed=13), 1),
    "swing in five-four": (FIVE, Order("trio", rounds=2, count_in=1, seed=14), 1),
    "swing in seven-eight": (SEVEN, Order("trio", rounds=2, count_in=1, seed=15), 1),
    "one chord": (ONE, Order("trio", rounds=4, seed=16), 1),
    "the line over a click that thins out": (
        MINOR, Order("line", click=True, click_kind="thinning", rounds=2, count_in=1), 1,
    ),
    "a ramp over two and four": (
        BLUES, Order("line", click=True, click_kind="2 and 4", ramp=(60, 80), count_in=1), 1,
    ),
}  # fmt: skip


def name(midi: int) -> str:
    return f"{NOTES[midi % 12]}{midi // 12 - 1}"


def tones(notes: Sequence[PartNote], bar: Fraction) -> Iterator[str]:
    """Yield notes of one place together: the lowest first, the velocity of the highest behind it."""
    for start, group in groupby(notes, key=lambda note: note.start):
        chord = list(group)
        named = ".".join(name(note.midi) for note in chord)
        bent = "".join(f" {note.bend}" for note in chord if note.bend)
        loud = "/".join(dict.fromkeys(str(note.velocity) for note in chord))
        yield f"{start - bar} {named} {chord[0].quarters}@{loud}{bent}"


def strokes(notes: Sequence[PartNote], bar: Fraction) -> Iterator[str]:
    for key in sorted({note.midi for note in notes}):
        own = [note for note in notes if note.midi == key]
        rings = "".join(f" rings {note.quarters}" for note in own if note.quarters != Fraction(1, 8))
        yield f"{key}: " + " ".join(f"{note.start - bar}@{note.velocity}" for note in own) + rings


def bars(score: Score) -> Iterator[str]:
    length = score.metre.bar_quarters
    for number in range(int(score.quarters / length)):
        at = number * length
        signs = ", ".join(
            sign.text if sign.text.split(": ")[-1] in PASSAGES else f"{sign.start - at} {sign.text}"
            for sign in score.signs
            if at <= sign.start < at + length
        )
        yield f"{number + 1:3} {signs}".rstrip()
        for part in score.parts:
            own = [note for note in part.notes if at <= note.start < at + length]
            said = (strokes if part.player == DRUMS else tones)(own, at)
            if own:
                yield f"    {part.player:8} " + ", ".join(said)


def head(part: Part) -> str:
    return f"{part.name} (program {part.program}, channel {part.channel}, pan {part.pan})"


def written(text: str) -> Iterator[str]:
    over, order, keys = TRACKS[text]
    found = arrange([in_key(over, key) for key in key_cycle(over.key)[:keys]], order)
    tempos = [f"{found.tempo_qpm}", *(f"{row.tempo_qpm} from {row.start}" for row in found.later_tempos)]
    yield f"# {text}: {found.title}, {found.feel.name}, {found.metre}, {', '.join(tempos)}"
    yield "    " + ", ".join(head(part) for part in found.parts)
    yield "    " + ", ".join(f"{at.key} from {at.start}" for at in found.keys)
    yield from bars(found)
    yield ""


def kept() -> dict[str, str]:
    """Return the part of the golden file that tells of each track."""
    parts = re.split(r"^# ", GOLDEN.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]
    return {part.partition(":")[0]: f"# {part}" for part in parts}


@pytest.mark.parametrize("text", TRACKS)
def test_a_whole_track(text: str) -> None:
    found = "\n".join((*written(text), ""))
    if os.environ.get("UPDATE_GOLDEN"):
        other = kept() if GOLDEN.exists() else {}
        other[text] = found
        GOLDEN.write_text("".join(other.get(one, "") for one in TRACKS), encoding="utf-8")
    assert found == kept()[text]
