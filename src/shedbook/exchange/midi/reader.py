"""A Standard MIDI File as phrases; this is the face of the room.

The steps: the bytes become notes (`file_bytes`); the line is chosen (`line_choice`); its chords are found
among the texts (`chord_texts`); each part in one metre gets its rhythm (`metre_sections`); the rhythm is laid
into bars (`rhythm.written_bars`); the bars are divided into phrases (`phrases.line_division`); and the notes
are named for the reader.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from fractions import Fraction

from shedbook.editions.spelling.note_spelling import named_anew
from shedbook.errors import ReadError
from shedbook.exchange.ground.long_line import DEFAULT_SPLIT, BarContext, LineBar, LongLine
from shedbook.exchange.ground.report import Imported, Reporter
from shedbook.exchange.midi.chord_texts import changes_of, feel_of
from shedbook.exchange.midi.events import MidiFile
from shedbook.exchange.midi.file_bytes import parse_midi
from shedbook.exchange.midi.left_out import (
    name_other_signatures,
    name_other_tempos,
    name_what_is_lost,
)
from shedbook.exchange.midi.line_choice import line_of
from shedbook.exchange.midi.metre_sections import Asked, MetreSection, RecordedLine, sections_of
from shedbook.exchange.midi.tempo_map import tempo_map_of
from shedbook.exchange.phrases.line_division import pieces_of
from shedbook.exchange.rhythm.tables.quantise_costs import SWINGS_FROM
from shedbook.exchange.rhythm.written_bars import line_bars, outer_bars
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName


def read_midi(
    data: bytes,
    name: str,
    *,
    split: Collection[str] = DEFAULT_SPLIT,
    part: str = "",
    changes: str = "",
    key: Key | NoteName | None = None,
    title: str = "",
    tempo_qpm: Fraction | None = None,
    metre: Metre | None = None,
) -> Imported:
    """Return the phrases of a Standard MIDI File, format 0 or 1 (RP-001).

    Args:
        data: the bytes of the file.
        name: what errors and the report call the file.
        split: the kinds of places at which the line is divided, any of `long_line.SPLITS`.
        part: the name or number of the track that has the line; "" to find it.
        changes: the changes that replace those of the file, as a phrase of the manuscript has them. They are
            repeated under a longer line. "" keeps the changes of the file.
        key: the home key of every phrase, or its tonic alone; None to find the key.
        title: the title of a file that has none; "" for `name`.
        tempo_qpm: the tempo at which it was played, in quarter notes a minute; None where that is not known.
        metre: the metre of the line; None for that of the file.

    Returns:
        The phrases in concert pitch, and the report of what could not be kept.

    Raises:
        ReadError: if the file or the changes cannot be read.
        UnknownNameError: if no track has the name or number in `part`.
    """
    reporter = Reporter(name)
    try:
        file = parse_midi(data)
    except ReadError as error:
        raise ReadError(f"{name}: {error.message}", hint=error.hint, start=error.start) from None
    notes = line_of(file, part, reporter, name)
    line = RecordedLine(name, file, notes, changes_of(file), tempo_map_of(file))
    bars = _bars(line, Asked(changes, tempo_qpm, metre), reporter)
    fallback = title or name.rpartition(".")[0] or name
    long_line = LongLine(_title(file), tuple(bars))
    pieces = pieces_of(long_line, frozenset(split), reporter, fallback=fallback, key=key)
    return Imported(
        tuple(replace(piece, phrase=_with_names(piece.phrase)) for piece in pieces), reporter.report()
    )


def _with_names(phrase: Phrase) -> Phrase:
    """Return a phrase with its notes named for the reader; its chords keep the names of the file."""
    return named_anew(phrase)


def _title(file: MidiFile) -> str:
    """Return the name of the sequence: that of the first track; in format 1 only if that has no notes."""
    first = file.tracks[0]
    return first.name if file.format == 0 or not first.notes else ""


def _bars(line: RecordedLine, asked: Asked, reporter: Reporter) -> list[LineBar]:
    """Return the bars of a line, and report what of its file is not read."""
    name_what_is_lost(line.file, line.notes, line.found, reporter)
    sections = sections_of(line, asked, reporter)
    if not asked.changes.strip() and line.found.chords:
        reporter.note(f"the changes are those of its {line.found.said_by}")
    bars: list[LineBar] = []
    for section in sections:
        label = len(bars) + 1
        context = _context(line.file, section, reporter)
        _name_changes_inside(line, section, context, label, reporter)
        bars += line_bars(section.rhythm, context, section.places, section.end, label, reporter)
    return bars


def _context(file: MidiFile, section: MetreSection, reporter: Reporter) -> BarContext:
    """Return metre, key signature, tempo and feel of a section, and report how it is played."""
    keys = sorted(key for track in file.tracks for key in track.keys)
    holding = [key for key in keys if key.tick <= section.start] or keys[:1]
    rhythm = section.rhythm
    feel = feel_of(file)
    if not feel:
        swings = rhythm.ratio >= SWINGS_FROM
        feel = "swing" if swings else "straight"
        ratio = f"long and short eighths, about {float(rhythm.ratio):.2g} to 1"
        reporter.note(f'it is played with {ratio if swings else "even eighths"}: its feel is "{feel}"')
    if rhythm.sounding_share < 1:
        share = round(100 * rhythm.sounding_share)
        reporter.note(f"all notes sound for about {share} % of their length: they are written in full")
    if rhythm.left_out:
        reporter.note(f"{rhythm.left_out} notes too close together to be written are left out")
    return BarContext(
        section.metre,
        holding[-1].signature if holding else None,
        ("minor" if holding[-1].minor else "major") if holding else "",
        Fraction(round(section.tempo_qpm)),
        feel,
    )


def _name_changes_inside(
    line: RecordedLine, section: MetreSection, context: BarContext, label: int, reporter: Reporter
) -> None:
    """Report the tempos and key signatures that begin inside a section, with their bars.

    `label` is the number of the first bar of the section.
    """
    if not section.last or not section.rhythm.notes:
        return
    per_quarter, metre = line.file.ticks_per_quarter, section.metre
    chords = [place for place in section.places if place.chord is not None]
    first, _ = outer_bars(section.rhythm.notes, chords, section.end, metre)
    begin = section.start + int(section.rhythm.notes[0].start * per_quarter)

    def bar(tick: int) -> str:
        return str(label + int(Fraction(tick - section.start, per_quarter) // metre.bar_quarters) - first)

    inside = [point[0] for point in line.tempo_map.points if begin < point[0] <= section.last]
    tempos = [(bar(tick), line.tempo_map.tempo_qpm(tick)) for tick in (begin, *inside)]
    name_other_tempos(tempos, section.tempo_qpm, reporter)
    keys = sorted(key for track in line.file.tracks for key in track.keys)
    later = [(bar(key.tick), key.signature) for key in keys if begin < key.tick <= section.last]
    name_other_signatures(later, context.fifths, reporter)
