"""Lines of plain tones, made here: partials that fall off, a soft attack, nothing of any SoundFont."""

from __future__ import annotations

import wave
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from exchange.playing import bent, even_beats
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase, sounding_notes

RATE = 48_000
Tone = tuple[float, float, float]
"""When it begins and ends in seconds, and its MIDI number in fractions."""


def sound_of(tones: Sequence[Tone], *, seconds: float | None = None, rate: int = RATE) -> NDArray[np.float32]:
    """Return tones as stereo samples; both channels are alike."""
    length = seconds or max(end for _, end, _ in tones) + 0.5
    sound = np.zeros(round(length * rate))
    for start, end, midi in tones:
        first, last = round(start * rate), round(end * rate)
        time = np.arange(last - first) / rate
        hertz = 440 * 2 ** ((midi - 69) / 12)
        tone = sum(np.sin(2 * np.pi * hertz * n * time) / n**1.2 for n in range(1, 9) if n * hertz < rate / 2)
        shape = np.minimum(1, np.minimum(time / 0.008, (time[-1] - time) / 0.012))
        sound[first:last] += 0.15 * tone * np.maximum(0, shape)
    return np.repeat(sound[:, None], 2, axis=1).astype(np.float32)


def written(path: Path, tones: Sequence[Tone]) -> Path:
    """Write tones as a WAV file of one channel and 16 bits, by the standard library."""
    samples = np.round(sound_of(tones)[:, 0] * 0.7 * 32767).astype("<i2")
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(samples.tobytes())
    return path


def tones_of(
    phrase: Phrase, *, moved: int = 0, tempo: float | None = None, ratio: float = 1.0, start: float = 0.6
) -> list[Tone]:
    """Return a phrase as tones, each a little shorter than written."""
    a_quarter = 60 / (tempo or phrase.tempo_bpm)
    off_beat, even = Fraction(ratio / (ratio + 1)).limit_denominator(1000), even_beats(phrase)
    notes = sounding_notes(phrase)
    first = min(Fraction(0), notes[0].start)
    found = []
    for note in notes:
        begin = start + float(bent(note.start, off_beat, even) - first) * a_quarter
        end = start + float(bent(note.end, off_beat, even) - first) * a_quarter
        found.append((begin, end - 0.03, float(note.pitch.midi + moved)))
    return found


def phrase_like(line: str, changes: str, **more: object) -> Phrase:
    """Return an invented phrase."""
    return phrase_from_fields({"title": "Invented", "tempo": 120, "line": line, "changes": changes, **more})


LOW_LINE = "1/8 f4 ab c5 eb d f ab g | f5 d b4 ab g b d5 f | 1/4 eb5 1/8 c g4 1/2 g"
LOW_TIDE = phrase_like(LOW_LINE, "Dm7b5 | G7b9 | Cm6")
"""Three bars, invented; bar 3 has one pitch twice in a row."""
HIGH_TIDE = phrase_like("1/8 e5 d c b4 a g f e | d4 f a c5 b4 a g f | 1/4 e4 g 1/2 c5", "Dm7 | G7 | Cmaj7")
