"""The line of a MIDI file in sections, one for each metre, with its rhythm and the chords over it.

The beats are those of the file where the notes stand on them. Otherwise beats and bar lines are found in the
playing, and the report says how sure that is.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.errors import ReadError
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.midi.chord_texts import FoundChanges, is_ours
from shedbook.exchange.midi.events import MidiFile, MidiNote
from shedbook.exchange.midi.tempo_map import DEFAULT_TEMPO_US, TempoMap, metres_of
from shedbook.exchange.phrases.bar_changes import report_repeated
from shedbook.exchange.rhythm.beat_finding import FoundBeats, find_bars
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.landings import Chart
from shedbook.exchange.rhythm.onsets import RecordedNote
from shedbook.exchange.rhythm.quantise import Rhythm, quantise
from shedbook.exchange.rhythm.written_bars import MOST_EMPTY, ChordOrHeading
from shedbook.phrase.changes_text import parse_changes
from shedbook.theory.chord import Chord
from shedbook.theory.metre import Metre

MOST_BARS = 4000
"""A line may go over so many bars at most."""
_FREE_COST = 22
"""A line whose notes cost more than this each on the file's beats may have been played without them."""
_FREE_LEAD = 6
"""Found beats are taken when each note costs at least so much less on them."""
_SURE = 40
"""Found beats are called fairly sure from this value of `FoundBeats.sure` on: of generated playing more than
nine lines in ten are right there (`benchmarks/played_in_agreement.py`)."""


@dataclass(frozen=True, slots=True)
class RecordedLine:
    """The line of a file, and what says how to read it.

    Attributes:
        name: what errors call the file.
        file: the file.
        notes: the notes of the line, one at a time, in order.
        found: the chords and headings in the texts of the file.
        tempo_map: the tempos of the file.
    """

    name: str
    file: MidiFile
    notes: tuple[MidiNote, ...]
    found: FoundChanges
    tempo_map: TempoMap


@dataclass(frozen=True, slots=True)
class Asked:
    """What the author says of a line.

    Attributes:
        changes: the changes that replace those of the file; "" for those of the file.
        tempo_qpm: the tempo in quarters a minute; None where it is not known.
        metre: the metre; None for that of the file.
    """

    changes: str = ""
    tempo_qpm: Fraction | None = None
    metre: Metre | None = None


@dataclass(frozen=True, slots=True)
class MetreSection:
    """The part of a line that is in one metre.

    Attributes:
        metre: its metre.
        start: the tick at which its first bar begins.
        rhythm: its notes, in quarters from there.
        tempo_qpm: its tempo in quarters a minute.
        places: the chords and headings over it.
        end: where it ends, in quarters from its start; 0 where the end of the file means nothing.
        last: the tick at which its last note begins; 0 where its beats are not those of the file.
        begins_early: whether the changes begin with the bar after that of the first note; None where nothing
            but the number of bars says so.
    """

    metre: Metre
    start: int
    rhythm: Rhythm
    tempo_qpm: Fraction
    places: tuple[ChordOrHeading, ...]
    end: Fraction
    last: int = 0
    begins_early: bool | None = None


def sections_of(line: RecordedLine, asked: Asked, reporter: Reporter) -> list[MetreSection]:
    """Return the sections of a line, on the beats of its file or on found ones.

    Args:
        line: the line.
        asked: what the author says of it.
        reporter: told where beats had to be found, and where the changes do not fit the line.

    Raises:
        ReadError: if the line goes over too many bars, has too few notes for finding its beat, or if the
            changes cannot be read.
    """
    sections: list[MetreSection] | None = None
    if line.file.ticks_per_second:
        reporter.note("the file counts frames, not beats")
    else:
        sections = _on_file_beats(line)
    sections = _or_found(sections, line, asked, reporter)
    if asked.changes.strip():
        return [_with_changes(section, asked.changes, reporter) for section in sections]
    return sections


# The beats of the file


def _on_file_beats(line: RecordedLine) -> list[MetreSection]:
    """Return the line on the beats of its file, a section for each metre in which notes begin."""
    metres = metres_of(line.file)
    found = []
    for index, (start, metre) in enumerate(metres):
        stop = metres[index + 1][0] if index + 1 < len(metres) else None
        inside = [note for note in line.notes if note.start >= start and (stop is None or note.start < stop)]
        if inside:
            found.append(_file_section(line, inside, metre, start, stop))
    return found


def _file_section(
    line: RecordedLine, notes: Sequence[MidiNote], metre: Metre, start: int, stop: int | None
) -> MetreSection:
    """Return the section of some notes between two ticks; `stop` is None at the end of the file."""
    per_quarter = line.file.ticks_per_quarter
    played = [
        RecordedNote(
            (note.start - start) * GRAINS // per_quarter,
            max((note.end if stop is None else min(note.end, stop)) - start, note.start - start + 1)
            * GRAINS
            // per_quarter,
            note.key,
        )
        for note in notes
    ]
    _check_length(Fraction(played[-1].end - played[0].start, GRAINS), metre, line.name)
    tempo = line.tempo_map.tempo_qpm(notes[len(notes) // 2].start)
    places = tuple(
        ChordOrHeading(Fraction(tick - start, per_quarter), chord, heading)
        for tick, chord, heading in _chords_and_headings(line.found)
        if tick >= start and (stop is None or tick < stop)
    )
    end = max(track.end for track in line.file.tracks) if stop is None else stop
    rhythm = quantise(played, metre, tempo, ticks_per_quarter=per_quarter, ours=is_ours(line.file))
    length = Fraction(end - start, per_quarter)
    return MetreSection(metre, start, rhythm, tempo, places, length, notes[-1].start)


def _check_length(quarters: Fraction, metre: Metre, name: str) -> None:
    """Refuse a line that goes over too many bars."""
    if quarters > MOST_BARS * metre.bar_quarters:
        raise ReadError(
            f"{name}: the line goes over more than {MOST_BARS:,} bars.",
            hint="Save the one chorus you want as a file of its own.",
        )


def _chords_and_headings(found: FoundChanges) -> list[tuple[int, Chord | None, str]]:
    """Return chords and headings with their ticks, in order."""
    chords = [(one.tick, one.chord, "") for one in found.chords]
    headings = [(one.tick, None, one.text) for one in found.headings]
    return sorted([*chords, *headings], key=lambda one: one[0])


# Beats that are found


def _or_found(
    sections: list[MetreSection] | None, line: RecordedLine, asked: Asked, reporter: Reporter
) -> list[MetreSection]:
    """Return the sections as they are where the line stands on their beats, else the line on found beats.

    `sections` is None where the file has no beats.
    """
    cost, played_freely = 0, False
    if sections is not None:
        cost = sum(section.rhythm.cost for section in sections) // max(1, len(line.notes))
        played_freely = asked.tempo_qpm is not None or (
            bool(asked.changes.strip()) and _tempo_unknown(line, sections)
        )
        if cost <= _FREE_COST and not played_freely:
            return sections
    metre = asked.metre or (metres_of(line.file)[-1][1] if line.file.ticks_per_quarter else Metre())
    if metre.unit > 4:
        metre = Metre()
    time_of = line.tempo_map.microseconds
    timed = [(time_of(note.start), time_of(note.end), note.key) for note in line.notes]
    chart = _chart(asked.changes, metre) if asked.changes.strip() else None
    free = find_bars(timed, metre, chart=chart, tempo_qpm=asked.tempo_qpm)
    if free is None:
        if sections is None:
            raise ReadError(f"{line.name} has too few notes to find its beat.", hint="Record it to a click.")
        return sections
    found = _found_section(line, free, metre)
    lead = 0 if played_freely else _FREE_LEAD
    dearer = found.rhythm.cost // len(line.notes) + lead > cost
    if sections is not None and dearer and (chart is None or _as_long_as(sections, chart.bars)):
        return sections
    _name_found(free, metre, reporter)
    return [found]


def _as_long_as(sections: Sequence[MetreSection], bars: int) -> bool:
    """Tell whether a line has as many bars on its file's beats as its changes, or a pick-up more."""
    count = 0
    for section in sections:
        notes, bar = section.rhythm.notes, section.metre.bar_quarters
        count += int(notes[-1].start // bar - notes[0].start // bar) + 1 if notes else 0
    return count % bars == 0 or count == bars + 1


def _tempo_unknown(line: RecordedLine, sections: Sequence[MetreSection]) -> bool:
    """Tell whether a line was played into a file with the default of 120 quarters a minute alone (RP-001)."""
    plain = all(tempo == DEFAULT_TEMPO_US for _, _, tempo in line.tempo_map.points)
    return plain and not any(section.rhythm.exact for section in sections)


def _chart(text: str, metre: Metre) -> Chart:
    """Return the author's changes as the search for bar lines wants them."""
    changes = parse_changes(text, metre)
    starts = tuple(
        (change.bar - 1) * metre.bar_quarters + (change.beat - 1) * metre.beat_quarters
        for change in changes.changes
    )
    return Chart(changes.bars, starts, tuple(change.chord for change in changes.changes))


def _name_found(free: FoundBeats, metre: Metre, reporter: Reporter) -> None:
    """Report that beats were found, and how sure that is."""
    sure = "fairly sure" if free.sure >= _SURE else "a guess: compare the bar lines with what you played"
    reporter.note(
        f"the notes do not stand on the file's beats; found were about {free.tempo_qpm} beats a minute "
        f"and bars of {metre} ({sure})"
    )


def _found_section(line: RecordedLine, free: FoundBeats, metre: Metre) -> MetreSection:
    """Return the whole line as one section on found beats."""
    _check_length(Fraction(free.notes[-1].end, GRAINS), metre, line.name)
    places = tuple(
        ChordOrHeading(_beat_of(line.tempo_map.microseconds(tick), free.beat_times), chord, heading)
        for tick, chord, heading in _chords_and_headings(line.found)
    )
    rhythm = quantise(free.notes, metre, free.tempo_qpm)
    return MetreSection(metre, 0, rhythm, free.tempo_qpm, places, Fraction(0), begins_early=free.begins_early)


def _beat_of(time: int, beat_times: Sequence[int]) -> Fraction:
    """Return the beat that is nearest to a time, in quarters; all times are in microseconds."""
    after = bisect_right(beat_times, time)
    if 0 < after < len(beat_times) and beat_times[after] - time > time - beat_times[after - 1]:
        after -= 1
    return Fraction(min(after, len(beat_times) - 1))


# The author's changes


def _with_changes(section: MetreSection, text: str, reporter: Reporter) -> MetreSection:
    """Return a section over the author's changes, which begin in its first full bar."""
    changes = parse_changes(text, section.metre)
    bar = section.metre.bar_quarters
    notes = section.rhythm.notes
    first = notes[0].start // bar if notes else 0
    last = notes[-1].start // bar if notes else 0
    needed = last - first + 1
    silent = notes[0].start % bar if notes else 0
    early = needed > changes.bars and 2 * silent >= bar
    counted = needed == changes.bars + 1 or early
    if silent and needed > 1 and (counted if section.begins_early is None else section.begins_early):
        first, needed = first + 1, needed - 1  # the line begins with a pick-up
    if not needed < changes.bars <= needed + MOST_EMPTY:  # otherwise the bars of rest are kept
        report_repeated(int(needed), changes.bars, "", reporter)
    rounds = max(1, -(-needed // changes.bars))
    places = [
        ChordOrHeading(
            (first + turn * changes.bars + change.bar - 1) * bar
            + (change.beat - 1) * section.metre.beat_quarters,
            change.chord,
        )
        for turn in range(rounds)
        for change in changes.changes
        if turn * changes.bars + change.bar <= max(needed, changes.bars)
    ]
    end = (first + max(needed, changes.bars)) * bar
    headings = [place for place in section.places if place.chord is None]
    merged = tuple(sorted([*places, *headings], key=lambda place: place.start))
    return replace(section, places=merged, end=Fraction(end))
