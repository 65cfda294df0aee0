"""A guide track for a recording session: count-in and click in the left ear, the trio in the right one.

Both ears are as soft as lets them be heard well in headphones; the left ear can be followed alone.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.levelling import levelled
from shedbook.sound.audio.synthesiser import Synth
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.score.performance import Performance
from shedbook.sound.score.written_score import LINE
from shedbook.sound.track import Sound, performance_of, samples_of

EAR_LUFS = -24.0
"""How loud the trio is in its ear: 8 LU under a track of the book (the project's design: to be safe)."""
_CLICK_PEAK = 0.18
_EARLY_S = 0.02
"""How much before the band's first beat its sound is let in: a player may be a little early."""


def guide_track(phrase: Phrase, order: Order, synth: Synth) -> NDArray[np.float32]:
    """Return a guide as frames by two channels at 48 kHz.

    Args:
        phrase: in the key of the take.
        order: tempo, feel, rounds and count-in; its parts and its click are chosen here.
        synth: who plays.

    Raises:
        SoundError: if it cannot be rendered.
    """
    click = performance_of(phrase, replace(order, parts="line", click=True), font=synth.font)
    trio = performance_of(phrase, replace(order, parts="trio", click=False), font=synth.font)
    left = samples_of(click, synth, Sound(without=(LINE,))).mean(axis=1)
    right = levelled(samples_of(trio, synth, Sound()), EAR_LUFS).samples.mean(axis=1)
    right[: max(0, _band_frame(trio) - round(_EARLY_S * RATE_HZ))] = 0  # its own count-in
    found = np.zeros((max(len(left), len(right)), 2), np.float32)
    start = max(0, _band_frame(click) - round(_EARLY_S * RATE_HZ))
    for piece in (slice(0, start), slice(start, len(left))):  # the mix has the count-in louder than the click
        if left[piece].any():
            left[piece] *= np.float32(_CLICK_PEAK / np.abs(left[piece]).max())
    found[: len(left), 0] = left
    found[: len(right), 1] = right
    return found


def _band_frame(performance: Performance) -> int:
    return round(performance.seconds_at(performance.band_tick) * RATE_HZ)
