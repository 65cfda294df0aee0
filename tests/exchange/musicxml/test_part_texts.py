"""One part read without the others: the same as reading the whole score, and as strict."""

from __future__ import annotations

import re
from pathlib import Path

import music21
import pytest

from exchange.scores import FOUR_FOUR, note
from shedbook.errors import ReadError
from shedbook.exchange.ground.mxl_container import is_container, score_of
from shedbook.exchange.ground.report import Report, Reporter
from shedbook.exchange.musicxml import reader
from shedbook.exchange.musicxml.part_texts import cut_at_parts
from shedbook.exchange.musicxml.reader import read_line

CORPUS = Path(music21.__file__).parent / "corpus"
FILES = ("bach/bwv349.mxl", "bach/bwv124.6.mxl", "trecento/PMFC_12_20-Agnus Dei Gherardello.xml")


def part(name: str, inside: str, opening: str = "") -> str:
    return f'<part id="{name}"{opening}><measure number="1">{FOUR_FOUR}{inside}</measure></part>'


def duet(first: str, second: str, before: str = "", between: str = "", prolog: str = "") -> bytes:
    """Return a score of two parts."""
    listed = "".join(
        f'<score-part id="{name}"><part-name>{called}</part-name></score-part>'
        for name, called in (("P1", "Reed"), ("P2", "Brass"))
    )
    text = (
        f'{prolog}<score-partwise version="4.0">{before}<part-list>{listed}</part-list>'
        f"{first}{between}{second}</score-partwise>"
    )
    return text.encode()


PLAIN = duet(part("P1", note("C4")), part("P2", note("G4")))


def read(data: bytes, asked: str = "") -> tuple[object, Report]:
    reporter = Reporter("test")
    return read_line(data, "test", reporter, part=asked), reporter.report()


def whole(monkeypatch: pytest.MonkeyPatch, data: bytes, asked: str = "") -> tuple[object, Report]:
    """Read without cutting."""
    with monkeypatch.context() as patch:
        patch.setattr(reader, "cut_at_parts", lambda *_: None)
        return read(data, asked)


SAFE = {
    "plain": PLAIN,
    "a comment with a part in it": duet(
        part("P1", note("C4")), part("P2", note("G4")), between='<!-- <part id="P3"> </part> -->'
    ),
    "comments everywhere": duet(
        part("P1", "<!--===-->" + note("C4")), part("P2", note("G4") + "<!-- > -->"),
        before="<!--a-->",
    ),
    "an attribute with a bracket": duet(part("P1", note("C4"), ' x="a>b"'), part("P2", note("G4"))),
    "a part within a part": duet(part("P1", note("C4") + part("P9", note("E4"))), part("P2", note("G4"))),
    "a part elsewhere": duet(
        part("P1", note("C4")), part("P2", note("G4")),
        before="<defaults>" + part("P2", note("E4")) + "</defaults>",
    ),
    "one part in two pieces": duet(part("P1", note("C4")), part("P1", note("G4"))),
    "an instruction": duet(
        part("P1", note("C4")), part("P2", note("G4")), between="<?x <part id='P3'></part>?>"
    ),
    "CDATA": duet(
        part("P1", note("C4") + "<x><![CDATA[</part><part id='P2'>]]></x>"), part("P2", note("G4"))
    ),
    "a long empty part": duet(part("P1", note("C4")), '<part id="P2"/>' + part("P3", note("D4"))),
    "Latin letters": duet(
        part("P1", note("C4")), part("P2", note("G4")), before="<work><work-title>Ébène</work-title></work>",
        prolog='<?xml version="1.0" encoding="ISO-8859-1"?>',
    ).decode().encode("latin-1"),
}  # fmt: skip


@pytest.mark.parametrize("data", SAFE.values(), ids=SAFE)
@pytest.mark.parametrize("asked", ["", "2", "P1", "Brass"])
def test_the_same_as_reading_the_whole(monkeypatch: pytest.MonkeyPatch, data: bytes, asked: str) -> None:
    try:
        expected = whole(monkeypatch, data, asked)
    except ReadError as error:
        with pytest.raises(ReadError, match=re.escape(error.message)):
            read(data, asked)
        return
    assert read(data, asked) == expected


@pytest.mark.parametrize("name", FILES)
def test_scores_of_a_corpus_too(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    raw = (CORPUS / name).read_bytes()
    data = score_of(raw, name) if is_container(raw) else raw
    assert cut_at_parts(data, name) is not None
    for asked in ("1", "2"):
        assert read(data, asked) == whole(monkeypatch, data, asked)


@pytest.mark.parametrize(
    "data",
    [
        PLAIN.replace(b"<step>G</step>", b"<step>G</sted>"),
        PLAIN[:-40],
        PLAIN.replace(b"<step>G</step>", b"<step>&unknown;</step>"),
        duet(part("P1", note("C4")), part("P2", note("G4")), prolog='<!DOCTYPE x [<!ENTITY a "b">]>'),
    ],
    ids=["a tag that does not fit", "cut off", "an entity", "a declaration"],
)
def test_what_is_broken_in_a_part_that_is_not_read_is_refused_too(data: bytes) -> None:
    with pytest.raises(ReadError):
        read(data)


def test_a_score_of_one_part_is_not_cut() -> None:
    assert cut_at_parts(duet(part("P1", note("C4")), ""), "test") is None
