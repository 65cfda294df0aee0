"""Both readers on bytes that nobody vouches for: phrases or a clear error, never anything else.

`tools/fuzz.py` searches further, guided by coverage; what it finds is kept small in `corpus` and read here.
"""

from __future__ import annotations

import contextlib
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from exchange.demo_phrases import PHRASES
from exchange.playing import phrase_file
from exchange.scores import harmony, note, score
from shedbook.errors import ShedbookError
from shedbook.exchange.ground.report import Imported
from shedbook.exchange.midi.file_bytes import parse_midi as read_bytes
from shedbook.exchange.midi.reader import read_midi
from shedbook.exchange.musicxml.reader import read_musicxml
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields

CORPUS = Path(__file__).parent / "corpus"
MIDI = [phrase_file(phrase, form=form) for phrase, form in zip(PHRASES[:4], (0, 1, 0, 1), strict=True)]
XML = [score(harmony("G", "dominant") + note("B4") + note("C5")), score(note("C4"), note("D4"))]
SLOWEST_S = 20

relaxed = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))


def survives(data: bytes, *, midi: bool) -> None:
    """Read; what comes out can be written and read again, and an error says something."""
    read = read_midi if midi else read_musicxml
    began = time.perf_counter()
    message = "read"
    try:
        imported: Imported = read(data, "any")
    except ShedbookError as error:
        message = error.message
    else:
        for phrase in imported.phrases:
            assert phrase_from_fields(fields_from_phrase(phrase)).bars == phrase.bars
    assert message
    assert message.isprintable()
    assert time.perf_counter() - began < SLOWEST_S


@st.composite
def mutated(draw: st.DrawFn, seeds: list[bytes]) -> bytes:
    """Draw a valid file with some bytes changed, left out, doubled, or cut off."""
    data = bytearray(draw(st.sampled_from(seeds)))
    for _ in range(draw(st.integers(1, 8))):
        if not data:
            break
        at = draw(st.integers(0, len(data) - 1))
        length = draw(st.integers(1, 16))
        kind = draw(st.sampled_from(["change", "leave out", "double", "cut", "put in"]))
        if kind == "change":
            data[at] = draw(st.sampled_from([0, 1, 0x2F, 0x51, 0x7F, 0x80, 0x90, 0xC0, 0xF0, 0xFF]))
        elif kind == "leave out":
            del data[at : at + length]
        elif kind == "double":
            data[at:at] = data[at : at + length]
        elif kind == "cut":
            del data[at:]
        else:
            data[at:at] = draw(st.binary(max_size=16))
    return bytes(data)


@relaxed
@given(st.binary(max_size=400))
def test_random_bytes_as_midi(data: bytes) -> None:
    survives(data, midi=True)
    survives(b"MThd\0\0\0\6\0\1\0\1\1\xe0MTrk" + len(data).to_bytes(4, "big") + data, midi=True)


@relaxed
@given(mutated(MIDI))
def test_changed_midi_files(data: bytes) -> None:
    survives(data, midi=True)


@relaxed
@given(st.binary(max_size=400))
def test_random_bytes_as_a_score(data: bytes) -> None:
    survives(data, midi=False)
    survives(b"PK\3\4" + data, midi=False)


@relaxed
@given(mutated(XML))
def test_changed_scores(data: bytes) -> None:
    survives(data, midi=False)


@pytest.mark.parametrize("path", sorted(CORPUS.iterdir()), ids=lambda path: path.name)
def test_what_the_fuzzer_found(path: Path) -> None:
    survives(path.read_bytes(), midi=path.suffix == ".mid")


def test_a_file_cut_anywhere_is_read_or_refused() -> None:
    data = MIDI[1]
    for length in range(len(data)):
        with contextlib.suppress(ShedbookError):
            read_bytes(data[:length])
            pytest.fail(f"{length} of {len(data)} bytes were taken for a whole file")
