"""Frozen values to JSON and back: what is written is read back, and what is foreign is refused."""

from __future__ import annotations

import json
import types
from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from typing import Any, NamedTuple, Union, get_args, get_origin, get_type_hints

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.book.building.record import Outcome
from shedbook.book.ground.findings import BookFinding, PhraseFinding
from shedbook.book.ground.json_values import from_json, to_json
from shedbook.book.pages.layout import LaidOut
from shedbook.book.scores.artefacts import Compared, PhraseCard, PictureFacts, PlacingCard, Score
from shedbook.book.tracks.make import TrackList
from shedbook.book.tracks.worker import SoundFacts

ARTEFACTS: tuple[type[Any], ...] = (
    PhraseCard, PlacingCard, PictureFacts, Score, Compared, LaidOut, SoundFacts, TrackList, Outcome,
    PhraseFinding, BookFinding,
)  # fmt: skip
"""Everything that the store reads back, and what stands inside it."""

EVERY_ARTEFACT = pytest.mark.parametrize("kind", ARTEFACTS, ids=lambda kind: kind.__name__)

_PLAIN: dict[object, st.SearchStrategy[Any]] = {
    str: st.text(max_size=6),
    bool: st.booleans(),
    int: st.integers(),
    float: st.floats(allow_nan=False, allow_infinity=False),
    type(None): st.none(),
}


def values_of(kind: Any) -> st.SearchStrategy[Any]:
    """Return what draws values of a type, field by field by its own hints."""
    if kind in _PLAIN:
        return _PLAIN[kind]
    origin, inner = get_origin(kind), get_args(kind)
    if origin in (Union, types.UnionType):
        return st.one_of(*map(values_of, inner))
    if origin is tuple and inner[-1] is Ellipsis:
        return st.lists(values_of(inner[0]), max_size=2).map(tuple)
    if origin is tuple:
        return st.tuples(*map(values_of, inner))
    if origin is Mapping:
        return st.dictionaries(values_of(inner[0]), values_of(inner[1]), max_size=2)
    hints = get_type_hints(kind)
    names = [one.name for one in fields(kind)] if is_dataclass(kind) else kind._fields
    return st.builds(kind, **{name: values_of(hints[name]) for name in names})


@EVERY_ARTEFACT
@given(data=st.data())
def test_what_is_written_is_read_back(kind: type[Any], data: st.DataObject) -> None:
    value = data.draw(values_of(kind))
    content = to_json(value)
    again = from_json(kind, content)
    assert again == value
    assert type(again) is kind
    assert to_json(again) == content
    json.loads(content)  # and any other reader of JSON (RFC 8259) takes it


FOREIGN = [
    pytest.param(b"", id="nothing"),
    pytest.param(b"null", id="null"),
    pytest.param(b'"text"', id="a text"),
    pytest.param(b"{", id="cut short"),
    pytest.param(b"\xff\xfe{}", id="no UTF-8"),
    pytest.param(b"no JSON", id="no JSON"),
    pytest.param(b"{} {}", id="two values"),
]


@EVERY_ARTEFACT
@pytest.mark.parametrize("content", FOREIGN)
def test_foreign_content_is_refused(kind: type[Any], content: bytes) -> None:
    with pytest.raises(ValueError, match=r"."):
        from_json(kind, content)


CARDS = (PhraseCard, PlacingCard, PictureFacts, LaidOut, SoundFacts)
"""What lies in the store under one kind, or in one file, and must not be taken for one another."""


@pytest.mark.parametrize("kind", CARDS, ids=lambda kind: kind.__name__)
@given(data=st.data())
def test_no_card_is_taken_for_another(kind: type[Any], data: st.DataObject) -> None:
    content = to_json(data.draw(values_of(kind)))
    for other in CARDS:
        if other is not kind:
            with pytest.raises(ValueError, match=r"required field|Expected"):
                from_json(other, content)


@given(values_of(PictureFacts))
def test_a_field_of_another_type_is_refused(facts: PictureFacts) -> None:
    plain = json.loads(to_json(facts))
    for name, wrong in (("width_mm", "158"), ("alt", 3), ("cuts_mm", [None]), ("cuts_mm", 3)):
        with pytest.raises(ValueError, match=name):
            from_json(PictureFacts, json.dumps({**plain, name: wrong}).encode())


def test_a_field_that_is_missing_is_taken_from_its_default() -> None:
    facts = PictureFacts(158.0, 30.5, 10.0, "Low tide")
    plain = json.loads(to_json(facts))
    del plain["cuts_mm"]
    assert from_json(PictureFacts, json.dumps(plain).encode()) == facts
    del plain["alt"]
    with pytest.raises(ValueError, match="alt"):
        from_json(PictureFacts, json.dumps(plain).encode())


class Pair(NamedTuple):
    """A row."""

    name: str
    number: int = 0


@dataclass(frozen=True, slots=True)
class Nested:
    """A value with a mapping, a row and a row of rows."""

    table: Mapping[str, int]
    pair: Pair
    pairs: tuple[Pair, ...] = ()


def test_the_keys_of_every_object_stand_in_a_fixed_order() -> None:
    one = Nested({"b": 1, "a": 2}, Pair("x"))
    other = Nested({"a": 2, "b": 1}, Pair("x"))
    assert to_json(one) == to_json(other)
    assert from_json(Nested, to_json(one)) == one


def test_a_read_only_mapping_is_written_like_any_other() -> None:
    table = {"b": 1, "a": 2}
    assert to_json(Nested(types.MappingProxyType(table), Pair("x"))) == to_json(Nested(table, Pair("x")))


def test_signs_and_letters_are_written_as_they_are() -> None:
    """JSON is UTF-8 (RFC 8259, 8.1): no letter need be escaped, and every reader gives the same back."""
    content = to_json(Pair("E♭ über „Ä“"))
    assert content.decode() == '["E♭ über „Ä“",0]'
    assert json.loads(content) == ["E♭ über „Ä“", 0]
