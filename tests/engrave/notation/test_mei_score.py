"""The MEI of a phrase."""

from __future__ import annotations

import difflib
import os
import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings

import strategies
from shedbook.engrave.notation.mei_score import CLEFS, mei
from shedbook.engrave.notation.readable_rhythm import regrouped
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.errors import RenderError
from shedbook.phrase.model import Bar, Event, Phrase, Value, sounding_notes
from shedbook.theory.pitch import Pitch

Make = Callable[..., Phrase]
GOLDEN = Path(__file__).parent / "golden"
NS = "{http://www.music-encoding.org/ns/mei}"

SAMPLES = {
    "minor ii-V-i": (
        "1/8 f4 ab c5 eb d f ab g | b4 ab d5 f 1/8t ab g f 1/4 eb | 1/2 d - ",
        "Dm7b5 | G7b9 | Cm6",
    ),
    "ties": ("1/2+1/8 c#5 1/4. d | + 1/2 1/4 d# d | + 1/1", "A7 | D7 | D7"),
    "tuplets": ("1/16(5:4) c4 c# d d# e 1/4t f 1/8t gb 1/8 b bb5 1/8t a5 bbb ab", "C7"),
    "pick-up": ("1/8 g4 a# | 1/4. b 1/8 bb 1/8 a ab g gb", "G7"),
    "grace and marks": ("1/4 grace:f#4 g.accent f.ghost.staccato (eb5 d) | 1/1 c.fall", "C7 | F7"),
}


def sample(make: Make, name: str) -> Phrase:
    line, changes = SAMPLES[name]
    return make(line, changes, pickup="1" if name == "pick-up" else "0")


def test_golden(make: Make) -> None:
    phrase = sample(make, "minor ii-V-i")
    text = mei(phrase, StudyMarks(under={0: "b3", 1: "b5"}), room={0: "iiii", 1: "iiii", 2: "iii"})
    text = re.sub(r"(?=<(measure|sb|note|harm|rest|tuplet|beam|section|music))", "\n", text) + "\n"
    path = GOLDEN / "minor_ii_v_i.mei"
    if os.environ.get("UPDATE_GOLDEN"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, "utf-8")
    expected = path.read_text("utf-8")
    assert text == expected, "\n".join(difflib.unified_diff(expected.splitlines(), text.splitlines()))


@pytest.mark.parametrize("name", SAMPLES)
def test_music21_reads_the_same_notes(make: Make, name: str) -> None:
    """Source: music21's MEI importer, which works out sounding pitch and length on its own."""
    from music21 import mei as importer  # noqa: PLC0415 (slow to load, used here alone)

    phrase = sample(make, name)
    score = importer.MeiToM21Converter(mei(phrase)).run()
    found: list[tuple[int, object]] = []
    for note in score.flatten().notes:
        if note.duration.isGrace:
            continue
        if note.tie is not None and note.tie.type != "start":
            midi, length = found[-1]
            assert midi == note.pitch.midi
            found[-1] = (midi, length + note.quarterLength)
        else:
            found.append((note.pitch.midi, note.quarterLength))
    assert found == [(note.pitch.midi, note.quarters) for note in sounding_notes(phrase)]


@settings(max_examples=60, deadline=None)
@given(strategies.phrases())
def test_every_head_stands_once_and_the_xml_is_sound(phrase: Phrase) -> None:
    root = ET.fromstring(mei(phrase))
    names = [note.get("{http://www.w3.org/XML/1998/namespace}id") for note in root.iter(f"{NS}note")]
    assert len(names) == len(set(names))
    struck = [name for name in names if name is not None and re.fullmatch(r"n\d+", name)]
    assert struck == [f"n{index}" for index in range(len(sounding_notes(phrase)))]
    pitches = [note for note in root.iter(f"{NS}note") if note.get("grace") is None]
    bars = [regrouped(bar, phrase.metre) for bar in phrase.bars]
    written = [len(e.values) for bar in bars for e in bar.events if e.pitch is not None]
    assert len(pitches) == sum(written)


def test_a_tie_names_its_beginning_middle_and_end(make: Make) -> None:
    text = mei(make("1/1 c5 | + 1/1 | + 1/2 1/2 d", "C | C | C"))
    assert re.findall(r'xml:id="(\w+)"[^>]* tie="(\w)"', text) == [("n0", "i"), ("n0t1", "m"), ("n0t2", "t")]


def test_a_whole_bar_of_rest_stands_in_the_middle(make: Make) -> None:
    assert "<mRest/>" in mei(make("1/1 - | c4", "C | C"))
    assert "<mRest/>" not in mei(make("1/2 - c4", "C"))


def test_the_bracket_of_a_tuplet_stands_where_no_beam_does(make: Make) -> None:
    beamed, open_ = (mei(make(line, "C")) for line in ("1/8t c4 d e 1/4 f 1/2 g", "1/4t c4 d e 1/2 f"))
    assert 'bracket.visible="false"' in beamed
    assert 'bracket.visible="true"' in open_


def test_a_tuplet_inside_a_beam_nests(make: Make) -> None:
    text = mei(make("1/8 c4 1/16t d e f 1/4 g 1/2 a", "C"))
    assert re.sub(r"<note[^>]*>", "o", re.findall(r"<beam>.*</beam>", text)[0]) == (
        '<beam>o<tuplet num="3" numbase="2" bracket.visible="false">ooo</tuplet></beam>'
    )


def test_systems_begin_every_four_bars_after_the_pickup(make: Make) -> None:
    phrase = make("1/4 g4 | " + " | ".join(["1/1 c5"] * 9), " | ".join(["C"] * 9), pickup="1")
    text = mei(phrase, systems=(4, 4, 1))
    bars = re.findall(r"(<sb/>)?<measure", text)
    assert [index for index, found in enumerate(bars) if found] == [0, 5, 9]


def test_slurs_join_the_first_and_the_last_head(make: Make) -> None:
    text = mei(make("1/2 (c5 1/2 d | + 1/2 1/2 e)", "C | C"))
    first, second = text.split("</measure><measure")
    assert '<slur staff="1" startid="#n0" endid="#n2"/>' in first
    assert "slur" not in second


def test_grace_notes_stay_out_of_the_beam_that_they_open(make: Make) -> None:
    text = mei(make("1/8 grace:f#4 g a 1/4 b 1/2 c", "C"))
    assert re.search(r'<graceGrp><note xml:id="n0g0"[^>]*/></graceGrp><beam><note xml:id="n0"', text)


@pytest.mark.parametrize("clef", CLEFS)
def test_every_clef_is_written(make: Make, clef: str) -> None:
    root = ET.fromstring(mei(make("1/1 c4", "C"), clef=clef))
    staff = root.find(f".//{NS}staffDef")
    assert staff is not None
    assert f"{staff.get('clef.shape')}{staff.get('clef.line')}" == clef[:2]
    assert (staff.get("clef.dis.place") == "below") == clef.endswith("-8")


def test_a_note_that_cannot_be_written_is_an_error(make: Make) -> None:
    phrase = make("1/1 c4", "C")
    odd = Event(Pitch(35, 64), (Value(1),))  # C quadruple sharp
    broken = Phrase(phrase.title, phrase.key, phrase.metre, (Bar(1, (odd,)),), phrase.changes, phrase.scales)
    with pytest.raises(RenderError, match="cannot be written"):
        mei(broken)
