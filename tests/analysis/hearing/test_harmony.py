"""Harmony over whole progressions: the chord scale of each change in its context."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.analysis.hearing.harmony import STATED_REASON, Harmony, harmony, harmony_of
from shedbook.phrase.changes_text import parse_changes
from shedbook.phrase.model import Bar, Event, Phrase, Value
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import Interval
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName
from shedbook.theory.progression import write_out
from shedbook.theory.scale import Scale, parse_scale
from shedbook.theory.tables.chord_scales import KINDS
from strategies import chords as any_chords

TWELVE = [NoteName(fifths) for fifths in range(-6, 6)]
IN_4 = Metre.parse("4/4")


def heard(text: str) -> Harmony:
    changes = parse_changes(text, IN_4).changes
    return harmony_of([change.chord for change in changes], [change.bar for change in changes])


def names(found: Harmony) -> list[str]:
    """Return the first choice of each change, without its root."""
    return ["" if one.scale is None else one.scale.name for one in found.scales]


# Common practice (chord-scale teaching); the first choice over each function, in all twelve keys.
IN_EVERY_KEY = [
    ("ii–V–I", "dorian|mixolydian|ionian"),
    ("minor ii–V–i", "locrian|half-whole diminished|melodic minor"),
    ("iii–VI–ii–V", "phrygian|phrygian dominant|dorian|mixolydian"),
    ("I–VI–ii–V", "ionian|phrygian dominant|dorian|mixolydian"),
    ("I–#i°–ii–#ii°", "ionian|whole-half diminished|dorian|whole-half diminished"),
    ("tritone substitute ii–bII–I", "dorian|lydian dominant|ionian"),
    ("backdoor ii–V", "dorian|lydian dominant|ionian"),
    ("minor blues", "|".join(["melodic minor"] * 4 + ["dorian"] * 2 + ["melodic minor"] * 2)),
]


@pytest.mark.parametrize("chords_a_bar", [1, 2])
@pytest.mark.parametrize(("name", "expected"), IN_EVERY_KEY, ids=[name for name, _ in IN_EVERY_KEY])
def test_scales_over_a_progression_in_every_key(name: str, expected: str, chords_a_bar: int) -> None:
    wanted = expected.split("|")
    for tonic in TWELVE:
        bars = write_out(name, Key(tonic), chords_a_bar)
        found = heard(" | ".join(" ".join(bar) for bar in bars))
        if name != "minor blues":
            assert names(found) == wanted
        elif chords_a_bar == 1:
            assert names(found)[: len(wanted)] == wanted
        assert found.key.tonic.pitch_class == tonic.pitch_class


# Common practice: the choices over one chord of some changes, best first, counted from the first.
RANKED = [
    ("Dm7b5 | G7b9 | Cm6", 0, ["locrian", "locrian natural 2"]),
    ("Dm7b5 | G7alt | Cm6", 1, ["altered"]),
    ("Dm7 | G13b9 | Cmaj7", 1, ["half-whole diminished"]),
    ("Dm7 | G7#11 | Cmaj7", 1, ["lydian dominant"]),
    ("Dm7 | G7 | Cmaj7", 2, ["ionian", "lydian"]),
    ("Em7 A7 | Dm7 G7", 0, ["phrygian", "dorian"]),
    ("Dm7b5 | G7b9 | Cm(maj7)", 2, ["melodic minor"]),
    ("Dm7 | G7 | Cmaj7#11", 2, ["lydian"]),
]


@pytest.mark.parametrize(("text", "index", "expected"), RANKED)
def test_choices(text: str, index: int, expected: list[str]) -> None:
    choices = heard(text).scales[index].choices
    assert [choice.scale.name for choice in choices][: len(expected)] == expected
    assert all(choice.reason for choice in choices)


def test_b9_is_heard_on_its_way_to_minor_or_major() -> None:
    """Common practice: altered comes before the fifth mode of harmonic minor on the way to minor only."""
    to_minor = [choice.scale.name for choice in heard("G7b9 | Cm6").scales[0].choices]
    to_major = [choice.scale.name for choice in heard("G7b9 | Cmaj7").scales[0].choices]
    assert to_minor[:2] == ["half-whole diminished", "altered"]
    assert to_major[0] == "half-whole diminished"
    assert to_major.index("altered") == to_minor.index("altered") + 1
    assert set(to_minor[:3]) == set(to_major[:3])


def test_a_dominant_is_heard_through_its_repeats() -> None:
    """Common practice: G7b9 held for two bars goes to C minor from its first beat on."""
    found = heard("G7b9 | % | Cm6")
    assert found.scales[0].choices == found.scales[1].choices
    assert found.scales[0].choices == heard("G7b9 | Cm6").scales[0].choices


def test_function_is_heard_in_the_key_of_the_progression() -> None:
    """Common practice: D7 to G is V of G, though D7 is II in C, where it would be lydian dominant."""
    local = heard("Cmaj7 | Am7 D7 | Gmaj7 | Dm7 G7 | Cmaj7")
    assert str(local.key) == "C major"
    assert local.numerals == ("I", "vi", "II", "V", "ii", "V", "I")
    assert names(local)[2] == "mixolydian"
    assert names(heard("Cmaj7 | D7 | Dm7 G7 | Cmaj7"))[1] == "lydian dominant"


def test_no_chord_has_neither_function_nor_scale() -> None:
    found = heard("Dm7 | N.C. | Cmaj7")
    assert found.numerals[1] == ""
    assert (found.scales[1].scale, found.scales[1].choices) == (None, ())


def phrase_over(changes: str, scales: tuple[Scale | None, ...], key: str) -> Phrase:
    read = parse_changes(changes, IN_4)
    bars = tuple(Bar(number, (Event(None, (Value(1),)),)) for number in range(1, read.bars + 1))
    return Phrase("rests", Key.parse(key), IN_4, bars, read.changes, scales)


def test_what_the_author_says_wins() -> None:
    c_altered = parse_scale("G altered")
    odd = parse_scale("E locrian")
    found = harmony(phrase_over("Dm7 | G7b9 | Cm6", (None, c_altered, odd), "Eb major"))
    assert str(found.key) == "Eb major"
    assert [one.stated for one in found.scales] == [False, True, True]
    assert (found.scales[1].scale, found.scales[2].scale) == (c_altered, odd)
    assert found.scales[1].reason in [choice.reason for choice in found.scales[1].choices]
    assert found.scales[2].reason == STATED_REASON
    assert [one.name for one in found.progressions] == ["minor ii–V–i"]


def test_a_change_inside_a_bar_keeps_its_place() -> None:
    found = harmony(phrase_over("Dm7 G7@4 | Cmaj7", (None, None, None), "C"))
    assert [one.first_bar for one in found.progressions] == [1]
    assert parse_changes("Dm7 G7@4", IN_4).changes[1].beat == Fraction(4)


moves = st.builds(lambda fifths: NoteName(0).interval_to(NoteName(fifths)), st.integers(-5, 6))
every_kind = st.builds(
    lambda chord, by: chord.transposed(by),
    st.sampled_from([parse_chord(row.example) for row in KINDS] + [parse_chord("N.C."), parse_chord("F/G")]),
    moves,
)
sequences = st.lists(any_chords | every_kind, max_size=12)


def _places(found: Harmony, up: int) -> list[list[tuple[str, int]]]:
    """Return the name and the root, moved up by half steps, of every choice."""
    return [
        [(choice.scale.name, (choice.scale.root.pitch_class + up) % 12) for choice in one.choices]
        for one in found.scales
    ]


@given(sequences, moves)
def test_harmony_moves_with_the_chords(chords: list[Chord], by: Interval) -> None:
    """Any chords give a result, and in another key the same one."""
    bars = [1 + index // 2 for index in range(len(chords))]
    here = harmony_of(chords, bars)
    there = harmony_of([chord.transposed(by) for chord in chords], bars)
    if any(chord.root is not None for chord in chords):
        assert here.numerals == there.numerals
    assert names(here) == names(there)
    assert _places(here, by.semitones) == _places(there, 0)
    for chord, one in zip(chords, here.scales, strict=True):
        assert (one.scale is None) == (chord.root is None)
