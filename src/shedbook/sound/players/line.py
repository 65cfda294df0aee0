"""The line: the phrase as a demonstration, phrased as a player would.

Off-beats and the peaks of the contour are a little louder, the last eighth of a run is short, marks are
kept as far as MIDI can. How late and how long-short it is played is `perform`'s business.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from shedbook.phrase.model import MARKS, Event, Phrase, Sounding, sounding_notes
from shedbook.sound.players.tables.line_phrasing import LENGTHS, LOUDNESS, RUN_END_REST
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
    slurred = _slurred(phrase, notes)
    found: list[PartNote] = []
    for index, note in enumerate(notes):
        if not pick_up and note.end <= 0:
            continue
        start = note.start if pick_up else max(Fraction(0), note.start)
        last = found[-1].start if found else start - 1
        event, loud = _event(phrase, note), _loudness(notes, index)
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
    return LENGTHS["long"]


def _loudness(notes: Sequence[Sounding], index: int) -> int:
    """Return the velocity of a note."""
    note = notes[index]
    if "ghost" in note.marks:
        return LOUDNESS["ghost"]
    loud = LOUDNESS["plain"]
    if note.start % 1 == Fraction(1, 2):
        loud += LOUDNESS["off-beat"]
    if _peak(notes, index):
        loud += LOUDNESS["peak"]
    if "accent" in note.marks:
        loud += LOUDNESS["accent"]
    return loud


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
