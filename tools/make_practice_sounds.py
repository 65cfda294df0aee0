"""Write the single notes of which the student's page makes its sound: one MP3 file an instrument, and a table.

    python tools/make_practice_sounds.py /usr/share/sounds/sf2/FluidR3_GM.sf2

They are rendered by the synthesiser of the tracks from a SoundFont under a permissive licence (Fluid R3 GM, MIT).
Each file begins with a click: decoders of MP3 add silence of their own, and by the click the page knows how much.
A note that can be held is made to go round without a seam: the end of its loop is laid over what comes before its
beginning.
"""

from __future__ import annotations

import json
import sys
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import numpy as np
import soundfile
from mido import Message, MidiFile, MidiTrack
from numpy.typing import NDArray
from scipy.signal import resample_poly

from shedbook.sound.arranging.tables.band_instruments import BAND_INSTRUMENTS
from shedbook.sound.audio.synthesiser import Synth, synth_for

FOLDER = Path(__file__).parents[1] / "src/shedbook/book/practice/sounds"
RATE, RENDERED = 32_000, 48_000
CLICK_S, FIRST_S = 0.05, 0.25
VELOCITY = 100
APART = 3
"""Half steps between two notes of an instrument; each serves its neighbours too."""
LOOP_FROM_S, LOOP_S, CROSS_S = 1.0, 1.2, 0.3
"""Where the loop of a held note begins, how long it is, and over how long its seam is laid."""
PLUCKED_S, HELD_S = 3.2, LOOP_FROM_S + LOOP_S + 0.1
STROKE_S, CYMBAL_S = 0.8, 2.0
DECAYING = frozenset((0, 4, 11, 24, 26, 32, 33, 35))
"""Programs whose notes die away by themselves."""
CYMBALS = frozenset((46, 49, 51, 52, 53, 55, 57, 59))
DRUMS = (
    35,
    36,
    37,
    38,
    39,
    40,
    41,
    42,
    43,
    44,
    45,
    46,
    47,
    48,
    49,
    50,
    51,
    52,
    53,
    54,
    55,
    56,
    57,
    59,
    62,
    63,
    64,
    70,
    75,
    76,
    77,
)
LOWEST, HIGHEST = 36, 97
BASS = (24, 69)
QUALITY = 0.55


@dataclass(frozen=True)
class Sounds:
    """The notes of one instrument: MIDI numbers, where each begins in seconds, how long each is."""

    name: str
    program: int
    channel: int
    notes: tuple[int, ...]
    seconds: tuple[float, ...]
    loops: bool


def wanted() -> list[Sounds]:
    """Return every instrument of the band, and the two kits."""
    found = []
    for row in BAND_INSTRUMENTS:
        low, high = (
            BASS
            if row.program in (32, 33, 35)
            else (max(row.lowest - 2, LOWEST), min(row.highest + 3, HIGHEST))
        )
        notes = tuple(range(low, high + 1, APART))
        held = row.program not in DECAYING
        found.append(
            Sounds(row.name, row.program, 0, notes, (HELD_S if held else PLUCKED_S,) * len(notes), held)
        )
    for name, program in (("drums", 0), ("brushes", 40)):
        lengths = tuple(CYMBAL_S if one in CYMBALS else STROKE_S for one in DRUMS)
        found.append(Sounds(name, program, 9, DRUMS, lengths, False))
    return found


def one_note(synth: Synth, sounds: Sounds, midi: int, seconds: float) -> NDArray[np.float32]:
    """Return one note, mono, at RATE."""
    track = MidiTrack()
    track.append(Message("program_change", program=sounds.program, channel=sounds.channel, time=0))
    track.append(Message("control_change", control=7, value=100, channel=sounds.channel, time=0))
    track.append(Message("note_on", note=midi, velocity=VELOCITY, channel=sounds.channel, time=0))
    track.append(
        Message("note_off", note=midi, velocity=64, channel=sounds.channel, time=round((seconds + 0.5) * 960))
    )
    file = MidiFile(type=1, ticks_per_beat=480)
    file.tracks.append(track)
    out = BytesIO()
    file.save(file=out)
    samples = synth.render(out.getvalue(), round((seconds + 0.2) * RENDERED)).mean(axis=1)
    return np.asarray(resampled(samples)[: round(seconds * RATE)], np.float32)


def resampled(samples: NDArray[np.float32]) -> NDArray[np.float64]:
    """Return samples at RATE."""
    found: NDArray[np.float64] = resample_poly(samples, RATE, RENDERED)
    return found


def looped(note: NDArray[np.float32]) -> NDArray[np.float32]:
    """Return a note whose samples before the end of its loop lead into the loop's beginning without a step."""
    start, length, cross = (round(one * RATE) for one in (LOOP_FROM_S, LOOP_S, CROSS_S))
    end = best_end(note, start, length, cross)
    fade = np.linspace(0, 1, cross, dtype=np.float32)
    found = note.copy()
    found[end - cross : end] = note[end - cross : end] * (1 - fade) + note[start - cross : start] * fade
    return np.concatenate((found[:end], found[start : start + len(note) - end]))


def best_end(note: NDArray[np.float32], start: int, length: int, cross: int) -> int:
    """Return the length of loop near the one wanted at which the waves agree."""
    before = note[start - cross : start]
    ends = range(start + length - 640, start + length)
    return max(ends, key=lambda end: float(np.dot(before, note[end - cross : end])))


def main(font: Path) -> None:
    """Write every file and the table."""
    synth = synth_for(font)
    FOLDER.mkdir(parents=True, exist_ok=True)
    table: dict[str, object] = {}
    for sounds in wanted():
        pieces, starts = [np.zeros(round(FIRST_S * RATE), np.float32)], list[list[float]]()
        pieces[0][round(CLICK_S * RATE) : round(CLICK_S * RATE) + 3] = (0.9, -0.9, 0.5)
        at = len(pieces[0])
        for midi, seconds in zip(sounds.notes, sounds.seconds, strict=True):
            note = one_note(synth, sounds, midi, seconds)
            loud = np.flatnonzero(np.abs(note) > 3e-4)
            if not len(loud):
                continue
            if sounds.loops:
                start, length, cross = (round(one * RATE) for one in (LOOP_FROM_S, LOOP_S, CROSS_S))
                end = best_end(note, start, length, cross)
                note = looped(note)
            else:
                note = note[: loud[-1] + 1]
                tail = min(len(note) // 2, RATE // 10)
                note[-tail:] *= np.linspace(1, 0, tail, dtype=np.float32)
                end = len(note)
            level = 20 * np.log10(float(np.sqrt(np.mean(note[: RATE // 2] ** 2))))
            starts.append(
                [midi, round(at / RATE, 6), round(len(note) / RATE, 6), round(end / RATE, 6), round(level, 1)]
            )
            pieces += [note, np.zeros(RATE // 20, np.float32)]
            at += len(note) + RATE // 20
        whole = np.concatenate(pieces)
        peak = float(np.abs(whole[round(FIRST_S * RATE) :]).max())
        gain = min(0.9 / peak, 8.0)
        whole[round(FIRST_S * RATE) :] *= gain
        path = FOLDER / f"{sounds.name.replace(' ', '-')}.mp3"
        with soundfile.SoundFile(
            path,
            "w",
            RATE,
            1,
            format="MP3",
            subtype="MPEG_LAYER_III",
            compression_level=QUALITY,
            bitrate_mode="VARIABLE",
        ) as out:
            out.write(whole)
        table[sounds.name] = {
            "program": sounds.program, "drums": sounds.channel == 9, "loops": sounds.loops,
            "loop_from": LOOP_FROM_S if sounds.loops else 0, "gain": round(1 / gain, 5), "notes": starts,
        }  # fmt: skip
        print(
            sounds.name,
            path.stat().st_size,
            f"{at / RATE:.0f} s",
            f"peak {peak:.3f}",
            [one[-1] for one in starts][:4],
        )
    told = {"click": CLICK_S, "velocity": VELOCITY, "font": "Fluid R3 GM", "instruments": table}
    (FOLDER / "sounds.json").write_text(json.dumps(told, indent=None) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
