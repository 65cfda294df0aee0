from __future__ import annotations

import tomllib

import music21
import pytest

from shedbook.editions.instruments.edition import edition_named, group_of
from shedbook.editions.instruments.own_instruments import (
    instruments_from_fields,
    read_transposition,
)
from shedbook.errors import ManuscriptError

BASS_TRUMPET = """
[[instrument]]
name = "Bass trumpet"
aliases = ["valve bass"]
transposition = "up a major ninth"
clef = "treble"
range = "F#3 to C6"
comfortable = ["A3", "G5"]
extreme = "F#3 – E6"

[[instrument]]
name = "alto flute"
transposition = "P4"
range = "C4-G6"
"""


def test_an_instrument_of_the_authors() -> None:
    first, second = instruments_from_fields(tomllib.loads(BASS_TRUMPET)["instrument"])
    assert (first.transposition.steps, first.transposition.semitones) == (8, 14)
    assert str(first.bands.comfortable) == "A3 to G5"
    assert str(first.bands.extreme) == "F#3 to E6"
    assert group_of(first) == "bflat"
    assert second.bands.comfortable == second.bands.full == second.bands.extreme
    assert group_of(second) == ""
    edition = edition_named("valve bass", (first, second))
    assert (edition.name, edition.slug, edition.title) == (
        "bass trumpet",
        "bass-trumpet",
        "Bass trumpet edition",
    )
    assert edition.instrument == first


def test_ones_own_comes_before_the_table() -> None:
    own = instruments_from_fields([{"name": "trumpet", "transposition": "M2", "range": "C4 G5"}])
    assert str(edition_named("trumpet", own).bands.full) == "C4 to G5"
    assert str(edition_named("trumpet").bands.full) == "F#3 to C6"


TRANSPOSITIONS = [
    ("M6", "M6"),
    ("P8", "P8"),
    ("M13", "M13"),
    ("-m3", "m-3"),
    ("d5", "d5"),
    ("A4", "A4"),
    ("up a major sixth", "M6"),
    ("a perfect fifth", "P5"),
    ("down a minor third", "m-3"),
    ("up an octave", "P8"),
    ("an octave above", "P8"),
    ("two octaves", "P15"),
    ("up an octave and a major second", "M9"),
    ("Up  a Major Ninth", "M9"),
    ("none", "P1"),
    ("", "P1"),
]


@pytest.mark.parametrize(("text", "theirs"), TRANSPOSITIONS)
def test_transpositions_are_music21s(text: str, theirs: str) -> None:
    interval = music21.interval.Interval(theirs)
    found = read_transposition(text)
    assert (found.steps, found.semitones) == (interval.generic.staffDistance, interval.semitones)


NUMBERS = (
    "unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave", "ninth", "tenth",
    "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth",
)  # fmt: skip
QUALITIES = {"perfect": "P", "major": "M", "minor": "m", "augmented": "A", "diminished": "d"}


@pytest.mark.parametrize("number", range(1, 16))
def test_every_interval_is_music21s_in_letters_and_in_words(number: int) -> None:
    for words, letter in QUALITIES.items():
        perfect = number % 7 in (1, 4, 5)
        if words in (("major", "minor") if perfect else ("perfect",)):
            for text in (f"{letter}{number}", f"up a {words} {NUMBERS[number - 1]}"):
                with pytest.raises(ValueError):  # noqa: PT011 - the words are the caller's
                    read_transposition(text)
            continue
        if (number, words) == (1, "diminished"):
            continue  # music21 turns it round into an augmented one
        theirs = music21.interval.Interval(f"{letter}{number}")
        steps, semitones = theirs.generic.staffDistance, theirs.semitones
        for text in (f"{letter}{number}", f"+{letter}{number}", f"up a {words} {NUMBERS[number - 1]}"):
            found = read_transposition(text)
            assert (found.steps, found.semitones) == (steps, semitones)
        for text in (f"-{letter}{number}", f"down an {words} {NUMBERS[number - 1]}"):
            found = read_transposition(text)
            assert (found.steps, found.semitones) == (-steps, -semitones)


@pytest.mark.parametrize(
    "text", ["M5", "P3", "up a sixth", "a perfect third", "M0", "M40", "in F", "up a", "third", "P15 ½"]
)
def test_no_transposition(text: str) -> None:
    with pytest.raises(ValueError):  # noqa: PT011 - the words are the caller's
        read_transposition(text)


GOOD = {"name": "alto flute", "transposition": "P4", "range": "C4 to G6"}


@pytest.mark.parametrize(
    ("change", "message", "hint"),
    [
        ({"name": ""}, "An instrument needs a name.", "name = "),
        ({"name": "3!"}, '"3!" cannot be the name', "name = "),
        ({"name": 3}, '"name" of an instrument must be text', "name = "),
        ({"name": "Bass"}, '"Bass" is already the name of an edition', "longer name"),
        ({"aliases": ["E flat"]}, '"E flat" is already the name of an edition', "longer name"),
        ({"aliases": ["valve flute", 3]}, '"aliases" of an instrument must be a list', "aliases = "),
        ({"aliases": 3}, '"aliases" of an instrument must be a list', "aliases = "),
        ({"transposition": "in G"}, '"in G" is not a transposition', "up a major sixth"),
        ({"clef": "trebble"}, '"trebble" is not a clef', "treble"),
        ({"range": "C4"}, 'The range of the alto flute, "C4", is not two notes', "range = "),
        ({"range": "H4 to C6"}, "is not two notes", "range = "),
        ({"range": 7}, "is not two notes", "range = "),
        ({"range": "C6 to C4"}, "is no octave wide", "lowest note first"),
        ({"range": "C0 to C4"}, "leaves A0 to C8", "lowest note first"),
        ({"comfortable": "C4 to C7"}, "do not lie inside one another", "comfortable"),
        ({"extreme": "D4 to C7"}, "do not lie inside one another", "comfortable"),
        ({"rnage": "C4 to C6"}, '"rnage" is not a key of an instrument', "range"),
    ],
)
def test_errors_say_what_to_write(change: dict[str, object], message: str, hint: str) -> None:
    with pytest.raises(ManuscriptError) as caught:
        instruments_from_fields([{**GOOD, **change}])
    assert message in caught.value.message
    assert hint in caught.value.hint
    assert caught.value.field == "instrument"


def test_tables_are_needed_each_name_once_and_a_range() -> None:
    with pytest.raises(ManuscriptError, match="must be tables"):
        instruments_from_fields({"name": "alto flute"})
    for wrong in (["alto flute"], [GOOD, 3], "alto flute", 3):
        with pytest.raises(ManuscriptError, match="must be tables"):
            instruments_from_fields(wrong)
    with pytest.raises(ManuscriptError, match="described twice"):
        instruments_from_fields([GOOD, {**GOOD, "name": "Alto  flute"}])
    with pytest.raises(ManuscriptError, match="needs a written range"):
        instruments_from_fields([{"name": "alto flute"}])
