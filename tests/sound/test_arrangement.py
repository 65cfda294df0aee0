"""The arrangement: what comes when, how it begins and ends."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings

from shedbook.editions.in_key import in_key
from shedbook.editions.keys import key_cycle
from shedbook.errors import UnknownNameError
from shedbook.phrase.model import Phrase
from shedbook.sound.arrangement import Order, arrange
from shedbook.sound.parts import BASS, COMPING, DRUMS, LINE, Score
from shedbook.sound.perform import perform
from shedbook.sound.set_up import leading_chords
from shedbook.theory.chord_symbol import parse_chord
from sound.players import demo, notes, part, phrase, score
from strategies import phrases

FOUR = phrase(
    "Dm7 | G7 | Cmaj7 | %", "1/4 d5 f a c | b4 d5 f g | e c g4 e | 1/1 c5", tempo=140, key="C major"
)
TWO = phrase("Dm7 | G7", "1/4 d5 f a c | b4 d5 f g", tempo=140, key="C major")
UP = phrase("Cmaj7 | % | % | %", "1/4 g4 | 1/1 c5 | d | e | g", pickup="1/4", tempo=140)


def names(found: Score) -> list[str]:
    kinds = ("count-in", "round", "answer", "space", "set-up", "ending")
    return [sign.text.split(": ")[-1] for sign in found.signs if sign.text.split(": ")[-1] in kinds]


@pytest.mark.parametrize(
    ("order", "bars", "order_of_things"),
    [
        pytest.param(Order(), 2 + 4 + 1, ["count-in", "round", "ending"], id="plain"),
        pytest.param(Order(count_in=1), 1 + 4 + 1, ["count-in", "round", "ending"], id="one bar of count"),
        pytest.param(Order(rounds=3), 2 + 12 + 1, ["count-in", *["round"] * 3, "ending"], id="three rounds"),
        pytest.param(
            Order(rounds=4, answers=True),
            2 + 16 + 1,
            ["count-in", *["round", "answer"] * 2, "ending"],
            id="answers",
        ),
        pytest.param(Order(rounds=2, loop=True), 8, ["round", "round"], id="a loop is nothing but rounds"),
        pytest.param(Order(parts="line"), 2 + 4, ["count-in", "round"], id="the line alone needs no ending"),
        pytest.param(Order(tempo_bpm=72), 1 + 4 + 1, ["count-in", "round", "ending"], id="one bar when slow"),
    ],
)
def test_plan(order: Order, bars: int, order_of_things: list[str]) -> None:
    found = arrange(FOUR, order)
    assert found.quarters == 4 * bars
    assert names(found) == order_of_things


def test_short_phrase_is_given_as_many_empty_bars() -> None:
    """Two bars, two empty ones that lead back, two bars, the ending; nothing after the last round."""
    found = arrange(TWO, Order(rounds=2, count_in=0))
    assert names(found) == ["round", "space", "round", "ending"]
    assert found.quarters == 4 * 7
    assert all(not 8 <= note.start < 16 for note in notes(found, LINE))
    texts = [sign.text for sign in found.signs if 8 <= sign.start < 16]
    assert texts == ["space", "G7", "Em7b5", "A7b9"]


def test_count_in_holds_the_pick_up() -> None:
    found = arrange(UP, Order())
    first = notes(found, LINE)[0]
    assert first.start == 7
    assert first.midi == 67
    assert [note.start for note in notes(found, DRUMS) if note.start < 8] == [0, 2, 4, 5, 6, 7]


def test_pick_up_of_a_loop_stands_at_its_end() -> None:
    found = arrange(UP, Order(loop=True, rounds=2))
    assert [note.start for note in notes(found, LINE) if note.midi == 67 and note.quarters <= 1] == [15, 31]


def test_answers_leave_the_line_out() -> None:
    found = arrange(FOUR, Order(rounds=2, answers=True, count_in=0))
    assert all(note.start < 16 for note in notes(found, LINE))
    assert any(16 <= note.start < 32 for note in notes(found, COMPING))


@pytest.mark.parametrize(
    ("order", "players"),
    [
        (Order(parts="line"), [LINE, DRUMS]),
        (Order(parts="line", count_in=0), [LINE]),
        (Order(parts="line", click=True, count_in=0), [LINE, DRUMS]),
        (Order(parts="trio"), [BASS, COMPING, DRUMS]),
        (Order(parts="both"), [LINE, BASS, COMPING, DRUMS]),
    ],
)
def test_players(order: Order, players: list[str]) -> None:
    found = arrange(FOUR, order)
    assert [one.player for one in found.parts] == players
    assert len({one.channel for one in found.parts}) == len(players)


@pytest.mark.parametrize(
    ("changes", "key", "last"),
    [
        pytest.param("Fmaj7 | D7b9 | Gm7 | C7", "F major", {9, 4}, id="home after the dominant: Fmaj7"),
        pytest.param("Gm7 | C7 | Gm7 | C7", "F major", {9, 2}, id="the tonic that was promised: F6"),
        pytest.param("Cm7 | F7b9 | Bbm7 | Eb7", "Ab major", {0, 5}, id="another dominant: Ab6"),
        pytest.param("G7 | % | % | %", "C major", {11, 5}, id="one chord stays: G7"),
        pytest.param("Dm7 | G7 | Cmaj7 | %", "C major", {4, 11}, id="already home"),
    ],
)
@pytest.mark.parametrize("kind", ["hit", "held"])
def test_ending(changes: str, key: str, last: set[int], kind: str) -> None:
    """The last bar: one chord by all, third and seventh (or sixth) in the piano; short, or to the end."""
    found = arrange(phrase(changes, "1/1 - | - | - | -", key=key), Order(ending=kind, count_in=0))
    end = found.quarters
    for player in (BASS, COMPING, DRUMS):
        final = [note for note in notes(found, player) if note.start >= end - 4]
        assert {note.start for note in final} == {end - 4}
        assert all((note.end == end) == (kind == "held") for note in final if player != DRUMS)
    assert last <= {note.midi % 12 for note in notes(found, COMPING) if note.start >= end - 4}


def test_all_twelve_keys_in_a_row() -> None:
    keys = key_cycle(FOUR.key)
    found = arrange([in_key(FOUR, key) for key in keys], Order(count_in=1))
    assert names(found) == ["count-in", *["round", "set-up"] * 11, "round", "ending"]
    assert found.quarters == 4 * (1 + 12 * 4 + 11 + 1)
    assert [at.key for at in found.keys] == list(keys)
    # The bar before F major's Gm7 leads there: its ii and its V, half a bar each.
    assert [sign.text for sign in found.signs if 20 <= sign.start < 24] == [
        "F major: set-up",
        "Am7b5",
        "D7b9",
    ]


@pytest.mark.parametrize(
    ("target", "chords"),
    [
        pytest.param("Cm7", ["Dm7b5", "G7b9"], id="ii-V of a minor chord"),
        pytest.param("Cmaj7", ["Dm7", "G7"], id="ii-V of a major chord"),
        pytest.param("G7", ["Dm7"], id="the ii that belongs to a dominant"),
        pytest.param("G7alt", ["Dm7b5"], id="the dark ii of an altered dominant"),
        pytest.param("N.C.", [], id="nothing leads to silence"),
    ],
)
def test_set_ups(target: str, chords: list[str]) -> None:
    """Common practice of turnarounds."""
    assert [chord.text for chord in leading_chords(parse_chord(target), 2)] == chords


def test_wide_puts_bass_and_piano_on_their_sides() -> None:
    found = arrange(FOUR, Order(wide=True))
    assert (part(found, BASS).pan, part(found, COMPING).pan) == (0, 127)
    assert (part(arrange(FOUR, Order()), BASS).pan, part(arrange(FOUR, Order()), COMPING).pan) == (64, 64)


@pytest.mark.parametrize("order", [Order(parts="band"), Order(line_instrument="tenor saxofone")])
def test_unknown_names(order: Order) -> None:
    with pytest.raises(UnknownNameError) as caught:
        arrange(FOUR, order)
    assert caught.value.hint


@pytest.mark.parametrize("order", [Order(rounds=0)])
def test_no_rounds(order: Order) -> None:
    with pytest.raises(ValueError, match="at least one round"):
        arrange(FOUR, order)


@settings(max_examples=40, deadline=None)
@given(phrases())
def test_any_phrase_makes_a_track_within_its_bars(found: Phrase) -> None:
    written = arrange(found, Order(rounds=2))
    played = perform(written)
    assert abs(played.seconds - written.seconds) < 0.005
    for one in played.parts:
        assert all(0 <= note.start < note.end <= played.ticks for note in one.notes)
        sounding: dict[int, int] = {}
        for note in one.notes:
            assert sounding.get(note.midi, 0) <= note.start
            sounding[note.midi] = note.end


@pytest.mark.parametrize("phrase", demo()[:6], ids=lambda phrase: phrase.title)
def test_seed_changes_the_band_and_never_the_line(phrase: Phrase) -> None:
    one, two = score(phrase, Order(seed=1)), score(phrase, Order(seed=2))
    assert one == arrange(phrase, Order(seed=1))
    assert notes(one, LINE) == notes(two, LINE)
    assert all(notes(one, player) != notes(two, player) for player in (BASS, COMPING, DRUMS))


def test_tempo_and_feel_may_be_another() -> None:
    found = arrange(FOUR, Order(tempo_bpm=90, feel="bossa"))
    assert found.tempo_qpm == 90
    assert found.feel == "bossa"
    six = replace(phrase("Cmaj7", "1/8 c5 d e f g a", metre="6/8", tempo=60), tempo_bpm=60)
    assert arrange(six, Order()).tempo_qpm == Fraction(90)
