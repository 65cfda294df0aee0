"""The list of a session's takes as programs read it: written with the sheet, read beside the recordings."""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from shedbook.book.manuscript.source import PhraseSource
from shedbook.errors import ReadError
from shedbook.theory.key import Key

SESSION_LIST = "takes.json"


class SessionTake(NamedTuple):
    """A take of a session: its number, its phrase, the key that sounds, its tempo, its file in the book."""

    number: int
    phrase: int
    title: str
    key: Key
    tempo_bpm: int
    file: str


def session_json(takes: Sequence[SessionTake]) -> str:
    """Return the list of a session's takes."""
    return json.dumps([session_row(take) for take in takes], ensure_ascii=False, indent=2) + "\n"


def session_row(take: SessionTake) -> dict[str, int | str]:
    """Return a take of a session as JSON values."""
    return {
        "take": take.number,
        "phrase": take.phrase,
        "title": take.title,
        "key": str(take.key),
        "tempo": take.tempo_bpm,
        "file": take.file,
    }


def read_session(path: Path) -> dict[int, SessionTake]:
    """Return the takes of a session by number.

    Args:
        path: the list, or the folder in which it lies.

    Raises:
        ReadError: if there is none, or it is no such list.
    """
    file = path / SESSION_LIST if path.is_dir() else path
    hint = f"Name the folder that `shedbook session` filled; its list is {SESSION_LIST}."
    try:
        rows = json.loads(file.read_text(encoding="utf-8"))
        takes = [
            SessionTake(
                int(row["take"]), int(row["phrase"]), str(row["title"]), Key.parse(str(row["key"])),
                int(row["tempo"]), str(row["file"]),
            )
            for row in rows
        ]  # fmt: skip
    except OSError as error:
        raise ReadError(f"{file} cannot be read: {error.strerror}.", hint=hint) from None
    except (ValueError, KeyError, TypeError) as error:
        raise ReadError(f"{file} is no list of a session's takes: {error}", hint=hint) from None
    if any(take.tempo_bpm <= 0 for take in takes):
        raise ReadError(f"{file} has a take without a tempo.", hint=hint)
    return {take.number: take for take in takes}


def session_beside(recording: Path) -> dict[int, SessionTake]:
    """Return the takes of the session whose list lies beside a recording; none where none does.

    Raises:
        ReadError: if a file of that name is no such list.
    """
    file = recording.parent / SESSION_LIST
    return read_session(file) if file.is_file() else {}


def source_of(take: SessionTake, sources: Sequence[PhraseSource]) -> PhraseSource | None:
    """Return the phrase that a take is of; where numbers have moved since, the one of its title."""
    titled = [source for source in sources if source.title == take.title]
    numbered = [source for source in titled if source.number == take.phrase]
    return numbered[0] if numbered else titled[0] if len(titled) == 1 else None
