"""The sounding notes of a MusicXML file, read by the standard alone.

Shares nothing with our writer and our reader: part, measure, note, backup, forward, divisions, transposition
and ties, as MusicXML 4.0 has them. Grace notes are told apart.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import NamedTuple
from xml.etree import ElementTree

_HALF_STEPS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}


class XmlNote(NamedTuple):
    """A struck note: where it begins and how long it lasts in quarters, its MIDI number as it sounds."""

    start: Fraction
    quarters: Fraction
    midi: int


@dataclass(slots=True)
class _Place:
    """Where the reader is: time in quarters from the first measure, divisions a quarter, transposition."""

    now: Fraction = Fraction(0)
    divisions: int = 1
    up: int = 0
    open: dict[int, int] = field(default_factory=dict)


def sounding_in_xml(content: bytes) -> tuple[list[XmlNote], list[int]]:
    """Return the struck notes of the first part, and the MIDI numbers of its grace notes.

    Raises:
        ValueError: if it is no MusicXML that can be followed; `ElementTree.ParseError` is one.
    """
    try:
        part = ElementTree.fromstring(content).find("part")
    except ElementTree.ParseError as error:
        raise ValueError(f"it is no XML: {error}") from None
    if part is None:
        raise ValueError("it has no part")
    notes: list[XmlNote] = []
    graces: list[int] = []
    place = _Place()
    for element in (element for measure in part.findall("measure") for element in measure):
        if element.tag == "attributes":
            _attributes(element, place)
        elif element.tag in ("backup", "forward"):
            place.now += (-1 if element.tag == "backup" else 1) * _length(element, place)
        elif element.tag == "note":
            _note(element, place, notes, graces)
    return notes, graces


def _attributes(element: ElementTree.Element, place: _Place) -> None:
    place.divisions = int(element.findtext("divisions") or place.divisions)
    moved = element.find("transpose")
    if moved is not None:
        octaves = int(moved.findtext("octave-change") or 0)
        place.up = int(moved.findtext("chromatic") or 0) + 12 * octaves


def _length(element: ElementTree.Element, place: _Place) -> Fraction:
    return Fraction(element.findtext("duration") or "0") / place.divisions


def _note(element: ElementTree.Element, place: _Place, notes: list[XmlNote], graces: list[int]) -> None:
    pitch = element.find("pitch")
    if element.find("grace") is not None:
        if pitch is not None:
            graces.append(_midi(pitch) + place.up)
        return
    quarters = _length(element, place)
    if pitch is not None:
        midi = _midi(pitch) + place.up
        ties = {tie.get("type") for tie in element.findall("tie")}
        if "stop" in ties and midi in place.open:
            at = place.open.pop(midi)
            notes[at] = notes[at]._replace(quarters=notes[at].quarters + quarters)
        else:
            at = len(notes)
            notes.append(XmlNote(place.now, quarters, midi))
        if "start" in ties:
            place.open[midi] = at
    place.now += quarters


def _midi(pitch: ElementTree.Element) -> int:
    step, octave = pitch.findtext("step") or "", int(pitch.findtext("octave") or 0)
    if step not in _HALF_STEPS:
        raise ValueError(f'"{step}" is no step of a pitch')
    return 12 * (octave + 1) + _HALF_STEPS[step] + int(float(pitch.findtext("alter") or 0))


def chord_roots(content: bytes) -> Iterator[str]:
    """Yield the root of each chord symbol of the first part, as written: "Eb"."""
    for root in ElementTree.fromstring(content).iter("root"):
        alter = int(float(root.findtext("root-alter") or 0))
        yield (root.findtext("root-step") or "") + ("#" * alter if alter > 0 else "b" * -alter)
