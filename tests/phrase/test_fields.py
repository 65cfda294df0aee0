from __future__ import annotations

from typing import Any

import pytest

from shedbook.errors import ChordSymbolError, ManuscriptError, NotationError, ReadError
from shedbook.phrase.fields import FIELD_NAMES, fields_from_phrase, phrase_from_fields
from shedbook.phrase.tables.feels import FEELS
from shedbook.phrase.tables.fields import FIELDS
from shedbook.theory.metre import Metre

PHRASE: dict[str, Any] = {
    "title": "Low tide",
    "changes": "Dm7b5 | G7b9 | Cm6 | %",
    "line": "1/4 f4 ab c5 eb | d f ab g | 1/2 eb c | 1/1 -",
}


def test_what_holds_when_a_key_is_missing() -> None:
    phrase = phrase_from_fields({name: PHRASE[name] for name in ("changes", "line")})
    assert (phrase.title, phrase.metre, phrase.tempo_bpm, phrase.feel) == (
        "Untitled",
        Metre(4, 4),
        120,
        "swing",
    )
    assert (str(phrase.key), phrase.key_inferred) == ("C minor", True)
    assert phrase.scales == (None,) * 4
    assert (phrase.commentary, phrase.id, phrase.silence) == ("", "", ())


def test_two_keys_must_stand() -> None:
    """Source: docs/manuscript.md."""
    assert {row.name for row in FIELDS if row.needed} == {"changes", "line"}
    for name in ("changes", "line"):
        with pytest.raises(ManuscriptError, match=rf"^This phrase has no {name}\.$"):
            phrase_from_fields({key: value for key, value in PHRASE.items() if key != name})


def test_every_key() -> None:
    fields = {
        **PHRASE,
        "id": "low-tide",
        "key": "C minor",
        "metre": "2/2",
        "pickup": "1/8t",
        "tempo": 88,
        "feel": "Bossa  Nova",
        "scales": "locrian | altered | melodic minor | %",
        "line": "1/8t e4 | " + PHRASE["line"],
        "commentary": "\nTwo\nlines.\n",
        "silence": {"range": "It is meant to be low."},
        "sentences": {"Start on C.": "Begin on C."},
        "links": {"Track": "https://example.org/track"},
        "fold": False,
    }
    assert set(fields) == set(FIELD_NAMES)
    phrase = phrase_from_fields(fields)
    assert [bar.number for bar in phrase.bars] == [0, 1, 2, 3, 4]
    assert (phrase.id, str(phrase.key), phrase.key_inferred) == ("low-tide", "C minor", False)
    assert (str(phrase.metre), phrase.tempo_bpm, phrase.feel) == ("2/2", 88, "bossa")
    assert [str(scale) for scale in phrase.scales][1:3] == ["G altered", "C melodic minor"]
    assert phrase.commentary == "Two\nlines."
    assert phrase.silence == (("range", "It is meant to be low."),)
    assert phrase_from_fields(fields_from_phrase(phrase)) == phrase
    assert set(fields_from_phrase(phrase)) == set(FIELD_NAMES) - {"links"}


def test_a_link_is_a_web_address() -> None:
    with pytest.raises(ManuscriptError, match="not a web address"):
        phrase_from_fields({**PHRASE, "links": {"Track": "track.mp3"}})


PICKUPS = [
    ("1/4", "1"),
    ("3/8", "3/2"),
    ("1/4+1/8", "3/2"),
    ("1/8t", "1/3"),
    ("1/4.", "3/2"),
    ("1/16(5:4)", "1/5"),
]


@pytest.mark.parametrize(("text", "quarters"), PICKUPS)
def test_pickup(text: str, quarters: str) -> None:
    value = {"3/8": "1/4."}.get(text, text)
    phrase = phrase_from_fields({**PHRASE, "pickup": text, "line": f"{value} c5 | 1/4 {PHRASE['line']}"})
    assert str(phrase.bars[0].quarters) == quarters
    assert phrase_from_fields(fields_from_phrase(phrase)) == phrase


@pytest.mark.parametrize("row", FEELS, ids=lambda row: row.name)
def test_every_name_of_a_feel(row: Any) -> None:
    for name in (row.name, *row.aliases, row.name.upper()):
        assert phrase_from_fields({**PHRASE, "feel": name}).feel == row.name


# what is changed in a good phrase, the key that the error names, part of the message, part of the hint
FORM_ERRORS = [
    pytest.param({"lien": "x"}, "lien", '"lien" is not a key of a phrase', '"line"', id="unknown, nearly"),
    pytest.param({"qqq": 1}, "qqq", '"qqq" is not a key', "commentary", id="unknown, nowhere near"),
    pytest.param(
        {"title": 3}, "title", '"title" must be text, but is a whole number', "Low tide", id="number"
    ),
    pytest.param({"title": ["x"]}, "title", "is a list", "", id="list"),
    pytest.param({"line": {"x": 1}}, "line", "is a table", "", id="table"),
    pytest.param({"changes": True}, "changes", "is true or false", "", id="true"),
    pytest.param({"key": 1.5}, "key", "is a number with a decimal point", "", id="decimal"),
    pytest.param({"title": "a\nb"}, "title", "must stand on one line", "", id="title of two lines"),
    pytest.param({"commentary": "a\x07"}, "commentary", "control character U+0007", "Remove", id="control"),
    pytest.param(
        {"tempo": "fast"}, "tempo", "must be a whole number, but is text", "tempo = 120", id="tempo text"
    ),
    pytest.param({"tempo": True}, "tempo", "must be a whole number", "", id="tempo true"),
    pytest.param({"tempo": 19}, "tempo", "is 19, which is not between 20 and 400", "", id="too slow"),
    pytest.param({"tempo": 401}, "tempo", "is 401", "", id="too fast"),
    pytest.param({"feel": "bosa"}, "feel", '"bosa" is not a feel', '"bossa"', id="feel"),
    pytest.param({"key": "H"}, "key", '"H" is not a key', "C minor", id="key"),
    pytest.param({"metre": "4/3"}, "metre", '"4/3" is not a metre', "6/8", id="metre"),
    pytest.param({"pickup": "1/1"}, "pickup", "no shorter than a bar of 4/4", "bars", id="pick-up of a bar"),
    pytest.param({"id": "a b"}, "id", '"a b" is not an id', "hyphens", id="id"),
    pytest.param({"silence": "range"}, "silence", "must be a table", "why", id="silence without reason"),
    pytest.param(
        {"silence": {"range": " "}}, "silence", '"range" in "silence" needs a text', "why", id="no reason"
    ),
    pytest.param(
        {"silence": {"range": "\x00"}}, "silence", "control character", "", id="control in a reason"
    ),
]


@pytest.mark.parametrize(("change", "field", "message", "hint"), FORM_ERRORS)
def test_form_error(change: dict[str, Any], field: str, message: str, hint: str) -> None:
    with pytest.raises(ManuscriptError) as caught:
        phrase_from_fields({**PHRASE, **change})
    _check(caught.value, field, message, hint)


def _check(error: ReadError, field: str, message: str, hint: str) -> None:
    assert error.field == field
    assert message in error.message
    assert hint in error.hint


@pytest.mark.parametrize("field", ["changes", "line"])
def test_what_must_stand(field: str) -> None:
    with pytest.raises(ManuscriptError, match="This phrase has no") as caught:
        phrase_from_fields({name: text for name, text in PHRASE.items() if name != field})
    assert f"Write {field} = " in caught.value.hint


# the key at fault, its text, what is underlined, bar
NOTATION_ERRORS = [
    pytest.param("line", "1/4 f4 ab c5 eb | d f h g | 1/1 c | c", "h", 2, id="line"),
    pytest.param("changes", "Dm7b5 G7 C | G7b9 | Cm6 | %", "Dm7b5 G7 C", 1, id="changes"),
    pytest.param("scales", "locrian | altred | |", "altred", 2, id="scales"),
    pytest.param("pickup", "1/8+1/3", "1/3", None, id="pick-up"),
    pytest.param("line", "1/4 f4 ab c5 eb | d f ab g | 1/2 eb c | 1/1 - | | c", "|", 5, id="empty bar"),
    pytest.param("line", "|1/1 f4 | d | eb | c | c5 ", "c5", 5, id="line longer than the changes"),
    pytest.param(
        "changes", "| Dm7 | G7 | Cm6 | % | Eb7 D7 |", "Eb7 D7", 5, id="changes longer than the line"
    ),
]


@pytest.mark.parametrize(("field", "text", "meant", "bar"), NOTATION_ERRORS)
def test_notation_error(field: str, text: str, meant: str, bar: int | None) -> None:
    with pytest.raises(NotationError) as caught:
        phrase_from_fields({**PHRASE, field: text})
    error = caught.value
    assert error.field == field
    assert text[error.start : error.end] == meant
    assert (error.place.bar if error.place else None) == bar


def test_bars_of_a_line_with_a_pickup_are_compared_without_it() -> None:
    text = "1/4 c4 | " + PHRASE["line"]
    with pytest.raises(NotationError, match=r"The line has 4 bars, the changes have 1 bar\.") as caught:
        phrase_from_fields({**PHRASE, "pickup": "1/4", "line": text, "changes": "Dm7b5"})
    assert text[caught.value.start : caught.value.end] == "d f ab g"
    assert 'bar 2 stands only in "line"' in caught.value.hint


def test_a_chord_symbol_that_cannot_be_read() -> None:
    text = "Dm7b5 | G7b9 | Hm6 | %"
    with pytest.raises(ChordSymbolError) as caught:
        phrase_from_fields({**PHRASE, "changes": text})
    assert caught.value.field == "changes"
    assert text[caught.value.start] == "H"
