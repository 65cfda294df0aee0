"""What holds in a part from a place on: metre, key, transposition, tempo, feel, and the unit of durations."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from shedbook.errors import ReadError
from shedbook.exchange.ground.long_line import BarContext
from shedbook.exchange.ground.note_lengths import TICKS_A_QUARTER, Ticks, in_ticks
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.safe_xml import Element, bad_number, child_text, number, text_of
from shedbook.exchange.musicxml.harmony_reading import KnownChords
from shedbook.exchange.musicxml.note_reader import KnownPitches, read_duration
from shedbook.exchange.musicxml.simile_signs import SimileState, read_style
from shedbook.exchange.musicxml.tempo_and_feel import read_sound, read_tempo
from shedbook.theory.interval import UNISON, Interval
from shedbook.theory.metre import Metre

MOST_QUARTERS = 1000
"""No bar and no note may be longer than so many quarters, so that a damaged file cannot ask for too much."""

Voice = tuple[int, str]
"""A voice of a part: its staff and its name."""

_MODES = ("", "major", "minor", "none")


class PartState:
    """The state of a part while its bars are read in order.

    Besides what holds, it keeps whether any metre was given (`metre_given`), the label of the bar that is
    being read, and the place in it, in ticks.
    """

    def __init__(self, name: str, reporter: Reporter) -> None:
        self.name = name
        self.reporter = reporter
        self.metre_given = False
        self._context = BarContext()
        self._divisions = Fraction(1)
        self._unit: Ticks = TICKS_A_QUARTER
        self._lengths: dict[str, Ticks] = {}
        self._pitches: KnownPitches = {}
        self._known_chords: KnownChords = {}
        self._shift = UNISON
        self._written_fifths: int | None = None
        self._standing = SimileState()
        self._known_voices: dict[tuple[str | None, str | None], Voice] = {}
        self._voices: dict[Voice, int] = {}
        self._label = ""
        self._place: Ticks = 0
        self._end: Ticks = 0

    def _duration(self, element: Element) -> Ticks:
        """Return the `duration` of an element in ticks.

        Raises:
            ReadError: if it is no duration, or leads further than any bar.
        """
        length = read_duration(self.name, element, self._divisions, self._lengths)
        if length + self._place > MOST_QUARTERS * TICKS_A_QUARTER:
            raise ReadError(
                f"{self.name} has a bar of more than {MOST_QUARTERS} quarter notes.",
                hint="The file is damaged there: export it again, or mend that place.",
            )
        return length

    def _voice(self, note: Element) -> Voice:
        """Return the voice of a note: its staff and its name."""
        texts = (note.findtext("voice"), note.findtext("staff"))
        found = self._known_voices.get(texts)
        if found is None:
            staff = number(texts[1] or "")
            found = self._known_voices[texts] = (int(staff) if staff else 1, (texts[0] or "").strip())
            self._voices.setdefault(found, len(self._voices))
        return found

    def _offset(self, element: Element) -> Fraction:
        """Return the place of an element in the bar, in quarters, with its `offset`."""
        place = Fraction(self._place, TICKS_A_QUARTER)
        text = child_text(element, "offset")
        if not text:
            return place
        return max(Fraction(0), place + (number(text) or Fraction(0)) / self._divisions)

    def _attributes(self, element: Element) -> None:
        """Take in an `attributes` element.

        Raises:
            ReadError: if a number in it cannot be.
        """
        text = child_text(element, "divisions")
        if text:
            divisions = number(text)
            if divisions is None or divisions <= 0:
                raise bad_number(self.name, text, "the divisions of a quarter note")
            self._divisions, self._lengths = divisions, {}
            self._unit = in_ticks(1 / divisions)
        for child in element:
            if child.tag == "time":
                self._time(child)
            elif child.tag == "key" and child.get("number", "1") == "1":
                self._key(child)
            elif child.tag == "transpose" and child.get("number", "1") == "1":
                self._transpose(child)
            elif child.tag == "measure-style":
                read_style(child, self._standing, self._place)

    def _time(self, time: Element) -> None:
        """Take in a metre; one that no phrase can have is reported, and the metre before it holds on."""
        beats = [text_of(child) for child in time if child.tag == "beats"]
        units = [text_of(child) for child in time if child.tag == "beat-type"]
        if not beats or len(beats) != len(units):
            self.reporter.note("a passage without a metre is counted as the one before", self._label)
            return
        try:
            metre = metre_of(beats, units)
        except ValueError:
            said = " + ".join(f"{one}/{other}" for one, other in zip(beats, units, strict=True))
            self.reporter.note(f'the metre "{said[:40]}" cannot be kept', self._label)
            return
        self.metre_given = True
        self._context = replace(self._context, metre=metre)

    def _key(self, key: Element) -> None:
        """Take in a key signature; one that is no part of the circle of fifths is reported and left out."""
        fifths = number(child_text(key, "fifths"))
        if fifths is None or fifths.denominator != 1 or abs(fifths) > 12:
            self.reporter.note("a key signature that is no circle-of-fifths one is left out", self._label)
            return
        mode = child_text(key, "mode")[:20]
        if mode not in _MODES:
            self.reporter.note(
                f'the mode "{mode}" is left out, and its signature read as that of a major key', self._label
            )
        self._written_fifths = int(fifths)
        self._context = replace(self._context, mode=mode)
        self._concert()

    def _transpose(self, transpose: Element) -> None:
        """Take in a transposition; what was known about written pitches and chords no longer holds."""
        self._shift = read_transpose(self.name, transpose)
        self._pitches, self._known_chords = {}, {}
        self._concert()  # the key in the same element stands before the transposition

    def _concert(self) -> None:
        """Set the sounding key signature, and by how many letters the notes move to agree with it."""
        fifths, letters = concert_fifths(self._written_fifths, self._shift)
        self._context = replace(self._context, fifths=fifths, letters=letters)

    def _metronome(self, mark: Element) -> None:
        """Take in a metronome mark."""
        tempo = read_tempo(mark)
        if tempo is None:
            self.reporter.note("metronome marks that say no tempo are left out", self._label)
        else:
            self._set_tempo(tempo)

    def _tempo_and_feel(self, sound: Element) -> None:
        """Take in what a `sound` element says of tempo and feel."""
        tempo, feel, lost = read_sound(self.name, sound)
        if lost:
            self.reporter.note(f"a tempo of {lost} quarter notes a minute is left out", self._label)
        if tempo is not None:
            self._set_tempo(tempo)
        if feel:
            self._set_feel(feel)

    def _set_tempo(self, tempo: Fraction) -> None:
        if self._place and self._context.tempo_qpm not in (None, tempo):
            self.reporter.note("a change of tempo inside a bar is counted from its beginning", self._label)
        self._context = replace(self._context, tempo_qpm=tempo)

    def _set_feel(self, feel: str) -> None:
        if self._place and self._context.feel not in ("", feel):
            self.reporter.note("a change of feel inside a bar is counted from its beginning", self._label)
        self._context = replace(self._context, feel=feel)


# Attributes


def metre_of(beats: list[str], units: list[str]) -> Metre:
    """Return the metre of a time signature; both 3+2/8 and 3/8 + 2/8 become 5/8.

    Args:
        beats: the texts of its `beats` elements, such as "3" or "3+2".
        units: the texts of its `beat-type` elements, as many as `beats`.

    Raises:
        ValueError: if no metre of a phrase is meant.
    """
    finest = max(int(unit) for unit in units if unit.isdecimal() and len(unit) < 4)
    total = 0
    for many, unit in zip(beats, units, strict=True):
        parts = many.split("+")
        if not unit.isdecimal() or not int(unit) or finest % int(unit):
            raise ValueError(unit)
        if not all(part.strip().isdecimal() and len(part.strip()) < 4 for part in parts):
            raise ValueError(many)
        total += sum(int(part) for part in parts) * (finest // int(unit))
    return Metre.parse(f"{total}/{finest}")


def steps_of(semitones: int) -> int:
    """Return by how many letters a transposition moves when the file gives only its half steps."""
    octaves, rest = divmod(abs(semitones), 12)
    steps = 7 * octaves + (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)[rest]
    return steps if semitones >= 0 else -steps


def read_transpose(name: str, transpose: Element) -> Interval:
    """Return what must be added to a written pitch to get the sounding one.

    Args:
        name: what errors call the file.
        transpose: a `transpose` element.

    Raises:
        ReadError: if it gives no half steps.
    """
    text = child_text(transpose, "chromatic")
    chromatic = number(text)
    if chromatic is None or chromatic.denominator != 1 or abs(chromatic) > 48:
        raise bad_number(name, text, "a transposition")
    semitones = int(chromatic)
    diatonic = number(child_text(transpose, "diatonic") or "x")
    steps = steps_of(semitones) if diatonic is None or abs(diatonic) > 48 else int(diatonic)
    octaves = number(child_text(transpose, "octave-change") or "0") or Fraction(0)
    whole = max(-4, min(4, int(octaves)))
    return Interval(steps + 7 * whole, semitones + 12 * whole)


def concert_fifths(written: int | None, shift: Interval) -> tuple[int | None, int]:
    """Return the sounding key signature of a written one.

    A signature with more than six signs (seven where the part does not transpose) becomes its enharmonic.

    Args:
        written: the sharps of the written signature, flats being negative; None for no signature.
        shift: what must be added to a written pitch to get the sounding one.

    Returns:
        The sharps of the sounding signature, None for none; and by how many letters the notes must be moved
        up to agree with it.
    """
    if written is None:
        return None, 0
    fifths = written + shift.fifths
    while abs(fifths) > (7 if shift == UNISON else 6):
        fifths += -12 if fifths > 0 else 12
    return fifths, (written + shift.fifths - fifths) // 12
