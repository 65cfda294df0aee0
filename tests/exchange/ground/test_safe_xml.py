"""Files that mean harm, or are broken: refused with a clear error, in bounded time and memory."""

from __future__ import annotations

import tracemalloc
from collections.abc import Callable

import pytest

from exchange.hostile import GOOD, assert_refused, bomb, doctype
from exchange.scores import FOUR_FOUR, harmony, note, score
from shedbook.exchange.ground import safe_xml
from shedbook.exchange.musicxml.reader import read_musicxml


def divided(divisions: str) -> bytes:
    return score(note("C4"), first=f"<attributes><divisions>{divisions}</divisions></attributes>")


def titled(title: str) -> bytes:
    return score(note("C4"), head=f"<movement-title>{title}</movement-title>")


def encoded(name: str, attribute: bytes = b"") -> bytes:
    return b'<?xml version="1.0" encoding="%s"?><score-partwise a="%s"/>' % (name.encode(), attribute)


def repeated(times: int) -> str:
    return f'<barline><repeat direction="backward" times="{times}"/></barline>' + note("C4")


def transposed(by: str) -> bytes:
    moved = f"<transpose><chromatic>{by}</chromatic></transpose></attributes>"
    return score(note("C4"), first=FOUR_FOUR.replace("</attributes>", moved))


def with_note(inside: str) -> bytes:
    return score(f"<note>{inside}</note>")


def sound(tempo: str) -> bytes:
    return score(f'<sound tempo="{tempo}"/>{note("C4")}')


HOSTILE: dict[str, tuple[Callable[[], bytes], str]] = {
    # Entities and declarations
    "entity bomb": (bomb, "declares"),
    "quadratic blow-up": (lambda: doctype(f'<!ENTITY a "{"x" * 50_000}">'), "declares"),
    "external entity": (lambda: doctype('<!ENTITY a SYSTEM "file:///etc/passwd">'), "declares"),
    "entity over the net": (lambda: doctype('<!ENTITY a SYSTEM "http://127.0.0.1:9/x">'), "declares"),
    "parameter entity": (lambda: doctype('<!ENTITY % a SYSTEM "file:///etc/passwd"> %a;'), "declares"),
    "default attributes": (lambda: doctype('<!ATTLIST note color CDATA "red">'), "declares"),
    "undeclared entity": (lambda: titled("&a;"), "entity"),
    # Size
    "deep": (lambda: score("<x>" * 5_000 + "</x>" * 5_000), "nests"),
    "deep and long": (lambda: score("<x>" * 300_000 + "</x>" * 300_000), "nests"),
    "one huge bar": (lambda: score(note("C4") * 40_000), "in one place"),
    "one huge attribute": (lambda: score(f'<note color="{"x" * 3_000_000}"/>'), "in one place"),
    "one huge text": (lambda: titled("x" * 3_000_000), "in one place"),
    "many attributes": (
        lambda: score("<note " + " ".join(f'a{n}=""' for n in range(300_000)) + "/>"),
        "in one place",
    ),
    "long prolog": (lambda: b"<?a b?>" * 300_000 + GOOD, "before its first element"),
    "too long": (lambda: GOOD + b" " * safe_xml.MOST_BYTES, "million bytes"),
    "many repeats": (lambda: score(*[repeated(64)] * 400), "repeats"),
    "many parts": (
        lambda: (
            b"<score-partwise>" + b"".join(b'<part id="P%d"/>' % n for n in range(600)) + b"</score-partwise>"
        ),
        "parts",
    ),
    # Not what it says
    "empty root": (lambda: b"<score-partwise/>", "no bars"),
    "no score": (lambda: b"<html><body/></html>", "no score"),
    "no XML": (lambda: b"Dm7 | G7 | C", "not well-formed"),
    "only white space": (lambda: b"  \n", "ends in the middle"),
    "truncated": (lambda: GOOD[: len(GOOD) // 2], "ends in the middle"),
    "truncated in a tag": (lambda: GOOD[: GOOD.index(b"<pitch>") + 3], "ends in the middle"),
    "crossed tags": (lambda: b"<score-partwise><part></score-partwise></part>", "not well-formed"),
    "latin-1 as UTF-8": (lambda: encoded("UTF-8", b"\xe9"), "not well-formed"),
    "UTF-8 as UTF-16": (lambda: encoded("UTF-16"), "not well-formed"),
    "unknown encoding": (lambda: encoded("moon"), "moon"),
    "codec that is none": (lambda: encoded("zlib"), "zlib"),
    "wrong bytes for cp1252": (lambda: encoded("cp1252", b"\x81"), "cp1252"),
    "zero bytes": (lambda: b"\0" * 1_000, "not well-formed"),
    # Numbers
    "negative duration": (lambda: score(note("C4", -8)), "duration"),
    "no duration": (lambda: with_note("<rest/>"), "duration"),
    "duration in words": (lambda: with_note("<rest/><duration>four</duration>"), "duration"),
    "NaN duration": (lambda: with_note("<rest/><duration>NaN</duration>"), "duration"),
    "huge exponent": (lambda: with_note("<rest/><duration>1e999999999</duration>"), "duration"),
    "huge number": (lambda: with_note(f"<rest/><duration>{'9' * 100_000}</duration>"), "duration"),
    "zero divisions": (lambda: divided("0"), "divisions"),
    "negative divisions": (lambda: divided("-4"), "divisions"),
    "NaN tempo": (lambda: sound("NaN"), "tempo"),
    "infinite tempo": (lambda: sound("INF"), "tempo"),
    "negative tempo": (lambda: sound("-120"), "tempo"),
    "huge transposition": (lambda: transposed("999999"), "transposition"),
    "endless repeat": (lambda: score(repeated(999_999_999)), "repeats"),
}


@pytest.mark.parametrize(("make", "says"), HOSTILE.values(), ids=HOSTILE)
def test_refused(make: Callable[[], bytes], says: str) -> None:
    assert_refused(make(), says)


HARMLESS = {
    "the standard document type": score(
        note("C4"),
        prolog='<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
        '"http://www.musicxml.org/dtds/partwise.dtd">',
    ),
    "character references": score(note("C4"), head="<movement-title>A &amp; B &#233;</movement-title>"),
    "unknown elements": score("<moon/>" + note("C4") + "<moon><note/></moon>"),
    "a step back out of the bar": score(note("C4") + "<backup><duration>99</duration></backup>"),
    "an unknown chord": score(harmony("C", "no such kind") + note("C4")),
    "a root that is none": score(harmony("H", "major") + note("C4")),
    "a note without a pitch": score("<note><pitch/><duration>8</duration></note>"),
    "a tempo of nought": score('<sound tempo="0"/>' + note("C4")),
    "an ending that never starts": score('<barline><ending number="x" type="stop"/></barline>' + note("C4")),
    "own fields that say nothing": score(
        note("C4"),
        head="<identification><miscellaneous>"
        '<miscellaneous-field name="shedbook-changes">H7 |</miscellaneous-field>'
        '<miscellaneous-field name="shedbook-id">../../x</miscellaneous-field>'
        "</miscellaneous></identification>",
    ),
}


@pytest.mark.parametrize("data", HARMLESS.values(), ids=HARMLESS)
def test_read_all_the_same(data: bytes) -> None:
    read_musicxml(data, "odd.xml")


def test_a_long_file_is_read_in_little_memory() -> None:
    """Four thousand bars, some two million bytes: what is kept is the notes, not the file's elements."""
    bar = "".join(note(name, 2, after="<type>quarter</type>") for name in ("C4", "D4", "E4", "F4"))
    data = score(*[bar] * 4_000)
    tracemalloc.start()
    read_musicxml(data, "long.xml", split=())
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert len(data) > 1_500_000
    assert peak < 20 * len(data)
