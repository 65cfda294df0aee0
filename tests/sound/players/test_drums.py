"""The drums: General MIDI keys, time, fills, the count."""

from __future__ import annotations

import itertools
from bisect import bisect_left
from collections import Counter
from fractions import Fraction

import pytest

from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.errors import UnknownNameError
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.feels.known_feels import FEELS
from shedbook.sound.players.drums import click, count_in, drums
from shedbook.sound.score.written_score import DRUMS, PartNote, Score
from shedbook.theory.metre import Metre
from sound.demo_scores import chart, part, phrase, score

KEYS = {
    35: "kick", 36: "kick", 37: "side stick", 38: "snare", 39: "brush slap", 40: "brush swirl",
    41: "low floor tom",
    42: "closed hi-hat", 43: "low tom", 44: "pedal hi-hat", 46: "open hi-hat", 47: "mid tom", 48: "high tom",
    49: "crash", 51: "ride", 53: "ride bell", 62: "mute high conga", 63: "open high conga", 70: "maracas",
}  # fmt: skip
"""General MIDI 1 Percussion Key Map, MMA RP-003 (39 and 40 by the brush kit of GM2, from memory)."""

LONG = "Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | A7"


@pytest.mark.parametrize("feel", [*FEELS])
@pytest.mark.parametrize("metre", ["4/4", "3/4", "5/4", "6/8", "7/8", "2/2"])
def test_keys_are_general_midi_and_no_two_strokes_meet(feel: str, metre: str) -> None:
    found = drums(chart(LONG, feel=feel, metre=metre), seed=2)
    assert found
    assert all(note.midi in KEYS for note in found)
    assert all(1 <= note.velocity <= 127 for note in found)
    assert len({(note.start, note.midi) for note in found}) == len(found)


@pytest.mark.parametrize("feel", [feel for feel in FEELS if feel != "free"])
@pytest.mark.parametrize("metre", ["5/16", "6/16", "7/16"])
def test_metres_over_sixteen_have_drums(feel: str, metre: str) -> None:
    assert drums(chart(LONG, feel=feel, metre=metre), seed=2)


def test_hi_hat_is_on_two_and_four() -> None:
    """Common practice of swing."""
    heard = {note.start % 4 for note in drums(chart(LONG), seed=0) if note.midi == 44}
    assert heard == {1, 3}


def test_kick_is_feathered() -> None:
    """Common practice: felt rather than heard; only the few accents are louder."""
    found = [note.velocity for note in drums(chart(LONG), seed=0) if note.midi == 36]
    assert sum(velocity <= 32 for velocity in found) / len(found) > 0.7


def test_ride_skips_before_one_and_three() -> None:
    """Common practice: the pattern's skipped notes are the off-beats after 2 and 4."""
    skips = Counter(
        note.start % 4 for note in drums(chart(LONG), seed=0) if note.midi == 51 and note.start % 1
    )
    assert skips[Fraction(3, 2)] + skips[Fraction(7, 2)] > 0.8 * skips.total()


def test_fills_end_each_fourth_or_eighth_bar_and_change() -> None:
    over = chart(LONG, rounds=4)
    toms = {43, 47, 48}
    fills = []
    for seed in range(6):
        found = drums(over, seed=seed)
        snare = Counter(int(note.start // 4) for note in found if note.midi == 38 and note.start % 4 >= 2)
        bars = {bar for bar, strokes in snare.items() if strokes > 1}
        bars |= {int(note.start // 4) for note in found if note.midi in toms}
        assert bars
        assert all(bar % 4 == 3 for bar in bars)
        fills.append(bars)
    assert len({frozenset(one) for one in fills}) > 1


@pytest.mark.parametrize("feel", [feel for feel in FEELS if feel != "free"])
def test_no_round_is_the_one_before(feel: str) -> None:
    metre = "3/4" if feel == "waltz" else "4/4"
    over = chart("Dm7 | G7", feel=feel, metre=metre, rounds=6)
    span = 2 * over.metre.bar_quarters
    found = drums(over, seed=0)
    rounds = [
        tuple(
            (note.start - at * span, note.midi, note.velocity)
            for note in found
            if at * span <= note.start < (at + 1) * span
        )
        for at in range(6)
    ]
    assert all(rounds[at] != rounds[at + 1] for at in range(5))


def test_ballad_has_brushes_where_there_are_some() -> None:
    ballad = phrase("Dm7 | G7 | Cmaj7 | %", "1/1 d5 | f | e | e", feel="ballad")
    brushed = part(score(ballad, Order(parts="trio")), DRUMS)
    sticks = part(score(ballad, Order(parts="trio", brushes=False)), DRUMS)
    assert (brushed.program, sticks.program) == (40, 0)
    assert any(note.midi == 40 for note in brushed.notes)
    assert all(note.midi not in (39, 40) for note in sticks.notes)
    ride = [note.velocity for note in sticks.notes if note.midi == 51]
    assert ride
    assert max(ride) <= 62


@pytest.mark.parametrize(
    ("metre", "bars", "counts"),
    [
        pytest.param("4/4", 2, [0, 2, 4, 5, 6, 7], id="two half notes, then four quarters [the design]"),
        pytest.param("4/4", 1, [0, 1, 2, 3], id="four quarters"),
        pytest.param("3/4", 2, [0, 3, 4, 5], id="one, then three"),
        pytest.param("6/8", 1, [0, Fraction(3, 2)], id="six-eight in two"),
        pytest.param("5/4", 1, [0, 1, 2, 3, 4], id="five"),
        pytest.param("2/2", 1, [0, 2], id="cut time in two"),
        pytest.param("4/4", 0, [], id="none"),
    ],
)
def test_count_in(metre: str, bars: int, counts: list[Fraction]) -> None:
    assert [note.start for note in count_in(Metre.parse(metre), bars)] == counts


def test_click_marks_every_beat_and_the_first_most() -> None:
    found = click(Metre(), Fraction(4), Fraction(12))
    assert [note.start for note in found] == list(range(4, 12))
    assert [note.velocity > found[1].velocity for note in found] == [at % 4 == 0 for at in range(8)]


def test_seeds() -> None:
    over = chart(LONG)
    assert drums(over, seed=1) == drums(over, seed=1)
    assert drums(over, seed=1) != drums(over, seed=2)


# Where fills stand.


class Struck:
    """What the drums play, from here to there."""

    def __init__(self, found: Score) -> None:
        self.notes = sorted(part(found, DRUMS).notes, key=lambda note: note.start)
        self.starts = [note.start for note in self.notes]

    def between(self, start: Fraction, end: Fraction) -> list[PartNote]:
        return self.notes[bisect_left(self.starts, start) : bisect_left(self.starts, end)]


def fills_in(found: Score) -> list[tuple[str, int, int, bool]]:
    """Return each bar of a track: its passage, which bar of how many it is, whether a fill ends it.

    A fill is told by what no pattern of swing has: toms, or two strokes of the snare in the last two beats.
    """
    bar = found.metre.bar_quarters
    struck = Struck(found)
    starts = [
        (sign.start, sign.text.split(": ")[-1])
        for sign in found.signs
        if sign.text.split(": ")[-1] in ("round", "answer", "space", "set-up", "ending")
    ]
    rows = []
    for (start, kind), (end, _) in itertools.pairwise(starts):
        bars = int((end - start) / bar)
        for at in range(bars):
            last = struck.between(start + (at + 1) * bar - 2, start + (at + 1) * bar)
            snare = [note for note in last if note.midi == 38]
            filled = len(snare) > 1 or any(note.midi in (43, 47, 48) for note in last)
            rows.append((kind, at + 1, bars, filled))
    return rows


FOUR = phrase(
    "Dm7 | G7 | Cmaj7 | %", "1/4 d5 f a c | b4 d5 f g | e c g4 e | 1/1 c5", tempo=140, key="C major"
)


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("rounds", [1, 2])
def test_fills_stay_at_the_ends_through_all_keys(seed: int, rounds: int) -> None:
    """Each set-up bar has one; no bar of a round but its last ever has."""
    keys = [in_key(FOUR, key) for key in key_cycle(FOUR.key)]
    rows = fills_in(arrange(keys, Order(rounds=rounds, seed=seed)))
    assert all(filled for kind, _, _, filled in rows if kind == "set-up")
    assert not any(filled for kind, bar, bars, filled in rows if kind == "round" and bar < bars)


@pytest.mark.parametrize("bars", [1, 2, 3])
@pytest.mark.parametrize("seed", range(6))
def test_short_phrases_are_filled_where_they_come_again(bars: int, seed: int) -> None:
    """At the end of the empty bars, and no more often than each fourth bar."""
    changes = " | ".join(["Dm7", "G7", "Cmaj7"][:bars])
    short = phrase(changes, " | ".join(["1/1 d5", "f", "e"][:bars]), tempo=140)
    rows = fills_in(arrange(short, Order(rounds=6, seed=seed)))
    filled = [at for at, row in enumerate(rows) if row[3]]
    assert filled
    assert all(rows[at][1] == rows[at][2] for at in filled)
    assert all(rows[at][0] == "space" or at + 1 == len(rows) for at in filled)
    assert all(two - one >= 4 for one, two in itertools.pairwise(filled))


@pytest.mark.parametrize("bars", [5, 6, 7, 8, 12, 16])
@pytest.mark.parametrize("seed", range(4))
def test_long_phrases_are_filled_from_their_own_beginning(bars: int, seed: int) -> None:
    long = phrase(" | ".join(["Dm7"] * bars), " | ".join(["1/1 d5"] * bars), tempo=140)
    rows = fills_in(arrange(long, Order(rounds=3, seed=seed)))
    assert all(bar % 4 == 0 or bar == bars for _, bar, _, filled in rows if filled)
    assert all(filled for _, bar, _, filled in rows if bar == bars)


@pytest.mark.parametrize("feel", [feel for feel in FEELS if feel != "free"])
@pytest.mark.parametrize("bars", [1, 4])
@pytest.mark.parametrize(
    ("metre", "keys"),
    [("4/4", 1), ("4/4", 3), ("3/4", 2), ("6/8", 2), ("2/4", 2), ("7/8", 2), ("5/4", 2)],
)
def test_no_round_ends_as_the_one_before(feel: str, bars: int, metre: str, keys: int) -> None:
    """By places and drums struck, however loud; a round's last bar, and the round as a whole."""
    length = Metre.parse(metre).bar_quarters
    value = {"2/4": "1/2", "4/4": "1/1", "7/8": "1/2..", "5/4": "1/1+1/4"}.get(metre, "1/2.")
    written = phrase(
        " | ".join(["Dm7"] * bars), " | ".join([f"{value} d5"] * bars), tempo=140, metre=metre, feel=feel
    )
    for seed in range(2):
        found = arrange(
            [in_key(written, key) for key in key_cycle(written.key)[:keys]],
            Order(parts="trio", rounds=4, seed=seed),
        )
        starts = [sign.start for sign in found.signs if sign.text.split(": ")[-1] == "round"]
        all_struck = Struck(found)
        struck = [
            [
                frozenset((note.start - end, note.midi) for note in all_struck.between(end - span, end))
                for end in (start + bars * length for start in starts)
            ]
            for span in (length, bars * length)
        ]
        for row in struck:
            assert all(one != two for one, two in itertools.pairwise(row))


@pytest.mark.parametrize(
    ("feel", "three", "two"),
    [("bossa", {0, Fraction(3, 2), 3}, {1, Fraction(5, 2)}),
     ("samba", {0, 1, 2, Fraction(5, 2), Fraction(7, 2)},
      {Fraction(1, 2), Fraction(3, 2), Fraction(5, 2), 3}),
     ("latin", {0, Fraction(3, 2), 3}, {1, 2})],
)  # fmt: skip
def test_the_rim_click_keeps_a_pattern_of_two_bars(
    feel: str, three: set[Fraction], two: set[Fraction]
) -> None:
    """Common practice: 3-2 or 2-3, the same through a round; at most its last bar is varied, and rarely."""
    begins = set()
    for seed in range(12):
        found = drums(chart(LONG, feel=feel, rounds=4), seed=seed)
        for number in range(4):
            bars = [
                {note.start % 4 for note in found if note.midi == 37 and at * 4 <= note.start < at * 4 + 4}
                for at in range(number * 8, number * 8 + 7)
            ]
            begins.add(bars[0] == three)
            expected = [three, two] if bars[0] == three else [two, three]
            # The fourth bar may end with a fill, to which the rim gives way.
            assert [bars[at] for at in (0, 1, 2, 4, 5, 6)] == [expected[at % 2] for at in (0, 1, 2, 4, 5, 6)]
    assert begins == {True, False}


@pytest.mark.parametrize(
    ("kind", "places"),
    [("beats", [0, 1, 2, 3, 4, 5, 6, 7]), ("2 and 4", [1, 3, 5, 7]), ("1", [0, 4])],
)
def test_kinds_of_clicks(kind: str, places: list[int]) -> None:
    """Common practice of practising with a metronome."""
    assert [note.start for note in click(Metre(), Fraction(0), Fraction(8), kind)] == places


def test_a_click_that_thins_out() -> None:
    found = click(Metre(), Fraction(0), Fraction(64), "thinning")
    bars = [sum(at * 4 <= note.start < at * 4 + 4 for note in found) for at in range(16)]
    assert bars == [4] * 4 + [2] * 4 + [1] * 4 + [4] * 4


def test_a_click_of_a_kind_that_nobody_knows() -> None:
    with pytest.raises(UnknownNameError, match="not a kind of click"):
        click(Metre(), Fraction(0), Fraction(4), "3")


def test_the_drums_answer_the_others() -> None:
    """An accent of snare or kick is likelier where another has one: six times, by the table."""
    over = chart(LONG, rounds=8)
    places = frozenset(Fraction(at * 4 + 1) + Fraction(1, 2) for at in range(0, 64, 2))
    together = apart = 0
    for seed in range(4):
        struck = {note.start for note in drums(over, seed=seed, accents=places) if note.midi in (36, 38)}
        together += len(struck & places)
        apart += sum(start % 4 == Fraction(3, 2) for start in struck - places)
    assert together > 2 * apart


def test_the_energy_grows_and_a_loop_stays_level() -> None:
    """Common practice of accompanying; in velocities of the drums, round by round."""
    for loop in (False, True):
        over = chart("Dm7 | G7 | Cmaj7 | A7", rounds=6, loop=loop)
        found = drums(over, seed=1)
        means = [
            sum(note.velocity for note in found if at * 16 <= note.start < at * 16 + 16)
            / sum(at * 16 <= note.start < at * 16 + 16 for note in found)
            for at in range(6)
        ]
        assert (means[-1] - means[0] > 6) != loop
