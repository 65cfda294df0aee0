"""The author's edits kept: laws of a merge of three texts, and what is told. Source: our own design."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from shedbook.lesson.edits import merged
from shedbook.lesson.script import Block, head, said

TEXTS = st.lists(st.sampled_from([said(letter) for letter in "abcdefgh"]), max_size=10, unique=True)


@given(TEXTS, TEXTS)
def test_without_edits_the_new_text_stands(base: list[Block], now: list[Block]) -> None:
    found = merged(base, base, now)
    assert list(found.blocks) == now
    assert (found.own, found.beneath) == (0, ())


@given(TEXTS, TEXTS)
def test_without_news_the_edited_text_stands(base: list[Block], mine: list[Block]) -> None:
    found = merged(base, mine, base)
    assert list(found.blocks) == mine
    assert found.beneath == ()


@given(TEXTS, TEXTS, TEXTS)
def test_no_word_of_the_authors_is_lost(base: list[Block], mine: list[Block], now: list[Block]) -> None:
    found = merged(base, mine, now)
    own = [block for block in mine if block not in base]
    assert [block for block in own if block not in found.blocks] == []


@given(TEXTS, TEXTS, TEXTS)
def test_the_same_news_are_told_once(base: list[Block], mine: list[Block], now: list[Block]) -> None:
    """The next run begins from what was made in this one."""
    first = merged(base, mine, now)
    again = merged(now, first.blocks, now)
    assert again.beneath == ()
    assert again.blocks == first.blocks


BASE = [head("Lesson", 1), head("7. Low tide", 2), said("Bar 1: E."), said("Bar 2: A."), said("Practise.")]


def test_an_edit_stands_and_what_changed_beneath_is_told() -> None:
    mine = [*BASE[:3], said("Bar 2 is the point."), BASE[4]]
    now = [*BASE[:3], said("Bar 2: C."), said("Practise.")]
    found = merged(BASE, mine, now)
    assert list(found.blocks) == mine
    (one,) = found.beneath
    assert one == ("7. Low tide", ("Bar 2 is the point.",), ("Bar 2: A.",), ("Bar 2: C.",))


def test_what_is_added_and_taken_away_stays_so_while_the_rest_is_made_anew() -> None:
    mine = [*BASE[:3], BASE[4], said("Go home.")]
    found = merged(BASE, mine, [BASE[0], head("7. High tide", 2), *BASE[2:]])
    texts = [block.text for block in found.blocks]
    assert texts == ["Lesson", "7. High tide", "Bar 1: E.", "Practise.", "Go home."]
    assert (found.own, found.beneath) == (2, ())


def test_news_beside_an_edit_are_told_rather_than_mixed_in() -> None:
    mine = [*BASE[:3], BASE[4]]
    found = merged(BASE, mine, [*BASE[:2], said("Bar 1: F."), *BASE[3:]])
    assert list(found.blocks) == mine
    assert found.beneath[0].now == ("Bar 1: F.", "Bar 2: A.")
