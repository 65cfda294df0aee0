"""MEI files: Verovio and music21's own MEI reader load them and find the notes of the model."""

from __future__ import annotations

import base64
import io
import warnings
from fractions import Fraction
from typing import Any

import mido
import pytest
import verovio
from music21 import mei as music21_mei
from music21 import note as music21_note

from exchange.demo_phrases import PHRASES
from shedbook.book.verbs.export_mei import Heading, mei_file
from shedbook.editions.transpose import transpose
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.interval import UNISON, Interval

HARD = phrase_from_fields(
    {
        "title": 'Salt & "spray" <sketch>',
        "key": "C minor",
        "changes": "Dm7b5 | G7b9 | Cm6 | N.C.",
        "tempo": 132,
        "pickup": "1/4",
        "line": "1/8 d4 e | (f4 ab.scoop c5) grace:b4 eb5 1/8t d f ab 1/4 g.accent | "
        "1/8+1/16 f4 1/16 g 1/4 ab.fall b.ghost bb.staccato.tenuto | "
        "1/4 grace:eb5 grace:d c 1/16(5:4) (d e f g a) 1/4 - c5 | + 1/4 1/2. -",
    }
)
SIX_EIGHT = phrase_from_fields(
    {"title": "Swell", "metre": "6/8", "changes": "Fmaj7 | C7", "feel": "straight", "tempo": 60,
     "line": "1/8 c5 d e 1/4. f | 1/4 e5 1/8 d 1/4. c"}
)  # fmt: skip
EVERY = [*PHRASES, HARD, SIX_EIGHT]
ALTO = Interval(5, 9)
"""An alto saxophone is written a major sixth higher than it sounds."""

HEADING = Heading(book="Tide tables", author="A. Writer", rights="All rights & none", version="1.2")


def written(phrase: Phrase, transposed: Interval = UNISON) -> str:
    moved = transpose(phrase, transposed) if transposed != UNISON else phrase
    return mei_file(moved, clef="G2", transposed=transposed, heading=HEADING)


def loaded(text: str, capfd: pytest.CaptureFixture[str]) -> Any:
    """Return Verovio's toolkit with a file, which it must have loaded without a word."""
    toolkit = verovio.toolkit()
    verovio.enableLog(verovio.LOG_WARNING)
    try:
        assert toolkit.loadData(text)
        toolkit.renderToMIDI()
        said = capfd.readouterr()
    finally:
        verovio.enableLog(verovio.LOG_OFF)
    assert said.out + said.err == ""
    return toolkit


@pytest.mark.parametrize("phrase", EVERY, ids=[phrase.title for phrase in EVERY])
def test_verovio_plays_the_notes_of_the_model(phrase: Phrase, capfd: pytest.CaptureFixture[str]) -> None:
    toolkit = loaded(written(phrase), capfd)
    starts = {name: row["qstamp"] for row in toolkit.renderToTimemap() for name in row.get("on", ())}
    before = -phrase.bar_start(phrase.bars[0].number)
    for index, sounding in enumerate(sounding_notes(phrase)):
        name = f"n{index}"
        assert toolkit.getMIDIValuesForElement(name)["pitch"] == sounding.pitch.midi
        start = float(sounding.start + before)
        # Verovio lets grace notes delay their note.
        near = 0.2 if f'xml:id="{name}g0"' in written(phrase) else 0.001
        assert starts[name] == pytest.approx(start, abs=near)


def test_a_transposing_reader_sounds_in_concert_pitch(capfd: pytest.CaptureFixture[str]) -> None:
    midi = loaded(written(SIX_EIGHT, ALTO), capfd).renderToMIDI()
    file = mido.MidiFile(file=io.BytesIO(base64.b64decode(midi)))
    found = [one.note for track in file.tracks for one in track if one.type == "note_on" and one.velocity]
    assert found == [sounding.pitch.midi for sounding in sounding_notes(SIX_EIGHT)]


@pytest.mark.parametrize("phrase", EVERY, ids=[phrase.title for phrase in EVERY])
def test_music21_reads_the_notes_of_the_model(phrase: Phrase) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        score = music21_mei.MeiToM21Converter(written(phrase)).run()
    found: list[tuple[Fraction, Fraction, int]] = []
    for one in score.flatten().getElementsByClass(music21_note.Note):
        start, length = Fraction(one.offset), Fraction(one.duration.quarterLength)
        if one.tie is not None and one.tie.type in ("continue", "stop"):
            last = found[-1]
            found[-1] = (last[0], last[1] + length, last[2])
        else:
            found.append((start, length, one.pitch.midi))
    before = -phrase.bar_start(phrase.bars[0].number)
    own = [(one.start + before, one.quarters, one.pitch.midi) for one in sounding_notes(phrase)]
    assert len(found) == len(own)
    for theirs, ours in zip(found, own, strict=True):
        assert theirs[2] == ours[2]
        # music21 keeps some places as decimals.
        assert float(theirs[0]) == pytest.approx(float(ours[0]), abs=0.001)
        assert float(theirs[1]) == pytest.approx(float(ours[1]), abs=0.001)


@pytest.mark.parametrize(
    "said",
    [
        '<title>Salt &amp; "spray" &lt;sketch&gt;</title>',
        "<composer>A. Writer</composer>",
        "<useRestrict>All rights &amp; none</useRestrict>",
        '<application version="1.2">',
        '<key pname="c" mode="minor">C minor</key>',
        'mm="132" mm.unit="4"',
        ">swing, <rend",
        ">Dm7b5</harm>",
        ">N.C.</harm>",
        '<slur staff="1" startid="#n2" endid="#n4"',
        'artic="acc"',
        'artic="stacc ten"',
        'head.mod="paren"',
        ">fall</dir>",
        ">scoop</dir>",
        'grace="unacc"',
        '<measure metcon="false" n="0">',
    ],
)
def test_what_a_file_says(said: str) -> None:
    assert said in written(HARD)


def test_a_dotted_beat_is_counted_as_one() -> None:
    text = written(SIX_EIGHT)
    assert 'mm="60" mm.unit="4"' in text
    assert 'mm.dots="1"' in text
    assert 'midi.bpm="90"' in text
