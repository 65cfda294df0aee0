from __future__ import annotations

import tomllib
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

import strategies
from shedbook.book.manuscript.phrase_toml import phrase_toml
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Phrase

TEXT = st.text(
    alphabet=st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Zs", "Zl", "Zp")), min_size=1
)
# Texts that trouble a writer of TOML: its own signs, alone and in rows.
HARD_TEXT = TEXT | st.text(alphabet="\"'\\#=x", min_size=1)


@given(
    strategies.phrases(),
    HARD_TEXT,
    st.lists(HARD_TEXT, max_size=3).map("\n".join),
    st.dictionaries(HARD_TEXT, HARD_TEXT, max_size=2),
)
def test_written_and_read(phrase: Phrase, title: str, commentary: str, silence: dict[str, str]) -> None:
    fields = {"title": title, "commentary": commentary, "silence": silence}
    written = tomllib.loads(phrase_toml(phrase)) | fields
    expected = phrase_from_fields(written)
    assert phrase_from_fields(tomllib.loads(phrase_toml(expected))) == expected


@given(strategies.phrases())
def test_long_lines_are_broken_after_bar_lines(phrase: Phrase) -> None:
    text = tomllib.loads(phrase_toml(phrase))["line"]
    rows = text.strip().split("\n")
    assert all(row.endswith(" |") for row in rows[:-1])
    assert all(len(row) <= 100 or " | " not in row for row in rows)
    # none is broken earlier than it must be: the first bar of a row had no room behind the row before
    assert all(len(f"{one} {two.split(' |')[0]} |") > 100 for one, two in pairwise(rows))
    assert text.strip().replace("\n", " ") == print_line(phrase.bars)
