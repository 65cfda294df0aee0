"""The bars of one part, each taken in as a tree: notes, chords, signs, and what holds from there on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from shedbook.errors import Place, ReadError
from shedbook.exchange.bar_in import events_of
from shedbook.exchange.bar_repeats import Standing, read_style, with_bar_repeated, with_beats_repeated
from shedbook.exchange.direction_in import read_feel_words, read_sound, read_tempo
from shedbook.exchange.lengths import TICKS_A_QUARTER, Ticks, in_ticks
from shedbook.exchange.long_line import DOUBLE_BAR, REHEARSAL, SYSTEM, LineBar, Setting
from shedbook.exchange.note_in import (
    Held,
    KnownPitches,
    RawNote,
    held_by,
    leave_out,
    read_duration,
    read_notations,
    read_pitch,
    read_ties,
    read_value,
)
from shedbook.exchange.repeat_signs import (
    Beginnings,
    add_jump,
    barline_jump,
    direction_jump,
    ending_numbers,
    jump_sound,
    jump_words,
    read_repeat,
    settle,
)
from shedbook.exchange.repeats import Signs
from shedbook.exchange.report import Reporter
from shedbook.exchange.safety import Element, bad_number, number, said, text_of
from shedbook.exchange.symbols_in import (
    KnownChords,
    concert_fifths,
    metre_of,
    read_chord,
    read_transpose,
    text_chord,
)
from shedbook.theory.chord import Chord
from shedbook.theory.interval import UNISON
from shedbook.theory.pitch import Pitch

_ZERO = Fraction(0)
_MOST_GRACE = 16
_SECTION_ENDS = ("light-light", "light-heavy", "heavy-heavy", "heavy-light")

Voice = tuple[int, str]


class PartReader:
    """Reads the bars of one part, in order."""

    def __init__(self, name: str, reporter: Reporter) -> None:
        self.name = name
        self.reporter = reporter
        self.bars: list[LineBar] = []
        self.signs: list[Signs] = []
        self.text_chords: list[tuple[tuple[Fraction, Chord], ...]] = []
        self.harmonies = 0
        self._setting = Setting()
        self._divisions = Fraction(1)
        self._unit: Ticks = TICKS_A_QUARTER
        self._lengths: dict[str, Ticks] = {}
        self._pitches: KnownPitches = {}
        self._known_chords: KnownChords = {}
        self._known_voices: dict[tuple[str | None, str | None], Voice] = {}
        self._shift = UNISON
        self._written_fifths: int | None = None
        self._voices: dict[Voice, int] = {}
        self._grace: dict[Voice, list[Pitch]] = {}
        self._breaks: set[str] = set()
        self._ending: frozenset[int] | None = None
        self._begins = Beginnings()
        self._standing = Standing()
        # What belongs to the bar in hand.
        self._label = ""
        self._place: Ticks = 0
        self._end: Ticks = 0
        self._notes: dict[Voice, list[RawNote]] = {}
        self._last: tuple[Voice, RawNote] | None = None
        self._chords: list[tuple[Fraction, Chord]] = []
        self._texts: list[tuple[Fraction, Chord]] = []
        self._bar_signs = Signs()
        self._heading = ""
        self._after: set[str] = set()

    def take(self, measure: Element, label: str, *, implicit: bool) -> None:
        """Take in the next bar.

        Raises:
            ReadError: for a duration or another number that cannot be.
        """
        self._label = label
        self._place = self._end = 0
        self._notes, self._last = {}, None
        self._chords, self._texts = [], []
        self._bar_signs = Signs(ending=self._ending)
        self._heading, self._after = "", set()
        try:
            for child in measure:
                handler = _HANDLERS.get(child.tag)
                if handler is not None:
                    handler(self, child)
                elif child.tag == "figured-bass":
                    leave_out(child.tag, self.reporter, label)
        except ReadError as error:
            number_of = int(label) if label.isdecimal() else None
            raise error.at(Place(file=self.name, bar=number_of)) from None
        self._finish(implicit)

    def _finish(self, implicit: bool) -> None:
        notes = self._chosen()
        standing = self._standing
        if standing.beat_signs:
            metre = self._setting.metre
            notes = with_beats_repeated(notes, standing, metre, self._end, self.reporter, self._label)
        standing.before, standing.before_end = notes, self._end
        read = events_of(notes, self._end, self._unit, self.reporter, self._label)
        chords = self._chords
        bar = LineBar(
            self._label,
            self._setting,
            read.events,
            tuple(sorted(chords, key=lambda pair: pair[0]) if len(chords) > 1 else chords),
            read.tied_on,
            frozenset(self._breaks),
            self._heading,
            implicit,
            read.unwritten,
        )
        if standing.pattern or standing.slashes:
            bar = with_bar_repeated(bar, self.bars, standing, self.reporter)
        self.bars.append(bar)
        if self._begins.any:
            self._begins = settle(self._begins, self._bar_signs, self._end)
        self.signs.append(self._bar_signs)
        self.text_chords.append(tuple(self._texts))
        self._breaks = self._after

    def _chosen(self) -> list[RawNote]:
        """Return the notes of the top voice: of the first staff the voice that came first in the part."""
        if len(self._notes) == 1:
            return next(iter(self._notes.values()))
        sounding = [voice for voice, notes in self._notes.items() if any(one.pitch for one in notes)]
        if len(sounding) > 1:
            self.reporter.note("of several voices the top one is kept", self._label)
        chosen = min(self._notes, key=lambda voice: (voice[0], self._voices[voice]), default=None)
        return [] if chosen is None else self._notes[chosen]

    # Notes

    def _note(self, note: Element) -> None:
        held = held_by(note)
        voice = self._voice(note)
        if "grace" in held:
            self._grace_note(held, voice)
            return
        length = read_duration(self.name, note, self._divisions, self._lengths)
        if "chord" in held:
            self._chord_note(note, held)
            return
        raw = RawNote(self._place, length, value=read_value(note, held))
        if "cue" in held:
            self.reporter.note("cue notes are left out as rests", self._label)
        elif "rest" not in held:
            self._sounding(note, held, raw)
            graces = self._grace.pop(voice, None)
            if graces is not None and raw.pitch is not None:
                raw.grace = tuple(graces)
        self._place += length
        self._end = max(self._end, self._place)
        self._notes.setdefault(voice, []).append(raw)
        self._last = (voice, raw)

    def _voice(self, note: Element) -> Voice:
        texts = (note.findtext("voice"), note.findtext("staff"))
        found = self._known_voices.get(texts)
        if found is None:
            staff = number(texts[1] or "")
            found = self._known_voices[texts] = (int(staff) if staff else 1, (texts[0] or "").strip())
            self._voices.setdefault(found, len(self._voices))
        return found

    def _sounding(self, note: Element, held: Held, raw: RawNote) -> None:
        """Add to a note what says how it sounds."""
        raw.pitch = read_pitch(held, self._shift, self._pitches, self.reporter, self._label)
        if "tie" in held or "notations" in held:
            raw.tied_on, raw.tied_in = read_ties(note, held)
        if "notations" in held or "notehead" in held or "lyric" in held:
            read_notations(note, raw, self.reporter, self._label)

    def _grace_note(self, sounding: Held, voice: Voice) -> None:
        pitch = read_pitch(sounding, self._shift, self._pitches, self.reporter, self._label)
        held = self._grace.setdefault(voice, [])
        if pitch is None or len(held) >= _MOST_GRACE:
            self.reporter.note("some grace notes are left out", self._label)
        elif "chord" in sounding and held:
            self.reporter.note("of chords the top note is kept", self._label)
            held[-1] = max(held[-1], pitch, key=lambda one: one.midi)
        else:
            held.append(pitch)

    def _chord_note(self, note: Element, held: Held) -> None:
        """Take in a further note of a chord: it stands in for the one before where it is higher."""
        if self._last is None:
            return
        raw = self._last[1]
        other = RawNote(raw.onset, raw.length)
        self._sounding(note, held, other)
        raw.marks += other.marks
        raw.opens += other.opens
        raw.closes += other.closes
        self.reporter.note("of chords the top note is kept", self._label)
        if other.pitch is not None and (raw.pitch is None or other.pitch.midi > raw.pitch.midi):
            raw.pitch, raw.tied_on, raw.tied_in = other.pitch, other.tied_on, other.tied_in

    def _backup(self, element: Element) -> None:
        self._place -= read_duration(self.name, element, self._divisions, self._lengths)
        if self._place < 0:
            self.reporter.note("a step back leads out of the bar and is cut short", self._label)
            self._place = 0

    def _forward(self, element: Element) -> None:
        self._place += read_duration(self.name, element, self._divisions, self._lengths)
        self._end = max(self._end, self._place)

    # What holds from here on

    def _attributes(self, element: Element) -> None:
        text = said(element, "divisions")
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
        self._setting = replace(self._setting, metre=metre)

    def _key(self, key: Element) -> None:
        fifths = number(said(key, "fifths"))
        if fifths is None or fifths.denominator != 1 or abs(fifths) > 12:
            self.reporter.note("a key signature that is no circle-of-fifths one is left out", self._label)
            return
        self._written_fifths = int(fifths)
        self._setting = replace(self._setting, mode=said(key, "mode")[:20])
        self._concert()

    def _transpose(self, transpose: Element) -> None:
        """Set what must be added to a written pitch to get the sounding one."""
        self._shift = read_transpose(self.name, transpose)
        self._pitches, self._known_chords = {}, {}
        self._concert()  # the key of the same element stands before the transposition

    def _concert(self) -> None:
        """Set the key signature as it sounds, and how the notes are called in it."""
        fifths, letters = concert_fifths(self._written_fifths, self._shift)
        self._setting = replace(self._setting, fifths=fifths, letters=letters)

    # Chords

    def _harmony(self, element: Element) -> None:
        if element.get("type") == "alternate":
            self.reporter.note("alternate chords are left out", self._label)
            return
        kinds = sum(1 for child in element if child.tag == "kind")
        if kinds > 1:
            self.reporter.note("of chords over chords the first is kept", self._label)
        read = read_chord(element, self._shift, self._known_chords)
        words = "a chord symbol loses" if read.chord else "a chord symbol is left out for"
        for lost in read.lost:
            self.reporter.note(f"{words} {lost}", self._label)
        self.harmonies += 1
        if read.chord is not None:
            self._chords.append((self._offset(element), read.chord))

    def _offset(self, element: Element) -> Fraction:
        place = Fraction(self._place, TICKS_A_QUARTER)
        text = said(element, "offset")
        if not text:
            return place
        return max(_ZERO, place + (number(text) or _ZERO) / self._divisions)

    # Directions and signs

    def _direction(self, element: Element) -> None:
        place = self._offset(element)
        jump = direction_jump(element)
        if jump is not None:
            add_jump(jump, self._bar_signs, self._begins, self._place)
        for kind in element:
            if kind.tag == "direction-type":
                for child in kind:
                    self._direction_type(child, place)
            elif kind.tag == "sound":
                self._tempo_and_feel(kind)

    def _direction_type(self, child: Element, place: Fraction) -> None:
        if child.tag == "rehearsal":
            self._breaks.add(REHEARSAL)
            self._heading = " ".join(text_of(child).split())[:60]
        elif child.tag == "words":
            self._words(" ".join(text_of(child).split()), place)
        elif child.tag == "metronome":
            tempo = read_tempo(child)
            if tempo is not None and self._setting.tempo_qpm is None:
                self._setting = replace(self._setting, tempo_qpm=tempo)
        else:
            leave_out(child.tag, self.reporter, self._label)

    def _words(self, text: str, place: Fraction) -> None:
        feel = read_feel_words(text)
        if feel:
            self._setting = replace(self._setting, feel=feel)
        elif text and jump_words(text) is None:
            chord = text_chord(text)
            if chord is not None:
                self._texts.append((place, chord))
            else:
                self.reporter.note(f'the words "{text[:60]}" are left out', self._label)

    def _sound(self, sound: Element) -> None:
        jump = jump_sound(sound)
        if jump is not None:
            add_jump(jump, self._bar_signs, self._begins, self._place)
        self._tempo_and_feel(sound)

    def _tempo_and_feel(self, sound: Element) -> None:
        tempo, feel = read_sound(self.name, sound)
        if tempo is not None:
            self._setting = replace(self._setting, tempo_qpm=tempo)
        if feel:
            self._setting = replace(self._setting, feel=feel)

    def _barline(self, barline: Element) -> None:
        left = barline.get("location") == "left"
        repeat, ending = barline.find("repeat"), barline.find("ending")
        if repeat is None and said(barline, "bar-style") in _SECTION_ENDS:
            (self._breaks if left else self._after).add(DOUBLE_BAR)
        if ending is not None:
            if ending.get("type") == "start":
                self._ending = self._bar_signs.ending = ending_numbers(ending)
            else:
                self._bar_signs.ends, self._ending = True, None
        jump = barline_jump(barline)
        if jump is not None:
            add_jump(jump, self._bar_signs, self._begins, 0 if left else self._place)
        if repeat is not None:
            read_repeat(self.name, repeat, self._bar_signs)

    def _print(self, element: Element) -> None:
        if "yes" in (element.get("new-system"), element.get("new-page")):
            self._breaks.add(SYSTEM)


_HANDLERS: Mapping[str, Callable[[PartReader, Element], None]] = MappingProxyType(
    {
        "note": PartReader._note,
        "backup": PartReader._backup,
        "forward": PartReader._forward,
        "attributes": PartReader._attributes,
        "harmony": PartReader._harmony,
        "direction": PartReader._direction,
        "sound": PartReader._sound,
        "barline": PartReader._barline,
        "print": PartReader._print,
    }
)
