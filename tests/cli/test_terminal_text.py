"""Text as it is set on a terminal: accidental signs and columns."""

from __future__ import annotations

import pytest

from shedbook.cli.terminal_text import columns, harmless, pretty


@pytest.mark.parametrize(
    ("plain", "set_"),
    [
        ("Bbm7b5", "B♭m7♭5"),
        ("Ebb", "E♭♭"),
        ("bb7", "♭♭7"),
        ("bVII7", "♭VII7"),
        ("C7(b9,#11)", "C7(♭9,♯11)"),
        ("Bbmaj7/Db", "B♭maj7/D♭"),
        ("Gb bebop major", "G♭ bebop major"),
        ("Cm(addb13)", "Cm(add♭13)"),
        ("keep its B flat short", "keep its B flat short"),
    ],
)
def test_accidental_signs(plain: str, set_: str) -> None:
    assert pretty(plain) == set_


def test_columns_stand_under_one_another() -> None:
    assert columns(["C", "Eb", "G"], ["1", "b3", "5"]) == ["C  E♭  G", "1  ♭3  5"]


def test_control_characters_and_turned_writing_are_shown_escaped() -> None:
    # Unicode 15: U+202E turns the direction of writing, U+001B begins a terminal's commands (UAX #9).
    assert harmless("a\u202eb\x1b[2J\u2066\n") == "a\\u202eb\\x1b[2J\\u2066\\x0a"
    assert harmless("a\nb\tc\r", lines=True) == "a\nb\tc\\x0d"
    assert harmless("C♯ – ä 音") == "C♯ – ä 音"
