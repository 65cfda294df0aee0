"""MusicXML as phrases; this is the face of the room for reading.

Versions 1.0 to 4.0 are read, partwise and timewise, plain and compressed. One part is read, the chosen or the
first one, and of it the top line. Everything comes out at concert pitch with repeats written out. The report
says what could not be kept.
"""

from __future__ import annotations

import contextlib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.errors import ReadError, UnknownNameError, nearest
from shedbook.exchange.ground.collecting import collecting_later
from shedbook.exchange.ground.long_line import DEFAULT_SPLIT, LineBar, LongLine
from shedbook.exchange.ground.mxl_container import is_container, score_of
from shedbook.exchange.ground.report import Imported, Reporter
from shedbook.exchange.ground.safe_xml import (
    DESCEND,
    KEEP,
    MOST_BYTES,
    SKIP,
    Element,
    read_xml,
)
from shedbook.exchange.ground.xml_encoding import source_of, without_namespace
from shedbook.exchange.musicxml.part_reader import PartReader
from shedbook.exchange.musicxml.part_texts import PartTexts, cut_at_parts
from shedbook.exchange.musicxml.repeats import MOST_BARS, unrolled
from shedbook.exchange.musicxml.score_head import MOST_PARTS, ScoreHead, read_head
from shedbook.exchange.musicxml.steady_bars import with_steady_metre
from shedbook.exchange.phrases.line_division import pieces_of
from shedbook.theory.chord import Chord
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName

_HEAD = ("work", "movement-title", "identification", "credit", "part-list")


class _Score:
    """The watcher of a whole score: it hands the bars of one part to the reader of that part.

    `asked` is the part that the caller names, `wanted` the id of the part that is read, and `seen` maps the
    id of each part to the places at which it stands in the file.
    """

    def __init__(self, name: str, reporter: Reporter, part: str) -> None:
        self.name = name
        self.head = ScoreHead()
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
        """Return the answer about a part that begins: only the wanted part is read."""
        part = self._part
        self.seen.setdefault(part, []).append(self._opened)
        self._opened += 1
        if len(self.seen[part]) == 1 and len(self.seen) > MOST_PARTS:
            raise ReadError(
                f"{self.name} has more than {MOST_PARTS} parts; it was not read.",
                hint="Export only the part that holds the line.",
            )
        if not self.wanted:
            self.wanted = self._choose()
        if part != self.wanted:
            return SKIP
        return KEEP if self._timewise else DESCEND

    def _choose(self) -> str:
        """Return the id of the part that the caller asks for by name, id or place; else of the first part."""
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
        """Read a score; where its text can be cut at its parts, only the wanted part is built."""
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
        """Let a reader read one part of a score whose text has been cut."""
        if self.cut is not None:
            alone = _Score(self.name, reader.reporter, "")
            alone.wanted, alone.reader = part, reader
            read_xml(self.cut.alone(self.seen.get(part, [])), self.name, alone)

    def chords_elsewhere(self, xml: bytes) -> tuple[str, PartReader] | None:
        """Return id and reader of the first other part with chord symbols; None where there is none."""
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
        """How many parts have begun."""
        return self._opened

    def kept(self, element: Element) -> None:
        if element.tag in ("measure", "part"):
            attributes = self._measure
            if len(self.reader.bars) >= MOST_BARS:
                raise ReadError(
                    f"{self.name} has more than {MOST_BARS} bars; it was not read.",
                    hint="Export the one piece you want as a file of its own.",
                )
            label = attributes.get("number", "").strip()[:12] or str(len(self.reader.bars) + 1)
            self.reader.take(element, label, implicit=attributes.get("implicit") == "yes")
        else:
            read_head(element, self.head)


def read_line(
    data: bytes, name: str, reporter: Reporter, *, part: str = "", unroll: bool = True,
    metre: Metre | None = None,
) -> LongLine:  # fmt: skip
    """Return the whole line of a score before it is divided into phrases.

    Args:
        data: the bytes of a MusicXML file, plain or compressed.
        name: what errors and the report call the file.
        reporter: told what could not be kept.
        part: the name, id or place (from 1) of the part to read; "" for the first part.
        unroll: whether repeats are written out.
        metre: the metre of a score that gives none; None to find it in the lengths of its bars.

    Raises:
        ReadError: if the file cannot be read; the error has the place.
        UnknownNameError: if the score has no such part.
    """
    xml = without_namespace(score_of(data, name, reporter) if is_container(data) else data)
    score = _Score(name, reporter, part)
    with collecting_later():
        score.read(xml)
    reader = score.reader
    if not reader.bars:
        raise ReadError(f"{name} holds no bars.", hint="Export a score that has notes.")
    others = [score.head.parts.get(key) or key for key in score.seen if key != score.wanted]
    if others:
        listed = ", ".join(others[:6]) + (" …" if len(others) > 6 else "")
        reporter.note(f"other parts are left out: {listed}")
    bars = _with_chords(reader, xml, score)
    if not reader.metre_given:
        bars = with_steady_metre(bars, reporter, metre)
    order = unrolled(reader.signs, name, reporter) if unroll else range(len(bars))
    score.head.name_what_is_lost(reporter)
    line = LongLine(score.head.title, tuple([bars[index] for index in order]), score.head.kept)
    if any(signs.jump for signs in reader.signs) and unroll:
        reporter.note("repeats and jumps are written out")
    elif len(line.bars) > len(bars):
        reporter.note("repeats are written out")
    return line


def _with_chords(reader: PartReader, xml: bytes, score: _Score) -> list[LineBar]:
    """Return the bars with chords.

    They are the chord symbols of the part, or else words over it that are chords, or else the chord symbols
    of the first other part that has some.
    """
    if reader.harmonies:
        return [
            _with_words(bar, texts, reader.reporter)
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
    """A watcher that finds the first part with chord symbols, apart from one part."""

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
        """Do nothing, because no tree is asked for."""


def _with_words(bar: LineBar, texts: Sequence[tuple[Fraction, Chord]], reporter: Reporter) -> LineBar:
    """Return a bar of a part with chord symbols, with the words over it that are chords too.

    A single letter is left out, for it may be a rehearsal mark; so is a word in the place of a symbol.
    """
    if not texts:
        return bar
    there = {place for place, _ in bar.chords}
    found = []
    for place, chord in texts:
        if place in there or len(chord.text) < 2:
            reporter.note(f'the words "{chord.text}" are left out', bar.label)
        else:
            there.add(place)
            found.append((place, chord))
    if any(chord.root is not None for _, chord in found):
        reporter.note("words that are chords are read like chord symbols", bar.label)
    return replace(bar, chords=tuple(sorted([*bar.chords, *found], key=lambda pair: pair[0])))


def _grafted(bars: list[LineBar], chords: list[tuple[tuple[Fraction, Chord], ...]]) -> list[LineBar]:
    return [replace(bar, chords=found) for bar, found in zip(bars, chords, strict=True)]


def _at_tempo(bar: LineBar, tempo_qpm: Fraction) -> LineBar:
    return replace(bar, context=replace(bar.context, tempo_qpm=tempo_qpm))


def read_musicxml(
    data: bytes,
    name: str,
    *,
    split: Collection[str] = DEFAULT_SPLIT,
    part: str = "",
    changes: str = "",
    key: Key | NoteName | None = None,
    title: str = "",
    tempo_qpm: Fraction | None = None,
    metre: Metre | None = None,
) -> Imported:
    """Return the phrases of a MusicXML file.

    Args:
        data: the bytes of the file, plain or compressed.
        name: what errors and the report call the file.
        split: the kinds of places at which the line is divided, any of `long_line.SPLITS`.
        part: the name, id or place (from 1) of the part to read; "" for the first part.
        changes: the changes that replace those of the file, as a phrase of the manuscript has them. They
            begin anew at each phrase, and are repeated under a longer one. "" keeps the changes of the file.
        key: the home key of every phrase, or its tonic alone; None to take it from the changes or from the
            key signature.
        title: the title of a score that has none; "" for `name`.
        tempo_qpm: the tempo of every phrase in quarter notes a minute; None for that of the file.
        metre: the metre of a score that gives none; None to find it in the lengths of its bars.

    Returns:
        The phrases in concert pitch, and the report of what could not be kept.

    Raises:
        ReadError: if the file or the changes cannot be read.
        UnknownNameError: if the score has no such part.
    """
    reporter = Reporter(name)
    line = read_line(data, name, reporter, part=part, metre=metre)
    if tempo_qpm is not None:
        line = replace(line, bars=tuple([_at_tempo(bar, tempo_qpm) for bar in line.bars]))
    pieces = pieces_of(line, frozenset(split), reporter, fallback=title or name, key=key, changes=changes)
    return Imported(pieces, reporter.report())
