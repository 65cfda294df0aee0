"""Compressed MusicXML: the `.mxl` container, a zip file in which META-INF/container.xml names the score.

At most two members are unpacked, each only up to a limit, and none is written to disk. The same score always
gives the same container, because the dates of the members are fixed. The form is that of MusicXML 4.0,
"Compressed .mxl files".
"""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Mapping, Sequence
from pathlib import PurePosixPath

from shedbook.errors import ReadError
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.safe_xml import DESCEND, KEEP, MOST_BYTES, SKIP, Element, read_xml

MOST_CONTAINER_BYTES = 24_000_000
MOST_MEMBERS = 1_000
_MOST_INDEX_BYTES = 64_000
_INDEX = "META-INF/container.xml"
_SCORE_ENDINGS = (".musicxml", ".xml")
_MIME = "application/vnd.recordare.musicxml"
_DAY = (1980, 1, 1, 0, 0, 0)
_SIGNATURE, _MEMBER = b"PK\x03\x04", b"PK\x01\x02"
_DECLARATION = b"<!"
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)


def is_container(data: bytes) -> bool:
    """Tell whether bytes begin as a zip file does."""
    return data.startswith(_SIGNATURE)


def score_of(data: bytes, name: str, reporter: Reporter | None = None) -> bytes:
    """Return the XML of the score in a container.

    Exporters are known that write an index which is no XML, such as one with an apostrophe inside its quotes.
    Such a container is read where it holds one score alone.

    Args:
        data: the bytes of the container.
        name: what errors call the file.
        reporter: told where the index could not be used, and the only score was taken.

    Raises:
        ReadError: if the zip file is damaged, too large or encrypted, or names no score inside itself.
    """
    if len(data) > MOST_CONTAINER_BYTES:
        raise _refused(name, f"is longer than {MOST_CONTAINER_BYTES // 1_000_000} million bytes")
    if data.count(_MEMBER) > MOST_MEMBERS:  # counted before zipfile makes an object of each
        raise _refused(name, f"holds more than {MOST_MEMBERS} files")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            return _member(archive, _path(archive, name, reporter), MOST_BYTES, name)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError, OSError):
        raise ReadError(
            f"{name} is a damaged or encrypted zip file.", hint="Copy or export the file again."
        ) from None


def _refused(name: str, what: str) -> ReadError:
    return ReadError(
        f"{name} {what}; it was not read.", hint="Export the score again, uncompressed if need be."
    )


def _member(archive: zipfile.ZipFile, path: str, most: int, name: str) -> bytes:
    """Return a member of the zip file; refuse it once more than `most` bytes have been unpacked."""
    info = archive.getinfo(path)
    if info.compress_type not in _METHODS:
        raise _refused(name, "is packed by a method that MusicXML does not use")
    with archive.open(info) as member:
        data = member.read(most + 1)
    if len(data) > most:
        raise _refused(name, f"unpacks to more than {most} bytes")
    return data


class _Index:
    """Collects the path and the media type of each `rootfile` in container.xml."""

    def __init__(self) -> None:
        self.paths: list[tuple[str, str]] = []

    def opened(self, tag: str, attributes: Mapping[str, str]) -> int:
        if tag == "rootfile":
            self.paths.append((attributes.get("full-path", ""), attributes.get("media-type", "")))
            return KEEP
        return DESCEND if tag in ("container", "rootfiles") else SKIP

    def kept(self, element: Element) -> None:
        """Do nothing, because a `rootfile` has no content."""


def _path(archive: zipfile.ZipFile, name: str, reporter: Reporter | None) -> str:
    """Return the path of the score: the one that the index names, or else the only one that is there."""
    names = archive.namelist()
    if _INDEX not in names:
        return _only_score(names, name)
    index = _member(archive, _INDEX, _MOST_INDEX_BYTES, name)
    try:
        path = _named(index, name)
    except ReadError as error:
        if _DECLARATION in index:
            raise  # a bad index is an accident, but a declaration in it may mean harm
        wrong, what = error, f"the index {_INDEX} cannot be read"
    else:
        if _leads_out(path):
            raise _refused(name, f'names "{path[:80]}" as its score, which leads out of the file')
        if path in names:
            return path
        wrong = _refused(name, f'names "{path[:80]}" as its score, which it does not hold')
        what = f"the index {_INDEX} names a score that is not there"
    scores = _scores(names)
    if len(scores) != 1:
        raise wrong
    if reporter is not None:
        reporter.note(f"{what}: the only score in the file was taken")
    return scores[0]


def _leads_out(path: str) -> bool:
    """Tell whether a path is none inside the container."""
    pure = PurePosixPath(path)
    return not path or pure.is_absolute() or ".." in pure.parts or "\\" in path or ":" in path


def _scores(names: Sequence[str]) -> list[str]:
    """Return the members that can be scores."""
    return [
        path for path in names if path.lower().endswith(_SCORE_ENDINGS) and not path.startswith("META-INF/")
    ]


def _named(data: bytes, name: str) -> str:
    """Return the path of the score that container.xml names."""
    index = _Index()
    read_xml(data, f"{name}: {_INDEX}", index)
    for path, kind in index.paths:
        if kind not in ("", _MIME, f"{_MIME}+xml"):
            continue
        return path
    raise _refused(name, "names no score in its container.xml")


def _only_score(names: list[str], name: str) -> str:
    """Return the first member that can be a score, for a zip file without a container.xml."""
    scores = _scores(names)
    if not scores:
        raise _refused(name, "holds no score")
    return scores[0]


def packed(score: bytes, inside: str = "score.musicxml") -> bytes:
    """Return the bytes of a container that holds a score.

    Args:
        score: the XML of the score.
        inside: the path of the score inside the container.
    """
    index = (
        '<?xml version="1.0" encoding="UTF-8"?>\n<container><rootfiles>'
        f'<rootfile full-path="{inside}" media-type="{_MIME}+xml"/></rootfiles></container>\n'
    )
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        # The media type comes first and is not compressed, so that a program can find it at a fixed place.
        for path, content, method in (
            ("mimetype", _MIME.encode(), zipfile.ZIP_STORED),
            (_INDEX, index.encode(), zipfile.ZIP_DEFLATED),
            (inside, score, zipfile.ZIP_DEFLATED),
        ):
            info = zipfile.ZipInfo(path, _DAY)
            info.compress_type = method
            info.create_system = 3
            info.external_attr = 0o644 << 16
            archive.writestr(info, content, compresslevel=9)
    return written.getvalue()
