from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given

import strategies
from shedbook.analysis.account import account
from shedbook.analysis.account.inseparable_notes import inseparable_notes
from shedbook.editions.instruments.edition import edition_named
from shedbook.editions.keys.reader_keys import ReaderKey
from shedbook.editions.reader_part import reader_parts
from shedbook.editions.registers.octave_fold import cuts_of, folded
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.key import Key

Make = Callable[..., Phrase]

C = ReaderKey(Key.parse("C"), Key.parse("C"))


def test_a_rest_is_cheapest_then_the_widest_leap(make: Make) -> None:
    # Two slurred steps, a leap of a seventh (10), a rest before the last note.
    phrase = make("C", "C7", "1/4 (c4 d) 1/8 c5 1/8 - 1/4 bb4")
    cuts = {cut.note: cut for cut in cuts_of(phrase)}
    assert {note: cut.price for note, cut in cuts.items()} == {
        2: 40 + 40,
        3: 40,
    }
    assert (cuts[2].bar, cuts[2].beat, cuts[2].leap) == (1, Fraction(3), 10)
    assert cuts[2].cost(-12) == 80  # becomes a step down
    assert cuts[2].cost(12) == 80 + 6 * (22 - 9)


def test_a_slur_later_in_the_line_makes_a_fold_under_it_dear(make: Make) -> None:
    prices = [
        {cut.note: cut.price for cut in cuts_of(make("C", "C7", f"1/4 c4 d {end}"))}
        for end in ("e c5", "(e c5)")
    ]
    assert prices == [{3: 40 + 40}, {3: 40 + 40 + 60}]


@pytest.mark.parametrize(
    ("line", "dear"),
    [
        ("1/4 (c4 d c5) -", True), ("1/4 c4 (d c5) -", True), ("1/4 (c4 d) c5 -", False),
        ("1/4 - c4 (d c5)", True), ("1/4 c4 - (d c5)", True), ("1/4 (c4 d) (c5 d)", False),
        ("1/4 (c4 (d e) c5)", True), ("1/8 (c4 d e f c5) c 1/4 -", True),
    ],
)  # fmt: skip
def test_whether_the_widest_leap_lies_under_a_slur(make: Make, line: str, dear: bool) -> None:
    """Common practice: a slur lasts from its first note to its last, whatever lies between."""
    (price,) = (cut.price for cut in cuts_of(make("C", "C", line)) if cut.leap in (8, 7, 10))
    assert price == 40 + 40 + (60 if dear else 0)


def test_nothing_is_torn_apart(make: Make) -> None:
    phrase = make("C", "C", "1/4 c4 d e c5")
    assert [cut.note for cut in cuts_of(phrase, [(0, 2)])] == [3]
    assert cuts_of(phrase, [(0, 3)]) == ()


def test_no_fold_that_mends_nothing_and_the_finding_says_so(make: Make) -> None:
    # Three octaves in a row without a rest: one fold at the widest leap leaves notes out of range.
    wide = make("C", "Cmaj7", "1/8 c3 g c4 g c5 g c6 g")
    (found,) = reader_parts(wide, [C], edition_named("alto sax"), fold=True)
    assert found.fold is None
    assert "No fold" in found.findings[0].mend
    (plain,) = reader_parts(wide, [C], edition_named("alto sax"))
    assert "fold = true" in plain.findings[0].mend


@given(strategies.phrases())
def test_a_fold_moves_what_follows_and_no_more(phrase: Phrase) -> None:
    notes = sounding_notes(phrase)
    for cut in cuts_of(phrase):
        lower = sounding_notes(folded(phrase, cut, -1))
        assert [(one.start, one.quarters, one.event) for one in lower] == [
            (one.start, one.quarters, one.event) for one in notes
        ]
        for index, (new, old) in enumerate(zip(lower, notes, strict=True)):
            assert new.pitch.midi == old.pitch.midi - (12 if index >= cut.note else 0)
            assert new.pitch.name == old.pitch.name
        assert folded(folded(phrase, cut, -1), cut, 1) == phrase


def test_grace_notes_go_with_their_note_and_ties_hold(make: Make) -> None:
    phrase = make("C", "C | C", "1/2 c4 grace:b5 c6 | + 1/2 -")
    (cut,) = cuts_of(phrase)
    assert print_line(folded(phrase, cut, -1).bars) == "1/2 c4 grace:b c5 | + 1/2 -"


def test_a_fold_may_end_an_octave_in_which_the_whole_phrase_has_no_room(make: Make) -> None:
    """A bass that begins on its lowest string: only what follows the rest goes down, and that is there."""
    phrase = make("C", "C | C", "1/4 e1 g1 - e4 | 1/2 g4 c5")
    (found,) = reader_parts(phrase, [C], edition_named("double bass"), fold=True)
    assert [finding.rule for finding in found.findings] == ["folded"]
    assert print_line(found.phrase.bars) == "1/4 e2 g - e4 | 1/2 g4 c5"


# The alto saxophone's full range sounds from D flat 3 to A flat 5, and reaches E flat 6 at most.
WIDE = "1/8 d3 e g c4 - e5 g c6 | 1/1 c6"


def test_a_phrase_too_wide_for_an_instrument_is_said_or_folded(make: Make) -> None:
    phrase = make("C", "C | C", WIDE)
    edition = edition_named("alto sax")
    keys = [ReaderKey(Key.parse("C"), Key.parse("A"))]
    (plain,) = reader_parts(phrase, keys, edition)
    assert plain.fold is None
    (finding,) = plain.findings
    assert finding.rule == "out-of-range"
    assert finding.severity == "warning"
    assert finding.message == (
        "In A major (concert C): in the best octave 2 notes lie outside the full range of the alto "
        "saxophone, written Bb3 to F6."
    )
    assert (finding.bar, finding.beat) == (1, Fraction(9, 2))
    (turned,) = reader_parts(phrase, keys, edition, fold=True)
    assert turned.fold is not None
    assert turned.fold.note == 4  # after the rest
    assert [found.rule for found in turned.findings] == ["folded"]
    assert turned.findings[0].message == (
        "In A major (concert C) the line goes on an octave lower from bar 1, beat 3½, for the alto saxophone."
    )
    assert (turned.semitones, turned.fold_octaves) == (0, -1)
    assert print_line(turned.phrase.bars) == "1/8 b3 c#4 e a - c#5 e a | 1/1 a5"


@pytest.mark.parametrize("allowed", [True, False])
def test_no_fold_where_an_octave_serves_and_none_in_concert(make: Make, allowed: bool) -> None:
    narrow = make("C", "C", "1/4 c5 e g c6")
    assert reader_parts(narrow, [C], edition_named("flute"), fold=allowed)[0].fold is None
    wide = make("C", "C | C", WIDE)
    (found,) = reader_parts(wide, [C], edition_named("concert"), fold=allowed)
    assert (found.fold, found.findings, found.phrase) == (None, (), wide)


def test_a_silenced_rule_is_silent(make: Make) -> None:
    from dataclasses import replace  # noqa: PLC0415

    phrase = replace(make("C", "C | C", WIDE), silence=(("out-of-range", "for the brave"),))
    keys = [ReaderKey(Key.parse("C"), Key.parse("A"))]
    assert reader_parts(phrase, keys, edition_named("alto sax"))[0].findings == ()


def test_out_of_reach_is_an_error(make: Make) -> None:
    phrase = make("C", "C", "1/2 c2 c6")
    (found,) = reader_parts(phrase, [C], edition_named("flute"))
    (finding,) = found.findings
    assert (finding.rule, finding.severity) == ("out-of-reach", "error")
    assert "one note lies out of reach of the flute, written B3 to D7" in finding.message


def test_an_enclosure_is_not_torn_apart(make: Make) -> None:
    # The widest leap, and the cheapest place but for the analysis, lies inside the enclosure of C.
    phrase = make("C", "G7 | C", "1/8 g4 b d5 f d5 b4 db5 b4 | 1/1 c5")
    seen = account(phrase)
    held = inseparable_notes(seen)
    roles = [note.role for note in seen.notes]
    assert roles[-3:-1] == ["enclosure", "enclosure"]
    assert any(first <= 6 and last == 8 for first, last in held)
    cuts = [cut.note for cut in cuts_of(phrase, held)]
    assert 7 not in cuts
    assert 8 not in cuts
    assert cuts
