"""A Standard MIDI File as phrases: the line quantised, the bar lines read or found, changes from its texts.

The steps: bytes to notes (`midi_bytes`), the line of one track (`midi_line`), its rhythm (`quantise`,
`note_ends`), bars with written values (`values`), phrases (`sections`), and their spelling. Where the notes
do not stand on the file's own beats, beats and bar lines are found (`found_bars`), and the report says how
sure that is.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.editions.spelling import spelled
from shedbook.editions.spelling_plan import plan
from shedbook.errors import ReadError
from shedbook.exchange.ground.long_line import DEFAULT_SPLIT, BarContext, LineBar, LongLine
from shedbook.exchange.ground.report import Imported, Reporter
from shedbook.exchange.midi.chord_texts import FoundChanges, changes_of, feel_of, is_ours
from shedbook.exchange.midi.file_bytes import MetreEvent, MidiFile, MidiNote, parse_midi
from shedbook.exchange.midi.left_out import (
    name_other_signatures,
    name_other_tempos,
    name_what_is_lost,
)
from shedbook.exchange.midi.line_choice import line_of
from shedbook.exchange.phrases.bar_changes import report_repeated
from shedbook.exchange.phrases.line_division import pieces_of
from shedbook.exchange.rhythm.beat_finding import find_bars
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.onsets import RecordedNote
from shedbook.exchange.rhythm.quantise import Rhythm, quantise
from shedbook.exchange.rhythm.tables.quantise_costs import SWINGS_FROM
from shedbook.exchange.rhythm.written_bars import MOST_EMPTY, ChordOrHeading, line_bars, outer_bars
from shedbook.phrase.changes_text import parse_changes
from shedbook.phrase.model import Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName

MOST_BARS = 4000
_DEFAULT_TEMPO_US = 500_000
"""120 a minute, which holds where a file says no tempo (RP-001)."""
_FREE_COST = 22
"""A line whose notes cost more than this on the file's beats, each, may have been played without them."""
_FREE_LEAD = 6
"""So much less must a note cost on found beats."""
_SURE = 40


@dataclass(frozen=True, slots=True)
class _Clock:
    """The file's tempo map: ticks a quarter, and (tick, microseconds there, microseconds a quarter)."""

    per_quarter: int
    points: tuple[tuple[int, int, int], ...]

    def microseconds(self, tick: int) -> int:
        at = self._at(tick)
        return at[1] + (tick - at[0]) * at[2] // self.per_quarter

    def tempo_qpm(self, tick: int) -> Fraction:
        return Fraction(60_000_000, self._at(tick)[2])

    def _at(self, tick: int) -> tuple[int, int, int]:
        return self.points[bisect_right(self.points, tick, key=lambda point: point[0]) - 1]


@dataclass(frozen=True, slots=True)
class _Section:
    """The part of a line under one metre, with its rhythm; `start` is the tick of its bar 1."""

    metre: Metre
    start: int
    rhythm: Rhythm
    tempo_qpm: Fraction
    places: tuple[ChordOrHeading, ...]
    end: Fraction
    last: int = 0
    """The tick at which its last note begins; 0 where bars are not the file's own."""


def read_midi(
    data: bytes,
    name: str,
    *,
    split: Collection[str] = DEFAULT_SPLIT,
    part: str = "",
    changes: str = "",
    key: Key | NoteName | None = None,
    title: str = "",
) -> Imported:
    """Return the phrases of a Standard MIDI File, format 0 or 1.

    Args:
        data: the bytes of the file.
        name: what errors and the report call it.
        split: where the line is divided, any of `long_line.SPLITS`.
        part: the name or number of the track to take, "" to find it.
        changes: the changes as a phrase has them, which take the place of those in the file; they are
            repeated under a line that is longer.
        key: the home key, or its tonic alone; None to find it.
        title: the title where the file has none.

    Raises:
        ReadError: if the file or the changes cannot be read.
        UnknownNameError: if no track is called as asked.
    """
    reporter = Reporter(name)
    try:
        file = parse_midi(data)
    except ReadError as error:
        raise ReadError(f"{name}: {error.message}", hint=error.hint, start=error.start) from None
    notes = line_of(file, part, reporter, name)
    found = changes_of(file)
    bars = _bars(file, notes, found, changes, reporter, name)
    fallback = title or name.rpartition(".")[0] or name
    line = LongLine(_title(file), tuple(bars))
    pieces = pieces_of(line, frozenset(split), reporter, fallback=fallback, key=key)
    return Imported(
        tuple(replace(piece, phrase=_with_names(piece.phrase)) for piece in pieces), reporter.report()
    )


def _with_names(phrase: Phrase) -> Phrase:
    """Return a phrase with its notes named for the reader; the chords stay as the file names them."""
    return spelled(phrase, plan(phrase), 0)


def _title(file: MidiFile) -> str:
    """Return the name of the sequence: that of the first track, in format 1 where it holds no notes."""
    first = file.tracks[0]
    return first.name if file.format == 0 or not first.notes else ""


def _bars(
    file: MidiFile,
    notes: Sequence[MidiNote],
    found: FoundChanges,
    changes: str,
    reporter: Reporter,
    name: str,
) -> list[LineBar]:
    """Return the line in bars, on the file's beats or on found ones."""
    name_what_is_lost(file, notes, found, reporter)
    clock = _clock(file)
    if file.ticks_per_second:
        reporter.note("the file counts frames, not beats")
        sections = None
    else:
        sections = _on_file_beats(file, notes, found, clock, name)
    sections = _or_found(sections, file, notes, found, clock, changes, reporter, name)
    if changes.strip():
        sections = [_with_changes(section, changes, reporter) for section in sections]
    elif found.chords:
        reporter.note(f"the changes are those of its {found.said_by}")
    bars: list[LineBar] = []
    for section in sections:
        context = _context(file, section, reporter)
        _name_changes_inside(file, clock, section, context, len(bars) + 1, reporter)
        made = line_bars(section.rhythm, context, section.places, section.end, len(bars) + 1, reporter)
        bars += made
    return bars


# The file's own beats


def _clock(file: MidiFile) -> _Clock:
    """Return the tempo map, of all tracks together."""
    if file.ticks_per_second:
        return _Clock(file.ticks_per_second, ((0, 0, 1_000_000),))
    points = [(0, 0, _DEFAULT_TEMPO_US)]
    for tempo in sorted(tempo for track in file.tracks for tempo in track.tempos):
        tick, time, before = points[-1]
        time += (tempo.tick - tick) * before // file.ticks_per_quarter
        if tempo.tick == tick:
            points.pop()
        points.append((tempo.tick, time, tempo.microseconds))
    return _Clock(file.ticks_per_quarter, tuple(points))


def _metres(file: MidiFile) -> list[tuple[int, Metre]]:
    """Return the metres with the ticks from which they hold; what no phrase can have is read as 4/4."""
    found: dict[int, Metre] = {0: Metre()}
    for at in sorted(metre for track in file.tracks for metre in track.metres):
        found[at.tick] = _metre(at)
    kept: list[tuple[int, Metre]] = []
    for tick, metre in sorted(found.items()):
        if not kept or kept[-1][1] != metre:
            kept.append((tick, metre))
    return kept


def _metre(at: MetreEvent) -> Metre:
    try:
        return Metre.parse(f"{at.beats}/{at.unit}")
    except ValueError:
        return Metre()


def _on_file_beats(
    file: MidiFile, notes: Sequence[MidiNote], found: FoundChanges, clock: _Clock, name: str
) -> list[_Section]:
    """Return the line on the beats of the file, a section for each metre in which notes begin."""
    metres = _metres(file)
    ours = is_ours(file)
    per_quarter = file.ticks_per_quarter
    sections = []
    for index, (start, metre) in enumerate(metres):
        stop = metres[index + 1][0] if index + 1 < len(metres) else None
        inside = [note for note in notes if note.start >= start and (stop is None or note.start < stop)]
        if not inside:
            continue
        played = [
            RecordedNote(
                (note.start - start) * GRAINS // per_quarter,
                max((note.end if stop is None else min(note.end, stop)) - start, note.start - start + 1)
                * GRAINS
                // per_quarter,
                note.key,
            )
            for note in inside
        ]
        _not_too_long(Fraction(played[-1].end - played[0].start, GRAINS), metre, name)
        tempo = clock.tempo_qpm(inside[len(inside) // 2].start)
        places = tuple(
            ChordOrHeading(Fraction(tick - start, per_quarter), chord, heading)
            for tick, chord, heading in _marked(found)
            if tick >= start and (stop is None or tick < stop)
        )
        end = max(track.end for track in file.tracks) if stop is None else stop
        rhythm = quantise(played, metre, tempo, ticks_per_quarter=per_quarter, ours=ours)
        length = Fraction(end - start, per_quarter)
        sections.append(_Section(metre, start, rhythm, tempo, places, length, inside[-1].start))
    return sections


def _not_too_long(quarters: Fraction, metre: Metre, name: str) -> None:
    if quarters > MOST_BARS * metre.bar_quarters:
        raise ReadError(
            f"{name}: the line goes over more than {MOST_BARS:,} bars.",
            hint="Save the one chorus you want as a file of its own.",
        )


def _marked(found: FoundChanges) -> list[tuple[int, Chord | None, str]]:
    """Return chords and headings with their ticks, in order."""
    chords = [(one.tick, one.chord, "") for one in found.chords]
    headings = [(one.tick, None, one.text) for one in found.headings]
    return sorted([*chords, *headings], key=lambda one: one[0])


# Beats that are found


def _or_found(
    sections: list[_Section] | None,
    file: MidiFile,
    notes: Sequence[MidiNote],
    found: FoundChanges,
    clock: _Clock,
    changes: str,
    reporter: Reporter,
    name: str,
) -> list[_Section]:
    """Return the line on the file's beats where it stands on them, else on found ones."""
    if sections is not None:
        cost = sum(section.rhythm.cost for section in sections) // max(1, len(notes))
        if cost <= _FREE_COST:
            return sections
    metre = _metres(file)[-1][1] if file.ticks_per_quarter else Metre()
    if metre.unit > 4:
        metre = Metre()
    timed = [(clock.microseconds(note.start), clock.microseconds(note.end), note.key) for note in notes]
    bars = parse_changes(changes, metre).bars if changes.strip() else 0
    free = find_bars(timed, metre, bars=bars)
    if free is None or (sections is not None and free.cost_a_note + _FREE_LEAD > cost):
        if sections is None:
            raise ReadError(f"{name} has too few notes to find its beat.", hint="Record it to a click.")
        return sections
    _not_too_long(Fraction(free.notes[-1].end, GRAINS), metre, name)
    sure = "fairly sure" if free.sure >= _SURE else "a guess: compare the bar lines with what you played"
    reporter.note(
        f"the notes do not stand on the file's beats; found were about {free.tempo_qpm} beats a minute "
        f"and bars of {metre} ({sure})"
    )
    times = free.beat_times
    places = tuple(
        ChordOrHeading(_beat_of(clock.microseconds(tick), times), chord, heading)
        for tick, chord, heading in _marked(found)
    )
    rhythm = quantise(free.notes, metre, free.tempo_qpm)
    return [_Section(metre, 0, rhythm, free.tempo_qpm, places, Fraction(0))]


def _beat_of(time: int, times: Sequence[int]) -> Fraction:
    """Return the place in quarters that is nearest to a time, on a beat."""
    after = bisect_right(times, time)
    if 0 < after < len(times) and times[after] - time > time - times[after - 1]:
        after -= 1
    return Fraction(min(after, len(times) - 1))


# What holds


def _with_changes(section: _Section, text: str, reporter: Reporter) -> _Section:
    """Return a section over the author's changes, from the bar in which its first full bar begins."""
    changes = parse_changes(text, section.metre)
    bar = section.metre.bar_quarters
    notes = section.rhythm.notes
    first = notes[0].start // bar if notes else 0
    last = notes[-1].start // bar if notes else 0
    needed = last - first + 1
    silent = notes[0].start % bar if notes else 0
    if silent and needed > 1 and (needed == changes.bars + 1 or 2 * silent >= bar):
        first, needed = first + 1, needed - 1  # the line begins with a pick-up
    if not needed < changes.bars <= needed + MOST_EMPTY:  # so many bars of rest are kept
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


def _context(file: MidiFile, section: _Section, reporter: Reporter) -> BarContext:
    """Return metre, key signature, tempo and feel of a section."""
    keys = sorted(key for track in file.tracks for key in track.keys)
    holding = [key for key in keys if key.tick <= section.start] or keys[:1]
    swings = section.rhythm.ratio >= SWINGS_FROM
    feel = feel_of(file)
    if not feel:
        feel = "swing" if swings else "straight"
        said = (
            f"long and short eighths, about {float(section.rhythm.ratio):.2g} to 1"
            if swings
            else "even eighths"
        )
        reporter.note(f'it is played with {said}: its feel is "{feel}"')
    if section.rhythm.sounding_share < 1:
        share = round(100 * section.rhythm.sounding_share)
        reporter.note(f"all notes sound for about {share} % of their length: they are written in full")
    if section.rhythm.left_out:
        reporter.note(f"{section.rhythm.left_out} notes too close together to be written are left out")
    return BarContext(
        section.metre,
        holding[-1].signature if holding else None,
        ("minor" if holding[-1].minor else "major") if holding else "",
        Fraction(round(section.tempo_qpm)),
        feel,
    )


def _name_changes_inside(
    file: MidiFile, clock: _Clock, section: _Section, context: BarContext, label: int, reporter: Reporter
) -> None:
    """Report tempos and key signatures that begin inside a section, with their bars."""
    if not section.last or not section.rhythm.notes:
        return
    per_quarter, metre = file.ticks_per_quarter, section.metre
    chords = [place for place in section.places if place.chord is not None]
    first, _ = outer_bars(section.rhythm.notes, chords, section.end, metre)
    begin = section.start + int(section.rhythm.notes[0].start * per_quarter)

    def bar(tick: int) -> str:
        return str(label + int(Fraction(tick - section.start, per_quarter) // metre.bar_quarters) - first)

    inside = [point[0] for point in clock.points if begin < point[0] <= section.last]
    tempos = [(bar(tick), clock.tempo_qpm(tick)) for tick in (begin, *inside)]
    name_other_tempos(tempos, section.tempo_qpm, reporter)
    keys = sorted(key for track in file.tracks for key in track.keys)
    later = [(bar(key.tick), key.signature) for key in keys if begin < key.tick <= section.last]
    name_other_signatures(later, context.fifths, reporter)
