"""Beats and bar lines found in lines that were played without a click."""

from __future__ import annotations

import random
from fractions import Fraction

from exchange.demo_phrases import PHRASES
from exchange.playing import played
from shedbook.exchange.rhythm.beat_finding import find_bars
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.phrase.model import sounding_notes
from shedbook.theory.metre import Metre


# Beats found without a click: share of phrases whose tempo is found, and the bar line with it.
def test_free_playing_finds_its_beat() -> None:
    tempo_found = bar_found = total = 0
    for phrase in PHRASES[::5]:
        for ratio, tempo in ((Fraction(9, 5), 140), (Fraction(11, 5), 170)):
            line = played(
                phrase, ratio=ratio, jitter_ms=15, shortest_share=0.85, tempo_qpm=tempo,
                dice=random.Random(phrase.title),
            )  # fmt: skip
            begin = 337_000  # microseconds; nothing is known of where the recording starts
            timed = [
                (
                    begin + note.start * 60_000_000 // tempo // GRAINS,
                    begin + note.end * 60_000_000 // tempo // GRAINS,
                    note.midi,
                )
                for note in line
            ]
            found = find_bars(timed, phrase.metre)
            assert found is not None
            total += 1
            if abs(found.tempo_qpm / tempo - 1) < Fraction(1, 20):
                tempo_found += 1
                bar = phrase.metre.bar_quarters
                off = (Fraction(found.notes[0].start, GRAINS) - sounding_notes(phrase)[0].start) % bar
                bar_found += min(off, bar - off) < Fraction(1, 3)
    assert tempo_found >= 0.9 * total
    assert bar_found >= 0.6 * total


def test_few_notes_have_no_beat() -> None:
    assert find_bars([(0, 1, 60)] * 3, Metre()) is None
