"""Tables by the names of their rows: a missing row says where to write it [the project's design]."""

from __future__ import annotations

import pickle

import pytest

from shedbook.errors import MissingRowError, ShedbookError
from shedbook.table_index import Rows

TABLE: Rows[int] = Rows("weights", "src/weights.py", {"light": 1, "heavy": 2})


def test_a_row_is_found() -> None:
    assert TABLE["heavy"] == 2


def test_a_missing_row_names_itself_and_its_file() -> None:
    with pytest.raises(MissingRowError) as caught:
        TABLE["heaviest"]
    assert caught.value.message == 'The table "weights" has no row "heaviest".'
    assert caught.value.hint == "Write the row in src/weights.py."
    assert isinstance(caught.value, ShedbookError)
    again = pickle.loads(pickle.dumps(caught.value))  # as it comes back from a worker process
    assert (again.row, again.file, again.message) == ("heaviest", "src/weights.py", caught.value.message)


def test_what_needs_a_row_is_said() -> None:
    TABLE.must_have(("light", "heavy"), "both are weighed")
    with pytest.raises(MissingRowError, match=r'no row "middle" \(it is weighed\)'):
        TABLE.must_have(("light", "middle"), "it is weighed")


def test_a_row_that_nothing_reads_is_refused() -> None:
    TABLE.must_be(("light", "heavy"))
    with pytest.raises(ValueError, match=r'the row "heavy".*src/weights\.py'):
        TABLE.must_be(("light",))


def test_two_rows_of_one_name_are_refused() -> None:
    with pytest.raises(ValueError, match=r'called "light": see src/weights\.py'):
        Rows("weights", "src/weights.py", [("light", 1), ("light", 2)])
