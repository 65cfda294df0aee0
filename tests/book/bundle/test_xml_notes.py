"""Sounding notes of MusicXML. Sources: MusicXML 4.0; music21 as a second opinion."""

from __future__ import annotations

from fractions import Fraction

import music21
import pytest

from shedbook.book.bundle.xml_notes import XmlNote, chord_roots, sounding_in_xml
from shedbook.editions.instruments.edition import editions_in
from shedbook.exchange.musicxml.writer import Setting, musicxml
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import sounding_notes

TIED = """<score-partwise><part id="P"><measure><attributes><divisions>2</divisions>
<transpose><chromatic>-2</chromatic></transpose></attributes>
<harmony><root><root-step>E</root-step><root-alter>-1</root-alter></root></harmony>
<note><grace/><pitch><step>C</step><octave>5</octave></pitch></note>
<note><pitch><step>D</step><octave>5</octave></pitch><duration>6</duration></note>
<note><pitch><step>B</step><alter>-1</alter><octave>4</octave></pitch>
<duration>2</duration><tie type="start"/></note>
</measure><measure>
<note><pitch><step>B</step><alter>-1</alter><octave>4</octave></pitch>
<duration>1</duration><tie type="stop"/></note>
<note><rest/><duration>3</duration></note><backup><duration>4</duration></backup>
<forward><duration>2</duration></forward>
<note><pitch><step>F</step><alter>1</alter><octave>4</octave></pitch><duration>2</duration></note>
</measure></part></score-partwise>"""


def test_ties_grace_notes_transposition_and_time() -> None:
    notes, graces = sounding_in_xml(TIED.encode())
    assert notes == [
        XmlNote(Fraction(0), Fraction(3), 72),
        XmlNote(Fraction(3), Fraction(3, 2), 68),
        XmlNote(Fraction(5), Fraction(1), 64),
    ]
    assert graces == [70]
    assert list(chord_roots(TIED.encode())) == ["Eb"]


@pytest.mark.parametrize(
    "content", [b"", b"<score-partwise/>", TIED[:200].encode(), TIED.replace("<step>D", "<step>H").encode()]
)
def test_what_cannot_be_followed(content: bytes) -> None:
    with pytest.raises(ValueError, match=r"it is no XML|no part|no step"):
        sounding_in_xml(content)


@pytest.mark.parametrize("edition", ["concert", "bflat", "tenor saxophone"])
def test_what_we_write_sounds_as_the_phrase_does_to_both(edition: str) -> None:
    fields = {"changes": "Cm7 | F7", "line": "1/8t c5 d eb 1/4 g 1/8 ab - 1/4 f | 1/4 f4 1/8 c#5 d 1/2 bb4"}
    phrase = phrase_from_fields(fields)
    (one,) = editions_in(edition)
    setting = Setting("part", one.transposition, ("G", 2, 0), signature=False)
    text = musicxml(phrase, setting, book="", author="", rights="", software="x")
    notes, _ = sounding_in_xml(text.encode())
    wanted = [(note.start, note.quarters, note.pitch.midi) for note in sounding_notes(phrase)]
    assert [tuple(note) for note in notes] == wanted
    score = music21.converter.parse(text, format="musicxml").toSoundingPitch()
    heard = [(Fraction(one.getOffsetInHierarchy(score)), one.pitch.midi) for one in score.flatten().notes
             if isinstance(one, music21.note.Note)]  # fmt: skip
    assert [(start.limit_denominator(96), midi) for start, midi in heard] == [
        (start, midi) for start, _, midi in wanted
    ]
