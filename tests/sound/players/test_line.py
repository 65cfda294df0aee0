"""The line: the phrase's notes, phrased."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings

from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.arranging.arrangement import Order, arrange
from shedbook.sound.players.line import line
from shedbook.sound.score.performance import perform
from shedbook.sound.score.written_score import LINE
from sound.demo_scores import demo_in_keys, part, phrase, score
from strategies import phrases

TEMPO = Fraction(120)
PLAIN = phrase("Cmaj7 | %", "1/8 c5 d e f g f e - | 1/2 d5 1/8 c d 1/4 -")


@pytest.mark.parametrize("phrase", demo_in_keys(), ids=lambda phrase: f"{phrase.title} {phrase.key}")
def test_plays_every_note_in_its_place(phrase: Phrase) -> None:
    written = [(note.start, note.pitch.midi) for note in sounding_notes(phrase)]
    played = [(note.start, note.midi) for note in line(phrase, TEMPO)]
    graces = sum(len(event.grace) for bar in phrase.bars for event in bar.events)
    assert [note for note in played if note in written] == written
    assert len(played) == len(written) + graces


@settings(max_examples=25, deadline=None)
@given(phrases())
def test_plays_any_phrase_one_note_at_a_time(found: Phrase) -> None:
    written = arrange(found, Order(parts="line"))
    played = perform(written).parts[0].notes
    assert all(one.end <= two.start for one, two in pairwise(played))
    assert all(0 <= note.start < note.end for note in played)


def test_the_line_is_phrased() -> None:
    """Common practice: the peak is loudest, landings outweigh what passes, nothing is level."""
    found = line(PLAIN, TEMPO)
    by_place = {note.start: note.velocity for note in found}
    peak = max(found, key=lambda note: note.midi)
    assert peak.velocity >= max(by_place.values()) - 6
    passing = line(phrase("Cmaj7", "1/8 c5 d e f g f e d"), TEMPO)
    by_place = {note.start: note.velocity for note in passing}
    assert by_place[Fraction(2)] > by_place[Fraction(1)] + 8
    assert 12 <= max(by_place.values()) - min(by_place.values()) <= 45


def test_last_eighth_of_a_run_is_short() -> None:
    """Common practice; E before the rest, against the eighths of the run and the half note."""
    share = {note.start: note.quarters / (1 if note.start < 4 else 4) for note in line(PLAIN, TEMPO)}
    assert share[Fraction(3)] < Fraction(7, 20) < share[Fraction(1)]


@pytest.mark.parametrize(
    ("mark", "longer", "louder"),
    [("staccato", -1, 0), ("tenuto", 1, 0), ("accent", 0, 1), ("ghost", 0, -1)],
)
def test_marks(mark: str, longer: int, louder: int) -> None:
    plain = line(phrase("Cmaj7", "1/4 c5 e g -"), TEMPO)[1]
    marked = line(phrase("Cmaj7", f"1/4 c5 e.{mark} g -"), TEMPO)[1]
    assert (marked.quarters > plain.quarters) - (marked.quarters < plain.quarters) == longer
    assert (marked.velocity > plain.velocity) - (marked.velocity < plain.velocity) == louder


def test_slurred_notes_join() -> None:
    found = line(phrase("Cmaj7", "1/4 (c5 e g) -"), TEMPO)
    assert [note.quarters for note in found][:2] == [1, 1]
    assert found[2].quarters < 1


def test_grace_notes_come_just_before() -> None:
    found = line(phrase("Cmaj7", "1/4 c5 grace:d# e g -"), TEMPO)
    assert [note.midi for note in found] == [72, 75, 76, 79]
    grace = found[1]
    assert grace.end == 1
    assert 0.03 <= grace.quarters * 60 / TEMPO <= 0.1


@pytest.mark.parametrize(("mark", "first", "last"), [("scoop", -120, 0), ("fall", 0, 0)])
def test_bends_come_and_go(mark: str, first: int, last: int) -> None:
    """After every bend the wheel stands at rest again."""
    written = score(phrase("Cmaj7", f"1/4 c5 e.{mark} g -"), Order(parts="line", count_in=0))
    bends = perform(written, human=False).parts[0].bends
    assert (bends[0].cents, bends[-1].cents) == (first, last)
    assert min(bend.cents for bend in bends) >= -200
    assert list(bends) == sorted(bends, key=lambda bend: bend.tick)


def test_ties_are_one_note() -> None:
    found = line(phrase("Cmaj7 | %", "1/2 - c5 | + 1/2 1/2 -"), TEMPO)
    assert len(found) == 1
    assert found[0].quarters > 3


def test_line_can_be_given_to_another_instrument() -> None:
    found = part(score(PLAIN, Order(parts="line", line_instrument="flute")), LINE)
    assert (found.name, found.program) == ("flute", 73)
