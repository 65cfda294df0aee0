from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

import strategies
from shedbook.editions.spelling.courtesy_accidentals import COURTESY_RULES, courtesies
from shedbook.errors import UnknownNameError
from shedbook.phrase.accidentals import AccidentalReader
from shedbook.phrase.model import Phrase
from shedbook.theory.key import Key

Make = Callable[..., Phrase]

# After Gould 2011, Behind Bars, on cautionary accidentals, from memory; notes count from 0.
CASES = [
    pytest.param("1/2 f#4 g | f g", {2}, {2}, id="natural after a sharp in the bar before"),
    pytest.param("1/2 f4 g | f g", set(), set(), id="nothing altered"),
    pytest.param("1/2 f#4 f | f g", set(), set(), id="cancelled in the bar before"),
    pytest.param("1/2 f#4 g | f#4 g", set(), set(), id="a note that shows its sign anyway"),
    pytest.param("1/2 f#4 g | f5 g", set(), {2}, id="another octave in the next bar"),
    pytest.param("1/4 f#4 g f5 g", {2}, {2}, id="another octave in the same bar"),
    pytest.param("1/4 f#4 g f#5 g", set(), set(), id="the same sign in another octave"),
    pytest.param("1/4 f5 f#4 f5 g", {2}, {2}, id="back again after another octave"),
    pytest.param("1/2 f#4 g | 1/1 a | 1/2 f g", set(), {3}, id="two bars later"),
    pytest.param("1/2 f#4 g | f g | f g", {2}, {2}, id="told once"),
    pytest.param("1/2 bb4 c5 | b4 b", {2}, {2}, id="only the first in its bar"),
    pytest.param("1/2 g4 f# | + 1/4 g 1/2 f4", set(), set(), id="after a tie the sign shows anyway"),
    pytest.param("1/2 g4 f# | + 1/4 f#5 1/2 f4", set(), set(), id="after a tie and another octave too"),
    pytest.param("1/2 g4 f | + 1/4 f#5 1/2 f4", {3}, {3}, id="a plain note was tied"),
    pytest.param("1/1 f#4 | + 1/1 | 1/1 f4", {1}, {1}, id="a tied note is kept in mind"),
    pytest.param("1/2 grace:f#4 g4 f", set(), set(), id="after a grace note the sign shows anyway"),
    pytest.param("1/2 grace:f#4 g4 f5", {1}, {1}, id="a grace note in another octave"),
    pytest.param("1/4 f#4 g f5 a | 1/1 f6", {2}, {2, 4}, id="one of two octaves altered in the bar before"),
    pytest.param("1/4 f#4 g f#5 a | 1/1 f6", set(), {4}, id="both octaves altered"),
    pytest.param("1/2 f#4 g | f4 g | 1/1 f5", {2}, {2}, id="the nearer bar decides"),
    pytest.param("1/2 f#4 g | a f#5 | 1/1 f4", set(), {4}, id="a sharp in both bars before"),
    pytest.param("1/2 f#4 g | 1/1 a | a | 1/2 f g", set(), set(), id="three bars later"),
    pytest.param("1/2 f#4 g | - f | f g", {2}, {2}, id="a rest first"),
    pytest.param("1/2 - f#4 | - f", {1}, {1}, id="rests do not count"),
]


@pytest.mark.parametrize(("line", "after_bar", "always"), CASES)
def test_signs(make: Make, line: str, after_bar: set[int], always: set[int]) -> None:
    phrase = make("C", " | ".join("C" for _ in line.split("|")), line)
    assert courtesies(phrase, "none") == frozenset()
    assert courtesies(phrase, "after-bar") == after_bar
    assert courtesies(phrase, "always") == always


def test_a_printed_signature_is_plain(make: Make) -> None:
    phrase = make("G", "G | G", "1/2 f4 g | f# g")
    assert courtesies(phrase) == frozenset()
    assert courtesies(phrase, signature=Key.parse("G")) == {2}
    flat = make("Eb", "Eb | Eb", "1/2 b4 g | bb g")
    assert courtesies(flat, signature=Key.parse("C minor")) == {2}


def test_an_unknown_rule_brings_the_nearest() -> None:
    phrase = None
    with pytest.raises(UnknownNameError, match='"after bar" is not a rule') as caught:
        courtesies(phrase, "after bar")  # type: ignore[arg-type]
    assert caught.value.hint == 'Did you mean "after-bar"?'


@given(strategies.phrases(), st.booleans())
def test_no_sign_stands_where_the_engraver_prints_one_anyway(phrase: Phrase, signed: bool) -> None:
    signature = phrase.key if signed and abs(phrase.key.signature) <= 7 else None
    found = {rule: courtesies(phrase, rule, signature=signature) for rule in COURTESY_RULES}
    assert found["none"] <= found["after-bar"] <= found["always"]
    reader = AccidentalReader(signature)
    index = -1
    for bar in phrase.bars:
        for event in bar.events:
            if event.pitch is None:
                continue
            if event.tie_in and index >= 0:
                reader.tied(event.pitch, over_bar=True)
                continue
            index += 1
            for pitch in event.grace:
                reader.needs(pitch)
            assert not (reader.needs(event.pitch) and index in found["always"])
        reader.bar_line()
