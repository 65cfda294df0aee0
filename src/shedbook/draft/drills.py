"""Drills: a scale or the chords of a progression through one pattern, as a phrase that a book can print.

A drill goes up and comes down by the mirrored pattern, breathes at the latest after `LONGEST_BREATH` notes,
at the end of a cell and on a beat, turns on the highest cell that its range holds, and ends on its root.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from shedbook.draft.drill_names import DrillName
from shedbook.draft.ground import TICKS, Ground, ground_of
from shedbook.draft.rhythms import Rhythm
from shedbook.draft.tables.drill_patterns import PatternRow
from shedbook.draft.writing import bars_of
from shedbook.editions.spelling.note_spelling import respell
from shedbook.editions.transpose import transpose
from shedbook.errors import NotationError
from shedbook.phrase.model import Bar, Phrase
from shedbook.theory.chord_scales import serves
from shedbook.theory.interval import Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale, scale_row

LONGEST_BREATH = 32
"""Notes in a row without a breath: four bars of eighths, which one breath carries [common practice]."""
MOST_BARS = 16
"""A drill is a phrase, which has at most so many bars."""
USUAL_BARS = 8
"""In a book a drill has at most so many bars where that can be, so that its twelve keys fill two pages."""
LOW, HIGH = 55, 84
"""The range without an instrument: G3 to C6 in concert pitch."""

_C = NoteName(0)


@dataclass(frozen=True, slots=True)
class DrillOrder:
    """How a drill is written: its root, its range in MIDI numbers, its tempo and its feel.

    `whole` is for the whole of the range; otherwise a long pattern goes over one octave, to stay short.
    """

    root: NoteName = _C
    low: int = LOW
    high: int = HIGH
    tempo: int = 100
    feel: str = "swing"
    whole: bool = False


_USUAL = DrillOrder()


def drill(name: DrillName, order: DrillOrder = _USUAL) -> Phrase:
    """Return a drill as a phrase in concert pitch.

    Raises:
        NotationError: if the range is too narrow for it.
    """
    if name.progression:
        return _through(name, order)
    scale = Scale(order.root, scale_row(name.scale))
    ladder, base = _ladder(scale, order)
    size = len(scale.pitch_classes)
    most = len(ladder) // size + 1 if order.whole else name.pattern.octaves
    found: Phrase | None = None
    for octaves in range(max(1, most), 0, -1):
        ways = _ways(name.pattern, ladder, base, min(len(ladder) - 1, base + octaves * size), size)
        found = _written(ways, name.pattern, _chord_of(scale), scale, order)
        if found is not None and (order.whole or found.full_bars <= USUAL_BARS):
            return found
    if found is None:
        raise NotationError(f"The drill has more than {MOST_BARS} bars.", hint="Name a narrower range.")
    return found


def _chord_of(scale: Scale) -> str:
    """Return the symbol of a chord on the root that the scale goes with, by the table of chord scales."""
    found = [one.chord for one in serves(scale.row) if one.place == 1] or [
        one.chord for one in serves(scale.row)
    ]
    plain = next((chord for chord in _PLAIN_CHORDS if chord in found), found[0] if found else "Cmaj7")
    return f"{scale.root}{plain[1:]}"


_PLAIN_CHORDS = (
    "Cmaj7",
    "Cm7",
    "C7",
    "Cm7b5",
    "Cdim7",
    "C7alt",
    "C7b9",
    "Cm6",
    "CmMaj7",
    "Cmaj7#11",
    "C7sus4",
)
"""The chords that a drill would rather stand over, if its scale goes with one of them [common practice]."""


def _ladder(scale: Scale, order: DrillOrder) -> tuple[list[int], int]:
    """Return the notes of the scale in the range in order, and the place of the lowest root.

    They begin on the root, and with the lowest note of all where the whole range is asked for.

    Raises:
        NotationError: if that is less than an octave.
    """
    start = order.low + (scale.root.pitch_class - order.low) % 12
    first = order.low if order.whole else start
    notes = [midi for midi in range(first, order.high + 1) if midi % 12 in scale.pitch_classes]
    size = len(scale.pitch_classes)
    if start not in notes or len(notes) - notes.index(start) <= size:
        raise NotationError(
            "The range is less than an octave above the root.",
            hint="Name a lower lowest or a higher highest note, or another root.",
        )
    return notes, notes.index(start)


Notes = list[tuple[int, bool]]
"""Notes of one way of a drill: MIDI numbers, and whether a cell ends with them."""


@dataclass(frozen=True, slots=True)
class _Way:
    """One way of a drill, up or down, and the note on which it lands."""

    notes: Notes
    lands: int


def _ways(pattern: PatternRow, ladder: Sequence[int], base: int, top: int, size: int) -> list[_Way]:
    """Return the way up from the root, and the way down.

    The way up lands on its highest note, or on the root if that is the next above; the way down goes below
    the root where the ladder does, and back to it.
    """
    step = _period(ladder[base:], size) if pattern.kind == "symmetric" else 1
    if pattern.kind in ("enclosed", "from below"):
        up = [note for at in range(base, top + 1) for note in _led_to(pattern.kind, ladder, at)]
        down = [note for at in range(top, base - 1, -1) for note in _led_to(pattern.kind, ladder, at)]
        return [_Way(up, ladder[top]), _Way(down, ladder[base])]
    span = max(pattern.cell)
    tops = [at for at in range(base, top + 1, step) if at + span <= top]
    if not tops:
        raise NotationError("The range is too narrow for this pattern.", hint="Name a wider range.")
    up_cells = [[ladder[at + one] for one in pattern.cell] for at in tops]
    peak = tops[-1] + span
    peak += 1 if peak + 1 < len(ladder) and (peak + 1 - base) % size == 0 else 0
    starts = [at for at in range(peak, -1, -step) if at - span >= 0]
    down_cells = [[ladder[at - one] for one in pattern.cell] for at in starts]
    back = [(ladder[at], True) for at in range(starts[-1] - span + 1, base)]
    return [_Way(_flat(up_cells), ladder[peak]), _Way([*_flat(down_cells), *back], ladder[base])]


def _flat(cells: Sequence[Sequence[int]]) -> Notes:
    return [(note, at == len(cell) - 1) for cell in cells for at, note in enumerate(cell)]


def _period(ladder: Sequence[int], size: int) -> int:
    """Return after how many notes the steps of a scale begin again: 2 for half-whole, 1 for whole tone.

    Raises:
        NotationError: for a scale that is not symmetric.
    """
    steps = [after - before for before, after in pairwise(ladder[: size + 1])]
    found = next((at for at in range(1, size) if steps == steps[at:] + steps[:at]), 0)
    if not found:
        raise NotationError(
            "Symmetric cells need a symmetric scale.",
            hint="Take half-whole diminished, whole-half diminished, whole tone or augmented.",
        )
    return found


def _led_to(kind: str, ladder: Sequence[int], at: int) -> Notes:
    """Return a note with what leads to it: the scale note above and the half step below, or that alone."""
    note = ladder[at]
    above = ladder[at + 1] if at + 1 < len(ladder) else note + 2
    if kind == "enclosed":
        return [(above, False), (note - 1, False), (note, False), (note, True)]
    return [(note - 1, False), (note, True)]


def _written(
    ways: Sequence[_Way], pattern: PatternRow, chord: str, scale: Scale, order: DrillOrder
) -> Phrase | None:
    """Return the ways of a drill written over one chord; None if they have too many bars."""
    sheet = _Sheet()
    unit = TICKS // pattern.to_a_beat
    since = 0
    for way in ways:
        for place, (note, closes) in enumerate(way.notes):
            if pattern.kind == "enclosed" and closes:
                sheet.hold(unit)  # the note that is enclosed sounds for a beat
            else:
                sheet.strike(note, unit)
            since += 1
            if (
                closes
                and sheet.at % TICKS == 0
                and since >= LONGEST_BREATH - 4
                and place + 8 < len(way.notes)
            ):
                sheet.at, since = sheet.at + TICKS, 0
        if sheet.land(way.lands, last=way is ways[-1]):
            since = 0
    bars = sheet.at // _BAR
    if bars > MOST_BARS:
        return None
    key = Key(scale.root, "minor" if _is_minor(scale) else "major")
    ground = ground_of(" | ".join([chord, *["%"] * (bars - 1)]), _scale_text(scale, bars), key=key)
    return _phrase(ground, Rhythm(tuple(sheet.onsets), tuple(sheet.ends), ()), sheet.midi, pattern, order)


_BAR = 4 * TICKS


@dataclass
class _Sheet:
    """Notes as they are written down, one after another; `at` is the tick that has been reached."""

    onsets: list[int] = field(default_factory=list)
    ends: list[int] = field(default_factory=list)
    midi: list[int] = field(default_factory=list)
    at: int = 0

    def strike(self, note: int, ticks: int) -> None:
        """Write a note."""
        self.onsets.append(self.at)
        self.midi.append(note)
        self.at += ticks
        self.ends.append(self.at)

    def hold(self, ticks: int) -> None:
        """Make the last note longer."""
        self.at += ticks
        self.ends[-1] = self.at

    def land(self, note: int, *, last: bool) -> bool:
        """End a way on a note that sounds for a beat or two, and rest up to the bar line.

        A way up that just fills its bar turns at once. Returns whether there was a rest.
        """
        if self.midi[-1] != note:
            self.at = -(-self.at // TICKS) * TICKS
            self.strike(note, TICKS)
        elif self.onsets[-1] % TICKS == 0:
            self.hold(max(0, TICKS - (self.at - self.onsets[-1])))
        elif last or self.at % _BAR:
            self.hold(TICKS)
        if -self.at % _BAR in (TICKS, 3 * TICKS):
            self.hold(TICKS)
        rest = -self.at % _BAR
        self.at += rest
        return rest > 0


def _is_minor(scale: Scale) -> bool:
    """Whether a scale has the minor third alone: its drills are in the minor key on its root."""
    above = {(one - scale.root.pitch_class) % 12 for one in scale.pitch_classes}
    return 3 in above and 4 not in above


def _scale_text(scale: Scale, bars: int) -> str:
    return " | ".join([scale.name, *["%"] * (bars - 1)])


def _phrase(
    ground: Ground, rhythm: Rhythm, midi: Sequence[int], pattern: PatternRow, order: DrillOrder
) -> Phrase:
    bars = bars_of(rhythm, midi, ground.metre, ground.bars)
    made = ground.phrase(bars, title=pattern.name, tempo=order.tempo, feel=order.feel)
    made = replace(made, key_inferred=False)
    if pattern.kind in ("grouped", "displaced"):
        return _accented(made, pattern)
    return made


def _accented(phrase: Phrase, pattern: PatternRow) -> Phrase:
    """Return a phrase with an accent on the first of every so many notes, or on every note off the beat."""
    struck = 0
    bars = []
    for bar in phrase.bars:
        events = []
        for event in bar.events:
            if event.pitch is None or event.tie_in:
                events.append(event)
                continue
            on = struck % pattern.step == (1 if pattern.kind == "displaced" else 0)
            events.append(replace(event, marks=("accent",)) if on and event.quarters < 1 else event)
            struck += 1
        bars.append(Bar(bar.number, tuple(events)))
    return replace(phrase, bars=tuple(bars))


def _through(name: DrillName, order: DrillOrder) -> Phrase:
    """Return four-note groups on the chords of a progression, each group on its chord's own scale.

    A group begins where it lies nearest to the last note; two fill a bar of one chord, the second upside
    down.
    """
    ground = ground_of(name.progression)
    if ground.bars > MOST_BARS:
        raise NotationError(f"The progression has more than {MOST_BARS} bars.", hint="Take a part of it.")
    onsets: list[int] = []
    midi: list[int] = []
    before = (order.low + order.high) // 2
    size = len(name.pattern.cell)
    for start in range(0, ground.end - 2 * TICKS + 1, 2 * TICKS):
        stretch = ground.stretches[ground.at(start)]
        scale = stretch.span.scale
        if scale is None:
            continue
        ladder = [
            one for one in range(order.low - 12, order.high + 13) if one % 12 in stretch.span.scale_classes
        ]
        roots = [
            at
            for at, one in enumerate(ladder)
            if one % 12 == stretch.root and at + max(name.pattern.cell) < len(ladder)
        ]
        span = max(name.pattern.cell)
        fits = [
            one for one in roots if ladder[one] >= order.low and ladder[one + span] <= order.high
        ] or roots
        at = min(fits, key=lambda one: abs(ladder[one] - before))
        cell = [ladder[at + one] for one in name.pattern.cell]
        if start + 2 * TICKS >= ground.end:  # the last group is one note, which is held
            onsets.append(start)
            midi.append(min((ladder[one] for one in roots), key=lambda note: abs(note - before)))
            break
        turned = bool(onsets) and (start % (4 * TICKS)) and ground.at(start - TICKS) == ground.at(start)
        for place, note in enumerate(reversed(cell) if turned else cell):
            if place * TICKS // 2 < 2 * TICKS:
                onsets.append(start + place * TICKS // 2)
                midi.append(note)
        before = midi[-1]
    if not onsets or size < 2:
        raise NotationError("These changes give no scale to play.", hint="Write chords that sound.")
    ends = [min(after, start + TICKS) for start, after in zip(onsets, [*onsets[1:], ground.end], strict=True)]
    made = _phrase(ground, Rhythm(tuple(onsets), tuple(ends), ()), midi, name.pattern, order)
    up = NoteName(0).interval_to(order.root)
    return made if not up.semitones else _moved(made, up)


def _moved(phrase: Phrase, up: Interval) -> Phrase:
    return respell(transpose(phrase, up))
