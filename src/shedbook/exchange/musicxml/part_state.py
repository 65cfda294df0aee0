"""What holds in a part from one place on: metre, key, transposition, tempo and feel, and how it counts."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from shedbook.errors import ReadError
from shedbook.exchange.ground.long_line import BarContext
from shedbook.exchange.ground.note_lengths import TICKS_A_QUARTER, Ticks, in_ticks
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.safe_xml import Element, bad_number, child_text, number, text_of
from shedbook.exchange.musicxml.harmony_reading import KnownChords, concert_fifths, metre_of, read_transpose
from shedbook.exchange.musicxml.note_reader import KnownPitches, read_duration
from shedbook.exchange.musicxml.simile_signs import SimileState, read_style
from shedbook.exchange.musicxml.tempo_and_feel import read_sound, read_tempo
from shedbook.theory.interval import UNISON

MOST_QUARTERS = 1000
"""No bar and no note is longer, in quarter notes; what a file repeats in it is bounded so too."""

_MODES = ("", "major", "minor", "none")


class PartState:
    """The state of a part while its bars are read in order, and of the bar in hand its label and place."""

    def __init__(self, name: str, reporter: Reporter) -> None:
        self.name = name
        self.reporter = reporter
        self._context = BarContext()
        self._divisions = Fraction(1)
        self._unit: Ticks = TICKS_A_QUARTER
        self._lengths: dict[str, Ticks] = {}
        self._pitches: KnownPitches = {}
        self._known_chords: KnownChords = {}
        self._shift = UNISON
        self._written_fifths: int | None = None
        self._standing = SimileState()
        self._label = ""
        self._place: Ticks = 0
        self._end: Ticks = 0

    def _duration(self, element: Element) -> Ticks:
        """Return the length of an element in ticks.

        Raises:
            ReadError: if it is no length, or leads further than any bar.
        """
        length = read_duration(self.name, element, self._divisions, self._lengths)
        if length + self._place > MOST_QUARTERS * TICKS_A_QUARTER:
            raise ReadError(
                f"{self.name} has a bar of more than {MOST_QUARTERS} quarter notes.",
                hint="The file is damaged there: export it again, or mend that place.",
            )
        return length

    def _attributes(self, element: Element) -> None:
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
        self._context = replace(self._context, metre=metre)

    def _key(self, key: Element) -> None:
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
        """Set what must be added to a written pitch to get the sounding one."""
        self._shift = read_transpose(self.name, transpose)
        self._pitches, self._known_chords = {}, {}
        self._concert()  # the key of the same element stands before the transposition

    def _concert(self) -> None:
        """Set the key signature as it sounds, and how the notes are called in it."""
        fifths, letters = concert_fifths(self._written_fifths, self._shift)
        self._context = replace(self._context, fifths=fifths, letters=letters)

    def _metronome(self, mark: Element) -> None:
        tempo = read_tempo(mark)
        if tempo is None:
            self.reporter.note("metronome marks that say no tempo are left out", self._label)
        else:
            self._set_tempo(tempo)

    def _tempo_and_feel(self, sound: Element) -> None:
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
