"""Values written into TOML; the standard library's reader (TOML 1.0) is the oracle."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.book.ground.toml_edits import blocks, with_value, written_value

PHRASE = '''\
# about the whole file
title = "Low tide"  # working title
changes = 'Dm7 | G7'   # two bars

line = """
1/4 d5 f a c6 |
1/4 b5 g d5 g
"""
# the last word
[silence]
"range" = "it is high on purpose"
'''

SEVERAL = """\
# a book in one file

# the first
[[phrase]]
title = "One" # here
tempo = 100

# the second
[[phrase]]
title = "Two"
[phrase.silence]
range = "why not"

[[phrase]]
title = "Three"
"""


def comments(text: str) -> list[str]:
    return [line.partition("#")[2] for line in text.splitlines() if "#" in line]


@pytest.mark.parametrize(
    ("key", "value", "line"),
    [
        ("title", "High tide", 'title = "High tide"  # working title'),
        ("changes", "Em7 | A7", "changes = 'Em7 | A7'   # two bars"),
        ("changes", "it's", 'changes = "it\'s"   # two bars'),
        ("tempo", 90, "tempo = 90"),
        ("fold", True, "fold = true"),
    ],
)
def test_only_the_value_changes(key: str, value: str | int, line: str) -> None:
    after = with_value(PHRASE, "", 0, key, value)
    assert line in after.splitlines()
    assert tomllib.loads(after) == {**tomllib.loads(PHRASE), key: value}
    assert comments(after) == comments(PHRASE)
    assert set(PHRASE.splitlines()) - set(after.splitlines()) <= {
        entry for entry in PHRASE.splitlines() if entry.startswith(key)
    }


def test_a_line_keeps_its_quotation_marks_and_its_own_lines() -> None:
    after = with_value(PHRASE, "", 0, "line", "1/4 d5 f a c6 |\n1/4 b5 g d5 e\n")
    assert after == PHRASE.replace("b5 g d5 g", "b5 g d5 e")


def test_a_table_under_its_own_header() -> None:
    after = with_value(PHRASE, "", 0, "silence", {"range": "again", "long-phrase": "yes"})
    assert tomllib.loads(after)["silence"] == {"range": "again", "long-phrase": "yes"}
    after = with_value(SEVERAL, "phrase", 1, "silence", {"outside-held": "so"})
    assert tomllib.loads(after)["phrase"][1]["silence"] == {"outside-held": "so"}
    after = with_value(SEVERAL, "phrase", 0, "silence", {"outside-held": "so"})
    assert tomllib.loads(after)["phrase"][0]["silence"] == {"outside-held": "so"}
    assert tomllib.loads(after)["phrase"][1:] == tomllib.loads(SEVERAL)["phrase"][1:]


def test_a_key_is_taken_away_with_its_line() -> None:
    after = with_value(PHRASE, "", 0, "changes", None)
    assert after == PHRASE.replace("changes = 'Dm7 | G7'   # two bars\n", "")
    assert with_value(PHRASE, "", 0, "tempo", None) == PHRASE


def test_blocks_hold_their_comments() -> None:
    cut = [SEVERAL[one.start : one.end] for one in blocks(SEVERAL, "phrase")]
    assert [one.splitlines()[0] for one in cut] == ["# the first", "# the second", "[[phrase]]"]
    assert "".join(cut) == SEVERAL[SEVERAL.index("# the first") :]


TEXTS = st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=30)


@given(TEXTS)
def test_any_text_is_read_back(value: str) -> None:
    assert tomllib.loads(f"a = {written_value(value)}") == {"a": value}


@given(st.sampled_from(["title", "changes", "line", "new"]), TEXTS)
def test_any_text_in_any_place(key: str, value: str) -> None:
    after = with_value(PHRASE, "", 0, key, value)
    assert tomllib.loads(after) == {**tomllib.loads(PHRASE), key: value}
    assert {" about the whole file", " the last word"} <= set(comments(after))
    for nth in range(3):
        new = with_value(SEVERAL, "phrase", nth, key, value)
        expected = tomllib.loads(SEVERAL)["phrase"]
        expected[nth] = {**expected[nth], key: value}
        assert tomllib.loads(new)["phrase"] == expected


@given(st.dictionaries(TEXTS, TEXTS, max_size=3), st.lists(TEXTS, max_size=5))
def test_tables_and_lists_are_read_back(table: dict[str, str], texts: list[str]) -> None:
    assert tomllib.loads(f"a = {written_value(table)}\nb = {written_value(texts)}") == {
        "a": table,
        "b": texts,
    }


@pytest.mark.parametrize("key", ["tempo", '"tempo"', "'tempo'"])
def test_a_key_in_quotes_is_the_same_key(key: str) -> None:
    """TOML 1.0: bare keys and quoted keys name the same."""
    assert with_value(f"{key} = 90 # slow\n", "", 0, "tempo", 100) == f"{key} = 100 # slow\n"
    assert with_value(f"a = 1\n{key} = 90\n", "", 0, "tempo", None) == "a = 1\n"
