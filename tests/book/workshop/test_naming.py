"""Names of artefacts: equal for equal values, and another one for every field that is another."""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.book.ground.chord_style import style_of
from shedbook.book.manuscript.settings.tracks import SoundSettings
from shedbook.book.manuscript.source import PhraseText
from shedbook.book.scores.artefacts import CycleKey
from shedbook.book.scores.inputs import (
    BetweenInput,
    CardInput,
    ChangesLook,
    ChangesPicture,
    HomeLook,
    HomePicture,
    KeyLook,
    KeyOrder,
    KeyPicture,
    Language,
    Music,
    PlacingInput,
    ScaleLook,
    ScalePicture,
    ScoreLook,
)
from shedbook.book.tracks.orders import SoundInput
from shedbook.book.workshop.naming import content_hash, digest, name_of
from shedbook.editions.instruments.edition import edition_named

TEXT = PhraseText(
    {
        "title": "Low tide",
        "changes": "G7 | %",
        "line": "1/1 g4 | b",
        "tempo": 132,
        "fold": True,
        "links": {"x": "y"},
    }
)
GUITAR = edition_named("guitar")
assert GUITAR.instrument is not None
EDITION = replace(GUITAR, tablature=GUITAR.instrument.fingerboard)
KEYS = KeyOrder(("C", "F"), ("F#", "Db"), ("Eb",))
STYLE = style_of({"minor": "-"})
LANGUAGE = Language("de", (("note.B", "H"), ("note.Bb", "B")))
KEY = CycleKey("C minor", "D minor")
MUSIC = Music(TEXT, EDITION, (KEY, CycleKey("F minor", "G minor")), STYLE)
SCORE = ScoreLook(language=LANGUAGE)

INPUTS: tuple[Any, ...] = (
    CardInput(TEXT, KEYS, ("range",), STYLE),
    PlacingInput(TEXT, EDITION, KEYS, ("range",), STYLE, LANGUAGE),
    HomePicture(MUSIC, HomeLook(SCORE), KEY),
    KeyPicture(MUSIC, KeyLook(SCORE), KEY),
    ScalePicture(MUSIC, ScaleLook(language=LANGUAGE), KEY, 1),
    ChangesPicture(MUSIC, ChangesLook(language=LANGUAGE), KEY),
    BetweenInput(((1, TEXT), (2, PhraseText({"title": "High tide"}))), ("duplicate-phrase",)),
    SoundInput(
        TEXT,
        "demonstration",
        ("C minor",),
        120,
        "swing",
        SoundSettings(count_in=2, minutes=4),
        "a1",
        (1, 2),
        (100, 120),
    ),
)
"""One of each input, with nothing left out, so that every field has something to change."""

EVERY_INPUT = pytest.mark.parametrize("given_input", INPUTS, ids=lambda value: type(value).__name__)


def with_field(value: Any, name: str, other: object) -> Any:
    """Return a frozen value with another field, whether or not it would be made so."""
    found = copy.copy(value)
    object.__setattr__(found, name, other)
    return found


def changes(value: object, path: str = "") -> Iterator[tuple[str, Any]]:
    """Yield a value with each of its inner values changed in turn, and where the change is."""
    if is_dataclass(value):
        yield from _of_fields(value, path)
    elif isinstance(value, Mapping):
        yield from _of_mapping(value, path)
    elif isinstance(value, tuple):
        yield from _of_tuple(value, path)
    else:
        yield path, _other(value, path)


def _of_fields(value: Any, path: str) -> Iterator[tuple[str, Any]]:
    for one in fields(value):
        for where, other in changes(getattr(value, one.name), f"{path}.{one.name}"):
            yield where, with_field(value, one.name, other)
    if path:  # one that is left out is another one too
        yield path, None


def _of_mapping(value: Mapping[str, object], path: str) -> Iterator[tuple[str, Any]]:
    yield f"{path}[…]", {**value, "one more": "x"}
    for name, inner in value.items():
        yield f"{path}[-{name}]", {key: kept for key, kept in value.items() if key != name}
        for where, other in changes(inner, f"{path}[{name}]"):
            yield where, {**value, name: other}


def _of_tuple(value: tuple[object, ...], path: str) -> Iterator[tuple[str, Any]]:
    yield f"{path}[…]", (*value, value[-1] if value else "x")
    for place, inner in enumerate(value):
        yield f"{path}[-{place}]", value[:place] + value[place + 1 :]
        for where, other in changes(inner, f"{path}[{place}]"):
            yield where, (*value[:place], other, *value[place + 1 :])


def _other(value: object, path: str) -> object:
    if isinstance(value, bool):
        return not value
    if isinstance(value, str):
        return f"{value}x"
    assert isinstance(value, int | float), f"{path} is {value!r}: give the sample something to change there"
    return value + 1


@EVERY_INPUT
def test_every_field_of_an_input_is_in_its_name(given_input: Any) -> None:
    plain = name_of("job", given_input, "1")
    seen: dict[str, str] = {plain: ""}
    for where, other in changes(given_input):
        assert other != given_input, where
        name = name_of("job", other, "1")
        assert name not in seen, f"{where} has the name of {seen[name] or 'the value without a change'}"
        seen[name] = where
    assert len(seen) > len(fields(given_input))


@EVERY_INPUT
def test_the_samples_leave_no_field_out(given_input: Any) -> None:
    """So that a field that is added to an input is given something that can change."""
    reached = {
        where.removeprefix(".").partition(".")[0].partition("[")[0] for where, _ in changes(given_input)
    }
    assert reached == {one.name for one in fields(given_input)}


@EVERY_INPUT
def test_equal_values_have_equal_names(given_input: Any) -> None:
    again = copy.deepcopy(given_input)
    assert again == given_input
    assert again is not given_input
    assert name_of("job", again, "1") == name_of("job", given_input, "1")


def test_no_two_kinds_of_input_share_a_name() -> None:
    """A home score and the same key among the others differ in their look alone."""
    assert len({name_of("job", value, "1") for value in INPUTS}) == len(INPUTS)
    home = HomePicture(MUSIC, HomeLook(), KEY)
    as_key = with_field(KeyPicture(MUSIC, KeyLook(), KEY), "look", HomeLook())
    assert name_of("draw_pictures", home, "1") != name_of("draw_pictures", as_key, "1")


@EVERY_INPUT
def test_job_and_versions_are_in_the_name(given_input: Any) -> None:
    names = {name_of(job, given_input, found) for job in ("read", "draw") for found in ("1", "2")}
    assert len(names) == 4


toml_values = st.recursive(
    st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text()
    | st.dates() | st.times() | st.datetimes(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner, max_size=3),
    max_leaves=8,
)  # fmt: skip
"""What TOML may hold: a phrase is named before anybody has looked whether it can be read (TOML 1.0.0)."""


@given(st.dictionaries(st.text(max_size=5), toml_values, max_size=4))
def test_any_text_of_a_phrase_has_a_name_whatever_the_order_of_its_keys(found: dict[str, Any]) -> None:
    name = name_of("read_card", CardInput(PhraseText(found), KeyOrder()), "1")
    turned = dict(reversed(found.items()))
    assert name_of("read_card", CardInput(PhraseText(turned), KeyOrder()), "1") == name
    more = {**found, "another key": 1}
    assert name_of("read_card", CardInput(PhraseText(more), KeyOrder()), "1") != name


def test_no_part_of_a_name_runs_into_the_next() -> None:
    assert digest("ab", "c") != digest("a", "bc")
    assert digest("a", "") != digest("", "a")


def test_a_name_is_forty_hexadecimal_digits() -> None:
    name = name_of("read_card", INPUTS[0], "1")
    assert len(name) == 40
    assert set(name) <= set("0123456789abcdef")


def test_the_hash_of_a_file_is_sha_256() -> None:
    """FIPS 180-4, the example of one block: the message "abc"."""
    assert content_hash(b"abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
