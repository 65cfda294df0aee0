"""Addresses with a number in them. Source: our own form."""

from __future__ import annotations

import pytest

from shedbook.book.ground.addresses import filled


@pytest.mark.parametrize(
    ("address", "number", "largest", "meant"),
    [
        ("https://example.org/{n}", 7, 84, "https://example.org/7"),
        ("https://example.org/{nn}.mp4", 7, 84, "https://example.org/07.mp4"),
        ("https://example.org/{nn}.mp4", 7, 120, "https://example.org/007.mp4"),
        ("https://example.org/{nn}?p={n}", 7, 9, "https://example.org/07?p=7"),
    ],
)
def test_a_number_in_an_address(address: str, number: int, largest: int, meant: str) -> None:
    assert filled(address, number, largest) == meant
