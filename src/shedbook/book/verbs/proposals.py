"""Proposals: phrases that the author may take; files of them, written only where asked."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from shedbook.book.ground.writing import missing_folders, put, refusal, remove_empty
from shedbook.book.manuscript.file_names import file_words
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.phrase_toml import phrase_toml
from shedbook.book.manuscript.source import read_phrase
from shedbook.errors import OutputError, ReadError
from shedbook.phrase.model import Phrase

MOST_PHRASES = 2_000
"""How many phrases of a folder are compared at most."""


def phrases_in(path: str | Path) -> tuple[Phrase, ...]:
    """Return the phrases of a manuscript's folder, of one file, or of a plain folder of phrase files.

    Raises:
        ReadError: if nothing can be read there.
    """
    folder = Path(path)
    if folder.is_dir() and not (folder / "manuscript.toml").is_file():
        files = _files(folder)
        return tuple(phrase for one in files[:MOST_PHRASES] for phrase in phrases_in(one))
    sources = open_manuscript(folder).phrases
    return tuple(read_phrase(source) for source in sources[:MOST_PHRASES])


def _files(folder: Path) -> list[Path]:
    """Return the phrase files of a plain folder, by name.

    Raises:
        ReadError: if there is none.
    """
    files = sorted(one for one in folder.glob("*.toml") if not one.name.startswith("."))
    if not files:
        raise ReadError(f"{folder} holds no phrases.", hint="Name a manuscript's folder or a phrase file.")
    return files


def one_phrase(path: str | Path, asked: str | None = None) -> Phrase:
    """Return one phrase of a file: the one that is named by number or title, else the only or first one.

    Raises:
        ReadError: if it cannot be read.
        UnknownNameError: if none has the name.
    """
    from shedbook.book.manuscript.choice import chosen_phrase  # noqa: PLC0415 - loaded only where it is needed

    folder = Path(path)
    if folder.is_dir() and not (folder / "manuscript.toml").is_file():
        sources = [one for file in _files(folder) for one in open_manuscript(file).phrases]
    else:
        sources = list(open_manuscript(folder).phrases)
    return read_phrase(chosen_phrase(sources, asked) if asked else sources[0])


def write_proposals(phrases: Sequence[Phrase], into: Path) -> tuple[Path, ...]:
    """Write phrase files into a folder, which is made where it is missing; nothing there is written over.

    Returns:
        The files, in the order of the phrases.

    Raises:
        OutputError: if one cannot be written; then none is.
    """
    folders = missing_folders(into)
    made: list[Path] = []
    try:
        into.mkdir(parents=True, exist_ok=True)
        number = 1 + max([0, *[_leading(one.name) for one in into.glob("*.toml")]])
        for at, phrase in enumerate(phrases, start=number):
            path = into / f"{at:02d}-{file_words(phrase.title)}.toml"
            put(path, phrase_toml(phrase).encode(), into, new=True)
            made.append(path)
    except OSError as error:
        for path in made:
            path.unlink(missing_ok=True)
        remove_empty(folders)
        where = Path(error.filename2 or error.filename or into)
        raise refusal(error, where, "Nothing was written. Name another folder with --into.") from error
    if not made:
        remove_empty(folders)
        raise OutputError("There is nothing to write.", hint="Ask for other phrases.")
    return tuple(made)


def _leading(name: str) -> int:
    digits = name.split("-")[0]
    return int(digits) if digits.isdecimal() and len(digits) < 7 else 0
