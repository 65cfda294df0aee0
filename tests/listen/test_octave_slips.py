from __future__ import annotations

from dataclasses import replace

import numpy as np

from listen.tones import sound_of
from shedbook.listen.evidence import Evidence, evidence_of
from shedbook.listen.note_search import EXTRA, FoundNote
from shedbook.listen.octave_slips import with_octaves_mended

NOTES = (FoundNote(10, 30, 52, EXTRA, -1), FoundNote(30, 80, 64, EXTRA, -1))


def evidence(dip_db: float) -> Evidence:
    heard = evidence_of(sound_of([(0.0, 1.0, 64)], rate=24_000).mean(axis=1), 24_000)
    level = np.full(heard.frames, -20.0, np.float32)
    level[28:31] -= dip_db
    return replace(heard, level_db=level)


def test_a_note_that_begins_an_octave_low_is_one_note() -> None:
    assert with_octaves_mended(NOTES, evidence(0.0)) == (FoundNote(10, 80, 64, EXTRA, -1),)


def test_an_octave_that_is_struck_anew_stays() -> None:
    assert with_octaves_mended(NOTES, evidence(9.0)) == NOTES


def test_other_intervals_and_long_notes_stay() -> None:
    fifth = (NOTES[0]._replace(midi=57), NOTES[1])
    long = (NOTES[0], NOTES[1]._replace(first=60, end=99))
    assert with_octaves_mended(fifth, evidence(0.0)) == fifth
    assert with_octaves_mended((long[0]._replace(end=60), long[1]), evidence(0.0))[0].end == 60
