"""Tempo and bar lines of playing of which only the changes are known."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from exchange.playing import played
from shedbook.exchange.midi.metre_sections import Asked
from shedbook.exchange.rhythm.bar_lines import bar_line_cost
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.beat_likelihood import nearest_place
from shedbook.exchange.rhythm.landings import Chart, cost_over_changes
from shedbook.exchange.rhythm.steady_beats import steady_beats
from shedbook.phrase.fields import phrase_from_fields
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.metre import Metre

LINE = phrase_from_fields(
    {
        "title": "Slack water",
        "changes": "Dm7 | G7 | Cmaj7 | %",
        "line": "1/8 d5 f a c6 b5 a g f | e d b4 g f e d b3 | 1/8 c4 e g b c5 d 1/4 e | 1/2 c 1/2 -",
    }
)


@pytest.mark.parametrize("tempo", [72, 110, 168, 240])
@pytest.mark.parametrize("ratio", ["1", "8/5", "5/2"])
def test_the_tempo_of_a_line_of_eighths_is_the_likeliest(tempo: int, ratio: str) -> None:
    notes = played(
        LINE, ratio=Fraction(ratio), jitter_ms=12, shortest_share=0.6, tempo_qpm=tempo,
        dice=random.Random(f"{tempo} {ratio}"),
    )  # fmt: skip
    onsets = [note.start * 60_000_000 // tempo // GRAINS for note in notes]
    tempos = [60e6 / beat.period for beat in steady_beats(onsets, 12)]
    near = [place for place, found in enumerate(tempos) if abs(found / tempo - 1) < 0.02]
    assert near
    assert near[0] < 6
    assert abs(60e6 / steady_beats(onsets, 1, Fraction(tempo))[0].period / tempo - 1) < 0.02


def test_written_places_are_told_through_the_swing() -> None:
    assert nearest_place(3.66, 2.0) == Fraction(7, 2)
    assert nearest_place(3.52, 1.0) == Fraction(7, 2)
    assert nearest_place(2.98, 1.0) == 3


def test_the_bar_line_lies_where_changes_and_notes_agree() -> None:
    chart = Chart(2, (Fraction(0), Fraction(4)), (parse_chord("Dm7"), parse_chord("Gmaj7")))
    over_d, over_g = (62, 65, 69, 72), (67, 71, 74, 78)
    places = [(Fraction(beat), midi) for beat, midi in enumerate((*over_d, *over_g))]
    costs = [bar_line_cost(places, shift, Metre(), chart)[0] for shift in range(4)]
    assert min(costs) == costs[0]


def test_nothing_asked_is_the_file_as_it_is() -> None:
    assert Asked() == Asked("", None, None)


PLACES = [(Fraction(0), 64), (Fraction(4), 65), (Fraction(9, 2), 67)]


@pytest.mark.parametrize(
    ("cheaper", "dearer"),
    [
        ((64, 65), (64, 60)),  # by half step into the seventh, against a leap to the fourth
        ((64, 65), (64, 63)),  # into a chord tone, against a note outside the chord and its scales
        ((64, 62), (67, 62)),  # by step, against a leap, into one and the same note
    ],
)
def test_how_a_chord_is_entered_counts(cheaper: tuple[int, int], dearer: tuple[int, int]) -> None:
    # Landings on chord tones by step (common practice).
    chart = Chart(2, (Fraction(0), Fraction(4)), (parse_chord("Cmaj7"), parse_chord("G7")))
    costs = [
        cost_over_changes([(Fraction(3), before), (Fraction(4), after)], Fraction(0), Metre(), chart)
        - cost_over_changes([(Fraction(3), before)], Fraction(0), Metre(), chart)
        for before, after in (cheaper, dearer)
    ]
    assert costs[0] < costs[1]


@pytest.mark.parametrize("shift", range(4))
def test_changes_that_are_over_begin_anew(shift: int) -> None:
    chart = Chart(2, (Fraction(0), Fraction(4)), (parse_chord("Dm7"), parse_chord("G7")))
    once = cost_over_changes(PLACES, Fraction(shift), Metre(), chart)
    again = cost_over_changes(PLACES, Fraction(shift + 8), Metre(), chart)
    assert again == once


def test_a_pick_up_comes_before_the_changes() -> None:
    chart = Chart(1, (Fraction(0),), (parse_chord("Fmaj7"),))
    line = [(Fraction(-1), 64), (Fraction(0), 65), (Fraction(1), 69), (Fraction(2), 72), (Fraction(3), 69)]
    assert bar_line_cost(line, 0, Metre(), chart)[1]
    assert not bar_line_cost(line[1:], 0, Metre(), chart)[1]
