"""Hypothesis strategies for the model: pitches, values, events, bars, changes, phrases.

Everything made here is well-formed: bars add up, tuplet groups are whole, ties go on from the same
pitch, slurs have two ends. Chords and scales come from the tables of `theory`.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import strategies as st

from shedbook.phrase.model import MARKS, Bar, ChangeAt, Event, Phrase, Value
from shedbook.phrase.tables.feels import FEELS
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import MODES, Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName, Pitch, spellings
from shedbook.theory.scale import Scale
from shedbook.theory.tables.scales import SCALES

LOWEST_MIDI, HIGHEST_MIDI = 21, 108

_GRAIN = Fraction(1, 8)  # what is left of a bar is a whole number of thirty-seconds

_CHUNKS: tuple[tuple[Value, ...], ...] = (
    *((Value(part),) for part in (1, 2, 4, 8, 16, 32)),
    *((Value(part, 1),) for part in (1, 2, 4, 8, 16)),
    *((Value(part, 2),) for part in (2, 4, 8)),
    *((Value(part, 0, 3, 2),) * 3 for part in (4, 8, 16)),
    (Value(4, 0, 3, 2), Value(8, 0, 3, 2)),
    (Value(8, 1, 3, 2), Value(16, 0, 3, 2), Value(8, 0, 3, 2)),
    (Value(16, 0, 5, 4),) * 5,
    (Value(16, 0, 7, 4),) * 7,
    (Value(8, 0, 2, 3),) * 2,
    (Value(8, 0, 4, 3),) * 4,
)
_PLAIN_CHUNKS = tuple(chunk for chunk in _CHUNKS if len(chunk) == 1)

CHORD_KINDS = (
    "", "6", "maj7", "maj7#11", "maj7#5", "m7", "m6", "m(maj7)", "m7b5", "dim7", "7", "9", "13", "7b9",
    "13b9", "7alt", "7#5", "7#11", "7sus", "7#9b13",
)  # fmt: skip

metres = st.sampled_from(
    [Metre.parse(text) for text in ("4/4", "3/4", "6/8", "5/4", "2/2", "7/8", "12/8", "3/2")]
)
note_names = st.integers(-7, 7).map(NoteName)
pitches = st.sampled_from(
    [pitch for midi in range(LOWEST_MIDI, HIGHEST_MIDI + 1) for pitch in spellings(midi)]
)
plain_pitches = st.sampled_from(
    [pitch for midi in range(48, 85) for pitch in spellings(midi) if abs(pitch.alteration) <= 1]
)
keys = st.builds(Key, note_names, st.sampled_from(MODES))
scales = st.builds(Scale, note_names, st.sampled_from(SCALES))
chords = st.builds(
    lambda root, kind: parse_chord(f"{root}{kind}"),
    st.integers(-6, 6).map(NoteName),
    st.sampled_from(CHORD_KINDS),
)
marks = st.sets(st.sampled_from(MARKS), max_size=2).map(
    lambda chosen: tuple(mark for mark in MARKS if mark in chosen)
)
values = st.sampled_from(sorted({value for chunk in _CHUNKS for value in chunk}, key=repr))


def _quarters(chunk: tuple[Value, ...]) -> Fraction:
    return sum((value.quarters for value in chunk), Fraction(0))


@st.composite
def rhythms(draw: st.DrawFn, length: Fraction, *, tuplets: bool = True) -> tuple[tuple[Value, ...], ...]:
    """Draw the values of events that fill a length (in quarter notes); tied values stand together."""
    flat: list[Value] = []
    left = length
    while left:
        fitting = [
            chunk
            for chunk in (_CHUNKS if tuplets else _PLAIN_CHUNKS)
            if _quarters(chunk) <= left and (left - _quarters(chunk)) % _GRAIN == 0
        ]
        chunk = draw(st.sampled_from(fitting))
        flat.extend(chunk)
        left -= _quarters(chunk)
    found: list[tuple[Value, ...]] = []
    for value in flat:
        if found and draw(st.integers(0, 5)) == 0:
            found[-1] += (value,)
        else:
            found.append((value,))
    return tuple(found)


@st.composite
def bars(
    draw: st.DrawFn,
    metre: Metre = Metre(),  # noqa: B008 (a frozen value)
    *,
    pickup: Fraction = Fraction(0),
    most: int = 4,
    pitch: st.SearchStrategy[Pitch] = pitches,
    tuplets: bool = True,
    ornaments: bool = True,
) -> tuple[Bar, ...]:
    """Draw 1 to `most` bars, after a pick-up where one is asked for."""
    numbers = range(0 if pickup else 1, draw(st.integers(1, most)) + 1)
    found: list[Bar] = []
    last: Event | None = None
    for number in numbers:
        events: list[Event] = []
        for tied in draw(rhythms(metre.bar_quarters if number else pickup, tuplets=tuplets)):
            events.append(_event(draw, tied, last if not events else None, pitch, ornaments))
        last = events[-1]
        found.append(Bar(number, tuple(events)))
    return _slurred(draw, tuple(found)) if ornaments else tuple(found)


def _event(
    draw: st.DrawFn,
    tied: tuple[Value, ...],
    before: Event | None,
    pitch: st.SearchStrategy[Pitch],
    ornaments: bool,
) -> Event:
    """Draw one event; `before` is the one at the end of the bar before, for a bar's first event."""
    kind = draw(st.integers(0, 9))
    if kind == 0:
        return Event(None, tied)
    if before is not None and before.pitch is not None and kind < 5:
        return Event(before.pitch, tied, tie_in=True)
    grace = draw(st.lists(pitch, max_size=2)) if ornaments and kind == 9 else []
    return Event(draw(pitch), tied, marks=draw(marks) if ornaments else (), grace=tuple(grace))


def _slurred(draw: st.DrawFn, whole: tuple[Bar, ...]) -> tuple[Bar, ...]:
    """Draw slurs between any two notes."""
    notes = [
        (at, index)
        for at, bar in enumerate(whole)
        for index, event in enumerate(bar.events)
        if event.pitch is not None
    ]
    if len(notes) < 2:
        return whole
    ends = st.tuples(st.integers(0, len(notes) - 1), st.integers(0, len(notes) - 1))
    events = [list(bar.events) for bar in whole]
    for one, other in draw(st.lists(ends.filter(lambda pair: pair[0] != pair[1]), max_size=2)):
        (bar, at), (end_bar, end_at) = notes[min(one, other)], notes[max(one, other)]
        events[bar][at] = replace(events[bar][at], slurs_open=events[bar][at].slurs_open + 1)
        event = events[end_bar][end_at]
        events[end_bar][end_at] = replace(event, slurs_close=event.slurs_close + 1)
    return tuple(Bar(bar.number, tuple(row)) for bar, row in zip(whole, events, strict=True))


@st.composite
def changes(draw: st.DrawFn, metre: Metre, count: int) -> tuple[ChangeAt, ...]:
    """Draw the changes of `count` bars: one to three chords a bar, the first bar's on beat 1."""
    found: list[ChangeAt] = []
    halves = [Fraction(half, 2) for half in range(2, 2 * metre.beats + 2)]
    for number in range(1, count + 1):
        starts = draw(st.sets(st.sampled_from(halves), min_size=1, max_size=3))
        if number == 1:
            starts |= {Fraction(1)}
        found.extend(ChangeAt(number, beat, draw(chords)) for beat in sorted(starts))
    return tuple(found)


@st.composite
def phrases(
    draw: st.DrawFn,
    *,
    metre: st.SearchStrategy[Metre] = metres,
    pitch: st.SearchStrategy[Pitch] = plain_pitches,
    most_bars: int = 4,
    tuplets: bool = True,
    ornaments: bool = True,
) -> Phrase:
    """Draw a whole phrase."""
    chosen = draw(metre)
    pickup = draw(st.sampled_from([Fraction(0), Fraction(0), Fraction(1, 2), Fraction(1)]))
    music = draw(
        bars(chosen, pickup=pickup, most=most_bars, pitch=pitch, tuplets=tuplets, ornaments=ornaments)
    )
    over = draw(changes(chosen, music[-1].number))
    return Phrase(
        title=draw(st.sampled_from(["Low tide", "Second ferry", "Brass lamp", "Über die Brücke"])),
        key=draw(keys),
        metre=chosen,
        bars=music,
        changes=over,
        scales=tuple(draw(st.none() | scales) for _ in over),
        tempo_bpm=draw(st.integers(40, 320)),
        feel=draw(st.sampled_from([row.name for row in FEELS])),
        commentary=draw(st.sampled_from(["", "What to listen for.", "Two lines\nof it."])),
        id=draw(st.sampled_from(["", "low-tide"])),
    )


intervals = st.builds(lambda low, high: high - low, plain_pitches, plain_pitches)
"""Intervals between pitches with at most one accidental each."""
