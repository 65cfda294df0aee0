"""Values of TOML as keys need them. Source: docs/manuscript.md."""

from __future__ import annotations

import pytest

from shedbook.errors import ManuscriptError
from shedbook.phrase.toml_values import text_list, whole_number


@pytest.mark.parametrize("value", [20, 21, 400])
def test_both_ends_of_a_range_are_in_it(value: int) -> None:
    assert whole_number("tempo", value, 20, 400) == value


@pytest.mark.parametrize(
    ("value", "low", "high", "item", "message", "hint"),
    [
        (19, 20, 400, False, '"tempo" is 19, which is not between 20 and 400.', "tempo = 120"),
        (401, 20, 400, False, '"tempo" is 401, which is not between 20 and 400.', "tempo = 120"),
        (True, 20, 400, False, '"tempo" must be a whole number', "from 20 to 400"),
        ("x", 1, 9, False, '"tempo" must be a whole number', "tempo = 5"),
        (0, 1, 9, True, 'An item of "tempo" is 0', "tempo = [80, 120]"),
    ],
)
def test_another_number_is_refused(
    value: object, low: int, high: int, item: bool, message: str, hint: str
) -> None:
    with pytest.raises(ManuscriptError) as caught:
        whole_number("tempo", value, low, high, item=item)
    assert message in caught.value.message
    assert caught.value.hint.endswith(hint) or hint in caught.value.hint


def test_a_list_of_texts_is_a_list_or_one_text() -> None:
    assert text_list("keys", ["C", "A b"], '["C"]') == ("C", "A b")
    assert text_list("keys", "C, F\nB", '["C"]') == ("C", "F", "B")
    with pytest.raises(ManuscriptError, match='"keys" must be a list, but is a whole number'):
        text_list("keys", 5, '["C"]')
    with pytest.raises(ManuscriptError, match='An item of "keys"'):
        text_list("keys", ["C", 5], '["C"]')
