"""A score read from its ink: bars with struck notes, their pitches, places and lengths, and chord symbols."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import product
from types import MappingProxyType

from shedbook.read_back.beams import Written
from shedbook.read_back.chord_symbols import ReadSymbol, symbols_of
from shedbook.read_back.degrees import ReadDegree, degrees_of
from shedbook.read_back.ink import Ink
from shedbook.read_back.playing_marks import GHOST, give_marks
from shedbook.read_back.staves import System, UnreadableError, systems_of
from shedbook.read_back.tablature import ReadFret, frets_of
from shedbook.read_back.tempo_marks import ReadTempo, tempo_of
from shedbook.read_back.tuplets_and_ties import Tie, mark_tuplets, quarters_of, ties_of
from shedbook.read_back.written_notes import WrittenSystem, written_system

_LETTERS = "CDEFGAB"
_HALF_STEPS = (0, 2, 4, 5, 7, 9, 11)


@dataclass(frozen=True, slots=True)
class ReadPitch:
    """A pitch by its diatonic step, C4 being 28, and the half steps by which a sign in force alters it."""

    step: int
    alteration: int

    @property
    def midi(self) -> int:
        """The MIDI number, C4 being 60."""
        octave, letter = divmod(self.step, 7)
        return 12 * (octave + 1) + _HALF_STEPS[letter] + self.alteration

    def __str__(self) -> str:
        octave, letter = divmod(self.step, 7)
        sign = "#" * self.alteration if self.alteration > 0 else "b" * -self.alteration
        return f"{_LETTERS[letter]}{sign}{octave}"


@dataclass(slots=True)
class ReadNote:
    """A struck note as it is read; what is tied to it is part of its length.

    Attributes:
        pitch: its pitch by the accidentals in force.
        start: its place in its bar, in quarters.
        quarters: how long it sounds, in quarters.
        x: where its head stands, in staff spaces from the left end of its system.
        sign: the accidental that it shows, in half steps, or None.
        bracketed: whether that stands in brackets.
        grace: the grace notes before it.
        marks: how it is played: "accent", "staccato", "tenuto", "ghost", "fall", "scoop".
    """

    pitch: ReadPitch
    start: Fraction
    quarters: Fraction
    x: float
    sign: int | None = None
    bracketed: bool = False
    grace: tuple[ReadPitch, ...] = ()
    marks: frozenset[str] = frozenset()


@dataclass(slots=True)
class ReadBar:
    """A bar: its struck notes, how long all that is written in it lasts, and where each of that begins.

    `whole_rest` says that it holds nothing but a whole rest, which lasts as long as any bar. `symbols` are
    the chord symbols over it, `anchors` pairs of a place in quarters and the x of what stands there. `system`
    counts from 0. `frets` are the figures of tablature under it, `degrees` those of the degrees.
    """

    system: int
    notes: list[ReadNote] = field(default_factory=list)
    quarters: Fraction = Fraction(0)
    whole_rest: bool = False
    symbols: list[ReadSymbol] = field(default_factory=list)
    anchors: list[tuple[Fraction, float]] = field(default_factory=list)
    frets: list[ReadFret] = field(default_factory=list)
    degrees: list[ReadDegree] = field(default_factory=list)


@dataclass(slots=True)
class ReadScore:
    """A score as it is read.

    `signature` counts sharps, flats being negative; `slurs` arcs that are no ties, of which a slur has one in
    each system; `tempo` what stands over the first system. Each fault is a text with the index of the bar in
    which it lies.
    """

    bars: list[ReadBar] = field(default_factory=list)
    metre: tuple[int, int] | None = None
    signature: int = 0
    slurs: int = 0
    tempo: ReadTempo | None = None
    faults: list[tuple[int, str]] = field(default_factory=list)


def read_score(ink: Ink, lengths: Sequence[Fraction] = ()) -> ReadScore:
    """Return what a score says.

    Args:
        ink: the ink of the score alone.
        lengths: how long each bar is, in quarters; by default as the written metre says. They decide between
            the ratios that one number of a tuplet may stand for.

    Raises:
        UnreadableError: if there is no system, or one has no staff.
    """
    systems = systems_of(ink)
    if not systems:
        raise UnreadableError("no clef is drawn")
    return _Reader(systems, lengths).read()


class _Reader:
    """Reads systems in order; holds the open tie, the accidentals in force and the score read so far."""

    def __init__(self, systems: Sequence[System], lengths: Sequence[Fraction]) -> None:
        self._systems = systems
        self._lengths = lengths
        self._full = Fraction(4)
        self._score = ReadScore()
        self._signature: dict[int, int] = {}
        self._in_force: dict[int, int] = {}
        self._last: ReadNote | None = None
        self._tied = False

    def read(self) -> ReadScore:
        for number, system in enumerate(self._systems):
            written = written_system(system)
            mark_tuplets(system, written)
            give_marks(system, written)
            if not number:
                self._score.tempo = tempo_of(system)
            if written.metre is not None:
                self._score.metre = written.metre
                self._full = Fraction(4 * written.metre[0], max(1, written.metre[1]))
            self._read_signature(written, first=number == 0)
            self._system(number, system, written)
        if self._tied:
            self._fault("the last note is tied to nothing")
        return self._score

    def _fault(self, says: str) -> None:
        self._score.faults.append((max(0, len(self._score.bars) - 1), says))

    def _read_signature(self, written: WrittenSystem, *, first: bool) -> None:
        count = _signature_count(written.signature)
        if count is None or (not first and count != self._score.signature):
            self._fault("the key signature is none, or not that of the system before")
            return
        self._score.signature = count
        self._signature = {step % 7: alteration for step, alteration in written.signature}

    def _system(self, number: int, system: System, written: WrittenSystem) -> None:
        main = [note for note in written.notes if not note.small]
        ties = ties_of(system, written)
        self._score.slurs += len(system.arcs) - len(ties)
        outgoing = {tie.before for tie in ties if tie.before is not None}
        incoming = {tie.after for tie in ties if tie.after is not None}
        opening = Tie(None, 0) in ties
        if bool(main) and self._tied and not opening:
            self._fault("a tie ends with its system and does not go on in the next")
        self._tied = self._tied and opening
        first = len(self._score.bars)
        start = 0.0
        for end in written.bar_lines:
            inside = [note for note in written.notes if start <= note.x < end]
            self._bar(number, inside, main, outgoing, incoming)
            start = end
        self._place_symbols(first, written, symbols_of(system))
        for fret in frets_of(system):
            self._bar_at(first, written, fret.x).frets.append(fret)
        for degree in degrees_of(system):
            self._bar_at(first, written, degree.x).degrees.append(degree)
        for fault in written.faults:
            bar = sum(1 for end in written.bar_lines if end < fault.x)
            self._score.faults.append((first + min(bar, max(0, len(written.bar_lines) - 1)), fault.says))
        left_over = [note for note in main if not written.bar_lines or note.x > written.bar_lines[-1]]
        if left_over:
            self._fault("notes stand after the last bar line")

    def _bar_at(self, first: int, written: WrittenSystem, x: float) -> ReadBar:
        """Return the bar of a system in which something under its staff stands."""
        place = sum(1 for end in written.bar_lines if end <= x)
        return self._score.bars[min(first + place, len(self._score.bars) - 1)]

    def _place_symbols(self, first: int, written: WrittenSystem, symbols: Sequence[ReadSymbol]) -> None:
        bars = self._score.bars[first:]
        for symbol in symbols:
            place = sum(1 for end in written.bar_lines if end <= symbol.x + 0.4)
            if bars:
                bars[min(place, len(bars) - 1)].symbols.append(symbol)

    def _bar(
        self,
        number: int,
        inside: Sequence[Written],
        main: Sequence[Written],
        outgoing: set[int],
        incoming: set[int],
    ) -> None:
        bar = ReadBar(number)
        self._score.bars.append(bar)
        self._in_force = {}
        main_here = [note for note in inside if not note.small]
        if len(main_here) == 1 and main_here[0].step is None and main_here[0].part == 1:
            bar.whole_rest, bar.quarters = True, self._lasts()
            self._last = None
            return
        indexes = {id(note): index for index, note in enumerate(main)}
        grace: list[ReadPitch] = []
        place = Fraction(0)
        for note, length in _timed(inside, self._lasts()):
            if note.small:
                grace.append(self._pitch(note))
                continue
            index = indexes[id(note)]
            bar.anchors.append((place, note.x))
            if note.step is None:
                self._last = None
            else:
                self._note(bar, note, place, length, tuple(grace), tied=self._tied)
            grace = []
            self._tied = index in outgoing and note.step is not None
            place += length
        bar.quarters = place

    def _note(
        self,
        bar: ReadBar,
        note: Written,
        place: Fraction,
        length: Fraction,
        grace: tuple[ReadPitch, ...],
        *,
        tied: bool,
    ) -> None:
        last = self._last
        if tied and last is not None and last.pitch.step == note.step:
            if note.sign is not None and note.sign != last.pitch.alteration:
                self._fault("a tied note shows another accidental than the note before it")
            if (GHOST in last.marks) != (GHOST in note.marks):
                self._fault("some heads of a tied note stand in brackets and some do not")
            last.quarters += length
            last.marks |= note.marks
            return
        if tied:
            self._fault("a tie joins notes of two pitches")
        read = ReadNote(
            self._pitch(note), place, length, note.x, note.sign, note.bracketed, grace, note.marks
        )
        bar.notes.append(read)
        self._last = read

    def _pitch(self, note: Written) -> ReadPitch:
        """Return the pitch of a head by its sign, or by what is in force on its line or space."""
        step = note.step or 0
        if note.sign is not None:
            self._in_force[step] = note.sign
        return ReadPitch(step, self._in_force.get(step, self._signature.get(step % 7, 0)))

    def _lasts(self) -> Fraction:
        """Return how long the bar that is being read should be, in quarters."""
        index = len(self._score.bars) - 1
        return self._lengths[index] if index < len(self._lengths) else self._full


def _timed(inside: Sequence[Written], lasts: Fraction) -> Iterator[tuple[Written, Fraction]]:
    """Return the notes of a bar with their lengths in quarters.

    The number of a tuplet does not say in the time of how many its notes are played. It is the usual
    number; where the bar is not full then, the one that fills it.
    """
    usual = [(note, _quarters(note)) for note in inside]
    numbers = sorted({note.tuplet[0] for note in inside if note.tuplet is not None})
    if not numbers or _total(usual) == lasts:
        return iter(usual)
    for normals in product(*(_normals(number) for number in numbers[:2])):
        tried = dict(zip(numbers, normals, strict=False))
        timed = [(note, _quarters(note, tried)) for note in inside]
        if _total(timed) == lasts:
            return iter(timed)
    return iter(usual)


def _normals(number: int) -> list[int]:
    """Return in the time of how many notes so many may be played, the likeliest first.

    That is the power of two below the number; where the number is one itself, one and a half or three
    quarters of it, as in 6/8; then the others by how near they are. None is twice as quick or as slow.
    """
    power = number & (number - 1) == 0
    first = [3 * number // 2, 3 * number // 4] if power else [1 << (number.bit_length() - 1)]
    near = range(number // 2 + 1, 2 * number)
    others = sorted(near, key=lambda normal: abs(math.log(normal / number)))
    return list(dict.fromkeys(normal for normal in (*first, *others) if normal in near and normal != number))


def _total(lengths: Sequence[tuple[Written, Fraction]]) -> Fraction:
    return sum((length for note, length in lengths if not note.small), Fraction(0))


def _quarters(note: Written, normals: Mapping[int, int] = MappingProxyType({})) -> Fraction:
    if note.tuplet is None:
        return quarters_of(note.part, note.dots)
    actual, usual = note.tuplet
    return quarters_of(note.part, note.dots, actual, normals.get(actual, usual))


def _signature_count(signs: Sequence[tuple[int, int]]) -> int | None:
    """Return the number of sharps or flats of a key signature, or None if it is none."""
    letters = "".join(_LETTERS[step % 7] for step, _ in signs)
    kinds = {alteration for _, alteration in signs}
    if not signs:
        return 0
    if kinds == {1} and letters == "FCGDAEB"[: len(letters)]:
        return len(letters)
    if kinds == {-1} and letters == "BEADGCF"[: len(letters)]:
        return -len(letters)
    return None
