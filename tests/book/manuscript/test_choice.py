"""Which phrases and kinds of tracks a command asks for. Source of every check: our own design."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.manuscript.choice import chosen_phrase, chosen_phrases, chosen_tracks
from shedbook.book.manuscript.settings.tracks import KIND_NAMES, TrackSettings
from shedbook.book.manuscript.source import PhraseSource
from shedbook.errors import ManuscriptError, UnknownNameError
from shedbook.sound.tables.track_kinds import KIND_GROUPS, KINDS

PHRASES = tuple(
    PhraseSource(f"{number:02}.toml", Path(f"{number:02}.toml"), 0, number, {"title": title})
    for number, title in ((2, "Low tide"), (3, "High tide"), (5, "3"), (6, "Neap tide"))
)
MP3, WAV = TrackSettings(kinds=("line",)), TrackSettings(kinds=("line",), formats=("mp3", "wav"))


def test_a_group_stands_for_its_kinds() -> None:
    for name, kinds in KIND_GROUPS.items():
        assert chosen_tracks((name, kinds[0]), MP3) == kinds


def test_all_leaves_loops_away_where_no_format_suits_them() -> None:
    loops = {row.name for row in KINDS if row.loop}
    assert loops == {"loop", "bar-loop", "link-loop"}
    assert set(chosen_tracks(("all",), MP3)) == {*KIND_NAMES} - loops
    assert chosen_tracks(("all",), WAV) == KIND_NAMES
    with pytest.raises(ManuscriptError, match="formats"):
        chosen_tracks(("bar-loop",), MP3)


def test_none_nothing_asked_and_unknown() -> None:
    assert chosen_tracks(("none",), MP3) == ()
    assert chosen_tracks((), MP3) == ("line",)
    with pytest.raises(UnknownNameError, match="stms"):
        chosen_tracks(("stms",), MP3)


@pytest.mark.parametrize(
    ("asked", "found"),
    [((), [2, 3, 5, 6]), (("5",), [5]), (("6", "2"), [2, 6]), (("2-3",), [2, 3]), (("3-6", "5"), [3, 5, 6])],
)
def test_phrases_are_chosen_by_their_numbers(asked: tuple[str, ...], found: list[int]) -> None:
    assert [one.number for one in chosen_phrases(PHRASES, asked)] == found


@pytest.mark.parametrize("asked", ["1", "4", "7", "1-3", "5-7", "3-2", "x", "2-", "2,3", ""])
def test_numbers_that_no_phrase_has_are_refused_with_those_there_are(asked: str) -> None:
    with pytest.raises(UnknownNameError, match=f'no phrase "{asked}"') as caught:
        chosen_phrases(PHRASES, ("2", asked))
    assert "phrases 2 to 6" in caught.value.hint


@pytest.mark.parametrize(
    ("asked", "number"), [("1", 2), (" 4 ", 6), ("3", 5), ("low TIDE", 2), ("Neap tide", 6)]
)
def test_one_phrase_is_chosen_by_its_place_or_its_title(asked: str, number: int) -> None:
    """A number is a place before it is a title."""
    assert chosen_phrase(PHRASES, asked).number == number


@pytest.mark.parametrize(("asked", "hint"), [("0", "There are 4: 1 Low tide, 2 High"), ("5", "There are 4"),
                                             ("lo tide", "low tide")])  # fmt: skip
def test_a_phrase_that_is_not_there_is_told_what_is(asked: str, hint: str) -> None:
    with pytest.raises(UnknownNameError, match="There is no phrase") as caught:
        chosen_phrase(PHRASES, asked)
    assert hint in caught.value.hint


def test_of_many_phrases_twelve_are_named() -> None:
    many = tuple(
        PhraseSource(f"{number}.toml", Path(f"{number}.toml"), 0, number, {}) for number in range(1, 14)
    )
    for count, end in ((12, "12 Phrase 12"), (13, "12 Phrase 12 …")):
        with pytest.raises(UnknownNameError) as caught:
            chosen_phrase(many[:count], "x")
        assert caught.value.hint.endswith(end)
