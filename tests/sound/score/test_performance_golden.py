"""What is played of what is written, tick by tick, in a text that a person can read: golden/played.txt.

Four bars by the whole band with their unevenness; a line that swings by two tempos, with a scoop, a fall, a
triplet and four sixteenths, played exactly; metres in eighths. A note is where it starts and ends in ticks of
1/960 of a quarter, its MIDI key and its velocity. UPDATE_GOLDEN=1 writes the text anew; read it before it is
kept. Source: the sources of the tables of timing and swing; what is expected stands in the other tests of
this folder.
"""

from __future__ import annotations

import io
import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import mido

from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import Performance, perform
from sound.demo_scores import phrase

GOLDEN = Path(__file__).parents[1] / "golden" / "played.txt"

BAND = phrase(
    "Dm7 G7 | Cmaj7", "1/8 d5 f a c6 1/4 b5 1/8t g f e | 1/4. e.fall 1/8 - 1/4 g.scoop 1/16 e d c b4",
    tempo=138, key="C major", title="Band",
)  # fmt: skip
SIX = phrase("Gm7 | C7", "1/8 d5 f d 1/4 bb4 1/8 g | 1/4. e 1/8 g a bb", metre="6/8", tempo=60, key="F major")
FAR = phrase("C#m7 | G#m7", "1/4 e4.scoop g# b c#5 | 1/2 d# b4.fall", tempo=200, key="G# minor", title="Far")

PLAYED: dict[str, tuple[Phrase, Order, int | None]] = {
    "the band, uneven": (BAND, Order(count_in=1, seed=4), 4),
    "the band, even": (BAND, Order(count_in=0, seed=4, ending="held"), None),
    "the line at two tempos, uneven": (BAND, Order("line", ramp=(80, 240), count_in=0), 1),
    "six-eight, uneven": (SIX, Order("line", feel="shuffle", click=True, count_in=1), 2),
    "ballad, uneven": (BAND, Order("both", feel="ballad", tempo_bpm=60, count_in=0), 3),
    "bossa, fast, uneven": (FAR, Order("both", feel="bossa", count_in=0), 5),
}


def performance(text: str) -> Performance:
    over, order, seed = PLAYED[text]
    score = arrange(over, order)
    return perform(score, human=False) if seed is None else perform(score, seed=seed)


def told(text: str) -> Iterator[str]:
    played = performance(text)
    yield f"# {text}: {played.ticks} ticks, {played.seconds:.3f} s, band from {played.band_tick}"
    yield f"  {played.tempo_us} us a quarter" + "".join(
        f", {row.tempo_us} ({row.tempo_bpm}) from {row.tick}" for row in played.later
    )
    yield f"  counted {played.counted}, drums {played.drums_db}"
    for part in played.parts:
        notes = " ".join(f"{note.start}-{note.end} {note.midi}@{note.velocity}" for note in part.notes)
        yield f"  {part.player}: {notes}"
        if part.bends:
            yield "    bent " + " ".join(f"{bend.tick} {bend.cents}" for bend in part.bends)
        if part.filters:
            yield "    filtered " + " ".join(f"{bend.tick} {bend.cents}" for bend in part.filters)
    yield ""


def messages() -> Iterator[str]:
    """A short MIDI file, read by mido: what each track says, in order."""
    played = performance("bossa, fast, uneven")
    short = replace(
        played,
        texts=("ours",),
        parts=tuple(
            replace(
                part,
                notes=part.notes[:3],
                bends=part.bends[: 3 if part.player == "drums" else None],
                filters=part.filters[:3],
            )
            for part in played.parts
        ),
    )
    for track in mido.MidiFile(file=io.BytesIO(smf(short, filters=True))).tracks:
        yield ""
        yield from (str(message) for message in track)


def test_what_is_played() -> None:
    found = "\n".join((*(row for text in PLAYED for row in told(text)), "# a MIDI file", *messages(), ""))
    if os.environ.get("UPDATE_GOLDEN"):
        GOLDEN.write_text(found, encoding="utf-8")
    assert found == GOLDEN.read_text(encoding="utf-8")
