"""A phrase as the band plays it, in numbers: held against the performance that the track is made of."""

from typing import Any

import pytest

from practice_opened import manuscript
from shedbook.book.manuscript.opening import Manuscript, open_manuscript
from shedbook.book.practice.inputs import PracticeOrder
from shedbook.book.practice.played import TEMPOS, play_phrase
from shedbook.editions.keys.phrase_in_key import in_key
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.score.performance import perform
from shedbook.theory.key import Key


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Manuscript:
    return open_manuscript(manuscript(tmp_path_factory.mktemp("played") / "book"))


def played(book: Manuscript, place: int) -> Any:
    order = PracticeOrder("", book.phrases[place], book.settings, (), (), ("", "", ""))
    return play_phrase(order.played())


def starts(part: Any, knot: int = 0) -> list[int]:
    """Return ticks as a page adds them up."""
    found, at = [], 0
    for place, step in enumerate(part["start"]):
        at += step
        found.append(at + (part["later"][knot - 1][place] if knot else 0))
    return found


def test_the_notes_are_those_of_the_demonstration_track(book: Manuscript) -> None:
    sound = book.settings.tracks.sound
    phrase = in_key(book.phrases[0].text.phrase(), Key.parse("F minor"))
    track = perform(arrange(phrase, Order(rounds=sound.rounds, seed=sound.seed)), seed=sound.seed)
    key = next(one for one in played(book, 0)["keys"] if one["key"] == "F minor")
    assert key["counted"] == track.band_tick
    for part, known in zip(key["parts"], track.parts, strict=True):
        assert part["midi"] == [note.midi for note in known.notes]
        assert starts(part) == [note.start for note in known.notes]
        assert part["length"] == [note.end - note.start for note in known.notes]
        assert part["velocity"] == [note.velocity for note in known.notes]


def test_a_slow_phrase_swings_more(book: Manuscript) -> None:
    """The ratio falls with the tempo (Friberg & Sundström 2002, after the abstract)."""
    off = dict(zip(TEMPOS, played(book, 0)["off"], strict=True))
    assert off[40] > off[70] > off[100] >= off[120] >= 0.5


def test_every_struck_note_is_found_in_every_round(book: Manuscript) -> None:
    for place, notes in ((0, 16), (1, 18)):
        key = played(book, place)["keys"][0]
        line = next(part for part in key["parts"] if part["player"] == "line")
        rounds = sum(1 for _, name in key["signs"] if name == "round")
        assert sorted(line["struck"]) == sorted(list(range(notes)) * rounds)


def test_a_click_on_two_and_four(book: Manuscript) -> None:
    found = played(book, 0)
    assert [tick / found["quarter"] for tick in found["clicked"]] == [1, 3]


def test_a_pick_up_lies_before_bar_one(book: Manuscript) -> None:
    found = played(book, 2)
    assert found["struck"][0][0] == -found["quarter"]
    assert found["bars"] == 2
