"""The arrangement: what is played in which order, and the score that comes of it.

`arrange` takes a phrase in one key, or in several one after the other, and an order for a track.

Conventions: a phrase shorter than four bars is followed by as many empty bars before it comes again: the
band stays on the last chord and turns back to the first in the last of them. Between two keys there is one
bar that sets up the next chord. After the last round there is one more bar, the ending.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from shedbook.analysis.account import account, quarters_a_minute
from shedbook.errors import UnknownNameError, nearest
from shedbook.phrase.model import Phrase
from shedbook.sound.bass import bass
from shedbook.sound.chart import ANSWER, ENDING, ROUND, SET_UP, SPACE, Chart, LineNote, Passage, Stretch
from shedbook.sound.comping import comping
from shedbook.sound.drums import brushes_wanted, click, count_in, drums
from shedbook.sound.line import line
from shedbook.sound.parts import BASS, COMPING, COUNT, DRUMS, LINE, KeyAt, Part, PartNote, Score, Sign
from shedbook.sound.seeds import seeded
from shedbook.sound.set_up import last_chord, set_up
from shedbook.sound.tables import arrangements as table
from shedbook.sound.tables.arrangements import InstrumentRow
from shedbook.sound.tables.drums import BRUSH_KIT, STANDARD_KIT

PARTS = ("line", "trio", "both")
_LEFT, _MIDDLE, _RIGHT = 0, 64, 127


@dataclass(frozen=True, slots=True)
class Order:
    """What a track shall be.

    `parts` is "line", "trio" or "both"; `click` goes with "line". `rounds` counts how often the phrase is
    played in each key. `tempo_bpm` (taps a minute) and `feel` take the place of the phrase's own. `count_in`
    is a number of bars, None for what fits the tempo. With `answers` every second round is left to
    the reader. A `loop` has neither count-in nor ending and joins its own beginning. `ending` is
    "hit", "held" or "" for what fits the feel. `wide` puts the bass left and the piano right.
    `brushes` says whether the sound font has a kit of them.
    """

    parts: str = "both"
    click: bool = False
    rounds: int = 1
    tempo_bpm: int | None = None
    feel: str = ""
    count_in: int | None = None
    answers: bool = False
    loop: bool = False
    ending: str = ""
    seed: int = 0
    line_instrument: str = table.LINE_INSTRUMENT
    comping_instrument: str = table.COMPING_INSTRUMENT
    bass_style: str = ""
    wide: bool = False
    brushes: bool = True


@dataclass(frozen=True, slots=True)
class Laid:
    """A passage with the phrase that it belongs to; `plays` says that the line plays."""

    passage: Passage
    phrase: Phrase
    plays: bool


def arrange(phrases: Phrase | Sequence[Phrase], order: Order) -> Score:
    """Return the score of a track.

    Args:
        phrases: the phrase, or the same phrase in one key after another.
        order: what the track shall be.

    Raises:
        UnknownNameError: if the order names parts or an instrument that do not exist.
        ValueError: if there is no phrase, or no round.
    """
    keys = (phrases,) if isinstance(phrases, Phrase) else tuple(phrases)
    if not keys or order.rounds < 1:
        raise ValueError("a track needs a phrase and at least one round")
    if order.parts not in PARTS:
        raise UnknownNameError(
            f'"{order.parts}" is not a choice of parts.', hint='Write "line", "trio" or "both".'
        )
    first = keys[0]
    feel = order.feel or first.feel
    timed = first if order.tempo_bpm is None else replace(first, tempo_bpm=order.tempo_bpm)
    tempo_qpm = Fraction(quarters_a_minute(timed))
    counted = _count_in_bars(order, timed.tempo_bpm)
    laid = _lay_out(keys, order, counted * first.metre.bar_quarters, feel)
    chart = Chart(first.metre, feel, tempo_qpm, tuple(one.passage for one in laid), order.loop)
    quarters = chart.end_of(chart.passages[-1])
    return Score(
        title=first.title,
        parts=_parts(chart, laid, order, counted, quarters),
        quarters=quarters,
        tempo_qpm=tempo_qpm,
        metre=first.metre,
        feel=feel,
        keys=_keys(laid),
        signs=_signs(laid, counted, len(keys) > 1),
    )


def _count_in_bars(order: Order, tempo_bpm: int) -> int:
    if order.loop:
        return 0
    if order.count_in is not None:
        return max(0, order.count_in)
    return 2 if tempo_bpm >= table.TWO_BAR_COUNT_FROM else 1


# The passages.


def _lay_out(keys: Sequence[Phrase], order: Order, start: Fraction, feel: str) -> list[Laid]:
    """Return every passage of a track in order."""
    found: list[Laid] = []
    at = start

    def add(kind: str, phrase: Phrase, bars: int, stretches: tuple[Stretch, ...], **more: object) -> None:
        nonlocal at
        plays = kind == ROUND and order.parts != "trio"
        heard = _heard(phrase, at) if plays else ()
        held = bool(more.get("held", False))
        found.append(Laid(Passage(kind, len(found), at, bars, stretches, heard, held), phrase, plays))
        at += bars * phrase.metre.bar_quarters

    for index, phrase in enumerate(keys):
        following = keys[index + 1] if index + 1 < len(keys) else keys[0] if order.loop else None
        for round_ in range(order.rounds):
            kind = ANSWER if order.answers and round_ % 2 else ROUND
            add(kind, phrase, phrase.full_bars, _stretches(phrase, at))
            again = round_ + 1 < order.rounds or following is phrase
            if again and phrase.full_bars < table.SHORT_PHRASE_BARS and not order.answers:
                add(SPACE, phrase, phrase.full_bars, _space(phrase, at))
        if following is not None and following is not phrase:
            staying = _stretches(phrase, at)[-1]
            add(
                SET_UP,
                following,
                1,
                set_up(at, phrase.metre, following.changes[0].chord, following.key, staying),
            )
    if not order.loop and order.parts != "line":
        last = keys[-1]
        end = at + last.metre.bar_quarters
        chord = last_chord(last, _stretches(last, at))
        add(ENDING, last, 1, (replace(chord, start=at, end=end),), held=_held(order, feel))
    return found


def _held(order: Order, feel: str) -> bool:
    if order.ending:
        return order.ending == "held"
    return feel in table.HELD_ENDINGS or seeded(order.seed, "ending").random() < 0.5


@lru_cache(maxsize=256)
def _read(phrase: Phrase) -> tuple[tuple[Stretch, ...], tuple[LineNote, ...]]:
    """Return chords and line of a phrase from its bar 1, with the scales that the line is heard in."""
    read = account(phrase)
    starts = [phrase.change_start(change) for change in phrase.changes]
    ends = [*starts[1:], phrase.full_bars * phrase.metre.bar_quarters]
    stretches = tuple(
        Stretch(start, end, change.chord, fit.scale)
        for start, end, change, fit in zip(starts, ends, phrase.changes, read.fits, strict=True)
    )
    notes = tuple(
        LineNote(note.start, note.start + note.quarters, note.midi, note.arrival, note.early, note.landing)
        for note in read.notes
    )
    return stretches, notes


def _stretches(phrase: Phrase, at: Fraction) -> tuple[Stretch, ...]:
    """Return the chords of a phrase from a place of the track on."""
    return tuple(replace(one, start=one.start + at, end=one.end + at) for one in _read(phrase)[0])


def _heard(phrase: Phrase, at: Fraction) -> tuple[LineNote, ...]:
    """Return the line as the band hears it, from a place of the track on."""
    return tuple(
        replace(note, start=note.start + at, end=note.end + at, arrival=note.arrival + at)
        for note in _read(phrase)[1]
    )


def _space(phrase: Phrase, at: Fraction) -> tuple[Stretch, ...]:
    """Return as many bars as the phrase has: its last chord, and in the last bar the way back to the first.

    A phrase over one chord, or one that leads back by itself, simply goes on.
    """
    own = _stretches(phrase, at)
    last, first = own[-1], own[0]
    if last.chord.root == first.chord.root:
        return tuple(own)
    turn = at + (phrase.full_bars - 1) * phrase.metre.bar_quarters
    back = set_up(turn, phrase.metre, first.chord, phrase.key, last)
    if turn == at:
        return back
    return (Stretch(at, turn, last.chord, last.scale), *back)


# The parts.


def _parts(
    chart: Chart, laid: Sequence[Laid], order: Order, counted: int, quarters: Fraction
) -> tuple[Part, ...]:
    found: list[Part] = []
    start = counted * chart.metre.bar_quarters
    count = count_in(chart.metre, counted)
    if order.parts != "trio":
        row = instrument(order.line_instrument)
        found.append(Part(LINE, row.name, row.program, 0, _line(chart, laid, quarters)))
    if order.parts == "line":
        beats = click(chart.metre, start, quarters) if order.click else ()
        if count or beats:
            found.append(Part(DRUMS, COUNT, STANDARD_KIT, 9, (*count, *beats)))
        return tuple(found)
    left, right = (_LEFT, _RIGHT) if order.wide else (_MIDDLE, _MIDDLE)
    low, comp = instrument(table.BASS_INSTRUMENT), instrument(order.comping_instrument)
    strokes = (*count, *drums(chart, seed=order.seed, brushes=order.brushes))
    kit = BRUSH_KIT if order.brushes and brushes_wanted(chart.feel) else STANDARD_KIT
    line_of_bass = bass(chart, seed=order.seed, style=order.bass_style)
    found += [
        Part(BASS, low.name, low.program, 1, line_of_bass, left),
        Part(COMPING, comp.name, comp.program, 2, comping(chart, seed=order.seed), right),
        Part(DRUMS, "drums", kit, 9, strokes),
    ]
    return tuple(found)


def instrument(name: str) -> InstrumentRow:
    """Return the row of an instrument.

    Raises:
        UnknownNameError: if there is none of this name; the hint lists the nearest.
    """
    found = next((row for row in table.INSTRUMENTS if row.name == name.lower()), None)
    if found is None:
        names = [row.name for row in table.INSTRUMENTS]
        raise UnknownNameError(
            f'"{name}" is not an instrument in the table.',
            hint=nearest(name, names) or f"Known are {', '.join(names)}.",
        )
    return found


def _line(chart: Chart, laid: Sequence[Laid], quarters: Fraction) -> tuple[PartNote, ...]:
    """Return the line of a whole track; a pick-up goes before its round, in a loop's first to the end."""
    found: list[PartNote] = []
    for one in laid:
        if not one.plays:
            continue
        for note in line(one.phrase, chart.tempo_qpm):
            start = note.start + one.passage.start
            if start < 0 and not chart.loop:
                continue
            found.append(replace(note, start=start if start >= 0 else start + quarters))
    return tuple(sorted(found, key=lambda note: (note.start, note.midi)))


# What stands over the score.


def _keys(laid: Sequence[Laid]) -> tuple[KeyAt, ...]:
    found: list[KeyAt] = []
    for one in laid:
        if not found or found[-1].key != one.phrase.key:
            found.append(KeyAt(one.passage.start if found else Fraction(0), one.phrase.key))
    return tuple(found)


def _signs(laid: Sequence[Laid], counted: int, keyed: bool) -> tuple[Sign, ...]:
    """Return the names of the passages and the chord symbols, in order."""
    found = [Sign(Fraction(0), "count-in")] if counted else []
    for one in laid:
        passage = one.passage
        name = f"{one.phrase.key}: {passage.kind}" if keyed else passage.kind
        found.append(Sign(passage.start, name))
        before = ""
        for stretch in passage.stretches:
            if stretch.chord.text != before:
                found.append(Sign(stretch.start, stretch.chord.text))
            before = stretch.chord.text
    return tuple(found)
