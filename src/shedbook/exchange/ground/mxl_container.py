"""Compressed MusicXML: the `.mxl` container, a zip file whose META-INF/container.xml names the score.

Reading takes two members at most, each only up to its limit, and never writes one to disk. Writing gives
the same bytes for the same score: member dates are fixed.
"""

from __future__ import annotations

import io
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import PurePosixPath

from shedbook.errors import ReadError
from shedbook.exchange.ground.safe_xml import DESCEND, KEEP, MOST_BYTES, SKIP, Element, read_xml

MOST_CONTAINER_BYTES = 24_000_000
MOST_MEMBERS = 1_000
_MOST_INDEX_BYTES = 64_000
_INDEX = "META-INF/container.xml"
_SCORE_ENDINGS = (".musicxml", ".xml")
_MIME = "application/vnd.recordare.musicxml"
_DAY = (1980, 1, 1, 0, 0, 0)
_SIGNATURE, _MEMBER = b"PK\x03\x04", b"PK\x01\x02"
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)


def is_container(data: bytes) -> bool:
    """Say whether bytes are a zip file by their first four."""
    return data.startswith(_SIGNATURE)


def score_of(data: bytes, name: str) -> bytes:
    """Return the score that a container holds.

    Raises:
        ReadError: if it is no sound zip file, too large, encrypted, or names no score inside it.
    """
    if len(data) > MOST_CONTAINER_BYTES:
        raise _refused(name, f"is longer than {MOST_CONTAINER_BYTES // 1_000_000} million bytes")
    if data.count(_MEMBER) > MOST_MEMBERS:  # counted before zipfile makes an object of each
        raise _refused(name, f"holds more than {MOST_MEMBERS} files")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            names = archive.namelist()
            path = _named(archive, name) if _INDEX in names else _only_score(names, name)
            if path not in names:
                raise _refused(name, f'names "{path[:80]}" as its score, which it does not hold')
            return _member(archive, path, MOST_BYTES, name)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError, OSError):
        raise ReadError(
            f"{name} is a damaged or encrypted zip file.", hint="Copy or export the file again."
        ) from None


def _refused(name: str, what: str) -> ReadError:
    return ReadError(
        f"{name} {what}; it was not read.", hint="Export the score again, uncompressed if need be."
    )


def _member(archive: zipfile.ZipFile, path: str, most: int, name: str) -> bytes:
    """Return one member, of which no more than `most` bytes are ever unpacked."""
    info = archive.getinfo(path)
    if info.compress_type not in _METHODS:
        raise _refused(name, "is packed by a method that MusicXML does not use")
    with archive.open(info) as member:
        data = member.read(most + 1)
    if len(data) > most:
        raise _refused(name, f"unpacks to more than {most} bytes")
    return data


class _Index:
    """Reads container.xml: the path of each `rootfile`."""

    def __init__(self) -> None:
        self.paths: list[tuple[str, str]] = []

    def opened(self, tag: str, attributes: Mapping[str, str]) -> int:
        if tag == "rootfile":
            self.paths.append((attributes.get("full-path", ""), attributes.get("media-type", "")))
            return KEEP
        return DESCEND if tag in ("container", "rootfiles") else SKIP

    def kept(self, element: Element) -> None:
        """Nothing more is in a `rootfile`."""


def _named(archive: zipfile.ZipFile, name: str) -> str:
    """Return the path of the score, which lies inside the container."""
    index = _Index()
    read_xml(_member(archive, _INDEX, _MOST_INDEX_BYTES, name), f"{name}: {_INDEX}", index)
    for path, kind in index.paths:
        if kind not in ("", _MIME, f"{_MIME}+xml"):
            continue
        pure = PurePosixPath(path)
        if not path or pure.is_absolute() or ".." in pure.parts or "\\" in path or ":" in path:
            raise _refused(name, f'names "{path[:80]}" as its score, which leads out of the file')
        return path
    raise _refused(name, "names no score in its container.xml")


def _only_score(names: list[str], name: str) -> str:
    """Return the score of a container without an index: the first file that can be one."""
    for path in names:
        if path.lower().endswith(_SCORE_ENDINGS) and not path.startswith("META-INF/"):
            return path
    raise _refused(name, "holds no score")


def packed(score: bytes, inside: str = "score.musicxml") -> bytes:
    """Return a container that holds a score; the same score gives the same bytes."""
    index = (
        '<?xml version="1.0" encoding="UTF-8"?>\n<container><rootfiles>'
        f'<rootfile full-path="{inside}" media-type="{_MIME}+xml"/></rootfiles></container>\n'
    )
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        # The type of the container comes first and unpacked, so that it can be told by its first bytes.
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
