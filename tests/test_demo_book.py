"""The demo book as a showcase: whatever the program knows is shown in it, and every phrase is sound.

What must be shown is read from the program's own tables, so that a new row asks for a phrase.
"""

from __future__ import annotations

import importlib
from collections import Counter
from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path
from types import ModuleType

import pytest

from shedbook.analysis.account import Account, account
from shedbook.analysis.account.figures import ARPEGGIO, DELAYED, RUN, SEQUENCE
from shedbook.analysis.roles.role_names import (
    ANTICIPATION,
    APPROACH,
    BLUE,
    ENCLOSURE,
    ESCAPE,
    HELD_OVER,
    INCOMPLETE,
    LEANING,
    MAJOR_SEVENTH_OF_MINOR,
    NEIGHBOUR,
    PASSING,
    ROLES,
    SUPERIMPOSED,
    SUSPENSION,
    UNACCOUNTED,
)
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import PhraseSource, read_phrase
from shedbook.book.verbs.check import check
from shedbook.phrase.model import MARKS
from shedbook.phrase.tables.feels import FEELS
from shedbook.theory.progression import progression_names, recognise
from shedbook.theory.tables.scales import PASSING_NOTES, SCALES

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "examples" / "tidewater"

DETAILS = (
    (PASSING, "up"), (PASSING, "down"),
    (NEIGHBOUR, "upper"), (NEIGHBOUR, "lower"),
    (APPROACH, "chromatic, from below, single"), (APPROACH, "double"), (APPROACH, "scale step"),
    (ENCLOSURE, "two notes: above, below"), (ENCLOSURE, "two notes: below, above"),
    (ENCLOSURE, "three notes"), (ENCLOSURE, "four notes"),
    (ANTICIPATION, HELD_OVER), (ANTICIPATION, "followed by a rest"),
    (SUSPENSION, HELD_OVER), (SUSPENSION, "struck again"),
    (LEANING, "from above"), (LEANING, "from below"),
    (ESCAPE, "down"), (ESCAPE, INCOMPLETE), (ESCAPE, SUPERIMPOSED),
    (BLUE, "b3"), (BLUE, "b5"), (BLUE, MAJOR_SEVENTH_OF_MINOR),
)  # fmt: skip
"""Roles in each of their kinds; the second text is a part of the detail [docs/analysis.md]."""


@cache
def sources() -> tuple[PhraseSource, ...]:
    return open_manuscript(DEMO).phrases


@cache
def accounts() -> tuple[Account, ...]:
    return tuple(account(read_phrase(source)) for source in sources())


def test_levels_are_near_a_ranking_by_hand() -> None:
    """Two thirds of the book, half ranked after the limits were set: benchmarks/level_agreement.py."""
    ranking = importlib.import_module("benchmarks.level_agreement")
    for by_hand in (ranking.BY_HAND, ranking.AFTERWARDS):
        found = ranking.levels(by_hand)
        apart = [abs(hand - ours) for hand, ours in found.values()]
        assert len(apart) == len(by_hand) == 28
        assert max(apart) == 1
        assert apart.count(0) >= 13


def missing(wanted: Iterable[str], shown: Iterable[str]) -> list[str]:
    return sorted(set(wanted) - set(shown))


def test_every_progression_is_shown() -> None:
    """A twelve-bar form takes three phrases in one file, one after another."""
    shown = {one.name for seen in accounts() for one in seen.harmony.progressions}
    for file in {source.file for source in sources()}:
        together = [seen for source, seen in zip(sources(), accounts(), strict=True) if source.file == file]
        chords, bars, before = [], [], 0
        for seen in together:
            chords += [change.chord for change in seen.phrase.changes]
            bars += [before + change.bar for change in seen.phrase.changes]
            before += seen.phrase.full_bars
        shown |= {one.name for one in recognise(chords, bars)}
    assert missing(progression_names(), shown) == []


def test_every_scale_is_shown() -> None:
    shown = {span.scale.name for seen in accounts() for span in seen.spans if span.scale is not None}
    assert missing((row.name for row in SCALES), shown) == []


@pytest.mark.parametrize(("scale", "degree"), PASSING_NOTES)
def test_the_passing_note_of_a_bebop_scale_passes(scale: str, degree: str) -> None:
    """Wherever the scale is named: between its neighbours and not on a strong beat [common practice]."""
    row = next(row for row in SCALES if row.name == scale)
    above = row.degrees.index(degree)
    found = 0
    for seen in accounts():
        for note in seen.notes:
            named = note.span.scale
            if named is None or named.name != scale:
                continue
            if note.midi % 12 == named.notes[above].pitch_class:
                found += 1
                assert (note.role, note.accent < 3) == (PASSING, True), seen.phrase.title
    assert found


def test_every_role_is_shown_in_each_of_its_kinds() -> None:
    shown = {(note.role, note.detail) for seen in accounts() for note in seen.notes}
    assert missing(set(ROLES) - {UNACCOUNTED}, (role for role, _ in shown)) == []
    for role, kind in DETAILS:
        assert any(role == one and kind in detail for one, detail in shown), (role, kind)


def test_every_figure_is_shown() -> None:
    shown = {figure.kind for seen in accounts() for figure in seen.figures}
    assert missing((ARPEGGIO, RUN, SEQUENCE, ENCLOSURE, DELAYED), shown) == []


def test_every_feel_mark_and_way_of_writing_is_shown() -> None:
    phrases = [seen.phrase for seen in accounts()]
    bars = [bar for phrase in phrases for bar in phrase.bars]
    events = [event for bar in bars for event in bar.events]
    values = {value for event in events for value in event.values}
    assert missing((row.name for row in FEELS), (phrase.feel for phrase in phrases)) == []
    assert missing(MARKS, (mark for event in events for mark in event.marks)) == []
    assert any(event.grace for event in events)
    assert any(event.slurs_open for event in events)
    assert any(event.tie_in for event in events)
    assert {(value.part, value.actual) for value in values} >= {(4, 3), (8, 3), (16, 1)}
    assert any(bar.number == 0 for bar in bars), "a pick-up"
    assert {str(phrase.metre) for phrase in phrases} >= {"3/4", "4/4", "5/4", "6/8", "12/8"}
    assert {phrase.full_bars for phrase in phrases} >= {1, 2, 3, 4, 5, 8}
    assert max(phrase.full_bars for phrase in phrases) <= 8


def test_every_note_is_accounted_for_and_nothing_is_found() -> None:
    assert [seen.phrase.title for seen in accounts() if seen.accounted < len(seen.notes)] == []
    assert [f"{one.place}: {one.finding.message}" for one in check(DEMO).found] == []


def test_every_phrase_has_a_title_of_its_own_words_and_a_reason_for_each_silence() -> None:
    phrases = [seen.phrase for seen in accounts()]
    assert [title for title, count in Counter(phrase.title for phrase in phrases).items() if count > 1] == []
    assert [phrase.title for phrase in phrases if len(phrase.commentary.split()) < 25] == []
    assert [phrase.title for phrase in phrases for _, reason in phrase.silence if len(reason) < 10] == []


def _ending(seen: Account) -> tuple[tuple[str, int, Fraction], ...]:
    """The last three notes: what they are over their chords, the moves between them, when they are struck."""
    moves = [0, *(after.midi - before.midi for before, after in pairwise(seen.notes[-3:]))]
    return tuple((note.degree, move, note.beat) for note, move in zip(seen.notes[-3:], moves, strict=True))


def test_no_two_phrases_end_alike() -> None:
    for one, other in combinations(accounts(), 2):
        assert _ending(one) != _ending(other), (one.phrase.title, other.phrase.title)


@pytest.fixture
def figures(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    monkeypatch.syspath_prepend(str(ROOT))
    return importlib.import_module("benchmarks.demo_as_music")


def test_the_book_lies_in_the_range_of_real_lines(figures: ModuleType) -> None:
    """The ranges are drawn from the Weimar Jazz Database; benchmarks/demo_as_music.py says how."""
    lines = figures.demo_lines(DEMO)
    outside = [
        row.name for row in figures.REAL if not row.low <= figures.per_cent(lines, row.figure) <= row.high
    ]
    assert outside == []
