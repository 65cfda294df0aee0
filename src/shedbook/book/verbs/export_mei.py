"""A phrase as an MEI 5 file for other programs: the engraved score with all that a picture does not need.

The notes are those of `engrave.notation`. Added are a header (title, composer, rights, key, tempo), tempo and
feel in words, bar numbers, scoops and falls in words, and what makes a written pitch sound.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from types import MappingProxyType
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from shedbook.analysis.account import quarters_a_minute
from shedbook.engrave.notation.mei_score import mei
from shedbook.engrave.notation.score_notes import score_bars
from shedbook.exchange.phrases.tempo import tapped_beat
from shedbook.phrase.model import Phrase, Value
from shedbook.phrase.value_text import PARTS
from shedbook.theory.interval import UNISON, Interval
from shedbook.theory.pitch import NoteName

_NAMESPACE = ' xmlns="http://www.music-encoding.org/ns/mei"'
_IN_WORDS = ("fall", "scoop")
"""MEI lists them as articulations, but music21 refuses a file that has them there; Verovio draws nothing."""
_SIGNS: Mapping[int, str] = MappingProxyType({-2: "ff", -1: "f", 1: "s", 2: "x"})
_NOTE_SIGNS: Mapping[int, str] = MappingProxyType({2: "\ueca3", 4: "\ueca5", 8: "\ueca7"})
"""The notes of a metronome mark, as SMuFL's code points."""
_DOT = "\uecb7"


@dataclass(frozen=True, slots=True)
class Heading:
    """What stands before the notes, "" for what nobody said; `software` is the maker that the file names."""

    book: str = ""
    author: str = ""
    rights: str = ""
    software: str = "shedbook"
    version: str = ""


def mei_file(phrase: Phrase, *, clef: str, transposed: Interval, heading: Heading) -> str:
    """Return the MEI file of a phrase.

    Args:
        phrase: as its reader sees it.
        clef: one of `engrave.notation.mei_score.CLEFS`.
        transposed: how much higher it is written than it sounds.
        heading: for the header.

    Raises:
        RenderError: if a note has more than three sharps or flats.
    """
    room = {index: escape(change.chord.text) for index, change in enumerate(phrase.changes)}
    text = mei(phrase, clef=clef, room=room)
    # Without its namespace the tree has plain names; it is put back as it was.
    root = ElementTree.fromstring(text.replace(_NAMESPACE, "", 1))
    _head(root, phrase, heading)
    for staff in root.iter("staffDef"):
        if transposed != UNISON:
            sounding = -transposed
            staff.set("trans.diat", str(sounding.steps))
            staff.set("trans.semi", str(sounding.semitones))
    _bars(root, phrase)
    _marks(root, phrase)
    ElementTree.indent(root)
    body = ElementTree.tostring(root, encoding="unicode").replace("<mei ", f"<mei{_NAMESPACE} ", 1)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{body}\n'


def _put(parent: Element, tag: str, text: str = "", **attributes: str) -> Element:
    found = SubElement(parent, tag, attributes)
    found.text = text or None
    return found


def _head(root: Element, phrase: Phrase, heading: Heading) -> None:
    """Put the header in the place of the empty one."""
    head = root.find("meiHead")
    if head is None:
        head = Element("meiHead")
        root.insert(0, head)
    head.clear()
    description = _put(head, "fileDesc")
    titles = _put(description, "titleStmt")
    _put(titles, "title", phrase.title)
    if heading.author:
        _put(titles, "composer", heading.author)
    published = _put(description, "pubStmt")
    if heading.rights:
        _put(_put(published, "availability"), "useRestrict", heading.rights)
    if heading.book:
        _put(_put(_put(description, "sourceDesc"), "source"), "bibl", heading.book)
    about = {"version": heading.version} if heading.version else {}
    applications = _put(_put(head, "encodingDesc"), "appInfo")
    _put(_put(applications, "application", **about), "name", heading.software)
    work = _put(_put(head, "workList"), "work")
    _put(work, "title", phrase.title)
    if heading.author:
        _put(work, "composer", heading.author)
    _put(work, "key", str(phrase.key), **_named(phrase.key.tonic), mode=phrase.key.mode)
    _put(work, "meter", count=str(phrase.metre.beats), unit=str(phrase.metre.unit))


def _named(tonic: NoteName) -> dict[str, str]:
    sign = _SIGNS.get(tonic.alteration)
    return {"pname": tonic.letter.lower()} | ({"accid": sign} if sign else {})


def _bars(root: Element, phrase: Phrase) -> None:
    """Number the bars, and say tempo and feel over the first."""
    measures = list(root.iter("measure"))
    for measure, bar in zip(measures, phrase.bars, strict=True):
        measure.set("n", str(bar.number))
    beat = tapped_beat(phrase)
    value = next(value for part in PARTS for dots in (0, 1) if (value := Value(part, dots)).quarters == beat)
    tempo = Element("tempo", {
        "staff": "1", "place": "above", "tstamp": "1",
        "mm": str(phrase.tempo_bpm), "mm.unit": str(value.part),
        "midi.bpm": f"{float(quarters_a_minute(phrase)):g}",
    })  # fmt: skip
    if value.dots:
        tempo.set("mm.dots", str(value.dots))
    tempo.text = f"{phrase.feel}, "
    note = _put(tempo, "rend", _NOTE_SIGNS[value.part] + _DOT * value.dots, fontfam="smufl")
    note.tail = f" = {phrase.tempo_bpm}"
    staff = next(place for place, child in enumerate(measures[0]) if child.tag == "staff")
    measures[0].insert(staff + 1, tempo)


def _marks(root: Element, phrase: Phrase) -> None:
    """Say marks that MEI's readers do not know as articulations in words over their notes."""
    measures = root.iter("measure")
    for measure, bar in zip(measures, score_bars(phrase), strict=True):
        for head in bar.notes:
            for mark in head.marks:
                if mark in _IN_WORDS:
                    _put(measure, "dir", mark, staff="1", place="above", startid=f"#{head.id}", type=mark)
