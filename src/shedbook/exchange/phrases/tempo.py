"""The tempo of a phrase, counted in the beats that players tap."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from shedbook.exchange.ground.report import Reporter
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.phrase.model import Phrase


def tapped_beat(phrase: Phrase) -> Fraction:
    """Return the length of the beat that players tap, in quarter notes: 3/2 in 6/8, else mostly 1."""
    return phrase.metre.tapped_quarters


def with_tempo(phrase: Phrase, tempo_qpm: Fraction | None, reporter: Reporter) -> Phrase:
    """Return a phrase with a tempo, as a whole number of tapped beats a minute.

    Args:
        phrase: the phrase.
        tempo_qpm: quarter notes a minute; None leaves the phrase as it is.
        reporter: told of a tempo that had to be rounded, or moved into the limits of the manuscript.
    """
    if tempo_qpm is None:
        return phrase
    tempo = tempo_qpm / tapped_beat(phrase)
    whole = max(SLOWEST_BPM, min(FASTEST_BPM, round(tempo)))
    if whole != tempo:
        reporter.note(f"the tempo {float(tempo):g} is taken as {whole}")
    return replace(phrase, tempo_bpm=whole)
