"""The tuning note: the A that others tune to, brought to A4 = 440 Hz on whatever SoundFont plays it.

The samples of SoundFonts are a few cents off, and a note that others tune to must not be. So the pitch of the
rendered note is measured, and the difference is taken away with pitch bend.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio.rendering import rendered
from shedbook.sound.audio.synthesiser import Synth
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.score.performance import Bend, Performance, perform
from shedbook.sound.score.written_score import LINE, KeyAt, Part, PartNote, Score
from shedbook.sound.tables.track_kinds import TUNING_HERTZ, TUNING_MIDI, TUNING_PROGRAM, TUNING_SECONDS
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName

_ATTACK_SECONDS = 1
_WITHIN_CENTS = 60
_FINE = 8
_VELOCITY = 90


def tuning_note() -> Performance:
    """Return the tuning note, as played."""
    note = PartNote(Fraction(0), Fraction(TUNING_SECONDS), TUNING_MIDI, _VELOCITY)
    part = Part(LINE, "tuning note", TUNING_PROGRAM, 0, (note,))
    key = KeyAt(Fraction(0), Key(NoteName.parse("A")))
    return perform(
        Score(
            "A4 = 440 Hz", (part,), note.quarters, Fraction(60), Metre(4, 4), feel_named("straight"), (key,)
        ),
        human=False,
    )


def in_tune(performance: Performance, synth: Synth) -> Performance:
    """Return the tuning note with the pitch bend that brings it to its pitch.

    Args:
        performance: the note, as `tuning_note` gives it.
        synth: who plays it; its sample is rendered and measured.
    """
    heard = rendered(performance, synth)
    note = heard[_ATTACK_SECONDS * RATE_HZ : round((performance.seconds - _ATTACK_SECONDS) * RATE_HZ)]
    bend = Bend(0, -off_cents(note.mean(axis=1), TUNING_HERTZ))
    return replace(performance, parts=tuple(replace(part, bends=(bend,)) for part in performance.parts))


def off_cents(samples: NDArray[np.floating], hertz: float) -> float:
    """Return how many cents a steady tone lies above a pitch near which it is; 0 for silence.

    The highest point of the spectrum round that pitch, by a parabola through the three values at the top.
    """
    frames = len(samples) * _FINE
    spectrum = np.abs(np.fft.rfft(samples * np.hanning(len(samples)), frames))
    lowest, highest = (
        hertz * 2 ** (cents / 1200) * frames / RATE_HZ for cents in (-_WITHIN_CENTS, _WITHIN_CENTS)
    )
    first = int(lowest)
    at = first + int(spectrum[first : int(highest) + 1].argmax())
    if not spectrum[at - 1 : at + 2].all():
        return 0.0
    before, here, after = np.log(spectrum[at - 1 : at + 2])
    top = at + 0.5 * (before - after) / (before - 2 * here + after)
    return float(1200 * np.log2(top * RATE_HZ / frames / hertz))
