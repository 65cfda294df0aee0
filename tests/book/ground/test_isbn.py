"""The check digit of a book's number, by the published rule and its examples."""

from __future__ import annotations

import pytest

from shedbook.book.ground.isbn import check_digit, isbn_digits


@pytest.mark.parametrize(
    "number",
    [
        # 978-0-306-40615-? is worked out in explanations of ISO 2108; the others stand in the manual
        # or on the agency's pages (all from memory).
        "978-0-306-40615-7", "978-3-16-148410-0", "979-10-90636-07-1", "ISBN 978-3-16-148410-0",
        "9783161484100",
    ],
)  # fmt: skip
def test_published_numbers(number: str) -> None:
    digits = isbn_digits(number)
    assert len(digits) == 13
    assert sum(int(digit) * weight for digit, weight in zip(digits, (1, 3) * 7, strict=False)) % 10 == 0


@pytest.mark.parametrize("place", range(12))
def test_one_wrong_digit_is_always_found(place: int) -> None:
    """The weights 1 and 3 are prime to ten, so no single digit can change unseen (ISO 2108)."""
    right = "9783161484100"
    for digit in set("0123456789") - {right[place]}:
        wrong = right[:place] + digit + right[place + 1 :]
        with pytest.raises(ValueError, match="ISBN"):
            isbn_digits(wrong)


@pytest.mark.parametrize(
    "text", ["", "978", "978-3-16-148410", "977-3-16-148410-0", "978-3-16-148410-X", "0306406152"]
)
def test_what_is_no_number(text: str) -> None:
    with pytest.raises(ValueError, match="thirteen digits"):
        isbn_digits(text)


def test_the_error_says_the_right_digit() -> None:
    with pytest.raises(ValueError, match="would be 0, not 1"):
        isbn_digits("978-3-16-148410-1")
    assert check_digit("978316148410") == "0"
