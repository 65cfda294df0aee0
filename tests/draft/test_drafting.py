"""Drafts: what is offered has an ending, a peak, a motif and breath; what cannot be is told.

Source of the expectations: the rules and figures of `draft/tables/`, and the account and the proof-reader,
which know nothing of drafts.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest

from shedbook.analysis.account import account
from shedbook.analysis.proof import proof
from shedbook.draft.drafting import Draft, Drafted, draft
from shedbook.draft.ground import TICKS, ground_of, ground_under
from shedbook.draft.likeness import NEAR_COPY, SAME_MOVES, cells, moves_kept, profiles, shared
from shedbook.draft.order import Fixed, Order
from shedbook.draft.places import places_of
from shedbook.draft.writing import midi_of, rhythm_of
from shedbook.errors import NotationError, UnknownNameError
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields
from shedbook.phrase.model import sounding_notes

MINOR = "Dm7b5 | G7b9 | Cm6 | %"
CHANGES = [
    MINOR,
    "Dm7 | G7 | Cmaj7 | %",
    "F7 | Bb7 | F7 | Cm7 F7",
    "Bbmaj7 Gm7 | Cm7 F7",
    "Ebm7 Ab7 | Dbmaj7",
]


@pytest.fixture(scope="module")
def some() -> list[tuple[Order, Drafted]]:
    found = []
    for seed, changes in enumerate(CHANGES):
        order = Order(count=6, seed=seed)
        found.append((order, draft(ground_of(changes), order)))
    return found


@pytest.fixture(scope="module")
def drafts(some: list[tuple[Order, Drafted]]) -> list[Draft]:
    return [one for _, answer in some for one in answer.drafts]


def test_as_many_as_were_asked_for(some: list[tuple[Order, Drafted]]) -> None:
    assert [len(answer.drafts) for _, answer in some] == [order.count for order, _ in some]
    assert all(answer.drawn >= answer.offered >= order.count for order, answer in some)
    assert all(answer.rhythms > 10**5 for _, answer in some)


def test_every_note_is_accounted_for_and_the_proof_reader_warns_of_none(drafts: list[Draft]) -> None:
    for one in drafts:
        seen = account(one.phrase)
        assert seen.accounted == len(seen.notes)
        assert [found for found in proof(seen) if found.severity != "advice"] == []


def test_a_draft_reads_back_as_it_is_written(drafts: list[Draft]) -> None:
    for one in drafts:
        assert phrase_from_fields(fields_from_phrase(one.phrase)) == one.phrase
        assert midi_of(one.phrase) == one.midi
        assert rhythm_of(one.phrase).onsets == one.rhythm.onsets


def test_it_lands_and_rests(drafts: list[Draft]) -> None:
    for one in drafts:
        last = sounding_notes(one.phrase)[-1]
        ground = ground_under(one.phrase)
        stretch = ground.stretches[ground.heard_at(one.rhythm.onsets[-1], one.rhythm.ends[-1])]
        firm = stretch.firm | {(stretch.root + 2) % 12, (stretch.root + 9) % 12}
        assert last.pitch.midi % 12 in firm
        assert last.end <= one.phrase.full_bars * 4
        assert last.quarters >= 1 or last.start % 1
        assert abs(one.midi[-1] - one.midi[-2]) <= 5


def test_it_has_one_peak_and_does_not_hover(drafts: list[Draft]) -> None:
    for one in drafts:
        assert Counter(one.midi)[max(one.midi)] == 1
        assert one.midi[-1] != max(one.midi)
        assert all(len(set(one.midi[at : at + 6])) >= 4 for at in range(len(one.midi) - 5))
        assert all(
            pair != again for pair, again in zip(pairwise(one.midi), pairwise(one.midi[2:]), strict=False)
        )


def test_something_comes_back_in_a_long_line(drafts: list[Draft]) -> None:
    """The cell is found again by hand: the same waits, and each move in the same direction."""
    for one in drafts:
        size, first, again = one.motif
        if len(one.midi) < 11 and not size:
            continue
        assert size >= 3
        moves = [after - before for before, after in pairwise(one.midi)]
        assert one.rhythm.waits[first : first + size - 1] == one.rhythm.waits[again : again + size - 1]
        for here, there in zip(moves[first : first + size - 1], moves[again : again + size - 1], strict=True):
            assert (here > 0) == (there > 0)
        assert again >= first + size


def test_outside_notes_lead_to_a_chord_tone(drafts: list[Draft]) -> None:
    """Common practice: an approach's target follows at once, or after the enclosure's other note."""
    outside = 0
    for one in drafts:
        notes = account(one.phrase).notes
        for at, note in enumerate(notes):
            if note.inside:
                continue
            outside += 1
            assert any(after.pitch.midi % 12 in _strong(one, at + ahead)
                       for ahead, after in enumerate(notes[at + 1 : at + 3], 1))  # fmt: skip
    assert outside > 5


def _strong(one: Draft, at: int) -> frozenset[int]:
    return places_of(one.rhythm, ground_under(one.phrase))[at].chord.strong


def test_a_rhythm_returns_in_a_long_line(drafts: list[Draft]) -> None:
    """Two bars of most drafts are struck alike in their first three beats; found again from onsets alone."""
    long = [one for one in drafts if one.phrase.full_bars >= 4]
    again = 0
    for one in long:
        bars = [
            tuple(onset - bar * 48 for onset in one.rhythm.onsets if 0 <= onset - bar * 48 < 3 * TICKS)
            for bar in range(one.phrase.full_bars)
        ]
        again += any(many > 1 and len(bar) > 1 for bar, many in Counter(bars).items())
    assert again >= 0.75 * len(long)


def test_a_long_line_breathes(drafts: list[Draft]) -> None:
    for one in drafts:
        if one.rhythm.onsets[-1] - one.rhythm.onsets[0] > 9 * TICKS:
            assert any(one.rhythm.rests)


def test_no_two_are_near_copies(some: list[tuple[Order, Drafted]]) -> None:
    for _, answer in some:
        lines = [one.midi for one in answer.drafts]
        table = profiles([cells(one.midi, one.rhythm.onsets) for one in answer.drafts])
        alike = shared(table, table)
        for at, line in enumerate(lines):
            for other in range(at):
                assert alike[at, other] < NEAR_COPY
                assert moves_kept(line, lines[other]) < SAME_MOVES


def test_the_same_seed_gives_the_same_drafts() -> None:
    one, other = (draft(ground_of(MINOR), Order(count=3, seed=8)) for _ in range(2))
    assert [found.phrase for found in one.drafts] == [found.phrase for found in other.drafts]
    third = draft(ground_of(MINOR), Order(count=3, seed=9))
    assert [found.midi for found in third.drafts] != [found.midi for found in one.drafts]


def test_near_copies_of_a_known_phrase_are_refused() -> None:
    first = draft(ground_of(MINOR), Order(count=4, seed=2))
    known = tuple(one.phrase for one in first.drafts)
    again = draft(ground_of(MINOR), Order(count=4, seed=2, unlike=known))
    assert again.drafts
    for one in again.drafts:
        assert all(moves_kept(one.midi, midi_of(phrase)) < SAME_MOVES for phrase in known)


WISHES = {
    "first and last": (Order(count=2, first=frozenset({2}), last=frozenset({3})), MINOR),
    "a fixed note": (Order(count=2, fixed=(Fixed(48, 74),)), MINOR),
    "coverage": (Order(count=2, covered=("G7b9",)), MINOR),
    "a narrow range": (Order(count=2, low=62, high=74), MINOR),
    "shape": (Order(count=2, shape="fall"), MINOR),
    "best": (Order(count=2, best=True), "Dm7 | G7"),
    "author's weights": (Order(count=2, weights="author"), MINOR),
    "fast": (Order(count=2, tempo=250, feel="fast swing"), MINOR),
    "level": (Order(count=2, level=1), "Dm7 | G7 | Cmaj7 | %"),
}


@pytest.mark.parametrize("name", WISHES)
def test_wishes_are_met(name: str) -> None:
    order, changes = WISHES[name]
    answer = draft(ground_of(changes), order)
    assert answer.drafts
    for one in answer.drafts:
        assert not order.first or one.midi[0] % 12 in order.first
        assert not order.last or one.midi[-1] % 12 in order.last
        assert order.bottom <= min(one.midi) <= max(one.midi) <= order.top
        struck = dict(zip(one.rhythm.onsets, one.midi, strict=True))
        assert all(struck[note.tick] == note.midi for note in order.fixed)
        assert not order.level or one.account.difficulty.level == order.level
        if order.covered:
            assert any(entry.complete and 1 in entry.spans for entry in one.account.coverage)
        if order.shape == "fall":
            half = len(one.midi) // 2
            assert sum(one.midi[:half]) / half > sum(one.midi[half:]) / (len(one.midi) - half)


def test_what_cannot_be_names_a_smallest_set_of_rules() -> None:
    """A line may not end on F sharp over C7, but it may without one rule."""
    order = Order(count=1, last=frozenset({6}), low=60, high=72)
    answer = draft(ground_of("C7 | %"), order)
    assert (answer.drafts, len(answer.relaxed)) == ((), 1)
    without = replace(order, without=answer.relaxed)
    assert draft(ground_of("C7 | %"), without).drawn > 0


@pytest.mark.parametrize(
    ("order", "said"),
    [
        (Order(low=72, high=74), "no room for a line"),
        (Order(low=20, high=100), "five octaves"),
        (Order(count=0), "1 to 200"),
        (Order(count=201), "1 to 200"),
        (Order(leap=0), "largest leap"),
        (Order(run=9), "one direction|one way"),
        (Order(fixed=(Fixed(9999, 60),)), "outside the changes"),
        (Order(fixed=(Fixed(0, 100),)), "outside the range"),
    ],
)
def test_orders_that_cannot_be_are_told(order: Order, said: str) -> None:
    with pytest.raises(NotationError, match=said):
        draft(ground_of(MINOR), order)


@pytest.mark.parametrize(
    ("order", "said"),
    [
        (Order(without=("kindness",)), "no rule"),
        (Order(covered=("H7",)), "no chord"),
        (Order(shape="zigzag"), "no shape"),
        (Order(weights="mine"), "no table of weights"),
        (Order(leans={"sweetness": 3}), "no leaning"),
    ],
)
def test_names_that_are_none_are_told(order: Order, said: str) -> None:
    with pytest.raises(UnknownNameError, match=said):
        draft(ground_of(MINOR), order)


def test_a_thousand_bars_are_told_at_once() -> None:
    with pytest.raises(NotationError, match="more than 64 bars"):
        ground_of(" | ".join(["C7"] * 1000))
