"""A file for other programs held against the schema of its format and the music that it should hold."""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import mido
from lxml import etree

from shedbook.book.bundle.xml_notes import chord_roots, sounding_in_xml
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase, sounding_notes

_SCHEMA = Path(__file__).parent / "schema"
_ADDRESS = b"http://www.musicxml.org/xsd/"
_GRACE_VELOCITY = 80
"""How hard our MIDI files strike grace notes, and no other note."""
_MOST = 3


@cache
def _schema() -> Any:
    """Return MusicXML 4.0's own schema (W3C Music Notation Community Group)."""
    path = _SCHEMA / "musicxml_4_0.xsd"
    text = path.read_bytes().replace(_ADDRESS, b"")  # the schemas that it takes in lie beside it
    return etree.XMLSchema(etree.fromstring(text, etree.XMLParser(no_network=True), base_url=path.as_uri()))


def musicxml_faults(content: bytes, text: Mapping[str, Any], semitones: int) -> Iterator[str]:
    """Yield what is wrong with a MusicXML file.

    Args:
        content: its bytes.
        text: the phrase that it should hold, as it is written for the reader.
        semitones: how much higher that is than it sounds.
    """
    try:
        tree = etree.fromstring(content, etree.XMLParser(load_dtd=False, no_network=True))
    except etree.XMLSyntaxError as error:
        yield f"it is no XML: {error}"
        return
    schema = _schema()
    if not schema.validate(tree):
        yield f"the schema refuses it: {schema.error_log[0].message}"
    phrase = phrase_from_fields(text)
    try:
        notes, graces = sounding_in_xml(content)
    except ValueError as error:
        yield f"it cannot be followed: {error}"
        return
    before = phrase.bars[0].quarters if phrase.bars[0].number == 0 else Fraction(0)
    wanted = [
        (one.start + before, one.quarters, one.pitch.midi - semitones) for one in sounding_notes(phrase)
    ]
    found = [tuple(note) for note in notes]
    yield from _differences(wanted, found)
    if sorted(graces) != sorted(_graces(phrase, semitones)):
        yield "its grace notes are others"
    roots = [str(one.chord.root) if one.chord.root is not None else "C" for one in phrase.changes]
    if list(chord_roots(content)) != roots:
        yield f"its chords stand on {' '.join(chord_roots(content)) or 'nothing'}, not {' '.join(roots)}"
    title = (tree.findtext("movement-title") or tree.findtext("work/work-title") or "").strip()
    if title != phrase.title:
        yield f'it is called "{title}", not "{phrase.title}"'


def _differences(wanted: list[tuple[Any, ...]], found: list[tuple[Any, ...]]) -> Iterator[str]:
    """Yield the first notes that differ."""
    if len(wanted) != len(found):
        yield f"it has {len(found)} notes in place of {len(wanted)}"
        return
    pairs = [(one, other) for one, other in zip(wanted, found, strict=True) if one != other]
    for one, other in pairs[:_MOST]:
        yield f"at quarter {one[0]} it has {_note(other)} in place of {_note(one)}"


def _note(note: tuple[Any, ...]) -> str:
    length = f" for {note[1]}" if len(note) > 2 else ""
    return f"MIDI {note[-1]}{length} at {note[0]}"


def _graces(phrase: Phrase, semitones: int) -> list[int]:
    return [pitch.midi - semitones for bar in phrase.bars for event in bar.events for pitch in event.grace]


def midi_faults(content: bytes, text: Mapping[str, Any], semitones: int) -> Iterator[str]:
    """Yield what is wrong with a MIDI file; arguments as for `musicxml_faults`."""
    try:
        file = mido.MidiFile(file=io.BytesIO(content))
    except (
        OSError,
        EOFError,
        ValueError,
        IndexError,
        KeyError,
        mido.midifiles.meta.KeySignatureError,
    ) as error:
        yield f"it is no MIDI file: {str(error) or type(error).__name__}"
        return
    phrase = phrase_from_fields(text)
    graces = _graces(phrase, semitones)
    struck = sorted(
        (Fraction(at, file.ticks_per_beat), message.note, message.velocity)
        for track in file.tracks
        for at, message in _timed(track)
        if message.type == "note_on" and message.velocity and message.channel != 9
    )
    main = [one for one in struck if not (graces and one[2] == _GRACE_VELOCITY)]
    first = main[0][0] if main else Fraction(0)
    wanted = [(one.start, one.pitch.midi - semitones) for one in sounding_notes(phrase)]
    start = wanted[0][0] if wanted else Fraction(0)
    grain = Fraction(1, file.ticks_per_beat)
    yield from _differences(
        [(_near(at - start, grain), midi) for at, midi in wanted],
        [(_near(at - first, grain), midi) for at, midi, _ in main],
    )
    if graces and sorted(one[1] for one in struck if one[2] == _GRACE_VELOCITY) != sorted(graces):
        yield "its grace notes are others"


def _near(at: Fraction, grain: Fraction) -> Fraction:
    """Return a place on the grid of a MIDI file's ticks."""
    return round(at / grain) * grain


def _timed(track: Any) -> Iterator[tuple[int, Any]]:
    at = 0
    for message in track:
        at += message.time
        yield at, message
