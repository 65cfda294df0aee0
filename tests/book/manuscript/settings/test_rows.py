"""One setting, one row: a dataclass of settings is its own table, and is read from TOML by it."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, dataclass
from typing import Any

import pytest

from shedbook.book.manuscript.settings.rows import group, read_rows, row, rows_of
from shedbook.errors import ManuscriptError
from shedbook.phrase.tables.fields import FieldRow
from shedbook.phrase.toml_values import flag, refuse, text_value


def _text(key: str, value: object) -> str:
    return text_value(key, value, '"…"')


def _both(key: str, value: object, colour: str) -> str:
    """Read a value that needs another setting."""
    return f"{_text(key, value)} in {colour}"


def _checked(key: str, value: object, colour: str) -> str:
    """Read a value that must suit another setting."""
    if value == "plain" and colour == "white":
        refuse(key, "White must not be plain.")
    return _text(key, value)


@dataclass(frozen=True, slots=True)
class Inner:
    """Settings that stand among those of another table."""

    loud: bool = row(False, flag, "true or false", "false", "how loud")
    sign: str = row("", _both, "text", "", "what hangs there", needs=("colour",))


@dataclass(frozen=True, slots=True)
class Boat:
    """Settings of an invented table."""

    name: str = row("", _text, "text", "", "how she is called", must=True)
    colour: str = row("white", _text, "text", "white", "what she is painted with", key="paint")
    sail: str = row("none", _both, "text", "none", "which sail is set", needs=("colour",))
    finish: str = row(
        "plain", _checked, "text", "plain", "how it is finished", needs=("colour",), always="plain"
    )
    inner: Inner = group(Inner)
    flag_: str = row("", _text, "text", "", "what she flies")


def read(**table: Any) -> Boat:
    return read_rows(Boat, {"name": "Tern", "paint": "blue", **table}, "A boat")


def test_the_dataclass_is_the_table_of_its_keys() -> None:
    """A group's rows stand where the group stands; a key has the field's name, or one of its own."""
    assert rows_of(Boat) == (
        FieldRow("name", "text", True, "", "how she is called"),
        FieldRow("paint", "text", False, "white", "what she is painted with"),
        FieldRow("sail", "text", False, "none", "which sail is set"),
        FieldRow("finish", "text", False, "plain", "how it is finished"),
        FieldRow("loud", "true or false", False, "false", "how loud"),
        FieldRow("sign", "text", False, "", "what hangs there"),
        FieldRow("flag_", "text", False, "", "what she flies"),
    )


def test_what_is_not_said_is_as_usual() -> None:
    assert Boat() == Boat("", "white", "none", "plain", Inner(False, ""), "")
    assert read_rows(Boat, {"name": "Tern", "paint": "blue"}, "A boat") == Boat("Tern", "blue")


def test_what_is_said_is_read() -> None:
    found = read(sail="jib", finish="gloss", loud=True, sign="here", flag_="red")
    assert found == Boat("Tern", "blue", "jib in blue", "gloss", Inner(True, "here in blue"), "red")


def test_settings_are_frozen() -> None:
    with pytest.raises(FrozenInstanceError):
        read().name = "Gull"  # type: ignore[misc]


def test_a_reader_is_given_the_settings_that_it_needs_as_they_were_read() -> None:
    assert read(sail="jib", paint=" red ").sail == "jib in red"
    assert read_rows(Boat, {"name": "x", "sail": "jib", "finish": "gloss"}, "A boat").sail == "jib in white"


def test_a_group_is_given_settings_of_the_table_around_it() -> None:
    assert read(sign="left", paint="red").inner.sign == "left in red"


def test_settings_that_were_read_before_can_be_handed_in() -> None:
    assert read_rows(Inner, {"sign": "left"}, "A boat", {"colour": "green"}).sign == "left in green"


def test_a_reader_that_needs_another_setting_is_not_asked_where_its_key_is_not_there() -> None:
    assert read_rows(Inner, {}, "A boat") == Inner()


def test_a_value_that_is_always_read_is_checked_where_its_key_is_not_there() -> None:
    with pytest.raises(ManuscriptError, match="White must not be plain") as caught:
        read_rows(Boat, {"name": "Tern"}, "A boat")
    assert caught.value.field == "finish"


def test_a_key_that_must_stand_is_asked_for_with_what_it_means() -> None:
    with pytest.raises(ManuscriptError, match='A boat needs "name"') as caught:
        read_rows(Boat, {"paint": "blue"}, "A boat")
    assert caught.value.field == "name"
    assert "how she is called" in caught.value.hint


@pytest.mark.parametrize(
    ("table", "field"),
    [({"paint": 3}, "paint"), ({"loud": "very"}, "loud"), ({"flag_": []}, "flag_"), ({"name": True}, "name")],
)
def test_a_value_that_cannot_be_used_is_refused_under_its_key(table: dict[str, object], field: str) -> None:
    with pytest.raises(ManuscriptError) as caught:
        read(**table)
    assert caught.value.field == field
    assert f'"{field}"' in caught.value.message


def test_keys_of_other_tables_are_passed_over() -> None:
    """Who reads a whole table looks for unknown keys; a part of it does not know them all."""
    assert read_rows(Inner, {"loud": True, "name": "Tern"}, "A boat") == Inner(loud=True)
