"""Where the bass plays, what is stale, how loud it is. Source of every check: our own design."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.feels.shared_patterns import PEDAL_BASS, TWO_IN_A_BAR_BASS
from shedbook.sound.players.band_chart import ANSWER, ENDING, ROUND, SPACE, Chart
from shedbook.sound.players.bass import (
    Raw,
    _alike,
    _at_changes,
    _chance,
    _led_into,
    _notes,
    _placed,
    _stale,
    _ways_of,
    _weight,
    arrivals,
    bass,
    slots,
)
from shedbook.sound.players.bass_notes import Slot, Task
from shedbook.sound.players.energy import Arc
from shedbook.sound.players.usable_notes import usable_notes
from shedbook.theory.chord_symbol import parse_chord
from sound.demo_scores import chart

LEVEL = Arc((Fraction(99),), (Fraction(100),), (57,))
ONE = Fraction(1)


def raw(*rows: str) -> tuple[Raw, ...]:
    """Read "0:1", "3:1:fifth", and "3:5/2>4" for a note that is struck ahead of the chord at 4."""
    found = []
    for row in rows:
        text, _, target = row.partition(">")
        at, quarters, *wish = text.split(":")
        ahead_of = Fraction(target) if target else None
        found.append(Raw(Fraction(at), Fraction(quarters), "".join(wish), ahead_of))
    return tuple(found)


def changed(bars: str, *rows: str, led: bool = False, at: tuple[int, ...] | None = None) -> tuple[Raw, ...]:
    over = chart(bars)
    places = arrivals((), over.passages) if at is None else frozenset(Fraction(one) for one in at)
    return _at_changes(raw(*rows), over.passages[0], places, led)


@pytest.mark.parametrize(
    ("rows", "led", "expected"),
    [
        pytest.param(("0:2", "2:2", "4:4"), False, ("0:2", "2:2", "4:4"), id="each has its note"),
        pytest.param(("0:6", "6:2"), False, ("0:4", "4:2:root", "6:2"), id="a note gives way to the chord"),
        pytest.param(("0:2", "6:2"), False, ("0:2", "4:2:root", "6:2"), id="a hole is filled"),
        pytest.param(("0:4",), False, ("0:4", "4:4:root"), id="the last one to the end of its chord"),
        pytest.param(("0:3", "3:3>4"), False, ("0:3", "3:3>4"), id="what is struck ahead serves"),
        pytest.param(("2:2", "4:4"), False, ("0:2:root", "2:2", "4:4"), id="the first chord too"),
        pytest.param(("2:2", "4:4"), True, ("2:2", "4:4"), id="unless the passage before leads into it"),
    ],
)
def test_every_chord_has_a_note_where_it_starts(
    rows: tuple[str, ...], led: bool, expected: tuple[str, ...]
) -> None:
    assert changed("Dm7 | G7", *rows, led=led) == raw(*expected)


def test_a_chord_that_is_the_one_before_needs_no_note() -> None:
    """But no note lasts over its beginning."""
    assert changed("Dm7 | Dm7", "0:2", "2:1", "6:2") == raw("0:2", "2:1", "6:2")
    assert changed("Dm7 | Dm7", "0:6", "6:2") == raw("0:4", "4:2:root", "6:2")
    assert changed("Dm7 | Dm7", "0:4", "6:2") == raw("0:4", "6:2")


def test_a_note_ahead_waits_where_another_chord_comes_first() -> None:
    """Then a plain note stands in its place, and half of it on the chord that it was for."""
    waited = raw("0:3:root", "3:1", "4:4:root", "8:3:root>8")
    assert changed("Dm7 | G7 | Cm7", "3:6>8", at=(0, 4, 8)) == waited
    assert changed("Dm7 | G7 | Cm7", "4:6>8", at=(4, 8)) == raw("4:4", "8:3:root>8")
    assert changed("Dm7 | Dm7 | Cm7", "0:3", "3:6>8", at=(0, 8)) == raw("0:3", "3:6>8")


def test_arrivals_are_new_roots_basses_or_pairs() -> None:
    """A colour more is no new chord, a third that changes is."""
    over = chart("Dm7 | Dm9 | D7 | D9 | D7/F# | G7")
    assert arrivals((), over.passages) == {0, 8, 16, 20}


def places(bars: str, *rows: str, feel: str = "swing", rounds: int = 1) -> list[tuple[str, str, int]]:
    over = chart(bars, feel=feel, rounds=rounds)
    found = _placed(raw(*rows), over, over.passages[0], arrivals((), over.passages))
    return [(slot.place, slot.wish, slot.bar) for slot in found]


def test_what_each_place_in_a_bar_is() -> None:
    """The first of a chord, of a bar, strong and weak ones, the last before a new chord."""
    rows = tuple(f"{at}:1" for at in range(12))
    assert [place for place, _, _ in places("Dm7 | Dm7 | G7", *rows)] == [
        "arrive", "weak", "strong", "weak", "bar", "weak", "strong", "lead", "arrive", "weak",
        "strong", "weak",
    ]  # fmt: skip
    assert places("Dm7 | Dm7", "0:4:fifth", "4:2:fifth", "6:2:octave") == [
        ("arrive", "", 0), ("bar", "fifth", 1), ("strong", "octave", 1),
    ]  # fmt: skip
    assert [place for place, _, _ in places("Dm7", "0:2", "2:2", rounds=2)] == ["arrive", "lead"]
    assert places("Dm7 | N.C. | G7", "0:4", "4:4", "8:4") == [("arrive", "", 0), ("arrive", "", 2)]
    ahead = places("Dm7 | G7", "0:3", "3:5/2>4", "6:2")
    assert [place for place, _, _ in ahead] == ["arrive", "arrive", "strong"]


def test_a_note_ahead_is_over_the_chord_that_comes() -> None:
    over = chart("Dm7 | G7", rounds=2)
    found = _placed(raw("0:3", "3:5/2>4", "7:2>8"), over, over.passages[0], arrivals((), over.passages))
    assert [slot.over.root for slot in found] == [2, 7, 2]
    assert [slot.start for slot in found] == [0, 3, 7]
    second = _placed(raw("8:3", "11:5/2>12"), over, over.passages[1], arrivals((), over.passages))
    assert [slot.over.root for slot in second] == [2, 7]


def ring(found: Chart, *kinds: str) -> Chart:
    passages = tuple(replace(one, kind=kind) for one, kind in zip(found.passages, kinds, strict=True))
    return replace(found, passages=passages)


def test_which_rhythms_a_passage_is_drawn_from() -> None:
    """Empty bars stand on a pedal, and a first round of three is in two, as often as the feel says."""
    over = ring(chart("Dm7 | G7", rounds=4), ROUND, SPACE, ANSWER, ROUND)
    own = over.feel.bass
    always = replace(own, pedal_percent=100, in_two_percent=100)
    never = replace(own, pedal_percent=0, in_two_percent=0)
    for seed in range(3):
        rows = [_ways_of(over, one, always, seed) for one in over.passages]
        assert rows == [TWO_IN_A_BAR_BASS, PEDAL_BASS, own.ways, own.ways]
        assert all(_ways_of(over, one, never, seed) == own.ways for one in over.passages)
    looped = replace(over, loop=True)
    assert _ways_of(looped, looped.passages[0], always, 0) == own.ways
    short = ring(chart("Dm7 | G7", rounds=3), ROUND, SPACE, ROUND)
    assert _ways_of(short, short.passages[0], always, 0) == own.ways
    pedals = sum(_ways_of(over, over.passages[1], own, seed) is PEDAL_BASS for seed in range(1000))
    twos = sum(_ways_of(over, over.passages[0], own, seed) is TWO_IN_A_BAR_BASS for seed in range(1000))
    assert [pedals, twos] == pytest.approx([350, 350], abs=50)


def test_only_latin_leads_from_passage_to_passage() -> None:
    for feel in ("latin", "swing", "funk"):
        over = chart("Dm7 | G7", feel=feel, rounds=2)
        assert [_led_into(over, one, over.feel.bass) for one in over.passages] == [False, feel == "latin"]
    three = chart("Dm7 | G7", feel="latin", metre="3/4", rounds=2)
    assert not _led_into(three, three.passages[1], three.feel.bass)


OVER = usable_notes(parse_chord("Dm7"), None)


def slot(at: object, place: str = "weak", wish: str = "", bar: int = 0, quarters: object = 1) -> Slot:
    return Slot(Fraction(str(at)), Fraction(str(quarters)), OVER, place, wish, bar)


@pytest.mark.parametrize(
    ("own", "loud"),
    [
        (slot(0, "arrive"), 92), (slot(0, "bar"), 88), (slot(2, "strong"), 82), (slot(1), 86),
        (slot(3, "lead"), 86),
        (slot("1/2"), 74), (slot("3/2"), 74), (slot(1, "arrive"), 92), (slot("7/2", "arrive"), 92),
        (slot(0, "weak"), 88), (slot(1, wish="ghost"), 44), (slot(1, wish="drop"), 56),
        (slot(1, wish="fifth"), 86),
    ],
)  # fmt: skip
def test_how_loud_a_note_is(own: Slot, loud: int) -> None:
    """The first over a chord, the first of a bar, 2 and 4, off the beat; dead notes and drops."""
    assert _weight(own, own.start) == loud


def test_how_long_notes_are() -> None:
    """Nineteen twentieths, nine tenths of a short one, half of a dead one; none lasts into the next."""
    over = chart("Dm7")
    row = (
        slot(0, quarters=2), slot(1), slot(2, quarters="1/2"), slot("5/2", wish="ghost", quarters="1/2"),
        slot(3, wish="drop"),
    )  # fmt: skip
    found = _notes(row, (38, 38, 38, 38, 38), over, over.passages[0], LEVEL)
    assert [note.quarters for note in found] == [
        1, Fraction(19, 20), Fraction(9, 20), Fraction(1, 4), Fraction(1, 2),
    ]  # fmt: skip
    loud = replace(LEVEL, bases=(407,))
    louder = _notes(row, (38,) * 5, over, over.passages[0], loud)
    assert [note.velocity for note in louder] == [127, 127, 127, 100, 112]
    plain = Fraction(19, 5)
    for kind, held, quarters in ((ENDING, True, 4), (ENDING, False, plain), (ROUND, True, plain)):
        passage = replace(over.passages[0], kind=kind, held=held)
        assert _notes((slot(0, quarters=4),), (38,), over, passage, LEVEL)[0].quarters == quarters


def test_the_last_note_of_a_track() -> None:
    over = ring(chart("Dm7 | G7", rounds=2), ROUND, ENDING)
    own = over.feel.bass
    for held, quarters in ((True, 4), (False, Fraction(1, 2))):
        passage = replace(over.passages[1], held=held)
        (found,) = slots(over, passage, own, 0)
        assert found == Slot(Fraction(8), Fraction(quarters), OVER, "arrive", "root")
    silent = ring(chart("N.C. | G7", rounds=2), ROUND, ENDING)
    assert slots(silent, silent.passages[1], own, 0) == ()


def test_a_track_begins_with_its_root_even_where_the_rhythm_does_not() -> None:
    over = chart("Dm7 | G7", feel="latin", rounds=2)
    first, second = (slots(over, passage, over.feel.bass, 1) for passage in over.passages)
    assert first[0].start == 0
    assert first[0].place == "arrive"
    assert first[0].quarters == first[1].start
    assert second[0].start > 8


def test_bars_are_alike_that_differ_by_one_note() -> None:
    assert _alike((38, 41, 45, 48), (38, 41, 45, 48))
    assert _alike((38, 41, 45, 48), (38, 41, 45, 47))
    assert not _alike((38, 41, 45, 48), (38, 41, 44, 47))
    assert not _alike((38, 41, 45), (38, 41, 45, 48))


def test_what_is_stale() -> None:
    """A whole line as the time before; else bars of three notes or more like their neighbour."""
    row = tuple(slot(at, bar=at // 4) for at in range(8))
    line = (38, 41, 45, 48)
    assert _stale(Task(row, avoided=(*line, *line)), (*line, *line)) == list(range(8))
    assert _stale(Task(row), (*line, *line, 50)) == [5, 6, 7]
    assert _stale(Task(row, last_bar=line), (*line, 50, 48, 47, 43)) == [1, 2, 3]
    assert _stale(Task(row), (*line, 50, 48, 47, 43)) == []
    short = (slot(0), slot(2), slot(4, bar=1), slot(6, bar=1))
    assert _stale(Task(short), (38, 45, 38, 45)) == []
    assert _stale(Task(row[:1], avoided=(38,)), (38,)) == []
    dead = (*row[:3], replace(row[3], wish="ghost"), *row[4:7], replace(row[7], wish="drop"))
    assert _stale(Task(dead), (38, 41, 45, 48, 38, 41, 45, 47)) == [5, 6]


def test_the_course_of_a_line() -> None:
    """Off its height each half step costs one, and chance at most nine; in eight notes to the next height."""

    class Same(random.Random):
        drawn = 0

        def randbytes(self, n: int) -> bytes:
            return bytes([10 * self.drawn]) * n

        def choice(self, seq: tuple[int, ...]) -> int:  # type: ignore[override]
            self.drawn += 1
            return seq[(0, -1)[self.drawn % 2]]

    rows = _chance(Task(tuple(slot(at) for at in range(9))), Same(), 0)
    heights = [min(row, key=lambda pitch: (row[pitch], pitch)) for row in rows]
    assert heights == [52, 49, 47, 44, 42, 40, 37, 35, 33]
    assert set(rows[0]) == set(range(28, 56))
    assert (rows[0][52], rows[0][28], rows[0][55]) == (0, 24, 3)
    assert _chance(Task((slot(0),)), Same(), 3)[0][55] == 0


def test_a_loop_ends_where_it_begins() -> None:
    """By half step, whole step, or from the dominant, into the very note that it began with."""
    over = chart("Dm7 | G7", rounds=2, loop=True)
    for seed in range(24):
        found = [note.midi for note in bass(over, seed=seed)]
        assert found[0] - found[-1] in (1, -1, 2, -2, 5, -7)


def test_the_instrument_of_each_feel_keeps_its_own_rhythms() -> None:
    """Common practice: a bass of another feel plays that feel's rhythms over the same chords."""
    over = chart("Dm7 | G7")
    swing, free = (slots(over, over.passages[0], feel_named(feel).bass, 1) for feel in ("swing", "free"))
    assert [one.start for one in free] == [0, 4]
    assert len(swing) >= 7
