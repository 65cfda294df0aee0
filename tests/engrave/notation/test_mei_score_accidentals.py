"""Which notes show an accidental. Rules: Gould 2011, Behind Bars (from memory); common practice."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.editions.keys.phrase_in_key import in_keys
from shedbook.editions.spelling.courtesy_accidentals import COURTESY_RULES, courtesies
from shedbook.engrave.notation.mei_score import mei
from shedbook.phrase.accidentals import signature_alterations
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key

Make = Callable[..., Phrase]

DEMO = Path(__file__).parents[3] / "examples" / "tidewater"

CASES = [
    pytest.param("1/4 c4 d e f", "....", id="plain notes show nothing"),
    pytest.param("1/4 bb4 bb bb bb", "f...", id="holds for the bar"),
    pytest.param("1/4 bb4 b bb b", "fnfn", id="a natural cancels, and is cancelled"),
    pytest.param("1/4 bb4 bb5 bb4 bb5", "ff..", id="holds in its own octave only"),
    pytest.param("1/2 bb4 bb | 1/1 bb", "f.|f", id="ends at the bar line"),
    pytest.param("1/2 bb4 b | 1/1 b", "fn|.", id="plain again after the bar line"),
    pytest.param("1/1 bb4 | + 1/2 1/2 bb", "f|.f", id="a tied note needs none, the next one does"),
    pytest.param("1/1 bb4 | + 1/2 1/2 b", "f|.n", id="after a tied flat a natural says so"),
    pytest.param("1/1 b4 | + 1/2 1/2 b", ".|..", id="after a tied plain note nothing is needed"),
    pytest.param("1/2+1/4 f#4 1/4 f#", "s..", id="a tie inside the bar"),
    pytest.param("1/4 f#4 f## f# f", "sxsn", id="from double sharp back to sharp: the sharp alone"),
    pytest.param("1/4 bb4 bbb bb b", "f2fn", id="from double flat back to flat: the flat alone"),
    pytest.param("1/4 e4 fb e fb", ".f..", id="same key, other letter: other lines"),
    pytest.param("1/4 grace:f#4 g 1/4 f# f 1/4 -", "s..n", id="a grace note's accidental holds too"),
    pytest.param("1/4 bb3 b4 bb5 b6", "f.f.", id="no cancelling across octaves by default"),
]


def shown(text: str) -> str:
    """Return one letter a written note ("2" for a double flat), bars divided by |."""
    bars = []
    for bar in re.findall(r"<measure.*?</measure>", text):
        notes = re.findall(r"<note[^>]*", bar)
        signs = [re.search(r' accid="(\w+)"', note) for note in notes]
        bars.append("".join("." if sign is None else sign[1].replace("ff", "2") for sign in signs))
    return "|".join(bars)


@pytest.mark.parametrize(("line", "expected"), CASES)
def test_accidentals(make: Make, line: str, expected: str) -> None:
    phrase = make(line, " | ".join(["C"] * (line.count("|") + 1)))
    assert shown(mei(phrase)) == expected


def test_a_key_signature_leaves_its_notes_alone(make: Make) -> None:
    phrase = make("1/4 bb4 b eb5 e | bb4 f# f g", "Cm | Cm", key="C minor")
    text = mei(phrase, signature=True)
    assert 'keysig="3f"' in text
    assert shown(text) == ".n.n|.sn."


def reminders(text: str) -> list[tuple[str, str]]:
    """Return the notes with an accidental in brackets, by name, and the accidental."""
    found = re.findall(r'<note xml:id="(\w+)"[^/>]*><accid accid="(\w+)" enclose="paren"', text)
    return [(str(name), str(sign)) for name, sign in found]


def test_a_courtesy_accidental_is_shown_in_brackets_when_asked_for(make: Make) -> None:
    phrase = make("1/2 bb4 a | b bb | 1/1 b", "C | C | C")
    assert reminders(mei(phrase)) == []
    text = mei(phrase, courtesy="after-bar")
    assert shown(text) == "f.|.f|."
    assert reminders(text) == [("n2", "n"), ("n4", "n")]


@pytest.mark.parametrize("rule", COURTESY_RULES)
@pytest.mark.parametrize("signature", [False, True])
def test_every_courtesy_is_drawn_once_and_beside_no_other_sign(rule: str, *, signature: bool) -> None:
    for source in open_manuscript(DEMO).phrases[:12]:
        for phrase in in_keys(read_phrase(source), [Key.parse("C"), Key.parse("Gb"), Key.parse("A")]):
            wanted = courtesies(phrase, rule, signature=phrase.key if signature else None)
            text = mei(phrase, signature=signature, courtesy=rule)
            assert [name for name, _ in reminders(text)] == [f"n{index}" for index in sorted(wanted)]


@pytest.mark.parametrize(
    ("key", "letters"),
    [
        ("C major", {}),
        ("Eb major", {"B": -1, "E": -1, "A": -1}),
        ("C minor", {"B": -1, "E": -1, "A": -1}),
        ("A major", {"F": 1, "C": 1, "G": 1}),
    ],
)  # common practice: circle of fifths
def test_signature(key: str, letters: dict[str, int]) -> None:
    assert signature_alterations(Key.parse(key)) == letters
