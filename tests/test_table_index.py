"""The rows of a table by their names. Source of every check: our own design."""

from typing import NamedTuple

import pytest

from shedbook.errors import ShedbookError, TableError
from shedbook.table_index import by_names, need


class Row(NamedTuple):
    name: str
    aliases: tuple[str, ...] = ()
    source: str = "common practice"


def test_rows_are_found_by_names_and_aliases() -> None:
    one, two = Row("Oud", ("Lute",)), Row("Ney")
    found = by_names((one, two), what="a thing", file="here.py", fold=str.lower)
    assert dict(found) == {"oud": one, "lute": one, "ney": two}


@pytest.mark.parametrize(
    ("rows", "message", "hint"),
    [
        ((Row(""),), "There is a thing without a name.", "Write its name in here.py."),
        ((Row("oud", source=""),), '"oud", a thing, has no source.', "Write in here.py"),
        (
            (Row("oud"), Row("ney", ("Oud",))),
            '"Oud" stands twice as the name of a thing: for "oud" and for "ney".',
            "one of the two rows of here.py",
        ),
        ((Row("oud"), Row("oud")), '"oud" stands twice as the name of a thing: for two rows.', "here.py"),
    ],
)
def test_half_a_row_is_refused(rows: tuple[Row, ...], message: str, hint: str) -> None:
    with pytest.raises(TableError) as caught:
        by_names(rows, what="a thing", file="here.py", fold=str.lower)
    assert caught.value.message == message
    assert hint in caught.value.hint


def test_what_is_missing_and_where_to_write_it_stand_in_the_traceback() -> None:
    """An error at import is seen as Python prints it, so its text must hold the hint too."""
    with pytest.raises(ShedbookError) as caught:
        need(False, "A part is missing.", "Write it in here.py.")
    assert str(caught.value) == "A part is missing. Write it in here.py."
    need(True, "", "")
