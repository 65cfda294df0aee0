"""The text of a lesson: printing and reading give the same blocks. Source: our own form."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from shedbook.lesson.script import Block, cue, head, printed, read, said

WORDS = st.lists(
    st.text("abcdefgÄé♭.,:;!?-'\"“”0123456789&", min_size=1, max_size=14), min_size=1, max_size=40
).map(" ".join)  # fmt: skip


def plain(text: str) -> bool:
    """Whether a text is no rule of a head by itself."""
    return not any(len(word) > 2 and set(word) <= {"-"} for word in text.split())


BLOCKS = st.lists(
    st.one_of(
        st.builds(head, WORDS.filter(plain), st.integers(1, 3)),
        st.builds(said, WORDS.filter(plain)),
        st.builds(cue, WORDS.filter(plain)),
    )
)


@given(BLOCKS)
def test_what_is_printed_is_read(blocks: list[Block]) -> None:
    assert read(printed(blocks)) == tuple(blocks)


@given(st.text("ab[]=-~# \n\t", max_size=80))
def test_any_text_is_read_and_stays_the_same_from_then_on(text: str) -> None:
    once = read(text)
    assert read(printed(read(printed(once)))) == read(printed(once))


def test_lines_are_short_enough_to_read_from() -> None:
    text = printed([said("word " * 80), head("A head", 2)])
    assert max(map(len, text.splitlines())) <= 88


def test_heads_cues_and_what_is_said() -> None:
    text = "A title\n=======\n\n\n[Play it.]\r\n\nSay this\nand that.\n\nNext\n~~~~\nAt once.\n"
    assert read(text) == (
        head("A title", 1), cue("Play it."), said("Say this and that."), head("Next", 3), said("At once."),
    )  # fmt: skip
    assert read("[a] and [b]") == (said("[a] and [b]"),)
    assert read("") == ()
    assert printed([]) == ""
