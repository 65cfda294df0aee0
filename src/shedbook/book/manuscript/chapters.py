"""The author's own pages: chapters as plain text files in the manuscript's folder `chapters`.

A chapter is a file of plain text. Lines at the start may say `name:`, `order:` and `place:`; an empty line
ends them, and prose follows, paragraphs divided by empty lines:

    name: Foreword
    order: 1
    place: front

    These phrases were written …

Without a name the chapter is called by its file; without an order the files' names decide. `place` is
"front" (before the music), "back" (after it), "phrase 7" (on the first page of that phrase) or "part NAME"
(the opening of that part).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.toml_files import inside, place_of, read_text
from shedbook.errors import ManuscriptError

CHAPTERS_FOLDER = "chapters"
SUFFIX = ".txt"
FRONT, BACK, PHRASE, PART = "front", "back", "phrase", "part"

_HEAD = re.compile(r"(name|order|place):[ \t]*(.*)")
_LEADING_NUMBER = re.compile(r"^[\d\s._-]+")
_LAST = 10_000


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter: its name, its prose in paragraphs, and where it stands.

    `place` is one of FRONT, BACK, PHRASE, PART; `where` the number of a phrase or the name of a part.
    """

    name: str
    paragraphs: tuple[str, ...]
    place: str = FRONT
    where: str = ""


def chapters_of(root: Path) -> tuple[Chapter, ...]:
    """Return the chapters of a manuscript in their order; none where there is no folder of chapters.

    Raises:
        ManuscriptError: if one cannot be read, with the place in its file.
    """
    folder = root / CHAPTERS_FOLDER
    if not folder.is_dir():
        return ()
    inside(root, CHAPTERS_FOLDER, CHAPTERS_FOLDER, hint="Put the folder itself into the manuscript.")
    found = []
    for path in sorted(folder.iterdir()):
        if path.suffix != SUFFIX or path.name.startswith("."):
            continue
        file = f"{CHAPTERS_FOLDER}/{path.name}"
        inside(root, file, file, hint="Put the file itself into the manuscript.")
        found.append(chapter_in(read_text(path, file), file))
    return tuple(chapter for _, chapter in sorted(found, key=lambda pair: pair[0]))


def chapter_in(text: str, file: str) -> tuple[int, Chapter]:
    """Return the order and the chapter that a file's text says.

    Raises:
        ManuscriptError: for a head line that cannot be read, or no prose.
    """
    heads: dict[str, str] = {}
    start = 0
    for line in text.splitlines(keepends=True):
        found = _HEAD.fullmatch(line.rstrip("\r\n"))
        if found is None:
            break
        if found[1] in heads:
            raise _wrong(text, file, start, f'"{found[1]}:" stands twice.', "Say it once.")
        heads[found[1]] = found[2].strip()
        start += len(line)
    prose = tuple(
        "\n".join(" ".join(line.split()) for line in part.split("\n"))
        for part in re.split(r"\n[ \t]*\n", text[start:].strip())
        if part.strip()
    )
    if not prose:
        raise _wrong(
            text, file, max(0, start - 1), f"{file} holds no prose.", "Write it after an empty line."
        )
    place, where = _place(heads.get("place", FRONT), text, file)
    name = heads.get("name") or _name_of(file)
    return _order(heads.get("order", ""), text, file), Chapter(name, prose, place, where)


def at_place(chapters: Sequence[Chapter], place: str, where: str = "") -> tuple[Chapter, ...]:
    """Return the chapters of a place, in their order.

    Args:
        chapters: all chapters of the book.
        place: `FRONT`, `BACK`, `PHRASE` or `PART`.
        where: the number of a phrase or the name of a part, in capitals or not.
    """
    return tuple(one for one in chapters if one.place == place and one.where.casefold() == where.casefold())


def _order(said: str, text: str, file: str) -> int:
    if not said:
        return _LAST
    if not said.isdecimal() or len(said) > 4:
        raise _wrong(
            text, file, text.index("order:"), f'"{said}" is no order.', "Write a whole number: order: 3"
        )
    return int(said)


def _place(said: str, text: str, file: str) -> tuple[str, str]:
    kind, _, where = said.partition(" ")
    if kind in (FRONT, BACK) and not where:
        return kind, ""
    if kind == PHRASE and where.strip().isdecimal():
        return PHRASE, str(int(where))
    if kind == PART and where.strip():
        return PART, where.strip()
    raise _wrong(
        text, file, text.index("place:"), f'"{said}" is no place of the book.',
        "Write front, back, phrase 7, or part and its name: part minor ii–V–i",
    )  # fmt: skip


def _name_of(file: str) -> str:
    stem = Path(file).stem
    name = _LEADING_NUMBER.sub("", stem).replace("-", " ").replace("_", " ").strip() or stem
    return name[:1].upper() + name[1:]


def _wrong(text: str, file: str, at: int, message: str, hint: str) -> ManuscriptError:
    return ManuscriptError(message, hint=hint, place=place_of(text, file, at, at + 1))
