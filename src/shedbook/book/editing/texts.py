"""The text of a file with its line ends: read for editing, and written whole or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from shedbook.book.ground.toml_files import inside, read_text
from shedbook.book.ground.writing import put, refused
from shedbook.errors import OutputError

_BOM = b"\xef\xbb\xbf"
_HINT = "Check that the folder can be written, and that the disk has room."


@dataclass(frozen=True, slots=True)
class FileText:
    """A file of a manuscript; `text` is None where it is not there, and has single line feeds."""

    file: str
    path: Path
    text: str | None
    crlf: bool = False
    bom: bool = False

    def with_text(self, text: str | None) -> FileText:
        """Return the same file with another text."""
        return replace(self, text=text)


def read_file(root: Path, file: str) -> FileText:
    """Return a file of a manuscript, which need not be there.

    Raises:
        ManuscriptError: if it leads out of the folder, or cannot be read.
    """
    path = inside(root, file, file, hint="Only files of the manuscript can be changed.")
    if not path.exists():
        return FileText(file, path, None)
    text = read_text(path, file)
    raw = path.read_bytes()
    return FileText(file, path, text, b"\r\n" in raw, raw.startswith(_BOM))


def write_file(one: FileText) -> None:
    """Put a file in its place by one rename, lasting; or take it away where it has no text.

    Raises:
        OutputError: if the disk refuses; the file is as it was then.
    """
    with refused(one.path, _HINT):
        if one.text is None:
            one.path.unlink(missing_ok=True)
            return
        text = one.text.replace("\n", "\r\n") if one.crlf else one.text
        one.path.parent.mkdir(parents=True, exist_ok=True)
        put(one.path, (_BOM if one.bom else b"") + text.encode(), one.path.parent, lasting=True)


def write_files(before: Sequence[FileText], after: Sequence[FileText]) -> None:
    """Write several files, each whole, so that a reader in between finds every file that is listed.

    New files come first, then what names them, and last the files that go. (`open_manuscript` may read
    between two of these steps: a build that is running, a watcher, another window.)

    Args:
        before: the files as they are.
        after: the same files, in the same order, as they shall be.

    Raises:
        OutputError: if the disk refuses; what was written before is as it was then.
    """

    def turn(pair: tuple[FileText, FileText]) -> int:
        one, two = pair
        return 0 if one.text is None else 2 if two.text is None else 1

    done: list[FileText] = []
    try:
        for one, two in sorted(zip(before, after, strict=True), key=turn):
            write_file(two)
            done.append(one)
    except OutputError:
        for one in reversed(done):
            write_file(one)
        raise
