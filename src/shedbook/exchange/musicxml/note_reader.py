"""One `note` element: its pitch at concert pitch, its duration, its value, its ties, slurs and marks.

Every number is checked. What cannot be kept is reported.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType

from shedbook.exchange.ground.note_lengths import Ticks, in_ticks
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.safe_xml import Element, bad_number, child_text, number, text_of
from shedbook.exchange.musicxml.notation_names import ARTICULATION, GHOST, PART_OF_TYPE
from shedbook.exchange.musicxml.tables.notation_words import CALLED, PASSED_OVER
from shedbook.phrase.model import Value
from shedbook.phrase.value_text import MOST_DOTS, MOST_IN_TUPLET
from shedbook.theory.interval import LETTER_SEMITONES, Interval
from shedbook.theory.pitch import LETTERS, Pitch, spellings

LOWEST_MIDI, HIGHEST_MIDI = 21, 108
"""The lowest and the highest pitch that the manuscript can write."""

SHORTER_VALUES = ("64th", "128th", "256th", "512th", "1024th")
"""`note-type-value` of the values that are shorter than each plain value of the manuscript."""

_MOST_KNOWN = 1000

_CALLED: Mapping[str, str] = MappingProxyType(dict(CALLED))
_PASSED_OVER = frozenset(PASSED_OVER)


@dataclass(slots=True)
class RawNote:
    """A note or rest as its file has it.

    Attributes:
        onset: where it begins, in ticks from the start of its bar.
        length: how long it lasts, in ticks.
        pitch: its sounding pitch; None for a rest.
        value: the value with which it is written; None where the file does not say it.
        tied_on: whether it is tied to the note after.
        tied_in: whether it is tied to the note before.
        marks: its marks.
        grace: the sounding pitches of its grace notes.
        opens: the numbers of the slurs that begin on it.
        closes: the numbers of the slurs that end on it.
        hidden: whether the page does not show it.
    """

    onset: Ticks
    length: Ticks
    pitch: Pitch | None = None
    value: Value | None = None
    tied_on: bool = False
    tied_in: bool = False
    marks: tuple[str, ...] = ()
    grace: tuple[Pitch, ...] = ()
    opens: tuple[int, ...] = ()
    closes: tuple[int, ...] = ()
    hidden: bool = False


def pitch_of(step: str, alter: str, octave: str, shift: Interval) -> tuple[Pitch | None, str]:
    """Return the sounding pitch of a written one, and the remark on what could not be kept ("" for none).

    Args:
        step: the letter.
        alter: the alteration in half steps, "" for none; quarter tones are rounded.
        octave: the octave, 4 being that of middle C.
        shift: what must be added to a written pitch to get the sounding one.
    """
    altered, height = number(alter or "0"), number(octave)
    if step not in LETTERS or not step or altered is None or height is None or height.denominator != 1:
        return None, "notes without a readable pitch are left out as rests"
    half_steps = round(altered)
    letter = LETTERS.index(step)
    number_of_octave = int(height) + 1
    sounding = (
        Pitch(letter + 7 * number_of_octave, LETTER_SEMITONES[letter] + half_steps + 12 * number_of_octave)
        + shift
    )
    if not LOWEST_MIDI <= sounding.midi <= HIGHEST_MIDI:
        return None, "notes outside A0 to C8 are left out as rests"
    if abs(sounding.alteration) > 2:
        return spellings(sounding.midi)[0], ""
    return sounding, "quarter tones are taken as the nearest half step" if half_steps != altered else ""


Children = Mapping[str, Element]
"""The children of a note by their tags; of several children with one tag the last."""


def children_of(note: Element) -> Children:
    """Return the children of a note by their tags."""
    return {child.tag: child for child in note}


KnownPitches = dict[tuple[str | None, str | None, str | None], tuple[Pitch | None, str]]
"""Pitches that were read before under the same transposition, by the words of their elements."""


def read_pitch(
    held: Children, shift: Interval, known: KnownPitches, reporter: Reporter, bar: str
) -> Pitch | None:
    """Return the sounding pitch of a note; None for a rest, and for a pitch that cannot be kept.

    Args:
        held: the children of the note.
        shift: what must be added to a written pitch to get the sounding one.
        known: the pitches that were read before; the new one is added.
        reporter: told of what cannot be kept.
        bar: the label of the bar.
    """
    pitch = held.get("pitch")
    if pitch is None:
        if "unpitched" in held:
            reporter.note("unpitched notes are left out as rests", bar)
        return None
    texts = (pitch.findtext("step"), pitch.findtext("alter"), pitch.findtext("octave"))
    found = known.get(texts)
    if found is None:
        step, alter, octave = texts
        found = pitch_of((step or "").strip(), alter or "", octave or "", shift)
        if len(known) < _MOST_KNOWN:
            known[texts] = found
    sounding, lost = found
    if lost:
        reporter.note(lost, bar)
    return sounding


def read_duration(name: str, element: Element, divisions: Fraction, known: dict[str, Ticks]) -> Ticks:
    """Return the `duration` of an element in ticks.

    Args:
        name: what errors call the file.
        element: the element.
        divisions: how many units of duration make a quarter.
        known: the durations that were read before, by their texts; the new one is added.

    Raises:
        ReadError: if it is missing, no number, or below zero.
    """
    text = element.findtext("duration") or ""
    found = known.get(text)
    if found is None:
        length = number(text)
        if length is None or length < 0:
            raise bad_number(name, text.strip() or "nothing", "a duration")
        found = in_ticks(length / divisions)
        if len(known) < _MOST_KNOWN:
            known[text] = found
    return found


def read_value(note: Element, held: Children) -> Value | None:
    """Return the value with which a note is written; None where the file gives none, or none that we have."""
    kind = held.get("type")
    part = None if kind is None else PART_OF_TYPE.get(text_of(kind))
    if part is None:
        return None
    dots = sum(1 for child in note if child.tag == "dot") if "dot" in held else 0
    changed = held.get("time-modification")
    if dots > MOST_DOTS:
        return None
    if changed is None:
        return _value(part, dots, "1", "1")
    return _value(part, dots, child_text(changed, "actual-notes"), child_text(changed, "normal-notes"))


@lru_cache(maxsize=1024)
def _value(part: int, dots: int, actual_text: str, normal_text: str) -> Value | None:
    actual, normal = number(actual_text), number(normal_text)
    if actual is None or normal is None or actual <= 0 or normal <= 0:
        return None
    if actual.denominator != 1 or normal.denominator != 1 or actual == normal:
        return Value(part, dots) if actual == normal else None
    if max(actual, normal) > MOST_IN_TUPLET or actual == 1:
        ratio = actual / normal
        actual, normal = Fraction(ratio.numerator), Fraction(ratio.denominator)
    if max(actual, normal) > MOST_IN_TUPLET or actual == 1:
        return None
    return Value(part, dots, int(actual), int(normal))


def is_slash(notehead: Element) -> bool:
    """Tell whether a note head is a slash, which asks for a rhythm without pitch."""
    return text_of(notehead) == "slash"


def read_ties(note: Element, held: Children) -> tuple[bool, bool]:
    """Return whether a note is tied to the one after, and whether it is tied to the one before."""
    kinds = set()
    if "tie" in held:
        kinds = {child.get("type") for child in note if child.tag == "tie"}
    elif "notations" in held:
        kinds = {
            child.get("type")
            for notations in note.findall("notations")
            for child in notations
            if child.tag == "tied"
        }
    return "start" in kinds, "stop" in kinds


def read_notations(note: Element, raw: RawNote, reporter: Reporter, bar: str) -> None:
    """Add the marks and slurs of a `note` element to a note, and report what cannot be kept."""
    for child in note:
        if child.tag == "notations":
            for notation in child:
                _read_notation(notation, raw, reporter, bar)
        elif child.tag == "notehead":
            if child.get("parentheses") == "yes" or text_of(child) == "x":
                raw.marks += (GHOST,)
        elif child.tag == "lyric":
            reporter.note("lyrics are left out", bar)


def _read_notation(notation: Element, raw: RawNote, reporter: Reporter, bar: str) -> None:
    if notation.tag == "slur":
        level = int(number(notation.get("number", "1")) or 1)
        kind = notation.get("type")
        if kind == "start":
            raw.opens += (level,)
        elif kind == "stop":
            raw.closes += (level,)
    elif notation.tag == "articulations":
        for child in notation:
            row = ARTICULATION.get(child.tag)
            if row is None:
                report_left_out(child.tag, reporter, bar)
                continue
            raw.marks += row.marks
            if not row.exact:
                reporter.note(f"{child.tag} is taken as {row.marks[0]}", bar)
    elif notation.tag not in _PASSED_OVER:
        report_left_out(notation.tag, reporter, bar)


def report_left_out(tag: str, reporter: Reporter, bar: str) -> None:
    """Report an element that a phrase cannot hold, by the name that musicians give it."""
    if tag not in _PASSED_OVER:
        reporter.note(f"{_CALLED.get(tag, tag[:40])} are left out", bar)
