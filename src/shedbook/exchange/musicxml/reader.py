"""MusicXML, versions 1.0 to 4.0, partwise and timewise, plain and compressed: from bytes to phrases.

One part is read, the named or the first one, and of it the top line. Everything comes out in concert
pitch, repeats written out; what could not be kept stands in the report.
"""

from __future__ import annotations

import contextlib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from shedbook.errors import ReadError, UnknownNameError, nearest
from shedbook.exchange.ground.long_line import DEFAULT_SPLIT, LineBar, LongLine
from shedbook.exchange.ground.mxl_container import is_container, score_of
from shedbook.exchange.ground.report import Imported, Reporter
from shedbook.exchange.ground.safe_xml import (
    DESCEND,
    KEEP,
    MOST_BYTES,
    SKIP,
    Element,
    child_text,
    read_xml,
    text_of,
)
from shedbook.exchange.ground.tables.own_fields import PREFIX
from shedbook.exchange.ground.xml_encoding import source_of, without_namespace
from shedbook.exchange.musicxml.part_reader import PartReader
from shedbook.exchange.musicxml.part_texts import PartTexts, cut_at_parts
from shedbook.exchange.musicxml.repeats import unrolled
from shedbook.exchange.phrases.line_division import pieces_of
from shedbook.theory.chord import Chord
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

_MOST_PARTS = 500
_HEAD = ("work", "movement-title", "identification", "credit", "part-list")
_MOST_TITLE = 200
_MOST_SHOWN = 60
_MOST_ROUND = 24


@dataclass(slots=True)
class _Head:
    """What stands before the notes."""

    work: str = ""
    movement: str = ""
    credit: str = ""
    round: list[tuple[str, str]] = field(default_factory=list)
    kept: dict[str, str] = field(default_factory=dict)
    parts: dict[str, str] = field(default_factory=dict)

    @property
    def title(self) -> str:
        return (self.movement or self.work or self.credit)[:_MOST_TITLE]

    def name_what_is_lost(self, reporter: Reporter) -> None:
        """Report what a phrase has no place for; in our own files it is that of the book."""
        if self.kept:
            return
        said = {self.movement or self.work or self.credit, ""}
        for what, text in [("title", self.work), ("title", self.credit), *self.round][:_MOST_ROUND]:
            if text not in said:
                said.add(text)
                reporter.note(f'the {what} "{text[:_MOST_SHOWN]}" is left out')


class _Score:
    """Watches a score go by and hands the bars of one part to its reader."""

    def __init__(self, name: str, reporter: Reporter, part: str) -> None:
        self.name = name
        self.head = _Head()
        self.asked = part
        self.wanted = ""
        self.seen: dict[str, list[int]] = {}
        self.chords_in: dict[str, int] = {}
        self.reader = PartReader(name, reporter)
        self.cut: PartTexts | None = None
        self._timewise = False
        self._at_root = True
        self._part = ""
        self._opened = 0
        self._measure: Mapping[str, str] = {}

    # What the file holds

    def opened(self, tag: str, attributes: Mapping[str, str]) -> int:
        if self._at_root:
            return self._root(tag)
        if tag in _HEAD:
            return KEEP
        if tag == "measure":
            self._measure = attributes
            return DESCEND if self._timewise else KEEP
        if tag == "part":
            self._part = attributes.get("id", "")
            return self._open_part()
        return SKIP

    def _root(self, tag: str) -> int:
        self._at_root = False
        if tag not in ("score-partwise", "score-timewise"):
            inside = " in a namespace of its own" if tag.startswith("{") else ""
            raise ReadError(
                f"{self.name} is XML, but no score: it begins with <{tag.rpartition('}')[2][:40]}>{inside}.",
                hint="A MusicXML score begins with score-partwise or score-timewise.",
            )
        self._timewise = tag == "score-timewise"
        return DESCEND

    def _open_part(self) -> int:
        """Answer whether the part at hand is the one to read."""
        part = self._part
        self.seen.setdefault(part, []).append(self._opened)
        self._opened += 1
        if len(self.seen[part]) == 1 and len(self.seen) > _MOST_PARTS:
            raise ReadError(
                f"{self.name} has more than {_MOST_PARTS} parts; it was not read.",
                hint="Export only the part that holds the line.",
            )
        if not self.wanted:
            self.wanted = self._choose()
        if part != self.wanted:
            return SKIP
        return KEEP if self._timewise else DESCEND

    def _choose(self) -> str:
        """Return the part asked for, by its name, its id or its place; the first for none."""
        parts = self.head.parts or {self._part: ""}
        if not self.asked:
            return self._part
        for place, (key, name) in enumerate(parts.items(), 1):
            if self.asked.casefold() in (key.casefold(), name.casefold(), str(place)):
                return key
        listed = ", ".join(name or key for key, name in list(parts.items())[:12])
        raise UnknownNameError(
            f'{self.name} has no part "{self.asked}".',
            hint=nearest(self.asked, [name.lower() for name in parts.values()]) or f"Its parts: {listed}.",
        )

    def read(self, xml: bytes) -> None:
        """Read a score: the part that is wanted alone, where its text can be cut."""
        cut = cut_at_parts(xml, self.name) if len(xml) <= MOST_BYTES else None
        if cut is not None:
            frame = _Score(self.name, Reporter(self.name), self.asked)
            frame.wanted = self.wanted
            with contextlib.suppress(ReadError):
                read_xml(cut.frame, self.name, frame)
            if frame.opened_parts == len(cut.parts):
                self.head, self.wanted, self.seen = frame.head, frame.wanted, frame.seen
                self.cut = cut
                self.read_alone(self.wanted, self.reader)
                return
        read_xml(xml, self.name, self)

    def read_alone(self, part: str, reader: PartReader) -> None:
        """Let a reader read one part of a score whose text is cut."""
        if self.cut is not None:
            alone = _Score(self.name, reader.reporter, "")
            alone.wanted, alone.reader = part, reader
            read_xml(self.cut.alone(self.seen.get(part, [])), self.name, alone)

    def chords_elsewhere(self, xml: bytes) -> tuple[str, PartReader] | None:
        """Return the first other part with chord symbols, read; None where there is none."""
        other = PartReader(self.name, Reporter(self.name))
        if self.cut is not None:
            for part, places in self.seen.items():
                if part != self.wanted and any(b"<harmony" in self.cut.parts[place] for place in places):
                    self.read_alone(part, other)
                    return part, other
            return None
        finder = _ChordFinder(self.wanted)
        read_xml(xml, self.name, finder)
        if finder.found is None:
            return None
        score = _Score(self.name, other.reporter, "")
        score.wanted, score.reader = finder.found, other
        read_xml(xml, self.name, score)
        return finder.found, other

    @property
    def opened_parts(self) -> int:
        """How many parts were opened."""
        return self._opened

    def kept(self, element: Element) -> None:
        if element.tag in ("measure", "part"):
            attributes = self._measure
            label = attributes.get("number", "").strip()[:12] or str(len(self.reader.bars) + 1)
            self.reader.take(element, label, implicit=attributes.get("implicit") == "yes")
        else:
            _read_head(element, self.head)


def _read_head(element: Element, head: _Head) -> None:
    """Take in what stands before the notes."""
    if element.tag == "work":
        head.work = _line(child_text(element, "work-title"))
    elif element.tag == "movement-title":
        head.movement = _line(text_of(element))
    elif element.tag == "credit":
        _read_credit(child_text(element, "credit-type"), _line(child_text(element, "credit-words")), head)
    elif element.tag == "identification":
        _read_identification(element, head)
    elif element.tag == "part-list":
        for part in element.findall("score-part")[:_MOST_PARTS]:
            head.parts[part.get("id", "")] = _line(child_text(part, "part-name"))


def _read_identification(element: Element, head: _Head) -> None:
    """Take in who made the music, and what a file of ours keeps there."""
    for one in element:
        if one.tag in ("creator", "rights"):
            what = one.get("type", "")[:_MOST_SHOWN] if one.tag == "creator" else "line of rights"
            head.round.append((what or "creator", _line(text_of(one))))
    for fields in element.findall("miscellaneous"):
        for one in fields.findall("miscellaneous-field"):
            name = one.get("name", "")
            if name.startswith(PREFIX):
                head.kept[name.removeprefix(PREFIX)] = one.text or ""


def _read_credit(kind: str, words: str, head: _Head) -> None:
    """Take in words that are printed round the music."""
    if kind in ("", "title") and not head.credit:
        head.credit = words
    elif kind != "page number":
        head.round.append((kind[:_MOST_SHOWN] or "line of words", words))


def _line(text: str) -> str:
    """Return a text on one line."""
    return " ".join(text.split())


def read_line(data: bytes, name: str, reporter: Reporter, *, part: str = "", unroll: bool = True) -> LongLine:
    """Return the whole line of a score, not yet divided into phrases.

    Args:
        data: a MusicXML file, plain or compressed.
        name: what errors and remarks call it.
        reporter: told what could not be kept.
        part: the name, id or place (from 1) of the part to read; "" for the first.
        unroll: write repeats out.

    Raises:
        ReadError: if the file cannot be read, with the place.
        UnknownNameError: if it has no such part.
    """
    xml = without_namespace(score_of(data, name) if is_container(data) else data)
    score = _Score(name, reporter, part)
    score.read(xml)
    reader = score.reader
    if not reader.bars:
        raise ReadError(f"{name} holds no bars.", hint="Export a score that has notes.")
    others = [score.head.parts.get(key) or key for key in score.seen if key != score.wanted]
    if others:
        listed = ", ".join(others[:6]) + (" …" if len(others) > 6 else "")
        reporter.note(f"other parts are left out: {listed}")
    bars = _with_chords(reader, xml, score)
    order = unrolled(reader.signs, name, reporter) if unroll else range(len(bars))
    score.head.name_what_is_lost(reporter)
    line = LongLine(score.head.title, tuple([bars[index] for index in order]), score.head.kept)
    if any(signs.jump for signs in reader.signs) and unroll:
        reporter.note("repeats and jumps are written out")
    elif len(line.bars) > len(bars):
        reporter.note("repeats are written out")
    return line


def _with_chords(reader: PartReader, xml: bytes, score: _Score) -> list[LineBar]:
    """Return the bars with chords: the part's own, else those of another part, else words that are chords."""
    if reader.harmonies:
        return [
            _with_silence(bar, texts, reader.reporter)
            for texts, bar in zip(reader.text_chords, reader.bars, strict=True)
        ]
    if any(len(chord.text) > 1 for texts in reader.text_chords for _, chord in texts):
        return _grafted(reader.bars, reader.text_chords)
    for texts, bar in zip(reader.text_chords, reader.bars, strict=True):
        for _, chord in texts:
            reader.reporter.note(f'the words "{chord.text}" are left out', bar.label)
    if len(score.seen) == 1 or not _names_harmony(source_of(xml, score.name)):
        return reader.bars
    found = score.chords_elsewhere(xml)
    if found is None or not found[1].harmonies or len(found[1].bars) != len(reader.bars):
        return reader.bars
    called = score.head.parts.get(found[0]) or found[0]
    reader.reporter.note(f'the chord symbols are those of the part "{called}"')
    return _grafted(reader.bars, [bar.chords for bar in found[1].bars])


def _names_harmony(source: bytes | str) -> bool:
    return "<harmony" in source if isinstance(source, str) else b"<harmony" in source


class _ChordFinder:
    """Looks for the first part besides one that has chord symbols."""

    def __init__(self, besides: str) -> None:
        self.besides = besides
        self.found: str | None = None
        self._part = ""

    def opened(self, tag: str, attributes: Mapping[str, str]) -> int:
        if tag == "part":
            self._part = attributes.get("id", "")
        if tag == "harmony" and self.found is None and self._part != self.besides:
            self.found = self._part
        return DESCEND if tag in ("score-partwise", "score-timewise", "part", "measure") else SKIP

    def kept(self, element: Element) -> None:
        """Nothing is kept."""


def _with_silence(bar: LineBar, texts: Sequence[tuple[Fraction, Chord]], reporter: Reporter) -> LineBar:
    """Return a bar with the words that say N.C. among its chord symbols; other words are left out."""
    if not texts:
        return bar
    silent = []
    for place, chord in texts:
        if chord.root is None and all(place != other for other, _ in bar.chords):
            silent.append((place, chord))
        elif chord.root is not None:
            reporter.note(f'the words "{chord.text}" are left out', bar.label)
    return replace(bar, chords=tuple(sorted([*bar.chords, *silent], key=lambda pair: pair[0])))


def _grafted(bars: list[LineBar], chords: list[tuple[tuple[Fraction, Chord], ...]]) -> list[LineBar]:
    return [replace(bar, chords=found) for bar, found in zip(bars, chords, strict=True)]


def read_musicxml(
    data: bytes,
    name: str,
    *,
    split: Collection[str] = DEFAULT_SPLIT,
    part: str = "",
    changes: str = "",
    key: Key | NoteName | None = None,
    title: str = "",
) -> Imported:
    """Return the phrases of a MusicXML file and the report of what could not be kept.

    Args:
        data: the file, plain or compressed.
        name: what errors and remarks call it.
        split: where to divide the line, any of `long_line.SPLITS`.
        part: the name, id or place of the part to read; "" for the first.
        changes: the changes as a phrase has them, which take the place of those in the file; they begin
            anew at each phrase, and are repeated under one that is longer.
        key: the home key of every phrase, or its tonic alone; None to take it from the changes or the key
            signature.
        title: the title of a score that has none; "" for `name`.

    Raises:
        ReadError: if the file or the changes cannot be read.
        UnknownNameError: if it has no such part.
    """
    reporter = Reporter(name)
    line = read_line(data, name, reporter, part=part)
    pieces = pieces_of(line, frozenset(split), reporter, fallback=title or name, key=key, changes=changes)
    return Imported(pieces, reporter.report())
