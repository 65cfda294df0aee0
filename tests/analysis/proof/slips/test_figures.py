"""The figures are read from their texts whole; what they must say is common practice."""

from __future__ import annotations

from shedbook.analysis.proof.slips.figures import (
    note_figures,
    octave_figures,
    place_figures,
    quality_figures,
)
from shedbook.analysis.proof.slips.tables.chord_figures import PLACE_FIGURES, QUALITY_FIGURES
from shedbook.analysis.proof.slips.tables.line_figures import NOTE_FIGURES, OCTAVE_FIGURES


def test_every_figure_is_read() -> None:
    pairs = (
        (note_figures(), NOTE_FIGURES), (octave_figures(), OCTAVE_FIGURES),
        (quality_figures(), QUALITY_FIGURES), (place_figures(), PLACE_FIGURES),
    )  # fmt: skip
    for read, texts in pairs:
        assert {name: len(table) for name, table in read.items()} == {
            name: text.count(":") for name, text in texts.items()
        }


def test_real_lines_step_on_after_a_step_and_hardly_leap_an_octave_there_and_back() -> None:
    turn = octave_figures()["turn"]
    assert turn[2, 2] > 0 > turn[11, -11]


def test_a_third_that_sounds_speaks_for_its_chord() -> None:
    guide = quality_figures()["guide on a beat"]
    heard_major, heard_minor = guide[3, 4, 0, 2], guide[3, 4, 2, 0]
    assert heard_major > heard_minor
