"""The list of a session's takes, written and read [the project's design]."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from shedbook.book.lessons.session_list import (
    SESSION_LIST,
    SessionTake,
    read_session,
    session_beside,
    session_json,
    source_of,
)
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.errors import ReadError
from shedbook.theory.key import Key

TAKES = (
    SessionTake(1, 3, "Low tide", Key.parse("Bb major"), 96, "media/03-low-tide-bb-major-96.wav"),
    SessionTake(2, 1, "Über die Brücke", Key.parse("C minor"), 120, "media/01-uber-die-brucke-c-minor.wav"),
)


def test_what_is_written_is_read(tmp_path: Path) -> None:
    (tmp_path / SESSION_LIST).write_text(session_json(TAKES), encoding="utf-8")
    assert tuple(read_session(tmp_path).values()) == TAKES
    assert session_beside(tmp_path / "morning.wav") == read_session(tmp_path / SESSION_LIST)


@pytest.mark.parametrize(
    "text",
    ["", "{}x", '{"take": 1}', "[1]", '[{"take": 1}]', session_json(TAKES).replace("Bb major", "H"),
     session_json(TAKES).replace("96,", "0,")],
)  # fmt: skip
def test_what_is_no_list_is_refused_by_name(tmp_path: Path, text: str) -> None:
    (tmp_path / SESSION_LIST).write_text(text, encoding="utf-8")
    with pytest.raises(ReadError, match=SESSION_LIST):
        read_session(tmp_path)


def test_a_folder_without_a_list(tmp_path: Path) -> None:
    assert session_beside(tmp_path / "morning.wav") == {}
    with pytest.raises(ReadError, match="cannot be read"):
        read_session(tmp_path)


def test_a_phrase_is_found_where_its_number_has_moved(tmp_path: Path) -> None:
    (tmp_path / "phrases").mkdir()
    (tmp_path / "manuscript.toml").write_text('title = "Tides"\n', encoding="utf-8")
    for number, title in ((1, "Low tide"), (2, "High tide"), (3, "High tide")):
        fields = {"title": title, "changes": "Dm7", "line": "1/4 d4 f a c5"}
        text = "".join(f"{name} = {json.dumps(value)}\n" for name, value in fields.items())
        (tmp_path / f"phrases/{number:02}.toml").write_text(text, encoding="utf-8")
    phrases = open_manuscript(tmp_path).phrases

    def found(phrase: int, title: str) -> int | None:
        source = source_of(TAKES[0]._replace(phrase=phrase, title=title), phrases)
        return None if source is None else source.number

    assert found(9, "Low tide") == 1
    assert found(3, "High tide") == 3
    assert found(1, "High tide") is None  # two are called so, and neither has the number
    assert found(1, "Neap tide") is None
