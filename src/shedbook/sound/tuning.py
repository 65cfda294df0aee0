"""The tuning note brought to A4 = 440 Hz: what the font's sample is off is measured and bent away.

SoundFonts' samples are a few cents off; a note that others tune to must not be.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from shedbook.sound.audio import rendered
from shedbook.sound.perform import Bend, Performance
from shedbook.sound.synth_door import Synth
from shedbook.sound.tables.formats import RATE_HZ
from shedbook.sound.tables.kinds import TUNING_HERTZ

_ATTACK_SECONDS = 1
_WITHIN_CENTS = 60
_FINE = 8


def in_tune(performance: Performance, synth: Synth) -> Performance:
    """Return the tuning note with the pitch bend that brings it to its pitch on a synthesiser."""
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
