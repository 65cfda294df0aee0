"""The explanation: derived from the account, in plain sentences that follow the line."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analysis.helpers import TWELVE, phrase, read
from shedbook.analysis.account import account
from shedbook.analysis.telling.explanation import MOST, chosen_builds, explain
from shedbook.editions.transpose import transpose
from shedbook.phrase.model import Bar, Phrase
from shedbook.theory.interval import Interval
from shedbook.theory.pitch import spellings
from strategies import phrases

# Lines of our own, over common progressions.
LINES = [
    ("Cm7b5 | F7b9 | Bbm6", "locrian | half-whole diminished | melodic minor",
     "1/8 eb4 gb4 bb4 c5 eb5 c5 bb4 ab4 | a4 c5 eb5 e5 f5 eb5 d5 c5 | 1/4. db5 1/8 c5 1/2 bb4"),
    ("Dm7 | G7 | Cmaj7", "dorian | mixolydian | ionian",
     "1/8 d4 f4 a4 c5 b4 g#4 a4 c5 | b4 d5 c5 a4 g4 f4 e4 d4 | 1/2 e4 g4"),
    ("G7 | %", "mixolydian | %", "1/8 g4 a4 b4 d5 c5 b4 a4 g4 | 1/4 f4 d4 1/2 g4"),
    ("Dm7b5 | G7alt | Cm6 | %", "locrian | altered | melodic minor | %",
     "1/8 f4 ab4 c5 eb5 d5 c5 bb4 ab4 | b4 eb5 db5 b4 bb4 ab4 g4 f4 | eb4 g4 a4 b4 1/4 d5 eb5 | 1/2 c5 -"),
    ("Cmaj7", "ionian", "1/4 e4 g4 b4 d5"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "scales", "line"), LINES)
def test_a_teacher_s_sentences(changes: str, scales: str, line: str) -> None:
    sentences = explain(read(changes, line, scales))
    assert 5 <= len(sentences) <= 12
    for sentence in sentences:
        assert sentence[0].isupper() or sentence[1] in "#b"
        assert sentence.endswith(".")
        assert "%" not in sentence
        assert len(sentence) < 230
        assert not re.search(
            r"\b(beautiful|great|nice|perfect|lovely|brilliant|excellent|clever)\b", sentence
        )
    assert len(set(sentences)) == len(sentences)


@given(phrases(ornaments=False))
@settings(max_examples=80, deadline=None)
def test_no_two_neighbours_of_the_same_build(written: Phrase) -> None:
    found = account(written)
    if not found.notes:
        return
    builds = chosen_builds(found)
    for before, after in pairwise(builds):
        assert before.kind != after.kind or before.text.split()[:2] != after.text.split()[:2]
    assert sum(before.kind == after.kind for before, after in pairwise(builds)) <= 1


@pytest.mark.parametrize(("changes", "scales", "line"), LINES)
def test_neighbours_differ_in_build(changes: str, scales: str, line: str) -> None:
    kinds = [build.kind for build in chosen_builds(read(changes, line, scales))]
    assert all(before != after for before, after in pairwise(kinds))


@pytest.mark.parametrize(("changes", "scales", "line"), LINES)
@given(data=st.data())
@settings(max_examples=25, deadline=None)
def test_change_a_note_and_a_sentence_changes(
    changes: str, scales: str, line: str, data: st.DataObject
) -> None:
    written = phrase(changes, line, scales)
    places = [
        (at, index)
        for at, bar in enumerate(written.bars)
        for index, event in enumerate(bar.events)
        if event.pitch is not None
    ]
    at, index = data.draw(st.sampled_from(places))
    by = data.draw(st.sampled_from([-1, 1]))
    bar = written.bars[at]
    pitch = bar.events[index].pitch
    assert pitch is not None
    event = replace(bar.events[index], pitch=spellings(pitch.midi + by)[0])
    events = (*bar.events[:index], event, *bar.events[index + 1 :])
    bars = (*written.bars[:at], Bar(bar.number, events), *written.bars[at + 1 :])
    before, after = explain(account(written)), explain(account(replace(written, bars=bars)))
    assert _without_rotation(before) != _without_rotation(after)


def _without_rotation(sentences: tuple[str, ...]) -> frozenset[str]:
    """The names and numbers that the sentences say, whatever the build."""
    return frozenset(
        word
        for sentence in sentences
        for word in re.findall(r"[A-G](?: flat| sharp| natural)?\b[^ ]* ?\w*", sentence)
    )


def test_the_shape_to_aim_at() -> None:
    changes, scales, line = LINES[0]
    sentences = explain(read(changes, line, scales))
    text = " ".join(sentences)
    assert sentences[0].startswith(("Cm7b5 is climbed from E flat, its third", "The line climbs Cm7b5"))
    assert "B flat and A flat" in text
    assert "third of F7b9" in text
    assert "half-whole" in text.lower()
    assert "altered" in text
    assert re.search(r"E natural.*(passes|one note outside)", text)
    assert "D flat" in text
    assert sentences[-1] == "Practise the bar line into bar 2 until both half steps sound even."


def test_the_author_speaks_first() -> None:
    found = read("Cmaj7", "1/4 e4 g4 b4 d5", "ionian", commentary="Let the top note ring.")
    sentences = explain(found)
    assert sentences[0] == "Let the top note ring."
    assert len(sentences) <= MOST
    assert explain(found, with_commentary=False) == sentences[1:] or len(sentences) > 5


def test_a_whole_scale_is_said() -> None:
    found = read("G7", "1/8 g4 a4 b4 c5 d5 e5 f5 d5", "mixolydian")
    assert any("every note of the scale" in text or "All seven notes" in text for text in explain(found))
    fewer = read("G7", "1/8 g4 a4 b4 c5 d5 b4 f5 d5", "mixolydian")
    assert not any("every note of the scale" in text or "All seven" in text for text in explain(fewer))


def test_doubts_are_for_the_author_alone() -> None:
    """The project's design: a note that nothing accounts for is no business of the reader's."""
    found = read("Cmaj7", "1/8 c5 f#5 c#5 g5 1/2 e5", "ionian")
    assert any(note.role == "unaccounted" for note in found.notes)
    said = " ".join(explain(found))
    assert not any(word in said for word in ("no reason", "without a reason", "unresolved", "takes it up"))


@pytest.mark.parametrize("interval", TWELVE)
def test_as_many_sentences_in_every_key(interval: Interval) -> None:
    changes, scales, line = LINES[1]
    written = phrase(changes, line, scales)
    assert len(explain(account(transpose(written, interval)))) == len(explain(account(written)))


def test_for_the_reader_s_instrument() -> None:
    changes, scales, line = LINES[1]
    written = phrase(changes, line, scales)
    up = Interval(1, 2)
    assert explain(account(written, reader=up)) == explain(account(transpose(written, up)))


def test_a_long_solo_gets_no_more_than_twelve_sentences() -> None:
    changes, scales, line = LINES[0]
    many = [" | ".join([text] * 20) for text in (changes, scales, line)]
    sentences = explain(read(many[0], many[2], many[1]))
    assert len(sentences) == MOST
    assert len({re.sub(r"bar \d+", "bar", sentence) for sentence in sentences}) == MOST


def test_a_note_explained_by_its_crossing_is_not_explained_again() -> None:
    found = read("Am7 | D7", "1/8 a4 c5 e g e c5 a4 g# | 1/4 g4 f# d f#", "dorian | mixolydian")
    text = " ".join(explain(found))
    assert text.count("G sharp leads") + text.count("G sharp, outside") + text.count("through G sharp") <= 1


def test_a_line_inside_its_scales_says_so_only_where_there_is_little_else() -> None:
    found = read("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 g a c5 | b4 d5 c a4 g f e d | 1/2 e4 g",
                 "dorian | mixolydian | ionian")  # fmt: skip
    builds = chosen_builds(found)
    assert not any(re.search(r"[Ee]very note belongs|stays inside|No note lies", one.text) for one in builds)


@given(phrases(most_bars=3, ornaments=False))
@settings(max_examples=60, deadline=None)
def test_no_sentence_has_a_hole(written: Phrase) -> None:
    """Also where no chord sounds, and a note has no degree."""
    for sentence in explain(account(written), with_commentary=False):
        assert not re.search(
            r",\s*,|\bits[ ,.]*[,.]|\s[,.;:]|  |[:;]\.|\bNone\b|to no chord|\band and\b", sentence
        )


@pytest.mark.parametrize("line", ["1/1 e4", "1/8 e4 f# g a 1/2 b4"])
def test_no_chord_at_all(line: str) -> None:
    sentences = explain(read("N.C.", line))
    assert 5 <= len(sentences) <= 12
    assert not any("its ." in sentence or ", ," in sentence for sentence in sentences)
