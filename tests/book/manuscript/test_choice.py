"""Which kinds of tracks a command asks for. Source of every check: our own design."""

from __future__ import annotations

import pytest

from shedbook.book.manuscript.choice import chosen_tracks
from shedbook.book.manuscript.settings.tracks import KIND_NAMES, TrackSettings
from shedbook.errors import ManuscriptError, UnknownNameError
from shedbook.sound.tables.track_kinds import KIND_GROUPS, KINDS

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
