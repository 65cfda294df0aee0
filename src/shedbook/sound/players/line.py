"""The line: the phrase as a demonstration, phrased as a player would.

The line is phrased: louder as it rises, off the beat and at the peaks of the contour, heavier where it lands
than where it passes, an arch from breath to breath; the last eighth of a run is short, and a long note is
let go before the next breath. Marks are kept as far as MIDI can. How late and how long-short it is played is
`perform`'s business.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from shedbook.phrase.model import MARKS, Event, Phrase, Sounding, sounding_notes
from shedbook.sound.players.tables.line_phrasing import ARCH_AT, LENGTHS, LOUDNESS, RUN_END_REST
from shedbook.sound.score.tables.timing import BENDS
from shedbook.sound.score.written_score import PartNote
from shedbook.table_index import need

_SHORT_OR_LONG, _SOFT_OR_LOUD = ("staccato", "tenuto"), ("ghost", "accent")
_BENT = tuple(row.mark for row in BENDS)


def check_marks(marks: Iterable[str]) -> None:
    """See that the line plays every mark that a note can have.

    Raises:
        TableError: if it plays one as if it were not there.
    """
    for mark in marks:
        need(
            mark in (*_SHORT_OR_LONG, *_SOFT_OR_LOUD, *_BENT),
            f'The line does not play the mark "{mark}".',
            "Say how in src/shedbook/sound/players/line.py, or how it is bent in BENDS in "
            "src/shedbook/sound/score/tables/timing.py.",
        )


check_marks(MARKS)

_GRACE_SECONDS = Fraction(7, 100)
_GRAIN = Fraction(1, 48)
_LEAST_GRACE = Fraction(1, 16)


def line(phrase: Phrase, tempo_qpm: Fraction, *, pick_up: bool = True) -> tuple[PartNote, ...]:
    """Return the phrase as played, in quarters from its bar 1; a pick-up starts before zero.

    Without its `pick_up` the phrase begins with bar 1, and with it what the pick-up holds into bar 1.
    """
    notes = sounding_notes(phrase)
    slurred, weights = _slurred(phrase, notes), _weights(phrase, notes)
    found: list[PartNote] = []
    for index, note in enumerate(notes):
        if not pick_up and note.end <= 0:
            continue
        start = note.start if pick_up else max(Fraction(0), note.start)
        last = found[-1].start if found else start - 1
        event, loud = _event(phrase, note), _loudness(notes, index, weights[index])
        found += _graces(event, start, start - last, tempo_qpm, loud)
        quarters = (note.end - start) * _share(notes, index, slurred[index])
        bend = next((mark for mark in note.marks if mark in _BENT), "")
        found.append(PartNote(start, quarters, note.pitch.midi, loud, bend))
    return tuple(found)


def _event(phrase: Phrase, note: Sounding) -> Event:
    bar, index = note.event
    return phrase.bars[bar].events[index]


def _slurred(phrase: Phrase, notes: Sequence[Sounding]) -> list[bool]:
    """Return for each note whether a slur leads on from it to the next."""
    depth = 0
    found = []
    for note in notes:
        event = _event(phrase, note)
        depth += event.slurs_open - event.slurs_close
        found.append(depth > 0)
    return found


def _rest_after(notes: Sequence[Sounding], index: int) -> Fraction:
    """Return the silence after a note; after the last one there is plenty."""
    if index + 1 == len(notes):
        return Fraction(4)
    return notes[index + 1].start - notes[index].end


def _share(notes: Sequence[Sounding], index: int, slurred: bool) -> Fraction:
    """Return how much of its written length a note sounds."""
    note = notes[index]
    for mark in _SHORT_OR_LONG:
        if mark in note.marks:
            return LENGTHS[mark]
    if slurred:
        return LENGTHS["slurred"]
    if note.quarters <= Fraction(1, 2) and _rest_after(notes, index) >= RUN_END_REST:
        return LENGTHS["end of run"]
    if note.quarters <= Fraction(1, 2):
        return LENGTHS["run"]
    if 0 < _rest_after(notes, index) < RUN_END_REST * 4:
        return LENGTHS["breath"]
    return LENGTHS["long"]


def _weights(phrase: Phrase, notes: Sequence[Sounding]) -> list[int]:
    """Return what each note gets for its height, for landing or passing, and for its place in the breath."""
    metre = phrase.metre
    strong = {(beat - 1) * metre.beat_quarters for beat in metre.strong_beats}
    changes = {phrase.change_start(change) for change in phrase.changes}
    found: list[int] = []
    for breath in _breaths(notes):
        heights = [note.pitch.midi for note in breath]
        low, span = min(heights), max(heights) - min(heights)
        for at, note in enumerate(breath):
            weight = round(LOUDNESS["height"] * ((note.pitch.midi - low) / span - 0.5)) if span else 0
            lands = note.start in changes or note.start % metre.bar_quarters in strong
            steps = [abs(note.pitch.midi - other.pitch.midi) for other in breath[max(0, at - 1) : at + 2]]
            passes = not lands and note.quarters <= Fraction(1, 2) and max(steps) <= 2
            weight += LOUDNESS["landing"] if lands else LOUDNESS["passing"] if passes else 0
            inside = at / (len(breath) - 1) if len(breath) > 1 else 0.5
            weight += round(LOUDNESS["arch"] * (1 - 2 * abs(inside - ARCH_AT) / max(ARCH_AT, 1 - ARCH_AT)))
            found.append(weight)
    return found


def _breaths(notes: Sequence[Sounding]) -> list[list[Sounding]]:
    """Return the notes in groups; a rest of at least an eighth lies between two."""
    found: list[list[Sounding]] = []
    for index, note in enumerate(notes):
        if not index or _rest_after(notes, index - 1) >= RUN_END_REST:
            found.append([])
        found[-1].append(note)
    return found


def _loudness(notes: Sequence[Sounding], index: int, weight: int) -> int:
    """Return the velocity of a note; `weight` is what its place in the phrase adds."""
    note = notes[index]
    if "ghost" in note.marks:
        return LOUDNESS["ghost"]
    loud = LOUDNESS["plain"] + weight
    if note.start % 1 == Fraction(1, 2):
        loud += LOUDNESS["off-beat"]
    if _peak(notes, index):
        loud += LOUDNESS["peak"]
    if "accent" in note.marks:
        loud += LOUDNESS["accent"]
    return min(127, loud)


def _peak(notes: Sequence[Sounding], index: int) -> bool:
    """Whether the line turns down here after it has risen."""
    if not 0 < index < len(notes) - 1:
        return False
    before, here, after = (note.pitch.midi for note in notes[index - 1 : index + 2])
    return before < here > after


def _graces(event: Event, start: Fraction, room: Fraction, tempo_qpm: Fraction, loud: int) -> list[PartNote]:
    """Return the grace notes before a note: each about 70 ms ahead of the beat, less in little room.

    `room` is how far ahead the note before begins; it keeps half of that.
    """
    if not event.grace:
        return []
    each = max(_LEAST_GRACE, _GRACE_SECONDS * tempo_qpm / 60 // _GRAIN * _GRAIN)
    each = min(each, room / 2 / len(event.grace))
    soft = max(1, loud + LOUDNESS["grace"])
    first = start - each * len(event.grace)
    return [PartNote(first + each * at, each, pitch.midi, soft) for at, pitch in enumerate(event.grace)]
