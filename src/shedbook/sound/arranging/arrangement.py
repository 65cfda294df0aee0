"""The arrangement: what is played in which order, and the score that comes of it.

`arrange` takes a phrase in one key, or in several one after the other, and an order for a track.

Conventions: a phrase shorter than four bars is followed by as many empty bars before it comes again: the
band stays on the last chord and turns back to the first in the last of them. Between two keys there is one
bar that sets up the next chord. After the last round there is one more bar, the ending.
A pick-up sounds over the end of what goes before. Where the line itself is still busy there, it is played
before the first round only.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import ceil

from shedbook.analysis.account import account, quarters_a_minute
from shedbook.errors import UnknownNameError
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.band_instruments import band_instrument
from shedbook.sound.arranging.leading_chords import last_chord, set_up
from shedbook.sound.arranging.tables import arrangements as table
from shedbook.sound.arranging.tables.band_instruments import (
    LINE_INSTRUMENT,
)
from shedbook.sound.feels.feel import Feel
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.players.band_chart import (
    ANSWER,
    ENDING,
    ROUND,
    SET_UP,
    SPACE,
    Chart,
    LineNote,
    Passage,
    Stretch,
)
from shedbook.sound.players.bass import bass
from shedbook.sound.players.comping import comping
from shedbook.sound.players.drums import accents_of, click, count_in, drums
from shedbook.sound.players.energy import Arc, arc_of
from shedbook.sound.players.line import line
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.written_score import (
    BASS,
    COMPING,
    COUNT,
    COUNT_IN,
    DRUMS,
    LINE,
    KeyAt,
    Part,
    PartNote,
    Score,
    Sign,
)
from shedbook.sound.tables.drum_keys import BRUSH_KIT, STANDARD_KIT

PARTS = ("line", "trio", "both")
_LEFT, _MIDDLE, _RIGHT = 0, 64, 127


@dataclass(frozen=True, slots=True)
class Order:
    """What a track shall be.

    `parts` is "line", "trio" or "both"; `click` goes with "line". `rounds` counts how often the phrase is
    played in each key. `tempo_bpm` (taps a minute) and `feel` take the place of the phrase's own. `count_in`
    is a number of bars, None for what fits the tempo; a pick-up is counted in whatever it says. With
    `answers` every second round is left to the reader. A `loop` has neither count-in nor ending and joins
    its own beginning. `ending` is "hit", "held" or "" for what fits the feel. `wide` puts the bass left and
    the piano right.
    `comping_instrument` and `bass_instrument` are "" for those of the feel. `bass_feel` and `drum_feel`
    name another feel whose bass and drums are played, "" for none. `brushes` says whether the SoundFont has
    a kit of them.
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
    line_instrument: str = LINE_INSTRUMENT
    comping_instrument: str = ""
    bass_instrument: str = ""
    bass_feel: str = ""
    drum_feel: str = ""
    click_kind: str = "beats"
    wide: bool = False
    brushes: bool = True


@dataclass(frozen=True, slots=True)
class LaidPassage:
    """A passage with the phrase that it belongs to, and what the line plays in it.

    `notes` are placed in the track; those of a pick-up come before the passage, in a loop's first before
    the track.
    """

    passage: Passage
    phrase: Phrase
    notes: tuple[PartNote, ...] = ()


def arrange(phrases: Phrase | Sequence[Phrase], order: Order) -> Score:
    """Return the score of a track.

    Args:
        phrases: the phrase, or the same phrase in one key after another.
        order: what the track shall be.

    Raises:
        UnknownNameError: if the order names parts, a feel or an instrument that do not exist.
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
    feel = feel_named(order.feel or first.feel)
    timed = first if order.tempo_bpm is None else replace(first, tempo_bpm=order.tempo_bpm)
    tempo_qpm = Fraction(quarters_a_minute(timed))
    counted = _count_in_bars(order, timed)
    name = f"{first.id or first.title}, {first.key}"
    laid = _lay_out(keys, order, counted * first.metre.bar_quarters, _held(order, feel, name))
    if order.parts != "trio":
        laid = _with_line(laid, order, tempo_qpm)
    chart = Chart(first.metre, feel, tempo_qpm, tuple(one.passage for one in laid), order.loop, name)
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
        name=name,
    )


def _count_in_bars(order: Order, phrase: Phrase) -> int:
    """Return how many bars are counted in: as asked, but as much as the pick-up needs."""
    if order.loop:
        return 0
    asked = order.count_in
    if asked is None:
        asked = 2 if phrase.tempo_bpm >= table.TWO_BAR_COUNT_FROM else 1
    return max(0, asked, ceil(-phrase.bar_start(phrase.bars[0].number) / phrase.metre.bar_quarters))


# The passages.


def _lay_out(keys: Sequence[Phrase], order: Order, start: Fraction, held: bool) -> list[LaidPassage]:
    """Return every passage of a track in order, the line still to come; `held` is for the ending."""
    found: list[LaidPassage] = []
    at = start

    def add(kind: str, phrase: Phrase, bars: int, stretches: tuple[Stretch, ...]) -> None:
        nonlocal at
        rings = held and kind == ENDING
        found.append(LaidPassage(Passage(kind, len(found), at, bars, stretches, held=rings), phrase))
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
        add(ENDING, last, 1, (replace(chord, start=at, end=end),))
    return found


def _held(order: Order, feel: Feel, name: str) -> bool:
    if order.ending:
        return order.ending == "held"
    return seeded(order.seed, "ending", name).random() * 100 < feel.ending.held_percent


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


def _as_the_band_hears(phrase: Phrase, at: Fraction) -> tuple[LineNote, ...]:
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


# The line.


def _with_line(laid: Sequence[LaidPassage], order: Order, tempo_qpm: Fraction) -> list[LaidPassage]:
    """Return the passages with what the line plays in them, and what the band hears of it."""
    found = [
        replace(
            one,
            notes=_from(line(one.phrase, tempo_qpm), one.passage.start),
            passage=replace(one.passage, line=_as_the_band_hears(one.phrase, one.passage.start)),
        )
        if one.passage.kind == ROUND
        else one
        for one in laid
    ]
    end = found[-1].passage.start + found[-1].passage.bars * found[-1].phrase.metre.bar_quarters
    for index, one in enumerate(found):
        up = [note for note in one.passage.line if note.start < one.passage.start]
        if not up or (index == 0 and not order.loop):
            continue
        # A loop's first round comes after its last passage, which may be itself.
        before, at = found[index - 1], one.passage.start if index else end
        first = at + up[0].start - one.passage.start
        if _has_room(before.notes, first):
            found[index - 1] = _led_out_of(
                before, first, [_moved(note, at - one.passage.start) for note in up]
            )
        else:
            found[index] = _without_pick_up(one, tempo_qpm)
    return found


def _from(notes: Sequence[PartNote], at: Fraction) -> tuple[PartNote, ...]:
    """Return notes that are counted from a bar line, with that bar line at a place of the track."""
    return tuple(replace(note, start=note.start + at) for note in notes)


def _moved(note: LineNote, by: Fraction) -> LineNote:
    return replace(note, start=note.start + by, end=note.end + by, arrival=note.arrival + by)


def _has_room(notes: Sequence[PartNote], first: Fraction) -> bool:
    """Whether a pick-up that begins at a place leaves every note before it at least half its length."""
    return all(note.start < first and first - note.start >= note.quarters / 2 for note in notes)


def _led_out_of(one: LaidPassage, first: Fraction, coming: Sequence[LineNote]) -> LaidPassage:
    """Return a passage over whose end a pick-up begins: what still sounds there gives way.

    Every note of a pick-up is to the band a note that counts.
    """
    notes = tuple(replace(note, quarters=min(note.quarters, first - note.start)) for note in one.notes)
    heard = tuple(replace(note, loud=True) for note in coming)
    return replace(one, notes=notes, passage=replace(one.passage, coming=heard))


def _without_pick_up(one: LaidPassage, tempo_qpm: Fraction) -> LaidPassage:
    """Return a round that begins with bar 1, a note that was held into it included."""
    at = one.passage.start
    heard = tuple(
        replace(note, start=max(at, note.start), early=note.early and note.start >= at)
        for note in one.passage.line
        if note.end > at
    )
    notes = _from(line(one.phrase, tempo_qpm, pick_up=False), at)
    return replace(one, notes=notes, passage=replace(one.passage, line=heard))


# The parts.


def _parts(
    chart: Chart, laid: Sequence[LaidPassage], order: Order, counted: int, quarters: Fraction
) -> tuple[Part, ...]:
    found: list[Part] = []
    start = counted * chart.metre.bar_quarters
    count = count_in(chart.metre, counted)
    if order.parts != "trio":
        row = band_instrument(order.line_instrument)
        found.append(Part(LINE, row.name, row.program, 0, _line(laid, quarters, arc_of(chart))))
    if order.parts == "line":
        beats = click(chart.metre, start, quarters, order.click_kind) if order.click else ()
        if count or beats:
            found.append(Part(DRUMS, COUNT, STANDARD_KIT, 9, (*count, *beats)))
        return tuple(found)
    left, right = (_LEFT, _RIGHT) if order.wide else (_MIDDLE, _MIDDLE)
    bass_feel = feel_named(order.bass_feel) if order.bass_feel else None
    low = band_instrument(order.bass_instrument or (bass_feel or chart.feel).bass.instrument)
    comp = band_instrument(order.comping_instrument or chart.feel.comping.instrument)
    chords = comping(chart, seed=order.seed)
    own = (feel_named(order.drum_feel) if order.drum_feel else chart.feel).drums
    heard = accents_of(chart, chords)
    strokes = (*count, *drums(chart, own, seed=order.seed, brushes=order.brushes, accents=heard))
    kit = BRUSH_KIT if order.brushes and own.brushes else STANDARD_KIT
    line_of_bass = bass(chart, seed=order.seed, feel=bass_feel)
    found += [
        Part(BASS, low.name, low.program, 1, line_of_bass, left),
        Part(COMPING, comp.name, comp.program, 2, chords, right),
        Part(DRUMS, "drums", kit, 9, strokes),
    ]
    return tuple(found)


def _line(laid: Sequence[LaidPassage], quarters: Fraction, arc: Arc) -> tuple[PartNote, ...]:
    """Return the line of a whole track; what a loop's first round begins with stands at the loop's end."""
    found = [
        replace(
            note,
            start=note.start if note.start >= 0 else note.start + quarters,
            velocity=min(127, max(1, note.velocity + arc.louder(LINE, note.start))),
        )
        for one in laid
        for note in one.notes
    ]
    return tuple(sorted(found, key=lambda note: (note.start, note.midi)))


# What stands over the score.


def _keys(laid: Sequence[LaidPassage]) -> tuple[KeyAt, ...]:
    found: list[KeyAt] = []
    for one in laid:
        if not found or found[-1].key != one.phrase.key:
            found.append(KeyAt(one.passage.start if found else Fraction(0), one.phrase.key))
    return tuple(found)


def _signs(laid: Sequence[LaidPassage], counted: int, keyed: bool) -> tuple[Sign, ...]:
    """Return the names of the passages and the chord symbols, in order."""
    found = [Sign(Fraction(0), COUNT_IN)] if counted else []
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
