"""Single notes of one instrument, one after the other in one file, for whoever plays a line note by note."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import numpy as np

from shedbook.sound.arranging.band_instruments import band_instrument
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.soundfile_door import encode
from shedbook.sound.audio.synthesiser import Synth
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.score.midi_file import smf
from shedbook.sound.score.performance import perform
from shedbook.sound.score.written_score import LINE, KeyAt, Part, PartNote, Score
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName

_VELOCITY = 90
_PEAK = 0.7
"""How high the loudest sample of the file is, full scale being 1."""


def single_notes(
    synth: Synth, instrument: str, midi: Sequence[int], *, each_s: float, sounding_s: float
) -> bytes:
    """Return notes of an instrument as a WAV file of one channel.

    Args:
        synth: who plays them.
        instrument: a name of the table of the band's instruments.
        midi: their MIDI numbers, in the order in which they sound.
        each_s: how many seconds lie between the beginnings of two notes.
        sounding_s: how many of these the note is held.

    Raises:
        UnknownNameError: for an instrument that is not there.
        SoundError: if it cannot be rendered.
    """
    apart, held = Fraction(each_s).limit_denominator(100), Fraction(sounding_s).limit_denominator(100)
    notes = tuple(PartNote(place * apart, held, number, _VELOCITY) for place, number in enumerate(midi))
    part = Part(LINE, instrument, band_instrument(instrument).program, 0, notes)
    key = KeyAt(Fraction(0), Key(NoteName.parse("C")))
    score = Score(
        "notes", (part,), apart * len(notes), Fraction(60), Metre(4, 4), feel_named("straight"), (key,)
    )
    performance = perform(score, human=False)
    samples = synth.render(smf(performance), round(float(score.quarters) * RATE_HZ)).mean(axis=1)
    peak = float(np.abs(samples).max()) or 1.0
    return encode(samples[:, None], format_of(".wav"), gain=_PEAK / peak)
