"""What manuscript.toml says of the pages."""

import datetime

import pytest

from shedbook.book.manuscript.settings.pages import MarkChoice, PageSettings
from shedbook.book.manuscript.settings.whole_book import settings_from_fields
from shedbook.errors import ManuscriptError


def read_pages(fields: dict[str, object]) -> PageSettings:
    return settings_from_fields(fields).pages


@pytest.mark.parametrize(
    ("value", "scales", "degrees", "sparse"),
    [
        ("none", False, False, False), ("sparse", True, True, True), ("all", True, True, False),
        (True, True, True, True), (False, False, False, False), (["scales"], True, False, False),
        (["scales", "degrees"], True, True, False), ([], False, False, False),
    ],
)  # fmt: skip
def test_study_marks(value: object, scales: bool, degrees: bool, sparse: bool) -> None:
    assert read_pages({"study_marks": value}).marks == MarkChoice(scales, degrees, sparse)


def test_marks_are_sparse_when_nothing_is_said() -> None:
    assert read_pages({}) == read_pages({"study_marks": "sparse"})


def test_all_that_can_be_said() -> None:
    found = read_pages(
        {
            "large_print": True, "parts": "scale", "arrange": "keys", "own_staves": False,
            "date": "2026-05-01", "words": {"contents": "In it"}, "chord_style": {"minor": "-"},
        }
    )  # fmt: skip
    assert (found.large_print, found.parts, found.arrange, found.own_staves) == (True, "scale", "keys", False)
    assert found.date == (2026, 5, 1)
    assert found.words == (("contents", "In it"),)
    assert dict(found.chord_style.forms)["minor"] == "-"


def test_a_date_may_be_toml_s_own() -> None:
    assert read_pages({"date": datetime.date(2026, 5, 1)}).date == (2026, 5, 1)


@pytest.mark.parametrize(
    ("fields", "field", "message"),
    [
        ({"study_marks": ["all", "scales"]}, "study_marks", "two things"),
        ({"study_marks": "some"}, "study_marks", "some"),
        ({"parts": "key"}, "parts", "key"),
        ({"arrange": "backwards"}, "arrange", "backwards"),
        ({"date": "May"}, "date", "not a date"),
        ({"chord_style": "greek"}, "chord_style", "greek"),
        ({"chord_style": {"minor": "x"}}, "chord_style", "not a form of minor"),
        ({"words": {"content": "x"}}, "words.content", "not a word"),
        ({"words": {"contents": "{n}"}}, "words.contents", "nothing to fill in"),
        ({"words": {"contents": "{"}}, "words.contents", "braces"),
        ({"large_print": "yes"}, "large_print", "large_print"),
        ({"page_size": "a5"}, "page_size", "a5"),
    ],
)
def test_what_cannot_be_used_is_refused(fields: dict[str, object], field: str, message: str) -> None:
    with pytest.raises(ManuscriptError, match=message) as caught:
        settings_from_fields(fields)
    assert caught.value.field == field
