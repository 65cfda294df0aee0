"""Variants: each changes what it says, keeps what is fixed, and leaves no more notes unaccounted for.

Source of the expectations: what each transformation means in the trade (common practice), and the account.
"""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from shedbook.analysis.account import account
from shedbook.book.verbs.proposals import phrases_in
from shedbook.draft.ground import TICKS, ground_of
from shedbook.draft.variants.same_pitches import shifted
from shedbook.draft.variants.sketch import sketch_of
from shedbook.draft.variants.varying import TRANSFORMATIONS, Varied, VaryWishes, fixed_ticks, vary
from shedbook.draft.writing import midi_of, rhythm_of
from shedbook.errors import UnknownNameError
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import Metre

DEMO = Path(__file__).parents[3] / "examples" / "tidewater"
PLAIN = phrase_from_fields(
    {
        "title": "Plain",
        "changes": "Dm7 | G7 | Cmaj7 | %",
        "line": "1/4 - 1/8 d5 e f a g f | b4 d5 f e d b4 1/4 g | e4 1/8 g b 1/4 d5 c | 1/2 e4 -",
    }
)
WISHES = VaryWishes(onto=ground_of("Dm7b5 | G7b9 | Cm6 | %"), metre=Metre(3, 4), other=PLAIN)


@pytest.fixture(scope="module")
def demo() -> tuple[Phrase, ...]:
    return phrases_in(DEMO)[:36:7]


@pytest.fixture(scope="module")
def varied(demo: tuple[Phrase, ...]) -> list[tuple[Phrase, Varied]]:
    return [(phrase, one) for phrase in demo for one in vary(phrase, WISHES)]


def named(phrase: Phrase, name: str, wishes: VaryWishes = WISHES) -> Varied:
    asked = VaryWishes((name,), wishes.fixed, wishes.onto, wishes.metre, wishes.other)
    return vary(phrase, asked)[0]


def test_every_transformation_applies_to_some_phrase(varied: list[tuple[Phrase, Varied]]) -> None:
    assert {one.name for _, one in varied} == set(TRANSFORMATIONS)


def test_each_says_what_was_done_and_reads_back(varied: list[tuple[Phrase, Varied]]) -> None:
    for phrase, one in varied:
        assert one.said.endswith(".")
        assert one.phrase.title == f"{phrase.title}, {one.name}"
        assert phrase_from_fields(fields_from_phrase(one.phrase)).bars == one.phrase.bars


def test_no_more_notes_are_unaccounted_for(varied: list[tuple[Phrase, Varied]]) -> None:
    for phrase, one in varied:
        before, after = account(phrase), account(one.phrase)
        assert len(after.notes) - after.accounted <= len(before.notes) - before.accounted


def test_what_is_fixed_stays(demo: tuple[Phrase, ...]) -> None:
    for phrase in demo:
        note = sounding_notes(phrase)[1]
        tick = round(note.start * TICKS)
        for one in vary(
            phrase, VaryWishes(("invert", "reverse", "easier", "harder", "thin", "decorate"), (tick,))
        ):
            struck = dict(zip(rhythm_of(one.phrase).onsets, midi_of(one.phrase), strict=True))
            assert struck.get(tick) == note.pitch.midi


def test_thinned_to_the_notes_that_the_rest_hangs_on() -> None:
    thin = named(PLAIN, "thin")
    before = dict(zip(rhythm_of(PLAIN).onsets, midi_of(PLAIN), strict=True))
    kept = dict(zip(rhythm_of(thin.phrase).onsets, midi_of(thin.phrase), strict=True))
    assert kept.items() <= before.items()
    strong = [onset for onset in before if onset % 24 == 0]
    assert set(strong) <= set(kept)


def test_decorated_targets_are_led_to() -> None:
    made = named(PLAIN, "decorate")
    assert len(midi_of(made.phrase)) > len(midi_of(PLAIN))
    before = dict(zip(rhythm_of(PLAIN).onsets, midi_of(PLAIN), strict=True))
    after = dict(zip(rhythm_of(made.phrase).onsets, midi_of(made.phrase), strict=True))
    assert before.items() <= after.items()


def test_a_cell_upside_down_turns_its_moves_over() -> None:
    phrase = phrase_from_fields({"changes": "C7sus4", "line": "1/8 c5 d f d 1/2 c5", "scales": "chromatic"})
    made = midi_of(named(phrase, "invert").phrase)
    moves = [after - before for before, after in pairwise(midi_of(phrase))]
    turned = [after - before for before, after in pairwise(made)]
    assert [(one > 0) - (one < 0) for one in turned[:2]] == [-((one > 0) - (one < 0)) for one in moves[:2]]


def test_a_sequence_goes_through_the_changes() -> None:
    phrase = phrase_from_fields(
        {"changes": "Cm7 | Fm7 | Bbm7 | Ebm7", "line": "1/8 c4 eb g bb 1/2 - | 1/1 - | - | -"}
    )
    made = named(phrase, "sequence").phrase
    midi, onsets = midi_of(made), rhythm_of(made).onsets
    assert onsets == tuple(bar * 48 + place for bar in range(4) for place in (0, 6, 12, 18))
    cells = [midi[at : at + 4] for at in range(0, 16, 4)]
    assert [tuple(note - cell[0] for note in cell) for cell in cells] == [(0, 3, 7, 10)] * 4
    assert [cell[0] % 12 for cell in cells] == [0, 5, 10, 3]


def test_on_a_minor_progression_the_line_has_its_thirds() -> None:
    made = named(PLAIN, "onto other changes").phrase
    assert made.changes[0].chord.text == "Dm7b5"
    seen = account(made)
    assert all(landing.excuse == "" or landing.strength != "outside" for landing in seen.landings)


@pytest.mark.parametrize(
    ("changes", "ratio"), [("Dm7 G7 | Cmaj7", 0.5), ("Dm7 | % | G7 | % | Cmaj7 | % | % | %", 2)]
)
def test_stretched_and_squeezed(changes: str, ratio: float) -> None:
    even = phrase_from_fields(
        {"changes": "Dm7 | G7 | Cmaj7 | %", "line": "1/4 d5 f a f | g f d b4 | 1/2 c5 e | g -"}
    )
    made = named(even, "onto other changes", VaryWishes(onto=ground_of(changes))).phrase
    assert [one / ratio for one in rhythm_of(made).onsets] == list(rhythm_of(even).onsets)


def test_another_metre_and_two_phrases_as_one() -> None:
    waltz = named(PLAIN, "another metre").phrase
    assert (str(waltz.metre), waltz.full_bars) == ("3/4", 4)
    both = named(PLAIN, "joined").phrase
    assert both.full_bars == 8
    assert len(both.changes) == 2 * len(PLAIN.changes)


def test_easier_and_harder_are_so(varied: list[tuple[Phrase, Varied]]) -> None:
    for phrase, one in varied:
        before, after = account(phrase).difficulty, one.account.difficulty
        if one.name == "easier":
            assert after.level <= before.level
        if one.name == "harder":
            assert after.level >= before.level
            assert len(one.account.notes) > len(account(phrase).notes)


def test_names_and_notes_that_are_not_there_are_told() -> None:
    with pytest.raises(UnknownNameError, match="no transformation"):
        vary(PLAIN, VaryWishes(("melt",)))
    with pytest.raises(UnknownNameError, match="No note is struck"):
        fixed_ticks(PLAIN, ("9:1",))
    assert fixed_ticks(PLAIN, ("2:1.5",)) == (54,)


def test_a_phrase_of_two_notes_has_no_variants() -> None:
    assert vary(phrase_from_fields({"changes": "C7", "line": "1/2 c4 e"}), VaryWishes()) == ()


def test_a_shifted_line_keeps_no_stub_of_what_was_cut() -> None:
    """A beat later its last group is cut off after one note: then nothing of that group is left."""
    fields = {"title": "A", "changes": "Dm7 | G7", "line": "1/8 d4 e f g a - c5 b4 | d5 c b4 a 1/4 - 1/8 g b"}
    sketch = sketch_of(phrase_from_fields(fields))
    later = shifted(sketch, TICKS // 2)
    assert later is not None
    assert later.midi == sketch.midi[:-2]
    assert shifted(sketch, TICKS) is not None
    same = shifted(sketch, -TICKS // 2)
    assert same is not None
    assert same.midi == sketch.midi


def test_no_variant_is_given_twice(demo: tuple[Phrase, ...], varied: list[tuple[Phrase, Varied]]) -> None:
    for phrase in demo:
        lines = [(one.phrase.bars, one.phrase.changes) for other, one in varied if other is phrase]
        assert all(line not in lines[:at] for at, line in enumerate(lines))


def test_over_one_diminished_scale_an_enclosure_goes_on_a_minor_third_lower() -> None:
    """The half-whole scale repeats itself at the minor third, and so do its chord tones [common practice]."""
    phrase = phrase_from_fields(
        {
            "title": "Wrapped",
            "changes": "A7b9 | %",
            "scales": "half-whole diminished | %",
            "line": "1/8 - g5 f d# e - 1/4 - | 1/2 c#5 -",
        }
    )
    assert midi_of(named(phrase, "sequence").phrase) == (79, 77, 75, 76, 76, 74, 72, 73)


def test_a_cell_upside_down_joins_the_rest_without_an_octave_drop() -> None:
    phrase = phrase_from_fields(
        {
            "title": "Down",
            "changes": "Gm7b5 C7b9 | Fm6",
            "line": "1/8 - f5 db c db bb4 a g | ab4 1/4 g 1/8 e f c5 - d",
        }
    )
    cell = midi_of(named(phrase, "invert").phrase)
    assert max(abs(after - before) for before, after in pairwise(cell)) <= 9
    assert cell[0] == 77 - 12
