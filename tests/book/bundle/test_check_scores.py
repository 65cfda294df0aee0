"""Files for other programs that are damaged. Whole bundles are tested in test_check_files.py."""

from __future__ import annotations

import pytest

from shedbook.book.bundle.check_scores import midi_faults, musicxml_faults
from shedbook.book.verbs.export_midi import plain_midi
from shedbook.phrase.fields import phrase_from_fields

TEXT = {"title": "Low tide", "changes": "Dm7", "line": "1/4 d4 grace:e f 1/2 a"}
WHOLE = plain_midi(phrase_from_fields(TEXT))


@pytest.mark.parametrize(
    ("content", "semitones", "said"),
    [
        (WHOLE, 0, []),
        (b"", 0, ["it is no MIDI file: EOFError"]),  # what has no words of its own is called by its kind
        (b"no MIDI file at all", 0, ["it is no MIDI file: MThd not found. Probably not a MIDI file"]),
        (
            WHOLE.replace(b"\x90\x3e", b"\x90\x3f", 1), 0,
            ["at quarter 0 it has MIDI 63 at 0 in place of MIDI 62 at 0"],
        ),
        (WHOLE.replace(b"\x90\x40", b"\x90\x41", 1), 0, ["its grace notes are others"]),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_midi_file(content: bytes, semitones: int, said: list[str]) -> None:
    assert list(midi_faults(content, TEXT, semitones)) == said


def test_notes_are_held_against_what_sounds() -> None:
    """What is written a whole step higher than it sounds, sounds a whole step lower than it is written."""
    higher = {**TEXT, "changes": "Em7", "line": "1/4 e4 grace:f# g 1/2 b"}
    assert list(midi_faults(WHOLE, higher, 2)) == []
    assert len(list(midi_faults(WHOLE, TEXT, 2))) == 4  # every note and the grace notes


def test_what_is_no_xml_is_told() -> None:
    (said,) = musicxml_faults(b"<score", TEXT, 0)
    assert said.startswith("it is no XML: ")
