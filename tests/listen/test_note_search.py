from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from listen.tones import Tone, sound_of
from shedbook.listen.evidence import Evidence, evidence_of
from shedbook.listen.free_search import free_notes
from shedbook.listen.note_search import Expected, FoundNote, beginnings, leap_costs, line_notes

RATE = 24_000
LINE = (67, 67, 69, 71, 72, 72, 71, 69)


def tones(line: tuple[int, ...] = LINE) -> list[Tone]:
    return [(0.3 + at * 0.25, 0.5 + at * 0.25, float(midi)) for at, midi in enumerate(line)]


def heard(played: list[Tone]) -> Evidence:
    return evidence_of(sound_of(played, rate=RATE).mean(axis=1), RATE)


def an_octave_low(evidence: Evidence, at: int, by: float, seconds: float = 0.22) -> Evidence:
    """Return evidence in which one note looks at first more like the pitch an octave under it."""
    start = 0.29 + at * 0.25
    first, last = (round(second / evidence.frame_s) for second in (start, start + seconds))
    pitch = evidence.pitch.copy()
    column = LINE[at] - 36
    pitch[first:last, column - 12] = pitch[first:last].max(axis=1)
    pitch[first:last, column] = pitch[first:last, column - 12] - by
    return replace(evidence, pitch=pitch)


def test_both_searches_find_repeated_notes() -> None:
    evidence = heard(tones())
    assert tuple(note.midi for note in free_notes(evidence)) == LINE
    assert [note.kind for note in line_notes(evidence, LINE)] == ["played"] * len(LINE)


def test_a_repeated_note_that_is_left_out_is_missing_and_one_too_many_is_extra() -> None:
    played = tones()
    held = (played[0][0], played[1][1], played[0][2])
    evidence = heard([held, *played[2:]])
    due = Expected(np.array([start / evidence.frame_s for start, _, _ in played]))
    assert [note.which for note in line_notes(evidence, LINE, due)] == [0, 2, 3, 4, 5, 6, 7]
    again = [*played[:3], (played[3][0], 1.13, 71.0), (1.18, played[3][1] + 0.03, 71.0), *played[4:]]
    assert [(note.kind, note.which) for note in line_notes(heard(again), LINE)][4] == ("extra", 3)


def test_the_line_around_tells_an_octave_where_the_sound_hardly_does() -> None:
    evidence = an_octave_low(heard(tones()), 3, 3.0)
    assert tuple(note.midi for note in free_notes(evidence)) == LINE


def test_a_wrong_note_that_begins_an_octave_low_is_one_note_near_the_line() -> None:
    evidence = an_octave_low(heard(tones()), 3, 6.0, 0.12)
    written = (*LINE[:3], 73, *LINE[4:])
    (wrong,) = [note for note in line_notes(evidence, written) if note.kind == "wrong"]
    assert (wrong.which, wrong.midi) == (3, LINE[3])


def test_what_speaks_for_a_beginning_stands_for_one_note() -> None:
    smeared = np.array([0, 0, 2, 6, 9, 7, 3, 0, 0], np.float32)
    assert beginnings(smeared, 0.0).argmax() == 4
    assert beginnings(smeared, 0.0)[4] == 9
    assert beginnings(smeared, 0.0)[2] < 0


def test_steps_cost_least_and_wide_leaps_most() -> None:
    """Most intervals of improvised lines are steps (Weimar Jazz Database, as the table's source)."""
    costs = leap_costs()
    assert costs[1:3].max() < costs[3] < costs[5] < costs[7] < costs[12] < costs[20]


@pytest.mark.parametrize("search", [free_notes, lambda evidence: line_notes(evidence, LINE)])
def test_it_does_not_matter_with_which_frame_a_piece_ends(
    search: Callable[[Evidence], tuple[FoundNote, ...]],
) -> None:
    """Frames are reckoned some at a time; the silence after a line may end anywhere among them."""
    evidence = heard(tones())
    whole = search(evidence)
    for fewer in range(1, 10):
        rows = {
            name: getattr(evidence, name)[:-fewer]
            for name in ("pitch", "sounding", "silent", "onset", "again", "alike", "level_db")
        }
        assert search(replace(evidence, **rows)) == whole


def test_less_than_the_shortest_note_is_no_note() -> None:
    few = evidence_of(sound_of([(0.0, 0.03, 69)], seconds=0.03, rate=RATE).mean(axis=1), RATE)
    assert few.frames < 8
    assert free_notes(few) == line_notes(few, LINE) == ()
