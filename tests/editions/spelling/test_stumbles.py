"""Names at which a reader stumbles; which name is expected is common practice."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import pytest

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.note_spelling import candidates_of, cheapest, price
from shedbook.editions.spelling.spelling_plan import plan_spelling
from shedbook.editions.spelling.stumbles import stumbles
from shedbook.editions.tables.spelling_costs import NOTE_COSTS
from shedbook.phrase.model import Phrase
from shedbook.theory.pitch import NoteName

Make = Callable[..., Phrase]


@pytest.mark.parametrize(
    ("key", "changes", "line", "found"),
    [
        pytest.param("C", "G7", "1/4 g4 cb5 d f", [("Cb", "B")], id="a third by another letter"),
        pytest.param("D", "D6", "1/4 d4 gb a b", [("Gb", "F#")], id="a third in a plain chord"),
        # What another name must save before it is said is the project's design.
        pytest.param("F", "E7", "1/4 d#4 e b ab4", [("Ab", "G#")], id="fifteen saved are enough"),
        pytest.param("Bb", "F7", "1/4 f4 g bb fb4", [], id="fourteen are not"),
        pytest.param("C", "C6", "1/4 c4 d# e g", [], id="rising to the third"),
        pytest.param("F", "F7", "1/4 f4 ab a c5", [], id="a blue note under the third"),
        pytest.param("Bb", "F7", "1/4 f4 cb5 bb a", [], id="a flat fifth that falls"),
        pytest.param("Gb", "Cbmaj7", "1/4 cb5 eb gb bb", [], id="C flat belongs to the chord"),
    ],
)
def test_stumbles(make: Make, key: str, changes: str, line: str, found: list[tuple[str, str]]) -> None:
    phrase = make(key, changes, line, "")
    assert [(str(one.written), str(one.better)) for one in stumbles(phrase)] == found


def test_a_tied_note_is_named_once(make: Make) -> None:
    phrase = make("C", "G7 | %", "1/1 cb5 | + 1/1", "")
    assert [one.event for one in stumbles(phrase)] == [(0, 0)]


def by_search(phrase: Phrase) -> list[tuple[int, str, int]]:
    """Return the same by a search through the whole phrase for each note, all others fixed."""
    layout = plan_spelling(phrase)
    fixed = [((one.fifths, price(phrase, one.chord, one.fifths)),) for one in layout.struck]
    written, _ = cheapest(layout, fixed, phrase.key)
    found = []
    for index, tried in enumerate(candidates_of(phrase, layout, 0)):
        cost, names = cheapest(layout, [*fixed[:index], tried, *fixed[index + 1 :]], phrase.key)
        if names[index] != layout.struck[index].fifths and written - cost >= _LEAST:
            found.append((index, str(NoteName(names[index])), written - cost))
    return found


_LEAST = costs_by_name(NOTE_COSTS)["stumble"]
_NAMES = [letter + sign for letter in "cdefgab" for sign in ("", "#", "b")]
_CHORDS = ["Dm7b5", "G7b9", "Cm6", "A7alt", "F#7", "Bbmaj7", "Ebm7", "Gbmaj7", "E7#9", "Cdim7"]


@pytest.mark.parametrize("seed", range(12))
def test_each_name_is_weighed_as_the_search_through_the_whole_phrase_weighs_it(make: Make, seed: int) -> None:
    dice = Random(seed)
    line = " | ".join("1/8 " + " ".join(f"{dice.choice(_NAMES)}4" for _ in range(8)) for _ in range(4))
    changes = " | ".join(dice.choice(_CHORDS) for _ in range(4))
    phrase = make(dice.choice(["C", "Eb", "F#", "Cb", "A minor", "G minor"]), changes, line, "")
    place = [(bar, event) for bar in range(4) for event in range(8)]
    found = [(place.index(one.event), str(one.better), one.saved) for one in stumbles(phrase)]
    assert found == by_search(phrase)
    assert found
