"""Progressions: recognised in any key, written out in any key."""

from collections.abc import Sequence
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shedbook.errors import TableError, UnknownNameError
from shedbook.theory.chord import Chord
from shedbook.theory.chord_function import Group, groups, heard
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.progression import (
    Progression,
    _cover,
    _Match,
    _matches_at,
    check_roles,
    index,
    progression_names,
    recognise,
    write_out,
)
from shedbook.theory.tables.chord_functions import KIND_CLASSES
from shedbook.theory.tables.progressions import (
    BLUES,
    LINES,
    PROGRESSIONS,
    ROLES,
    SHARED,
    STEPS,
    UNEXPLAINED,
    ProgressionRow,
    RoleRow,
    StepRow,
)
from strategies import chords as any_chords

MODES = {
    **{row.name: row.mode for row in PROGRESSIONS},
    **{row.name: row.mode for row in LINES},
    **{row.name: row.mode for row in BLUES},
}
KEYS = [
    key
    for mode in ("major", "minor")
    for key in (Key(NoteName(fifths), mode) for fifths in range(-7, 9))
    if abs(key.signature) <= 7
]
# D sharp and A sharp minor are left out: their E sharp is written F, as in E flat and B flat minor.


def read(text: str) -> tuple[list[Chord], list[int]]:
    """Read chords with their bars from "Dm7 G7 | C"."""
    words = [(word, bar) for bar, part in enumerate(text.split("|"), 1) for word in part.split()]
    return [parse_chord(word) for word, _ in words], [bar for _, bar in words]


def told(text: str) -> list[str]:
    """Say what is recognised, as "name in key, bars a-b"."""
    return [f"{one.name} in {one.key}, {one.first_bar}-{one.last_bar}" for one in recognise(*read(text))]


# Common practice, all rows: the names are the trade's, written with the numerals of `tables.chord_functions`.
RECOGNISED = [
    ("Dm7 | G7 | Cmaj7", ["ii–V–I in C major, 1-3"]),
    ("Dm9 G13 | C6/9", ["ii–V–I in C major, 1-2"]),
    ("Dm7 G9sus | G7b9 | C", ["ii–V–I in C major, 1-3"]),
    ("Dm7b5 | G7b9 | Cm6", ["minor ii–V–i in C minor, 1-3"]),
    ("Dm7b5 | G7alt | Cm(maj7) | Cm6", ["minor ii–V–i in C minor, 1-4"]),
    ("Dm7 | G7b9 | Cm6", ["minor ii–V–i in C minor, 1-3"]),
    ("Dm7b5 | G7b9 | Cmaj7", ["iiø–V–I borrowed from minor in C major, 1-3"]),
    ("Eb7 | Bb7 | Eb7", ["blues IV–I–IV in Bb major, 1-3"]),
    ("C7 | F7 | C7", ["blues I–IV–I in C major, 1-3"]),
    ("G7 | F7 | C7", ["blues V–IV–I in C major, 1-3"]),
    ("Am Am(maj7) | Am7 Am6", ["descending line in minor in A minor, 1-2"]),
    (
        "Bm7b5 E7 | Am Am(maj7) | Am7 D7",
        ["minor ii–V–i in A minor, 1-2", "descending line in minor in A minor, 2-3", "ii–V in G major, 3-3"],
    ),
    ("Cm | Cm#5 | Cm6 | Cm#5", ["rising line in minor in C minor, 1-3"]),
    ("Cmaj7 Eb7 | Abmaj7 B7 | Emaj7 G7 | Cmaj7", ["cycle of major thirds in C major, 1-4"]),
    ("Cmaj7 Eb7 | Abmaj7 B7 | Emaj7", ["half a cycle of major thirds in C major, 1-3"]),
    ("Cmaj7 | Ebmaj7 | Gbmaj7 | Amaj7", ["major chords in rising minor thirds in C major, 1-4"]),
    ("Cmaj7 | Eb7 | Abmaj7 | Db7 | Cmaj7", ["I–bIII–bVI–bII in C major, 1-5"]),
    ("Ebm7 Ab7 | Dm7 G7 | Cmaj7", ["side-slip into ii–V in C major, 1-2", "ii–V–I in C major, 2-3"]),
    ("Dm7 G7 | Ebm7 Ab7", ["side-slip out of ii–V in C major, 1-2"]),
    ("Dm7 G7", ["ii–V in C major, 1-1"]),
    ("Dm7b5 G7", ["minor ii–V in C minor, 1-1"]),
    ("G7 | C6", ["V–I in C major, 1-2"]),
    ("G7b9 | Cm", ["minor V–i in C minor, 1-2"]),
    ("F/G | Cmaj7", ["V–I in C major, 1-2"]),
    ("Em7 A7 | Dm7 G7", ["iii–VI–ii–V in C major, 1-2"]),
    ("Em7 | A7b9 | Dm7 | G7 | Cmaj7", ["iii–VI–ii–V in C major, 1-4", "ii–V–I in C major, 3-5"]),
    ("Cmaj7 A7 | Dm7 G7", ["I–VI–ii–V in C major, 1-2"]),
    ("Cmaj7 Am7 | Dm7 G7", ["I–vi–ii–V in C major, 1-2"]),
    ("Cmaj7 C#dim7 | Dm7 D#dim7", ["I–#i°–ii–#ii° in C major, 1-2"]),
    ("C6 | C#°7 | Dm7 | D#°7 | Em7", ["I–#i°–ii–#ii° in C major, 1-5"]),
    (
        "Cmaj7 Dbdim7 | Dm7 Ebdim7 | Em7 A7 | Dm7 G7",
        ["I–#i°–ii–#ii° in C major, 1-2", "iii–VI–ii–V in C major, 3-4"],
    ),
    ("Dm7 Db7 | Cmaj7", ["tritone substitute ii–bII–I in C major, 1-2"]),
    ("Dm7b5 Db7 | Cm6", ["minor tritone substitute iiø–bII–i in C minor, 1-2"]),
    ("Abm7 Db7 | Cmaj7", ["tritone substitute bvi–bII–I in C major, 1-2"]),
    ("C#7 | C6", ["tritone substitute bII–I in C major, 1-2"]),
    ("Fm7 Bb7 | Cmaj7", ["backdoor ii–V in C major, 1-2"]),
    ("Fm6 Bb13 | C", ["backdoor ii–V in C major, 1-2"]),
    ("E7 | A7 | D7 | G7", ["cycle of dominants in C major, 1-4"]),
    ("D7 | G7 | C", ["secondary dominant II–V–I in C major, 1-3"]),
    ("Cmaj7 Ebmaj7 | Abmaj7 Dbmaj7 | C6", ["I–bIII–bVI–bII in C major, 1-3"]),
    ("Cm6 Am7b5 | Dm7b5 G7b9 | Cm6", ["minor i–viø–iiø–V in C minor, 1-2", "minor ii–V–i in C minor, 2-3"]),
    # Bars 9 and 10 of a minor blues may be bVI–V, iiø–V or V–iv.
    ("Cm7|Cm7|Cm7|Cm7|Fm7|Fm7|Cm7|Cm7|G7|Fm7|Cm7|Cm7", ["minor blues in C minor, 1-12"]),
    # Local ii–Vs and other keys inside longer changes.
    ("Am7 D7 | Dm7 G7 | Cmaj7", ["ii–V in G major, 1-1", "ii–V–I in C major, 2-3"]),
    (
        "Cm7 | F7 | Bbmaj7 | Ebmaj7 | Am7b5 | D7 | Gm6",
        ["ii–V–I in Bb major, 1-3", "minor ii–V–i in G minor, 5-7"],
    ),
    (
        "Dm7 G7 | Cmaj7 | Cm7 F7 | Bbmaj7 | Bbm7 Eb7 | Abmaj7",
        ["ii–V–I in C major, 1-2", "ii–V–I in Bb major, 3-4", "ii–V–I in Ab major, 5-6"],
    ),
    (
        "F#m7b5 B7b9 | Em7 A7 | Dm7 G7 | Cmaj7",
        ["minor ii–V in E minor, 1-1", "iii–VI–ii–V in C major, 2-3", "ii–V–I in C major, 3-4"],
    ),
    (
        "Em7 A7 | Dm7 Db7 | C6",
        ["iii–VI–ii–bII in C major, 1-2", "tritone substitute ii–bII–I in C major, 2-3"],
    ),
    # A turnaround in the middle that goes on to iii, or away.
    ("Cmaj7 A7 | Dm7 G7 | Em7 A7 | Dm7 G7", ["I–VI–ii–V in C major, 1-2", "iii–VI–ii–V in C major, 3-4"]),
    (
        "Em7 A7 | Dm7 G7 | Cm7 F7 | Bb6",
        ["ii–V in D major, 1-1", "iii–VI–ii–V in Bb major, 2-3", "ii–V–I in Bb major, 3-4"],
    ),
    # A tonic that is reached may open the next progression.
    ("Dm7 G7 | Cmaj7 A7 | Dm7 G7", ["ii–V–I in C major, 1-2", "I–VI–ii–V in C major, 2-3"]),
    # A turnaround goes on to the minor iii in the tonic's place, and not to a III: E7 opens its own.
    (
        "Em7 A7 | Dm7 G7 | E7 Am7 | D7 Gmaj7",
        ["minor ii–V–i in D minor, 1-2", "I–VI–ii–V in G major, 2-4", "ii–V–I in G major, 3-4"],
    ),
    # A key is called as the chords of its own progression call it.
    ("Abm7 Db7 | Gbmaj7 | N.C. | F#maj7", ["ii–V–I in Gb major, 1-2"]),
    ("Abm7 Db7 | Gbmaj7 | F#7", ["ii–V–I in Gb major, 1-2"]),
    ("N.C. | F#maj7 | N.C. | Abm7 Db7 | Gbmaj7", ["ii–V–I in Gb major, 4-5"]),
    # Nothing to say, and no crash.
    ("N.C.", []),
    ("Dm7 | Em7", []),
    ("Dm7 | N.C. | G7", []),
    ("C | F | C | F", []),
]


@pytest.mark.parametrize(("text", "expected"), RECOGNISED, ids=[text for text, _ in RECOGNISED])
def test_recognised(text: str, expected: list[str]) -> None:
    assert told(text) == expected


def test_a_jazz_blues_holds_its_own_progressions() -> None:
    """Common practice: a blues with ii–V to IV in bar 4, iii–VI–ii–V from bar 8, a turnaround at the end."""
    text = "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7b9 | Gm7 | C7 | F7 D7 | Gm7 C7"
    assert told(text) == [
        "major blues in F major, 1-12",
        "ii–V–I in Bb major, 4-5",
        "iii–VI–ii–V in F major, 8-10",
        "I–VI–ii–V in F major, 11-12",
    ]


def test_a_blues_in_a_longer_form_starts_at_its_own_bar() -> None:
    text = "Gm7 | C7 | F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | F7"
    assert "major blues in F major, 3-14" in told(text)


def test_a_progression_before_or_behind_a_blues_is_none_of_it() -> None:
    """Short ones inside a blues are not told apart; outside it they are."""
    blues = "F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | F7"
    assert told(f"Abm7 | Db7 | {blues} | Abm7 | Db7") == [
        "ii–V in Gb major, 1-2", "major blues in F major, 3-14", "ii–V in Gb major, 15-16",
    ]  # fmt: skip


def test_two_choruses_are_two_blues() -> None:
    chorus = "F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | F7"
    found = [text for text in told(f"{chorus} | {chorus}") if "blues in" in text]
    assert found == ["major blues in F major, 1-12", "major blues in F major, 13-24"]


# Common practice: triads stand for sevenths here and there; with a triad in each of the four places that a
# blues is known by, nothing blue is left.
@pytest.mark.parametrize(
    ("text", "is_blues"),
    [
        ("C | F7 | C | C | F7 | F7 | C | C | Dm7 | G7 | C | G7", True),
        ("C | F | C | C | F | F | C7 | C7 | Dm7 | G7 | C | G7", True),
        ("C | F | C | C | F | F | C | C | Dm7 | G7 | C | G7", False),
        ("C7 | F7 | C7 | C7 | F7 | F7 | Em7 | A7 | Dm7 | G7 | Em7 A7 | Dm7 G7", True),
        ("C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | Ab7 | Db7 | C7 | C7", True),
        ("C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | D7 | Bb7 | C7 | C7", True),
        ("C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | Eb7 | G7 | C7 | C7", False),
        ("C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | Dm7 | A7 | C7 | C7", False),
    ],
)
def test_how_far_a_blues_may_be_varied(text: str, is_blues: bool) -> None:
    assert ("major blues in C major, 1-12" in told(text)) is is_blues


# Common practice, likewise in minor.
@pytest.mark.parametrize(
    ("text", "is_blues"),
    [
        ("Cm | Fm | Cm | Cm | Fm6 | Fm | Cm | Cm | Dm7b5 | G7 | Cm | G7", True),
        ("Cm7 | Fm7 | Cm7 | Cm7 | Fm7 | Fm7 | Cm7 | Cm7 | Abmaj7 | G7 | Cm7 | G7", True),
        ("Cm7 | Fm7 | Cm7 | Cm7 | F7 | Fm7 | Cm7 | Cm7 | Ab7 | G7 | Cm7 | G7", False),
        ("Cm7 | Fm7 | Cm7 | Cm7 | Fm7 | Fm7 | C7 | Cm7 | Ab7 | G7 | Cm7 | G7", False),
        ("Cm6 | Fm7 | Cm6 | Cm6 | Fm7 | Fm7 | Cm6 | Cm6 | Ab7 | Db7 | Cm6 | G7", False),
    ],
)
def test_how_far_a_minor_blues_may_be_varied(text: str, is_blues: bool) -> None:
    assert ("minor blues in C minor, 1-12" in told(text)) is is_blues


def test_a_blues_whose_bars_go_on_with_the_chord_before() -> None:
    """Bars without a change of their own hear the last chord of the bar before; here bar 7 does."""
    symbols = ["F7", "Bb7", "F7", "Cm7", "F7", "Bb7", "Bdim7", "F7", "D7", "Gm7", "C7", "F7", "C7"]
    found = recognise([parse_chord(symbol) for symbol in symbols], [1, 2, 3, 4, 4, 5, 6, 6, 8, 9, 10, 11, 12])
    assert (found[0].name, found[0].last_bar, found[0].last) == ("major blues", 12, 12)


@pytest.mark.parametrize(
    "text",
    [
        "F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | N.C. | F7 | C7 | Bb7 | F7 | F7",  # silence in bar 7
        "Fmaj7 | Bb | F6 | F6 | Bb | Bb | F6 | F6 | C7 | Bb7 | F6 | F6",  # no blue chord at all
        "N.C. | N.C. | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | F7",  # no chord in bar 1
        "F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7",  # eleven bars
        "Fmaj7 | Bbmaj7 | F6 | F6 | Bbmaj7 | Bbmaj7 | F6 | F6 | Gm7 | C7 | F6 | F6",  # IV is no dominant
        "F7 | Bb7 | F7 | F7 | Eb7 | Eb7 | F7 | F7 | C7 | Bb7 | F7 | F7",  # no IV in bar 5
    ],
)
def test_what_is_no_blues(text: str) -> None:
    forms = {row.name for row in BLUES}
    assert [one for one in recognise(*read(text)) if one.name in forms] == []


@pytest.mark.parametrize("chords_a_bar", [1, 2])
@pytest.mark.parametrize("name", progression_names())
def test_written_out_and_recognised_in_every_key(name: str, chords_a_bar: int) -> None:
    """The law of the table: a row is heard as itself, under its own name, wherever it stands."""
    keys = [key for key in KEYS if key.mode == MODES[name]]
    assert {key.tonic.pitch_class for key in keys} == set(range(12))
    for key in keys:
        bars = write_out(name, key, chords_a_bar)
        text = " | ".join(" ".join(bar) for bar in bars)
        chords, places = read(text)
        expected = Progression(name, key, 1, len(bars), 0, len(chords) - 1)
        assert expected in recognise(chords, places), text
        if name not in {row.name for row in BLUES}:
            assert [expected] == list(recognise(chords, places)), text


# Common practice.
WRITTEN = [
    ("ii–V–I", "C", 1, "Dm7 | G7 | Cmaj7"),
    ("ii–V–I", "Eb", 2, "Fm7 Bb7 | Ebmaj7"),
    ("major ii-V-I", "F#", 2, "G#m7 C#7 | F#maj7"),
    ("minor ii–V–i", "A minor", 1, "Bm7b5 | E7b9 | Am6"),
    ("iii–VI–ii–V", "F", 2, "Am7 D7 | Gm7 C7"),
    ("turnaround", "Bb", 2, "Bbmaj7 G7 | Cm7 F7"),
    ("I–#i°–ii–#ii°", "C", 2, "Cmaj7 C#dim7 | Dm7 D#dim7"),
    ("rising diminished", "Eb", 1, "Ebmaj7 | Edim7 | Fm7 | F#dim7"),
    ("ii–bII–I", "Gb", 1, "Abm7 | G7 | Gbmaj7"),
    ("backdoor ii–V", "G", 2, "Cm7 F7 | Gmaj7"),
    ("major blues", "F", 1, "F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | D7 | Gm7 | C7 | F7 | C7"),
    (
        "jazz blues", "C", 2,
        "C7 | F7 | C7 | Gm7 C7 | F7 | F7 F#dim7 | C7 | Em7 A7 | Dm7 | G7 | C7 A7 | Dm7 G7",
    ),
    ("minor blues", "C minor", 1, "Cm6 | Cm6 | Cm6 | Cm6 | Fm7 | Fm7 | Cm6 | Cm6 | Ab7 | G7 | Cm6 | G7"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "key", "chords_a_bar", "expected"), WRITTEN)
def test_written_out(name: str, key: str, chords_a_bar: int, expected: str) -> None:
    bars = write_out(name, Key.parse(key), chords_a_bar)
    assert " | ".join(" ".join(bar) for bar in bars) == expected


def test_rising_diminished_chords_stand_a_half_step_under_what_follows() -> None:
    """Common practice: each is the V7b9 of the coming minor chord without its root."""
    for key in KEYS[:15]:
        text = [symbol for bar in write_out("I–#i°–ii–#ii°", key, 2) for symbol in bar]
        _, first, ii, second = (parse_chord(symbol) for symbol in text)
        dominant = parse_chord(f"{key.tonic + Interval(5, 9)}7b9")  # a fifth above ii
        assert dominant.root is not None
        assert first.pitch_classes == dominant.pitch_classes - {dominant.root.pitch_class}
        assert first.root is not None
        assert ii.root is not None
        assert second.root is not None
        assert (ii.root.pitch_class - first.root.pitch_class) % 12 == 1
        assert (key.tonic.pitch_class + 4 - second.root.pitch_class) % 12 == 1


def test_an_unknown_progression_names_the_nearest() -> None:
    with pytest.raises(UnknownNameError) as caught:
        write_out("major bluse", Key.parse("C"))
    assert "major blues" in caught.value.hint


def test_a_form_of_three_chords_a_bar_is_refused() -> None:
    with pytest.raises(ValueError, match="one or two"):
        write_out("ii–V–I", Key.parse("C"), 3)


@pytest.mark.parametrize("bars", [[1], [2, 1]])
def test_bars_go_with_the_chords_and_forward(bars: list[int]) -> None:
    with pytest.raises(ValueError, match="bars go forward"):
        recognise([parse_chord("Dm7"), parse_chord("G7")], bars)


def test_the_tables_are_whole() -> None:
    """Every step has a role, every role knows its written chord, every kind of a role is a kind."""
    used = {step for row in PROGRESSIONS for step in (*row.steps, *row.goals)}
    for form in BLUES:
        used |= {step for bar in (*form.one, *form.two) for step in bar.split()}
        used |= {step for _, steps in form.anchors for step in steps}
        assert (len(form.one), len(form.two)) == (12, 12)
    assert used <= set(STEPS)
    assert {row.role for row in STEPS.values()} <= set(ROLES)
    for role in ROLES.values():
        costs = dict(role.kinds)
        assert set(costs) <= set(KIND_CLASSES)
        written = heard(parse_chord(f"C{role.written}"))
        assert written is not None
        assert written.kind in costs
        assert role.source


HALVES = [
    pytest.param(PROGRESSIONS[0], '"ii–V–I" stands twice', "one of the two rows", id="a name twice"),
    pytest.param(PROGRESSIONS[0]._replace(name=""), "a progression without a name", "its name", id="no name"),
    pytest.param(
        PROGRESSIONS[0]._replace(name="new", aliases=(), source=""), "no source", "common practice",
        id="no source",
    ),
    pytest.param(PROGRESSIONS[0]._replace(name="new", steps=("ii", "Vx")), 'a step "Vx"',
                 '"Vx": StepRow(…) into STEPS', id="a step that is not known"),
    pytest.param(PROGRESSIONS[0]._replace(name="new", goals=("X",)), 'a step "X"', "STEPS", id="a goal"),
    pytest.param(PROGRESSIONS[0]._replace(name="new", steps=("V",)), "fewer than two steps", "its steps",
                 id="a single chord"),
]  # fmt: skip


@pytest.mark.parametrize(("row", "message", "hint"), HALVES)
def test_half_a_progression_is_refused(row: ProgressionRow, message: str, hint: str) -> None:
    """The message says what is missing, the hint where to write it. Source: our own design."""
    with pytest.raises(TableError) as caught:
        index((*PROGRESSIONS, row), BLUES)
    assert message in caught.value.message
    assert hint in caught.value.hint
    assert "src/shedbook/theory/tables/progressions.py" in caught.value.hint


@pytest.mark.parametrize("bars", [8, 11, 13])
def test_a_blues_of_another_length_is_refused(bars: int) -> None:
    written = (BLUES[0].one * 2)[:bars]
    for form in (BLUES[0]._replace(one=written), BLUES[0]._replace(two=written)):
        with pytest.raises(TableError, match="not written out in 12 bars"):
            index(PROGRESSIONS, (form,))


def test_a_step_without_a_role_and_a_role_of_no_kind_are_refused() -> None:
    with pytest.raises(TableError, match=r'"x" has a role "leader" that nobody can play.*into ROLES'):
        check_roles({"x": StepRow("1", "I", "leader")}, ROLES)
    with pytest.raises(TableError, match=r'"tonic" may be played by "majr".*KIND_CLASSES'):
        check_roles({}, {"tonic": RoleRow("maj7", (("majr", 0), ("mnr", 0)), "common practice")})
    with pytest.raises(TableError, match=r'"tonic" may be played by "", which is no kind'):
        check_roles({}, {"tonic": RoleRow("maj7", (), "common practice")})


sequences = st.lists(any_chords | st.just(parse_chord("N.C.")), max_size=20)
moves = st.builds(lambda fifths: NoteName(0).interval_to(NoteName(fifths)), st.integers(-5, 6))


@settings(max_examples=60)
@given(sequences, moves)
def test_recognition_moves_with_the_chords(chords: list[Chord], by: Interval) -> None:
    """Any chords give a result, and in another key the same one."""
    bars = [1 + index // 2 for index in range(len(chords))]
    here = recognise(chords, bars)
    there = recognise([chord.transposed(by) for chord in chords], bars)
    assert [(one.name, one.first, one.last) for one in here] == [
        (one.name, one.first, one.last) for one in there
    ]
    assert [(one.key.tonic.pitch_class + by.semitones) % 12 for one in here] == [
        one.key.tonic.pitch_class for one in there
    ]


@given(sequences)
def test_progressions_lie_inside_the_changes_and_in_order(chords: list[Chord]) -> None:
    bars = [1 + index // 2 for index in range(len(chords))]
    found = recognise(chords, bars)
    assert list(found) == sorted(found, key=lambda one: (one.first, -one.last))
    for one in found:
        assert 0 <= one.first < one.last < len(chords)
        assert (one.first_bar, one.last_bar) == (bars[one.first], bars[one.last])
        assert one.name in progression_names()


def _cheapest(sounding: Sequence[Group]) -> int:
    """Try every chain of matches, each with every neighbour that the table lets it share with."""

    def after(chain_cost: int, last: _Match | None, place: int) -> int:
        least = chain_cost + sum(UNEXPLAINED for group in sounding[place:] if group.heard)
        for first in range(0 if last is None else last.first, len(sounding)):
            for match in _matches_at(sounding, first):
                shared = max(0, place - match.first)
                if match.last < place:
                    continue
                if shared:
                    if last is None or shared > last.shares:
                        continue
                    if last.shares > 1 and last.tonic != match.tonic:
                        continue
                gap = sum(UNEXPLAINED for group in sounding[place : match.first] if group.heard)
                cost = chain_cost + gap + match.cost + (SHARED if shared else 0)
                if cost < 10 * len(sounding):
                    least = min(least, after(cost, match, match.last + 1))
        return least

    return after(0, None, 0)


cadences = st.lists(
    st.sampled_from(
        ["Em7", "A7", "Dm7", "Dm7b5", "G7", "Cmaj7", "Cm6", "Db7", "C#dim7", "D#dim7", "Bm7b5", "E7"]
    ),
    min_size=1,
    max_size=7,
)


@settings(max_examples=150, deadline=None)
@given(cadences)
def test_the_cover_is_the_cheapest_there_is(symbols: list[str]) -> None:
    """Against brute force over all chains of matches."""
    sounding = groups([parse_chord(symbol) for symbol in symbols])
    chain = _cover(sounding)
    covered = {place for match in chain for place in range(match.first, match.last + 1)}
    cost = sum(match.cost for match in chain) + UNEXPLAINED * (len(sounding) - len(covered))
    cost += sum(SHARED for one, two in pairwise(chain) if two.first <= one.last)
    assert cost == _cheapest(sounding)


def test_a_tonic_minor_may_turn_into_the_ii_of_another_key() -> None:
    """Source: common practice; the sixth of a minor tonic makes way for the minor seventh."""
    chords = [parse_chord(symbol) for symbol in ("Dm7b5", "G7b9", "Cm6", "Cm7", "F7", "Bbmaj7")]
    found = [(row.name, str(row.key), row.first_bar, row.last_bar) for row in recognise(chords, range(1, 7))]
    assert found == [("minor ii–V–i", "C minor", 1, 3), ("ii–V–I", "Bb major", 4, 6)]


@pytest.mark.parametrize("name", sorted(ROLES))
def test_a_role_as_it_is_written_out_costs_nothing(name: str) -> None:
    """Our own design: a variant costs more than the chord with which a role is written, or as much."""
    role = ROLES[name]
    costs = dict(role.kinds)
    written = heard(parse_chord(f"C{role.written}"))
    assert written is not None
    assert costs[written.kind] == 0
    assert min(costs.values()) == 0
    assert len(costs) == len(role.kinds)
