"""Places in TOML files, checked against the standard library's own reading of the same text."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from shedbook.book.ground.toml_places import entries, find, string_offset

# TOML 1.0.0, "String": what is written, and the character it stands for; "" where it stands for none.
BASIC = [("a", "a"), ("é", "é"), (" ", " "), (r"\t", "\t"), (r"\n", "\n"), (r"\\", "\\"), (r"\"", '"'),
         (r"\u266d", "♭"), (r"\U0001D12B", "𝄫"), ("'", "'"), ("#", "#"), ("=", "="), ("]", "]")]  # fmt: skip
LONG = [*BASIC, ("\n", "\n"), ("\\\n  ", ""), ("\\ \n\n", ""), ('x"', 'x"'), ('x""', 'x""')]
LITERAL = [("a", "a"), ("é", "é"), ("\\", "\\"), ('"', '"'), (" ", " "), ("#", "#")]
LONG_LITERAL = [*LITERAL, ("\n", "\n"), ("x'", "x'"), ("x''", "x''")]

KINDS = [('"', BASIC), ('"""', LONG), ("'", LITERAL), ("'''", LONG_LITERAL)]


@st.composite
def written_strings(draw: st.DrawFn) -> tuple[str, list[tuple[str, str]]]:
    """Draw a quotation mark, and pieces with what they stand for."""
    quote, pieces = draw(st.sampled_from(KINDS))
    chosen = draw(st.lists(st.sampled_from(pieces), max_size=12))
    # A line end that says nothing swallows white space after it, and quotes must not run together.
    kept: list[tuple[str, str]] = []
    for piece in chosen:
        before = kept[-1] if kept else ("\n", "\n")
        swallowed = piece[0][0].isspace() and (before[1] == "" or (not kept and piece[0] == "\n"))
        if not swallowed and not (before[0].endswith(quote[0]) and piece[0][0] == quote[0]):
            kept.append(piece)
    return quote, kept


@given(written_strings(), st.booleans())
@example(('"""', []), True)
def test_every_character_of_a_string_is_found(
    drawn: tuple[str, list[tuple[str, str]]], newline: bool
) -> None:
    quote, pieces = drawn
    first = "\n" if newline and len(quote) == 3 else ""
    raw = quote + first + "".join(written for written, _ in pieces) + quote
    meant = "".join(stands_for for _, stands_for in pieces)
    assert tomllib.loads(f"x = {raw}")["x"] == meant
    at, offset = len(quote) + len(first), 0
    for written, stands_for in pieces:
        if stands_for:
            assert string_offset(raw, offset) == at
        at += len(written)
        offset += len(stands_for)
    assert string_offset(raw, offset) == len(raw) - len(quote)


VALUES = ["1", "-3.5", "true", '"a # b"', "'c = ]'", '"""\nd\n[e]\n"""', "[1, 2]", '[ "[", # x ]\n "}" ,\n]',
          '{ a = 1, "b" = [2] }', "1979-05-27T07:32:00Z", '""', "''", '["""\n]""", 3]']  # fmt: skip


@given(st.lists(st.sampled_from(VALUES), min_size=1, max_size=6), st.sampled_from(["", "[t]\n", "[[p]]\n"]))
def test_every_value_is_found(values: list[str], header: str) -> None:
    text = "# head\n" + header + "".join(f"  k{at} = {value} # tail\n\n" for at, value in enumerate(values))
    tomllib.loads(text)
    found = [text[entry.start : entry.end] for entry in entries(text) if entry.key]
    assert found == values


SEVERAL = """\
a = 1
"b c" = 2
d.e = 3
[f]
a = 4
[[phrase]]
a = 5
[phrase.f]
a = 6
[[phrase]]
'a' = 7
"""

# key, table, which of its name, what is found
PLACES = [
    pytest.param("a", "", 0, "1", id="at the top"),
    pytest.param("b c", "", 0, "2", id="in quotes"),
    pytest.param("d", "", 0, "3", id="dotted"),
    pytest.param("f", "", 0, "[f]", id="a table of its own"),
    pytest.param("a", "phrase", 0, "5", id="first of an array"),
    pytest.param("f", "phrase", 0, "[phrase.f]", id="a table of the first"),
    pytest.param("a", "phrase", 1, "7", id="second of an array"),
    pytest.param("f", "phrase", 1, "[[phrase]]", id="missing: the header"),
]


@pytest.mark.parametrize(("key", "table", "nth", "expected"), PLACES)
def test_place_of_a_key(key: str, table: str, nth: int, expected: str) -> None:
    found = find(SEVERAL, key, table=table, nth=nth)
    assert found is not None
    assert SEVERAL[found.start : found.end] == expected


def test_what_is_not_there_has_no_place() -> None:
    assert find(SEVERAL, "z") is None
    assert find(SEVERAL, "a", table="phrase", nth=2) is None


@given(st.text(alphabet="a=[]{}\"'#\\\n .1", max_size=40))
def test_text_that_is_not_toml_ends_the_search(text: str) -> None:
    assert all(0 <= entry.start <= entry.end <= len(text) for entry in entries(text))
