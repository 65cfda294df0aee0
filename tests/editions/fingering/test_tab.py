"""Fingerings: exact against trying every row of stops, right by law, and what players do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

import strategies
from shedbook.editions.fingering import tab as tab_module
from shedbook.editions.fingering.fingerboard import Fingerboard, fingerboards, read_strings
from shedbook.editions.fingering.tab import (
    HAND,
    Played,
    Stop,
    Tab,
    _moves,
    fingered,
    line_cost,
    move_cost,
    stop_cost,
    stops_of,
    tab_of,
)
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.reader_keys import reader_keys
from shedbook.editions.reader_part import reader_parts
from shedbook.editions.tables.fingering_costs import FINGERING_COSTS
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.pitch import Pitch

Make = Callable[..., Phrase]
GUITAR, BASS = fingerboards()["guitar"], fingerboards()["electric bass"]
COST = {row.name: row.cost for row in FINGERING_COSTS}
SMALL = Fingerboard(read_strings("E3 A3 C4"), 7)
"""Few strings and frets, two of them a third apart, so that every row of stops can be tried."""


ONE = Fingerboard((Pitch.parse("E3"),), 12)


def line_of(text: str) -> tuple[Played, ...]:
    return tuple(Played(Pitch.parse(word).midi) for word in text.split())


def shown(stops: tuple[Stop | None, ...]) -> str:
    return " ".join("-" if stop is None else f"{stop.string}:{stop.fret}" for stop in stops)


played = st.builds(Played, st.integers(50, 69), st.booleans(), st.booleans())


@settings(max_examples=150, deadline=None)
@given(st.lists(played, min_size=1, max_size=3).map(tuple))
def test_no_row_of_stops_is_cheaper(line: tuple[Played, ...]) -> None:
    found = fingered(line, SMALL)
    ways = [stops_of(SMALL, one.midi) or (None,) for one in line]
    assert line_cost(line, found) == min(line_cost(line, row) for row in product(*ways))
    assert [stop is None for stop in found] == [not SMALL.places(one.midi) for one in line]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.builds(Played, st.integers(53, 64), st.booleans()), min_size=1, max_size=4).map(tuple))
@example(line_of("A3 C4 C#4"))  # the fourth finger slides
def test_no_way_along_one_string_is_cheaper(line: tuple[Played, ...]) -> None:
    ways = [stops_of(ONE, one.midi) for one in line]
    assert line_cost(line, fingered(line, ONE)) == min(line_cost(line, row) for row in product(*ways))


@settings(max_examples=60, deadline=None)
@given(played, played, st.sampled_from([SMALL, ONE, GUITAR]))
def test_the_table_of_moves_holds_what_moves_cost(before: Played, after: Played, board: Fingerboard) -> None:
    table = _moves(board, before.midi, after.midi, after.eased, before.grace)
    befores = stops_of(board, before.midi)
    for stop, row in zip(stops_of(board, after.midi), table, strict=True):
        assert list(row) == [move_cost(one, stop, after, from_grace=before.grace) for one in befores]


@pytest.mark.parametrize("board", [GUITAR, BASS, Fingerboard(read_strings("G4 C4 E4 A4"), 12)])
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(phrase=strategies.phrases())
def test_every_stop_sounds_its_note_and_lies_under_the_hand(board: Fingerboard, phrase: Phrase) -> None:
    tab = tab_of(phrase, board, 12)
    notes = sounding_notes(phrase)
    graces = [phrase.bars[bar].events[place].grace for bar, place in (note.event for note in notes)]
    assert len(tab.notes) == len(tab.graces) == len(notes)  # ties keep their position: one stop a struck note
    for note, grace, stop, stops in zip(notes, graces, tab.notes, tab.graces, strict=True):
        assert len(stops) == len(grace)
        for pitch, one in ((note.pitch, stop), *zip(grace, stops, strict=True)):
            if one is None:
                assert not board.places(pitch.midi - 12)
                continue
            assert board.open_midi(one.string) + one.fret == pitch.midi - 12
            assert 0 <= one.fret <= board.frets
            assert one.fret == 0 or one.hand - 1 <= one.fret <= one.hand + HAND
    missing = [index for index, one in enumerate(tab.notes) if one is None or None in tab.graces[index]]
    assert list(tab.missing) == missing


HANDBOOK = [  # what players learn first, common practice: string:fret, string 1 the highest
    pytest.param(GUITAR, "C3 D3 E3 F3 G3 A3 B3 C4", "5:3 5:5 4:2 4:3 4:5 3:2 3:4 3:5", id="C major"),
    pytest.param(
        GUITAR, "G2 A2 B2 C3 D3 E3 F#3 G3 A3 B3 C4 D4 E4 F#4 G4",
        "6:3 6:5 5:2 5:3 5:5 4:2 4:4 4:5 3:2 3:4 3:5 2:3 2:5 1:2 1:3", id="G major, two octaves, position 2",
    ),
    pytest.param(BASS, "C2 D2 E2 F2 G2 A2 B2 C3", "3:3 3:5 2:2 2:3 2:5 1:2 1:4 1:5", id="C major, bass"),
    pytest.param(BASS, "G1 B1 D2 G2", "4:3 3:2 3:5 2:5", id="G major arpeggio on the bass"),
    pytest.param(GUITAR, "E2", "6:0", id="the lowest string, open: nowhere else"),
    pytest.param(GUITAR, "E6", "1:24", id="the highest fret: nowhere else"),
    pytest.param(GUITAR, "C2 E4 F6", "- 2:5 -", id="below and above the fingerboard"),
]  # fmt: skip


@pytest.mark.parametrize(("board", "notes", "stops"), HANDBOOK)
def test_what_players_learn_first(board: Fingerboard, notes: str, stops: str) -> None:
    assert shown(fingered(line_of(notes), board)) == stops


@pytest.mark.parametrize("tonic", range(42, 65))
@pytest.mark.parametrize("turn", [1, -1])
def test_a_major_scale_of_one_octave_needs_no_shift(tonic: int, turn: int) -> None:
    # Common practice: every one-octave major scale has a fingering in one position without a stretch.
    line = tuple(Played(tonic + step) for step in (0, 2, 4, 5, 7, 9, 11, 12)[::turn])
    stops = [stop for stop in fingered(line, GUITAR) if stop is not None]
    assert line_cost(line, stops) == 0
    assert len({stop.hand for stop in stops}) == 1
    assert all(stop.fret for stop in stops)


WORTH = [  # a line, its stops, and what they cost by the rows of the table
    ("F3 F3", "4:3@3 4:3@3", ()),
    ("F3 Bb3", "4:3@3 3:3@3", ("roll",)),
    ("F3 D4", "4:3@3 2:3@3", ("roll", "skip")),
    ("F3 E4", "4:3@3 1:0@3", ("skip", "skip", "open")),
    ("F3 Ab3", "4:3@3 4:6@6", ("shift", "way", "way", "way")),
    ("F3 F#3", "4:3@3 4:4@4", ("slide", "way")),
    ("F3 G3", "4:3@3 4:5@5", ("slide", "way", "way")),
    ("E4 Ab3", "1:0@3 4:6@6", ("open", "shift with time", "way", "way", "way", "skip", "skip")),
    ("F3 Ab3", "4:3@3 3:1@1", ("shift", "way", "way")),
    ("F3 B3", "4:3@3 3:4@4", ("shift", "way")),  # no finger slides to another string
    ("B3 F3", "3:4@4 4:3@3", ("shift", "way")),
    ("F3 G3", "4:3@3 4:5@4", ("shift", "way")),  # another finger
    ("G3 F3", "4:5@5 4:3@3", ("slide", "way", "way")),
    ("F3 Ab3", "4:3@2 4:6@5", ("shift", "way", "way", "way")),  # three frets are too many to slide
    ("E5 F#5", "1:12@12 1:14@12", ("high", "high")),
    ("F3 A3", "4:3@3 4:7@3", ("stretch",)),
    ("F3 E3", "4:3@3 4:2@3", ("stretch",)),
    ("E5 F5", "1:12@12 1:13@12", ("high",)),
]


@pytest.mark.parametrize(
    ("board", "note", "stops"),
    [
        # Common practice: four fingers, a fret each, and a stretch of one more at either end; an open string
        # is played wherever the hand lies.
        (ONE, "A3", "1:5@1 1:5@2 1:5@3 1:5@4 1:5@5 1:5@6"),
        (ONE, "F3", "1:1@1 1:1@2"),
        (ONE, "F#3", "1:2@1 1:2@2 1:2@3"),
        (ONE, "E4", "1:12@8 1:12@9"),
        (ONE, "E3", "1:0@1 1:0@2 1:0@3 1:0@4 1:0@5 1:0@6 1:0@7 1:0@8 1:0@9"),
        (SMALL, "A3", "3:5@1 2:0@1 3:5@2 2:0@2 3:5@3 2:0@3 3:5@4 2:0@4"),
        (ONE, "F4", ""),
        (ONE, "D#3", ""),
    ],
)
def test_where_the_hand_may_lie(board: Fingerboard, note: str, stops: str) -> None:
    found = stops_of(board, Pitch.parse(note).midi)
    assert sorted(f"{one.string}:{one.fret}@{one.hand}" for one in found) == sorted(stops.split())
    assert [one.hand for one in found] == sorted(one.hand for one in found)


@pytest.mark.parametrize(("notes", "stops", "rows"), WORTH)
def test_what_stops_cost(notes: str, stops: str, rows: tuple[str, ...]) -> None:
    line = line_of(notes)
    parts = [word.replace("@", ":").split(":") for word in stops.split()]
    row = [Stop(*map(int, part)) for part in parts]
    assert all(stop in stops_of(GUITAR, one.midi) for stop, one in zip(row, line, strict=True))
    assert line_cost(line, row) == sum(COST[name] for name in rows)


def test_time_makes_a_move_cheaper_and_a_grace_note_stays_on_its_string() -> None:
    far = [Stop(4, 3, 3), Stop(4, 6, 6)]
    late = (Played(53), Played(56, eased=True))
    assert line_cost(late, far) == COST["shift with time"] + 3 * COST["way"]
    grace = (Played(57, grace=True), Played(58))
    across = [Stop(4, 7, 4), Stop(3, 3, 3)]
    assert line_cost(grace, across) == COST["ornament"] + COST["shift"] + COST["way"]
    found = fingered(grace, GUITAR)
    assert found[0] is not None
    assert found[1] is not None
    assert found[0].string == found[1].string


def test_the_costs_are_whole_and_have_reasons() -> None:
    assert len(COST) == len(FINGERING_COSTS)
    assert all(row.cost > 0 and row.per and row.why and row.source for row in FINGERING_COSTS)
    assert stop_cost(Stop(1, 0, 1)) == COST["open"]


def test_a_line_off_the_board_is_no_crash() -> None:
    assert fingered((), GUITAR) == ()
    assert fingered(line_of("C1 D1"), GUITAR) == (None, None)


def tab_for(phrase: Phrase, name: str, keys: str, tuning: str = "") -> list[tuple[Tab, list[str]]]:
    """Place a phrase for an edition with tablature; each key's stops and the rules that were found."""
    edition = edition_named(name)
    assert edition.instrument is not None
    board = edition.instrument.fingerboard
    assert board is not None
    if tuning:
        board = Fingerboard(read_strings(tuning), board.frets)
    edition = replace(edition, tablature=board)
    found = []
    for placed in reader_parts(phrase, reader_keys(phrase.key, edition, keys), edition):
        assert placed.tab is not None
        found.append((placed.tab, [finding.rule for finding in placed.findings]))
    return found


def test_a_placed_phrase_has_its_stops(make: Make) -> None:
    phrase = make("C major", "Cmaj7 | %", "1/4 c4 d e f | 1/8 grace:f#4 g a b c5 1/2 c | ")
    ((tab, findings),) = tab_for(phrase, "guitar", "C")
    assert findings == []
    assert shown(tab.notes) == "3:5 3:7 2:5 2:6 2:8 1:5 1:7 1:8 1:8"  # the fifth position
    assert [len(grace) for grace in tab.graces] == [0, 0, 0, 0, 1, 0, 0, 0, 0]


def test_what_is_known_of_each_note_when_its_stop_is_chosen(
    make: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The hand has time after a rest and after a half note; of an ornamented note the ornament has it."""
    asked: list[tuple[Played, ...]] = []

    def chosen(line: tuple[Played, ...], board: Fingerboard) -> tuple[Stop | None, ...]:
        asked.append(line)
        return (None,) * len(line)

    monkeypatch.setattr(tab_module, "fingered", chosen)
    phrase = make(
        "C major", "Cmaj7 | %", "1/4 c4 - 1/8 grace:d#4 e f 1/4 g | 1/2 a 1/8 grace:a grace:bb b c5 1/4 d"
    )
    tab_of(phrase, GUITAR, 12)
    assert asked == [(
        Played(48), Played(51, True, True), Played(52), Played(53), Played(55),
        Played(57), Played(57, True, True), Played(58, False, True), Played(59), Played(60), Played(62),
    )]  # fmt: skip


def test_a_note_beyond_the_strings_is_a_finding(make: Make) -> None:
    phrase = make("C major", "Cmaj7 | %", "1/4 c4 d e f | g a b c5")
    ((tab, findings),) = tab_for(phrase, "guitar", "C", tuning="C4 E4 G4")
    assert findings == []
    ((tab, findings),) = tab_for(phrase, "guitar", "C", tuning="E4 G4 B4")
    assert findings == ["off-fingerboard"]
    assert tab.missing == (0, 1)


def test_the_finding_stands_at_the_first_note_that_is_missing(make: Make) -> None:
    phrase = make("C major", "Cmaj7 | %", "1/4 e4 f g d | g c4 a b")
    edition = replace(edition_named("guitar"), tablature=replace(GUITAR, strings=read_strings("E4 G4 B4")))
    (part,) = reader_parts(phrase, reader_keys(phrase.key, edition, "C"), edition)
    (finding,) = [one for one in part.findings if one.rule == "off-fingerboard"]
    assert (finding.bar, finding.beat) == (1, Fraction(4))
