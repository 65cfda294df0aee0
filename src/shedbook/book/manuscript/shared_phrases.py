"""A phrase of one book in another: written once, named by its id, in step with its source or pinned.

    from = "../harbour#low-tide"      the phrase with the id "low-tide" of the manuscript in ../harbour
    version = "3f9a0c12d4e5"          pinned: as it was when this was its version

Keys that stand beside these stand in place of the source's. A pinned phrase is read from its source while
that still is the version named, and after that from its copy in the folder `shared` of the book that pins it.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from shedbook.book.ground.toml_files import read_text, read_toml
from shedbook.book.manuscript.source import PhraseSource, Taken, locate
from shedbook.errors import ManuscriptError, ReadError, nearest

REFERENCE, VERSION = "from", "version"
SHARED_FOLDER = "shared"
_NOT_MUSIC = ("id", REFERENCE, VERSION)
_MOST_STEPS = 8
_FORM = 'Write the book\'s folder and the id of the phrase: from = "../harbour#low-tide"'

ReadBook = Callable[[Path], Sequence[PhraseSource]]
"""Gives the phrases of another manuscript as they stand in their files."""


def version_of(fields: Mapping[str, Any]) -> str:
    """Return the version of a phrase: twelve digits of the SHA-256 of its keys, without its id."""
    kept = {name: value for name, value in sorted(fields.items()) if name not in _NOT_MUSIC}
    return hashlib.sha256(json.dumps(kept, sort_keys=True, default=str).encode()).hexdigest()[:12]


def copy_path(root: Path, name: str, version: str) -> Path:
    """Return where the copy of a pinned phrase lies."""
    return root / SHARED_FOLDER / f"{name}-{version}.toml"


def with_source(source: PhraseSource, read: ReadBook, steps: int = 0) -> PhraseSource:
    """Return a phrase with the keys of the phrase that it is taken from, where it is taken from one.

    Args:
        source: the phrase as it stands in its file.
        read: reads another book.
        steps: how many books were passed on the way to it.

    Raises:
        ManuscriptError: if there is no such book or phrase, if phrases lead round in a circle, or if the
            version that is named is nowhere any more.
    """
    if REFERENCE not in source.fields:
        return source
    own = {name: source.fields[name] for name in source.own if name not in (REFERENCE, VERSION)}
    found = _taken(source, read, steps)
    if found.copy is not None:
        theirs = _copied(source, found.copy)
    else:
        assert found.source is not None
        theirs = {name: value for name, value in found.source.fields.items() if name != "id"}
    return replace(source, fields={**theirs, **own}, taken=found)


def _taken(source: PhraseSource, read: ReadBook, steps: int) -> Taken:
    reference, pinned = source.fields[REFERENCE], source.fields.get(VERSION, "")
    if not isinstance(reference, str) or not isinstance(pinned, str):
        raise _refused(source, f'"{REFERENCE}" and "{VERSION}" are texts.', _FORM)
    folder, mark, name = reference.rpartition("#")
    if not mark or not folder.strip() or not name.strip():
        raise _refused(source, f'"{reference}" names no phrase of another book.', _FORM)
    if steps > _MOST_STEPS:
        raise _refused(
            source, "These phrases are taken from one another in a circle.", "Write one of them out."
        )
    try:
        there = _phrase(source, folder, name.strip(), read, steps)
    except ManuscriptError:
        copy = copy_path(source.root, name.strip(), pinned)
        if not pinned or not copy.exists():
            raise
        return Taken(reference, "", pinned, None, copy)
    version = version_of(there.fields)
    if not pinned or pinned == version:
        return Taken(reference, version, pinned, there)
    copy = copy_path(source.root, name.strip(), pinned)
    if not copy.exists():
        raise _refused(
            source,
            f'"{reference}" is version {version} now, and there is no copy of version {pinned}.',
            f'Write version = "{version}" to take it as it is now, or leave version out to keep in step.',
            VERSION,
        )
    return Taken(reference, version, pinned, there, copy)


def _phrase(source: PhraseSource, folder: str, name: str, read: ReadBook, steps: int) -> PhraseSource:
    """Return the phrase that is meant, with the keys of what it is taken from itself."""
    root = (source.root / folder).resolve()
    if not (root / "manuscript.toml").is_file():
        raise _refused(source, f"There is no manuscript in {folder}.", _FORM)
    phrases = read(root)
    ids = {str(one.fields.get("id", "")).strip(): one for one in phrases}
    if name not in ids:
        known = [one for one in ids if one]
        hint = nearest(name, known) or "Give it an id there: id = " + f'"{name}".'
        raise _refused(source, f'No phrase of {folder} has the id "{name}".', hint)
    return with_source(ids[name], read, steps + 1)


def _copied(source: PhraseSource, copy: Path) -> dict[str, Any]:
    """Read the copy of a pinned phrase."""
    file = copy.relative_to(source.root).as_posix()
    fields = read_toml(read_text(copy, file), file)
    version = source.fields[VERSION]
    if version_of(fields) != version:
        raise _refused(
            source,
            f"{file} is no longer version {version}: somebody has changed it.",
            "Bring the copy back, or leave version out to keep in step with the source.",
            VERSION,
        )
    return {name: value for name, value in fields.items() if name != "id"}


def _refused(source: PhraseSource, message: str, hint: str, field: str = REFERENCE) -> ReadError:
    return locate(ManuscriptError(message, hint=hint, field=field), replace(source, taken=None))
