"""The notes of a score and their MusicXML: what stands on the staff, one written note after another.

Values that are tied to one another are written notes of their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from shedbook.exchange.musicxml.notation_names import ELEMENT_OF_MARK, GHOST, TYPE_OF_PART, accidental_name
from shedbook.phrase.accidentals import AccidentalReader
from shedbook.phrase.model import MARKS, Bar, Event, Value
from shedbook.theory.pitch import Pitch


class ScoreNote(NamedTuple):
    """One written note or rest.

    Attributes:
        value: its value.
        pitch: its written pitch; None for a rest.
        tied_in: whether it is tied to the note before.
        tied_out: whether it is tied to the note after.
        marks: its marks.
        grace: the written pitches of its grace notes.
        opens: the numbers of the slurs that begin on it.
        closes: the numbers of the slurs that end on it.
        accidental: whether its accidental must be written.
    """

    value: Value
    pitch: Pitch | None = None
    tied_in: bool = False
    tied_out: bool = False
    marks: tuple[str, ...] = ()
    grace: tuple[Pitch, ...] = ()
    opens: tuple[int, ...] = ()
    closes: tuple[int, ...] = ()
    accidental: bool = False


def score_notes(bars: Sequence[Bar], fifths: int = 0) -> Iterator[tuple[ScoreNote, ...]]:
    """Yield the written notes of each bar.

    Args:
        bars: the bars of a phrase at written pitch.
        fifths: the sharps of the key signature, flats being negative. Accidentals are counted from it.
    """
    slurs: list[int] = []
    reader = AccidentalReader(fifths)
    for index, bar in enumerate(bars):
        following = bars[index + 1] if index + 1 < len(bars) else None
        notes: list[ScoreNote] = []
        for place, event in enumerate(bar.events):
            goes_on = place + 1 == len(bar.events) and following is not None and following.events[0].tie_in
            notes += _event_notes(event, goes_on, slurs)
        yield tuple(_with_sign(note, reader, over_bar=not place) for place, note in enumerate(notes))
        reader.bar_line()


def _event_notes(event: Event, goes_on: bool, slurs: list[int]) -> Iterator[ScoreNote]:
    """Yield the written notes of one event.

    `goes_on` says that it is tied to the next bar, `slurs` are the numbers of the open slurs.
    """
    if event.pitch is None:
        yield from (ScoreNote(value) for value in event.values)
        return
    last = len(event.values) - 1
    closes = tuple(slurs.pop() for _ in range(min(event.slurs_close, len(slurs))))
    opens = []
    for _ in range(event.slurs_open):
        # A number in use by a slur that ends here may not begin another one on the same note.
        number = next(number for number in range(1, 64) if number not in slurs and number not in closes)
        slurs.append(number)
        opens.append(number)
    for index, value in enumerate(event.values):
        first = index == 0
        yield ScoreNote(
            value,
            event.pitch,
            tied_in=not first or event.tie_in,
            tied_out=index < last or goes_on,
            marks=_marks(event.marks, first, index == last),
            grace=event.grace if first else (),
            opens=tuple(opens) if first else (),
            closes=closes if index == last else (),
        )


def _marks(marks: tuple[str, ...], first: bool, last: bool) -> tuple[str, ...]:
    """Return the marks of one of several tied notes.

    A fall stands at the last of them, a ghost note is one throughout, and all other marks stand at the first.
    """
    return tuple(
        mark for mark in MARKS if mark in marks and (mark == GHOST or (last if mark == "fall" else first))
    )


def _with_sign(note: ScoreNote, reader: AccidentalReader, *, over_bar: bool) -> ScoreNote:
    """Return a written note that says whether its accidental is written."""
    if note.pitch is None:
        return note
    if note.tied_in:
        reader.tied(note.pitch, over_bar=over_bar)
        return note
    for pitch in note.grace:
        reader.needs(pitch)
    return note._replace(accidental=reader.needs(note.pitch))


# As text


def _pitch(pitch: Pitch) -> str:
    alter = f"<alter>{pitch.alteration}</alter>" if pitch.alteration else ""
    return f"<pitch><step>{pitch.letter}</step>{alter}<octave>{pitch.octave}</octave></pitch>"


def grace_elements(pitches: Sequence[Pitch]) -> Iterator[str]:
    """Yield the `note` elements of grace notes: a single one with a slash, several as sixteenths."""
    kind, slash = ("eighth", ' slash="yes"') if len(pitches) == 1 else ("16th", "")
    for pitch in pitches:
        sign = f"<accidental>{accidental_name(pitch.alteration)}</accidental>"
        yield (
            f"      <note><grace{slash}/>{_pitch(pitch)}<voice>1</voice><type>{kind}</type>"
            f"{sign if pitch.alteration else ''}</note>\n"
        )


def beam_elements(values: Sequence[Value], spans: Sequence[tuple[int, int]]) -> list[str]:
    """Return the `beam` elements of each note of a bar, "" for a note without a beam.

    Args:
        values: the values of the bar.
        spans: the beams, from `phrase.beaming`: each the index of its first value and that after its last.
    """
    found = [""] * len(values)
    for first, end in spans:
        flags = [max(0, value.part.bit_length() - 3) for value in values[first:end]]
        for at, many in enumerate(flags):
            before = flags[at - 1] if at else 0
            after = flags[at + 1] if at + 1 < len(flags) else 0
            found[first + at] = "".join(
                f'<beam number="{level}">{_beam(level <= before, level <= after, hook_back=at > 0)}</beam>'
                for level in range(1, many + 1)
            )
    return found


def _beam(before: bool, after: bool, *, hook_back: bool) -> str:
    """Return what one level of a beam does at a note, by whether its neighbours have that level."""
    if before and after:
        return "continue"
    if before or after:
        return "end" if before else "begin"
    return "backward hook" if hook_back else "forward hook"


def note_element(note: ScoreNote, duration: int, *, starts: bool, stops: bool, beams: str = "") -> str:
    """Return the `note` element of a written note.

    Args:
        note: the note.
        duration: its length in divisions of the quarter.
        starts: whether a tuplet begins on it.
        stops: whether a tuplet ends on it.
        beams: its `beam` elements.
    """
    value = note.value
    ties = ('<tie type="stop"/>' if note.tied_in else "") + ('<tie type="start"/>' if note.tied_out else "")
    sign = (
        f"<accidental>{accidental_name(note.pitch.alteration)}</accidental>"
        if note.pitch and note.accidental
        else ""
    )
    ghost = '<notehead parentheses="yes">normal</notehead>' if GHOST in note.marks else ""
    return (
        f"      <note>{_pitch(note.pitch) if note.pitch else '<rest/>'}<duration>{duration}</duration>{ties}"
        f"<voice>1</voice><type>{TYPE_OF_PART[value.part]}</type>{'<dot/>' * value.dots}{sign}"
        f"{_time_modification(value)}{ghost}{beams}{_notations(note, starts=starts, stops=stops)}</note>\n"
    )


def _time_modification(value: Value) -> str:
    if value.actual == value.normal:
        return ""
    return (
        f"<time-modification><actual-notes>{value.actual}</actual-notes>"
        f"<normal-notes>{value.normal}</normal-notes></time-modification>"
    )


def _notations(note: ScoreNote, *, starts: bool, stops: bool) -> str:
    found = ['<tied type="stop"/>'] if note.tied_in else []
    found += ['<tied type="start"/>'] if note.tied_out else []
    found += [f'<slur type="stop" number="{number}"/>' for number in note.closes]
    found += [f'<slur type="start" number="{number}"/>' for number in note.opens]
    if starts:
        found.append('<tuplet type="start" bracket="yes"/>')
    if stops:
        found.append('<tuplet type="stop"/>')
    signs = "".join(f"<{ELEMENT_OF_MARK[mark]}/>" for mark in note.marks if mark != GHOST)
    if signs:
        found.append(f"<articulations>{signs}</articulations>")
    return f"<notations>{''.join(found)}</notations>" if found else ""
