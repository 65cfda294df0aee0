"""The role of every note: the facts of the trade, in all twelve keys, and the rules of each role."""

from __future__ import annotations

from fractions import Fraction

import pytest

from analysis.helpers import both_keys, in_all_keys, read, roles

HALF_WHOLE = "half-whole diminished"


# Facts of chord-scale teaching, common practice: changes, scales, line, index of a note, its role, the
# index of its target.
FACTS = [
    pytest.param("G7", HALF_WHOLE, "1/8 bb4 a ab g f d b3 d4", 1, "passing note", 2,
                 id="Bb A Ab, Ab off the strong beats"),
    pytest.param("G7", HALF_WHOLE, "1/4 bb4 1/8 b4 bb a ab g f", 3, "passing note", 4,
                 id="Bb A Ab inside a longer run"),
    pytest.param("G7", HALF_WHOLE, "1/4 g4 1/8 bb4 a 1/4 ab4 g4", 2, "passing note", 3,
                 id="Bb A Ab, Ab on beat 3"),
    pytest.param("G7 | %", HALF_WHOLE + " | %", "1/4 d4 f4 g4 1/8 bb4 a | 1/4 ab4 g4 f4 d4", 4,
                 "passing note", 5, id="Bb A Ab, Ab on beat one"),
    pytest.param("G7", HALF_WHOLE, "1/8 bb4 b4 bb a ab g f d", 3, "passing note", 4,
                 id="Bb A Ab, Ab on beat 3, after B Bb"),
    pytest.param("G7", HALF_WHOLE, "1/8 eb5 c# d f g4 b d5 b4", 0, "enclosure", 2,
                 id="Eb on beat one opens the enclosure of the fifth"),
    pytest.param("G7", HALF_WHOLE, "1/8 eb5 c# d f g4 b d5 b4", 1, "enclosure", 2,
                 id="C# closes the enclosure of the fifth"),
    pytest.param("G7", HALF_WHOLE, "1/4 g4 1/8 eb5 c# 1/4 d5 b4", 1, "enclosure", 3,
                 id="Eb on beat 2, the fifth on beat 3"),
    pytest.param("G7", HALF_WHOLE, "1/8 b4 eb5 c# d f5 d b4 g", 1, "enclosure", 3,
                 id="the fifth off the beat"),
    pytest.param("G7", HALF_WHOLE, "1/8 g4 b4 e5 eb d5 b4 g f", 3, "passing note", 4,
                 id="Eb between E and D passes into the fifth"),
    pytest.param("G7", HALF_WHOLE, "1/8 e5 eb d5 b4 g f d b3", 1, "passing note", 2,
                 id="the same, the fifth on beat 2"),
    pytest.param("Dm7b5 | G7", "locrian | " + HALF_WHOLE, "1/4 f4 ab4 bb4 1/8 c5 eb5 | 1/4 db5 b4 g4 f4", 3,
                 "enclosure", 5, id="scale note below, above, #11 on beat one: the first note"),
    pytest.param("Dm7b5 | G7", "locrian | " + HALF_WHOLE, "1/4 f4 ab4 bb4 1/8 c5 d5 | 1/4 db5 b4 g4 f4", 4,
                 "enclosure", 5, id="scale note below, above, #11 on beat one: the second note"),
    pytest.param("Cm7b5 | F7b9", "locrian | " + HALF_WHOLE, "1/4 eb4 gb4 c5 1/8 bb4 ab | 1/4 a4 c5 eb5 d5", 3,
                 "enclosure", 5, id="Bb Ab close in on A, the third of F7b9"),
    pytest.param("F7b9", HALF_WHOLE, "1/8 a4 c5 eb e f eb d c", 3, "passing note", 4,
                 id="E natural from Eb up to F"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 f4 a4 1/8 c5 b4 | + 1/4 g4 1/2 f4", 4,
                 "anticipation", None, id="and of 4, in the next chord alone, held"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 f4 a4 1/8 c5 b4 | 1/4 b4 g4 1/2 f4", 4,
                 "anticipation", 5, id="and of 4, repeated"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 f4 a4 1/8 c5 b4 | 1/4 - g4 1/2 f4", 4,
                 "anticipation", None, id="and of 4, followed by a rest"),
    pytest.param("Dm7 G7 | Cmaj7", "dorian, mixolydian | ionian",
                 "1/4 d4 1/8 f4 1/8+1/4 b4 1/4 g4 | 1/1 e4", 2, "anticipation", None,
                 id="and of 2 before a change inside the bar"),
    pytest.param("G7 | Cmaj7", "mixolydian | ionian", "1/4 g4 b4 d5 f5 | + 1/4 e5 1/2 c5", 3,
                 "suspension", 4, id="the seventh hangs over and falls to the third"),
    pytest.param("G7 | Cmaj7", "mixolydian | ionian", "1/4 g4 b4 d5 f5 | 1/4 f5 1/4 e5 1/2 c5", 4,
                 "suspension", 5, id="the same, struck again"),
    pytest.param("Cmaj7", "ionian", "1/8 c5 b4 g e 1/8 ab4 g4 1/4 e4", 4, "leaning note", 5,
                 id="accented, resolved by step within a beat"),
    pytest.param("Cmaj7", "ionian", "1/4 c5 g4 1/8 f4 e4 1/4 c4", 2, "leaning note", 3,
                 id="the 11 leans on the third"),
    pytest.param("Cmaj7", "ionian", "1/4 e4 1/8 e4 d#4 1/2 e4", 2, "neighbour", 3, id="lower neighbour"),
    pytest.param("Cmaj7", "ionian", "1/4 c5 1/8 g4 d#4 1/2 e4", 2, "approach note", 3,
                 id="half step below, reached by leap"),
    pytest.param("Cmaj7", "ionian", "1/8 c4 e g c5 f#4 g c5 b4", 4, "leaning note", 5,
                 id="an outside note on beat 3 leans"),
    pytest.param("Cm7", "dorian", "1/4 c5 1/8 e4 e4 1/2 eb4", 1, "approach note", 3,
                 id="a repeated outside note is one approach"),
    pytest.param("Fm7", "dorian", "1/8 c5 f#4 1/4 g4 1/2 c5", 1, "approach note", 2,
                 id="half step below a scale tone"),
    pytest.param("G7", "mixolydian", "1/4 g4 1/8 d4 bb4 1/2 g4", 2, "blue note", None,
                 id="the minor third over a dominant"),
    pytest.param("Cmaj7", "ionian", "1/8 c5 f#5 c#5 g5 1/2 e5", 2, "unaccounted", None,
                 id="an outside note with nowhere to go"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "scales", "line", "index", "role", "target"), FACTS)
def test_facts_in_all_keys(
    changes: str, scales: str, line: str, index: int, role: str, target: int | None
) -> None:
    for found in in_all_keys(changes, line, scales):
        assert found.notes[index].role == role
        assert found.notes[index].target == target


# Common practice: chord, degrees and memberships of the twelve pitch classes from the root upwards.
def test_half_whole_over_a_dominant() -> None:
    found = read("G7 | % | %", "1/4 g4 ab4 a4 bb4 | b4 c5 db5 d5 | eb5 e5 f5 f#5", f"{HALF_WHOLE} | % | %")
    degrees = [note.degree for note in found.notes]
    assert degrees == ["1", "b9", "9", "#9", "3", "11", "#11", "5", "b13", "13", "b7", "7"]
    outside = [note.degree for note in found.notes if note.membership == "outside"]
    assert outside == ["9", "11", "b13", "7"]


def test_altered_has_flat_13_in_place_of_5_and_13() -> None:
    line = "1/4 g4 ab4 a4 bb4 | b4 c5 db5 d5 | eb5 e5 f5 f#5"
    half_whole = read("G7 | % | %", line, f"{HALF_WHOLE} | % | %")
    altered = read("G7alt | % | %", line, "altered | % | %")
    inside = [{note.degree for note in one.notes if note.inside} for one in (half_whole, altered)]
    assert inside[0] & inside[1] == {"1", "b9", "#9", "3", "#11", "b7"}
    assert inside[0] - inside[1] == {"5", "13"}
    assert inside[1] - inside[0] == {"b13"}


def test_a_tension_that_the_symbol_names_is_a_chord_tone() -> None:
    found = read("G7b9", "1/4 ab4 b4 e4 g4", HALF_WHOLE)
    assert [note.membership for note in found.notes] == ["chord", "chord", "scale", "chord"]


def test_degree_is_by_sound_and_not_by_letter() -> None:
    found = read("G7alt | F7b9 | Bdim7", "1/1 db5 | 1/1 ab4 | 1/1 bb4")
    assert [note.degree for note in found.notes] == ["#11", "#9", "7"]


# The and of 4 is an anticipation only where it belongs to the next chord and not to this one.
@pytest.mark.parametrize(
    "line",
    [
        pytest.param("1/4 d4 f4 a4 1/8 c5 d5 | + 1/4 g4 1/2 f4", id="in both chords"),
        pytest.param("1/4 d4 f4 a4 1/8 c5 b4 | 1/4 c5 g4 1/2 f4", id="not held, not repeated, no rest"),
        pytest.param("1/4 d4 f4 a4 1/8 b4 c5 | 1/4 c5 b4 1/2 g4", id="in this chord, not in the next"),
    ],
)
def test_no_anticipation(line: str) -> None:
    for found in in_all_keys("Dm7 | G7", line, "dorian | mixolydian"):
        assert "anticipation" not in roles(found)


def test_a_note_struck_early_and_held_is_the_landing_of_the_beat() -> None:
    for found in in_all_keys("Dm7 | G7", "1/4 d4 f4 a4 1/8 b4 d5 | + 1/4 g4 1/2 f4", "dorian | mixolydian"):
        note = found.notes[4]
        assert note.landing
        assert note.span.index == 1
        assert note.degree == "5"
        (landing,) = [one for one in found.landings if one.note == 4]
        assert (landing.bar, landing.beat) == (2, Fraction(1))


def test_two_notes_of_an_enclosure_may_be_chord_tones() -> None:
    for found in in_all_keys("Cmaj7", "1/4 c5 1/8 e5 b4 1/2 c5"):
        assert roles(found)[1] != "enclosure"  # a major third above is too wide
    for found in in_all_keys("Cm7 | F7", "1/4 c5 g4 1/8 eb4 c4 bb4 g4 | 1/1 a4", "dorian | mixolydian"):
        assert roles(found)[4:6] == ["enclosure", "enclosure"]
        assert [note.membership for note in found.notes[4:6]] == ["chord", "chord"]
        assert found.notes[4].target == 6


# Bebop enclosures of three and four notes, common practice.
@pytest.mark.parametrize(
    ("line", "members"),
    [
        pytest.param("1/4 g4 1/8 b4 e5 eb5 c#5 1/4 d5", (2, 3, 4), id="above, above, below"),
        pytest.param("1/8 b4 g4 b4 e5 c5 c#5 d5 f5", (), id="target between the strong beats"),
        pytest.param("1/4 b4 1/8 f5 e5 eb5 c#5 1/4 d5", (), id="after a walk down"),
    ],
)
def test_enclosures_of_three(line: str, members: tuple[int, ...]) -> None:
    for found in in_all_keys("G7", line, HALF_WHOLE):
        for index in members:
            assert roles(found)[index] == "enclosure"


def test_enclosure_of_three_from_above_and_twice_from_below() -> None:
    for found in in_all_keys("Cmaj7 | %", "1/4 c5 g4 1/8 g4 f4 d4 d#4 | 1/1 e4", "ionian | %"):
        assert roles(found)[3:6] == ["enclosure"] * 3
        assert {note.target for note in found.notes[3:6]} == {6}


def test_enclosure_of_four() -> None:
    for found in in_all_keys("C7 | %", "1/4 e4 g4 1/8 a4 ab4 f4 f#4 | 1/1 g4", "mixolydian | %"):
        assert roles(found)[2:6] == ["enclosure"] * 4
        assert {note.target for note in found.notes[2:6]} == {6}


def test_target_of_an_enclosure_may_be_chromatic() -> None:
    # E and D wrap round Eb, which passes on into D.
    for found in in_all_keys("G7", "1/4 g4 1/8 b4 e5 d5 eb5 1/4 d5", HALF_WHOLE):
        assert "unaccounted" not in roles(found)


def test_every_member_of_an_explanation_has_the_goal_as_its_target() -> None:
    found = read("C7 | %", "1/4 c5 g4 e4 1/8 c#5 d5 | 1/1 eb5", "altered | %")
    assert [note.target for note in found.notes[3:5]] in ([5, 5], [None, 5], [4, 5])


def test_runner_up_where_the_choice_is_close() -> None:
    found = read("F7b9", "1/8 a4 c5 eb e f eb d c", HALF_WHOLE)
    rival = found.notes[3].rival
    assert rival is not None
    assert (rival.role, rival.target) == ("approach note", 4)


def test_a_pick_up_is_heard_against_the_first_chord() -> None:
    found = read("Cmaj7", "1/8 d#5 | 1/1 e5", "ionian", pickup="1/8")
    assert (found.notes[0].bar, found.notes[0].degree) == (0, "#9")
    assert roles(found) == ["approach note", "chord tone"]


# Changes, scales, line; then for some notes the role and the note it leads to (None: no matter).
EXPECTED = [
    pytest.param("Cmaj7 | Ab7 | G7", "ionian | mixolydian | mixolydian", "1/1 g4 | g | g",
                 {1: ("pedal", None)}, id="a note that stays under moving chords is a pedal"),
    pytest.param("Dm7 | Dbmaj7 | Dm7", "dorian | ionian | dorian", "1/4 d4 d d d | d d d d | 1/1 d",
                 {4: ("pedal", None), 7: ("pedal", None)}, id="struck again it is one too"),
    pytest.param("Cmaj7", "ionian", "1/8 c5 b4 c5 e5 d# e c5 g4", {4: ("leaning note", 5)},
                 id="an accented neighbour leans"),
    pytest.param("Cmaj7", "ionian", "1/8 c5 g4 e d# e g c5 b4", {3: ("neighbour", 4)},
                 id="a neighbour off the beat turns"),
    pytest.param("Cmaj7", "ionian", "1/8 e4 f e c e g c5 b4", {1: ("neighbour", 2)},
                 id="a scale tone that comes back is a neighbour"),
    pytest.param("Cmaj7", "ionian", "1/8 c4 d e f g a b c5",
                 {1: ("scale tone", None), 3: ("scale tone", None)},
                 id="in a run the scale is heard"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 a4 f c#5 c5 | b4 g f d 1/2 g",
                 {6: ("approach note", 8), 7: ("approach note", 8)}, id="two half steps into the third"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 e5 c a4 f | 1/8 g4 b d5 f c#5 a4 g f",
                 {12: ("unaccounted", None)}, id="a flat fifth between two leaps is no blue note"),
    pytest.param("C7", "mixolydian", "1/4 g4 eb5 1/2 c5",
                 {1: ("blue note", None)}, id="the lowered third is"),
    pytest.param("Dm7b5 | G7b9", f"locrian | {HALF_WHOLE}", "1/8 f5 ab f eb d ab4 c5 d | c# b4 ab f 1/2 d",
                 {6: ("enclosure", 8), 7: ("enclosure", 8)}, id="C D close in on C sharp over the bar line"),
    pytest.param("G7 | %", f"{HALF_WHOLE} | %", "1/8 g4 bb c#5 d e f ab g | eb5 c# d b4 1/2 g",
                 {8: ("enclosure", 10), 9: ("enclosure", 10)}, id="an enclosure that opens on beat one"),
    pytest.param("G7 | %", f"{HALF_WHOLE} | %", "1/8 g4 bb c#5 d f ab f e | eb d b4 ab 1/2 g",
                 {8: ("passing note", 9)}, id="E flat between E and D passes on beat one too"),
    pytest.param("G7b9", "phrygian dominant", "1/8 d5 c b4 bb a ab g f",
                 {3: ("passing note", 5), 4: ("passing note", 5)}, id="two passing notes in a row"),
    pytest.param("G7b9", "phrygian dominant", "1/8 f5 d a4 bb b g f d",
                 {2: ("approach note", 4), 3: ("approach note", 4)}, id="a double approach from below"),
    pytest.param("Cmaj7", "ionian", "1/8 a4 ab f f# g e d c", dict.fromkeys(range(4), ("enclosure", 4)),
                 id="four notes round the fifth"),
    pytest.param("Cmaj7", "ionian", "1/8 g4 f d# e c e g b", {1: ("enclosure", 3), 2: ("enclosure", 3)},
                 id="a target off the beat"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 a4 f c5 d | c# c b4 g 1/2 d",
                 {6: ("enclosure", 8), 7: ("enclosure", 8), 8: ("passing note", 9)}, id="a chromatic target"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 a4 f a b | 1/4 - f d g",
                 {7: ("anticipation", None)}, id="early and then a rest"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 a c5 a4 c5 a4 d f | + 1/2 1/4 d b3",
                 {7: ("chord tone", None)}, id="of both chords: no anticipation"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 a4 f a b | c5 d 1/4 b4 1/2 g",
                 {7: ("scale tone", None)}, id="not held: no anticipation"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 f a b | b g f d", {3: ("scale tone", None)},
                 id="a whole beat early: no anticipation"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 f a c5 | + 1/4 1/4 b4 g f",
                 {3: ("suspension", 4)}, id="a tied suspension"),
    pytest.param("Cmaj7 | %", "ionian | %", "1/8 f4 d# | 1/8 e g c5 b4 1/2 g | 1/1 e",
                 {0: ("enclosure", 2), 1: ("enclosure", 2)}, id="from the pick-up"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "scales", "line", "expected"), EXPECTED)
def test_roles_of_notes_in_a_line(
    changes: str, scales: str, line: str, expected: dict[int, tuple[str, int | None]]
) -> None:
    for found in both_keys(changes, scales, line):
        for index, (role, target) in expected.items():
            note = found.notes[index]
            assert note.role == role, index
            assert target is None or note.target == target, index


# Figuration as harmony books teach it: passing, neighbour, suspension, anticipation, appoggiatura,
# escape tone. After Aldwell, Schachter & Cadwallader, Harmony and Voice Leading, the chapters on
# figuration; patterns from memory, keys and rhythms ours.
FIGURATION = [
    ("C", "1/4 c5 d5 1/2 e5", 1, "scale tone", "passing"),
    ("C", "1/4 e5 f5 1/2 e5", 1, "neighbour", "upper"),
    ("C", "1/4 e5 d#5 1/2 e5", 1, "neighbour", "lower"),
    ("G7 | C", "1/2 d5 f5 | 1/4 f5 e5 1/2 e5", 2, "suspension", "struck again"),
    ("G | C", "1/2 b4 1/4. d5 1/8 c5 | 1/1 c5", 2, "anticipation", "repeated"),
    ("C | G", "1/2 c5 e5 | 1/4 f#5 g5 1/2 d5", 2, "scale tone", "passing"),
    ("Am | E7", "1/4 a4 c5 1/4 d#5 e5 | 1/1 e5", 2, "leaning note", "from below"),
    ("C", "1/4 g4 g#4 1/2 a4", 1, "passing note", "up"),
]


@pytest.mark.parametrize(("changes", "line", "index", "role", "detail"), FIGURATION)
def test_figuration(changes: str, line: str, index: int, role: str, detail: str) -> None:
    note = read(changes, line).notes[index]
    assert note.role == role
    assert note.detail == detail


# What is no enclosure (common practice).
@pytest.mark.parametrize(
    ("changes", "scales", "line", "target"),
    [
        pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 1/8 e d 1/4 d4 1/8 f a | 1/1 g4", 6,
                     id="F and A climb the chord of D minor"),
        pytest.param("Cmaj7 | %", "ionian | %", "1/4 e4 g4 1/8 b4 g4 1/8 e4 c4 | 1/1 d4", 6,
                     id="two scale tones round the 9 are melody"),
        pytest.param("Cmaj7 | %", "ionian | %", "1/4 e4 g4 c5 1/8 b4 g4 | 1/1 a4", 5,
                     id="two scale tones round the 13 are melody"),
    ],
)  # fmt: skip
def test_what_is_no_enclosure(changes: str, scales: str, line: str, target: int) -> None:
    for found in in_all_keys(changes, line, scales):
        assert "enclosure" not in roles(found)[target - 2 : target]


def test_an_outside_note_closes_in_on_a_colour_with_a_scale_tone() -> None:  # common practice
    for found in in_all_keys("Cmaj7 | %", "1/4 e4 g4 c5 1/8 b4 g#4 | 1/1 a4", "ionian | %"):
        assert roles(found)[3:5] == ["enclosure", "enclosure"]
