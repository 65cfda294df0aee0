"""Phrases that a book takes from other books: listed, pinned to a version, set free again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from shedbook.book.editing.texts import FileText, read_file, write_files
from shedbook.book.ground.toml_edits import with_value
from shedbook.book.ground.toml_files import read_toml
from shedbook.book.manuscript.choice import chosen_phrase
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.shared_phrases import SHARED_FOLDER, VERSION, version_of
from shedbook.book.manuscript.source import PHRASE_TABLE, PhraseSource, Taken
from shedbook.errors import ManuscriptError

IN_STEP, PINNED, GONE_ON, COPY_ALONE = (
    "in step",
    "pinned",
    "pinned, the source has gone on",
    "pinned, no source",
)


@dataclass(frozen=True, slots=True)
class SharedPhrase:
    """A phrase that is taken from another book.

    `version` is that of the source now, "" where it is not there; `pinned` the one that is named, "" for
    none. `state` is one of the four constants of this module.
    """

    number: int
    title: str
    file: str
    reference: str
    version: str
    pinned: str
    state: str


def shared_phrases(root: Path) -> tuple[SharedPhrase, ...]:
    """Return the phrases that a book takes from others, in its order.

    Raises:
        ReadError: if the manuscript cannot be opened.
    """
    return tuple(
        SharedPhrase(
            one.number, one.title, one.file, one.taken.reference, one.taken.version, one.taken.pinned,
            _state(one.taken),
        )
        for one in open_manuscript(root).phrases
        if one.taken is not None
    )  # fmt: skip


def _state(taken: Taken) -> str:
    if not taken.pinned:
        return IN_STEP
    if taken.source is None:
        return COPY_ALONE
    return PINNED if taken.pinned == taken.version else GONE_ON


def pin(root: Path, asked: Sequence[str] = ()) -> tuple[SharedPhrase, ...]:
    """Pin phrases to the version that their source has now, each with a copy in the folder `shared`.

    Args:
        root: the manuscript's folder.
        asked: numbers or titles of phrases; empty for all that are shared.

    Raises:
        ReadError: if the manuscript cannot be opened, or a phrase has no source any more.
        UnknownNameError: for a phrase that is not there.
        OutputError: if the disk refuses; every file is as it was then.
    """
    _write(root, [(one, _pinned(one)) for one in _asked(root, asked)])
    return shared_phrases(root)


def follow(root: Path, asked: Sequence[str] = ()) -> tuple[SharedPhrase, ...]:
    """Let phrases go in step with their source again; their copies are left where they are.

    Args:
        root: the manuscript's folder.
        asked: numbers or titles of phrases; empty for all that are shared.

    Raises:
        ReadError: if the manuscript cannot be opened.
        UnknownNameError: for a phrase that is not there.
        OutputError: if the disk refuses; every file is as it was then.
    """
    _write(root, [(one, None) for one in _asked(root, asked)])
    return shared_phrases(root)


def _asked(root: Path, asked: Sequence[str]) -> list[PhraseSource]:
    phrases = open_manuscript(root).phrases
    found = [chosen_phrase(phrases, one) for one in asked] if asked else list(phrases)
    own = next((one for one in found if one.taken is None), None)
    if asked and own is not None:
        raise ManuscriptError(
            f'"{own.title}" is this book\'s own phrase.', hint="Only shared phrases are pinned."
        )
    return [one for one in found if one.taken is not None]


def _pinned(source: PhraseSource) -> FileText:
    """Return the file of a copy.

    Raises:
        ManuscriptError: if there is no source, or its keys cannot be written down and read again.
    """
    taken = source.taken
    assert taken is not None
    if taken.source is None:
        raise ManuscriptError(f'The source of "{source.title}" is not there; only its copy is.')
    text = ""
    for name, value in taken.source.fields.items():
        if name != "id":
            text = with_value(text, "", 0, name, value)
    name = taken.reference.rpartition("#")[2].strip()
    file = f"{SHARED_FOLDER}/{name}-{taken.version}.toml"
    if version_of(read_toml(text, file)) != taken.version:
        raise ManuscriptError(f'"{source.title}" holds something that a copy cannot keep.')
    return read_file(source.root, file).with_text(text)


def _write(root: Path, wanted: Sequence[tuple[PhraseSource, FileText | None]]) -> None:
    """Write copies, and the versions into the phrases' own files."""
    texts: dict[str, FileText] = {}
    for source, copy in wanted:
        assert source.taken is not None
        now = texts.get(source.file) or read_file(root, source.file)
        value: Any = None if copy is None else source.taken.version
        table, index = (PHRASE_TABLE, source.index) if source.in_table else ("", 0)
        texts[source.file] = now.with_text(with_value(now.text or "", table, index, VERSION, value))
        if copy is not None:
            texts[copy.file] = copy
    before = [read_file(root, file) for file in texts]
    changed = [(one, two) for one, two in zip(before, texts.values(), strict=True) if one.text != two.text]
    write_files([one for one, _ in changed], [two for _, two in changed])
