"""The arrangement: what comes when, how it begins and ends."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings

from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.errors import UnknownNameError
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.arranging.leading_chords import leading_chords
from shedbook.sound.arranging.passages import held
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.score.performance import perform
from shedbook.sound.score.written_score import BASS, COMPING, DRUMS, LINE, Score
from shedbook.theory.chord_symbol import parse_chord
from sound.demo_scores import demo, notes, part, phrase, score
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


@settings(max_examples=15, deadline=None)
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
    assert found.feel.name == "bossa"
    six = replace(phrase("Cmaj7", "1/8 c5 d e f g a", metre="6/8", tempo=60), tempo_bpm=60)
    assert arrange(six, Order()).tempo_qpm == Fraction(90)


# Pick-ups.

FULL = phrase(
    "Dm7 | G7 | Cmaj7 | A7alt",
    "1/8 a4 b c5 c# | d f a c6 1/4 b5 a | 1/8 g f e d c5 b4 a g | 1/2 e5 1/8 - g5 e c |"
    " bb4 c# eb f g f eb db",
    pickup="1/2",
    tempo=180,
)
"""A last bar without a rest, over which the pick-up would sound."""

HELD_IN = phrase(
    "Cmaj7 | % | % | F7", "1/8 e4 g | + 1/2 1/2 c5 | 1/1 d | e | 1/8 c d e f g a b c6", pickup="1/4"
)
"""The same, with a pick-up that is held into bar 1."""


@pytest.mark.parametrize("over", [FULL, HELD_IN, UP], ids=lambda over: over.title)
@pytest.mark.parametrize(
    "order", [Order(rounds=3), Order(rounds=3, parts="line", click=True), Order(rounds=3, loop=True),
              Order(rounds=4, answers=True), Order(loop=True)],
)  # fmt: skip
@pytest.mark.parametrize("keys", [1, 3])
def test_every_written_note_is_played_and_none_is_a_blip(over: Phrase, order: Order, keys: int) -> None:
    """30 ms is about the shortest that has a pitch (common practice)."""
    found = arrange([in_key(over, key) for key in key_cycle(over.key)[:keys]], order)
    played = perform(found)
    heard = next(one for one in played.parts if one.player == LINE)
    assert len(heard.notes) == len(notes(found, LINE))
    assert min(played.seconds_at(note.end - note.start) for note in heard.notes) >= 0.03
    rounds = sum(name == "round" for name in names(found))
    in_bars = sum(note.end > 0 for note in sounding_notes(over))
    assert rounds * in_bars <= len(notes(found, LINE)) <= rounds * len(sounding_notes(over))


def test_a_pick_up_that_finds_no_room_is_played_before_the_first_round_only() -> None:
    found = arrange(FULL, Order(rounds=2, count_in=1))
    starts = [note.start for note in notes(found, LINE)]
    assert [start for start in starts if start < 4] == [2, Fraction(5, 2), 3, Fraction(7, 2)]
    assert [start for start in starts if 16 <= start < 20] == [16 + Fraction(at, 2) for at in range(8)]


def test_a_pick_up_is_played_again_after_a_bar_that_holds_it() -> None:
    """A set-up, an answer, or a held note that gives way."""
    for order, keys in ((Order(), 2), (Order(answers=True, rounds=3), 1)):
        found = arrange([in_key(FULL, key) for key in key_cycle(FULL.key)[:keys]], order)
        assert len(notes(found, LINE)) == 2 * len(sounding_notes(FULL))
    again = notes(arrange(UP, Order(rounds=2, count_in=1)), LINE)
    assert [note.start for note in again if note.start % 4 == 3] == [3, 19]
    assert [note.end for note in again if note.start == 16] == [19]


def test_what_a_pick_up_holds_into_bar_one_is_played_without_it() -> None:
    again = [note for note in notes(arrange(HELD_IN, Order(rounds=2, count_in=1)), LINE) if note.start >= 20]
    assert again[0].start == 20
    assert again[0].midi == 67
    assert again[0].quarters <= 2


@pytest.mark.parametrize("parts", ["line", "trio", "both"])
def test_a_pick_up_is_counted_in_even_where_no_bar_is_asked_for(parts: str) -> None:
    found = arrange(FULL, Order(count_in=0, parts=parts))
    assert names(found)[0] == "count-in"
    assert next(sign.start for sign in found.signs if sign.text == "round") == 4
    if parts != "trio":
        assert len(notes(found, LINE)) == len(sounding_notes(FULL))


def test_the_band_hears_a_pick_up_over_a_set_up() -> None:
    """Never a half step or a flat ninth against it, in any key and with any dice."""
    keys = [in_key(FULL, key) for key in key_cycle(FULL.key)]
    met = 0
    for seed in range(2):
        found = arrange(keys, Order(seed=seed))
        starts = [sign.start for sign in found.signs if sign.text.endswith("set-up")]
        for up in (note for note in notes(found, LINE) if any(0 < note.start - at < 4 for at in starts)):
            for note in notes(found, COMPING):
                if note.start < up.end and up.start < note.end:
                    met += 1
                    assert abs(note.midi - up.midi) not in (1, 13)
    assert met > 20


# One band, many tracks.


def test_every_key_and_phrase_has_a_performance_of_its_own() -> None:
    keys = [score(in_key(FOUR, key), Order(rounds=2)) for key in key_cycle(FOUR.key)]
    assert len({notes(one, DRUMS) for one in keys}) == 12
    assert len({tuple(note.start for note in notes(one, COMPING)) for one in keys}) == 12
    renamed = replace(FOUR, title="Another")
    for player in (BASS, COMPING, DRUMS):
        assert notes(score(FOUR, Order()), player) != notes(score(renamed, Order()), player)
    named = replace(FOUR, id="stays")
    assert score(named, Order()).parts == score(replace(named, title="Renamed"), Order()).parts


def test_both_endings_occur_over_a_book() -> None:
    """A hit ends well before its bar does."""
    held = [
        max(note.quarters for note in notes(found, COMPING) if note.start >= found.quarters - 4) > 2
        for found in (score(one, Order(parts="trio")) for one in demo() if one.metre.bar_quarters == 4)
    ]
    assert 0.2 <= sum(held) / len(held) <= 0.8


def test_the_ending_suits_the_feel() -> None:
    def rings(feel: str) -> int:
        return sum(held(Order(seed=seed), feel_named(feel), "a track") for seed in range(400))

    assert rings("free") == 400
    assert 400 > rings("ballad") > rings("swing") > rings("funk") > 0
