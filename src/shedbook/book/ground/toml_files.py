"""Files of a manuscript: read whole, as text, from inside its folder, or refused with the reason.

Every error is a `ManuscriptError` whose place names the file as the author would.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path, PurePosixPath
from typing import Any

from shedbook.errors import ManuscriptError, Place

LARGEST_BYTES = 1_000_000
"""A file of a manuscript may be this long; a phrase takes less than a thousandth of it."""

_AT = re.compile(r" ?\(at (?:line (\d+), column (\d+)|end of document)\)$")
_CURLY = "“”„‟«»‘’"
_UNCLOSED = ("Illegal character '\\n'", "Unterminated string")


def refuse(file: str, message: str, hint: str = "", *, line: int | None = None) -> ManuscriptError:
    """Return the error for a file as a whole, or one of its lines."""
    return ManuscriptError(message, hint=hint, place=Place(file=file, line=line))


def inside(root: Path, relative: str, file: str, *, hint: str) -> Path:
    """Return the path of a file that the manuscript names.

    Raises:
        ManuscriptError: if it is absolute, or leads out of the folder, also by way of a symbolic link;
            the place is `file`, which names it.
    """
    named = PurePosixPath(relative.replace("\\", "/"))
    path = root / named
    outside = named.is_absolute() or ".." in named.parts or ":" in relative
    try:
        if outside or not path.resolve().is_relative_to(root.resolve()):
            raise refuse(file, f'"{relative}" leads out of the manuscript folder.', hint)
    except (OSError, RuntimeError, ValueError):
        raise refuse(file, f'"{relative}" is not a path that can be followed.', hint) from None
    return path


def read_text(path: Path, file: str) -> str:
    """Return a file's text, line ends as single line feeds, without a byte order mark.

    Raises:
        ManuscriptError: if it is missing, no file, too long, not text, or not UTF-8.
    """
    try:
        status = path.stat()
        if not path.is_file():
            kind = "a folder" if path.is_dir() else "not a file that can be read"
            raise refuse(file, f"{file} is {kind}.", "A phrase file is a text file that ends in .toml.")
        if status.st_size > LARGEST_BYTES:
            raise refuse(
                file,
                f"{file} holds {status.st_size / 1e6:.1f} million bytes; at most "
                f"{LARGEST_BYTES / 1e6:.0f} million are read.",
                "Divide its phrases over several files.",
            )
        data = path.read_bytes()
    except FileNotFoundError:
        raise refuse(file, f"{file} does not exist.", "Check the name, and the folder it lies in.") from None
    except OSError as error:
        raise refuse(
            file, f"{file} cannot be read: {error.strerror}.", "Check that you may read it."
        ) from None
    return _decode(data, file)


def _decode(data: bytes, file: str) -> str:
    """Return bytes as text."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise refuse(file, f"{file} is written in UTF-16.", "Save it as UTF-8 in your editor.")
    if b"\0" in data:
        raise refuse(
            file, f"{file} is not text.", "A manuscript holds plain text files only, in UTF-8.", line=1
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise refuse(
            file,
            f"{file} is not UTF-8: byte {error.start + 1} (0x{data[error.start]:02x}), on line {line}.",
            "Save it as UTF-8 in your editor.",
            line=line,
        ) from None
    return text.replace("\r\n", "\n")


def read_toml(text: str, file: str) -> dict[str, Any]:
    """Return the tables of a TOML text.

    Raises:
        ManuscriptError: if it is not TOML; the place says line and column.
    """
    try:
        return tomllib.loads(text)
    except (RecursionError, OverflowError):
        raise refuse(file, f"{file} nests too deeply.", "A phrase needs no lists within lists.") from None
    except tomllib.TOMLDecodeError as error:
        found = _AT.search(str(error))
        said = str(error)[: found.start()] if found else str(error)
        if said in _UNCLOSED:
            said = "a text is not closed by its quotation mark"
        offset = len(text.rstrip())
        if found and found[1]:
            lines = text.split("\n")
            offset = sum(len(line) + 1 for line in lines[: int(found[1]) - 1]) + int(found[2]) - 1
        place = place_of(text, file, offset, offset + 1)
        if any(quote in (place.excerpt or "") for quote in _CURLY):
            raise ManuscriptError(
                "This line has curly quotation marks, which a text editor for letters puts in.",
                hint=f"Write straight ones: {_straight((place.excerpt or '').strip())}",
                place=place,
            ) from None
        raise ManuscriptError(
            f"This is not TOML: {said[:1].lower()}{said[1:]}.",
            hint='Texts stand in quotes: key = "C minor"; long ones between three: line = """ … """.',
            place=place,
        ) from None
    except ValueError:  # the standard library's own limit on the digits of a number
        raise refuse(
            file, f"{file} holds a number that is too long.", "Look for a slip of the keyboard."
        ) from None


def _straight(line: str) -> str:
    """Return a line with straight quotation marks in place of curly ones."""
    return "".join('"' if letter in _CURLY else letter for letter in line)


def place_of(text: str, file: str, start: int, end: int) -> Place:
    """Return the place of some characters of a file; where they stand on several lines, on the first.

    Args:
        text: the text of the file.
        file: its name, as the author sees it.
        start: the offset of the first character, from 0.
        end: the offset behind the last one.
    """
    start = max(0, min(start, len(text)))
    line_start = text.rfind("\n", 0, start) + 1
    line_end = text.find("\n", start)
    line_end = len(text) if line_end < 0 else line_end
    return Place(
        file=file,
        line=text.count("\n", 0, start) + 1,
        column=start - line_start + 1,
        excerpt=text[line_start:line_end],
        width=max(1, min(end, line_end) - start),
    )
