from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

import strategies
from shedbook.editions.keys.key_cycle import key_cycle
from shedbook.editions.keys.phrase_in_key import in_key, in_keys, readable_key, register_interval
from shedbook.errors import ShedbookError
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.key import Key

Make = Callable[..., Phrase]


# Checked note by note by hand (common practice): locrian, half-whole diminished, melodic minor. The #11 of
# the dominant (C# over G7) keeps its letter in every key, for it stands between two steps of the line.
MINOR_TWO_FIVE_ONE = """
C | Dm7b5 G7b9 Cm6 | f4 ab c5 eb d f ab g | eb5 c# d f e d c# b4 | c5 d eb g a g eb c
F | Gm7b5 C7b9 Fm6 | bb4 db5 f ab g bb db6 c | ab5 f# g bb a g f# e | f5 g ab c6 d c ab5 f
Bb | Cm7b5 F7b9 Bbm6 | eb4 gb bb db5 c eb gb f | db5 b4 c5 eb d c b4 a | bb4 c5 db f g f db bb4
Eb | Fm7b5 Bb7b9 Ebm6 | ab4 cb5 eb gb f ab cb6 bb5 | gb5 e f ab g f e d | eb5 f gb bb c6 bb5 gb eb
Ab | Bbm7b5 Eb7b9 Abm6 | db4 fb ab cb5 bb4 db5 fb eb | cb5 a4 bb db5 c bb4 a g | ab4 bb cb5 eb f eb cb ab4
C# | D#m7b5 G#7b9 C#m6 | f#4 a c#5 e d# f# a g# | e5 d d# f# e# d# d b#4 | c#5 d# e g# a# g# e c#
F# | G#m7b5 C#7b9 F#m6 | b3 d4 f# a g# b d5 c# | a4 g g# b a# g# g e# | f#4 g# a c#5 d# c# a4 f#
B | C#m7b5 F#7b9 Bm6 | e4 g b d5 c# e g f# | d5 b#4 c#5 e d# c# b#4 a# | b4 c#5 d f# g# f# d b4
E | F#m7b5 B7b9 Em6 | a4 c5 e g f# a c6 b5 | g5 e# f# a g# f# e# d# | e5 f# g b c#6 b5 g e
A | Bm7b5 E7b9 Am6 | d4 f a c5 b4 d5 f e | c5 a#4 b d5 c# b4 a# g# | a4 b c5 e f# e c a4
D | Em7b5 A7b9 Dm6 | g4 bb d5 f e g bb a | f5 d# e g f# e d# c# | d5 e f a b a f d
G | Am7b5 D7b9 Gm6 | c4 eb g bb a c5 eb d | bb4 g# a c5 b4 a g# f# | g4 a bb d5 e d bb4 g
""".strip().splitlines()


@pytest.mark.parametrize("row", MINOR_TWO_FIVE_ONE, ids=lambda row: row.split()[0])
def test_minor_two_five_one(make: Make, row: str) -> None:
    home = "1/8 f4 ab c5 eb d f ab g | eb5 c# d f e d c# b4 | c5 d eb g a g eb c"
    scales = "locrian | half-whole diminished | melodic minor"
    phrase = make("C minor", "Dm7b5 | G7b9 | Cm6", home, scales)
    tonic, chords, line = row.split(" | ", 2)
    asked = Key.parse(tonic, mode="minor")
    key = readable_key(phrase, asked)
    assert key == asked
    found = in_key(phrase, key)
    assert " ".join(change.chord.text for change in found.changes) == chords
    assert print_line(found.bars) == f"1/8 {line}"


RISING_DIMINISHED = [  # I-#i°-ii-#ii°: function where it can be read, plain names elsewhere. Common practice.
    ("C", "C C#dim7 Dm7 D#dim7 Em7"),
    ("Db", "Db Ddim7 Ebm7 Edim7 Fm7"),
    ("Gb", "Gb Gdim7 Abm7 Adim7 Bbm7"),
    ("B", "B Cdim7 C#m7 Ddim7 D#m7"),
    ("E", "E Fdim7 F#m7 Gdim7 G#m7"),
    ("A", "A A#dim7 Bm7 Cdim7 C#m7"),
    ("D", "D D#dim7 Em7 Fdim7 F#m7"),
]


@pytest.mark.parametrize(("key", "expected"), RISING_DIMINISHED)
def test_rising_diminished(make: Make, key: str, expected: str) -> None:
    line = "1/8 e4 g c5 e c# e g bb | a f d c d# f# a c | 1/1 b4"
    phrase = make("C", "C C#dim7 | Dm7 D#dim7 | Em7", line)
    found = in_key(phrase, Key.parse(key))
    assert " ".join(change.chord.text for change in found.changes) == expected


def test_f_sharp_or_g_flat_by_what_the_phrase_needs(make: Make) -> None:
    # The minor fourth chord of G flat is C flat minor; in F sharp it is B minor.
    minor_four = make("C", "C F6 | Fm6 C", "1/8 g4 e c d f a c5 a4 | ab4 f d c 1/2 e")
    assert str(readable_key(minor_four, Key.parse("Gb"))) == "F# major"
    third = make("C", "E7 A7 | D7 G7", "1/8 g#4 b d5 e c# e g a | f#4 a c5 d b4 g 1/4 f")
    assert str(readable_key(third, Key.parse("F#"))) == "Gb major"
    assert str(readable_key(third, Key.parse("C#"))) == "Db major"
    assert str(readable_key(third, Key.parse("C"))) == "C major"


@pytest.mark.parametrize(
    ("line", "key", "semitones"),
    [
        ("1/1 c5", "F", 5),
        ("1/1 c5", "G", -5),
        ("1/1 c5", "F#", -6),  # F#4 lies 5 half steps from B4, F#5 lies 7
        ("1/1 c4", "Gb", 6),
        ("1/1 e4", "F#", 6),  # B flat 4 is nearer to the middle of the staff than B flat 3
        ("1/1 d5", "F#", -6),
        ("1/1 b4", "F#", -6),  # as near to the middle of the staff either way: the lower
        ("1/8 bb5 d6 f d f d c bb5", "F", -7),  # a fifth down, and no forest of ledger lines
        ("1/8 g3 a b c4 e c b3 g", "G", 7),
        ("1/1 c8", "C", 0),
        ("1/1 a0", "C", 0),
        ("1/1 b7", "Db", 1),
        ("1/1 c5", "C", 0),
        ("1/1 c5", "B#", 0),
        ("1/1 c8", "Eb", -9),  # C8 is the highest note
        ("1/1 a0", "A", 9),  # A0 the lowest
        ("1/1 -", "E", 4),
    ],
)
def test_register(make: Make, line: str, key: str, semitones: int) -> None:
    phrase = make("C", "C", line)
    assert register_interval(phrase, Key.parse(key)).semitones == semitones


def test_a_range_that_fits_nowhere_is_an_error(make: Make) -> None:
    phrase = make("C", "C", "1/2 a0 c8")
    with pytest.raises(ShedbookError, match="does not fit"):
        in_key(phrase, Key.parse("Db"))


@given(strategies.phrases(most_bars=2), st.sampled_from(("fourths", "chromatic")))
def test_twelve_keys_hold_the_same_music(phrase: Phrase, order: str) -> None:
    keys = key_cycle(phrase.key, order)
    home = sounding_notes(phrase)
    for key, found in zip(keys, in_keys(phrase, keys), strict=True):
        assert found.key == key
        assert found == in_key(phrase, key)
        notes = sounding_notes(found)
        moves = {new.pitch.midi - old.pitch.midi for new, old in zip(notes, home, strict=True)}
        assert len(moves) <= 1
        assert all(abs(move) <= 7 for move in moves)  # a fifth down for a fourth up, in ledger lines
        assert [(note.start, note.quarters, note.event) for note in notes] == [
            (note.start, note.quarters, note.event) for note in home
        ]
        for new, old in zip(found.changes, phrase.changes, strict=True):
            assert new.chord.degrees == old.chord.degrees
            assert (new.chord.root is None) == (old.chord.root is None)


def test_the_mode_is_the_phrases(make: Make) -> None:
    assert in_key(make("C minor", "Cm", "1/1 c4"), Key.parse("D major")).key == Key.parse("D minor")


# What the author typed is kept (the project's design); the names themselves are common practice.
KEPT = [
    pytest.param("Bb", "Bb13b9", "1/2 cb5 ab4", "1/2 cb5 ab4", "Bb", id="C flat at home"),
    pytest.param("Bb", "Bb13b9", "1/2 cb5 ab4", "1/2 db5 bb4", "C", id="a step up"),
    pytest.param("C", "C7", "1/2 a#4 g", "1/2 d#5 c", "F", id="a name against the chord, as it was typed"),
    pytest.param("F", "F7", "1/4 g#4 a ab g", "1/4 g#4 a ab g", "F", id="both names of one sound"),
    pytest.param("F", "F7", "1/4 g#4 a ab g", "1/4 a#4 b bb a", "G", id="both names, a step up"),
    pytest.param("C", "Cmaj7", "1/4 e5 f# g c6", "1/4 a#4 b# c#5 f#", "F#", id="a step stays a step"),
    pytest.param("C", "G7", "1/4 f5 f#5 g5 d5", "1/4 e5 f f# c#", "B", id="no double sharp"),
]  # fmt: skip


@pytest.mark.parametrize(("home", "changes", "line", "expected", "key"), KEPT)
def test_the_authors_letters_are_kept(
    make: Make, home: str, changes: str, line: str, expected: str, key: str
) -> None:
    phrase = make(home, changes, line, "lydian" if changes == "Cmaj7" else "")
    assert print_line(in_key(phrase, Key.parse(key)).bars) == expected


FLAT_NAMES = [  # A dominant that goes down a half step keeps its flat name where it is read; common practice.
    ("Bb", "Gb7 F7 Bbmaj7"), ("F", "Db7 C7 Fmaj7"), ("G", "Eb7 D7 Gmaj7"), ("A", "F7 E7 Amaj7"),
    ("Db", "A7 Ab7 Dbmaj7"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "chords"), FLAT_NAMES)
def test_a_dominant_on_the_flat_sixth_keeps_its_name(make: Make, key: str, chords: str) -> None:
    phrase = make("C", "Ab7 | G7 | Cmaj7", "1/1 c5 | b4 | g4")
    found = in_key(phrase, Key.parse(key))
    assert " ".join(change.chord.text for change in found.changes) == chords


def test_the_ii_of_a_substitute_goes_with_it(make: Make) -> None:
    phrase = make("Bb", "Dbm7 Gb7 | F7", "1/1 ab4 | a4")
    assert [change.chord.text for change in in_key(phrase, phrase.key).changes] == ["Dbm7", "Gb7", "F7"]
    up = in_key(phrase, Key.parse("C"))
    assert [change.chord.text for change in up.changes] == ["Ebm7", "Ab7", "G7"]


ONE_NAME = [
    ("C minor", "G7alt | %", "altered | %", "f5 c e f f c f c | f f e b b b e c", "G# minor"),
    ("G", "Cmaj7 | %", "lydian | %", "c#5 g# c# a# c# a# g# f# | g# c# c# c# g# g# f# f#", "E major"),
    ("C minor", "G7b9 | %", "half-whole | %", "c#5 a c# d db a db c# | db c# c# d db db d c#", "B minor"),
    ("Bb", "F7 | %", "mixolydian | %", "a5 a# d# d# a a a d# | a# d# ab a# a a# d# d#", "F major"),
    ("C", "D7#11 | %", "lydian dominant | %", "bb5 bb bb c# g# b c# g# | c# g# g# bb c# c# b c#", "B major"),
    ("C minor", "Bdim7 | %", "whole-half | %", "f#5 f f# c c f f b | c b f c f# f b f#", "F# minor"),
    ("C minor", "Abm7 | %", "dorian | %", "cb5 bb cb gb eb cb bb db | cb gb f gb cb d db cb", "Gb minor"),
]  # fmt: skip


@pytest.mark.parametrize(("home", "changes", "scales", "line", "key"), ONE_NAME)
def test_what_is_written_in_one_way_over_a_scale_is_read_in_one_way(
    make: Make, home: str, changes: str, scales: str, line: str, key: str
) -> None:
    """The project's design: one note of a scale keeps one letter in every key, whichever it is."""
    phrase = make(home, changes, f"1/8 {line}", scales)
    typed = [note.pitch.name for note in sounding_notes(phrase)]
    for other in in_keys(phrase, (*key_cycle(phrase.key), Key.parse(key))):
        read = zip(typed, (note.pitch.name for note in sounding_notes(other)), strict=True)
        assert len(set(read)) == len(set(typed)), str(other.key)


def test_the_one_name_is_the_one_that_costs_less(make: Make) -> None:
    """The project's design, by the table of costs: C for B# over D#7alt, but E# over Amaj7."""
    home, changes, scales, line, key = ONE_NAME[0]
    found = in_key(make(home, changes, f"1/8 {line}", scales), Key.parse(key))
    assert print_line(found.bars) == "1/8 c#5 g#4 c5 c# c# g#4 c#5 g#4 | c#5 c# c g g g c g#4"
    home, changes, scales, line, key = ONE_NAME[1]
    found = in_key(make(home, changes, f"1/8 {line}", scales), Key.parse(key))
    assert print_line(found.bars) == "1/8 a#4 e#5 a#4 g5 a#4 g5 e# d# | e#5 a#4 a# a# e#5 e# d# d#"
