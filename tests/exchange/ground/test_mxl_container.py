"""Compressed MusicXML that is broken or means harm: refused clearly, in bounded time and memory."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable

import pytest

from exchange.hostile import GOOD, assert_refused, bomb
from shedbook.exchange.ground import mxl_container, safe_xml
from shedbook.exchange.ground.mxl_container import is_container, packed, score_of
from shedbook.exchange.ground.report import Reporter

INDEX = '<container><rootfiles><rootfile full-path="{}"/></rootfiles></container>'


def zipped(members: dict[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", method) as archive:
        for name, content in members.items():
            archive.writestr(name, content)
    return data.getvalue()


def naming(path: str, members: dict[str, bytes] | None = None) -> bytes:
    """Return a container whose index names a path."""
    held = {"score.xml": GOOD} if members is None else members
    return zipped({"META-INF/container.xml": INDEX.format(path).encode(), **held})


HOSTILE: dict[str, tuple[Callable[[], bytes], str]] = {
    "no zip": (lambda: b"PK\x03\x04" + b"nonsense" * 50, "zip"),
    "truncated zip": (lambda: packed(GOOD)[:-40], "zip"),
    "damaged zip": (lambda: packed(GOOD)[:150] + b"\xff" * 60 + packed(GOOD)[210:], "zip"),
    "path to the root": (lambda: naming("/etc/passwd"), "leads out"),
    "path upwards": (lambda: naming("../../secret.xml"), "leads out"),
    "path of another system": (lambda: naming("C:\\secret.xml"), "leads out"),
    "path upwards that the zip holds": (lambda: naming("../score.xml", {"../score.xml": GOOD}), "leads out"),
    "named file is missing among several": (
        lambda: naming("other.xml", {"one.xml": GOOD, "two.xml": GOOD}),
        "does not hold",
    ),
    "no score in the index, and several": (
        lambda: zipped({"META-INF/container.xml": b"<container/>", "one.xml": GOOD, "two.xml": GOOD}),
        "no score",
    ),
    "empty container": (lambda: zipped({}), "not well-formed"),
    "no score at all": (lambda: zipped({"readme.txt": b"hello"}), "no score"),
    "zip bomb": (
        lambda: naming("score.xml", {"score.xml": b"<a>" + b" " * (safe_xml.MOST_BYTES + 10)}),
        "unpacks",
    ),
    "bomb of an index": (lambda: zipped({"META-INF/container.xml": b" " * 1_000_000}), "unpacks"),
    "bomb in the index": (
        lambda: zipped({"META-INF/container.xml": bomb(), "score.xml": GOOD}),
        "declares",
    ),
    "many members": (
        lambda: zipped({f"{n}.xml": b"" for n in range(mxl_container.MOST_MEMBERS + 5)}),
        "files",
    ),
    "other method": (lambda: zipped({"score.xml": GOOD}, zipfile.ZIP_BZIP2), "method"),
    "container in a container": (lambda: naming("score.xml", {"score.xml": packed(GOOD)}), "not well-formed"),
    "bomb inside": (lambda: naming("score.xml", {"score.xml": bomb()}), "declares"),
}


@pytest.mark.parametrize(("make", "says"), HOSTILE.values(), ids=HOSTILE)
def test_refused(make: Callable[[], bytes], says: str) -> None:
    assert_refused(make(), says)


BAD_INDEXES = {
    # An exporter in wide use writes the title between apostrophes as it stands.
    "apostrophe": b"<container><rootfiles><rootfile full-path='It's here.xml'/></rootfiles></container>",
    "names another": INDEX.format("other.xml").encode(),
    "names nothing": b"<container/>",
    "empty": b"",
    "no XML": b"\x00\x01",
}


@pytest.mark.parametrize("index", BAD_INDEXES.values(), ids=BAD_INDEXES)
def test_a_bad_index_with_one_score_is_read_with_a_remark(index: bytes) -> None:
    reporter = Reporter("a.mxl")
    held = zipped({"META-INF/container.xml": index, "It's here.xml": GOOD})
    assert score_of(held, "a.mxl", reporter) == GOOD
    assert [str(remark) for remark in reporter.report().remarks if "only score" in str(remark)]


def test_the_same_score_gives_the_same_container() -> None:
    assert packed(GOOD) == packed(GOOD)
    assert is_container(packed(GOOD))
    assert score_of(packed(GOOD), "a.mxl") == GOOD


def test_the_media_type_stands_where_programs_look_for_it() -> None:
    # MusicXML 4.0, "Compressed .mxl files": the first member is called mimetype and is not compressed.
    with zipfile.ZipFile(io.BytesIO(packed(GOOD))) as archive:
        first = archive.infolist()[0]
        assert first.filename == "mimetype"
        assert first.compress_type == zipfile.ZIP_STORED
        assert archive.read(first) == b"application/vnd.recordare.musicxml"
