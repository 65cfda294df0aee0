"""The plan of a lesson: its order, its opening and its closing, its length. Source: our own design."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.analysis.account import account
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.lesson.plan import Lesson, LessonPhrase, ordered, part_head, plan, timed, times, untimed
from shedbook.lesson.script import CUE, HEAD, Block, printed, read, said

DEMO = Path(__file__).parents[2] / "examples/tidewater"
EN = words_of("en")


def phrase(number: int) -> LessonPhrase:
    source = open_manuscript(DEMO).phrases[number - 1]
    seen = account(read_phrase(source))
    return LessonPhrase(number, source.title, seen, None, ("one", "two", "three", "four"), 12)


LESSON = Lesson("Tidewater", "https://example.org/book", "", tuple(map(phrase, (39, 7, 12, 59))))


def heads(blocks: tuple[Block, ...], level: int) -> list[str]:
    return [block.text for block in blocks if block.kind == HEAD and block.level == level]


def test_from_easy_to_hard_whatever_was_asked_first() -> None:
    found = ordered(LESSON.phrases)
    levels = [one.account.difficulty.level for one in found]
    assert levels == sorted(levels)
    assert ordered(found[::-1]) == found
    assert heads(plan(LESSON, EN), 2) == ["Opening", *map(part_head, found), "Closing"]


def test_a_teachers_order_in_every_part() -> None:
    topics = heads(plan(LESSON, EN), 3)
    usual = ["The chords and their scales", "On the strong beats", "Across the changes",
             "The notes from outside",
             "To practise", "Where else it fits"]  # fmt: skip
    assert topics == usual * 4


def test_the_opening_says_what_it_is_about() -> None:
    text = printed(plan(LESSON, EN)).partition("Closing")[0]
    opening = " ".join(text.partition("Opening")[2].partition("\n7. ")[0].split())
    for one in LESSON.phrases:
        assert f'"{one.title}"' in opening
    scales = {span.scale.name for one in LESSON.phrases for span in one.account.spans if span.scale}
    assert [name for name in sorted(scales) if EN.named("short scale", name) not in opening] == []


def test_what_all_phrases_share_is_told_only_where_there_is_something() -> None:
    twins = Lesson("T", "", "", (phrase(7), phrase(7)))
    text = printed(plan(twins, EN))
    assert "What they have in common" in text
    assert "altered" in text.partition("What they have in common")[2].partition(".")[0]
    assert "in common" not in printed(plan(Lesson("T", "", "", (phrase(7),)), EN))


def test_the_closing_points_to_the_book() -> None:
    closing = [block.text for block in plan(LESSON, EN)][-3:]
    assert closing[0] == "All of it stands in Tidewater. Today's numbers: 7, 12, 39 and 59."
    assert "https://example.org/book" in closing[1]
    assert "doctor" in closing[2]


def test_the_running_time_is_that_of_words_and_tempos() -> None:
    """Twice the tempo and half as many words take half the time, but for breaths."""
    blocks = plan(LESSON, EN)
    lengths = times(blocks, LESSON)
    assert set(lengths) == set(heads(blocks, 2))
    slow = Lesson(LESSON.book, LESSON.address, "", LESSON.phrases, 70)
    assert sum(times(blocks, slow).values()) > 1.3 * sum(lengths.values())
    shown = timed(blocks, LESSON, EN)
    assert untimed(shown, EN) == blocks
    assert shown[1].kind == CUE
    assert shown[1].text.startswith("Running time: about ")


def test_words_that_the_author_adds_take_time() -> None:
    blocks = list(plan(LESSON, EN))
    place = blocks.index(Block(HEAD, "Closing", 2))
    longer = [*blocks[:place], said("word " * 140), *blocks[place:]]
    more = sum(times(longer, LESSON).values()) - sum(times(blocks, LESSON).values())
    assert more == pytest.approx(60.6)


@pytest.mark.parametrize("tag", ["en", "de", "fr", "es", "pt"])
def test_the_plan_is_read_back_in_every_language(tag: str) -> None:
    words = words_of(tag)
    blocks = timed(plan(LESSON, words), LESSON, words)
    assert read(printed(blocks)) == blocks
    assert untimed(blocks, words) == plan(LESSON, words)
