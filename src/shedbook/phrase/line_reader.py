"""Reads a line word by word: knows what still holds and what is open, and checks that each bar adds up."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from math import lcm
from typing import NoReturn

from shedbook.errors import NotationError, Place
from shedbook.phrase.line_words import BAR_LINE, BRACKETS, GRACE, NOTE, REST, TIE, VALUE, LineWord
from shedbook.phrase.model import Bar, Event, Value
from shedbook.phrase.value_text import MOST_DOTS, MOST_IN_TUPLET, PARTS, print_length
from shedbook.theory.interval import LETTER_SEMITONES
from shedbook.theory.metre import Metre, beat_words
from shedbook.theory.pitch import HIGHEST_MIDI, LOWEST_MIDI, Pitch

# Lengths are added in whole ticks. Every value that can be written is a whole number of them.
_TICKS_PER_QUARTER = PARTS[-1] * 2**MOST_DOTS * lcm(*range(1, MOST_IN_TUPLET + 1))


@lru_cache(maxsize=1024)
def _ticks(values: tuple[Value, ...]) -> int:
    """Return a length in ticks."""
    return int(sum(value.quarters for value in values) * _TICKS_PER_QUARTER)


@lru_cache(maxsize=1024)
def _pitch(letter: int, alteration: int, octave: int) -> Pitch:
    """Return the pitch of a letter, counted from 0 for C, in an octave."""
    return Pitch(letter + 7 * (octave + 1), LETTER_SEMITONES[letter] + alteration + 12 * (octave + 1))


@dataclass(slots=True)
class LineReader:
    """Holds what has been read of a line, and what still holds for the next word.

    Attributes:
        text: the whole line.
        metre: the metre of every bar.
        pickup: the length of the pick-up in quarters, 0 for none.
        start, end: the offsets of the word in hand, which the caller sets.
        number: the number of the bar in hand.
        bars: the bars that are complete.
        events: the events of the bar in hand.
        spans: their offsets in the text.
        ticks: their length.
        values: the value that holds.
        octave: the octave number that holds, None before the first.
        grace: the grace notes that wait for their note.
        tie: whether a "+" waits for its value.
        opens: how many opening brackets wait for their note.
        open_slurs: the offsets and the place of each slur that is open.
        bar_line_last: whether the last word was a bar line.
    """

    text: str
    metre: Metre
    pickup: Fraction
    start: int = 0
    end: int = 1
    number: int = 1
    bars: list[Bar] = field(default_factory=list)
    events: list[Event] = field(default_factory=list)
    spans: list[tuple[int, int]] = field(default_factory=list)
    ticks: int = 0
    values: tuple[Value, ...] = ()
    octave: int | None = None
    grace: list[Pitch] = field(default_factory=list)
    tie: bool = False
    opens: int = 0
    open_slurs: list[tuple[int, int, Place]] = field(default_factory=list)
    bar_line_last: bool = False

    def __post_init__(self) -> None:
        self.number = 0 if self.pickup else 1

    # Where things are

    def _beat(self, ticks: int) -> Fraction:
        """Return the beat at a distance from the bar line; a pick-up ends where bar 1 begins."""
        quarters = Fraction(ticks, _TICKS_PER_QUARTER)
        missing = self.metre.bar_quarters - self.pickup if self.number == 0 else 0
        return self.metre.beat_at(quarters + missing)

    def place(self, ticks: int | None = None) -> Place:
        """Return the bar and the beat of the next note, or of what lies `ticks` after the bar line."""
        return Place(bar=self.number, beat=beat_words(self._beat(self.ticks if ticks is None else ticks)))

    def _fail(self, message: str, hint: str = "") -> NoReturn:
        """Raise an error at the word in hand."""
        raise NotationError(message, hint=hint, start=self.start, end=self.end, place=self.place())

    # What the words mean

    def take(self, word: LineWord) -> None:
        """Read the next word.

        Raises:
            NotationError: if it cannot stand here.
        """
        kind = word.kind
        if self.tie and kind != VALUE:
            self._fail(
                'After "+" the length that is added is missing.', 'Write it after the "+": "| + 1/4 g f".'
            )
        self.opens += word.opens
        if kind == NOTE:
            self._take_note(word)
        elif kind == VALUE:
            self._take_value(word)
        elif kind == BAR_LINE:
            self._take_bar_line()
        elif kind == REST:
            self._take_rest(word)
        elif kind == TIE:
            self._take_tie(word)
        elif kind == GRACE:
            self.grace.append(self._read_pitch(word))
        elif kind == BRACKETS:
            self._take_brackets(word)
        self.bar_line_last = kind == BAR_LINE

    def _read_pitch(self, word: LineWord) -> Pitch:
        """Return the pitch of a note or grace note, whose octave number holds from now on."""
        octave = word.octave
        if octave is None:
            octave = self.octave
            if octave is None:
                name = self.text[self.start : self.end].strip("()").partition(".")[0]
                self._fail(
                    "The first note of a line needs its octave number.",
                    f'Write it after the note: "{name}4" or "{name}5"; c4 is middle C.',
                )
        self.octave = octave
        pitch = _pitch(word.letter, word.alteration, octave)
        if not LOWEST_MIDI <= pitch.midi <= HIGHEST_MIDI:
            self._fail(
                f"{pitch} lies outside the notes that can be written, A0 to C8.",
                "Check the octave number: c4 is middle C, and a number holds until the next one.",
            )
        return pitch

    def _add(self, pitch: Pitch | None, word: LineWord, *, tie_in: bool = False) -> None:
        """Add a note or rest with the value that holds."""
        if not self.values:
            self._fail(
                "The first note has no value.", 'Begin the line with a note value, such as "1/8" or "1/4".'
            )
        opens, self.opens = self.opens, 0
        if opens or word.closes:
            self._count_slurs(opens, word.closes)
        grace, self.grace = tuple(self.grace), []
        self.events.append(Event(pitch, self.values, tie_in, word.marks, grace, opens, word.closes))
        self.spans.append((self.start, self.end))
        self.ticks += _ticks(self.values)

    def _take_note(self, word: LineWord) -> None:
        """Read a note."""
        self._add(self._read_pitch(word), word)

    def _take_rest(self, word: LineWord) -> None:
        """Read a rest."""
        if self.grace:
            self._fail("A grace note stands right before a note, not before a rest.", "Move or remove it.")
        if self.opens or word.closes:
            self._fail("A slur begins and ends on a note, not on a rest.", "Move the bracket to a note.")
        self._add(None, word)

    def _take_value(self, word: LineWord) -> None:
        """Read a value; after "+" it lengthens the last note of the bar before."""
        self.values = word.values
        if self.tie:
            self.tie = False
            self._add(self.bars[-1].events[-1].pitch, word, tie_in=True)
        elif word.closes:
            self._fail("A slur ends on a note, not on a value.", 'Put the bracket after a note: "(c d)".')

    def _take_tie(self, word: LineWord) -> None:
        """Read "+" at the start of a bar."""
        if self.events or self.grace:
            self._fail(
                '"+" stands at the start of a bar.',
                'Inside a bar write the lengths together before the note: "1/8+1/4 g".',
            )
        if not self.bars:
            self._fail("There is no note before this for the tie to lengthen.", 'Remove the "+".')
        if self.bars[-1].events[-1].pitch is None:
            self._fail("The bar before ends with a rest, which cannot be tied.", 'Write a rest: "-".')
        self.tie = True
        if word.values:
            self._take_value(word)
        elif word.closes:
            self._fail("A slur ends on a note.", 'Put the bracket after the value: "+ 1/4)".')

    def _take_brackets(self, word: LineWord) -> None:
        """Read brackets that stand by themselves: opening ones wait for the next note."""
        if not word.closes:
            return
        if not self.events or self.events[-1].pitch is None:
            self._fail("A slur ends on a note.", 'Put the bracket right after a note: "(c d)".')
        self._count_slurs(0, word.closes)
        last = self.events[-1]
        self.events[-1] = Event(
            last.pitch, last.values, last.tie_in, last.marks, last.grace, last.slurs_open,
            last.slurs_close + word.closes,
        )  # fmt: skip

    def _count_slurs(self, opens: int, closes: int) -> None:
        """Close slurs that began on notes before, then open new ones."""
        if closes > len(self.open_slurs):
            self._fail(
                "A slur needs at least two notes." if opens else "No slur is open here.",
                'A slur begins with a bracket before its first note: "(c d e)".',
            )
        del self.open_slurs[len(self.open_slurs) - closes :]
        self.open_slurs.extend([(self.start, self.end, self.place())] * opens)

    # Bars

    def _take_bar_line(self) -> None:
        """Read a bar line; one at the very start of the line says nothing."""
        if not self.events and not self.bars and not self.text[: self.start].strip():
            return
        self._end_bar()

    def _end_bar(self) -> None:
        """Close the bar in hand, which must add up."""
        if self.grace:
            self._fail("A grace note stands right before its note.", "Write the note after it.")
        if not self.events:
            rest = print_length(self.metre.bar_quarters) or "1/4"
            self._fail(f"Bar {self.number} is empty.", f'Write its notes, or rests: "{rest} -".')
        self._check_length()
        self.bars.append(Bar(self.number, tuple(self.events)))
        self.number += 1
        self.events, self.spans, self.ticks = [], [], 0

    def _check_length(self) -> None:
        """Refuse a bar that is not as long as the metre says, or a pick-up other than the announced one."""
        due = self.metre.bar_quarters if self.number else self.pickup
        due_ticks = int(due * _TICKS_PER_QUARTER)
        if self.ticks == due_ticks:
            return
        beat = self.metre.beat_quarters
        length = Fraction(self.ticks, _TICKS_PER_QUARTER)
        place, (start, end) = self.place(), self.spans[-1]
        if length > due:
            at = 0
            for event, span in zip(self.events, self.spans, strict=True):
                if at + _ticks(event.values) > due_ticks:
                    place, (start, end) = self.place(at), span
                    break
                at += _ticks(event.values)
        name = f"Bar {self.number}" if self.number else "The pick-up"
        missing = self._missing_bar_line(due_ticks)
        should = (
            f"a bar of {self.metre} has {_amount(due / beat)}"
            if self.number
            else (f'"pickup" says {_amount(due / beat)}')
        )
        raise NotationError(
            f"{name} is {_beats(length / beat)} long; {should}.",
            hint=missing or self._length_hint(length - due),
            start=start,
            end=end,
            place=place,
        )

    def _missing_bar_line(self, due_ticks: int) -> str:
        """Return where a bar line is missing, where exactly two bars or more stand in one; else ""."""
        bars, over = divmod(self.ticks, due_ticks)
        if over or bars < 2 or not self.number:
            return ""
        at = 0
        for event, (start, end) in zip(self.events, self.spans, strict=True):
            if at == due_ticks:
                word = self.text[start:end]
                return f'It is as long as {bars} bars, and a bar line is missing: write "|" before "{word}".'
            at += _ticks(event.values)
        return ""

    def _length_hint(self, over: Fraction) -> str:
        """Return how to mend a bar that is `over` quarters too long, or too short where that is negative."""
        amount = _beats(abs(over) / self.metre.beat_quarters)
        if over > 0:
            said = f"It is {amount} too long: shorten a note, or check which value holds."
        else:
            said = f"{amount[0].upper()}{amount[1:]} {_are(amount)} missing: lengthen a note, or add a rest."
            value = print_length(self.metre.bar_quarters + over)
            if not self.bars and self.number and value:
                said += f' If this is a pick-up, say so in the phrase: pickup = "{value}".'
        loose = _unfinished_tuplet(self.events)
        return f"{said} {loose}" if loose else said

    def finish(self) -> tuple[Bar, ...]:
        """Close the last bar and return all bars.

        Raises:
            NotationError: if the line is empty, the last bar is not full, or something is still open.
        """
        if self.tie:
            self._fail('After "+" the length that is added is missing.', 'Write it after the "+": "+ 1/4".')
        if not self.events and not self.bars:
            self._fail("The line has no notes.", 'Write at least one bar, such as "1/4 c5 d e f".')
        if self.opens:
            self._fail("A note is missing after the bracket.", "Write the note, or remove the bracket.")
        if self.events or self.grace or not self.bar_line_last:
            self._end_bar()
        if self.open_slurs:
            start, end, place = self.open_slurs[-1]
            raise NotationError(
                "A slur that begins here never ends.",
                hint='Put ")" after its last note: "(c d e)".',
                start=start,
                end=end,
                place=place,
            )
        return tuple(self.bars)


def _amount(beats: Fraction) -> str:
    """Return a number of beats as people write it: "4", "3½", "½"."""
    words = beat_words(beats)
    return words[1:].strip() if words.startswith("0") and len(words) > 1 else words


def _beats(beats: Fraction) -> str:
    """Return "4 beats", "1 beat", "½ beat"."""
    return f"{_amount(beats)} {'beat' if beats <= 1 else 'beats'}"


def _are(amount: str) -> str:
    return "is" if amount.endswith("beat") else "are"


def _unfinished_tuplet(events: list[Event]) -> str:
    """Return a sentence about the first group of tuplet values that is not complete, or ""."""
    run, length, count = (1, 1), Fraction(0), 0
    for value in [*(value for event in events for value in event.values), Value(4)]:
        if (value.actual, value.normal) != run:
            if length.denominator & (length.denominator - 1):
                noun = "value" if count == 1 else "values"
                return f"A group of {run[0]} in the time of {run[1]} is left unfinished after {count} {noun}."
            run, length, count = (value.actual, value.normal), Fraction(0), 0
        length += value.quarters
        count += 1
    return ""
