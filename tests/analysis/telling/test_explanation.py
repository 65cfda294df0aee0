"""The explanation: the point first, then along the line, what to practise, and nothing for the desk."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings

from analysis.helpers import TWELVE, phrase, read
from shedbook.analysis.account import account
from shedbook.analysis.telling.explanation import MOST, explain, notes_of_sentences, told_remarks
from shedbook.analysis.telling.remark import ALONG, ELSEWHERE, PRACTICE
from shedbook.editions.transpose import transpose
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval
from strategies import phrases

# Lines of our own, over common progressions; each with what a teacher would say of it first.
LINES = [
    ("Cm7b5 | F7b9 | Bbm6", "locrian | half-whole diminished | melodic minor",
     "1/8 eb4 gb4 bb4 c5 eb5 c5 bb4 ab4 | a4 c5 eb5 e5 f5 eb5 d5 c5 | 1/4. db5 1/8 c5 1/2 bb4",
     "B♭ and A♭ close in on A, the third of F7♭9"),
    ("Dm7 | G7 | Cmaj7", "dorian | mixolydian | ionian",
     "1/8 d4 f4 a4 c5 b4 g#4 a4 c5 | b4 d5 c5 a4 g4 f4 e4 d4 | 1/2 e4 g4",
     "A and C close in on B, the third of G7."),
    ("C7alt | Fm6", "altered | melodic minor", "1/8 e4 ab c5 eb db bb4 gb bb | 1/4. ab4 1/8 g - c5 1/4 d",
     "Every note of the C altered scale is in bar 1."),
    ("Cm7 | F7b9 | Bbm7 | Eb7", "phrygian | half-whole diminished | dorian | mixolydian",
     "1/8 eb5 c 1/4 - 1/8 g4 bb c5 bb4 | a4 c5 eb gb f eb 1/4 d | 1/8 db5 bb4 1/4 - 1/8 f ab bb ab |"
     "g4 bb db5 f 1/4. c 1/8 -",
     "At every change a seventh falls to the next third: B♭ to A, E♭ to D♭ and A♭ to G."),
    ("D7 | % | G6", "bebop dominant | % | ionian",
     "1/8 a5 f# 1/4 - 1/8 d c# c b4 | a4 g f# a c5 e d c | b4 a b d5 1/4. e 1/8 -",
     "C♯ is the extra note of the bebop dominant scale: it keeps D, C, A and F♯, tones of D7, on the beat."),
    ("Bbmaj7 G7b9 | Cm7 F7 | Bb6", "", "1/8 d5 d - d - d b4 ab | g4 d5 - d - d c a4 |"
     "d5 bb4 1/4 - 1/8 - g 1/4 f",
     "D stays through five chords and changes its meaning with each"),
    ("Dmaj7 | Dm6 | Amaj7 | %", "", "1/4. c#5 1/8 a 1/4. f# 1/8 d | 1/4. c#5 1/8 a 1/4. f 1/8 d |"
     "1/4. e5 1/8 c# 1/4 b4 1/8 a b | 1/2. g#4 1/4 -",
     "Bar 2 repeats bar 1 with F in place of F♯: that is the change to Dm6."),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "scales", "line", "first"), LINES)
def test_one_thing_first(changes: str, scales: str, line: str, first: str) -> None:
    assert explain(read(changes, line, scales))[0].startswith(first)


@given(phrases(ornaments=False))
@settings(max_examples=40, deadline=None)
def test_a_few_plain_sentences(written: Phrase) -> None:
    sentences = explain(account(written), with_commentary=False)
    assert 1 <= len(sentences) <= MOST
    assert len(set(sentences)) == len(sentences)
    for sentence in sentences:
        assert sentence[0].isupper()
        assert sentence.endswith(".")
        assert len(sentence) < 260
        assert not re.search(r",\s*,|\bits[ ,.]*[,.]|\s[,.;:]|  |[:;]\.|\bNone\b|\band and\b|[{}]", sentence)
        assert not re.search(r"\b[A-G][b#]|\b[A-G] (flat|sharp)\b", sentence)  # one way to write names
        # English as it is spoken: nobody "is climbed", nothing "stands" on a beat, no praise.
        assert not re.search(
            r"\bis (climbed|reached|wrapped|answered|taken|approached)\b|\bstands? chord", sentence
        )
        assert not re.search(r"\b(beautiful|great|nice|perfect|lovely|brilliant|clever)\b", sentence)


@given(phrases(ornaments=False))
@settings(max_examples=60, deadline=None)
def test_the_order_of_the_line(written: Phrase) -> None:
    """One remark may lead; the others follow the line, then comes one thing to practise, then other homes."""
    found = account(written)
    if not found.notes:
        return
    remarks = told_remarks(found)
    rest = remarks[1:] if remarks[0].leads else remarks
    assert [one.part for one in rest] == sorted(one.part for one in rest)
    along = [one.first for one in rest if one.part == ALONG]
    assert along == sorted(along)
    assert [one.part for one in remarks].count(PRACTICE) <= 1
    assert [one.part for one in remarks].count(ELSEWHERE) <= 1


def test_the_author_speaks_first() -> None:
    changes, scales, line, _ = LINES[3]
    sentences = explain(read(changes, line, scales, commentary="Let the top note ring."))
    assert sentences[0] == "Let the top note ring."
    assert 1 < len(sentences) <= 5


def test_doubts_are_for_the_author_alone() -> None:
    """The project's design: a note that nothing accounts for is no business of the reader's."""
    found = read("Cmaj7", "1/8 c5 f#5 c#5 g5 1/2 e5", "ionian")
    assert any(note.role == "unaccounted" for note in found.notes)
    said = " ".join(explain(found))
    assert not any(word in said for word in ("no reason", "without a reason", "unresolved", "takes it up"))


@pytest.mark.parametrize("interval", TWELVE)
def test_the_same_remarks_in_every_key(interval: Interval) -> None:
    changes, scales, line, _ = LINES[3]
    written = phrase(changes, line, scales)
    here, there = told_remarks(account(written)), told_remarks(account(transpose(written, interval)))
    assert [(one.kind, one.first) for one in here] == [(one.kind, one.first) for one in there]


def test_for_the_reader_s_instrument() -> None:
    changes, scales, line, _ = LINES[1]
    written = phrase(changes, line, scales)
    up = Interval(1, 2)
    assert explain(account(written, reader=up)) == explain(account(transpose(written, up)))


def test_a_long_solo_gets_no_more_sentences_than_there_is_room_for() -> None:
    changes, scales, line, _ = LINES[0]
    many = [" | ".join([text] * 20) for text in (changes, scales, line)]
    sentences = explain(read(many[0], many[2], many[1]))
    assert len(sentences) == MOST
    assert len({re.sub(r"bars? \d+", "bar", sentence) for sentence in sentences}) == MOST


def test_strong_beats_are_told_only_where_they_are_the_point() -> None:
    changes, scales, line, _ = LINES[1]
    assert not any("strong beat" in text for text in explain(read(changes, line, scales)))


def test_what_was_named_is_called_those_notes() -> None:
    changes, scales, line = "Bm7 | E7alt | Amaj7", "dorian | altered | ionian", (
        "1/8 f#5 f# 1/4 - 1/8 d b4 c#5 a4 | g#4 bb c5 d f g e d | c#5 e 1/4 - 1/2 -"
    )  # fmt: skip
    sentences = explain(read(changes, line, scales))
    assert sentences[0] == "At both changes the seventh falls to the next third: A to G♯ and D to C♯."
    assert "Play only those sevenths and thirds first, in time, then put the rest back." in sentences


@pytest.mark.parametrize("line", ["1/1 e4", "1/8 e4 f# g a 1/2 b4"])
def test_no_chord_at_all(line: str) -> None:
    sentences = explain(read("N.C.", line))
    assert sentences
    assert not any("its ." in sentence or ", ," in sentence for sentence in sentences)


def test_a_sentence_shows_the_notes_that_it_names() -> None:
    """An altered line: E A flat C E flat and so on, then G flat and B flat close in on A flat."""
    there = account(
        phrase(
            "C7alt | Fm6",
            "1/8 e4 ab c5 eb db bb4 gb bb | 1/4. ab4 1/8 g - c5 1/4 d",
            "altered | melodic minor",
        )
    )
    told = dict(zip(explain(there), notes_of_sentences(there), strict=True))
    start = next(notes for text, notes in told.items() if text.startswith("Start on E"))
    assert {0, 3} <= set(start)
    close = next(notes for text, notes in told.items() if "close in on A♭" in text)
    assert close == (6, 7, 8)


@settings(max_examples=25, deadline=None)
@given(phrases())
def test_every_sentence_has_its_notes_and_they_are_there(written: Phrase) -> None:
    there = account(written)
    shown = notes_of_sentences(there)
    assert len(shown) == len(explain(there, with_commentary=False))
    assert all(0 <= note < len(there.notes) for notes in shown for note in notes)
    assert all(list(notes) == sorted(set(notes)) for notes in shown)
