"""The reader of one part: it takes in the bars in order, each as a tree of elements."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from types import MappingProxyType

from shedbook.errors import Place, ReadError
from shedbook.exchange.ground.long_line import DOUBLE_BAR, REHEARSAL, SYSTEM, LineBar
from shedbook.exchange.ground.note_lengths import in_quarters, in_ticks
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.safe_xml import Element, child_text, number, text_of
from shedbook.exchange.musicxml.bar_events import events_of
from shedbook.exchange.musicxml.chord_places import PlacedChord, placed_chords
from shedbook.exchange.musicxml.harmony_reading import chord_in_words, read_chord
from shedbook.exchange.musicxml.note_reader import (
    SHORTER_VALUES,
    Children,
    RawNote,
    children_of,
    is_slash,
    read_duration,
    read_notations,
    read_pitch,
    read_ties,
    read_value,
    report_left_out,
)
from shedbook.exchange.musicxml.padding_rests import without_padding
from shedbook.exchange.musicxml.part_state import PartState, Voice
from shedbook.exchange.musicxml.repeat_signs import (
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
from shedbook.exchange.musicxml.repeats import RepeatSigns
from shedbook.exchange.musicxml.simile_signs import SLASHES, with_bar_repeated, with_beats_repeated
from shedbook.exchange.musicxml.study_marks import STUDY
from shedbook.exchange.musicxml.tempo_and_feel import read_feel_words
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import Pitch

_ZERO = Fraction(0)
_MOST_GRACE = 16
_SECTION_ENDS = ("light-light", "light-heavy", "heavy-heavy", "heavy-light")


class PartReader(PartState):
    """Reads the bars of one part in order.

    After the last bar it has the bars (`bars`), the repeat signs of each (`signs`), the chords that stand as
    words over each (`text_chords`), and the number of chord symbols (`harmonies`). It reports what is lost.
    """

    def __init__(self, name: str, reporter: Reporter) -> None:
        super().__init__(name, reporter)
        self.bars: list[LineBar] = []
        self.signs: list[RepeatSigns] = []
        self.text_chords: list[tuple[tuple[Fraction, Chord], ...]] = []
        self.harmonies = 0
        self._grace: dict[Voice, list[Pitch]] = {}
        self._breaks: set[str] = set()
        self._ending: frozenset[int] | None = None
        self._begins = Beginnings()
        # All that follows belongs to the bar that is being read.
        self._notes: dict[Voice, list[RawNote]] = {}
        self._any_hidden = self._any_padding = False
        self._last: tuple[Voice, RawNote] | None = None
        self._chords: list[PlacedChord] = []
        self._texts: list[tuple[Fraction, Chord]] = []
        self._bar_signs = RepeatSigns()
        self._heading = ""
        self._after: set[str] = set()

    def take(self, measure: Element, label: str, *, implicit: bool) -> None:
        """Take in the next bar.

        Args:
            measure: its `measure` element, or its `part` element in a timewise score.
            label: the number that the file gives to the bar.
            implicit: whether the file says that it is no full bar.

        Raises:
            ReadError: if a duration or another number in it cannot be.
        """
        self._label = label
        self._place = self._end = 0
        self._notes, self._last = {}, None
        self._chords, self._texts = [], []
        self._bar_signs = RepeatSigns(ending=self._ending)
        self._heading, self._after = "", set()
        try:
            for child in measure:
                handler = _HANDLERS.get(child.tag)
                if handler is not None:
                    handler(self, child)
                elif child.tag == "figured-bass":
                    report_left_out(child.tag, self.reporter, label)
        except ReadError as error:
            number_of = int(label) if label.isdecimal() else None
            raise error.at(Place(file=self.name, bar=number_of)) from None
        self._finish(implicit)

    def _finish(self, implicit: bool) -> None:
        """Put together the bar whose elements have been taken in."""
        if self._grace:
            self._drop_graces(*self._grace)
        notes = self._chosen()
        if self._any_hidden:
            self._any_hidden = False
            self._name_hidden(notes)
        if self._any_padding:
            notes = self._without_padding(notes)
        standing = self._standing
        if standing.beat_signs:
            metre = self._context.metre
            notes = with_beats_repeated(notes, standing, metre, self._end, self.reporter, self._label)
        standing.before, standing.before_end = notes, self._end
        chords, moved = placed_chords(self._chords, notes, self._end, self._context.metre)
        if moved:
            self.reporter.note("several chords before one note are spread over it", self._label)
        read = events_of(notes, self._end, self._unit, self.reporter, self._label)
        bar = LineBar(
            self._label,
            self._context,
            read.events,
            chords,
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

    def _without_padding(self, notes: list[RawNote]) -> list[RawNote]:
        """Return the notes without the hidden rests that only pad the bar; what is left of it begins at 0."""
        self._any_padding = False
        full = in_ticks(self._context.metre.bar_quarters)
        kept, cut, end = without_padding(notes, self._end, full, first=not self.bars)
        if len(kept) < len(notes):
            self.reporter.note("hidden rests that only fill up a bar are left out", self._label)
        self._end = end
        moved = in_quarters(cut)
        self._chords = [(max(_ZERO, place - moved), chord, x) for place, chord, x in self._chords]
        return kept

    def _chosen(self) -> list[RawNote]:
        """Return the notes of one voice: of the voices on the first staff the first that sounds."""
        if len(self._notes) < 2:
            return next(iter(self._notes.values()), [])
        order = sorted(self._notes, key=lambda voice: (voice[0], self._voices[voice]))
        sounding = [voice for voice in order if any(map(_sounds, self._notes[voice]))]
        on_staff = [voice for voice in sounding if voice[0] == order[0][0]]
        chosen = (on_staff or order)[0]
        if len(sounding) > len(on_staff):
            self.reporter.note("of several staves the first is kept", self._label)
        if len(on_staff) > 1:
            self.reporter.note("of several voices the first that sounds is kept", self._label)
        if chosen != order[0]:
            self.reporter.note("where the first voice rests the line goes on in another", self._label)
        return self._notes[chosen]

    def _name_hidden(self, kept: list[RawNote]) -> None:
        """Report what became of the notes that the page does not show; `kept` are those of the voice."""
        if any(raw.hidden for raw in kept):
            self.reporter.note("hidden notes are read like those that are seen", self._label)
        if any(raw.hidden for notes in self._notes.values() if notes is not kept for raw in notes):
            self.reporter.note("hidden notes of another voice are left out", self._label)

    # Notes

    def _note(self, note: Element) -> None:
        """Take in a `note` element."""
        held = children_of(note)
        voice = self._voice(note)
        if "grace" in held:
            self._grace_note(held, voice)
            return
        length = self._duration(note)
        if "chord" in held:
            self._chord_note(note, held)
            return
        raw = RawNote(self._place, length, value=read_value(note, held))
        if raw.value is None and "type" in held:
            self._short_value(text_of(held["type"]))
        if "rest" in held:
            raw.hidden = note.get("print-object") == "no"
            self._any_padding = self._any_padding or raw.hidden
        elif not self._unsounded(note, held):
            self._sounding(note, held, raw)
        if voice in self._grace:
            if raw.pitch is None:
                self._drop_graces(voice)
            else:
                raw.grace = tuple(self._grace.pop(voice))
        self._place += length
        self._end = max(self._end, self._place)
        self._notes.setdefault(voice, []).append(raw)
        self._last = (voice, raw)

    def _unsounded(self, note: Element, held: Children) -> bool:
        """Tell whether a note is not meant to be played, and report it then."""
        if "cue" in held:
            lost = "cue notes are left out as rests"
        elif "notehead" in held and is_slash(held["notehead"]):
            lost = SLASHES
        else:
            return False
        self.reporter.note(lost, self._label)
        return True

    def _short_value(self, called: str) -> None:
        """Report a value that is shorter than the manuscript's plain values."""
        if called in SHORTER_VALUES:
            self.reporter.note(
                f"{called} notes are written as tuplets: a thirty-second is the shortest plain value",
                self._label,
            )

    def _drop_graces(self, *voices: Voice) -> None:
        """Leave out the grace notes of voices in which no note follows them."""
        for voice in voices:
            del self._grace[voice]
        self.reporter.note("grace notes that lead to no note are left out", self._label)

    def _sounding(self, note: Element, held: Children, raw: RawNote) -> None:
        """Add to a note its pitch, ties, marks and slurs."""
        raw.pitch = read_pitch(held, self._shift, self._pitches, self.reporter, self._label)
        if note.get("print-object") == "no" and raw.pitch is not None:
            raw.hidden = self._any_hidden = True
        if "tie" in held or "notations" in held:
            raw.tied_on, raw.tied_in = read_ties(note, held)
        if "notations" in held or "notehead" in held or "lyric" in held:
            read_notations(note, raw, self.reporter, self._label)

    def _grace_note(self, sounding: Children, voice: Voice) -> None:
        """Keep a grace note until the next note of its voice."""
        pitch = read_pitch(sounding, self._shift, self._pitches, self.reporter, self._label)
        held = self._grace.setdefault(voice, [])
        if pitch is None or len(held) >= _MOST_GRACE:
            self.reporter.note("some grace notes are left out", self._label)
        elif "chord" in sounding and held:
            self.reporter.note("of chords the top note is kept", self._label)
            held[-1] = max(held[-1], pitch, key=lambda one: one.midi)
        else:
            held.append(pitch)

    def _chord_note(self, note: Element, held: Children) -> None:
        """Take in a further note of a chord; it replaces the one before where it is higher."""
        if self._last is None or self._unsounded(note, held):
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
        """Step back in the bar."""
        self._place -= read_duration(self.name, element, self._divisions, self._lengths)
        if self._place < 0:
            self.reporter.note("a step back leads out of the bar and is cut short", self._label)
            self._place = 0

    def _forward(self, element: Element) -> None:
        """Step forward in the bar."""
        self._place += self._duration(element)
        self._end = max(self._end, self._place)

    # Chords

    def _harmony(self, element: Element) -> None:
        """Take in a chord symbol."""
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
        if read.doubt:
            self.reporter.note(read.doubt, self._label)
        self.harmonies += 1
        if read.chord is not None:
            self._chords.append((self._offset(element), read.chord, number(element.get("relative-x", ""))))

    # Directions and signs

    def _direction(self, element: Element) -> None:
        """Take in a direction: jumps, words, rehearsal marks, tempo and feel."""
        if element.get("id", "").startswith(STUDY):
            return
        place = self._offset(element)
        jump = direction_jump(element)
        if jump is not None:
            add_jump(jump, self._bar_signs, self._begins, self._place)
        sound = element.find("sound")
        for kind in element:
            if kind.tag == "direction-type":
                for child in kind:
                    if child.tag != "metronome":
                        self._direction_type(child, place)
                    elif sound is None or sound.get("tempo") is None:
                        self._metronome(child)
        if sound is not None:
            self._tempo_and_feel(sound)

    def _direction_type(self, child: Element, place: Fraction) -> None:
        if child.tag == "rehearsal":
            self._breaks.add(REHEARSAL)
            self._heading = " ".join(text_of(child).split())[:60]
        elif child.tag == "words":
            self._words(" ".join(text_of(child).split()), place)
        else:
            report_left_out(child.tag, self.reporter, self._label)

    def _words(self, text: str, place: Fraction) -> None:
        """Take in words on the page: a feel, a jump, a chord, or words that are left out."""
        feel = read_feel_words(text)
        if feel:
            self._set_feel(feel)
        elif text and jump_words(text) is None:
            chord = chord_in_words(text)
            if chord is not None:
                self._texts.append((place, chord))
            else:
                self.reporter.note(f'the words "{text[:60]}" are left out', self._label)

    def _sound(self, sound: Element) -> None:
        jump = jump_sound(sound)
        if jump is not None:
            add_jump(jump, self._bar_signs, self._begins, self._place)
        self._tempo_and_feel(sound)

    def _barline(self, barline: Element) -> None:
        """Take in a bar line: double bars, endings, repeats, segno and coda."""
        left = barline.get("location") == "left"
        repeat, ending = barline.find("repeat"), barline.find("ending")
        if repeat is None and child_text(barline, "bar-style") in _SECTION_ENDS:
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


def _sounds(raw: RawNote) -> bool:
    """Tell whether a note makes its voice one that sounds; a hidden note does not."""
    return raw.pitch is not None and not raw.hidden


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
